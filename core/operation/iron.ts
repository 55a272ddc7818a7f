import { gapDiameter, gapSides, machineValue } from '../analysis/machineInputs.ts';
import { allOf, assuming, derive, deriveFigure, type Figure, known, missing } from '../figures/figure.ts';
import type { Range } from '../language/finding.ts';
import { valueOrDefault } from '../language/specification/defaults.ts';
import type { Specification } from '../language/specification/specification.ts';
import { machineStatements } from '../language/vocabulary/blocks/machine.ts';
import { slotLength, slotRows } from '../sizes/slotRows.ts';
import type { Winding } from '../winding/model.ts';
import type { OperationBasis } from './operation.ts';
import { axisCurrent } from './phasors.ts';

/** Peak flux densities of the fundamental in one part of the iron, T. */
export interface PartDensities {
  /** Of the rotor's field alone. */
  readonly noLoad: Figure<number>;
  /** At the rated point. */
  readonly load: Figure<number>;
}

/** Flux densities of the stator iron. */
export interface IronResult {
  readonly tooth: PartDensities;
  /** Null between two gaps, where there is none, unless the text gives its height. */
  readonly yoke: PartDensities | null;
}

/** Iron that carries more than common practice has it, as data. */
export interface IronProblem {
  readonly kind: 'tooth' | 'yoke';
  readonly range: Range;
  /** Peak, T. */
  readonly density: number;
  /** Above which it is told, T. */
  readonly most: number;
}

/** Peaks above which iron saturates as a rule (common practice), T. */
const most = { tooth: 2.0, yoke: 1.7 };

interface IronInput {
  readonly specification: Specification;
  readonly winding: Winding;
  readonly basis: OperationBasis;
  /** H of a phase. */
  readonly magnetizing: Figure<number>;
}

/** Peak flux densities in teeth and yoke, without load and at the rated point. */
export function iron({ specification, winding, basis, magnetizing }: IronInput): IronResult {
  const rise = loadRise(basis, magnetizing);
  const tooth = toothDensity(specification, winding);
  const yoke = yokeDensity(specification);
  const densities = (noLoad: Figure<number>) => ({
    noLoad,
    load: derive({ noLoad, rise }, (given) => given.noLoad * given.rise),
  });
  const betweenGaps =
    valueOrDefault(machineStatements, specification.machine, 'gap') === 'both' &&
    !specification.machine?.yokeHeight;
  return { tooth: densities(tooth), yoke: betweenGaps ? null : densities(yoke) };
}

/** By what factor the armature's field raises that of the rotor: |E + j w Lm I|/E, at any speed. */
function loadRise(basis: OperationBasis, magnetizing: Figure<number>): Figure<number> {
  const { linkage, current, angle } = basis;
  return derive({ linkage, current, angle, magnetizing }, (given) => {
    const { d, q } = axisCurrent(given.current, given.angle);
    return Math.hypot(given.linkage + given.magnetizing * d, given.magnetizing * q) / given.linkage;
  });
}

/**
 * Peak at the narrowest place of a tooth, B tau/(width x stack factor): the flux of a slot pitch at the crest
 * of the fundamental, pi p Phi/Q, through tooth width and iron length.
 */
function toothDensity(specification: Specification, winding: Winding): Figure<number> {
  return derive(
    {
      flux: machineValue(specification, 'flux'),
      stack: machineValue(specification, 'stack'),
      width: toothWidth(specification, winding),
      factor: machineValue(specification, 'stackFactor'),
    },
    ({ flux, stack, width, factor }) =>
      (Math.PI * winding.polePairs * flux) / (winding.slots * stack * width * factor),
  );
}

/** Width of a tooth at its narrowest place, between slots of parallel sides: at the inner end of a slot row, m. */
function toothWidth(specification: Specification, winding: Winding): Figure<number> {
  return deriveFigure(
    { rows: slotRows(specification, winding), sides: gapSides(specification) },
    ({ rows, sides }) => {
      const outside = !sides.includes('inner');
      const first = outside ? rows.at(-1)! : rows[0]!;
      return deriveFigure(
        {
          diameter: gapDiameter(specification, outside ? 'outer' : 'inner'),
          opening: slotLength(first, 'openingHeight'),
          // The depths that lie between the gap and the inner ends; the outermost matters from outside alone.
          depths: allOf((outside ? rows : rows.slice(0, -1)).map((row) => slotLength(row, 'depth'))),
          widths: allOf(rows.map((row) => slotLength(row, 'width'))),
        },
        ({ diameter, opening, depths, widths }) => {
          const total = depths.reduce((sum, depth) => sum + depth, 0);
          let inner = outside ? diameter / 2 - opening - total : diameter / 2 + opening;
          let narrowest = Number.POSITIVE_INFINITY;
          widths.forEach((width, row) => {
            narrowest = Math.min(narrowest, (2 * Math.PI * inner) / winding.slots - width);
            inner += depths[row] ?? 0;
          });
          return narrowest > 0 ? known(narrowest) : missing('slots narrower than the slot pitch');
        },
      );
    },
  );
}

const oneYoke = 'yoke: half the flux of a pole to either side, evenly over its height';

/** Peak in the yoke, Phi/(2 height x stack x stack factor). */
function yokeDensity(specification: Specification): Figure<number> {
  return assuming(
    derive(
      {
        flux: machineValue(specification, 'flux'),
        stack: machineValue(specification, 'stack'),
        height: machineValue(specification, 'yokeHeight'),
        factor: machineValue(specification, 'stackFactor'),
      },
      ({ flux, stack, height, factor }) => flux / (2 * height * stack * factor),
    ),
    oneYoke,
  );
}

/** What the larger of no load and load is too much for. */
export function ironProblems(specification: Specification, figures: IronResult): readonly IronProblem[] {
  const flux = specification.machine?.flux?.statement;
  if (!flux) return [];
  return (['tooth', 'yoke'] as const).flatMap((kind) => {
    const part = figures[kind];
    const density = part && largerDensity(part);
    if (!density?.known || density.value <= most[kind]) return [];
    return [{ kind, range: flux, density: density.value, most: most[kind] }];
  });
}

/** The larger of no load and load, T; that without load where the rated point is not known. */
export function largerDensity({ noLoad, load }: PartDensities): Figure<number> {
  return load.known ? derive({ noLoad, load }, (given) => Math.max(given.noLoad, given.load)) : noLoad;
}
