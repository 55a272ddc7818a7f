import type { Steps } from '../../../core/figures/steps.ts';
import { checkText } from '../../../core/findings/checkedText.ts';
import { type BarsWish, hairpins, type Lean, straightBars } from './barsWish.ts';
import type { MachineWish } from './machineWish.ts';
import type { Proposal } from './proposals.ts';
import { windingText } from './windingText.ts';

/** Bars with what a winding of them gives. */
export interface BarsChoice extends BarsWish {
  /** Of the fundamental, the skew of the bars included. */
  readonly windingFactor: number;
}

/** From so many slots a pole on a lean of a whole slot pitch costs little of the working wave: at three 4.5 %. */
const leastForWhole = 3;

/**
 * The bars a winding can be made of, the usual ones of its machine first; in steps. Between two rotors, without a yoke,
 * straight bars whose layers cross hold the stator: layers of one half lean one way, those of the other the other way,
 * so that two rows of slots do; where that is warned of more, every second layer.
 */
export function* barsChoices(wish: MachineWish, proposal: Proposal): Steps<readonly BarsChoice[]> {
  if (wish.gap !== 'both')
    return [yield* judgedBars(hairpins), yield* judgedBars(straightBars)].map(unwarned);
  const crossed: Judged[] = [];
  for (const lean of leansOf(wish, proposal)) crossed.push(yield* judgedBars({ form: 'straight', lean }));
  const clean = crossed.filter(({ errors }) => errors === 0);
  const best = clean.sort((one, other) => one.warnings - other.warnings).slice(0, 1);
  return [...best, yield* judgedBars(straightBars), yield* judgedBars(hairpins)].map(unwarned);

  function* judgedBars(bars: BarsWish): Steps<Judged> {
    yield;
    const { facts, findings } = checkText(windingText(wish, proposal, bars));
    const count = (severity: string) => findings.filter((each) => each.severity === severity).length;
    const windingFactor = Math.abs(facts?.factorRow(wish.poles / 2).winding ?? 0);
    return { ...bars, windingFactor, errors: count('error'), warnings: count('warning') };
  }
}

interface Judged extends BarsChoice {
  readonly errors: number;
  readonly warnings: number;
}

const unwarned = ({ form, lean, windingFactor }: Judged): BarsChoice => ({ form, lean, windingFactor });

function leansOf({ poles }: MachineWish, { slots, layers }: Proposal): readonly Lean[] {
  if (layers < 2) return [];
  const all = Array.from({ length: layers }, (_, layer) => layer);
  const pitches = slots / poles >= leastForWhole ? 1 : 0.5;
  const split = (ahead: (layer: number) => boolean): Lean => ({
    ahead: all.filter(ahead),
    back: all.filter((layer) => !ahead(layer)),
    slots: pitches,
  });
  const halves = split((layer) => layer < layers / 2);
  return layers === 2 ? [halves] : [halves, split((layer) => layer % 2 === 0)];
}
