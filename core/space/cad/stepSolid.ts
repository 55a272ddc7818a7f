import { cross, negated, type Vector } from '../vectors.ts';
import type { BarLine } from './barLines.ts';
import { type OutlineSide, outlineOf, type SectionPoint } from './outline.ts';
import { type StepData, stepList, stepReal } from './stepText.ts';
import { pointAt, railOf, type SweptPart, sweptParts } from './sweep.ts';

/** Corner points of quarter circles count this much in rational splines: cos 45 degrees. */
const cornerWeight = Math.SQRT1_2;

/**
 * A section swept along a center line as one solid, MANIFOLD_SOLID_BREP (ISO 10303-42): ruled faces where
 * the path is straight, bicubic or rational B-splines where it bends, planes at its cut ends, every edge
 * shared by two faces. Gives the instance's name.
 */
export function addSolid(data: StepData, line: BarLine): string {
  const parts = sweptParts(line);
  const sides = outlineOf(line.section);
  const rings = ringsOf(data, parts, sides);
  const faces: string[] = [];
  parts.forEach((part, index) => {
    const followed = railsAlong(data, part);
    const rails = sides.map(({ from }, corner) => {
      const ends = [rings[index]!.vertices[corner]!, rings[index + 1]!.vertices[corner]!] as const;
      return addRail(data, part, followed(from), ends);
    });
    sides.forEach((side, at) => {
      const next = (at + 1) % sides.length;
      const loop = [
        forwards(data, rings[index]!.edges[at]!),
        forwards(data, rails[next]!),
        backwards(data, rings[index + 1]!.edges[at]!),
        backwards(data, rails[at]!),
      ];
      faces.push(addFace(data, loop, addSurface(data, part, side, followed)));
    });
  });
  faces.push(addFirstCap(data, rings[0]!), addLastCap(data, rings.at(-1)!));
  const shell = data.add(`CLOSED_SHELL('',${stepList(faces)})`);
  return data.add(`MANIFOLD_SOLID_BREP('',${shell})`);
}

/** A section across the center line: the vertices and edges that the faces on both sides of it share. */
interface Ring {
  readonly point: Vector;
  readonly tangent: Vector;
  readonly width: Vector;
  readonly vertices: readonly string[];
  readonly edges: readonly string[];
}

function ringsOf(
  data: StepData,
  parts: readonly SweptPart[],
  sides: readonly OutlineSide[],
): readonly Ring[] {
  const stations = [...parts.map(({ from }) => from), parts.at(-1)!.to];
  return stations.map((station) => {
    const { point, tangent, width } = station;
    const corners = sides.map(({ from }) => addPoint(data, pointAt(station, from)));
    const vertices = corners.map((corner) => data.add(`VERTEX_POINT('',${corner})`));
    const edges = sides.map((side, at) => {
      const curve =
        side.kind === 'line'
          ? addLine(data, corners[at]!, pointAt(station, side.from), pointAt(station, side.to))
          : addCircle(data, pointAt(station, side.center), tangent, pointAt(station, side.from));
      return addEdge(data, vertices[at]!, vertices[(at + 1) % sides.length]!, curve);
    });
    return { point, tangent, width, vertices, edges };
  });
}

/** What a point of the section follows along a part: control points, and their names. */
interface Rail {
  readonly rail: readonly Vector[];
  readonly points: readonly string[];
}

/** The rails of a part, each made once. */
function railsAlong(data: StepData, part: SweptPart): (at: SectionPoint) => Rail {
  const made = new Map<SectionPoint, Rail>();
  return (at) => {
    let found = made.get(at);
    if (found === undefined) {
      const rail = railOf(part, at);
      found = { rail, points: rail.map((point) => addPoint(data, point)) };
      made.set(at, found);
    }
    return found;
  };
}

/** The edge that a corner of the section follows from one vertex to the next. */
function addRail(
  data: StepData,
  part: SweptPart,
  { rail, points }: Rail,
  [from, to]: readonly [string, string],
): string {
  const curve =
    part.kind === 'straight'
      ? addLine(data, points[0]!, rail[0]!, rail[1]!)
      : data.add(
          `B_SPLINE_CURVE_WITH_KNOTS('',3,${stepList(points)},.UNSPECIFIED.,.F.,.F.,${knotsAlong(part)},.UNSPECIFIED.)`,
        );
  return addEdge(data, from, to, curve);
}

/** Multiplicities and knots along a part. */
function knotsAlong(part: SweptPart): string {
  if (part.kind === 'straight') return '(2,2),(0.,1.)';
  const { fractions } = part;
  const last = fractions.length - 1;
  const counts = fractions.map((_, index) => (index === 0 || index === last ? '4' : '2'));
  return `${stepList(counts)},${stepList(fractions.map((fraction) => stepReal(fraction, 9)))}`;
}

