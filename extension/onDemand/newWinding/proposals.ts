import type { Steps } from '../../../core/figures/steps.ts';
import { checkText } from '../../../core/findings/checkedText.ts';
import { mostSlots } from '../../../core/language/counts.ts';
import type { MachineWish } from './machineWish.ts';

/** A layout that works, with what it gives. */
export interface Proposal {
  readonly slots: number;
  readonly layers: number;
  /** Slots from one side of a coil to the other. */
  readonly span: number;
  /** As a fraction, `5/4`. */
  readonly slotsPerPolePerPhase: string;
  /** Of the fundamental. */
  readonly windingFactor: number;
  /** Share of the fundamental's inductance; null where it cannot be computed. */
  readonly leakage: number | null;
  /** The fifth and the seventh wave, of the fundamental. */
  readonly fifthAndSeventh: number;
  readonly parallelPaths: number;
}

/** Slots per pole and phase that are tried where slots are free: tooth coils, then fractions, then whole numbers. */
const fillings = [1 / 4, 2 / 7, 3 / 8, 2 / 5, 1 / 2, 1, 5 / 4, 3 / 2, 5 / 2, 7 / 2, 2, 3, 4, 5, 6];

/** Two layers suit every coil: slots and span are chosen by them, and the number of layers after that. */
const layers = 2;

/** Proposals with less of the best winding factor are left out: their copper works in vain. */
const leastShare = 0.8;

/** Balanced layouts for a machine, those first whose field is nearest to the working wave alone; in steps. */
export function* proposals(wish: MachineWish): Steps<readonly Proposal[]> {
  const found: Proposal[] = [];
  for (const slots of slotsOf(wish)) {
    const tried: Proposal[] = [];
    for (const span of spansOf(slots, wish.poles)) {
      yield;
      const proposal = proposalOf(wish, slots, span);
      if (proposal !== null) tried.push(proposal);
    }
    const best = tried.sort(byMerit)[0];
    if (best !== undefined) found.push(best);
    // Of slots that are given, other spans are the choice there is.
    if (wish.slots !== null) found.push(...tried.slice(1));
  }
  const most = Math.max(0, ...found.map(({ windingFactor }) => windingFactor));
  return found.filter(({ windingFactor }) => windingFactor >= leastShare * most).sort(byMerit);
}

function slotsOf({ slots, poles, phases }: MachineWish): readonly number[] {
  if (slots !== null) return [slots];
  const counts = fillings.map((filling) => filling * poles * phases);
  const whole = counts.filter((count) => Math.abs(count - Math.round(count)) < 1e-9).map(Math.round);
  return [...new Set(whole)].filter((count) => count >= 3 && count <= mostSlots);
}

/** Spans from a full pitch down to two thirds of it, at most four; one slot for tooth coils. */
function spansOf(slots: number, poles: number): readonly number[] {
  const pitch = slots / poles;
  if (pitch < 2) return [1];
  const shares = [1, 5 / 6, 0.78, 2 / 3];
  return [...new Set(shares.map((share) => Math.max(1, Math.round(share * pitch))))];
}

function proposalOf(wish: MachineWish, slots: number, span: number): Proposal | null {
  const { facts, findings } = checkText(layoutText(wish, { slots, layers, span }));
  if (facts === null || findings.some(({ severity }) => severity === 'error')) return null;
  if (!facts.balance().balanced) return null;
  const { largestParallelPaths, slotsPerPolePerPhase } = facts.symmetry();
  const factorOf = (harmonic: number) => Math.abs(facts.factorRow((harmonic * wish.poles) / 2).winding ?? 0);
  const windingFactor = factorOf(1);
  if (windingFactor === 0) return null;
  return {
    slots,
    layers,
    span,
    slotsPerPolePerPhase,
    windingFactor,
    leakage: facts.differentialLeakage(),
    fifthAndSeventh: (factorOf(5) / 5 + factorOf(7) / 7) / windingFactor,
    parallelPaths: largestParallelPaths,
  };
}

/** The blocks that a layout follows from. */
export function layoutText(
  { poles, phases }: MachineWish,
  { slots, layers, span }: Pick<Proposal, 'slots' | 'layers' | 'span'>,
): string {
  const sets = phases === 6 ? ' apart 30 edeg' : '';
  return `winding "Trial"\nmachine { slots ${slots} poles ${poles} phases ${phases}${sets} }\nlayout { layers ${layers} span ${span} }\n`;
}

/** Waves that do no work count as much as what the winding factor lacks; then fewer slots. */
function byMerit(one: Proposal, other: Proposal): number {
  const demerit = ({ windingFactor, leakage, fifthAndSeventh }: Proposal) =>
    (leakage ?? 1) + fifthAndSeventh + 1 - windingFactor;
  return demerit(one) - demerit(other) || one.slots - other.slots;
}
