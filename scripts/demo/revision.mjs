// The change that the demonstration's review is about.
import { HouseError } from '../shell.mjs';

/**
 * The text with its coil span shortened by one slot, as a colleague may propose it to quiet the fifth and seventh
 * harmonics, and the line before and after.
 */
export function shorterSpan(text) {
  const line = text.match(/^([ \t]*span[ \t]+)(\d+)[ \t]*$/m);
  if (line === null || Number(line[2]) < 2)
    throw new HouseError('The example has no line "span N" that could be made shorter.');
  const changed = `${line[1]}${Number(line[2]) - 1}`;
  return {
    text: text.replace(line[0], changed),
    before: line[0].trim(),
    after: changed.trim(),
  };
}
