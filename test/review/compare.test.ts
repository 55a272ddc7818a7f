// Takes its time: compares whole windings.

import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { format } from '../../core/language/format/formatter.ts';
import { compare } from '../../core/review/compare.ts';
import { comparisonFails } from '../../core/review/policy.ts';
import { type Comparison, comparisonSchema } from '../../core/review/schema.ts';
import { examples, soundExamples } from '../support/files.ts';
import { study } from '../support/study.ts';
import { tries } from '../support/tries.ts';
import { generatedFerry, rowsOf, writtenFerry } from './texts.ts';

/** Compares two texts; what comes out is valid after its schema. */
function compared(old: string, now: string): Comparison {
  return comparisonSchema.parse(compare(study(old), study(now)));
}

/** The parts of a comparison that hold something; limits are always listed and left out. */
function said({ limits: _, errors: __, warnings: ___, ...parts }: Comparison): Partial<Comparison> {
  const empty = (value: unknown): boolean =>
    value === null ||
    (Array.isArray(value) && value.length === 0) ||
    (typeof value === 'object' && Object.values(value as object).every(empty));
  return Object.fromEntries(Object.entries(parts).filter(([, value]) => !empty(value)));
}

const nothing = { equal: true };

/** Names of the numbers that moved, without orders. */
const moved = ({ numbers }: Comparison) => [...new Set(numbers.map(({ quantity }) => quantity))];

/** The text with its route written out as paths. */
function writtenOut(text: string): string {
  const edit = study(text).writeOutPaths();
  if (!edit) throw new Error('nothing to write out');
  return text.slice(0, edit.range.start) + edit.text + text.slice(edit.range.end);
}

describe('windings that are equal', () => {
  it.each(examples)('says nothing about $name and itself, reformatted or not', ({ text }) => {
    for (const other of [text, format(text)]) {
      const { notes, ...rest } = said(compared(text, other));
      expect(rest).toEqual(nothing);
      // Without a winding there is no more to say than that.
      expect(notes?.length ?? 0).toBe(study(text).winding ? 0 : 2);
    }
  });

  it('does not mind comments, line ends, the order of blocks, units, defaults', () => {
    const blocks = generatedFerry.split(/\n(?=[a-z])/);
    const reordered = [blocks[0], ...blocks.slice(1).reverse()].join('\n\n');
    expect(reordered).not.toBe(generatedFerry);
    expect(said(compared(generatedFerry, reordered))).toEqual(nothing);
    const other = generatedFerry
      .replace('162 mm', '0.162 m   # the same')
      .replace('width 3.6 mm', 'width 3600 um')
      .replace('  gap     inner\n', '')
      .replace('span   6', 'span 6  stagger 0  belt 60 edeg')
      .replaceAll('\n', '\r\n');
    expect(said(compared(generatedFerry, other))).toEqual({ equal: true, rewritten: ['layout'] });
  });

  it('knows a generated layout written row by row', () => {
    const rows = rowsOf(study(generatedFerry).winding!);
    const written = generatedFerry.replace('  span   6', rows);
    expect(said(compared(generatedFerry, written))).toEqual({ equal: true, rewritten: ['layout'] });
    expect(said(compared(written, generatedFerry))).toEqual({ equal: true, rewritten: ['layout'] });
  });

  it('knows found paths written out', () => {
    expect(said(compared(generatedFerry, writtenOut(generatedFerry)))).toEqual({
      equal: true,
      rewritten: ['connect'],
    });
  });

  it('knows hops and absolute positions, groups, copies, and paths under other numbers', () => {
    const absolute = writtenFerry.replace(
      '1a (+6b +6a)*3 +6b\n                   +7a (+6b +6a)*3 +6b',
      '1a 7b 13a 19b 25a 31b 37a 43b 2a 8b 14a 20b 26a 32b 38a 44b',
    );
    expect(absolute).not.toBe(writtenFerry);
    expect(said(compared(writtenFerry, absolute))).toEqual(onlyConnect);
    const swapped = writtenFerry
      .replace('path U 1', 'path U 9')
      .replace('path U 2', 'path U 1')
      .replace('path U 9', 'path U 2');
    expect(said(compared(writtenFerry, swapped))).toEqual(onlyConnect);
  });
});

const onlyConnect = { equal: true, rewritten: ['connect'] };

