// Takes its time: searches connections.

import { mkdtempSync, readFileSync, rmSync, writeFileSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { afterAll, describe, expect, it } from 'vitest';
import { complete } from '../../../cli/complete.ts';
import { run } from '../../../cli/program.ts';
import { reportSchema } from '../../../core/report/schema.ts';
import { study } from '../../support/study.ts';

const folder = mkdtempSync(join(tmpdir(), 'slotwright-routes-'));
afterAll(() => rmSync(folder, { recursive: true }));

const text = `winding "Lock gate"
machine { slots 18 poles 4 phases 3 }
layout { layers 2 span 4 }
connect {
  star # of the gate
  route paths 2
}
`;
const file = join(folder, 'gate.winding');
writeFileSync(file, text);

describe('routes', () => {
  it('lists connections, none of which is worse in all than another, the present one first', () => {
    const { exitCode, output } = run(['routes', file], '0');
    expect(exitCode).toBe(0);
    const [title, ...rows] = output.trimEnd().split('\n');
    expect(title).toContain('pieces');
    const studied = study(text);
    const { routing } = reportSchema.parse(studied.report({ orders: 1, candidates: true }));
    expect(routing!.candidates.length).toBe(rows.length - 1);
    expect(routing!.candidates[0]!.pieces).toBe(routing!.jumpers);
    const counts = routing!.candidates.map((each) => [
      each.pieces,
      each.levels,
      each.jointShapes,
      each.specialJoints,
      each.barShapes,
      each.legsBentApart,
      each.voltageInSlot ?? 0,
    ]);
    expect(new Set(counts.map(String)).size).toBeGreaterThan(1);
    expect(routing!.candidates.every(({ paths }) => paths.some((path) => path.startsWith('path U 1')))).toBe(
      true,
    );
    // Not asked for, they are not searched for.
    expect(studied.report({ orders: 1 }).routing!.candidates).toEqual([]);
  });

  it('writes one out: the same bars again, without a search, and with comments kept', async () => {
    const candidates = reportSchema.parse(study(text).report({ orders: 1, candidates: true })).routing!
      .candidates;
    const output = join(folder, 'chosen.winding');
    const outcome = run(['routes', file, '--write', '2', '--output', output], '0');
    expect((await complete(outcome)).exitCode).toBe(0);
    const chosen = readFileSync(output, 'utf8');
    expect(chosen).toContain('# of the gate');
    expect(chosen).not.toContain('route paths');
    const report = study(chosen).report({ orders: 1 });
    expect(report.routing).toMatchObject({ wishes: null, jumpers: candidates[1]!.pieces });
    expect(report.routing!.hash).not.toBe(study(text).report({ orders: 1 }).routing!.hash);
  });

  it('writes back into the file, and refuses what does not fit together', async () => {
    const copy = join(folder, 'copy.winding');
    writeFileSync(copy, text);
    expect((await complete(run(['routes', copy, '--write', '1', '--in-place'], '0'))).exitCode).toBe(0);
    const written = study(readFileSync(copy, 'utf8')).report({ orders: 1 }).routing!;
    expect(written.hash).toBe(study(text).report({ orders: 1 }).routing!.hash);
    expect(run(['routes', copy], '0')).toMatchObject({ exitCode: 1, output: '' });
    for (const wrong of [
      ['--in-place'],
      ['--output', join(folder, 'x.winding')],
      ['--write', '99'],
      ['--write', '1', '--output', file],
      ['--write', '1', '--output', join(folder, 'y.winding'), '--in-place'],
    ])
      expect(run(['routes', file, ...wrong], '0').exitCode).toBe(2);
    expect(readFileSync(file, 'utf8')).toBe(text);
  });

  it('prints none that would command a build server, and says how to have it', () => {
    const commanding = join(folder, 'commanding.winding');
    writeFileSync(commanding, `${text}# see ##[group] x\n`);
    const { exitCode, output, complaints } = run(['routes', commanding, '--write', '1'], '0');
    expect([exitCode, output]).toEqual([2, '']);
    expect(complaints).toMatch(/for a command if it were printed .*--in-place writes it to a file/);
    expect(run(['routes', commanding, '--write', '1', '--in-place'], '0').files).toHaveLength(1);
  });

  it('prints any other', () => {
    const { exitCode, output } = run(['routes', file, '--write', '1'], '0');
    expect(exitCode).toBe(0);
    expect(study(output).report({ orders: 1 }).routing!.hash).toBe(
      study(text).report({ orders: 1 }).routing!.hash,
    );
  });
});
