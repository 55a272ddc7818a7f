// Takes its time: drives the extension with whole windings.

import { afterEach, beforeEach, describe, expect, test, vi } from 'vitest';
import { schedule } from '../../core/tables/schedule.ts';
import type { PanelState } from '../../extension/protocol/panelState.ts';
import type { PanelControls, PanelMarks } from '../../extension/protocol/shownParts.ts';
import type { Subject } from '../../extension/protocol/subject.ts';
import {
  firstWish,
  type PanelTable,
  panelTables,
  panelViews,
  type Wish,
} from '../../extension/protocol/wish.ts';
import { examples } from '../support/files.ts';
import { study } from '../support/study.ts';
import { activateOnStub, brokenText, soundText } from './activated.ts';
import { loadPage, type PageTwin } from './pageTwin.ts';
import {
  clipboard,
  editorState,
  openStubDocument,
  type StubDocument,
  type StubPanel,
  selectText,
} from './vscodeStub.ts';

let end: () => void;
beforeEach(() => {
  end = activateOnStub();
});
afterEach(() => end());

let panel: StubPanel;

async function openPage(): Promise<PageTwin> {
  await editorState.commands.get('slotwright.showLayoutPanel')?.();
  panel = editorState.panels.at(-1)!;
  return loadPage(panel);
}

/** What the page shows once it shows what is wished for. */
function wished(page: PageTwin, wish: Partial<Wish>): PanelState {
  page.say({ kind: 'show', wish: { ...firstWish, ...wish } });
  expect(page.state().controls.wish).toEqual({ ...firstWish, ...wish });
  return page.state();
}

