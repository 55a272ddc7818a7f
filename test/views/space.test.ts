// Takes its time: draws bars in space.

import { describe, expect, test } from 'vitest';
import { finished } from '../../core/figures/steps.ts';
import { textBox } from '../../core/picture/bounds.ts';
import type { PathShape, Picture } from '../../core/picture/picture.ts';
import { pictureToSvg } from '../../core/picture/svg.ts';
import type { Vector } from '../../core/space/vectors.ts';
import { study as studyAnew } from '../../core/study.ts';
import { stretchesOf, stretchMeets } from '../../core/views/chart/labels.ts';
import { bodySteps } from '../../core/views/space/bodies.ts';
import { cameraAt } from '../../core/views/space/camera.ts';
import { outlineSteps, rasterOf } from '../../core/views/space/visible.ts';
import { drawView } from '../../core/views/views.ts';
import { barName } from '../../core/winding/model.ts';
import { flat, troublesOf } from '../picture/checkPicture.ts';
import { machineText } from '../space/machines.ts';
import { study } from '../support/study.ts';

const common = { slots: 12, poles: 4, paths: 2, filled: 0.45, slender: 0.8 };
const ringed = machineText({
  ...common,
  layers: 2,
  form: 'hairpin',
  gap: 'inner',
  lean: [0, 0],
  bar: 'bend-radius 3 mm flat 2 mm lead-length 15 mm ring-width 6 mm ring-height 4 mm',
  connect: 'rings star',
});
const crossed = machineText({ ...common, poles: 2, layers: 4, form: 'straight', gap: 'both', lean: [1, -1] });

function drawing(text: string, options = {}, studied = study): Picture {
  const { title, specification, facts } = studied(text);
  return drawView({ title, specification, facts: facts! }, 'space', options);
}

const shapes = (picture: Picture): readonly PathShape[] =>
  flat(picture.items).filter((item): item is PathShape => item.kind === 'path');

/** The element of each bar that is seen. */
const barShapes = (picture: Picture) =>
  new Map(
    shapes(picture).flatMap((shape) =>
      shape.subject && 'bar' in shape.subject ? [[shape.subject.bar, shape] as const] : [],
    ),
  );

