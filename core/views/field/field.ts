import { toothMmf } from '../../analysis/mmf.ts';
import type { Facts } from '../../facts/facts.ts';
import { orNull } from '../../figures/figure.ts';
import { significant } from '../../language/numbers.ts';
import { baseLine, group, text } from '../../picture/make.ts';
import type { Picture, Primitive } from '../../picture/picture.ts';
import { frameFor, pagePicture, windingWords } from '../chart/page.ts';
import type { Frame, Room } from '../room.ts';
import { drawHarmonics, type ShownOrder, shownOrders } from './harmonics.ts';
import { drawPolygon } from './polygon.ts';
import { drawWave, workingWave } from './wave.ts';

/** What the field view shows. */
export interface FieldInput {
  readonly title: string;
  readonly facts: Pick<Facts, 'winding' | 'phaseCurrent' | 'orders' | 'factorRows' | 'mmf' | 'symmetry'>;
  /** Electrical degrees past the peak of the first phase's current; default 0. */
  readonly instant?: number | undefined;
  /** The panel's room; left out on paper. */
  readonly room?: Room | undefined;
}

const paperWidth = 272;
const mostOrders = 24;
const polygonWidth = 82;
/** In narrower drawings the polygon stands below the columns. */
const leastWidthBeside = 190;
/** Bores of more poles show one repetition. */
const mostPoles = 12;

/**
 * MMF over the bore at an instant with its working wave, winding factors and MMF waves by order, and
 * the phasor polygon. Throws RangeError for an instant that is not finite.
 */
export function fieldPicture(input: FieldInput): Picture {
  const { facts, instant = 0 } = input;
  if (!Number.isFinite(instant)) throw new RangeError(`An instant must be a finite angle, got ${instant}`);
  const { winding } = facts;
  const frame = frameFor(input.room);
  const { margin } = frame;
  const width = frame.width ?? paperWidth;
  const beside = width >= leastWidthBeside;
  const current = orNull(facts.phaseCurrent) ?? 1;
  const unit = facts.phaseCurrent.known ? 'A' : 'A/A';
  const orders = shownOrders(facts.factorRows(facts.orders), facts.mmf().waves, mostOrders);
  const above = drawStaircase(input, frame, current, unit, instant);
  const harmonics = drawHarmonics(orders, {
    left: margin,
    top: above.bottom + 6,
    width: width - 2 * margin - (beside ? polygonWidth + 10 : 0),
  });
  const polygon = above.polygon(beside ? above.bottom + 6 : harmonics.bottom + 6, beside);
  const page = {
    title: input.title,
    view: 'field',
    facts: windingWords(winding),
    description: describe(input, orders, unit),
    items: [
      group('wave', 'curve', above.items),
      group('harmonics', 'column', harmonics.items),
      ...(polygon.items.length > 0 ? [group('polygon', 'curve', polygon.items)] : []),
    ],
    width,
    bottom: Math.max(harmonics.bottom, polygon.bottom),
    notes: fieldNotes(input, above.count),
  };
  return pagePicture(page, input.room);
}

/** Slots after which table and MMF repeat, with their signs. */
function repetition({ symmetry }: FieldInput['facts']): number {
  const { rotationSlots, negated } = symmetry();
  return negated ? 2 * rotationSlots : rotationSlots;
}

function shownSlots(facts: FieldInput['facts']): number {
  const { slots, poles } = facts.winding;
  return poles > mostPoles ? Math.min(slots, repetition(facts)) : slots;
}

interface Parts {
  readonly items: readonly Primitive[];
  readonly bottom: number;
}

function drawStaircase(
  { facts }: FieldInput,
  frame: Frame,
  current: number,
  unit: string,
  degrees: number,
): Parts & { readonly count: number | null; readonly polygon: (top: number, beside: boolean) => Parts } {
  const { winding } = facts;
  const { margin } = frame;
  const width = frame.width ?? paperWidth;
  const teeth = toothMmf(winding, current);
  if (teeth === null) {
    const words = 'The currents of all slots do not add up to zero: there is no MMF over the bore.';
    return {
      items: [text('no-mmf', 'value', margin, frame.top + baseLine, words)],
      bottom: frame.top + 4,
      count: null,
      polygon: (top) => ({ items: [], bottom: top }),
    };
  }
  const wave = workingWave(winding, current);
  const instant = (Math.PI * degrees) / 180;
  const count = shownSlots(facts);
  const drawn = drawWave({
    winding,
    teeth,
    wave,
    instant,
    count,
    unit,
    left: margin,
    top: frame.top,
    width: width - 2 * margin,
  });
  return {
    ...drawn,
    count,
    polygon: (top, beside) =>
      drawPolygon({
        teeth,
        count: Math.min(winding.slots, repetition(facts)),
        amplitude: Math.hypot(wave.re, wave.im),
        instant,
        unit,
        left: beside ? width - margin - polygonWidth : margin,
        top,
        width: polygonWidth,
      }),
  };
}

function fieldNotes({ facts }: FieldInput, count: number | null): readonly string[] {
  const { slots, phases } = facts.winding;
  const waves = facts.mmf();
  const notes: string[] = [];
  if (count !== null)
    notes.push(
      'MMF of point slots with balanced currents; each slot raises it by its ampere-conductors. Corners of the polygon are the teeth, tooth 1 between slots 1 and 2; its projection on the arrow is the MMF at this instant.',
    );
  if (!facts.phaseCurrent.known)
    notes.push('A/A: MMF for each ampere of rms phase current, as the text does not give the current.');
  if (count !== null && count < slots)
    notes.push(`Slots 1 to ${count} of ${slots} are shown; the MMF repeats ${slots / count} times.`);
  notes.push(
    `For the phase order ${phases.names.slice(0, 3).join('-')} the working wave runs ${waves.runsWithSlotNumbers ? 'with' : 'against'} the slot numbers.`,
    `Shown are the first ${mostOrders} orders with a winding factor of 0.0005 or a wave of 0.1 % of the working wave, or more.`,
  );
  return notes;
}

/** The text equivalent: amplitude, and every shown order. */
function describe({ facts }: FieldInput, orders: readonly ShownOrder[], unit: string): string {
  const { winding } = facts;
  const words = orders.map(({ order, factor, waves }) => {
    const parts = waves.map(
      ({ relative, direction }) => `wave ${significant(100 * (relative ?? 0), 3)} % ${direction}`,
    );
    return `order ${order}: ${[`factor ${significant(factor, 4)}`, ...parts].join(', ')}`;
  });
  return [
    `Field of a winding with ${windingWords(winding)}.`,
    `Working wave of order ${winding.polePairs}: ${significant(facts.mmf().workingAmplitude, 4)} ${unit}.`,
    `Orders with winding factor and MMF wave against the working wave: ${words.join('; ')}.`,
  ].join(' ');
}