describe('bars in other paths', () => {
  it.each([
    [4, 2],
    [2, 4],
  ])('names paths so that old and new differ, of %i paths that became %i', (old, now) => {
    const joined = (paths: number) => generatedFerry.replace('route paths 2', `route paths ${paths}`);
    const { bars } = compared(joined(old), joined(now));
    expect(bars.length).toBeGreaterThan(0);
    expect(bars.filter((bar) => bar.old === bar.new)).toEqual([]);
    // Nothing else moved: the same phases and senses, in other paths.
    const plain = (words: string | null) => words?.replace(/ path \d$/, '');
    for (const bar of bars) expect(plain(bar.old)).toBe(plain(bar.new));
    // The old paths that live on have the new numbers, those that do not the next ones.
    const named = new Set(bars.map((bar) => Number(bar.old?.match(/\d$/)?.[0])));
    expect([...named].filter((number) => number > now).sort()).toEqual(old > now ? [3, 4] : []);
  });
});

describe('renumbering', () => {
  it('is recognized in written paths, and is all there is to say', () => {
    const turned = writtenFerry.replace('U1 1a', 'U1 4a').replace('U1 2b', 'U1 5b');
    expect(said(compared(writtenFerry, turned))).toEqual({
      equal: true,
      rotation: 3,
      rewritten: ['connect'],
    });
    expect(compared(turned, writtenFerry).rotation).toBe(45);
  });

  it('is recognized in rows by any number of slots', () => {
    fc.assert(
      fc.property(fc.constantFrom(...soundExamples), fc.integer({ min: 1, max: 200 }), ({ text }, moved) => {
        const plain = text.replace(/connect \{[^}]*\}/, '').replace(/require \{[^}]*\}/, '');
        const { winding } = study(plain);
        if (winding?.origin.kind !== 'generated') return;
        const layout = (turn: number) =>
          plain.replace(
            /layout \{[^}]*\}/,
            `layout {\n  layers ${winding.layers}\n${rowsOf(winding, turn)}\n}`,
          );
        const leaning = winding.lean.some((lean) => lean !== 0);
        if (leaning) return;
        const { rotation, equal, bars, statements } = compared(layout(0), layout(moved));
        expect({ equal, bars, statements }).toEqual({ equal: true, bars: [], statements: [] });
        // A table with symmetry may need fewer slots: the rotation said maps the one table on the other.
        const { slots, layers, table } = winding;
        const turned = study(layout(moved)).winding!.table.cells;
        const places = Array.from({ length: layers * slots }, (_, place) => place);
        const moves = (place: number) =>
          place - (place % slots) + (((place % slots) + (rotation ?? 0)) % slots);
        expect(places.map((place) => turned[moves(place)])).toEqual([...table.cells]);
        expect(rotation ?? 0).toBeLessThanOrEqual(moved % slots);
      }),
      { seed: 6, numRuns: tries(12) },
    );
  });

  it('with a change is no renumbering', () => {
    const turned = writtenFerry
      .replace('U1 1a', 'U1 4a')
      .replace('U1 2b', 'U1 5b')
      .replace('shift 4', 'shift 16');
    const { rotation, equal, joints } = compared(writtenFerry, turned);
    expect(rotation).toBe(3);
    expect(equal).toBe(false);
    expect(joints.added.length).toBeGreaterThan(0);
  });
});

describe('another connection of the same layout', () => {
  it('is no renumbering, though some rotation keeps a few joints more', () => {
    const half = generatedFerry
      .replace('slots   48', 'slots   24')
      .replace('poles   8', 'poles   4')
      .replace('bore    162 mm', 'bore    81 mm');
    const { rotation, bars, joints } = compared(half, half.replace('paths 2', 'paths 2 least voltage'));
    expect(joints.added.length).toBeGreaterThan(0);
    // Under 12 slots 66 of the 90 joints are kept, under none 57: nobody turned the stator.
    expect(rotation).toBeNull();
    // A bar that changed its path is told under the number it has in both texts.
    for (const { old, new: now } of bars) expect(old?.slice(0, 2)).toBe(now?.slice(0, 2));
  });
});

