import { fixed } from '../../language/numbers.ts';

/** A growing list of the instances of a STEP file (ISO 10303-21). */
export interface StepData {
  /** Adds an instance `KEYWORD(parameters)`, or several in brackets; gives its name, `#12`. */
  readonly add: (record: string) => string;
  /** The same for what may be used again: points, directions. */
  readonly shared: (record: string) => string;
  readonly lines: () => readonly string[];
}

/** A data section without instances. */
export function stepData(): StepData {
  const lines: string[] = [];
  const add = (record: string): string => {
    const name = `#${lines.length + 1}`;
    lines.push(`${name}=${record};`);
    return name;
  };
  const names = new Map<string, string>();
  const shared = (record: string): string => {
    const name = names.get(record) ?? add(record);
    names.set(record, name);
    return name;
  };
  return { add, shared, lines: () => lines };
}

/**
 * A text as a string of ISO 10303-21: apostrophes and backslashes doubled, what is not printable ASCII as
 * \X2\...\X0\; at most 256 characters of the file.
 */
export function stepString(text: string): string {
  let written = '';
  for (const character of text) {
    const next = encoded(character);
    if (written.length + next.length > 250) break;
    written += next;
  }
  return `'${written.replaceAll('\\X0\\\\X2\\', '')}'`;
}

function encoded(character: string): string {
  if (character === "'" || character === '\\') return character + character;
  if (/^[ -~]$/.test(character)) return character;
  const units = Array.from({ length: character.length }, (_, index) =>
    character.charCodeAt(index).toString(16).toUpperCase().padStart(4, '0'),
  );
  return `\\X2\\${units.join('')}\\X0\\`;
}

/** A real number of a STEP file with so many decimals: always with a point, never an exponent or a negative zero. */
export function stepReal(value: number, decimals = 6): string {
  const digits = fixed(value, decimals).replace(/0+$/, '');
  return digits === '-0.' ? '0.' : digits;
}

/** A list `(a,b)`. */
export function stepList(items: readonly string[]): string {
  return `(${items.join(',')})`;
}

/** A whole file: header and one data section. `date` is that of issue, `2026-05-01`; null: none. */
export function stepFile(data: StepData, name: string, description: string, date: string | null): string {
  const stamp = `${date ?? '1970-01-01'}T00:00:00`;
  return `${[
    'ISO-10303-21;',
    'HEADER;',
    `FILE_DESCRIPTION((${stepString(description)}),'2;1');`,
    `FILE_NAME(${stepString(name)},'${stamp}',(''),(''),'Slotwright','Slotwright','');`,
    "FILE_SCHEMA(('AUTOMOTIVE_DESIGN { 1 0 10303 214 1 1 1 1 }'));",
    'ENDSEC;',
    'DATA;',
    ...data.lines(),
    'ENDSEC;',
    'END-ISO-10303-21;',
  ].join('\n')}\n`;
}
