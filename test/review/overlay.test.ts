// Takes its time: studies whole windings.

import { describe, expect, it } from 'vitest';
import type { Picture, Primitive } from '../../core/picture/picture.ts';
import { inkColors, paperColor, roleStyles } from '../../core/picture/roleStyle.ts';
import { pictureToSvg } from '../../core/picture/svg.ts';
import { compare } from '../../core/review/compare.ts';
import { overlayPicture } from '../../core/review/overlay.ts';
import { flat, readXml, troublesOf } from '../picture/checkPicture.ts';
import { examples } from '../support/files.ts';
import { study } from '../support/study.ts';
import { generatedFerry, writtenFerry } from './texts.ts';

function overlay(old: string, now: string): Picture {
  const picture = overlayPicture(study(old), study(now));
  if (!picture) throw new Error('nothing is drawn');
  return picture;
}

/** Names of the things drawn in a role: bars, and joints by number. */
function drawn(picture: Picture, role: Primitive['role'], what: 'bar' | 'joint'): readonly string[] {
  return flat(picture.items)
    .filter((item) => item.role === role)
    .flatMap((item) => {
      const subject = item.subject as Readonly<Record<string, string | number>> | undefined;
      return subject && what in subject ? [String(subject[what])] : [];
    })
    .sort();
}

const swapped = writtenFerry.replace('1a (+6b +6a)*3 +6b\n', '1a 19b 13a 7b 25a (+6b +6a)*1 +6b\n');
const shorter = generatedFerry.replace('span   6', 'span   5');

