import type { Block, Statement } from '../text/document.ts';
import { countsWhole } from '../text/varyChecks.ts';
import { varyStatements } from '../vocabulary/blocks/vary.ts';
import { readBlock } from './reading.ts';
import { negatedItem, seriesItems } from './series.ts';
import type {
  Keep,
  Measure,
  Ranking,
  RequiredLimit,
  VaryColumn,
  VarySpecification,
} from './specification.ts';
import type { Given } from './statements.ts';

/** Reads the block; `readLimit` reads the limits of require. */
export function readVary(
  block: Block,
  readLimit: (statement: Statement) => Given<RequiredLimit>,
): VarySpecification {
  const all = (word: string) => block.statements.filter(({ entry }) => entry.word === word);
  return {
    ...readBlock(block, varyStatements),
    rows: block.statements
      .filter(({ values }) => values[0]?.kind === 'target')
      .map((statement) => ({
        value: { columns: readColumns(statement) },
        range: statement.range,
        statement: statement.range,
      })),
    keeps: all('keep').map((statement): Given<Keep> => {
      const [first, ...values] = statement.values;
      if (first?.kind === 'measure') return readLimit({ ...statement, entry: first.entry, values });
      return { value: null, range: statement.range, statement: statement.range };
    }),
    rank: all('rank').flatMap(readRank),
  };
}

function readColumns({ values }: Statement): readonly VaryColumn[] {
  const columns: VaryColumn[] = [];
  values.forEach((value, index) => {
    if (value.kind !== 'target') return;
    const { entry, slotLayers, qualifiers, range } = value;
    const next = values[index + 1];
    const first = columns[0];
    columns.push({
      word: { entry, slotLayers, qualifiers, range },
      values: () =>
        next?.kind === 'series'
          ? seriesItems(next, countsWhole(entry))
          : (first?.values() ?? []).map((item) => negatedItem(item) ?? item),
    });
  });
  return columns;
}

function readRank(statement: Statement): readonly Given<Ranking>[] {
  const { values } = statement;
  return values.flatMap((value, index): Given<Ranking>[] => {
    const before = values[index - 1];
    if (value.kind !== 'measure' || before?.kind !== 'keyword') return [];
    const [scope, number] = values.slice(index + 1);
    const word = scope?.kind === 'keyword' ? scope.text : '';
    const measure: Measure = {
      entry: value.entry,
      scope:
        (word === 'harmonic' || word === 'order') && number?.kind === 'quantity'
          ? { kind: word, number: number.value }
          : null,
      point: word === 'at' && number?.kind === 'text' ? number.text : null,
    };
    const range = { start: before.range.start, end: value.range.end };
    return [
      { value: { better: before.text as Ranking['better'], measure }, range, statement: statement.range },
    ];
  });
}
