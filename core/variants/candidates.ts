import { itemText } from '../language/specification/series.ts';
import type { SeriesItem } from '../language/text/document.ts';
import { type Place, placesOf, type Setting } from './places.ts';
import { type Column, digitsOf, type Question } from './question.ts';

/** Values of a candidate's columns, none of them counted from the pole pitch; or why it has none. */
export type Values = readonly SeriesItem[] | string;

/** What the candidates of a question say, by their numbers. */
export interface Candidates {
  /** Numbers are from 1. */
  readonly values: (number: number) => Values;
  /** Values at their places in the text. */
  readonly settings: (values: readonly SeriesItem[]) => readonly Setting[];
  /** Only of the words that slot table and findings of the layout depend on. */
  readonly layoutSettings: (values: readonly SeriesItem[]) => readonly Setting[];
  /** Counts the candidates' layouts from 0: equal numbers have equal `layoutSettings`. */
  readonly layoutNumber: (number: number) => number;
  /** Every candidate has a layout number of its own. */
  readonly layoutsDiffer: boolean;
  /** The values that layouts depend on, as written in the question. */
  readonly layoutKey: (number: number) => string;
}

// Words of the machine that the slot table or its findings depend on; all of layout and connect do.
const derivingWords: ReadonlySet<string> = new Set([
  'slots',
  'poles',
  'phases',
  'gap',
  'air-gap',
  'magnet-height',
  'speed',
  'frequency',
  'rotor-skew',
]);

/** Whether layouts depend on the values of a column. */
function derives({ word: { entry } }: Column): boolean {
  return (
    entry.block === 'layout' ||
    entry.block === 'connect' ||
    (entry.block === 'machine' && derivingWords.has(entry.word))
  );
}

/** A column with the row that it steps with, and its places in the text. */
interface Placed {
  readonly column: Column;
  readonly row: number;
  readonly places: readonly Place[];
  readonly derives: boolean;
}

/** The candidates of a question. */
export function candidatesOf(question: Question): Candidates {
  const { document, rows } = question;
  const placed = rows.flatMap(({ columns }, row) =>
    columns.map(
      (column): Placed => ({
        column,
        row,
        places: placesOf(document, column.word),
        derives: derives(column),
      }),
    ),
  );
  const everywhere = placed.flatMap(settable);
  const ofLayout = placed.flatMap((each, at) => (each.derives ? settable(each, at) : []));
  const derivingRows = rows.map(({ columns }) => columns.some(derives));
  const itemsOf = (number: number): readonly SeriesItem[] => {
    const digits = digitsOf(question, number);
    return placed.map(({ column, row }) => column.values[digits[row]!]!);
  };
  return {
    values: valuesOf(question, placed, itemsOf),
    settings: (values) => settingsOf(everywhere, values),
    layoutSettings: (values) => settingsOf(ofLayout, values),
    layoutNumber: (number) => {
      const digits = digitsOf(question, number);
      let layout = 0;
      for (let row = 0; row < rows.length; row++)
        if (derivingRows[row]) layout = layout * rows[row]!.count + digits[row]!;
      return layout;
    },
    layoutsDiffer: !derivingRows.includes(false),
    layoutKey: (number) => {
      const items = itemsOf(number);
      let key = '';
      placed.forEach((each, at) => {
        if (each.derives) key += `${itemText(items[at]!)} `;
      });
      return key;
    },
  };
}

/** A place, and which of a candidate's values goes there. */
interface Settable {
  readonly place: Place;
  readonly at: number;
}

function settable({ places }: Placed, at: number): readonly Settable[] {
  return places.map((place) => ({ place, at }));
}

function settingsOf(places: readonly Settable[], values: readonly SeriesItem[]): readonly Setting[] {
  return places.map(({ place, at }) => ({ place, item: values[at]! }));
}

/** Values with those that are counted from the pole pitch made spans. */
function valuesOf(
  { specification: { machine } }: Question,
  placed: readonly Placed[],
  itemsOf: (number: number) => readonly SeriesItem[],
): (number: number) => Values {
  const hasNominal = placed.some(({ column }) => column.values.some(({ kind }) => kind === 'nominal'));
  if (!hasNominal) return itemsOf;
  const count = (word: 'slots' | 'poles', items: readonly SeriesItem[]): number | null => {
    const item = items[placed.findIndex(({ column }) => column.name === `machine ${word}`)];
    return item?.kind === 'number' ? Number(item.text) : (machine?.[word]?.value ?? null);
  };
  return (number) => {
    const items = itemsOf(number);
    if (!items.some(({ kind }) => kind === 'nominal')) return items;
    const [slots, poles] = [count('slots', items), count('poles', items)];
    return slots === null || poles === null
      ? 'no-pole-pitch'
      : countedFrom(Math.max(1, Math.round(slots / poles)), items);
  };
}

/** Items with spans for those that are counted from a pole pitch in slots. */
function countedFrom(pitch: number, items: readonly SeriesItem[]): Values {
  const out: SeriesItem[] = [];
  for (const item of items) {
    if (item.kind !== 'nominal') out.push(item);
    else if (pitch + item.offset < 1) return 'span-below-1';
    else out.push({ kind: 'number', text: String(pitch + item.offset), unit: null, range: item.range });
  }
  return out;
}
