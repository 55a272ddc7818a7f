import { readdirSync, readFileSync } from 'node:fs';
import { join } from 'node:path';
import { describe, expect, it } from 'vitest';
import { figureRegister } from '../../core/figures/register.ts';

/** Folders that show figures, but know none. */
const showing = ['core/views', 'core/report/markdown', 'core/review'];

const units = [...new Set(Object.values(figureRegister).map(({ shown }) => shown.unit))]
  // Lengths that are no figures, such as those of a scale, are told in millimeters too.
  .filter((unit) => unit.length > 0 && unit !== 'mm' && unit !== '%' && unit !== '°');

/** A unit that ends a text, or stands before a comma in it, behind a number, `in` or a heading's words. */
const byHand = new RegExp(`['"\`][^'"\`\\n]*[\\w})] (?:${units.join('|')})(?:['"\`]|, )`, 'u');

function byHandIn(text: string): readonly string[] {
  return text
    .split('\n')
    .filter((line) => byHand.test(line) && !/^\s*(?:\/\/|\*|\/\*)/.test(line))
    .map((line) => line.trim());
}

describe('units of figures', () => {
  it('stand in the register alone', () => {
    const found = showing.flatMap((folder) =>
      readdirSync(folder, { recursive: true, encoding: 'utf8' })
        .filter((name) => name.endsWith('.ts'))
        .flatMap((name) =>
          byHandIn(readFileSync(join(folder, name), 'utf8')).map((line) => `${folder}/${name}: ${line}`),
        ),
    );
    expect(found).toEqual([]);
  });

  it.each([
    "yName: 'torque in Nm',",
    'words.push(`Base speed: $' + '{speed} rpm`);',
    "yName: 'line voltage in V, rms',",
  ])('are noticed where a line writes one: %s', (line) => {
    expect(byHandIn(line)).toHaveLength(1);
  });
});
