import { mkdtempSync, readFileSync, rmSync, writeFileSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { afterAll, expect, test } from 'vitest';
import { complete } from '../../../cli/complete.ts';
import { run } from '../../../cli/program.ts';

const folder = mkdtempSync(join(tmpdir(), 'slotwright-import-'));
afterAll(() => rmSync(folder, { recursive: true }));
const at = (name: string) => join(folder, name);
const slots = 'slot;a\n1;+U\n2;-W\n3;+V\n4;-U\n5;+W\n6;-V\n';
writeFileSync(at('slots.csv'), slots);
writeFileSync(at('wrong.csv'), slots.replace('+V', '+V?'));
writeFileSync(at('paths.csv'), 'U1;V1;W1\n1a;3a;5a\n4a;6a;2a\n');

test('a table becomes a winding file, which checks; what was taken from it is told', async () => {
  const outcome = run(['import', at('slots.csv'), '--title', 'Fan', '--output', at('fan.winding')], '0');
  expect(outcome).toMatchObject({ exitCode: 0, output: '' });
  expect(outcome.complaints).toContain("note: poles 2 is that of the table's strongest wave.");
  expect((await complete(outcome)).exitCode).toBe(0);
  expect(readFileSync(at('fan.winding'), 'utf8')).toMatch(/^winding "Fan"/);
  expect(run(['check', at('fan.winding')], '0').exitCode).toBe(0);
  expect(run(['import', at('slots.csv')], '0').output).toMatch(/layer +a +\+U -W \+V +repeat 2 alternating/);
});

test('what is wrong or lacks is told, with exit code 1; a wrong call with 2', () => {
  expect(run(['import', at('wrong.csv')], '0')).toMatchObject({ exitCode: 1, output: '' });
  expect(run(['import', at('wrong.csv')], '0').complaints).toContain(
    "wrong.csv: row 4, column B: '+V?' is not",
  );
  expect(run(['import', at('paths.csv')], '0').complaints).toContain('--connection says it, or a row above');
  expect(run(['import', at('paths.csv'), '--connection', 'star'], '0').exitCode).toBe(0);
  for (const args of [
    [at('none.csv')],
    [at('slots.csv'), '--poles', '3'],
    [at('slots.csv'), '--output', at('slots.svg')],
    [at('slots.csv'), '--output', at('slots.csv')],
  ])
    expect(run(['import', ...args], '0').exitCode, args.join(' ')).toBe(2);
});
