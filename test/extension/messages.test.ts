import { expect, test } from 'vitest';
import { study } from '../../core/study.ts';
import { readHostMessage, readPageMessage, readPageState } from '../../extension/messages.ts';
import { soundText } from './activated.ts';

const sound = study(soundText);
const content = {
  kind: 'content',
  source: 'memory:/pump.winding',
  title: sound.title,
  picture: sound.layoutPicture(),
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

test('the page takes what the extension sends', () => {
  expect(readHostMessage(content)).toBe(content);
  expect(readHostMessage(notice)).toBe(notice);
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
  ];
  for (const value of spoilt) expect(readHostMessage(value)).toBeNull();
});

test('the extension takes only ready and reveal, without further parts', () => {
  expect(readPageMessage({ kind: 'ready', more: 1 })).toEqual({ kind: 'ready' });
  const reveal = { kind: 'reveal', source: 'memory:/a', range: { start: 0, end: 0 } };
  expect(readPageMessage(reveal)).toEqual(reveal);
  for (const value of [
    null,
    3,
    { kind: 'open' },
    { ...reveal, range: { start: 0.5, end: 2 } },
    { ...reveal, source: 1 },
  ])
    expect(readPageMessage(value)).toBeNull();
});

test('a saved state without a source is none', () => {
  expect(readPageState({ source: 'memory:/a', view: null })).toEqual({ source: 'memory:/a', view: null });
  for (const value of [undefined, null, {}, { source: 4 }]) expect(readPageState(value)).toBeNull();
});
