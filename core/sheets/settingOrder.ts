import type { ConnectionFacts } from '../facts/connection.ts';
import type { Facts } from '../facts/facts.ts';
import { orNull } from '../figures/figure.ts';
import { pieceOrder } from '../space/pieceOrder.ts';
import type { ConnectingPiece } from '../space/space.ts';
import type { EndSide } from '../winding/model.ts';

/** In which order the shop sets joints. */
export interface SettingOrder {
  /** Joint numbers; of joints in a ring those that hide each other come last. */
  readonly numbers: readonly number[];
  /** What it says of it in words. */
  readonly remarks: readonly string[];
}

const plain = 'In an order in which no joint is hidden by one set before.';
/** Reasons of pieces that lie where they hide no joint of the layers. */
const free: readonly string[] = ['turn-outer', 'unpaired', 'between-coils'];
const sides: readonly EndSide[] = ['connection', 'far'];

/**
 * The order in which no joint is hidden by one set before, and, where pieces stand in space, no piece comes to lie
 * under one put on before: on each side first the joints of two bars, then the pieces.
 */
export function settingOrder(facts: Facts, connection: ConnectionFacts): SettingOrder {
  const { joints } = connection.joints();
  const { order, ring } = connection.access();
  const placed = new Set(order);
  const numbers = [...order, ...joints.flatMap(({ number }) => (placed.has(number) ? [] : [number]))];
  const remarks =
    ring === null
      ? [plain]
      : [plain, `Joints ${ring.join(', ')} hide each other: no order sets all of them.`];
  const pieces = new Map(
    (orNull(facts.space().space)?.links ?? []).map((link) => [link.joint, link] as const),
  );
  if (pieces.size === 0 || ring !== null) return { numbers, remarks };
  const standing = numbers.flatMap((number) => pieces.get(number) ?? []);
  const { locked } = pieceOrder(standing, new Map());
  if (locked.length > 0)
    return {
      numbers,
      remarks: [
        plain,
        `Pieces of joints ${locked.join(', ')} cannot all be put on along the axis: some lie over and under each other.`,
      ],
    };
  const reasons = new Map(joints.map(({ number, reason }) => [number, reason] as const));
  const ordered = pieceOrder(
    standing,
    waitingPieces(standing, (number) => free.includes(reasons.get(number)!)),
  );
  if (ordered.locked.length > 0) return { numbers, remarks };
  const sideOf = new Map(joints.map(({ number, side }) => [number, side] as const));
  return {
    numbers: sides.flatMap((side) =>
      [...numbers.filter((number) => !pieces.has(number)), ...ordered.order].filter(
        (number) => sideOf.get(number) === side,
      ),
    ),
    remarks: [plain, 'Pieces go on along the axis: none comes to lie under one put on before.'],
  };
}

/** What a piece that may hide joints of the layers waits for: all that came before it. */
function waitingPieces(
  pieces: readonly ConnectingPiece[],
  isFree: (joint: number) => boolean,
): ReadonlyMap<number, ReadonlySet<number>> {
  return new Map(
    pieces.flatMap(({ joint }, index) =>
      isFree(joint) ? [] : [[joint, new Set(pieces.slice(0, index).map((piece) => piece.joint))] as const],
    ),
  );
}