describe('changes', () => {
  it('names a changed span, and the numbers with their sense', () => {
    const comparison = compared(generatedFerry, generatedFerry.replace('span   6', 'span   5'));
    expect(comparison.statements).toEqual([{ what: 'layout span', old: '6', new: '5' }]);
    // Full pitch against 5/6: layers b and d move by a slot, so a quarter of the bars of these changes.
    expect(comparison.bars).toHaveLength(48);
    expect(comparison.bars[0]).toEqual({ bar: '2b', old: '+U path 2', new: '-W path 1' });
    const number = (quantity: string, harmonic?: string) =>
      comparison.numbers.find((item) => item.quantity === quantity && item.harmonic === harmonic);
    // Pitch factor sin(n 90 deg 5/6), any textbook on windings.
    for (const harmonic of [1, 5, 7, 11]) {
      const factor = Math.abs(Math.sin((harmonic * Math.PI * 5) / 12));
      expect(number('pitch-factor', String(harmonic))!.new).toBeCloseTo(factor, 9);
    }
    expect(number('winding-factor', '1')!.better).toBe(false);
    expect(number('winding-factor', '5')!.better).toBe(true);
    expect(number('wave-relative', '7')!.better).toBe(true);
    expect(number('differential-leakage')!.better).toBe(true);
    expect(number('distribution-factor', '1')).toBeUndefined();
    for (const { old, new: now, difference } of comparison.numbers)
      if (difference !== null) expect(difference).toBe(now! - old!);
    expect(comparison.limits).toMatchObject([
      { quantity: 'winding-factor', harmonic: 1, limit: 0.93, oldLimit: 0.93, holds: true, heldBefore: true },
      { quantity: 'differential-leakage', limit: 0.035, holds: true },
    ]);
    const [factor] = comparison.limits;
    expect(factor!.margin).toBeCloseTo(factor!.new! - 0.93, 12);
  });

  it('names a changed bar width and nothing about bars, joints, shapes', () => {
    const comparison = compared(writtenFerry, writtenFerry.replace('width 3.6', 'width 3.4'));
    expect(comparison).toMatchObject({ equal: true, bars: [], joints: { added: [], removed: [] } });
    expect(comparison.statements).toEqual([{ what: 'bar width', old: '3.6 mm', new: '3.4 mm' }]);
    expect(comparison.findings).toEqual({ new: [], gone: [] });
    for (const quantity of moved(comparison))
      expect(quantity).toMatch(/^(slot-fill|current-density|ac-ratio|copper)/);
    expect(comparison.numbers.find(({ quantity }) => quantity === 'slot-fill')).toMatchObject({
      better: true,
    });
    expect(comparison.numbers.find(({ quantity }) => quantity === 'current-density')).toMatchObject({
      better: false,
    });
  });

  it('names two bars that changed their places in a path: four joints a phase, nothing else of copper', () => {
    const swapped = writtenFerry.replace('1a (+6b +6a)*3 +6b\n', '1a 19b 13a 7b 25a (+6b +6a)*1 +6b\n');
    const { joints, bars, shapes } = compared(writtenFerry, swapped);
    expect(bars).toEqual([]);
    // The walk 1a 7b 13a 19b 25a against 1a 19b 13a 7b 25a, far side first; V and W four and eight slots on.
    const pair = (list: typeof joints.added) =>
      list.map(({ side, from, to }) => `${side} ${[from, to].sort().join(' ')}`).sort();
    const expected = (walk: readonly string[]) =>
      [0, 4, 8]
        .flatMap((shift) =>
          walk.map((step) => {
            const [side, ...ends] = step.split(' ');
            const turned = ends.map((bar) => `${Number.parseInt(bar, 10) + shift}${bar.slice(-1)}`);
            return `${side} ${turned.sort().join(' ')}`;
          }),
        )
        .sort();
    expect(pair(joints.removed)).toEqual(
      expected(['far 1a 7b', 'connection 7b 13a', 'far 13a 19b', 'connection 19b 25a']),
    );
    expect(pair(joints.added)).toEqual(
      expected(['far 1a 19b', 'connection 19b 13a', 'far 13a 7b', 'connection 7b 25a']),
    );
    expect(shapes.joints.added.length).toBeGreaterThan(0);
  });

  it('names one joint made as a separate piece', () => {
    const piece = writtenFerry
      .replace('repeat U as V shift 4', '')
      .replace('repeat U as W shift 8', '')
      .replace('+7a (+6b', '| +7a (+6b');
    const whole = piece.replace('| +7a', '+7a');
    const { joints, bars, statements } = compared(whole, piece);
    expect(bars).toEqual([]);
    expect(statements.map(({ what }) => what)).toEqual(['connect path U 1']);
    expect(joints.removed).toMatchObject([{ from: '43b', to: '2a', span: 7, kind: 'other-span' }]);
    expect(joints.added).toMatchObject([{ from: '43b', to: '2a', span: 7, kind: 'jumper' }]);
  });

  it('names exactly the places of random changes of rows', () => {
    const { winding } = study(generatedFerry);
    const rows = rowsOf(winding!).split('\n');
    const text = (lines: readonly string[]) =>
      generatedFerry.replace('  span   6', lines.join('\n')).replace(/connect \{[^}]*\}/, '');
    const places = ['+U', '-U', '+V', '-V', '+W', '-W', '.'];
    fc.assert(
      fc.property(
        fc.uniqueArray(fc.nat(191), { minLength: 1, maxLength: 6 }),
        fc.infiniteStream(fc.constantFrom(...places)),
        (at, stream) => {
          const cells = rows.map((row) => row.trim().split(' '));
          const expected: { bar: string; old: string | null; new: string | null }[] = [];
          for (const place of at) {
            const [layer, slot] = [Math.floor(place / 48), place % 48];
            const old = cells[layer]![2 + slot]!;
            const now = stream.next().value as string;
            cells[layer]![2 + slot] = now;
            const words = (cell: string) => (cell === '.' ? null : cell);
            if (old !== now)
              expected.push({ bar: `${slot + 1}${'abcd'[layer]}`, old: words(old), new: words(now) });
          }
          const changed = cells.map((parts) => `  ${parts.join(' ')}`);
          const { bars, equal, statements } = compared(text(rows), text(changed));
          expect([...bars].sort((a, b) => (a.bar < b.bar ? -1 : 1))).toEqual(
            expected.sort((a, b) => (a.bar < b.bar ? -1 : 1)),
          );
          expect(equal).toBe(expected.length === 0);
          const layers = new Set(expected.map(({ bar }) => `layout layer ${bar.slice(-1)}`));
          expect(statements.map(({ what }) => what).sort()).toEqual([...layers].sort());
        },
      ),
      { seed: 61, numRuns: tries(10) },
    );
  });

  it('says how limits stand that are new, changed or dropped', () => {
    const now = generatedFerry
      .replace('differential-leakage      <= 3.5 %', 'special-joints <= 2')
      .replace('>= 0.93', '>= 0.97');
    const { limits, findings } = compared(generatedFerry, now);
    expect(limits).toMatchObject([
      {
        quantity: 'winding-factor',
        limit: 0.97,
        oldLimit: 0.93,
        change: 'tightened',
        heldBefore: true,
        holds: false,
      },
      { quantity: 'special-joints', limit: 2, oldLimit: null, change: 'new', heldBefore: null, holds: false },
      {
        quantity: 'differential-leakage',
        limit: null,
        oldLimit: 0.035,
        change: 'dropped',
        margin: null,
        holds: null,
      },
    ]);
    expect(limits[0]!.margin).toBeLessThan(0);
    expect(limits[1]!.old).toBe(limits[1]!.new);
    expect(findings.new.map(({ code }) => code)).toEqual(['limit-failed', 'limit-failed']);
  });

  it('takes the sense of a number from a limit on it', () => {
    const require = (limit: string) =>
      generatedFerry.replace('differential-leakage ', `${limit}\n  differential-leakage `);
    const shorter = (text: string) => text.replace('span   6', 'span   5');
    const better = (text: string) =>
      compared(text, shorter(text)).numbers.find(
        ({ quantity, harmonic }) => quantity === 'winding-factor' && harmonic === '5',
      )!.better;
    expect(better(generatedFerry)).toBe(true);
    expect(better(require('winding-factor harmonic 5 >= 0.01'))).toBe(false);
    expect(better(require('winding-factor harmonic 5 >= 0.01  winding-factor harmonic 5 <= 1'))).toBe(null);
  });

  it('compares a broken text as far as it is understood', () => {
    const broken = compared(generatedFerry, generatedFerry.replace('slots   48', 'slots fourty'));
    expect(said(broken)).toEqual({
      equal: false,
      notes: ['The new text yields no winding: bars, joints, shapes and numbers are not compared.'],
      statements: [{ what: 'machine slots', old: '48', new: 'fourty' }],
      findings: {
        new: ['value-expected', 'limit-not-computable', 'limit-not-computable'].map((code) =>
          expect.objectContaining({ code }),
        ),
        gone: [],
      },
    });
    const partly = compared(writtenFerry, writtenFerry.replace('width 3.6 mm', 'width 3.6 mmm'));
    expect(said(partly)).toEqual({
      equal: true,
      notes: ['Parts of the new text are not understood: numbers that need them are not compared.'],
      statements: [{ what: 'bar width', old: '3.6 mm', new: '3.6 mmm' }],
      findings: { new: [expect.objectContaining({ code: 'unit-wrong' })], gone: [] },
    });
  });

  it('tells of a block that is not closed its statements, of one that is not opened and of one that is unknown the words', () => {
    const rows = (now: string) => compared(generatedFerry, now).statements;
    const open = generatedFerry.replace(/(layout \{[^}]*)\}/, '$1');
    expect(open).not.toBe(generatedFerry);
    expect(rows(open)).toEqual([]);
    expect(rows(open.replace('slots   48', 'slots   36'))).toEqual([
      { what: 'machine slots', old: '48', new: '36' },
    ]);
    expect(rows(`${generatedFerry}sheet {\n`)).toEqual([]);
    expect(rows(`${generatedFerry}sheet owner "A"\n`)).toEqual([
      { what: 'sheet', old: null, new: 'owner "A"' },
    ]);
    expect(rows(`${generatedFerry}rotor { poles 8 }\n`)).toEqual([
      { what: 'rotor', old: null, new: '{ poles 8 }' },
    ]);
  });

  it('takes a file that is not there as all new or all gone', () => {
    const added = comparisonSchema.parse(compare(null, study(writtenFerry)));
    expect(added.bars).toHaveLength(96);
    expect(added.bars.every(({ old }) => old === null)).toBe(true);
    // 6 paths of 16 bars: 15 joints and two ends each.
    expect(added.joints.added).toHaveLength(6 * 17);
    const deleted = comparisonSchema.parse(compare(study(writtenFerry), null));
    expect(deleted.joints.removed).toHaveLength(6 * 17);
    expect(deleted.equal).toBe(false);
    expect(() => compare(null, null)).toThrow(RangeError);
  });

  it('tells old and new apart: exchanged, everything is exchanged', () => {
    const now = generatedFerry.replace('span   6', 'span   5').replace('route paths 2', 'route paths 4');
    const [one, other] = [compared(generatedFerry, now), compared(now, generatedFerry)];
    expect(other.statements).toEqual(
      one.statements.map((item) => ({ ...item, old: item.new, new: item.old })),
    );
    expect(other.joints).toEqual({ added: one.joints.removed, removed: one.joints.added });
    expect(other.shapes.bars.added).toEqual(one.shapes.bars.removed);
    expect(other.findings).toEqual({ new: one.findings.gone, gone: one.findings.new });
    const plain = (list: Comparison['numbers'], flip: number) =>
      list.map((item) => [item.quantity, item.harmonic, flip * (item.difference ?? 0)]).sort();
    expect(plain(other.numbers, -1)).toEqual(plain(one.numbers, 1));
  });
});

