import type { PhaseSystem } from '../../winding/model.ts';
import { mostPhases, phaseSystem } from '../../winding/phases.ts';

/** The phases of the language, and which of them each name of a table stands for. */
export interface NamedPhases {
  readonly system: PhaseSystem;
  readonly indexOf: ReadonlyMap<string, number>;
  /** The table has other names than the language. */
  readonly renamed: boolean;
}

/**
 * Matches names, in capitals, with the phases of a winding: U V W, A B C, R S T, L1 L2 L3, 1 2 3; more phases by the
 * language's names, letters from A, or numbers. A sentence where they are none of these; `sets` are six phases in two
 * sets, so many electrical degrees apart.
 */
export function namedPhases(found: readonly string[], sets: number | null): NamedPhases | string {
  const count = sets === null ? found.length : 6;
  if (sets === null && count === 6)
    return 'there are six phases; they are two sets, and the angle between these is expected: a row above the table, such as phases;6 apart 30 edeg.';
  if (sets === null && (count < 3 || count % 2 === 0 || count > mostPhases))
    return `there are ${count} phases (${listed(found)}); an odd number from 3 to ${mostPhases}, or two sets of three, is expected.`;
  const system = sets === null ? phaseSystem(count) : phaseSystem(6, sets);
  const names = alphabets(system).find(
    (alphabet) => alphabet.length === found.length && found.every((name) => alphabet.includes(name)),
  );
  if (!names)
    return `the phases ${listed(found)} are not known; ${alphabets(system)
      .map((alphabet) => alphabet.join(' '))
      .join(', ')} are expected.`;
  return {
    system,
    indexOf: new Map(names.map((name, index) => [name, index])),
    renamed: names.some((name, index) => name !== system.names[index]),
  };
}

function alphabets({ names, sets }: PhaseSystem): readonly (readonly string[])[] {
  const numbers = names.map((_, index) => String(index + 1));
  const letters = names.map((_, index) => String.fromCharCode(65 + index));
  if (sets === 2) return [names, ['U1', 'V1', 'W1', 'U2', 'V2', 'W2'], letters, numbers];
  const leads = numbers.map((number) => `L${number}`);
  return names.length === 3
    ? [names, letters, ['R', 'S', 'T'], leads, numbers]
    : [names, letters, leads, numbers];
}

function listed(names: readonly string[]): string {
  return names.length > 12 ? `${names.slice(0, 12).join(' ')} …` : names.join(' ');
}
