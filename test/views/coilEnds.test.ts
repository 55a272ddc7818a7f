import fc from 'fast-check';
import { expect, test } from 'vitest';
import { coilEnds, generatedCoils } from '../../core/views/layout/coilEnds.ts';
import { barName, cellAt } from '../../core/winding/model.ts';
import { tries } from '../support/tries.ts';
import { fromTable, generated } from './windings.ts';

/** Every bar is a side of exactly one coil, and a coil's sides carry one phase there and back. */
function expectCoilsCover(winding: ReturnType<typeof generated>, span: number): void {
  const coils = generatedCoils(winding);
  const sides = coils.flatMap(({ go, back }) => [barName(go), barName(back)]);
  expect(new Set(sides).size).toBe(sides.length);
  expect(sides).toHaveLength(winding.table.cells.filter((cell) => cell !== 0).length);
  const wrong = coils.filter(({ go, back, phase }) => {
    const cell = cellAt(winding.table, go.slot, go.layer);
    const own = Math.abs(cell) === phase + 1 && cellAt(winding.table, back.slot, back.layer) === -cell;
    return !own || (go.slot + span - back.slot) % winding.slots !== 0;
  });
  expect(wrong).toEqual([]);
}

test('coils of generated layouts take every bar once', () => {
  const cases = [
    { slots: 48, poles: 8, layers: 4, span: 5 },
    { slots: 12, poles: 10, layers: 2, span: 1 },
    { slots: 12, poles: 10, layers: 1, span: 1 },
    { slots: 36, poles: 4, layers: 1, span: 9 },
    { slots: 48, poles: 4, phases: 6, apart: 30, layers: 2, span: 11 },
    { slots: 40, poles: 4, phases: 5, layers: 6, span: 9 },
  ];
  for (const request of cases) expectCoilsCover(generated(request), request.span);
  fc.assert(
    fc.property(
      fc.record({
        q: fc.integer({ min: 1, max: 4 }),
        pairs: fc.integer({ min: 1, max: 6 }),
        layerPairs: fc.integer({ min: 1, max: 4 }),
        shorter: fc.integer({ min: 0, max: 2 }),
      }),
      ({ q, pairs, layerPairs, shorter }) => {
        const span = 3 * q - Math.min(shorter, q);
        const winding = generated({ slots: 6 * q * pairs, poles: 2 * pairs, layers: 2 * layerPairs, span });
        expectCoilsCover(winding, span);
      },
    ),
    { seed: 2, numRuns: tries(20) },
  );
});

test('a single layer’s go sides carry their phase to the far side', () => {
  const winding = generated({ slots: 36, poles: 4, layers: 1, span: 9 });
  for (const { go } of generatedCoils(winding)) expect(cellAt(winding.table, go.slot, 0)).toBeGreaterThan(0);
});

test('each coil has an end on either side; rows do not say what a coil is', () => {
  const winding = generated({ slots: 48, poles: 8, layers: 2, span: 5 });
  const ends = coilEnds(winding);
  expect(ends).toHaveLength(96);
  expect(ends.filter(({ side }) => side === 'far')).toHaveLength(48);
  for (const end of ends) expect(end).toMatchObject({ span: 5, kind: 'coil-end', separatePiece: false });
  expect(coilEnds(fromTable(winding.table, 8, { kind: 'rows' }))).toEqual([]);
});
