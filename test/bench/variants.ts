import { execFileSync } from 'node:child_process';
import { mkdtempSync, rmSync, writeFileSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { collectionFor } from '../../core/variants/answer.ts';
import { evaluator } from '../../core/variants/evaluate.ts';
import { explore } from '../../core/variants/explore.ts';
import { questionOf } from '../../core/variants/question.ts';
import type { Figure } from './ledger.ts';

const ranked = 'rank most winding-factor harmonic 1 least differential-leakage';
const layout = (slots: number, poles: number, rest: string, vary: string) =>
  `winding "Bench"\nmachine { slots ${slots} poles ${poles} phases 3 }\nlayout { ${rest} }\nvary {\n${vary}\n${ranked}\n}\n`;

/** Questions of one kind each: layouts that differ in skew, or in their slot table, and candidates that share one. */
const questions = {
  small: layout(12, 10, 'layers 2 span 1', 'layout skew all 0 deg to 30 deg by 0.01 deg'),
  large: layout(48, 8, 'layers 4 span 6', 'layout skew all 0 deg to 7 deg by 0.005 deg'),
  tables: layout(48, 8, 'layers 4 span 6', 'layout span 1 to 47\nlayout stagger 0 to 47'),
  shared: layout(
    48,
    8,
    'layers 4 span 6',
    'bar height 1 mm to 9 mm by 0.001 mm\nbar width 1 mm to 3 mm by 0.016 mm',
  ),
};

/** A copy of the frozen stator, asked for its bar heights; `text` is that of the stator. */
function wholeQuestion(text: string): string {
  return `${text}\nvary {\nbar height 2.4 mm to 2.8 mm by 0.0004 mm\nrank least copper-loss least ac-ratio\n}\n`;
}

/** Whole studies after which the program runs at its own pace. */
const warmingUp = 41;

interface Ran {
  /** Milliseconds of processor time for a thousand candidates, behind the first ones that warm the program up. */
  readonly thousand: number;
  /** The same of those. */
  readonly warming: number;
  /** The longest stretch between two chances to give way, ms of processor time. */
  readonly longest: number;
  readonly candidates: number;
}

/** Judges all candidates of a question; so many `first` ones are timed by themselves. */
function run(text: string, first = 0): Ran {
  const question = questionOf(text);
  const judge = evaluator(question);
  const collected = collectionFor(question, 20);
  const { candidates } = question;
  let longest = 0;
  const thousand = (from: number, to: number) => {
    const start = processorTime();
    let last = start;
    for (const _ of explore(judge, collected, { first: from, last: to })) {
      const now = processorTime();
      longest = Math.max(longest, now - last);
      last = now;
    }
    return (1000 * (processorTime() - start)) / (to - from + 1);
  };
  const warming = first > 0 ? thousand(1, first) : 0;
  return { warming, thousand: thousand(first + 1, candidates), longest, candidates };
}

/** The run that takes neither much nor little of some: what another one has left may be cleared away in any. */
function usual(text: string): Ran {
  const runs = Array.from({ length: 7 }, () => run(text)).sort((a, b) => a.thousand - b.thousand);
  return runs[3]!;
}

/** Milliseconds that the processor has spent on this process. */
function processorTime(): number {
  const { user, system } = process.cpuUsage();
  return (user + system) / 1000;
}

/** Rates, the time to cancel, memory and the gain of a second thread; `stator` is the frozen text. */
export function benchVariants(stator: string, tell: (figure: Figure) => void): void {
  const time = (what: string, value: number, budget: number | null, note = '') =>
    tell({ what, kind: 'time', value, budget, note });
  for (const text of Object.values(questions)) run(text);
  const [small, large, tables] = [usual(questions.small), usual(questions.large), usual(questions.tables)];
  time('variants, a thousand distinct layouts of 12 slots, 10 poles', small.thousand, 40);
  time('variants, a thousand distinct layouts of 48 slots, 4 layers', large.thousand, 100);
  time('variants, a thousand distinct slot tables of 48 slots, 4 layers', tables.thousand, 100);
  const heap = process.memoryUsage().heapUsed;
  const shared = run(questions.shared);
  time('variants, a thousand that share a layout', shared.thousand, 5);
  const grown = Math.max(0, process.memoryUsage().heapUsed - heap) / 1000;
  tell({
    what: `  memory that ${shared.candidates} of them take`,
    kind: 'size',
    value: grown,
    budget: 200_000,
  });
  const whole = run(wholeQuestion(stator), warmingUp);
  time(
    'variants, a thousand whole studies of 48 slots, 4 layers',
    whole.thousand,
    10_000,
    `behind ${warmingUp} of ${whole.candidates}, which take ${whole.warming.toFixed(0)} ms a thousand`,
  );
  time('  longest stretch until canceling is heard', whole.longest, 100);
  benchThreads(tell);
}

/** Enough layouts that starting threads, reading the program and joining what they find hide no gain. */
function benchThreads(tell: (figure: Figure) => void): void {
  const folder = mkdtempSync(join(tmpdir(), 'slotwright-bench-'));
  const file = join(folder, 'question.winding');
  const rows = ['layout skew all 0 deg to 7 deg by 0.001 deg', 'layout span 3 to 7', 'layout stagger 0 to 3'];
  writeFileSync(file, layout(48, 8, 'layers 4 span 6', rows.join('\n')));
  const wall = (workers: number) => {
    const start = performance.now();
    execFileSync('node', ['dist/cli/slotwright.js', 'explore', file, '--workers', String(workers)], {
      stdio: 'ignore',
    });
    return performance.now() - start;
  };
  const [one, two] = [wall(1), wall(2)];
  rmSync(folder, { recursive: true });
  const note = `${(one / two).toFixed(2)} times as fast as one`;
  tell({ what: 'variants, 140020 layouts in two threads', kind: 'time', value: two, budget: null, note });
}
