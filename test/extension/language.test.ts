// Takes its time: drives the extension with whole windings.

import { afterEach, beforeEach, describe, expect, test } from 'vitest';
import { study } from '../support/study.ts';
import { actionsAt, activateOnStub, soundText } from './activated.ts';
import {
  type CodeAction,
  type CodeLens,
  editorState,
  events,
  type InlayHint,
  openStubDocument,
  type Range,
  type SelectionRange,
  type StubDocument,
  selectText,
  uncanceled,
  type WorkspaceEdit,
  workspace,
} from './vscodeStub.ts';

let end: () => void;
beforeEach(() => {
  end = activateOnStub();
});
afterEach(() => end());

// 12 slots, 4 poles: small enough to write rows and paths by hand.
const head = 'winding "Lock gate"\n\nmachine {\n  slots  12\n  poles  4\n  phases 3\n}\n\n';
const rows =
  'layout {\n  layers 2\n  layer a  +U -W +V -U +W -V repeat 2\n  layer b = layer a moved 3 negated\n}\n\n';
const paths =
  'connect {\n  star\n  path U 1 from U1 1a (+3b +3a)*1 +3b to N\n  path U 2 from U1 1b -3a -3b -3a to N\n  repeat U as V shift 2\n  repeat U as W shift 4\n}\n';
const written = head + rows + paths;
const generated = `${head}layout {\n  layers 2\n  span   3\n}\n\n${paths}`;
const limits = 'require {\n  winding-factor harmonic 1 >= 0.9\n  special-joints <= 9\n}\n';

/** Opens the text without its mark `¦`, which is where the cursor stands. */
function opened(marked: string) {
  const document = openStubDocument('gate.winding', marked.replace('¦', ''));
  const offset = Math.max(0, marked.indexOf('¦'));
  return { document, at: document.positionAt(offset), offset };
}

const at = (text: string, mark: string) => text.replace(mark.replace('¦', ''), mark);

const ask = (name: string) => editorState.provided.get(name);
const textOf = (document: StubDocument, { start, end: last }: Range) =>
  document.getText().slice(document.offsetAt(start), document.offsetAt(last));

async function definitions(marked: string): Promise<readonly string[]> {
  const { document, at: position } = opened(marked);
  const found: readonly { readonly range: Range }[] = await ask('Definition').provideDefinition(
    document,
    position,
    uncanceled,
  );
  return found.map(({ range }) => textOf(document, range));
}

async function references(marked: string, includeDeclaration = true): Promise<readonly string[]> {
  const { document, at: position } = opened(marked);
  const context = { includeDeclaration };
  const found: readonly { readonly range: Range }[] = await ask('Reference').provideReferences(
    document,
    position,
    context,
    uncanceled,
  );
  return found.map(({ range }) => textOf(document, range));
}

