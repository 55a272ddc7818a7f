import type { BarLine } from '../../space/cad/barLines.ts';
import { outlineOf, type SectionPoint } from '../../space/cad/outline.ts';
import { type Closeness, stationsOf } from '../../space/cad/rings.ts';
import { pointAt } from '../../space/cad/sweep.ts';
import type { Station } from '../../space/curve.ts';
import type { Section } from '../../space/section.ts';
import type { Vector } from '../../space/vectors.ts';

/** The surface of something, in triangles, ready for a graphics processor. */
export interface Mesh {
  /** m, three a point. */
  readonly positions: Float32Array;
  /** Which way the surface faces, three a point; 127 stands for 1. */
  readonly normals: Int8Array;
  /** How light the surface is at a point, 255 for its full color: edges are drawn by being dark. */
  readonly shades: Uint8Array;
  /** Three points a triangle, counterclockwise as seen from outside. */
  readonly triangles: Uint16Array | Uint32Array;
}

/** How a mesh is made. */
export interface MeshWish extends Closeness {
  /** With rounded, dark edges; else with sharp ones, in half the triangles. */
  readonly edged: boolean;
  /** Whether the line's beginning and end are closed. */
  readonly caps: readonly [first: boolean, last: boolean];
}

/** A stretch of an outline with the directions it faces at both ends. */
interface Strip {
  readonly from: SectionPoint;
  readonly to: SectionPoint;
  readonly facing: readonly [SectionPoint, SectionPoint];
  readonly shade: number;
}

/** An edge is drawn at least so wide, as a share of the section's smaller side; and how dark. */
const leastCorner = 0.07;
const edgeShade = 110;

/** The surface of a section swept along a line. */
export function meshOf(line: BarLine, wish: MeshWish): Mesh {
  const strips = stripsOf(line.section, wish.edged);
  const stations = stationsOf(line, wish);
  const draft = createDraft();
  for (const strip of strips) {
    let before: readonly [number, number] | null = null;
    for (const station of stations) {
      const pair = [
        draft.point(pointAt(station, strip.from), faced(station, strip.facing[0]), strip.shade),
        draft.point(pointAt(station, strip.to), faced(station, strip.facing[1]), strip.shade),
      ] as const;
      if (before !== null) {
        draft.triangle(before[0], before[1], pair[1]);
        draft.triangle(before[0], pair[1], pair[0]);
      }
      before = pair;
    }
  }
  const [first, last] = [stations[0], stations.at(-1)];
  const outline = strips.map(({ from }) => from);
  if (wish.caps[0] && first) cap(draft, first, outline, -1);
  if (wish.caps[1] && last) cap(draft, last, outline, 1);
  return draft.mesh();
}

/** A hollow cylinder about the axis between two radii and two heights, m. */
export function tubeMesh(
  radii: readonly [number, number],
  heights: readonly [number, number],
  parts: number,
): Mesh {
  const draft = createDraft();
  const [inner, outer] = radii;
  const [low, high] = heights;
  // The section's corners, counterclockwise as seen against rising angle: radius to the right, height downwards.
  const corners = [
    [outer, low],
    [inner, low],
    [inner, high],
    [outer, high],
  ] as const;
  const facing = [
    [0, -1],
    [-1, 0],
    [0, 1],
    [1, 0],
  ] as const;
  corners.forEach(([radius, height], index) => {
    const [nextRadius, nextHeight] = corners[(index + 1) % 4]!;
    const [out, up] = facing[index]!;
    let before: readonly [number, number] | null = null;
    for (let part = 0; part <= parts; part++) {
      const angle = (2 * Math.PI * part) / parts;
      const [cosine, sine] = [Math.cos(angle), Math.sin(angle)];
      const normal: Vector = [out * cosine, out * sine, up];
      const pair = [
        draft.point([radius * cosine, radius * sine, height], normal, 255),
        draft.point([nextRadius * cosine, nextRadius * sine, nextHeight], normal, 255),
      ] as const;
      if (before !== null) {
        draft.triangle(before[0], before[1], pair[1]);
        draft.triangle(before[0], pair[1], pair[0]);
      }
      before = pair;
    }
  });
  return draft.mesh();
}

function stripsOf(section: Section, edged: boolean): readonly Strip[] {
  const least = leastCorner * Math.min(section.width, section.height);
  const corner = edged ? Math.max(section.corner, least) : 0;
  return outlineOf({ ...section, corner }).map((side): Strip => {
    const { from, to } = side;
    if (side.kind === 'arc') {
      const { center } = side;
      const out = (at: SectionPoint): SectionPoint => [
        (at[0] - center[0]) / corner,
        (at[1] - center[1]) / corner,
      ];
      return { from, to, facing: [out(from), out(to)], shade: edgeShade };
    }
    const [across, up] = [to[0] - from[0], to[1] - from[1]];
    const long = Math.hypot(across, up);
    const out: SectionPoint = [up / long, -across / long];
    return { from, to, facing: [out, out], shade: 255 };
  });
}

/** A direction of the section in space. */
function faced({ width, height }: Station, [across, up]: SectionPoint): Vector {
  return [
    across * width[0] + up * height[0],
    across * width[1] + up * height[1],
    across * width[2] + up * height[2],
  ];
}

/** Closes the beginning (-1) or the end (1) of a swept section. */
function cap(draft: Draft, station: Station, outline: readonly SectionPoint[], sense: 1 | -1): void {
  const [x, y, z] = station.tangent;
  const normal: Vector = [sense * x, sense * y, sense * z];
  const points = outline.map((at) => draft.point(pointAt(station, at), normal, 255));
  for (let corner = 2; corner < points.length; corner++) {
    const [a, b] = sense > 0 ? [corner - 1, corner] : [corner, corner - 1];
    draft.triangle(points[0]!, points[a]!, points[b]!);
  }
}

interface Draft {
  /** Adds a point and returns its number. */
  readonly point: (at: Vector, normal: Vector, shade: number) => number;
  readonly triangle: (a: number, b: number, c: number) => void;
  readonly mesh: () => Mesh;
}

function createDraft(): Draft {
  const positions: number[] = [];
  const normals: number[] = [];
  const shades: number[] = [];
  const triangles: number[] = [];
  return {
    point: (at, normal, shade) => {
      positions.push(...at);
      for (const part of normal) normals.push(Math.round(127 * part));
      shades.push(shade);
      return shades.length - 1;
    },
    triangle: (a, b, c) => {
      triangles.push(a, b, c);
    },
    mesh: () => ({
      positions: Float32Array.from(positions),
      normals: Int8Array.from(normals),
      shades: Uint8Array.from(shades),
      triangles: shades.length < 65_536 ? Uint16Array.from(triangles) : Uint32Array.from(triangles),
    }),
  };
}
