import { figureRow } from '../../figures/register.ts';
import { needsInWords } from '../../findings/needWords.ts';
import type { Report } from '../schema.ts';
import { code } from './guard.ts';

/** Statements that are written next, and the quantities that they and all before them supply. */
export interface Supply {
  readonly needs: readonly string[];
  readonly quantities: readonly string[];
}

/**
 * The missing statements in an order in which few soon supply much: first those that supply most quantities
 * for each statement, beside what was written before. Every statement and every quantity occurs once.
 */
export function suppliesOf(missing: Report['missing']): readonly Supply[] {
  const supplies: Supply[] = [];
  const given = new Set<string>();
  let rest = missing;
  while (rest.length > 0) {
    const choices = rest.map(({ needs }) => {
      const lacking = needs.filter((need) => !given.has(need));
      const then = new Set([...given, ...lacking]);
      const supplied = rest.filter((other) => other.needs.every((need) => then.has(need)));
      return { needs: lacking, quantities: supplied.map(({ quantity }) => quantity) };
    });
    const best = foremost(choices, ({ needs, quantities }) => quantities.length / needs.length);
    // What is on the way to it is told by itself.
    const onTheWay = choices.filter(({ needs }) => needs.every((need) => best.needs.includes(need)));
    const next = foremost(onTheWay, ({ needs, quantities }) => quantities.length - 1e3 * needs.length);
    for (const need of next.needs) given.add(need);
    rest = rest.filter(({ needs }) => needs.some((need) => !given.has(need)));
    supplies.push(next);
  }
  return supplies;
}

/** The first of those of the highest rank. */
function foremost(choices: readonly Supply[], rank: (choice: Supply) => number): Supply {
  return choices.reduce((found, other) => (rank(other) > rank(found) ? other : found));
}

/** What is missing by its name, with what supplies it. */
export function missingText({ missing }: Report): string {
  if (missing.length === 0) return 'None.';
  const supplies = suppliesOf(missing);
  const lines = supplies.map(
    ({ needs, quantities }) =>
      `- ${needsInWords(needs, (each) => code(each, 200))}: ${quantities.map(missingName).join('; ')}`,
  );
  const needsOf = new Map(missing.map(({ quantity, needs }) => [quantity, needs]));
  const buildsUp = supplies.some(({ needs, quantities }) =>
    quantities.some((quantity) => needsOf.get(quantity)!.some((need) => !needs.includes(need))),
  );
  const head = `What the text lacks, and what follows from it${buildsUp ? ' together with what stands above it, in an order in which few statements soon supply much' : ''}.`;
  return `${head}\n\n${lines.join('\n')}`;
}

/** The name of a quantity that is missing: what is no figure has one, all of the bars in space but for that. */
function missingName(quantity: string): string {
  return quantity === 'space' ? 'bars in space' : (figureRow(quantity)?.words ?? quantity);
}
