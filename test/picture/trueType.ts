import { readFileSync } from 'node:fs';

/** What of a TrueType font decides the width and height of a line of text, in font units. */
export interface TrueTypeMetrics {
  readonly unitsPerEm: number;
  readonly ascent: number;
  readonly descent: number;
  /** Advance width of a code point, or null where the font has no glyph for it. */
  readonly advance: (codePoint: number) => number | null;
}

/** Reads the head, hhea, hmtx and cmap (format 12) tables; layout after the OpenType specification 1.9. */
export function readTrueType(path: string): TrueTypeMetrics {
  const data = new DataView(new Uint8Array(readFileSync(path)).buffer);
  const table = (tag: string): number => {
    for (let index = 0; index < data.getUint16(4); index++) {
      const record = 12 + 16 * index;
      const name = String.fromCharCode(...[0, 1, 2, 3].map((at) => data.getUint8(record + at)));
      if (name === tag) return data.getUint32(record + 8);
    }
    throw new RangeError(`${path} has no table ${tag}`);
  };
  const hhea = table('hhea');
  const hmtx = table('hmtx');
  const longMetrics = data.getUint16(hhea + 34);
  const glyphOf = readCharacterMap(data, table('cmap'));
  return {
    unitsPerEm: data.getUint16(table('head') + 18),
    ascent: data.getInt16(hhea + 4),
    descent: -data.getInt16(hhea + 6),
    advance: (codePoint) => {
      const glyph = glyphOf(codePoint);
      return glyph === 0 ? null : data.getUint16(hmtx + 4 * Math.min(glyph, longMetrics - 1));
    },
  };
}

function readCharacterMap(data: DataView, cmap: number): (codePoint: number) => number {
  for (let index = 0; index < data.getUint16(cmap + 2); index++) {
    const subtable = cmap + data.getUint32(cmap + 4 + 8 * index + 4);
    if (data.getUint16(subtable) !== 12) continue;
    return (codePoint) => {
      for (let group = 0; group < data.getUint32(subtable + 12); group++) {
        const at = subtable + 16 + 12 * group;
        const first = data.getUint32(at);
        if (codePoint >= first && codePoint <= data.getUint32(at + 4))
          return data.getUint32(at + 8) + codePoint - first;
      }
      return 0;
    };
  }
  throw new RangeError('The font has no character map of format 12');
}
