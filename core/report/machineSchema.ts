import * as z from 'zod';
import { count, figure, figureAt, known, maybe, number } from './schemaNumbers.ts';

/** EMF, torque, inductances: V, Nm, W, H; rms and of the fundamental. */
export const emfSchema = z.strictObject({
  frequency: figureAt('emf.frequency'),
  phaseVoltage: figureAt('emf.phaseVoltage'),
  lineVoltage: figureAt('emf.lineVoltage'),
  lineVoltages: z.array(z.strictObject({ apart: count, voltage: known('V rms') })),
  torque: figureAt('emf.torque'),
  power: figureAt('emf.power'),
  torquePerAmpere: figureAt('emf.torquePerAmpere'),
  motorConstant: figureAt('emf.motorConstant'),
  magnetizingInductance: figureAt('emf.magnetizingInductance'),
  differentialLeakageInductance: figureAt('emf.differentialLeakageInductance'),
  gapFluxDensity: figureAt('emf.gapFluxDensity'),
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
      lineVoltage: figureAt('emf.harmonics.lineVoltage'),
      orders: z.array(z.strictObject({ harmonic: count, phaseVoltage: known('V rms') })),
    })
    .nullable(),
});

/** The rated load point and what bounds the machine: H, A, V, W, Nm, revolutions per second; rms. */
export const operationSchema = z.strictObject({
  inductance: z.strictObject({
    d: figureAt('operation.inductance.d'),
    q: figureAt('operation.inductance.q'),
    magnetizing: figureAt('operation.inductance.magnetizing'),
    differential: figureAt('operation.inductance.differential'),
    slot: figureAt('operation.inductance.slot'),
    end: figureAt('operation.inductance.end'),
  }),
  current: figureAt('operation.current'),
  angle: figureAt('operation.angle'),
  terminalVoltage: figureAt('operation.terminalVoltage'),
  powerFactor: figureAt('operation.powerFactor'),
  apparentPower: figureAt('operation.apparentPower'),
  shaftPower: figureAt('operation.shaftPower'),
  torque: figureAt('operation.torque'),
  baseSpeed: figureAt('operation.baseSpeed'),
  topSpeed: figureAt('operation.topSpeed'),
  topSpeedUnlimited: z
    .boolean()
    .describe(
      'The voltage sets no top speed, as the rated current can cancel the field; topSpeed is then null',
    ),
  characteristicCurrent: figureAt('operation.characteristicCurrent'),
  shortCircuitCurrent: figureAt('operation.shortCircuitCurrent'),
  curve: z.array(
    z.strictObject({
      speed: known('Revolutions per second'),
      torque: known('Most torque within rated current and voltage, Nm'),
      power: known('W'),
      current: known('At a terminal, A rms'),
      angle: known('By which the current leads the EMF, electrical degrees'),
      terminalVoltage: known('Between adjacent line terminals, V rms'),
      powerFactor: number,
    }),
  ),
});

/** Points of the duty and their cycle: rms currents at the terminals, revolutions per second, s, J, W, degC. */
export const dutySchema = z.strictObject({
  points: z.array(
    z.strictObject({
      name: z.string(),
      speed: known('Revolutions per second'),
      frequency: known('Hz'),
      torque: figureAt('duty.points.torque'),
      current: figureAt('duty.points.current'),
      angle: figure('By which the current leads the EMF, electrical degrees'),
      terminalVoltage: figureAt('duty.points.terminalVoltage'),
      powerFactor: figureAt('duty.points.powerFactor'),
      loss: z.strictObject({
        dc: figure('W'),
        ac: figure('What eddies add, W'),
        harmonics: figure(
          'Of harmonics and ripple of the current and of what circulates in a ring of phases, W',
        ),
        barField: figure('Of the eddies that the rotor\u2019s field drives in the bars, W'),
        total: figureAt('duty.points.loss.total'),
      }),
      hotSpot: figureAt('duty.points.hotSpot'),
      adiabaticRise: figureAt('duty.points.adiabaticRise'),
      duration: known('s'),
    }),
  ),
  cycle: z.strictObject({
    duration: known('s'),
    copperEnergy: figureAt('duty.cycle.copperEnergy'),
    meanCopperLoss: figureAt('duty.cycle.meanCopperLoss'),
    copperEfficiency: figureAt('duty.cycle.copperEfficiency'),
    rmsCurrent: figureAt('duty.cycle.rmsCurrent'),
    hotSpot: figureAt('duty.cycle.hotSpot'),
    coreTemperature: figureAt('duty.cycle.coreTemperature'),
  }),
});

