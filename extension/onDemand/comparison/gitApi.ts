import { extensions, type Uri } from 'vscode';

/** What is used of the interface of the editor's own git extension, version 1. */
export interface GitApi {
  readonly getRepository: (uri: Uri) => GitRepository | null;
  /** Address under which the editor shows a file as it was at a revision. */
  readonly toGitUri: (uri: Uri, ref: string) => Uri;
}

export interface GitRepository {
  /** Text of a file at a revision, in the index for an empty one; rejects where there is none. */
  readonly show: (ref: string, path: string) => Promise<string>;
  readonly log: (options: {
    readonly maxEntries: number;
    readonly path: string;
  }) => Promise<readonly GitCommit[]>;
  /** The commit that a revision names; rejects for one that git does not know. */
  readonly getCommit?: (ref: string) => Promise<GitCommit>;
  readonly getRefs?: (query: object) => Promise<readonly GitRef[]>;
}

export interface GitCommit {
  readonly hash: string;
  readonly message: string;
}

export interface GitRef {
  readonly name?: string;
}

interface GitExtension {
  readonly getAPI: (version: 1) => GitApi;
}

/** The git extension's interface; null where the editor has none, or has it turned off. */
export async function findGit(): Promise<GitApi | null> {
  const extension = extensions.getExtension<GitExtension>('vscode.git');
  if (extension === undefined) return null;
  try {
    return (await extension.activate()).getAPI(1);
  } catch {
    return null;
  }
}
