import { describe, expect, test } from 'vitest';
import { crownsCanPass } from '../../core/winding/joints/crownsInLayer.ts';
import { machine } from './windings.ts';

describe('crowns within one layer', () => {
  const layer = (...cells: readonly number[]) => ({
    slots: cells.length,
    table: { slots: cells.length, layers: 1, cells: Int8Array.from(cells) },
  });

  test('can pass each other where the row of bars is nested like brackets', () => {
    // Coils round single teeth, and coils that lie whole within others.
    expect(crownsCanPass(layer(1, -1, -2, 2, 3, -3), 0)).toBe(true);
    expect(crownsCanPass(layer(1, 2, -2, -1, 3, -3), 0)).toBe(true);
    // Across the place where slots are counted anew.
    expect(crownsCanPass(layer(-1, 2, -2, 3, -3, 1), 0)).toBe(true);
    // Three phases whose coils span half a pole pair.
    expect(crownsCanPass(layer(1, -3, 2, -1, 3, -2), 0)).toBe(false);
    expect(crownsCanPass(layer(1, 1, -3, -3, 2, 2, -1, -1, 3, 3, -2, -2), 0)).toBe(false);
  });

  test('cross in every distributed winding of one layer, and in none of tooth coils, by trying all pairs', () => {
    for (const [slots, poles, pass] of [
      [6, 2, false],
      [12, 2, false],
      [12, 4, false],
      [12, 8, true],
      [12, 10, true],
      [6, 4, true],
    ] as const) {
      const { table } = machine({ slots, poles, layers: 1 });
      expect(crownsCanPass({ slots, table }, 0), `${slots} ${poles}`).toBe(pass);
      expect(nests([...table.cells]), `${slots} ${poles}`).toBe(pass);
    }
  });
});

/** Whether the first bar can be joined to some other so that both the bars between them and all others can, too. */
function nests([first, ...rest]: readonly number[]): boolean {
  if (first === undefined) return true;
  return rest.some((other, at) => other === -first && nests(rest.slice(0, at)) && nests(rest.slice(at + 1)));
}
