/**
 * What shows nothing itself and could disturb a terminal or a page, or make text look like another: control
 * and format characters, line and paragraph separators, halves of surrogate pairs. Number signs of Arabic,
 * Syriac and Kaithi are format characters by their category, but letters to the eye.
 */
const unseen =
  /\p{Cc}|\p{Zl}|\p{Zp}|\p{Cs}|(?![\u0600-\u0605\u06dd\u070f\u0890\u0891\u08e2\u{110bd}\u{110cd}])\p{Cf}/gu;

/** A joiner where spelling needs it: within words of the scripts that join letters, and within a pictograph. */
const neededJoiner =
  /(?<=[\p{L}\p{M}])(?<![\p{Script=Latin}\p{Script=Greek}\p{Script=Cyrillic}])[\u200c\u200d](?=\p{L})(?![\p{Script=Latin}\p{Script=Greek}\p{Script=Cyrillic}])|(?<=[\p{Extended_Pictographic}\p{Emoji_Modifier}]\ufe0f?)\u200d(?=\p{Extended_Pictographic})/uy;

/** What build servers take for a command wherever it stands in a line of their log: `##[name]`, `##name[`. */
const buildCommand = /##(?=[a-z]*\[)/gi;

const replacement = '\ufffd';

/**
 * Text of the user as it may stand on a page, in a message, in a log: every unseen character becomes U+FFFD
 * (joiners stay where spelling needs them), and U+FFFD parts what a build server would take for a command.
 */
export function visible(text: string): string {
  return partCommands(
    replaceUnseen(text, () => replacement),
    `##${replacement}`,
  );
}

/** The text with `parted` for the `##` of what a build server would take for a command. */
export function partCommands(text: string, parted: string): string {
  return text.includes('##') ? text.replace(buildCommand, parted) : text;
}

/** The text with every unseen character replaced by what `shown` gives for it. */
export function replaceUnseen(text: string, shown: (character: string) => string): string {
  // Nearly all texts are of plain letters, which is quick to see.
  if (/^[ -~]*$/.test(text)) return text;
  return text.replace(unseen, (character, at: number) => {
    neededJoiner.lastIndex = at;
    return neededJoiner.test(text) ? character : shown(character);
  });
}
