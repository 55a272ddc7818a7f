import { machineValue, parallelPaths } from '../analysis/machineInputs.ts';
import type { CopperLossParts, FurtherFigures, HeatOfCurrents } from '../copper/copperLosses.ts';
import type { CycleHeat, HeatStage } from '../copper/heat/cycleHeat.ts';
import { heatsCore, noSteadyTemperature } from '../copper/heat/hottestBar.ts';
import { chainsKey, type PathLoad } from '../copper/heat/loadedChains.ts';
import type { Metal } from '../copper/metals.ts';
import { resistivity } from '../copper/metals.ts';
import {
  allOf,
  derive,
  deriveFigure,
  type Figure,
  known,
  knownIf,
  missing,
  orNull,
  undetermined,
} from '../figures/figure.ts';
import type { Steps } from '../figures/steps.ts';
import type { Specification } from '../language/specification/specification.ts';
import type { DutyPoint, Given } from '../language/specification/statements.ts';
import { electricalDegrees } from '../winding/angles.ts';
import type { Winding } from '../winding/model.ts';
import { leastCurrent, torqueWithin } from './capability.ts';
import type { OperationBasis } from './operation.ts';
import {
  type AxisCurrent,
  axisCurrent,
  leadOf,
  loadPoint,
  type PhaseMachine,
  powerFactorOf,
  torqueOf,
  voltageSize,
} from './phasors.ts';

/** A point of the duty as computed. SI units; rms. */
export interface DutyPointResult {
  readonly name: string;
  /** Revolutions per second. */
  readonly speed: number;
  /** Electrical, Hz. */
  readonly frequency: number;
  /** Nm; negative where it brakes. */
  readonly torque: Figure<number>;
  /** At a terminal, A rms. */
  readonly current: Figure<number>;
  /** Electrical degrees by which it leads the EMF. */
  readonly angle: Figure<number>;
  /** Rms, between adjacent line terminals, V. */
  readonly terminalVoltage: Figure<number>;
  /** Negative where the machine generates. */
  readonly powerFactor: Figure<number>;
  readonly loss: CopperLossParts;
  /** If the point lasted, degC. */
  readonly hotSpot: Figure<number>;
  /** Without any cooling, K/s. */
  readonly adiabaticRise: Figure<number>;
  /** Seconds. */
  readonly duration: number;
}

/** The cycle of all points in turn. */
export interface DutyCycle {
  /** Seconds. */
  readonly duration: number;
  /** J a cycle. */
  readonly copperEnergy: Figure<number>;
  /** W. */
  readonly meanCopperLoss: Figure<number>;
  /** Mechanical work of either sense over itself and the copper loss. */
  readonly copperEfficiency: Figure<number>;
  /** At a terminal, A. */
  readonly rmsCurrent: Figure<number>;
}

/** The points of the duty and their cycle. */
export interface DutyResult {
  readonly points: readonly DutyPointResult[];
  readonly cycle: DutyCycle;
  /** The work that finds the temperatures of the periodic cycle. */
  readonly cycleHeat: Figure<CycleHeatTask>;
  /** Whether the core follows the heat of the bars. */
  readonly heatsCore: boolean;
}

/** Temperatures of a periodic cycle, to be found in small steps; null where none settles. */
export interface CycleHeatTask {
  /** All that they depend on, as one text. */
  readonly key: () => string;
  readonly steps: () => Steps<CycleHeat | null>;
}

/** A point that the machine does not reach, as data. */
export interface UnreachedPoint {
  readonly statement: Given<DutyPoint>;
  /** Asked for, Nm; negative where it brakes. */
  readonly torque: number;
  /** Revolutions per second. */
  readonly speed: number;
  /** Most torque of that sense that the voltage leaves there, at most that asked; null where it is not told. */
  readonly reachable: number | null;
  /** All of the torque is within reach at another angle of the current. */
  readonly atAnotherAngle: boolean;
}

/** What the currents of a duty are computed from. */
export interface DutyBasis {
  readonly specification: Specification;
  readonly winding: Winding;
  readonly basis: OperationBasis;
}

/** What the duty is computed from beside the text. */
export interface DutyInput extends DutyBasis {
  readonly metal: Figure<Metal>;
  /** Copper areas of the layers, m2. */
  readonly areas: Figure<readonly number[]>;
  readonly heat: Figure<HeatOfCurrents>;
  readonly further: FurtherFigures;
}

/** Points and cycle of the duty block; null without one. */
export function duty(input: DutyInput): DutyResult | null {
  const { specification, winding } = input;
  if (!specification.duty || specification.duty.points.length === 0) return null;
  const points = specification.duty.points.map(({ value }) => loadedPoint(input, value));
  const stages = derive(
    { heat: input.heat, loads: allOf(points.map(({ load }) => load)) },
    ({ heat, loads }) => ({
      heat,
      stages: points.map(({ duration }, index) => ({ duration, ...loads[index]! })),
    }),
  );
  const hotSpots = hotSpotsOf(input.heat, points);
  return {
    points: points.map(({ load: _, ...point }, index) => ({ ...point, hotSpot: hotSpots[index]! })),
    cycle: cycleFigures(points, winding.polePairs),
    cycleHeat: cycleTask(specification, stages),
    heatsCore: heatsCore(specification),
  };
}

