import { findingKind } from '../language/finding.ts';
import { plural } from '../language/lists.ts';
import { decimal, significant } from '../language/numbers.ts';
import { quoted } from '../language/text/quoted.ts';
import type { LayoutRefusal } from './generate.ts';

function listed(values: readonly (number | string)[], most = 12): string {
  const shown = values.slice(0, most).join(', ');
  return values.length > most ? `${shown} ...` : shown;
}

export const rowLength = findingKind<{ layer: string; places: number; slots: number }>({
  code: 'row-length',
  severity: 'error',
  help: 'A row has exactly one place for each slot.',
  message: ({ layer, places, slots }) =>
    `The row of layer ${layer} has ${plural(places, 'place')}; the machine has ${slots} slots.`,
});

export const phaseUnknown = findingKind<{ phase: string; names: readonly string[] }>({
  code: 'phase-unknown',
  severity: 'error',
  help: 'Phases are named U V W, U V W X Y, A B C ... or 1U 1V 1W 2U 2V 2W, by their number.',
  message: ({ phase, names }) => `There is no phase ${quoted(phase)}; the phases are ${names.join(' ')}.`,
});

export const layerMissing = findingKind<{ layer: string }>({
  code: 'layer-missing',
  severity: 'error',
  help: 'A layout written row by row describes every layer.',
  message: ({ layer }) => `Layer ${layer} is not described; write its row, or derive it from another layer.`,
});

export const layerCircular = findingKind<{ layer: string; from: string }>({
  code: 'layer-circular',
  severity: 'error',
  help: 'A derived layer leads back to a written row.',
  message: ({ layer, from }) =>
    `Layer ${layer} is derived from layer ${from}, which leads to no written row.`,
});

export const layoutEmpty = findingKind<null>({
  code: 'layout-undetermined',
  severity: 'error',
  help: 'A layout is generated from a span, or written row by row.',
  message: () => "The layout needs a coil span, as in 'span 6', or one row for each layer.",
});

export const layoutTwofold = findingKind<{ word: string }>({
  code: 'layout-twofold',
  severity: 'error',
  help: 'A layout is generated from a span, or written row by row, not both.',
  message: ({ word }) => `${quoted(word)} belongs to a generated layout, but this one is written row by row.`,
});

export const layoutRefused = findingKind<LayoutRefusal>({
  code: 'layout-refused',
  severity: 'error',
  help: 'A generated layout has to be balanced and to close; otherwise it is refused with the reason.',
  message: describeRefusal,
});

function describeRefusal(reason: LayoutRefusal): string {
  switch (reason.kind) {
    case 'unbalanced': {
      const { coils, share, commonDivisor, quotient, coilsAre } = reason.rule;
      const counted =
        coilsAre === 'slots' ? plural(coils, 'slot') : `${plural(coils, 'coil')} (half the slots)`;
      return `No balanced layout exists: ${counted} / (${share} x ${commonDivisor}) = ${quotient} has to be a whole number.${nearest(reason.nearestSlots)}`;
    }
    case 'slots-odd':
      return `Tooth coils in one layer need an even number of slots, not ${reason.slots}.${nearest(reason.nearestSlots)}`;
    case 'odd-layers':
      return `A generated layout has 1, 2, 4, 6 ... layers, not ${reason.layers}; write odd layer counts row by row.`;
    case 'belt-refused':
      return `The belt can be ${reason.allowed.map((belt) => `${decimal(belt, 2)} edeg`).join(' or ')}, not ${decimal(reason.belt, 4)} edeg.`;
    case 'two-sets-need-30':
      return `A generated layout of two sets needs them 30 edeg apart, not ${decimal(reason.apart, 4)}; write other angles row by row.`;
    case 'span-out-of-range':
      return `The span has to be from 1 to ${reason.slots - 1} slots, not ${reason.span}.`;
    case 'span-does-not-close':
      return reason.spansThatDo.length > 0
        ? `In one layer a span of ${reason.span} does not lead each + bar to a - bar of its phase; spans that do: ${listed(reason.spansThatDo)}.`
        : `In one layer no span leads each + bar to a - bar of its phase here; use two layers, or write the row.`;
    case 'span-links-no-fundamental':
      return `A span of ${plural(reason.span, 'slot')} links no fundamental field: it is a multiple of two pole pitches (${plural(decimal(2 * reason.polePitch), 'slot')}).`;
    case 'stagger-cancels-fundamental':
      return `A stagger of ${plural(reason.stagger, 'slot')} over ${plural(reason.pairs, 'layer pair')} cancels the fundamental.`;
  }
}

function nearest(slots: readonly number[]): string {
  return slots.length > 0 ? ` Nearest slot counts that work: ${listed(slots)}.` : '';
}

export const gapLengthsExtra = findingKind<{ word: string }>({
  code: 'gap-lengths',
  severity: 'error',
  help: 'Two lengths, inner and outer, are for machines with a gap on both sides.',
  message: ({ word }) => `${quoted(word)} has two lengths, but there is one gap; two are for 'gap both'.`,
});

export const speedDisagrees = findingKind<{ frequency: number; speed: number; expected: number }>({
  code: 'speed-disagrees',
  severity: 'error',
  help: 'Frequency is speed times pole pairs; give one of them.',
  message: ({ frequency, speed, expected }) =>
    `${significant(speed * 60, 6)} rpm gives ${significant(expected, 6)} Hz, not ${significant(frequency, 6)} Hz; give the speed or the frequency.`,
});

export const connectionMissing = findingKind<null>({
  code: 'connection-missing',
  severity: 'error',
  help: 'A connect block says how the phases are joined: star, star joined, delta or open.',
  message: () => "Say how the phases are joined: 'star', 'star joined', 'delta' or 'open'.",
});

export const connectionRepeated = findingKind<{ word: string; first: string }>({
  code: 'connection-repeated',
  severity: 'error',
  help: 'A connect block has exactly one of star, star joined, delta and open.',
  message: ({ word, first }) => `${quoted(word)} after ${quoted(first)}: the phases are joined in one way.`,
});

/** Every kind the making of a winding reports. */
export const windingKinds = [
  rowLength,
  phaseUnknown,
  layerMissing,
  layerCircular,
  layoutEmpty,
  layoutTwofold,
  layoutRefused,
  gapLengthsExtra,
  speedDisagrees,
  connectionMissing,
  connectionRepeated,
];
