const first = 'a'.charCodeAt(0);

/** The letter of a layer: 0 is a. */
export function layerLetter(layer: number): string {
  return String.fromCharCode(first + layer);
}

/** The letters of some layers, as a text names them: `a b`. */
export function layerLetters(layers: readonly number[]): string {
  return layers.map(layerLetter).join(' ');
}

/** The layer of a small letter, from 0. */
export function layerOfLetter(letter: string): number {
  return letter.charCodeAt(0) - first;
}