describe('the views of the panel', () => {
  test('each view is a picture of its own with its text equivalent', async () => {
    openStubDocument('pump.winding', soundText);
    const page = await openPage();
    const descriptions = new Set<string>();
    const pictures = panelViews.filter((name) => name !== 'tables' && name !== 'variants');
    for (const view of pictures) {
      wished(page, { view });
      expect(page.picture().description.length).toBeGreaterThan(20);
      descriptions.add(page.picture().description);
    }
    expect(descriptions.size).toBe(pictures.length);
  });

  test('a chosen phase stands out, the others step back; a phase that is not there changes nothing', async () => {
    openStubDocument('pump.winding', soundText);
    const page = await openPage();
    const emphases = (phase: string | null) => {
      wished(page, { phase });
      const text = JSON.stringify(page.picture());
      return [...new Set([...text.matchAll(/"emphasis":"(\w+)"/g)].map((match) => match[1]))].sort();
    };
    expect(emphases('V')).toEqual(['faded', 'strong']);
    expect(emphases('Z')).toEqual([]);
  });

  test('path, layer and side stand out by themselves, as far as they are there', async () => {
    openStubDocument('pump.winding', soundText);
    const page = await openPage();
    const { controls } = wished(page, { path: 2 });
    const { phases, layers } = study(soundText).winding!;
    expect(controls).toMatchObject({ phases: phases.names, layers });
    const faded = (change: Partial<Wish>) => {
      wished(page, { path: null, layer: null, side: null, ...change });
      return (JSON.stringify(page.picture()).match(/"emphasis":"faded"/g) ?? []).length;
    };
    expect(faded({})).toBe(0);
    expect(faded({ layer: 'a' })).toBeGreaterThan(0);
    expect(faded({ layer: 'z' })).toBe(0);
    expect(faded({ side: 'far' })).toBeGreaterThan(0);
    expect(faded({ path: 99 })).toBe(0);
    expect(faded({ view: 'section', layer: 'b' })).toBeGreaterThan(0);
    expect(faded({ view: 'phasors', layer: 'b' })).toBe(0);
  });

  test('the field changes with the instant', async () => {
    openStubDocument('pump.winding', soundText);
    const page = await openPage();
    const at = (instant: number) => {
      wished(page, { view: 'field', instant });
      return JSON.stringify(page.picture());
    };
    const first = at(0);
    expect(at(60)).not.toBe(first);
    expect(at(0)).toBe(first);
  });

  test('the tables are those of the schedules', async () => {
    openStubDocument('pump.winding', soundText);
    const page = await openPage();
    const { facts } = study(soundText);
    for (const name of panelTables) {
      wished(page, { view: 'tables', table: name });
      const table = page.table();
      // Behind its cells a row names its place, where it has one.
      const { length } = table.columns;
      for (const row of table.rows) expect([length, length + 1]).toContain(row.length);
      expect(table.rows.some((row) => row.length > length)).toBe(name !== 'factors' && table.rows.length > 0);
      if (name === 'paths' || name === 'findings') continue;
      const lines = schedule(facts!, name).trimEnd().split('\r\n');
      const written = lines.slice(1).map((each) => each.split(','));
      expect(table.rows).toHaveLength(written.length);
      // Numbers are rounded to what is read, half a hundredth of a millimeter at most.
      const apart = table.rows.flatMap((row, index) =>
        row.slice(0, length).filter((cell, column) => {
          const other = written[index]![column]!;
          const sense = { '+': '1', '\u2212': '-1' }[cell] ?? cell;
          return sense !== other && !(Math.abs(Number(cell) - Number(other)) <= 0.005001 && other !== '');
        }),
      );
      expect(apart).toEqual([]);
    }
  });

  test('numbers of a table are rounded alike, so that they stand below each other', async () => {
    const { text } = examples.find(({ name }) => name.startsWith('harbor-ferry-pod-drive'))!;
    openStubDocument('ferry.winding', text);
    const page = await openPage();
    wished(page, { view: 'tables', table: 'bars' });
    const { columns, rows } = page.table();
    const lengths = rows.map((row) => row[columns.indexOf('length mm')]!);
    expect(lengths.length).toBeGreaterThan(0);
    expect(lengths.filter((cell) => !/^\d+\.\d\d$/.test(cell))).toEqual([]);
  });

  test('senses of current have the signs of the drawing, and words for who hears or points at them', async () => {
    openStubDocument('pump.winding', soundText);
    const page = await openPage();
    const senses = (name: PanelTable, heading: RegExp) => {
      wished(page, { view: 'tables', table: name });
      const { columns, rows, signs } = page.table();
      const cells = rows.flatMap((row) => row.filter((_, column) => heading.test(columns[column] ?? '')));
      return { cells: [...new Set(cells)].sort(), signs };
    };
    const told = { '+': 'away from the connection side', '\u2212': 'back to the connection side' };
    expect(senses('slots', /^[a-z] sense$/)).toEqual({ cells: ['+', '\u2212'], signs: told });
    expect(senses('bars', /^sense$/)).toEqual({ cells: ['+', '\u2212'], signs: told });
    expect(senses('joints', /sense/)).toEqual({ cells: [], signs: undefined });
  });

  test('an empty table says what would fill it', async () => {
    openStubDocument(
      'pump.winding',
      'winding "A"\nmachine { slots 12 poles 2 phases 3 }\nlayout { layers 2 span 5 }\n',
    );
    const page = await openPage();
    const titles = (['joints', 'leads', 'paths', 'duty', 'slots'] as const).map((table) => {
      wished(page, { view: 'tables', table });
      return page.table().title;
    });
    expect(titles).toEqual([
      'Joints and leads: needs connect route or written paths.',
      'Leads and star points: needs connect route or written paths.',
      'Paths: needs connect route or written paths.',
      'Points of the duty: needs duty.',
      'Slot table',
    ]);
  });

  test('paths list every bar of the winding once', async () => {
    openStubDocument('pump.winding', soundText);
    const page = await openPage();
    wished(page, { view: 'tables', table: 'paths' satisfies PanelTable });
    const bars = page.table().rows.flatMap((row) => row[7]!.split(' '));
    expect(bars).toHaveLength(24);
    expect(new Set(bars).size).toBe(24);
  });

  test('the chosen view survives edits, broken text, and a page that was hidden', async () => {
    const pump = openStubDocument('pump.winding', soundText);
    const page = await openPage();
    wished(page, { view: 'phasors' });
    pump.edit(soundText.replace('span   5', 'span   4'));
    expect(page.picture().description).toMatch(/phasor/i);
    pump.edit(brokenText);
    expect(page.state().notice?.stamp).toBe('Out of date');
    panel.turn(false);
    page.unload();
    panel.turn(true);
    const next = loadPage(panel, { ...firstWish, view: 'phasors' });
    expect(next.state()).toEqual(page.state());
  });

  test('of wishes in a row only the last is answered', async () => {
    openStubDocument('pump.winding', soundText);
    const page = await openPage();
    page.hold(true);
    const before = page.updates.length;
    for (const view of ['section', 'phasors', 'copper'] as const)
      page.say({ kind: 'show', wish: { ...firstWish, view } });
    page.hold(false);
    expect(
      page.updates
        .slice(before)
        .map(({ changes }) => (changes.controls as PanelControls | undefined)?.wish.view),
    ).toEqual(['section', 'copper']);
  });

  test('a table goes to the clipboard', async () => {
    openStubDocument('pump.winding', soundText);
    (await openPage()).say({ kind: 'copy', text: 'slot\ta' });
    expect(clipboard.text).toBe('slot\ta');
  });
});

