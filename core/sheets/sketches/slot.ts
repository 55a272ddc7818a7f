import type { BarPlace, SectionShape } from '../../sizes/slotShape/shape.ts';
import type { SectionPlace } from '../../views/section/place.ts';

/** One slot with its bars, and how it lies on paper. */
export interface SlotFigure {
  readonly shape: SectionShape;
  readonly place: SectionPlace;
  /** Millimeters of paper for a millimeter of the slot. */
  readonly scale: number;
  readonly bars: readonly SlotBar[];
  /** Edges of the core on the sheet, mm. */
  readonly left: number;
  readonly right: number;
  readonly top: number;
  readonly bottom: number;
}

/** A bar of the slot; not to scale where the text lacks its sizes or it does not fit. */
export interface SlotBar extends BarPlace {
  readonly toScale: boolean;
}
