import { readFileSync } from 'node:fs';
import { join } from 'node:path';
import { expect, test } from 'vitest';
import { slowTests, unmarkedWords } from '../../scripts/quick.mjs';
import { projectFolder } from '../support/files.ts';

test('quick tests leave out the files that say they take their time, and every step of the house can be called', () => {
  const slow = slowTests();
  expect(slow).toContain('test/cli/built.test.ts');
  expect(slow).not.toContain('test/scripts/quick.test.ts');
  const { scripts } = JSON.parse(readFileSync(join(projectFolder, 'package.json'), 'utf8'));
  const steps = /steps = \[(.*)\]/.exec(readFileSync(join(projectFolder, 'scripts/run.mjs'), 'utf8'))![1]!;
  for (const command of Object.values(scripts as Record<string, string>))
    expect(steps).toContain(`'${command.split(' ').at(-1)}'`);
});

test('a file that took long and does not say so is told', () => {
  const result = (name: string, durations: readonly number[]) => ({
    name: join(projectFolder, name),
    assertionResults: durations.map((duration) => ({ duration })),
  });
  const words = unmarkedWords({
    testResults: [
      result('test/scripts/quick.test.ts', [900, 1000]),
      result('test/scripts/house.test.ts', [900]),
      result('test/cli/built.test.ts', [9000]),
    ],
  });
  expect(words).toContain('  test/scripts/quick.test.ts: 1.9 s\n');
  expect(words.match(/ s$/gm)).toHaveLength(1);
  expect(unmarkedWords({ testResults: [] })).toBe('');
});
