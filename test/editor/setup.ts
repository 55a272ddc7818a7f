import { afterEach } from 'vitest';
import { tellPages } from './failure.ts';

afterEach(async ({ task }) => {
  if (task.result?.state === 'fail') await tellPages(task.name);
});
