import { slotAngle } from '../../winding/angles.ts';
import { barName } from '../../winding/model.ts';
import type { ConnectingPiece, EndRing, Space } from '../space.ts';
import { along, type BarState, barLine, lineOf } from './barLines.ts';
import type { BentBar } from './bentBars.ts';
import type { CadProduct } from './writeStep.ts';

/** What of a winding a CAD file holds. */
export interface CadWish {
  /**
   * Only the bars of this shape, `5`, or of one kind of it, `5-A`, by themselves in slot 1; null: everything as it
   * stands.
   */
  readonly shape: string | null;
  readonly state: BarState;
}

/**
 * The products of a winding: each kind of bar with an occurrence for each bar or hairpin, then connecting
 * pieces and rings. Before they are put in there are bars only.
 */
export function cadProducts(
  space: Space,
  bars: readonly BentBar[],
  { shape, state }: CadWish,
): readonly CadProduct[] {
  const made = bars
    .filter((bar) => shape === null || shape === bar.name || shape === String(bar.shape))
    .map((bar) => barProduct(space, bar, state, shape !== null));
  if (shape !== null || state === 'before') return made;
  return [...made, ...pieceProducts(space), ...space.rings.map((ring, index) => ringProduct(ring, index))];
}

function barProduct(space: Space, bar: BentBar, state: BarState, alone: boolean): CadProduct {
  const words = state === 'before' ? ', before it is put in' : '';
  const places = bar.places.map((own) => ({
    name: own.map(barName).join('-'),
    turn: slotAngle(space.slots, own[0]!.slot),
  }));
  return {
    name: `Bar shape ${bar.name}${words}`,
    line: barLine(space, bar.legs, state),
    places: alone ? [{ name: `Bar shape ${bar.name}`, turn: 0 }] : places,
  };
}

/** Connecting pieces; those made of the same center line are one product. */
function pieceProducts({ links }: Space): readonly CadProduct[] {
  const alike = new Map<unknown, ConnectingPiece[]>();
  for (const link of links) alike.set(link.pieces, [...(alike.get(link.pieces) ?? []), link]);
  return [...alike.values()].map((own, index) => {
    const [first] = own as [ConnectingPiece];
    return {
      name: `Connecting piece ${index + 1}, level ${first.level}`,
      line: lineOf(first.section, along(first.pieces, 0)),
      places: own.map(({ joint, turn }) => ({ name: `Joint ${joint}`, turn })),
    };
  });
}

function ringProduct(ring: EndRing, index: number): CadProduct {
  return {
    name: `Ring ${index + 1}, ${ring.name}`,
    line: lineOf(ring.section, along([ring.piece], 0)),
    places: [{ name: ring.name, turn: 0 }],
  };
}
