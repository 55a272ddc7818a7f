import type { Connections, WindingJoint } from './joints.ts';
import { offsetOf } from './joints.ts';
import type { Path } from './model.ts';

/** Whether a hairpin is bent at the crown, or every bar is a straight piece joined on both sides. */
export type BarForm = 'hairpin' | 'straight';

/** How one end of a bar is bent: slots to the joint's other bar, from this bar; null: a straight end. */
interface EndBend {
  readonly layer: number;
  readonly bend: number | null;
}

/** Pieces of copper bent alike. A hairpin is two legs and a crown; a single bar has no crown. */
export interface BarShape {
  readonly number: number;
  readonly form: 'hairpin' | 'single-bar' | 'straight';
  /** Hairpins: slots from the leg in the lower layer to the other. */
  readonly crown: number | null;
  /** Legs in layer order; for a straight bar its connection-side end, then its far-side end. */
  readonly ends: readonly EndBend[];
  readonly count: number;
  /** Joint numbers of crowns (hairpins), else empty: where to find one. */
  readonly crowns: readonly number[];
}

/**
 * The pieces that the shop makes. Leads, star connections and the ends under a separate connecting
 * piece are straight; mirror images are different shapes. Far-side joints made by a separate piece
 * join two single bars.
 */
export function barShapes(paths: readonly Path[], connections: Connections, form: BarForm): BarShape[] {
  const byPlace = new Map(connections.joints.map((joint) => [`${joint.path} ${joint.position}`, joint]));
  const shapes = new Map<string, BarShape>();
  const add = (piece: Omit<BarShape, 'number' | 'count' | 'crowns'>, crown: WindingJoint | null) => {
    const key = JSON.stringify([piece.form, piece.crown, piece.ends.map((end) => [end.layer, end.bend])]);
    const known = shapes.get(key) ?? { ...piece, number: shapes.size + 1, count: 0, crowns: [] };
    shapes.set(key, {
      ...known,
      count: known.count + 1,
      crowns: crown ? [...known.crowns, crown.number] : known.crowns,
    });
  };
  paths.forEach((path, index) => {
    for (let position = 0; position < path.bars.length; position++) {
      const before = byPlace.get(`${index} ${position - 1}`);
      const after = byPlace.get(`${index} ${position}`);
      const layer = path.bars[position]!.layer;
      const crown = crownOf(after, form);
      if (crown) {
        const beyond = byPlace.get(`${index} ${position + 1}`);
        const next = path.bars[position + 1]!.layer;
        const legs = [
          { layer, bend: bendFrom(before, 'to') },
          { layer: next, bend: bendFrom(beyond, 'from') },
        ];
        const ordered = layer < next || (layer === next && crown.span >= 0) ? legs : [legs[1]!, legs[0]!];
        add({ form: 'hairpin', crown: offsetOf(crown), ends: ordered }, crown);
        position++;
        continue;
      }
      const ends = [
        { layer, bend: bendFrom(before, 'to') },
        { layer, bend: bendFrom(after, 'from') },
      ];
      const startsFar = sideBefore(path, position) === 'far';
      add(
        {
          form: form === 'hairpin' ? 'single-bar' : 'straight',
          crown: null,
          ends: startsFar ? [ends[1]!, ends[0]!] : ends,
        },
        null,
      );
    }
  });
  return [...shapes.values()];
}

/**
 * Connection-side legs of hairpins that bend by another amount than the regular joints bend their
 * layer ring; such rings cannot be bent in one stroke. Straight ends are not counted.
 */
export function legsBentApart(connections: Connections): number {
  const { bends } = connections;
  let count = 0;
  for (const joint of connections.joints) {
    if (joint.side !== 'connection' || joint.kind === 'jumper') continue;
    for (const end of ['from', 'to'] as const) {
      const { layer } = joint[end];
      const offset = bends.connection[Math.floor(layer / 2)];
      const ring = offset == null ? null : layer % 2 === 0 ? offset : -offset;
      const bend = end === 'from' ? joint.span : -joint.span;
      if (ring !== null && bend !== ring) count++;
    }
  }
  return count;
}

function crownOf(joint: WindingJoint | undefined, form: BarForm): WindingJoint | null {
  return form === 'hairpin' && joint?.side === 'far' && !joint.separatePiece ? joint : null;
}

function bendFrom(joint: WindingJoint | undefined, end: 'from' | 'to'): number | null {
  if (!joint || joint.separatePiece || (joint.kind === 'jumper' && joint.side === 'connection')) return null;
  return end === 'from' ? joint.span : -joint.span;
}

function sideBefore(path: Path, position: number): 'connection' | 'far' {
  return (position % 2 === 0) === path.startsFar ? 'far' : 'connection';
}
