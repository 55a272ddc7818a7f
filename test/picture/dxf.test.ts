// Takes its time: draws whole windings and reads them back.

import dxf from 'dxf';
import DxfParser, { type IEntity, type ITextEntity } from 'dxf-parser';
import { describe, expect, test } from 'vitest';
import { cadWords, textPieces } from '../../core/picture/dxf/text.ts';
import { pictureToDxf } from '../../core/picture/dxf/writeDxf.ts';
import { filledShape, pathShape, text } from '../../core/picture/make.ts';
import { phaseStyle } from '../../core/picture/phaseStyle.ts';
import type { Picture, Primitive, Text } from '../../core/picture/picture.ts';
import { phaseOfCell } from '../../core/winding/model.ts';
import { farthest } from '../support/near.ts';
import { flat } from './checkPicture.ts';
import { example, hostileWords } from './fileFormats.ts';

function pictureOf(items: readonly Primitive[], title = 'A picture'): Picture {
  return { width: 40, height: 30, title, description: 'Something drawn', items };
}

/** Both readers' entities of the model. */
function readBoth(written: string) {
  const one = new DxfParser().parseSync(written);
  if (!one) throw new Error('dxf-parser reads nothing');
  return { parser: one, other: dxf.parseString(written) };
}

/** The groups of a DXF file: a line with a number, a line with its value. Throws where one is missing. */
function groupsOf(written: string): readonly (readonly [number, string])[] {
  const lines = written.replace(/\n$/, '').split('\n');
  if (lines.length % 2 !== 0) throw new Error('an odd number of lines');
  return Array.from({ length: lines.length / 2 }, (_, index) => {
    const code = lines[2 * index]!;
    if (!/^\d{1,4}$/.test(code)) throw new Error(`line ${2 * index + 1} is no group code: ${code}`);
    return [Number(code), lines[2 * index + 1]!] as const;
  });
}

function countByLayer(entities: readonly { readonly layer: string }[]): Readonly<Record<string, number>> {
  const counts: Record<string, number> = {};
  for (const { layer } of entities) counts[layer] = (counts[layer] ?? 0) + 1;
  return counts;
}

const jointLayers = ['JOINT', 'SPECIAL-JOINT', 'CONNECTING-PIECE'];

