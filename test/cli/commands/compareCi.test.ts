// Takes its time: starts programs.

import { spawnSync } from 'node:child_process';
import {
  chmodSync,
  cpSync,
  existsSync,
  mkdirSync,
  mkdtempSync,
  readFileSync,
  rmSync,
  symlinkSync,
  writeFileSync,
} from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { afterAll, beforeAll, describe, expect, it } from 'vitest';
import { parse } from 'yaml';
import { complete } from '../../../cli/complete.ts';
import { run } from '../../../cli/program.ts';
import { generatedFerry, writtenFerry } from '../../review/texts.ts';
import { machineText } from '../../space/machines.ts';
import { projectFolder } from '../../support/files.ts';
import { buildCommands } from '../../support/hostile.ts';
import { forgeActions } from '../../support/markdown.ts';
import { type AnsweredShell, answeredShell, bashOptions, type ShellEnded } from '../answeredShell.ts';
import { programText } from '../builtProgram.ts';
import { makeRepository, type Repository } from '../repository.ts';

interface Step {
  readonly name: string;
  readonly id?: string;
  readonly shell: string;
  readonly env?: Readonly<Record<string, string>>;
  readonly run: string;
}

interface Action {
  readonly inputs: Readonly<Record<string, { readonly default?: string }>>;
  readonly outputs: Readonly<Record<string, { readonly value: string }>>;
  readonly runs: { readonly using: string; readonly steps: readonly Step[] };
}

const action = parse(readFileSync(join(projectFolder, 'action.yml'), 'utf8')) as Action;
const cautious = generatedFerry.replace('<= 3.5 %', '<= 2 %');

let actionFolder: string;
let repository: Repository;
let base: string;

/**
 * A folder with a `node` that only says how it was called: enough where what counts is what the steps make of their
 * inputs, and not what Slotwright says of the windings.
 */
let telling: string;
const tell = `#!/bin/bash
shift
printf 'called:'
printf ' <%s>' "$@"
printf '\\n'
`;

/** Enough where what counts is what the steps make of the answers, and of exit codes. */
let answered: AnsweredShell;

/** The action as a runner has it: built, in a folder of its own; and a repository with a changed winding. */
beforeAll(async () => {
  actionFolder = mkdtempSync(join(tmpdir(), 'slotwright-action-'));
  mkdirSync(join(actionFolder, 'dist/cli'), { recursive: true });
  writeFileSync(join(actionFolder, 'dist/cli/slotwright.js'), await programText());
  cpSync(join(projectFolder, 'ci-templates'), join(actionFolder, 'ci-templates'), { recursive: true });
  telling = join(actionFolder, 'telling');
  mkdirSync(telling);
  writeFileSync(join(telling, 'node'), tell);
  chmodSync(join(telling, 'node'), 0o755);
  answered = answeredShell();
  repository = makeRepository();
  repository.write('windings/pod drive.winding', generatedFerry);
  repository.write('windings/bow.winding', writtenFerry);
  base = repository.commit('start');
});

afterAll(() => {
  rmSync(actionFolder, { recursive: true, force: true });
  answered.dispose();
  repository.dispose();
});

function shell(script: string, environment: Readonly<Record<string, string>>, cwd = repository.folder) {
  return spawnSync('bash', [...bashOptions, script], {
    cwd,
    encoding: 'utf8',
    env: { PATH: process.env.PATH, HOME: actionFolder, ...environment },
  });
}

/** Runs a step: with the program itself, with one that only says how it was called, or answered by its function. */
type RunStep = (
  script: string,
  environment: Readonly<Record<string, string>>,
  cwd: string,
) => ShellEnded | Promise<ShellEnded>;
const told: RunStep = (script, environment, cwd) =>
  shell(script, { ...environment, PATH: `${telling}:${process.env.PATH}` }, cwd);
const answering: RunStep = (script, environment, cwd) =>
  answered.run(script, program(), { HOME: actionFolder, ...environment }, cwd);
const program = () => join(actionFolder, 'dist/cli/slotwright.js');

/** Runs the action's steps with the `node` that only says how it was called. */
const tellAction = (given: Readonly<Record<string, string>>, cwd?: string) => runAction(given, told, cwd);

