// Takes its time: draws many sheets.

import dxf from 'dxf';
import DxfParser, { type IEntity, type ITextEntity } from 'dxf-parser';
import { describe, expect, it, test } from 'vitest';
import { pictureToDxf } from '../../core/picture/dxf/writeDxf.ts';
import { pathShape, text } from '../../core/picture/make.ts';
import type { Picture, Primitive } from '../../core/picture/picture.ts';
import { layoutInput } from '../../core/views/layout/connectedLayout.ts';
import { sectionPicture } from '../../core/views/section/section.ts';
import { drawView } from '../../core/views/views.ts';
import { crossedDrive, ferryDrive, withLine } from '../copper/machines.ts';
import { sheetSet } from '../sheets/sheetSets.ts';
import { type Study, study } from '../support/study.ts';
import { withMore } from '../support/tries.ts';
import { flat } from './checkPicture.ts';

interface Point {
  readonly x: number;
  readonly y: number;
}

/** A file as dxf-parser reads it. */
function read(written: string) {
  const parsed = new DxfParser().parseSync(written);
  if (!parsed) throw new Error('dxf-parser reads nothing');
  const lines = (entities: readonly IEntity[]) =>
    entities.flatMap((entity) => ('vertices' in entity ? [(entity as { vertices: Point[] }).vertices] : []));
  const blockOf = (layer: string) => {
    const insert = parsed.entities.find((entity) => entity.type === 'INSERT' && entity.layer === layer);
    return lines(parsed.blocks[(insert as IEntity & { name: string }).name]!.entities);
  };
  return {
    header: parsed.header,
    texts: parsed.entities.filter((entity): entity is ITextEntity => entity.type === 'TEXT'),
    linesOn: blockOf,
  };
}

const away = (a: Point, b: Point) => Math.hypot(a.x - b.x, a.y - b.y);

/** Radius of the circle through three points. */
function radiusThrough(a: Point, b: Point, c: Point): number {
  const area = Math.abs((b.x - a.x) * (c.y - a.y) - (c.x - a.x) * (b.y - a.y)) / 2;
  return (away(a, b) * away(b, c) * away(c, a)) / (4 * area);
}

function drawn(studied: Study, scale?: number): Picture {
  const { facts, specification, title, winding } = studied;
  return sectionPicture({
    ...layoutInput(winding!, title, facts!.connection),
    specification,
    fullSize: true,
    scale,
  });
}

