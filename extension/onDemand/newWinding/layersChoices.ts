import type { Steps } from '../../../core/figures/steps.ts';
import { evaluator } from '../../../core/variants/evaluate.ts';
import { judged } from '../../../core/variants/own.ts';
import { digitsOf, questionOf } from '../../../core/variants/question.ts';
import type { MachineWish } from './machineWish.ts';
import { layoutText, type Proposal } from './proposals.ts';

/** A number of layers for slots and a span, with what it gives where it is joined most easily. */
export interface LayersChoice extends Proposal {
  /** Parallel paths of a phase, of those tried the ones with the fewest jumpers and special joints. */
  readonly paths: number;
  /** Joints of a phase that differ from the regular ones, and those of them that are pieces of their own. */
  readonly specialJoints: number;
  readonly jumpers: number;
}

const layersTried = [1, 2, 4, 6] as const;
/** More parallel paths are the reader's choice. */
const pathsTried = [1, 2, 3, 4] as const;

const asked = `vary {
  layout layers ${layersTried.join(' ')}
  connect route paths ${pathsTried.join(' ')}
  rank least jumpers least special-joints most winding-factor least differential-leakage most largest-paths
}`;

/**
 * The numbers of layers whose bars can be joined, those first that take the fewest jumpers, judged as the variants of a
 * text are; in steps. None where two layers cannot be joined by few paths either.
 */
export function* layersChoices(wish: MachineWish, proposal: Proposal): Steps<readonly LayersChoice[]> {
  const question = questionOf(`${layoutText(wish, proposal)}connect { star route paths 1 }\n${asked}\n`);
  const judge = evaluator(question);
  const easiest = new Map<number, LayersChoice>();
  for (let number = 1; number <= question.candidates; number++) {
    yield;
    const verdict = yield* judged(judge, number);
    if (verdict.kind !== 'kept' || verdict.figures[0] == null) continue;
    const [layersAt, pathsAt] = digitsOf(question, number) as [number, number];
    const [jumpers = 0, specialJoints = 0, windingFactor = 0, leakage = null, parallelPaths = 1] =
      verdict.figures.map((figure) => figure ?? undefined);
    const [layers, paths] = [layersTried[layersAt]!, pathsTried[pathsAt]!];
    const choice = { ...proposal, layers, paths, jumpers, specialJoints, parallelPaths };
    const made = { ...choice, windingFactor: Math.abs(windingFactor), leakage };
    const known = easiest.get(layers);
    if (known === undefined || byEase(made, known) < 0) easiest.set(layers, made);
  }
  return [...easiest.values()].sort((one, other) => one.jumpers - other.jumpers || one.layers - other.layers);
}

function byEase(one: LayersChoice, other: LayersChoice): number {
  return one.jumpers - other.jumpers || one.specialJoints - other.specialJoints || one.paths - other.paths;
}
