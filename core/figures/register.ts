// The register of figures: one row for each figure of the report. What a figure is called, in which unit
// it is kept and shown, how it is computed and after whom, and which direction is better in itself stands
// here and nowhere else. This file imports nothing and computes nothing.

/** How people read a figure. */
export interface ShownAs {
  /** The unit beside the number; empty for factors and counts. */
  readonly unit: string;
  /** SI value of one unit. */
  readonly factor: number;
  /** Decimals; without them five significant digits. */
  readonly decimals?: number;
}

/** Which direction of a figure is better in itself. */
export type Better = 'lower' | 'higher' | 'neither';

/** One figure of the report. */
export interface FigureRow {
  /** Its name in words that stand by themselves: `resistance of a phase at 20 °C`. */
  readonly words: string;
  /** SI unit of its value in the report; `1` for fractions, factors and counts. */
  readonly unit: string;
  readonly shown: ShownAs;
  /** How it is computed, in one line; left out for what is counted or looked up. */
  readonly model?: string;
  /** After whom it is computed. */
  readonly source?: string;
  readonly better?: Better;
}

const plain: ShownAs = { unit: '', factor: 1 };
const factor: ShownAs = { unit: '', factor: 1, decimals: 4 };
const percent: ShownAs = { unit: '%', factor: 1e-2, decimals: 2 };
const hertz: ShownAs = { unit: 'Hz', factor: 1 };
const volts: ShownAs = { unit: 'V', factor: 1 };
const watts: ShownAs = { unit: 'W', factor: 1 };
const meters: ShownAs = { unit: 'm', factor: 1 };
const millimeters: ShownAs = { unit: 'mm', factor: 1e-3 };
const milliohms: ShownAs = { unit: 'mΩ', factor: 1e-3 };
const microhenries: ShownAs = { unit: 'µH', factor: 1e-6 };
const rpm: ShownAs = { unit: 'rpm', factor: 1 / 60 };
const amperes: ShownAs = { unit: 'A', factor: 1 };
const torsion: ShownAs = { unit: 'kNm/rad', factor: 1e3 };
const celsius: ShownAs = { unit: '°C', factor: 1, decimals: 1 };
const tesla: ShownAs = { unit: 'T', factor: 1 };
const newtonMeters: ShownAs = { unit: 'Nm', factor: 1 };
const kilowatts: ShownAs = { unit: 'kW', factor: 1e3 };
const megapascals: ShownAs = { unit: 'MPa', factor: 1e6 };

const pyrhonen =
  'Pyrhonen, Jokinen, Hrabovcova, Design of Rotating Electrical Machines, 2nd ed. (from memory)';
const iec60028 = 'IEC 60028 (annealed copper: 58 m/(ohm mm2) at 20 degC, 0.00393 1/K, 8.89 g/cm3)';
const slotTheory =
  'Field/Emde one-dimensional slot theory; Vogt, Muller, Ponick; Pyrhonen ch. 5 (from memory)';
const permeance = 'field energy of uniform currents; Pyrhonen ch. 4, Richter (from memory)';
const fin = 'fin theory; copper 394, aluminium 230 W/(m K) (from memory)';
const beam =
  'theory of beams and shallow arches; E of copper 117 GPa, of aluminium 69 GPa, Poisson 0.34 (from memory)';
const twoAxes =
  'two-axis theory of the synchronous machine; Fitzgerald, Kingsley, Umans, Electric Machinery, 6th ed., ch. 5 (from memory)';
const circuits = "Kirchhoff's laws; leakage and gap field after Pyrhonen ch. 3 and 4 (from memory)";
const inSpace = 'geometry: lines, arcs and helices closed, crowns and steps by quadrature';

/** What is counted or read off the winding: whole numbers and the like. */
function counted(words: string, better?: Better): FigureRow {
  return { words, unit: '1', shown: plain, ...(better ? { better } : {}) };
}

/** A fraction of something, told in percent. */
function share(words: string, better?: Better): FigureRow {
  return { words, unit: '1', shown: percent, ...(better ? { better } : {}) };
}

