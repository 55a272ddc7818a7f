import type { PhaseBalance } from '../analysis/phaseBalance.ts';
import { type ConnectionFacts, pathVoltageDifference } from '../facts/connection.ts';
import type { Facts } from '../facts/facts.ts';
import { joiningNeed, unjoinedReason, withoutComing, withRefusal } from '../facts/unjoined.ts';
import type { WaveFacts } from '../facts/waveFacts.ts';
import type { WindingFacts } from '../facts/windingFacts.ts';
import { derive, type Figure, figureAt, known, missing, undetermined } from '../figures/figure.ts';
import { underWay } from '../figures/work.ts';
import { plural } from '../language/lists.ts';
import { significant, withoutNoise } from '../language/numbers.ts';
import type { Measure } from '../language/specification/specification.ts';
import { visible } from '../language/text/visible.ts';
import type { DutyPointResult } from '../operation/duty.ts';
import { largerDensity } from '../operation/iron.ts';
import type { Winding } from '../winding/model.ts';

/** The mechanical order a limit speaks of: harmonic n is order n p; without a scope harmonic 1. Null where it is no order. */
export function limitOrder(limit: Measure, polePairs: number): number | null {
  const order = limit.scope?.kind === 'order' ? limit.scope.number : (limit.scope?.number ?? 1) * polePairs;
  const whole = Math.round(order);
  return whole >= 1 && whole <= 1e7 && Math.abs(order - whole) < 1e-9 * Math.max(1, whole) ? whole : null;
}

/** Why a limit speaks of no order. */
function noOrder({ scope }: Measure, polePairs: number): string {
  const number = scope?.number ?? 1;
  const range = 'an order is a whole number from 1 to 10 000 000';
  if (scope?.kind === 'order') return range;
  return `with ${plural(polePairs, 'pole pair')} harmonic ${significant(number, 15)} is order ${significant(number * polePairs, 15)}, and ${range}`;
}

/** Looks a quantity up among the facts, in SI units, ratios as fractions; where there is no value, says why. */
export function quantityValue(limit: Measure, facts: Facts): Figure<number> {
  const word = limit.entry.word;
  if (limit.point !== null) return pointValue(word, limit.point, facts);
  if (word === 'wave-relative') return waveValue(limit, facts.winding, facts);
  return windingQuantity(limit, facts.winding, facts) ?? wholeValue(limit, facts);
}

/** As `quantityValue`, of a quantity that follows from the slot table and its lean alone; null for others. */
export function windingQuantity(
  limit: Measure,
  winding: Winding,
  facts: Pick<WindingFacts, 'factorRow' | 'differentialLeakage' | 'balance'>,
): Figure<number> | null {
  const { word } = limit.entry;
  return isWindingQuantity(word) ? windingValues[word](limit, winding, facts) : null;
}

/** Whether `windingQuantity` has a value for a word. */
export function isWindingQuantity(word: string): word is keyof typeof windingValues {
  return Object.hasOwn(windingValues, word);
}

const noWorkingWave = 'the winding makes no working wave';

type OfWinding = (
  limit: Measure,
  winding: Winding,
  facts: Pick<WindingFacts, 'factorRow' | 'differentialLeakage' | 'balance'>,
) => Figure<number>;

const factorValue =
  (factor: 'distribution' | 'pitch' | 'skew' | 'winding'): OfWinding =>
  (limit, { polePairs }, facts) => {
    const order = limitOrder(limit, polePairs);
    if (order === null) return undetermined(noOrder(limit, polePairs));
    return numberOr(facts.factorRow(order)[factor], `it is not defined at order ${order}`);
  };

/** The quantities that follow from the slot table and its lean alone. */
const windingValues = {
  'distribution-factor': factorValue('distribution'),
  'pitch-factor': factorValue('pitch'),
  'skew-factor': factorValue('skew'),
  'winding-factor': factorValue('winding'),
  'differential-leakage': (_, __, facts) => numberOr(facts.differentialLeakage(), noWorkingWave),
  'phase-voltage-difference': (_, __, facts) => phaseDifference(facts.balance()),
} satisfies Record<string, OfWinding>;

function phaseDifference({ worstPercent }: PhaseBalance): Figure<number> {
  return worstPercent === null
    ? undetermined('the phases have no common fundamental')
    : known(withoutNoise(worstPercent / 100));
}

/** The relative amplitude of the larger wave of an order, which goes by the openings of the slots too. */
export function waveValue(
  limit: Measure,
  { polePairs }: Winding,
  facts: Pick<WaveFacts, 'wavesOf'>,
): Figure<number> {
  const order = limitOrder(limit, polePairs);
  if (order === null) return undetermined(noOrder(limit, polePairs));
  const largest = Math.max(0, ...facts.wavesOf(order).map(({ relative }) => relative ?? Number.NaN));
  return Number.isNaN(largest) ? undetermined(noWorkingWave) : known(largest);
}

