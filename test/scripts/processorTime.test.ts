import { spawnSync } from 'node:child_process';
import { existsSync } from 'node:fs';
import { expect, test } from 'vitest';
import { processorWords, secondsOfPrograms } from '../../scripts/processorTime.mjs';

/** Keeps the processor busy, then tells for how long: minutes and seconds of itself, and of what it started. */
const busy = 'i=0; while [ $i -lt 50000 ]; do i=$((i+1)); done; times';

test.runIf(existsSync('/proc/self/stat'))(
  'programs and those that they start are counted when they end',
  () => {
    const before = secondsOfPrograms()!;
    const { stdout } = spawnSync('sh', ['-c', `sh -c '${busy}'; exit`], { encoding: 'utf8' });
    const counted = secondsOfPrograms()! - before;
    const own = stdout.split('\n')[0]!.matchAll(/(\d+)m([\d.]+)s/g);
    const taken = [...own].reduce(
      (sum, [, minutes, seconds]) => sum + 60 * Number(minutes) + Number(seconds),
      0,
    );
    expect(taken).toBeGreaterThan(0.02);
    // The kernel counts in hundredths.
    expect(counted).toBeGreaterThanOrEqual(taken - 0.02);
  },
);

test('is told against what it may be, and not at all where no system tells it', () => {
  expect(processorWords(10, 95.4, 90)).toContain('took 85 s of the processor, of 90 s');
  expect(processorWords(null, null, 90)).toBe('');
});
