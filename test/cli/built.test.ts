// Takes its time: starts programs.

import { readFileSync, writeFileSync } from 'node:fs';
import { join } from 'node:path';
import { afterAll, beforeAll, describe, expect, it } from 'vitest';
import { complete } from '../../cli/complete.ts';
import { run } from '../../cli/program.ts';
import { projectFolder } from '../support/files.ts';
import { study } from '../support/study.ts';
import { cleanWinding } from '../support/windingText.ts';
import { type BuiltProgram, buildProgram } from './builtProgram.ts';

// The program as Node runs it: bundled in the way the build does, called as a process.

let program: BuiltProgram;

beforeAll(async () => {
  program = await buildProgram();
});
afterAll(() => program.dispose());

function call(args: readonly string[], input = '') {
  const { status, stdout, stderr } = program.call(args, input);
  return { status, stdout, stderr };
}

const { version } = JSON.parse(readFileSync(`${projectFolder}package.json`, 'utf8')) as {
  readonly version: string;
};
const sound = { text: cleanWinding };

describe('the program as a process', () => {
  it('reads standard input, and writes a long report of it whole', () => {
    const long = ['report', '-', '--format', 'json', '--orders', '3000'];
    const { status, stdout, stderr } = call(long, sound.text);
    expect({ status, stderr }).toEqual({ status: 0, stderr: '' });
    const { factors, title } = JSON.parse(stdout);
    expect(title).toBe(study(sound.text).title);
    expect(factors).toHaveLength(3000);
  });

  it('answers empty input, and complains on standard error only', () => {
    const { status, stdout, stderr } = call(['check', '-', 'none.winding']);
    expect(status).toBe(2);
    expect(stderr).toBe('slotwright: none.winding: no such file or folder.\n');
    expect(stdout).toMatch(/^<stdin>:1:1: /);
    expect(stdout).not.toContain('none.winding');
  });

  it('knows the version of the package', () => {
    expect(call(['--version']).stdout).toBe(`${version}\n`);
  });

  it('writes a file', () => {
    writeFileSync(join(program.folder, 'a.winding'), sound.text.replace(/^ {2}/gm, ''));
    expect(call(['format', '--write', 'a.winding'])).toEqual({
      status: 0,
      stdout: '',
      stderr: 'formatted a.winding\n',
    });
    expect(readFileSync(join(program.folder, 'a.winding'), 'utf8')).toBe(sound.text);
  });
});

describe('check in threads', () => {
  it('tells the same as alone, in the order of the files', async () => {
    const texts = [
      sound.text.replace('machine {', 'machine {\n  nonsense 1'),
      `${sound.text}require { winding-factor harmonic 1 >= 2 }\n`,
      sound.text,
    ];
    const files = texts.map((text, i) => {
      writeFileSync(join(program.folder, `file-${i}.winding`), text);
      return `file-${i}.winding`;
    });
    files.splice(1, 0, 'none.winding');
    const home = process.cwd();
    const asked = ['check', ...files, '--format', 'sarif'];
    process.chdir(program.folder);
    const { exitCode: status, output: stdout, complaints: stderr } = run(asked, version);
    process.chdir(home);
    expect(status).toBe(2);
    for (const file of files.slice(0, 3)) expect(stdout + stderr).toContain(file);
    expect(call([...asked, '--workers', '2'])).toEqual({ status, stdout, stderr });
  });

  it('reads standard input in its place, and tells with a limit why it failed', () => {
    writeFileSync(join(program.folder, 'b.winding'), sound.text.replace('>= 0.96', '>= 0.99'));
    const asked = ['check', 'b.winding', '-', '--workers', '2', '--format', 'junit'];
    const { status, stdout } = call(asked, 'winding "x"\nmachine {');
    expect(status).toBe(1);
    const suites = Array.from(stdout.matchAll(/<testsuite name="([^"]*)"/g), ([, name]) => name);
    expect(suites).toEqual(['b.winding', '&lt;stdin&gt;']);
    expect(stdout).toMatch(
      /name="winding-factor harmonic 1 &gt;= 0\.99">\s*<failure type="finding" message="[^"]* 0\.9659/,
    );
  });
});

describe('explore in a process of its own', () => {
  const question = (rows: string) =>
    `winding "Capstan"\nmachine { slots 12  poles 10  phases 3 }\nlayout { layers 2  span 1 }\nvary {\n${rows}\nrank most winding-factor harmonic 1 least differential-leakage\n}\n`;

  it('gives the same in threads as alone', async () => {
    writeFileSync(
      join(program.folder, 'capstan.winding'),
      `${question('machine poles 10 14\nlayout skew all 0 deg to 20 deg by 0.4 deg')}require { winding-factor harmonic 1 >= 0.93 }\n`,
    );
    const asked = (file: string, workers: string) =>
      ['explore', file, '--format', 'json', '--workers', workers] as const;
    const threads = call(asked('capstan.winding', '2'));
    const alone = await complete(run(asked(join(program.folder, 'capstan.winding'), '1'), version));
    expect(alone.output.length).toBeGreaterThan(1000);
    expect(threads).toEqual({ status: 0, stdout: alone.output, stderr: alone.complaints });
    // Limits of the rows are looked at in threads, too.
    const { rows } = JSON.parse(threads.stdout) as { rows: { limits: (boolean | null)[] }[] };
    expect(new Set(rows.flatMap(({ limits }) => limits))).toContain(true);
  });

  // The rows are read until some have come; then the run is stopped, and the rest is read.
  it.each(['1', '2'])(
    'stopped by Ctrl-C with %s threads, leaves what it has, and says that it is a part',
    (workers) => {
      const many = question('bar height 1 mm to 9 mm by 0.01 mm\nbar width 1 mm to 3 mm by 0.01 mm');
      writeFileSync(join(program.folder, 'many.winding'), many);
      const { stdout, stderr } = program.bash(
        `rm -f rows; mkfifo rows; ${program.name} explore many.winding --format csv --workers ${workers} > rows 2> told & run=$!
       exec 3< rows; read -r -u 3 head; read -r -u 3 first; kill -INT $run; cat <&3 > rest; wait $run; echo "$? $head"; tail -n 1 rest; wc -l < rest; cat told >&2`,
      );
      const [state, last, count] = stdout.split('\n');
      expect(state).toMatch(/^1 number,bar height,bar width,winding-factor harmonic 1,differential-leakage/);
      // Whole rows, as they come in the order of their numbers.
      expect(Number(last!.split(',')[0])).toBe(Number(count) + 1);
      expect(Number(count)).toBeLessThan(160_000);
      expect(stderr).toBe('slotwright: stopped: what is here is a part of the answer.\n');
    },
  );
});
