/**
 * A small reader of STEP files for tests: rules of ISO 10303-21 (instances, reals, strings, references) and
 * of ISO 10303-42 for solids, with volumes by the divergence theorem. It shares nothing with the writer.
 */

type Value = number | string | null | readonly Value[] | { readonly ref: number };

export interface StepRecord {
  readonly keyword: string;
  readonly values: readonly Value[];
}

export interface StepModel {
  readonly header: readonly string[];
  readonly instances: ReadonlyMap<number, readonly StepRecord[]>;
}

/** Reads a file; throws where it is not well-formed. */
export function readStep(text: string): StepModel {
  const lines = text.split('\n');
  if (lines.shift() !== 'ISO-10303-21;' || lines.pop() !== '' || lines.pop() !== 'END-ISO-10303-21;')
    throw new Error('not framed as a STEP file');
  if (!/^[\x20-\x7e\n]*$/.test(text)) throw new Error('not printable ASCII');
  if (lines.shift() !== 'HEADER;') throw new Error('no header');
  const header = lines.splice(0, lines.indexOf('ENDSEC;'));
  lines.shift();
  if (lines.shift() !== 'DATA;' || lines.pop() !== 'ENDSEC;') throw new Error('no data section');
  const instances = new Map<number, readonly StepRecord[]>();
  for (const line of lines) {
    const found = /^#(\d+)=(.*);$/.exec(line);
    if (!found) throw new Error(`no instance: ${line}`);
    const number = Number(found[1]);
    if (instances.has(number)) throw new Error(`#${number} stands twice`);
    instances.set(number, recordsOf(found[2]!));
  }
  return { header, instances };
}

/** A reference, a string, an enumeration, a number, or what stands for nothing, from where it is looked for. */
const token = /#\d+|'(?:[^']|'')*'|\.[A-Z_]+\.|[+-]?\d+(?:\.\d*(?:E[+-]?\d+)?)?|[$*]/y;

function recordsOf(source: string): readonly StepRecord[] {
  let at = 0;
  const record = (): StepRecord => {
    const keyword = /^[A-Z_][A-Z0-9_]*/.exec(source.slice(at))?.[0];
    if (!keyword) throw new Error(`no keyword: ${source.slice(at, at + 40)}`);
    at += keyword.length;
    return { keyword, values: list() };
  };
  const list = (): readonly Value[] => {
    if (source[at++] !== '(') throw new Error(`( expected: ${source}`);
    const values: Value[] = [];
    while (source[at] !== ')') {
      values.push(value());
      if (source[at] === ',') at++;
      else if (source[at] !== ')') throw new Error(`, or ) expected: ${source.slice(at, at + 20)}`);
    }
    at++;
    return values;
  };
  const value = (): Value => {
    token.lastIndex = at;
    const word = token.exec(source)?.[0];
    if (word !== undefined) {
      at += word.length;
      if (word.startsWith('#')) return { ref: Number(word.slice(1)) };
      if (/^[$*]/.test(word)) return null;
      return /^[+\-\d]/.test(word) ? Number(word) : word;
    }
    if (source[at] === '(') return list();
    const { keyword, values } = record();
    return [keyword, ...values];
  };
  if (source.startsWith('(')) {
    at++;
    const records: StepRecord[] = [];
    while (source[at] !== ')') records.push(record());
    return records;
  }
  const only = record();
  if (at !== source.length) throw new Error(`left over: ${source.slice(at)}`);
  return [only];
}

/** References of all instances that no instance defines. */
export function undefinedReferences({ instances }: StepModel): readonly number[] {
  const missing: number[] = [];
  const visit = (value: Value): void => {
    if (Array.isArray(value)) value.forEach(visit);
    else if (typeof value === 'object' && value !== null && 'ref' in value)
      if (!instances.has(value.ref)) missing.push(value.ref);
  };
  for (const records of instances.values()) for (const { values } of records) values.forEach(visit);
  return missing;
}

export function numbersOf({ instances }: StepModel, keyword: string): readonly number[] {
  return [...instances].filter(([, records]) => records.some((r) => r.keyword === keyword)).map(([n]) => n);
}

type Point = readonly number[];

/** What a closed shell is like: how many faces, edges and vertices, whether every edge joins two faces, volume in mm3. */
export interface ShellReading {
  readonly faces: number;
  readonly edges: number;
  readonly vertices: number;
  readonly edgesUsedOnceEachWay: boolean;
  readonly volume: number;
  /** Farthest that the ends of an edge's curve lie from its vertices, mm. */
  readonly gap: number;
}

