import type { ModelLine } from '../../figures/figure.ts';

const pyrhonen =
  'Pyrhonen, Jokinen, Hrabovcova, Design of Rotating Electrical Machines, 2nd ed. (from memory)';

/** How each EMF figure is computed, one line each; the unit is the SI unit of its value. */
export const emfModels: readonly ModelLine[] = [
  {
    quantity: 'emf.frequency',
    unit: 'Hz',
    line: 'pole pairs times revolutions per second',
    source: 'definition',
  },
  {
    quantity: 'emf.phaseVoltage',
    unit: 'V',
    line: 'sqrt(2) pi f N kw Phi, fundamental, rms',
    source: `${pyrhonen}, ch. 2`,
  },
  {
    quantity: 'emf.lineVoltage',
    unit: 'V',
    line: 'star 2 sin(pi/m) times the phase EMF, delta the phase EMF; adjacent terminals of one set',
    source: 'phasor difference',
  },
  {
    quantity: 'emf.torque',
    unit: 'Nm',
    line: 'm E I/(2 pi n), current in phase with the EMF; no saturation, no losses',
    source: 'power balance',
  },
  { quantity: 'emf.power', unit: 'W', line: 'm E I, current in phase with the EMF', source: 'power balance' },
  {
    quantity: 'emf.torquePerAmpere',
    unit: 'Nm/A',
    line: 'torque over terminal current, rms',
    source: 'definition',
  },
  {
    quantity: 'emf.motorConstant',
    unit: 'Nm/sqrt(W)',
    line: 'torque over the square root of the copper loss at the stated speed',
    source: 'definition',
  },
  {
    quantity: 'emf.magnetizingInductance',
    unit: 'H',
    line: 'm mu0 l N^2/(pi p^2) D/(kC (g + h/mu)), kC for the gap g + h/mu, times the mean over the stack of kw^2 without the skew of the rotor; linear iron; two gaps in series',
    source: `${pyrhonen}, 3.9; Carter's factor 3.1.1`,
  },
  {
    quantity: 'emf.differentialLeakageInductance',
    unit: 'H',
    line: 'differential leakage times the magnetizing inductance; where layers lean apart, of all waves over the stack',
    source: `${pyrhonen}, ch. 4`,
  },
  {
    quantity: 'emf.gapFluxDensity',
    unit: 'T',
    line: 'p Phi/(D l), peak of the fundamental at the bore',
    source: 'flux of a sine over the pole pitch',
  },
  {
    quantity: 'emf.gaps',
    unit: 'Pa',
    line: "mean shear stress: the torque on the gap's rotor over gap area and radius; of two gaps the torque divides as the magnet MMFs, h/mu",
    source: 'definition; virtual work on a series circuit of linear iron',
  },
  {
    quantity: 'emf.harmonics',
    unit: 'V',
    line: 'E_n/E_1 = (kw_n/kw_1)(B_n/B_1); rms of all stated orders; orders equal in all phases drop out between lines',
    source: 'Faraday, field waves of the stated relative amplitudes',
  },
];
