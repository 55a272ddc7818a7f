import { barsHeld, isForced, type LikeUnits } from '../../analysis/unitShares.ts';
import { greatestCommonDivisor, modulo } from '../../winding/integers.ts';
import type { Bends } from '../../winding/joints/bends.ts';
import type { Bar, Winding } from '../../winding/model.ts';
import { cellAt, phaseOfCell } from '../../winding/model.ts';
import { singleLayerCoils } from '../../winding/singleLayerCoils.ts';

/**
 * Two bars joined on the far side by a regular joint, walked from the + bar (go) to the - bar (back).
 * Routing only ever orders such units: sides and signs then come out right by themselves.
 */
export interface Unit {
  /** Index of the pair of layers it lies in, from 0. */
  readonly pair: number;
  /** Signed far-side span from go to back. */
  readonly span: number;
  readonly go: Bar;
  readonly back: Bar;
}

/** Bars of one path in order, with the signed spans between them. */
export interface Strand {
  readonly bars: readonly Bar[];
  /** From each bar to the next, in slots: positive towards higher ones. */
  readonly spans: readonly number[];
}

/** Which units of one phase are electrically alike, and what a balanced path must therefore hold. */
export interface Content {
  /** Paths must agree in every cell (electrical angle x layer), not only in angles and in layers. */
  readonly strict: boolean;
  /** Class of each unit: units of one class have bars at the same angles (strict: in the same layers). */
  readonly classes: readonly number[];
  /** Units of each class. */
  readonly classCounts: readonly number[];
  /** Units of each layer pair. */
  readonly pairCounts: readonly number[];
  /** Units of each class in each layer pair that has some. */
  readonly like: readonly LikeUnits[];
  /** Class of each of `like`. */
  readonly likeClasses: readonly number[];
  /** Whether what a balanced path holds of each class follows from its bars. */
  readonly forced: boolean;
}

/** Slot number folded into 1..slots. */
export function foldSlot(slot: number, slots: number): number {
  return modulo(slot - 1, slots) + 1;
}

/** The shorter signed way from one slot to another; at exactly half the bore the positive way. */
export function shortestSpan(from: number, to: number, slots: number): number {
  const forward = modulo(to - from, slots);
  return 2 * forward <= slots ? forward : forward - slots;
}

/**
 * The units of a phase: every + bar with the bar its regular far-side joint leads to. Null where some
 * bar has no partner, so that the phase cannot be covered by regular far-side joints.
 */
export function unitsOfPhase(winding: Winding, phase: number, bends: Bends): Unit[] | null {
  const paired = 2 * bends.far.length;
  const units: Unit[] = [];
  let bars = 0;
  for (let layer = 0; layer < paired; layer++) {
    for (let slot = 1; slot <= winding.slots; slot++) {
      const cell = cellAt(winding.table, slot, layer);
      if (cell === 0 || phaseOfCell(cell) !== phase) continue;
      bars++;
      if (cell < 0) continue;
      const unit = unitFrom(winding, bends, { slot, layer });
      if (!unit) return null;
      units.push(unit);
    }
  }
  if (bars !== 2 * units.length) return null;
  const reached = new Uint8Array(winding.slots * winding.layers);
  for (const { back } of units) {
    const place = back.layer * winding.slots + back.slot - 1;
    if (reached[place] === 1) return null;
    reached[place] = 1;
  }
  if (winding.layers === paired) return units;
  const last = unitsInLayer(winding, phase, bends, paired);
  return last && [...units, ...last];
}

/** Coils within a layer that has no partner: the only one, or the last of an odd number. */
function unitsInLayer(winding: Winding, phase: number, bends: Bends, layer: number): Unit[] | null {
  if (!bends.unpairedSpan) return null;
  const coils = singleLayerCoils(winding.table, layer, phase, bends.unpairedSpan);
  return (
    coils?.map(({ slot, span }) => ({
      pair: bends.far.length,
      span,
      go: { slot, layer },
      back: { slot: foldSlot(slot + span, winding.slots), layer },
    })) ?? null
  );
}

