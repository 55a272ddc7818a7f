// Takes its time: goes through many cases.

import fc from 'fast-check';
import { describe, expect, it, test } from 'vitest';
import { parallelPathsAnyCrowns } from '../../core/analysis/anyCrownPaths.ts';
import { canShareOut } from '../../core/analysis/shareOut.ts';
import { possibleParallelPaths, route } from '../../core/routing/route.ts';
import { phaseOfCell, type Winding } from '../../core/winding/model.ts';
import { witnesses } from '../routing/routingCases.ts';
import { study } from '../support/study.ts';
import { tries } from '../support/tries.ts';
import { machine } from '../winding/windings.ts';

/** The same table as if its rows were written: bars are then really shared out. */
const asRows = (winding: Winding): Winding => ({ ...winding, origin: { kind: 'rows' } });

test.each(witnesses)('$machine: $paths paths are known from elsewhere', ({ machine: request, paths }) => {
  expect(parallelPathsAnyCrowns(machine(request))).toContain(paths);
  expect(parallelPathsAnyCrowns(asRows(machine(request)))).toContain(paths);
});

test('36 slots, 6 poles, 2 layers by hand: 12 bars of each of 2 voltages, 12 in each layer, 24 in all', () => {
  const winding = machine({ slots: 36, poles: 6, layers: 2, span: 6 });
  expect(parallelPathsAnyCrowns(winding)).toEqual([1, 2, 3, 4, 6, 12]);
  expect(possibleParallelPaths(winding)).toEqual([1, 2, 3, 6]);
});

test('12 slots, 10 poles, 4 layers: 1 and 2 only', () => {
  expect(parallelPathsAnyCrowns(machine({ slots: 12, poles: 10, layers: 4, span: 1 }))).toEqual([1, 2]);
});

const crowns = (connect: string) => `winding "Sluice gate hoist"
machine { slots 36 poles 6 phases 3 }
layout { layers 2 span 6 }
connect { star
${connect} }
`;

describe('4 paths with special crowns in 36 slots, 6 poles, 2 layers', () => {
  const written = crowns(`path U 1 from U1 14a +6b +6a +5b +6a +6b to N
path U 2 from U1 13b -6a -6b -5a -6b -6a to N
path U 3 from U1 13a +6b +6a +7b +6a +6b to N
path U 4 from U1 14b -6a -6b -7a -6b -6a to N
repeat U as V shift 4
repeat U as W shift 8`);

  it('are balanced when written, and counted as possible', () => {
    const report = study(written).report();
    expect(report.findings.filter(({ severity }) => severity === 'error')).toEqual([]);
    expect(report.balance.pathVoltageDifference).toBe(0);
    for (const { layerCounts } of report.paths) expect(layerCounts).toEqual([3, 3]);
    expect(report.winding).toMatchObject({
      parallelPaths: 4,
      largestParallelPaths: 6,
      largestParallelPathsAnyCrowns: 12,
    });
  });

  it('are refused when special spans are to lie in the joined legs, which tells both classes', () => {
    const text = crowns('specials joined route paths 4');
    const found = study(text).findings.find(({ code }) => code === 'routing-refused');
    expect(found?.message).toBe(
      '4 parallel paths cannot be routed with regular crowns: 4 does not divide 6 pairs of bars of equal voltage. Nearest numbers that work: 3, 6. All that work with them: 1, 2, 3, 6. With special crowns 4 parallel paths are possible: write specials either.',
    );
  });

  it('a number that neither class allows', () => {
    const found = study(crowns('route paths 5')).findings.find(({ code }) => code === 'routing-refused');
    expect(found?.message).toContain(
      '5 parallel paths cannot be routed with regular crowns: 5 does not divide',
    );
    expect(found?.message).toContain('With special crowns neither; besides these they allow 4, 12.');
  });

  it('where special crowns allow no more, that is said', () => {
    const text = crowns('route paths 3')
      .replace('slots 36 poles 6', 'slots 48 poles 8')
      .replace('span 6', 'span 5');
    const found = study(text).findings.find(({ code }) => code === 'routing-refused');
    expect(found?.message).toContain('Special crowns allow no other numbers.');
  });
});

