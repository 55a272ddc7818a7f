import { type LayerMark, layerMark, wholeNumber } from './cells.ts';
import type { GridRow } from './grid.ts';

/** What a column holds. */
export type HeadingKind =
  | 'slot'
  | 'layer'
  | 'position'
  | 'phase'
  | 'sense'
  | 'path'
  | 'place'
  | 'bars'
  | 'number'
  | 'layer-places'
  | 'layer-sense'
  | 'derived';

export interface Heading {
  /** Null where it is none of these. */
  readonly kind: HeadingKind | null;
  /** The layer that `layer-places` and `layer-sense` are of. */
  readonly layer?: LayerMark;
}

const senseWords = 'sense|sign|direction|polarity|richtung|vorzeichen';

/** Words that head columns, in English and German as the trade has them. */
const words: readonly (readonly [HeadingKind, RegExp])[] = [
  ['slot', /^(?:slots?|nut(?:en)?)(?: (?:no|nr|number|nummer))?$|^nutnummer$|^(?:no|nr)$/],
  ['layer', /^(?:layers?|lage|schicht)$|^layer slot$/],
  ['position', /^(?:position|bar|place|stab)$/],
  ['phase', /^(?:phases?|strang)$/],
  ['sense', new RegExp(`^(?:${senseWords})$`)],
  ['path', /^(?:(?:parallel )?paths?|branch|zweig)(?: (?:no|nr|number))?$/],
  ['place', /^(?:place in path|place in sequence|order|sequence no|step|reihenfolge)$/],
  ['bars', /^(?:bars|bar sequence|sequence|positions|stäbe|stabfolge)$/],
  // Our own schedule of bars tells these, which follow from the rest.
  ['derived', /^(?:shape|length mm|emf angle)$/],
];

/** A heading in plain small words: `placeInPath` and `Place_in_path` are `place in path`. */
function plainHeading(text: string): string {
  return text
    .replace(/([a-z])([A-Z])/g, '$1 $2')
    .toLowerCase()
    .replace(/[[(].*?[\])]/g, ' ')
    .replace(/[\s_.:#/\\-]+/g, ' ')
    .trim();
}

/** What the columns under a row of headings hold. */
export function headingsOf(header: GridRow): readonly Heading[] {
  const hasSlot = header.some(({ text }) => kindOf(plainHeading(text)) === 'slot');
  return header.map(({ text }): Heading => {
    const plain = plainHeading(text);
    const kind = kindOf(plain);
    if (kind) return { kind };
    if (!hasSlot) return { kind: wholeNumber(plain) !== null ? 'number' : null };
    const [, before, after] =
      new RegExp(`^(?:(.+) (?:${senseWords})|(?:${senseWords}) (.+))$`).exec(plain) ?? [];
    const ofSense = before ?? after;
    const layer = ofSense === undefined ? null : layerMark(ofSense);
    if (layer) return { kind: 'layer-sense', layer };
    const own = namedLayer(plain);
    return own ? { kind: 'layer-places', layer: own } : { kind: null };
  });
}

function kindOf(plain: string): HeadingKind | null {
  return words.find(([, pattern]) => pattern.test(plain))?.[0] ?? null;
}

/** `a`, `layer a`, `layer 1`, `1`, `l1`; of two layers `inner`, nearer the axis, and `outer`. */
function namedLayer(plain: string): LayerMark | null {
  const side = /^(inner|outer)(?: layer)?$/.exec(plain)?.[1];
  if (side) return { by: 'letter', index: side === 'inner' ? 0 : 1 };
  return layerMark(plain);
}

/** Whether a heading tells layers by names that do not say which one is nearer the axis. */
export function isUnclearLayer(text: string): boolean {
  return /^(?:top|bottom|upper|lower)(?: layer)?$|^(?:ober|unter)(?:lage|schicht)$/.test(plainHeading(text));
}

/** A path as a heading names it: `U1`, `U 1`, `path U 1`, `1U 2`; null where it is none. */
export function pathHeading(text: string): { readonly phase: string; readonly number: number } | null {
  const read = /^(?:path\s+)?(\d?[a-z])\s*[ /_-]?\s*(\d{1,4})$/i.exec(text);
  return read && Number(read[2]) >= 1 && Number(read[2]) <= 2400
    ? { phase: read[1]!, number: Number(read[2]) }
    : null;
}
