import { describe, expect, it } from 'vitest';
import { acRatios, fieldWeights, layerSections, reducedHeight } from '../../../core/copper/acLoss/acLoss.ts';
import { phi, psi } from '../../../core/copper/acLoss/skinEffect.ts';
import { copperCurves } from '../../../core/copper/curves.ts';
import { orNull } from '../../../core/figures/figure.ts';
import { copperInput, crossedDrive, examine, ferryDrive, withLine } from '../machines.ts';
import { slottedGap } from '../slottedGap.ts';
import { type Complex, solvedLossRatio } from './slotFieldSolver.ts';

const phasor: Record<string, Complex> = Object.fromEntries(
  ['U', 'V', 'W'].map((name, k) => {
    const angle = (-2 * Math.PI * k) / 3;
    return [name, { re: Math.cos(angle), im: Math.sin(angle) }];
  }),
);

function plus(a: Complex, b: Complex, scale = 1): Complex {
  return { re: a.re + scale * b.re, im: a.im + scale * b.im };
}

function bar(place: string): Complex {
  const { re, im } = phasor[place[1]!]!;
  return place.startsWith('-') ? { re: -re, im: -im } : { re, im };
}

/** Ratios of one slot's bars, inner first, solved numerically; `share` acts on the inner mouth. */
function solvedSlot(places: readonly string[], xi: number, share: number): number[] {
  const currents = places.map(bar);
  const total = currents.reduce((sum, current) => plus(sum, current), { re: 0, im: 0 });
  let below = plus({ re: 0, im: 0 }, total, -share);
  return currents.map((current) => {
    const ratio = solvedLossRatio(xi, current, below);
    below = plus(below, current);
    return ratio;
  });
}

/** A machine whose slots hold given mixtures of phases; full rows by rotation. */
function rowsText(gap: string, rows: readonly string[]): string {
  const layers = rows.map((row, i) => `layer ${'abcd'[i]}  ${row}`).join('\n');
  const gaps = gap === 'both' ? 'outside 205.6 mm' : gap === 'outer' ? 'outside 220 mm' : '';
  const bore = gap === 'outer' ? '' : 'bore 170 mm';
  return ferryDrive
    .replace('gap inner', `gap ${gap}\n${gaps}`)
    .replace('bore 162 mm', bore)
    .replace('slots 48', 'slots 12')
    .replace('poles 8', 'poles 2')
    .replace('span 6', layers)
    .replace('layers 4', `layers ${rows.length}`);
}

// 12 slots, 2 poles, pitch 5/6: half the slots hold two phases.
const shortPitch = ['+U +U -W -W +V +V -U -U +W +W -V -V', '+U -W -W +V +V -U -U +W +W -V -V +U'];

function slotColumn(rows: readonly string[], slot: number): string[] {
  return rows.map((row) => row.split(' ')[slot]!);
}

describe('ratios of actual tables against the numerical field', () => {
  it.each([
    ['inner', 1],
    ['outer', 0],
  ] as const)('gap %s: every bar of slots with one and with two phases', (gap, share) => {
    const input = copperInput(rowsText(gap, shortPitch));
    const weights = fieldWeights(input.specification, input.winding);
    if (!weights.known) throw new Error(weights.needs.join());
    for (const xi of [0.3, 0.9, 2.2]) {
      for (const slot of [0, 1, 5]) {
        solvedSlot(slotColumn(shortPitch, slot), xi, share).forEach((solved, layer) => {
          const weight = weights.value.byPlace[layer * 12 + slot]!;
          expect((phi(xi) + weight * psi(xi)) / solved).toBeCloseTo(1, 6);
        });
      }
    }
    const alike = weights.value.kinds.map((kind) => kind.slots.length).sort();
    expect(alike).toEqual([6, 6]);
  });

  it('unequal gaps: the share x follows from gaps, magnets and radii', () => {
    const text = rowsText('both', shortPitch)
      .replace('air-gap 0.9 mm', 'air-gap 0.9 mm 1.4 mm')
      .replace('magnet-height 4 mm', 'magnet-height 4 mm 5 mm');
    const { input, copper } = examine(text);
    const inner = slottedGap((Math.PI * 170) / 12, 1.2, 0.9 + 4 / 1.06) / 85;
    const outer = slottedGap((Math.PI * 205.6) / 12, 1.2, 1.4 + 5 / 1.06) / 102.8;
    const share = inner / (inner + outer);
    expect(copper.assumptions.join()).toContain(`${(100 * share).toFixed(1)} %`);
    const weights = fieldWeights(input.specification, input.winding);
    if (!weights.known) throw new Error(weights.needs.join());
    solvedSlot(slotColumn(shortPitch, 0), 1.3, share).forEach((solved, layer) => {
      const weight = weights.value.byPlace[layer * 12]!;
      expect((phi(1.3) + weight * psi(1.3)) / solved).toBeCloseTo(1, 6);
    });
  });
});

