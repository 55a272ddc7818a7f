import { existsSync, readFileSync } from 'node:fs';
import { join } from 'node:path';
import { expect, test } from 'vitest';
import { slowTests } from '../../scripts/quick.mjs';
import { projectFolder } from '../support/files.ts';

test('what the quick tests leave out is there, and every step of the house can be called', () => {
  for (const path of slowTests) expect([path, existsSync(join(projectFolder, path))]).toEqual([path, true]);
  const { scripts } = JSON.parse(readFileSync(join(projectFolder, 'package.json'), 'utf8'));
  const steps = /steps = \[(.*)\]/.exec(readFileSync(join(projectFolder, 'scripts/run.mjs'), 'utf8'))![1]!;
  for (const command of Object.values(scripts as Record<string, string>))
    expect(steps).toContain(`'${command.split(' ').at(-1)}'`);
});