/** A factor between 0 and 1 or so. */
function factorRow(words: string, better?: Better): FigureRow {
  return { words, unit: '1', shown: factor, ...(better ? { better } : {}) };
}

/** Height at which the joints bent from their bars end, above the stack. */
function jointPlane(which: 'lowest' | 'highest', side: 'connection' | 'far'): FigureRow {
  return {
    words: `height of the ${which} joint above the stack, ${side} side`,
    unit: 'm',
    shown: millimeters,
    model: 'straight part, rise of the leg and straight part of the joint; pieces and leads not counted',
    source: inSpace,
    better: 'neither',
  };
}

function resistance(words: string, model: string, better?: Better): FigureRow {
  return {
    words,
    unit: 'ohm',
    shown: milliohms,
    model,
    source: iec60028,
    ...(better ? { better } : {}),
  };
}

function inductance(words: string, model: string, source: string): FigureRow {
  return { words, unit: 'H', shown: microhenries, model, source };
}

/** Of balanced currents. */
function endInductance(words: string, how: string): FigureRow {
  const model = `(1/m) times the sum of Re(i_f conj i_g) M_fg over the phases, M by Neumann's integral along the center lines of all bar ends and connecting pieces, a section's mean distance from itself for its own; ${how}`;
  return {
    ...inductance(words, model, 'Neumann, Maxwell; Grover, Inductance Calculations (from memory)'),
    better: 'neither',
  };
}