describe('slots open to two equal gaps', () => {
  // Gaps in proportion to the radii have equal reluctance.
  const equal = (rows: readonly string[]) =>
    rowsText('both', rows)
      .replace('carter on', 'carter off')
      .replace('air-gap 0.9 mm', 'air-gap 0.85 mm 1.028 mm')
      .replace('magnet-height 4 mm', 'magnet-height 0 mm');
  const fullPitch = '+U +U -W -W +V +V -U -U +W +W -V -V';

  it('behave as two half-depth slots back to back', () => {
    const four = examine(equal([fullPitch, fullPitch, fullPitch, fullPitch])).copper.acRatio;
    const two = examine(rowsText('inner', [fullPitch, fullPitch])).copper.acRatio;
    // Outer half: closed end in the middle, so its layers read outwards as the inner slot's inwards.
    expect(four.layers![2]).toBeCloseTo(two.layers![1]!, 10);
    expect(four.layers![3]).toBeCloseTo(two.layers![0]!, 10);
    expect(four.layers![1]).toBeCloseTo(two.layers![1]!, 10);
    expect(four.layers![0]).toBeCloseTo(two.layers![0]!, 10);
  });

  it('a single bar loses what two bars of half its height would', () => {
    const whole = examine(equal([fullPitch])).copper.acRatio.slot!;
    const half = examine(rowsText('inner', [fullPitch]).replace('height 3 mm', 'height 1.5 mm')).copper
      .acRatio;
    expect(whole).toBeCloseTo(half.slot!, 10);
  });

  it('mirror the table and the ratios mirror', () => {
    const there = examine(equal(shortPitch)).copper.acRatio.layers!;
    const back = examine(equal([...shortPitch].reverse())).copper.acRatio.layers!;
    expect(there[0]).toBeCloseTo(back[1]!, 10);
    expect(there[1]).toBeCloseTo(back[0]!, 10);
  });
});

describe('layers and strands', () => {
  it('per-layer heights: each layer has its own reduced height and place', () => {
    const text = withLine(ferryDrive, 'height', 'height a b 3.4 mm  height c d 2.2 mm');
    const { copper, input } = examine(text);
    const rho = 1e-6 / 58 / (1 / (1 + 0.00393 * 100));
    const xi = (h: number) => h * Math.sqrt((Math.PI * 240 * 4e-7 * Math.PI * (3.6 / 4.6)) / rho);
    // Full pitch, all bars of a slot in phase: k(k + 1) psi, k counted from the closed (outer) end.
    [3.4e-3, 3.4e-3, 2.2e-3, 2.2e-3].forEach((height, layer) => {
      const k = 3 - layer;
      expect(copper.acRatio.layers![layer]).toBeCloseTo(phi(xi(height)) + k * (k + 1) * psi(xi(height)), 9);
    });
    const sections = layerSections(input.specification, input.winding);
    expect(sections.known && reducedHeight(sections.value[2]!, 240, rho)).toBeCloseTo(xi(2.2e-3), 12);
  });

  it('strands lower the loss and say that they are taken as transposed', () => {
    const { copper } = examine(withLine(ferryDrive, 'strands', 'strands 3'));
    expect(copper.acRatio.slot!).toBeLessThan(examine(ferryDrive).copper.acRatio.slot!);
    expect(copper.assumptions).toContain('strands perfectly transposed');
    expect(examine(ferryDrive).copper.assumptions).not.toContain('strands perfectly transposed');
  });

  it('empty places carry no current and drop out of every mean', () => {
    const row = '+U . -W . +V . -U . +W . -V .';
    const { copper } = examine(rowsText('inner', [row, row]));
    const filled = '+U -W +V -U +W -V';
    const dense = examine(rowsText('inner', [filled, filled]).replace('slots 12', 'slots 6'));
    expect(copper.acRatio.layers![0]).toBeCloseTo(dense.copper.acRatio.layers![0]!, 12);
    expect(copper.acRatio.slot).toBeCloseTo(dense.copper.acRatio.slot!, 12);
    expect(copper.acRatio.slotKinds).toHaveLength(1);
  });

  it('crossing slot rows: each row on its own, with the same share on the inner gap', () => {
    const { copper } = examine(crossedDrive);
    const inner = slottedGap((Math.PI * 162) / 48, 1.2, 0.9 + 4 / 1.06) / 81;
    const outer = slottedGap((Math.PI * 199.2) / 48, 1.2, 0.9 + 4 / 1.06) / 99.6;
    const share = inner / (inner + outer);
    const rho = (1e-6 / 58) * (1 + 0.00393 * 100);
    const xi = 3e-3 * Math.sqrt((Math.PI * 240 * 4e-7 * Math.PI * (3.6 / 4.6)) / rho);
    // Two bars in phase a row, whatever the other row carries.
    const row = solvedSlot(['+U', '+U'], xi, share);
    [row[0]!, row[1]!, row[0]!, row[1]!].forEach((solved, layer) => {
      expect(copper.acRatio.layers![layer]! / solved).toBeCloseTo(1, 6);
    });
    expect(copper.assumptions.join('\n')).toContain('mutual slot leakage between rows taken as zero');
  });

  it('layers of different lean in one slot block leave the field missing, and nothing else', () => {
    const { copper } = examine(withLine(ferryDrive, 'skew', 'skew a b +1 slot\nskew c d -1 slot'));
    expect(copper.acRatio.slot).toBeNull();
    expect(copper.resistance.phase).not.toBeNull();
    const entry = copper.missing.find(({ quantity }) => quantity === 'copper.acRatio.slot');
    expect(entry?.needs).toEqual(['a slot block for each run of layers of equal lean']);
  });
});

