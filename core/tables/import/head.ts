import { wholeNumber } from './cells.ts';
import { type GridCell, type GridRow, quoted, type TableTrouble, troubleAt } from './grid.ts';

/** How phases can be joined. */
export const connectionWords = ['star', 'delta', 'open'] as const;
export type ConnectionWord = (typeof connectionWords)[number];

/** What rows above a table, or whoever imports it, say of the winding. */
export interface TableWishes {
  readonly title?: string;
  readonly poles?: number;
  readonly slots?: number;
  readonly connection?: ConnectionWord;
  /** Electrical degrees between two sets of three phases. */
  readonly sets?: number;
  /** Where layer 1 lies, where layers have numbers; nearest the axis unless it is said. */
  readonly firstLayer?: 'axis' | 'outside';
}

type Read = (cell: GridCell) => TableWishes | string;

const number =
  (key: 'poles' | 'slots', expected: string, fits: (value: number) => boolean, times = 1): Read =>
  ({ text }) => {
    const value = wholeNumber(text);
    return value !== null && fits(value * times) ? { [key]: value * times } : expected;
  };

const evenPoles = (value: number) => value >= 2 && value <= 2400 && value % 2 === 0;

const connection: Read = ({ text }) => {
  const word = connectionWords.find((each) => each === text.toLowerCase());
  return word ? { connection: word } : 'star, delta or open is expected';
};

/** The first words of rows above a table. */
const headRows: readonly (readonly [RegExp, Read])[] = [
  [/^(?:title|winding|name|titel|wicklung)$/, ({ text }) => ({ title: text })],
  [
    /^(?:(?:number of )?poles|polzahl)$/,
    number('poles', 'an even number from 2 to 2400 is expected', evenPoles),
  ],
  [
    /^(?:(?:number of )?pole pairs|polpaare|polpaarzahl)$/,
    number('poles', 'a number from 1 to 1200 is expected', evenPoles, 2),
  ],
  [
    /^(?:(?:number of )?slots|nutzahl|nutenzahl)$/,
    number('slots', 'a number from 3 to 2400 is expected', (value) => value >= 3 && value <= 2400),
  ],
  [/^(?:connection|schaltung)$/, connection],
  [
    /^(?:phases|strangzahl|(?:number of )?phases)$/,
    ({ text }) => {
      const sets = /^6(?:\s*apart\s*(-?\d{1,3}(?:[.,]\d+)?)\s*(?:edeg|deg|°)?)?$/i.exec(text)?.[1];
      if (sets !== undefined) return { sets: ((Number(sets.replace(',', '.')) % 360) + 360) % 360 };
      return wholeNumber(text) === null ? 'a number, or 6 apart 30 edeg, is expected' : {};
    },
  ],
  [
    /^(?:first layer|layer 1|erste lage)$/,
    ({ text }) => {
      if (/^(?:axis|inner|inside|innen)$/i.test(text)) return { firstLayer: 'axis' };
      return /^(?:outside|outer|außen|aussen)$/i.test(text)
        ? { firstLayer: 'outside' }
        : 'axis or outside is expected';
    },
  ],
];

/** What a row above a table says; null where it says nothing that is known. */
export function headRow(row: GridRow, troubles: TableTrouble[]): TableWishes | null {
  const [first, ...rest] = row.filter(({ text }) => text !== '');
  if (first === undefined) return null;
  const [words, ...more] = /^([^:=]+)[:=]\s*(.+)$/.exec(first.text)?.slice(1) ?? [];
  const inOne = rest.length === 0 && words !== undefined;
  const key = (inOne ? words : first.text).replace(/[:=]$/, '').trim().toLowerCase();
  const value = inOne ? { ...first, text: more[0]! } : rest[0];
  const read = headRows.find(([pattern]) => pattern.test(key))?.[1];
  if (!read || value === undefined) return null;
  const said = read(value);
  if (typeof said !== 'string') return said;
  troubles.push(troubleAt(value, `${quoted(value.text)} stands for ${key}; ${said}.`));
  return {};
}