const rows = {
  'winding.slots': counted('slots'),
  'winding.poles': counted('poles'),
  'winding.phases': counted('phases'),
  'winding.layers': counted('layers'),
  'winding.bars': counted('bars'),
  'winding.barsPerPhase': counted('bars of a phase'),
  'winding.parallelPaths': counted('parallel paths'),
  'winding.seriesTurns': counted('turns in series'),
  'winding.basicSlots': counted('slots of the basic winding'),
  'winding.basicPolePairs': counted('pole pairs of the basic winding'),
  'winding.identicalGroups': counted('identical groups'),
  'winding.largestParallelPaths': counted('most parallel paths possible with regular crowns'),
  'winding.largestParallelPathsAnyCrowns': counted('most parallel paths possible with any crowns'),
  'winding.coggingPeriods': counted('cogging periods a turn'),
  'winding.radialSymmetry': counted('radial symmetry'),
  'symmetry.rotationSlots': counted('slots after which the winding repeats'),

  'factors[].distribution': factorRow('distribution factor', 'higher'),
  'factors[].pitch': factorRow('pitch factor', 'higher'),
  'factors[].skew': factorRow('skew factor', 'higher'),
  'factors[].winding': factorRow('winding factor', 'higher'),
  'mmf.waves[].relative': share('MMF wave relative to the working wave', 'lower'),
  'mmf.differentialLeakage': share('differential leakage', 'lower'),

  'balance.pathVoltageDifference': share('difference of the voltages of parallel paths', 'lower'),
  'balance.phaseVoltageDifference': share('difference of the voltages of the phases', 'lower'),
  'balance.circulatingCurrent': {
    ...share('circulating current without load, of the current of a path', 'lower'),
    model:
      '(R + j w L) I = E - U in every path, the currents of a phase together zero; L of all paths with each other: slot leakage from the places of the bars, and the gap field, mu0 (D/2) l/g_eff times the integral over the bore of N_i N_j (winding functions of the paths), mean over the stack; leakage of the end windings where the sizes of the bar ends give it, else a larger estimate',
    source: circuits,
  },
  'balance.pathCurrentDeviation': {
    ...share('deviation of the path currents at load, from an equal share', 'lower'),
    model:
      'the same equations without E, the currents of a phase together that of the phase; R for direct current, so that it is an upper estimate',
    source: circuits,
  },
  'routing.specialJoints': counted('special joints of a phase', 'lower'),
  'routing.jumpers': counted('connecting pieces of a phase', 'lower'),
  'routing.jointShapes': counted('shapes of special joints', 'lower'),
  'routing.legsBentApart': counted('legs bent apart from their ring', 'lower'),
  'routing.tipGap': {
    words: 'smallest distance between joint tips, in slot pitches',
    unit: '1',
    shown: plain,
  },
  'shapes.bars': counted('bar shapes', 'lower'),
  'voltageBetweenBars.inSlot.value': share('voltage between bars of a slot, of the phase voltage', 'lower'),
  'voltageBetweenBars.betweenSlots.value': share(
    'voltage between bar ends of neighboring slots, of the phase voltage',
    'lower',
  ),

  'emf.frequency': {
    words: 'frequency',
    unit: 'Hz',
    shown: hertz,
    model: 'pole pairs times revolutions per second',
    source: 'definition',
  },
  'emf.phaseVoltage': {
    words: 'phase EMF of the fundamental, rms',
    unit: 'V',
    shown: volts,
    model: 'sqrt(2) pi f N kw Phi, fundamental, rms',
    source: `${pyrhonen}, ch. 2`,
  },
  'emf.lineVoltage': {
    words: 'line EMF of the fundamental, rms',
    unit: 'V',
    shown: volts,
    model: 'star 2 sin(pi/m) times the phase EMF, delta the phase EMF; adjacent terminals of one set',
    source: 'phasor difference',
    better: 'neither',
  },
  'emf.harmonics.phaseVoltage': {
    words: 'phase EMF with the harmonics of the rotor field, rms',
    unit: 'V',
    shown: volts,
  },
  'emf.harmonics.lineVoltage': {
    words: 'line EMF with the harmonics of the rotor field, rms',
    unit: 'V',
    shown: volts,
  },
  'emf.harmonics': {
    words: 'EMF with the harmonics of the rotor field',
    unit: 'V',
    shown: volts,
    model:
      'E_n/E_1 = (kw_n/kw_1)(B_n/B_1); rms of all stated orders; orders equal in all phases drop out between lines',
    source: 'Faraday, field waves of the stated relative amplitudes',
  },
  'emf.torque': {
    words: 'torque of the rated current at its angle',
    unit: 'Nm',
    shown: newtonMeters,
    model:
      'm p (psi Iq + (Ld - Lq) Id Iq), which is m E I/(2 pi n) in phase with the EMF; no saturation, no losses',
    source: 'power balance',
    better: 'higher',
  },
  'emf.power': {
    words: 'air-gap power of the rated current at its angle',
    unit: 'W',
    shown: kilowatts,
    model: 'torque times angular speed, which is m E I in phase with the EMF',
    source: 'power balance',
  },
  'emf.torquePerAmpere': {
    words: 'torque per ampere of terminal current',
    unit: 'Nm/A',
    shown: { unit: 'Nm/A', factor: 1 },
    model: 'torque over terminal current, rms',
    source: 'definition',
  },
  'emf.motorConstant': {
    words: 'motor constant',
    unit: 'Nm/sqrt(W)',
    shown: { unit: 'Nm/√W', factor: 1 },
    model: 'torque over the square root of the winding loss at the stated speed',
    source: 'definition',
    better: 'higher',
  },
  'emf.magnetizingInductance': inductance(
    'magnetizing inductance',
    'm mu0 l N^2/(pi p^2) D/(kC (g + h/mu)), kC for the gap g + h/mu, times the mean over the stack of kw^2 without the skew of the rotor; linear iron; two gaps in series',
    `${pyrhonen}, 3.9; Carter's factor 3.1.1`,
  ),
  'emf.differentialLeakageInductance': inductance(
    'inductance of the differential leakage',
    'of all waves but the working one: differential leakage times the magnetizing inductance; where layers lean apart, their mean over the stack',
    `${pyrhonen}, ch. 4`,
  ),
  'emf.gapFluxDensity': {
    words: 'peak flux density at the gap, fundamental',
    unit: 'T',
    shown: tesla,
    model: 'p Phi/(D l), peak of the fundamental at the bore',
    source: 'flux of a sine over the pole pitch',
  },
  'emf.gaps': {
    words: 'shear stress of a gap',
    unit: 'Pa',
    shown: { unit: 'kPa', factor: 1e3 },
    model:
      "mean shear stress: the torque on the gap's rotor over gap area and radius; of two gaps the torque divides as the magnet MMFs, h/mu",
    source: 'definition; virtual work on a series circuit of linear iron',
  },

  'operation.inductance.d': inductance(
    'synchronous inductance, axis of the rotor flux',
    'sum of its parts below, or as stated of a plane field with the end winding added; no saturation, no leads, rings and housing',
    twoAxes,
  ),
  'operation.inductance.q': inductance(
    'synchronous inductance, axis of the EMF',
    'as for the other axis; equal unless both are stated',
    twoAxes,
  ),
  'operation.inductance.magnetizing': inductance(
    'synchronous inductance: magnetizing part',
    'that of the EMF block',
    `${pyrhonen}, 3.9`,
  ),
  'operation.inductance.differential': inductance(
    'synchronous inductance: differential leakage',
    'that of the EMF block',
    `${pyrhonen}, ch. 4`,
  ),
  'operation.inductance.slot': inductance(
    'synchronous inductance: slot leakage',
    'that of the copper block; no tooth-tip leakage',
    permeance,
  ),
  'operation.inductance.end': inductance(
    'synchronous inductance: leakage of the end winding',
    'of all bar ends with each other, balanced currents',
    'Neumann integral over the center lines of the bar ends',
  ),
  'operation.current': {
    words: 'rated current at a terminal, rms',
    unit: 'A',
    shown: amperes,
    model: 'as stated',
    source: 'the text',
    better: 'neither',
  },
  'operation.angle': {
    words: 'angle by which the current leads the EMF',
    unit: 'deg',
    shown: { unit: '°', factor: 1, decimals: 2 },
    model: 'as stated, electrical degrees',
    source: 'the text',
  },
  'operation.terminalVoltage': {
    words: 'line voltage at the rated point, rms',
    unit: 'V',
    shown: volts,
    model:
      'Vq = E + R Iq + w Ld Id, Vd = R Id - w Lq Iq; R with its AC ratio; star 2 sin(pi/m) times, delta and open phase voltage; fundamental',
    source: twoAxes,
    better: 'lower',
  },
  'operation.powerFactor': {
    words: 'power factor at the rated point',
    unit: '1',
    shown: factor,
    model: 'm (Vd Id + Vq Iq) over m V I, as a motor',
    source: twoAxes,
    better: 'higher',
  },
  'operation.apparentPower': {
    words: 'apparent power at the rated point',
    unit: 'VA',
    shown: { unit: 'kVA', factor: 1e3 },
    model: 'm V I',
    source: twoAxes,
    better: 'lower',
  },
  'operation.shaftPower': {
    words: 'shaft power at the rated point',
    unit: 'W',
    shown: kilowatts,
    model: 'm (E Iq + w (Ld - Lq) Id Iq); no iron loss, no friction',
    source: twoAxes,
    better: 'higher',
  },
  'operation.torque': {
    words: 'torque at the rated point',
    unit: 'Nm',
    shown: newtonMeters,
    model: 'shaft power over angular speed',
    source: twoAxes,
    better: 'higher',
  },
  'operation.baseSpeed': {
    words: 'base speed',
    unit: '1/s',
    shown: rpm,
    model: 'highest speed at which the rated current at its angle fits the voltage',
    source: twoAxes,
    better: 'higher',
  },
  'operation.topSpeed': {
    words: 'top speed with full field weakening',
    unit: '1/s',
    shown: rpm,
    model:
      'all of the rated current against the field, no torque left; no limit where the characteristic current is not above it; w = V/(psi - L I) without resistance',
    source: twoAxes,
    better: 'higher',
  },
  'operation.characteristicCurrent': {
    words: 'characteristic current at a terminal',
    unit: 'A',
    shown: amperes,
    model: 'E/(w Ld): the current that cancels the field of the rotor',
    source: twoAxes,
    better: 'neither',
  },
  'operation.shortCircuitCurrent': {
    words: 'steady short-circuit current at a terminal',
    unit: 'A',
    shown: amperes,
    model: 'all terminals joined at the rated speed, with resistance',
    source: twoAxes,
    better: 'lower',
  },

  'duty.points.torque': {
    words: 'torque of a point of the duty',
    unit: 'Nm',
    shown: newtonMeters,
    model: 'm p (psi Iq + (Ld - Lq) Id Iq), at standstill too; no losses',
    source: twoAxes,
    better: 'higher',
  },
  'duty.points.current': {
    words: 'terminal current of a point of the duty, rms',
    unit: 'A',
    shown: amperes,
    model: 'of a torque the least current, more against the field where the voltage asks for it',
    source: twoAxes,
    better: 'lower',
  },
  'duty.points.terminalVoltage': {
    words: 'line voltage of a point of the duty, rms',
    unit: 'V',
    shown: volts,
    model: 'as at the rated point',
    source: twoAxes,
    better: 'lower',
  },
  'duty.points.powerFactor': {
    words: 'power factor of a point of the duty',
    unit: '1',
    shown: factor,
    model: 'as at the rated point; negative where the machine generates',
    source: twoAxes,
    better: 'higher',
  },
  'duty.points.loss.total': {
    words: 'winding loss of a point of the duty',
    unit: 'W',
    shown: watts,
    model:
      'm R I^2 at the winding temperature, R with its AC ratio at the frequency of the point; with the losses of harmonics and of the rotor\u2019s field where they are stated',
    source: slotTheory,
    better: 'lower',
  },
  'duty.points.hotSpot': {
    words: 'hot spot of a point of the duty, if it lasted',
    unit: 'degC',
    shown: celsius,
    model: 'as the hot spot at the rated point; at standstill of sqrt(2) times the rms current',
    source: fin,
    better: 'lower',
  },
  'duty.points.adiabaticRise': {
    words: 'temperature rise of a point of the duty without cooling',
    unit: 'K/s',
    shown: { unit: 'K/s', factor: 1 },
    model: 'J^2 rho/c at the winding temperature; at standstill of sqrt(2) times the rms current',
    source: 'heat capacity 3.45 MJ/(m3 K) of copper, 2.5 of aluminium, IEC 60949 as quoted by others',
    better: 'lower',
  },
  'duty.cycle.duration': {
    words: 'duration of a duty cycle',
    unit: 's',
    shown: { unit: 's', factor: 1 },
  },
  'duty.cycle.copperEnergy': {
    words: 'winding loss of a duty cycle, energy',
    unit: 'J',
    shown: { unit: 'kJ', factor: 1e3 },
    model: 'sum over the points of loss times duration',
    source: 'definition',
    better: 'lower',
  },
  'duty.cycle.meanCopperLoss': {
    words: 'mean winding loss of a duty cycle',
    unit: 'W',
    shown: watts,
    model: 'energy over duration',
    source: 'definition',
    better: 'lower',
  },
  'duty.cycle.copperEfficiency': {
    words: 'efficiency of a duty cycle, winding losses alone',
    unit: '1',
    shown: percent,
    model: 'mechanical work of either sense over itself and the winding loss',
    source: 'definition',
    better: 'higher',
  },
  'duty.cycle.rmsCurrent': {
    words: 'rms terminal current of a duty cycle',
    unit: 'A',
    shown: amperes,
    model: 'square root of the mean square over the durations',
    source: 'definition',
    better: 'lower',
  },

  'duty.cycle.hotSpot': {
    words: 'highest temperature of a duty cycle',
    unit: 'degC',
    shown: celsius,
    model:
      "c A dT/dt = k A T'' - G (T - Ts) + p'(T) along the bars, implicit steps, repeated until a cycle changes nothing by 0.01 K; Ts of the core held, or with core-heat as the bars heat it",
    source: `${fin}; heat capacity 3.45 MJ/(m3 K) of copper, 2.5 of aluminium, IEC 60949 as quoted by others`,
    better: 'lower',
  },
  'duty.cycle.coreTemperature': {
    words: 'highest temperature of the core in a duty cycle',
    unit: 'degC',
    shown: celsius,
    model: 'core-heat dT/dt = heat from all bars - core-cooling (T - coolant-temperature)',
    source: 'one node, heated by the bars alone',
    better: 'lower',
  },

  'iron.tooth.noLoad': {
    words: 'peak flux density of a tooth, no load',
    unit: 'T',
    shown: tesla,
    model:
      'pi p Phi/(Q l stack-factor width), width of the tooth at its narrowest place, slots of parallel sides; all flux through the teeth',
    source: 'flux of a slot pitch at the crest of a sine',
    better: 'lower',
  },
  'iron.tooth.load': {
    words: 'peak flux density of a tooth, at load',
    unit: 'T',
    shown: tesla,
    model: 'that without load times |E + j w Lm I|/E; linear iron',
    source: 'flux of a slot pitch at the crest of a sine',
    better: 'lower',
  },
  'iron.yoke.noLoad': {
    words: 'peak flux density of the yoke, no load',
    unit: 'T',
    shown: tesla,
    model: 'Phi/(2 yoke-height l stack-factor)',
    source: 'half the flux of a pole',
    better: 'lower',
  },
  'iron.yoke.load': {
    words: 'peak flux density of the yoke, at load',
    unit: 'T',
    shown: tesla,
    model: 'that without load times |E + j w Lm I|/E; linear iron',
    source: 'half the flux of a pole',
    better: 'lower',
  },

  'copper.section.barArea': {
    words: 'bare conductor area of a bar',
    unit: 'm2',
    shown: { unit: 'mm²', factor: 1e-6 },
    model: 'width x height - (4 - pi) corner^2, one a layer',
    source: 'rectangle with rounded edges',
  },
  'copper.section.slotFill': {
    words: 'bare conductors in the slot',
    unit: '1',
    shown: percent,
    model: 'bare conductor area over slot width x slot depth, fullest slot',
    source: 'definition',
    better: 'lower',
  },
  'copper.section.spareRoom': {
    words: 'room left in the slot',
    unit: 'm',
    shown: millimeters,
    model: 'slot width less two liners, depth less wedges and liner, less the coated bars',
    source: 'geometry',
  },
  'copper.length.bars': {
    words: 'mean length of a bar',
    unit: 'm',
    shown: millimeters,
    model:
      'mean center line in space: slot part, straights, bends, legs, and joints or half a crown; the legs of a layer rise at sin(beta) = (coated width + clearance)/slot pitch at their inner faces, or as those of the layer they are paired with',
    source: inSpace,
  },
  'copper.length.total': {
    words: 'length of all bars and connecting pieces',
    unit: 'm',
    shown: meters,
    model: 'all bars and connecting pieces',
    source: inSpace,
  },
  'copper.length.overhangConnection': {
    words: 'overhang, connection side',
    unit: 'm',
    shown: millimeters,
    model: 'highest joint, lead, crown, connecting piece or ring, coating included',
    source: inSpace,
  },
  'copper.length.overhangFar': {
    words: 'overhang, far side',
    unit: 'm',
    shown: millimeters,
    model: 'highest joint, lead, crown, connecting piece or ring, coating included',
    source: inSpace,
  },
  'copper.resistance.path20': resistance(
    'resistance of a path at 20 °C',
    'rho x sum of length/area at 20 degC, mean path',
  ),
  'copper.resistance.phase20': resistance(
    'resistance of a phase at 20 °C',
    'paths in parallel at 20 degC, mean phase',
  ),
  'copper.resistance.phase': resistance(
    'resistance of a phase, warm',
    'paths in parallel at the winding temperature, mean phase',
    'lower',
  ),
  'copper.resistance.line20': resistance(
    'resistance between two line terminals at 20 °C',
    'between adjacent line terminals at 20 degC',
  ),
  'copper.resistance.line': resistance(
    'resistance between two line terminals, warm',
    'between adjacent line terminals at the winding temperature',
  ),
  'copper.mass': {
    words: 'mass of the bars',
    unit: 'kg',
    shown: { unit: 'kg', factor: 1 },
    model: 'density x metal of bars, connecting pieces and rings',
    source: iec60028,
    better: 'lower',
  },
  'copper.currentDensity': {
    words: 'current density',
    unit: 'A/m2',
    shown: { unit: 'A/mm²', factor: 1e6 },
    model: 'path current over the smallest bar area, rms',
    source: 'definition',
    better: 'lower',
  },
  'copper.ringCurrentDensity': {
    words: 'current density in rings',
    unit: 'A/m2',
    shown: { unit: 'A/mm²', factor: 1e6 },
    model: 'phase current, of all its paths, over the section of a ring, rms',
    source: 'definition',
    better: 'lower',
  },
  'copper.loss.dc': {
    words: 'DC loss',
    unit: 'W',
    shown: watts,
    model: 'sum over the phases of I^2 R at the winding temperature',
    source: 'Joule',
  },
  'copper.loss.ac': {
    words: 'loss that eddies add',
    unit: 'W',
    shown: watts,
    model: 'sum over the bars of the slot part of (k - 1) I^2 R',
    source: slotTheory,
  },
  'copper.loss.harmonics': {
    words: 'loss of harmonics of the current',
    unit: 'W',
    shown: watts,
    model:
      'I^2 R of each order and ripple with its own AC ratio and phase sequence; in a ring of phases also of I = E/abs(R + j h w L0) that the rotor-field drives',
    source: slotTheory,
    better: 'lower',
  },
  'copper.loss.barField': {
    words: "loss by eddies of the rotor's field in the bars",
    unit: 'W',
    shown: watts,
    model:
      '(pi f)^2 (Br^2 w^2 + Bt^2 h^2)/(6 rho) per volume within the stack, h of a strand, each term times 3 (sinh x - sin x)/(x (cosh x - cos x)), x side over skin depth',
    source: 'plates in an alternating field; Lammeraner and Stafl, Eddy Currents (from memory)',
    better: 'lower',
  },
  'copper.loss.total': {
    words: 'winding loss',
    unit: 'W',
    shown: watts,
    model:
      'DC loss, what eddies add, and the losses of harmonics of the current and of the rotor\u2019s field in the bars where they are stated',
    source: slotTheory,
    better: 'lower',
  },
  'copper.acRatio.layers': {
    words: 'AC ratio',
    unit: '1',
    shown: factor,
    model:
      'k = phi(xi) + psi(xi) (|Iu|^2 + Re(Iu conj I))/|I|^2 from the actual phasors, mean over the slots',
    source: slotTheory,
  },
  'copper.acRatio.slot': {
    words: 'AC ratio in the slot, mean',
    unit: '1',
    shown: factor,
    model: 'mean over all bars, slot part',
    source: slotTheory,
    better: 'lower',
  },
  'copper.acRatio.worst': {
    words: 'AC ratio of the worst bar',
    unit: '1',
    shown: factor,
    model: 'bar with the largest ratio, slot part',
    source: slotTheory,
  },
  'copper.acRatio.bar': {
    words: 'AC ratio with the bar ends',
    unit: '1',
    shown: factor,
    model: 'whole bar, ends without eddies',
    source: slotTheory,
  },
  'copper.acRatio.bestHeights': {
    words: 'bar height of least AC resistance',
    unit: 'm',
    shown: millimeters,
    model: 'bar height with the least k/h for the layers',
    source: slotTheory,
  },
  'copper.leakage.slotPermeance': {
    words: 'permeance of a slot',
    unit: '1',
    shown: factor,
    model: 'lambda with L = 4 m mu0 l N^2 lambda/Q',
    source: permeance,
  },
  'copper.leakage.slotInductance': inductance(
    'inductance of the slot leakage',
    'slot leakage of one phase, no eddies',
    permeance,
  ),
  'copper.leakage.pathImpedances': {
    words: 'resistance and slot leakage of a path',
    unit: 'ohm and H',
    shown: plain,
    model:
      'resistance and slot leakage of each path from the places of its bars; no end winding, no gap field',
    source: permeance,
  },
  'copper.heat.rise': {
    words: 'rise of the hot spot over the ends',
    unit: 'K',
    shown: { unit: 'K', factor: 1, decimals: 1 },
    model:
      "L the bar's length in the stack: p' L^2/(8 k A), or (p'/G)(1 - 1/cosh(sqrt(G/(k A)) L/2)) with side cooling; with end-conductance k A T'' = G (T - Ts) - p' along each path",
    source: fin,
  },
  'copper.heat.hotSpot': {
    words: 'hot spot',
    unit: 'degC',
    shown: celsius,
    model: 'end temperature and rise, iterated with the resistance',
    source: fin,
    better: 'lower',
  },
  'copper.heat.endShare': {
    words: 'heat leaving by the ends',
    unit: '1',
    shown: percent,
    model: 'tanh(u)/u, u = sqrt(G/(k A)) L/2; 1 without side cooling',
    source: fin,
  },
  'copper.heat.coreShare': {
    words: 'heat leaving to the core',
    unit: '1',
    shown: percent,
    model: 'what does not leave by the ends',
    source: fin,
  },
  'copper.heat.coreTemperature': {
    words: 'temperature of the core',
    unit: 'degC',
    shown: celsius,
    model: 'coolant-temperature and heat from all bars over core-cooling',
    source: 'one node, heated by the bars alone',
    better: 'lower',
  },
  'copper.cage.stiffness': {
    words: 'torsional stiffness of the crossed bars',
    unit: 'Nm/rad',
    shown: torsion,
    model:
      'sum of E A (r^2 sin(lean))^2/Lc^3/(1 + (4/45) A d^2/I) along the bars, Lc their chord, d their bow between radial supports, and of 12 E I r^2/l^3 + G J/l of each',
    source: beam,
    better: 'higher',
  },
  'copper.cage.straight': {
    words: 'torsional stiffness of straight clamped bars, for comparison',
    unit: 'Nm/rad',
    shown: torsion,
    model: 'sum of 12 E I r^2/l^3 + G J/l, straight clamped bars',
    source: beam,
  },
  'copper.cage.stress': {
    words: 'axial stress of a bar at the torque',
    unit: 'Pa',
    shown: megapascals,
    model: 'axial force of a bar at T/K over its area, largest layer',
    source: beam,
    better: 'lower',
  },
  'copper.cage.bending': {
    words: 'bending stress at the ends of a bar, besides the axial one',
    unit: 'Pa',
    shown: megapascals,
    model:
      'at T/K, bar clamped in the rings: 6 E I r/l^2 along the circumference, 2/3 of axial force times bow along the radius, largest layer',
    source: beam,
    better: 'lower',
  },

  'space.clearance.smallest': {
    words: 'smallest clearance between bar ends',
    unit: 'm',
    shown: millimeters,
    model:
      'least distance of coated sections beyond the stack, negative for penetration: within a layer, of connecting pieces and rings from all, between layers only where they penetrate more than flat bars on a cylinder do',
    source: inSpace,
    better: 'higher',
  },
  'space.clearance.layerContact': {
    words: 'least distance between layers of bar ends',
    unit: 'm',
    shown: millimeters,
    better: 'neither',
  },
  'space.endInductance.phase': endInductance('leakage inductance of the end windings', 'in air'),
  'space.endInductance.low': endInductance(
    'least leakage inductance of the end windings',
    'with the images of the ends in the faces of the stack, as iron or as flux lines, whichever gives less',
  ),
  'space.endInductance.high': endInductance(
    'most leakage inductance of the end windings',
    'the same, whichever gives more',
  ),
  'space.jointPlane.connection.lowest': jointPlane('lowest', 'connection'),
  'space.jointPlane.connection.highest': jointPlane('highest', 'connection'),
  'space.jointPlane.far.lowest': jointPlane('lowest', 'far'),
  'space.jointPlane.far.highest': jointPlane('highest', 'far'),
} as const satisfies Readonly<Record<string, FigureRow>>;

/** Place of a figure in the report: `copper.resistance.phase`. */
export type FigurePath = keyof typeof rows;

/** Every figure, by its place in the report, in the order in which reports list them. */
export const figureRegister: Readonly<Record<FigurePath, FigureRow>> = rows;

/** Whether a figure stands at this place of the report. */
export function isFigurePath(path: string): path is FigurePath {
  return Object.hasOwn(rows, path);
}

/** The row of a place in the report; undefined where no figure stands there. */
export function figureRow(path: string): FigureRow | undefined {
  return isFigurePath(path) ? figureRegister[path] : undefined;
}

/** Places of the figures below a part of the report: `copper` or `emf`. */
export function figuresOf(part: string): readonly FigurePath[] {
  return (Object.keys(rows) as FigurePath[]).filter((path) => path.startsWith(`${part}.`));
}
