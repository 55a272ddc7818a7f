import { expect, test } from 'vitest';
import type { Collection, Kept } from '../../core/variants/collect.ts';
import { evaluator } from '../../core/variants/evaluate.ts';
import { questionOf } from '../../core/variants/question.ts';
import { createListed } from '../../extension/onDemand/variants/listed.ts';
import { shownQuestion } from '../../extension/onDemand/variants/shown.ts';
import { soundText } from './activated.ts';

const question = questionOf(`${soundText}
vary {
  layout span 3 to 6
  rank most winding-factor harmonic 1
}
`);
const judge = evaluator(question);
const kept = (number: number): Kept => ({ number, figures: [number / 10] });

/** Rows of what would have been collected: the best, and a front. */
function listedOf(found: { best: readonly number[]; front: readonly number[] }) {
  const collected = { best: () => found.best.map(kept), front: () => found.front.map(kept) };
  return createListed(question, shownQuestion(question, judge), judge, collected as unknown as Collection);
}

test('the best come first in their order, then what else is in the front', () => {
  const found = { best: [3, 1], front: [1, 4] };
  const listed = listedOf(found);
  expect(listed.rows().map(({ number, front }) => [number, front])).toEqual([
    [3, false],
    [1, true],
    [4, true],
  ]);
  expect(listed.row(4)?.number).toBe(4);
});

test('what is not listed any more is forgotten, and what stays is the same row', () => {
  const found = { best: [3, 1], front: [1] as readonly number[] };
  const listed = listedOf(found);
  const [first, second] = listed.rows();
  found.best = [3];
  found.front = [];
  expect(listed.rows()).toEqual([first]);
  expect(listed.rows()[0]).toBe(first);
  expect(listed.row(second!.number)).toBeNull();
  expect(listed.numberWith(second!)).toBe(0);
  expect(listed.numberWith(first!)).toBe(3);
});
