// Takes its time: runs the command line on whole windings and repositories.

import { cpSync, existsSync, mkdtempSync, rmSync, symlinkSync, writeFileSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { delimiter, join } from 'node:path';
import { afterAll, beforeAll, describe, expect, it } from 'vitest';
import { run } from '../../../cli/program.ts';
import { format } from '../../../core/language/format/formatter.ts';
import { compareSchema } from '../../../core/review/schema.ts';
import { readXml, valuesOf } from '../../picture/checkPicture.ts';
import { generatedFerry, writtenFerry } from '../../review/texts.ts';
import { makeRepository, type Repository } from '../repository.ts';

let repository: Repository;
const commits: Record<string, string> = {};
/** Where a copy of the repository lies as it was after each commit; only read. */
let copies: string;

const swapped = writtenFerry.replace('1a (+6b +6a)*3 +6b\n', '1a 19b 13a 7b 25a (+6b +6a)*1 +6b\n');

/** A series of commits on the files of a workshop; each step changes one thing. */
beforeAll(() => {
  repository = makeRepository();
  copies = mkdtempSync(join(tmpdir(), 'slotwright-review-'));
  const step = (name: string, change: () => void) => {
    change();
    commits[name] = repository.commit(name);
    cpSync(repository.folder, join(copies, name), { recursive: true });
  };
  step('start', () => {
    repository.write('drives/pod.winding', generatedFerry);
    repository.write('drives/bow.winding', writtenFerry);
    repository.write('pumps/dock.winding', writtenFerry.replace('Harbor ferry pod drive', 'Dock pump'));
    repository.write('README.md', '# Drives of the workshop\n');
  });
  step('span', () => repository.write('drives/pod.winding', generatedFerry.replace('span   6', 'span   5')));
  step('joint', () => repository.write('drives/bow.winding', swapped));
  step('joint back', () => repository.write('drives/bow.winding', writtenFerry));
  step('width', () => repository.write('drives/bow.winding', writtenFerry.replace('width 3.6', 'width 3.4')));
  step('format', () =>
    repository.write(
      'drives/bow.winding',
      format(writtenFerry.replace('width 3.6', 'width 3.4')).replaceAll('  ', '   '),
    ),
  );
  step('renumber', () =>
    repository.write(
      'pumps/dock.winding',
      writtenFerry
        .replace('Harbor ferry pod drive', 'Dock pump')
        .replace('U1 1a', 'U1 4a')
        .replace('U1 2b', 'U1 5b'),
    ),
  );
  step('break', () =>
    repository.write('drives/pod.winding', generatedFerry.replace('slots   48', 'slots fourty')),
  );
  step('mend', () => repository.write('drives/pod.winding', generatedFerry));
  step('rename', () => repository.rename('pumps/dock.winding', 'docks/dock pump é.winding'));
  step('delete', () => repository.remove('drives/bow.winding'));
});

afterAll(() => {
  repository?.dispose();
  rmSync(copies, { recursive: true, force: true });
});

/** Compares the state after one commit with the state after a later one, in the copy of that. */
function between(old: string, now: string, path = '.', ...options: string[]) {
  return run(['compare', '--base', commits[old]!, join(copies, now, path), ...options], '0.0.0');
}

interface SaidFile {
  readonly file: string;
  readonly status: string;
  readonly [part: string]: unknown;
}

/** What the JSON says of the files that are not the same. */
function changes(old: string, now: string): readonly SaidFile[] {
  const { output, complaints } = between(old, now, '.', '--format', 'json', '--fail-on', 'none');
  expect(complaints).toBe('');
  const parsed = compareSchema.parse(JSON.parse(output)) as unknown as {
    readonly files: readonly SaidFile[];
  };
  return parsed.files.filter(({ status }) => status !== 'same');
}

/** The parts of one file's comparison that hold something. */
function parts({ limits: _, errors: __, warnings: ___, ...file }: SaidFile): Record<string, unknown> {
  const empty = (value: unknown): boolean =>
    value === null ||
    (Array.isArray(value) && value.length === 0) ||
    (typeof value === 'object' && value !== null && Object.values(value).every(empty));
  return Object.fromEntries(Object.entries(file).filter(([, value]) => !empty(value)));
}

describe('compare --base', () => {
  it('says that only the span changed', () => {
    const [file, ...others] = changes('start', 'span');
    expect(others).toEqual([]);
    expect(file).toMatchObject({
      file: 'drives/pod.winding',
      status: 'changed',
      equal: false,
      rotation: null,
      statements: [{ what: 'layout span', old: '6', new: '5' }],
    });
    expect(file!.bars).toHaveLength(48);
  });

  it('says which joints changed, and no bar', () => {
    const [file, ...others] = changes('span', 'joint');
    expect(others).toEqual([]);
    expect(file).toMatchObject({ file: 'drives/bow.winding', bars: [], equal: false });
    const { added, removed } = file!.joints as { added: unknown[]; removed: unknown[] };
    expect([added.length, removed.length]).toEqual([12, 12]);
    expect(file!.statements).toMatchObject([{ what: 'connect path U 1' }]);
  });

  it('says that only the bar width changed', () => {
    const [file, ...others] = changes('joint back', 'width');
    expect(others).toEqual([]);
    expect(Object.keys(parts(file!)).sort()).toEqual(['equal', 'file', 'numbers', 'statements', 'status']);
    expect(file).toMatchObject({
      equal: true,
      statements: [{ what: 'bar width', old: '3.6 mm', new: '3.4 mm' }],
    });
  });

  it('says of pure formatting that the letters changed and the winding did not', () => {
    const [file, ...others] = changes('width', 'format');
    expect(others).toEqual([]);
    expect(parts(file!)).toEqual({ file: 'drives/bow.winding', status: 'changed', equal: true });
  });

  it('says that a winding was renumbered, and nothing else', () => {
    const [file, ...others] = changes('format', 'renumber');
    expect(others).toEqual([]);
    expect(parts(file!)).toEqual({
      file: 'pumps/dock.winding',
      status: 'changed',
      equal: true,
      rotation: 3,
      rewritten: ['connect'],
    });
  });

  it('says what broke a file, and what is not known then', () => {
    const [file, ...others] = changes('renumber', 'break');
    expect(others).toEqual([]);
    const said = parts(file!);
    expect(Object.keys(said).sort()).toEqual(['equal', 'file', 'findings', 'notes', 'statements', 'status']);
    expect(said.findings).toMatchObject({
      new: [{ code: 'value-expected' }, { code: 'limit-not-computable' }, { code: 'limit-not-computable' }],
      gone: [],
    });
    expect(between('renumber', 'break').exitCode).toBe(1);
    expect(between('renumber', 'break', '.', '--fail-on', 'none').exitCode).toBe(0);
  });

  it('follows a renamed file', () => {
    expect(changes('mend', 'rename').map(parts)).toEqual([
      { file: 'docks/dock pump é.winding', oldFile: 'pumps/dock.winding', status: 'renamed', equal: true },
    ]);
  });

  it('tells of a text that only moved in one line', () => {
    const [moved] = changes('mend', 'rename');
    expect(Object.keys(moved!).sort()).toEqual(['equal', 'file', 'oldFile', 'status']);
    const { output } = between('start', 'rename');
    expect(output).toContain('| `docks/dock pump é.winding` | renamed |');
    const two = between('break', 'rename').output;
    expect(two).toContain('| renamed | The same text. Was `pumps/dock.winding`. |');
    expect(two).not.toContain('### `docks');
    expect(between('mend', 'rename').output).toContain(
      '### `docks/dock pump é.winding` renamed, was `pumps/dock.winding`\n\n**The same text.**',
    );
  });

  it('says that a file is deleted, or added', () => {
    expect(changes('rename', 'delete')).toMatchObject([{ file: 'drives/bow.winding', status: 'deleted' }]);
    // In a linked worktree, which is as the commit before was.
    repository.git('worktree', 'add', '--quiet', '--detach', join(copies, 'linked'), commits.rename!);
    expect(changes('delete', 'linked')).toMatchObject([{ file: 'drives/bow.winding', status: 'added' }]);
  });

  it('compares one file, also one that is deleted or was renamed', () => {
    const json = (old: string, now: string, file: string) =>
      JSON.parse(between(old, now, file, '--format', 'json', '--fail-on', 'none').output);
    expect(json('start', 'span', 'drives/pod.winding').statements).toHaveLength(1);
    expect(json('start', 'span', 'drives/bow.winding')).toMatchObject({ equal: true, numbers: [] });
    expect(json('rename', 'delete', 'drives/bow.winding').joints.removed.length).toBeGreaterThan(0);
    expect(json('mend', 'rename', 'docks/dock pump é.winding')).toMatchObject({ equal: true });
  });

  it('sees files that are not yet committed, and leaves ignored ones out', () => {
    repository.write('new/winch.winding', writtenFerry.replace('Harbor', 'Lock'));
    repository.write('.gitignore', 'ignored/\n');
    repository.write('ignored/pod.winding', generatedFerry);
    const { output } = run(['compare', '--base', 'HEAD', repository.folder, '--format', 'json'], '0.0.0');
    expect(JSON.parse(output).files.filter(({ status }: SaidFile) => status !== 'same')).toMatchObject([
      { file: 'new/winch.winding', status: 'added' },
    ]);
  });

  it('writes a comment with the summary first and every changed file', () => {
    const { output } = between('start', 'delete');
    expect(output).toContain('## Winding comparison');
    expect(output).toMatch(/`docks\/dock pump é.winding`/);
    expect(output.indexOf('| file |')).toBeLessThan(output.indexOf('<details>'));
  });

  it('draws the one changed file', () => {
    const svg = between('start', 'span', '.', '--format', 'svg', '--fail-on', 'none');
    const root = readXml(svg.output);
    expect(new Set(valuesOf(root, 'data-bar')).size).toBe(192);
    expect(between('start', 'delete', '.', '--format', 'svg')).toMatchObject({ exitCode: 2, output: '' });
  });

  it('fails on anything worse only when asked to', () => {
    expect(between('start', 'span', 'drives', '--fail-on', 'worse').exitCode).toBe(1);
    expect(between('width', 'format', '.', '--fail-on', 'worse').exitCode).toBe(0);
    expect(between('format', 'renumber', '.', '--fail-on', 'worse').exitCode).toBe(0);
  });
});

describe('limits and errors of a change', () => {
  const sound = generatedFerry.replace('height 6.0', 'height 3.0');
  const lax = sound.replace('<= 3.5 %', '<= 4 %');
  const without = sound.replace(/ *differential-leakage.*\n/, '');
  const strict = sound.replace('<= 3.5 %', '<= 3.4 %');
  const failing = sound.replace('>= 0.93', '>= 0.99');
  let own: Repository;

  beforeAll(() => {
    own = makeRepository();
    own.write('sound.winding', sound);
    own.write('other.winding', sound.replace('stator B', 'stator C'));
    own.write('failing.winding', failing);
    own.commit('start');
  });
  afterAll(() => own?.dispose());

  const withText = (text: string, failOn: string, path = '') => {
    own.write('sound.winding', text);
    return run(['compare', '--base', 'HEAD', join(own.folder, path), '--fail-on', failOn], '0.0.0');
  };

  it.each([
    ['loosened', lax, '1 limit loosened', 1],
    ['dropped', without, '1 limit dropped', 1],
    ['tightened', strict, '1 limit tightened', 0],
  ])('a limit that is %s', (_, text, words, exitCode) => {
    expect([text === sound, text === lax && lax === sound]).toEqual([false, false]);
    for (const path of ['', 'sound.winding']) {
      const { output, exitCode: code } = withText(text, 'worse', path);
      expect(output.slice(0, output.indexOf('| statement'))).toContain(words);
      expect(code).toBe(exitCode);
    }
    expect(withText(text, 'errors').exitCode).toBe(0);
    own.write('old.winding', sound);
    own.write('new.winding', text);
    const two = run(
      ['compare', join(own.folder, 'old.winding'), join(own.folder, 'new.winding'), '--fail-on', 'worse'],
      '0.0.0',
    );
    own.remove('old.winding');
    own.remove('new.winding');
    expect(two.output).toContain(words);
    expect(two.exitCode).toBe(exitCode);
  });

  it('stands in the summary of a folder with several changes', () => {
    own.write('other.winding', without.replace('stator B', 'stator C'));
    const { output } = withText(lax, 'worse');
    own.write('other.winding', sound.replace('stator B', 'stator C'));
    const head = output.slice(0, output.indexOf('###'));
    expect(head).toContain('**1 limit loosened and 1 limit dropped.**');
    expect(head).toMatch(/`other.winding` .*1 limit dropped/);
    expect(head).toMatch(/`sound.winding` .*1 limit loosened/);
  });

  it('does not hold the errors of an unchanged winding against a change', () => {
    expect(withText(lax, 'errors').exitCode).toBe(0);
    expect(withText(sound, 'worse', 'failing.winding').exitCode).toBe(0);
    const file = join(own.folder, 'failing.winding');
    expect(run(['compare', file, file], '0.0.0').exitCode).toBe(0);
    own.rename('failing.winding', 'renamed.winding');
    expect(withText(sound, 'worse').exitCode).toBe(0);
    own.rename('renamed.winding', 'failing.winding');
    own.write('failing.winding', failing.replace('3600 rpm', '3000 rpm'));
    expect(withText(sound, 'errors').exitCode).toBe(1);
    own.write('failing.winding', failing);
  });
});

describe('files that cannot be read, and links', () => {
  const latin = Buffer.from(writtenFerry.replace('Harbor', 'H\u00e4fen'), 'latin1');
  let own: Repository;

  beforeAll(() => {
    own = makeRepository();
    own.write('pod.winding', generatedFerry);
    own.write('latin.winding', '');
    writeFileSync(join(own.folder, 'latin.winding'), latin);
    symlinkSync('pod.winding', join(own.folder, 'link.winding'));
    own.commit('start');
    own.write('pod.winding', generatedFerry.replace('span   6', 'span   5'));
  });
  afterAll(() => own?.dispose());

  const since = (...options: string[]) =>
    run(['compare', '--base', 'HEAD', own.folder, '--fail-on', 'none', ...options], '0.0.0');
  const files = () =>
    compareSchema.parse(JSON.parse(since('--format', 'json').output)) as unknown as {
      readonly files: readonly SaidFile[];
    };

  it('do not keep the others from being compared', () => {
    const { exitCode, output, complaints } = since();
    expect(exitCode).toBe(2);
    expect(complaints).toContain('slotwright: latin.winding: not UTF-8 text.\n');
    expect(output).toContain('1 winding file changed.');
    expect(output).toContain('### `pod.winding` changed');
    expect(output).toContain('| `layout span` | `6` | `5` |');
    expect(output).toMatch(/### `latin.winding` same\n\n\*\*Neither .* can be read \(not `UTF-8` text\)/);
    expect(files().files).toMatchObject([
      { file: 'latin.winding', status: 'same', trouble: expect.stringContaining('not UTF-8') },
      { file: 'pod.winding', status: 'changed' },
    ]);
  });

  it('are compared as far as that goes once their encoding is mended', () => {
    own.write('latin.winding', writtenFerry.replace('Harbor', 'H\u00e4fen'));
    const { exitCode, output, complaints } = since();
    expect(exitCode).toBe(0);
    expect(complaints).toBe('slotwright: HEAD:latin.winding: not UTF-8 text.\n');
    expect(output).toMatch(
      /### `latin.winding` changed\n\n\*\*The old text cannot be read \(not `UTF-8` text\)[^*]*\*\*/,
    );
    expect(files().files[0]).toMatchObject({ status: 'changed', notes: [expect.stringContaining('UTF-8')] });
    const one = run(
      [
        'compare',
        '--base',
        'HEAD',
        join(own.folder, 'latin.winding'),
        '--format',
        'json',
        '--fail-on',
        'none',
      ],
      '0.0.0',
    );
    expect(JSON.parse(one.output).notes).toEqual([expect.stringContaining('not UTF-8')]);
    const svg = run(
      [
        'compare',
        '--base',
        'HEAD',
        join(own.folder, 'latin.winding'),
        '--format',
        'svg',
        '--fail-on',
        'none',
      ],
      '0.0.0',
    );
    expect(svg.exitCode).toBe(0);
    expect(new Set(valuesOf(readXml(svg.output), 'data-bar')).size).toBe(96);
    writeFileSync(join(own.folder, 'latin.winding'), latin);
  });

  it('may be deleted, or stand alone', () => {
    own.remove('latin.winding');
    expect(since()).toMatchObject({
      exitCode: 0,
      output: expect.stringContaining('`latin.winding` deleted'),
    });
    writeFileSync(join(own.folder, 'latin.winding'), Buffer.concat([latin, Buffer.from('\n')]));
    expect(files().files[0]).toMatchObject({ file: 'latin.winding', status: 'changed' });
    for (const format of ['json', 'svg'])
      expect(
        run(['compare', '--base', 'HEAD', join(own.folder, 'latin.winding'), '--format', format], '0.0.0'),
      ).toEqual({ exitCode: 2, output: '', complaints: 'slotwright: latin.winding: not UTF-8 text.\n' });
    writeFileSync(join(own.folder, 'latin.winding'), latin);
  });

  it('do not count as deleted where their folder cannot be looked into', () => {
    const yard = makeRepository();
    yard.write('yard/gate.winding', generatedFerry);
    yard.commit('start');
    yard.remove('yard/gate.winding');
    rmSync(join(yard.folder, 'yard'), { recursive: true });
    symlinkSync('yard', join(yard.folder, 'yard'));
    const ended = run(['compare', '--base', 'HEAD', yard.folder, '--format', 'json'], '0.0.0');
    expect(ended.exitCode).toBe(2);
    expect(ended.complaints).toMatch(/yard.gate\.winding: its links lead in a circle\.\n$/);
    expect(JSON.parse(ended.output).files).toMatchObject([{ file: 'yard/gate.winding', status: 'changed' }]);
    yard.dispose();
  });

  it('leaves symbolic links out, as check does in folders', () => {
    expect(files().files.map(({ file }) => file)).toEqual(['latin.winding', 'pod.winding']);
    symlinkSync('pod.winding', join(own.folder, 'fresh.winding'));
    expect(files().files.map(({ file }) => file)).toEqual(['latin.winding', 'pod.winding']);
    const named = run(
      [
        'compare',
        '--base',
        'HEAD',
        join(own.folder, 'link.winding'),
        '--format',
        'json',
        '--fail-on',
        'none',
      ],
      '0.0.0',
    );
    expect(JSON.parse(named.output).statements).toEqual([{ what: 'layout span', old: '6', new: '5' }]);
  });

  it('says when a folder holds no windings, unless that is no trouble', () => {
    own.write('notes/README.md', 'None here.\n');
    const notes = join(own.folder, 'notes');
    expect(run(['compare', '--base', 'HEAD', notes], '0.0.0')).toMatchObject({ exitCode: 2, output: '' });
    const allowed = run(['compare', '--base', 'HEAD', notes, '--allow-empty'], '0.0.0');
    expect(allowed).toMatchObject({ exitCode: 0, complaints: '' });
    expect(allowed.output).toContain('0 winding files changed.');
    expect(run(['compare', '--base', 'HEAD', `${notes}-none`, '--allow-empty'], '0.0.0').exitCode).toBe(2);
  });
});

describe('trouble', () => {
  const trouble = (...args: string[]) => {
    const { exitCode, output, complaints } = run(['compare', ...args], '0.0.0');
    expect([exitCode, output]).toEqual([2, '']);
    return complaints;
  };

  it('is said clearly', () => {
    const folder = repository.folder;
    expect(trouble('--base', 'no-such-branch', folder)).toMatch(
      /'no-such-branch' is no commit, branch or tag/,
    );
    expect(trouble('--base', '--output=x', folder)).toMatch(/names no commit/);
    expect(trouble('--base', '', folder)).toMatch(/names no commit/);
    expect(trouble('--base', 'HEAD', join(folder, 'nowhere.winding'))).toMatch(/no winding files/);
    expect(trouble('--base', 'HEAD', folder, folder)).toMatch(/one file or folder/);
    expect(trouble(join(folder, 'nowhere.winding'), join(folder, 'drives/pod.winding'))).toMatch(
      /no such file/,
    );
    expect(trouble(join(folder, 'drives/pod.winding'))).toMatch(/two files/);
    expect(trouble('-', '-')).toMatch(/standard input/);
    expect(trouble('a', 'b', '--format', 'text')).toMatch(/markdown, json, svg/);
    expect(trouble('a', 'b', '--fail-on', 'something')).toMatch(/worse, errors, none/);
  });

  it('is said where there is no repository, and where there is no git', () => {
    const outside = mkdtempSync(join(tmpdir(), 'slotwright-outside-'));
    writeFileSync(join(outside, 'pod.winding'), generatedFerry);
    const { PATH } = process.env;
    try {
      expect(trouble('--base', 'HEAD', join(outside, 'pod.winding'))).toMatch(/lies in no git repository/);
      process.env.PATH = outside + delimiter;
      expect(trouble('--base', 'HEAD', join(repository.folder, 'drives'))).toMatch(/git is not installed/);
    } finally {
      process.env.PATH = PATH;
      rmSync(outside, { recursive: true, force: true });
    }
  });

  it('does not run what a repository or a name would have it run', () => {
    const hostile = makeRepository();
    try {
      const proof = join(hostile.folder, 'ran');
      hostile.write('$(touch ran).winding', generatedFerry);
      hostile.write('-n.winding', writtenFerry);
      hostile.commit('start');
      hostile.git('config', 'core.fsmonitor', `touch '${proof}'; false`);
      hostile.git('config', 'diff.external', `touch '${proof}'`);
      symlinkSync('/etc/passwd', join(hostile.folder, 'link.winding'));
      const { exitCode, output } = run(
        ['compare', '--base', 'HEAD', hostile.folder, '--format', 'json'],
        '0.0.0',
      );
      expect(existsSync(proof)).toBe(false);
      expect(JSON.parse(output).files.map(({ file }: SaidFile) => file)).toEqual(
        expect.arrayContaining(['$(touch ran).winding', '-n.winding']),
      );
      expect(exitCode).not.toBe(2);
    } finally {
      hostile.dispose();
    }
  });
});
