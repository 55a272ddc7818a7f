import type { BarSection } from '../../sizes/section.ts';
import type { Metal } from '../metals.ts';

/** The bars of one layer in a cage. SI units. */
export interface CageLayer {
  /** How many there are. */
  readonly bars: number;
  /** Of their centers, m. */
  readonly radius: number;
  readonly section: BarSection;
  /** Lean over the stack, mechanical radians, signed. */
  readonly lean: number;
  /** Stretches between the places that hold a bar radially, as shares of its length; one between the rings. */
  readonly spans: readonly number[];
}

/** Torsional stiffness of a cage of bars over a stack. */
export interface CageFigures {
  /** Of the bars as they lean, Nm/rad. */
  readonly stiffness: number;
  /** Of the same bars without lean, Nm/rad. */
  readonly straight: number;
  /** Whether the families balance axially; else torque pulls at the rings along the axis. */
  readonly balanced: boolean;
  /** Largest bow of a bar between two places that hold it radially, over the distance of these places. */
  readonly bow: number;
}

/** Stresses of the bars of a cage, Pa: the largest of any layer. */
export interface CageStresses {
  /** Along a bar. */
  readonly axial: number;
  /** At the clamped ends, besides the axial one. */
  readonly bending: number;
}

const balanceTolerance = 1e-9;

/**
 * Stiffness of the bars between two rigid rings that are held axially, one turned against the other. A
 * leaning bar is stretched along its chord Lc, Lc^2 = l^2 + 4 r^2 sin^2(lean/2): E A (r^2 sin lean)^2/Lc^3;
 * less, because a bar on a cylinder is bowed: as a clamped shallow arch (fixed parabolic arch, Timoshenko
 * and Young, Theory of Structures, from memory). Every bar besides bends and twists as a straight
 * clamped one: 12 E I r^2/l^3 + G J/l.
 */
export function cageStiffness(layers: readonly CageLayer[], stack: number, metal: Metal): CageFigures {
  let stretched = 0;
  let straight = 0;
  let axial = 0;
  let axialSize = 0;
  let bow = 0;
  for (const layer of layers) {
    if (layer.bars === 0) continue;
    const { bars, radius } = layer;
    const bar = leaningBar(layer, stack);
    const spring = (bars * metal.elasticity * layer.section.area) / bar.chord / bar.softening;
    stretched += spring * bar.stretch ** 2;
    axial += (spring * bar.stretch * stack) / bar.chord;
    axialSize += Math.abs((spring * bar.stretch * stack) / bar.chord);
    straight += bars * straightBar(layer.section, radius, stack, metal);
    bow = Math.max(bow, bar.bow / bar.span);
  }
  return {
    stiffness: stretched + straight,
    straight,
    balanced: Math.abs(axial) <= balanceTolerance * axialSize,
    bow,
  };
}

/**
 * Stresses at a torque in Nm: it turns the rings against each other by torque/stiffness. The force N along
 * a bar follows from its stretch; its ends bend by 6 E I r/l^2 times the turn along the circumference,
 * and radially by N times two thirds of the bow (clamped arch) and by what turns into that direction of
 * the other moment as the bar runs round the axis. Null for a cage without bars.
 */
export function cageStresses(
  layers: readonly CageLayer[],
  stack: number,
  metal: Metal,
  torque: number,
): CageStresses | null {
  const filled = layers.filter(({ bars }) => bars > 0);
  if (filled.length === 0) return null;
  const turn = Math.abs(torque) / cageStiffness(filled, stack, metal).stiffness;
  const each = filled.map((layer) => {
    const { section, radius } = layer;
    const bar = leaningBar(layer, stack);
    const axial = (metal.elasticity * Math.abs(bar.stretch) * turn) / bar.chord / bar.softening;
    const tangential = (6 * metal.elasticity * section.tangentialMoment * radius * turn) / stack ** 2;
    const radial = (2 / 3) * axial * section.area * bar.bow + (tangential * Math.abs(layer.lean)) / 2;
    const bending =
      (tangential * section.width) / 2 / section.tangentialMoment +
      (radial * section.height) / 2 / section.radialMoment;
    return { axial, bending };
  });
  return {
    axial: Math.max(...each.map(({ axial }) => axial)),
    bending: Math.max(...each.map(({ bending }) => bending)),
  };
}

/** How a bar of a layer takes a turn of the rings. Lengths in m. */
interface LeaningBar {
  readonly chord: number;
  /** Elongation for a turn of one radian. */
  readonly stretch: number;
  /** Its longest span between radial supports, and how far it is bowed over that. */
  readonly span: number;
  readonly bow: number;
  /** By what factor the bows make the bar softer along its chord. */
  readonly softening: number;
}

function leaningBar({ radius, lean, section, spans }: CageLayer, stack: number): LeaningBar {
  const chord = Math.hypot(stack, 2 * radius * Math.sin(lean / 2));
  const length = Math.hypot(stack, radius * lean);
  const bowOf = (share: number) => (share * lean * radius) ** 2 / (8 * radius);
  const longest = Math.max(...spans);
  const softness = spans.reduce((sum, share) => sum + share * bowOf(share) ** 2, 0);
  return {
    chord,
    stretch: (radius ** 2 * Math.sin(lean)) / chord,
    span: longest * length,
    bow: bowOf(longest),
    softening: 1 + ((4 / 45) * section.area * softness) / section.radialMoment,
  };
}

/** Stiffness that a straight clamped bar gives to the cage by bending and torsion, Nm/rad. */
function straightBar(section: BarSection, radius: number, stack: number, metal: Metal): number {
  const bending = (12 * metal.elasticity * section.tangentialMoment * radius ** 2) / stack ** 3;
  const shearModulus = metal.elasticity / (2 * (1 + metal.poissonRatio));
  return bending + (shearModulus * section.torsionConstant) / stack;
}

/** Whether some layers lean one way and some the other, so that their bars cross and make a truss. */
export function layersCross(lean: readonly number[]): boolean {
  return lean.some((each) => each > 0) && lean.some((each) => each < 0);
}