/** The face of one side of the section along a part: outline first, then along the center line. */
function addSurface(
  data: StepData,
  part: SweptPart,
  side: OutlineSide,
  followed: (at: SectionPoint) => Rail,
): string {
  const across = side.kind === 'line' ? [side.from, side.to] : [side.from, side.corner, side.to];
  const net = across.map((at) => followed(at).points);
  const points = stepList(net.map(stepList));
  const degree = part.kind === 'straight' ? 1 : 3;
  if (side.kind === 'line')
    return data.add(
      `B_SPLINE_SURFACE_WITH_KNOTS('',1,${degree},${points},.UNSPECIFIED.,.F.,.F.,.F.,(2,2),${surfaceKnots('(0.,1.)', part)},.UNSPECIFIED.)`,
    );
  const weights = [1, cornerWeight, 1].map((weight) => stepList(net[0]!.map(() => stepReal(weight, 15))));
  return data.add(
    `(BOUNDED_SURFACE()B_SPLINE_SURFACE(2,${degree},${points},.UNSPECIFIED.,.F.,.F.,.F.)B_SPLINE_SURFACE_WITH_KNOTS((3,3),${surfaceKnots('(0.,1.)', part)},.UNSPECIFIED.)GEOMETRIC_REPRESENTATION_ITEM()RATIONAL_B_SPLINE_SURFACE(${stepList(weights)})REPRESENTATION_ITEM('')SURFACE())`,
  );
}

/** Multiplicities along, knots across, knots along. */
function surfaceKnots(across: string, part: SweptPart): string {
  const [counts, knots] = knotsAlong(part).split(/(?<=\)),/) as [string, string];
  return `${counts},${across},${knots}`;
}

/** The cut at the beginning of the line, which looks back along it. */
function addFirstCap(data: StepData, ring: Ring): string {
  const loop = [...ring.edges].reverse().map((edge) => backwards(data, edge));
  return addCap(data, ring, loop, negated(ring.tangent));
}

/** The cut at its end, which looks on along it. */
function addLastCap(data: StepData, ring: Ring): string {
  const loop = ring.edges.map((edge) => forwards(data, edge));
  return addCap(data, ring, loop, ring.tangent);
}

function addCap(data: StepData, { point, width }: Ring, loop: readonly string[], normal: Vector): string {
  return addFace(data, loop, data.add(`PLANE('',${addPlacement(data, point, normal, width)})`));
}

function addFace(data: StepData, loop: readonly string[], surface: string): string {
  const bound = data.add(`FACE_OUTER_BOUND('',${data.add(`EDGE_LOOP('',${stepList(loop)})`)},.T.)`);
  return data.add(`ADVANCED_FACE('',(${bound}),${surface},.T.)`);
}

/** An edge run through from its first vertex to its second. */
function forwards(data: StepData, edge: string): string {
  return data.add(`ORIENTED_EDGE('',*,*,${edge},.T.)`);
}

function backwards(data: StepData, edge: string): string {
  return data.add(`ORIENTED_EDGE('',*,*,${edge},.F.)`);
}

function addEdge(data: StepData, from: string, to: string, curve: string): string {
  return data.add(`EDGE_CURVE('',${from},${to},${curve},.T.)`);
}

function addLine(data: StepData, start: string, from: Vector, to: Vector): string {
  const way: Vector = [to[0] - from[0], to[1] - from[1], to[2] - from[2]];
  const vector = data.add(`VECTOR('',${addDirection(data, way)},1.)`);
  return data.add(`LINE('',${start},${vector})`);
}

/** A circle about an axis (of length 1), begun at a point; counterclockwise round the axis. */
function addCircle(data: StepData, center: Vector, axis: Vector, start: Vector): string {
  const way: Vector = [start[0] - center[0], start[1] - center[1], start[2] - center[2]];
  const radius = Math.hypot(...way);
  return data.add(`CIRCLE('',${addPlacement(data, center, axis, way)},${stepReal(radius * 1e3)})`);
}

/** A place with an axis and the direction its angles begin at, square to it. */
export function addPlacement(data: StepData, at: Vector, axis: Vector, reference: Vector): string {
  // Square to the axis to the last digit.
  const aside = cross(cross(axis, reference), axis);
  return data.add(
    `AXIS2_PLACEMENT_3D('',${addPoint(data, at)},${addDirection(data, axis)},${addDirection(data, aside)})`,
  );
}

/** A point, in m, written in mm. */
function addPoint(data: StepData, point: Vector): string {
  return data.shared(`CARTESIAN_POINT('',${stepList(point.map((value) => stepReal(value * 1e3)))})`);
}

function addDirection(data: StepData, way: Vector): string {
  const long = Math.hypot(...way);
  return data.shared(`DIRECTION('',${stepList(way.map((value) => stepReal(value / long, 12)))})`);
}