/** Runs the action's steps as a runner does: expressions only in `env`, outputs through files. */
async function runAction(
  given: Readonly<Record<string, string>>,
  runStep: RunStep = answering,
  cwd = repository.folder,
) {
  const inputs = Object.fromEntries(
    Object.entries(action.inputs).map(([name, { default: standard }]) => [
      name,
      given[name] ?? standard ?? '',
    ]),
  );
  const outputs: Record<string, string> = {};
  const resolved = (text: string) =>
    text.replace(
      /\$\{\{ (inputs|steps)\.([a-z-]+)(?:\.outputs\.([a-z-]+))? \}\}/g,
      (_, kind, name, output) => (kind === 'inputs' ? inputs[name]! : (outputs[`${name}.${output}`] ?? '')),
    );
  const files = {
    GITHUB_OUTPUT: join(actionFolder, 'output'),
    GITHUB_STEP_SUMMARY: join(actionFolder, 'summary'),
  };
  writeFileSync(files.GITHUB_STEP_SUMMARY, '');
  let log = '';
  let failed = false;
  for (const step of action.runs.steps) {
    expect(step.run).not.toContain('${{');
    if (failed) break;
    writeFileSync(files.GITHUB_OUTPUT, '');
    const env = Object.fromEntries(
      Object.entries(step.env ?? {}).map(([name, value]) => [name, resolved(value)]),
    );
    const result = await runStep(step.run, { ...files, GITHUB_ACTION_PATH: actionFolder, ...env }, cwd);
    log += result.stdout + result.stderr;
    failed = result.status !== 0;
    for (const line of readFileSync(files.GITHUB_OUTPUT, 'utf8').split('\n').filter(Boolean)) {
      const at = line.indexOf('=');
      outputs[`${step.id}.${line.slice(0, at)}`] = line.slice(at + 1);
    }
  }
  const result = Object.fromEntries(
    Object.entries(action.outputs).map(([name, { value }]) => [name, resolved(value)]),
  );
  return { failed, log, outputs: result, summary: readFileSync(files.GITHUB_STEP_SUMMARY, 'utf8') };
}

/** Does something in the repository's folder, in this process. */
function inRepository<T>(act: () => T): T {
  const home = process.cwd();
  process.chdir(repository.folder);
  try {
    return act();
  } finally {
    process.chdir(home);
  }
}

const read = (file: string) => readFileSync(join(repository.folder, file), 'utf8');