describe('one layer, where route takes coils of one span', () => {
  const capstan = (connect: string) =>
    `winding "Ferry capstan"\nmachine { slots 12 poles 2 phases 3 }\nlayout { layers 1 span 6 }\nconnect { star\n${connect} }`;
  const refusal = (connect: string) =>
    study(capstan(connect)).findings.find(({ code }) => code === 'routing-refused')?.message;

  it('written coils of spans 7 and 5, one within the other, make 2 balanced paths, which are counted', () => {
    const report = study(
      capstan(`path U 1 from U1 1a +7a to N
path U 2 from U1 2a +5a to N
repeat U as V shift 4
repeat U as W shift 8`),
    ).report();
    expect(report.findings.filter(({ severity }) => severity === 'error')).toEqual([]);
    expect(report.balance.pathVoltageDifference).toBe(0);
    expect(report.winding).toMatchObject({
      parallelPaths: 2,
      largestParallelPaths: 1,
      largestParallelPathsAnyCrowns: 2,
      balanced: true,
    });
  });

  it('a refusal sends to written paths, not to a statement with which the search ends in nothing', () => {
    const written =
      'Written paths with crowns of other spans allow 2 parallel paths; in one layer route takes coils of one span only.';
    expect(refusal('specials joined route paths 2')).toBe(
      `2 parallel paths cannot be routed with regular crowns: 2 does not divide 1 pair of bars of equal voltage. Nearest numbers that work: 1. All that work with them: 1. ${written}`,
    );
    expect(refusal('specials either route paths 2')).toContain(`though there may be some. ${written}`);
    expect(refusal('route paths 2')).toContain(written);
    expect(refusal('route paths 3')).toContain('besides these they allow 2, as written paths.');
  });

  it('a lone layer above a pair: special crowns of the pair do what its coils of one span do not', () => {
    const text = `winding "Lock winch"
machine { slots 12 poles 2 phases 3 }
layout { layers 3
  layer a +U +U -W -W +V +V -U -U +W +W -V -V
  layer b +U +U -W -W +V +V -U -U +W +W -V -V
  layer c +U +U -W -W +V +V -U -U +W +W -V -V }
connect { star specials joined route paths 2 }`;
    const { findings, facts } = study(text);
    const { winding } = facts!;
    expect(parallelPathsAnyCrowns(winding)).toEqual([1, 2]);
    const found = findings.find(({ code }) => code === 'routing-refused');
    expect(found?.message).toContain(
      'With special crowns 2 parallel paths are possible: write specials either.',
    );
    expect(route(winding, { paths: 2, specials: 'either', nodeBudget: 20_000 }).ok).toBe(true);
  });
});

test('without a constant span special crowns do not help, and both are told', () => {
  const text = `winding "Slipway winch"\nmachine { slots 24 poles 4 phases 3 }\nlayout { layers 2\n layer a (+U +U -W -W +V +V -U -U +W +W -V -V)*2\n layer b (+U -W +V -U +W -V)*4 }\nconnect { star route paths 7 }`;
  const found = study(text).findings.find(({ code }) => code === 'routing-refused');
  expect(found?.message).toContain(
    'cannot be routed with regular crowns: in layers a and b no constant span',
  );
  expect(found?.message).toContain('With special crowns neither; they allow ');
  expect(found?.message).toMatch(/, as written paths\.$/);
  const two = study(text.replace('paths 7', 'paths 2'));
  expect(two.findings.find(({ code }) => code === 'routing-refused')?.message).toMatch(
    /Written paths with crowns of other spans allow 2 parallel paths\.$/,
  );
});

test('unequal senses, or a phase without bars: no path at all', () => {
  const winding = machine({ slots: 12, poles: 2, layers: 2 });
  const cells = Int8Array.from(winding.table.cells, (cell) => (cell === -1 ? 0 : cell));
  const lopsided = { ...asRows(winding), table: { ...winding.table, cells } };
  expect(parallelPathsAnyCrowns(lopsided)).toEqual([]);
});

/** Every way to give bars to equal shares, one bar after the other: as many of each key and sense in each. */
function sharesByTrying(bars: readonly { readonly keys: readonly string[] }[], paths: number): boolean {
  const totals = new Map<string, number>();
  for (const { keys } of bars) for (const key of keys) totals.set(key, (totals.get(key) ?? 0) + 1);
  if ([...totals.values()].some((total) => total % paths !== 0)) return false;
  const held = Array.from({ length: paths }, () => new Map<string, number>());
  const place = (index: number): boolean => {
    if (index === bars.length) return true;
    for (const share of held) {
      const { keys } = bars[index]!;
      if (keys.some((key) => (share.get(key) ?? 0) >= totals.get(key)! / paths)) continue;
      for (const key of keys) share.set(key, (share.get(key) ?? 0) + 1);
      if (place(index + 1)) return true;
      for (const key of keys) share.set(key, share.get(key)! - 1);
      // The next shares that are empty too are just like this one.
      if ([...share.values()].every((count) => count === 0)) break;
    }
    return false;
  };
  return place(0);
}

/** The bars of a phase with what a share must hold equally: voltage (or voltage in its layer), layer, sense. */
function keyedBars(winding: Winding, phase: number, strict: boolean) {
  const { slots, polePairs } = winding;
  const bars: { keys: string[] }[] = [];
  winding.table.cells.forEach((cell, place) => {
    if (cell === 0 || phaseOfCell(cell) !== phase) return;
    const [slot, layer] = [place % slots, Math.floor(place / slots)];
    // Degrees, not the integers of the code.
    const angle = ((360 * polePairs * slot) / slots + (cell < 0 ? 180 : 0)) % 360;
    const voltage = `voltage ${angle.toFixed(6)}`;
    bars.push({
      keys: [strict ? `${voltage} in layer ${layer}` : voltage, `layer ${layer}`, `sense ${Math.sign(cell)}`],
    });
  });
  return bars;
}