describe.each(['harbor-ferry-pod-drive', 'tidal-pump', 'lock-gate-winch', 'bow-thruster'])('%s', (name) => {
  const { picture, winding, facts } = example(name);
  const { names } = winding!.phases;
  const written = pictureToDxf(picture, { phaseNames: names });
  const { parser, other } = readBoth(written);

  test.each([
    ['dxf-parser', parser.entities as readonly { readonly layer: string }[]],
    ['dxf', other.entities],
  ])('%s counts the bars, joints and leads of every phase of the winding', (_, entities) => {
    const counts = countByLayer(entities);
    const connection = facts!.connection;
    const connected = connection.kind === 'connected' ? connection.facts.joints() : null;
    names.forEach((phaseName, phase) => {
      const bars = winding!.table.cells.filter((cell) => phaseOfCell(cell) === phase).length;
      expect(counts[`BAR-${phaseName}`]).toBe(bars);
      const joints = jointLayers.reduce((sum, layer) => sum + (counts[`${layer}-${phaseName}`] ?? 0), 0);
      expect(joints).toBe(connected?.joints.filter((joint) => joint.phase === phase).length ?? 0);
      for (const [layer, kind] of [
        ['LEAD', 'lead'],
        ['STAR-POINT', 'star'],
      ] as const)
        expect(counts[`${layer}-${phaseName}`] ?? 0).toBe(
          connected?.ends.filter((end) => end.phase === phase && end.kind === kind).length ?? 0,
        );
    });
  });

  test('every text stands at its place, as wide as in the picture', () => {
    const texts = flat(picture.items).filter((item): item is Text => item.kind === 'text');
    const read = parser.entities.filter((entity): entity is ITextEntity => entity.type === 'TEXT');
    expect(read.length).toBe(texts.length);
    const shares = { start: 0, middle: 0.5, end: 1 };
    expect(read.map(({ text }) => text)).toEqual(texts.map((item) => cadWords(item.text)));
    const found = read.flatMap(({ startPoint, endPoint }) => [
      startPoint.x,
      startPoint.y,
      endPoint.x - startPoint.x,
    ]);
    const wanted = texts.flatMap((item) => [
      item.x - shares[item.anchor] * item.width,
      picture.height - item.y,
      item.width,
    ]);
    expect(farthest(found, wanted)).toBeLessThan(5e-4);
    // ISO 3098: height of capitals, of ordinary text at least 1.8 mm.
    expect(Math.min(...read.map(({ textHeight }) => textHeight))).toBeGreaterThan(1.8);
    expect(written).not.toMatch(/[^\u0020-\u024f\n]/);
  });

  test('bars lie where the picture has them, y upwards', () => {
    const blocks = new Map(other.blocks.map((block) => [block.name, block.entities]));
    const bars = flat(picture.items).filter(({ role }) => role === 'bar');
    const inserts = other.entities.filter(
      ({ layer }) => layer.startsWith('BAR-') && !layer.includes('LABEL'),
    );
    const references = inserts.filter(({ type }) => type === 'INSERT');
    expect(references.length).toBe(bars.length);
    const away = bars.filter((bar, index) => {
      if (bar.kind !== 'path') throw new Error(`${bar.id} is no path`);
      const reference = references[index]!;
      const lines = blocks.get(reference.block!) as unknown as readonly Record<'start' | 'end', Point>[];
      const points = lines.flatMap(({ start, end }) => [start.x, start.y, end.x, end.y]);
      const expected = bar.parts.flat().map((value, at) => (at % 2 === 0 ? value : picture.height - value));
      return !(reference.block!.endsWith(`-${bar.id}`) && farthest(points, expected) < 5e-4);
    });
    expect(away.map(({ id }) => id)).toEqual([]);
  });

  test('layers carry line type, line width and color of their phase', () => {
    names.forEach((phaseName, phase) => {
      const { dashes, color } = phaseStyle(phase);
      const layer = other.tables.layers[`BAR-${phaseName}`]!;
      expect(layer.lineWeightEnum).toBe('50');
      const pattern = other.tables.ltypes[layer.lineTypeName]!.pattern.map(({ length }) => length);
      expect(pattern).toEqual(dashes.map((length, index) => (index % 2 === 0 ? length : -length)));
      expect(trueColors(written)[`BAR-${phaseName}`]).toBe(color);
    });
  });
});

interface Point {
  readonly x: number;
  readonly y: number;
}

/** True colors of the layers, by layer name. */
function trueColors(written: string): Readonly<Record<string, string>> {
  const colors: Record<string, string> = {};
  let [inLayer, name] = [false, ''];
  for (const [code, value] of groupsOf(written)) {
    if (code === 0) inLayer = value === 'LAYER';
    if (inLayer && code === 2) name = value;
    if (inLayer && code === 420) colors[name] = `#${Number(value).toString(16).padStart(6, '0')}`;
  }
  return colors;
}

test('the file is in millimeters, metric, with its extent', () => {
  const { picture } = example('tidal-pump');
  const { parser, other } = readBoth(pictureToDxf(picture));
  expect(other.header).toMatchObject({ insUnits: 4, measurement: 1 });
  expect(parser.header.$ACADVER).toBe('AC1021');
  const extent = parser.header.$EXTMAX as Point;
  expect([extent.x, extent.y]).toEqual([expect.closeTo(picture.width, 3), expect.closeTo(picture.height, 3)]);
  expect(other.tables.styles.iso3098?.primaryFontFileName).toBe('isocpeur.ttf');
});

