import { describe, expect, it } from 'vitest';
import { buildSpace } from '../../../core/space/buildSpace.ts';
import {
  type EndInductances,
  endInductanceSteps,
  phaseEndInductance,
} from '../../../core/space/inductance/endInductance.ts';
import { filamentOf, moved, mutualInductance } from '../../../core/space/inductance/filaments.ts';
import { rectangleMeanDistance } from '../../../core/space/inductance/meanDistance.ts';
import type { Space } from '../../../core/space/space.ts';
import { study } from '../../../core/study.ts';
import { smallDrive } from '../../operation/machines.ts';
import { examples } from '../../support/files.ts';
import { type JoinedInput, known, machineText, type Request, spaceInput } from '../machines.ts';

const small: Request = {
  slots: 12,
  poles: 4,
  layers: 2,
  paths: 2,
  form: 'hairpin',
  gap: 'inner',
  lean: [0, 0],
  filled: 0.4,
  slender: 0.8,
  bar: 'bend-radius 3.6 mm',
};

function inductances(space: Space, { paths, winding }: JoinedInput, finer = 1): EndInductances {
  const steps = endInductanceSteps(space, paths, winding.table.cells, finer);
  for (;;) {
    const step = steps.next();
    if (step.done) return step.value;
  }
}

const input = spaceInput(machineText(small));
const space = known(buildSpace(input));
const found = inductances(space, input);
const count = input.paths.length;

/** Every bar end with every other, one by one. */
function bruteForce(): Float64Array {
  const matrix = new Float64Array(count * count);
  const owner = new Map(
    input.paths.flatMap(({ bars }, path) =>
      bars.map(({ slot, layer }) => [`${slot} ${layer}`, path] as const),
    ),
  );
  for (const side of ['connection', 'far'] as const) {
    const ends = space.bars.flatMap((bar, place) => {
      if (!bar) return [];
      const { section } = space.layers[bar.bar.layer]!;
      const line = moved(filamentOf(bar[side].pieces.filter(({ kind }) => kind !== 'lead')), bar.turn, null);
      const sign = (input.winding.table.cells[place]! > 0 ? 1 : -1) * (side === 'far' ? 1 : -1);
      const path = owner.get(`${bar.bar.slot} ${bar.bar.layer}`)!;
      return [{ line, sign, path, own: rectangleMeanDistance(section.width, section.height) }];
    });
    for (const a of ends)
      for (const b of ends)
        matrix[a.path * count + b.path]! +=
          a.sign * b.sign * mutualInductance(a.line, b.line, a === b ? a.own : 0);
  }
  return matrix;
}

describe('inductances of the end windings', () => {
  it('by classes of ends are those of every end with every other', () => {
    expect(space.links).toHaveLength(0);
    const plain = bruteForce();
    const largest = Math.max(...plain);
    found.air.forEach((value, entry) => {
      expect(Math.abs(value - plain[entry]!) / largest).toBeLessThan(1e-4);
    });
  });

  it('are a symmetric positive matrix', () => {
    // Cholesky: every pivot positive.
    const lower = Array.from({ length: count }, () => new Float64Array(count));
    for (let i = 0; i < count; i++)
      for (let j = 0; j <= i; j++) {
        expect(found.air[i * count + j]).toBe(found.air[j * count + i]);
        let sum = found.air[i * count + j]!;
        for (let k = 0; k < j; k++) sum -= lower[i]![k]! * lower[j]![k]!;
        if (i === j) expect(sum).toBeGreaterThan(0);
        lower[i]![j] = i === j ? Math.sqrt(sum) : sum / lower[j]![j]!;
      }
  });

  it('change by less than 0.3 % with segments half as long', () => {
    const of = (ends: EndInductances) =>
      phaseEndInductance(
        ends,
        input.paths.map(({ phase }) => phase),
        input.winding.phases.axes,
      ).phase;
    expect(of(inductances(space, input, 2)) / of(found)).toBeCloseTo(1, 2);
    expect(Math.abs(of(inductances(space, input, 2)) / of(found) - 1)).toBeLessThan(3e-3);
  });

  it('of a phase lie between those with either image in the faces of the stack', () => {
    const { phase, low, high, matrix } = phaseEndInductance(
      found,
      input.paths.map(({ phase: of }) => of),
      input.winding.phases.axes,
    );
    expect(low).toBeLessThan(phase);
    expect(high - phase).toBeCloseTo(phase - low, 15);
    expect(matrix).toHaveLength(3);
    // Alike phases: own flux less that of a neighbor.
    expect(phase / (matrix[0]![0]! - matrix[0]![1]!)).toBeCloseTo(1, 1);
  });

  it('are numbers where a connecting piece has risers of no length', () => {
    const single = spaceInput(smallDrive);
    const pieced = known(buildSpace(single));
    expect(
      Math.min(...pieced.links.flatMap(({ pieces }) => pieces.map(({ length }) => length))),
    ).toBeLessThan(1e-9);
    for (const value of inductances(pieced, single).air) expect(value).toSatisfy(Number.isFinite);
  });

  it('join the synchronous inductance, the report and a limit', () => {
    const { text } = examples.find(({ name }) => name.startsWith('harbor'))!;
    const limited = text.replace('require {', 'require {\n  end-inductance <= 1 uH');
    const { report, limits, facts } = study(limited);
    const { space: reported } = report();
    const { phase, low, high } = reported!.endInductance!;
    // Two machines' ends of this size were computed before with other ends and chords: 2.36 uH in air.
    expect(phase! * 1e6).toBeGreaterThan(1.8);
    expect(phase! * 1e6).toBeLessThan(3.5);
    expect(low!).toBeLessThan(high!);
    expect(limits.find(({ quantity }) => quantity === 'end-inductance')).toMatchObject({
      met: false,
      actual: phase,
    });
    const { inductance } = facts!.operation();
    expect(inductance.end).toBe(phase);
    expect(inductance.d).toBeCloseTo(
      inductance.magnetizing! + inductance.differential! + inductance.slot! + phase!,
      12,
    );
  });
});
