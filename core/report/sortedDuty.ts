import type { Figure } from '../figures/figure.ts';
import { figuresByPath, type Sorted, sortFigures } from '../figures/groups.ts';
import type { DutyPointResult, DutyResult } from '../operation/duty.ts';

const equalPaths = 'duty: the paths of a phase carry equal currents; the rated current is no limit';
const standstill =
  'duty: at standstill the phases carry direct current, the one that gets hottest sqrt(2) times the rms current';

/** What the duty lacks and rests on: a figure of its points is missing where it is at any of them. */
export function sortedDuty({ points, cycle, cycleHeat, ...duty }: DutyResult): Sorted {
  const all = (of: (point: DutyPointResult) => Figure<number>, among = points) =>
    among.map(of).find((figure) => !figure.known) ?? of(among[0]!);
  // A point without current has no power factor, which is no lack of the duty.
  const loaded = points.filter(({ powerFactor }) => powerFactor.known || powerFactor.needs.length > 0);
  const sorted = sortFigures({
    'duty.points.torque': all(({ torque }) => torque),
    'duty.points.current': all(({ current }) => current),
    'duty.points.terminalVoltage': all(({ terminalVoltage }) => terminalVoltage),
    ...(loaded.length > 0
      ? { 'duty.points.powerFactor': all(({ powerFactor }) => powerFactor, loaded) }
      : {}),
    'duty.points.loss.total': all(({ loss }) => loss.total),
    'duty.points.hotSpot': all(({ hotSpot }) => hotSpot),
    'duty.points.adiabaticRise': all(({ adiabaticRise }) => adiabaticRise),
    ...figuresByPath('duty.cycle', cycle),
    'duty.cycle.hotSpot': cycleHeat,
    ...(duty.heatsCore ? { 'duty.cycle.coreTemperature': cycleHeat } : {}),
  });
  if (sorted.models.length === 0) return sorted;
  const lines = points.some(({ frequency }) => frequency === 0) ? [equalPaths, standstill] : [equalPaths];
  return { ...sorted, assumptions: [...sorted.assumptions, ...lines] };
}
