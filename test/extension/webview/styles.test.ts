import { readdirSync, readFileSync } from 'node:fs';
import { join } from 'node:path';
import { expect, test } from 'vitest';

const folder = join(import.meta.dirname, '../../../extension/webview/styles');

// A browser styles everything in what is asked by `:has` anew with each change in there: of the drawing, all of it.
test('no rule asks with :has what is in the page or in the drawing’s place', () => {
  const asked = readdirSync(folder).flatMap((file) => {
    const css = readFileSync(join(folder, file), 'utf8').replace(/\/\*[\s\S]*?\*\//g, '');
    return [...css.matchAll(/([^\s,{};>+~]*):has\(/g)].map(([, name]) => name!);
  });
  const besideTheDrawing = ['#panel-lower', '#panel-line', '#panel-variants', '.variants-compared'];
  expect(asked.length).toBeGreaterThan(0);
  expect(asked.filter((name) => !besideTheDrawing.includes(name))).toEqual([]);
});