describe.each([
  ['hairpins with a star ring', ringed],
  ['crossed bars', crossed],
])('the picture of %s', (_, text) => {
  const picture = drawing(text, { coarse: true });

  test('is whole: in its frame, with ids of its own, one element for each bar that is seen', () => {
    expect(troublesOf(picture)).toEqual([]);
    const bars = shapes(picture).filter(({ subject }) => subject && 'bar' in subject);
    expect(new Set(bars.map(({ id }) => id)).size).toBe(bars.length);
    expect(picture.description).toContain(`${bars.length} of them in sight`);
    expect(bars.length).toBeGreaterThan(20);
    expect(pictureToSvg(picture)).toContain('data-bar="1a"');
  });

  test('is the same for the same text, and finer when it need not be quick', () => {
    expect(pictureToSvg(drawing(text, { coarse: true }, studyAnew))).toBe(pictureToSvg(picture));
    const fine = drawing(text);
    expect(Math.abs(barShapes(fine).size - barShapes(picture).size)).toBeLessThan(4);
    const count = (each: Picture) => shapes(each).reduce((sum, { parts }) => sum + parts.flat().length, 0);
    expect(count(fine)).toBeGreaterThan(count(picture));
  });

  test('shows what no other face hides, by rays through all faces', () => {
    const { facts } = study(text);
    const figure = facts!.space().space;
    if (!figure.known || facts!.connection.kind !== 'connected') throw new RangeError();
    const bodies = finished(bodySteps(figure.value, facts!.connection.facts, 3e-4));
    const camera = cameraAt(-0.6, 0.5);
    const seen = (at: Vector): Vector => [
      dot(at, camera.right),
      -dot(at, camera.up),
      dot(at, camera.towards),
    ];
    const faces = bodies.flatMap(({ faces: sides, turn, thing }) =>
      sides.flatMap((quads) =>
        quads.flatMap((quad) => {
          const [a, b, c, d] = quad.map((corner) => seen(turned(corner, turn))) as [
            Vector,
            Vector,
            Vector,
            Vector,
          ];
          const name = thing.kind === 'bar' ? barName(thing.bar) : thing.kind;
          return [
            { name, corners: [a, b, c] as const },
            { name, corners: [a, c, d] as const },
          ];
        }),
      ),
    );
    /** What a ray towards the eye's picture meets first. */
    const front = (x: number, y: number): string => {
      let [nearest, name] = [Number.NEGATIVE_INFINITY, ''];
      for (const { name: own, corners } of faces) {
        const near = nearAt(corners, x, y);
        if (near !== null && near > nearest) [nearest, name] = [near, own];
      }
      return name;
    };
    // Paper from space, by two corners of the stack's outline and all bars' extent.
    const shown = barShapes(picture);
    const all = faces.flatMap(({ corners }) => corners);
    const paper = shapes(picture).filter(
      ({ role }) => role === 'bar-section' || role === 'core' || role === 'space-ring',
    );
    const drawn = paper.filter(({ id }) => !id.startsWith('legend')).flatMap(({ parts }) => parts.flat());
    const [xs, ys] = [drawn.filter((__, i) => i % 2 === 0), drawn.filter((__, i) => i % 2 === 1)];
    const span = (values: readonly number[]) => [least(values), most(values)] as const;
    const [[x0, x1], [y0, y1]] = [span(xs), span(ys)];
    const [[u0, u1], [v0, v1]] = [span(all.map(([x]) => x)), span(all.map(([, y]) => y))];
    // By the longer extent: outlines are true to a pixel or so, which over the shorter one makes half a millimeter of the longer.
    const [across, along] = [(x1 - x0) / (u1 - u0), (y1 - y0) / (v1 - v0)];
    const scale = v1 - v0 > u1 - u0 ? along : across;
    expect(Math.abs((scale === along ? across : along) / scale - 1)).toBeLessThan(0.01);
    let compared = 0;
    for (let step = 0; step < 90; step++) {
      // Points of a lattice that no row of pixels lies along.
      const [u, v] = [u0 + (u1 - u0) * ((step * 0.618034) % 1), v0 + (v1 - v0) * ((step * 0.754878) % 1)];
      const name = front(u, v);
      const aside = 0.5 / scale;
      const about = [-aside, aside].flatMap((by) => [[u + by, v] as const, [u, v + by] as const]);
      if (!shown.has(name) || about.some((at) => front(...at) !== name)) continue;
      const [x, y] = [x0 + (u - u0) * scale, y0 + (v - v0) * scale];
      const holders = [...shown].flatMap(([bar, { parts }]) => (windings(parts, x, y) === 0 ? [] : [bar]));
      expect(holders, `${u} ${v}`).toEqual([name]);
      compared++;
    }
    expect(compared).toBeGreaterThan(8);
  });
});

test('leads and rings are named, and stand for their terminals', () => {
  const picture = drawing(ringed, { coarse: true });
  const texts = flat(picture.items).flatMap((item) =>
    item.kind === 'text' && item.role === 'terminal-name' ? [item.text] : [],
  );
  expect(texts).toContain('N');
  expect(texts.some((words) => /^[UVW]1$/.test(words))).toBe(true);
  const svg = pictureToSvg(picture);
  expect(svg).toContain('data-terminal="U1"');
  expect(picture.description).toContain('rings N');
});

test('a ring that is too narrow on paper for its name has it at the end of a line', () => {
  const narrow = ringed.replace('ring-width 6 mm ring-height 4 mm', 'ring-width 1 mm ring-height 1 mm');
  const [onRing, led] = [ringed, narrow].map((text) => flat(drawing(text, { coarse: true }).items));
  const find = (items = onRing!, id = '') => items.find((item) => item.id === id);
  expect(find(onRing, 'ring-name-N')).toMatchObject({ text: 'N', subject: { star: 'N' } });
  expect(find(onRing, 'ring-leader-N')).toBeUndefined();
  const name = find(led, 'ring-name-N');
  const line = find(led, 'ring-leader-N');
  const ring = find(led, 'ring-connection-N');
  if (name?.kind !== 'text' || line?.kind !== 'path' || ring?.kind !== 'path') throw new Error('not drawn');
  expect(name).toMatchObject({ text: 'N', subject: { star: 'N' } });
  const [x1, y1, x2, y2] = line.parts[0]!;
  const toRing = Math.min(
    ...ring.parts.flatMap((part) =>
      part.flatMap((x, at) => (at % 2 === 0 ? [Math.hypot(x - x1!, part[at + 1]! - y1!)] : [])),
    ),
  );
  expect(toRing).toBeLessThan(3);
  expect(Math.hypot(x2! - name.x, y2! - name.y)).toBeLessThan(3);
  expect(stretchMeets([x1!, y1!, x2!, y2!], textBox(name))).toBe(false);
});