describe('the GitHub action', () => {
  it('is a composite of shell steps and calls nothing but Slotwright and git', () => {
    expect(action.runs.using).toBe('composite');
    for (const step of action.runs.steps) {
      expect(step.shell).toBe('bash');
      expect(step).not.toHaveProperty('uses');
      expect(step.run).not.toMatch(/\b(curl|wget|npx|gh)\b/);
    }
  });

  it('with the program itself passes a sound change, with SARIF, comment and summary', async () => {
    repository.write('windings/pod drive.winding', generatedFerry.replace('height 6.0', 'height 3.0'));
    const before = generatedFerry;
    expect(before).toContain('height 6.0');
    // Folders of the files are made.
    const files = { 'sarif-file': 'out/a/x.sarif', 'comment-file': 'out/b/comment.md' };
    const { failed, log, outputs, summary } = await runAction(
      { path: 'windings', base, 'fail-on': 'none', ...files },
      shell,
    );
    expect(outputs).toMatchObject({
      ...files,
      'check-exit-code': '0',
      'compare-exit-code': '0',
    });
    expect(failed).toBe(false);
    expect(log).toContain('::add-matcher::');
    const sarif = JSON.parse(read('out/a/x.sarif'));
    expect(sarif.version).toBe('2.1.0');
    for (const { locations } of sarif.runs[0].results)
      expect(locations[0].physicalLocation.artifactLocation.uri).toMatch(
        /^windings\/(pod%20drive|bow)\.winding$/,
      );
    expect(summary).toBe(read('out/b/comment.md'));
    expect(summary).toContain('`windings/pod drive.winding` changed');
    expect(summary).toContain('| `bar height` | `6.0 mm` | `3.0 mm` |');
  });

  it('fails where a limit fails, and still writes what a reviewer needs', async () => {
    repository.write('windings/pod drive.winding', cautious.replace('height 6.0', 'height 3.0'));
    const { failed, log, outputs, summary } = await runAction({ path: 'windings', base });
    expect(failed).toBe(true);
    expect(outputs).toMatchObject({
      'sarif-file': 'slotwright.sarif',
      'comment-file': 'slotwright-compare.md',
      'check-exit-code': '1',
      'compare-exit-code': '1',
    });
    expect(summary).toContain('**no**, held before');
    const matcher = JSON.parse(matcherText()).problemMatcher[0].pattern[0];
    const match = log.split('\n').flatMap((line) => new RegExp(matcher.regexp).exec(line) ?? []);
    expect(match).toContain('limit-failed');
    expect(match).toContain('windings/pod drive.winding');
  });

  it('without a base only checks', async () => {
    const { log, outputs } = await tellAction({ path: 'windings', base: '' });
    expect(outputs).toMatchObject({ 'comment-file': '', 'compare-exit-code': '', 'check-exit-code': '0' });
    expect(log.match(/^called: .*$/gm)).toEqual(['called: <check> <--allow-empty> <--> <windings>']);
    expect(read('slotwright.sarif')).toBe(
      'called: <check> <--allow-empty> <--format> <sarif> <--> <windings>\n',
    );
  });

  it('fetches what a checkout of one commit lacks: a branch, a tag, a commit', async () => {
    repository.write('windings/pod drive.winding', generatedFerry);
    repository.git('tag', '--annotate', '--message', 'first', 'v1', base);
    repository.git('branch', 'trunk', base);
    repository.git('checkout', '--quiet', '-b', 'shorter');
    repository.write('windings/pod drive.winding', generatedFerry.replace('span   6', 'span   5'));
    repository.commit('shorter');
    repository.git('config', 'uploadpack.allowAnySHA1InWant', 'true');
    const shallow = join(actionFolder, 'shallow');
    const full = join(actionFolder, 'full');
    const cloned = (folder: string, ...depth: string[]) => {
      const branch = ['--branch', 'shorter', '--single-branch', `file://${repository.folder}`, folder];
      repository.git('clone', '--quiet', ...depth, ...branch);
    };
    cloned(shallow, '--depth=1');
    cloned(full);
    for (const [reference, clone] of [
      ['v1', shallow],
      [base, shallow],
      ['trunk', shallow],
      ['trunk', full],
    ] as const) {
      const folder = `${clone}-${reference}`;
      cpSync(clone, folder, { recursive: true });
      // The last one answered as the program would.
      const given = { path: 'windings', base: reference, 'fail-on': 'none' };
      const { outputs, summary } = await runAction(given, clone === full ? answering : told, folder);
      expect([reference, outputs['compare-exit-code']]).toEqual([reference, '0']);
      if (clone === full) expect(summary).toContain('| `layout span` | `6` | `5` |');
      else expect(summary).toContain(`<compare> <--allow-empty> <--base=${base}>`);
      // What the program is to compare with is there, and a full clone keeps its history.
      const asked = `git rev-parse --is-shallow-repository; git show '${base}:windings/bow.winding'`;
      expect(shell(asked, {}, folder).stdout).toBe(`${clone === shallow}\n${writtenFerry}`);
    }
    repository.git('checkout', '--quiet', 'main');
  });

  it('sets no output that leads to nothing, and says so', async () => {
    const { failed, log, outputs, summary } = await runAction({ path: 'windings', base: 'no-such-branch' });
    expect(failed).toBe(true);
    expect(outputs).toMatchObject({ 'comment-file': '', 'compare-exit-code': '2' });
    expect(log).toContain("'no-such-branch' is no commit, branch or tag");
    expect(summary).toContain('could not be compared');
    expect(existsSync(join(repository.folder, 'slotwright-compare.md'))).toBe(false);
  });

  it('passes a folder without windings', async () => {
    repository.write('notes/README.md', 'None yet.\n');
    const { failed, log, summary } = await runAction({ path: 'notes', base });
    expect(failed).toBe(false);
    expect(log).toContain('0 files checked');
    expect(summary).toContain('0 winding files changed.');
    // An exit code other than 0 fails the action, as that of a failed limit does.
    expect(run(['check', '--allow-empty', '--', 'not-there'], '0.0.0').exitCode).toBe(2);
  });

  it('lets no name of a file and no text in one act in log, outputs and summary', async () => {
    const names = [
      '::remove-matcher owner=slotwright::',
      '  ::error::x',
      'a\n::add-mask::b',
      'c ##[group]d',
      '@office #12',
    ];
    for (const name of names) {
      repository.write(`hostile/${name}.winding`, generatedFerry.replace('span   6', 'span   5'));
      repository.write(
        `hostile/${name}/x.winding`,
        `winding "GH-12 !1 ${name.replace('\n', ' ')}"\n::error::y\n`,
      );
    }
    const { log, outputs, summary } = await runAction({ path: 'hostile', base });
    expect(buildCommands(log)).toEqual([
      `::add-matcher::${actionFolder}/ci-templates/github-problem-matcher.json`,
    ]);
    expect(Object.keys(outputs)).toEqual([
      'sarif-file',
      'comment-file',
      'check-exit-code',
      'compare-exit-code',
    ]);
    expect(outputs).toMatchObject({ 'check-exit-code': '1', 'compare-exit-code': '1' });
    expect(summary).toContain('::remove-matcher');
    expect(forgeActions(summary)).toEqual([]);
    expect(buildCommands(read('slotwright.sarif'))).toEqual([]);
    rmSync(join(repository.folder, 'hostile'), { recursive: true });
  });

  it('refuses inputs with line breaks, which could write outputs or commands', async () => {
    for (const input of ['path', 'sarif-file', 'base', 'comment-file']) {
      const { failed, log, outputs } = await tellAction({
        path: 'windings',
        base,
        [input]: `x\n::set-env::y\r\nevil=1`,
      });
      expect([input, failed]).toEqual([input, true]);
      expect(log).toContain('line break is refused');
      expect(buildCommands(log).filter((line) => !line.startsWith('::add-matcher::'))).toEqual([]);
      expect(Object.values(outputs).join()).not.toContain('evil');
    }
  });

  it('writes through no link of the checkout, and fetches no branch over another', async () => {
    const victim = join(actionFolder, 'victim');
    writeFileSync(victim, 'kept');
    for (const file of ['slotwright.sarif', 'slotwright-compare.md']) {
      rmSync(join(repository.folder, file), { force: true });
      symlinkSync(victim, join(repository.folder, file));
    }
    await tellAction({ path: 'windings', base });
    expect(readFileSync(victim, 'utf8')).toBe('kept');
    expect(read('slotwright-compare.md')).toContain('<compare>');
    const clone = join(actionFolder, 'clone');
    repository.git('clone', '--quiet', `file://${repository.folder}`, clone);
    await tellAction({ path: 'windings', base: 'main:refs/heads/evil' }, clone);
    expect(shell('git branch --list evil', {}, clone).stdout).toBe('');
    rmSync(clone, { recursive: true });
  });

  it('takes inputs as text, never as commands', async () => {
    const proof = join(repository.folder, 'ran');
    for (const hostile of ['`touch ran`$(touch ran); touch ran', '--output=ran']) {
      const given = { path: hostile, base: hostile, 'fail-on': hostile, 'max-warnings': hostile };
      const { log, summary } = await tellAction(given);
      expect(log).toContain(
        `called: <check> <--allow-empty> <--max-warnings> <${hostile}> <--> <${hostile}>`,
      );
      expect(summary).toContain(`<--base=${hostile}> <--fail-on=${hostile}> <--> <${hostile}>`);
    }
    // Called so, the program takes them as text too.
    const hostile = '--output=ran';
    for (const args of [
      ['check', '--allow-empty', '--', hostile],
      ['compare', '--allow-empty', `--base=${hostile}`, '--fail-on=none', '--', hostile],
      ['compare', '--allow-empty', `--base=${base}`, `--fail-on=${hostile}`, '--', hostile],
    ])
      expect(inRepository(() => run(args, '0.0.0')).exitCode).toBe(2);
    expect(existsSync(proof)).toBe(false);
  });
});