describe('the overlay', () => {
  it.each([
    ['a span changed', generatedFerry, shorter],
    ['two bars of a path exchanged', writtenFerry, swapped],
    ['renumbered', writtenFerry, writtenFerry.replace('U1 1a', 'U1 4a').replace('U1 2b', 'U1 5b')],
    ['layers added', generatedFerry.replace('layers 4', 'layers 2'), generatedFerry],
    [
      'other slots',
      generatedFerry,
      generatedFerry.replace('slots   48', 'slots 72').replace('span   6', 'span 9'),
    ],
    ['paths gone', writtenFerry, generatedFerry.replace(/connect \{[^}]*\}/, '')],
  ])('is a sound picture: %s', (_, old, now) => {
    const picture = overlay(old, now);
    expect(troublesOf(picture)).toEqual([]);
    expect(() => readXml(pictureToSvg(picture))).not.toThrow();
  });

  it.each(examples.filter(({ text }) => study(text).winding))(
    'keeps every line of $name against itself',
    ({ text }) => {
      const picture = overlay(text, text);
      const changed = flat(picture.items).filter(
        ({ role, id }) => /^(removed|added)-/.test(role) && !id.startsWith('legend'),
      );
      expect(changed).toEqual([]);
      expect(troublesOf(picture)).toEqual([]);
    },
  );

  it('explains wide lines in one way: as added, not as special joints', () => {
    const words = (picture: Picture) =>
      flat(picture.items).flatMap((item) => (item.kind === 'text' ? [item.text] : []));
    expect(words(study(shorter).layoutPicture()!).join(' ')).toContain('Thick joints are special');
    const slots = generatedFerry.replace('slots   48', 'slots 72').replace('span   6', 'span 9');
    for (const old of [generatedFerry, slots]) {
      const told = words(overlay(old, shorter)).join(' ');
      expect(told).toContain('added: in the new winding only');
      expect(told).not.toContain('Thick joints');
    }
  });

  it('draws the bars and joints that the comparison names', () => {
    for (const [old, now] of [
      [generatedFerry, shorter],
      [writtenFerry, swapped],
    ] as const) {
      const { bars, joints } = compare(study(old), study(now));
      const picture = overlay(old, now);
      expect(drawn(picture, 'added-line', 'bar')).toEqual(bars.map(({ bar }) => bar).sort());
      const numbers = (list: typeof joints.added) => list.map(({ number }) => String(number)).sort();
      expect(drawn(picture, 'added-line', 'joint')).toEqual(numbers(joints.added));
      expect(drawn(picture, 'removed-line', 'joint')).toEqual(numbers(joints.removed));
    }
  });

  it('numbers lines at the cut edges as the two windings do, those of the old one with a mark', () => {
    for (const [old, now] of [
      [generatedFerry, shorter],
      [writtenFerry, swapped],
    ] as const) {
      const { joints } = compare(study(old), study(now));
      const picture = overlay(old, now);
      const texts = flat(picture.items).flatMap((item) =>
        item.kind === 'text' && item.role === 'cut-number' ? [item] : [],
      );
      const [marked, plain] = [true, false].map((wanted) =>
        texts.map((item) => item.text).filter((words) => words.endsWith('*') === wanted),
      );
      const removed = new Set(joints.removed.map(({ number }) => `${number}*`));
      const numbered = new Set(
        study(now)
          .report()
          .joints.map(({ number }) => String(number)),
      );
      // Lines that join leads or star ends have the names of those.
      const named = /^(?:N|[UVW]\d)$/;
      expect(plain!.filter((words) => !numbered.has(words) && !named.test(words))).toEqual([]);
      expect(marked!.filter((words) => !removed.has(words))).toEqual([]);
      // The line of that number does lie beyond both edges, that is in two parts.
      for (const words of marked!) {
        const line = flat(picture.items).find(({ id }) => id === `removed-joint-${words.slice(0, -1)}`);
        expect(line).toMatchObject({ kind: 'path', parts: [expect.anything(), expect.anything()] });
      }
      const note = flat(picture.items).filter(
        (item) => item.kind === 'text' && item.text.includes('with * in the old one'),
      );
      expect(note.length).toBe(marked!.length > 0 ? 1 : 0);
    }
    const marks = flat(overlay(generatedFerry, shorter).items).filter(
      (item) => item.kind === 'text' && /^\d+\*$/.test(item.text),
    );
    expect(marks.length).toBeGreaterThan(0);
  });

  it('draws a file that is not there as all removed or all added', () => {
    const deleted = overlayPicture(study(writtenFerry), null)!;
    expect(drawn(deleted, 'removed-line', 'bar')).toHaveLength(96);
    expect(drawn(overlayPicture(null, study(writtenFerry))!, 'added-line', 'bar')).toHaveLength(96);
    expect(overlayPicture(study(writtenFerry), study('machine {'))).toBeNull();
  });

  it('tells the three apart by pattern, by width and by lightness', () => {
    const styles = (['kept-line', 'removed-line', 'added-line'] as const).map((role) => roleStyles[role]);
    const [kept, removed, added] = styles;
    expect(removed!.dashes!.length).toBeGreaterThan(0);
    expect([kept!.dashes, added!.dashes]).toEqual([[], []]);
    expect(added!.width).toBeGreaterThanOrEqual(2 * kept!.width);
    expect(added!.width).toBeGreaterThanOrEqual(2 * removed!.width);
    // WCAG 2.2, contrast of graphics: 3 : 1 against the paper; gray prints of the two at least 1.8 : 1.
    const contrast = (one: string, other: string) => {
      const [low, high] = [luminance(one), luminance(other)].sort((a, b) => a - b);
      return (high! + 0.05) / (low! + 0.05);
    };
    expect(contrast(inkColors.removed, paperColor)).toBeGreaterThan(3);
    expect(contrast(inkColors.added, paperColor)).toBeGreaterThan(3);
    expect(contrast(inkColors.added, inkColors.removed)).toBeGreaterThan(1.8);
  });
});

function luminance(color: string): number {
  const [red, green, blue] = [1, 3, 5].map((at) => {
    const share = Number.parseInt(color.slice(at, at + 2), 16) / 255;
    return share <= 0.04045 ? share / 12.92 : ((share + 0.055) / 1.055) ** 2.4;
  });
  return 0.2126 * red! + 0.7152 * green! + 0.0722 * blue!;
}
