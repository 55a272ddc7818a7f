import type { Piece } from '../balance/pieceArc.ts';
import { pieceLevels } from '../balance/pieceLevels.ts';
import { voltagesBetweenBars } from '../balance/potentials.ts';
import { coveringArc } from '../winding/coveringArc.ts';
import { type BarForm, barShapes, legApart } from '../winding/joints/bars.ts';
import type { Bends } from '../winding/joints/bends.ts';
import { connectionsOf } from '../winding/joints/joints.ts';
import { type TipSizes, withoutSizes } from '../winding/joints/tips.ts';
import type { EndSide, Path, Winding } from '../winding/model.ts';
import { routedKind, shapeOf } from './jointKind.ts';
import { type PhaseConnection, pathsOfPhase } from './phases.ts';
import type { RouteOptions } from './question.ts';
import type { RouteCounts, RouteLimit, RouteMeasure, RouteWish } from './ranking.ts';
import { strandTips } from './tips.ts';
import type { Strand } from './units/units.ts';
import { foldSlot } from './units/units.ts';

/** How strands of one phase are measured: laid once for each of `shifts`, in slots. */
export interface Measuring {
  readonly winding: Winding;
  readonly bends: Bends;
  /** One for each phase that is routed alike. */
  readonly shifts: readonly number[];
  readonly form: BarForm;
  readonly connection: PhaseConnection;
  readonly wishes: readonly RouteWish[];
  readonly limits: readonly RouteLimit[];
  /** What is known of the bar ends of each side. */
  readonly tipSizes: Readonly<Record<EndSide, TipSizes>>;
}

/** How connections are measured by what the router is asked, laid once for each of `shifts`, for these wishes and limits. */
export function measuringOf(
  winding: Winding,
  bends: Bends,
  options: RouteOptions,
  shifts: readonly number[],
  { wishes, limits }: Pick<Measuring, 'wishes' | 'limits'>,
): Measuring {
  return {
    winding,
    bends,
    shifts,
    form: options.form ?? 'hairpin',
    connection: options.connection ?? 'star',
    wishes,
    limits,
    tipSizes: options.tipSizes ?? { connection: withoutSizes, far: withoutSizes },
  };
}

/** What takes long to measure and is left out where nothing asks for it. */
function asked({ wishes, limits }: Pick<Measuring, 'wishes' | 'limits'>) {
  const limited = (quantity: RouteLimit['quantity']) => limits.some((limit) => limit.quantity === quantity);
  return {
    barShapes: wishes.includes('bar-shapes') || limited('bar-shapes'),
    voltages: wishes.includes('voltage') || limited('voltage-in-slot') || limited('voltage-between-slots'),
  };
}

/** Measures the strands of a phase. */
export function measureStrands(measuring: Measuring, strands: readonly Strand[]): RouteMeasure {
  const { barShapes, voltages } = asked(measuring);
  return {
    ...leastMeasure(measuring, strands),
    ...measureTips(measuring, strands),
    barShapes: barShapes ? shapesOfBars(measuring, strands) : 0,
    ...(voltages ? voltagesOf(measuring, strands) : { voltageInSlot: 0, voltageBetweenSlots: 0 }),
  };
}

type TipMeasure = Pick<RouteMeasure, 'tipGap' | 'crossings' | 'lostEnds'>;

/** Measures the joint tips of strands, which alone take the sizes of bar ends. */
export function measureTips(
  { winding, bends, shifts, form, tipSizes }: Measuring,
  strands: readonly Strand[],
): TipMeasure {
  // Crowns stand above each other where they reach over each other; only joints have tips.
  const jointed: readonly EndSide[] = form === 'straight' ? ['connection', 'far'] : ['connection'];
  const tips = jointed.map((side) =>
    strandTips({ winding, bends, side, sizes: tipSizes[side] }, strands, shifts),
  );
  return {
    tipGap: Math.min(...tips.map(({ gap }) => gap)),
    crossings: tips.reduce((sum, { crossings }) => sum + crossings, 0),
    lostEnds: tips.reduce((sum, { lostEnds }) => sum + lostEnds, 0),
  };
}

/** Strands that were measured. */
export interface MeasuredTips {
  readonly measuring: Measuring;
  readonly strands: readonly Strand[];
  readonly measured: TipMeasure;
}

/**
 * What strands of a phase have of all that is quickly counted; of joint tips, bar shapes and voltages, which take
 * long to find, the best that there can be.
 */
