import type { Facts } from '../facts/facts.ts';
import { type Finding, finding, findingKind, type Range } from '../language/finding.ts';
import { plural } from '../language/lists.ts';

/** Most characters of notes that the handover sheets print, about ten sheets of size A3. */
export const mostNoteCharacters = 40_000;

export const notesLong = findingKind<{ printed: number; left: number }>({
  code: 'sheet-notes-long',
  severity: 'warning',
  help: 'The handover sheets print 40 000 characters of notes; notes behind these are not on them.',
  message: ({ printed, left }) =>
    `The handover sheets have room for ${mostNoteCharacters} characters of notes, and print ${plural(printed, 'note')}; this one${left > 1 ? ` and ${left - 1} more behind it` : ''} ${left > 1 ? 'are' : 'is'} not on them.`,
});

export const releasedUnwritten = findingKind<{ hash: string }>({
  code: 'released-paths-unwritten',
  severity: 'warning',
  help: 'Another version, limit or size may find other paths for the same text; a released drawing needs its paths written out.',
  message: ({ hash }) =>
    `The status is Released, and the paths (${hash}) are found, not written out: another version may find others.`,
});

/** Tells a released sheet whose paths are not in the text; `write` is the edit that puts them there. */
export function checkReleased(
  facts: Facts,
  write: { readonly range: Range; readonly text: string } | null,
): readonly Finding[] {
  const status = facts.specification.sheet?.status;
  const { connection } = facts;
  if (status?.value.trim().toLowerCase() !== 'released' || connection.kind !== 'connected' || !write)
    return [];
  const fix = { title: 'Write out the found paths', edits: [write] };
  return [finding(releasedUnwritten, status.range, { hash: connection.facts.hash() }, { fix })];
}

/** How many of the first notes are printed. */
export function printedNotes(notes: readonly { readonly value: string }[]): number {
  let characters = 0;
  const tooMany = notes.findIndex(({ value }) => {
    characters += value.length;
    return characters > mostNoteCharacters;
  });
  return tooMany < 0 ? notes.length : tooMany;
}

/** Tells notes that are not on the sheets. */
export function checkNotes({ specification }: Facts): readonly Finding[] {
  const notes = specification.sheet?.notes ?? [];
  const printed = printedNotes(notes);
  const next = notes[printed];
  return next ? [finding(notesLong, next.range, { printed, left: notes.length - printed })] : [];
}
