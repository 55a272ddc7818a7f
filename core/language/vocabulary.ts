import { between, even, type NumberRule, phaseCount, positive, whole } from './rules.ts';
import type { Dimension } from './units.ts';

export type BlockName =
  | 'file'
  | 'machine'
  | 'slot'
  | 'bar'
  | 'insulation'
  | 'layout'
  | 'connect'
  | 'require'
  | 'sheet';

/**
 * What a word does: open a block, start a statement, stand inside a statement, be one of its values,
 * or name a quantity that a limit can be set on.
 */
export type Role = 'block' | 'statement' | 'keyword' | 'choice' | 'quantity';

/** One word of the language: everything that checks, completes, explains, formats or highlights it. */
export interface VocabularyEntry {
  readonly block: BlockName;
  readonly role: Role;
  readonly word: string;
  /** The values that follow, in the notation of pattern.ts; empty for none. */
  readonly pattern: string;
  readonly meaning: string;
  readonly example: string;
  /** What each placeholder of the pattern may be. */
  readonly rules: Readonly<Record<string, NumberRule>>;
  /** The value used when the statement is missing, as it would be written. */
  readonly default?: string;
  readonly repeatable: boolean;
  /** For quantities: what it measures, where the report holds it, and which direction is better. */
  readonly dimension?: Dimension;
  readonly reportPath?: string;
  readonly better?: 'lower' | 'higher';
  /** For quantities: it has a value for every order. */
  readonly perOrder?: boolean;
  /** For texts: more characters than this do not fit their field of the title block. */
  readonly recommendedLength?: number;
}

interface Options {
  readonly rules?: Readonly<Record<string, NumberRule>>;
  readonly default?: string;
  readonly repeatable?: boolean;
  readonly recommendedLength?: number;
}

function statement(
  block: BlockName,
  word: string,
  pattern: string,
  meaning: string,
  example: string,
  options: Options = {},
): VocabularyEntry {
  return {
    block,
    role: 'statement',
    word,
    pattern,
    meaning,
    example,
    rules: {},
    repeatable: false,
    ...options,
  };
}

function plain(
  block: BlockName,
  role: Role,
  word: string,
  meaning: string,
  example: string,
): VocabularyEntry {
  return { block, role, word, pattern: '', meaning, example, rules: {}, repeatable: false };
}

function quantity(
  word: string,
  dimension: Dimension,
  better: 'lower' | 'higher',
  reportPath: string,
  meaning: string,
  example: string,
  perOrder = false,
): VocabularyEntry {
  const pattern = 'limit';
  return {
    block: 'require',
    role: 'quantity',
    word,
    pattern,
    meaning,
    example,
    rules: {},
    repeatable: true,
    dimension,
    better,
    reportPath,
    perOrder,
  };
}

const size = { length: between(1e-4, 100, 'a length from 0.1 mm to 100 m') };
const thickness = { length: between(0, 1, 'a length from 0 mm to 1 m') };
const barSize = { length: between(1e-5, 1, 'a length from 0.01 mm to 1 m') };
const temperature = { temperature: between(-60, 400, 'a temperature from -60 degC to 400 degC') };

const blocks: readonly VocabularyEntry[] = [
  plain(
    'file',
    'block',
    'machine',
    'The machine around the winding: slots, poles, phases, sizes, speed.',
    'machine { slots 48  poles 8  phases 3 }',
  ),
  plain(
    'file',
    'block',
    'slot',
    'The slot; once for each group of layers where layers lie in separate slot rows.',
    'slot { width 4.6 mm  depth 15.2 mm }',
  ),
  plain(
    'file',
    'block',
    'bar',
    'The copper bar: section, metal, form and ends.',
    'bar { width 3.6 mm  height 3 mm }',
  ),
  plain(
    'file',
    'block',
    'insulation',
    'Limits for the voltages between bars.',
    'insulation { turn-voltage 400 V }',
  ),
  plain(
    'file',
    'block',
    'layout',
    'Which phase and sense lies in each place: generated from a coil span, or written row by row.',
    'layout { layers 4  span 6 }',
  ),
  plain(
    'file',
    'block',
    'connect',
    'How bars are joined into paths and phases.',
    'connect { star  route paths 2 }',
  ),
  plain(
    'file',
    'block',
    'require',
    'Acceptance limits; a failed limit is an error.',
    'require { winding-factor harmonic 1 >= 0.93 }',
  ),
  plain(
    'file',
    'block',
    'sheet',
    'The fields of the title block and the notes of the handover sheet.',
    'sheet { number "EW-104"  revision "B" }',
  ),
];

