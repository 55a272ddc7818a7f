import { quoted } from '../text/quoted.ts';
import type { Pattern } from './pattern.ts';
import { type Dimension, unitNames } from './units.ts';

/** The dimension of the numbers that a placeholder takes. */
export const dimensionOf: Readonly<Record<string, Dimension>> = {
  count: 'none',
  integer: 'none',
  number: 'none',
  length: 'length',
  angle: 'angle',
  speed: 'speed',
  frequency: 'frequency',
  flux: 'flux',
  'flux-density': 'flux-density',
  resistance: 'resistance',
  current: 'current',
  voltage: 'voltage',
  temperature: 'temperature',
  ratio: 'ratio',
  conductance: 'conductance',
  'heat-capacity': 'heat-capacity',
  cooling: 'cooling',
  inductance: 'inductance',
  torque: 'torque',
  duration: 'duration',
};

const spoken: Readonly<Record<string, string>> = {
  count: 'a whole number',
  integer: 'a whole number',
  number: 'a number',
  text: 'a text in quotes',
  date: 'a date in quotes',
  reason: 'a reason in quotes',
  code: 'the code of a warning, as it stands in brackets behind it',
  layer: 'a layer letter',
  phase: 'a phase name',
  terminal: 'a terminal',
  row: 'a row of places such as +U or .',
  word: 'a word of the block whose values vary, as in slots 36 48',
  target: 'a block and a word of it, as in layout skew c d',
  values: 'values, or the first, to and the last',
  measure: 'a quantity',
  requirement: 'a limit such as winding-factor harmonic 1 >= 0.92',
  walk: 'positions and hops such as 1a +6b',
  'sheet-size': 'a sheet size from A4 to A0',
};

/** What a pattern asks for, in words. */
export function describePattern(pattern: Pattern): string {
  switch (pattern.kind) {
    case 'literal':
      return quoted(pattern.text);
    case 'placeholder':
      return describePlaceholder(pattern.name);
    case 'series':
      return describePattern(pattern.parts[0]!);
    case 'choice':
      return pattern.parts.map(describePattern).join(' or ');
    case 'many':
      return describePattern(pattern.part);
    default:
      return 'nothing';
  }
}

/** What a placeholder stands for, in words. */
export function describePlaceholder(name: string): string {
  const dimension = dimensionOf[name];
  if (spoken[name]) return spoken[name];
  return dimension ? `a ${name.replace('-', ' ')} (a number and ${unitNames(dimension).join(', ')})` : name;
}