describe('a finding that is of another severity', () => {
  // Joint tips half a slot apart, 5.5 mm: a warning for bars that pass, an error for wider ones.
  const hub = (width: number) => `winding "Hub"
machine { slots 48 poles 8 phases 3 bore 152.788745 mm }
slot { width 7 mm depth 26 mm opening 2 mm opening-height 1 mm }
bar { width ${width} mm height 3 mm end-clearance 0.5 mm }
layout { layers 8 span 6 stagger 1 }
connect { star route paths 2 }
`;
  const found = (findings: readonly { readonly code: string; readonly severity: string }[]) =>
    findings.flatMap(({ code, severity }) => (code === 'joint-tips-close' ? [severity] : []));

  it('is new as what it is now, and gone as what it was, where it has become graver', () => {
    const worse = compare(study(hub(4)), study(hub(6)));
    expect(found(worse.findings.new)).toEqual(['error']);
    expect(found(worse.findings.gone)).toEqual(['warning']);
    expect(comparisonFails({ ...worse, errors: { old: 0, new: 0 } }, 'worse')).toBe(true);
  });

  it('is the same where it has become lighter, which the count of errors tells', () => {
    const better = compare(study(hub(6)), study(hub(4)));
    expect([...found(better.findings.new), ...found(better.findings.gone)]).toEqual([]);
    expect(better.errors.new).toBe(better.errors.old - 1);
  });
});