describe('from one place of a winding to the others', () => {
  test('a step leads to its place in the row, a place to the steps that pass its bars', async () => {
    expect(await definitions(at(written, '¦-3a -3b'))).toEqual(['-U']);
    expect(await definitions(at(written, 'layer a  ¦+U'))).toEqual(['1a', '+3a']);
    expect(await definitions(at(written, '¦-3b -3a to N'))).toEqual(['layer b = layer a moved 3 negated']);
    expect(await references(at(written, 'layer a  ¦+U'))).toEqual(['+U', '1a', '+3a']);
  });

  test('where no row is written a step leads to what generates it', async () => {
    expect(await definitions(at(generated, 'U1 ¦1a'))).toEqual(['span   3']);
  });

  test('a phase, a copy of its paths, a path', async () => {
    expect(await definitions(at(written, 'path ¦U 1'))).toEqual(['phases 3']);
    expect((await definitions(at(written, 'repeat ¦U as V'))).map((text) => text.slice(0, 8))).toEqual([
      'path U 1',
      'path U 2',
    ]);
    const all = await references(at(written, 'path ¦U 1'));
    // The statement; two places of row a; a mark and a terminal in each path; two copies.
    expect(all).toEqual(['phases 3', ...Array.from({ length: 8 }, () => 'U')]);
    expect(await references(at(written, 'path U ¦2'))).toEqual([
      'path U 2',
      'repeat U as V shift 2',
      'repeat U as W shift 4',
    ]);
  });

  test('a limit leads to the statements that decide it, and a statement to its limits', async () => {
    const deciding = await definitions(at(written + limits, '¦winding-factor'));
    expect(deciding).toContain('slots  12');
    expect(deciding).toContain('layer b = layer a moved 3 negated');
    expect(deciding).not.toContain('star');
    expect(await definitions(at(written + limits, '¦special-joints'))).toContain('repeat U as V shift 2');
    expect(await references(at(written + limits, '¦repeat U as V'), false)).toContain('special-joints <= 9');
    expect(await references(at(written + limits, '¦star'), false)).toEqual(['special-joints <= 9']);
  });

  test('limits on what is measured in space lead to what it is measured from', async () => {
    const text = `winding "Gate"
machine { slots 12  poles 4  phases 3  bore 120 mm  outside 200 mm  stack 80 mm  speed 900 rpm }
slot { width 12 mm  depth 24 mm  liner 0.3 mm }
bar {
  width 8 mm  height 9 mm  coating 0.1 mm
  bend-radius 12 mm
  end-straight 8 mm
}
layout { layers 2  span 3 }
connect {
  star
  path U 1 from U1 1a +3b +3a +3b to N
  path U 2 from U1 7b -3a -3b -3a to N
  repeat U as V shift 2
  repeat U as W shift 4
}
require {
  end-clearance-left >= -900 mm
  end-inductance     <= 90 mH
}
`;
    for (const quantity of ['end-clearance-left', 'end-inductance']) {
      const deciding = await definitions(at(text, `¦${quantity}`));
      for (const statement of [
        'bore 120 mm',
        'bend-radius 12 mm',
        'end-straight 8 mm',
        'repeat U as V shift 2',
      ])
        expect([quantity, ...deciding]).toContain(statement);
      expect(deciding).not.toContain('speed 900 rpm');
    }
  });

  test('what belongs together is lit', async () => {
    const { document, at: position } = opened(at(written, 'path U ¦1'));
    const lit: readonly { readonly range: Range }[] = await ask(
      'DocumentHighlight',
    ).provideDocumentHighlights(document, position, uncanceled);
    const texts = lit.map(({ range }) => textOf(document, range));
    expect(texts[0]).toBe('path U 1');
    expect(texts).toContain('+U');
  });

  test('what takes limits anew is lit once the reader rests, and not at all where the next key comes before', async () => {
    const { document, at: position } = opened(at(written + limits, '¦star'));
    const light = (token: { readonly isCancellationRequested: boolean }) =>
      ask('DocumentHighlight').provideDocumentHighlights(document, position, token);
    const lit: readonly { readonly range: Range }[] = await light(uncanceled);
    expect(lit.length).toBeGreaterThan(1);
    let looks = 0;
    const typedOn = {
      get isCancellationRequested() {
        return looks++ > 0;
      },
    };
    await expect(light(typedOn)).rejects.toThrow();
  });

  test('every place of a text is answered, whole or broken', async () => {
    for (const text of [written + limits, soundText.replace('5', ''), written.slice(0, 250)]) {
      const { document } = opened(text);
      for (let offset = 0; offset <= text.length; offset += 7) {
        const position = document.positionAt(offset);
        const found = await ask('Definition').provideDefinition(document, position, uncanceled);
        expect(found).toBeInstanceOf(Array);
        const [chain] = await ask('SelectionRange').provideSelectionRanges(document, [position], uncanceled);
        expect(chain.range).toBeDefined();
      }
    }
  });
});

