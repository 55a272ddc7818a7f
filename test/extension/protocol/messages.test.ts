import { expect, test } from 'vitest';
import { createPanelStates, nextShown } from '../../../extension/onDemand/panel/content.ts';
import { noticeWords } from '../../../extension/onDemand/panel/words.ts';
import { readHostMessage, readPageMessage, readPageState } from '../../../extension/protocol/messages.ts';
import type { PanelState } from '../../../extension/protocol/panelState.ts';
import { panelChanges } from '../../../extension/protocol/panelUpdate.ts';
import { createReplica } from '../../../extension/protocol/replica.ts';
import { nothingListed, nothingMarked } from '../../../extension/protocol/shownParts.ts';
import { firstWish } from '../../../extension/protocol/wish.ts';
import { study } from '../../support/study.ts';
import { soundText } from '../activated.ts';

const text = { source: 'memory:/pump.winding', file: 'pump.winding' };
const stateOf = createPanelStates(noticeWords());
const sound = stateOf(nextShown(null, text, study(soundText), noticeWords()), firstWish, {
  connections: nothingListed,
  marks: nothingMarked,
  drawing: null,
  difference: null,
});
const place = { text: 'Line 1', place: 'finding word-unknown 1' };
const notice = { stamp: 'Out of date', headline: 'The text has errors.', places: [place] };
const marks = { bars: ['1a'], joints: [3], paths: [{ phase: 0, path: 1 }], chosen: null, words: '' };
const table = { title: 'Bars', columns: ['position'], rows: [['1a'], ['1b']] };
const states: readonly PanelState[] = [
  sound,
  { ...sound, notice, marks },
  { ...sound, view: { kind: 'table', table }, marks: { ...marks, chosen: '1a' } },
  { ...sound, view: null },
];

/** The changes as they travel, with some of them spoilt. */
const whole = (spoilt: Readonly<Record<string, unknown>> = {}) => ({
  kind: 'update',
  version: 1,
  base: 0,
  changes: { ...JSON.parse(JSON.stringify(panelChanges(null, states[1]!))), ...spoilt },
});

test('the page follows what the extension sends', () => {
  for (const state of states) {
    const update = JSON.parse(JSON.stringify({ ...whole(), changes: panelChanges(null, state) }));
    const message = readHostMessage(update);
    expect(message).toEqual(update);
    const replica = createReplica();
    expect(message?.kind === 'update' && replica.take(message)).toBe(true);
    expect(panelChanges(replica.state(), replica.state()!)).toBeNull();
    expect({ ...replica.state(), view: null }).toEqual({ ...state, view: null });
  }
  const name = { kind: 'name', source: 'memory:/pump.winding', words: '7b' };
  expect(readHostMessage(name)).toBe(name);
});

test('the page refuses any other message', () => {
  const spoilt = [
    null,
    [],
    'update',
    { ...whole(), kind: 'content' },
    { ...whole(), version: 0 },
    { ...whole(), base: 1 },
    { ...whole(), base: -1 },
    { ...whole(), more: 1 },
    { ...whole(), changes: null },
    { kind: 'name', source: 'memory:/pump.winding' },
  ];
  for (const value of spoilt) expect(readHostMessage(value), JSON.stringify(value)?.slice(-200)).toBeNull();
});

