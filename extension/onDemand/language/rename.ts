import type { Range as EditorRange, Position, TextDocument, WorkspaceEdit } from 'vscode';
import type { CheckedText } from '../../../core/findings/checkedText.ts';
import type { Range } from '../../../core/language/finding.ts';
import { editOf, editorRange } from '../../edits.ts';
import { l10n } from '../../wording.ts';
import { type Named, namedAt, phaseNames, placesOf } from './named.ts';

/** The stretch that a new name replaces; throws with the reason where nothing here can be renamed. */
export function renamedRange(
  study: CheckedText,
  document: TextDocument,
  position: Position,
): { readonly range: EditorRange; readonly placeholder: string } {
  const named = renamable(study, document.offsetAt(position));
  const range = nameRange(study, named);
  return { range: editorRange(document, range), placeholder: study.text.slice(range.start, range.end) };
}

/**
 * The edit that gives a phase, a path or a point of the duty another name. A name that another of them has goes to
 * the one that had the new name: the two are exchanged. Throws with the reason where the name cannot be taken.
 */
export function renameEdit(
  study: CheckedText,
  document: TextDocument,
  position: Position,
  to: string,
): WorkspaceEdit {
  const named = renamable(study, document.offsetAt(position));
  return editOf(document, replacements(study, named, to.trim()));
}

type Renamable = Extract<Named, { readonly kind: 'phase' | 'path' | 'point' }>;

/** What can be renamed at an offset: on a place of a row its phase, on a path its number. */
function renamable(study: CheckedText, offset: number): Renamable {
  const named = namedAt(study, offset) ?? signedPhaseAt(study, offset);
  if (named?.kind === 'bars' && named.written === 'place') {
    const phase = signedPhaseAt(study, offset);
    if (phase) return phase;
  }
  if (named?.kind === 'phase' || named?.kind === 'path' || named?.kind === 'point') return named;
  throw new Error(
    l10n.t('Phases, numbers of paths and points of the duty can be renamed; this is none of them.'),
  );
}

function signedPhaseAt({ document }: CheckedText, offset: number): Renamable | null {
  const token = document.tokens.find(
    ({ kind, start, end }) => kind === 'signed-phase' && start <= offset && offset <= end,
  );
  if (!token) return null;
  const name = token.text.slice(1);
  return { kind: 'phase', name, range: { start: token.end - name.length, end: token.end } };
}

/** Where its own name stands, without quotes. */
function nameRange(study: CheckedText, named: Renamable): Range {
  if (named.kind === 'point') return { start: named.range.start + 1, end: named.range.end - 1 };
  if (named.kind === 'phase') return named.range;
  const number = numberRange(study, named.phase, named.number);
  return number ?? named.range;
}

interface Replacement {
  readonly range: Range;
  readonly text: string;
}

function replacements(study: CheckedText, named: Renamable, to: string): readonly Replacement[] {
  switch (named.kind) {
    case 'phase':
      return phaseReplacements(study, named.name, to);
    case 'path':
      return pathReplacements(study, named.phase, named.number, to);
    case 'point':
      return pointReplacements(study, named.name, to);
  }
}

/** Names of phases follow from their number, so a phase takes the name of another one, which takes its own. */
function phaseReplacements(study: CheckedText, from: string, to: string): readonly Replacement[] {
  const names = study.winding?.phases.names ?? [];
  if (!names.includes(from) || !names.includes(to))
    throw new Error(
      l10n.t(
        'The phases of this machine are {0}: with another of these names the two are exchanged.',
        names.join(', '),
      ),
    );
  if (study.winding?.origin.kind === 'generated')
    throw new Error(
      l10n.t(
        'The phases of a layout from a coil span lie where it lays them. Write the layout as rows to exchange two.',
      ),
    );
  const written = (name: string, other: string) =>
    phaseNames(study, name).map((range) => ({ range, text: other }));
  return from === to ? [] : [...written(from, to), ...written(to, from)];
}

function pathReplacements(
  study: CheckedText,
  phase: string,
  from: number,
  to: string,
): readonly Replacement[] {
  const number = Number(to);
  if (!/^\d+$/.test(to) || number < 1 || number > 2400)
    throw new Error(l10n.t('The number of a path is a whole number from 1 to 2400.'));
  const [own, other] = [numberRange(study, phase, from), numberRange(study, phase, number)];
  if (!own || number === from) return [];
  return [{ range: own, text: String(number) }, ...(other ? [{ range: other, text: String(from) }] : [])];
}

function numberRange({ specification }: CheckedText, phase: string, number: number): Range | null {
  const path = specification.connect?.paths.find(
    ({ value }) => value.phase.value === phase && value.number.value === number,
  );
  return path?.value.number.range ?? null;
}

function pointReplacements(study: CheckedText, from: string, to: string): readonly Replacement[] {
  const name = to.replace(/^"(.*)"$/, '$1');
  if (name === '' || /["\\\r\n]/.test(name))
    throw new Error(l10n.t('The name of a point is a text without quotes and backslashes.'));
  if (name !== from && study.specification.duty?.points.some(({ value }) => value.name === name))
    throw new Error(l10n.t('The duty has a point "{0}" already.', name));
  const places = placesOf(study, { kind: 'point', name: from, range: { start: 0, end: 0 } });
  return places.map(({ range }) => ({ range, text: `"${name}"` }));
}
