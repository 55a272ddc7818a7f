import { execFileSync } from 'node:child_process';
import {
  chmodSync,
  linkSync,
  lstatSync,
  mkdirSync,
  mkdtempSync,
  readdirSync,
  readFileSync,
  rmSync,
  statSync,
  symlinkSync,
  utimesSync,
  writeFileSync,
} from 'node:fs';
import * as node from 'node:fs/promises';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { afterEach, beforeEach, describe, expect, it } from 'vitest';
import { complete } from '../../../cli/complete.ts';
import { destinationOf } from '../../../cli/files/destination.ts';
import { type Disk, writeWhole } from '../../../cli/files/writeFile.ts';
import { run } from '../../../cli/program.ts';
import { cleanWinding } from '../../support/windingText.ts';

let folder = '';
const at = (name: string) => join(folder, name);
const read = (name: string) => readFileSync(at(name), 'utf8');
const bytes = (text: string) => new TextEncoder().encode(text);
const write = (name: string, text: string) => writeWhole(at(name), bytes(text));

beforeEach(() => {
  folder = mkdtempSync(join(tmpdir(), 'slotwright-write-'));
});
afterEach(() => rmSync(folder, { recursive: true, force: true }));

describe('a file is written whole', () => {
  it('and keeps its mode, with no other file left beside it', async () => {
    writeFileSync(at('a.csv'), 'old');
    chmodSync(at('a.csv'), 0o640);
    await write('a.csv', 'new');
    expect(read('a.csv')).toBe('new');
    expect(statSync(at('a.csv')).mode & 0o7777).toBe(0o640);
    expect(readdirSync(folder)).toEqual(['a.csv']);
  });

  it('and takes with it what a killed program left there, nothing that may still be in use', async () => {
    // No system has a process of this number (Linux ends at 2^22).
    const gone = 2 ** 30;
    const left = (process: number | string, hex = '0123456789abcdef') => `.slotwright-${process}-${hex}.tmp`;
    const old = [left(gone), left(process.pid), left('notes'), left(gone, 'abc')];
    const fresh = left(gone, 'fedcba9876543210');
    for (const name of [...old, fresh]) writeFileSync(at(name), '');
    const anHourAgo = Date.now() / 1000 - 3600;
    for (const name of old) utimesSync(at(name), anHourAgo, anHourAgo);
    await write('a.csv', 'new');
    expect(readdirSync(folder).sort()).toEqual([...old.slice(1), fresh, 'a.csv'].sort());
  });

  it('with the mode that any new file gets, where there was none', async () => {
    writeFileSync(at('usual'), '');
    await write('a.csv', 'new');
    expect(statSync(at('a.csv')).mode).toBe(statSync(at('usual')).mode);
  });

  it('where links lead, which stay links', async () => {
    mkdirSync(at('store/deep'), { recursive: true });
    writeFileSync(at('store/a.csv'), 'old');
    symlinkSync('store/deep', at('deep'));
    symlinkSync('../a.csv', at('deep/b.csv'));
    symlinkSync('deep/b.csv', at('c.csv'));
    await write('c.csv', 'new');
    expect(read('store/a.csv')).toBe('new');
    for (const link of ['c.csv', 'deep/b.csv']) expect(lstatSync(at(link)).isSymbolicLink()).toBe(true);
  });

  it('where a link leads to a file that is not there yet', async () => {
    mkdirSync(at('store'));
    symlinkSync('store/a.csv', at('a.csv'));
    await write('a.csv', 'new');
    expect(read('store/a.csv')).toBe('new');
    expect(lstatSync(at('a.csv')).isSymbolicLink()).toBe(true);
  });

  it('into a pipe, which stays a pipe', async () => {
    execFileSync('mkfifo', [at('pipe.csv')]);
    const received = node.readFile(at('pipe.csv'), 'utf8');
    const long = 'slot,layer\n'.repeat(20_000);
    await write('pipe.csv', long);
    expect(await received).toBe(long);
    expect(lstatSync(at('pipe.csv')).isFIFO()).toBe(true);
    expect(readdirSync(folder)).toEqual(['pipe.csv']);
  });

  it('never into what can be no file', async () => {
    mkdirSync(at('folder.csv'));
    symlinkSync('folder.csv', at('to-folder.csv'));
    symlinkSync('round.csv', at('around.csv'));
    symlinkSync('around.csv', at('round.csv'));
    writeFileSync(at('plain'), '');
    for (const [name, why] of [
      ['folder.csv', 'is a folder, not a file.'],
      ['to-folder.csv', 'is a folder, not a file.'],
      ['new.csv/', 'is the name of a folder, not of a file.'],
      ['round.csv', 'its links lead in a circle.'],
      ['none/new.csv', `there is no folder ${at('none')}.`],
      ['plain/new.csv', 'a part of its path is no folder.'],
      [`${'n'.repeat(300)}.csv`, 'its name is too long.'],
    ] as const)
      await expect(writeWhole(`${folder}/${name}`, bytes('new')), name).rejects.toThrow(
        `${folder}/${name}: ${why}`,
      );
    await expect(writeWhole('', bytes('new'))).rejects.toThrow('a file name is expected');
    expect(readdirSync(folder).sort()).toEqual([
      'around.csv',
      'folder.csv',
      'plain',
      'round.csv',
      'to-folder.csv',
    ]);
  });
});

