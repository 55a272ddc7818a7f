import type { FactorRow } from '../../analysis/factors/factors.ts';
import { type FigurePath, figureRow } from '../../figures/register.ts';
import { limitOrder, quantityValue } from '../../findings/quantities.ts';
import type { RequiredLimit } from '../../language/specification/specification.ts';
import type { VocabularyEntry } from '../../language/vocabulary/vocabulary.ts';
import type { Report } from '../../report/schema.ts';
import { fractionText } from '../../winding/integers.ts';
import type { Reviewed, Wound } from '../reviewed.ts';
import type { ChangedNumber } from '../schema.ts';
import { atPoint, figurePlace } from './figureNames.ts';
import { quantities, quantityOf, tellinglyMoved } from './scales.ts';
import type { UnequalFigures } from './unequal.ts';

/**
 * Every number that moved: each quantity of `require`, for every order up to the slots where it has one,
 * then every other figure of the report. Rounding in the last digits is no move, nor are figures `unequal` that one
 * side knows less for.
 */
export function changedNumbers(
  old: Wound | null,
  now: Wound | null,
  unequal: UnequalFigures | null,
): readonly ChangedNumber[] {
  if (!old && !now) return [];
  const directions = limitDirections(now ?? old!);
  const reach = Math.min(...[old, now].flatMap((side) => (side ? [harmonicReach(side)] : [])));
  const changed: ChangedNumber[] = [];
  for (const entry of quantities.filter(({ perOrder }) => !perOrder)) {
    const [before, after] = [old, now].map((side) => (side ? plainValue(entry, side) : null));
    add(changed, { quantity: entry.word }, before!, after!, betterOf(entry, '', directions));
  }
  for (const entry of quantities.filter(({ perOrder }) => perOrder)) {
    const [before, after] = [old, now].map((side) => (side ? orderValues(entry, side, reach) : null));
    const names = new Map([...(before ?? []), ...(after ?? [])]);
    for (const [name, { harmonic, phase }] of names) {
      const [one, other] = [before?.get(name)?.value ?? null, after?.get(name)?.value ?? null];
      // A factor that is not defined at an order is no number that moved.
      if (old && now && (one === null || other === null)) continue;
      const what = { quantity: entry.word, harmonic, ...(phase === null ? {} : { phase }) };
      add(changed, what, one, other, betterOf(entry, harmonic, directions));
    }
  }
  const none: ReadonlyMap<string, Figure> = new Map();
  const [before, after] = [old ? otherFigures(old) : none, now ? otherFigures(now) : none];
  for (const quantity of new Set([...before.keys(), ...after.keys()])) {
    const [one, other] = [before.get(quantity), after.get(quantity)];
    const unit = (other ?? one)!.unit;
    const what = { quantity, ...(unit === '' ? {} : { unit }) };
    const better = otherBetter(quantity, (other ?? one)!, one ?? other!, directions);
    add(changed, what, one?.value ?? null, other?.value ?? null, better);
  }
  // What a text lacks that is not understood, or still being computed, is not known to be gone.
  const partly = (side: Wound | null) => side !== null && (side.broken || side.measuring);
  const place = (quantity: string) => quantityOf(quantity)?.reportPath ?? quantity;
  return changed.filter(
    (number) =>
      !(partly(old) && number.old === null) &&
      !(partly(now) && number.new === null) &&
      !unequal?.places.has(place(number.quantity)),
  );
}

function add(
  changed: ChangedNumber[],
  what: Pick<ChangedNumber, 'quantity' | 'harmonic' | 'phase' | 'unit'>,
  old: number | null,
  now: number | null,
  higherIsBetter: boolean | null,
): void {
  if (old === null && now === null) return;
  if (old !== null && now !== null && !moved(old, now)) return;
  if (old === null || now === null) {
    changed.push({ ...what, old, new: now, difference: null, better: null });
    return;
  }
  const difference = now - old;
  const sensed = higherIsBetter !== null && tellinglyMoved(what.quantity, old, now);
  const better = sensed ? difference > 0 === higherIsBetter : null;
  changed.push({ ...what, old, new: now, difference, better });
}

