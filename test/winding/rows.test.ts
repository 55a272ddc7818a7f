import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { cellAt, phaseOfCell } from '../../core/winding/model.ts';
import { study } from '../support/study.ts';
import { tries } from '../support/tries.ts';
import { windingText } from '../support/windingText.ts';

const names = ['U', 'V', 'W'];

/** The rows of a text's slot table as written: `+U -W .`, one string a layer. */
function rowsOf(machine: string, layout: string): readonly string[] {
  const { winding, findings } = study(windingText({ machine, layout }));
  if (!winding) throw new RangeError(findings.map(({ message }) => message).join('; '));
  return Array.from({ length: winding.layers }, (_, layer) =>
    Array.from({ length: winding.slots }, (_, i) => {
      const cell = cellAt(winding.table, i + 1, layer);
      return cell === 0 ? '.' : `${cell > 0 ? '+' : '-'}${winding.phases.names[phaseOfCell(cell)]}`;
    }).join(' '),
  );
}

const negated = (place: string) => place.replace(/[+-]/, (sign) => (sign === '+' ? '-' : '+'));

describe('written rows', () => {
  const machine = 'slots 12 poles 4 phases 3';

  it('stand slot by slot', () => {
    const row = '+U -W +V -U +W -V . . . +U -U .';
    expect(rowsOf(machine, `layer a ${row}`)).toEqual([row]);
  });

  it('repeat', () => {
    expect(rowsOf(machine, 'layer a +U -W . repeat 4')).toEqual(['+U -W . +U -W . +U -W . +U -W .']);
    expect(rowsOf(machine, 'layer a +U -W . repeat 4 alternating')).toEqual([
      '+U -W . -U +W . +U -W . -U +W .',
    ]);
  });

  it('hold groups', () => {
    expect(rowsOf(machine, 'layer a (+U (-W)*2)*3 . . .')).toEqual(['+U -W -W +U -W -W +U -W -W . . .']);
    expect(rowsOf(machine, 'layer a (+U -W)*3 repeat 2 alternating')).toEqual([
      '+U -W +U -W +U -W -U +W -U +W -U +W',
    ]);
  });

  it('are derived: what stood in slot s stands in slot s + k', () => {
    expect(rowsOf(machine, 'layer a +U -W +V . . . . . . . . . layer b = layer a moved 5')[1]).toBe(
      '. . . . . +U -W +V . . . .',
    );
    expect(rowsOf(machine, 'layer b +U -W +V . . . . . . . . . layer a = layer b moved -1 negated')[0]).toBe(
      '+W -V . . . . . . . . . -U',
    );
  });

  it('are derived from derived ones, in any order', () => {
    const layout =
      'layer c = layer b moved 2 negated layer b = layer a moved 3 negated layer a +U . . . . . . . . . . .';
    expect(rowsOf(machine, layout)).toEqual([
      '+U . . . . . . . . . . .',
      '. . . -U . . . . . . . .',
      '. . . . . +U . . . . . .',
    ]);
  });

  it('have as many layers as they name, where no count is given', () => {
    expect(rowsOf(machine, 'layer a +U repeat 12 layer b = layer a')).toHaveLength(2);
  });

  it('agree with shifting by hand', () => {
    const place = fc.oneof(
      fc.constant('.'),
      fc.tuple(fc.constantFrom('+', '-'), fc.constantFrom(...names)).map((parts) => parts.join('')),
    );
    fc.assert(
      fc.property(
        fc.array(place, { minLength: 12, maxLength: 12 }),
        fc.integer({ min: -2399, max: 2399 }),
        fc.boolean(),
        (row, moved, negate) => {
          const expected: string[] = new Array(12);
          row.forEach((written, slot) => {
            expected[(((slot + moved) % 12) + 12) % 12] = negate ? negated(written) : written;
          });
          const derivation = `layer b = layer a moved ${moved}${negate ? ' negated' : ''}`;
          expect(rowsOf(machine, `layer a ${row.join(' ')} ${derivation}`)[1]).toBe(expected.join(' '));
        },
      ),
      { seed: 11, numRuns: tries(40) },
    );
  });
});
