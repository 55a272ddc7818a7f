// Takes its time: drives the extension with whole windings.

import { readFileSync } from 'node:fs';
import { afterEach, beforeEach, describe, expect, test, vi } from 'vitest';
import type { CheckedText } from '../../core/findings/checkedText.ts';
import { checkText } from '../../core/findings/checkedText.ts';
import { createBackgroundMeasurer } from '../../extension/engine/backgroundMeasurer.ts';
import { createPanelStates, nextShown } from '../../extension/onDemand/panel/content.ts';
import { createShownLimits, shownLimits } from '../../extension/onDemand/panel/verdict.ts';
import { noticeWords } from '../../extension/onDemand/panel/words.ts';
import { nothingListed, nothingMarked } from '../../extension/protocol/shownParts.ts';
import { firstWish } from '../../extension/protocol/wish.ts';
import { activateOnStub, brokenText, soundText } from './activated.ts';
import { loadPage, type PageTwin } from './pageTwin.ts';
import {
  editorState,
  openStubDocument,
  StubPanel,
  selectText,
  TabInputText,
  TabInputWebview,
  Uri,
  ViewColumn,
  workspace,
} from './vscodeStub.ts';

let end: () => void;
beforeEach(() => {
  end = activateOnStub();
});
afterEach(() => end());

const show = (...args: unknown[]) => editorState.commands.get('slotwright.showLayoutPanel')?.(...args);

async function openPanel(): Promise<StubPanel> {
  await show();
  const panel = editorState.panels.at(-1);
  if (panel === undefined) throw new Error('No panel was opened');
  return panel;
}

/** Opens the panel, and loads its page. */
async function openPage(): Promise<{ readonly panel: StubPanel; readonly page: PageTwin }> {
  const panel = await openPanel();
  return { panel, page: loadPage(panel) };
}

