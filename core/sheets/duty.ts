import type { Facts } from '../facts/facts.ts';
import { valuesOf } from '../figures/groups.ts';
import { type FigurePath, figureRegister } from '../figures/register.ts';
import { shownFigure } from '../language/numbers.ts';
import { idleWords, isIdle, mainDutyColumns } from '../tables/duty.ts';
import { columnsAndRows } from './columns.ts';
import type { SheetTable } from './page/table.ts';

/** The points of the duty and their cycle; none where the text has no duty. */
export function dutyTables(facts: Facts, section: string): readonly SheetTable[] {
  const duty = facts.duty();
  if (duty === null) return [];
  return [
    {
      id: 'duty',
      section,
      heading: 'Duty',
      remarks: [cycleRemark(facts), ...(duty.points.some(isIdle) ? [idleWords] : [])],
      ...columnsAndRows(mainDutyColumns, valuesOf(duty.points)),
    },
  ];
}

/** Sums of a cycle and its highest temperatures, as far as they are known. */
function cycleRemark(facts: Facts): string {
  const cycle = valuesOf(facts.duty()!.cycle);
  const heat = facts.dutyCycleHeat();
  const temperatures = heat?.known ? heat.value : null;
  const told = (path: FigurePath, value: number | null | undefined) => {
    const { words, shown } = figureRegister[path];
    return value == null
      ? []
      : [`${words.replace(/ (of|in) a duty cycle/, '')} ${shownFigure(value, shown)}`];
  };
  return `A cycle: ${[
    ...told('duty.cycle.duration', cycle.duration),
    ...told('duty.cycle.meanCopperLoss', cycle.meanCopperLoss),
    ...told('duty.cycle.copperEfficiency', cycle.copperEfficiency),
    ...told('duty.cycle.rmsCurrent', cycle.rmsCurrent),
    ...told('duty.cycle.hotSpot', temperatures?.hotSpot),
    ...told('duty.cycle.coreTemperature', temperatures?.core?.highest),
  ].join(', ')}.`;
}