test('a phase stands out, the rest steps back', () => {
  const picture = drawing(ringed, { coarse: true, emphasis: { phase: 1 } });
  for (const { phase, emphasis, subject } of shapes(picture))
    if (subject && 'bar' in subject) expect(emphasis).toBe(phase === 1 ? 'strong' : 'faded');
});

describe('bar ends that collide', () => {
  const text = machineText({
    ...common,
    layers: 2,
    form: 'hairpin',
    gap: 'inner',
    lean: [0, 0],
    filled: 0.42,
    bar: 'bend-radius 4.5 mm flat 8 mm',
  });
  const marksOf = (picture: Picture, role: string) => shapes(picture).filter((shape) => shape.role === role);
  const letters = (picture: Picture) =>
    flat(picture.items).flatMap((item) =>
      item.kind === 'text' && item.role === 'fault-name' ? [item.text] : [],
    );

  test('are marked with a letter beside the bars, which the notes explain', () => {
    const picture = drawing(text, { coarse: true });
    expect(troublesOf(picture)).toEqual([]);
    expect(marksOf(picture, 'fault-mark').length).toBeGreaterThan(0);
    const written = flat(picture.items).flatMap((item) => (item.kind === 'text' ? [item.text] : []));
    for (const letter of letters(picture)) {
      expect(written.some((words) => words.startsWith(`${letter}: the `))).toBe(true);
      expect(picture.description).toContain(` ${letter}: the `);
    }
    expect(letters(picture)[0]).toBe('A');
    expect(picture.description).toMatch(
      /A: the \w+ of \d+[ab] and the \w+ of \d+[ab], far side: [\d.]+ mm into each other/,
    );
    const bars = shapes(picture).filter(({ subject }) => subject && 'bar' in subject);
    // Letters stand beside all bars.
    for (const item of flat(picture.items))
      if (item.kind === 'text' && item.role === 'fault-name')
        for (const bar of bars) expect(windings(bar.parts, item.x, item.y - 0.9)).toBe(0);
  });

  test('are no faults where the bend radius is assumed, and none are marked where all is clear', () => {
    const assumed = drawing(text.replace(/bend-radius.*flat 8 mm/, ''), { coarse: true });
    expect(marksOf(assumed, 'fault-mark')).toEqual([]);
    const clear = drawing(ringed.replace('rings star', ''), { coarse: true });
    expect(letters(clear)).toEqual([]);
    expect(clear.description).not.toContain('A: ');
  });
});

test('in a narrow picture names of leads stay within it, and clear of the marks of collisions', () => {
  const text = `winding "Fender winch"
machine { slots 24  poles 4  phases 6 apart 30 edeg  bore 77 mm  stack 90 mm }
slot { width 3.33 mm  depth 8 mm  opening 1.2 mm  opening-height 0.8 mm  liner 0.25 mm }
bar { width 2.33 mm  height 1.75 mm  form hairpin  bend-radius 6 mm flat 4 mm
  end-straight 6 mm  end-clearance 0.6 mm  joint-straight 6 mm  lead-length 30 mm }
layout { layers 2  span 6 }
connect { open  specials either  route paths 2 least voltage }
`;
  const picture = drawing(text, { coarse: true, room: { width: 90, height: 120 } });
  expect(troublesOf(picture)).toEqual([]);
  const names = flat(picture.items).flatMap((item) =>
    item.kind === 'text' && item.id.startsWith('lead-name-') ? [item] : [],
  );
  const marks = shapes(picture).filter(({ id }) => id.startsWith('place-'));
  const strokes = marks.flatMap(({ parts }) => parts.flatMap(stretchesOf));
  expect([names.length > 8, strokes.length > 0]).toEqual([true, true]);
  const struck = names.filter((name) => strokes.some((stroke) => stretchMeets(stroke, textBox(name))));
  expect(struck.map(({ id }) => id)).toEqual([]);
});

test('without sizes it says what they are', () => {
  const picture = drawing(`winding "Sluice"
machine { slots 12 poles 2 phases 3 }
layout { layers 2 span 5 }
connect { star }
`);
  expect(picture.description).toMatch(/^Not drawn: the bars in space need .*machine stack/);
  expect(troublesOf(picture)).toEqual([]);
});

