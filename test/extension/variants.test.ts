// Takes its time: drives the extension with whole windings.

import { afterEach, beforeEach, describe, expect, test, vi } from 'vitest';
import { german } from '../../extension/german/main.ts';
import type { VariantsAct } from '../../extension/protocol/messages.ts';
import type { ShownVariants } from '../../extension/protocol/shownVariants.ts';
import { firstWish } from '../../extension/protocol/wish.ts';
import { speak } from '../../extension/wording.ts';
import { study } from '../support/study.ts';
import { activateOnStub, soundText } from './activated.ts';
import { loadPage, type PageTwin } from './pageTwin.ts';
import { type CodeLens, editorState, openStubDocument, type StubDocument, uncanceled } from './vscodeStub.ts';

let end: () => void;
beforeEach(() => {
  end = activateOnStub();
});
afterEach(() => {
  end();
  speak('en', null);
});

const show = (document: StubDocument) => run('slotwright.showLayoutPanel', document.uri);
const run = (command: string, argument?: unknown) => editorState.commands.get(command)!(argument);
const asking = `${soundText.replace('poles  2', 'poles  4')}
vary {
  machine slots 12 24
  layout span nominal -1 to nominal
  rank most winding-factor harmonic 1 least differential-leakage
}
`;
interface Item {
  readonly label: string;
}

/** A page whose panel shows the variants of a text; `act` is what the reader does there. */
async function openVariants(document: StubDocument) {
  await run('slotwright.exploreVariants', document.uri);
  const page = loadPage(editorState.panels.at(-1)!);
  const act = (what: VariantsAct, ...numbers: number[]) =>
    page.say({ kind: 'variants', source: document.uri.toString(), act: what, numbers });
  return { page, act, variants: () => variantsOf(page) };
}

function variantsOf(page: PageTwin): ShownVariants {
  const { view } = page.state();
  if (view?.kind !== 'variants') throw new Error('No variants are shown');
  return view;
}

/** Resolves when commands and edits under way are done. */
const settled = () => new Promise((resolve) => setTimeout(resolve, 0));

/** The number of the candidate with these values, in the order of the rows. */
const numberOf = ({ rows }: ShownVariants, ...values: string[]) =>
  rows.find(({ texts }) => values.every((value, at) => texts[at] === value))!.number;

