import { spawnSync } from 'node:child_process';
import { existsSync } from 'node:fs';
import { expect, test } from 'vitest';
import { processorWords, secondsOfPrograms } from '../../scripts/processorTime.mjs';

const burn = 'while (process.cpuUsage().user < 300_000);';
const within = `require('node:child_process').spawnSync(process.execPath, ['-e', ${JSON.stringify(burn)}])`;

test.runIf(existsSync('/proc/self/stat'))(
  'programs and those that they start are counted when they end',
  () => {
    const before = secondsOfPrograms()!;
    spawnSync(process.execPath, ['-e', within]);
    expect(secondsOfPrograms()! - before).toBeGreaterThanOrEqual(0.25);
  },
);

test('is told against what it may be, and not at all where no system tells it', () => {
  expect(processorWords(10, 95.4, 90)).toContain('took 85 s of the processor, of 90 s');
  expect(processorWords(null, null, 90)).toBe('');
});
