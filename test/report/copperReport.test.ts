// Takes its time: studies whole windings.

import { describe, expect, it } from 'vitest';
import { csvCell, csvHeading } from '../../core/tables/csv.ts';
import { scheduleTable } from '../../core/tables/schedule.ts';
import { drawView, viewNames } from '../../core/views/views.ts';
import { crossedDrive, ferryDrive, withLine } from '../copper/machines.ts';
import { pathsByHand } from '../copper/pathsByHand.ts';
import { unequalPaths, unequalSizes } from '../copper/unequalPaths.ts';
import { soundExamples } from '../support/files.ts';
import { study } from '../support/study.ts';
import { study as withoutEnds } from '../support/withoutEnds.ts';

describe('lengths of bar shapes', () => {
  it.each(soundExamples.map(({ name, text }) => [name, text] as const))(
    'all pieces together are as long as all bars: %s',
    (_, text) => {
      const { shapes, copper } = study(text).report();
      const bars = copper?.length.bars ?? null;
      if (bars === null) {
        expect(shapes.bars.every(({ length }) => length === null)).toBe(true);
        return;
      }
      const number = shapes.bars.reduce(
        (sum, { form, count }) => sum + count * (form === 'hairpin' ? 2 : 1),
        0,
      );
      const together = shapes.bars.reduce((sum, { length, count }) => sum + count * length!, 0);
      expect(together / (number * bars)).toBeCloseTo(1, 12);
    },
  );

  it('a straight bar by hand: its slot part, its two straights, and both ends bent and joined', () => {
    const text = ferryDrive
      .replace('form hairpin', 'form straight')
      .replace('joint-straight 8 mm', 'joint-straight 8 mm  bend-radius 2 mm');
    const { shapes, copper } = study(withLine(text, 'route', '  route paths 1')).report();
    expect(copper!.length.bars).not.toBeNull();
    // Layer a stacked from the closed end; bore 162, opening 0.8, depth 15.2, liner 0.25.
    const radius = 81 + 0.8 + 15.2 - 0.25 - 4 * 3.18 + 3.18 / 2;
    // At its inner faces, half a coated height further in, the pitch holds coated width and clearance.
    const slope = Math.asin((3.6 + 0.18 + 0.6) / ((2 * Math.PI * (radius - 1.59)) / 48));
    const half = ((3 * 2 * Math.PI) / 48) * (radius / Math.cos(slope));
    // Four corners from the axis to the slope, on a center line of 2 + 1.89 mm, in place of sharp ones.
    const turn = Math.PI / 2 - slope;
    const corner = 3.89 * (turn - 2 * Math.tan(turn / 2));
    const regular = shapes.bars.find(
      ({ form, ends }) =>
        form === 'straight' && ends[0]!.layer === 'a' && ends.every((end) => Math.abs(end.bend!) === 6),
    )!;
    const expected = 96 + 2 * (6 + 8) + 2 * half + 4 * corner;
    expect(regular.length! * 1e3).toBeCloseTo(expected, 6);
  });

  it('the schedule of bars tells that of each, in millimeters; the report their mean', () => {
    const { facts, report } = study(ferryDrive);
    const { columns, cells } = scheduleTable(facts!, 'bars');
    const column = columns.findIndex((each) => csvHeading(each) === 'lengthMm');
    const shape = columns.findIndex(({ heading }) => heading === 'shape');
    expect(cells).toHaveLength(192);
    for (const { number, length } of report().shapes.bars) {
      const own = cells.filter((row) => row[shape] === number);
      const told = own.map((row) => csvCell(columns[column]!, row[column]!) as number);
      expect(told.reduce((sum, each) => sum + each, 0) / own.length).toBeCloseTo(length! * 1e3, 5);
    }
  });

  it('each bar has the length to which the bend list cuts it', () => {
    const { facts, report } = study(soundExamples.find(({ name }) => name.startsWith('harbor-ferry'))!.text);
    const { columns, cells } = scheduleTable(facts!, 'bars');
    const column = columns.findIndex((each) => csvHeading(each) === 'lengthMm');
    const name = columns.findIndex(({ heading }) => heading === 'bent bar');
    const bends = scheduleTable(facts!, 'bends');
    const [bar, step, cut] = ['bar', 'operation', 'lengthMm'].map((heading) =>
      bends.columns.findIndex((each) => csvHeading(each) === heading),
    );
    const cuts = new Map(
      bends.cells
        .filter((row) => row[step!] === 'cut')
        .map((row) => [row[bar!], csvCell(bends.columns[cut!]!, row[cut!]!)]),
    );
    for (const row of cells)
      expect(csvCell(columns[column]!, row[column]!)).toBeCloseTo(cuts.get(row[name]!) as number, 2);
    expect(cuts.size).toBeGreaterThan(report().shapes.bars.length);
  });
});

