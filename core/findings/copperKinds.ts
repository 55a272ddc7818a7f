import { findingKind } from '../language/finding.ts';
import { percent, significant } from '../language/numbers.ts';
import { layerLetter } from '../winding/model.ts';

const millimeters = (meters: number) => `${significant(meters * 1000, 4)} mm`;
const letters = (layers: readonly number[]) => layers.map(layerLetter).join(' ');

export const barsDoNotFit = findingKind<{
  direction: 'width' | 'height';
  layers: readonly number[];
  needed: number;
  available: number;
  lacking: number;
}>({
  code: 'bars-do-not-fit',
  severity: 'error',
  help: 'Coated bars fit into the slot less liner and wedge, side by side and one above another.',
  message: ({ direction, layers, needed, available, lacking }) =>
    `The bars of layer${layers.length === 1 ? '' : 's'} ${letters(layers)} do not fit: they need ${millimeters(needed)} of slot ${direction === 'width' ? 'width' : 'depth'}, there are ${millimeters(available)}; ${millimeters(lacking)} are missing.`,
});

export const cornerTooLarge = findingKind<{ layer: number; corner: number; most: number }>({
  code: 'corner-too-large',
  severity: 'error',
  help: 'A corner radius is at most half the thinner side of the bar.',
  message: ({ layer, corner, most }) =>
    `A corner of ${millimeters(corner)} is too large for the bars of layer ${layerLetter(layer)}: at most ${millimeters(most)}.`,
});

export const fillTooHigh = findingKind<{ layers: readonly number[]; fill: number; most: number }>({
  code: 'fill-too-high',
  severity: 'warning',
  help: 'Above some share of copper in the slot, bars can hardly be inserted without harm.',
  message: ({ layers, fill, most }) =>
    `Copper fills ${percent(fill, 3)} of the slot of layers ${letters(layers)}; above ${percent(most, 3)} bars can hardly be inserted.`,
});

export const bendsCannotPass = findingKind<{
  layer: number;
  needed: number;
  pitch: number;
  clearanceThatFits: number | null;
}>({
  code: 'bends-cannot-pass',
  severity: 'error',
  help: 'The bent ends of neighboring bars pass each other within a slot pitch: coated width and clearance have to be smaller than it.',
  message: ({ layer, needed, pitch, clearanceThatFits }) =>
    `The end bends of layer ${layerLetter(layer)} cannot pass each other: coated width and clearance are ${millimeters(needed)}, the slot pitch is ${millimeters(pitch)}. ${clearanceThatFits === null ? 'No clearance fits: the bars are too wide.' : `A clearance below ${millimeters(clearanceThatFits)} fits.`}`,
});

export const bendsNearlyTouch = findingKind<{ layer: number; sine: number }>({
  code: 'bends-steep',
  severity: 'warning',
  help: 'Where coated width and clearance come near the slot pitch, the end bends stand up steeply.',
  message: ({ layer, sine }) =>
    `The end bends of layer ${layerLetter(layer)} are steep: coated width and clearance take ${percent(sine, 3)} of the slot pitch.`,
});

export const slotWiderThanPitch = findingKind<{ layers: readonly number[]; width: number; pitch: number }>({
  code: 'slot-wider-than-pitch',
  severity: 'error',
  help: 'Slots are narrower than the slot pitch; between them stand teeth.',
  message: ({ layers, width, pitch }) =>
    `The slots of layers ${letters(layers)} are ${millimeters(width)} wide, but the slot pitch is only ${millimeters(pitch)}.`,
});

export const diametersDisagree = findingKind<{ bore: number; outside: number; outsideFromSlots: number }>({
  code: 'diameters-disagree',
  severity: 'error',
  help: 'With a gap on both sides the outside diameter follows from the bore and the slots between.',
  message: ({ bore, outside, outsideFromSlots }) =>
    `A bore of ${millimeters(bore)} and the slots give an outside diameter of ${millimeters(outsideFromSlots)}, not ${millimeters(outside)}.`,
});

export const bendRadiusTooLarge = findingKind<{ radius: number }>({
  code: 'bend-radius-too-large',
  severity: 'error',
  help: 'The bends of a bar end fit into its straight parts.',
  message: ({ radius }) => `A bend radius of ${millimeters(radius)} does not fit into the end bends.`,
});

export const noSteadyTemperature = findingKind<null>({
  code: 'no-steady-temperature',
  severity: 'error',
  help: 'Resistance grows with temperature; above some loss the bar finds no steady temperature between its cooled ends.',
  message: () =>
    'The bars find no steady temperature: the loss grows faster with temperature than heat can leave.',
});

export const insulationStressed = findingKind<{ what: string; voltage: number; limit: number }>({
  code: 'insulation-stressed',
  severity: 'error',
  help: 'Voltages between bars, surges included, stay below what the insulation block allows.',
  message: ({ what, voltage, limit }) =>
    `Between ${what} stand up to ${significant(voltage, 4)} V (surges included); the insulation is for ${significant(limit, 4)} V.`,
});

/** Every kind about copper and insulation. */
export const copperKinds = [
  barsDoNotFit,
  cornerTooLarge,
  fillTooHigh,
  bendsCannotPass,
  bendsNearlyTouch,
  slotWiderThanPitch,
  diametersDisagree,
  bendRadiusTooLarge,
  noSteadyTemperature,
  insulationStressed,
];
