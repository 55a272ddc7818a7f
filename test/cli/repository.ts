import { spawnSync } from 'node:child_process';
import { mkdirSync, mkdtempSync, realpathSync, renameSync, rmSync, writeFileSync } from 'node:fs';
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

/** Makes an empty repository that no setting of the machine reaches. */
export function makeRepository(): Repository {
  const folder = realpathSync(mkdtempSync(join(tmpdir(), 'slotwright-review-')));
  const git = (...args: string[]) => {
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
  };
  git('init', '--quiet', '--initial-branch=main');
  // Else each commit starts a program that looks whether to tidy up.
  git('config', 'maintenance.auto', 'false');
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
      return git('rev-parse', 'HEAD');
    },
    dispose: () => rmSync(folder, { recursive: true, force: true }),
  };
}
