import type { Path } from '../model.ts';

/**
 * Eight hexadecimal digits, parted so that no forge takes them for a commit, of what paths are: phases, numbers,
 * terminals, bars, spans, pieces (FNV-1a, 32 bits, public domain). Equal paths have equal hashes; different ones
 * differ but for one in four billion.
 */
export function pathsHash(paths: readonly Path[]): string {
  let hash = 0x811c9dc5;
  const put = (text: string) => {
    for (let index = 0; index < text.length; index++)
      hash = Math.imul(hash ^ text.charCodeAt(index), 0x01000193) >>> 0;
  };
  for (const { phase, number, bars, spans, pieces, from, to, startsFar, endsFar } of paths) {
    put(`${phase} ${number} ${from} ${startsFar} ${to} ${endsFar};`);
    bars.forEach(({ slot, layer }, index) => {
      put(`${slot} ${layer} ${spans[index] ?? ''} ${pieces[index] ?? ''};`);
    });
  }
  const digits = hash.toString(16).padStart(8, '0');
  return `${digits.slice(0, 4)}-${digits.slice(4)}`;
}
