// Takes its time: studies whole windings.

import { readdirSync, readFileSync } from 'node:fs';
import { join } from 'node:path';
import papaparse from 'papaparse';
import { describe, expect, test } from 'vitest';
import { type ScheduleTable, schedule, scheduleTable, scheduleTables } from '../../core/tables/schedule.ts';
import { smallDrive } from '../operation/machines.ts';
import { farthest } from '../support/near.ts';
import { type Study, study } from '../support/study.ts';
import { told } from '../support/told.ts';

const folder = join(import.meta.dirname, '../../examples');
const read = papaparse as unknown as {
  parse(
    text: string,
    options: { header: boolean; newline?: string },
  ): {
    readonly data: readonly Readonly<Record<string, string>>[];
    readonly errors: readonly unknown[];
    readonly meta: { readonly fields?: readonly string[] };
  };
};

/** The rows of a table, read by a CSV reader that must not complain. */
function rowsOf(studied: Study, table: ScheduleTable) {
  const csv = schedule(studied.facts!, table);
  expect(csv.endsWith('\r\n')).toBe(true);
  expect(csv.replaceAll('\r\n', '')).not.toMatch(/[\r\n]/);
  const { data, errors, meta } = read.parse(csv.slice(0, -2), { header: true, newline: '\r\n' });
  expect(errors).toEqual([]);
  return { rows: data, fields: meta.fields ?? [], csv };
}

/** The text as a spreadsheet would show it; a formula would begin with one of these. */
const formula = /(^|,)"?[=+@\t]|(^|,)"?-(?!\d)/m;

const examples = readdirSync(folder)
  .filter((name) => name.endsWith('.winding') && !name.startsWith('broken'))
  .map((name) => [name, study(readFileSync(join(folder, name), 'utf8'))] as const);

