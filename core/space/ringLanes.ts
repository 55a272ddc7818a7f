import type { Reach } from './ends/endForms.ts';
import { ringArc } from './links.ts';

/** A bar end that stands up among rings. Angles in radians about the axis, lengths in m. */
export interface Post {
  readonly angle: number;
  readonly radius: number;
  /** Coated, round the axis and along the radius. */
  readonly width: number;
  readonly height: number;
}

/** A post that a ring joins, with what bends it towards the ring: center lines of an edgewise and a flatwise bend. */
export interface RingPost extends Post {
  readonly edge: number;
  readonly flat: number;
  /** Along the radius, without its coating. */
  readonly copper: number;
  /** The way round the axis in which it steps aside first. */
  readonly sense: 1 | -1;
}

/** A ring to be laid: its coated and its bare width along the radius, and what it joins. */
export interface RingToLay {
  readonly width: number;
  readonly copper: number;
  readonly members: readonly RingPost[];
}

/** What is asked for between a ring and others, and between bar ends, m. */
export interface RingRoom {
  readonly ring: number;
  readonly bars: number;
}

/** A ring at a radius: the arc it takes, how each of its posts comes to it, and what it meets there. */
export interface RingLane {
  readonly radius: number;
  readonly from: number;
  readonly extent: number;
  /** For each post; null: it stands below the ring. */
  readonly reaches: readonly (Reach | null)[];
  /** How many posts, and ends bent to it, come nearer to what it takes than asked for, and how many touch it. */
  readonly near: number;
  readonly touching: number;
}

/**
 * A ring at a radius among posts that stand higher than it: those that it does not join must not stand in its arc,
 * nor in the way of the ends that are bent to it, which step aside where they do. Null where one of its ends can
 * neither stand below it nor bend towards it.
 */
export function ringLaneAt(
  radius: number,
  ring: RingToLay,
  others: readonly Post[],
  asked: RingRoom,
): RingLane | null {
  const alongs = ring.members.map((post) => alongOf(post, radius, ring));
  if (alongs.includes(null)) return null;
  const standing = others.map((post) => [uprightPatch(post)]);
  const own = ring.members.map((post) => [uprightPatch(post)]);
  const reaches: (Reach | null)[] = ring.members.map(() => null);
  const touch: RingRoom = { ring: 0, bars: 0 };
  let near = 0;
  let touching = 0;
  ring.members.forEach((post, index) => {
    const along = alongs[index]!;
    if (along === 0) return;
    const inTheWay = [...standing, ...own.filter((_, other) => other !== index)];
    const met = (patches: readonly Patch[], clearance: number) =>
      inTheWay.filter((other) => anyNear(patches, other, clearance)).length;
    let least = Number.POSITIVE_INFINITY;
    let best: readonly [Reach, readonly Patch[], number, number] | null = null;
    for (const round of roundsOf(post)) {
      const reach = { round, along };
      const patches = reachPatches(post, reach);
      const close = met(patches, asked.bars);
      const collides = close === 0 ? 0 : met(patches, touch.bars);
      const trouble = troubleOf(close, collides);
      if (trouble < least) [least, best] = [trouble, [reach, patches, close, collides]];
      if (close === 0) break;
    }
    const [reach, patches, close, collides] = best!;
    reaches[index] = reach;
    own[index] = [...patches];
    near += close;
    touching += collides;
  });
  const widest = Math.max(...ring.members.map(({ width, height }) => Math.max(width, height)));
  const arrivals = ring.members.map(({ angle }, index) => angle + (reaches[index]?.round ?? 0));
  const arc = ringArc(arrivals, widest / 2 / radius);
  const inner = radius - ring.width / 2;
  const outer = radius + ring.width / 2;
  const body = [{ from: arc.from, to: arc.from + arc.extent, half: 0, inner, outer }];
  const inArc = (clearance: number) => standing.filter((post) => anyNear(body, post, clearance)).length;
  near += inArc(asked.ring);
  touching += inArc(touch.ring);
  return { radius, ...arc, reaches, near, touching };
}

/** How much a lane that meets others is to be avoided: touching counts far more than coming near. */
export function troubleOf(near: number, touching: number): number {
  return near + 1000 * touching;
}

const rounding = 1e-9;

/** How far a post runs to the side of a ring, signed; 0: it stands below it; null: it is too near for its bend. */
function alongOf(post: RingPost, radius: number, { width, copper }: RingToLay): number | null {
  const apart = radius - post.radius;
  const size = Math.abs(apart);
  if (size < rounding || size + post.copper / 2 <= copper / 2 + rounding) return 0;
  const along = size - width / 2;
  return along >= post.flat - rounding ? Math.sign(apart) * Math.max(along, post.flat) : null;
}

/** Steps aside that are tried, as shares of what the bends of one take. */
const sideSteps = [1, 1.25, 1.5, 2, 2.5, 3, 4];

/** By how much an end may step aside, nothing first. */
function roundsOf({ radius, edge, flat, sense }: RingPost): readonly number[] {
  const least = (edge + flat) / radius;
  return [0, ...sideSteps.flatMap((step) => [sense * step * least, -sense * step * least])];
}

/** Something at the height of a ring: between two angles and half a width beyond, between two radii. */
interface Patch {
  readonly from: number;
  readonly to: number;
  /** m. */
  readonly half: number;
  readonly inner: number;
  readonly outer: number;
}

function uprightPatch({ angle, radius, width, height }: Post): Patch {
  return {
    from: angle,
    to: angle,
    half: width / 2,
    inner: radius - height / 2,
    outer: radius + height / 2,
  };
}

/** What an end takes on its way to a ring: itself, the way round the axis, and the way along the radius. */
function reachPatches(post: Post, { round, along }: Reach): readonly Patch[] {
  const upright = uprightPatch(post);
  const { inner, outer } = upright;
  const { angle, radius } = post;
  const aside = { ...upright, from: angle + Math.min(0, round), to: angle + Math.max(0, round) };
  const arrival = angle + round;
  const run = {
    from: arrival,
    to: arrival,
    // Its flat side lies round the axis once it has stepped aside.
    half: (round === 0 ? post.width : post.height) / 2,
    inner: Math.min(inner, radius + along),
    outer: Math.max(outer, radius + along),
  };
  return [aside, run];
}

function anyNear(some: readonly Patch[], others: readonly Patch[], clearance: number): boolean {
  return some.some((one) => others.some((other) => isNear(one, other, clearance)));
}

function isNear(one: Patch, other: Patch, clearance: number): boolean {
  const apart = Math.max(one.inner - other.outer, other.inner - one.outer);
  if (apart >= clearance - rounding) return false;
  const between = Math.abs(turnBetween((one.from + one.to) / 2, (other.from + other.to) / 2));
  const free = between - (one.to - one.from + other.to - other.from) / 2;
  // Flat sides leave each other least where both begin.
  const radius = Math.max(one.inner, other.inner);
  const round = radius * Math.sin(Math.max(-Math.PI / 2, Math.min(Math.PI / 2, free)));
  return round - one.half - other.half < clearance - rounding;
}

/** Radians from the second angle to the first, the shorter way round. */
function turnBetween(one: number, other: number): number {
  return Math.atan2(Math.sin(one - other), Math.cos(one - other));
}
