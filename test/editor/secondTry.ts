import { beforeEach } from 'vitest';
import type { Workbench } from './workbench.ts';

/**
 * Has the second try of a test begin in a window loaded anew, with the files as they were at first, in which `ready` has
 * opened what the tests of the file build on.
 */
export function secondTriesBeginAnew(
  bench: () => Workbench,
  ready: () => Promise<void> = () => Promise.resolve(),
): void {
  beforeEach(async ({ task }) => {
    if ((task.result?.retryCount ?? 0) === 0) return;
    await bench().afresh();
    await ready();
  });
}
