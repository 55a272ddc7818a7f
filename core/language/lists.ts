/** Words as they stand in a sentence: `a`, `a and b`, `a, b and c`. */
export function listed(parts: readonly string[]): string {
  return parts.length < 2
    ? (parts[0] ?? '')
    : `${parts.slice(0, -1).join(', ')} and ${parts[parts.length - 1]}`;
}

/** The first `most` of some names, and how many more there are. */
export function firstOf(names: readonly string[], most: number): string {
  const shown = names.slice(0, most).join(', ');
  return names.length > most ? `${shown} and ${names.length - most} more` : shown;
}

/** `3 bars`, `1 bar`, `-1 slot`: a count, or a number as it is shown, with its word. */
export function plural(count: number | string, word: string, many = `${word}s`): string {
  return `${count} ${isOne(count) ? word : many}`;
}

/** Whether what is counted, or shown as a number, is one thing, so that its verb stands in the singular. */
export function isOne(count: number | string): boolean {
  return /^[+\-\u2212]?1$/.test(String(count));
}
