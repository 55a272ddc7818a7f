import { defaultOf } from '../../language/specification/defaults.ts';
import { sheetStatements } from '../../language/vocabulary/blocks/file.ts';

/** Sheet sizes of ISO 5457:1999; A4 stands upright, the others lie. */
export const sheetSizes = ['A4', 'A3', 'A2', 'A1', 'A0'] as const;

export type SheetSize = (typeof sheetSizes)[number];

/** A rectangle on the sheet, in millimeters from its top left corner. */
export interface Area {
  readonly left: number;
  readonly top: number;
  readonly right: number;
  readonly bottom: number;
}

/** A trimmed sheet and the space for drawing that its frame encloses, in millimeters. */
export interface SheetFormat {
  readonly size: SheetSize;
  readonly width: number;
  readonly height: number;
  readonly frame: Area;
}

/** Trimmed sizes of ISO 5457:1999 (the A series of ISO 216), as the sheets stand. */
const trimmed: Readonly<Record<SheetSize, readonly [width: number, height: number]>> = {
  A4: [210, 297],
  A3: [420, 297],
  A2: [594, 420],
  A1: [841, 594],
  A0: [1189, 841],
};

/** Border for filing at the left; all other borders (ISO 5457:1999). */
const filingMargin = 20;
const otherMargin = 10;

/** The sheet of a size. Throws RangeError for a size that is none. */
export function sheetFormat(size: SheetSize): SheetFormat {
  const found = trimmed[size];
  if (found === undefined) throw new RangeError(`No sheet size ${size}; sizes are ${sheetSizes.join(', ')}`);
  const [width, height] = found;
  return {
    size,
    width,
    height,
    frame: {
      left: filingMargin,
      top: otherMargin,
      right: width - otherMargin,
      bottom: height - otherMargin,
    },
  };
}

/** The size that a text names, or the default where it names none that is known. */
export function sheetSizeNamed(name: string | undefined): SheetSize {
  const named = (wanted: string | undefined) => sheetSizes.find((size) => size === wanted);
  return named(name) ?? named(defaultOf(sheetStatements.sheetSize))!;
}