test('pictures stand side by side', () => {
  const line = { kind: 'line', id: 'l', role: 'frame', x1: 0, y1: 0, x2: 10, y2: 30 } as const;
  const { parser } = readBoth(pictureToDxf([pictureOf([line]), pictureOf([line])]));
  const vertices = parser.entities.map((entity) => (entity as IEntity & { vertices: Point[] }).vertices);
  expect(vertices.map((points) => points.map(({ x, y }) => [x, y]))).toEqual([
    [
      [0, 30],
      [10, 0],
    ],
    [
      [60, 30],
      [70, 0],
    ],
  ]);
});

test('without names, phases are numbered', () => {
  const bar = pathShape('b', 'bar', [[0, 0, 1, 1]], { phase: 2 });
  expect(readBoth(pictureToDxf(pictureOf([bar]))).other.entities[0]!.layer).toBe('BAR-3');
});

test('every kind of primitive is one entity', () => {
  const common = { role: 'frame' as const };
  const items: Primitive[] = [
    { ...common, kind: 'line', id: 'l', x1: 1, y1: 2, x2: 3, y2: 0 },
    { ...common, kind: 'polyline', id: 'pl', points: [0, 0, 1, 1, 2, 0] },
    { ...common, kind: 'polygon', id: 'pg', points: [0, 0, 1, 1, 2, 0] },
    { ...common, kind: 'arc', id: 'c', x: 5, y: 5, radius: 2, from: 0, to: 360 },
    { ...common, kind: 'arc', id: 'a', x: 5, y: 5, radius: 2, from: 0, to: 270 },
    filledShape('p', 'bar-arrow', [[0, 0, 1, 1, 2, 0]], { phase: 1, emphasis: 'faded' }),
    pathShape('two', 'bar', [
      [0, 0, 1, 1],
      [2, 2, 3, 3],
    ]),
    text('t', 'note', 1, 1, 'words', { anchor: 'end' }),
    text('symbols', 'note', 1, 5, '⌀12 ⊙⊗'),
  ];
  const { other, parser } = readBoth(pictureToDxf(pictureOf(items)));
  expect(other.entities.map(({ type }) => type)).toEqual([
    'LINE',
    'LWPOLYLINE',
    'HATCH',
    'CIRCLE',
    'ARC',
    'HATCH',
    'INSERT',
    'TEXT',
    'INSERT',
  ]);
  // Three quarters, clockwise on paper from the right to the top: from 90 to 360 degrees against the clock.
  const arc = parser.entities.find(({ type }) => type === 'ARC') as unknown as Record<string, number>;
  expect(arc.startAngle).toBeCloseTo(Math.PI / 2, 6);
  expect(arc.endAngle! % (2 * Math.PI)).toBeCloseTo(0, 6);
  const symbols = other.blocks.at(-1)!;
  expect(symbols.entities.map(({ type }) => type)).toEqual([
    'CIRCLE',
    'LINE',
    'TEXT',
    'CIRCLE',
    'LWPOLYLINE',
    'CIRCLE',
    'LINE',
    'LINE',
  ]);
});

test('strong and faded parts differ from their layer', () => {
  const bar = (id: string, emphasis?: 'strong' | 'faded') =>
    pathShape(id, 'bar', [[0, 0, 1, 1]], { phase: 1, emphasis });
  const groups = groupsOf(
    pictureToDxf(pictureOf([bar('plain'), bar('strong', 'strong'), bar('faded', 'faded')])),
  );
  const starts = groups.flatMap(([code, value], index) => (code === 0 && value === 'LINE' ? [index] : []));
  const ofEntity = (start: number, code: number) => {
    const end = groups.findIndex(([each], index) => index > start && each === 0);
    return groups.slice(start, end).find(([each]) => each === code)?.[1];
  };
  expect(starts.map((start) => ofEntity(start, 370))).toEqual([undefined, '90', undefined]);
  // 30 % of #d55e00 on white.
  expect(starts.map((start) => ofEntity(start, 420))).toEqual([undefined, undefined, String(0xf2cfb3)]);
});

