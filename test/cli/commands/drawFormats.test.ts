// Takes its time: runs the command line on whole windings and repositories.

import { mkdtempSync, readFileSync, rmSync, writeFileSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { afterAll, beforeAll, describe, expect, it } from 'vitest';
import { complete } from '../../../cli/complete.ts';
import type { FileFormats } from '../../../cli/files/fileFormats.ts';
import { run } from '../../../cli/program.ts';
import * as writers from '../../../core/picture/fileFormats.ts';
import { drawingFont } from '../../../scripts/font.mjs';
import { readPdf } from '../../picture/readPdf.ts';
import { machineText } from '../../space/machines.ts';
import { study } from '../../support/study.ts';

const example = 'examples/harbor-ferry-pod-drive.winding';
const small = 'examples/tidal-pump.winding';
/** Few bars with all sizes of their ends. */
const bent = machineText({
  ...{ slots: 12, poles: 2, layers: 2, paths: 1, form: 'hairpin', gap: 'inner', lean: [0, 0] },
  ...{ filled: 0.36, slender: 0.6, bar: 'bend-radius 3 mm' },
});
let folder: string;
let formats: FileFormats;

beforeAll(async () => {
  folder = mkdtempSync(join(tmpdir(), 'slotwright-draw-'));
  writeFileSync(join(folder, 'bent.winding'), bent);
  formats = { writers, font: await drawingFont() };
});
afterAll(() => rmSync(folder, { recursive: true }));

/** Runs the program to its end; returns its exit code and what it complained of. */
async function call(...args: readonly string[]) {
  return complete(run(args, '0.0.0', () => formats));
}

describe('drawings as files', () => {
  // Every view as SVG, and in one more format: both writers take the pictures of all views (test/picture).
  const endings: Readonly<Record<string, readonly string[]>> = {
    layout: ['svg', 'pdf', 'dxf'],
    section: ['svg', 'dxf'],
    phasors: ['svg', 'pdf'],
    field: ['svg', 'dxf'],
    copper: ['svg', 'pdf'],
    operation: ['svg', 'pdf'],
    space: ['svg', 'dxf'],
  };
  it.each(Object.entries(endings))('writes %s as %j', async (view, formats) => {
    const winding = view === 'space' ? join(folder, 'bent.winding') : example;
    for (const ending of formats) {
      const file = join(folder, `${view}.${ending}`);
      const { exitCode, output, complaints } = await call('draw', winding, '--view', view, '--output', file);
      expect({ exitCode, output, complaints }).toEqual({ exitCode: 0, output: '', complaints: '' });
      expect(readFileSync(file).length).toBeGreaterThan(view === 'space' ? 50_000 : 1000);
    }
  });

  it('writes the handover sheets as pages of one PDF, with every slot and joint number', async () => {
    const file = join(folder, 'sheets.pdf');
    expect((await call('draw', small, '--view', 'sheet', '--output', file)).exitCode).toBe(0);
    const pages = await readPdf(new Uint8Array(readFileSync(file)));
    const words = new Set(
      pages.pages.flatMap(({ texts }) => texts.flatMap(({ words: line }) => line.split(/\s+/))),
    );
    const report = study(readFileSync(small, 'utf8')).report();
    for (let slot = 1; slot <= report.winding!.slots; slot++) expect(words).toContain(String(slot));
    for (const { number } of report.joints) expect(words).toContain(String(number));
    expect(pages.pages.length).toBeGreaterThan(3);
  });

  it('gives the same bytes twice', async () => {
    for (const ending of ['pdf', 'dxf']) {
      const [a, b] = [join(folder, `a.${ending}`), join(folder, `b.${ending}`)];
      for (const file of [a, b]) await call('draw', small, '--view', 'layout', '--output', file);
      expect(readFileSync(a).equals(readFileSync(b))).toBe(true);
    }
  });

  it('lets a phase stand out, and says which phases there are', async () => {
    expect((await call('draw', example, '--view', 'layout', '--phase', 'V')).exitCode).toBe(0);
    const wrong = await call('draw', example, '--view', 'layout', '--phase', 'Z');
    expect(wrong.exitCode).toBe(2);
    expect(wrong.complaints).toContain('U, V, W');
    expect(
      (await call('draw', example, '--view', 'layout', '--output', join(folder, 'x.png'))).exitCode,
    ).toBe(2);
  });
});

describe('schedules as files', () => {
  it.each(['slots', 'bars', 'joints', 'leads', 'factors'])('writes %s as CSV', async (table) => {
    const file = join(folder, `${table}.csv`);
    expect((await call('schedule', example, '--table', table, '--output', file)).exitCode).toBe(0);
    const { output } = await call('schedule', example, '--table', table);
    expect(readFileSync(file, 'utf8')).toBe(output);
    // The contents are read back in test/tables/schedule.test.ts.
    expect(output.split('\r\n').length).toBeGreaterThan(5);
  });

  it.each([
    ['joints', 'the joint list is empty: it needs connect star, delta or open.'],
    ['leads', 'the list of leads is empty: it needs connect star, delta or open.'],
    ['operation', 'the torque-speed curve is empty: it needs machine '],
    ['duty', 'the list of duty points is empty: it needs duty points.'],
  ])('says what %s need where nothing is listed', async (table, words) => {
    const file = join(folder, 'unjoined.winding');
    writeFileSync(
      file,
      'winding "Quay winch" machine { slots 12 poles 2 phases 3 } layout { layers 2 span 5 }',
    );
    const { exitCode, output, complaints } = await call('schedule', file, '--table', table);
    expect(output.split('\r\n')).toHaveLength(2);
    expect({ exitCode, complaints }).toEqual({
      exitCode: 0,
      complaints: expect.stringContaining(`slotwright: ${file}: ${words}`),
    });
  });

  it('refuses another ending', async () => {
    expect((await call('schedule', example, '--table', 'slots', '--output', 'x.txt')).exitCode).toBe(2);
  });
});
