/** A sentence with its values in place of `{0}`, `{1}` ... */
export function filledIn(sentence: string, values: readonly (string | number)[]): string {
  return values.length === 0
    ? sentence
    : sentence.replace(/\{(\d+)\}/g, (mark, index) => String(values[Number(index)] ?? mark));
}
