// Takes its time: draws large windings.

import { expect, test } from 'vitest';
import { factorRow, factorSpectrum, windingFactor } from '../../core/analysis/factors/factors.ts';
import type { Picture } from '../../core/picture/picture.ts';
import { pictureToSvg } from '../../core/picture/svg.ts';
import { barPhasor, phasorChains, slotAngle } from '../../core/views/phasors/chains.ts';
import { phasorsPicture } from '../../core/views/phasors/phasors.ts';
import type { Bar, Path, Winding } from '../../core/winding/model.ts';
import { barsOf, readXml, valuesOf } from '../picture/checkPicture.ts';
import { expectGood, pathOf, pathsOf, textOf, textsOf } from './chartReading.ts';
import { fromTable, generated, type WindingRequest } from './windings.ts';

const cases: readonly WindingRequest[] = [
  { slots: 48, poles: 8, layers: 4, span: 6 },
  { slots: 72, poles: 8, layers: 4, span: 8, stagger: 1 },
  { slots: 12, poles: 10, layers: 2, span: 1 },
  { slots: 30, poles: 8, layers: 2, span: 3 },
  { slots: 36, poles: 4, layers: 1, span: 9 },
  { slots: 40, poles: 8, phases: 5, layers: 2, span: 5 },
  { slots: 72, poles: 6, phases: 6, apart: 30, layers: 2, span: 10 },
  { slots: 48, poles: 8, layers: 4, span: 6, lean: [7.5, 7.5, -7.5, -7.5] },
  { slots: 480, poles: 32, layers: 4, span: 14, stagger: 1 },
  { slots: 240, poles: 4, layers: 2, span: 50 },
];

function draw(winding: Winding, paths: readonly Path[] | null = null): Picture {
  const picture = expectGood(phasorsPicture({ winding, title: 'Lock-gate winch', paths }));
  const shown = valuesOf(readXml(pictureToSvg(picture)), 'data-bar');
  expect([...shown].sort()).toEqual([...barsOf(winding.table)].sort());
  return picture;
}

test.each(cases)(
  '$slots slots, $poles poles, $phases phases: chains end at the winding factor',
  (request) => {
    const winding = generated(request);
    draw(winding);
    const factors = factorRow(winding, factorSpectrum(winding), winding.polePairs);
    const chains = phasorChains(winding, null);
    expect(chains).toHaveLength(winding.phases.names.length);
    const lead = Math.atan2(chains[0]!.im, chains[0]!.re);
    for (const { phase, steps, re, im } of chains) {
      const size = Math.hypot(re, im) / steps.length;
      // Twice independently: the direct sum of the analysis, and the product of the three factors.
      expect(size).toBeCloseTo(windingFactor(winding, winding.polePairs, phase), 12);
      expect(size).toBeCloseTo(factors.distribution! * factors.pitch! * factors.skew!, 12);
      const lag = ((lead - Math.atan2(im, re)) * 180) / Math.PI - winding.phases.axes[phase]!;
      expect(Math.abs(lag - 360 * Math.round(lag / 360))).toBeLessThan(1e-9);
    }
  },
);

test.each(cases)('$slots slots, $poles poles: rays of the star lie at p (s - 1) 360/Q', (request) => {
  const winding = generated(request);
  const picture = draw(winding);
  const [rays] = [pathOf(picture, 'star-rays').parts];
  const { slots, polePairs } = winding;
  rays.forEach((ray, index) => {
    const [x1, y1, x2, y2] = ray as [number, number, number, number];
    const clockwise = (Math.atan2(x2 - x1, -(y2 - y1)) * 180) / Math.PI;
    const turn = clockwise - (polePairs * index * 360) / slots;
    expect(Math.abs(turn - 360 * Math.round(turn / 360))).toBeLessThan(1e-9);
    expect(slotAngle(winding, index + 1)).toBeCloseTo(((polePairs * index) % slots) * (360 / slots), 9);
  });
  const numbers = textsOf(picture).filter(({ id }) => id.startsWith('star-slot-'));
  expect(numbers.length).toBeGreaterThan(Math.min(rays.length, 24) - 1);
  // All slots with the same angle share a ray.
  expect(rays).toHaveLength(new Set(Array.from({ length: slots }, (_, s) => (polePairs * s) % slots)).size);
});

test('twelve slots and ten poles: slots in the order in which books list the star', () => {
  // 150 degrees from slot to slot: round the star 1 6 11 4 9 2 7 12 5 10 3 8 (by hand: multiples of 5 mod 12).
  const picture = draw(generated({ slots: 12, poles: 10, layers: 2, span: 1 }));
  const rays = pathOf(picture, 'star-rays').parts.map((ray, index) => {
    const [x1, y1, x2, y2] = ray as [number, number, number, number];
    const angle = (Math.atan2(x2 - x1, -(y2 - y1)) * 180) / Math.PI;
    return { slot: index + 1, angle: Math.round((angle + 360) % 360) };
  });
  rays.sort((one, other) => one.angle - other.angle);
  expect(rays.map(({ slot }) => slot)).toEqual([1, 6, 11, 4, 9, 2, 7, 12, 5, 10, 3, 8]);
  expect(textOf(picture, 'note-1').text).toContain('150');
});

