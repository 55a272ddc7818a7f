const first = 'a'.charCodeAt(0);

/** The letter of a layer: 0 is a. */
export function layerLetter(layer: number): string {
  return String.fromCharCode(first + layer);
}

/** The layer of a small letter, from 0. */
export function layerOfLetter(letter: string): number {
  return letter.charCodeAt(0) - first;
}