describe('the section in DXF is 1:1 in millimeters', () => {
  const ferry = study(ferryDrive);

  it.each(withMore([undefined, 0.5, 20], [1, 2, 5]))('whatever the scale of the picture: %s', (scale) => {
    const picture = drawn(ferry, scale);
    const written = pictureToDxf(picture, { phaseNames: ['U', 'V', 'W'] });
    const { header, linesOn } = read(written);
    expect(dxf.parseString(written).header).toMatchObject({ insUnits: 4, measurement: 1 });
    // The bar of slot 1, layer a: bare copper of 3.6 by 3 mm.
    const [bar] = linesOn('BAR-SECTION-U');
    expect(bar).toHaveLength(4);
    expect(away(bar![0]!, bar![1]!)).toBeCloseTo(3.6, 3);
    expect(away(bar![1]!, bar![2]!)).toBeCloseTo(3, 3);
    // A slot's edge, from the gap to its closed end and back: opening 1.2, 0.8 high, slot 4.6, 15.2 deep.
    const edges = linesOn('CORE-EDGE');
    const slot = edges[0]!;
    expect(slot).toHaveLength(8);
    expect(away(slot[0]!, slot[7]!)).toBeCloseTo(1.2, 3);
    expect(away(slot[1]!, slot[6]!)).toBeCloseTo(1.2, 3);
    expect(away(slot[2]!, slot[5]!)).toBeCloseTo(4.6, 3);
    expect(away(slot[3]!, slot[4]!)).toBeCloseTo(4.6, 3);
    expect(away(slot[2]!, slot[3]!)).toBeCloseTo(15.2, 3);
    // The bore: every arc between two openings lies on a circle of 162 mm.
    const arcs = edges.slice(12).filter((points) => points.length > 4);
    expect(arcs.length).toBeGreaterThan(10);
    for (const points of arcs) {
      const middle = points[Math.floor(points.length / 2)]!;
      // Vertices are written to a tenth of a micrometer; the arcs are 10 mm long.
      expect(2 * radiusThrough(points[0]!, middle, points.at(-1)!)).toBeCloseTo(162, 0);
      // A straight line between two vertices leaves the circle by less than a micrometer.
      const [a, b] = [points[0]!, points[1]!];
      expect(away(a, b) ** 2 / (8 * 81)).toBeLessThan(1e-3);
    }
    // The bore again, over all twelve slots.
    const ends = arcs.map((points) => points[0]!);
    expect(2 * radiusThrough(ends[0]!, ends[5]!, ends.at(-1)!)).toBeCloseTo(162, 1);
    const extent = header.$EXTMAX as unknown as Point;
    expect(extent.x).toBeCloseTo(picture.width / picture.scale!, 3);
    expect(extent.y).toBeCloseTo(picture.height / picture.scale!, 3);
  });

  it('letters keep their proportion, and the words tell the size in the file', () => {
    const picture = drawn(ferry);
    const { texts } = read(pictureToDxf(picture));
    const subtitle = texts.find(({ layer }) => layer === 'SUBTITLE')!;
    expect(picture.scale).toBe(2);
    expect(subtitle.text).toContain('1:1 in millimeters, letters for prints at 2:1');
    // Capitals of 1.8 mm on paper at 2:1.
    expect(subtitle.textHeight).toBeCloseTo((2.5 * 1493) / 2048 / 2, 3);
    expect(subtitle.endPoint.x - subtitle.startPoint.x).toBeCloseTo(
      flat(picture.items).flatMap((item) =>
        item.id === 'facts' && item.kind === 'text' ? [item.width] : [],
      )[0]! / 2,
      3,
    );
    expect(texts.map((each) => each.text).join(' ')).not.toMatch(/scale \d/);
  });

  it('bore and outside of two gaps, with slot rows of their own', () => {
    const picture = drawn(study(crossedDrive));
    const edges = read(pictureToDxf(picture)).linesOn('CORE-EDGE');
    const radii = edges
      .filter((points) => points.length > 20)
      .map((points) => radiusThrough(points[0]!, points[Math.floor(points.length / 2)]!, points.at(-1)!));
    for (const wanted of [81, 99.6])
      expect(radii.filter((radius) => Math.abs(radius - wanted) < 0.05).length).toBeGreaterThan(10);
  });

  it('on paper the same view tells its scale there', () => {
    const { facts, specification, title } = ferry;
    const paper = drawView({ title, specification, facts: facts! }, 'section');
    const file = drawView({ title, specification, facts: facts! }, 'section', { fullSize: true });
    const subtitle = (picture: Picture) =>
      flat(picture.items).flatMap((item) =>
        item.id === 'facts' && item.kind === 'text' ? [item.text] : [],
      )[0];
    expect(subtitle(paper)).toMatch(/, scale 2:1$/);
    expect(subtitle(file)).toMatch(/, 1:1 in millimeters, letters for prints at 2:1$/);
    expect([paper.width, paper.height > 0, paper.scale]).toEqual([file.width, true, file.scale]);
  });
});

test('a section that lacks sizes is not to scale, in DXF as on paper', () => {
  const picture = drawn(study(withLine(ferryDrive, 'bore', null)));
  expect(picture.scale).toBeUndefined();
  const { header, texts } = read(pictureToDxf(picture));
  expect((header.$EXTMAX as unknown as Point).x).toBeCloseTo(picture.width, 3);
  const subtitle = texts.find(({ layer }) => layer === 'SUBTITLE')!;
  expect(subtitle.text).toMatch(/, not to scale$/);
  expect(subtitle.textHeight).toBeCloseTo((2.5 * 1493) / 2048, 3);
});