const byHand = `winding "Hand-joined trial"
machine { slots 12 poles 4 phases 3 }
connect {
  star
  path U 1 from U1 1a +3b +3a +3b to N
  path U 2 from U1 1b -3a
    -3b -3a to N
  repeat U as V shift 2
  repeat U as W shift 4
}
`;

describe('cursor and picture', () => {
  let document: StubDocument;
  let page: PageTwin;
  beforeEach(async () => {
    document = openStubDocument('hand.winding', byHand);
    page = await openPage();
  });

  /** The stretch of the text that was selected last. */
  function selected(): string {
    const { selection } = editorState.shown.at(-1)!.options as { selection: { start: never; end: never } };
    return byHand.slice(document.offsetAt(selection.start), document.offsetAt(selection.end));
  }

  async function marksWhen(act: () => void): Promise<PanelMarks> {
    const before = page.state().marks;
    act();
    return vi.waitFor(() => {
      expect(page.state().marks).not.toBe(before);
      return page.state().marks;
    });
  }

  const choose = (subject: Subject) =>
    marksWhen(() => page.say({ kind: 'choose', source: document.uri.toString(), subject }));

  test('the cursor on a step lights its bar, on the rest of a path the path', async () => {
    const step = byHand.indexOf('+3a +3b to') + 1;
    const onStep = await marksWhen(() => selectText(document, step));
    expect(onStep).toMatchObject({ bars: ['7a'], paths: [], chosen: null });
    expect(onStep.words).toContain('7a: phase U, path 1, bar 3 of 4');
    const onPath = await marksWhen(() => selectText(document, byHand.indexOf('path U 2')));
    expect(onPath).toMatchObject({ bars: [], paths: [{ phase: 0, path: 2 }] });
    const onCopy = await marksWhen(() => selectText(document, byHand.indexOf('repeat U as V') + 3));
    expect(onCopy.paths).toEqual([
      { phase: 1, path: 1 },
      { phase: 1, path: 2 },
    ]);
    const elsewhere = await marksWhen(() => selectText(document, 3));
    expect(elsewhere).toMatchObject({ bars: [], joints: [], paths: [] });
  });

  test('a chosen bar selects its step, names itself, and the selection does not unmark it', async () => {
    const marks = await choose({ bar: '10b' });
    expect(marks).toMatchObject({ bars: ['10b'], chosen: '10b' });
    expect(marks.words).toMatch(
      /^10b: phase U, path 1, bar 4 of 4, back to the connection side, EMF at \d+°$/,
    );
    await vi.waitFor(() => expect(editorState.shown).toHaveLength(1));
    expect(selected()).toBe('+3b');
    expect(editorState.shown[0]?.options).toMatchObject({ preserveFocus: true });
    await new Promise((resolve) => setTimeout(resolve, 0));
    expect(page.updates.filter(({ changes }) => changes.marks)).toHaveLength(1);
  });

  test('the bars of a copied path select the statement that copies, a joint the step it leads to', async () => {
    await choose({ bar: '3a' });
    await vi.waitFor(() => expect(editorState.shown).toHaveLength(1));
    expect(selected()).toBe('repeat U as V shift 2');
    const joint = study(byHand)
      .report()
      .joints.find(({ from, to }) => from === '1a' && to === '4b');
    const marks = await choose({ joint: joint!.number });
    expect(marks.joints).toEqual([joint!.number]);
    expect(marks.words).toContain(`Joint ${joint!.number}: 1a to 4b, span 3`);
    await vi.waitFor(() => expect(editorState.shown).toHaveLength(2));
    expect(selected()).toBe('+3b');
  });

  test('the arrow keys step along the path and stop at its ends', async () => {
    const source = document.uri.toString();
    const step = (bar: string, by: 1 | -1) => marksWhen(() => page.say({ kind: 'step', source, bar, by }));
    expect((await step('1a', 1)).chosen).toBe('4b');
    expect((await step('10b', -1)).chosen).toBe('7a');
    const { marks } = page.state();
    page.say({ kind: 'step', source, bar: '10b', by: 1 });
    page.say({ kind: 'point', source, subject: { bar: '1a' } });
    await vi.waitFor(() => expect(page.names.at(-1)).toContain('1a: phase U'));
    expect(page.state().marks).toBe(marks);
  });

  test('what was released can be chosen again, and another text has nothing chosen', async () => {
    const first = await choose({ bar: '1a' });
    page.say({ kind: 'release', source: document.uri.toString() });
    expect(page.state().marks).toMatchObject({ bars: [], chosen: null, words: '' });
    expect(await choose({ bar: '1a' })).toEqual(first);
    openStubDocument('pump.winding', soundText);
    expect(page.state().marks.bars).toEqual([]);
  });

  test('while the text is broken a bar is named, but no text is selected', async () => {
    editorState.visible = [{ document }];
    document.edit(`${byHand}@`);
    expect(page.state().notice?.stamp).toBe('Out of date');
    await choose({ bar: '1a' });
    await new Promise((resolve) => setTimeout(resolve, 0));
    expect(editorState.shown).toHaveLength(0);
  });

  test('in rows, the cursor on a place lights every bar it stands for', async () => {
    const rows = `winding "Rows"\nmachine { slots 12 poles 2 phases 3 }\nlayout {\n  layers 1\n  layer a +U -W +V -U +W -V repeat 2\n}\n`;
    const written = openStubDocument('rows.winding', rows);
    const marks = await marksWhen(() => selectText(written, rows.indexOf('-W') + 1));
    expect(marks.bars).toEqual(['2a', '8a']);
    page.say({ kind: 'choose', source: written.uri.toString(), subject: { bar: '9a' } });
    await vi.waitFor(() => expect(editorState.shown).toHaveLength(1));
    expect(editorState.shown[0]?.options).toMatchObject({
      selection: {
        start: written.positionAt(rows.indexOf('+V')),
        end: written.positionAt(rows.indexOf('+V') + 2),
      },
    });
  });

  test('in a generated layout a bar selects the span', async () => {
    const pump = openStubDocument('pump.winding', soundText);
    page.say({ kind: 'choose', source: pump.uri.toString(), subject: { bar: '1a' } });
    await vi.waitFor(() => expect(editorState.shown).toHaveLength(1));
    expect(editorState.shown[0]?.options).toMatchObject({
      selection: { start: pump.positionAt(soundText.indexOf('span')) },
    });
  });
});