describe('figures beside the models', () => {
  it('every model names a figure that the report holds', () => {
    for (const text of [ferryDrive, crossedDrive]) {
      const report = study(text).report();
      expect(report.models.length).toBeGreaterThan(30);
      for (const { quantity } of report.models) {
        const found = quantity
          .split('.')
          .reduce<unknown>((value, key) => (value as Record<string, unknown> | undefined)?.[key], report);
        expect([quantity, found === undefined || found === null]).toEqual([quantity, false]);
      }
    }
  });

  it('resistance and leakage of each path', () => {
    const { copper } = study(ferryDrive).report();
    const { frequency, paths } = copper!.leakage.pathImpedances!;
    expect(frequency).toBeCloseTo(240, 9);
    expect(paths.map(({ phase, path }) => `${phase}${path}`)).toEqual(['U1', 'U2', 'V1', 'V2', 'W1', 'W2']);
    const parallel = 1 / paths.slice(0, 2).reduce((sum, { resistance }) => sum + 1 / resistance, 0);
    expect(parallel / copper!.resistance.phase!).toBeCloseTo(1, 9);
    for (const { selfInductance } of paths) expect(selfInductance).toBeGreaterThan(0);
  });

  it('currents of parallel paths: the share with its model, in Markdown too', () => {
    const report = study(unequalPaths).report();
    const models = report.models.filter(({ quantity }) => quantity.startsWith('balance.'));
    expect(models.map(({ quantity }) => quantity)).toEqual([
      'balance.circulatingCurrent',
      'balance.pathCurrentDeviation',
    ]);
    // Without the leakage of the end windings, which the paths are worked out without by hand.
    const made = withoutEnds(unequalPaths);
    const text = made.markdown();
    const hand = pathsByHand(made, made.report(), unequalSizes(0.9e-3, 15000));
    const percent = (share: number) => (100 * share).toFixed(2);
    expect(text).toContain(
      `| circulating current without load, of the current of a path | ${percent(hand.circulating)} % | (R + j w L) I = E - U in every path`,
    );
    expect(text).toContain(
      `| deviation of the path currents at load, from an equal share | ${percent(hand.deviation)} % |`,
    );
    const missing = study(withLine(unequalPaths, 'air-gap', null));
    expect(missing.markdown()).toContain(
      '| circulating current without load, of the current of a path | not computed |',
    );
    expect(missing.report().models.filter(({ quantity }) => quantity.startsWith('balance.'))).toEqual([]);
    // One path a phase has nothing to share.
    const single = study(withLine(ferryDrive, 'route', '  route paths 1'));
    expect(single.markdown()).not.toContain('circulating current without load');
  });

  it('room in the slot, and best bar heights that exceed it', () => {
    const { copper } = study(ferryDrive).report();
    const [room] = copper!.section.spareRoom;
    expect(room!.layers).toEqual(['a', 'b', 'c', 'd']);
    expect(room!.width * 1e3).toBeCloseTo(4.6 - 0.5 - 3.78, 9);
    expect(room!.height * 1e3).toBeCloseTo(15.2 - 1.25 - 4 * 3.18, 9);
    expect(copper!.acRatio.bestHeights[0]!.room! * 1e3).toBeCloseTo((15.2 - 1.25) / 4 - 0.18, 9);
    const slow = study(withLine(ferryDrive, 'speed', '  speed 300 rpm'));
    expect(slow.markdown()).toContain('the slot has room for 3.31 mm only');
    expect(study(withLine(ferryDrive, 'speed', '  speed 9000 rpm')).markdown()).not.toContain('has room for');
  });

  it('slot permeance of straight bars needs no stack', () => {
    const without = study(withLine(ferryDrive, 'stack', null)).report().copper!;
    const full = study(ferryDrive).report().copper!;
    expect(without.leakage.slotPermeance! / full.leakage.slotPermeance!).toBeCloseTo(1, 12);
    expect(without.leakage.slotInductance).toBeNull();
  });
});

