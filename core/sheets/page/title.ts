import { defaultOf } from '../../language/specification/defaults.ts';
import type { SheetSpecification } from '../../language/specification/specification.ts';
import { visible } from '../../language/text/visible.ts';
import { sheetStatements } from '../../language/vocabulary/blocks/file.ts';
import { group, pathShape } from '../../picture/make.ts';
import type { PathPart, Primitive } from '../../picture/picture.ts';
import type { SheetFormat } from './format.ts';
import { fitted, type LetterHeight, line, linePitch, toBase, widthOf, wrapped, wrappedTo } from './text.ts';

/** Size of the title block: no wider than 180 mm (ISO 7200:2004). */
export const titleBlockWidth = 180;
export const titleBlockHeight = 36;

/** What the title block of one sheet says besides the `sheet` block of the text. */
export interface TitleBlockInput {
  /** The `sheet` block; undefined where the text has none. */
  readonly given: SheetSpecification | undefined;
  /** The winding's name. */
  readonly title: string;
  /** What this sheet shows. */
  readonly shows: string;
  readonly fileHash: string;
  readonly released: boolean;
  /** Number of this sheet, from 1, and how many there are. */
  readonly sheet: number;
  readonly sheets: number;
}

/** A field of the block: place and size within it, name, text, greatest number of lines. */
interface Field {
  readonly key: string;
  readonly name: string;
  readonly value: string;
  readonly x: number;
  readonly y: number;
  readonly width: number;
  readonly height: number;
  readonly heights?: readonly LetterHeight[];
  readonly lines?: number;
}

const row = 9;
const leftWidth = 58;
const pad = 1.2;

/**
 * The title block after ISO 7200:2004 in the bottom right corner of the frame. Texts that are too long
 * for their field are set smaller, then cut with an ellipsis. Fields that the text does not give stay empty.
 */
export function drawTitleBlock(format: SheetFormat, input: TitleBlockInput): Primitive {
  const left = format.frame.right - titleBlockWidth;
  const top = format.frame.bottom - titleBlockHeight;
  const fields = blockFields(format, input);
  return group('title-block', 'block-line', [
    pathShape('title-block-lines', 'block-line', ruling(fields, left, top)),
    ...fields.flatMap((field) => drawField(field, left, top)),
  ]);
}

function blockFields(format: SheetFormat, input: TitleBlockInput): readonly Field[] {
  const { given, released } = input;
  const value = (key: keyof SheetSpecification): string => {
    const found = given?.[key];
    return found && 'value' in found ? visible(found.value) : '';
  };
  const right = leftWidth;
  const rightWidth = titleBlockWidth - leftWidth;
  const title = value('title') === '' ? visible(input.title) : value('title');
  const status = released ? value('status') : 'NOT RELEASED';
  const shows = input.shows;
  return [
    { ...at(0, 0, leftWidth, 2 * row), key: 'owner', name: 'Legal owner', value: value('owner'), lines: 2 },
    { ...at(0, 2 * row, 29, row), key: 'drawn-by', name: 'Created by', value: value('drawnBy') },
    { ...at(29, 2 * row, 29, row), key: 'approved-by', name: 'Approved by', value: value('approvedBy') },
    {
      ...at(0, 3 * row, leftWidth, row),
      key: 'file-hash',
      name: 'Technical reference: hash of the winding file',
      value: visible(input.fileHash).slice(0, 20),
    },
    {
      ...at(right, 0, 61, row),
      key: 'document-type',
      name: 'Document type',
      value: value('documentType') || defaultOf(sheetStatements.documentType),
    },
    { ...at(right + 61, 0, 61, row), key: 'status', name: 'Document status', value: status },
    {
      ...at(right, row, rightWidth, 1.1 * row),
      key: 'title',
      name: 'Title',
      value: title,
      heights: [3.5, 2.5],
      lines: 1,
    },
    {
      ...at(right, 2.1 * row, rightWidth, 0.9 * row),
      key: 'shows',
      name: 'Supplementary title: this sheet shows',
      value: shows,
    },
    { ...at(right, 3 * row, 46, row), key: 'number', name: 'Identification number', value: value('number') },
    { ...at(right + 46, 3 * row, 12, row), key: 'revision', name: 'Rev.', value: value('revision') },
    { ...at(right + 58, 3 * row, 25, row), key: 'date', name: 'Date of issue', value: value('date') },
    { ...at(right + 83, 3 * row, 11, row), key: 'language', name: 'Lang.', value: value('language') || 'en' },
    { ...at(right + 94, 3 * row, 9, row), key: 'size', name: 'Size', value: format.size },
    {
      ...at(right + 103, 3 * row, 19, row),
      key: 'sheet',
      name: 'Sheet',
      value: `${input.sheet} of ${input.sheets}`,
    },
  ];
}

function at(
  x: number,
  y: number,
  width: number,
  height: number,
): Pick<Field, 'x' | 'y' | 'width' | 'height'> {
  return { x, y, width, height };
}

/** The outline of every field, lines that two fields share drawn once. */
function ruling(fields: readonly Field[], left: number, top: number): readonly PathPart[] {
  const lines: PathPart[] = [
    [left, top, left + titleBlockWidth, top],
    [left, top, left, top + titleBlockHeight],
  ];
  for (const { x, y, width, height } of fields) {
    if (y > 0) lines.push([left + x, top + y, left + x + width, top + y]);
    if (x > 0) lines.push([left + x, top + y, left + x, top + y + height]);
  }
  return lines;
}

function drawField(field: Field, left: number, top: number): readonly Primitive[] {
  const { key, name, value, width, height, heights = [2.5, 1.8], lines = 1 } = field;
  const x = left + field.x + pad;
  const y = top + field.y;
  const room = width - 2 * pad;
  const items: Primitive[] = [
    line(`field-name-${key}`, 'field-name', x, y + 2.7, fitted(name, 1.8, room), { height: 1.8 }),
  ];
  if (value.trim() === '') return items;
  const chosen = fieldLines(value, heights, room, lines);
  const pitch = linePitch(chosen.height);
  // The last line as far above the field's bottom as its letters' feet need.
  const first = Math.min(
    y + height - 1.6 - (chosen.lines.length - 1) * pitch,
    y + 3.6 + toBase(chosen.height) + 1.5,
  );
  chosen.lines.forEach((words, index) => {
    const id = index === 0 ? `field-${key}` : `field-${key}-${index + 1}`;
    items.push(line(id, 'field-value', x, first + index * pitch, words, { height: chosen.height }));
  });
  return items;
}

/** The largest letter height at which the text fits; at the smallest it is cut. */
function fieldLines(
  value: string,
  heights: readonly LetterHeight[],
  room: number,
  most: number,
): { readonly height: LetterHeight; readonly lines: readonly string[] } {
  for (const height of heights) {
    if (most === 1 && widthOf(value, height) <= room) return { height, lines: [value] };
    const lines = most > 1 ? wrapped(value, height, room) : [];
    if (lines.length > 0 && lines.length <= most && !lines.some((each) => each.endsWith('…')))
      return { height, lines };
  }
  const smallest = heights.at(-1)!;
  return {
    height: smallest,
    lines: most === 1 ? [fitted(value, smallest, room)] : wrappedTo(value, smallest, room, most),
  };
}