/** The unit of a + bar in a layer pair; null where its far-side joint leads to no - bar of the phase. */
function unitFrom(winding: Winding, bends: Bends, go: Bar): Unit | null {
  const pair = Math.floor(go.layer / 2);
  const even = go.layer % 2 === 0;
  const far = bends.far[pair];
  if (!far) return null;
  const span = even ? far : -far;
  const back = { slot: foldSlot(go.slot + span, winding.slots), layer: go.layer + (even ? 1 : -1) };
  const cell = cellAt(winding.table, go.slot, go.layer);
  return cellAt(winding.table, back.slot, back.layer) === -cell ? { pair, span, go, back } : null;
}

/** Integer electrical angle of a bar's voltage: 2 p s, plus half a turn for a - bar, modulo 2 Q. */
function angleOf(winding: Winding, bar: Bar, negative: boolean): number {
  const { slots, polePairs } = winding;
  return modulo(2 * polePairs * bar.slot + (negative ? slots : 0), 2 * slots);
}

/** Classes of the units of one phase. */
export function contentOf(winding: Winding, units: readonly Unit[], strict: boolean): Content {
  const index = new Map<string, number>();
  const classCounts: number[] = [];
  const pairCounts: number[] = [];
  const like = new Map<string, LikeUnits & { count: number }>();
  const likeClasses: number[] = [];
  const classes = units.map((unit) => {
    const ends = endsOf(winding, unit, strict);
    const key = `${Math.min(...ends)} ${Math.max(...ends)}`;
    const known = index.get(key) ?? index.size;
    index.set(key, known);
    classCounts[known] = (classCounts[known] ?? 0) + 1;
    pairCounts[unit.pair] = (pairCounts[unit.pair] ?? 0) + 1;
    const place = `${key} ${unit.pair}`;
    const alike = like.get(place);
    if (alike) alike.count++;
    else {
      like.set(place, { ends, pair: unit.pair, count: 1 });
      likeClasses.push(known);
    }
    return known;
  });
  return {
    strict,
    classes,
    classCounts,
    pairCounts: Array.from(pairCounts, (count) => count ?? 0),
    like: [...like.values()],
    likeClasses,
    forced: isForced([...like.values()]),
  };
}

/** What the bars of a unit hold: their angles, and where it matters the layers. */
function endsOf(winding: Winding, unit: Unit, strict: boolean): readonly [number, number] {
  const angles = 2 * winding.slots;
  const placed = (bar: Bar, negative: boolean) =>
    angleOf(winding, bar, negative) + (strict ? angles * bar.layer : 0);
  return [placed(unit.go, false), placed(unit.back, true)];
}

/** A condition that the number of parallel paths must meet: it must divide `count`. */
export interface DivisorCondition {
  readonly what:
    | 'bars-of-equal-voltage'
    | 'bars-of-equal-voltage-in-a-layer'
    | 'bars-in-a-layer-pair'
    | 'single-bars-of-equal-voltage'
    | 'single-bars-of-equal-voltage-in-a-layer';
  /** Counted in pairs of bars; single bars as such. */
  readonly count: number;
}

/**
 * The divisor conditions of one phase's content, each with its smallest common count: of units where what a path holds
 * of each class follows from its bars, of bars where it does not.
 */
export function divisorConditions({
  strict,
  classCounts,
  pairCounts,
  like,
  forced,
}: Content): DivisorCondition[] {
  const gcd = (counts: Iterable<number>) => [...counts].reduce(greatestCommonDivisor, 0);
  const where = strict ? 'bars-of-equal-voltage-in-a-layer' : 'bars-of-equal-voltage';
  const classes: DivisorCondition = forced
    ? { what: where, count: gcd(classCounts) }
    : { what: `single-${where}`, count: gcd(barsHeld(like).values()) };
  return strict ? [classes] : [classes, { what: 'bars-in-a-layer-pair', count: gcd(pairCounts) }];
}
