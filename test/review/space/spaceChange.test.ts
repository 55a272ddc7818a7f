// Takes its time: studies whole windings.

import { describe, expect, test } from 'vitest';
import type { PathShape, Picture } from '../../../core/picture/picture.ts';
import { spaceChange } from '../../../core/review/space/spaceChange.ts';
import { flat, troublesOf } from '../../picture/checkPicture.ts';
import { smallHairpins } from '../../space/machines.ts';
import { study } from '../../support/study.ts';

const text = smallHairpins();
const compared = (old: string, now: string) => spaceChange(study(old), study(now), { coarse: true });

function pictureOf(old: string, now: string): Picture {
  const change = compared(old, now);
  if (change.kind !== 'changed') throw new Error(change.kind);
  return change.picture;
}

const marked = (picture: Picture, role: string) =>
  flat(picture.items).filter(
    (item): item is PathShape => item.kind === 'path' && item.role === role && !item.id.startsWith('legend'),
  );

describe('the bars in space of two windings', () => {
  test('that stand alike are the same, whatever else the text says', () => {
    expect(compared(text, text.replace('Bars in space', 'Another name')).kind).toBe('same');
  });

  test('with longer leads have these marked, old and new, and nothing else', () => {
    const picture = pictureOf(text, text.replace('lead-length 15 mm', 'lead-length 25 mm'));
    expect(troublesOf(picture)).toEqual([]);
    const [gone, come] = [marked(picture, 'removed-section'), marked(picture, 'added-section')];
    expect(gone.length).toBeGreaterThan(2);
    expect(gone.every(({ id }) => id.startsWith('old-lead-'))).toBe(true);
    expect(come.every(({ id }) => id.startsWith('new-lead-'))).toBe(true);
    expect(marked(picture, 'kept-section').length).toBeGreaterThan(20);
    expect(picture.description).toContain('New: marked are 12 leads');
    // Star ends all have one name, and leads of a terminal, too.
    const [, names] = picture.description.match(/New: marked are 12 leads \(([^)]*)\)/)!;
    expect(names!.split(', ').sort()).toEqual(['N', 'U1', 'V1', 'W1']);
  });

  test('with another bend radius have all bars marked', () => {
    const picture = pictureOf(text, text.replace('bend-radius 3 mm', 'bend-radius 3.5 mm'));
    expect(marked(picture, 'kept-section').every(({ id }) => /^(old|new)-lead-/.test(id))).toBe(true);
    expect(picture.description).toContain('Old: marked are all 12 bars');
  });

  test('are not drawn where one of them is not known, and it says what is missing', () => {
    const change = compared(text, text.replace('end-straight 12 mm', ''));
    expect(change).toMatchObject({ kind: 'unknown' });
    expect(change.kind === 'unknown' && change.why).toContain('bar end-straight');
  });
});
