import { modulo } from '../../winding/integers.ts';
import type { Bar, Winding } from '../../winding/model.ts';
import { phaseOfCell } from '../../winding/model.ts';
import { layerSkews } from '../../winding/skew.ts';
import { seededRandom } from '../random.ts';

/** The bars of one phase, column by column; what makes them alike for balance is one number each. */
export interface PhaseBars {
  readonly count: number;
  /** From 1. */
  readonly slot: Int32Array;
  /** From 0, nearest the axis first. */
  readonly layer: Int32Array;
  /** 1 for bars passed away from the connection side, 0 for bars passed back. */
  readonly away: Uint8Array;
  /** Number of the angle of the bar's voltage, its sense folded in. */
  readonly voltage: Int32Array;
  /**
   * A number such that two sets of bars agree in voltages and layers (where strict: in each voltage of
   * each layer) when their sums agree, but for one chance in a billion.
   */
  readonly content: Float64Array;
}

/** The bars of a phase. */
export function barsOfPhase(winding: Winding, phase: number, strict: boolean): PhaseBars {
  const { slots, polePairs, layers, table } = winding;
  const skews = layerSkews(winding, polePairs);
  const places: number[] = [];
  table.cells.forEach((cell, place) => {
    if (cell !== 0 && phaseOfCell(cell) === phase) places.push(place);
  });
  const slot = Int32Array.from(places, (place) => (place % slots) + 1);
  const layer = Int32Array.from(places, (place) => Math.floor(place / slots));
  const away = Uint8Array.from(places, (place) => (table.cells[place]! > 0 ? 1 : 0));
  const voltage = Int32Array.from(places, (place, bar) => {
    const half = (away[bar] === 1) === skews[layer[bar]!]! >= 0 ? 0 : slots;
    return modulo(2 * polePairs * (place % slots) + half, 2 * slots);
  });
  const random = seededRandom(77_003);
  const marks = new Map<number, number>();
  const markOf = (key: number): number => {
    const known = marks.get(key) ?? Math.floor(random() * 2 ** 40);
    marks.set(key, known);
    return known;
  };
  const content = Float64Array.from(places, (_, bar) => {
    const own = voltage[bar]!;
    const ring = layer[bar]!;
    return strict ? markOf(own * layers + ring) : markOf(own) + markOf(-1 - ring);
  });
  return { count: places.length, slot, layer, away, voltage, content };
}

/** A bar of the phase as the winding names it. */
export function barAt(bars: PhaseBars, bar: number): Bar {
  return { slot: bars.slot[bar]!, layer: bars.layer[bar]! };
}