const machine: readonly VocabularyEntry[] = [
  statement('machine', 'slots', 'count', 'Number of slots round the bore.', 'slots 48', {
    rules: { count: whole(3, 2400) },
  }),
  statement('machine', 'poles', 'count', 'Number of poles (twice the pole pairs).', 'poles 8', {
    rules: { count: even(2, 2400) },
  }),
  statement(
    'machine',
    'phases',
    "count ('apart' angle)?",
    'Number of phases: odd from 3 to 15, or 6 in two sets apart by an electrical angle.',
    'phases 3',
    { rules: { count: phaseCount, angle: between(-360, 360, 'an angle from -360 to 360') } },
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
  statement('machine', 'outside', 'length', 'Stator diameter at the outer gap.', 'outside 220 mm', {
    rules: size,
  }),
  statement('machine', 'stack', 'length', 'Axial length of the stator stack.', 'stack 96 mm', {
    rules: size,
  }),
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
    'voltage',
    'voltage',
    'Rated line voltage, rms; the withstand test follows from it.',
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
    'Temperature at which the bar ends and the core are held.',
    'end-temperature 80 degC',
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
    { rules: { angle: between(-360, 360, 'an angle from -360 to 360'), count: whole(2, 100) } },
  ),
  statement(
    'machine',
    'rotor-field',
    "'harmonic' count ratio",
    'Relative amplitude of one harmonic of the rotor field.',
    'rotor-field harmonic 3 12 %',
    {
      rules: { count: whole(1, 999), ratio: between(0, 10, 'a share from 0 % to 1000 %') },
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

const slot: readonly VocabularyEntry[] = [
  statement('slot', 'width', 'length', 'Slot width.', 'width 4.6 mm', { rules: barSize }),
  statement(
    'slot',
    'depth',
    'length',
    'Slot depth from the opening to its closed end (or to the other opening).',
    'depth 15.2 mm',
    { rules: barSize },
  ),
  statement('slot', 'opening', 'length', 'Width of the slot opening at the gap.', 'opening 1.2 mm', {
    rules: thickness,
  }),
  statement(
    'slot',
    'opening-height',
    'length',
    'Radial height of the slot opening.',
    'opening-height 0.8 mm',
    { rules: thickness },
  ),
  statement('slot', 'wedge', 'length', 'Radial height kept by the slot wedge.', 'wedge 1 mm', {
    rules: thickness,
    default: '0 mm',
  }),
  statement('slot', 'liner', 'length', 'Thickness of the slot liner.', 'liner 0.25 mm', {
    rules: thickness,
    default: '0 mm',
  }),
  statement(
    'slot',
    'side-conductance',
    'conductance',
    'Heat conductance from a bar to the core, per meter of bar.',
    'side-conductance 12 W/(m K)',
    { rules: { conductance: positive(1e6, 'a conductance above 0 W/(m K)') } },
  ),
];

const bar: readonly VocabularyEntry[] = [
  statement(
    'bar',
    'width',
    'layer* length',
    'Bar width, across the slot; for all layers or for the layers named.',
    'width 3.6 mm',
    { rules: barSize, repeatable: true },
  ),
  statement(
    'bar',
    'height',
    'layer* length',
    'Bar height, along the slot depth; for all layers or for the layers named.',
    'height a b 3.4 mm',
    { rules: barSize, repeatable: true },
  ),
  statement(
    'bar',
    'strands',
    'layer* count',
    'Radial strands of a bar, perfectly transposed; for all layers or for the layers named.',
    'strands 2',
    { rules: { count: whole(1, 1000) }, default: '1', repeatable: true },
  ),
  statement('bar', 'corner', 'length', 'Radius of the bar edges.', 'corner 0.5 mm', {
    rules: thickness,
    default: '0 mm',
  }),
  statement('bar', 'coating', 'length', 'Thickness of the coating on each face.', 'coating 0.09 mm', {
    rules: thickness,
    default: '0 mm',
  }),
  statement('bar', 'metal', "'copper' | 'aluminium'", 'Metal of the bars.', 'metal copper', {
    default: 'copper',
  }),
  statement(
    'bar',
    'form',
    "'hairpin' | 'straight'",
    'Hairpin: crowns are formed on the far side. Straight: bars are joined on both sides.',
    'form hairpin',
    { default: 'hairpin' },
  ),
  statement(
    'bar',
    'end-straight',
    'length',
    'Straight part of a bar beyond the stack before it bends.',
    'end-straight 6 mm',
    { rules: thickness },
  ),
  statement(
    'bar',
    'end-clearance',
    'length',
    'Clearance between neighboring bar ends.',
    'end-clearance 0.6 mm',
    { rules: thickness },
  ),
  statement('bar', 'joint-straight', 'length', 'Straight part at a joint.', 'joint-straight 8 mm', {
    rules: thickness,
  }),
  statement('bar', 'bend-radius', 'length', 'Inner radius of the end bends.', 'bend-radius 4 mm', {
    rules: thickness,
  }),
  statement('bar', 'bare-end', 'length', 'Length of bar end without coating.', 'bare-end 9 mm', {
    rules: thickness,
  }),
  plain('bar', 'choice', 'copper', 'Annealed copper, IEC 60028.', 'metal copper'),
  plain('bar', 'choice', 'aluminium', 'Aluminium, 61 % of the conductivity of copper.', 'metal aluminium'),
  plain(
    'bar',
    'choice',
    'hairpin',
    'Two legs and a crown from one bar; joined on the connection side.',
    'form hairpin',
  ),
  plain('bar', 'choice', 'straight', 'Single bars, joined on both sides.', 'form straight'),
];

const voltageLimit = { voltage: positive(1e6, 'a voltage above 0 V, up to 1000 kV') };

const insulation: readonly VocabularyEntry[] = [
  statement(
    'insulation',
    'turn-voltage',
    'voltage',
    'Voltage the insulation between bars of one phase holds.',
    'turn-voltage 400 V',
    { rules: voltageLimit },
  ),
  statement(
    'insulation',
    'phase-voltage',
    'voltage',
    'Voltage the insulation between phases holds.',
    'phase-voltage 900 V',
    { rules: voltageLimit },
  ),
  statement(
    'insulation',
    'surge-factor',
    'number',
    'Factor by which surges raise the voltages.',
    'surge-factor 1.5',
    { rules: { number: between(1, 20, 'a number from 1 to 20') } },
  ),
];

const layout: readonly VocabularyEntry[] = [
  statement('layout', 'layers', 'count', 'Layers of bars in a slot.', 'layers 4', {
    rules: { count: whole(1, 26) },
  }),
  statement('layout', 'span', 'count', 'Coil span in slots, for a generated layout.', 'span 6', {
    rules: { count: whole(1, 2399) },
  }),
  statement('layout', 'stagger', 'integer', 'Slots by which each further layer pair is moved.', 'stagger 1', {
    rules: { integer: whole(-2399, 2399) },
    default: '0',
  }),
  statement(
    'layout',
    'belt',
    'angle',
    'Width of a phase belt: 180/phases or 360/phases electrical degrees; without it 180/phases.',
    'belt 60 edeg',
    { rules: { angle: positive(360, 'an angle above 0, up to 360') } },
  ),
  statement(
    'layout',
    'layer',
    "layer ('=' 'layer' layer ('moved' integer)? 'negated'? | row ('repeat' count 'alternating'?)?)",
    'The places of one layer, slot by slot; or a layer derived from another.',
    'layer a  +U -W +V -U +W -V  repeat 4',
    { rules: { integer: whole(-2399, 2399), count: whole(1, 2400) }, repeatable: true },
  ),
  statement(
    'layout',
    'skew',
    "('all' | layer+) angle",
    'Lean of the bars of some layers over the stack, the total.',
    'skew a b +7.5 deg',
    {
      rules: { angle: between(-360, 360, 'an angle from -360 to 360') },
      repeatable: true,
      default: 'all 0 deg',
    },
  ),
  plain(
    'layout',
    'keyword',
    'moved',
    'Slots by which the derived layer is moved.',
    'layer b = layer a moved 5 negated',
  ),
  plain(
    'layout',
    'keyword',
    'negated',
    'The derived layer has all signs inverted.',
    'layer b = layer a moved 5 negated',
  ),
  plain('layout', 'keyword', 'repeat', 'Repeats the whole row.', 'layer a  +U -W +V  repeat 4'),
  plain(
    'layout',
    'keyword',
    'alternating',
    'Each second copy has its signs inverted.',
    'layer a  +U -W +V  repeat 4 alternating',
  ),
  plain('layout', 'keyword', 'all', 'All layers.', 'skew all 1 slot'),
];

const connect: readonly VocabularyEntry[] = [
  statement(
    'connect',
    'star',
    "'joined'?",
    'The phases end in a star point; joined: two sets share one.',
    'star',
  ),
  statement(
    'connect',
    'delta',
    '',
    'The phases are joined in delta: U2 with V1, V2 with W1, W2 with U1.',
    'delta',
  ),
  statement('connect', 'open', '', 'Both ends of each phase are brought out.', 'open'),
  statement(
    'connect',
    'route',
    "'paths' count ('fewest' 'joints')?",
    'Finds balanced parallel paths.',
    'route paths 2',
    { rules: { count: whole(1, 2400) }, default: 'paths 1' },
  ),
  statement(
    'connect',
    'path',
    "phase count 'from' terminal 'far'? walk 'to' terminal 'far'?",
    'One path, written bar by bar from its line terminal.',
    'path U 1 from U1 1a (+6b +6a)*3 +6b to N',
    { rules: { count: whole(1, 2400) }, repeatable: true },
  ),
  statement(
    'connect',
    'repeat',
    "phase 'as' phase 'shift' integer",
    'Copies all written paths of a phase to another, moved by some slots.',
    'repeat U as V shift 4',
    { rules: { integer: whole(-2399, 2399) }, repeatable: true },
  ),
  plain('connect', 'keyword', 'joined', 'Both sets end in one star point.', 'star joined'),
  plain('connect', 'keyword', 'paths', 'Number of parallel paths of each phase.', 'route paths 2'),
  plain(
    'connect',
    'keyword',
    'fewest',
    'Prefer the fewest special joints over the fewest jumpers and shapes.',
    'route paths 2 fewest joints',
  ),
  plain('connect', 'keyword', 'joints', 'Ends "fewest joints".', 'route paths 2 fewest joints'),
  plain(
    'connect',
    'keyword',
    'from',
    'The line terminal the path starts at.',
    'path U 1 from U1 1a +6b to N',
  ),
  plain(
    'connect',
    'keyword',
    'to',
    'The terminal or star point the path ends at.',
    'path U 1 from U1 1a +6b to N',
  ),
  plain(
    'connect',
    'keyword',
    'far',
    'That end of the path lies on the far side.',
    'path U 1 from U1 far 1a +6b to N',
  ),
  plain('connect', 'keyword', 'as', 'The phase the paths are copied to.', 'repeat U as V shift 4'),
  plain('connect', 'keyword', 'shift', 'Slots by which the copied paths are moved.', 'repeat U as V shift 4'),
];

const require: readonly VocabularyEntry[] = [
  quantity(
    'distribution-factor',
    'none',
    'higher',
    'factors[].distribution',
    'Distribution factor of an order.',
    'distribution-factor harmonic 1 >= 0.95',
    true,
  ),
  quantity(
    'pitch-factor',
    'none',
    'higher',
    'factors[].pitch',
    'Pitch factor of an order.',
    'pitch-factor harmonic 5 <= 0.3',
    true,
  ),
  quantity(
    'skew-factor',
    'none',
    'higher',
    'factors[].skew',
    'Skew factor of an order.',
    'skew-factor harmonic 1 >= 0.98',
    true,
  ),
  quantity(
    'winding-factor',
    'none',
    'higher',
    'factors[].winding',
    'Winding factor of an order.',
    'winding-factor harmonic 1 >= 0.93',
    true,
  ),
  quantity(
    'wave-relative',
    'ratio',
    'lower',
    'mmf.waves[].relative',
    'MMF wave of an order relative to the working wave.',
    'wave-relative order 1 <= 40 %',
    true,
  ),
  quantity(
    'differential-leakage',
    'ratio',
    'lower',
    'mmf.differentialLeakage',
    'Differential leakage relative to the magnetizing inductance.',
    'differential-leakage <= 3.5 %',
  ),
  quantity(
    'path-voltage-difference',
    'ratio',
    'lower',
    'balance.pathVoltageDifference',
    'Largest difference of the voltages of parallel paths.',
    'path-voltage-difference <= 0.1 %',
  ),
  quantity(
    'phase-voltage-difference',
    'ratio',
    'lower',
    'balance.phaseVoltageDifference',
    'Largest difference of the voltages of the phases.',
    'phase-voltage-difference <= 0.1 %',
  ),
  quantity(
    'circulating-current',
    'ratio',
    'lower',
    'balance.circulatingCurrent',
    'Largest circulating current relative to the current of a path.',
    'circulating-current <= 1 %',
  ),
  quantity(
    'special-joints',
    'none',
    'lower',
    'routing.specialJoints',
    'Special joints of one phase.',
    'special-joints <= 6',
  ),
  quantity(
    'jumpers',
    'none',
    'lower',
    'routing.jumpers',
    'Separate connecting pieces of one phase.',
    'jumpers <= 0',
  ),
  quantity(
    'joint-shapes',
    'none',
    'lower',
    'routing.jointShapes',
    'Distinct shapes of special joints.',
    'joint-shapes <= 3',
  ),
  quantity('bar-shapes', 'none', 'lower', 'shapes.bars', 'Distinct bar shapes.', 'bar-shapes <= 8'),
  quantity(
    'legs-bent-apart',
    'none',
    'lower',
    'routing.legsBentApart',
    'Hairpin legs bent by another amount than their ring.',
    'legs-bent-apart <= 0',
  ),
  quantity(
    'voltage-in-slot',
    'ratio',
    'lower',
    'voltageBetweenBars.inSlot.value',
    'Largest voltage between neighboring bars of a slot, of the phase voltage.',
    'voltage-in-slot <= 90 %',
  ),
  quantity(
    'voltage-between-slots',
    'ratio',
    'lower',
    'voltageBetweenBars.betweenSlots.value',
    'Largest voltage between bar ends of neighboring slots, of the phase voltage.',
    'voltage-between-slots <= 170 %',
  ),
  quantity(
    'slot-fill',
    'ratio',
    'lower',
    'copper.section.slotFill',
    'Copper area of the slot area.',
    'slot-fill <= 78 %',
  ),
  quantity(
    'current-density',
    'current-density',
    'lower',
    'copper.currentDensity',
    'Current density of the bars.',
    'current-density <= 12 A/mm2',
  ),
  quantity(
    'phase-resistance',
    'resistance',
    'lower',
    'copper.resistance.phase',
    'Phase resistance at the winding temperature.',
    'phase-resistance <= 20 mohm',
  ),
  quantity(
    'ac-ratio',
    'none',
    'lower',
    'copper.acRatio.slot',
    'AC to DC loss of the slot part, mean over all bars.',
    'ac-ratio <= 1.4',
  ),
  quantity(
    'hot-spot-temperature',
    'temperature',
    'lower',
    'copper.heat.hotSpot',
    'Highest temperature along a bar.',
    'hot-spot-temperature <= 155 degC',
  ),
  quantity('copper-loss', 'power', 'lower', 'copper.loss.total', 'Loss in the bars.', 'copper-loss <= 900 W'),
  quantity(
    'copper-mass',
    'mass',
    'lower',
    'copper.mass',
    'Mass of the bars and connecting pieces.',
    'copper-mass <= 12 kg',
  ),
  quantity(
    'cage-stiffness',
    'torsional-stiffness',
    'higher',
    'copper.cage.stiffness',
    'Torsional stiffness of the crossed-bar cage.',
    'cage-stiffness >= 2000 Nm/rad',
  ),
  quantity(
    'cage-stress',
    'stress',
    'lower',
    'copper.cage.stress',
    'Axial stress of a cage bar at the torque of the machine.',
    'cage-stress <= 20 MPa',
  ),
  quantity(
    'torque',
    'torque',
    'higher',
    'emf.torque',
    'Torque with the current in phase with the EMF.',
    'torque >= 80 Nm',
  ),
  quantity('line-voltage', 'voltage', 'lower', 'emf.lineVoltage', 'Line EMF, rms.', 'line-voltage <= 400 V'),
  quantity(
    'motor-constant',
    'motor-constant',
    'higher',
    'emf.motorConstant',
    'Torque per square root of copper loss.',
    'motor-constant >= 3 Nm/sqrt(W)',
  ),
  plain('require', 'keyword', 'harmonic', 'Multiple of the fundamental.', 'winding-factor harmonic 5 <= 0.3'),
  plain('require', 'keyword', 'order', 'Pole pairs round the bore.', 'wave-relative order 1 <= 40 %'),
];

const sheet: readonly VocabularyEntry[] = [
  statement('sheet', 'owner', 'text', 'Legal owner of the drawing.', 'owner "Estuary Drives workshop"'),
  statement('sheet', 'number', 'text', 'Identification number of the drawing.', 'number "EW-104-B"', {
    recommendedLength: 16,
  }),
  statement(
    'sheet',
    'title',
    'text',
    "Title of the drawing; without it the winding's.",
    'title "Ferry pod stator winding"',
    { recommendedLength: 25 },
  ),
  statement('sheet', 'revision', 'text', 'Revision index.', 'revision "B"', { recommendedLength: 2 }),
  statement('sheet', 'date', 'date', 'Date of issue, year-month-day.', 'date "2026-05-01"'),
  statement('sheet', 'drawn-by', 'text', 'Who made the drawing.', 'drawn-by "Winding office"', {
    recommendedLength: 20,
  }),
  statement('sheet', 'approved-by', 'text', 'Who approved the drawing.', 'approved-by "Head of shop"', {
    recommendedLength: 20,
  }),
  statement('sheet', 'document-type', 'text', 'Type of document.', 'document-type "Winding drawing"', {
    default: '"Winding drawing"',
    recommendedLength: 30,
  }),
  statement('sheet', 'status', 'text', 'Document status.', 'status "In work"', { recommendedLength: 20 }),
  statement(
    'sheet',
    'sheet-size',
    'sheet-size',
    'Sheet size after ISO 5457: A4, A3, A2, A1 or A0.',
    'sheet-size A3',
  ),
  statement('sheet', 'language', 'text', 'Language code of the sheet.', 'language "en"', {
    recommendedLength: 4,
  }),
  statement('sheet', 'note', 'text', 'A note on the sheet.', 'note "Clean bare ends before joining."', {
    repeatable: true,
  }),
];

const file: readonly VocabularyEntry[] = [
  statement(
    'file',
    'winding',
    'text',
    'Name of the winding; it heads reports and drawings.',
    'winding "Harbor ferry pod drive, stator B"',
  ),
];

/** Every word of the language. */
export const vocabulary: readonly VocabularyEntry[] = [
  ...file,
  ...blocks,
  ...machine,
  ...slot,
  ...bar,
  ...insulation,
  ...layout,
  ...connect,
  ...require,
  ...sheet,
];

const byKey = new Map(vocabulary.map((entry) => [`${entry.block} ${entry.role} ${entry.word}`, entry]));

/** Words that start a statement, by block. */
const statementsByBlock = new Map<string, Map<string, VocabularyEntry>>();
for (const entry of vocabulary) {
  if (entry.role !== 'statement' && entry.role !== 'quantity') continue;
  const words = statementsByBlock.get(entry.block) ?? new Map<string, VocabularyEntry>();
  words.set(entry.word, entry);
  statementsByBlock.set(entry.block, words);
}

/** The entry of a word in a block and role. */
export function vocabularyEntry(block: BlockName, role: Role, word: string): VocabularyEntry | undefined {
  return byKey.get(`${block} ${role} ${word}`);
}

/** The entry of a word that starts a statement (or a limit) in a block. */
export function statementEntry(block: BlockName, word: string): VocabularyEntry | undefined {
  return statementsByBlock.get(block)?.get(word);
}

/** The words that start a statement in a block, in the table's order, which is the canonical order. */
export function statementWords(block: BlockName): readonly string[] {
  return vocabulary
    .filter((entry) => entry.block === block && (entry.role === 'statement' || entry.role === 'quantity'))
    .map((entry) => entry.word);
}

/** The words that open a block. */
export const blockNames: readonly BlockName[] = blocks.map((entry) => entry.word as BlockName);
