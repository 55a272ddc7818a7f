import { mostSlots } from '../../counts.ts';
import { between, even, phaseCount, positive, valueNamed, whole } from '../../specification/rules.ts';
import { plain, statement, type VocabularyEntry } from '../entry.ts';

const size = { length: between(1e-4, 100, 'a length from 0.1 mm to 100 m') };
const thickness = { length: between(0, 1, 'a length from 0 mm to 1 m') };
const barSize = { length: between(1e-5, 1, 'a length from 0.01 mm to 1 m') };
const anyAngle = between(-360, 360, 'an angle from -360 to 360 deg, edeg or slot');
const inductance = { inductance: positive(1000, 'an inductance above 0 mH') };
const temperature = { temperature: between(-60, 400, 'a temperature from -60 degC to 400 degC') };

/** Words of the machine block. */
export const machineWords: readonly VocabularyEntry[] = [
  statement('machine', 'slots', 'count', 'Number of slots round the bore.', 'slots 48', {
    rules: { count: whole(3, mostSlots) },
  }),
  statement('machine', 'poles', 'count', 'Number of poles (twice the pole pairs).', 'poles 8', {
    rules: { count: even(2, mostSlots) },
  }),
  statement(
    'machine',
    'phases',
    "count ('apart' angle)?",
    'Number of phases: odd from 3 to 15, or 6 in two sets apart by an electrical angle.',
    'phases 3',
    {
      rules: {
        count: valueNamed('the number of phases', phaseCount),
        angle: valueNamed("the angle after 'apart'", anyAngle),
      },
    },
  ),
  statement(
    'machine',
    'gap',
    "'inner' | 'outer' | 'both'",
    'Where the rotor stands: inside (inner), outside (outer), or one on each side (both).',
    'gap inner',
    { default: 'inner' },
  ),
  statement('machine', 'bore', 'length', 'Stator diameter at the inner gap.', 'bore 162 mm', { rules: size }),
  statement(
    'machine',
    'outside',
    'length',
    'Stator diameter at the outer gap; with a gap on both sides it follows from bore, slot depth and opening-height where it is left out.',
    'outside 220 mm',
    { rules: size },
  ),
  statement('machine', 'stack', 'length', 'Axial length of the stator stack.', 'stack 96 mm', {
    rules: size,
  }),
  statement(
    'machine',
    'stack-factor',
    'number',
    'Share of the stack\u2019s length that is iron, between the coatings of its sheets.',
    'stack-factor 0.96',
    { rules: { number: between(0.1, 1, 'a number from 0.1 to 1') }, default: '0.95' },
  ),
  statement(
    'machine',
    'yoke-height',
    'length',
    'Radial height of the stator yoke behind the slots.',
    'yoke-height 14 mm',
    { rules: barSize },
  ),
  statement(
    'machine',
    'air-gap',
    'length length?',
    'Radial air gap; two lengths, inner and outer, for a gap on both sides.',
    'air-gap 0.8 mm',
    { rules: barSize },
  ),
  statement(
    'machine',
    'magnet-height',
    'length length?',
    'Radial magnet height; two lengths, inner and outer, for a gap on both sides.',
    'magnet-height 5 mm',
    { rules: thickness },
  ),
  statement(
    'machine',
    'magnet-permeability',
    'number',
    'Relative recoil permeability of the magnets.',
    'magnet-permeability 1.05',
    { rules: { number: between(1, 100, 'a number from 1 to 100') }, default: '1.05' },
  ),
  statement(
    'machine',
    'carter',
    "'on' | 'off'",
    "Whether Carter's factor widens the gap for the slot opening.",
    'carter on',
    { default: 'on' },
  ),
  statement('machine', 'speed', 'speed', 'Rotor speed.', 'speed 3600 rpm', {
    rules: { speed: positive(5000, 'a speed above 0 rpm, up to 300000 rpm') },
  }),
  statement(
    'machine',
    'frequency',
    'frequency',
    'Electrical frequency; give it or the speed.',
    'frequency 240 Hz',
    { rules: { frequency: positive(1e6, 'a frequency above 0 Hz, up to 1000 kHz') } },
  ),
  statement('machine', 'flux', 'flux', 'Fundamental flux of one pole.', 'flux 4.1 mWb', {
    rules: { flux: positive(1000, 'a flux above 0 mWb') },
  }),
  statement('machine', 'current', 'current', 'Terminal current, rms.', 'current 210 A', {
    rules: { current: positive(1e6, 'a current above 0 A, up to 1000 kA') },
  }),
  statement(
    'machine',
    'current-angle',
    'angle',
    'Electrical angle by which the phase current leads the EMF; positive weakens the field.',
    'current-angle 20 edeg',
    { rules: { angle: between(-90, 90, 'an angle from -90 to 90 edeg') }, default: '0 edeg' },
  ),
  statement(
    'machine',
    'd-inductance',
    'inductance',
    'Synchronous inductance of a phase along the axis of the rotor\u2019s flux, without the end winding, from a plane field computation.',
    'd-inductance 0.21 mH',
    { rules: inductance },
  ),
  statement(
    'machine',
    'q-inductance',
    'inductance',
    'Synchronous inductance of a phase along the axis of the EMF, without the end winding, from a plane field computation.',
    'q-inductance 0.34 mH',
    { rules: inductance },
  ),
  statement(
    'machine',
    'voltage',
    'voltage',
    'Rated line voltage, rms: what the supply gives at most; base and top speed and the withstand test follow from it.',
    'voltage 400 V',
    { rules: { voltage: positive(1e6, 'a voltage above 0 V, up to 1000 kV') } },
  ),
  statement(
    'machine',
    'winding-temperature',
    'temperature',
    'Temperature of the winding for resistance.',
    'winding-temperature 120 degC',
    { rules: temperature },
  ),
  statement(
    'machine',
    'end-temperature',
    'temperature',
    'Temperature of what cools the bar ends, and of the core without a core-temperature.',
    'end-temperature 80 degC',
    { rules: temperature },
  ),
  statement(
    'machine',
    'core-temperature',
    'temperature',
    'Temperature at which the core is held; without it, and without what lets the core follow, that of the ends.',
    'core-temperature 95 degC',
    { rules: temperature },
  ),
  statement(
    'machine',
    'core-heat',
    'heat-capacity',
    'Heat capacity of a core that the bars heat, in place of a core-temperature: how slowly it follows the duty.',
    'core-heat 12 kJ/K',
    { rules: { 'heat-capacity': positive(1e9, 'a heat capacity above 0 J/K') } },
  ),
  statement(
    'machine',
    'core-cooling',
    'cooling',
    'Heat conductance from a core that the bars heat to its coolant.',
    'core-cooling 90 W/K',
    { rules: { cooling: positive(1e6, 'a cooling above 0 W/K') } },
  ),
  statement(
    'machine',
    'coolant-temperature',
    'temperature',
    'Temperature of what cools a core that the bars heat.',
    'coolant-temperature 45 degC',
    { rules: temperature },
  ),
  statement(
    'machine',
    'drive-end',
    "'connection' | 'far'",
    'Which end of the stator is the drive end, for the direction of rotation.',
    'drive-end connection',
  ),
  statement(
    'machine',
    'rotor-skew',
    "angle ('in' count 'steps')?",
    'Skew of the rotor over the stack, the total; in equal steps, or continuous.',
    'rotor-skew 3.75 deg in 4 steps',
    {
      rules: {
        angle: valueNamed('the angle', anyAngle),
        count: valueNamed(
          'the number of steps',
          whole(2, 100),
          "without 'in ... steps' the skew is continuous, and a rotor in one piece without skew has no 'rotor-skew'",
        ),
      },
    },
  ),
  statement(
    'machine',
    'rotor-field',
    "'harmonic' count ratio",
    'Relative amplitude of one harmonic of the rotor field.',
    'rotor-field harmonic 3 12 %',
    {
      rules: {
        count: valueNamed('the harmonic', whole(1, 999)),
        ratio: valueNamed('the amplitude', between(0, 10, 'a share from 0 % to 1000 %')),
      },
      repeatable: true,
    },
  ),
  statement(
    'machine',
    'current-harmonic',
    'count ratio',
    'Relative size of one harmonic of the phase current, an order of the fundamental; its phase sequence follows from the order.',
    'current-harmonic 5 4 %',
    {
      rules: {
        count: valueNamed('the order', whole(2, 999)),
        ratio: valueNamed('the size', between(0, 10, 'a share from 0 % to 1000 %')),
      },
      repeatable: true,
    },
  ),
  statement(
    'machine',
    'current-ripple',
    'frequency ratio',
    'Relative size of the ripple that a carrier leaves in the phase current, and its frequency; taken as of positive sequence.',
    'current-ripple 8 kHz 6 %',
    {
      rules: {
        frequency: valueNamed('the frequency', positive(1e6, 'a frequency above 0 Hz, up to 1000 kHz')),
        ratio: valueNamed('the size', between(0, 10, 'a share from 0 % to 1000 %')),
      },
      repeatable: true,
    },
  ),
  plain(
    'machine',
    'keyword',
    'apart',
    'Electrical angle by which the second three-phase set lags.',
    'phases 6 apart 30 edeg',
  ),
  plain(
    'machine',
    'keyword',
    'in',
    'Number of equal steps of the rotor skew.',
    'rotor-skew 3.75 deg in 4 steps',
  ),
  plain(
    'machine',
    'keyword',
    'steps',
    'Ends the number of steps of the rotor skew.',
    'rotor-skew 3.75 deg in 4 steps',
  ),
  plain('machine', 'keyword', 'harmonic', 'Multiple of the fundamental.', 'rotor-field harmonic 3 12 %'),
  plain('machine', 'choice', 'inner', 'The rotor stands inside the stator.', 'gap inner'),
  plain('machine', 'choice', 'outer', 'The rotor stands outside the stator.', 'gap outer'),
  plain(
    'machine',
    'choice',
    'both',
    'One rotor inside and one outside; the slots open to both gaps.',
    'gap both',
  ),
  plain('machine', 'choice', 'on', "Carter's factor is applied.", 'carter on'),
  plain('machine', 'choice', 'off', "Carter's factor is taken as 1.", 'carter off'),
  plain('machine', 'choice', 'connection', 'The end where the leads come out.', 'drive-end connection'),
  plain('machine', 'choice', 'far', 'The end opposite the leads.', 'drive-end far'),
];