export function readShell(model: StepModel, shell: number): ShellReading {
  const get = (value: Value | undefined): readonly StepRecord[] =>
    model.instances.get((value as { ref: number }).ref)!;
  const one = (value: Value | undefined, keyword: string): readonly Value[] => {
    const record = get(value).find((each) => each.keyword === keyword);
    if (!record) throw new Error(`${keyword} expected`);
    return record.values;
  };
  const point = (value: Value | undefined): Point => one(value, 'CARTESIAN_POINT')[1] as Point;
  const direction = (value: Value | undefined): Point => one(value, 'DIRECTION')[1] as Point;
  const uses = new Map<number, string[]>();
  const vertices = new Set<number>();
  let [volume, gap] = [0, 0];
  const faces = one({ ref: shell }, 'CLOSED_SHELL')[1] as readonly Value[];
  for (const face of faces) {
    const [, bounds, surface, same] = one(face, 'ADVANCED_FACE');
    if (same !== '.T.') throw new Error('a turned surface');
    const loop = one((bounds as Value[])[0], 'FACE_OUTER_BOUND')[1];
    const edges = (one(loop, 'EDGE_LOOP')[1] as readonly Value[]).map((use) => {
      const [, , , edge, forward] = one(use, 'ORIENTED_EDGE');
      const [, from, to, curve] = one(edge, 'EDGE_CURVE');
      const key = (edge as { ref: number }).ref;
      uses.set(key, [...(uses.get(key) ?? []), forward as string]);
      for (const vertex of [from, to]) vertices.add((vertex as { ref: number }).ref);
      const ends = [from, to].map((vertex) => point(one(vertex, 'VERTEX_POINT')[1]));
      gap = Math.max(gap, curveGap(curve, ends));
      return { ends: forward === '.T.' ? ends : [...ends].reverse(), curve, forward: forward === '.T.' };
    });
    edges.forEach(({ ends }, index) => {
      const next = edges[(index + 1) % edges.length]!;
      if (distance(ends[1]!, next.ends[0]!) > 1e-9) throw new Error('an open loop');
    });
    const plane = get(surface).find(({ keyword }) => keyword === 'PLANE');
    volume += plane ? flux(plane, edges) : splineFlux(get(surface));
  }
  const edgesUsedOnceEachWay = [...uses.values()].every((ways) => [...ways].sort().join() === '.F.,.T.');
  return {
    faces: faces.length,
    edges: uses.size,
    vertices: vertices.size,
    edgesUsedOnceEachWay,
    volume,
    gap,
  };

  function curveGap(curve: Value | undefined, ends: readonly Point[]): number {
    const records = get(curve);
    const record = records[0]!;
    if (record.keyword === 'B_SPLINE_CURVE_WITH_KNOTS') {
      const points = (record.values[2] as readonly Value[]).map(point);
      return Math.max(distance(points[0]!, ends[0]!), distance(points.at(-1)!, ends[1]!));
    }
    if (record.keyword === 'LINE') {
      const start = point(record.values[1]);
      const way = direction(one(record.values[2], 'VECTOR')[1]);
      const along = dot(minus(ends[1]!, start), way);
      const reached = start.map((value, axis) => value + along * way[axis]!);
      return Math.max(distance(start, ends[0]!), distance(reached, ends[1]!));
    }
    const [, placement, radius] = one(curve, 'CIRCLE');
    const center = point(one(placement, 'AXIS2_PLACEMENT_3D')[1]);
    return Math.max(...ends.map((end) => Math.abs(distance(end, center) - (radius as number))));
  }

  /** A third of a plane's distance from the origin times the area of its loop of lines and quarter circles. */
  function flux(
    plane: StepRecord,
    edges: readonly {
      readonly ends: readonly Point[];
      readonly curve: Value | undefined;
      readonly forward: boolean;
    }[],
  ): number {
    const [, at, axis] = one(plane.values[1], 'AXIS2_PLACEMENT_3D');
    const normal = direction(axis);
    let area = 0;
    for (const { ends, curve, forward } of edges) {
      area += dot(cross(ends[0]!, ends[1]!), normal) / 2;
      const circle = get(curve).find(({ keyword }) => keyword === 'CIRCLE');
      if (!circle) continue;
      // Counterclockwise about its own axis.
      const own = direction(one(circle.values[1], 'AXIS2_PLACEMENT_3D')[2]);
      const sense = Math.sign(dot(own, normal)) * (forward ? 1 : -1);
      area += sense * (circle.values[2] as number) ** 2 * (Math.PI / 4 - 1 / 2);
    }
    return (area * dot(point(at), normal)) / 3;
  }

  /** A third of the flux of the position through a spline surface, by Gauss over its patches. */
  function splineFlux(records: readonly StepRecord[]): number {
    const by = (keyword: string) => records.find((record) => record.keyword === keyword)?.values;
    const whole = by('B_SPLINE_SURFACE_WITH_KNOTS')!;
    const rational = by('RATIONAL_B_SPLINE_SURFACE');
    const base = rational ? by('B_SPLINE_SURFACE')! : whole.slice(1);
    const knots = (rational ? whole.slice(0, 4) : whole.slice(8, 12)) as readonly (readonly number[])[];
    const [degreeU, degreeV, net] = base as [number, number, readonly (readonly Value[])[]];
    const weights = rational?.[0] as readonly (readonly number[])[] | undefined;
    const points = net.map((row, u) =>
      row.map((each, v) => {
        const weight = weights?.[u]?.[v] ?? 1;
        return [...point(each).map((value) => value * weight), weight];
      }),
    );
    const [us, vs] = [spread(knots[2]!, knots[0]!), spread(knots[3]!, knots[1]!)];
    /** The curve of the surface at `v`, along `u`. */
    const curveAt = (v: number) => {
      const curve = points.map((row) => deBoor(degreeV, vs, row, v));
      return (u: number): Point => {
        const homogeneous = deBoor(degreeU, us, curve, u);
        const [x, y, z, weight] = homogeneous as [number, number, number, number];
        return [x / weight, y / weight, z / weight];
      };
    };
    const h = 1e-5;
    let sum = 0;
    for (const [v0, v1] of spans(vs))
      for (const [gv, wv] of gauss) {
        const v = v0 + (v1 - v0) * gv;
        const [before, at, behind] = [curveAt(v - h), curveAt(v), curveAt(v + h)];
        for (const [u0, u1] of spans(us))
          for (const [gu, wu] of gauss) {
            const u = u0 + (u1 - u0) * gu;
            const across = cross(minus(at(u + h), at(u - h)), minus(behind(u), before(u)));
            sum += (wu * wv * (u1 - u0) * (v1 - v0) * dot(at(u), across)) / (4 * h * h);
          }
      }
    return sum / 3;
  }
}

