import { findingKind } from '../../language/finding.ts';
import { layerLetter, layerLetters } from '../../language/layerLetters.ts';
import { isOne } from '../../language/lists.ts';
import { percent, significant } from '../../language/numbers.ts';
import { toldLength as told } from '../../space/clearance/placeWords.ts';
import { needsInWords } from '../needWords.ts';

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
    `The bars of ${isOne(layers.length) ? 'layer' : 'layers'} ${layerLetters(layers)} do not fit: they need ${told(needed, available)} of slot ${direction === 'width' ? 'width' : 'depth'}, there are ${told(available, needed)}; ${told(lacking)} are missing.`,
});

export const cornerTooLarge = findingKind<{ layer: number; corner: number; most: number }>({
  code: 'corner-too-large',
  severity: 'error',
  help: 'A corner radius is at most half the thinner side of the bar.',
  message: ({ layer, corner, most }) =>
    `A corner of ${told(corner, most)} is too large for the bars of layer ${layerLetter(layer)}: at most ${told(most, corner)}.`,
});

export const fillTooHigh = findingKind<{ layers: readonly number[]; fill: number; most: number }>({
  code: 'fill-too-high',
  severity: 'warning',
  help: 'Above some share of bare conductors in the slot, bars can hardly be inserted without harm.',
  message: ({ layers, fill, most }) =>
    `Bare conductors fill ${percent(fill, 3, most)} of the slot of layers ${layerLetters(layers)}; above ${percent(most, 3)} bars can hardly be inserted.`,
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
    `The end bends of layer ${layerLetter(layer)} cannot pass each other: coated width and clearance are ${told(needed, pitch)}, the slot pitch is ${told(pitch, needed)}. ${clearanceThatFits === null ? 'No clearance fits: the bars are too wide.' : `A clearance below ${told(clearanceThatFits)} fits.`}`,
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
    `The slots of layers ${layerLetters(layers)} are ${told(width, pitch)} wide, but the slot pitch is only ${told(pitch, width)}.`,
});

export const diametersDisagree = findingKind<{ bore: number; outside: number; outsideFromSlots: number }>({
  code: 'diameters-disagree',
  severity: 'error',
  help: 'With a gap on both sides the outside diameter follows from the bore and the slots between.',
  message: ({ bore, outside, outsideFromSlots }) =>
    `A bore of ${told(bore)} and the slots give an outside diameter of ${told(outsideFromSlots, outside)}, not ${told(outside, outsideFromSlots)}.`,
});

export const bareEndTooLong = findingKind<{ bare: number; joint: number }>({
  code: 'bare-end-too-long',
  severity: 'warning',
  help: 'The coating is taken off within the straight part of a bar end where two bars are joined, not in the bend below it.',
  message: ({ bare, joint }) =>
    `Bared ends of ${told(bare, joint)} reach beyond the straight part for the joint, ${told(joint, bare)} long, into the bend.`,
});

export const noSteadyTemperature = findingKind<null>({
  code: 'no-steady-temperature',
  severity: 'error',
  help: 'Resistance grows with temperature; above some loss the bar finds no steady temperature between its cooled ends.',
  message: () =>
    'The bars find no steady temperature: the loss grows faster with temperature than heat can leave.',
});

export const insulationStressed = findingKind<{
  what: string;
  voltage: number;
  limit: number;
  /** The phase voltage it is reckoned from. */
  basis: { readonly voltage: number; readonly from: string };
  /** As written; null for none. */
  surge: number | null;
  /** What it takes to be at one potential, where it depends on that. */
  common: string | null;
}>({
  code: 'insulation-stressed',
  severity: 'error',
  graded: ['warning'],
  help: 'Voltages between bars, times the surge factor, stay below what the insulation block allows; rms, from the larger of no-load EMF and rated voltage.',
  message: ({ what, voltage, limit, basis, surge, common }) =>
    `Between ${what} stand up to ${significant(voltage, 4, limit)} V rms (phase voltage ${significant(basis.voltage, 4)} V from the ${basis.from}${surge === null ? '' : `, surges included by ${significant(surge, 4)}`}${common === null ? '' : `, ${common} taken at one potential`}); the insulation is for ${significant(limit, 4, voltage)} V.`,
});

