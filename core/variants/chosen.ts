import { itemText } from '../language/specification/series.ts';
import type { Value } from '../language/text/document.ts';
import { visible } from '../language/text/visible.ts';
import type { Evaluator } from './evaluate.ts';
import { editedText, type Setting, settingEdits } from './places.ts';

/** The edits that take a candidate over into the file: of its words, and of what follows from them. */
export function takeOverEdits({ question, settings }: Evaluator, number: number) {
  const set = settings(number);
  return set === null ? null : settingEdits(question.document, changed(set));
}

/** Settings that say what stands there already are no edits. */
function changed(settings: readonly Setting[]): readonly Setting[] {
  return settings.filter(
    ({ place, item }) =>
      place.kind === 'new' ||
      !place.statement.values.some(
        (value) => value.range === place.range && writtenText(value) === itemText(item),
      ),
  );
}

function writtenText(value: Value): string | null {
  return value.kind === 'quantity' ? value.written : value.kind === 'keyword' ? value.text : null;
}

/**
 * The text of a candidate as a file of its own: the values in place, without the block that asked, under a
 * line that says where it comes from. Null for a candidate that is refused.
 */
export function chosenText(evaluator: Evaluator, number: number, name: string): string | null {
  const { question } = evaluator;
  const edits = takeOverEdits(evaluator, number);
  const items = evaluator.values(number);
  if (edits === null || items === null) return null;
  const { text, document } = question;
  const block = document.blocks.find((one) => one.name === 'vary');
  const lead = block ? /(?:\r?\n[ \t]*)*$/.exec(text.slice(0, block.range.start))![0].length : 0;
  const removed = block
    ? [{ range: { start: block.range.start - lead, end: block.range.end }, text: lead > 0 ? '\n' : '' }]
    : [];
  const all = [...edits, ...removed].sort(
    (a, b) => a.range.start - b.range.start || a.range.end - b.range.end,
  );
  const names = question.rows.flatMap(({ columns }) => columns.map((column) => column.name));
  const values = items.map((item, at) => `${names[at]} ${itemText(item)}`).join(', ');
  // The block's own blank line goes with it.
  const made = editedText(text, all)
    .replace(/\s*$/, '\n')
    .replace(/\n{3,}(?=[a-z]+ \{\n[^}]*\}\n$)/, '\n\n');
  const mark = made.charCodeAt(0) === 0xfeff ? '\ufeff' : '';
  return `${mark}# Variant ${number} of ${visible(name)}: ${visible(values)}\n${made.slice(mark.length)}`;
}
