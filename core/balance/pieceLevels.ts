import { modulo } from '../winding/integers.ts';
import type { Connections } from '../winding/joints/joints.ts';
import type { Winding } from '../winding/model.ts';
import { type Arc, arcOf, type Piece } from './pieceArc.ts';

/** At which height above the end winding each jumper runs. */
export interface JumperLevels {
  /** Level from 1, by joint number. */
  readonly levels: ReadonlyMap<number, number>;
  /** Of the levels; 0 without jumpers. */
  readonly highest: number;
  /** Most jumpers over one place: no arrangement has fewer levels. */
  readonly overlap: number;
}

/** Levels of the jumpers of both sides; jumpers of one side that share layers and slots lie one above another. */
export function jumperLevels({ slots }: Winding, connections: Connections): JumperLevels {
  return pieceLevels(
    slots,
    connections.joints.filter((joint) => joint.kind === 'jumper'),
  );
}

/** Levels of connecting pieces, each with a number of its own. */
export function pieceLevels(slots: number, pieces: readonly Piece[]): JumperLevels {
  const arcs = pieces.map(arcOf);
  arcs.sort((a, b) => a.start - b.start || a.length - b.length || a.joint.number - b.joint.number);
  const near = nearbyArcs(slots, arcs);
  const levels = new Map<number, number>();
  let highest = 0;
  let overlap = 0;
  for (const arc of arcs) {
    const taken = new Set<number>();
    let covering = 0;
    for (const other of near(arc)) {
      if (collide(slots, arc, other)) taken.add(levels.get(other.joint.number) ?? 0);
      if (collideAt(slots, arc, other)) covering++;
    }
    let level = 1;
    while (taken.has(level)) level++;
    levels.set(arc.joint.number, level);
    highest = Math.max(highest, level);
    overlap = Math.max(overlap, covering);
  }
  return { levels, highest, overlap };
}

/**
 * For an arc all those of its side that may overlap it, itself included: they start under it, or before
 * it no farther than arcs reach. `arcs` rise by their start.
 */
function nearbyArcs(slots: number, arcs: readonly Arc[]): (arc: Arc) => ReadonlySet<Arc> {
  const sides = { connection: [] as Arc[], far: [] as Arc[] };
  const places = new Map<Arc, number>();
  let reach = 0;
  for (const arc of arcs) {
    places.set(arc, sides[arc.joint.side].push(arc) - 1);
    reach = Math.max(reach, arc.length);
  }
  return (arc) => {
    const all = sides[arc.joint.side];
    const near = new Set<Arc>();
    for (let i = 0; i < all.length; i++) {
      const other = all[(places.get(arc)! + i) % all.length]!;
      if (!covers(slots, arc, other.start)) break;
      near.add(other);
    }
    for (let i = 0; i < all.length; i++) {
      const other = all[(places.get(arc)! - i + all.length) % all.length]!;
      if (modulo(arc.start - other.start, slots) > reach) break;
      near.add(other);
    }
    return near;
  };
}

function collide(slots: number, a: Arc, b: Arc): boolean {
  if (a.joint.side !== b.joint.side || a.upper < b.lower || b.upper < a.lower) return false;
  return covers(slots, a, b.start) || covers(slots, b, a.start);
}

/** Whether `other` runs over the place where `arc` starts (itself included). */
function collideAt(slots: number, arc: Arc, other: Arc): boolean {
  if (arc.joint.side !== other.joint.side || arc.upper < other.lower || other.upper < arc.lower) return false;
  return covers(slots, other, arc.start);
}

function covers(slots: number, arc: Arc, slot: number): boolean {
  return modulo(slot - arc.start, slots) <= arc.length;
}
