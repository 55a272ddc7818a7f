import { readFileSync } from 'node:fs';
import { expect, test } from 'vitest';
import { phaseStyle } from '../../core/picture/phaseStyle.ts';
import { type Ink, inkColors, paperColor, roleStyles } from '../../core/picture/roleStyle.ts';

const css = readFileSync('extension/webview/styles/picture.css', 'utf8');

/** Contrast of two colors after WCAG 2.2, definitions of relative luminance and contrast ratio. */
function contrast(one: string, other: string): number {
  const [low, high] = [luminance(one), luminance(other)].sort((a, b) => a - b);
  return (high! + 0.05) / (low! + 0.05);
}

function luminance(color: string): number {
  const [red, green, blue] = [1, 3, 5].map((at) => {
    const share = Number.parseInt(color.slice(at, at + 2), 16) / 255;
    return share <= 0.04045 ? share / 12.92 : ((share + 0.055) / 1.055) ** 2.4;
  });
  return 0.2126 * red! + 0.7152 * green! + 0.0722 * blue!;
}

function phaseColors(selector: string): readonly string[] {
  const start = css.indexOf(`\n${selector} {`);
  expect(start).toBeGreaterThanOrEqual(0);
  const rule = css.slice(start, css.indexOf('}', start));
  return [...rule.matchAll(/--phase-[a-g]: (#[0-9a-f]{6});/g)].map(([, color]) => color!);
}

test.each([
  ['.picture', '#ffffff', 3.9],
  ['.vscode-dark .picture', '#1f1f1f', 4.5],
  ['.vscode-high-contrast .picture', '#000000', 7],
  ['.vscode-high-contrast-light .picture', '#ffffff', 7],
])('phases stand out from the ground under %s', (selector, ground, least) => {
  const colors = phaseColors(selector);
  // Six colors of their own; the seventh is the text's.
  expect(new Set(colors).size).toBe(6);
  for (const color of colors) expect(contrast(color, ground)).toBeGreaterThanOrEqual(least);
});

test('black, gray and the first five phases stand out from paper', () => {
  for (const color of [inkColors.ink, inkColors.quiet])
    expect(contrast(color, paperColor)).toBeGreaterThanOrEqual(4.5);
  for (const phase of [0, 1, 2, 3, 4])
    expect(contrast(phaseStyle(phase).color, paperColor)).toBeGreaterThanOrEqual(3);
});

test('every role that is no phase’s follows the theme', () => {
  const own: readonly Ink[] = ['ink', 'quiet', 'faint'];
  for (const [role, { stroke }] of Object.entries(roleStyles)) {
    if (!own.includes(stroke)) continue;
    expect(css, role).toMatch(new RegExp(`\\.${role}[\\s,)\\[:]`));
    expect(css).toContain(`var(--${stroke})`);
  }
  for (let phase = 0; phase < 15; phase++) expect(css).toContain(`.phase-${phase}`);
});
