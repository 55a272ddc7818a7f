import fs, { mkdirSync, mkdtempSync, realpathSync, rmSync, symlinkSync, writeFileSync } from 'node:fs';
import { syncBuiltinESMExports } from 'node:module';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { afterAll, beforeAll, describe, expect, it } from 'vitest';
import { complete } from '../../cli/complete.ts';
import { run } from '../../cli/program.ts';
import { readXml, valuesOf } from '../picture/checkPicture.ts';
import { junitProblems } from '../report/junitModel.ts';
import { sarifProblems } from '../report/sarifSchema.ts';
import { cleanWinding } from '../support/windingText.ts';

let folder = '';
const at = (name: string) => join(folder, name);
const untidy = cleanWinding.replace(/^ {2}/gm, '\t');

// Folders named `locked` cannot be read, whoever runs the tests, and those named `vanishing` are gone by then.
const { readdirSync } = fs;
const refusing = (path: string, options: { withFileTypes: true }) => {
  const code = { locked: 'EACCES', vanishing: 'ENOENT' }[/[^/]*$/.exec(path)![0]];
  if (code !== undefined) throw Object.assign(new Error(`${code}: planned`), { code });
  return readdirSync(path, options);
};
function searchFoldersBy(search: unknown): void {
  Object.assign(fs, { readdirSync: search });
  syncBuiltinESMExports();
}

beforeAll(() => {
  searchFoldersBy(refusing);
  folder = realpathSync(mkdtempSync(join(tmpdir(), 'slotwright-search-')));
  for (const name of ['house/b/locked', 'house/vanishing', 'house/z'])
    mkdirSync(at(name), { recursive: true });
  writeFileSync(at('house/a.winding'), 'machine {');
  writeFileSync(at('house/z/z.winding'), untidy);
});
afterAll(() => {
  searchFoldersBy(readdirSync);
  rmSync(folder, { recursive: true, force: true });
});

const told = () =>
  [
    `slotwright: ${at('house/b/locked')}: the folder cannot be searched: access denied.`,
    `slotwright: ${at('house/vanishing')}: the folder cannot be searched: no such file or folder.`,
    '',
  ].join('\n');

describe('check of a folder with folders in it that cannot be read', () => {
  const check = (format: string) => {
    const { exitCode, output, complaints } = run(['check', at('house'), '--format', format], '0.0.0');
    expect({ exitCode, complaints }).toEqual({ exitCode: 2, complaints: told() });
    return output;
  };

  it('checks the rest, as text', () => {
    const output = check('text');
    expect(output).toContain(`${at('house/a.winding')}:1:`);
    expect(output).toMatch(/^2 files checked: /m);
  });

  it('as JSON, which lists what was not read', () => {
    const { files, unread, errors } = JSON.parse(check('json'));
    expect(files.map(({ file }: { file: string }) => file)).toEqual([
      at('house/a.winding'),
      at('house/z/z.winding'),
    ]);
    expect(errors).toBeGreaterThan(0);
    expect(unread.map(({ file }: { file: string }) => file)).toEqual([
      at('house/b/locked'),
      at('house/vanishing'),
    ]);
  });

  it('as SARIF, whose run is marked as incomplete', () => {
    const log = JSON.parse(check('sarif'));
    expect(sarifProblems(log)).toEqual([]);
    const [invocation] = log.runs[0].invocations;
    expect(invocation.executionSuccessful).toBe(false);
    expect(invocation.toolExecutionNotifications).toHaveLength(2);
    expect(log.runs[0].results.length).toBeGreaterThan(0);
  });

  it('as JUnit, with an error for each', () => {
    const root = readXml(check('junit'));
    expect(junitProblems(root)).toEqual([]);
    expect(root.attributes).toMatchObject({ errors: '2' });
    expect(valuesOf(root, 'classname').filter((name) => name.endsWith('/locked'))).toHaveLength(1);
  });

  it('even where nothing else is left, or an empty folder is no trouble', () => {
    for (const args of [[], ['--allow-empty']])
      expect(run(['check', at('house/b'), ...args], '0.0.0')).toMatchObject({
        exitCode: 2,
        complaints: `${told().split('\n')[0]}\n`,
      });
  });
});

describe('format with files and folders that cannot be read', () => {
  const names = () => [at('none.winding'), at('house'), at('round.winding')];
  const complaints = () =>
    [
      told().trimEnd(),
      `slotwright: ${at('none.winding')}: no such file or folder.`,
      `slotwright: ${at('round.winding')}: its links lead in a circle.`,
      '',
    ].join('\n');

  beforeAll(() => {
    symlinkSync('around.winding', at('round.winding'));
    symlinkSync('round.winding', at('around.winding'));
    rmSync(at('house/a.winding'));
  });

  it('--check tells both what would change and what could not be read, and exits 2', () => {
    expect(run(['format', '--check', ...names()], '0.0.0')).toMatchObject({
      exitCode: 2,
      output: `${at('house/z/z.winding')}\n`,
      complaints: complaints(),
    });
  });

  it('--write goes on with the others, and exits 2', async () => {
    expect(await complete(run(['format', '--write', ...names()], '0.0.0'))).toEqual({
      exitCode: 2,
      output: '',
      complaints: `${complaints()}formatted ${at('house/z/z.winding')}\n`,
    });
    expect(run(['format', at('house/z/z.winding')], '0.0.0').output).toBe(cleanWinding);
    expect(run(['format', '--check', at('house/z')], '0.0.0').exitCode).toBe(0);
  });
});
