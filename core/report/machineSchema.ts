import * as z from 'zod';
import { count, figure, known, maybe, number } from './schemaNumbers.ts';

/** EMF, torque, inductances: V, Nm, W, H; rms and of the fundamental. */
export const emfSchema = z.strictObject({
  frequency: figure('Electrical frequency, Hz'),
  phaseVoltage: figure('EMF of one phase, fundamental, V rms'),
  lineVoltage: figure('EMF between adjacent line terminals, fundamental, V rms'),
  lineVoltages: z.array(z.strictObject({ apart: count, voltage: known('V rms') })),
  torque: figure('Current in phase with the EMF, Nm'),
  power: figure('Current in phase with the EMF, W'),
  torquePerAmpere: figure('Per ampere of terminal current, Nm/A'),
  motorConstant: figure('Torque per square root of copper loss, Nm/sqrt(W)'),
  magnetizingInductance: figure('Of one phase, H'),
  differentialLeakageInductance: figure('Of one phase, H'),
  gapFluxDensity: figure('Peak of the fundamental at the gap, T'),
  gaps: z.array(
    z.strictObject({
      side: z.enum(['inner', 'outer']),
      diameter: known('m'),
      area: known('m2'),
      torqueShare: known('Fraction of the torque'),
      shearStress: known('Mean, Pa'),
    }),
  ),
  harmonics: z
    .strictObject({
      phaseVoltage: known('All orders together, V rms'),
      lineVoltage: figure('All orders together, V rms'),
      orders: z.array(z.strictObject({ harmonic: count, phaseVoltage: known('V rms') })),
    })
    .nullable(),
});

/** Section, lengths, resistance, losses, leakage, heat and stiffness: SI units, temperatures in degC. */
export const copperSchema = z.strictObject({
  section: z.strictObject({
    barArea: z.array(number).nullable().describe('Copper area of a bar, one a layer, m2'),
    slotFill: figure('Copper area over slot area, fraction'),
    spareRoom: z.array(
      z.strictObject({
        layers: z.array(z.string()),
        width: known('Room left across the slot, m'),
        height: known('Room left along the depth, m'),
      }),
    ),
  }),
  length: z.strictObject({
    bars: figure('Mean whole bar, m'),
    total: figure('All bars and pieces, m'),
    overhangConnection: figure('Beyond the stack, m'),
    overhangFar: figure('Beyond the stack, m'),
    pieces: z.array(z.strictObject({ joint: count, length: known('m') })),
  }),
  resistance: z.strictObject({
    path20: figure('Mean path at 20 degC, ohm'),
    phase20: figure('At 20 degC, ohm'),
    phase: figure('At the winding temperature, ohm'),
    line: figure('Between adjacent line terminals, winding temperature, ohm'),
  }),
  mass: figure('kg'),
  currentDensity: figure('Largest of any bar, A/m2 rms'),
  loss: z.strictObject({
    dc: figure('With the currents the paths carry, W'),
    ac: figure('What eddies add, W'),
    total: figure('W'),
  }),
  acRatio: z.strictObject({
    layers: z.array(maybe).nullable().describe('AC over DC resistance in the slot, one a layer'),
    slot: figure('AC over DC resistance in the slot, mean'),
    bar: figure('Of whole bars'),
    worst: figure('Of the worst bar'),
    slotKinds: z.array(z.strictObject({ slots: z.array(count), ratio: known('AC over DC resistance') })),
    bestHeights: z.array(
      z.strictObject({
        layers: z.array(z.string()),
        height: known('Bar height of least AC resistance, m'),
        ratio: known('AC over DC resistance at that height'),
        room: figure('Height that the slot leaves a bar, m'),
      }),
    ),
  }),
  leakage: z.strictObject({
    slotPermeance: figure('Of one slot, dimensionless'),
    slotInductance: figure('Of one phase, H'),
    pathImpedances: z
      .strictObject({
        frequency: known('Hz'),
        paths: z.array(
          z.strictObject({
            phase: z.string(),
            path: count,
            resistance: known('At the winding temperature, direct current, ohm'),
            selfInductance: known('Slot leakage of the path by itself, H'),
          }),
        ),
      })
      .nullable(),
  }),
  heat: z.strictObject({
    rise: figure('At mid-bar over the ends, K'),
    hotSpot: figure('degC'),
    endShare: figure('Heat leaving by the ends, fraction'),
  }),
  cage: z.strictObject({
    stiffness: figure('Torsional, crossed bars, Nm/rad'),
    straight: figure('Torsional, straight clamped bars, Nm/rad'),
    stress: figure('Axial, at the torque, Pa'),
    bending: figure('At the clamped ends, at the torque, beside the axial stress, Pa'),
    leanTrade: z.array(
      z.strictObject({
        slots: known('Lean over the stack in slot pitches'),
        skewFactor: figure('Of the fundamental, with the skew of the rotor'),
        barLength: figure('Mean whole bar, m'),
        resistanceRatio: figure('Against straight bars'),
        stiffness: figure('Nm/rad'),
        stress: figure('Axial, Pa'),
        bending: figure('At the clamped ends, Pa'),
      }),
    ),
  }),
});