test('an update that does not fit is not followed, and forgets what was there', () => {
  const head = { title: '', description: '', width: 10, height: 10 };
  const line = [0, 'a', 0, 1, 2, 3, 4];
  const items = (...list: unknown[]) => ({ view: { kind: 'picture', head, items: list } });
  const spoilt = [
    { more: 1 },
    { heading: undefined },
    { heading: 'none' },
    { heading: { ...sound.heading, source: 1 } },
    { heading: { ...sound.heading, waiting: 'yes' } },
    { notice: { ...notice, headline: 4 } },
    { notice: { ...notice, places: [{ text: 'Line 1', range: { start: 0, end: 4 } }] } },
    { controls: undefined },
    { controls: { ...sound.controls, wish: { ...firstWish, view: 'sheet' } } },
    { controls: { ...sound.controls, wish: { ...firstWish, instant: 360 } } },
    { controls: { ...sound.controls, phases: 'UVW' } },
    { controls: { ...sound.controls, paths: null } },
    { connections: { status: 'found', rows: [[1]], drawn: 0 } },
    { connections: { status: 'lost', rows: [], drawn: 0 } },
    { marks: { ...marks, bars: [1] } },
    { marks: { ...marks, joints: ['1'] } },
    { marks: { ...marks, paths: [{ phase: 0 }] } },
    { marks: { ...marks, chosen: 1 } },
    {
      drawing: {
        words: 'Drawn',
        phase: 0,
        lines: [],
        next: [{ bar: '1a', kind: 'odd' }],
        marked: 0,
        joint: false,
      },
    },
    { difference: { against: 'commit', words: '', rows: [], bars: [], joints: ['1'] } },
    { view: { items: [] } },
    { view: { kind: 'toString' } },
    { figures: 'none' },
    { factors: {} },
    { findings: [{ severity: 'error', message: 'No.' }] },
    { limits: [{ name: 'torque' }] },
    { view: { kind: 'sheet' } },
    { view: { kind: 'picture', items: [] } },
    { view: { kind: 'picture', head: { ...head, width: 0 }, items: [] } },
    { view: { kind: 'table', head: { title: '', columns: [] }, rows: [[1]] } },
    { figures: [{ label: 'Slots' }] },
    { factors: [{ order: '1' }] },
    { figures: [1] },
    items(1),
    items(-1),
    items(0.5),
    items('line'),
    items({ items: [] }),
    items([9, 'a', 0, 1, 2, 3, 4]),
    items([0, 'a', 999, 1, 2, 3, 4]),
    items([0, 7, 0, 1, 2, 3, 4]),
    items([0, 'a', 0, 1, 2, 3]),
    items([0, 'a', 0, 1, 2, 3, null]),
    items([...line, 'subject']),
    items([...line, { bar: ['7b'] }]),
    items([...line, 0, -1, -1, '', 7]),
    items([...line, 0, -1, -1, '', -1, 0, 1]),
    items([2, 'a', 0, [[1, 'x']], 0]),
    items([5, 'a', 0, 1, 1, 'text', 2.5, 3, 4, 0]),
    items([6, 'a', 0, [1]]),
  ];
  for (const one of spoilt) {
    const replica = createReplica();
    expect(replica.take(whole() as never)).toBe(true);
    const update = JSON.parse(JSON.stringify(whole(one)));
    expect(replica.take({ ...update, version: 2 }), JSON.stringify(one)).toBe(false);
    expect(replica.state()).toBeNull();
  }
  const replica = createReplica();
  expect(replica.take({ ...whole(items(line)), version: 4 } as never)).toBe(true);
  expect(replica.take({ kind: 'update', version: 6, base: 5, changes: {} })).toBe(false);
  expect(replica.take({ kind: 'update', version: 7, base: 6, changes: {} })).toBe(false);
});

test('the extension takes what the page says, without further parts', () => {
  expect(readPageMessage({ kind: 'ready', more: 1 })).toEqual({ kind: 'ready', wish: null });
  const source = 'memory:/a';
  const said = [
    { kind: 'ready', wish: firstWish },
    { kind: 'shown', version: 3, followed: true },
    { kind: 'show', wish: { ...firstWish, phase: 'U' } },
    { kind: 'show', wish: { ...firstWish, path: 2, layer: 'b', side: 'far' } },
    { kind: 'reveal', source, place: 'limit 3' },
    { kind: 'point', source, subject: { bar: '7b' } },
    { kind: 'choose', source, subject: { joint: 3 } },
    { kind: 'choose', source, subject: { terminal: 'U1', joint: 4 } },
    { kind: 'choose', source, subject: { star: 'N', joint: null } },
    { kind: 'choose', source, subject: { coil: '1a-6b' } },
    { kind: 'choose', source, subject: { slot: 7 } },
    { kind: 'release', source },
    { kind: 'step', source, bar: '7b', by: -1 },
    { kind: 'copy', text: 'a\tb' },
  ];
  for (const value of said) expect(readPageMessage({ ...value, more: 1 })).toEqual(value);
});

test('the extension ignores anything else', () => {
  const source = 'memory:/a';
  for (const value of [
    null,
    3,
    { kind: 'open' },
    { kind: 'show' },
    { kind: 'shown', version: 1 },
    { kind: 'shown', version: '1', followed: true },
    { kind: 'show', wish: { ...firstWish, view: 'all' } },
    { kind: 'show', wish: { ...firstWish, path: '2' } },
    { kind: 'show', wish: { ...firstWish, layer: 2 } },
    { kind: 'show', wish: { ...firstWish, side: 'left' } },
    { kind: 'reveal', source, range: { start: 0, end: 2 } },
    { kind: 'reveal', place: 'limit 3' },
    { kind: 'choose', source, subject: { bar: 7 } },
    { kind: 'choose', subject: { bar: '7b' } },
    { kind: 'release' },
    { kind: 'step', source, bar: '7b', by: 2 },
    { kind: 'copy', text: 4 },
  ])
    expect(readPageMessage(value)).toBeNull();
});

test('a saved state without a source is none', () => {
  const state = { source: 'memory:/a', title: 'Winch', wish: firstWish, zooms: {}, pinned: true };
  expect(readPageState(state)).toEqual(state);
  expect(readPageState({ source: 'memory:/a', view: null })).toEqual({
    source: 'memory:/a',
    title: '',
    wish: null,
    pinned: false,
  });
  for (const value of [undefined, null, {}, { source: 4 }]) expect(readPageState(value)).toBeNull();
});
