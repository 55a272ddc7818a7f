// Takes its time: draws large windings.

import { describe, expect, test } from 'vitest';
import { drawView, type ViewName, viewNames } from '../../core/views/views.ts';
import { roomOf } from '../../extension/webview/viewport/openings.ts';
import { legibleScale, openingView } from '../../extension/webview/viewport/viewport.ts';
import { flat, troublesOf } from '../picture/checkPicture.ts';
import { exampleText } from '../sheets/sheetSets.ts';
import { study } from '../support/study.ts';

const examples = ['harbor-ferry-pod-drive', 'tidal-pump', 'cable-ferry-drum'];

const example = (name: string) => studied(exampleText(name));

function studied(text: string) {
  const { facts, title, specification } = study(text);
  if (facts === null) throw new Error(`${title} yields no winding`);
  return { title, specification, facts };
}

const charts: readonly ViewName[] = ['phasors', 'field', 'copper', 'operation'];

describe('views laid out for a live panel', () => {
  for (const name of examples) {
    const subject = example(name);
    for (const width of [100, 216])
      test(`${name} in ${width} mm: nothing overlaps or is cut, charts are as wide as the panel`, () => {
        for (const view of viewNames) {
          const picture = drawView(subject, view, { coarse: true, room: { width, height: 100 } });
          expect(troublesOf(picture), view).toEqual([]);
          if (charts.includes(view)) expect(picture.width, view).toBeLessThanOrEqual(width);
          expect(picture.notes?.length, view).toBeGreaterThan(0);
        }
      });
  }

  test('head and notes stand beside the drawing, not in it; on paper they stand in it', () => {
    const subject = example('harbor-ferry-pod-drive');
    for (const view of viewNames) {
      const live = drawView(subject, view, { coarse: true, room: { width: 128, height: 100 } });
      const paper = drawView(subject, view, { coarse: true });
      const wordsOf = ({ items }: typeof paper) =>
        flat(items).flatMap((item) => (item.kind === 'text' ? [item.text] : []));
      expect(wordsOf(paper)).toContain(subject.title);
      expect(wordsOf(live)).not.toContain(subject.title);
      expect(paper.notes).toBeUndefined();
    }
  });

  test('the layout of a 48-slot winding is legible in half a window, whole in height', () => {
    const area = { width: 466, height: 391 };
    const picture = drawView(example('harbor-ferry-pod-drive'), 'layout', { room: roomOf(area) });
    const view = openingView('height', picture, area);
    expect(view.scale).toBeGreaterThanOrEqual(legibleScale);
    expect(picture.height * view.scale).toBeLessThanOrEqual(area.height + 1);
  });

  test.each([3, 5, 7])('the legend of %s phases is in sight in half a window', (phases) => {
    const subject = studied(
      `winding "Winch"\nmachine { slots ${8 * phases} poles 8 phases ${phases} }\nlayout { layers 2 span ${phases} }\nconnect { star }\n`,
    );
    const room = roomOf({ width: 466, height: 391 });
    const legend = flat(drawView(subject, 'layout', { room }).items).flatMap((item) =>
      item.kind === 'text' && item.role === 'legend-name' ? [item.x] : [],
    );
    expect(legend).toHaveLength(phases);
    expect(Math.max(...legend)).toBeLessThan(room.width - 3);
  });

  test.each([
    [288, 32, 8, 8],
    [96, 8, 6, 11],
    [54, 6, 4, 8],
  ])('so is that of %i slots, %i poles, %i layers: its crowns lean less', (slots, poles, layers, span) => {
    const text = `winding "Barrage" machine { slots ${slots} poles ${poles} phases 3 } layout { layers ${layers} span ${span} } connect { star route paths 2 }`;
    const area = { width: 466, height: 391 };
    const picture = drawView(studied(text), 'layout', { room: roomOf(area) });
    const view = openingView('height', picture, area);
    expect(view.scale).toBeGreaterThanOrEqual(legibleScale);
    expect(picture.height * view.scale).toBeLessThanOrEqual(1.1 * area.height);
  });

  test('more height makes longer bars, up to those on paper', () => {
    const subject = example('harbor-ferry-pod-drive');
    const heightOf = (height: number) => drawView(subject, 'layout', { room: { width: 200, height } }).height;
    expect(heightOf(130) - heightOf(115)).toBeCloseTo(15, 6);
    expect(heightOf(1000)).toBe(heightOf(2000));
  });
});

test('a view on paper tells number and revision of the drawing beside the title; a panel stands beside the text', () => {
  const text = `winding "Weir pump" machine { slots 12 poles 4 phases 3 bore 100 mm stack 60 mm }
    slot { width 6 mm depth 12 mm opening 2 mm } layout { layers 2 span 3 } connect { star }`;
  const wordsOf = (sheet: string, room?: { readonly width: number; readonly height: number }) => {
    const subject = studied(`${text} ${sheet}`);
    return (['layout', 'section'] as const).map((view) => {
      const picture = drawView(subject, view, { room });
      const words = flat(picture.items).flatMap((item) => (item.kind === 'text' ? [item.text] : []));
      return [picture.title, ...words].join('|');
    });
  };
  for (const words of wordsOf('sheet { number "EW-104" revision "B" }'))
    expect(words).toContain('|Weir pump, EW-104, revision B|');
  for (const words of wordsOf('sheet { revision "C" }')) expect(words).toContain('|Weir pump, revision C|');
  for (const words of wordsOf('')) expect(words).toContain('|Weir pump|');
  for (const words of wordsOf('sheet { number "EW-104" revision "B" }', { width: 120, height: 100 }))
    expect(words).not.toContain('EW-104');
});
