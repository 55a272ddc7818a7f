import { mostSlots } from '../language/counts.ts';
import { fractionText, greatestCommonDivisor } from './integers.ts';
import type { PhaseSystem } from './model.ts';

/** What decides whether balanced phases can be laid into slots. */
export interface LayoutQuestion {
  readonly slots: number;
  readonly poles: number;
  readonly phases: PhaseSystem;
  readonly layers: number;
  /** Coil span in slots. */
  readonly span: number;
}

/**
 * The rule of balance with its numbers: `coils` / (`share` x `commonDivisor`) must be an integer.
 * Coils are counted in slots, or in half the slots for tooth coils in one layer.
 */
export interface BalanceRule {
  readonly coilsAre: 'slots' | 'half-the-slots';
  readonly coils: number;
  /** Equal parts of the star: the number of phases, or 12 for two three-phase sets. */
  readonly share: number;
  /** gcd(coils, pole pairs). */
  readonly commonDivisor: number;
  /** coils / (share x commonDivisor) as a reduced fraction. */
  readonly quotient: string;
  readonly met: boolean;
}

/** True for tooth coils in one layer: a coil round every second tooth. */
export function isToothCoilSingleLayer(question: Pick<LayoutQuestion, 'layers' | 'span'>): boolean {
  return question.layers === 1 && question.span === 1;
}

/**
 * The rule that a generated layout must meet for its phases to be balanced (Pyrhonen, Jokinen,
 * Hrabovcova, Design of Rotating Electrical Machines, ch. 2; for tooth coils in one layer applied to
 * the star of the coils). With an odd number of slots tooth coils in one layer cannot exist; the rule
 * is then not met, and `coils` is half the slots all the same.
 */
export function balanceRule(question: LayoutQuestion): BalanceRule {
  const halved = isToothCoilSingleLayer(question);
  const coils = halved ? question.slots / 2 : question.slots;
  const share = question.phases.sets === 2 ? 12 : question.phases.names.length;
  if (!Number.isInteger(coils)) {
    const quotient = fractionText(question.slots, 2 * share);
    return { coilsAre: 'half-the-slots', coils, share, commonDivisor: 1, quotient, met: false };
  }
  const commonDivisor = greatestCommonDivisor(coils, question.poles / 2);
  return {
    coilsAre: halved ? 'half-the-slots' : 'slots',
    coils,
    share,
    commonDivisor,
    quotient: fractionText(coils, share * commonDivisor),
    met: coils % (share * commonDivisor) === 0,
  };
}

/** True when coils of this span link a fundamental field: the span is no multiple of two pole pitches. */
export function spanLinksFundamental(slots: number, poles: number, span: number): boolean {
  return ((poles / 2) * span) % slots !== 0;
}

/**
 * The slot counts nearest to the one asked for that allow balanced phases with the same poles, phases,
 * layers and span: up to `each` below and `each` above, rising. Spans in one layer other than 1 are
 * not held against a count, as another span may close there.
 */
export function nearestSlotCounts(question: LayoutQuestion, each = 2): number[] {
  const below = search(question, -1, each).reverse();
  return [...below, ...search(question, 1, each)];
}

function search(question: LayoutQuestion, step: 1 | -1, wanted: number): number[] {
  const found: number[] = [];
  for (let slots = question.slots + step; slots >= 3 && slots <= mostSlots; slots += step) {
    if (allowsLayout({ ...question, slots })) found.push(slots);
    if (found.length === wanted) break;
  }
  return found;
}

function allowsLayout(question: LayoutQuestion): boolean {
  const { slots, poles, span, layers } = question;
  if (!balanceRule(question).met) return false;
  if (layers === 1 && span > 1) return (slots / greatestCommonDivisor(slots, poles / 2)) % 2 === 0;
  return span < slots && spanLinksFundamental(slots, poles, span);
}
