import { findingKind } from '../../language/finding.ts';
import { significant } from '../../language/numbers.ts';
import { visible } from '../../language/text/visible.ts';
import type { VoltageProblem } from '../../operation/voltageProblems.ts';

type TooLow = Extract<VoltageProblem, { readonly kind: 'voltage-too-low' }>;

const revolutions = (speed: number) => `${significant(speed * 60, 4)} rpm`;

export const voltageTooLow = findingKind<TooLow>({
  code: 'voltage-too-low',
  severity: 'error',
  graded: ['warning'],
  help: 'At the rated current, angle and speed the machine needs more voltage between its lines than the text gives. A warning where the current at another angle fits and none is written.',
  message: ({ needed, voltage, current, speed, written, fit, torque, most }) => {
    const point = `The machine needs ${significant(needed, 4, voltage)} V between its lines at ${significant(current, 4)} A and ${revolutions(speed)}; it has ${significant(voltage, 4, needed)} V.`;
    if (fit !== null) {
      const told = `current-angle ${significant(fit.angle, 3)} edeg fits and leaves ${significant(fit.torque, 4)} Nm of ${significant(torque, 4)} Nm`;
      return `${point} ${written ? `Instead of the written one, ${told}` : `A ${told}`}.`;
    }
    const rest =
      most === null
        ? 'and no smaller current drives at that speed'
        : `${significant(most.current, 4)} A would, with ${significant(most.torque, 4)} Nm of ${significant(torque, 4)} Nm`;
    return `${point} This current fits at no angle, ${rest}.`;
  },
});

export const voltageBelowEmf = findingKind<{ emf: number; voltage: number }>({
  code: 'voltage-below-emf',
  severity: 'warning',
  help: 'The EMF between the lines at rated speed is above the voltage: without field weakening the machine drives current back into its supply.',
  message: ({ emf, voltage }) =>
    `Without load ${significant(emf, 4, voltage)} V stand between the lines at rated speed, above the voltage of ${significant(voltage, 4, emf)} V: when field weakening fails, the machine feeds its supply.`,
});

interface Saturated {
  readonly density: number;
  readonly most: number;
}

const saturation = 'the field is weaker and the iron hotter than linear models tell (common practice).';

export const toothFieldHigh = findingKind<Saturated>({
  code: 'tooth-field-high',
  severity: 'warning',
  help: `Teeth saturate: ${saturation}`,
  message: ({ density, most }) =>
    `The flux density of the teeth peaks at ${significant(density, 4, most)} T where they are narrowest; above ${significant(most, 3)} T they saturate.`,
});

export const yokeFieldHigh = findingKind<Saturated>({
  code: 'yoke-field-high',
  severity: 'warning',
  help: `The yoke saturates: ${saturation}`,
  message: ({ density, most }) =>
    `The flux density of the yoke peaks at ${significant(density, 4, most)} T; above ${significant(most, 3)} T it saturates.`,
});

export const pointOutOfReach = findingKind<{
  name: string;
  torque: number;
  speed: number;
  reachable: number | null;
  atAnotherAngle: boolean;
}>({
  code: 'point-out-of-reach',
  severity: 'error',
  help: 'The voltage leaves each point of the duty enough torque at its speed.',
  message: ({ name, torque, speed, reachable, atAnotherAngle }) => {
    const told = `The voltage does not reach the point "${visible(name)}", ${significant(torque, 4)} Nm at ${revolutions(speed)}`;
    if (atAnotherAngle) return `${told}, at this angle of the current; at another it does.`;
    return reachable === null ? `${told}.` : `${told}: there it leaves ${significant(reachable, 4)} Nm.`;
  },
});

export const dutyPointRepeated = findingKind<{ name: string }>({
  code: 'duty-point-repeated',
  severity: 'error',
  help: 'Points of the duty have names of their own, so that limits can name them.',
  message: ({ name }) => `The duty has a point "${visible(name)}" already.`,
});

export const coreHeldAndHeated = findingKind<{ word: string }>({
  code: 'core-held-and-heated',
  severity: 'error',
  help: 'The core is either held at a temperature or follows the heat of the bars: core-temperature, or core-heat, core-cooling and coolant-temperature.',
  message: ({ word }) =>
    `The core is held at this temperature, so that ${word} has no effect: give either core-temperature, or core-heat, core-cooling and coolant-temperature.`,
});

export const harmonicCannotFlow = findingKind<{ harmonic: number; ring: boolean }>({
  code: 'harmonic-cannot-flow',
  severity: 'warning',
  help: 'Harmonics that are equal in all phases do not flow from terminal to terminal; round a ring of phases the rotor-field drives them.',
  message: ({ harmonic, ring }) =>
    `Harmonic ${harmonic} is the same in all phases, so that the supply cannot drive it, and it is not counted${ring ? '; what circulates in the ring follows from rotor-field' : ''}.`,
});

/** Every kind of finding about the operation. */
export const operationKinds = [
  voltageTooLow,
  voltageBelowEmf,
  toothFieldHigh,
  yokeFieldHigh,
  pointOutOfReach,
  dutyPointRepeated,
  coreHeldAndHeated,
  harmonicCannotFlow,
];