describe('cages', () => {
  const needs = (text: string, quantity: string) =>
    study(text)
      .report()
      .missing.find((entry) => entry.quantity === quantity)?.needs;

  it.each([
    ['straight bars', ferryDrive],
    ['bars that all lean one way', withLine(ferryDrive, 'skew', '  skew all 1 slot')],
  ])('%s do not cross: stiffness is missing, not 0', (_, text) => {
    const { cage } = study(text).report().copper!;
    expect(cage.stiffness).toBeNull();
    expect(cage.stress).toBeNull();
    expect(cage.straight).toBeGreaterThan(0);
    expect(needs(text, 'copper.cage.stiffness')).toEqual(['layout skew of crossing layers']);
    expect(study(text).markdown()).not.toMatch(/^\| torsional stiffness of the crossed bars/m);
  });

  it('a limit on their stiffness is then not computable', () => {
    const found = study(`${ferryDrive}require { cage-stiffness >= 1 Nm/rad }\n`);
    expect(found.limits.map(({ met }) => met)).toEqual([null]);
    expect(found.markdown()).toMatch(/cage-stiffness.*\| not computable +\|.*\| \*\*not known\*\* +\|/);
  });

  it('the trade of the lean is in the report, the skew of the rotor within', () => {
    const skewed = crossedDrive.replace('  slots 48', '  slots 48\n  rotor-skew 7.5 deg');
    expect(study(ferryDrive).report().copper!.cage.leanTrade).toEqual([]);
    const { leanTrade, stiffness, straight } = study(skewed).report().copper!.cage;
    expect(leanTrade.map(({ slots }) => slots)).toEqual([0, 0.25, 0.5, 0.75, 1, 1.25, 1.5, 1.75, 2]);
    expect(leanTrade[4]!.stiffness! / stiffness!).toBeCloseTo(1, 9);
    expect(leanTrade[0]!.stiffness! / straight!).toBeCloseTo(1, 9);
    const sinc = (x: number) => (x === 0 ? 1 : Math.sin(x) / x);
    leanTrade.forEach(({ slots, skewFactor }) => {
      // Half of the layers leans with the rotor's one slot pitch of skew, half against it; 30 edeg a slot.
      const half = Math.PI / 12;
      const expected = (sinc(half * (slots - 1)) + sinc(half * (slots + 1))) / 2;
      expect(skewFactor).toBeCloseTo(expected, 9);
    });
  });
});

describe('voltages with the harmonics of the rotor field', () => {
  it('are printed beside those of the fundamental', () => {
    const text = ferryDrive.replace('  current', '  rotor-field harmonic 3 30 %\n  current');
    const { emf } = study(text).report();
    const lines = study(text).markdown().split('\n');
    const shown = (label: string) =>
      Number(
        lines
          .find((line) => line.includes(label))
          ?.split('|')[2]
          ?.split(' V')[0],
      );
    expect(shown('phase EMF of the fundamental') / emf!.phaseVoltage!).toBeCloseTo(1, 4);
    expect(
      shown('phase EMF with the harmonics of the rotor field') / emf!.harmonics!.phaseVoltage,
    ).toBeCloseTo(1, 4);
    expect(emf!.harmonics!.phaseVoltage).toBeGreaterThan(1.01 * emf!.phaseVoltage!);
    expect(study(ferryDrive).markdown()).not.toContain('harmonics of the rotor field, rms');
  });
});

describe('sizes beyond all reason', () => {
  it.each(['100 mm', '900 mm', '1 m'])('a coating of %s is found too thick; nothing breaks', (coating) => {
    const thick = withLine(ferryDrive, 'coating', `  coating ${coating}`);
    const two = thick.replace('layers 4', 'layers 2').replace('paths 2', 'paths 1');
    for (const text of [thick, two]) {
      const subject = study(text);
      const report = subject.report();
      expect(report.findings.map(({ code }) => code)).toContain('bars-do-not-fit');
      expect(report.findings.map(({ code }) => code)).not.toContain('check-crashed');
      expect(report.missing.find(({ quantity }) => quantity === 'copper.length.bars')?.needs).toEqual([
        'slots and bars that end short of the axis',
      ]);
      expect(report.copper?.length.bars).toBeNull();
      expect(subject.markdown()).toContain('# Harbor ferry pod drive');
    }
  });

  it('fluxes and currents near nothing are drawn', () => {
    const text = withLine(
      withLine(ferryDrive, 'flux', '  flux 1e-300 mWb'),
      'current',
      '  current 0.000001 A',
    );
    const { title, specification, facts } = study(text);
    for (const view of viewNames) {
      expect(() => drawView({ title, specification, facts: facts! }, view, { coarse: true })).not.toThrow();
    }
  });
});