function matcherText(): string {
  return readFileSync(join(actionFolder, 'ci-templates/github-problem-matcher.json'), 'utf8');
}

describe('the GitLab template', () => {
  const template = parse(readFileSync(join(projectFolder, 'ci-templates/gitlab.yml'), 'utf8'));
  const job = template.slotwright;
  const runJob = (environment: Readonly<Record<string, string>>) =>
    answering(
      job.script.join('\n'),
      {
        ...template.variables,
        SLOTWRIGHT: `node ${program()}`,
        SLOTWRIGHT_PATH: 'windings',
        ...environment,
      },
      repository.folder,
    );

  it('writes its artifacts and passes or fails with the windings', async () => {
    repository.write('windings/pod drive.winding', generatedFerry.replace('height 6.0', 'height 3.0'));
    const sound = { CI_MERGE_REQUEST_DIFF_BASE_SHA: base, SLOTWRIGHT_FAIL_ON: 'none' };
    expect((await runJob(sound)).status).toBe(0);
    for (const file of [...job.artifacts.paths, job.artifacts.reports.junit]) expect(read(file)).not.toBe('');
    expect(read('slotwright-junit.xml')).toContain('<testsuite name="windings/pod drive.winding"');
    repository.write('windings/pod drive.winding', cautious.replace('height 6.0', 'height 3.0'));
    expect((await runJob({ CI_MERGE_REQUEST_DIFF_BASE_SHA: base })).status).toBe(1);
    expect(read('slotwright-junit.xml')).toContain('<failure type="finding"');
    // Without a base nothing is compared, and a failed check alone fails the job.
    expect((await runJob({ SLOTWRIGHT: `${join(telling, 'node')} program` })).stdout).not.toContain(
      'compare',
    );
    expect((await runJob({ SLOTWRIGHT: 'false' })).status).toBe(1);
  });
});