/** A quantity of sizes, copper, bars in space or joined bars. */
function wholeValue({ entry: { word, reportPath: path } }: Measure, facts: Facts): Figure<number> {
  switch (word) {
    case 'end-inductance': {
      const endInductance = facts.spaceFigures().endInductance();
      return explained(
        derive({ endInductance }, (given) => given.endInductance.phase),
        facts,
      );
    }
    case 'end-clearance-left':
      return explained(facts.spaceFigures().clearanceLeft(), facts);
    default:
      return path?.match(/^(copper|emf|operation|iron|duty)\./)
        ? machineQuantity(path, facts)
        : connectionValue(word, facts);
  }
}

/** A quantity at a point of the duty. */
function pointValue(word: string, name: string, facts: Facts): Figure<number> {
  const point = facts.duty()?.points.find((each) => each.name === name);
  return point
    ? explained(pointFigures[word]!(point), facts)
    : undetermined(`the duty has no point "${visible(name)}"`);
}

/** Quantities that have a value at every point of the duty. */
const pointFigures: Readonly<Record<string, (point: DutyPointResult) => Figure<number>>> = {
  'hot-spot-temperature': ({ hotSpot }) => hotSpot,
  'copper-loss': ({ loss }) => loss.total,
  torque: ({ torque }) => torque,
  'terminal-voltage': ({ terminalVoltage }) => terminalVoltage,
  'terminal-current': ({ current }) => current,
  'power-factor': ({ powerFactor }) => powerFactor,
};

/** The figures of a part of the report that the machine's sizes and ratings yield; undefined for a duty that there is not. */
function machinePart(part: string, facts: Facts): object | undefined {
  switch (part) {
    case 'emf':
      return facts.emf();
    case 'operation':
      return facts.operation();
    case 'iron':
      return facts.iron();
    case 'duty':
      return facts.duty() ?? undefined;
    default:
      return facts.copper();
  }
}

/** A figure of the machine, by its place in the report. */
function machineQuantity(path: string, facts: Facts): Figure<number> {
  const [part, ...places] = path.split('.');
  const group = machinePart(part!, facts);
  return group ? explained(machineFigure(path, group, places, facts), facts) : missing('duty points');
}

function machineFigure(path: string, group: object, places: readonly string[], facts: Facts): Figure<number> {
  switch (path) {
    case 'duty.cycle.hotSpot':
      return derive({ heat: facts.dutyCycleHeat() ?? missing() }, ({ heat }) => heat.hotSpot);
    case 'iron.tooth.load':
      return largerDensity(facts.iron().tooth);
    case 'iron.yoke.load':
      return ofYoke(facts);
    default:
      return (figureAt(group, places) as Figure<number> | undefined) ?? undetermined(notDetermined);
  }
}

function ofYoke(facts: Facts): Figure<number> {
  const { yoke } = facts.iron();
  return yoke ? largerDensity(yoke) : undetermined(notDetermined);
}

const notDetermined = 'the winding does not determine it';

/**
 * A missing figure with what a refused connection adds to its needs, without paths that come by themselves; without
 * needs and reason it is being computed.
 */
function explained(figure: Figure<number>, { connection, winding }: Facts): Figure<number> {
  if (figure.known) return known(figure.value);
  const needs = withRefusal(withoutComing(figure.needs, connection), connection, winding);
  return needs.length > 0 ? missing(...needs) : undetermined(figure.reason ?? underWay);
}

/** Quantities of joined bars. */
function connectionValue(word: string, facts: Facts): Figure<number> {
  const state = facts.connection;
  if (state.kind === 'connected') return joinedValue(word, state.facts, facts);
  if (state.kind === 'pending') return undetermined(underWay);
  const reason = unjoinedReason(state, facts.winding);
  return reason === null ? missing(joiningNeed(facts.specification, state)) : undetermined(reason);
}

function joinedValue(word: string, connection: ConnectionFacts, facts: Facts): Figure<number> {
  switch (word) {
    case 'path-voltage-difference':
      return numberOr(pathVoltageDifference(connection), 'a phase has no voltage');
    case 'circulating-current':
      return orReason(facts.circulatingCurrent(), 'the paths do not determine it');
    case 'path-current-deviation':
      return facts.currentDeviation();
    case 'special-joints':
      return known(connection.counts().special);
    case 'jumpers':
      return known(connection.counts().jumpers);
    case 'joint-shapes':
      return known(connection.counts().specialShapes);
    case 'bar-shapes':
      return known(connection.barShapes().length);
    case 'legs-bent-apart':
      return known(connection.legsBentApart());
    case 'voltage-in-slot':
      return numberOr(connection.gaps()?.inSlot?.value, 'no two bars lie one above another in a slot');
    case 'voltage-between-slots':
      return numberOr(connection.gaps()?.betweenSlots?.value, 'no two bars of a layer are neighbors');
    default:
      throw new RangeError(`no value is known for the quantity '${word}'`);
  }
}

function numberOr(number: number | null | undefined, reason: string): Figure<number> {
  return number == null ? undetermined(reason) : known(number);
}

/** The figure; where it is missing and no statement would supply it, for this reason. */
function orReason(figure: Figure<number>, reason: string): Figure<number> {
  return figure.known || figure.needs.length > 0 ? figure : undetermined(reason);
}
