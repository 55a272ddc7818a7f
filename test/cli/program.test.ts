// Takes its time: runs the command line on whole windings and repositories.

import { mkdirSync, mkdtempSync, readdirSync, readFileSync, rmSync, writeFileSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { afterAll, beforeAll, describe, expect, it } from 'vitest';
import { complete } from '../../cli/complete.ts';
import { run } from '../../cli/program.ts';
import { format } from '../../core/language/format/formatter.ts';
import { reportSchema } from '../../core/report/schema.ts';
import { examples, projectFolder } from '../support/files.ts';
import { study } from '../support/study.ts';
import { cleanWinding, windingText } from '../support/windingText.ts';

let folder = '';
const at = (name: string) => join(folder, name);
const call = (...args: readonly string[]) => run(args, '9.9.9');
/** The same, with the files written. */
const callToEnd = (...args: readonly string[]) => complete(call(...args));

const sound = { text: cleanWinding };
const broken = examples.find(({ name }) => name === 'broken-ballast-pump.winding')!;
const warned = windingText({
  machine: 'slots 9 poles 8 phases 3',
  layout: 'layers 2 span 1',
  rest: 'connect { star }',
});

beforeAll(() => {
  folder = mkdtempSync(join(tmpdir(), 'slotwright-'));
  mkdirSync(at('windings/deep/node_modules'), { recursive: true });
  mkdirSync(at('windings/.hidden'), { recursive: true });
  mkdirSync(at('empty'));
  writeFileSync(at('windings/b.winding'), sound.text);
  writeFileSync(at('windings/deep/a.winding'), broken.text);
  writeFileSync(at('windings/deep/node_modules/c.winding'), broken.text);
  writeFileSync(at('windings/.hidden/d.winding'), broken.text);
  writeFileSync(at('windings/notes.txt'), 'not a winding');
  writeFileSync(at('sound.winding'), sound.text);
  writeFileSync(at('broken.winding'), broken.text);
  writeFileSync(at('warned.winding'), warned);
  writeFileSync(at('untidy.winding'), sound.text.replace(/^ {2}/gm, '\t'));
  writeFileSync(at('latin.winding'), Buffer.from('winding "Sch\xfctz"\n', 'latin1'));
  writeFileSync(at('huge.winding'), Buffer.alloc(9 * 1024 * 1024, 35));
});

afterAll(() => rmSync(folder, { recursive: true, force: true }));

describe('check', () => {
  it('exits 0 for a clean file and says so', () => {
    const { exitCode, output, complaints } = call('check', at('sound.winding'));
    expect({ exitCode, complaints }).toEqual({ exitCode: 0, complaints: '' });
    expect(output).toBe('1 file checked: 0 errors, 0 warnings.\n');
  });

  it('exits 1 for errors, each on a line with its place and code', () => {
    const { exitCode, output, complaints } = call('check', at('broken.winding'));
    expect({ exitCode, complaints }).toEqual({ exitCode: 1, complaints: '' });
    const lines = output.trimEnd().split('\n');
    const { findings } = study(broken.text);
    const first = findings[0]!;
    const before = broken.text.slice(0, first.range.start).split('\n');
    expect(lines[0]).toBe(
      `${at('broken.winding')}:${before.length}:${before[before.length - 1]!.length + 1}: ${first.severity}: ${first.message} [${first.code}]`,
    );
    expect(lines.filter((line) => /: (error|warning|info): /.test(line))).toHaveLength(findings.length);
  });

  it('exits 1 for more warnings than allowed', () => {
    expect(call('check', at('warned.winding')).output).toMatch(/0 errors, [1-9]\d* warnings?\.\n$/);
    expect(call('check', at('warned.winding')).exitCode).toBe(0);
    expect(call('check', at('warned.winding'), '--max-warnings', '9').exitCode).toBe(0);
    expect(call('check', at('warned.winding'), '--max-warnings', '0').exitCode).toBe(1);
    expect(call('check', '--max-warnings=0', at('sound.winding')).exitCode).toBe(0);
  });

  it('searches folders, but not hidden ones and node_modules', () => {
    const { exitCode, output } = call('check', at('windings'), '--format', 'json');
    expect(exitCode).toBe(1);
    const files = (JSON.parse(output) as { files: { file: string }[] }).files.map(({ file }) => file);
    expect(files).toEqual([at('windings/b.winding'), at('windings/deep/a.winding')]);
  });

  it('checks a file once, however often it is named, where it is named first', () => {
    const [a, b] = [at('windings/deep/a.winding'), at('windings/b.winding')];
    const filesOf = (output: string) =>
      (JSON.parse(output) as { files: { file: string }[] }).files.map(({ file }) => file);
    const json = (...names: string[]) => call('check', ...names, '--format', 'json').output;
    const twice = json(a, `${at('empty')}/../windings/deep/a.winding`);
    expect(filesOf(twice)).toEqual([a]);
    expect(twice).toBe(json(a));
    expect(filesOf(json(a, at('windings'), b, at('windings')))).toEqual([a, b]);
    expect(filesOf(json(at('windings'), a))).toEqual([b, a]);
    const missing = call('check', at('none'), `${at('empty')}/../none`);
    expect(missing.complaints.match(/no such file/g)).toHaveLength(1);
  });

  it('writes JSON of its contract', () => {
    const { output } = call('check', at('sound.winding'), at('broken.winding'), '--format', 'json');
    const result = JSON.parse(output);
    expect(Object.keys(result)).toEqual(['schema', 'files', 'errors', 'warnings']);
    expect(result.schema).toBe('slotwright-check/1');
    expect(result.files[0]).toEqual({ file: at('sound.winding'), findings: [] });
    expect(result.files[1].findings).toEqual(study(broken.text).report().findings);
    const severities = result.files[1].findings.map(({ severity }: { severity: string }) => severity);
    expect(result.errors).toBe(severities.filter((severity: string) => severity === 'error').length);
  });

  it('exits 2 for a file that cannot be read, and still checks the others', () => {
    const { exitCode, output, complaints } = call('check', at('none.winding'), at('broken.winding'));
    expect(exitCode).toBe(2);
    expect(complaints).toBe(`slotwright: ${at('none.winding')}: no such file or folder.\n`);
    expect(output).toContain('[unit-missing]');
    expect(output).toMatch(/^1 file checked/m);
  });

  it.each([
    ['latin.winding', 'not UTF-8 text'],
    ['huge.winding', 'larger than 8 MB'],
    ['empty', 'no .winding files in'],
  ])('exits 2 for %s', (name, reason) => {
    const { exitCode, output, complaints } = call('check', at(name));
    expect({ exitCode, output }).toEqual({ exitCode: 2, output: '' });
    expect(complaints).toContain(reason);
    expect(complaints).not.toMatch(/\n\s+at /);
  });

  it('takes an empty folder as clean where that is asked for, not a missing one', () => {
    expect(call('check', at('empty'), '--allow-empty')).toEqual({
      exitCode: 0,
      output: '0 files checked: 0 errors, 0 warnings.\n',
      complaints: '',
    });
    expect(call('check', at('none'), '--allow-empty').exitCode).toBe(2);
  });
});

describe('report', () => {
  it('writes Markdown by default', () => {
    const { exitCode, output, complaints } = call('report', at('sound.winding'));
    expect({ exitCode, complaints }).toEqual({ exitCode: 0, complaints: '' });
    expect(output).toBe(study(sound.text).markdown());
  });

  it('writes JSON of its schema', () => {
    const { output } = call('report', at('sound.winding'), '--format', 'json', '--orders', '7');
    expect(reportSchema.parse(JSON.parse(output)).factors).toHaveLength(7);
  });

  it('is written for a text with errors too, with exit code 1', () => {
    const { exitCode, output } = call('report', at('broken.winding'), '--format', 'json');
    expect(exitCode).toBe(1);
    expect(reportSchema.parse(JSON.parse(output)).findings.length).toBeGreaterThan(3);
    expect(call('report', at('broken.winding')).output).toContain('## Findings');
  });

  it.each(['0', '-1', '1.5', 'many', '1e3', '50001', '1000001', ''])('refuses --orders %s', (orders) => {
    const { exitCode, output, complaints } = call('report', at('sound.winding'), `--orders=${orders}`);
    expect({ exitCode, output }).toEqual({ exitCode: 2, output: '' });
    expect(complaints).toContain('--orders');
    expect(complaints).toContain('A whole number from 1 to 50000 is expected');
    expect(call('report', '--help').output.replace(/\s+/g, ' ')).toContain(
      'highest order listed, 1 to 50000',
    );
  });

  it.each([
    ['check', ''],
    ['report', ''],
    ['compare', 'examples/tidal-pump.winding', ''],
    ['compare', '--base', 'HEAD', ''],
    ['report', 'examples/tidal-pump.winding', '--output', ''],
  ])('says that a name is expected where none is given: %s', (...args) => {
    const { exitCode, complaints } = call(...args);
    expect({ exitCode, complaints }).toEqual({
      exitCode: 2,
      complaints: 'slotwright: a file name is expected, not an empty text.\n',
    });
  });

  it('exits 2 for a folder and for a missing file', () => {
    expect(call('report', at('windings'))).toEqual({
      exitCode: 2,
      output: '',
      complaints: `slotwright: ${at('windings')}: is a folder, not a file.\n`,
    });
    expect(call('report', at('none.winding')).exitCode).toBe(2);
  });
});

describe('draw', () => {
  it('writes SVG to standard output', () => {
    const { exitCode, output, complaints } = call('draw', at('sound.winding'), '--view', 'layout');
    expect({ exitCode, complaints }).toEqual({ exitCode: 0, complaints: '' });
    expect(output).toMatch(/^<(\?xml|svg)/);
    expect(output.trimEnd()).toMatch(/<\/svg>$/);
  });

  it('writes SVG to a file, and nothing to standard output', async () => {
    const { exitCode, output } = await callToEnd(
      'draw',
      at('sound.winding'),
      '--view',
      'layout',
      '--output',
      at('drawn.svg'),
    );
    expect({ exitCode, output }).toEqual({ exitCode: 0, output: '' });
    expect(readFileSync(at('drawn.svg'), 'utf8')).toBe(
      call('draw', at('sound.winding'), '--view', 'layout').output,
    );
  });

  it('refuses an ending it cannot write, a folder that is missing and a view there is not', () => {
    for (const args of [
      ['--view', 'layout', '--output', at('drawn.gif')],
      ['--view', 'layout', '--output', at('drawn')],
      ['--view', 'layout', '--output', at('no/drawn.svg')],
      ['--view', 'poster'],
      [],
    ]) {
      const { exitCode, output, complaints } = call('draw', at('sound.winding'), ...args);
      expect({ exitCode, output }, args.join(' ')).toEqual({ exitCode: 2, output: '' });
      expect(complaints.length, args.join(' ')).toBeGreaterThan(20);
      expect(complaints).not.toContain('internal error');
    }
    expect(readdirSync(folder)).not.toContain('drawn.gif');
  });

  it('points to the help of the command that was called wrongly', () => {
    expect(call('compare', '--output', 'x.svg', 'a', 'b').complaints).toContain(
      '(try slotwright compare --help)',
    );
    expect(call('nonsense').complaints).toContain('(try slotwright --help)');
  });

  it('says why nothing can be drawn', () => {
    const { exitCode, output, complaints } = call('draw', at('broken.winding'), '--view', 'layout');
    expect({ exitCode, output }).toEqual({ exitCode: 1, output: '' });
    expect(complaints).toContain('yields no slot table');
    expect(complaints).toContain(': error: ');
  });

  it('draws a winding that fails a limit, and says why it exits 1', () => {
    writeFileSync(
      at('failing.winding'),
      windingText({ rest: 'connect { star }\nrequire { winding-factor >= 0.99 }' }),
    );
    const { exitCode, output, complaints } = call('draw', at('failing.winding'), '--view', 'layout');
    expect(exitCode).toBe(1);
    expect(output).toContain('</svg>');
    expect(complaints).toContain('[limit-failed]');
  });
});

describe('format', () => {
  it('prints one file', () => {
    const { exitCode, output } = call('format', at('untidy.winding'));
    expect({ exitCode, output }).toEqual({ exitCode: 0, output: sound.text });
  });

  it('names the files that would change, and exits 1', () => {
    expect(call('format', '--check', at('untidy.winding'), at('sound.winding'))).toEqual({
      exitCode: 1,
      output: `${at('untidy.winding')}\n`,
      complaints: '',
    });
    expect(call('format', '--check', at('sound.winding'))).toEqual({
      exitCode: 0,
      output: '',
      complaints: '',
    });
  });

  it('writes files in place, only those that change', async () => {
    writeFileSync(at('rewrite.winding'), sound.text.replace(/^ {2}/gm, '\t'));
    expect(await callToEnd('format', '--write', at('rewrite.winding'), at('sound.winding'))).toEqual({
      exitCode: 0,
      output: '',
      complaints: `formatted ${at('rewrite.winding')}\n`,
    });
    expect(readFileSync(at('rewrite.winding'), 'utf8')).toBe(sound.text);
    expect(call('format', '--check', at('rewrite.winding')).exitCode).toBe(0);
  });

  it('keeps what it cannot understand', () => {
    expect(call('format', at('broken.winding')).output).toBe(format(broken.text));
  });

  it.each([
    [['--check', '--write', 'sound.winding']],
    [['sound.winding', 'untidy.winding']],
    [['--write', '-']],
    [['none.winding']],
    [['--check', 'empty']],
  ])('refuses %j', (args) => {
    const { exitCode, output, complaints } = call(
      'format',
      ...args.map((arg) => (/^-/.test(arg) ? arg : at(arg))),
    );
    expect({ exitCode, output }).toEqual({ exitCode: 2, output: '' });
    expect(complaints).toMatch(/^slotwright: /);
  });
});

describe('the program', () => {
  it.each([
    [['--help']],
    [['check', '--help']],
    [['report', '--help']],
    [['draw', '--help']],
    [['format', '--help']],
  ])('helps with examples: %j', (args) => {
    const { exitCode, output, complaints } = call(...args);
    expect({ exitCode, complaints }).toEqual({ exitCode: 0, complaints: '' });
    expect(output).toContain('Examples:\n  slotwright ');
  });

  it('tells its exit codes and its version', () => {
    expect(call('--help').output).toContain('Exit codes: 0 clean; 1 ');
    expect(call('--version')).toEqual({ exitCode: 0, output: '9.9.9\n', complaints: '' });
  });

  it('has examples in its help that it can run', async () => {
    const lines = [...call('--help').output.matchAll(/^ {2}(slotwright (?:check|report|draw|format) .*)$/gm)];
    expect(lines.length).toBeGreaterThan(3);
    for (const [, line] of lines) {
      const args = line!
        .replace(/ {2,}.*$/, '')
        .replace(/ > .*$/, '')
        .split(' ')
        .slice(1)
        .map((arg) =>
          arg === 'pump.winding' || arg === '*.winding'
            ? at('sound.winding')
            : arg === 'examples'
              ? at('windings')
              : arg === 'pump.svg' || arg === 'pump.md'
                ? at(arg)
                : arg,
        );
      expect((await callToEnd(...args)).exitCode, line).not.toBe(2);
    }
  });

  it.each([
    [[]],
    [['chekc', 'x']],
    [['check']],
    [['report', 'a', 'b']],
    [['check', 'x', '--colour']],
    [['check', 'x', '--format', 'xml']],
    [['report', 'x', '--format', 'pdf']],
    [['check', 'x', '--max-warnings', 'few']],
    [['check', 'x', '--max-warnings', '-1']],
  ])('refuses a wrong call: %j', (args) => {
    const { exitCode, output, complaints } = call(...args);
    expect({ exitCode, output }).toEqual({ exitCode: 2, output: '' });
    expect(complaints).not.toContain('internal error');
    expect(complaints.length).toBeGreaterThan(10);
  });

  it.each([
    ['nothing', ''],
    ['a byte order mark', '\ufeff'],
    ['unclosed everything', 'winding "x\nmachine { slots 48 (\nlayout { layer a ((('],
    [
      '5 000 parentheses',
      windingText({ layout: `layers 1 layer a ${'('.repeat(5000)}+U${')*2'.repeat(5000)}` }),
    ],
    ['1e9 slots', windingText({ machine: 'slots 1e9 poles 2 phases 3' })],
    ['huge repeats', windingText({ layout: 'layers 1 layer a ((((+U)*2400)*2400)*2400)*2400 repeat 2400' })],
    ['control characters', '\u0000\u001b[31mmachine\u0007 { \u202e }'],
    ['wrong units', windingText({ machine: 'slots 12 poles 2 phases 3 bore 162 kg speed 3 mm' })],
    ['odd poles', windingText({ machine: 'slots 12 poles 3 phases 3' })],
    ['a hundred thousand lines of noise', '(;,]\n'.repeat(100_000)],
  ])('answers hostile text with findings: %s', (name, text) => {
    writeFileSync(at('hostile.winding'), text);
    const checked = call('check', at('hostile.winding'));
    expect(checked.exitCode, name).toBe(1);
    expect(checked.output).toContain(': error: ');
    for (const args of [
      ['check', at('hostile.winding'), '--format', 'json'],
      ['report', at('hostile.winding')],
      ['report', at('hostile.winding'), '--format', 'json'],
      ['draw', at('hostile.winding'), '--view', 'layout'],
      ['format', at('hostile.winding')],
    ]) {
      const { exitCode, complaints } = call(...args);
      expect(exitCode, args.join(' ')).toBe(args[0] === 'format' ? 0 : 1);
      expect(complaints).not.toMatch(/internal error|\n\s+at /);
    }
    expect(checked.output).not.toMatch(/[\u0000-\u0009\u000b-\u001f\u202e]/);
  });

  it('checks all examples of the project: only the broken one fails', () => {
    for (const { name } of examples)
      expect(call('check', `${projectFolder}examples/${name}`).exitCode, name).toBe(
        name.startsWith('broken-') ? 1 : 0,
      );
  });
});
