import { FileType, Uri, workspace } from 'vscode';
import { lastPart } from './windingDocument.ts';

/** Files of a walk through folders. */
export interface FoundFiles {
  /** In the order of their paths, `most` at most. */
  readonly files: readonly Uri[];
  /** Files beyond these. */
  readonly more: number;
  /** Folders that could not be read, with the reason. */
  readonly unread: readonly string[];
  /** There is more than was walked through. */
  readonly ended: boolean;
}

// Folders with a dot before their name, and those of packages, hold no windings of one's own.
const passedOver = /^(?:\..*|node_modules)$/;
// A folder of that many files and folders is no place where windings are kept; the walk ends there.
const mostEntries = 100_000;

/**
 * Every winding file below the folders of the workspace, by its own walk through the editor's file systems: a search
 * of the editor may not be there. Links to folders are not followed, so the walk ends.
 */
export async function findWindingFiles(folders: readonly Uri[], most: number): Promise<FoundFiles> {
  const files: Uri[] = [];
  const unread: string[] = [];
  const waiting = [...folders];
  let entries = 0;
  for (let folder = waiting.pop(); folder && entries < mostEntries; folder = waiting.pop()) {
    try {
      for (const [name, type] of await workspace.fs.readDirectory(folder)) {
        entries++;
        const uri = Uri.joinPath(folder, name);
        if ((type & FileType.Directory) !== 0) {
          if ((type & FileType.SymbolicLink) === 0 && !passedOver.test(name)) waiting.push(uri);
        } else if (name.endsWith('.winding')) files.push(uri);
      }
    } catch (error) {
      unread.push(`${folder.path}: ${error instanceof Error ? error.message : String(error)}`);
    }
  }
  files.sort((a, b) => (a.path < b.path ? -1 : a.path > b.path ? 1 : 0));
  const ended = entries >= mostEntries;
  return { files: files.slice(0, most), more: Math.max(0, files.length - most), unread, ended };
}

/** The file that lists all others of a handover package. */
export const manifestName = 'manifest.json';
export const manifestSchema = 'slotwright-manifest/1';

/** Whether a winding is the copy in a handover package: the manifest beside it lists it. */
export async function isHandedOver(uri: Uri): Promise<boolean> {
  try {
    const bytes = await workspace.fs.readFile(Uri.joinPath(uri, '..', manifestName));
    const { schema, files } = JSON.parse(new TextDecoder().decode(bytes));
    return (
      schema === manifestSchema && files.some(({ file }: { file?: unknown }) => file === lastPart(uri.path))
    );
  } catch {
    // No manifest, or one of something else.
    return false;
  }
}
