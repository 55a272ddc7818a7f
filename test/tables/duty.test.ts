import { describe, expect, it } from 'vitest';
import { compare } from '../../core/review/compare.ts';
import { figureName } from '../../core/review/numbers/figureNames.ts';
import { dutyTables } from '../../core/sheets/duty.ts';
import { schedule } from '../../core/tables/schedule.ts';
import { withLine } from '../copper/machines.ts';
import { smallDrive } from '../operation/machines.ts';
import { toldDuty } from '../support/told.ts';
import { study } from '../support/withoutEnds.ts';

const text = `${smallDrive}duty {
  point "climb" speed 2000 rpm torque 14 Nm for 2 min
  point "=cruise" speed 6000 rpm torque 8 Nm for 0.25 h
  point "hold" speed 0 rpm current 60 A for 30 s
}
`;
const studied = study(text);
const rows = (table: 'duty' | 'operation') =>
  schedule(studied.facts!, table)
    .trimEnd()
    .split('\r\n')
    .map((row) => row.split(','));

describe('the duty as a table', () => {
  const [head, climb, cruise, hold] = rows('duty');
  const cell = (row: readonly string[] | undefined, heading: string) => row![head!.indexOf(heading)]!;
  const points = toldDuty(studied.facts!.duty()).points;

  it('has a row a point, each number in the unit of its heading', () => {
    expect(head!.slice(0, 5)).toEqual(['point', 'timeS', 'speedRpm', 'torqueNm', 'currentA']);
    expect(head).toContain('riseKPerS');
    expect(rows('duty')).toHaveLength(4);
    expect(cell(climb, 'point')).toBe('climb');
    expect(Number(cell(climb, 'timeS'))).toBe(120);
    expect(Number(cell(climb, 'speedRpm'))).toBe(2000);
    expect(Number(cell(climb, 'torqueNm'))).toBe(14);
    expect(Number(cell(climb, 'currentA'))).toBeCloseTo(points[0]!.current!, 6);
    expect(Number(cell(climb, 'hotSpotDegC'))).toBeCloseTo(points[0]!.hotSpot!, 6);
    expect(Number(cell(cruise, 'lineVoltageV'))).toBeCloseTo(36, 5);
    expect(Number(cell(hold, 'speedRpm'))).toBe(0);
    expect(cell(hold, 'harmonicLossW')).toBe('');
  });

  it('gives a spreadsheet no formula', () => {
    expect(cell(cruise, 'point')).not.toMatch(/^=/);
  });

  it('stands on the sheet of the machine, with the sums of the cycle', () => {
    const [table] = dutyTables(studied.facts!, 'Machine');
    expect(table!.rows).toHaveLength(3);
    expect(table!.columns.map(({ name }) => name)).toContain('torque Nm');
    expect(table!.rows[0]!.slice(0, 4)).toEqual(['climb', '120', '2000', '14']);
    expect(table!.remarks![0]).toMatch(
      /^A cycle: duration 1050 s, mean winding loss [\d.]+ W, .*rms terminal current [\d.]+ A/,
    );
    expect(dutyTables(study(smallDrive).facts!, 'Machine')).toEqual([]);
  });
});

describe('the torque over the speed as a table', () => {
  it('has a row a speed of the curve', () => {
    const [head, ...body] = rows('operation');
    const curve = studied.facts!.torqueSpeedCurve();
    expect(body).toHaveLength(curve.length);
    expect(head).toEqual([
      'speedRpm',
      'torqueNm',
      'powerW',
      'currentA',
      'angle',
      'lineVoltageV',
      'powerFactor',
    ]);
    expect(Number(body[3]![0])).toBeCloseTo(curve[3]!.speed * 60, 5);
    expect(Number(body[3]![1])).toBeCloseTo(curve[3]!.torque, 5);
  });
});

describe('the comparison of two duties', () => {
  it('tells what moved at each point by its name', () => {
    const other = withLine(text, 'point "climb"', '  point "climb" speed 2000 rpm torque 15 Nm for 2 min');
    const { numbers } = compare(studied, study(other));
    const moved = numbers.find(({ quantity }) => quantity === 'duty.points.torque at "climb"')!;
    expect([moved.old, moved.new, moved.unit]).toEqual([14, 15, 'Nm']);
    expect(figureName(moved.quantity)).toBe('torque at "climb"');
    expect(numbers.some(({ quantity }) => quantity.endsWith('at "hold"'))).toBe(false);
  });
});
