import { readFileSync } from 'node:fs';
import { describe, expect, it } from 'vitest';
import { finished } from '../../../core/figures/steps.ts';
import { buildSpace } from '../../../core/space/buildSpace.ts';
import { stationAt } from '../../../core/space/curve.ts';
import {
  type EndsAgainst,
  endInductanceSteps,
  phaseEndInductance,
} from '../../../core/space/inductance/endInductance.ts';
import { filamentOf } from '../../../core/space/inductance/filaments.ts';
import { rectangleMeanDistance } from '../../../core/space/inductance/meanDistance.ts';
import { mutualInductance } from '../../../core/space/inductance/mutualInductance.ts';
import { linkGeometry } from '../../../core/space/links.ts';
import type { Space } from '../../../core/space/space.ts';
import type { Bar } from '../../../core/winding/model.ts';
import { examples } from '../../support/files.ts';
import { study } from '../../support/study.ts';
import { told } from '../../support/told.ts';
import { type JoinedInput, known, machineText, type Request, spaceInput } from '../machines.ts';
import { moved } from './moved.ts';

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

function inductances(
  space: Space,
  { paths, winding }: JoinedInput,
  finer = 1,
  against: EndsAgainst = 'ends',
): Float64Array {
  return finished(endInductanceSteps(space, paths, winding.table.cells, against, finer));
}

const input = spaceInput(machineText(small));
const space = known(buildSpace(input));
const found = inductances(space, input);
const count = input.paths.length;

/** The text of the example whose name begins so. */
function exampleOf(start: string): string {
  return examples.find(({ name }) => name.startsWith(start))!.text;
}

/** Every bar end and piece with every other, one by one. */
function bruteForce(
  { bars, layers, links, slots, stack }: Space,
  { paths, winding: { table } }: JoinedInput,
  against: EndsAgainst,
): Float64Array {
  const matrix = new Float64Array(paths.length ** 2);
  const placeOf = ({ slot, layer }: Bar) => layer * slots + slot - 1;
  const owner = new Map(
    paths.flatMap((path, index) => path.bars.map((bar) => [placeOf(bar), index] as const)),
  );
  for (const side of ['connection', 'far'] as const) {
    const outwards = side === 'far' ? 1 : -1;
    const mirror = against === 'images' ? (outwards * stack) / 2 : null;
    const all = [
      ...bars.flatMap((bar) => {
        if (!bar) return [];
        const pieces = bar[side].pieces.filter(({ kind }) => kind !== 'lead');
        return [{ bar: bar.bar, turn: bar.turn, pieces, section: layers[bar.bar.layer]!.section }];
      }),
      ...links
        .filter((link) => link.side === side)
        .map(({ from, turn, pieces, section }) => ({ bar: from, turn, pieces, section })),
    ].map(({ bar, turn, pieces, section }) => ({
      line: moved(filamentOf(pieces), turn, null),
      other: moved(filamentOf(pieces), turn, mirror),
      sign: Math.sign(table.cells[placeOf(bar)]!) * outwards,
      path: owner.get(placeOf(bar))!,
      own: mirror === null ? rectangleMeanDistance(section.width, section.height) : 0,
    }));
    all.forEach((a, index) => {
      for (const b of all.slice(index)) {
        const value = a.sign * b.sign * mutualInductance(a.line, b.other, a === b ? a.own : 0);
        matrix[a.path * paths.length + b.path]! += value;
        if (a !== b) matrix[b.path * paths.length + a.path]! += value;
      }
    });
  }
  return matrix;
}

