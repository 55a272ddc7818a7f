import { expect, test } from 'vitest';
import { study } from '../../core/study.ts';
import { readHostMessage, readPageMessage, readPageState } from '../../extension/messages.ts';
import { firstWish } from '../../extension/wish.ts';
import { soundText } from './activated.ts';

const sound = study(soundText);
const content = {
  kind: 'content',
  source: 'memory:/pump.winding',
  title: sound.title,
  wish: firstWish,
  phases: ['U', 'V', 'W'],
  paths: 2,
  layers: 4,
  picture: sound.layoutPicture(),
  table: null,
  keyFigures: sound.keyFigures(),
  factorRows: sound.factorRows(),
};
const notice = {
  kind: 'notice',
  source: 'memory:/pump.winding',
  stamp: 'Out of date',
  headline: 'The text has errors.',
  places: [{ text: 'Line 1', range: { start: 0, end: 4 } }],
};

const table = { title: 'Bars', columns: ['position'], rows: [['1a'], ['1b']] };
const marks = {
  kind: 'marks',
  source: 'memory:/pump.winding',
  bars: ['1a'],
  joints: [3],
  paths: [{ phase: 0, path: 1 }],
  chosen: null,
  words: '',
};

test('the page takes what the extension sends', () => {
  const tables = { ...content, picture: null, table };
  const name = { kind: 'name', source: 'memory:/pump.winding', words: '7b' };
  for (const value of [content, tables, notice, marks, { ...marks, chosen: '1a' }, name])
    expect(readHostMessage(value)).toBe(value);
});

test('the page refuses anything else', () => {
  const spoilt = [
    null,
    [],
    'content',
    { ...content, kind: 'picture' },
    { ...content, source: undefined },
    { ...content, picture: { ...content.picture, width: Number.NaN } },
    { ...content, picture: { ...content.picture, items: null } },
    { ...content, keyFigures: [{ label: 'Slots' }] },
    { ...content, factorRows: [{ order: '1' }] },
    { ...notice, places: [{ text: 'Line 1', range: { start: -1, end: 4 } }] },
    { ...notice, headline: 4 },
    { ...content, table },
    { ...content, picture: null },
    { ...content, picture: null, table: { ...table, rows: [[1]] } },
    { ...content, wish: { ...firstWish, view: 'sheet' } },
    { ...content, wish: { ...firstWish, instant: 360 } },
    { ...content, phases: 'UVW' },
    { ...content, paths: null },
    { ...content, layers: '4' },
    { ...marks, bars: [1] },
    { ...marks, joints: ['1'] },
    { ...marks, paths: [{ phase: 0 }] },
    { ...marks, chosen: 1 },
    { kind: 'name', source: 'memory:/pump.winding' },
  ];
  for (const value of spoilt) expect(readHostMessage(value)).toBeNull();
});

test('the extension takes what the page says, without further parts', () => {
  expect(readPageMessage({ kind: 'ready', more: 1 })).toEqual({ kind: 'ready', wish: null });
  const source = 'memory:/a';
  const said = [
    { kind: 'ready', wish: firstWish },
    { kind: 'show', wish: { ...firstWish, phase: 'U' } },
    { kind: 'show', wish: { ...firstWish, path: 2, layer: 'b', side: 'far' } },
    { kind: 'reveal', source, range: { start: 0, end: 0 } },
    { kind: 'point', source, subject: { bar: '7b' } },
    { kind: 'choose', source, subject: { joint: 3 } },
    { kind: 'choose', source, subject: { terminal: 'U1', joint: 4 } },
    { kind: 'choose', source, subject: { star: 'N', joint: null } },
    { kind: 'choose', source, subject: { coil: '1a-6b' } },
    { kind: 'choose', source, subject: { slot: 7 } },
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
    { kind: 'show', wish: { ...firstWish, view: 'all' } },
    { kind: 'show', wish: { ...firstWish, path: '2' } },
    { kind: 'show', wish: { ...firstWish, layer: 2 } },
    { kind: 'show', wish: { ...firstWish, side: 'left' } },
    { kind: 'reveal', source, range: { start: 0.5, end: 2 } },
    { kind: 'reveal', source: 1, range: { start: 0, end: 2 } },
    { kind: 'choose', source, subject: { bar: 7 } },
    { kind: 'choose', subject: { bar: '7b' } },
    { kind: 'step', source, bar: '7b', by: 2 },
    { kind: 'copy', text: 4 },
  ])
    expect(readPageMessage(value)).toBeNull();
});

test('a saved state without a source is none', () => {
  const state = { source: 'memory:/a', wish: firstWish, zooms: {} };
  expect(readPageState(state)).toEqual(state);
  expect(readPageState({ source: 'memory:/a', view: null })).toEqual({ source: 'memory:/a', wish: null });
  for (const value of [undefined, null, {}, { source: 4 }]) expect(readPageState(value)).toBeNull();
});
