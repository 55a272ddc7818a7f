// Takes its time: studies whole windings.

import { readFileSync } from 'node:fs';
import { join } from 'node:path';
import papaparse from 'papaparse';
import { describe, expect, test } from 'vitest';
import { fieldNeeds } from '../../core/tables/field.ts';
import { schedule } from '../../core/tables/schedule.ts';
import { handArea, handResistances } from '../copper/pathsByHand.ts';
import { study } from '../support/study.ts';

type Row = Readonly<Record<string, string>>;
const read = papaparse as unknown as {
  parse(text: string, options: object): { readonly data: readonly Row[] };
};
const rowsOf = (csv: string): readonly Row[] => read.parse(csv.trimEnd(), { header: true }).data;
const slipway = readFileSync(join(import.meta.dirname, '../../examples/slipway-carriage.winding'), 'utf8');

const pointsOf = (row: Row) =>
  Array.from({ length: 20 }, (_, index) => [row[`x${index + 1}M`], row[`y${index + 1}M`]] as const)
    .filter(([x]) => x !== undefined && x !== '')
    .map(([x, y]) => [Number(x), Number(y)] as const);

/** Area by the trapezoids, positive where the points run clockwise with y upwards. */
const clockwiseArea = (points: readonly (readonly [number, number])[]) =>
  points.reduce((sum, [x, y], index) => {
    const [nextX, nextY] = points[(index + 1) % points.length]!;
    return sum + ((nextX - x) * (nextY + y)) / 2;
  }, 0);

/** A machine of 12 slots, sizes round enough to place by hand; unequal paths drive a current between them. */
const text = (paths: string) => `winding "Winch motor"
machine {
  slots 12  poles 2  phases 3  bore 100 mm  outside 180 mm  stack 80 mm
  air-gap 1 mm  magnet-height 4 mm  frequency 0.01 Hz  flux 5 mWb  current 60 A  current-angle 30 edeg
  winding-temperature 100 degC
}
slot { width 8 mm  depth 20 mm  opening 2 mm  opening-height 1 mm  liner 0.5 mm }
bar {
  width 6 mm  height 8 mm  corner 0.5 mm  coating 0.1 mm
  end-straight 6 mm  end-clearance 1 mm  joint-straight 8 mm
}
layout { layers 2  span 6 }
connect {
  star
  ${paths}
}
`;
// Each path holds both bars of its slots: those of slots 1 and 2 lie 30 degrees apart, so both EMFs are as large.
const parallel = study(
  text(`path U 1 from U1 1a +6b | -6b | +6a to N
  path U 2 from U1 2a +6b | -6b | +6a to N
  repeat U as V shift 4
  repeat U as W shift 8`),
);
const rows = rowsOf(schedule(parallel.facts!, 'field'));
const bar = (name: string) => rows.find((row) => row.kind === 'bar' && row.name === name)!;

