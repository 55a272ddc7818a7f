// One choice for each of some groups, such that the smallest value of any two that are chosen is as large as can be.

const mostSearchNodes = 20_000;

/** A value for every two options of all groups: by group and option of the first, then of the second. */
export type PairTable = readonly (readonly (readonly (readonly number[])[])[])[];

/** Values of an option by itself, and of options of two groups, either of which may be the first. */
export interface PairValues<Option> {
  readonly alone: (option: Option) => number;
  readonly between: (first: Option, second: Option) => number;
}

/** The values of all options; `options` has those of each group. */
export function pairTable<Option>(
  options: readonly (readonly Option[])[],
  { alone, between }: PairValues<Option>,
): PairTable {
  const table = options.map((own) => own.map(() => options.map((others) => others.map(() => 0))));
  // A group has one choice: of its own options only each with itself counts.
  options.forEach((own, a) => {
    own.forEach((first, i) => {
      table[a]![i]![a]![i] = alone(first);
      for (let b = a + 1; b < options.length; b++) {
        options[b]!.forEach((second, j) => {
          const apart = between(first, second);
          table[a]![i]![b]![j] = apart;
          table[b]![j]![a]![i] = apart;
        });
      }
    });
  });
  return table;
}

/**
 * One choice for each group with the largest smallest value, above `floor`, that is `accepted`; null where
 * there is none.
 */
export function widest(
  table: PairTable,
  floor: number,
  accepted: (choice: readonly number[]) => boolean = () => true,
): number[] | null {
  const levels = reachableLevels(table, floor);
  for (const level of levels) {
    const found = chooseAt(table, level, accepted);
    if (found) return found;
  }
  return null;
}

/** The values above `floor` that one choice for each group may have as its smallest, the largest first. */
function reachableLevels(table: PairTable, floor: number): readonly number[] {
  const values = new Set<number>();
  let most = Number.POSITIVE_INFINITY;
  for (let a = 0; a < table.length; a++) {
    for (let b = a; b < table.length; b++) {
      let best = Number.NEGATIVE_INFINITY;
      table[a]!.forEach((row, first) => {
        row[b]!.forEach((value, second) => {
          if (a === b && first !== second) return;
          values.add(value);
          best = Math.max(best, value);
        });
      });
      most = Math.min(most, best);
    }
  }
  return [...values].filter((level) => level > floor && level <= most).sort((x, y) => y - x);
}

/** One accepted choice for each group such that no value of them is below `level`, or null. */
function chooseAt(
  table: PairTable,
  level: number,
  accepted: (choice: readonly number[]) => boolean,
): number[] | null {
  const chosen: number[] = [];
  let nodes = 0;
  const next = (): boolean => {
    const group = chosen.length;
    if (group === table.length) return accepted(chosen);
    for (let choice = 0; choice < table[group]!.length; choice++) {
      if (++nodes > mostSearchNodes) return false;
      const pairs = table[group]![choice]!;
      if (pairs[group]![choice]! < level) continue;
      let index = 0;
      while (index < group && pairs[index]![chosen[index]!]! >= level) index++;
      if (index < group) continue;
      chosen.push(choice);
      if (next()) return true;
      chosen.pop();
    }
    return false;
  };
  return next() ? chosen : null;
}