test('a tint is a light area with its outline, together one entity', () => {
  const section = filledShape('s', 'bar-section', [[0, 0, 5, 0, 5, 5]], { phase: 1 });
  const written = pictureToDxf(pictureOf([section]));
  const { other } = readBoth(written);
  expect(other.entities.map(({ type, layer }) => [type, layer])).toEqual([['INSERT', 'BAR-SECTION-2']]);
  expect(other.blocks.at(-1)!.entities.map(({ type }) => type)).toEqual(['HATCH', 'LWPOLYLINE']);
  const groups = groupsOf(written);
  const hatch = groups.findIndex(([code, value]) => code === 0 && value === 'HATCH');
  // A quarter of #d55e00 on white: 255 - 0.25 x (255 - c).
  expect(groups.slice(hatch).find(([code]) => code === 420)![1]).toBe(String(0xf5d7bf));
});

test('turned texts keep their two ends', () => {
  const turned: Text = { ...text('t', 'note', 20, 10, 'turned'), angle: 90 };
  const [entity] = readBoth(pictureToDxf(pictureOf([turned]))).parser.entities as ITextEntity[];
  expect(entity!.rotation).toBe(270);
  expect([entity!.startPoint.x, entity!.startPoint.y]).toEqual([20, 20]);
  expect(entity!.endPoint.x).toBeCloseTo(20, 3);
  expect(entity!.endPoint.y).toBeCloseTo(20 - turned.width, 3);
});

test('words hold nothing that CAD would take for a code', () => {
  expect(cadWords('50 % of %%u')).toBe('50 %%% of %%%%%%u');
  expect(cadWords('50 %')).toBe('50 %');
  expect(cadWords('^J \\U+0041 \\P')).toBe('^ J \\U+005CU+0041 \\P');
  expect(cadWords('−U → Ωμ')).toBe('-U -> Ωμ');
});

test('long texts are cut without loss', () => {
  const long = text('t', 'note', 0, 0, 'winding '.repeat(200).trim());
  const pieces = textPieces(long);
  expect(pieces.map(({ words }) => words).join('')).toBe(long.text);
  expect(Math.max(...pieces.map(({ words }) => words.length))).toBe(250);
  const last = pieces.at(-1)!;
  expect(last.start + last.width).toBeCloseTo(long.width, 6);
});

test('hostile words change nothing but themselves', () => {
  const items = [text('t">\n0', 'title', 1, 5, hostileWords), text('after', 'note', 1, 20, 'after')];
  const written = pictureToDxf(pictureOf(items, hostileWords), { phaseNames: ['U'] });
  const groups = groupsOf(written);
  expect(groups.filter(([code, value]) => code === 0 && value === 'EOF').length).toBe(1);
  expect(groups.at(-1)).toEqual([0, 'EOF']);
  expect(written).not.toMatch(/[\u0000-\u0009\u000b-\u001f\u007f-\u009f\u2028\u2029]|\p{Surrogate}/u);
  const { parser, other } = readBoth(written);
  expect(other.entities.length).toBe(2);
  expect((parser.entities.at(-1) as ITextEntity).text).toBe('after');
});

test('the same pictures give the same text', () => {
  const once = () => pictureToDxf([example('tidal-pump').picture, example('bow-thruster').picture]);
  expect(once()).toBe(once());
});

test('numbers that are not finite are refused, a drawing without anything is not', () => {
  const line = { kind: 'line', id: 'l', role: 'frame', x1: Number.NaN, y1: 2, x2: 3, y2: 4 } as const;
  expect(() => pictureToDxf(pictureOf([line]))).toThrow(RangeError);
  expect(readBoth(pictureToDxf([])).other.entities).toEqual([]);
});
