import { allOf, assuming, derive, deriveFigure, type Figure, known } from '../../figures/figure.ts';
import type { Specification } from '../../language/specification/specification.ts';
import type { Winding } from '../../winding/model.ts';
import { innerTorqueShare, relativeGap, straightThrough } from '../gap/magneticGap.ts';
import { type GapSide, gapDiameter, gapSides, machineValue, seriesTurns } from '../machineInputs.ts';

/** Permeability of vacuum, Vs/(Am). */
export const vacuumPermeability = 4e-7 * Math.PI;

/** One gap: its diameter and area, and the mean shear stress that its share of the torque asks of it. */
export interface GapFigures {
  readonly side: GapSide;
  /** Of the stator at the gap, m. */
  readonly diameter: number;
  /** Pi times diameter and stack, m2. */
  readonly area: number;
  /** Share of the torque that acts on this gap's rotor. */
  readonly torqueShare: number;
  /** Pa. */
  readonly shearStress: number;
}

/**
 * Inductance of one turn whose winding function is 1 everywhere, over the angle it covers: mu0 l
 * (D/2)/g_eff, H per radian; two gaps in series: D/g_eff := 1/(g_i/D_i + g_o/D_o). Linear iron.
 */
export function gapPermeance(specification: Specification, winding: Winding): Figure<number> {
  return derive(
    { stack: machineValue(specification, 'stack'), gap: relativeGap(specification, winding) },
    ({ stack, gap }) => (vacuumPermeability * stack) / (2 * gap),
  );
}

/**
 * Magnetizing inductance of a phase, H: m mu0 l (N kw)^2/(pi p^2) times D/g_eff, g_eff = kC (g + h/mu)
 * with Carter's factor kC. `square` is the mean over the stack of kw squared without the rotor's skew,
 * which weakens the EMF, not the winding's own field. Source: Pyrhonen, Jokinen, Hrabovcova, Design of
 * Rotating Electrical Machines, 2nd ed., 3.9 (from memory); Kirtley, MIT OpenCourseWare 6.685 notes (from
 * memory).
 */
export function magnetizingInductance(
  specification: Specification,
  winding: Winding,
  square: Figure<number>,
): Figure<number> {
  return derive(
    {
      permeance: gapPermeance(specification, winding),
      turns: seriesTurns(specification, winding),
      square,
    },
    ({ permeance, turns, square: factor }) =>
      (2 * winding.phases.names.length * permeance * turns ** 2 * factor) /
      (Math.PI * winding.polePairs ** 2),
  );
}

const evenFlux =
  'gap flux density: the fundamental flux spread over pole pitch and stack at the bore, without slot openings and fringing';

/** Peak of the fundamental of the flux density at the gap, T, the larger of two: p Phi/(D l). */
export function gapFluxDensity(specification: Specification, winding: Winding): Figure<number> {
  return deriveFigure({ sides: gapSides(specification) }, ({ sides }) => {
    const diameters = allOf(sides.map((side) => gapDiameter(specification, side)));
    const stack = machineValue(specification, 'stack');
    const density = derive(
      { diameters, stack, flux: machineValue(specification, 'flux') },
      (given) => (winding.polePairs * given.flux) / (Math.min(...given.diameters) * given.stack),
    );
    return assuming(density, evenFlux);
  });
}

/**
 * Areas of the gaps and the mean shear stress on each, by the torque that acts on its rotor; two gaps
 * do not by themselves double the torque of the same bars and flux.
 */
export function gapFigures(
  specification: Specification,
  torque: Figure<number>,
): Figure<readonly GapFigures[]> {
  return deriveFigure({ sides: gapSides(specification) }, ({ sides }) => {
    const figures = sides.map((side) =>
      deriveFigure(
        {
          diameter: gapDiameter(specification, side),
          stack: machineValue(specification, 'stack'),
          torque,
          inner: innerTorqueShare(specification),
        },
        ({ diameter, stack, torque: nm, inner }) => {
          const area = Math.PI * diameter * stack;
          const torqueShare = side === 'inner' ? inner : 1 - inner;
          return known({
            side,
            diameter,
            area,
            torqueShare,
            shearStress: (nm * torqueShare) / (area * (diameter / 2)),
          });
        },
      ),
    );
    return sides.length > 1 ? assuming(allOf(figures), straightThrough) : allOf(figures);
  });
}
