import { layerOfLetter } from '../../language/layerLetters.ts';
import { mostLayers, mostSlots } from './bounds.ts';
import { type GridCell, quoted, type TableTrouble, troubleAt } from './grid.ts';

// What stands in the cells of tables of windings: numbers with either decimal mark, layers by letter or number,
// phases with the usual marks of their sense, bars by slot and layer.

/** A layer as a table names it: by letter from a, or by number from 1. */
export interface LayerMark {
  readonly by: 'letter' | 'number';
  /** From 0. */
  readonly index: number;
}

/** A phase in a place: its name as written; the sense is null where none is marked. */
export interface PhaseMark {
  readonly name: string;
  readonly sense: 1 | -1 | null;
}

/** A bar by its place. */
export interface BarMark {
  readonly slot: number;
  readonly layer: LayerMark;
}

/** A cell's text in the signs of the keyboard: true minus signs and dashes, primes, wide signs. */
function plainSigns(text: string): string {
  return text
    .replace(/[\u2010-\u2015\u2212\ufe63\uff0d]/g, '-')
    .replace(/[\u2032\u2018\u2019\u00b4\u02b9`]/g, "'")
    .replace(/\uff0b/g, '+')
    .replace(/^'(?=[+-])/, '');
}

/** Whether nothing stands in a place. */
export function isEmptyPlace(text: string): boolean {
  return /^(?:|[.0·_]|-+|empty|none|free)$/i.test(plainSigns(text));
}

/** A whole number as spreadsheets write it: `12`, `12.0`, `12,0`; null where it is none. */
export function wholeNumber(text: string): number | null {
  const read = /^\+?(\d{1,9})(?:[.,]0*)?$/.exec(text);
  return read ? Number(read[1]) : null;
}

/** The number of a slot. */
export function slotNumber(cell: GridCell, troubles: TableTrouble[]): number | null {
  const number = wholeNumber(cell.text.replace(/^(?:slot|s)\s*/i, ''));
  if (number !== null && number >= 1 && number <= mostSlots) return number;
  troubles.push(
    troubleAt(cell, `${quoted(cell.text)} is no slot; a number from 1 to ${mostSlots} is expected.`),
  );
  return null;
}

/** A layer by its letter or number; null where it is none. */
export function layerMark(text: string): LayerMark | null {
  const name = text.replace(/^(?:layer|lage)\s*/i, '').trim();
  if (/^[a-z]$/i.test(name)) return { by: 'letter', index: layerOfLetter(name.toLowerCase()) };
  const number = wholeNumber(name.replace(/^l\s*(?=\d)/i, ''));
  return number !== null && number >= 1 && number <= mostLayers ? { by: 'number', index: number - 1 } : null;
}

/** What is expected where a place is filled. */
const expectedPlaces =
  "a phase with its sense is expected, such as +U or U away from the connection side, -U or U' back, or an empty cell.";

/** What a filled place holds. */
export function phaseMark(cell: GridCell, troubles: TableTrouble[]): PhaseMark | null {
  if (cell.text === '') {
    troubles.push(troubleAt(cell, 'no phase stands here; a phase is expected, such as U.'));
    return null;
  }
  const read = /^([+-]?)\s*([a-z]\d?|\d[a-z]?)\s*(['+⊗⊙-]?)$/iu.exec(plainSigns(cell.text));
  if (!read || (read[1] !== '' && read[3] !== '')) {
    troubles.push(troubleAt(cell, `${quoted(cell.text)} is not understood; ${expectedPlaces}`));
    return null;
  }
  const mark = read[1] || read[3];
  const sense = mark === '' ? null : mark === '+' || mark === '⊗' ? 1 : -1;
  return { name: read[2]!, sense };
}

/** A sense in a column of its own. */
export function senseMark(cell: GridCell, troubles: TableTrouble[]): 1 | -1 | null {
  const read = /^([+-]?)(?:1(?:[.,]0*)?)?$/.exec(plainSigns(cell.text));
  if (read && cell.text !== '') return read[1] === '-' ? -1 : 1;
  troubles.push(
    troubleAt(
      cell,
      `${quoted(cell.text)} is no sense; 1 or + away from the connection side, -1 or - back are expected.`,
    ),
  );
  return null;
}

/** A bar by slot and layer: `12a`, `12/a`, `a12`, `12/1`. */
export function barMark(cell: GridCell, text: string, troubles: TableTrouble[]): BarMark | null {
  const words = plainSigns(text);
  const read =
    /^(?<slot>\d{1,4})\s*[/_-]?\s*(?<layer>[a-z])$/i.exec(words) ??
    /^(?<layer>[a-z])\s*[/_-]?\s*(?<slot>\d{1,4})$/i.exec(words) ??
    /^(?<slot>\d{1,4})\s*[/_-]\s*(?<layer>\d{1,2})$/.exec(words);
  const layer = layerMark(read?.groups?.layer ?? '');
  const slot = Number(read?.groups?.slot);
  if (read && layer && slot >= 1 && slot <= mostSlots) return { slot, layer };
  const why = /^\d+[.,]\d+$/.test(words) ? ' (spreadsheets drop the last zero of such numbers)' : '';
  troubles.push(
    troubleAt(
      cell,
      `${quoted(text)} is no bar${why}; slot and layer are expected, such as 12a, or 12/1 where layers have numbers.`,
    ),
  );
  return null;
}
