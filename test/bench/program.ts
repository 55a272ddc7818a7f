import { spawnSync } from 'node:child_process';
import { mkdirSync, mkdtempSync, readdirSync, readFileSync, rmSync, writeFileSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { study } from '../../core/study.ts';
import { makeRepository } from '../cli/repository.ts';
import type { Figure } from './ledger.ts';

// Whole runs of the program, from its start to its end.

type Tell = (figure: Figure) => void;

/** What a run took. */
interface Run {
  /** ms. */
  readonly time: number;
  /** The most that it held at once, kB. */
  readonly memory: number;
}

/** Says at the end, last of all, how much it held. */
const tellMemory =
  "data:text/javascript,process.on('exit',()=>process.stderr.write('%5Cn'+process.resourceUsage().maxRSS))";

function run(args: readonly string[]): Run {
  const start = performance.now();
  const call = ['--import', tellMemory, 'dist/cli/slotwright.js', ...args];
  const { stderr } = spawnSync('node', call, { stdio: ['ignore', 'ignore', 'pipe'], encoding: 'utf8' });
  return { time: performance.now() - start, memory: Number(stderr.split('\n').at(-1)) };
}

/** A folder for the time that something is done in it. */
function inFolder(work: (folder: string) => void): void {
  const folder = mkdtempSync(join(tmpdir(), 'slotwright-bench-'));
  try {
    work(folder);
  } finally {
    rmSync(folder, { recursive: true });
  }
}

/** Checks of many files, handover sheets of a large winding, and a comparison of a folder that was moved. */
export function benchProgram(stator: string, tell: Tell): void {
  benchCheck(tell);
  benchSheets(tell);
  benchComparison(stator, tell);
}

function benchCheck(tell: Tell): void {
  const tellTime = (what: string, value: number, budget: number | null, note = '') =>
    tell({ what, kind: 'time', value, budget, note });
  const sound = readdirSync('examples')
    .filter((name) => name.endsWith('.winding') && !name.startsWith('broken'))
    .map((name) => readFileSync(join('examples', name), 'utf8'));
  const isDuty = (text: string) => /^duty\b/m.test(text);
  const plain = sound.filter((text) => !isDuty(text));
  inFolder((folder) => {
    const timeOf = (name: string, texts: readonly string[], workers: number): number => {
      mkdirSync(join(folder, name));
      texts.forEach((text, i) => {
        writeFileSync(join(folder, name, `${i}.winding`), text);
      });
      return run(['check', join(folder, name), '--workers', String(workers)]).time;
    };
    const layouts = Array.from({ length: 1000 }, (_, i) => layoutAlone(i));
    tellTime('check of 1000 files of layouts alone, whole program', timeOf('layouts', layouts, 1), 5000);
    const whole = Array.from({ length: 1000 }, (_, i) => plain[i % plain.length]!);
    const what = 'check of 1000 files with sizes and paths in two threads, whole program';
    tellTime(what, timeOf('whole', whole, 2), 20_000);
  });
  // Told to see where the time goes; the budget is that of all files together.
  const tellOne = (what: string, texts: readonly string[]) => {
    const spent = texts.map(leastTimeOfCheck);
    const mean = spent.reduce((sum, time) => sum + time, 0) / spent.length;
    tellTime(what, mean, null, `the slowest ${Math.max(...spent).toFixed(0)} ms`);
  };
  tellOne('  processor time of one, mean of the examples', plain);
  tellOne('  with a duty cycle too', sound.filter(isDuty));
}

/** One of many layouts, with integer slots per pole and phase, so that all of them are sound. */
function layoutAlone(i: number): string {
  const [polePairs, perPoleAndPhase, layers] = [
    1 + (i % 10),
    1 + (Math.floor(i / 10) % 5),
    i % 3 === 0 ? 2 : 4,
  ];
  const span = 3 * perPoleAndPhase;
  return `winding "Layout ${i}"\nmachine { slots ${span * 2 * polePairs} poles ${2 * polePairs} phases 3 }\nlayout { layers ${layers} span ${span} }\n`;
}

/** Processor time of checking a text, ms: the least of some times, when the engine has been warmed up by them. */
function leastTimeOfCheck(text: string): number {
  const times = Array.from({ length: 4 }, () => {
    const start = process.cpuUsage();
    study(text);
    const { user, system } = process.cpuUsage(start);
    return (user + system) / 1000;
  });
  return Math.min(...times);
}

function benchSheets(tell: Tell): void {
  inFolder((folder) => {
    const file = join(folder, 'large.winding');
    writeFileSync(
      file,
      'winding "Large"\nmachine { slots 480 poles 80 phases 3 }\nlayout { layers 8 span 6 }\nconnect { star route paths 2 }\n',
    );
    for (const [format, most] of [
      ['pdf', 3000],
      ['dxf', 5000],
    ] as const) {
      const { time, memory } = run([
        'draw',
        file,
        '--view',
        'sheet',
        '--output',
        join(folder, `sheets.${format}`),
      ]);
      const what = `handover sheets of 480 slots, 8 layers as ${format.toUpperCase()}, whole program`;
      tell({ what, kind: 'time', value: time, budget: most });
      tell({ what: '  memory at most', kind: 'size', value: memory, budget: 400_000 });
    }
  });
}

function benchComparison(stator: string, tell: Tell): void {
  const repository = makeRepository();
  try {
    for (let i = 1; i <= 300; i++)
      repository.write(`before/${i}.winding`, stator.replace('stator B', `stator ${i}`));
    const base = repository.commit('Before');
    repository.git('mv', 'before', 'after');
    const { time } = run(['compare', '--base', base, repository.folder]);
    const what = 'compare --base with 300 renamed files, whole program';
    tell({ what, kind: 'time', value: time, budget: 3000 });
  } finally {
    repository.dispose();
  }
}
