import { type Piece, pieceLevels } from '../balance/jumpers.ts';
import { voltagesBetweenBars } from '../balance/potentials.ts';
import { coveringArc } from '../winding/coveringArc.ts';
import { type BarForm, barShapes, legApart } from '../winding/joints/bars.ts';
import type { Bends } from '../winding/joints/bends.ts';
import { connectionsOf } from '../winding/joints/joints.ts';
import type { TipSizes } from '../winding/joints/tips.ts';
import type { EndSide, Path, Winding } from '../winding/model.ts';
import { routedKind, shapeOf } from './jointKind.ts';
import { type PhaseConnection, pathsOfPhase } from './phases.ts';
import { strandTips } from './tips.ts';
import type { Strand } from './units/units.ts';
import { foldSlot } from './units/units.ts';

/** Special joints, jumpers among them, and shapes of special joints, of one phase. */
export interface RouteCounts {
  readonly specialJoints: number;
  readonly jumpers: number;
  readonly jointShapes: number;
}

/** What routings of one phase are ranked by. */
export interface RouteMeasure extends RouteCounts {
  /** Smallest distance between neighboring joint tips of all phases, in slots; the bore without any. */
  readonly tipGap: number;
  /** Pairs of bars, in all phases, whose legs run through each other's joints however they are bent. */
  readonly crossings: number;
  /** Path ends and ends below connecting pieces, in all phases, for which joint tips leave no place. */
  readonly lostEnds: number;
  /**
   * Pairs of ends, pieces and rings, in all phases, that run into each other; 0 where that was not looked for, as it
   * is not while a connection is searched for.
   */
  readonly colliding: number;
  /** Pairs of them that come nearer to each other than asked for; 0 likewise. */
  readonly close: number;
  /** Smallest arc, in slots, that holds the first bars of all paths of the phase. */
  readonly startWindow: number;
  /** Levels of the connecting pieces of all phases. */
  readonly levels: number;
  /** Legs of the phase's joints that are bent by another amount than their ring. */
  readonly legsBentApart: number;
  /** Slots that all joints reach over. */
  readonly reach: number;
  /** Shapes of the phase's bars; 0 where nothing asks for them. */
  readonly barShapes: number;
  /** Largest voltage between neighboring bars of a slot over the phase voltage; 0 where nothing asks for it. */
  readonly voltageInSlot: number;
  /** Largest voltage between neighboring bar ends of a layer, likewise. */
  readonly voltageBetweenSlots: number;
}

/** What may be wished for of a connection. */
export const routeWishes = [
  'pieces',
  'levels',
  'shapes',
  'joints',
  'bar-shapes',
  'legs-apart',
  'voltage',
  'copper',
  'window',
] as const;

export type RouteWish = (typeof routeWishes)[number];

/** Quantities whose limits steer the search. */
export const limitedQuantities = [
  'jumpers',
  'special-joints',
  'joint-shapes',
  'bar-shapes',
  'legs-bent-apart',
  'voltage-in-slot',
  'voltage-between-slots',
] as const;

/** The most that a connection may have of a quantity, in its own unit; counts are those of one phase. */
export interface RouteLimit {
  readonly quantity: (typeof limitedQuantities)[number];
  /** A count, or for voltages a share of the phase voltage. */
  readonly most: number;
}

/** What counts where nothing is wished for, the most important first. */
const defaultOrder = ['pieces', 'levels', 'shapes', 'joints', 'tips', 'copper', 'window'] as const;

type Criterion = RouteWish | 'tips';

export interface RouteRanking {
  /** What was wished for; the default order fills up behind. */
  readonly wishes: readonly RouteWish[];
  /** A routing that meets them all goes before one that does not. */
  readonly limits: readonly RouteLimit[];
  /** What the search looks for first, so that limits be met. */
  readonly leading: readonly RouteWish[];
  /** Smallest distance between joint tips, in slots, with which they can be joined. */
  readonly leastTipGap: number;
}

/** The ranking that a search is asked for. */
export function rankingOf({
  wishes,
  limits,
  leastTipGap,
}: {
  readonly wishes?: readonly RouteWish[];
  readonly limits?: readonly RouteLimit[];
  readonly leastTipGap?: number;
}): RouteRanking {
  return { wishes: wishes ?? [], limits: limits ?? [], leading: [], leastTipGap: leastTipGap ?? 0 };
}

/** Everything that counts, the most important first. */
export function rankingOrder({ wishes }: Pick<RouteRanking, 'wishes'>): readonly Criterion[] {
  return [...wishes, ...defaultOrder.filter((each) => !wishes.some((wish) => wish === each))];
}

/** What the search looks for: what limits need, then all that counts. */
export function searchedFor({ wishes, leading }: RouteRanking): readonly RouteWish[] {
  return [...leading, ...wishes.filter((wish) => !leading.includes(wish))];
}

/** Whether the number of special joints is looked for before connecting pieces and shapes. */
export function jointsFirst(ranking: RouteRanking): boolean {
  const order = rankingOrder({ wishes: searchedFor(ranking) });
  return order.indexOf('joints') < Math.min(order.indexOf('pieces'), order.indexOf('shapes'));
}

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
  const { winding, bends, shifts, form, tipSizes } = measuring;
  const { barShapes, voltages } = asked(measuring);
  // Crowns stand above each other where they reach over each other; only joints have tips.
  const jointed: readonly EndSide[] = form === 'straight' ? ['connection', 'far'] : ['connection'];
  const tips = jointed.map((side) => strandTips(winding, bends, strands, shifts, side, tipSizes[side]));
  return {
    ...leastMeasure(measuring, strands),
    tipGap: Math.min(...tips.map(({ gap }) => gap)),
    crossings: tips.reduce((sum, { crossings }) => sum + crossings, 0),
    lostEnds: tips.reduce((sum, { lostEnds }) => sum + lostEnds, 0),
    barShapes: barShapes ? shapesOfBars(measuring, strands) : 0,
    ...(voltages ? voltagesOf(measuring, strands) : { voltageInSlot: 0, voltageBetweenSlots: 0 }),
  };
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