async function renamed(marked: string, to: string): Promise<string> {
  const { document, at: position } = opened(marked);
  await ask('Rename').prepareRename(document, position, uncanceled);
  const edit: WorkspaceEdit = await ask('Rename').provideRenameEdits(document, position, to, uncanceled);
  await workspace.applyEdit(edit);
  return document.getText();
}

describe('renaming', () => {
  test('a phase is exchanged with another, and the winding stays whole', async () => {
    const text = await renamed(at(written, 'path ¦U 1'), 'V');
    expect(text).toContain('layer a  +V -W +U -V +W -U repeat 2');
    expect(text).toContain('path V 1 from V1 1a');
    expect(text).toContain('repeat V as U shift 2');
    expect(study(text).findings.filter(({ severity }) => severity === 'error')).toEqual([]);
    expect(await renamed(at(text, 'layer a  +¦V'), 'U')).toBe(written);
  });

  test('the number of a path is another one, or exchanged with the path that has it', async () => {
    expect(await renamed(at(written, 'path U ¦1'), '3')).toContain('path U 3 from U1 1a');
    const swapped = await renamed(at(written, '¦path U 1'), '2');
    expect(swapped).toContain('path U 2 from U1 1a');
    expect(swapped).toContain('path U 1 from U1 1b');
  });

  test('a point of the duty takes its limits along', async () => {
    const duty = `${written}duty { point "lift" speed 20 rpm torque 5 Nm for 20 s }\nrequire { copper-loss at "lift" <= 90 W }\n`;
    const text = await renamed(at(duty, 'point "¦lift"'), 'raise');
    expect(text).toContain('point "raise"');
    expect(text).toContain('at "raise"');
  });

  test('what cannot take a name says why', async () => {
    await expect(renamed(at(written, 'path ¦U 1'), 'X')).rejects.toThrow('U, V, W');
    await expect(renamed(at(generated, 'path ¦U 1'), 'V')).rejects.toThrow('Write the layout as rows');
    await expect(renamed(at(written, 'path U ¦1'), 'x')).rejects.toThrow('whole number');
    await expect(renamed(at(written, '¦slots'), 'x')).rejects.toThrow('can be renamed');
  });
});

async function hints(document: StubDocument): Promise<readonly string[]> {
  const whole = { start: document.positionAt(0), end: document.positionAt(document.getText().length) };
  const found: readonly InlayHint[] = await ask('InlayHints').provideInlayHints(document, whole, uncanceled);
  return found.map(({ position, label }) => {
    const offset = document.offsetAt(position);
    return `${document.getText().slice(0, offset).split('\n').at(-1)!.trim()}${label}`;
  });
}

describe('hints', () => {
  test('slots a pole and phase, and value and margin beside each limit', async () => {
    const { document } = opened(written + limits);
    const found = await hints(document);
    expect(found[0]).toBe('slots  121 a pole and phase');
    expect(found[1]).toBe('winding-factor harmonic 1 >= 0.9✓ 1 · +11 %');
    expect(found[2]).toMatch(/^special-joints <= 9✓ \d+ a phase · \+\d+ %$/);
  });

  test('the path at the cursor tells where it has come to, and follows the cursor', async () => {
    const { document, offset } = opened(at(written, 'path U ¦1'));
    let asked = 0;
    ask('InlayHints').onDidChangeInlayHints(() => asked++);
    expect(await hints(document)).toHaveLength(1);
    selectText(document, offset);
    expect(asked).toBe(1);
    selectText(document, offset + 3);
    expect(asked).toBe(1);
    const found = await hints(document);
    expect(found).toContain('path U 1 from U1 1a (+3b +3a)*1→ 7a');
    expect(found).toContain('path U 1 from U1 1a (+3b +3a)*1 +3b→ 10b');
    selectText(document, 0);
    expect(asked).toBe(2);
    expect(await hints(document)).toHaveLength(1);
  });

  test('kinds that are not wanted are left out, at once when the settings change', async () => {
    const { document } = opened(written + limits);
    let asked = 0;
    ask('InlayHints').onDidChangeInlayHints(() => asked++);
    editorState.settings.set('hints', ['limits']);
    events.configured.fire({ affectsConfiguration: (section) => section === 'slotwright' });
    expect(asked).toBe(1);
    expect(await hints(document)).toHaveLength(2);
  });
});