test('sectors: one of + and one of - for each phase where belts are 180/m wide', () => {
  for (const request of [cases[0]!, cases[5]!]) {
    const winding = generated(request);
    const picture = draw(winding);
    const names = textsOf(picture)
      .filter(({ role, id }) => role === 'sector-name' && id.startsWith('sector-a'))
      .map(({ text }) => text);
    const expected = winding.phases.names.flatMap((name) => [`+${name}`, `\u2212${name}`]);
    expect([...names].sort()).toEqual([...expected].sort());
  }
  // The layers of a full-pitch winding are alike and share a ring; a chorded one has one a kind.
  expect(pathsOf(draw(generated(cases[0]!)), 'sector-b')).toEqual([]);
  expect(pathsOf(draw(generated({ slots: 48, poles: 8, layers: 2, span: 5 })), 'sector-b')).toHaveLength(6);
});

function pathOfBars(phase: number, number: number, bars: readonly Bar[]): Path {
  return {
    phase,
    number,
    bars,
    spans: bars.slice(1).map(() => 1),
    pieces: bars.slice(1).map(() => false),
    from: 'U1',
    to: 'N',
    startsFar: false,
    endsFar: false,
  };
}

function layerPaths(winding: Winding): readonly Path[] {
  const paths: Path[] = [];
  winding.phases.names.forEach((_, phase) => {
    for (let layer = 0; layer < winding.layers; layer++) {
      const bars = Array.from({ length: winding.slots }, (_, index) => ({ slot: index + 1, layer })).filter(
        ({ slot }) => Math.abs(winding.table.cells[layer * winding.slots + slot - 1]!) === phase + 1,
      );
      paths.push(pathOfBars(phase, layer + 1, bars));
    }
  });
  return paths;
}

test('paths are chained bar by bar to one scale, with their angle against their phase', () => {
  const winding = generated({ slots: 48, poles: 8, layers: 2, span: 5, parallelPaths: 2 });
  const paths = layerPaths(winding);
  const picture = draw(winding, paths);
  const [[left, , right]] = pathOf(picture, 'rows-scale').parts as unknown as [[number, number, number]];
  const bars = Number(/\d+/.exec(textOf(picture, 'rows-scale-name').text)?.[0] ?? 1);
  const unit = (right - left) / bars;
  // Two layers, one slot of chording: each lies 15 electrical degrees beside the mean, cos 15 = 0.9659 of it.
  const words = textsOf(picture).filter(({ id }) => id.startsWith('row-sum-U'));
  expect(words.map(({ text }) => text)).toEqual([
    '15.455 of 16 = 0.9659, \u221215.00\u00b0',
    '15.455 of 16 = 0.9659, 15.00\u00b0',
  ]);
  for (const { phase, bars: steps } of paths) {
    let [x, y] = [0, 0];
    for (const { slot, layer } of steps) {
      const [part] = pathOf(picture, `phasor-${slot}${'ab'[layer]}`).parts;
      const [x1, y1, x2, y2] = part as [number, number, number, number];
      expect(Math.hypot(x2 - x1, y2 - y1)).toBeCloseTo(unit, 9);
      x += x2 - x1;
      y += y2 - y1;
    }
    // A fresh sum with signs from the table and angles in degrees.
    let [re, im] = [0, 0];
    for (const { slot, layer } of steps) {
      const sign = Math.sign(winding.table.cells[layer * 48 + slot - 1]!);
      re += sign * Math.cos((-4 * (slot - 1) * 7.5 * Math.PI) / 180);
      im += sign * Math.sin((-4 * (slot - 1) * 7.5 * Math.PI) / 180);
    }
    expect(Math.hypot(x, y)).toBeCloseTo(unit * Math.hypot(re, im), 6);
    expect(phase).toBeLessThan(3);
  }
});

test('phases without bars, and a table without sums, are drawn', () => {
  const cells = new Int8Array(24);
  cells.set([1, -1, 1, 1, 2], 3);
  draw(fromTable({ slots: 12, layers: 2, cells }, 10, { kind: 'rows' }));
  draw(fromTable({ slots: 12, layers: 2, cells: new Int8Array(24) }, 10, { kind: 'rows' }));
});

test('slots of one angle that differ split their sector', () => {
  // Slot 13 lies with slot 1, but carries another phase.
  const cells = Int8Array.from({ length: 24 }, (_, slot) => (slot < 12 ? 1 : 2));
  const picture = draw(fromTable({ slots: 24, layers: 1, cells }, 4, { kind: 'rows' }));
  expect(pathsOf(picture, 'sector-a')).toHaveLength(24);
});

test('lean shortens a bar by its skew factor', () => {
  const winding = generated({ slots: 48, poles: 8, layers: 4, span: 6, lean: [7.5, 7.5, -7.5, -7.5] });
  const { re, im } = barPhasor(winding, { slot: 1, layer: 0 });
  // sin x / x at x = 4 * 7.5 degrees / 2 = pi/12.
  expect(Math.hypot(re, im)).toBeCloseTo(Math.sin(Math.PI / 12) / (Math.PI / 12), 12);
});
