// Takes its time: starts programs.

import { spawnSync } from 'node:child_process';
import {
  chmodSync,
  chownSync,
  mkdirSync,
  readdirSync,
  readFileSync,
  rmSync,
  statSync,
  writeFileSync,
} from 'node:fs';
import { join } from 'node:path';
import { afterAll, beforeAll, beforeEach, describe, expect, it } from 'vitest';
import { run } from '../../cli/program.ts';
import { format } from '../../core/language/format/formatter.ts';
import { schedule } from '../../core/tables/schedule.ts';
import { study } from '../support/study.ts';
import { withMore } from '../support/tries.ts';
import { cleanWinding } from '../support/windingText.ts';
import { type BuiltProgram, buildProgram } from './builtProgram.ts';

// What only the operating system can do to the program: full disks, closed pipes, signals, foreign folders.

let program: BuiltProgram;
const at = (name: string) => join(program.folder, name);
const read = (name: string) => readFileSync(at(name), 'utf8');

/** A sound winding of more than 4 kB, whose formatting changes it. */
const long = `${cleanWinding.replace(/^ {2}/gm, '\t')}${'# Checked by the night shift of the ferry yard.\n'.repeat(100)}`;

beforeAll(async () => {
  program = await buildProgram();
});
afterAll(() => program.dispose());
beforeEach(() => {
  rmSync(program.folder, { recursive: true });
  mkdirSync(program.folder);
  writeFileSync(at('a.winding'), long);
});

describe('a disk that takes no more', () => {
  it('leaves a winding as it was when it is formatted', () => {
    const { status, stdout, stderr } = program.bash('ulimit -f 2; slotwright format --write a.winding');
    expect({ status, stdout, stderr }).toEqual({
      status: 2,
      stdout: '',
      stderr: 'slotwright: a.winding: larger than a file may become here. The file is left as it was.\n',
    });
    expect(read('a.winding')).toBe(long);
    expect(readdirSync(program.folder)).toEqual(['a.winding']);
  });

  it.each(
    withMore(
      ['draw a.winding --view layout --output a.svg'],
      [
        'report a.winding --output a.md',
        'report a.winding --output a.json',
        'schedule a.winding --table slots --output a.csv',
      ],
    ),
  )('leaves the old file as it was: %s', (line) => {
    const output = line.split(' ').at(-1)!;
    writeFileSync(at(output), 'old');
    const { status, stderr } = program.bash(`ulimit -f 0; slotwright ${line}`);
    expect(status).toBe(2);
    expect(stderr).toBe(
      `slotwright: ${output}: larger than a file may become here. The file is left as it was.\n`,
    );
    expect(read(output)).toBe('old');
    expect(readdirSync(program.folder).sort()).toEqual([output, 'a.winding'].sort());
  });

  it.each(withMore(['report a.winding'], ['--help', 'check a.winding', 'format a.winding']))(
    'is told in one line where standard output goes there: %s',
    (line) => {
      const { status, stderr } = program.bash(`slotwright ${line} > /dev/full`);
      expect({ status, stderr }).toEqual({
        status: 2,
        stderr: 'slotwright: standard output: no space left.\n',
      });
    },
  );

  it('is told where a part of standard output still fits', () => {
    const { status, stderr } = program.bash('ulimit -f 2; slotwright report a.winding > report.md');
    expect(statSync(at('report.md')).size).toBe(2048);
    expect({ status, stderr }).toEqual({
      status: 2,
      stderr: 'slotwright: standard output: larger than a file may become here.\n',
    });
  });

  it('does not pass for well where a note to standard error goes there, and changes nothing else', () => {
    const ended = program.bash('slotwright schedule a.winding --table duty 2> /dev/full');
    expect(ended).toMatchObject({ status: 2, stdout: expect.stringMatching(/^point,.*\r\n$/) });
  });
});

