import fc from 'fast-check';
import { expect, test } from 'vitest';
import { outcomeOf } from './outputs.ts';
import { windingPair } from './windings.ts';

// Everything that can be made of a winding, made of generated ones: reports, pictures, sheets, schedules,
// comparison. A short run with each test; `SLOTWRIGHT_FUZZ=20000 SLOTWRIGHT_FUZZ_SEED=1 npx vitest run
// test/fuzz` for a long one.

const runs = Number(process.env.SLOTWRIGHT_FUZZ ?? 25);
const seed = Number(process.env.SLOTWRIGHT_FUZZ_SEED ?? 2026);

test('whatever is made of a generated winding is sound', () => {
  const pairs = fc.sample(windingPair, { numRuns: runs, seed });
  const faults: { readonly trouble: string; readonly text: string }[] = [];
  const counts = { wound: 0, connected: 0 };
  for (const [text, before] of pairs) {
    const { wound, connected, troubles } = outcomeOf(text, before);
    counts.wound += Number(wound);
    counts.connected += Number(connected);
    for (const trouble of troubles) faults.push({ trouble, text });
  }
  console.log(`fuzz: ${runs} windings, ${counts.wound} wound, ${counts.connected} connected, seed ${seed}`);
  expect(faults.slice(0, 20)).toEqual([]);
  // Most of them must get as far as pictures, else this looks at nothing.
  expect(counts.wound).toBeGreaterThan(0.5 * runs);
  expect(counts.connected).toBeGreaterThan(0.3 * runs);
});
