import { type ConnectionFacts, pathVoltageDifference } from '../facts/connection.ts';
import type { Facts } from '../facts/facts.ts';
import { joiningNeed, unjoinedReason, withRefusal } from '../facts/unjoined.ts';
import { derive, type Figure, figureAt, known, missing, undetermined } from '../figures/figure.ts';
import { underWay } from '../figures/work.ts';
import { plural } from '../language/lists.ts';
import { significant, withoutNoise } from '../language/numbers.ts';
import type { Measure } from '../language/specification/specification.ts';
import { visible } from '../language/text/visible.ts';
import type { DutyPointResult } from '../operation/duty.ts';
import { largerDensity } from '../operation/iron.ts';

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
  if (limit.entry.perOrder) {
    const order = limitOrder(limit, facts.winding.polePairs);
    if (order === null) return undetermined(noOrder(limit, facts.winding.polePairs));
    return orderValue(word, order, facts);
  }
  switch (word) {
    case 'differential-leakage': {
      const leakage = facts.differentialLeakage();
      return leakage === null ? undetermined('the winding makes no working wave') : known(leakage);
    }
    case 'phase-voltage-difference': {
      const { worstPercent } = facts.balance();
      return worstPercent === null
        ? undetermined('the phases have no common fundamental')
        : known(withoutNoise(worstPercent / 100));
    }
    case 'end-inductance': {
      const { endInductance } = facts.spaceFigures();
      return explained(
        derive({ endInductance }, (given) => given.endInductance.phase),
        facts,
      );
    }
    case 'end-clearance-left':
      return explained(facts.spaceFigures().clearanceLeft, facts);
    default:
      return limit.entry.reportPath?.match(/^(copper|emf|operation|iron|duty)\./)
        ? machineQuantity(limit.entry.reportPath, facts)
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

/** A missing figure with what a refused connection adds to its needs; without needs and reason it is being computed. */
function explained(figure: Figure<number>, facts: Facts): Figure<number> {
  if (figure.known) return known(figure.value);
  if (figure.needs.length > 0) return missing(...withRefusal(figure.needs, facts.connection, facts.winding));
  return undetermined(figure.reason ?? underWay);
}

function orderValue(word: string, order: number, facts: Facts): Figure<number> {
  if (word === 'wave-relative') {
    const largest = Math.max(0, ...facts.wavesOf(order).map(({ relative }) => relative ?? Number.NaN));
    return Number.isNaN(largest) ? undetermined('the winding makes no working wave') : known(largest);
  }
  const row = facts.factorRow(order);
  const factor =
    word === 'distribution-factor'
      ? row.distribution
      : word === 'pitch-factor'
        ? row.pitch
        : word === 'skew-factor'
          ? row.skew
          : row.winding;
  return factor === null ? undetermined(`it is not defined at order ${order}`) : known(factor);
}

/** Quantities of joined bars. */
function connectionValue(word: string, facts: Facts): Figure<number> {
  const state = facts.connection;
  if (state.kind === 'connected') return joinedValue(word, state.facts, facts);
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
