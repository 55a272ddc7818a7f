import type { CheckedText } from '../../core/findings/checkedText.ts';
import type { Finding, Range } from '../../core/language/finding.ts';
import { layerOfLetter } from '../../core/language/layerLetters.ts';
import { pathName } from '../../core/winding/paths/writtenPaths.ts';
import type { Subject } from '../protocol/subject.ts';
import { connectionOf } from './barUse.ts';
import { textOf } from './marks.ts';

// The names that pictures and the panel's page give to places of the text, and where those stand at present. The
// page knows names alone, so that nothing is sent to it where a text is written above them.

/** Names of findings, in their order: `finding CODE N`, the Nth of its code. */
export function findingPlaces(findings: readonly Finding[]): readonly string[] {
  const counts = new Map<string, number>();
  return findings.map(({ code }) => {
    const number = (counts.get(code) ?? 0) + 1;
    counts.set(code, number);
    return `finding ${code} ${number}`;
  });
}

/**
 * Where the place of this name stands in the text of the study, null where there is none: `finding CODE N`,
 * `limit N` (the Nth of the require block), `path U 1`, `bar 7b`, `joint 12`, `layout.layer.a`,
 * `machine.current` (block and statement) and `machine` (block).
 */
export function rangeOfPlace(study: CheckedText, place: string): Range | null {
  const [kind = '', ...rest] = place.split(' ');
  switch (kind) {
    case 'finding': {
      const index = findingPlaces(study.findings).indexOf(place);
      return study.findings[index]?.range ?? null;
    }
    case 'limit':
      return study.limits[Number(rest[0]) - 1]?.range ?? null;
    case 'path':
      return pathStatement(study, rest.join(' '));
    case 'bar':
      return textOf(study, { bar: rest[0] ?? '' });
    case 'joint':
      return textOf(study, { joint: Number(rest[0]) } satisfies Subject);
    default:
      return statementRange(study, place.split('.'));
  }
}

function pathStatement(study: CheckedText, name: string): Range | null {
  const phases = study.winding?.phases;
  const written = phases && connectionOf(study)?.written?.find(({ path }) => pathName(path, phases) === name);
  // A path that was found stands for the statement that asks for it.
  return written?.statement ?? statementRange(study, ['connect', 'route']);
}

function statementRange(study: CheckedText, [block, word, part]: readonly string[]): Range | null {
  const found = study.document.blocks.find(({ name }) => name === block);
  if (found === undefined || word === undefined) return found?.word ?? null;
  if (block === 'layout' && word === 'layer' && part !== undefined) {
    const layer = layerOfLetter(part);
    return study.specification.layout?.rows.find(({ value }) => value.layer === layer)?.statement ?? null;
  }
  return found.statements.find(({ entry }) => entry.word === word)?.range ?? null;
}
