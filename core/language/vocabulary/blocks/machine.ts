import { mostSlots } from '../../counts.ts';
import { amount, angle, angleOf, hasKeyword, oneOf, quantities } from '../../specification/reading.ts';
import { between, even, phaseCount, positive, valueNamed, whole } from '../../specification/rules.ts';
import type { GapLengths } from '../../specification/statements.ts';
import type { Statement } from '../../text/document.ts';
import { plain, type VocabularyEntry } from '../entry.ts';
import { statementsOf } from '../word.ts';

const size = { length: between(1e-4, 100, 'a length from 0.1 mm to 100 m') };
const thickness = { length: between(0, 1, 'a length from 0 mm to 1 m') };
const barSize = { length: between(1e-5, 1, 'a length from 0.01 mm to 1 m') };
const anyAngle = between(-360, 360, 'an angle from -360 to 360 deg, edeg or slot');
const inductance = { inductance: positive(1000, 'an inductance above 0 mH') };
const temperature = { temperature: between(-60, 400, 'a temperature from -60 degC to 400 degC') };

/** Statements of the machine block, in canonical order. */
export const machineStatements = statementsOf('machine', {
  slots: {
    pattern: 'count',
    read: amount,
    rules: { count: whole(3, mostSlots) },
    meaning: 'Number of slots round the bore.',
    example: 'slots 48',
  },
  poles: {
    pattern: 'count',
    read: amount,
    rules: { count: even(2, mostSlots) },
    meaning: 'Number of poles (twice the pole pairs).',
    example: 'poles 8',
  },
  phases: {
    pattern: "count ('apart' angle)?",
    read: readPhases,
    rules: {
      count: valueNamed('the number of phases', phaseCount),
      angle: valueNamed("the angle after 'apart'", anyAngle),
    },
    meaning: 'Number of phases: odd from 3 to 15, or 6 in two sets apart by an electrical angle.',
    example: 'phases 3',
  },
  gap: {
    ...oneOf('inner', 'outer', 'both'),
    meaning: 'Where the rotor stands: inside (inner), outside (outer), or one on each side (both).',
    example: 'gap inner',
    default: 'inner',
  },
  /** Diameter of the inner end of the stator, m. */
  bore: {
    pattern: 'length',
    read: amount,
    rules: size,
    meaning: 'Stator diameter at the inner gap.',
    example: 'bore 162 mm',
  },
  /** Diameter of its outer end, m. */
  outside: {
    pattern: 'length',
    read: amount,
    rules: size,
    meaning:
      'Stator diameter at the outer gap; left out with two gaps, it follows from bore, slot depth and opening-height.',
    example: 'outside 220 mm',
  },
  /** Length of the iron along the axis, m. */
  stack: {
    pattern: 'length',
    read: amount,
    rules: size,
    meaning: 'Axial length of the stator stack.',
    example: 'stack 96 mm',
  },
  /** Share of the stack that is iron. */
  stackFactor: {
    pattern: 'number',
    read: amount,
    rules: { number: between(0.1, 1, 'a number from 0.1 to 1') },
    meaning: 'Share of the stack\u2019s length that is iron, between the coatings of its sheets.',
    example: 'stack-factor 0.96',
    default: '0.95',
  },
  /** Along the radius, behind the slots, m. */
  yokeHeight: {
    pattern: 'length',
    read: amount,
    rules: barSize,
    meaning: 'Radial height of the stator yoke behind the slots.',
    example: 'yoke-height 14 mm',
  },
  /** Along the radius, m. */
  airGap: {
    pattern: 'length length?',
    read: gapLengths,
    rules: barSize,
    meaning: 'Radial air gap; of gaps on both sides inner and outer, or one for both.',
    example: 'air-gap 0.8 mm',
  },
  /** Along the radius, m. */
  magnetHeight: {
    pattern: 'length length?',
    read: gapLengths,
    rules: thickness,
    meaning: 'Radial magnet height; of gaps on both sides inner and outer, or one for both.',
    example: 'magnet-height 5 mm',
  },
  /** Relative to that of the vacuum. */
  magnetPermeability: {
    pattern: 'number',
    read: amount,
    rules: { number: between(1, 100, 'a number from 1 to 100') },
    meaning: 'Relative recoil permeability of the magnets.',
    example: 'magnet-permeability 1.05',
    default: '1.05',
  },
  carter: {
    pattern: "'on' | 'off'",
    read: (statement) => hasKeyword(statement, 'on'),
    meaning: "Whether Carter's factor widens the gap for the slot opening.",
    example: 'carter on',
    default: 'on',
  },
  /** Revolutions per second. */
  speed: {
    pattern: 'speed',
    read: amount,
    rules: { speed: positive(5000, 'a speed above 0 rpm, up to 300000 rpm') },
    meaning: 'Rotor speed.',
    example: 'speed 3600 rpm',
  },
  /** Electrical, Hz. */
  frequency: {
    pattern: 'frequency',
    read: amount,
    rules: { frequency: positive(1e6, 'a frequency above 0 Hz, up to 1000 kHz') },
    meaning: 'Electrical frequency; give it or the speed.',
    example: 'frequency 240 Hz',
  },
  /** Of the fundamental, one pole, Wb. */
  flux: {
    pattern: 'flux',
    read: amount,
    rules: { flux: positive(1000, 'a flux above 0 mWb') },
    meaning: 'Fundamental flux of one pole.',
    example: 'flux 4.1 mWb',
  },
  /** Rms, of a terminal, A. */
  current: {
    pattern: 'current',
    read: amount,
    rules: { current: positive(1e6, 'a current above 0 A, up to 1000 kA') },
    meaning: 'Terminal current, rms.',
    example: 'current 210 A',
  },
  /** By which the phase current leads the EMF: positive weakens the field. */
  currentAngle: {
    pattern: 'angle',
    read: angle,
    rules: { angle: between(-90, 90, 'an angle from -90 to 90 edeg') },
    meaning: 'Electrical angle by which the phase current leads the EMF; positive weakens the field.',
    example: 'current-angle 20 edeg',
    default: '0 edeg',
  },
  /** Along the axes of the rotor, without end winding, H. */
  dInductance: {
    pattern: 'inductance',
    read: amount,
    rules: inductance,
    meaning:
      'Synchronous inductance of a phase along the axis of the rotor\u2019s flux, without the end winding, from a plane field computation.',
    example: 'd-inductance 0.21 mH',
  },
  /** As that of the d axis, H. */
  qInductance: {
    pattern: 'inductance',
    read: amount,
    rules: inductance,
    meaning:
      'Synchronous inductance of a phase along the axis of the EMF, without the end winding, from a plane field computation.',
    example: 'q-inductance 0.34 mH',
  },
  /** Rms, between line terminals, V. */
  voltage: {
    pattern: 'voltage',
    read: amount,
    rules: { voltage: positive(1e6, 'a voltage above 0 V, up to 1000 kV') },
    meaning:
      'Rated line voltage, rms: what the supply gives at most; base and top speed and the withstand test follow from it.',
    example: 'voltage 400 V',
  },
  /** Of the winding, for its resistance, degC. */
  windingTemperature: {
    pattern: 'temperature',
    read: amount,
    rules: temperature,
    meaning: 'Temperature of the winding for resistance.',
    example: 'winding-temperature 120 degC',
  },
  /** Of what cools the bar ends, and of the core without one of its own, degC. */
  endTemperature: {
    pattern: 'temperature',
    read: amount,
    rules: temperature,
    meaning: 'Temperature of what cools the bar ends, and of the core without a core-temperature.',
    example: 'end-temperature 80 degC',
  },
  /** At which the core is held, degC. */
  coreTemperature: {
    pattern: 'temperature',
    read: amount,
    rules: temperature,
    meaning:
      'Temperature at which the core is held; without it, and without what lets the core follow, that of the ends.',
    example: 'core-temperature 95 degC',
  },
  /** Heat capacity of a core that the bars heat, J/K. */
  coreHeat: {
    pattern: 'heat-capacity',
    read: amount,
    rules: { 'heat-capacity': positive(1e9, 'a heat capacity above 0 J/K') },
    meaning:
      'Heat capacity of a core that the bars heat, in place of a core-temperature: how slowly it follows the duty.',
    example: 'core-heat 12 kJ/K',
  },
  /** Of that core to its coolant, W/K. */
  coreCooling: {
    pattern: 'cooling',
    read: amount,
    rules: { cooling: positive(1e6, 'a cooling above 0 W/K') },
    meaning: 'Heat conductance from a core that the bars heat to its coolant.',
    example: 'core-cooling 90 W/K',
  },
  /** Of what cools that core, degC. */
  coolantTemperature: {
    pattern: 'temperature',
    read: amount,
    rules: temperature,
    meaning: 'Temperature of what cools a core that the bars heat.',
    example: 'coolant-temperature 45 degC',
  },
  driveEnd: {
    ...oneOf('connection', 'far'),
    meaning: 'Which end of the stator is the drive end, for the direction of rotation.',
    example: 'drive-end connection',
  },
  /** Total over the stack; no steps: continuous. */
  rotorSkew: {
    pattern: "angle ('in' count 'steps')?",
    read: readRotorSkew,
    rules: {
      angle: valueNamed('the angle', anyAngle),
      count: valueNamed(
        'the number of steps',
        whole(2, 100),
        "without 'in ... steps' the skew is continuous, and a rotor in one piece without skew has no 'rotor-skew'",
      ),
    },
    meaning: 'Skew of the rotor over the stack, the total; in equal steps, or continuous.',
    example: 'rotor-skew 3.75 deg in 4 steps',
  },
  /** Harmonics of the field of the rotor, relative to its fundamental. */
  rotorField: {
    pattern: "'harmonic' count ratio",
    read: harmonicShare,
    rules: {
      count: valueNamed('the harmonic', whole(1, 999)),
      ratio: valueNamed('the amplitude', between(0, 10, 'a share from 0 % to 1000 %')),
    },
    meaning: 'Relative amplitude of one harmonic of the rotor field.',
    example: 'rotor-field harmonic 3 12 %',
    repeatable: true,
  },
  /** Harmonics of the phase current, relative to its fundamental. */
  currentHarmonics: {
    word: 'current-harmonic',
    pattern: 'count ratio',
    read: harmonicShare,
    rules: {
      count: valueNamed('the order', whole(2, 999)),
      ratio: valueNamed('the size', between(0, 10, 'a share from 0 % to 1000 %')),
    },
    meaning:
      'Relative size of one harmonic of the phase current, an order of the fundamental; its phase sequence follows from the order.',
    example: 'current-harmonic 5 4 %',
    repeatable: true,
  },
  /** Ripple of the phase current, Hz, relative to its fundamental. */
  currentRipples: {
    word: 'current-ripple',
    pattern: 'frequency ratio',
    read: readRipple,
    rules: {
      frequency: valueNamed('the frequency', positive(1e6, 'a frequency above 0 Hz, up to 1000 kHz')),
      ratio: valueNamed('the size', between(0, 10, 'a share from 0 % to 1000 %')),
    },
    meaning:
      'Relative size of the ripple that a carrier leaves in the phase current, and its frequency; taken as of positive sequence.',
    example: 'current-ripple 8 kHz 6 %',
    repeatable: true,
  },
});