async function lenses(document: StubDocument): Promise<readonly CodeLens[]> {
  const found: readonly CodeLens[] = await ask('CodeLens').provideCodeLenses(document, uncanceled);
  return Promise.all(found.map((lens) => ask('CodeLens').resolveCodeLens(lens, uncanceled)));
}

describe('lines above statements', () => {
  test('key figures above the title, a way to the drawing above each path', async () => {
    const { document } = opened(written + limits);
    const [first, ...others] = await lenses(document);
    expect(first!.command!.title).toBe(
      '12 slots, 4 poles · 1 a pole and phase · winding factor 1 · differential leakage 9.66 % · all limits hold',
    );
    expect(others.map(({ command }) => command!.title)).toEqual([
      'Show on the Drawing',
      'Show on the Drawing',
    ]);
    expect(others[1]!.command!.arguments).toEqual([document.uri, 'path U 2']);
  });

  test('the drawing opens with the path lit, and its text is selected', async () => {
    const { document } = opened(written);
    const [, , second] = await lenses(document);
    const { command, arguments: parts = [] } = second!.command!;
    await editorState.commands.get(command)!(...parts);
    expect(editorState.panels).toHaveLength(1);
    const { selection } = editorState.shown[0]!.options as { readonly selection: Range };
    expect(textOf(document, selection)).toMatch(/^path U 2/);
  });

  test('above route stands what was found', async () => {
    const { document } = opened(soundText.replace('star', 'star\n  route paths 1'));
    const all = await lenses(document);
    expect(all.at(-1)!.command!.title).toMatch(/special joint|connecting piece/);
  });
});

describe('the words of a path', () => {
  async function signature(marked: string) {
    const { document, at: position } = opened(marked);
    const help = await ask('SignatureHelp').provideSignatureHelp(document, position, uncanceled);
    return (
      help && {
        part: help.activeParameter as number,
        words: help.signatures[0].parameters[3].documentation as string,
      }
    );
  }

  test('tell what comes next, and where the path stands', async () => {
    const upTo = (path: string) => `${head}${rows}connect {\n  star\n  ${path}¦\n}\n`;
    expect((await signature(upTo('path ')))?.part).toBe(0);
    expect((await signature(upTo('path U ')))?.part).toBe(1);
    expect((await signature(upTo('path U 1 ')))?.part).toBe(2);
    const walking = await signature(upTo('path U 1 from U1 1a +3b '));
    expect(walking?.part).toBe(3);
    expect(walking?.words).toContain(
      'Now at 4b (\u2212U), bar 2; the next joint lies on the connection side.',
    );
    expect(walking?.words).toContain('+3a');
    expect((await signature(upTo('path U 1 from U1 1a +3b to ')))?.part).toBe(4);
    expect(await signature(upTo('star '))).toBeNull();
    expect(await signature(`${head}¦`)).toBeNull();
  });
});

