import { expect, test } from 'vitest';
import { study } from '../support/study.ts';
import { told } from '../support/told.ts';

test('the fill is that of the fullest slot row: two bars of 5 x 4 mm in 6 x 9 mm, and in 6 x 12 mm', () => {
  const drum = (inner: number, outer: number) => `winding "Drum"
machine { slots 48  poles 8  phases 3  gap both  bore 250 mm  outside 310 mm  stack 120 mm }
slot a b { width 6 mm  depth ${inner} mm  opening 3 mm  opening-height 1 mm }
slot c d { width 6 mm  depth ${outer} mm  opening 3 mm  opening-height 1 mm }
bar { width 5 mm  height 4 mm  corner 0 mm  coating 0.1 mm }
layout { layers 4  span 6 }
connect { star }
`;
  for (const [inner, outer] of [
    [9, 12],
    [12, 9],
  ] as const)
    expect(told('copper', study(drum(inner, outer)).facts!.copper()).section.slotFill).toBeCloseTo(
      40 / 54,
      12,
    );
});
