// Takes its time: draws bars in space.

import { mkdtempSync, readFileSync, rmSync, writeFileSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { afterAll, describe, expect, test } from 'vitest';
import { complete } from '../../../cli/complete.ts';
import { run } from '../../../cli/program.ts';
import { machineText } from '../../space/machines.ts';

const folder = mkdtempSync(join(tmpdir(), 'slotwright-solids-'));
afterAll(() => rmSync(folder, { recursive: true }));

async function call(...args: readonly string[]) {
  const formats = () => {
    throw new RangeError('solids need no writers of pictures');
  };
  return complete(run(args, '0.0.0', formats));
}

const text = machineText({
  slots: 12,
  poles: 4,
  paths: 2,
  filled: 0.45,
  slender: 0.8,
  lean: [0, 0],
  layers: 2,
  form: 'hairpin',
  gap: 'inner',
  bar: 'bend-radius 5 mm flat 3 mm',
}).replace('end-clearance 0.5 mm', 'end-clearance 0.9 mm');
const winding = join(folder, 'hoist.winding');
writeFileSync(winding, text);
const unbent = join(folder, 'unbent.winding');
writeFileSync(unbent, text.replace('bend-radius 5 mm flat 3 mm', ''));
const output = (name: string) => join(folder, name);
const space = ['--view', 'space'];

describe('solids of the bars', () => {
  test('are written as STEP and STL, all of them or one shape, as they stand or are put in', async () => {
    const all = await call('draw', winding, ...space, '--output', output('all.step'));
    expect(all).toMatchObject({ exitCode: 0, complaints: '' });
    const whole = readFileSync(output('all.step'), 'utf8');
    expect(whole.startsWith('ISO-10303-21;\n')).toBe(true);
    await call('draw', winding, ...space, '--output', output('one.stp'), '--shape', '1', '--state', 'before');
    const one = readFileSync(output('one.stp'), 'utf8');
    expect(one).toMatch(/PRODUCT\('Bar shape 1(-A)?, before it is put in'/);
    expect(one.length).toBeLessThan(whole.length);
    await call('draw', winding, ...space, '--output', output('all.stl'));
    const stl = readFileSync(output('all.stl'));
    expect(stl.length).toBe(84 + 50 * stl.readUInt32LE(80));
    const finer = ['--chord-error', '0.02'];
    await call('draw', winding, ...space, ...finer, '--output', output('fine.stl'));
    const fine = readFileSync(output('fine.stl'));
    expect(fine.readUInt32LE(80)).toBeGreaterThan(2 * stl.readUInt32LE(80));
  });

  test('and drawn as a picture like any other view', async () => {
    const { output: svg, exitCode } = await call('draw', winding, ...space);
    expect(exitCode).toBe(0);
    expect(svg).toContain('data-bar="1a"');
  });

  test.each([
    ['a shape that is not there', [...space, '--shape', '99', '--output', 'x.step'], 'bar shapes are 1 to'],
    [
      'a shape without solids',
      [...space, '--shape', '1'],
      '--shape: it goes with --view space and an --output',
    ],
    ['a state without solids', ['--view', 'layout', '--state', 'before'], '--state: it goes with'],
    ['solids of another view', ['--view', 'layout', '--output', 'x.step'], 'ask for --view space'],
    ['a phase of solids', [...space, '--phase', 'U', '--output', 'x.stl'], 'has no phases'],
    ['another state', [...space, '--state', 'bent', '--output', 'x.step'], 'finished'],
    ['no chord error', [...space, '--chord-error', '5', '--output', 'x.stl'], 'from 0.001 to 1 are expected'],
    ['a chord error of curves', [...space, '--chord-error', '0.1', '--output', 'x.step'], 'exact curves'],
    ['no shape number', [...space, '--shape', 'two', '--output', 'x.step'], 'such as 2 or 2-A'],
    ['a kind that is not there', [...space, '--shape', '1-Q', '--output', 'x.step'], 'such as 1-A'],
  ])('%s is refused', async (_, rest, words) => {
    const { exitCode, complaints } = await call(
      'draw',
      winding,
      ...rest.map((each) => (each.startsWith('x.') ? output(each) : each)),
    );
    expect(exitCode).toBe(2);
    expect(complaints).toContain(words);
  });

  test('without a bend radius there are none, and that is said', async () => {
    const file = output('none.step');
    const { exitCode, complaints } = await call('draw', unbent, ...space, '--output', file);
    expect(exitCode).toBe(1);
    expect(complaints).toContain('no solids of the bars: they need bar bend-radius.');
    expect(() => readFileSync(file)).toThrow();
    const list = await call('schedule', unbent, '--table', 'bends');
    expect(list.exitCode).toBe(0);
    expect(list.output.split('\r\n')).toHaveLength(2);
    expect(list.complaints).toContain('the bend list is empty: it needs bar bend-radius.');
    expect((await call('schedule', winding, '--table', 'bends')).output).toMatch(/\r\n1(-A)?,\d+,0,cut,/);
  });
});