describe.each(examples)('%s', (_, studied) => {
  const report = studied.report();
  const { winding } = report;

  test('slots: one row a slot, as many places as the report has bars', () => {
    const { rows, fields } = rowsOf(studied, 'slots');
    expect(rows.map(({ slot }) => slot)).toEqual(
      Array.from({ length: winding!.slots }, (__, index) => String(index + 1)),
    );
    expect(fields.length).toBe(1 + 2 * winding!.layers);
    const layers = fields.filter((field) => /^[a-z]$/.test(field));
    const places = rows.flatMap((row) =>
      layers.map((layer) => [row[layer]!, row[`${layer}Sense`]!] as const),
    );
    const filled = places.filter(([phase]) => phase !== '');
    expect(filled.length).toBe(winding!.bars);
    expect(filled.filter(([, sense]) => sense === '1').length).toBe(winding!.bars / 2);
    expect(places.every(([phase, sense]) => (phase === '') === (sense === ''))).toBe(true);
    // The same phases as in the table of bars; senses, too, but for bars that a written path passes the other way.
    const bars = new Map(rowsOf(studied, 'bars').rows.map((row) => [row.position!, row.phase!]));
    expect(rows.map((row) => layers.map((layer) => row[layer]))).toEqual(
      rows.map(({ slot }) => layers.map((layer) => bars.get(`${slot}${layer}`) ?? '')),
    );
  });

  test('bars: the bars of every path in their order, shapes counted as in the report', () => {
    const { rows } = rowsOf(studied, 'bars');
    expect(rows.length).toBe(winding!.bars);
    expect(new Set(rows.map(({ position }) => position)).size).toBe(winding!.bars);
    for (const path of report.paths) {
      const own = rows
        .filter((row) => row.phase === path.phase && row.path === String(path.path))
        .sort((a, b) => Number(a.placeInPath) - Number(b.placeInPath));
      expect(own.map(({ position }) => position)).toEqual(path.bars);
      expect(own.map(({ placeInPath }) => placeInPath)).toEqual(own.map((__, index) => String(index + 1)));
    }
    for (const shape of report.shapes.bars) {
      const bars = rows.filter((row) => row.shape === String(shape.number)).length;
      expect(bars).toBe(shape.form === 'hairpin' ? 2 * shape.count : shape.count);
    }
  });

  test('bars: the EMF angles add up to the report’s winding factor', () => {
    const { rows } = rowsOf(studied, 'bars');
    const working = report.factors.find(({ harmonic }) => harmonic === '1')!;
    const own = rows.filter(({ phase }) => phase === rows[0]!.phase);
    const sum = (part: (angle: number) => number) =>
      own.reduce((total, { emfAngle }) => total + part((Number(emfAngle) * Math.PI) / 180), 0);
    const unskewed = (working.distribution ?? 0) * (working.pitch ?? 0);
    expect(Math.hypot(sum(Math.cos), sum(Math.sin)) / own.length).toBeCloseTo(unskewed, 6);
  });

  test('joints and leads: as in the report', () => {
    const { rows } = rowsOf(studied, 'joints');
    expect(
      rows.map(({ number, side, from, to, span, kind }) => ({ number, side, from, to, span, kind })),
    ).toEqual(
      report.joints.map(({ number, side, from, to, span, kind }) => ({
        number: String(number),
        side,
        from,
        to,
        span: span === null ? '' : String(span),
        kind,
      })),
    );
    for (const shape of report.shapes.joints)
      expect(rows.filter((row) => row.shape === String(shape.number)).length).toBe(shape.count);
    const leads = rowsOf(studied, 'leads').rows;
    expect(leads.map(({ number }) => number)).toEqual(
      report.joints
        .filter(({ kind }) => kind === 'lead' || kind === 'star')
        .map(({ number }) => String(number)),
    );
    for (const path of report.paths) {
      const own = leads.filter((row) => row.phase === path.phase && row.path === String(path.path));
      expect(own.map(({ terminal }) => terminal)).toEqual([path.from, path.to]);
      expect(own.map(({ bar }) => bar)).toEqual([path.bars[0], path.bars.at(-1)]);
      expect(own.map(({ slot, layer }) => `${slot}${layer}`)).toEqual([path.bars[0], path.bars.at(-1)]);
      // In the direction of the path: from its terminal through its bars to where it ends.
      const passed = [path.from, ...path.bars, path.to];
      const steps = rows.filter((row) => row.phase === path.phase && row.path === String(path.path));
      expect(steps.map(({ from, to }) => `${from} ${to}`).sort()).toEqual(
        passed
          .slice(1)
          .map((to, index) => `${passed[index]} ${to}`)
          .sort(),
      );
    }
  });

  test('factors: all orders of the report', () => {
    const { rows } = rowsOf(studied, 'factors');
    const expected = report.factorsByPhase?.flatMap(({ factors }) => factors) ?? report.factors;
    expect(rows.map(({ order, distribution }) => [Number(order), distribution === ''])).toEqual(
      expected.map(({ order, distribution }) => [order, distribution === null]),
    );
    const told = rows.flatMap(({ winding, pitch }) => [Number(winding), Number(pitch)]);
    const wanted = expected.flatMap(({ winding, pitch }) => [winding, pitch ?? 0]);
    expect(farthest(told, wanted)).toBeLessThan(5e-9);
  });

  test.each(scheduleTables)('%s: nothing that a spreadsheet would take for a formula or a date', (table) => {
    const { csv } = rowsOf(studied, table);
    expect(csv).not.toMatch(formula);
    expect(csv).not.toMatch(/\d\/\d/);
    expect(csv).toBe(schedule(studied.facts!, table));
  });
});

const machine = (more: string) => `winding "T"
machine { slots 12 poles 2 phases 3 }
layout { layers 2 span 5 }
${more}`;

