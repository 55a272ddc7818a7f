// Takes its time: makes everything of generated windings.

import fc from 'fast-check';
import { expect, test } from 'vitest';
import { sluiceFan } from '../space/machines.ts';
import { withMore } from '../support/tries.ts';
import longRunFinds from './longRunFinds.json' with { type: 'json' };
import { outcomeOf } from './outputs.ts';
import { windingPair } from './windings.ts';

// Everything that can be made of a winding, made of generated ones: reports, pictures, sheets, schedules,
// comparison. A short run with each test; `SLOTWRIGHT_FUZZ=20000 SLOTWRIGHT_FUZZ_SEED=1 npx vitest run
// test/fuzz` for a long one.

const runs = Number(process.env.SLOTWRIGHT_FUZZ ?? 4);
const seed = Number(process.env.SLOTWRIGHT_FUZZ_SEED ?? 2026);

test('whatever is made of a generated winding is sound', () => {
  const pairs = fc.sample(windingPair, { numRuns: Math.ceil(runs / 2), seed });
  const faults: { readonly trouble: string; readonly text: string }[] = [];
  const counts = { wound: 0, connected: 0 };
  for (const [first, second] of pairs) {
    const before = outcomeOf(first);
    for (const { studied, wound, connected, troubles } of [before, outcomeOf(second, before.studied)]) {
      counts.wound += Number(wound);
      counts.connected += Number(connected);
      for (const trouble of troubles) faults.push({ trouble, text: studied.text });
    }
  }
  console.log(`fuzz: ${runs} windings, ${counts.wound} wound, ${counts.connected} connected, seed ${seed}`);
  expect(faults.slice(0, 20)).toEqual([]);
  // Most of them must get as far as pictures, else this looks at nothing.
  expect(counts.wound).toBeGreaterThan(0.5 * runs);
  expect(counts.connected).toBeGreaterThan(0.3 * runs);
});

test('what long runs found stays mended', () => {
  // Two shallow slot rows of leaning layers: their depths stand one above the other on the slot figure.
  const shallow = `winding "Tide gate"
machine { slots 3  poles 2  phases 3  bore 60 mm  stack 90 mm }
slot a { width 28.9 mm  depth 5 mm  liner 0.25 mm }
slot b { width 28.9 mm  depth 5 mm  liner 0.25 mm }
bar { width 27.9 mm  height 2.4 mm  end-clearance 0.3 mm }
layout { layers 2  span 1  skew a 0.5 slot  skew b -0.5 slot }
connect { open  route paths 1 }
`;
  // An AC ratio of hardly more than 1: the ticks of its axis differ in the sixth decimal.
  const slow = `winding "Tide gate"
machine { slots 36  poles 8  phases 3  bore 115 mm  stack 90 mm  speed 30 rpm  winding-temperature 110 degC }
slot { width 5.22 mm  depth 10 mm  liner 0.25 mm }
bar { width 4.22 mm  height 2.75 mm  form straight }
layout { layers 2  span 4 }
connect { open  route paths 4 }
`;
  // Bars of two rows of the layout end among each other where they lean: one star point's line led from row to
  // row three times, under one name.
  const interleaved = `winding "Tide gate"
machine { slots 12  poles 2  phases 3 }
layout { layers 6  span 4  skew a b c 0.5 slot  skew d e f -0.5 slot }
connect { star  route paths 2 fewest joints }
sheet { sheet-size A4 }
`;
  // Straight bars alone fit, so two lines of the chart of lean end at its left: their names stood among other words.
  const stopped = `winding "Sluice fan"
machine { slots 12  poles 10  phases 3  gap both  bore 60 mm  stack 90 mm  winding-temperature 120 degC }
slot { width 6.75 mm  depth 7 mm  opening 1.2 mm  opening-height 0.8 mm  liner 0.25 mm }
bar {
  width 5.75 mm  height 3.7 mm  coating 0.09 mm  end-straight 6 mm  end-clearance 0.6 mm
  joint-straight 6 mm  joint-gap 0.2 mm  bend-radius 6 mm flat 4 mm
}
layout { layers 1  span 1  skew all 1 slot }
connect { star  route paths 1 }
`;
  // Steep ends make a small scale: the letters of the two legs of a crown stood on one another.
  const steep = `${sluiceFan}sheet { sheet-size A4 }\n`;
  for (const text of [shallow, slow, interleaved, stopped, steep]) {
    const { wound, troubles } = outcomeOf(text);
    expect([wound, ...troubles]).toEqual([true]);
  }
});

// What the longest runs found, all of it with more tries: these windings take long to connect and to draw.
test.each(withMore(longRunFinds.slice(0, 1), longRunFinds.slice(1)))(
  'a winding of the longest runs, %#',
  (text) => {
    expect(outcomeOf(text).troubles).toEqual([]);
  },
);
