import type { ValuesOf } from '../figures/groups.ts';
import { visible } from '../language/text/visible.ts';
import type { DutyPointResult } from '../operation/duty.ts';
import type { Column } from './column.ts';
import { loadColumns } from './operation.ts';

type DutyColumn = Column<ValuesOf<DutyPointResult>>;

const numbered = (column: Omit<DutyColumn, 'align'>): DutyColumn => ({ ...column, align: 'right' });

/** What a point of the duty is and what it takes: the columns that print has room for. */
export const mainDutyColumns: readonly DutyColumn[] = [
  { heading: 'point', meaning: 'Its name.', value: ({ name }) => visible(name) },
  numbered({
    heading: 'time',
    meaning: 'How long it lasts.',
    unit: 'duration',
    value: ({ duration }) => duration,
  }),
  numbered({ heading: 'speed', meaning: 'Of the rotor.', unit: 'speed', value: ({ speed }) => speed }),
  numbered({
    heading: 'torque',
    meaning: 'At the shaft; negative where it brakes.',
    unit: 'torque',
    value: ({ torque }) => torque,
  }),
  ...loadColumns.map(numbered),
  numbered({
    heading: 'copper loss',
    meaning: 'All of the losses in the bars, at the winding temperature.',
    unit: 'power',
    value: ({ loss }) => loss.total,
  }),
  numbered({
    heading: 'hot spot',
    meaning: 'Highest temperature along a bar, if the point lasted.',
    unit: 'temperature',
    value: ({ hotSpot }) => hotSpot,
  }),
];

/** Whether a point is known to take no current, so that it has neither angle nor power factor. */
export const isIdle = ({ current }: Pick<DutyPointResult, 'current'>): boolean =>
  current.known && current.value === 0;

/** Why such a point has dashes there. */
export const idleWords = 'Without current there is neither an angle nor a power factor.';

const rise = numbered({
  heading: 'rise',
  meaning: 'How fast the bars grow hotter without any cooling.',
  unit: 'temperature rate',
  value: ({ adiabaticRise }) => adiabaticRise,
});

const eddyLoss = numbered({
  heading: 'eddy loss',
  meaning: 'What eddies add to it.',
  unit: 'power',
  value: ({ loss }) => loss.ac,
});

/** The columns of the report. */
export const reportedDutyColumns: readonly DutyColumn[] = [...mainDutyColumns, eddyLoss, rise];

/** All columns of the points of the duty. */
export const dutyColumns: readonly DutyColumn[] = [
  ...mainDutyColumns,
  rise,
  {
    heading: 'frequency',
    meaning: 'Electrical.',
    unit: 'frequency',
    value: ({ frequency }) => frequency,
  },
  {
    heading: 'DC loss',
    meaning: 'Of the fundamental current, without eddies.',
    unit: 'power',
    value: ({ loss }) => loss.dc,
  },
  eddyLoss,
  {
    heading: 'harmonic loss',
    meaning:
      'Of harmonics and ripple of the current, and of what circulates in a ring of phases; empty where there are none.',
    unit: 'power',
    value: ({ loss }) => loss.harmonics,
  },
  {
    heading: 'field loss',
    meaning: 'Of the eddies that the field of the rotor drives in the bars; empty where none is stated.',
    unit: 'power',
    value: ({ loss }) => loss.barField,
  },
];