test.each(['layout', 'phasors', 'field', 'copper', 'operation', 'space'] as const)(
  '%s is as large as on paper, and claims no scale',
  (view) => {
    const { facts, specification, title } = study(ferryDrive);
    const picture = drawView({ title, specification, facts: facts! }, view, { fullSize: true, coarse: true });
    expect(picture.scale).toBeUndefined();
    const { header } = read(pictureToDxf(picture));
    expect((header.$EXTMAX as unknown as Point).x).toBeCloseTo(picture.width, 3);
    const words = flat(picture.items).flatMap((item) => (item.kind === 'text' ? [item.text] : []));
    expect(words.join(' ')).not.toMatch(/\b\d+:1\b/);
  },
);

test('sheets are as large as on paper; they say which figures are to scale', () => {
  const pair = ferryDrive
    .replace('slots 48', 'slots 12')
    .replace('poles 8', 'poles 2')
    .replace('bore 162 mm', 'bore 40.5 mm');
  const { pages } = sheetSet(pair);
  for (const page of pages) expect(page.scale).toBeUndefined();
  const { header, texts } = read(pictureToDxf(pages));
  expect((header.$EXTMAX as unknown as Point).x).toBeCloseTo(pages.length * 420 + (pages.length - 1) * 20, 3);
  const words = texts.map((each) => each.text);
  expect(words.join(' ')).toContain(
    'Figures are to scale only where a scale stands at them. In CAD files a unit is a millimeter of the sheet.',
  );
  // Each figure to scale names its scale.
  const scaled = words.filter((each) => /\d:\d/.test(each));
  expect(scaled.map((each) => each.replace(/,? [\d.]+:[\d.]+$/, ''))).toEqual([
    'Slot with its bars',
    'Both ends in radial section',
    'Crown a - b, side view',
    'Crown c - d, side view',
  ]);
  for (const page of pages)
    for (const item of flat(page.items))
      if (item.kind === 'text' && item.role === 'heading' && /sketch|layout/i.test(item.text))
        expect(item.text).toContain('not to scale');
});

test('pictures of different scales stand side by side, each in full size, dashes in proportion', () => {
  const items: Primitive[] = [
    { kind: 'line', id: 'l', role: 'frame', x1: 0, y1: 0, x2: 10, y2: 30 },
    { kind: 'arc', id: 'c', role: 'frame', x: 5, y: 5, radius: 2, from: 0, to: 360 },
    { kind: 'polyline', id: 'p', role: 'cut-edge', points: [0, 0, 10, 0, 10, 10] },
    { kind: 'polygon', id: 'g', role: 'frame', points: [0, 0, 4, 0, 4, 4] },
    pathShape('two', 'cut-edge', [
      [0, 0, 5, 5],
      [0, 5, 5, 0],
    ]),
    text('t', 'note', 0, 10, 'words'),
  ];
  const picture = (scale?: number): Picture => ({
    width: 40,
    height: 30,
    title: 'A picture',
    description: 'Something drawn',
    items,
    scale,
  });
  const written = pictureToDxf([picture(), picture(4)]);
  const parsed = new DxfParser().parseSync(written)!;
  const all = parsed.entities as (IEntity & {
    vertices?: Point[];
    radius?: number;
    textHeight?: number;
    lineTypeScale?: number;
  })[];
  const [paper, full] = [all.slice(0, all.length / 2), all.slice(all.length / 2)];
  const line = ({ vertices }: (typeof all)[number]) => vertices!.map(({ x, y }) => [x, y]);
  expect(line(paper[0]!)).toEqual([
    [0, 30],
    [10, 0],
  ]);
  // A quarter of the size, from 60 mm on; both stand on the same line.
  expect(line(full[0]!)).toEqual([
    [60, 7.5],
    [62.5, 0],
  ]);
  expect([paper[1]!.radius, full[1]!.radius]).toEqual([2, 0.5]);
  expect(full.at(-1)!.textHeight! / paper.at(-1)!.textHeight!).toBeCloseTo(0.25, 4);
  expect([paper[2]!.lineTypeScale, full[2]!.lineTypeScale]).toEqual([undefined, 0.25]);
  expect(full[0]!.lineTypeScale).toBeUndefined();
});

test('a scale that is no scale is refused', () => {
  const picture = { width: 1, height: 1, title: '', description: '', items: [], scale: 0 };
  expect(() => pictureToDxf(picture)).toThrow(RangeError);
});
