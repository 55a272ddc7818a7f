import type { Finding } from '../language/finding.ts';
import { significant } from '../language/numbers.ts';
import type {
  Keep,
  Measure,
  Ranking,
  RequiredLimit,
  Specification,
  VariedWord,
} from '../language/specification/specification.ts';
import { specify } from '../language/specification/specify.ts';
import type { Hold } from '../language/specification/statements.ts';
import { variedName, varyFindings } from '../language/specification/varyRules.ts';
import type { Document, SeriesItem } from '../language/text/document.ts';
import { parse } from '../language/text/parser.ts';
import { visible } from '../language/text/visible.ts';
import type { Order } from './collect.ts';

/** A word with the values it takes, in their order. */
export interface Column {
  readonly word: VariedWord;
  /** `machine slots`. */
  readonly name: string;
  readonly values: readonly SeriesItem[];
}

/** Words that step together: one digit of a candidate's number. */
export interface Row {
  readonly columns: readonly Column[];
  /** Values of each column: the base of the digit. */
  readonly count: number;
}

/** What a text asks: which windings there are, what is kept of them, and in which order. */
export interface Question {
  readonly text: string;
  readonly document: Document;
  readonly specification: Specification;
  readonly rows: readonly Row[];
  /** The product of the rows' counts. */
  readonly candidates: number;
  readonly hold: Hold;
  readonly keeps: readonly Keep[];
  readonly rank: readonly Ranking[];
  /** What is computed of each candidate that is kept: of `keep` and `rank`, each once. */
  readonly measures: readonly Measure[];
  /** What is wrong with the question, or hides it: errors of form, and those of the block. */
  readonly errors: readonly Finding[];
}

/** Most candidates of a question. */
export const mostCandidates = 1e9;

/** Measured where nothing is kept and nothing ranked. */
const plainMeasures =
  'keep winding-factor harmonic 1 >= 0  keep differential-leakage >= 0 %  keep largest-paths >= 0  keep cogging-periods >= 0';

/** Reads the question of a text. */
export function questionOf(text: string): Question {
  const document = parse(text);
  const specification = specify(document);
  const { vary } = specification;
  const rows = (vary?.rows ?? []).map(({ value }): Row => {
    const columns = value.columns.map(({ word, values }) => ({
      word,
      name: variedName(word),
      values: values(),
    }));
    return { columns, count: columns[0]!.values.length };
  });
  const keeps = (vary?.keeps ?? []).map(({ value }) => value);
  const rank = (vary?.rank ?? []).map(({ value }) => value);
  const asked = [...rank.map(({ measure }) => measure), ...keeps.flatMap((keep) => keep ?? [])];
  return {
    text,
    document,
    specification,
    rows,
    candidates: rows.reduce((product, { count }) => product * count, 1),
    hold: vary?.hold?.value ?? {},
    keeps,
    rank,
    measures: distinct(asked.length > 0 ? asked : standardMeasures()),
    errors: [...document.findings, ...varyFindings(specification, document)].filter(
      ({ severity }) => severity === 'error',
    ),
  };
}

function standardMeasures(): readonly Measure[] {
  const { vary } = specify(parse(`vary { ${plainMeasures} }`));
  return vary!.keeps.flatMap(({ value }) => value ?? []);
}

function distinct(measures: readonly Measure[]): readonly Measure[] {
  const byName = new Map(measures.map((measure) => [measureName(measure), measure]));
  return [...byName.values()];
}

/** A quantity as it is written: `winding-factor harmonic 1`. */
export function measureName({ entry, scope, point }: Measure): string {
  if (point !== null) return `${entry.word} at ${JSON.stringify(visible(point))}`;
  if (scope) return `${entry.word} ${scope.kind} ${significant(scope.number, 15)}`;
  return entry.perOrder ? `${entry.word} harmonic 1` : entry.word;
}

/** A ranking as it is written: `least copper-loss`. */
export function rankName({ better, measure }: Ranking): string {
  return `${better} ${measureName(measure)}`;
}

/** The figures that rank, by their place among the measures. */
export function orderOf({ rank, measures }: Pick<Question, 'rank' | 'measures'>): readonly Order[] {
  const names = measures.map(measureName);
  return rank.map(({ better, measure }) => ({ better, figure: names.indexOf(measureName(measure)) }));
}

/** A keep as it is written, behind its word. */
export function keepName(keep: Keep): string {
  return keep === null ? 'limits' : limitMeasureName(keep);
}

/** A limit as it is written. */
export function limitMeasureName(limit: RequiredLimit): string {
  return `${measureName(limit)} ${limit.relation} ${limit.written}`;
}

/** The digits of a candidate: which value each row has. Numbers begin at 1; the last row steps first. */
export function digitsOf({ rows }: Pick<Question, 'rows'>, number: number): readonly number[] {
  const digits = new Array<number>(rows.length).fill(0);
  let rest = number - 1;
  for (let row = rows.length - 1; row >= 0; row--) {
    const { count } = rows[row]!;
    digits[row] = rest % count;
    rest = Math.floor(rest / count);
  }
  return digits;
}
