import type { StackPlace } from '../../views/layout/bars.ts';
import type { LayoutInput } from '../../views/layout/input.ts';
import type { BrokenLayout, RowPlan } from './scale.ts';

/** One layout as rows on sheets. */
export interface LayoutBand {
  readonly input: LayoutInput;
  readonly plan: RowPlan;
  /** Unique in the set. */
  readonly id: string;
  readonly section: string;
  readonly heading: string;
  /** Width of the sheets' free area, in which rows are centered. */
  readonly width: number;
}

/** Where a row lies on the sheet, and what is drawn in it. */
export interface RowPlace {
  readonly band: LayoutBand;
  readonly layout: BrokenLayout;
  /** From 0. */
  readonly row: number;
  readonly stack: StackPlace;
  /** The row's ends on paper: x on the sheet, mm. */
  readonly from: number;
  readonly to: number;
  /** Cut numbers begin this far from the row's ends, mm. */
  readonly numbersStart: number;
}