describe('a stream that is open the other way', () => {
  it('is told where it is standard output', () => {
    const { status, stderr } = program.bash('slotwright --version 1< /dev/null');
    expect({ status, stderr }).toEqual({
      status: 2,
      stderr: 'slotwright: standard output: closed, or not open for this.\n',
    });
  });
});

describe('a reader that stops early', () => {
  it.each(
    withMore(
      [
        'slotwright report a.winding --format json --orders 2000 | true',
        'slotwright report a.winding --format json --orders 2000 --output /dev/stdout | head -1',
        'slotwright check none.winding a.winding 2> >(true)',
      ],
      [
        'slotwright report a.winding --format json --orders 20000 | head -1',
        'slotwright report a.winding --format json --orders 20000 | true',
      ],
    ),
  )('is no trouble: %s', (line) => {
    const { status, stderr } = program.bash(`set -o pipefail; ${line}`);
    expect({ status, stderr }).toEqual({ status: line.includes('none') ? 2 : 0, stderr: '' });
  });
});

describe('--output to what is no file', () => {
  it('goes to standard output by its name, behind what stands there', () => {
    const { status, stderr } = program.bash(
      'echo before > log; slotwright schedule a.winding --table slots --output /dev/stdout >> log; echo after >> log',
    );
    expect({ status, stderr }).toEqual({ status: 0, stderr: '' });
    const table = schedule(study(long).facts!, 'slots');
    expect(read('log')).toBe(`before\n${table}after\n`);
  });

  it('goes whole into another program', () => {
    const { status, stderr } = program.bash(
      'slotwright draw a.winding --view layout --output >(cat > a.svg); s=$?; wait; exit $s',
    );
    expect({ status, stderr }).toEqual({ status: 0, stderr: '' });
    expect(read('a.svg')).toBe(run(['draw', at('a.winding'), '--view', 'layout'], '0.0.0').output);
  });
});

describe('a signal', () => {
  /** Has the program send itself a signal when it would sync what it has written, and then wait. */
  const stopping = (signal: string) => `
    const fs = require('node:fs/promises');
    const open = fs.open;
    fs.open = async (...parts) => Object.assign(await open(...parts), {
      sync: () => {
        require('node:fs').writeFileSync(${JSON.stringify(at('seen'))}, require('node:fs').readdirSync('.').join());
        process.kill(process.pid, '${signal}');
        return new Promise((resolve) => setTimeout(resolve, 100_000));
      },
    });`;

  it('is not lost where it comes when the file has just taken its place', () => {
    const late = `
      const fs = require('node:fs/promises');
      const rename = fs.rename;
      fs.rename = async (...names) => {
        await rename(...names);
        // No folder is synced, so that nothing else gives the loop a turn.
        fs.open = () => Promise.reject(new Error('planned'));
        process.kill(process.pid, 'SIGTERM');
      };`;
    writeFileSync(at('late.cjs'), late);
    const ended = program.call(['format', '--write', 'a.winding'], '', ['--require', at('late.cjs')]);
    expect(ended).toEqual({ status: null, signal: 'SIGTERM', stdout: '', stderr: '' });
    expect(read('a.winding')).toBe(format(long));
  });

  it.each(withMore(['SIGTERM'], ['SIGINT', 'SIGHUP']))(
    '%s ends the program and leaves no half file',
    (signal) => {
      writeFileSync(at('stop.cjs'), stopping(signal));
      const ended = program.call(['format', '--write', 'a.winding'], '', ['--require', at('stop.cjs')]);
      expect(read('seen')).toMatch(/^\.slotwright-\d+-[0-9a-f]+\.tmp,/);
      expect(ended).toEqual({ status: null, signal, stdout: '', stderr: '' });
      expect(read('a.winding')).toBe(long);
      expect(readdirSync(program.folder).sort()).toEqual(['a.winding', 'seen', 'stop.cjs']);
    },
  );
});

/** An ordinary user, whom file modes bind: the one who runs the tests, or nobody where that is root. */
const nobody = 65_534;
const isRoot = process.getuid?.() === 0;
const asUser = isRoot ? { uid: nobody, gid: nobody } : {};

