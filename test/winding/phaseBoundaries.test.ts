import { describe, expect, it } from 'vitest';
import { cellAt, phaseOfCell, type Winding } from '../../core/winding/model.ts';
import { endBoundaryWords, phaseBoundaries, slotBoundaryWords } from '../../core/winding/phaseBoundaries.ts';
import { machine } from './windings.ts';

describe('boundaries between phases', () => {
  it('are none in slots of full pitch, and at the edges of the belts in the ends', () => {
    const winding = machine({ slots: 24, poles: 4, layers: 2 });
    expect(phaseBoundaries(winding).inSlots).toEqual([]);
    // Belts of two slots: every second slot is the last of its phase, in both layers.
    expect(phaseBoundaries(winding).inEnds.map(({ slots }) => slots)).toEqual([
      [2, 4, 6, 8, 10, 12, 14, 16, 18, 20, 22, 24],
      [2, 4, 6, 8, 10, 12, 14, 16, 18, 20, 22, 24],
    ]);
    expect(endBoundaryWords(winding)).toEqual(['a, b: 2 and every 2 slots on']);
  });

  it('are all that two neighbors of different phases make, with short pitch', () => {
    const winding = machine({ slots: 24, poles: 4, layers: 2, span: 5 });
    const phase = (slot: number, layer: number) => phaseOfCell(cellAt(winding.table, slot, layer));
    const mixed = Array.from({ length: 24 }, (_, i) => i + 1).filter(
      (slot) => phase(slot, 0) !== phase(slot, 1),
    );
    expect(phaseBoundaries(winding).inSlots).toEqual([{ lower: 0, upper: 1, slots: mixed }]);
    expect(slotBoundaryWords(winding)).toHaveLength(1);
  });

  it('reach across empty places', () => {
    const two = machine({ slots: 12, poles: 4, layers: 2, span: 2 });
    const cells = new Int8Array(36);
    cells.set(two.table.cells.subarray(0, 12));
    cells.set(two.table.cells.subarray(12), 24);
    const apart: Winding = { ...two, layers: 3, lean: [0, 0, 0], table: { slots: 12, layers: 3, cells } };
    const slots = phaseBoundaries(two).inSlots[0]!.slots;
    expect(phaseBoundaries(apart).inSlots).toEqual([{ lower: 0, upper: 2, slots }]);
  });
});
