import type { CurvePoint } from '../operation/curve.ts';
import type { Column } from './column.ts';

/** What a load point takes; null where it is not known. */
type Load = Readonly<Record<'current' | 'angle' | 'terminalVoltage' | 'powerFactor', number | null>>;

/** Columns of what a load point takes. */
export const loadColumns: readonly Column<Load>[] = [
  { heading: 'current', meaning: 'At a terminal, rms.', unit: 'current', value: ({ current }) => current },
  {
    heading: 'angle',
    meaning: 'By which the current leads the EMF; positive weakens the field; none without current.',
    unit: 'edeg',
    value: ({ angle }) => angle,
  },
  {
    heading: 'line voltage',
    meaning: 'Between adjacent line terminals, rms.',
    unit: 'voltage',
    value: ({ terminalVoltage }) => terminalVoltage,
  },
  {
    heading: 'power factor',
    meaning: 'Electrical over apparent power; negative where the machine generates; none without current.',
    unit: 'factor',
    value: ({ powerFactor }) => powerFactor,
  },
];

/** Columns of the torque-speed curve. */
export const operationColumns: readonly Column<CurvePoint>[] = [
  {
    heading: 'speed',
    meaning: 'Of the rotor; from standstill to the top speed, or far beyond base and rated speed.',
    unit: 'speed',
    value: ({ speed }) => speed,
  },
  {
    heading: 'torque',
    meaning: 'Most torque within the rated current and the voltage.',
    unit: 'torque',
    value: ({ torque }) => torque,
  },
  { heading: 'power', meaning: 'At the shaft.', unit: 'power', value: ({ power }) => power },
  ...loadColumns,
];