/** Whether two values differ by more than rounding; the least values of all are noise round zero. */
export function moved(old: number, now: number): boolean {
  return Math.abs(now - old) > 1e-9 * Math.max(Math.abs(old), Math.abs(now)) + 1e-15;
}

/** Values round zero of ratios, factors and counts are rounding. */
function clean(value: number): number {
  return Math.abs(value) < 1e-10 ? 0 : value;
}

function cleaned(entry: VocabularyEntry, value: number): number {
  return entry.dimension === 'none' || entry.dimension === 'ratio' ? clean(value) : value;
}

function limitOf(entry: VocabularyEntry): RequiredLimit {
  const nowhere = { start: 0, end: 0 };
  return { entry, scope: null, point: null, relation: '<=', limit: 0, written: '0', limitRange: nowhere };
}

function plainValue(entry: VocabularyEntry, side: Wound): number | null {
  const found = quantityValue(limitOf(entry), side.facts);
  // No limit, which is not a number that moves.
  return found.known && Number.isFinite(found.value) ? cleaned(entry, found.value) : null;
}

/** Harmonics up to which factors are compared: they repeat after as many orders as slots. */
function harmonicReach({ winding }: Wound): number {
  return Math.max(winding.slots / winding.polePairs, 20);
}

interface OrderValue {
  readonly harmonic: string;
  readonly phase: string | null;
  readonly value: number | null;
}

/** A quantity at every order, by harmonic; by phase too where phases differ. */
function orderValues(entry: VocabularyEntry, side: Wound, reach: number): ReadonlyMap<string, OrderValue> {
  const { winding, facts } = side;
  const orders = Math.max(1, Math.floor(reach * winding.polePairs + 1e-9));
  const values = new Map<string, OrderValue>();
  const set = (order: number, phase: string | null, value: number | null) => {
    const harmonic = fractionText(order, winding.polePairs);
    const name = phase === null ? harmonic : `${harmonic} ${phase}`;
    values.set(name, { harmonic, phase, value: value === null ? null : cleaned(entry, value) });
  };
  if (entry.word === 'wave-relative') {
    for (let order = 1; order <= orders; order++) set(order, null, 0);
    if (facts.mmf().waves.every(({ relative }) => relative === null)) return new Map();
    for (const { order, relative } of facts.mmf().waves) {
      const known = values.get(fractionText(order, winding.polePairs));
      if (known && (relative ?? 0) > (known.value ?? 0)) set(order, null, relative);
    }
    return values;
  }
  const column = entry.reportPath?.split('.').pop() as keyof FactorRow;
  const rows = (list: readonly FactorRow[], phase: string | null) => {
    for (const row of list) set(row.order, phase, row[column] as number | null);
  };
  rows(facts.factorRows(orders), null);
  facts.factorRowsByPhase(orders)?.forEach((list, i) => {
    if (i > 0) rows(list, winding.phases.names[i]!);
  });
  return values;
}

/** Relations that limits set on quantities, by word and harmonic, or point of the duty. */
function limitDirections(side: Wound): ReadonlyMap<string, Set<'<=' | '>='>> {
  const directions = new Map<string, Set<'<=' | '>='>>();
  const { polePairs } = side.winding;
  for (const { value: limit } of side.specification.limits) {
    const order = limit.entry.perOrder ? limitOrder(limit, polePairs) : null;
    const at = limit.point === null ? '' : atPoint(limit.point);
    const key = `${limit.entry.word} ${order === null ? '' : fractionText(order, polePairs)}${at}`;
    directions.set(key, (directions.get(key) ?? new Set()).add(limit.relation));
  }
  return directions;
}

/**
 * Whether a higher value is better: as a limit of the text has it; else, of factors and waves, the working
 * harmonic's is to be high and any other's low; else as the register says. Null between two limits, and
 * where neither direction is good in itself.
 */
function betterOf(
  entry: VocabularyEntry,
  harmonic: string,
  directions: ReadonlyMap<string, Set<'<=' | '>='>>,
): boolean | null {
  const limits = directions.get(`${entry.word} ${harmonic}`);
  if (limits) return limits.size > 1 ? null : limits.has('>=');
  if (entry.perOrder) return harmonic === '1';
  return betterInItself(entry.reportPath ?? '');
}