describe('the layout panel', () => {
  test('shows the active winding: picture, key figures, factors', async () => {
    openStubDocument('pump.winding', soundText);
    const { page } = await openPage();
    const { heading, figures, factors } = page.state();
    expect(heading).toEqual({
      source: 'memory:/pump.winding',
      file: 'pump.winding',
      title: 'Tidal pump, trial',
      waiting: false,
    });
    const bars = JSON.stringify(page.picture()).match(/"bar":"\d+[ab]"/g);
    expect(new Set(bars).size).toBe(24);
    expect(figures.length).toBeGreaterThan(0);
    expect(factors[0]?.order).toBe('1');
  });

  test('follows every edit and the active editor, and is opened once', async () => {
    const pump = openStubDocument('pump.winding', soundText);
    const { panel, page } = await openPage();
    pump.edit(soundText.replace('Tidal pump', 'Dredge pump'));
    expect(page.state().heading.title).toBe('Dredge pump, trial');
    expect(page.picture().title).toContain('Dredge pump, trial');
    openStubDocument('winch.winding', soundText.replace('Tidal pump', 'Winch'));
    expect(page.state().heading).toMatchObject({ title: 'Winch, trial', file: 'winch.winding' });
    expect(panel.title).toBe('Layout of winch.winding');
    await show();
    expect(editorState.panels).toHaveLength(1);
    expect(panel.reveals).toBe(1);
  });

  test('an edit of a text that is not shown changes nothing', async () => {
    const pump = openStubDocument('pump.winding', soundText);
    openStubDocument('winch.winding', soundText.replace('Tidal pump', 'Winch'));
    const { panel } = await openPage();
    const before = panel.sent.length;
    pump.edit(brokenText);
    expect(panel.sent).toHaveLength(before);
  });

  test('keeps the last good picture under a notice while the text is broken', async () => {
    const pump = openStubDocument('pump.winding', soundText);
    const { page } = await openPage();
    const picture = page.picture();
    pump.edit(brokenText.replace('Tidal pump', 'Dredge pump'));
    expect(page.picture()).toBe(picture);
    expect(page.state().notice?.stamp).toBe('Out of date');
    expect(page.state().heading.title).toBe('Dredge pump, trial');
    expect(page.state().notice?.places.map(({ text }) => text.split(':')[0])).toContain('Line 5');
    pump.edit(soundText);
    expect(page.state().notice).toBeNull();
  });

  test('the notice lists the causes, and only counts the limits that cannot be computed for them', async () => {
    const limits = 'require { winding-factor harmonic 1 >= 0.9  differential-leakage <= 9 % }';
    const pump = openStubDocument('pump.winding', `${soundText}\n${limits}\n`);
    const { page } = await openPage();
    pump.edit(`${brokenText}\n${limits}\n`);
    const { places, headline } = page.state().notice!;
    expect(places.filter(({ text }) => /cannot be computed/.test(text))).toEqual([]);
    expect(places).not.toEqual([]);
    expect(headline).toContain('Further errors: 2.');
  });

  test('a failed limit is no reason to call the picture out of date', async () => {
    openStubDocument('pump.winding', `${soundText}\nrequire {\n  winding-factor harmonic 1 >= 0.999\n}\n`);
    const { page } = await openPage();
    expect(page.state().heading.title).toBe('Tidal pump, trial');
    expect(page.state().notice).toBeNull();
  });

  test('a hidden panel is sent nothing; a page that begins anew gets everything, in one update', async () => {
    const pump = openStubDocument('pump.winding', soundText);
    const { panel, page } = await openPage();
    panel.turn(false);
    page.unload();
    panel.sent.length = 0;
    pump.edit(brokenText);
    selectText(pump, 3);
    panel.turn(true);
    expect(panel.sent).toHaveLength(0);
    const next = loadPage(panel);
    expect(next.updates).toHaveLength(1);
    expect(next.state().notice?.stamp).toBe('Out of date');
    expect(next.picture()).toEqual(page.picture());
  });

  test('a text that never could be drawn says so', async () => {
    openStubDocument('empty.winding', '');
    const { page } = await openPage();
    const { heading, notice, view } = page.state();
    expect(view).toBeNull();
    expect(heading).toMatchObject({ source: 'memory:/empty.winding', file: 'empty.winding', waiting: false });
    expect(notice).toMatchObject({ stamp: '', headline: expect.stringMatching(/^Nothing to draw yet/) });
  });

  const restore = (panel: StubPanel, state: unknown) =>
    editorState.serializers.get('slotwright.layout')?.deserializeWebviewPanel(panel, state);

  test('comes back after a reload with the text it showed', async () => {
    openStubDocument('pump.winding', soundText);
    openStubDocument('winch.winding', soundText.replace('Tidal pump', 'Winch'));
    const restored = new StubPanel();
    await restore(restored, { source: 'memory:/pump.winding', view: null });
    expect(loadPage(restored).state().heading.title).toBe('Tidal pump, trial');
  });

  test('while the text is still being opened the page names it and waits', async () => {
    const restored = new StubPanel();
    openStubDocument('pump.winding', soundText);
    const open = workspace.openTextDocument;
    let opened: () => void = () => undefined;
    const opening = new Promise<void>((resolve) => {
      opened = resolve;
    });
    vi.spyOn(workspace, 'openTextDocument').mockImplementation((uri) => opening.then(() => open(uri)));
    const done = restore(restored, { source: 'memory:/pump.winding', view: null });
    await vi.waitFor(() => expect(restored.webview.html).toContain('panel.js'));
    const page = loadPage(restored);
    vi.restoreAllMocks();
    expect(page.state().heading).toMatchObject({ file: 'pump.winding', title: '', waiting: true });
    opened();
    await done;
    expect(page.state().heading).toMatchObject({ title: 'Tidal pump, trial', waiting: false });
  });

  test('comes back with the active text where the old one is gone or the state is spoilt', async () => {
    openStubDocument('winch.winding', soundText.replace('Tidal pump', 'Winch'));
    for (const state of [{ source: 'memory:/gone.winding' }, 7, undefined]) {
      const restored = new StubPanel();
      await restore(restored, state);
      expect(loadPage(restored).state().heading.title).toBe('Winch, trial');
    }
  });

  test('comes back with what to do where no winding is open', async () => {
    const restored = new StubPanel();
    await restore(restored, { source: 'memory:/gone.winding' });
    expect(loadPage(restored).state()).toMatchObject({
      heading: { waiting: false },
      notice: { headline: 'Open a winding file to see its layout.' },
    });
  });

  test('a place is found where it stands now, whatever was written above it', async () => {
    const pump = openStubDocument('pump.winding', brokenText);
    const { panel, page } = await openPage();
    const [place] = page.state().notice!.places;
    pump.edit(`# one more line\n${brokenText}`);
    expect(page.state().notice!.places[0]?.place).toBe(place!.place);
    page.say({ kind: 'reveal', source: pump.uri.toString(), place: place!.place });
    await vi.waitFor(() => expect(editorState.shown).toHaveLength(1));
    expect(editorState.shown[0]?.options).toMatchObject({ selection: { start: { line: 5, character: 2 } } });
    panel.say({ kind: 'reveal', source: pump.uri.toString(), place: 'finding of-old 1' });
    panel.say({ kind: 'run', command: 'anything' });
    await new Promise((resolve) => setTimeout(resolve, 0));
    expect(editorState.shown).toHaveLength(1);
  });

  test('a place opens where its text is, else in a group without a panel, never over one', async () => {
    const pump = openStubDocument('pump.winding', brokenText);
    const { page } = await openPage();
    const { place } = page.state().notice!.places[0]!;
    const layout = new TabInputWebview('mainThreadWebview-slotwright.layout');
    const [own, other] = [new TabInputText(pump.uri), new TabInputText(Uri.parse('memory:/readme.md'))];
    const columnWith = async (...groups: (readonly unknown[])[]) => {
      editorState.groups = groups;
      const before = editorState.shown.length;
      page.say({ kind: 'reveal', source: pump.uri.toString(), place });
      await vi.waitFor(() => expect(editorState.shown).toHaveLength(before + 1));
      return (editorState.shown.at(-1)!.options as { readonly viewColumn: number }).viewColumn;
    };
    expect(await columnWith([layout])).toBe(ViewColumn.Beside);
    expect(await columnWith([layout], [other])).toBe(2);
    expect(await columnWith([], [layout])).toBe(1);
    expect(await columnWith([other], [layout], [other, own])).toBe(3);
    expect(await columnWith([new TabInputWebview('mainThreadWebview-slotwright.comparison'), other])).toBe(
      ViewColumn.Beside,
    );
    editorState.visible = [{ document: pump, viewColumn: 5 }];
    expect(await columnWith([other])).toBe(5);
  });

  test('tells which limits wait for paths that are being found', () => {
    const text = `${soundText}\nrequire {\n  jumpers <= 9\n  winding-factor >= 0.99\n  differential-leakage <= 90 %\n}\n`;
    const states = (study: ReturnType<typeof checkText>) => shownLimits(study).map(({ state }) => state);
    expect(states(checkText(text, () => ({ kind: 'pending' })))).toEqual(['fails', 'waits', 'holds']);
    expect(states(checkText(text))).toEqual(['fails', 'holds', 'holds']);
  });

  test('tells what is found in the text, errors first, and how its limits stand, failed ones first', async () => {
    const limits = `
require {
  differential-leakage <= 90 %
  path-voltage-difference <= 0 %
  winding-factor       >= 0.99
  torque               >= 10 Nm
  winding-factor harmonic 5 <= 0.9
}
`;
    const pump = openStubDocument('pump.winding', soundText + limits);
    const { page } = await openPage();
    const { findings } = page.state();
    const order = findings.map(({ severity }) => ['error', 'warning', 'info'].indexOf(severity));
    expect(order).toEqual([...order].sort());
    expect(
      findings
        .filter(({ severity }) => severity === 'error')
        .map(({ place }) => place)
        .sort(),
    ).toEqual(['finding limit-failed 1', 'finding limit-not-computable 1']);
    const shown = page.state().limits;
    expect(shown.map(({ name }) => name).slice(0, 2)).toEqual(['winding-factor', 'torque']);
    expect(shown.map(({ state }) => state)).toEqual(['fails', 'unknown', 'holds', 'holds', 'holds']);
    // A margin of a limit of 0 has no measure, and stands last.
    expect(shown.at(-1)).toMatchObject({
      name: 'path-voltage-difference',
      limit: '<= 0 %',
      margin: '',
      state: 'holds',
      place: 'limit 2',
    });
    const [failed] = shown;
    expect(failed).toMatchObject({ limit: '>= 0.99', place: 'limit 3' });
    expect(failed?.margin).toMatch(/^\u2212[\d.]+ %$/);
    expect(shown[2]?.margin).toMatch(/^\+[\d.]+ %$/);
    // What is broken is counted now; the limits are those of the drawing.
    pump.edit(pump.getText().replace('poles  2', 'polse  2'));
    expect(page.state().findings[0]?.severity).toBe('error');
    expect(page.state().limits).toEqual(shown);
  });

  test('limits are told of one text after another as of each by itself, and stay while they are told alike', () => {
    const limits = (current: string, leakage: string, mark = '') =>
      readFileSync('test/bench/stator.winding', 'utf8')
        .replace('current 210', `current ${current}`)
        .replace('differential-leakage      <= 3 %', `differential-leakage <= ${leakage}`)
        .replace('stator B', `stator B${mark}`);
    const shownNext = createShownLimits();
    const texts = [
      limits('210', '3 %'),
      limits('210', '3 %', 'x'),
      limits('240', '3 %'),
      limits('240', '1 %'),
      limits('240', '1 %').replace('jumpers                   <= 0', 'jumpers <= 1'),
      limits('240', '1 %').replace('harmonic 5', 'harmonic 7'),
      limits('240', '1 %').replace(/ {2}torque .*\n/, ''),
      soundText,
      limits('210', '3 %'),
    ].map((text) => checkText(text));
    const shown = texts.map((study) => {
      const next = shownNext(study);
      expect(next).toEqual(shownLimits(study));
      return next;
    });
    expect(shown[1]).toBe(shown[0]);
    const own = (name: string) => shown.slice(0, 3).map((each) => each.find((limit) => limit.name === name));
    expect(own('slot-fill')[2]).toBe(own('slot-fill')[0]);
    expect(own('current-density')[2]).not.toEqual(own('current-density')[0]);
  });

  test('figures, factors and findings stay themselves while they are told alike', () => {
    const bench = readFileSync('test/bench/stator.winding', 'utf8');
    const waiting: (() => void)[] = [];
    const later = (work: () => void) => void waiting.push(work);
    const keeping = createBackgroundMeasurer({ now: () => 0, later }, () => undefined);
    const measured = (text: string): CheckedText => {
      const study = checkText(text, undefined, keeping);
      if (!study.measuring) return study;
      while (waiting.length > 0) waiting.shift()!();
      return measured(text);
    };
    const studies = [
      bench,
      bench.replace('stator B', 'stator Bx'),
      bench.replace('current 210', 'current 215'),
      soundText,
      bench,
    ].map(measured);
    const besides = { connections: nothingListed, marks: nothingMarked, drawing: null, difference: null };
    const text = { source: 'memory:/pump.winding', file: 'pump.winding' };
    const stateIn = (statesOf: ReturnType<typeof createPanelStates>, study: CheckedText) =>
      statesOf(nextShown(null, text, study, noticeWords()), firstWish, besides);
    const statesOf = createPanelStates(noticeWords());
    const states = studies.map((study) => {
      const state = stateIn(statesOf, study);
      expect(state).toEqual(stateIn(createPanelStates(noticeWords()), study));
      return state;
    });
    const [first, letter, digit, other, again] = states;
    expect(letter!.figures).toBe(first!.figures);
    expect(letter!.factors).toBe(first!.factors);
    expect(letter!.findings).toBe(first!.findings);
    expect(digit!.figures).not.toEqual(first!.figures);
    expect(digit!.figures[0]).toBe(first!.figures[0]);
    expect(digit!.factors).toBe(first!.factors);
    expect(other!.factors).not.toEqual(first!.factors);
    expect(again!.figures).toBe(first!.figures);
  });

  test('a limit, a finding and a row of a table lead to their place in the text', async () => {
    const pump = openStubDocument('pump.winding', `${soundText}require {\n  jumpers <= 0\n}\n`);
    const { page } = await openPage();
    page.say({ kind: 'reveal', source: pump.uri.toString(), place: page.state().limits[0]!.place });
    await vi.waitFor(() => expect(editorState.shown).toHaveLength(1));
    const { selection } = editorState.shown[0]!.options as {
      readonly selection: Readonly<Record<'start' | 'end', Parameters<typeof pump.offsetAt>[0]>>;
    };
    const [start, end] = [pump.offsetAt(selection.start), pump.offsetAt(selection.end)];
    expect(pump.getText().slice(start, end)).toBe('jumpers <= 0');
  });

  test('the divider stands where it was put, in the next panel too', async () => {
    openStubDocument('pump.winding', soundText);
    const { panel, page } = await openPage();
    expect(panel.webview.html).not.toContain('data-lower');
    page.say({ kind: 'divide', lower: 0.4 });
    panel.dispose();
    expect((await openPanel()).webview.html).toContain(' data-lower="0.4"');
  });

  test('export is asked for in the panel', async () => {
    const pump = openStubDocument('pump.winding', soundText);
    const { page } = await openPage();
    page.say({ kind: 'export', source: pump.uri.toString() });
    const asked = editorState.executed.map((parts) => parts.map(String));
    expect(asked).toContainEqual(['slotwright.exportDrawing', pump.uri.toString()]);
  });

  test('without a winding text the command says what to do', async () => {
    await show();
    expect(editorState.panels).toHaveLength(0);
    expect(editorState.information).toEqual(['Open a winding file to see its layout.']);
  });

  test('the page loads nothing but its own script and style, by a nonce of its own', async () => {
    openStubDocument('pump.winding', soundText);
    const first = (await openPanel()).webview.html;
    const nonce = /script-src 'nonce-([0-9a-f]{32})'/.exec(first)?.[1];
    expect(first).toContain(
      `default-src 'none'; script-src 'nonce-${nonce}'; style-src 'nonce-${nonce}'; img-src data:; base-uri 'none'; form-action 'none'`,
    );
    expect(first).not.toMatch(/ style="| on[a-z]+="|https?:/);
    expect(first.match(/<(script|link|style|img|iframe)\b/g)).toEqual(['<link', '<script']);
    editorState.panels[0]?.dispose();
    const second = (await openPanel()).webview.html;
    expect(second).not.toContain(String(nonce));
  });
});
