import { partCommands, replaceUnseen, visible } from '../core/language/text/visible.ts';
import { nameOf, UsageError } from './files/files.ts';

// What the program prints may stand in the log of a build server, which takes lines that begin with `::`
// after blanks, and `##[name]` anywhere, for commands. Names and text of the user must not become any.

/** The name of a file as it may begin a line; `<stdin>` for standard input. */
export function shownName(file: string): string {
  if (file === '-') return '<stdin>';
  return visible(/^\s*::/.test(file) ? `./${file}` : file);
}

/** What is wrong, as one line for standard error. */
export function complaintLine(message: string): string {
  return `slotwright: ${visible(message)}\n`;
}

/** A line by the parser of the command line, which may quote arguments; its hints begin lines of their own. */
export function usageLine(message: string): string {
  const lines = message.trimEnd().split(/\n(?=\(Did you mean )/);
  return `${lines.map(visible).join('\n')}\n`;
}

/** JSON text, indented; characters that show nothing and commands of build servers are written by number. */
export function jsonText(content: object): string {
  // Between line ends, nearly all of it is plain letters, which need no look.
  const inert = JSON.stringify(content, null, 2).replace(/[^\n -~]+/g, (odd) => replaceUnseen(odd, escapes));
  return `${partCommands(inert, '#\\u0023')}\n`;
}

function escapes(character: string): string {
  return Array.from(
    { length: character.length },
    (_, i) => `\\u${character.charCodeAt(i).toString(16).padStart(4, '0')}`,
  ).join('');
}

/**
 * The text of a winding for standard output, as it stands. Throws UsageError where a build server would take a
 * line of it for a command; `way` says how to have it in a file instead.
 */
export function printedText(file: string, text: string, way: string): string {
  const line = commandLine(text);
  if (line === null) return text;
  throw new UsageError(
    `${nameOf(file)}: build servers would take line ${line} for a command if it were printed ('::' begins it, or '##' stands before a bracket); ${way}.`,
  );
}

/** Number of the first line that a build server would take for a command, from 1; null where there is none. */
function commandLine(text: string): number | null {
  const at = /^(?:(?![\r\n])[\s\p{Cf}\0])*::|##[a-z]*\[/imu.exec(text)?.index;
  return at === undefined ? null : text.slice(0, at).split(/\r\n|\r|\n/).length;
}
