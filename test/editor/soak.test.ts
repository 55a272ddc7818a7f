import { expect, test } from 'vitest';
import { Soak } from './soak.ts';
import { nodePackage } from './workbench.ts';

// Looks into the worker of the browser that runs extensions.
test.skipIf(nodePackage !== null)('nothing is kept of texts, panels and files that are gone', async () => {
  const long = await Soak.begin(3);
  try {
    await long.round(0, 20);
    const before = await long.kept();
    for (const round of [1, 2]) await long.round(round, 20);
    const after = await long.kept();
    // A study has some hundred functions of its own, and each key makes one.
    expect(after.functions - before.functions).toBeLessThan(100);
  } finally {
    await long.close();
  }
});
