import type { CageLayer } from '../../../core/copper/cage/cage.ts';
import type { Metal } from '../../../core/copper/metals.ts';
import { lusolve } from '../../support/mathematics.ts';
import { type Beam, cross, sixOf, solveFrame, type Vector } from './spaceFrame.ts';

/**
 * A cage of bars by beams in space: each bar is a chain of short straight beams on its helix, clamped in two
 * rigid rings that do not move along the axis; one ring is turned. All slots are alike (harmonic 0), so
 * one bar of each layer stands for its layer. Nothing here knows chords, arches or bows.
 */
export interface FrameOfCage {
  /** Nm/rad. */
  readonly stiffness: number;
  /** Of each layer for a turn of one radian, Pa: along the bar, and by bending at its clamped end. */
  readonly axial: readonly number[];
  readonly bending: readonly number[];
}

/** The cage, solved with two meshes and extrapolated: the error of chords on a helix goes with length^2. */
export function frameOfCage(layers: readonly CageLayer[], stack: number, metal: Metal): FrameOfCage {
  const [coarse, fine] = [40, 80].map((count) =>
    layers.map((layer) => turnedBar(layer, stack, metal, count, [])),
  ) as [Turned[], Turned[]];
  const better = (read: (bar: Turned) => number) =>
    layers.map((_, index) => (4 * read(fine[index]!) - read(coarse[index]!)) / 3);
  const torques = better(({ torque }) => torque);
  return {
    stiffness: layers.reduce((sum, { bars }, index) => sum + bars * torques[index]!, 0),
    axial: better(({ axial }) => axial),
    bending: better(({ bending }) => bending),
  };
}

/**
 * Torque of one bar of each of two layers at a turn of one radian, where the two are tied to each other
 * radially at these shares of their length from the middle.
 */
export function tiedPair(
  pair: readonly [CageLayer, CageLayer],
  stack: number,
  metal: Metal,
  ties: readonly number[],
): readonly [number, number] {
  const count = 120;
  const nodes = ties.map((share) => Math.round((share + 0.5) * count));
  const bars = pair.map((layer) => ({
    free: turnedBar(layer, stack, metal, count, nodes),
    pushed: nodes.map((node) => turnedBar(layer, stack, metal, count, nodes, node)),
  }));
  const [first, second] = bars as [(typeof bars)[number], (typeof bars)[number]];
  // Equal radial displacement at each tie; the force pushes the first outwards, the second inwards.
  const softness = nodes.map((_, row) =>
    nodes.map((__, column) => first.pushed[column]!.outwards[row]! + second.pushed[column]!.outwards[row]!),
  );
  const gaps = nodes.map((_, row) => second.free.outwards[row]! - first.free.outwards[row]!);
  const forces = (lusolve(softness, gaps) as number[][]).map(([force]) => force!);
  const torque = (bar: typeof first, sense: number) =>
    bar.pushed.reduce((sum, { torque: each }, index) => sum + sense * forces[index]! * each, bar.free.torque);
  return [torque(first, 1), torque(second, -1)];
}

interface Turned {
  readonly torque: number;
  readonly axial: number;
  readonly bending: number;
  /** Radial displacement of some nodes. */
  readonly outwards: readonly number[];
}

/** One bar whose upper ring is turned by one radian, or whose one node is pushed outwards by one newton. */
function turnedBar(
  { radius, lean, section }: CageLayer,
  stack: number,
  metal: Metal,
  count: number,
  watched: readonly number[],
  pushed?: number,
): Turned {
  const angleAt = (share: number) => lean * (share - 0.5);
  const outAt = (share: number): Vector => [Math.cos(angleAt(share)), Math.sin(angleAt(share)), 0];
  const nodes = Array.from({ length: count + 1 }, (_, index): Vector => {
    const [x, y] = outAt(index / count);
    return [radius * x, radius * y, stack * (index / count)];
  });
  const beams = nodes.slice(1).map(
    (_, index): Beam => ({
      from: index,
      to: index + 1,
      elasticity: metal.elasticity,
      shearModulus: metal.elasticity / (2 * (1 + metal.poissonRatio)),
      area: section.area,
      alongY: section.radialMoment,
      acrossY: section.tangentialMoment,
      torsion: section.torsionConstant,
      y: outAt((index + 0.5) / count),
    }),
  );
  const [x, y] = nodes[count]!;
  const turn = pushed === undefined ? 1 : 0;
  const held = new Map(sixOf(0).map((unknown): [number, number] => [unknown, 0]));
  [-y * turn, x * turn, 0, 0, 0, turn].forEach((value, direction) => {
    held.set(6 * count + direction, value);
  });
  const loads = new Map<number, number>();
  if (pushed !== undefined) {
    outAt(pushed / count).forEach((part, direction) => {
      loads.set(6 * pushed + direction, part);
    });
  }
  const { displacements, reactions } = solveFrame({ nodes, beams }, held, loads);
  const end = [...reactions.subarray(6 * count)];
  const [force, moment] = [end.slice(0, 3), end.slice(3)];
  const length = Math.hypot(stack, lean * radius);
  const along: Vector = [(-y * lean) / length, (x * lean) / length, stack / length];
  const out: Vector = [x / radius, y / radius, 0];
  return {
    torque: x * force[1]! - y * force[0]! + moment[2]!,
    axial: Math.abs(dot(force, along)) / section.area,
    bending:
      (Math.abs(dot(moment, out)) * section.width) / 2 / section.tangentialMoment +
      (Math.abs(dot(moment, cross(along, out))) * section.height) / 2 / section.radialMoment,
    outwards: watched.map((node) =>
      dot([...displacements.subarray(6 * node, 6 * node + 3)], outAt(node / count)),
    ),
  };
}

function dot(a: readonly number[], b: readonly number[]): number {
  return a.reduce((sum, each, index) => sum + each * b[index]!, 0);
}
