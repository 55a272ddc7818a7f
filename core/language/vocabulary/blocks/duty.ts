import { angleOf, quantities, textOf } from '../../specification/reading.ts';
import { between, positive, valueNamed } from '../../specification/rules.ts';
import type { DutyPoint } from '../../specification/statements.ts';
import type { Statement } from '../../text/document.ts';
import { plain, type VocabularyEntry } from '../entry.ts';
import { statementsOf } from '../word.ts';

const climb = 'point "climb" speed 900 rpm torque 150 Nm for 2 min';

/** Statements of the duty block, in canonical order. */
export const dutyStatements = statementsOf('duty', {
  points: {
    word: 'point',
    pattern:
      "text ('speed' speed | 'frequency' frequency) ('torque' torque | 'current' current) ('angle' angle)? 'for' duration",
    read: readPoint,
    rules: {
      speed: valueNamed('the speed', between(0, 5000, 'a speed from 0 rpm to 300000 rpm')),
      frequency: valueNamed('the frequency', between(0, 1e6, 'a frequency from 0 Hz to 1000 kHz')),
      torque: valueNamed('the torque', between(-1e9, 1e9, 'a torque up to 1000000 kNm')),
      current: valueNamed('the current', between(0, 1e6, 'a current from 0 A to 1000 kA')),
      angle: valueNamed('the angle', between(-90, 90, 'an angle from -90 to 90 edeg')),
      duration: valueNamed('the duration', positive(1e9, 'a time above 0 s')),
    },
    meaning:
      'One stretch of the duty cycle: its name, speed (0 at standstill), torque (negative where it brakes) or terminal current, and how long it lasts.',
    example: climb,
    repeatable: true,
  },
});

/** Words of the duty block. */
export const dutyWords: readonly VocabularyEntry[] = [
  ...Object.values(dutyStatements),
  ...plain('duty', 'keyword', {
    speed: ['Speed of the rotor; 0 rpm at standstill.', climb],
    frequency: [
      'Electrical frequency, in place of the speed.',
      'point "idle" frequency 20 Hz torque 5 Nm for 1 min',
    ],
    torque: ['Torque at the shaft; negative where it brakes.', climb],
    current: [
      'Terminal current, rms, in place of the torque.',
      'point "cast off" speed 0 rpm current 320 A for 20 s',
    ],
    angle: [
      'Electrical angle by which the current leads the EMF; without it the least current is taken, or the machine\u2019s current-angle for a given current.',
      'point "push" speed 900 rpm current 320 A angle 10 edeg for 20 s',
    ],
    for: ['How long the point lasts.', climb],
  }),
];

function readPoint(statement: Statement): DutyPoint {
  const named = (placeholder: string) =>
    quantities(statement).find((value) => value.placeholder === placeholder);
  const angle = named('angle');
  return {
    name: textOf(statement),
    speed: named('speed')?.value ?? null,
    frequency: named('frequency')?.value ?? null,
    torque: named('torque')?.value ?? null,
    current: named('current')?.value ?? null,
    angle: angle ? angleOf(angle) : null,
    duration: named('duration')!.value,
  };
}