describe('the page on reviews', () => {
  const page = readFileSync(join(projectFolder, 'docs/review.md'), 'utf8');
  const blocks = (language: string) =>
    [...page.matchAll(new RegExp(`\`\`\`${language}\\n([\\s\\S]*?)\`\`\``, 'g'))].map(([, text]) => text!);

  it('shows commands that run', async () => {
    // One with all sizes of its bar ends: the page compares in space, too.
    const sized = machineText({
      ...{ slots: 12, poles: 2, layers: 2, paths: 1, form: 'hairpin', gap: 'inner', lean: [0, 0] },
      ...{ filled: 0.36, slender: 0.6, bar: 'bend-radius 3 mm' },
    });
    repository.write('old.winding', sized);
    repository.write('new.winding', sized);
    repository.commit('page');
    repository.write('new.winding', sized.replace('end-straight 12 mm', 'end-straight 13 mm'));
    const commands = blocks('sh').flatMap((text) => text.trim().split('\n'));
    expect(commands.length).toBeGreaterThan(4);
    for (const command of commands) {
      const [, args] = /^npx slotwright ([\w .-]+?)( > [\w.-]+)?$/.exec(command)!;
      const called = inRepository(() => run(args!.split(' '), '0.0.0'));
      const { exitCode, output, complaints } = await complete(called);
      expect([command, complaints, [0, 1].includes(exitCode)]).toEqual([command, '', true]);
      expect(output, command).not.toBe('');
    }
  });

  it('shows workflows with inputs and outputs that the action has', () => {
    const [workflow, include] = blocks('yaml').map((text) => parse(text));
    const steps = workflow.jobs.review.steps as readonly { uses?: string; with?: object }[];
    const own = steps.find(({ uses }) => uses?.includes('/slotwright@'))!;
    for (const name of Object.keys(own.with!)) expect(action.inputs).toHaveProperty(name);
    for (const [, name] of blocks('yaml')[0]!.matchAll(/steps\.slotwright\.outputs\.([a-z-]+)/g))
      expect(action.outputs).toHaveProperty([name!]);
    expect(existsSync(join(projectFolder, include.include[0].local))).toBe(true);
  });
});
