import type { ConnectionFacts } from '../facts/connection.ts';
import type { Facts } from '../facts/facts.ts';
import { orNull } from '../figures/figure.ts';
import { pieceOrder } from '../space/pieceOrder.ts';
import type { ConnectingPiece } from '../space/space.ts';
import type { JointReason, WindingJoint } from '../winding/joints/joints.ts';
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
const free: readonly JointReason[] = ['turn-outer', 'unpaired', 'between-coils'];
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
  if (ring !== null)
    return {
      numbers,
      remarks: [plain, `Joints ${ring.join(', ')} hide each other: no order sets all of them.`],
    };
  const pieces = orNull(facts.space().space)?.links ?? [];
  return pieces.length === 0 ? { numbers, remarks: [plain] } : withPieces(numbers, joints, pieces);
}

/** The order of joints with their pieces, as far as these can be put on in it. */
function withPieces(
  numbers: readonly number[],
  joints: readonly WindingJoint[],
  pieces: readonly ConnectingPiece[],
): SettingOrder {
  const pieceOf = new Map(pieces.map((piece) => [piece.joint, piece] as const));
  const jointOf = new Map(joints.map((joint) => [joint.number, joint] as const));
  const standing = numbers.flatMap((number) => pieceOf.get(number) ?? []);
  const { locked } = pieceOrder(standing, new Map());
  if (locked.length > 0)
    return {
      numbers,
      remarks: [
        plain,
        `Pieces of joints ${locked.join(', ')} cannot all be put on along the axis: some lie over and under each other.`,
      ],
    };
  const isFree = (number: number) => free.includes(jointOf.get(number)!.reason);
  const ordered = pieceOrder(standing, waitingPieces(standing, isFree));
  if (ordered.locked.length > 0) return { numbers, remarks: [plain] };
  const all = [...numbers.filter((number) => !pieceOf.has(number)), ...ordered.order];
  return {
    numbers: sides.flatMap((side) => all.filter((number) => jointOf.get(number)!.side === side)),
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