test('the eye looks the right way: slots rise clockwise as seen from the connection side', () => {
  const { right, up, towards } = cameraAt(0, Math.PI / 2);
  // From far above the connection side, at negative z.
  expect(towards.map((value) => Math.round(value) + 0)).toEqual([0, 0, -1]);
  const [x, y] = [dot([0.8, 0.6, 0], right), dot([0.8, 0.6, 0], up)];
  const [x0, y0] = [dot([1, 0, 0], right), dot([1, 0, 0], up)];
  expect(x0 * y - y0 * x).toBeLessThan(0);
});

test('an outline goes round its area, a hole the other way, and nothing is lost', () => {
  const raster = rasterOf(40, 40);
  const square = (face: number, from: number, to: number, near: number) =>
    raster.quad(face, [from, to, near], [to, to, near], [to, from, near], [from, from, near]);
  square(1, 5, 35, 0);
  square(2, 15, 25, 1);
  square(3, 16, 24, -1);
  const outlines = finished(outlineSteps(raster.visibility(), 0.6, 1));
  const areas = [...outlines].map(([face, own]) => [face, own.map(area)] as const);
  const found = new Map(areas);
  expect(found.has(3)).toBe(false);
  // Sides lie within half a pixel or so.
  expect(Math.abs(Math.abs(found.get(2)![0]!) - 100)).toBeLessThan(12);
  expect(found.get(1)).toHaveLength(2);
  const [outer, hole] = [...found.get(1)!].sort((a, b) => Math.abs(b) - Math.abs(a)) as [number, number];
  expect(Math.sign(outer)).toBe(-Math.sign(hole));
  expect(Math.abs(Math.abs(outer) - 900)).toBeLessThan(36);
  expect(Math.abs(Math.abs(hole) - 100)).toBeLessThan(12);
});

function area(points: readonly number[]): number {
  let sum = 0;
  for (let i = 0; i < points.length; i += 2) {
    const j = (i + 2) % points.length;
    sum += points[i]! * points[j + 1]! - points[j]! * points[i + 1]!;
  }
  return sum / 2;
}

function dot(a: Vector, b: Vector): number {
  return a[0] * b[0] + a[1] * b[1] + a[2] * b[2];
}

function turned([x, y, z]: Vector, turn: number): Vector {
  const [cosine, sine] = [Math.cos(turn), Math.sin(turn)];
  return [x * cosine - y * sine, x * sine + y * cosine, z];
}

function least(values: readonly number[]): number {
  return values.reduce((low, value) => Math.min(low, value), Number.POSITIVE_INFINITY);
}

function most(values: readonly number[]): number {
  return values.reduce((high, value) => Math.max(high, value), Number.NEGATIVE_INFINITY);
}

/** How near a triangle is at a place of the picture; null beside it. */
function nearAt([a, b, c]: readonly [Vector, Vector, Vector], x: number, y: number): number | null {
  // Most faces are far from the place.
  if (x < a[0] && x < b[0] && x < c[0]) return null;
  if (x > a[0] && x > b[0] && x > c[0]) return null;
  if (y < a[1] && y < b[1] && y < c[1]) return null;
  if (y > a[1] && y > b[1] && y > c[1]) return null;
  const whole = (b[0] - a[0]) * (c[1] - a[1]) - (b[1] - a[1]) * (c[0] - a[0]);
  if (whole === 0) return null;
  const ofA = ((b[0] - x) * (c[1] - y) - (b[1] - y) * (c[0] - x)) / whole;
  const ofB = ((c[0] - x) * (a[1] - y) - (c[1] - y) * (a[0] - x)) / whole;
  const ofC = 1 - ofA - ofB;
  return Math.min(ofA, ofB, ofC) < 0 ? null : ofA * a[2] + ofB * b[2] + ofC * c[2];
}

/** How often outlines go round a place. */
function windings(parts: readonly (readonly number[])[], x: number, y: number): number {
  let count = 0;
  for (const part of parts)
    for (let i = 0; i < part.length; i += 2) {
      const j = (i + 2) % part.length;
      const [y0, y1] = [part[i + 1]!, part[j + 1]!];
      if (y0 > y === y1 > y) continue;
      if (part[i]! + ((y - y0) / (y1 - y0)) * (part[j]! - part[i]!) > x) count += y1 > y0 ? 1 : -1;
    }
  return count;
}
