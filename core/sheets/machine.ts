import { electricalFrequency } from '../analysis/machineInputs.ts';
import { outsideDiameter } from '../analysis/outsideDiameter.ts';
import type { Facts } from '../facts/facts.ts';
import { orNull } from '../figures/figure.ts';
import type { FigurePath } from '../figures/register.ts';
import { figureLabel, figureText } from '../language/figureText.ts';
import { significant } from '../language/numbers.ts';
import { valueOrDefault } from '../language/specification/defaults.ts';
import type { MachineSpecification } from '../language/specification/specification.ts';
import type { GapLengths, Given } from '../language/specification/statements.ts';
import { machineStatements } from '../language/vocabulary/blocks/machine.ts';
import { plainMillimeters } from './numbers.ts';
import type { SheetTable } from './page/table.ts';

type DataRow = readonly [name: string, value: string];

const gapWords = {
  inner: 'rotor inside',
  outer: 'rotor outside',
  both: 'rotors inside and outside',
} as const;

/** The machine's data as the text gives them; what is not given is named below the heading. */
export function machineTable(facts: Facts, section: string): SheetTable {
  const absent = notGiven(facts);
  return {
    id: 'machine',
    section,
    heading: 'Machine',
    remarks: absent.length > 0 ? [`Not given: ${absent.join(', ')}.`] : [],
    columns: [{ name: '' }, { name: '', most: 50 }],
    rows: [...sizeRows(facts), ...ratedRows(facts), ...insulationRows(facts)],
  };
}

type PlainWord = {
  [Word in keyof MachineSpecification]: MachineSpecification[Word] extends Given<number> | undefined
    ? Word
    : never;
}[keyof MachineSpecification];

function row(
  { specification }: Facts,
  word: PlainWord & string,
  name: string,
  unit: string,
  factor = 1,
): readonly DataRow[] {
  const given = specification.machine?.[word] as Given<number> | undefined;
  return given === undefined ? [] : [[name, `${significant(given.value * factor, 6)} ${unit}`]];
}

function sizeRows(facts: Facts): readonly DataRow[] {
  const { machine } = facts.specification;
  return [
    ['Gap', gapWords[valueOrDefault(machineStatements, machine, 'gap')]],
    ...row(facts, 'bore', 'Bore diameter', 'mm', 1e3),
    ...outsideRow(facts),
    ...row(facts, 'yokeHeight', 'Yoke height', 'mm', 1e3),
    ...row(facts, 'stack', 'Stack length', 'mm', 1e3),
    ...gapRow('Air gap', machine?.airGap?.value),
    ...gapRow('Magnet height', machine?.magnetHeight?.value),
  ];
}

/** The outside diameter as written, or where bore and slots put it. */
function outsideRow(facts: Facts): readonly DataRow[] {
  const { specification } = facts;
  if (
    specification.machine?.outside ||
    valueOrDefault(machineStatements, specification.machine, 'gap') !== 'both'
  )
    return row(facts, 'outside', 'Outside diameter', 'mm', 1e3);
  const derived = outsideDiameter(specification);
  return derived.known
    ? [['Outside diameter', `${significant(derived.value * 1e3, 6)} mm, from bore and slots`]]
    : [];
}

function gapRow(name: string, lengths: GapLengths | undefined): readonly DataRow[] {
  if (lengths === undefined) return [];
  const { first, second } = lengths;
  const words = second === null ? '' : `, outer ${plainMillimeters(second)} mm`;
  return [[name, `${second === null ? '' : 'inner '}${plainMillimeters(first)} mm${words}`]];
}

function ratedRows(facts: Facts): readonly DataRow[] {
  const { specification, winding } = facts;
  const frequency = electricalFrequency(specification, winding);
  const { machine } = specification;
  return [
    ...row(facts, 'voltage', 'Voltage', 'V'),
    ...row(facts, 'current', 'Current at the terminals', 'A rms'),
    ...row(facts, 'speed', 'Speed', 'rpm', 60),
    ...figureRow('emf.frequency', orNull(frequency)),
    ...row(facts, 'flux', 'Flux per pole', 'mWb', 1e3),
    ...figureRow('operation.terminalVoltage', orNull(facts.operation().terminalVoltage)),
    ...figureRow('operation.powerFactor', orNull(facts.operation().powerFactor)),
    ...figureRow('operation.shaftPower', orNull(facts.operation().shaftPower)),
    ...row(facts, 'windingTemperature', 'Winding temperature', '\u00b0C'),
    ...row(facts, 'endTemperature', 'Temperature of the ends', '\u00b0C'),
    ...(machine?.driveEnd
      ? [['Drive end', machine.driveEnd.value === 'far' ? 'far side' : 'connection side'] as const]
      : []),
  ];
}

/** A computed figure by its name in the register; none where it is not known. */
function figureRow(path: FigurePath, value: number | null): readonly DataRow[] {
  return value === null ? [] : [[figureLabel(path), figureText(path, value)]];
}

function insulationRows({ specification }: Facts): readonly DataRow[] {
  const { insulation } = specification;
  const limit = (name: string, given: Given<number> | undefined): readonly DataRow[] =>
    given === undefined ? [] : [[name, `at most ${significant(given.value, 5)} V`]];
  return [
    ...limit('Between turns', insulation?.turnVoltage),
    ...limit('Between phases', insulation?.phaseVoltage),
    ...(insulation?.surgeFactor
      ? [['Surge factor', significant(insulation.surgeFactor.value, 5)] as const]
      : []),
  ];
}

/** Main data that the text does not give. */
function notGiven({ specification }: Facts): readonly string[] {
  const { machine } = specification;
  const gap = valueOrDefault(machineStatements, machine, 'gap');
  const sizes = [
    ...(gap === 'outer' || machine?.bore ? [] : ['bore']),
    ...(gap === 'inner' || outsideDiameter(specification).known ? [] : ['outside']),
    ...(machine?.stack ? [] : ['stack']),
  ];
  const rated = [
    ...(machine?.voltage ? [] : ['voltage']),
    ...(machine?.current ? [] : ['current']),
    ...(machine?.speed || machine?.frequency ? [] : ['speed or frequency']),
  ];
  return [...sizes, ...rated];
}