describe('inductances of the end windings', () => {
  it.each([
    ['hairpins', machineText(small), 0, 1e-9],
    ['leaning bars', machineText({ ...small, form: 'straight', lean: [0.5, -0.5] }), 0, 1e-9],
    // Its ends run into each other: there it counts whose integral is the closed one.
    ['ends of many makes, and pieces', exampleOf('broken-unequal-paths'), 6, 1e-4],
  ])(
    'by runs of pieces that makes of ends share are those of every end with every other: %s',
    (_, text, links, tolerance) => {
      const own = spaceInput(text);
      const built = known(buildSpace(own));
      expect(built.links).toHaveLength(links);
      for (const against of ['ends', 'images'] as const) {
        const plain = bruteForce(built, own, against);
        const largest = Math.max(...plain.map(Math.abs));
        inductances(built, own, 1, against).forEach((value, entry) => {
          expect(Math.abs(value - plain[entry]!) / largest).toBeLessThan(tolerance);
        });
      }
    },
  );

  it('are those of a plain double sum over points of the center lines', () => {
    // Second method: no closed integral, no segments, no classes; points 0.4 mm apart stand for the copper beside them.
    const cells = input.winding.table.cells;
    const owner = new Map(
      input.paths.flatMap(({ bars }, path) =>
        bars.map(({ slot, layer }) => [layer * input.winding.slots + slot - 1, path] as const),
      ),
    );
    // One end of each make against all others; the winding repeats itself every slot but for who carries what.
    const side = 'far';
    const ends = space.bars.flatMap((bar, place) => {
      if (!bar) return [];
      const points = bar[side].pieces.flatMap(({ curve, length }) => {
        const steps = Math.max(1, Math.ceil(length / 4e-4));
        return Array.from({ length: steps }, (_, at) => {
          const { point, tangent } = stationAt(curve, (at + 0.5) / steps, bar.turn);
          // Steps along the radius are not even in length; the ones between two points are.
          const [a, b] = [
            stationAt(curve, at / steps, bar.turn),
            stationAt(curve, (at + 1) / steps, bar.turn),
          ];
          const step = Math.hypot(...a.point.map((value, axis) => b.point[axis]! - value));
          return { point, tangent, step };
        });
      });
      const { section } = space.layers[bar.bar.layer]!;
      return [{ place, points, own: rectangleMeanDistance(section.width, section.height) }];
    });
    const doubleSum = (a: (typeof ends)[number], b: (typeof ends)[number]) => {
      const apart = a === b ? a.own : 0;
      let sum = 0;
      for (const one of a.points)
        for (const other of b.points) {
          const distance = Math.hypot(
            one.point[0] - other.point[0],
            one.point[1] - other.point[1],
            one.point[2] - other.point[2],
            apart,
          );
          const along =
            one.tangent[0] * other.tangent[0] +
            one.tangent[1] * other.tangent[1] +
            one.tangent[2] * other.tangent[2];
          if (distance > 0) sum += (along * one.step * other.step) / distance;
        }
      return 1e-7 * sum;
    };
    const [first] = ends;
    const line = (end: (typeof ends)[number]) => {
      const bar = space.bars[end.place]!;
      return moved(filamentOf(bar[side].pieces), bar.turn, null);
    };
    const links = (of: (b: (typeof ends)[number]) => number) =>
      ends.reduce((sum, b) => {
        const sense = Math.sign(cells[b.place]!) * (owner.get(b.place) === owner.get(first!.place) ? 1 : 0);
        return sum + sense * of(b);
      }, 0);
    const plain = links((b) => doubleSum(first!, b));
    const computed = links((b) => mutualInductance(line(first!), line(b), b === first ? b.own : 0));
    expect(Math.abs(computed / plain - 1)).toBeLessThan(5e-3);
  });

  it('are a symmetric positive matrix', () => {
    // Cholesky: every pivot positive.
    const lower = Array.from({ length: count }, () => new Float64Array(count));
    for (let i = 0; i < count; i++)
      for (let j = 0; j <= i; j++) {
        expect(found[i * count + j]).toBe(found[j * count + i]);
        let sum = found[i * count + j]!;
        for (let k = 0; k < j; k++) sum -= lower[i]![k]! * lower[j]![k]!;
        if (i === j) expect(sum).toBeGreaterThan(0);
        lower[i]![j] = i === j ? Math.sqrt(sum) : sum / lower[j]![j]!;
      }
  });

  it('change by less than 0.3 % with segments half as long', () => {
    const of = (ends: Float64Array) =>
      phaseEndInductance(
        ends,
        input.paths.map(({ phase }) => phase),
        input.winding.phases.axes,
      ).phase;
    expect(of(inductances(space, input, 2)) / of(found)).toBeCloseTo(1, 2);
    expect(Math.abs(of(inductances(space, input, 2)) / of(found) - 1)).toBeLessThan(3e-3);
  });

  it('of a phase are changed by a part of themselves by images in the faces of the stack', () => {
    const ofPhase = (ends: Float64Array) =>
      phaseEndInductance(
        ends,
        input.paths.map(({ phase: of }) => of),
        input.winding.phases.axes,
      );
    const { phase, matrix } = ofPhase(found);
    const images = Math.abs(ofPhase(inductances(space, input, 1, 'images')).phase);
    expect(images / phase).toBeGreaterThan(0.001);
    expect(images / phase).toBeLessThan(0.5);
    expect(matrix).toHaveLength(3);
    // Alike phases: own flux less that of a neighbor.
    expect(phase / (matrix[0]![0]! - matrix[0]![1]!)).toBeCloseTo(1, 1);
  });

  it('are numbers where a connecting piece has risers of no length', () => {
    // Rounding alone leaves something of the risers above feet that stand just as high as the corners reach.
    const foot = (angle: number) => ({ angle, radius: 0.1, height: 0.02 });
    const at = { side: 1, stack: 0.1 } as const;
    const { pieces } = linkGeometry(at, foot(0), foot(0.3), 0.02 + 0.01 + 1e-13, 0.01);
    expect(Math.min(...pieces.map(({ length }) => length))).toBeLessThan(1e-9);
    const { chords, parts, nodes } = filamentOf(pieces);
    for (const numbers of [chords, parts, nodes])
      for (const value of numbers) expect(value).toSatisfy(Number.isFinite);
  });

  it('of a hairpin stator are those computed before with other code, which left the ends of paths out', () => {
    // 48 x 4 hairpins: 2.399, 2.363, 2.326 uH in air and with either image by other code, with its own bends and chords
    // (from memory; of crossed bars it had 2.676, 2.899, 3.123 uH, and these have 2.698, 2.919, 3.141). It counted no
    // current in the legs of path ends; they are bent like their ring up to their tips, 12 of 192 ends, without the
    // leg of a joint beside them that carries the current back, and make 5 to 7 %.
    const text = readFileSync('test/bench/stator.winding', 'utf8');
    const own = spaceInput(text);
    const whole = known(buildSpace(own));
    const ofPhase = (of: Space, against: EndsAgainst = 'ends') =>
      phaseEndInductance(
        inductances(of, own, 1, against),
        own.paths.map(({ phase }) => phase),
        own.winding.phases.axes,
      );
    const kept = whole.ends.map((end) =>
      end.use === 'lead' || end.use === 'star' ? { ...end, pieces: [] } : end,
    );
    const withoutEnds: Space = {
      ...whole,
      bars: whole.bars.map(
        (bar) => bar && { ...bar, connection: kept[bar.connection.index]!, far: kept[bar.far.index]! },
      ),
    };
    const without = ofPhase(withoutEnds);
    expect(Math.abs(without.phase / 2.363e-6 - 1)).toBeLessThan(0.02);
    expect(Math.abs(ofPhase(withoutEnds, 'images').phase)).toBeCloseTo(0.0365e-6, 8);
    const { phase } = ofPhase(whole);
    expect(phase / without.phase).toBeGreaterThan(1.04);
    expect(phase / without.phase).toBeLessThan(1.08);
  });

  it('join the synchronous inductance, the report and a limit', () => {
    const text = exampleOf('harbor');
    const limited = text.replace('require {', 'require {\n  end-inductance <= 1 uH');
    const { report, limits, facts } = study(limited);
    const { space: reported } = report();
    const { phase, low, high } = reported!.endInductance!;
    // As above, with steeper legs, longer straights and special crowns.
    expect(phase! * 1e6).toBeGreaterThan(1.8);
    expect(phase! * 1e6).toBeLessThan(3.5);
    expect(low!).toBeLessThan(high!);
    expect(limits.find(({ quantity }) => quantity === 'end-inductance')).toMatchObject({
      met: false,
      actual: phase,
    });
    const { inductance } = told('operation', facts!.operation());
    expect(inductance.end).toBe(phase);
    expect(inductance.d).toBeCloseTo(
      inductance.magnetizing! + inductance.differential! + inductance.slot! + phase!,
      12,
    );
  });
});