describe('numbers', () => {
  async function hover(marked: string): Promise<string> {
    const { document, at: position } = opened(marked);
    const found = await editorState.providers.hover!.provideHover(document, position, uncanceled);
    return found?.contents.value ?? '';
  }

  test('tell figures of the machine under load with the leakage of its end windings, as the panel does', async () => {
    const sized = (current: number | string, endStraight: number | string) => `winding "Winch"
machine {
  slots 12 poles 4 phases 3 bore 60 mm stack 50 mm air-gap 0.8 mm speed 1500 rpm flux 2 mWb
  current ${current} A voltage 60 V winding-temperature 100 degC magnet-height 4 mm
}
slot { width 6 mm depth 9 mm opening 1.5 mm opening-height 0.8 mm liner 0.25 mm }
bar {
  width 4 mm height 3 mm coating 0.1 mm bend-radius 4 mm
  end-straight ${endStraight} mm end-clearance 0.6 mm joint-straight 8 mm
}
layout { layers 2 span 3 }
connect { star }
require { base-speed >= 1000 rpm }
`;
    const speed = (text: string) => `${(60 * study(text).limits[0]!.actual!).toFixed(0)}\u00a0rpm`;
    const row = (text: string) => /^\| `base-speed` .*$/m.exec(text)?.[0] ?? '';
    // What does not touch the ends, and what makes others of them.
    expect(row(await hover(sized('¦60', 6)))).toBe(
      `| \`base-speed\` >= 1000 rpm | ${[59, 60, 61].map((current) => speed(sized(current, 6))).join(' | ')} |`,
    );
    expect(row(await hover(sized(60, '¦6')))).toBe(
      `| \`base-speed\` >= 1000 rpm | ${[5, 6, 7].map((length) => speed(sized(60, length))).join(' | ')} |`,
    );
  });

  test('tell what one step less and one step more would give, by a study', async () => {
    const base = soundText.replace('span   5', 'span   ¦5') + limits;
    const text = await hover(base);
    const factor = (span: number) =>
      study(soundText.replace('span   5', `span   ${span}`))
        .report()
        .factors[0]!.winding.toFixed(4);
    expect(text).toContain('| one step | 4 | **5** | 6 |');
    const row = text.split('\n').find((line) => line.includes('winding-factor'))!;
    const cells = row.split('|').map((cell) => cell.trim());
    expect(cells.slice(2, 5).map((cell) => cell.slice(0, 6))).toEqual([factor(4), factor(5), factor(6)]);
    // In a narrow table no line ends between a number and its unit.
    expect(text).toMatch(/\| differential-leakage \| [\d.]+\u00a0% \|/);
  });

  test('a limit tells what is left of it; a position its joints', async () => {
    expect(await hover(at(written + limits, '>= ¦0.9'))).toContain('11 % of it is left.');
    const place = await hover(at(written, '¦-3b -3a to N'));
    expect(place).toMatch(/Joint \d+: 10a to 7b/);
    expect(place).toMatch(/Joint \d+: 7b to 4a/);
  });

  test('a word is told with what follows it, but for a word of the same name', async () => {
    const heading = async (word: string, value: string) =>
      (await hover(soundText.replace(/machine *\{/, `machine { ¦${word} ${value} `))).split('\n')[0];
    expect(await heading('current', '210 A')).toBe('**current**');
    expect(await heading('air-gap', '1 mm')).toBe('**air-gap** `length length?`');
  });

  test('a word links to its block in the language reference', async () => {
    expect(await hover(at(written, '¦slots'))).toContain('command:slotwright.openReference?');
  });
});

describe('the text itself', () => {
  test('phases are colored by phase and sense', async () => {
    const { document } = opened(written);
    const { tokens } = await ask('DocumentSemanticTokens').provideDocumentSemanticTokens(
      document,
      uncanceled,
    );
    const lines = document.getText().split('\n');
    const told = tokens.map(
      ([line, character, length, type, modifier]: readonly number[]) =>
        `${lines[line!]!.slice(character!, character! + length!)} ${type} ${modifier}`,
    );
    expect(told.slice(0, 6)).toEqual(['+U 0 0', '-W 2 1', '+V 1 0', '-U 0 1', '+W 2 0', '-V 1 1']);
    expect(told).toContain('U1 0 0');
    expect(told.some((each: string) => each.startsWith('N '))).toBe(false);
  });

  test('a selection grows by group, walk, statement, block', async () => {
    const { document, at: position } = opened(at(written, '(+3b ¦+3a)*1'));
    const [chain] = await ask('SelectionRange').provideSelectionRanges(document, [position], uncanceled);
    const grown: string[] = [];
    for (let range: SelectionRange | undefined = chain; range; range = range.parent)
      grown.push(textOf(document, range.range).split('\n')[0]!);
    expect(grown.slice(0, 4)).toEqual([
      '+3a',
      '(+3b +3a)*1',
      '1a (+3b +3a)*1 +3b',
      'path U 1 from U1 1a (+3b +3a)*1 +3b to N',
    ]);
    expect(grown.at(-1)).toBe('winding "Lock gate"');
  });

  test('a finished line and a closed block are laid out; what is wrong stays', async () => {
    const typed = async (marked: string, key: string) => {
      const { document, at: position } = opened(marked);
      const edits: readonly { readonly range: Range; readonly newText: string }[] = await ask(
        'OnTypeFormattingEdit',
      ).provideOnTypeFormattingEdits(document, position, key, {}, uncanceled);
      return [...edits]
        .sort((a, b) => document.offsetAt(b.range.start) - document.offsetAt(a.range.start))
        .reduce(
          (text, { range, newText }) =>
            text.slice(0, document.offsetAt(range.start)) +
            newText +
            text.slice(document.offsetAt(range.end)),
          document.getText(),
        );
    };
    expect(await typed('machine {\nslots   12\n¦\n}\n', '\n')).toBe('machine {\n  slots 12\n\n}\n');
    expect(await typed('machine {\nslots 12\n poles  4\n}¦\n', '}')).toBe(
      'machine {\n  slots 12\n  poles 4\n}\n',
    );
    expect(await typed('machine {\nslots twelve\n¦\n}\n', '\n')).toBe('machine {\nslots twelve\n\n}\n');
  });

  test('a path over several lines folds', () => {
    const { document } = opened(written.replace('(+3b +3a)*1', '(+3b +3a)*1\n    '));
    const folded = editorState.providers.folding!.provideFoldingRanges(document);
    const lines = document.getText().split('\n');
    expect(folded.map(({ start }) => lines[start]!.trim().slice(0, 8))).toContain('path U 1');
  });
});

describe('other ways to write the same', () => {
  const take = async (document: StubDocument, place: string, title: string) => {
    const actions = await actionsAt(document, place);
    const action = actions.find((each: CodeAction) => each.title.startsWith(title));
    if (!action) throw new Error(`no '${title}' among ${actions.map((each) => each.title).join(', ')}`);
    await workspace.applyEdit(action.edit!);
    return document.getText();
  };
  const table = (text: string) => study(text).winding!.table;

  test('a coil span as rows, and back', async () => {
    const { document } = opened(generated);
    const asRows = await take(document, 'span', 'Write the layout as rows');
    expect(asRows).toContain('layer a  +U -W +V  repeat 4 alternating');
    expect(asRows).toContain('layer b = layer a\n');
    expect(asRows).not.toContain('span');
    expect(table(asRows)).toEqual(table(generated));
    expect(await take(document, 'layer a', 'Write the rows as a coil span')).toBe(
      generated.replace('span   3', 'span 3'),
    );
  });

  test('copied paths written out, and back', async () => {
    const { document } = opened(written);
    const hash = (text: string) =>
      study(text)
        .report()
        .paths.map(({ phase, path, bars }) => `${phase} ${path} ${bars.join(' ')}`)
        .sort();
    const out = await take(document, 'repeat U as W', 'Write out the copied paths of phase W');
    expect(out).toContain('path W 1 from W1 5a');
    expect(hash(out)).toEqual(hash(written));
    const compact = await take(document, 'path W 1', 'Write the paths compactly');
    expect(compact).not.toContain('path W');
    expect(hash(compact)).toEqual(hash(written));
  });

  test('written paths to be found anew', async () => {
    const { document } = opened(written);
    const text = await take(document, 'path U 1', 'Let the paths be found anew');
    expect(text).toContain('  star\n  route paths 2\n}');
    expect(text).not.toContain('path U');
  });
});
