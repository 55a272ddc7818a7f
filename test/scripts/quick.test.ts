import { readdirSync, readFileSync } from 'node:fs';
import { join } from 'node:path';
import { expect, test } from 'vitest';
import { slowTests, unmarkedWords } from '../../scripts/quick.mjs';
import { projectFolder } from '../support/files.ts';

test('quick tests leave out the files that say they take their time, and every step of the house can be called', () => {
  const slow = slowTests();
  expect(slow).toContain('test/cli/built.test.ts');
  expect(slow).not.toContain('test/scripts/quick.test.ts');
  const { scripts } = JSON.parse(readFileSync(join(projectFolder, 'package.json'), 'utf8'));
  const steps = /steps = \[([^\]]*)\]/.exec(
    readFileSync(join(projectFolder, 'scripts/run.mjs'), 'utf8'),
  )![1]!;
  for (const command of Object.values(scripts as Record<string, string>))
    expect(steps).toContain(`'${command.split(' ').at(-1)}'`);
});

test('a file says so in its first line or not at all, and what is left still looks into every room', () => {
  const slow = slowTests();
  const all = readdirSync(join(projectFolder, 'test'), { recursive: true, encoding: 'utf8' })
    .map((name) => `test/${name.replaceAll('\\', '/')}`)
    .filter((path) => path.endsWith('.test.ts') && !path.startsWith('test/editor/'));
  const misplaced = all.filter(
    (path) =>
      !slow.includes(path) && /^\/\/ Takes its time: /m.test(readFileSync(join(projectFolder, path), 'utf8')),
  );
  expect(misplaced).toEqual([]);
  const rooms = readdirSync(join(projectFolder, 'core'), { withFileTypes: true })
    .filter((entry) => entry.isDirectory())
    .map(({ name }) => `test/${name}/`);
  const quick = all.filter((path) => !slow.includes(path));
  const empty = [...rooms, 'test/extension/', 'test/cli/'].filter(
    (room) => !quick.some((path) => path.startsWith(room)),
  );
  expect(empty).toEqual([]);
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