/** The file system, in which some calls fail as the system's own would. */
function failing(calls: Partial<Record<'make' | 'write' | 'sync' | 'close' | 'rename', string>>): Disk {
  const fail = (code: string | undefined) => {
    if (code !== undefined) throw Object.assign(new Error(`${code}: planned, call`), { code });
  };
  return {
    ...node,
    rename: async (from, to) => {
      fail(calls.rename);
      await node.rename(from, to);
    },
    open: async (path, flags, mode) => {
      if (flags === 'wx') fail(calls.make);
      const handle = await node.open(path, flags, mode);
      const [writeOf, syncOf, closeOf] = [handle.writeFile, handle.sync, handle.close].map((call) =>
        (call as (...args: unknown[]) => Promise<void>).bind(handle),
      );
      return Object.assign(handle, {
        writeFile: async (content: Uint8Array) => {
          // A part still fits.
          if (calls.write !== undefined) await writeOf!(content.subarray(0, 2));
          fail(calls.write);
          await writeOf!(content);
        },
        sync: async () => {
          if (flags === 'wx') fail(calls.sync);
          await syncOf!();
        },
        close: async () => {
          await closeOf!();
          if (flags === 'wx') fail(calls.close);
        },
      });
    },
  };
}

describe('a write that fails leaves the old file as it was, and nothing beside it', () => {
  it.each([
    [{ make: 'EACCES' }, 'access denied.'],
    [{ make: 'EROFS' }, 'the file system is read-only.'],
    [{ write: 'ENOSPC' }, 'no space left.'],
    [{ write: 'EDQUOT' }, 'the disk quota is used up.'],
    [{ write: 'EFBIG' }, 'larger than a file may become here.'],
    [{ sync: 'EIO' }, 'the disk or the device failed.'],
    [{ close: 'ENOSPC' }, 'no space left.'],
    [{ rename: 'EBUSY' }, 'in use.'],
    [{ rename: 'EPERM' }, 'access denied.'],
    [{ rename: 'EWEIRD' }, 'EWEIRD: planned, call.'],
  ])('%j', async (calls, why) => {
    writeFileSync(at('a.csv'), 'old');
    const place = 'make' in calls ? `no file can be made in its folder ${folder}: ` : '';
    const failed = (name: string) => writeWhole(at(name), bytes('new'), { disk: failing(calls) });
    await expect(failed('a.csv')).rejects.toThrow(
      `${at('a.csv')}: ${place}${why} The file is left as it was.`,
    );
    await expect(failed('b.csv')).rejects.toThrow(`${at('b.csv')}: ${place}${why} Nothing is written.`);
    expect(read('a.csv')).toBe('old');
    expect(readdirSync(folder)).toEqual(['a.csv']);
  });

  it('and a file system that knows no syncing is no trouble', async () => {
    await writeWhole(at('a.csv'), bytes('new'), { disk: failing({ sync: 'EINVAL' }) });
    expect(read('a.csv')).toBe('new');
  });

  it('of a device too: it is told', async () => {
    symlinkSync('/dev/full', at('a.csv'));
    await expect(write('a.csv', 'new')).rejects.toThrow(`${at('a.csv')}: no space left.`);
  });

  it('for each of several files, and the others are written', async () => {
    writeFileSync(at('a.csv'), 'old');
    writeFileSync(at('b.csv'), 'old');
    const files = ['a.csv', 'none/c.csv', 'b.csv'].map((name) => {
      return { file: at(name), content: () => 'new', said: `wrote ${name}\n` };
    });
    expect(await complete({ exitCode: 0, output: 'x', complaints: 'y\n', files })).toEqual({
      exitCode: 2,
      output: 'x',
      complaints: `y\nwrote a.csv\nslotwright: ${at('none/c.csv')}: there is no folder ${at('none')}.\nwrote b.csv\n`,
    });
    expect([read('a.csv'), read('b.csv')]).toEqual(['new', 'new']);
  });
});

