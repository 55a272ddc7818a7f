import { senseInPath } from '../../core/balance/validity.ts';
import { type ConnectionFacts, joinedFacts } from '../../core/facts/connection.ts';
import type { CheckedText } from '../../core/findings/checkedText.ts';
import { layerOfLetter } from '../../core/language/layerLetters.ts';
import { emfAngle } from '../../core/winding/angles.ts';
import { type Bar, cellAt, type Path, phaseOfCell, type Winding } from '../../core/winding/model.ts';

/** Where a bar stands in the winding. */
export interface BarUse {
  readonly bar: Bar;
  /** Index of its phase, from 0. */
  readonly phase: number;
  readonly sense: 1 | -1;
  /** The path it belongs to, and its index there; null while bars are not joined. */
  readonly place: { readonly path: Path; readonly pathIndex: number; readonly index: number } | null;
  /** Electrical degrees of its EMF, 0 <= angle < 360, its sense counted. */
  readonly emfAngle: number;
}

/** The bar a position such as `7b` names, if there is such a place. */
export function barNamed(winding: Winding, name: string): Bar | null {
  const parts = /^(\d{1,4})([a-z])$/.exec(name);
  if (!parts) return null;
  const bar = { slot: Number(parts[1]), layer: layerOfLetter(parts[2]!) };
  const inside = bar.slot >= 1 && bar.slot <= winding.slots && bar.layer < winding.layers;
  return inside ? bar : null;
}

/** How a bar is used; null where the place is empty. */
export function barUse(study: CheckedText, bar: Bar): BarUse | null {
  const { winding } = study;
  const cell = winding ? cellAt(winding.table, bar.slot, bar.layer) : 0;
  if (!winding || cell === 0) return null;
  const place = placeOf(connectionOf(study), bar);
  const sense = place ? senseInPath(place.path, place.index) : cell > 0 ? 1 : -1;
  return { bar, phase: phaseOfCell(cell), sense, place, emfAngle: emfAngle(winding, bar, sense) };
}

/** The facts of the joined bars, null where they are not joined. */
export function connectionOf({ facts }: CheckedText): ConnectionFacts | null {
  return facts && joinedFacts(facts);
}

function placeOf(connection: ConnectionFacts | null, { slot, layer }: Bar): BarUse['place'] {
  for (const [pathIndex, path] of (connection?.paths ?? []).entries()) {
    const index = path.bars.findIndex((bar) => bar.slot === slot && bar.layer === layer);
    if (index >= 0) return { path, pathIndex, index };
  }
  return null;
}