export function leastMeasure(
  { winding, bends, shifts }: Pick<Measuring, 'winding' | 'bends' | 'shifts'>,
  strands: readonly Strand[],
): RouteMeasure {
  return {
    ...countStrands(winding, bends, strands),
    tipGap: winding.slots,
    crossings: 0,
    lostEnds: 0,
    colliding: 0,
    close: 0,
    startWindow: coveringArc(
      strands.map((strand) => strand.bars[0]!.slot),
      winding.slots,
    ),
    levels: levelsOf(winding, bends, strands, shifts),
    barShapes: 0,
    voltageInSlot: 0,
    voltageBetweenSlots: 0,
  };
}

/** What measuring costs, in search nodes: voltages and bar shapes take long. */
export function measureNodes(measuring: Pick<Measuring, 'wishes' | 'limits'>): number {
  const { barShapes, voltages } = asked(measuring);
  return barShapes || voltages ? 1000 : 300;
}

/** Joints of strands with their sides. */
function* jointsOf(strands: readonly Strand[]) {
  for (const { bars, spans } of strands) {
    for (let index = 0; index < spans.length; index++) {
      const side: EndSide = index % 2 === 0 ? 'far' : 'connection';
      yield { side, from: bars[index]!, to: bars[index + 1]!, span: spans[index]! };
    }
  }
}

type Sums = RouteCounts & Pick<RouteMeasure, 'legsBentApart' | 'reach'>;

function countStrands(winding: Winding, bends: Bends, strands: readonly Strand[]): Sums {
  let specialJoints = 0;
  let jumpers = 0;
  let legsBentApart = 0;
  let reach = 0;
  const shapes = new Set<number>();
  for (const { side, from, to, span } of jointsOf(strands)) {
    const kind = routedKind(winding, bends, { side, from, to, span });
    reach += Math.abs(span);
    if (kind === 'regular') continue;
    specialJoints++;
    shapes.add(shapeOf(side, from.layer, to.layer, span));
    if (kind === 'jumper') jumpers++;
    else if (side === 'connection')
      legsBentApart += legApart(bends, from.layer, span) + legApart(bends, to.layer, -span);
  }
  return { specialJoints, jumpers, jointShapes: shapes.size, legsBentApart, reach };
}

function levelsOf(
  winding: Winding,
  bends: Bends,
  strands: readonly Strand[],
  shifts: readonly number[],
): number {
  const pieces: Piece[] = [];
  const turned = (bar: { slot: number; layer: number }, shift: number) => ({
    slot: foldSlot(bar.slot + shift, winding.slots),
    layer: bar.layer,
  });
  for (const joint of jointsOf(strands)) {
    if (routedKind(winding, bends, joint) !== 'jumper') continue;
    for (const shift of shifts)
      pieces.push({
        ...joint,
        number: pieces.length + 1,
        from: turned(joint.from, shift),
        to: turned(joint.to, shift),
      });
  }
  return pieces.length > 0 ? pieceLevels(winding.slots, pieces).highest : 0;
}

function shapesOfBars({ winding, bends, form, connection }: Measuring, strands: readonly Strand[]): number {
  const paths = pathsOfPhase(winding, bends, 0, strands, 0, connection);
  return barShapes(paths, connectionsOf(winding, paths, bends), form).length;
}

function voltagesOf(
  measuring: Measuring,
  strands: readonly Strand[],
): Pick<RouteMeasure, 'voltageInSlot' | 'voltageBetweenSlots'> {
  const { winding, connection } = measuring;
  const reference = connection === 'delta' || connection === 'open' ? connection : 'star';
  const gaps = voltagesBetweenBars(winding, laidPaths(measuring, strands), reference);
  return {
    voltageInSlot: gaps?.inSlot?.value ?? 0,
    voltageBetweenSlots: gaps?.betweenSlots?.value ?? 0,
  };
}

/** The paths of all phases that are routed alike, of the strands of the first. */
export function laidPaths(
  { winding, bends, shifts, connection }: Measuring,
  strands: readonly Strand[],
): Path[] {
  return shifts.flatMap((shift, phase) => pathsOfPhase(winding, bends, phase, strands, shift, connection));
}

/** The strands of the first phase. */
export function firstStrands(paths: readonly Path[]): readonly Strand[] {
  return paths.filter(({ phase }) => phase === 0).map(({ bars, spans }) => ({ bars, spans }));
}