/** The same choice of the 16 places of a phase in two rows of four groups, turned by groups: each is a pole on. */
function turnedBy(choice: number, poles: number): number {
  const row = (places: number) => ((places << (2 * poles)) | (places >> (8 - 2 * poles))) & 255;
  return row(choice & 255) | (row(choice >> 8) << 8);
}

test('half-empty rows, every choice of 8 of 16 places but for turns: as by trying, and the condition alone is not enough', () => {
  // 24 slots, 4 poles, 2 slots a pole and phase; V and W like U, 4 and 8 slots on.
  const full = machine({ slots: 24, poles: 4, layers: 2, span: 6 });
  const places = [...full.table.cells.keys()].filter((place) => Math.abs(full.table.cells[place]!) === 1);
  expect(places).toHaveLength(16);
  let conditionOnly = 0;
  let four = 0;
  let choices = 0;
  for (let choice = 0; choice < 2 ** 16; choice++) {
    const chosen = places.filter((_, index) => (choice >> index) & 1);
    if (chosen.length !== 8) continue;
    const turned = [1, 2, 3].map((poles) => turnedBy(choice, poles));
    if (turned.some((other) => other < choice)) continue;
    choices += new Set([choice, ...turned]).size;
    const cells = new Int8Array(48);
    for (const place of chosen)
      for (const phase of [0, 1, 2]) {
        const slot = ((place % 24) + 4 * phase) % 24;
        const at = 24 * Math.floor(place / 24) + slot;
        cells[at] = full.table.cells[at]!;
      }
    const winding = { ...asRows(full), table: { ...full.table, cells } };
    const found = parallelPathsAnyCrowns(winding);
    const bars = keyedBars(winding, 0, false);
    const plus = bars.filter(({ keys }) => keys[2] === 'sense 1').length;
    for (const paths of [2, 4]) {
      const possible = plus === 4 && sharesByTrying(bars, paths);
      if (found.includes(paths) !== possible) expect({ choice, paths, found }).toBe(possible);
      if (paths === 4 && possible) four++;
      const counts = new Map<string, number>();
      for (const { keys } of bars) for (const key of keys) counts.set(key, (counts.get(key) ?? 0) + 1);
      if (paths === 4 && plus === 4 && !possible && [...counts.values()].every((count) => count % 4 === 0))
        conditionOnly++;
    }
  }
  // 16 over 8.
  expect(choices).toBe(12_870);
  expect(four).toBeGreaterThan(25);
  expect(conditionOnly).toBeGreaterThan(0);
});

const requests = fc
  .record({
    q: fc.constantFrom(1, 2, 3),
    poles: fc.constantFrom(2, 4, 6, 8),
    phases: fc.constantFrom(3, 5),
    layers: fc.constantFrom(2, 4, 6),
    short: fc.integer({ min: 0, max: 1 }),
    stagger: fc.integer({ min: 0, max: 1 }),
  })
  .map(({ q, poles, phases, layers, short, stagger }) => ({
    slots: q * poles * phases,
    poles,
    phases,
    layers,
    span: Math.max(1, q * phases - short),
    stagger: layers > 2 ? stagger : 0,
  }));

test('what the router finds is among them, and generated layouts meet by sharing what the condition says', () => {
  fc.assert(
    fc.property(requests, (request) => {
      const winding = machine(request);
      const numbers = parallelPathsAnyCrowns(winding);
      for (const paths of possibleParallelPaths(winding)) expect(numbers).toContain(paths);
      expect(parallelPathsAnyCrowns(asRows(winding))).toEqual(numbers);
    }),
    { numRuns: tries(20), seed: 20260501 },
  );
});

test('strict layouts: every cell is divided, as by trying', () => {
  for (const request of [
    { slots: 12, poles: 2, layers: 2, span: 5 },
    { slots: 18, poles: 6, layers: 2, span: 2 },
    { slots: 9, poles: 6, layers: 2, span: 1 },
  ]) {
    const winding = machine(request);
    const bars = keyedBars(winding, 0, true);
    const expected = Array.from({ length: bars.length }, (_, index) => index + 1).filter(
      (paths) => bars.length % (2 * paths) === 0 && sharesByTrying(bars, paths),
    );
    expect(parallelPathsAnyCrowns(winding)).toEqual(expected);
  }
});

test('the search gives up when its steps are used up', () => {
  const bars = [
    { voltage: 0, layer: 0, plus: 3, minus: 1 },
    { voltage: 1, layer: 1, plus: 1, minus: 3 },
  ];
  expect(canShareOut(bars, 4, { steps: 1000 })).toBe(true);
  expect(canShareOut(bars, 4, { steps: 2 })).toBe(false);
});
