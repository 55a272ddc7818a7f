import type { Bar, Path } from '../model.ts';
import type { Bends } from './bends.ts';
import type { Connections, WindingJoint } from './joints.ts';
import { isPiece, lowerBar, offsetOf } from './joints.ts';

/** Whether a hairpin is bent at the crown, or every bar is a straight piece joined on both sides. */
export type BarForm = 'hairpin' | 'straight';

/** How one end of a bar is bent: slots to the joint's other bar, from this bar; null: a straight end. */
interface EndBend {
  /** From 0. */
  readonly layer: number;
  /** Slots to the bar it is joined with, signed; null where nothing bends it. */
  readonly bend: number | null;
}

/** Pieces of copper bent alike. A hairpin is two legs and a crown; a single bar has no crown. */
export interface BarShape {
  /** From 1. */
  readonly number: number;
  readonly form: 'hairpin' | 'single-bar' | 'straight';
  /** Hairpins: slots from the leg in the lower layer to the other. */
  readonly crown: number | null;
  /** Legs in layer order; for a straight bar its connection-side end, then its far-side end. */
  readonly ends: readonly EndBend[];
  /** Pieces of it. */
  readonly count: number;
  /** Joint numbers of crowns (hairpins), else empty: where to find one. */
  readonly crowns: readonly number[];
  /** The bars of all its pieces, in the order of the paths. */
  readonly bars: readonly Bar[];
}

/**
 * The pieces that the shop makes. Leads, star connections and the ends under a separate connecting
 * piece are straight; mirror images are different shapes. Far-side joints made by a separate piece
 * join two single bars.
 */
export function barShapes(paths: readonly Path[], connections: Connections, form: BarForm): BarShape[] {
  const shapes = shapeList();
  const alongPaths = jointsAlongPaths(paths, connections);
  const single = form === 'hairpin' ? 'single-bar' : 'straight';
  paths.forEach((path, index) => {
    const joints = alongPaths[index]!;
    for (let position = 0; position < path.bars.length; position++) {
      const bar = path.bars[position]!;
      const crown = crownOf(joints[position], form);
      if (crown) {
        const piece = shapes.add(
          'hairpin',
          crown,
          hairpinEnds(crown, joints[position - 1], joints[position + 1]),
        );
        piece.crowns.push(crown.number);
        piece.bars.push(bar, path.bars[++position]!);
      } else {
        const ends = [
          { layer: bar.layer, bend: bendFrom(joints[position - 1], 'to') },
          { layer: bar.layer, bend: bendFrom(joints[position], 'from') },
        ];
        const startsFar = sideBefore(path, position) === 'far';
        shapes.add(single, null, startsFar ? [ends[1]!, ends[0]!] : ends).bars.push(bar);
      }
    }
  });
  return shapes.list;
}

/** The joints of each path, joint i leading from bar i to bar i + 1. */
function jointsAlongPaths(paths: readonly Path[], connections: Connections): (WindingJoint | undefined)[][] {
  const along = paths.map((path) => new Array<WindingJoint | undefined>(path.bars.length).fill(undefined));
  for (const joint of connections.joints) along[joint.path]![joint.position] = joint;
  return along;
}

/** A hairpin's legs in layer order; in one layer the crown runs from the first towards higher slots. */
function hairpinEnds(
  crown: WindingJoint,
  before: WindingJoint | undefined,
  after: WindingJoint | undefined,
): EndBend[] {
  const first = { layer: crown.from.layer, bend: bendFrom(before, 'to') };
  const second = { layer: crown.to.layer, bend: bendFrom(after, 'from') };
  return lowerBar(crown) === crown.from ? [first, second] : [second, first];
}

interface GrowingShape extends BarShape {
  count: number;
  readonly crowns: number[];
  readonly bars: Bar[];
}

/** A growing list of shapes; `add` counts a piece, under a new shape if it is the first of its kind. */
function shapeList() {
  const list: GrowingShape[] = [];
  const known = new Map<number, Map<number, GrowingShape>>();
  const add = (
    form: BarShape['form'],
    joint: WindingJoint | null,
    ends: readonly EndBend[],
  ): GrowingShape => {
    const crown = joint && offsetOf(joint);
    const [first, second] = ends as [EndBend, EndBend];
    const layers = (forms.indexOf(form) * mostLayers + first.layer) * mostLayers + second.layer;
    const outer = layers * bendKeys + bendKey(crown);
    const inner = bendKey(first.bend) * bendKeys + bendKey(second.bend);
    const alike = known.get(outer) ?? new Map<number, GrowingShape>();
    let shape = alike.get(inner);
    if (!shape) {
      shape = { form, crown, ends, number: list.length + 1, count: 0, crowns: [], bars: [] };
      known.set(outer, alike.set(inner, shape));
      list.push(shape);
    }
    shape.count++;
    return shape;
  };
  return { list, add };
}

const forms: readonly BarShape['form'][] = ['hairpin', 'single-bar', 'straight'];

// Parts of keys: far more layers and slots than a winding can have, and together less than 2^53.
const mostLayers = 1024;
const bendKeys = 2 ** 21;

/** A number from 0 to `bendKeys` - 1 for a bend of any size, or for none. */
function bendKey(bend: number | null): number {
  return bend === null ? 0 : bend + bendKeys / 2;
}

/**
 * Connection-side legs of hairpins that bend by another amount than the regular joints bend their
 * layer ring; such rings cannot be bent in one stroke. Straight ends are not counted.
 */
export function legsBentApart({ bends, joints }: Connections): number {
  let count = 0;
  for (const { side, kind, from, to, span } of joints) {
    if (side !== 'connection' || kind === 'jumper') continue;
    count += legApart(bends, from.layer, span) + legApart(bends, to.layer, -span);
  }
  return count;
}

/** 1 for a connection-side leg that is bent by another span than the regular joints bend its layer ring. */
export function legApart(bends: Bends, layer: number, span: number): 0 | 1 {
  const offset = bends.connection[Math.floor(layer / 2)];
  if (offset == null) return 0;
  return span === (layer % 2 === 0 ? offset : -offset) ? 0 : 1;
}

function crownOf(joint: WindingJoint | undefined, form: BarForm): WindingJoint | null {
  return form === 'hairpin' && joint?.side === 'far' && !isPiece(joint) ? joint : null;
}

function bendFrom(joint: WindingJoint | undefined, end: 'from' | 'to'): number | null {
  if (!joint || isPiece(joint)) return null;
  return end === 'from' ? joint.span : -joint.span;
}

function sideBefore(path: Path, position: number): 'connection' | 'far' {
  return (position % 2 === 0) === path.startsFar ? 'far' : 'connection';
}
