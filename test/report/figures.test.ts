import { describe, expect, it } from 'vitest';
import { factorTableRows } from '../../core/report/figures.ts';
import { columnsTable } from '../../core/report/markdown/table.ts';
import { study } from '../support/study.ts';

// 24 slots and 22 poles: waves at every odd order that is no multiple of three, and others besides.
const facts = study('machine { slots 24 poles 22 phases 3 } layout { layers 2 span 1 }').facts!;

describe('the table of factors', () => {
  const rows = factorTableRows(facts);

  it('lists the lowest 60 orders that have a factor or a wave', () => {
    const listed = Array.from({ length: facts.orders }, (_, index) => index + 1).filter(
      (order) => facts.factorRow(order).distribution !== 0 || facts.wavesOf(order).length > 0,
    );
    expect(listed.length).toBeGreaterThan(60);
    expect(rows.map(({ order }) => Number(order))).toEqual(listed.slice(0, 60));
  });

  it('tells waves in percent of the working one, the working one as such', () => {
    const working = rows.find(({ order }) => order === '11')!;
    expect(working).toMatchObject({ harmonic: '1', wave: '100.00 %', direction: 'working' });
    const [thirteenth] = facts.wavesOf(13);
    const { wave, direction } = rows.find(({ order }) => order === '13')!;
    expect(Number.parseFloat(wave) / 100).toBeCloseTo(thirteenth!.relative!, 4);
    expect(direction).toBe(thirteenth!.direction);
  });
});

describe('a table of columns in Markdown', () => {
  it('tells units in its head, numbers in them, and a dash for what is not known', () => {
    const column = (heading: string, unit: 'speed' | 'edeg' | 'factor') => ({
      heading,
      meaning: '',
      unit,
      value: (value: number | null) => value,
    });
    const columns = [column('speed', 'speed'), column('angle', 'edeg'), column('power factor', 'factor')];
    expect(columnsTable(columns, [50, null]).split('\n')).toEqual([
      '| speed rpm | angle ° | power factor |',
      '| --- | --- | --- |',
      '| 3000 | 50.0 | 50.000 |',
      '| – | – | – |',
    ]);
  });
});
