// Takes its time: starts programs.

import { mkdirSync, mkdtempSync, rmSync, writeFileSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { afterAll, beforeAll, describe, expect, it } from 'vitest';
import { type CheckOptions, check, mostTold } from '../../cli/commands/check.ts';
import { readAtMost } from '../../cli/files/boundedRead.ts';
import { run } from '../../cli/program.ts';
import { mostFindings } from '../../core/language/text/parser.ts';
import { compareSchema } from '../../core/review/schema.ts';
import { readXml, valuesOf } from '../picture/checkPicture.ts';
import { withMore } from '../support/tries.ts';
import { cleanWinding } from '../support/windingText.ts';
import { type BuiltProgram, buildProgram } from './builtProgram.ts';
import { makeRepository } from './repository.ts';

describe('reading', () => {
  it('ends at the limit, however much there is', () => {
    let asked = 0;
    const endless = (chunk: Uint8Array) => {
      asked += chunk.length;
      return chunk.length;
    };
    expect(readAtMost(1_000_000, endless)).toBeNull();
    expect(asked).toBeGreaterThan(1_000_000);
    expect(asked).toBeLessThanOrEqual(1_000_000 + 64 * 1024);
  });

  it('gives all there is up to the limit, in whatever portions it comes', () => {
    const source = Uint8Array.from({ length: 100 }, (_, i) => i);
    for (const portion of [1, 7, 99, 100]) {
      const portions = () => {
        let at = 0;
        return (chunk: Uint8Array) => {
          const part = source.subarray(at, Math.min(at + portion, source.length));
          chunk.set(part);
          at += part.length;
          return part.length;
        };
      };
      expect(Uint8Array.from(readAtMost(100, portions())!)).toEqual(source);
      expect(readAtMost(99, portions())).toBeNull();
    }
    expect(readAtMost(0, () => 0)).toHaveLength(0);
  });
});

let program: BuiltProgram;

beforeAll(async () => {
  program = await buildProgram();
});
afterAll(() => program.dispose());

describe('the built program', () => {
  it.each(
    withMore(
      [
        'yes "# noise" | slotwright check /dev/zero -',
        'mkfifo pipe 2> /dev/null; yes "# noise" > pipe & slotwright compare pipe pipe',
      ],
      [
        'yes "# noise" | slotwright report - > /dev/null',
        'slotwright check /dev/zero',
        'slotwright check < /dev/zero -',
        'slotwright format --check <(yes "# noise")',
      ],
    ),
  )('stops where there is no end: %s', (line) => {
    const { status, stdout, stderr } = program.bash(line);
    expect([status, stdout]).toEqual([2, '']);
    expect(stderr).toMatch(/^(slotwright: .*: larger than 8 MB; this is no winding file\.\n)+$/);
    if (line.includes('zero -')) expect(stderr).toMatch(/zero: .*\n.*standard input: /);
  });

  it('reads pipes to their end', () => {
    writeFileSync(join(program.folder, 'plain.winding'), cleanWinding);
    const line =
      '(head -c 40 plain.winding; tail -c +41 plain.winding) | slotwright check - <(cat plain.winding)';
    expect(program.bash(line)).toMatchObject({
      status: 0,
      stdout: '2 files checked: 0 errors, 0 warnings.\n',
    });
  });
});

describe('check', () => {
  let folder: string;
  const most = Math.ceil(mostTold / (mostFindings + 1));
  beforeAll(() => {
    folder = mkdtempSync(join(tmpdir(), 'slotwright-bounds-'));
    mkdirSync(join(folder, 'one more'));
    for (let i = 0; i < most + 3; i++)
      writeFileSync(join(folder, `${String(i).padStart(4, '0')}.winding`), '}\n'.repeat(mostFindings + 1));
  });
  afterAll(() => rmSync(folder, { recursive: true, force: true }));

  it('stops where more is found than anybody reads, and says what is not checked', () => {
    const left = join(folder, `${String(most).padStart(4, '0')}.winding`);
    const said = `${left} and 2 files behind it are not checked: `;
    const text = run(['check', folder], '0.0.0');
    expect(text.exitCode).toBe(2);
    expect(text.complaints).toContain(said);
    expect(text.complaints.split('\n')).toHaveLength(2);
    expect(text.output).toMatch(new RegExp(`\\n${most} files checked: `));
    const threads = program.call(['check', folder, '--workers', '2']);
    expect([threads.status, threads.stderr]).toEqual([2, text.complaints]);
    // Compared as a whole: a difference in millions of characters is not shown.
    expect(threads.stdout === text.output).toBe(true);
  });

  it('does so in every format', () => {
    const few = 2 * mostFindings;
    const told = (format: CheckOptions['format']) =>
      check([folder], { format, maxWarnings: 0, mostFindings: few }, { version: '0.0.0' }).output;
    const json = JSON.parse(told('json'));
    expect(json.files).toHaveLength(2);
    expect(json.unread).toHaveLength(1);
    expect(json.unread[0]).toMatchObject({ file: join(folder, '0002.winding') });
    const sarif = JSON.parse(told('sarif')).runs[0];
    expect(sarif.invocations[0].executionSuccessful).toBe(false);
    expect(sarif.results.length).toBeLessThan(few + 10);
    expect(new Set(valuesOf(readXml(told('junit')), 'classname')).size).toBe(3);
  });
});

describe('compare --base', () => {
  it('says where files are too large to be recognized under a new name', () => {
    const repository = makeRepository();
    try {
      const large = (i: number, words: string) =>
        `${cleanWinding}${`# ${words.padEnd(200, '.')} ${i}\n`.repeat(1300)}`;
      for (let i = 0; i < 3; i++) repository.write(`old/${i}.winding`, large(i, 'same'));
      repository.write('old/small.winding', cleanWinding);
      repository.write('kept.winding', cleanWinding);
      const base = repository.commit('start');
      repository.git('mv', 'old', 'new');
      for (let i = 1; i < 3; i++) repository.write(`new/${i}.winding`, large(i, 'other'));
      repository.write('new/small.winding', cleanWinding.replace('span   6', 'span   5'));
      const call = (...args: string[]) => run(['compare', '--base', base, ...args], '0.0.0');
      const json = call(repository.folder, '--format', 'json');
      const { files, notes } = compareSchema.parse(JSON.parse(json.output)) as unknown as {
        files: { file: string; status: string }[];
        notes: string[];
      };
      expect(files.map(({ file, status }) => `${file} ${status}`)).toEqual([
        'kept.winding same',
        'new/0.winding renamed',
        'new/1.winding added',
        'new/2.winding added',
        'new/small.winding renamed',
        'old/1.winding deleted',
        'old/2.winding deleted',
      ]);
      expect(notes).toHaveLength(1);
      expect(notes[0]).toContain('2 deleted files and 2 added files, larger than 256 kB');
      expect(json.complaints).toBe(`slotwright: ${notes[0]}\n`);
      expect(call(repository.folder).output).toContain(notes[0]);
      const one = call(join(repository.folder, 'new/small.winding'), '--format', 'json');
      expect(JSON.parse(one.output).notes).toEqual(notes);
      // A file that git has in a form too large to be read is told, and does not stop the others.
      expect(call(join(repository.folder, 'kept.winding')).output).toContain('0 winding files changed');
    } finally {
      repository.dispose();
    }
  });

  it('reads old contents in portions, and none that is too large', () => {
    const repository = makeRepository();
    try {
      for (let i = 0; i < 5; i++)
        repository.write(`${i}.winding`, `${cleanWinding}# ${'x'.repeat(i === 2 ? 9e6 : 5e6)}${i}\n`);
      const base = repository.commit('start');
      for (let i = 0; i < 5; i++) repository.write(`${i}.winding`, cleanWinding);
      const { output, complaints, exitCode } = run(
        ['compare', '--base', base, repository.folder, '--format', 'json', '--fail-on', 'none'],
        '0.0.0',
      );
      expect(exitCode).toBe(0);
      expect(complaints).toBe(`slotwright: ${base}:2.winding: larger than 8 MB; this is no winding file.\n`);
      expect(JSON.parse(output).files).toHaveLength(5);
    } finally {
      repository.dispose();
    }
  });
});