test('the true span of leaning bars', () => {
  // By hand: bars of layer b lean by +6 degrees against -6 of layer a over the stack, so at either end
  // (half the stack) they are apart by 6 degrees more or less: 12 slots / 360 x 6 = 0.2 slots.
  const leaning = study(
    machine('connect { star route paths 1 }').replace('span 5', 'span 5\n  skew a -6 deg\n  skew b +6 deg\n'),
  );
  const { rows } = rowsOf(leaning, 'joints');
  const joints = rows.filter(({ span }) => span !== '');
  expect(joints.length).toBeGreaterThan(0);
  for (const { side, from, to, span, trueSpan } of joints) {
    const layers = `${from!.at(-1)}${to!.at(-1)}`;
    const shift = layers === 'ab' ? 0.2 : layers === 'ba' ? -0.2 : 0;
    expect(Number(trueSpan)).toBeCloseTo(Number(span) + (side === 'far' ? shift : -shift), 6);
  }
});

test('before the bars are joined, paths and joints are empty', () => {
  const loose = study(machine(''));
  expect(rowsOf(loose, 'joints').rows).toEqual([]);
  expect(rowsOf(loose, 'leads').rows).toEqual([]);
  const { rows } = rowsOf(loose, 'bars');
  expect(rows.length).toBe(24);
  expect(rows.every(({ path, shape }) => path === '' && shape === '')).toBe(true);
});

test('phases with factors of their own have a block each', () => {
  const uneven = study(`winding "T"
machine { slots 12 poles 2 phases 3 }
layout {
  layers 1
  layer a  +U +U +V -W +V -W -U -U -V +W -V +W
}`);
  const { rows } = rowsOf(uneven, 'factors');
  expect([...new Set(rows.map(({ phase }) => phase))]).toEqual(['U', 'V', 'W']);
});

test('a hostile title changes nothing', () => {
  const plain = study(machine(''));
  const hostile = study(
    machine('').replace('"T"', `"=cmd|' /C calc'!A0 \u202e<script>, ${'x'.repeat(10_000)}"`),
  );
  for (const table of scheduleTables)
    expect(schedule(hostile.facts!, table)).toBe(schedule(plain.facts!, table));
});

test('leads of a delta name what they are joined with; others are joined with nothing', () => {
  const joins = (connect: string, phases = '3') => {
    const text = machine(`connect { ${connect} }`)
      .replace('phases 3', `phases ${phases}`)
      .replace('slots 12', phases === '3' ? 'slots 12' : 'slots 24')
      .replace('span 5', phases === '3' ? 'span 5' : 'span 11');
    const { rows } = rowsOf(study(text), 'leads');
    expect(rows.length).toBeGreaterThan(0);
    return Object.fromEntries(rows.map((row) => [row.terminal!, row.joinedWith!]));
  };
  // IEC 60034-8, from memory: in delta U1 with W2, V1 with U2, W1 with V2.
  expect(joins('delta')).toEqual({ U1: 'W2', V1: 'U2', W1: 'V2', U2: 'V1', V2: 'W1', W2: 'U1' });
  expect(joins('delta', '6 apart 30 edeg')).toMatchObject({ '1U2': '1V1', '1W2': '1U1', '2W2': '2U1' });
  expect(new Set(Object.values(joins('star')))).toEqual(new Set(['']));
  expect(new Set(Object.values(joins('open')))).toEqual(new Set(['']));
});

test('the curve over the speed weakens the field beyond base speed, and not before', () => {
  const drive = study(smallDrive);
  const { baseSpeed } = told('operation', drive.facts!.operation());
  const { columns, cells } = scheduleTable(drive.facts!, 'operation');
  const at = (name: string) => columns.findIndex(({ heading }) => heading === name);
  const points = cells.map((row) => [row[at('speed')] as number, row[at('angle')] as number] as const);
  const beyond = points.filter(([speed]) => speed > baseSpeed! * 1.001);
  const before = points.filter(([speed]) => speed < baseSpeed! * 0.999);
  expect(beyond.length).toBeGreaterThan(3);
  expect(before.length).toBeGreaterThan(0);
  for (const [, angle] of beyond) expect(angle).toBeGreaterThan(0);
  for (const [, angle] of before) expect(Math.abs(angle)).toBeLessThan(1e-9);
});