describe('the hand-off to field computation', () => {
  test('places of one bar and one slot by hand, slot 4 a quarter of a turn clockwise from slot 1', () => {
    // Two bars of 8.2 mm with coating on the liner of a 20 mm slot that begins at 51 mm: copper of layer b ends
    // 0.6 mm above the closed end at 71 mm, at 70.4 mm; that of layer a ends at 62.2 mm.
    expect(pointsOf(bar('1a'))).toEqual([
      [-0.003, 0.0542],
      [-0.003, 0.0622],
      [0.003, 0.0622],
      [0.003, 0.0542],
    ]);
    expect(pointsOf(bar('4b'))).toEqual([
      [0.0624, 0.003],
      [0.0704, 0.003],
      [0.0704, -0.003],
      [0.0624, -0.003],
    ]);
    const slot = rows.find(({ kind, name }) => kind === 'slot' && name === '1')!;
    const mouth = Number(Math.sqrt(0.05 ** 2 - 0.001 ** 2).toFixed(9));
    const half = [
      [-0.001, mouth],
      [-0.001, 0.051],
      [-0.004, 0.051],
      [-0.004, 0.071],
    ];
    expect(pointsOf(slot)).toEqual([...half, ...half.map(([x, y]) => [-x!, y]).reverse()]);
    expect(
      rows
        .slice(0, 2)
        .map(({ kind, name, radiusM, airGapM, magnetHeightM }) =>
          [kind, name, radiusM, airGapM, magnetHeightM].join(' '),
        ),
    ).toEqual(['gap inner 0.050000000 0.001000000 0.004000000', 'back outer 0.090000000  ']);
    expect(rows).toHaveLength(2 + 12 + 24);
    expect(bar('1a')).toMatchObject({ cornerRadiusM: '0.000500000', turnsShare: '0.500000000', path: '1' });
  });

  test('every outline runs clockwise and has the area of its sizes', () => {
    // Slots open to two gaps, in two rows of leaning bars of 5.8 mm x 5 mm; text without a connection does.
    const loose = study(slipway.replace(/\nconnect \{[^}]*\}|\nduty \{[^}]*\}/g, ''));
    const outlines = rowsOf(schedule(loose.facts!, 'field')).filter(({ kind }) => kind !== 'gap');
    expect(new Set(outlines.map(({ kind }) => kind))).toEqual(new Set(['slot', 'bar']));
    for (const row of outlines) {
      const area = clockwiseArea(pointsOf(row));
      if (row.kind === 'bar') expect(area).toBeCloseTo(29e-6, 9);
      // Two openings 3 mm wide and 0.8 mm high to an arc, a slot 6.8 mm wide and 22.8 mm deep.
      else expect(area).toBeCloseTo(6.8e-3 * 22.8e-3 + 2 * 3e-3 * 0.8e-3, 7);
    }
  });

  test('the paths of a phase together carry its rated current, at its angle', () => {
    for (const [phase, lag] of [
      ['U', 0],
      ['V', 120],
      ['W', 240],
    ] as const) {
      const paths = new Map(
        rows
          .filter((row) => row.phase === phase)
          .map((row) => [row.path, [Number(row.currentReal), Number(row.currentImaginary)]]),
      );
      expect(paths.size).toBe(2);
      const sum = [0, 1].map((part) => [...paths.values()].reduce((total, each) => total + each[part]!, 0));
      const angle = ((30 - lag) * Math.PI) / 180;
      expect(sum[0]).toBeCloseTo(60 * Math.cos(angle), 4);
      expect(sum[1]).toBeCloseTo(60 * Math.sin(angle), 4);
    }
  });

  test('the current between paths, by hand: at a low frequency the resistances alone oppose it', () => {
    // rms EMF of a path of four bars: pi f flux/sqrt2 a bar. The paths' EMFs are 30 degrees apart about the real axis;
    // their difference, 2 E sin 15, drives a current around both resistances, against the path whose EMF leads in a
    // motor. What they share otherwise is the same without flux. The paths of a phase have connecting pieces in lanes
    // of different lengths, so each has a resistance of its own.
    const emf = (4 * Math.PI * 0.01 * 0.005) / Math.SQRT2;
    const resistances = handResistances(
      parallel,
      parallel.report(),
      handArea({ bar: { width: 6e-3, height: 8e-3, corner: 0.5e-3 } }),
    );
    const idle = rowsOf(schedule(study(parallel.text.replace('5 mWb', '0.0001 mWb')).facts!, 'field'));
    const driven = (name: string) => {
      const without = idle.find((row) => row.name === name && row.kind === 'bar')!;
      return ['currentReal', 'currentImaginary'].map(
        (part) => Number(bar(name)[part]) - Number(without[part]),
      );
    };
    // Slot 1 stands in front, and the report calls its path the leading one.
    expect(parallel.report().paths[0]!.voltage.angle).toBeCloseTo(15, 6);
    const [one, two] = [driven('1a'), driven('2a')];
    expect(one[1]).toBeLessThan(-0.1);
    expect([one[0]! + two[0]!, one[1]! + two[1]!].every((sum) => Math.abs(sum) < 1e-5)).toBe(true);
    for (const [phase, name] of [
      ['U', '1a'],
      ['V', '5a'],
      ['W', '9a'],
    ]) {
      const around = resistances.get(`${phase} 1`)! + resistances.get(`${phase} 2`)!;
      const current = (2 * emf * Math.sin(Math.PI / 12)) / around;
      expect(Math.hypot(...driven(name!)) / current).toBeCloseTo(1, 3);
    }
  });

  test('what lacks is told, and a table without it is empty', () => {
    const plain = study('winding "T"\nmachine { slots 12 poles 2 phases 3 }\nlayout { layers 2 span 6 }\n');
    expect(rowsOf(schedule(plain.facts!, 'field'))).toEqual([]);
    expect(fieldNeeds(plain.facts!).shape).toContain('bar width');
    const wide = study(text('route paths 1').replace('width 6 mm', 'width 7.5 mm'));
    expect(fieldNeeds(wide.facts!).shape).toEqual(['bars that fit their slot']);
    const open = study(text('route paths 1').replace('opening 2 mm ', ''));
    expect(fieldNeeds(open.facts!).shape).toEqual(['slot opening']);
    const idle = study(text('route paths 1').replace('current 60 A ', ''));
    expect(fieldNeeds(idle.facts!)).toEqual({ shape: [], current: ['machine current'] });
    expect(rowsOf(schedule(idle.facts!, 'field')).at(-1)).toMatchObject({ kind: 'bar', currentReal: '' });
  });
});
