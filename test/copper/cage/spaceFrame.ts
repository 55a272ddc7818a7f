/**
 * Frames of straight Euler-Bernoulli beams in space: six unknowns a node (three displacements, three
 * rotations about x, y, z), solved directly. Knows nothing of cages; its own checks are in
 * spaceFrame.test.ts. Any consistent units.
 */
export type Vector = readonly [number, number, number];

/** A beam between two nodes. */
export interface Beam {
  readonly from: number;
  readonly to: number;
  readonly elasticity: number;
  readonly shearModulus: number;
  readonly area: number;
  /** Second moment for bending within the plane of the beam and `y`. */
  readonly alongY: number;
  /** Second moment for bending across that plane. */
  readonly acrossY: number;
  /** Torsion constant. */
  readonly torsion: number;
  /** Direction of the section's y axis; only its part across the beam counts. */
  readonly y: Vector;
}

/** A frame; numbers of unknowns are 6 node + direction. */
export interface Frame {
  readonly nodes: readonly Vector[];
  readonly beams: readonly Beam[];
}

export interface FrameSolution {
  /** One for each unknown. */
  readonly displacements: Float64Array;
  /** What the frame is held with: stiffness times displacements less the loads. */
  readonly reactions: Float64Array;
}

/** Solves a frame for loads on its unknowns, some of which are held at given displacements. */
export function solveFrame(
  frame: Frame,
  held: ReadonlyMap<number, number>,
  loads: ReadonlyMap<number, number> = new Map(),
): FrameSolution {
  const count = 6 * frame.nodes.length;
  const rows = Array.from({ length: count }, () => new Map<number, number>());
  for (const beam of frame.beams) addBeam(rows, frame, beam);
  const right = new Float64Array(count);
  for (const [at, load] of loads) right[at]! += load;
  const free: number[] = [];
  for (let at = 0; at < count; at++) if (!held.has(at)) free.push(at);
  const place = new Map(free.map((at, index) => [at, index]));
  const matrix = free.map((at) => {
    const row = new Map<number, number>();
    for (const [column, value] of rows[at]!) {
      const to = place.get(column);
      if (to === undefined) right[at]! -= value * held.get(column)!;
      else row.set(to, value);
    }
    return row;
  });
  const solved = solveSymmetric(
    matrix,
    free.map((at) => right[at]!),
  );
  const displacements = new Float64Array(count);
  free.forEach((at, index) => {
    displacements[at] = solved[index]!;
  });
  for (const [at, value] of held) displacements[at] = value;
  const reactions = new Float64Array(count);
  rows.forEach((row, at) => {
    for (const [column, value] of row) reactions[at]! += value * displacements[column]!;
    reactions[at]! -= loads.get(at) ?? 0;
  });
  return { displacements, reactions };
}

function addBeam(rows: readonly Map<number, number>[], frame: Frame, beam: Beam): void {
  const start = frame.nodes[beam.from]!;
  const end = frame.nodes[beam.to]!;
  const along: Vector = [end[0] - start[0], end[1] - start[1], end[2] - start[2]];
  const length = Math.hypot(...along);
  const x = scaled(along, 1 / length);
  const across = cross(x, beam.y);
  const z = scaled(across, 1 / Math.hypot(...across));
  const axes = [x, cross(z, x), z];
  const local = beamStiffness(beam, length);
  const unknowns = [...sixOf(beam.from), ...sixOf(beam.to)];
  // Turned into the frame's axes, three by three.
  for (let i = 0; i < 12; i++) {
    for (let j = 0; j < 12; j++) {
      let sum = 0;
      for (let k = 0; k < 3; k++) {
        for (let m = 0; m < 3; m++) {
          const row = 3 * Math.floor(i / 3) + k;
          const column = 3 * Math.floor(j / 3) + m;
          sum += axes[k]![i % 3]! * local[row]![column]! * axes[m]![j % 3]!;
        }
      }
      if (sum === 0) continue;
      const row = rows[unknowns[i]!]!;
      row.set(unknowns[j]!, (row.get(unknowns[j]!) ?? 0) + sum);
    }
  }
}

/** The usual stiffness of a beam in its own axes: stretch, twist, and bending in two planes. */
function beamStiffness(beam: Beam, length: number): readonly (readonly number[])[] {
  const matrix = Array.from({ length: 12 }, () => new Array<number>(12).fill(0));
  const put = (places: readonly number[], block: readonly (readonly number[])[]) => {
    places.forEach((row, i) => {
      places.forEach((column, j) => {
        matrix[row]![column]! += block[i]![j]!;
      });
    });
  };
  const spring = (stiffness: number) => [
    [stiffness, -stiffness],
    [-stiffness, stiffness],
  ];
  put([0, 6], spring((beam.elasticity * beam.area) / length));
  put([3, 9], spring((beam.shearModulus * beam.torsion) / length));
  const bending = (inertia: number, sense: number) => {
    const k = (beam.elasticity * inertia) / length ** 3;
    const turn = 6 * k * length * sense;
    const [near, far] = [4 * k * length ** 2, 2 * k * length ** 2];
    return [
      [12 * k, turn, -12 * k, turn],
      [turn, near, -turn, far],
      [-12 * k, -turn, 12 * k, -turn],
      [turn, far, -turn, near],
    ];
  };
  put([1, 5, 7, 11], bending(beam.alongY, 1));
  put([2, 4, 8, 10], bending(beam.acrossY, -1));
  return matrix;
}

/** Elimination without pivoting within each row's band, for a symmetric positive definite matrix. */
function solveSymmetric(matrix: readonly Map<number, number>[], right: readonly number[]): Float64Array {
  const n = matrix.length;
  const band = matrix.reduce(
    (most, row, at) => Math.max(most, ...[...row.keys()].map((column) => Math.abs(column - at))),
    0,
  );
  const width = band + 1;
  // upper[i width + k] is the entry in row i and column i + k.
  const upper = new Float64Array(n * width);
  matrix.forEach((row, at) => {
    for (const [column, value] of row) if (column >= at) upper[at * width + column - at] = value;
  });
  const solution = Float64Array.from(right);
  for (let i = 0; i < n; i++) {
    const pivot = upper[i * width]!;
    if (!(pivot > 0)) throw new RangeError(`the frame can move freely: pivot ${pivot} in row ${i}`);
    for (let k = 1; k <= band && i + k < n; k++) {
      const factor = upper[i * width + k]! / pivot;
      if (factor === 0) continue;
      for (let m = k; m <= band && i + m < n; m++)
        upper[(i + k) * width + m - k]! -= factor * upper[i * width + m]!;
      solution[i + k]! -= factor * solution[i]!;
    }
  }
  for (let i = n - 1; i >= 0; i--) {
    let sum = solution[i]!;
    for (let k = 1; k <= band && i + k < n; k++) sum -= upper[i * width + k]! * solution[i + k]!;
    solution[i] = sum / upper[i * width]!;
  }
  return solution;
}

/** Numbers of a node's unknowns. */
export function sixOf(node: number): readonly number[] {
  return [0, 1, 2, 3, 4, 5].map((direction) => 6 * node + direction);
}

export function cross(a: Vector, b: Vector): Vector {
  return [a[1] * b[2] - a[2] * b[1], a[2] * b[0] - a[0] * b[2], a[0] * b[1] - a[1] * b[0]];
}

function scaled([x, y, z]: Vector, factor: number): Vector {
  return [x * factor, y * factor, z * factor];
}
