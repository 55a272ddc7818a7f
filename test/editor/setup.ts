import { afterEach } from 'vitest';
import { tellPages } from './failure.ts';

// The first try leaves pictures too: a test that passes at its second one still has something to tell.
afterEach(async ({ task }) => {
  if (task.result?.state !== 'fail') return;
  const tries = (task.result.retryCount ?? 0) + 1;
  console.error(task.result.errors?.at(-1)?.message);
  await tellPages(`try ${tries} of ${task.name}`);
});
