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

export type Criterion = RouteWish | 'tips';

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
  readonly leastTipGap?: number | null;
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

/** What has to be measured where it is searched for, and ranked. */
export function measuredFor(ranking: RouteRanking): Pick<RouteRanking, 'wishes' | 'limits'> {
  return { wishes: searchedFor(ranking), limits: ranking.limits };
}

/** Whether the number of special joints is looked for before connecting pieces and shapes. */
export function jointsFirst(ranking: RouteRanking): boolean {
  const order = rankingOrder({ wishes: searchedFor(ranking) });
  return order.indexOf('joints') < Math.min(order.indexOf('pieces'), order.indexOf('shapes'));
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
function limitedAmount(measure: RouteMeasure, quantity: RouteLimit['quantity']): number {
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
export function wishFor({ quantity }: Pick<RouteLimit, 'quantity'>): RouteWish | null {
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

/** A limit that a connection exceeds, with what it has of the quantity. */
export interface ExceededLimit {
  readonly quantity: string;
  /** In its own unit. */
  readonly otherwise: number;
}

/** The limits that a routing exceeds; rounding in the last digits exceeds none. */
export function exceededLimits(
  measure: RouteMeasure,
  limits: readonly RouteLimit[],
): readonly (ExceededLimit & Pick<RouteLimit, 'quantity'>)[] {
  return limits
    .map(({ quantity, most }) => ({ quantity, most, otherwise: limitedAmount(measure, quantity) }))
    .filter(({ most, otherwise }) => otherwise > most + rounding)
    .map(({ quantity, otherwise }) => ({ quantity, otherwise }));
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
 * nothing is known to collide, then that it meets the limits, then what was wished for, then the default order, in
 * which a full slot between tips stands after the counts.
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

/** Whether a routing is the better one by limits, wishes and counts, whatever their tips, copper and starts. */
export function isSmaller(a: RouteMeasure, b: RouteMeasure, ranking: RouteRanking): boolean {
  const excess = limitExcess(a, ranking.limits) - limitExcess(b, ranking.limits);
  if (Math.abs(excess) > rounding) return excess < 0;
  const left = ['tips', 'copper', 'window'].filter((each) => !ranking.wishes.some((wish) => wish === each));
  for (const criterion of rankingOrder(ranking)) {
    const difference = left.includes(criterion) ? 0 : amountOf(a, criterion) - amountOf(b, criterion);
    if (Math.abs(difference) > rounding) return difference < 0;
  }
  return false;
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