describe('figures that hang together', () => {
  it('loss at the stated speed: slot part and whole bar', () => {
    const { copper } = examine(ferryDrive);
    const share = (0.096 * copper.acRatio.slot! + (copper.length.bars! - 0.096)) / copper.length.bars!;
    expect(copper.acRatio.bar).toBeCloseTo(share, 12);
    expect(copper.loss.ac! / copper.loss.dc!).toBeCloseTo(share - 1, 12);
    expect(copper.acRatio.worst).toBe(Math.max(...copper.acRatio.layers!.map((ratio) => ratio!)));
  });

  it('the curve passes through the stated speed and starts at 1', () => {
    const { input, copper } = examine(ferryDrive);
    const curve = orNull(copperCurves(input).acRatio)!;
    expect(curve[0]!.slot).toBe(1);
    expect(curve[20]!.frequency).toBeCloseTo(240, 12);
    expect(curve[20]!.slot).toBeCloseTo(copper.acRatio.slot!, 12);
    expect(curve.map(({ slot }) => slot)).toEqual(curve.map(({ slot }) => slot).sort((a, b) => a - b));
  });

  it('the best height has the least resistance among its neighbors', () => {
    const { copper } = examine(ferryDrive);
    const [best] = copper.acRatio.bestHeights!;
    const resistance = (height: number) => {
      const { acRatio } = examine(
        withLine(ferryDrive, 'height', `height ${(1e3 * height).toFixed(6)} mm`),
      ).copper;
      return acRatio.slot! / height;
    };
    const least = resistance(best!.height);
    expect(resistance(best!.height * 0.97)).toBeGreaterThan(least);
    expect(resistance(best!.height * 1.03)).toBeGreaterThan(least);
    expect(best!.ratio).toBeCloseTo(least * best!.height, 5);
  });

  it('layers of unequal width count by their conductance: the best height has the least resistance of all', () => {
    // Layer a, at the bottom of the slot, is much narrower; the others carry most of the eddies.
    const uneven = ferryDrive.replace('  width 3.6 mm', '  width 3.6 mm\n  width a 1.2 mm');
    const resistance = (height: number) => {
      const { acRatio } = examine(
        withLine(uneven, 'height', `height ${(1e3 * height).toFixed(6)} mm`),
      ).copper;
      // As many bars in every layer, all of one height: a bar's resistance goes by its ratio over its width.
      const sum = acRatio.layers!.reduce(
        (all, ratio, layer) => all! + ratio! / (layer === 0 ? 1.2 : 3.6),
        0,
      )!;
      return sum / height;
    };
    const [best] = examine(uneven).copper.acRatio.bestHeights!;
    const least = resistance(best!.height);
    expect(resistance(best!.height * 0.99)).toBeGreaterThan(least);
    expect(resistance(best!.height * 1.01)).toBeGreaterThan(least);
  });

  it('ratios of a machine with the loss written out by bar equal the totals', () => {
    const { input, copper } = examine(ferryDrive);
    const weights = fieldWeights(input.specification, input.winding);
    const sections = layerSections(input.specification, input.winding);
    if (!weights.known || !sections.known) throw new Error('missing');
    const rho = (1e-6 / 58) * (1 + 0.00393 * 100);
    const { slot } = acRatios(weights.value, sections.value, 240, rho);
    let sum = 0;
    const xi = reducedHeight(sections.value[0]!, 240, rho);
    for (const weight of weights.value.byPlace) sum += phi(xi) + weight * psi(xi);
    expect(slot).toBeCloseTo(sum / 192, 12);
    expect(copper.acRatio.slot).toBeCloseTo(slot, 12);
  });
});