// Gauss-Legendre on 0 to 1, three points.
const gauss = [
  [0.5 - Math.sqrt(0.15), 5 / 18],
  [0.5, 4 / 9],
  [0.5 + Math.sqrt(0.15), 5 / 18],
] as const;

function spread(knots: readonly number[], counts: readonly number[]): readonly number[] {
  return knots.flatMap((knot, index) => new Array<number>(counts[index]!).fill(knot));
}

function spans(knots: readonly number[]): readonly (readonly [number, number])[] {
  const distinct = [...new Set(knots)];
  return distinct.slice(1).map((knot, index) => [distinct[index]!, knot] as const);
}

/** De Boor's algorithm. */
function deBoor(degree: number, knots: readonly number[], points: readonly Point[], at: number): Point {
  let span = degree;
  while (span < points.length - 1 && at >= knots[span + 1]!) span++;
  const work = points.slice(span - degree, span + 1).map((point) => [...point]);
  for (let r = 1; r <= degree; r++)
    for (let j = degree; j >= r; j--) {
      const low = knots[span - degree + j]!;
      const share = (at - low) / (knots[span + 1 + j - r]! - low);
      const [here, before] = [work[j]!, work[j - 1]!];
      for (let axis = 0; axis < here.length; axis++)
        here[axis] = here[axis]! * share + before[axis]! * (1 - share);
    }
  return work[degree]!;
}

function minus(a: Point, b: Point): Point {
  return [a[0]! - b[0]!, a[1]! - b[1]!, a[2]! - b[2]!];
}

function dot(a: Point, b: Point): number {
  return a[0]! * b[0]! + a[1]! * b[1]! + a[2]! * b[2]!;
}

function cross(a: Point, b: Point): Point {
  return [a[1]! * b[2]! - a[2]! * b[1]!, a[2]! * b[0]! - a[0]! * b[2]!, a[0]! * b[1]! - a[1]! * b[0]!];
}

function distance(a: Point, b: Point): number {
  return Math.hypot(a[0]! - b[0]!, a[1]! - b[1]!, a[2]! - b[2]!);
}