describe('variants in the editor', () => {
  test('above the block stands how many there are, with a way to judge them', async () => {
    const document = openStubDocument('pump.winding', asking);
    const provider = editorState.provided.get('CodeLens');
    const lenses: readonly CodeLens[] = await provider.provideCodeLenses(document, uncanceled);
    const resolved = await Promise.all(lenses.map((lens) => provider.resolveCodeLens(lens, uncanceled)));
    const lens = resolved.find(({ command }) => command!.command === 'slotwright.exploreVariants');
    expect(lens!.command!.title).toBe('4 candidates: Run');
  });

  test('the best come first, beside the winding of the text', async () => {
    const { variants } = await openVariants(openStubDocument('pump.winding', asking));
    const { question, standing, own, rows } = variants();
    expect(question!.columns.map(({ name, unit, better }) => [name, unit, better])).toEqual([
      ['machine slots', '', null],
      ['layout span', '', null],
      ['winding-factor harmonic 1', '', 'most'],
      ['differential-leakage', '%', 'least'],
    ]);
    expect(standing).toMatchObject({ status: 'done', candidates: 4, judged: 4, kept: 4, stale: false });
    expect(rows).toHaveLength(4);
    expect(rows[0]).toMatchObject({ texts: ['12', '3', '1', '9.66 %'], front: true });
    expect(rows[0]!.amounts[3]).toBeCloseTo(9.66, 2);
    expect(own).toMatchObject({ number: 0, texts: ['12', '5', '0.5000', expect.stringMatching(/%$/)] });
  });

  test('the limits of the text are looked at, best rows first', async () => {
    const limits = 'require {\n  differential-leakage <= 4 %\n  winding-factor harmonic 1 >= 0.9\n}\n';
    const { variants } = await openVariants(openStubDocument('pump.winding', asking + limits));
    const { own, rows } = variants();
    expect(own!.limits).toBe('0 of 2');
    const met = rows.map(({ amounts, limits: told }) => [
      Number(amounts[3]! <= 4) + Number(amounts[2]! >= 0.9),
      told,
    ]);
    expect(met.map(([, told]) => told)).toEqual(met.map(([count]) => `${count} of 2`));
  });

  test('where limits are kept, what is left meets them all', async () => {
    const kept = `${asking.replace('rank ', 'keep limits  rank ')}require { differential-leakage <= 4 % }\n`;
    const { variants } = await openVariants(openStubDocument('pump.winding', kept));
    const { own, rows } = variants();
    expect([own!.limits, ...rows.map(({ limits }) => limits)]).toEqual(['0 of 1', '1 of 1', '1 of 1']);
  });

  test('why figures are missing is said once, in the language of the reader', async () => {
    const lacking = asking.replace('rank most', 'rank least copper-loss most');
    const { act, variants } = await openVariants(openStubDocument('pump.winding', lacking));
    expect(variants().standing.missing).toHaveLength(1);
    expect(variants().standing.missing[0]).toMatch(/^copper-loss is missing: it needs .*'machine current'/);
    speak('de', german);
    act('run');
    await vi.waitFor(() =>
      expect(variants().standing.missing[0]).toMatch(/^copper-loss fehlt: gebraucht wird /),
    );
  });

  test('what stays equal, what nothing settles and why some make no winding are said in German', async () => {
    const odd = asking
      .replace('slots 12 24', 'slots 12 13  machine bore 0.1 m 0.2 m  machine stack 50 mm 60 mm')
      .replace(/\n *bore .*/, '')
      .replace(/\n *stack .*/, '')
      .replace(/(machine \{)/, '$1\n  flux 5 mWb');
    speak('de', german);
    const { variants } = await openVariants(openStubDocument('pump.winding', odd));
    expect(variants().question).toMatchObject({
      held: 'Flussdichte im Luftspalt (der Fluss eines Pols folgt); Strom; Anteil der Nuten an der Nutteilung und der Stäbe am Platz in ihrer Nut',
      unsettled: ['machine flux: nichts legt es fest, wo machine bore und machine stack veränderlich sind'],
    });
    expect(variants().standing.refused).toEqual([
      ['es lässt sich keine Anordnung erzeugen: keine ist ausgeglichen', 8],
    ]);
    const twofold = asking.replace('rank', 'hold torque current  rank');
    const faulty = await openVariants(openStubDocument('winch.winding', twofold));
    expect(faulty.variants().standing).toMatchObject({
      status: 'faulty',
      trouble: expect.stringMatching(/kann|können/),
    });
  });

  test('where nothing is kept, what the text lacks is said', async () => {
    const lacking = asking.replace('rank most', 'keep copper-loss <= 9 W  rank most');
    const { variants } = await openVariants(openStubDocument('pump.winding', lacking));
    expect(variants().standing).toMatchObject({ kept: 0, leftOut: 4 });
    expect(variants().standing.missing.join()).toMatch(
      /^copper-loss is missing: it needs .*'machine current'/,
    );
  });

  test('one opens as a winding of its own', async () => {
    const document = openStubDocument('pump.winding', asking);
    const { act, variants } = await openVariants(document);
    act('open', numberOf(variants(), '24', '5'));
    await settled();
    const opened = editorState.documents.at(-1)!.getText();
    expect(opened).toContain('slots  24');
    expect(opened).not.toContain('vary {');
    expect(study(opened).findings.filter(({ severity }) => severity === 'error')).toEqual([]);
    expect(document.getText()).toBe(asking);
  });

  test('one is taken over into the file: just its words change; then another, or none', async () => {
    const document = openStubDocument('pump.winding', asking);
    const { act, variants } = await openVariants(document);
    const [first, second] = [numberOf(variants(), '24', '6'), numberOf(variants(), '24', '5')];
    const inSight = () => {
      const { start, end } = editorState.revealed.at(-1)!;
      return document.getText().slice(document.offsetAt(start), document.offsetAt(end));
    };
    act('take', first);
    await settled();
    // Wherever the reader looked, from the first word that changed to the last.
    expect(inSight()).toMatch(/^24\n[\s\S]*\n {2}span {3}6$/);
    expect(document.getText()).toBe(asking.replace('slots  12', 'slots  24').replace('span   5', 'span   6'));
    expect(variants().standing).toMatchObject({ stale: false, inText: first });
    act('take', second);
    await settled();
    expect(inSight()).toBe('5');
    expect(document.getText()).toBe(asking.replace('slots  12', 'slots  24'));
    expect(variants().standing).toMatchObject({ stale: false, inText: second });
    // As undo does.
    document.edit(asking);
    expect(variants().standing).toMatchObject({ stale: false, inText: 0 });
  });

  test('what was judged is stamped while the text is another, and leaves that one alone', async () => {
    const document = openStubDocument('pump.winding', asking);
    const { act, variants } = await openVariants(document);
    const changed = `${asking}# meanwhile\n`;
    document.edit(changed);
    expect(variants().standing).toMatchObject({ stale: true, status: 'done' });
    expect(variants().rows).toHaveLength(4);
    act('take', variants().rows[0]!.number);
    await settled();
    expect(document.getText()).toBe(changed);
    expect(editorState.information.at(-1)).toContain('changed since');
    act('run');
    await vi.waitFor(() => expect(variants().standing).toMatchObject({ stale: false, status: 'done' }));
  });

  test('what was judged stays where the text is saved under another name, and is gone in another text', async () => {
    const { variants } = await openVariants(openStubDocument('pump.winding', asking));
    const saved = openStubDocument('saved.winding', asking);
    await show(saved);
    expect(variants()).toMatchObject({ standing: { status: 'done', stale: false }, rows: { length: 4 } });
    await show(openStubDocument('other.winding', asking.replace('12 24', '12')));
    expect(variants().standing).toMatchObject({ status: 'ready', candidates: 2 });
  });

  test('some stand side by side, with layout, waves and limits', async () => {
    const document = openStubDocument('pump.winding', `${asking}require { differential-leakage <= 4 % }\n`);
    const { act, variants } = await openVariants(document);
    const [one, other] = variants().rows.map(({ number }) => number);
    act('beside', one!, other!);
    await vi.waitFor(() => expect(variants().beside.some(({ waiting }) => waiting)).toBe(false));
    const { beside } = variants();
    expect(beside.map(({ number, waiting }) => [number, waiting])).toEqual([
      [one, false],
      [other, false],
    ]);
    expect(beside[0]).toMatchObject({
      row: { number: one, texts: variants().rows[0]!.texts },
      layout: [
        ['a', '+U', '\u2212W', '+V'],
        ['b', '+U', '\u2212W', '+V'],
      ],
      limits: ['failed'],
    });
    expect(beside[0]!.waves[0]).toEqual(['1', '1.0000', '100.00 %']);
    act('beside');
    expect(variants().beside).toEqual([]);
  });

  test('a text without a question, and one with errors, say so and judge nothing', async () => {
    const plain = openStubDocument('plain.winding', soundText);
    const { act, variants } = await openVariants(plain);
    expect(variants().standing.status).toBe('none');
    // What varies, what counts, and nothing more that must be met.
    editorState.answers.push((items: readonly Item[]) => items.filter(({ label }) => label === 'Span'));
    editorState.answers.push((items: readonly Item[]) => items.slice(0, 1));
    editorState.answers.push('');
    act('vary');
    expect(editorState.executed.at(-1)).toEqual(['slotwright.varyWinding', plain.uri]);
    await run('slotwright.varyWinding', plain.uri);
    await vi.waitFor(() => expect(variants().standing).toMatchObject({ status: 'ready', candidates: 3 }));
    plain.edit(asking.replace('slots 12 24', 'slots 12 12.5'));
    expect(variants().standing).toMatchObject({ status: 'faulty', trouble: expect.stringMatching(/whole/) });
  });

  test('more than a hundred thousand whole studies are asked for first', async () => {
    const many = asking.replace(
      'rank ',
      'bar height 1 mm to 9 mm by 0.001 mm\n  bar width 1 mm to 2 mm by 0.1 mm\n  keep slot-fill <= 80 %\n  rank ',
    );
    const { variants } = await openVariants(openStubDocument('pump.winding', many));
    expect(editorState.information.at(-1)).toMatch(/Up to 352044 whole studies/);
    expect(variants().standing.status).toBe('ready');
  });

  describe('tens of thousands of candidates', () => {
    const many = asking
      .replace('-1 to nominal', '-2 to nominal')
      .replace(
        'rank ',
        'bar height 1 mm to 1.165 mm by 0.003 mm\n  bar width 1 mm to 1.5 mm by 0.01 mm\n  rank ',
      );
    let clock: { readonly mockRestore: () => void };
    beforeEach(() => {
      // A millisecond a look: slices are as long on every machine.
      let now = 0;
      clock = vi.spyOn(performance, 'now').mockImplementation(() => now++);
    });
    afterEach(() => clock.mockRestore());
    const turn = () => new Promise((resolve) => setTimeout(resolve, 0));

    test('reach the page in few and little messages, while the text is typed in', async () => {
      const document = openStubDocument('pump.winding', many);
      await show(document);
      const page = loadPage(editorState.panels.at(-1)!);
      page.say({ kind: 'show', wish: { ...firstWish, view: 'variants' } });
      const before = page.updates.length;
      page.say({ kind: 'variants', source: document.uri.toString(), act: 'run', numbers: [] });
      const seen = new Set<string>();
      let keys = 0;
      let behindKeys = 0;
      while (variantsOf(page).standing.status !== 'done') {
        const { status, judged, stale } = variantsOf(page).standing;
        seen.add(`${status} ${judged > 0 && judged < 17_136} ${stale}`);
        // Typing goes first, and does not end it: without its rest the run would be done before the last key.
        if (judged > 0 && keys < 200) {
          document.edit(`${many}# ${'x'.repeat(++keys)}`);
          if (keys === 200) behindKeys = judged;
        }
        await turn();
      }
      expect(behindKeys).toBeGreaterThan(0);
      expect(behindKeys).toBeLessThan(8_500);
      const { standing, rows, others } = variantsOf(page);
      expect(standing).toMatchObject({ candidates: 17_136, judged: 17_136, stale: true });
      expect(keys).toBe(200);
      expect(seen).toContain('running true true');
      expect(rows.length).toBeLessThanOrEqual(400);
      expect(others.length).toBeLessThanOrEqual(500);
      const sizes = page.updates.slice(before).map((update) => JSON.stringify(update).length);
      // One for the first key, and four a second of the run.
      expect(sizes.length).toBeLessThanOrEqual(20);
      expect(Math.max(...sizes)).toBeLessThan(100_000);
      expect(sizes.reduce((sum, size) => sum + size, 0)).toBeLessThan(200_000);
      document.edit(many);
      expect(variantsOf(page).standing.stale).toBe(false);
    });

    test('are not sent to a page that shows something else, and end when they are canceled', async () => {
      const document = openStubDocument('pump.winding', many);
      await show(document);
      const page = loadPage(editorState.panels.at(-1)!);
      page.say({ kind: 'variants', source: document.uri.toString(), act: 'run', numbers: [] });
      const before = page.updates.length;
      for (let turns = 0; turns < 12; turns++) await turn();
      expect(page.updates.length).toBe(before);
      page.say({ kind: 'variants', source: document.uri.toString(), act: 'cancel', numbers: [] });
      page.say({ kind: 'show', wish: { ...firstWish, view: 'variants' } });
      await vi.waitFor(() => expect(variantsOf(page).standing.status).toBe('stopped'));
      const { judged, candidates } = variantsOf(page).standing;
      expect([judged > 0, judged < candidates]).toEqual([true, true]);
    });
  });

  test('what counts is offered where the text has what it takes', async () => {
    const sized = soundText
      .replace(
        'phases 3',
        'phases 3\n  bore 60 mm\n  stack 50 mm\n  speed 1500 rpm\n  current 20 A\n  winding-temperature 100 degC',
      )
      .replace(
        'layout {',
        'slot { width 6 mm  depth 12 mm  opening 1 mm  opening-height 1 mm }\nbar { width 4 mm  height 3 mm  end-straight 6 mm  end-clearance 1 mm  joint-straight 8 mm }\n\nlayout {',
      );
    const offers = async (text: string) => {
      let offered: readonly string[] = [];
      const document = openStubDocument('pump.winding', text);
      editorState.answers.push((items: readonly Item[]) => items.slice(0, 1));
      editorState.answers.push((items: readonly Item[]) => {
        offered = items.map(({ label }) => label);
      });
      await new Promise((resolve) => setTimeout(resolve, 0));
      await run('slotwright.varyWinding', document.uri);
      editorState.documents = [];
      return offered;
    };
    expect((await offers(sized)).slice(0, 3)).toEqual([
      'Winding loss',
      'Differential leakage',
      'Mass of the bars',
    ]);
    const lacking = await offers(sized.replace('end-clearance 1 mm', ''));
    expect(lacking.slice(0, 2)).toEqual(['Winding factor', 'Differential leakage']);
    expect(lacking.join()).not.toMatch(/Copper|Torque/);
  });

  test('Vary This Winding without a word that is to vary writes nothing, and says so', async () => {
    const document = openStubDocument('pump.winding', soundText);
    editorState.answers.push(() => []);
    await run('slotwright.varyWinding', document.uri);
    expect(document.getText()).toBe(soundText);
    expect(editorState.information.at(-1)).toBe(
      'Nothing was written: mark at least one word that is to vary.',
    );
  });

  test('what is to vary is offered as the text has it: leans together, paths that are possible', async () => {
    const offers = async (text: string) => {
      let offered: readonly (readonly [string, string | undefined])[] = [];
      const document = openStubDocument('hub.winding', text);
      editorState.answers.push((items: readonly (Item & { readonly description?: string })[]) => {
        offered = items.map(({ label, description }) => [label, description]);
      });
      await run('slotwright.varyWinding', document.uri);
      editorState.documents = [];
      const rows = offered.map(([, row]) => row).join('\n');
      expect(
        study(`${text}\nvary {\n${rows}\n}\n`).findings.filter(({ severity }) => severity === 'error'),
      ).toEqual([]);
      return new Map(offered);
    };
    // 9 slots a pole pair, ten of which are alike.
    const crossed = await offers(`winding "Hub"
machine { slots 90 poles 20 phases 3 gap both }
slot a b { width 7 mm depth 14 mm }
slot c d { width 7 mm depth 12 mm }
bar { height a b 6 mm height c d 5 mm }
layout { layers 4 span 4 skew a b +1 slot skew c d -1 slot }
connect { star route paths 1 }
`);
    expect(crossed.get('Lean of the bars')).toBe(
      'layout skew a b 0.5 slot 1 slot 1.5 slot with opposite layout skew c d',
    );
    expect(crossed.get('Parallel paths')).toBe('connect route paths 1 2 5 10');
    expect(crossed.get('Bar height a b')).toBe('bar height a b 4.8 mm 5.4 mm 6 mm');
    expect(crossed.get('Bar height c d')).toBe('bar height c d 4 mm 4.5 mm 5 mm');
    // Further layers would have neither slots nor heights.
    expect(crossed.has('Layers')).toBe(false);
    const plain = await offers(soundText.replace('layers 2', 'layers 2\n  skew all -7.5 deg'));
    expect(plain.get('Lean of the bars')).toBe('layout skew all -3.75 deg -7.5 deg -11.25 deg');
    expect(plain.get('Layers')).toBe('layout layers 2 4 6');
  });

  test('Vary This Winding writes the block that was asked for, ready to be judged', async () => {
    const document = openStubDocument('pump.winding', soundText);
    editorState.answers.push((items: readonly Item[]) =>
      items.filter(({ label }) => /Slots|Span/.test(label)),
    );
    // What counts, as it is picked before; then what is to be met, after an answer that says what is wrong.
    editorState.answers.push((items: readonly (Item & { readonly picked?: boolean })[]) =>
      items.filter(({ picked }) => picked),
    );
    const wrong: (string | null)[] = [];
    editorState.answers.push((box: { validateInput: (text: string) => string | null }) => {
      for (const typed of ['winding-facto >= 1', 'slot-fill', 'limits }', '', 'differential-leakage <= 5 %'])
        wrong.push(box.validateInput(typed));
      return 'differential-leakage <= 5 %';
    });
    await run('slotwright.varyWinding', document.uri);
    const text = document.getText();
    expect(wrong.map((each) => each === null)).toEqual([false, false, false, true, true]);
    expect(text).toContain('  keep differential-leakage <= 5 %\n  rank ');
    expect(text.startsWith(soundText)).toBe(true);
    expect(text).toContain('\nvary {\n  machine slots 6 to 30 by 6\n  layout span nominal -2 to nominal\n');
    expect(study(text).findings.filter(({ code }) => code.startsWith('vary'))).toEqual([]);
  });
});