/** Hot spots of the points, all those with a load at once. */
function hotSpotsOf(heat: Figure<HeatOfCurrents>, points: readonly LoadedPoint[]): readonly Figure<number>[] {
  const loads = points.flatMap(({ load }) => (load.known ? [load.value] : []));
  const spots = deriveFigure({ heat }, (given) => given.heat.steady(loads));
  return points.map(({ load }) =>
    deriveFigure({ load, spots }, (given) => {
      const spot = given.spots[loads.indexOf(given.load)]!;
      return spot ? known(spot.hotSpot) : missing(noSteadyTemperature);
    }),
  );
}

interface Stages {
  readonly heat: HeatOfCurrents;
  readonly stages: readonly HeatStage[];
}

const heldCore =
  'duty: the core is held at its temperature over the cycle; with machine core-heat, core-cooling and coolant-temperature it follows the bars';

function cycleTask(specification: Specification, stages: Figure<Stages>): Figure<CycleHeatTask> {
  const heated = heatsCore(specification);
  const core = heated ? machineValue(specification, 'coreHeat') : known(null, heldCore);
  return derive({ stages, core }, ({ stages: { heat, stages: all } }) => ({
    key: () => chainsKey(heat.basis.chains, heat.basis, all),
    steps: () => heat.cycle(all),
  }));
}

/** What a point needs before its temperature is known. */
interface LoadedPoint extends Omit<DutyPointResult, 'hotSpot'> {
  /** Mean of the phases, rms. */
  readonly load: Figure<PathLoad>;
}

/** Electrical frequency of a point, Hz. */
function frequencyOf({ polePairs }: Winding, { speed, frequency }: DutyPoint): number {
  return frequency ?? (speed ?? 0) * polePairs;
}

/** At standstill the worst phase carries the peak of its current all the time. */
function worstAt(frequency: number): number {
  return frequency === 0 ? Math.SQRT2 : 1;
}

const unreached = 'duty points that the voltage reaches';

/** The phase current of a point along the axes. */
function currentOfPoint({ specification, winding, basis }: DutyBasis, point: DutyPoint): Figure<AxisCurrent> {
  const frequency = frequencyOf(winding, point);
  const lead = leadOfPoint(winding, point);
  if (lead !== null && Math.abs(lead) > Math.PI / 2 + 1e-9) return missing('duty angles from -90 to 90 edeg');
  const { current, torque } = point;
  if (current !== null)
    return derive({ share: basis.share, angle: lead === null ? basis.angle : known(lead) }, (given) =>
      axisCurrent(current * given.share, given.angle),
    );
  if (lead !== null)
    return deriveFigure({ machine: basis.torqueMachine }, ({ machine }) =>
      knownIf(currentAtLead(machine, torque ?? 0, lead), unreached),
    );
  if (!specification.machine?.voltage)
    return deriveFigure({ machine: basis.torqueMachine }, ({ machine }) =>
      knownIf(leastCurrent(machine, frequency, torque ?? 0, null), unreached),
    );
  return deriveFigure({ machine: basis.machine, voltage: basis.voltage }, (given) =>
    knownIf(leastCurrent(given.machine, frequency, torque ?? 0, given.voltage), unreached),
  );
}

/** The stated angle of a point, rad; null without one. */
function leadOfPoint({ slots, polePairs }: Winding, { angle }: DutyPoint): number | null {
  return angle && (electricalDegrees(angle, slots, polePairs) * Math.PI) / 180;
}

/** The current at an angle that makes a torque; null where none does. */
function currentAtLead(machine: PhaseMachine, torque: number, lead: number): AxisCurrent | null {
  const unit = axisCurrent(1, lead, torque >= 0);
  const of = (size: number) => ({ d: size * unit.d, q: size * unit.q });
  const size = sizeFor(Math.abs(torque), (each) => Math.abs(torqueOf(machine, of(each))));
  return size === null ? null : of(size);
}

/** The size at which a growing function reaches a value; null where it never does. */
function sizeFor(value: number, of: (size: number) => number): number | null {
  if (value === 0) return 0;
  let high = 1;
  for (let round = 0; of(high) < value; round++) {
    if (round > 60) return null;
    high *= 2;
  }
  let low = 0;
  for (let round = 0; round < 100; round++) {
    const middle = (low + high) / 2;
    if (of(middle) < value) low = middle;
    else high = middle;
  }
  return high;
}

