import { unmeasured } from './withoutEnds.ts';

/**
 * The text with the paths that are found for it written into it, so that a text made of it keeps them and none are
 * sought again; the text itself where none are found, or all are written.
 */
export function writtenOut(text: string): string {
  const edit = unmeasured(text).writeOutPaths();
  return edit ? text.slice(0, edit.range.start) + edit.text + text.slice(edit.range.end) : text;
}
