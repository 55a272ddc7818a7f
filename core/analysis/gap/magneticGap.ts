import {
  allOf,
  assuming,
  derive,
  deriveFigure,
  type Figure,
  known,
  knownIf,
  missing,
} from '../../figures/figure.ts';
import { fixed } from '../../language/numbers.ts';
import { stated } from '../../language/specification/defaults.ts';
import type { Specification } from '../../language/specification/specification.ts';
import { machineStatements } from '../../language/vocabulary/blocks/machine.ts';
import type { Winding } from '../../winding/model.ts';
import { type GapSide, gapDiameter, gapSides, machineValue, slotOfLayer } from '../machineInputs.ts';
import { carterFactor } from './carter.ts';

/** A gap between stator iron and rotor iron: its diameter and the length of an equal one that is all air, m. */
export interface MagneticGap {
  readonly side: GapSide;
  /** Of the stator at the gap. */
  readonly diameter: number;
  /** Along the radius: air, and magnets as so much air. */
  readonly length: number;
}

/** Air gap and magnets of one side, G = g + h/mu, as if the stator had no slots. */
function smoothGap(specification: Specification, side: GapSide): Figure<MagneticGap> {
  const height = magnetHeight(specification, side);
  return derive(
    {
      diameter: gapDiameter(specification, side),
      air: lengthAt(specification, side, 'airGap', 'machine air-gap'),
      height,
      permeability:
        height.known && height.value === 0 ? known(1) : machineValue(specification, 'magnetPermeability'),
    },
    ({ diameter, air, height: magnets, permeability }) => ({
      side,
      diameter,
      length: air + magnets / permeability,
    }),
  );
}

/** Radial magnet height of one side, m. */
function magnetHeight(specification: Specification, side: GapSide): Figure<number> {
  return lengthAt(
    specification,
    side,
    'magnetHeight',
    'machine magnet-height',
    ' (0 mm where there are no magnets)',
  );
}

/** The length for a side; of two gaps the one that is written for both is assumed to hold for both. */
function lengthAt(
  { machine }: Specification,
  side: GapSide,
  key: 'airGap' | 'magnetHeight',
  word: string,
  remark = '',
): Figure<number> {
  const lengths = machine?.[key]?.value;
  const length = lengthOf(side, lengths);
  return length !== undefined && lengths?.second === null && machine?.gap?.value === 'both'
    ? known(length, `two gaps: one ${word} for both`)
    : knownIf(length, word + remark);
}

/** The length for a side of a statement that gives one length, or an inner and an outer one. */
export function lengthOf(
  side: GapSide,
  lengths: { readonly first: number; readonly second: number | null } | undefined,
): number | undefined {
  return lengths && side === 'outer' ? (lengths.second ?? lengths.first) : lengths?.first;
}

/**
 * The gap of one side as its field meets it, kC G: the slots lengthen all of G = g + h/mu, as the
 * magnets let their disturbance through like air (Zhu, Howe, IEEE Trans. Magnetics 29(1), 1993, from
 * memory).
 */
function effectiveGap(specification: Specification, winding: Winding, side: GapSide): Figure<MagneticGap> {
  return deriveFigure({ gap: smoothGap(specification, side) }, ({ gap }) =>
    derive({ carter: gapCarterFactor(specification, winding, gap) }, ({ carter }) => ({
      ...gap,
      length: carter * gap.length,
    })),
  );
}

/** Carter's factor of a gap; 1 where `carter off` is written or no slot opening is given. */
function gapCarterFactor(specification: Specification, winding: Winding, gap: MagneticGap): Figure<number> {
  const carter = stated(machineStatements, specification.machine, 'carter');
  if (carter.known && !carter.value) return known(1);
  const layer = gap.side === 'inner' ? 0 : winding.layers - 1;
  const opening = slotOfLayer(specification, layer)?.opening?.value;
  if (opening === undefined) return known(1, "Carter's factor 1: no slot opening is given");
  const pitch = (Math.PI * gap.diameter) / winding.slots;
  if (opening >= pitch) return missing('slot opening narrower than the slot pitch at the gap');
  const factor = carterFactor(pitch, opening, gap.length);
  return derive({ carter }, () => factor);
}

/** What the model of two gaps in series rests on. */
export const straightThrough =
  'two gaps: facing poles of the rotors are opposite, the flux passes straight through the stator';

/** Sum over the gaps of effective length over diameter: g_eff/D, of two gaps in series too. */
export function relativeGap(specification: Specification, winding: Winding): Figure<number> {
  return deriveFigure({ sides: gapSides(specification) }, ({ sides }) => {
    const gaps = allOf(sides.map((side) => effectiveGap(specification, winding, side)));
    const sum = derive({ gaps }, (given) =>
      given.gaps.reduce((total, { length, diameter }) => total + length / diameter, 0),
    );
    return sides.length > 1 ? assuming(sum, straightThrough) : sum;
  });
}

/**
 * Share of a slot's ampere-conductors that drives flux over the inner gap: 1 for a closed outer end,
 * 0 for a closed inner one; between two gaps their reluctances decide, R_i/(R_i + R_o) with
 * R = effective gap/radius.
 */
export function innerGapShare(specification: Specification, winding: Winding): Figure<number> {
  return deriveFigure({ sides: gapSides(specification) }, ({ sides }) => {
    if (sides.length === 1) return known(sides[0] === 'inner' ? 1 : 0);
    const inner = effectiveGap(specification, winding, 'inner');
    const outer = effectiveGap(specification, winding, 'outer');
    return deriveFigure({ inner, outer }, (given) => {
      const share = shareOf(
        given.inner.length / given.inner.diameter,
        given.outer.length / given.outer.diameter,
      );
      return known(
        share,
        `two gaps: ${fixed(100 * share, 1)} % of the slot current acts on the inner gap, the rest on the outer, by effective gap/radius`,
      );
    });
  });
}

/**
 * Share of the torque that acts on the inner rotor. Two gaps are one magnetic circuit with the magnet
 * MMFs in series, Br h/(mu0 mu); turning one rotor changes its own term alone, so virtual work gives each
 * rotor a torque in proportion to its magnets' MMF, whatever the gaps' reluctances. Equal remanence and,
 * as the language has one permeability, equal permeability: in proportion to the magnet heights.
 */
export function innerTorqueShare(specification: Specification): Figure<number> {
  return deriveFigure({ sides: gapSides(specification) }, ({ sides }) => {
    if (sides.length === 1) return known(sides[0] === 'inner' ? 1 : 0);
    const inner = magnetHeight(specification, 'inner');
    const outer = magnetHeight(specification, 'outer');
    return deriveFigure({ inner, outer }, (given) => {
      if (given.inner + given.outer === 0) return missing('machine magnet-height above 0 mm');
      const share = shareOf(given.inner, given.outer);
      return known(
        share,
        `two gaps: ${fixed(100 * share, 1)} % of the torque acts on the inner rotor, the rest on the outer, as magnet height/permeability, for magnets of equal remanence`,
      );
    });
  });
}

function shareOf(inner: number, outer: number): number {
  return inner / (inner + outer);
}
