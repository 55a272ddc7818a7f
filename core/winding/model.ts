import { layerLetter } from '../language/layerLetters.ts';
import { modulo } from './integers.ts';

/** The phases of a machine and the electrical angles at which their currents (and axes) lag phase 0. */
export interface PhaseSystem {
  /** Names in order: U V W; U V W X Y; A B C ... without I, N, O; 1U 1V 1W 2U 2V 2W. */
  readonly names: readonly string[];
  /** Declared axis of each phase in electrical degrees, 0 <= axis < 360; current k lags by axes[k]. */
  readonly axes: readonly number[];
  /** Independent polyphase sets: 1, or 2 for two three-phase sets apart by axes[3]. */
  readonly sets: 1 | 2;
}

/**
 * Which phase and sense each bar has. Place (slot, layer) is `cells[layer * slots + slot - 1]` with
 * slot from 1 and layer from 0 (a = 0, the layer nearest the axis): 0 is an empty place,
 * +(phase + 1) a bar that carries its phase from the connection side to the far side, -(phase + 1)
 * one that carries it back.
 */
export interface SlotTable {
  readonly slots: number;
  /** From the axis outwards. */
  readonly layers: number;
  readonly cells: Int8Array;
}

/** Rotor skew over the stack: total mechanical angle in radians; steps null means continuous. */
export interface RotorSkew {
  /** Mechanical radians over the stack. */
  readonly angle: number;
  /** How many; null: continuous. */
  readonly steps: number | null;
}

/** Where a winding's slot table came from. */
export type LayoutOrigin =
  | { readonly kind: 'generated'; readonly span: number; readonly stagger: number; readonly belt: number }
  | { readonly kind: 'rows' }
  | { readonly kind: 'paths' };

/** A winding as data: everything the electromagnetic analysis needs. */
export interface Winding {
  readonly slots: number;
  readonly poles: number;
  readonly polePairs: number;
  readonly phases: PhaseSystem;
  readonly layers: number;
  readonly table: SlotTable;
  /** Lean of each layer's bars: mechanical radians over the stack, positive towards higher slot numbers at the far side. */
  readonly lean: readonly number[];
  readonly rotorSkew: RotorSkew;
  /** Parallel paths of a phase. */
  readonly parallelPaths: number;
  /** So many were asked for, but no connection of these bars has them. */
  readonly parallelPathsRefused?: true;
  readonly origin: LayoutOrigin;
}

/** A bar position; slot from 1, layer from 0. */
export interface Bar {
  /** From 1. */
  readonly slot: number;
  /** From 0, nearest the axis first. */
  readonly layer: number;
}

/** The code of a place in `cells`: 0 empty, else +-(phase + 1). */
export function cellAt(table: SlotTable, slot: number, layer: number): number {
  return table.cells[layer * table.slots + slot - 1] ?? 0;
}

/** Phase index of a cell code, or -1 for an empty place. */
export function phaseOfCell(cell: number): number {
  return Math.abs(cell) - 1;
}

/** How names of places are written: their minus sign, and what stands for an empty place. */
export interface PlaceSigns {
  readonly minus: string;
  readonly empty: string;
}

/** As in the language: `-U`, `.`. */
export const typedSigns: PlaceSigns = { minus: '-', empty: '.' };

/** As in print: a true minus sign and a raised dot. */
export const printedSigns: PlaceSigns = { minus: '\u2212', empty: '\u00b7' };

/** The name of what a place holds, by the code of the place: `+U`. */
export function placeName(cell: number, phases: PhaseSystem, { minus, empty }: PlaceSigns): string {
  return cell === 0 ? empty : `${cell > 0 ? '+' : minus}${phases.names[phaseOfCell(cell)]}`;
}

/** The number, 1 to `slots`, of a slot counted on round the bore: 0 is the last one. */
export function foldedSlot(slot: number, slots: number): number {
  return modulo(slot - 1, slots) + 1;
}

/** The numbers of a winding's slots: 1, 2 ... */
export function slotNumbers({ slots }: Pick<Winding, 'slots'>): readonly number[] {
  return Array.from({ length: slots }, (_, index) => index + 1);
}

/** Whether two bars are the same one. */
export function sameBar(one: Bar, other: Bar | undefined): boolean {
  return one.slot === other?.slot && one.layer === other.layer;
}

/** A bar's name as written in the language and on drawings: `7b`. */
export function barName(bar: Bar): string {
  return `${bar.slot}${layerLetter(bar.layer)}`;
}

/** Which end of the stack: the side of the leads, or the other. */
export type EndSide = 'connection' | 'far';

/** What kind of connection an end is, in the report's words. */
export type JointKind = 'regular' | 'other-span' | 'layer-step' | 'jumper' | 'lead' | 'star';

/**
 * A connection of two bar ends on one side. `span` is signed and unreduced, in slots from `from` to
 * `to`. `number` is 1-based in welding order, connection side first.
 */
export interface Joint {
  readonly number: number;
  readonly side: EndSide;
  readonly from: Bar;
  readonly to: Bar;
  readonly span: number;
  readonly kind: JointKind;
  /** Written as a separate connecting piece (`|`). */
  readonly separatePiece: boolean;
}

/** One parallel path of a phase, walked from its line terminal. */
export interface Path {
  /** Index of the phase, from 0. */
  readonly phase: number;
  /** Path number within its phase, from 1. */
  readonly number: number;
  readonly bars: readonly Bar[];
  /** Signed, unreduced span from bar i to bar i + 1; length bars.length - 1. */
  readonly spans: readonly number[];
  /** True where joint i (bar i to bar i + 1) is written as a separate connecting piece. */
  readonly pieces: readonly boolean[];
  /** Terminal names: U1 ... U2 or N. */
  readonly from: string;
  readonly to: string;
  /** The first bar's lead is on the far side; likewise the last's. */
  readonly startsFar: boolean;
  readonly endsFar: boolean;
}
