import { toothMmf } from '../../analysis/mmf.ts';
import type { Facts } from '../../facts/facts.ts';
import { orNull } from '../../figures/figure.ts';
import { inEnglish, type Speech } from '../../figures/speech.ts';
import { significant } from '../../language/numbers.ts';
import { baseLine, group, text } from '../../picture/make.ts';
import type { Picture, Primitive } from '../../picture/picture.ts';
import { phaseOrder } from '../../winding/terminals.ts';
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
  /** What its words are in; default English. */
  readonly speech?: Speech | undefined;
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
  const { facts, instant = 0, speech = inEnglish } = input;
  if (!Number.isFinite(instant)) throw new RangeError(`An instant must be a finite angle, got ${instant}`);
  const { winding } = facts;
  const frame = frameFor(input.room);
  const { margin } = frame;
  const width = frame.width ?? paperWidth;
  const beside = width >= leastWidthBeside;
  const current = orNull(facts.phaseCurrent()) ?? 1;
  const unit = facts.phaseCurrent().known ? 'A' : 'A/A';
  const orders = shownOrders(facts.factorRows(facts.orders), facts.mmf().waves, mostOrders);
  const above = drawStaircase(input, frame, current, unit, instant, speech);
  const harmonics = drawHarmonics(
    orders,
    {
      left: margin,
      top: above.bottom + 6,
      width: width - 2 * margin - (beside ? polygonWidth + 10 : 0),
    },
    speech,
  );
  const polygon = above.polygon(beside ? above.bottom + 6 : harmonics.bottom + 6, beside);
  const page = {
    title: input.title,
    view: speech.say('field'),
    facts: windingWords(winding, speech),
    description: describe(input, orders, unit, speech),
    items: [
      group('wave', 'curve', above.items),
      group('harmonics', 'column', harmonics.items),
      ...(polygon.items.length > 0 ? [group('polygon', 'curve', polygon.items)] : []),
    ],
    width,
    bottom: Math.max(harmonics.bottom, polygon.bottom),
    notes: fieldNotes(input, above.count, speech),
    speech,
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
  speech: Speech,
): Parts & { readonly count: number | null; readonly polygon: (top: number, beside: boolean) => Parts } {
  const { winding } = facts;
  const { margin } = frame;
  const width = frame.width ?? paperWidth;
  const teeth = toothMmf(winding, current);
  if (teeth === null) {
    const words = speech.say(
      'The currents of all slots do not add up to zero: there is no MMF over the bore.',
    );
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
    speech,
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
        speech,
      }),
  };
}

function fieldNotes({ facts }: FieldInput, count: number | null, { say }: Speech): readonly string[] {
  const { slots, phases } = facts.winding;
  const waves = facts.mmf();
  const notes: string[] = [];
  const order = phaseOrder(phases);
  if (count !== null)
    notes.push(
      say(
        'MMF of point slots with balanced currents; each slot raises it by its ampere-conductors. Corners of the polygon are the teeth, tooth 1 between slots 1 and 2; its projection on the arrow is the MMF at this instant.',
      ),
    );
  if (!facts.phaseCurrent().known)
    notes.push(say('A/A: MMF for each ampere of rms phase current, as the text does not give the current.'));
  if (count !== null && count < slots)
    notes.push(
      say('Slots 1 to {0} of {1} are shown; the MMF repeats {2} times.', count, slots, slots / count),
    );
  notes.push(
    waves.runsWithSlotNumbers
      ? say('For the phase order {0} the working wave runs with the slot numbers.', order)
      : say('For the phase order {0} the working wave runs against the slot numbers.', order),
    say(
      'Shown are the first {0} orders with a winding factor of 0.0005 or a wave of 0.1 % of the working wave, or more.',
      mostOrders,
    ),
  );
  return notes;
}

/** The text equivalent: amplitude, and every shown order. */
function describe(
  { facts }: FieldInput,
  orders: readonly ShownOrder[],
  unit: string,
  speech: Speech,
): string {
  const { say } = speech;
  const { winding } = facts;
  const words = orders.map(({ order, factor, waves }) => {
    const parts = waves.map(({ relative, direction }) => {
      const share = significant(100 * (relative ?? 0), 3);
      return direction === 'forward' ? say('wave {0} % forward', share) : say('wave {0} % backward', share);
    });
    return say('order {0}: {1}', order, [say('factor {0}', significant(factor, 4)), ...parts].join(', '));
  });
  return [
    say('Field of a winding with {0}.', windingWords(winding, speech)),
    say(
      'Working wave of order {0}: {1}.',
      winding.polePairs,
      `${significant(facts.mmf().workingAmplitude, 4)} ${unit}`,
    ),
    say('Orders with winding factor and MMF wave against the working wave: {0}.', words.join('; ')),
  ].join(' ');
}