/** Whether that user can run Node and reach the folder for temporary files; a root's own may be closed. */
function canRun(): boolean {
  const probe = 'fs.readdirSync(os.tmpdir())';
  return process.getuid !== undefined && spawnSync(process.execPath, ['-e', probe], asUser).status === 0;
}

describe.runIf(canRun())('for an ordinary user', () => {
  const call = (...args: string[]) => program.call(args, '', [], asUser);
  const give = (name: string, mode: number) => {
    if (isRoot) chownSync(at(name), nobody, nobody);
    chmodSync(at(name), mode);
  };

  beforeEach(() => {
    mkdirSync(at('shop'));
    writeFileSync(at('shop/a.winding'), long);
    give('shop/a.winding', 0o644);
  });

  it('a question is not judged where its answer cannot be written', () => {
    // So many whole studies are asked about first; the folder is looked at before.
    const question = `${long}\nvary {\n  bar height 1 mm to 9 mm by 0.001 mm\n  bar width 1 mm to 3 mm by 0.1 mm\n  rank least copper-loss\n}\n`;
    writeFileSync(at('many.winding'), question);
    give('many.winding', 0o644);
    give('shop', 0o555);
    const { status, stdout, stderr } = call('explore', 'many.winding', '--output', 'shop/answer.json');
    chmodSync(at('shop'), 0o755);
    expect([status, stdout]).toEqual([2, '']);
    expect(stderr).toBe(
      'slotwright: shop/answer.json: no file can be made in its folder shop: access denied.\n',
    );
  });

  it('a folder that cannot be searched is told, and the rest is checked', () => {
    writeFileSync(at('shop/b.winding'), 'machine {');
    mkdirSync(at('shop/private'));
    give('shop/private', 0o000);
    const { status, stdout, stderr } = call('check', 'shop');
    chmodSync(at('shop/private'), 0o755);
    expect(status).toBe(2);
    expect(stderr).toBe('slotwright: shop/private: the folder cannot be searched: access denied.\n');
    expect(stdout).toMatch(/^2 files checked: /m);
  });

  it('a read-only folder is told, and nothing in it harmed', () => {
    give('shop', 0o555);
    const ended = call('format', '--write', 'shop/a.winding');
    const drawn = call('draw', 'shop/a.winding', '--view', 'layout', '--output', 'shop/a.svg');
    chmodSync(at('shop'), 0o755);
    const why = (file: string) =>
      `slotwright: ${file}: no file can be made in its folder shop: access denied.`;
    expect(ended).toMatchObject({
      status: 2,
      stderr: `${why('shop/a.winding')} The file is left as it was.\n`,
    });
    expect(drawn).toMatchObject({ status: 2, stderr: `${why('shop/a.svg')} Nothing is written.\n` });
    expect(read('shop/a.winding')).toBe(long);
    expect(readdirSync(at('shop'))).toEqual(['a.winding']);
  });

  it('a write-protected file stays, though its folder would let it be replaced', () => {
    give('shop/a.winding', 0o444);
    give('shop', 0o755);
    const ended = call('format', '--write', 'shop/a.winding');
    expect(ended).toMatchObject({ status: 2, stderr: 'slotwright: shop/a.winding: write-protected.\n' });
    expect(read('shop/a.winding')).toBe(long);
  });

  it('a file that can be replaced keeps its owner and mode', () => {
    give('shop/a.winding', 0o640);
    give('shop', 0o755);
    const before = statSync(at('shop/a.winding'));
    expect(program.call(['format', '--write', 'shop/a.winding']).status).toBe(0);
    const { uid, gid, mode } = statSync(at('shop/a.winding'));
    expect({ uid, gid, mode }).toEqual({ uid: before.uid, gid: before.gid, mode: before.mode });
    expect(read('shop/a.winding')).toBe(format(long));
  });
});
