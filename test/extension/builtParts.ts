import { bundledParts } from '../../scripts/build.mjs';

let made: ReturnType<typeof bundledParts> | undefined;

/** What the extension reads after its start, as the build makes it, bundled once for all files of tests. */
export function builtParts(): ReturnType<typeof bundledParts> {
  made ??= bundledParts();
  return made;
}
