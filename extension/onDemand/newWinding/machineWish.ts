import { mostSlots } from '../../../core/language/counts.ts';
import { decimal } from '../../../core/language/numbers.ts';
import { l10n } from '../../wording.ts';

/** What is known of a machine before it has a winding. */
export interface MachineWish {
  readonly gap: 'inner' | 'outer' | 'both';
  readonly poles: number;
  /** Revolutions per minute; null where they are not given. */
  readonly speed: number | null;
  /** Phases of the converter: odd, or 6 as two sets of three, 30 electrical degrees apart. */
  readonly phases: number;
  /** Slots at hand; null where they are free. */
  readonly slots: number | null;
  /** Stator diameter at the gap in millimeters; null where it is not given. */
  readonly diameter: number | null;
}

/** How far off a whole number of poles speed and frequency may lie, in poles: both are often rounded. */
const polesTolerance = 0.02;

/** Poles and speed as answered: `8`, `8 1500 rpm`, `1500 rpm 100 Hz`; or, as a sentence, what is wrong. */
export function readPoles(answer: string): Pick<MachineWish, 'poles' | 'speed'> | string {
  const asked = l10n.t(
    'Give the number of poles, such as 8, or speed and frequency, such as 1500 rpm 100 Hz.',
  );
  const found = quantities(answer, ['poles', 'rpm', 'Hz']);
  if (found === null) return asked;
  const { poles, rpm, Hz } = found;
  if (poles !== undefined) {
    if (!isPoles(poles)) return l10n.t('The number of poles is even and from 2 to {0}.', mostSlots);
    if (rpm !== undefined && Hz !== undefined)
      return l10n.t('Give poles, or speed and frequency, not all three.');
    return { poles, speed: rpm ?? (Hz === undefined ? null : (120 * Hz) / poles) };
  }
  if (rpm === undefined || Hz === undefined) return asked;
  const exact = (120 * Hz) / rpm;
  const nearest = 2 * Math.round(exact / 2);
  if (isPoles(nearest) && Math.abs(exact - nearest) <= polesTolerance) return { poles: nearest, speed: rpm };
  const fewer = 2 * Math.floor(exact / 2);
  const turns = [fewer, fewer + 2]
    .filter(isPoles)
    .map((poles) => l10n.t('{0} poles turn at {1} rpm', poles, decimal((120 * Hz) / poles)));
  return l10n.t('That would be {0} poles. At {1} Hz {2}.', decimal(exact), decimal(Hz), turns.join(', '));
}

/** Slots and diameter as answered, both, one or none of them: `48`, `48 slots 162 mm`, `162 mm`, nothing. */
export function readSlots(answer: string): Pick<MachineWish, 'slots' | 'diameter'> | string {
  const asked = l10n.t('Give slots, such as 48, a diameter, such as 162 mm, both, or nothing.');
  if (answer.trim() === '') return { slots: null, diameter: null };
  const found = quantities(answer, ['slots', 'mm']);
  if (found === null) return asked;
  const { slots = null, mm: diameter = null } = found;
  if (slots !== null && !(Number.isInteger(slots) && slots >= 3 && slots <= mostSlots))
    return l10n.t('The number of slots is whole and from 3 to {0}.', mostSlots);
  if (diameter !== null && !(diameter >= 0.1 && diameter <= 100_000))
    return l10n.t('The diameter is from 0.1 mm to 100 m.');
  return { slots, diameter };
}

/** Numbers with their units, a number alone being of the first one; null where the text holds anything else. */
function quantities<Unit extends string>(
  text: string,
  units: readonly [Unit, ...Unit[]],
): Partial<Record<Unit, number>> | null {
  const found: Partial<Record<Unit, number>> = {};
  const rest = text.replace(/(\d+(?:\.\d+)?)\s*([a-z]*)[\s,]*/gi, (all, number: string, word: string) => {
    const unit = word === '' ? units[0] : units.find((each) => each.toLowerCase() === word.toLowerCase());
    if (unit === undefined || found[unit] !== undefined) return `?${all}`;
    found[unit] = Number(number);
    return '';
  });
  return rest.trim() === '' && Object.keys(found).length > 0 ? found : null;
}

function isPoles(poles: number): boolean {
  return Number.isInteger(poles / 2) && poles >= 2 && poles <= mostSlots;
}
