import { describe, expect, it } from 'vitest';
import { reportSchema } from '../../core/report/schema.ts';
import { barRows } from '../../core/tables/bars.ts';
import { buoyHub, machineText, type Request } from '../space/machines.ts';
import { study } from '../support/study.ts';

const small: Request = {
  slots: 12,
  poles: 4,
  layers: 2,
  paths: 1,
  form: 'hairpin',
  gap: 'inner',
  lean: [0, 0],
  filled: 0.4,
  slender: 0.8,
  bar: 'bend-radius 4 mm lead-length 20 mm',
};

function reported(request: Request) {
  return reportSchema.parse(JSON.parse(JSON.stringify(study(machineText(request)).report())));
}

describe('the report of the bars in space', () => {
  it('lists the pieces of one bar of each shape, whose lengths add up to that of the shape', () => {
    const report = reported(small);
    const { bars } = report.space!;
    expect(bars.map(({ shape }) => shape)).toEqual(report.shapes.bars.map(({ number }) => number));
    for (const { length, pieces } of bars) {
      expect(length).toBeCloseTo(
        pieces.reduce((sum, piece) => sum + piece.length, 0),
        12,
      );
      expect(pieces.every((piece, at) => piece.length > 0 && piece.kind !== pieces[at - 1]?.kind)).toBe(true);
    }
    // Bars of one shape whose ends are all joints are equally long.
    const joined = bars.findIndex(({ pieces }) => pieces.every(({ kind }) => kind !== 'lead'));
    expect(bars[joined]!.length).toBeCloseTo(report.shapes.bars[joined]!.length!, 9);
    const kinds = bars[joined]!.pieces.map(({ kind }) => kind);
    expect(kinds).toEqual(
      'joint bend leg bend straight slot straight bend leg crown leg bend straight slot straight bend leg bend joint'.split(
        ' ',
      ),
    );
  });

  it('takes the bar that most of a shape are, where their ends are not bent alike', () => {
    const hub = study(buoyHub({ clearance: 0.5 }));
    const lengths = new Map<number, number[]>();
    for (const { use, length } of barRows(hub.facts!)) {
      const shape = use!.shape!;
      lengths.set(shape, [...(lengths.get(shape) ?? []), Number(length!.toFixed(9))]);
    }
    const uneven = [...lengths].filter(([, of]) => new Set(of).size > 1);
    expect(uneven.length).toBeGreaterThan(0);
    for (const [shape, of] of uneven) {
      const times = (length: number) => of.filter((other) => other === length).length;
      const told = hub.report().space!.bars.find((bar) => bar.shape === shape)!.length;
      expect(times(Number(told.toFixed(9))), `shape ${shape}`).toBe(Math.max(...of.map(times)));
    }
  });

  it('tells the joint planes of the sides that have joints, and what they are in words', () => {
    const { space, models, assumptions } = reported(small);
    expect(space!.jointPlane.far).toBeNull();
    const { lowest, highest } = space!.jointPlane.connection!;
    expect(lowest).toBeGreaterThan(0.02);
    expect(highest).toBeGreaterThanOrEqual(lowest!);
    expect(models.map(({ quantity }) => quantity)).toContain('space.jointPlane.connection.highest');
    expect(assumptions).toEqual(expect.arrayContaining(space!.assumptions));
    const both = reported({ ...small, form: 'straight' }).space!;
    expect(both.jointPlane.far).not.toBeNull();
  });

  it('is null, with what would supply it, where sizes or paths are missing', () => {
    const unsized = study(machineText(small).replace('stack 80 mm', '')).report();
    expect(unsized.space).toBeNull();
    expect(unsized.missing.find(({ quantity }) => quantity === 'space')!.needs).toContain('machine stack');
    const unjoined = study(machineText(small).replace(/connect \{[^}]*\}/, '')).report();
    expect(unjoined.missing).toContainEqual({
      quantity: 'space',
      needs: ['connect route or written paths'],
    });
  });

  it('reads well as Markdown', () => {
    const text = study(machineText(small)).markdown();
    const section = text.slice(text.indexOf('## Bars in space'), text.indexOf('## Force waves'));
    expect(section).toContain('height of the highest joint above the stack, connection side');
    expect(section).toMatch(/\| 1 \| hairpin \| 333\.63 \| lead 20\.00, joint 8\.04, bend 7\.03, leg/);
  });
});
