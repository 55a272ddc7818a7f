import { readFileSync } from 'node:fs';
import { join } from 'node:path';
import { describe, expect, test } from 'vitest';
import { checkText } from '../../core/findings/checkedText.ts';
import { format } from '../../core/language/format/formatter.ts';

interface Snippet {
  readonly prefix: string | readonly string[];
  readonly description: string;
  readonly body: readonly string[];
}

const file = join(import.meta.dirname, '../../syntaxes/winding.snippets.json');
const snippets = Object.entries<Snippet>(JSON.parse(readFileSync(file, 'utf8')));

/** The text with every stop as it is proposed; of choices the first. */
function expanded({ body }: Snippet): string {
  return body
    .join('\n')
    .replace(/\$\{\d+(?::([^}]*)|\|([^,|]*)[^}]*)\}/g, (_, words, choice) => words ?? choice);
}

const errors = (text: string) =>
  checkText(text).findings.flatMap(({ severity, message }) => (severity === 'error' ? [message] : []));

describe('snippets', () => {
  test.each(snippets)('%s is what it says, and as the formatter writes it', (_, snippet) => {
    const text = expanded(snippet);
    expect(text).not.toContain('$');
    if (text.startsWith('winding')) {
      expect(errors(text)).toEqual([]);
      expect(checkText(text).winding).not.toBeNull();
      expect(format(text)).toBe(text);
    } else if (text.startsWith('path')) {
      const whole = `winding "Path"\nmachine { slots 48 poles 8 phases 3 }\nconnect { star\n  ${text}\n}\n`;
      // One path alone leaves bars unused, which is said; of its form there is nothing to say.
      expect(checkText(whole).findings.map(({ code }) => code)).not.toContain('value-wrong');
      expect(checkText(whole).specification.connect?.paths).toHaveLength(1);
    } else {
      const base = 'winding "Base"\nmachine { slots 48 poles 8 phases 3 }\nlayout { layers 2 span 5 }\n';
      expect(errors(`${base}${text}`)).toEqual([]);
      expect(format(text)).toBe(text);
    }
  });

  test('whole windings are offered by one word', () => {
    const whole = snippets.filter(([, snippet]) => expanded(snippet).startsWith('winding'));
    expect(whole.length).toBeGreaterThanOrEqual(4);
    for (const [, { prefix }] of whole) for (const each of [prefix].flat()) expect(each).toMatch(/^winding/);
  });
});