describe('format --write', () => {
  const untidy = cleanWinding.replace(/^ {2}/gm, '\t');
  const start = (...names: string[]) => run(['format', '--write', ...names.map(at)], '0.0.0');

  it('leaves a file alone that was changed after it was read', async () => {
    writeFileSync(at('a.winding'), untidy);
    writeFileSync(at('b.winding'), untidy);
    writeFileSync(at('c.winding'), untidy);
    const outcome = start('a.winding', 'b.winding', 'c.winding');
    writeFileSync(at('a.winding'), `${untidy}# checked by the night shift\n`);
    rmSync(at('b.winding'));
    const { exitCode, complaints } = await complete(outcome);
    expect(exitCode).toBe(2);
    expect(complaints.split('\n')).toEqual([
      `slotwright: ${at('a.winding')}: has been changed since it was read; it is left as it is.`,
      `slotwright: ${at('b.winding')}: is gone since it was read; nothing is written.`,
      `formatted ${at('c.winding')}`,
      '',
    ]);
    expect(read('a.winding')).toBe(`${untidy}# checked by the night shift\n`);
    expect(readdirSync(folder).sort()).toEqual(['a.winding', 'c.winding']);
  });

  it('formats a file once that is named twice, by whatever names', async () => {
    writeFileSync(at('a.winding'), untidy);
    symlinkSync('a.winding', at('b.winding'));
    linkSync(at('a.winding'), at('c.winding'));
    const outcome = await complete(start('a.winding', 'b.winding', 'c.winding', 'a.winding', ''));
    expect(outcome).toEqual({ exitCode: 0, output: '', complaints: `formatted ${at('a.winding')}\n` });
    expect(read('a.winding')).toBe(cleanWinding);
  });
});

describe('--output', () => {
  const call = async (...args: string[]) => complete(run(args, '0.0.0'));

  it.each([
    [['draw', '--view', 'layout'], 'svg'],
    [['schedule', '--table', 'slots'], 'csv'],
    [['report'], 'md'],
    [['report'], 'json'],
  ])('%j refuses to replace the winding it reads, by whatever name', async ([command, ...args], ending) => {
    writeFileSync(at('pump.winding'), cleanWinding);
    symlinkSync('pump.winding', at(`soft.${ending}`));
    linkSync(at('pump.winding'), at(`hard.${ending}`));
    writeFileSync(at('other.winding'), cleanWinding);
    symlinkSync('other.winding', at(`other.${ending}`));
    for (const [output, why] of [
      [`soft.${ending}`, 'is the winding that is read; write to another file.'],
      [`hard.${ending}`, 'is the winding that is read; write to another file.'],
      [`other.${ending}`, 'leads to the winding'],
      ['pump.winding', 'the ending of the output file has to be'],
    ] as const) {
      const ended = await call(command!, at('pump.winding'), ...args, '--output', at(output));
      expect({ exitCode: ended.exitCode, output: ended.output }, output).toEqual({ exitCode: 2, output: '' });
      expect(ended.complaints).toMatch(/^slotwright: [^\n]*\n$/);
      expect(ended.complaints, output).toContain(why);
    }
    expect(read('pump.winding')).toBe(cleanWinding);
    expect(read('other.winding')).toBe(cleanWinding);
  });

  it('is no dash: standard output needs no option', async () => {
    writeFileSync(at('pump.winding'), cleanWinding);
    const ended = await call('report', at('pump.winding'), '--output', '-');
    expect(ended).toMatchObject({ exitCode: 2, output: '' });
    expect(ended.complaints).toBe(
      'slotwright: --output -: leave --output out to write to standard output.\n',
    );
  });

  it('is given once', async () => {
    writeFileSync(at('pump.winding'), cleanWinding);
    const places = ['--output', at('a.csv'), '--output', at('b.csv')];
    const ended = await call('schedule', at('pump.winding'), '--table', 'slots', ...places);
    expect(ended.exitCode).toBe(2);
    expect(ended.complaints).toContain('given twice');
    expect(readdirSync(folder)).toEqual(['pump.winding']);
  });

  it('of a report decides its format, and must not speak against --format', async () => {
    writeFileSync(at('pump.winding'), cleanWinding);
    for (const [file, format] of [
      ['r.md', 'markdown'],
      ['r.json', 'json'],
    ] as const) {
      const ended = await call('report', at('pump.winding'), '--output', at(file));
      expect(ended).toEqual({ exitCode: 0, output: '', complaints: '' });
      expect(read(file)).toBe((await call('report', at('pump.winding'), '--format', format)).output);
    }
    const ended = await call('report', at('pump.winding'), '--format', 'json', '--output', at('s.md'));
    expect(ended.exitCode).toBe(2);
    expect(ended.complaints).toContain('asks for markdown');
    expect(readdirSync(folder).sort()).toEqual(['pump.winding', 'r.json', 'r.md']);
  });

  it('knows what this process holds open', () => {
    expect(destinationOf('/dev/fd/63')).toEqual({ kind: 'descriptor', descriptor: 63 });
    expect(destinationOf(`/proc/${process.pid}/fd/7`)).toEqual({ kind: 'descriptor', descriptor: 7 });
    expect(destinationOf('/dev/stdout')).toEqual({ kind: 'descriptor', descriptor: 1 });
    expect(destinationOf('/dev/null')).toEqual({ kind: 'stream', path: '/dev/null' });
  });
});