/** Peak flux densities of the fundamental in the stator iron, T. */
export const ironSchema = z.strictObject({
  tooth: z.strictObject({ noLoad: figureAt('iron.tooth.noLoad'), load: figureAt('iron.tooth.load') }),
  yoke: z.strictObject({ noLoad: figureAt('iron.yoke.noLoad'), load: figureAt('iron.yoke.load') }),
});

/** Section, lengths, resistance, losses, leakage, heat and stiffness: SI units, temperatures in degC. */
export const copperSchema = z.strictObject({
  section: z.strictObject({
    barArea: z.array(number).nullable().describe('Bare conductor area of a bar, one a layer, m2'),
    slotFill: figureAt('copper.section.slotFill'),
    spareRoom: z.array(
      z.strictObject({
        layers: z.array(z.string()),
        width: known('Room left across the slot, m'),
        height: known('Room left along the depth, m'),
      }),
    ),
  }),
  length: z.strictObject({
    bars: figureAt('copper.length.bars'),
    total: figureAt('copper.length.total'),
    overhangConnection: figureAt('copper.length.overhangConnection'),
    overhangFar: figureAt('copper.length.overhangFar'),
    pieces: z.array(z.strictObject({ joint: count, length: known('m') })),
  }),
  resistance: z.strictObject({
    path20: figureAt('copper.resistance.path20'),
    phase20: figureAt('copper.resistance.phase20'),
    phase: figureAt('copper.resistance.phase'),
    line20: figureAt('copper.resistance.line20'),
    line: figureAt('copper.resistance.line'),
  }),
  mass: figureAt('copper.mass'),
  currentDensity: figureAt('copper.currentDensity'),
  ringCurrentDensity: figureAt('copper.ringCurrentDensity'),
  loss: z.strictObject({
    dc: figureAt('copper.loss.dc'),
    ac: figureAt('copper.loss.ac'),
    harmonics: figureAt('copper.loss.harmonics'),
    barField: figureAt('copper.loss.barField'),
    total: figureAt('copper.loss.total'),
  }),
  acRatio: z.strictObject({
    layers: z.array(maybe).nullable().describe('AC over DC resistance in the slot, one a layer'),
    slot: figureAt('copper.acRatio.slot'),
    bar: figureAt('copper.acRatio.bar'),
    worst: figureAt('copper.acRatio.worst'),
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
    slotPermeance: figureAt('copper.leakage.slotPermeance'),
    slotInductance: figureAt('copper.leakage.slotInductance'),
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
    rise: figureAt('copper.heat.rise'),
    hotSpot: figureAt('copper.heat.hotSpot'),
    place: z.enum(['slot', 'overhang']).nullable().describe('Where the hot spot lies'),
    endShare: figureAt('copper.heat.endShare'),
    coreShare: figureAt('copper.heat.coreShare'),
    coreTemperature: figureAt('copper.heat.coreTemperature'),
    profile: z.array(z.strictObject({ distance: known('From mid-bar, m'), temperature: known('degC') })),
  }),
  cage: z.strictObject({
    stiffness: figureAt('copper.cage.stiffness'),
    straight: figureAt('copper.cage.straight'),
    stress: figureAt('copper.cage.stress'),
    bending: figureAt('copper.cage.bending'),
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