/** Words of the machine block. */
export const machineWords: readonly VocabularyEntry[] = [
  ...Object.values(machineStatements),
  ...plain('machine', 'keyword', {
    apart: ['Electrical angle by which the second three-phase set lags.', 'phases 6 apart 30 edeg'],
    in: ['Number of equal steps of the rotor skew.', 'rotor-skew 3.75 deg in 4 steps'],
    steps: ['Ends the number of steps of the rotor skew.', 'rotor-skew 3.75 deg in 4 steps'],
    harmonic: ['Multiple of the fundamental.', 'rotor-field harmonic 3 12 %'],
  }),
  ...plain('machine', 'choice', {
    inner: ['The rotor stands inside the stator.', 'gap inner'],
    outer: ['The rotor stands outside the stator.', 'gap outer'],
    both: ['One rotor inside and one outside; the slots open to both gaps.', 'gap both'],
    on: ["Carter's factor is applied.", 'carter on'],
    off: ["Carter's factor is taken as 1.", 'carter off'],
    connection: ['The end where the leads come out.', 'drive-end connection'],
    far: ['The end opposite the leads.', 'drive-end far'],
  }),
];

function readPhases(statement: Statement) {
  const [count, apart] = quantities(statement);
  return { count: count!.value, apart: apart ? angleOf(apart) : null };
}

function gapLengths(statement: Statement): GapLengths {
  const [first, second] = quantities(statement);
  return { first: first!.value, second: second?.value ?? null };
}

function readRotorSkew(statement: Statement) {
  const [angle, steps] = quantities(statement);
  return { angle: angleOf(angle!), steps: steps?.value ?? null };
}

function harmonicShare(statement: Statement) {
  const [harmonic, relative] = quantities(statement);
  return { harmonic: harmonic!.value, relative: relative!.value };
}

function readRipple(statement: Statement) {
  const [frequency, relative] = quantities(statement);
  return { frequency: frequency!.value, relative: relative!.value };
}
