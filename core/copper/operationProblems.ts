import { gapDiameter, gapSides, machineValue } from '../analysis/machineInputs.ts';
import { derive, type Figure, orNull } from '../figures/figure.ts';
import type { Range } from '../language/finding.ts';
import type { Specification } from '../language/specification/specification.ts';
import { roomToTheAxis, slotRows } from '../sizes/slotRows.ts';
import type { Winding } from '../winding/model.ts';
import type { BarHeatFigures } from './heat/hottestBar.ts';
import { noSteadyTemperature } from './heat/hottestBar.ts';

/** What is wrong with slots at the gap and with the load of the bars, as data; SI units. */
export type OperationProblem = { readonly range: Range } & (
  | {
      readonly kind: 'opening-too-wide';
      /** Along the gap, m. */
      readonly opening: number;
      readonly most: number;
      readonly what: 'slot' | 'slot pitch';
    }
  | { readonly kind: 'slots-beyond-axis'; readonly depth: number; readonly radius: number }
  | { readonly kind: 'current-density-high'; readonly density: number; readonly most: number }
  | { readonly kind: 'no-steady-temperature' }
  | {
      /** Mean and highest temperature of the hottest bar, and the winding temperature, degC. */
      readonly kind: 'bars-hotter-than-winding';
      readonly mean: number;
      readonly hotSpot: number;
      readonly assumed: number;
    }
);

/** Above this bars can be cooled for a short time only (common practice), A/m2. */
const highestCurrentDensity = 30e6;

interface Loaded {
  readonly radii: Figure<readonly number[]>;
  readonly heat: Figure<BarHeatFigures>;
  readonly currentDensity: Figure<number>;
}

/** Problems of the slot at the gap, then of the load. */
export function operationProblems(
  specification: Specification,
  winding: Winding,
  { radii, heat, currentDensity }: Loaded,
): readonly OperationProblem[] {
  return [
    ...openingProblems(specification, winding),
    ...axisProblems(specification, winding, radii),
    ...densityProblems(specification, currentDensity),
    ...heatProblems(specification, heat),
  ];
}

function openingProblems(specification: Specification, winding: Winding): OperationProblem[] {
  const rows = orNull(slotRows(specification, winding)) ?? [];
  const sides = orNull(gapSides(specification)) ?? [];
  const blocks = new Set(
    sides.map((side) => (side === 'inner' ? rows[0]?.slot : rows.at(-1)?.slot)).filter(Boolean),
  );
  return [...blocks].flatMap((slot): OperationProblem[] => {
    if (!slot?.opening) return [];
    const opening = slot.opening.value;
    const range = slot.opening.statement;
    const width = slot.width?.value;
    if (width !== undefined && opening > width)
      return [{ kind: 'opening-too-wide', range, opening, most: width, what: 'slot' }];
    const diameters = sides.flatMap((side) => orNull(gapDiameter(specification, side)) ?? []);
    const pitch = (Math.PI * Math.min(...diameters)) / winding.slots;
    return opening >= pitch
      ? [{ kind: 'opening-too-wide', range, opening, most: pitch, what: 'slot pitch' }]
      : [];
  });
}

/** Slots of an outer gap that leave nothing round the axis. */
function axisProblems(
  specification: Specification,
  winding: Winding,
  radii: Figure<readonly number[]>,
): OperationProblem[] {
  if (radii.known || !radii.needs.includes(roomToTheAxis)) return [];
  const rows = orNull(slotRows(specification, winding)) ?? [];
  const depths = rows.flatMap(({ slot }) => (slot?.depth ? [slot.depth] : []));
  const depth = depths.reduce((sum, { value }) => sum + value, 0);
  const radius = (orNull(gapDiameter(specification, 'outer')) ?? Number.POSITIVE_INFINITY) / 2;
  return depths[0] && depth >= radius
    ? [{ kind: 'slots-beyond-axis', range: depths[0].statement, depth, radius }]
    : [];
}

function densityProblems(specification: Specification, density: Figure<number>): OperationProblem[] {
  const range = specification.machine?.current?.statement;
  if (!range || !density.known || density.value <= highestCurrentDensity) return [];
  return [{ kind: 'current-density-high', range, density: density.value, most: highestCurrentDensity }];
}

function heatProblems(specification: Specification, heat: Figure<BarHeatFigures>): OperationProblem[] {
  const { current, windingTemperature } = specification.machine ?? {};
  if (!heat.known) {
    return current && heat.needs.includes(noSteadyTemperature)
      ? [{ kind: 'no-steady-temperature', range: current.statement }]
      : [];
  }
  const hotter = orNull(
    derive({ assumed: machineValue(specification, 'windingTemperature') }, ({ assumed }) => {
      const { mean, hotSpot } = heat.value;
      return mean > assumed + 1e-6 ? { mean, hotSpot, assumed } : null;
    }),
  );
  return hotter && windingTemperature
    ? [{ kind: 'bars-hotter-than-winding', range: windingTemperature.statement, ...hotter }]
    : [];
}