type TipMeasure = Pick<RouteMeasure, 'tipGap' | 'crossings' | 'lostEnds' | 'colliding'>;

/**
 * Whether joint tips lie far enough apart to be joined, no leg runs through another's joint, all ends have a place, and
 * nothing is known to collide.
 */
export function tipsFit(measure: TipMeasure, { leastTipGap }: Pick<RouteRanking, 'leastTipGap'>): boolean {
  const { tipGap, crossings, lostEnds, colliding } = measure;
  return crossings + lostEnds + colliding === 0 && tipGap > rounding && tipGap >= leastTipGap - rounding;
}

// Distances between tips are multiples of half a slot, but for leaning bars.
const rounding = 1e-6;

/** How much of a limited quantity a routing has. */
export function limitedAmount(measure: RouteMeasure, quantity: RouteLimit['quantity']): number {
  switch (quantity) {
    case 'jumpers':
      return measure.jumpers;
    case 'special-joints':
      return measure.specialJoints;
    case 'joint-shapes':
      return measure.jointShapes;
    case 'bar-shapes':
      return measure.barShapes;
    case 'legs-bent-apart':
      return measure.legsBentApart;
    case 'voltage-in-slot':
      return measure.voltageInSlot;
    case 'voltage-between-slots':
      return measure.voltageBetweenSlots;
  }
}

/** What a search has to look for so that a limit be met; null where nothing leads there. */
export function wishFor({ quantity }: RouteLimit): RouteWish | null {
  switch (quantity) {
    case 'jumpers':
      return 'pieces';
    case 'special-joints':
      return 'joints';
    case 'joint-shapes':
      return 'shapes';
    case 'bar-shapes':
      return 'bar-shapes';
    case 'legs-bent-apart':
      return 'legs-apart';
    case 'voltage-in-slot':
      return 'voltage';
    case 'voltage-between-slots':
      return null;
  }
}

/** Whether a limit holds; rounding in the last digits never fails one. */
export function meetsLimit(measure: RouteMeasure, { quantity, most }: RouteLimit): boolean {
  return limitedAmount(measure, quantity) <= most + rounding;
}

/** How far limits are exceeded in all, each as a share of what it allows, at least of 1; 0 where all hold. */
export function limitExcess(measure: RouteMeasure, limits: readonly RouteLimit[]): number {
  return excessOf(limits, (quantity) => limitedAmount(measure, quantity));
}

/** The same by amounts, of which some may not be known (null): these count as met. */
export function excessOf(
  limits: readonly RouteLimit[],
  amount: (quantity: RouteLimit['quantity']) => number | null,
): number {
  return limits.reduce((sum, { quantity, most }) => {
    const over = (amount(quantity) ?? most) - most;
    return over <= rounding ? sum : sum + over / Math.max(1, most);
  }, 0);
}

/** 2 for what can be built, 1 where only pieces or leads collide, 0 where joint tips do not fit. */
function fitness(measure: RouteMeasure, ranking: Pick<RouteRanking, 'leastTipGap'>): number {
  if (tipsFit(measure, ranking)) return 2;
  return measure.colliding > 0 && tipsFit({ ...measure, colliding: 0 }, ranking) ? 1 : 0;
}

/**
 * Negative when a is the better routing: first that its tips can be joined at all and no legs cross, and that
 * nothing is known to collide, then that it meets the limits, then what was wished for, then the default order, in which a full slot between
 * tips stands after the counts.
 */
export function compareMeasures(a: RouteMeasure, b: RouteMeasure, ranking: RouteRanking): number {
  const fit = fitness(b, ranking) - fitness(a, ranking);
  if (fit !== 0) return fit;
  const excess = limitExcess(a, ranking.limits) - limitExcess(b, ranking.limits);
  if (Math.abs(excess) > rounding) return excess;
  for (const criterion of rankingOrder(ranking)) {
    const rough = criterion === 'copper' && !ranking.wishes.includes('copper');
    const difference = rough
      ? roughly(a.reach) - roughly(b.reach)
      : amountOf(a, criterion) - amountOf(b, criterion);
    if (Math.abs(difference) > rounding) return difference;
  }
  return 0;
}

/** Unless copper is wished for, lengths within some two percent count as equal: a slot more decides nothing. */
function roughly(reach: number): number {
  return Math.round(Math.log(Math.max(1, reach)) * 50);
}

function tipTroubles({ crossings, lostEnds, colliding, close }: RouteMeasure): number {
  return crossings + lostEnds + colliding + close;
}

/** How much of a criterion a routing has: the less the better. */
export function amountOf(measure: RouteMeasure, criterion: Criterion): number {
  switch (criterion) {
    case 'pieces':
      return measure.jumpers;
    case 'levels':
      return measure.levels;
    case 'shapes':
      return measure.jointShapes;
    case 'joints':
      return measure.specialJoints;
    case 'bar-shapes':
      return measure.barShapes;
    case 'legs-apart':
      return measure.legsBentApart;
    case 'voltage':
      return measure.voltageInSlot;
    case 'copper':
      return measure.reach;
    case 'window':
      return measure.startWindow;
    case 'tips':
      return tipTroubles(measure) - Math.min(1, measure.tipGap);
  }
}