export const insulationNotChecked = findingKind<{ needs: readonly string[]; reason: string | null }>({
  code: 'insulation-not-checked',
  severity: 'warning',
  help: 'Volts between bars follow from the paths and the rated voltage or the no-load EMF; without them the insulation is not checked.',
  message: ({ needs, reason }) =>
    `The insulation is not checked against this voltage: ${reason ?? `it needs ${needsInWords(needs)}`}.`,
});

export const setsAtOnePotential = findingKind<{ common: string; share: number; bars: string }>({
  code: 'sets-at-one-potential',
  severity: 'info',
  help: 'Nothing in the text fixes two separate stars (or deltas) against each other: voltages between their bars are for both star points (or centers) at one potential.',
  message: ({ common, share, bars }) =>
    `Voltages between bars of the two sets (up to ${percent(share, 3)} of the phase voltage, ${bars}) are for ${common} at one potential; where these can drift apart, the drift comes on top.`,
});

export const barsHotterThanWinding = findingKind<{ mean: number; hotSpot: number; assumed: number }>({
  code: 'bars-hotter-than-winding',
  severity: 'warning',
  help: 'Resistance and losses are for the winding temperature; where the hottest bar settles above it, they are larger than told.',
  message: ({ mean, hotSpot, assumed }) =>
    `The hottest bar settles at ${significant(mean, 4, assumed)} degC in the mean (${significant(hotSpot, 4)} degC at its hottest), above the winding temperature of ${significant(assumed, 4, mean)} degC: losses are understated.`,
});

export const gapFieldHigh = findingKind<{ density: number; most: number }>({
  code: 'gap-field-high',
  severity: 'warning',
  help: 'The fundamental of the flux makes a peak flux density at the bore; above some value the teeth saturate (common practice).',
  message: ({ density, most }) =>
    `This flux asks for a peak flux density of ${significant(density, 4, most)} T (fundamental) at the gap; above ${significant(most, 3)} T teeth saturate as a rule.`,
});

export const openingTooWide = findingKind<{ opening: number; most: number; what: 'slot' | 'slot pitch' }>({
  code: 'opening-too-wide',
  severity: 'error',
  help: 'A slot opening is at most as wide as its slot and narrower than the slot pitch at the gap.',
  message: ({ opening, most, what }) =>
    `A slot opening of ${told(opening, most)} is wider than the ${what} of ${told(most, opening)}.`,
});

export const currentDensityHigh = findingKind<{ density: number; most: number }>({
  code: 'current-density-high',
  severity: 'warning',
  help: 'Above some current density even bars in oil stay cool for a short time only (common practice).',
  message: ({ density, most }) =>
    `The bars carry ${significant(density / 1e6, 3, most / 1e6)} A/mm2; above ${significant(most / 1e6, 3)} A/mm2 they can be cooled for a short time only, as a rule.`,
});

export const deltaCirculation = findingKind<{ harmonic: number; voltage: number; current: number | null }>({
  code: 'delta-circulation',
  severity: 'info',
  help: 'Harmonics that are equal in all phases of a delta drive a current round it; it is not in the losses.',
  message: ({ harmonic, voltage, current }) =>
    `The EMF of harmonic ${harmonic}, ${significant(voltage, 3)} V a phase, drives a current round the delta${current === null ? '' : `: at most ${significant(current, 3)} A, by the resistance alone`}. It is not in the losses.`,
});

export const slotsBeyondAxis = findingKind<{ depth: number; radius: number }>({
  code: 'slots-beyond-axis',
  severity: 'error',
  help: 'Slots end short of the axis.',
  message: ({ depth, radius }) =>
    `The slots reach beyond the axis: they are ${told(depth, radius)} deep, the gap lies at a radius of ${told(radius, depth)}.`,
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
  bareEndTooLong,
  noSteadyTemperature,
  insulationStressed,
  insulationNotChecked,
  setsAtOnePotential,
  barsHotterThanWinding,
  gapFieldHigh,
  openingTooWide,
  currentDensityHigh,
  deltaCirculation,
  slotsBeyondAxis,
];
