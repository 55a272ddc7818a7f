/** What the operating system's error codes mean to the one who named the file. */
const reasons: ReadonlyMap<string, string> = new Map([
  ['ENOENT', 'no such file or folder.'],
  ['ENOTDIR', 'a part of its path is no folder.'],
  ['ELOOP', 'its links lead in a circle.'],
  ['EISDIR', 'is a folder, not a file.'],
  ['EACCES', 'access denied.'],
  ['EPERM', 'access denied.'],
  ['EROFS', 'the file system is read-only.'],
  ['ENOSPC', 'no space left.'],
  ['EDQUOT', 'the disk quota is used up.'],
  ['EFBIG', 'larger than a file may become here.'],
  ['ENAMETOOLONG', 'its name is too long.'],
  ['EMFILE', 'too many files are open.'],
  ['ENFILE', 'too many files are open.'],
  ['EBUSY', 'in use.'],
  ['ETXTBSY', 'in use.'],
  ['EBADF', 'closed, or not open for this.'],
  ['EIO', 'the disk or the device failed.'],
]);

/** The error code of a failed call to the operating system; undefined for any other problem. */
export function codeOf(problem: unknown): string | undefined {
  return (problem as NodeJS.ErrnoException | undefined)?.code;
}

/** Why reading or writing failed, as a sentence that follows the file's name. */
export function reasonOf(problem: unknown): string {
  return (
    reasons.get(codeOf(problem) ?? '') ?? `${problem instanceof Error ? problem.message : String(problem)}.`
  );
}
