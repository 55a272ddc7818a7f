import { finished, type Steps } from '../../figures/steps.ts';
import type { Vector } from '../vectors.ts';
import type { BarLine } from './barLines.ts';
import { type OutlineSide, outlineOf, type SectionPoint } from './outline.ts';
import { type Closeness, stationsOf } from './rings.ts';
import { pointAt } from './sweep.ts';
import type { CadModel } from './writeStep.ts';

/** How far the chords of an STL file leave curves where nothing else is asked for, m. */
export const usualChordError = 1e-4;

/** Files of more bytes are remarked on, or asked about first: many programs take long to open them. */
export const largeStl = 2e7;

/** Finest and coarsest that are made, m. */
export const chordErrors = { least: 1e-6, most: 1e-3 } as const;

/** Between turned sections a solid grows thin: by no more than 4 degrees at 0.02 mm, and with the root of the error. */
function closenessOf(chordError: number): Closeness {
  const mostTurn = Math.min(Math.PI / 12, (Math.PI / 45) * Math.sqrt(chordError / 2e-5));
  return { tolerance: chordError, mostTurn };
}

type StlModel = Pick<CadModel, 'name' | 'products'>;

/** Bytes of a model's STL file. */
export function stlSize({ products }: StlModel, chordError = usualChordError): number {
  const trianglesIn = (line: BarLine) => {
    const corners = outlinePolygon(line, chordError).length;
    return 2 * (stationsOf(line, closenessOf(chordError)).length - 1) * corners + 2 * (corners - 2);
  };
  return 84 + 50 * products.reduce((sum, { line, places }) => sum + trianglesIn(line) * places.length, 0);
}

/**
 * A model as binary STL, in mm: the rings of points round every center line, joined by triangles. Solids
 * are closed, and their corners are set out by so much that the section keeps its area. Chords leave center
 * lines and rounded edges by no more than `chordError`, m; size and time go with its inverse.
 */
export function writeStl(model: StlModel, chordError = usualChordError): Uint8Array {
  return finished(stlSteps(model, chordError));
}

/** The same in steps: a kind of bar, then a bar each. */
export function* stlSteps({ name, products }: StlModel, chordError = usualChordError): Steps<Uint8Array> {
  const meshes: {
    readonly triangles: readonly Triangle[];
    readonly places: CadModel['products'][number]['places'];
  }[] = [];
  for (const { line, places } of products) {
    meshes.push({ triangles: trianglesOf(line, chordError), places });
    yield;
  }
  const count = meshes.reduce((sum, { triangles, places }) => sum + triangles.length * places.length, 0);
  const bytes = new Uint8Array(84 + 50 * count);
  // A header that begins with "solid" would be taken for STL as text.
  const header = `Slotwright, mm: ${name.replace(/[^ -~]/g, '?')}`.slice(0, 80);
  for (let index = 0; index < header.length; index++) bytes[index] = header.charCodeAt(index);
  const view = new DataView(bytes.buffer);
  view.setUint32(80, count, true);
  let at = 84;
  const write = (vector: Vector) => {
    for (const value of vector) {
      view.setFloat32(at, value, true);
      at += 4;
    }
  };
  for (const { triangles, places } of meshes)
    for (const { turn } of places) {
      const turned = turning(turn);
      for (const triangle of triangles) {
        const corners = triangle.map(turned) as [Vector, Vector, Vector];
        write(normalOf(corners));
        for (const [x, y, z] of corners) write([x * 1e3, y * 1e3, z * 1e3]);
        at += 2;
      }
      yield;
    }
  return bytes;
}

type Triangle = readonly [Vector, Vector, Vector];

/** The closed surface of a swept section, seen from outside counterclockwise. */
export function trianglesOf(line: BarLine, chordError = usualChordError): readonly Triangle[] {
  const outline = outlinePolygon(line, chordError);
  const rings = stationsOf(line, closenessOf(chordError)).map((station) =>
    outline.map((at) => pointAt(station, at)),
  );
  const triangles: Triangle[] = [];
  rings.slice(1).forEach((ring, index) => {
    const before = rings[index]!;
    ring.forEach((d, corner) => {
      const next = (corner + 1) % ring.length;
      const [a, b, c] = [before[corner]!, before[next]!, ring[next]!];
      // Where a bar twists, one diagonal lies below the surface and the other above it: by turns.
      if (index % 2 === 0) triangles.push([a, b, c], [a, c, d]);
      else triangles.push([b, c, d], [b, d, a]);
    });
  });
  const [first, last] = [rings[0]!, rings.at(-1)!];
  for (let corner = 2; corner < outline.length; corner++) {
    triangles.push([first[0]!, first[corner]!, first[corner - 1]!]);
    triangles.push([last[0]!, last[corner - 1]!, last[corner]!]);
  }
  return triangles;
}

function outlinePolygon({ section }: BarLine, chordError: number): readonly SectionPoint[] {
  return polygonOf(outlineOf(section), chordsOfCorner(section.corner, chordError));
}

/** Chords of a quarter circle of the section, at least two. */
function chordsOfCorner(radius: number, chordError: number): number {
  const half = Math.acos(Math.max(-1, 1 - chordError / Math.max(radius, chordError)));
  return Math.max(2, Math.ceil(Math.PI / 4 / half - 1e-9));
}

/** An outline as a polygon of the same area, a quarter circle in so many chords. */
function polygonOf(sides: readonly OutlineSide[], cornerChords: number): readonly SectionPoint[] {
  const step = Math.PI / 2 / cornerChords;
  // Points between the ends lie f times as far out that the triangles to the center, sin(step) (2 f + (n - 2) f^2)/2
  // of the radius squared in all, are as large as the quarter circle.
  const needed = Math.PI / 2 / Math.sin(step);
  const inner = cornerChords - 2;
  const larger = inner === 0 ? needed / 2 : (Math.sqrt(1 + inner * needed) - 1) / inner;
  const points = sides.flatMap((side): SectionPoint[] => {
    if (side.kind === 'line') {
      const beginsAtArc = sides.some((other) => other.kind === 'arc' && other.to === side.from);
      return beginsAtArc ? [] : [side.from];
    }
    const { center, from } = side;
    const [u, v] = [from[0] - center[0], from[1] - center[1]];
    return Array.from({ length: cornerChords + 1 }, (_, index): SectionPoint => {
      const far = index === 0 || index === cornerChords ? 1 : larger;
      const [cosine, sine] = [far * Math.cos(index * step), far * Math.sin(index * step)];
      return [center[0] + u * cosine - v * sine, center[1] + v * cosine + u * sine];
    });
  });
  // Quarter circles without a straight between them share their ends.
  return points.filter((point, index) => {
    const before = points.at(index - 1)!;
    return Math.hypot(point[0] - before[0], point[1] - before[1]) > 1e-9;
  });
}

function turning(turn: number): (at: Vector) => Vector {
  const [cosine, sine] = [Math.cos(turn), Math.sin(turn)];
  return ([x, y, z]) => [x * cosine - y * sine, x * sine + y * cosine, z];
}

function normalOf([a, b, c]: Triangle): Vector {
  const [u, v] = [b, c].map((point) => [point[0] - a[0], point[1] - a[1], point[2] - a[2]] as Vector) as [
    Vector,
    Vector,
  ];
  const normal: Vector = [u[1] * v[2] - u[2] * v[1], u[2] * v[0] - u[0] * v[2], u[0] * v[1] - u[1] * v[0]];
  const long = Math.hypot(...normal);
  return long === 0 ? [0, 0, 0] : [normal[0] / long, normal[1] / long, normal[2] / long];
}
