import { readdirSync, readFileSync } from 'node:fs';
import { join } from 'node:path';
import { expect, test } from 'vitest';

const folder = join(import.meta.dirname, '../../../extension/webview/styles');

/** Relative luminance of a color as `#rrggbb`, after WCAG 2.2. */
function luminance(color: string): number {
  const [red, green, blue] = [1, 3, 5].map((at) => {
    const share = Number.parseInt(color.slice(at, at + 2), 16) / 255;
    return share <= 0.04045 ? share / 12.92 : ((share + 0.055) / 1.055) ** 2.4;
  }) as [number, number, number];
  return 0.2126 * red + 0.7152 * green + 0.0722 * blue;
}

// Grounds of the usual themes; what is the same in both may be fainter than what changed.
test.each([
  ['', '#ffffff', 4.5, 3],
  ['.vscode-dark', '#1f1f1f', 4.5, 3],
  ['.vscode-high-contrast', '#000000', 7, 4.5],
  ['.vscode-high-contrast-light', '#ffffff', 7, 4.5],
])('what was added and removed stands out in a comparison%s', (theme, ground, changed, kept) => {
  const css = readFileSync(join(folder, 'comparison.css'), 'utf8');
  const start = css.indexOf(`.comparison${theme} {\n  --kept`);
  expect(start).toBeGreaterThanOrEqual(0);
  const rule = css.slice(start, css.indexOf('}', start));
  for (const [name, least] of [
    ['added', changed],
    ['removed', changed],
    ['kept', kept],
  ] as const) {
    const color = rule.match(new RegExp(`--${name}: (#[0-9a-f]{6})`))![1]!;
    const [light, dark] = [luminance(color), luminance(ground)].sort((a, b) => b - a) as [number, number];
    expect((light + 0.05) / (dark + 0.05), `${name} ${color} on ${ground}`).toBeGreaterThanOrEqual(least);
  }
});

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
