// The processor's time of programs that were started, however busy the machine is.
import { readFileSync } from 'node:fs';

/** Counts of the kernel in a second, the same on every Linux. */
const ticks = 100;

/**
 * Seconds of the processor that all programs have taken that this process started and that have ended, with those that
 * these started; null where the system does not tell, as any but Linux.
 */
export function secondsOfPrograms() {
  let stat;
  try {
    stat = readFileSync('/proc/self/stat', 'utf8');
  } catch {
    return null;
  }
  // Behind the name in brackets, which may hold anything, fields 16 and 17 of proc(5): cutime and cstime.
  const fields = stat.slice(stat.lastIndexOf(')') + 2).split(' ');
  return (Number(fields[13]) + Number(fields[14])) / ticks;
}

/** What the unit tests took, told against what they may; nothing where the system does not tell. */
export function processorWords(before, after, budget) {
  if (before === null || after === null) return '';
  return `Unit tests took ${(after - before).toFixed(0)} s of the processor, of ${budget} s that they may take on an idle machine.`;
}
