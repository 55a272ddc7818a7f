import { spawnSync } from 'node:child_process';
import {
  mkdirSync,
  mkdtempSync,
  readFileSync,
  realpathSync,
  renameSync,
  rmSync,
  writeFileSync,
} from 'node:fs';
import { tmpdir } from 'node:os';
import { dirname, join } from 'node:path';

/** A git repository of its own in a temporary folder. */
export interface Repository {
  readonly folder: string;
  write(file: string, text: string): void;
  remove(file: string): void;
  rename(from: string, to: string): void;
  /** Commits all there is and gives the commit's id. */
  commit(message: string): string;
  git(...args: string[]): string;
  /** Removes it from the disk. */
  dispose(): void;
}

/** Runs git in a folder where no setting of the machine reaches it. */
function gitIn(folder: string, args: readonly string[]): string {
  const { status, stdout, stderr } = spawnSync('git', args, {
    cwd: folder,
    encoding: 'utf8',
    env: {
      ...process.env,
      GIT_CONFIG_GLOBAL: '/dev/null',
      GIT_CONFIG_SYSTEM: '/dev/null',
      GIT_AUTHOR_NAME: 'Winding office',
      GIT_AUTHOR_EMAIL: 'office@example.invalid',
      GIT_COMMITTER_NAME: 'Winding office',
      GIT_COMMITTER_EMAIL: 'office@example.invalid',
    },
  });
  if (status !== 0) throw new Error(`git ${args.join(' ')}: ${stderr}`);
  return stdout.trim();
}

/** Settings of a repository; without `maintenance` each commit starts a program that looks whether to tidy up. */
const settings = `[core]
\trepositoryformatversion = 0
\tfilemode = true
\tbare = false
[maintenance]
\tauto = false
`;

/** Makes a folder an empty repository, as gitrepository-layout(5) has it. */
function beginRepository(folder: string): void {
  for (const part of ['objects', 'refs/heads', 'refs/tags'])
    mkdirSync(join(folder, '.git', part), { recursive: true });
  writeFileSync(join(folder, '.git/HEAD'), 'ref: refs/heads/main\n');
  writeFileSync(join(folder, '.git/config'), settings);
}

/** The commit that a repository's folder stands at, where a branch is checked out. */
function headOf(folder: string): string {
  const branch = readFileSync(join(folder, '.git/HEAD'), 'utf8')
    .replace(/^ref: /, '')
    .trim();
  return readFileSync(join(folder, '.git', branch), 'utf8').trim();
}

/** Makes an empty repository that no setting of the machine reaches. */
export function makeRepository(): Repository {
  const folder = realpathSync(mkdtempSync(join(tmpdir(), 'slotwright-review-')));
  beginRepository(folder);
  const git = (...args: string[]) => gitIn(folder, args);
  const path = (file: string) => join(folder, file);
  return {
    folder,
    git,
    write(file, text) {
      mkdirSync(dirname(path(file)), { recursive: true });
      writeFileSync(path(file), text);
    },
    remove: (file) => rmSync(path(file)),
    rename(from, to) {
      mkdirSync(dirname(path(to)), { recursive: true });
      renameSync(path(from), path(to));
    },
    commit(message) {
      git('add', '--all');
      git('commit', '--quiet', '--message', message);
      return headOf(folder);
    },
    dispose: () => rmSync(folder, { recursive: true, force: true }),
  };
}
