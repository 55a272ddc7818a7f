import { partCommands, replaceUnseen, visible } from '../core/language/text/visible.ts';

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

/** Number of the first line that a build server would take for a command, from 1; null where there is none. */
export function commandLine(text: string): number | null {
  const at = /^(?:(?![\r\n])[\s\p{Cf}\0])*::|##[a-z]*\[/imu.exec(text)?.index;
  return at === undefined ? null : text.slice(0, at).split(/\r\n|\r|\n/).length;
}