function loadedPoint(input: DutyInput, point: DutyPoint): LoadedPoint {
  const { specification, winding, basis, further } = input;
  const frequency = frequencyOf(winding, point);
  const axes = currentOfPoint(input, point);
  const size = derive({ axes }, (given) => Math.hypot(given.axes.d, given.axes.q));
  const atPoint = derive({ axes, machine: basis.machine }, (given) =>
    loadPoint(given.machine, frequency, given.axes),
  );
  const phases = winding.phases.names.length;
  const dc = derive(
    { size, resistance: basis.resistance },
    (given) => phases * given.size ** 2 * given.resistance(0),
  );
  const fundamental = derive(
    { size, resistance: basis.resistance },
    (given) => phases * given.size ** 2 * given.resistance(frequency),
  );
  const worst = worstAt(frequency);
  const pathCurrent = derive(
    { size, paths: parallelPaths(specification, winding) },
    (given) => given.size / given.paths,
  );
  const harmonicsAt = (losses: FurtherFigures['harmonics']) =>
    derive({ losses, pathCurrent }, (given) => given.losses({ frequency, current: given.pathCurrent }));
  const barField = derive({ field: further.field }, (given) => given.field(frequency));
  return {
    name: point.name,
    speed: frequency / winding.polePairs,
    frequency,
    torque:
      point.torque === null
        ? derive({ axes, source: basis.torqueMachine }, (given) => torqueOf(given.source, given.axes))
        : derive({ axes }, () => point.torque!),
    current: derive({ size, share: basis.share }, (given) => given.size / given.share),
    angle: deriveFigure({ axes }, ({ axes: { d, q } }) =>
      d === 0 && q === 0
        ? undetermined('without current there is no angle')
        : known((leadOf({ d, q }) * 180) / Math.PI),
    ),
    terminalVoltage: derive(
      { atPoint, factors: basis.factors },
      (given) => given.atPoint.voltage * given.factors.adjacent,
    ),
    powerFactor: deriveFigure({ atPoint }, (given) => powerFactorOf(given.atPoint)),
    loss: {
      dc,
      ac: derive({ dc, fundamental }, (given) => given.fundamental - given.dc),
      harmonics: further.none.harmonics ? null : harmonicsAt(further.harmonics),
      barField: further.none.field ? null : barField,
      total: derive(
        { fundamental, harmonics: harmonicsAt(further.counted), barField },
        (given) => given.fundamental + given.harmonics + given.barField,
      ),
    },
    load: derive({ pathCurrent }, (given) => ({ frequency, pathCurrent: given.pathCurrent, worst })),
    adiabaticRise: derive(
      {
        pathCurrent,
        areas: input.areas,
        metal: input.metal,
        temperature: machineValue(specification, 'windingTemperature'),
      },
      (given) =>
        (((worst * given.pathCurrent) / Math.min(...given.areas)) ** 2 *
          resistivity(given.metal, given.temperature)) /
        given.metal.heatCapacity,
    ),
    duration: point.duration,
  };
}

function cycleFigures(points: readonly LoadedPoint[], polePairs: number): DutyCycle {
  const duration = points.reduce((sum, point) => sum + point.duration, 0);
  const sumOf = (of: (point: LoadedPoint) => Figure<number>): Figure<number> =>
    points.reduce<Figure<number>>(
      (sum, point) => derive({ sum, value: of(point) }, (given) => given.sum + given.value * point.duration),
      known(0),
    );
  const energy = sumOf(({ loss }) => loss.total);
  const work = sumOf(({ torque, frequency }) =>
    derive({ torque }, (given) => Math.abs((given.torque * 2 * Math.PI * frequency) / polePairs)),
  );
  const squares = sumOf(({ current }) => derive({ current }, (given) => given.current ** 2));
  return {
    duration,
    copperEnergy: energy,
    meanCopperLoss: derive({ energy }, (given) => given.energy / duration),
    // A cycle without work and loss is no matter of efficiency.
    copperEfficiency: deriveFigure({ work, energy }, (given) =>
      given.work + given.energy > 0
        ? known(given.work / (given.work + given.energy))
        : missing('duty points that do work'),
    ),
    rmsCurrent: derive({ squares }, (given) => Math.sqrt(given.squares / duration)),
  };
}

/** Points that the stated voltage does not reach. */
export function unreachedPoints({ specification, winding, basis }: DutyBasis): readonly UnreachedPoint[] {
  if (!specification.duty) return [];
  const given = orNull(derive({ machine: basis.machine, voltage: basis.voltage }, (each) => each));
  if (given === null) return [];
  return specification.duty.points.flatMap((statement): UnreachedPoint[] => {
    const point = statement.value;
    const frequency = frequencyOf(winding, point);
    const axes = currentOfPoint({ specification, winding, basis }, point);
    if (axes.known && voltageSize(given.machine, frequency, axes.value) <= given.voltage * (1 + 1e-6))
      return [];
    if (!axes.known && !axes.needs.includes(unreached)) return [];
    const torque = axes.known ? torqueOf(given.machine, axes.value) : (point.torque ?? 0);
    const reachable = torqueWithin(given.machine, frequency, given.voltage, torque < 0 ? -1 : 1);
    // Where the angle is written, a larger torque may be within reach at another.
    const within = reachable === null ? null : Math.min(Math.abs(reachable), Math.abs(torque));
    return [
      {
        statement,
        torque,
        speed: frequency / winding.polePairs,
        reachable: within === null ? null : Math.sign(torque || 1) * within,
        atAnotherAngle: reachable !== null && Math.abs(reachable) >= Math.abs(torque),
      },
    ];
  });
}