function betterInItself(path: string): boolean | null {
  const better = figureRow(path)?.better ?? 'neither';
  return better === 'neither' ? null : better === 'higher';
}

/** Whether a higher value of a figure that no quantity names is better: of a point as a limit at it has it, else as the register says. */
function otherBetter(
  quantity: string,
  now: Figure,
  old: Figure,
  directions: ReadonlyMap<string, Set<'<=' | '>='>>,
): boolean | null {
  const limits = now.limited && directions.get(now.limited);
  if (limits) return limits.size > 1 ? null : limits.has('>=');
  const better = betterInItself(figurePlace(quantity));
  if (!signedByWay.has(figurePlace(quantity)) || Math.min(old.value, now.value) >= 0) return better;
  // Of a brake more is less; one that drives is not to be compared with one that brakes.
  return better === null || Math.max(old.value, now.value) > 0 ? null : !better;
}

/** Figures that are negative where the machine brakes. */
const signedByWay: ReadonlySet<string> = new Set<FigurePath>([
  'duty.points.torque',
  'duty.points.powerFactor',
]);

/** Parts of the report whose figures no quantity names; tables (lists of records) are left out. */
const figureParts = [
  'winding',
  'symmetry',
  'emf',
  'operation',
  'duty',
  'iron',
  'routing',
  'balance',
  'voltageBetweenBars',
  'copper',
  'space',
] as const;
// The frequency of the impedances is the EMF's.
const notFigures = new Set(['routing.bounds', 'routing.tried', 'copper.leakage.pathImpedances']);

interface Figure {
  readonly value: number;
  readonly unit: string;
  /** Under which limits on it are found; left out where there can be none. */
  readonly limited?: string;
}

function otherFigures(side: Reviewed): ReadonlyMap<string, Figure> {
  const report = side.report({ orders: 1 });
  const named = new Set<string | undefined>(quantities.map(({ reportPath }) => reportPath));
  const figures = new Map<string, Figure>();
  const walk = (path: string, value: unknown, unit: string): void => {
    if (notFigures.has(path) || named.has(path)) return;
    const ownUnit = unitOf(path) ?? unit;
    if (typeof value === 'number')
      figures.set(path, { value: ownUnit === '' ? clean(value) : value, unit: ownUnit });
    else if (Array.isArray(value)) {
      if (!value.every((item) => item === null || typeof item === 'number')) return;
      value.forEach((item, i) => {
        walk(`${path}[${i + 1}]`, item, ownUnit);
      });
    } else if (typeof value === 'object' && value !== null)
      for (const [name, item] of Object.entries(value)) walk(`${path}.${name}`, item, '');
  };
  for (const part of figureParts) walk(part, report[part], '');
  for (const point of report.duty?.points ?? []) {
    const at = atPoint(point.name);
    for (const [path, value, word] of pointFigures(point))
      if (value !== null)
        figures.set(path + at, { value, unit: unitOf(path) ?? '', limited: `${word} ${at}` });
  }
  return figures;
}

/** What is compared at each point of the duty, by its place in the report, with the word of limits on it. */
function pointFigures(
  point: NonNullable<Report['duty']>['points'][number],
): readonly (readonly [FigurePath, number | null, string])[] {
  return [
    ['duty.points.torque', point.torque, 'torque'],
    ['duty.points.current', point.current, 'terminal-current'],
    ['duty.points.terminalVoltage', point.terminalVoltage, 'terminal-voltage'],
    ['duty.points.powerFactor', point.powerFactor, 'power-factor'],
    ['duty.points.loss.total', point.loss.total, 'copper-loss'],
    ['duty.points.hotSpot', point.hotSpot, 'hot-spot-temperature'],
    ['duty.points.adiabaticRise', point.adiabaticRise, ''],
  ];
}

/** SI unit of a figure; empty for plain numbers, undefined where the register has no such figure. */
function unitOf(path: string): string | undefined {
  const unit = figureRow(path)?.unit;
  return unit === '1' ? '' : unit;
}
