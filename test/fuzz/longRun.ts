import { appendFileSync, existsSync, mkdirSync, readFileSync } from 'node:fs';
import fc from 'fast-check';
import { projectFolder } from '../support/files.ts';
import { outcomeOf } from './outputs.ts';
import { draws, mutant, tableCorpus, tableTroubles, textCorpus, textTroubles } from './texts.ts';
import { windingPair } from './windings.ts';

// `npm run fuzz -- texts 1 100`: the inputs of the tests beside this file in portions, one a seed. What came of each
// is a line of out/fuzz/, and seeds that have one are passed over, so that a run that was stopped goes on.

/** What came of one seed. */
interface Portion {
  readonly seed: number;
  readonly inputs: number;
  /** Inputs of which pictures, sheets and reports were made. */
  readonly drawn: number;
  readonly faults: readonly { readonly trouble: string; readonly input: string }[];
}

const portions: Readonly<Record<string, (seed: number) => Portion>> = {
  texts: (seed) => {
    const [corpus, draw] = [textCorpus(seed), draws(seed)];
    return portionOf(seed, 10_000, () => mutant(corpus, draw), textTroubles);
  },
  tables: (seed) => {
    const [corpus, draw] = [tableCorpus(), draws(seed)];
    return portionOf(seed, 10_000, () => mutant(corpus, draw), tableTroubles);
  },
  windings: (seed) => {
    const faults: Portion['faults'][number][] = [];
    let drawn = 0;
    for (const [first, second] of fc.sample(windingPair, { numRuns: 20, seed })) {
      const before = outcomeOf(first);
      for (const { studied, wound, troubles } of [before, outcomeOf(second, before.studied)]) {
        drawn += Number(wound);
        for (const trouble of troubles) faults.push({ trouble, input: studied.text });
      }
    }
    return { seed, inputs: 40, drawn, faults };
  },
};

function portionOf(
  seed: number,
  inputs: number,
  next: () => string,
  troublesOf: (input: string) => readonly string[],
): Portion {
  const faults: Portion['faults'][number][] = [];
  let run = 0;
  for (; run < inputs && faults.length < 20; run++) {
    const input = next();
    for (const trouble of troublesOf(input)) faults.push({ trouble, input });
  }
  return { seed, inputs: run, drawn: 0, faults };
}

function main([kind = '', from = '1', to = from]: readonly string[]): void {
  const portion = portions[kind];
  if (!portion)
    throw new Error(`Usage: npm run fuzz -- ${Object.keys(portions).join('|')} [SEED [LAST-SEED]]`);
  const folder = `${projectFolder}out/fuzz`;
  const file = `${folder}/${kind}.jsonl`;
  mkdirSync(folder, { recursive: true });
  const lines = existsSync(file) ? readFileSync(file, 'utf8').split('\n').filter(Boolean) : [];
  const done = new Map(lines.map((line) => JSON.parse(line) as Portion).map((each) => [each.seed, each]));
  for (let seed = Number(from); seed <= Number(to); seed++) {
    if (done.has(seed)) continue;
    const made = portion(seed);
    appendFileSync(file, `${JSON.stringify(made)}\n`);
    done.set(seed, made);
    for (const fault of made.faults) console.log(JSON.stringify(fault));
  }
  const all = [...done.values()];
  const total = (count: (each: Portion) => number) => all.reduce((sum, each) => sum + count(each), 0);
  console.log(
    `${file}: ${total(({ inputs }) => inputs)} ${kind}, ${total(({ drawn }) => drawn)} of them drawn, ${total(
      ({ faults }) => faults.length,
    )} faults, seeds ${all
      .map(({ seed }) => seed)
      .sort((a, b) => a - b)
      .join(' ')}`,
  );
  if (all.some(({ faults }) => faults.length > 0)) process.exitCode = 1;
}

main(process.argv.slice(2));
