import { largest } from '../language/numbers.ts';
import type { Curve, Profile, RolledPath } from './curve.ts';
import { firstHalf, middlePart, radialStep, secondHalf } from './ends/radialStep.ts';
import { type LinkPieceKind, type Piece, pieceOf } from './piece.ts';

/** The end of a bar that a connecting piece or ring stands on: angle, radius and height of its tip. */
export interface Foot {
  /** Radians about the axis. */
  readonly angle: number;
  /** m. */
  readonly radius: number;
  /** Above the stack, m. */
  readonly height: number;
}

/** A step along the radius within the risers of a piece, by which its level part leaves its feet's radius. */
export interface RiserStep {
  /** Signed, m; 0: the risers are straight. */
  readonly distance: number;
  /** Radius of the step's arcs on the center line, m. */
  readonly bend: number;
  /** Height above the stack at which it begins, m. */
  readonly from: number;
}

/** Where links of a side run: half the stack and the side's sign. */
export interface LinkSide {
  readonly side: -1 | 1;
  /** Its length, m. */
  readonly stack: number;
}

/** A connecting piece: up from one bar, round the axis at `height`, and down to the other. */
export interface LinkGeometry {
  readonly pieces: readonly Piece<LinkPieceKind>[];
  /** Radius of its corners' center line, m; smaller than asked for where its feet are too near each other. */
  readonly corner: number;
}

const up = Math.PI / 2;
const fullTurn = 2 * Math.PI;
/** That bring near what angles that begin anew part. */
const turns = [-fullTurn, 0, fullTurn];
/** Angles that differ by less, radians, are one: their sums of slots differ in the last digits. */
const oneAngle = 1e-9;

/**
 * The center line of a connecting piece between two feet, with its level part at `height` above the
 * stack. Its radius changes evenly with the angle, corners included; both risers may step along the radius first.
 */
export function linkGeometry(
  at: LinkSide,
  fromFoot: Foot,
  toFoot: Foot,
  height: number,
  corner: number,
  riserStep: RiserStep = { distance: 0, bend: 0, from: 0 },
): LinkGeometry {
  const step = radialStep(riserStep.distance, riserStep.bend);
  const stepped = (foot: Foot): Foot =>
    step.size === 0
      ? foot
      : { ...foot, radius: foot.radius + riserStep.distance, height: riserStep.from + 2 * step.half };
  const from = stepped(fromFoot);
  const to = stepped(toFoot);
  const pieces: Piece<LinkPieceKind>[] = [];
  const add = (kind: LinkPieceKind, path: RolledPath, profile: Profile) => {
    const empty = 'extent' in profile ? profile.extent === 0 : profile.from === profile.to;
    const curve: Curve = { side: at.side, face: at.stack / 2, path, profile, radialSide: 'width' };
    if (!empty) pieces.push(pieceOf(kind, curve));
  };
  const apart = to.angle - from.angle;
  const across = Math.abs(apart) < oneAngle ? 0 : apart;
  const sense = across < 0 ? -1 : 1;
  const ahead = sense > 0 ? 0 : Math.PI;
  // Both corners have to fit between the feet.
  const bend = Math.min(corner, Math.abs(across) / (1 / from.radius + 1 / to.radius));
  const perRadian = across === 0 ? 0 : (to.radius - from.radius) / across;
  const profile = (angle: number, extent: number): Profile =>
    perRadian === 0
      ? { kind: 'level', radius: from.radius, extent }
      : { kind: 'spiral', radius: from.radius + perRadian * (angle - from.angle), perRadian, extent };
  const quarter = bend * up;
  const upright = (foot: Foot, heightFrom: number) => ({
    radius: foot.radius,
    angle: foot.angle,
    height: heightFrom,
    direction: up,
    curvature: 0,
  });
  if (step.size > 0) {
    const { radius } = fromFoot;
    const first = upright(fromFoot, fromFoot.height);
    add('riser', first, { kind: 'level', radius, extent: riserStep.from - fromFoot.height });
    add('riser', upright(fromFoot, riserStep.from), firstHalf(step, radius, 0, step.half));
    const middle = upright(fromFoot, riserStep.from + step.half);
    add('riser', middle, middlePart(step, radius));
    add('riser', middle, secondHalf(step, from.radius));
  }
  const riser = { radius: from.radius, angle: from.angle, height: from.height, direction: up, curvature: 0 };
  add('riser', riser, { kind: 'level', radius: from.radius, extent: height - bend - from.height });
  const curvature = bend === 0 ? 0 : -sense / bend;
  add('bend', { ...riser, height: height - bend, curvature }, profile(from.angle, quarter));
  const first = from.angle + (sense * bend) / from.radius;
  const last = to.angle - (sense * bend) / to.radius;
  const middle = (from.radius + to.radius) / 2;
  const arc = { radius: middle, angle: first, height, direction: ahead, curvature: 0 };
  if (across === 0 && to.radius !== from.radius) {
    const outwards = to.radius > from.radius ? 1 : -1;
    const extent = Math.abs(to.radius - from.radius);
    add('arc', arc, { kind: 'radial', radius: from.radius, sense: outwards, extent });
  } else add('arc', arc, profile(first, Math.abs(last - first) * middle));
  const down = { radius: to.radius, angle: last, height, direction: ahead, curvature };
  add('bend', down, profile(last, quarter));
  const end = { radius: to.radius, angle: to.angle, height: height - bend, direction: -up, curvature: 0 };
  add('riser', end, { kind: 'level', radius: to.radius, extent: height - bend - to.height });
  if (step.size > 0) {
    // The same step back, downwards.
    const back = { ...step, sense: step.sense === 1 ? (-1 as const) : (1 as const) };
    const down = (heightFrom: number) => ({ ...upright(toFoot, heightFrom), direction: -up });
    add('riser', down(to.height), firstHalf(back, to.radius, 0, step.half));
    const middle = down(riserStep.from + step.half);
    add('riser', middle, middlePart(back, to.radius));
    add('riser', middle, secondHalf(back, toFoot.radius));
    const last = { kind: 'level', radius: toFoot.radius, extent: riserStep.from - toFoot.height } as const;
    add('riser', down(riserStep.from), last);
  }
  return { pieces, corner: bend };
}

/** A ring at one height and radius, from one angle on by `extent` radians. */
export function ringPiece(
  at: LinkSide,
  radius: number,
  height: number,
  from: number,
  extent: number,
): Piece<LinkPieceKind> {
  const path = { radius, angle: from, height, direction: 0, curvature: 0 };
  const profile: Profile = { kind: 'level', radius, extent: extent * radius };
  return pieceOf('arc', { side: at.side, face: at.stack / 2, path, profile, radialSide: 'width' });
}

/** The smallest arc that holds all angles, and goes on by `over` at both ends: where it begins, and how far it goes. */
export function ringArc(
  angles: readonly number[],
  over: number,
): { readonly from: number; readonly extent: number } {
  const sorted = angles.map((angle) => angle - fullTurn * Math.floor(angle / fullTurn)).sort((a, b) => a - b);
  let widest = -1;
  let from = 0;
  sorted.forEach((angle, index) => {
    const next = sorted[index + 1] ?? sorted[0]! + fullTurn;
    if (next - angle > widest) [widest, from] = [next - angle, next];
  });
  return { from: from - over, extent: fullTurn - widest + 2 * over };
}

/** The stretch round the axis that a link takes, and what stands at its ends. */
export interface LinkSpan {
  /** Radians, from < to; the link covers all between. */
  readonly from: number;
  readonly to: number;
  /** Of the foot at that end, m. */
  readonly radiusFrom: number;
  /** Of the foot at that end, m. */
  readonly radiusTo: number;
}

/**
 * A level for each link of a side, from 1, so that no two that come nearer than `apart` round the axis
 * and `apartRadially` along the radius share one: with the fewest links whose risers pass through one
 * below, then the fewest levels. Two orders are tried, short ones first and round the axis in the given
 * sense from the first of the list on.
 */
export function linkLevels(
  links: readonly LinkSpan[],
  sense: 1 | -1,
  apart: number,
  apartRadially: number,
): readonly number[] {
  const first = links[0] ? middleOf(links[0]) : 0;
  const keys = links.map((link) => {
    const round = (sense * (middleOf(link) - first)) / fullTurn;
    return {
      width: Math.round(widthOf(link) * 1e9),
      round: Math.round((round - Math.floor(round + 1e-9)) * 1e9),
    };
  });
  const byWidth = (a: number, b: number) => keys[a]!.width - keys[b]!.width;
  const byPlace = (a: number, b: number) => keys[a]!.round - keys[b]!.round;
  const orders = [
    (a: number, b: number) => byWidth(a, b) || byPlace(a, b) || a - b,
    (a: number, b: number) => byPlace(a, b) || byWidth(a, b) || a - b,
  ];
  const tries = orders.map((order) => laidLevels(links, [...links.keys()].sort(order), apart, apartRadially));
  return tries.reduce((a, b) => ((b.pierced - a.pierced || b.highest - a.highest) < 0 ? b : a)).levels;
}

/** Levels of links laid in an order, each as low as it can be. */
function laidLevels(
  links: readonly LinkSpan[],
  order: readonly number[],
  apart: number,
  apartRadially: number,
) {
  const placed = placedLinks(links, apart);
  const levels = links.map(() => 0);
  let pierced = 0;
  let highest = 0;
  for (const index of order) {
    const link = links[index]!;
    const near = placed
      .near(link)
      .filter(({ other, turn }) => meet(link, links[other]!, turn, apart, apartRadially));
    const taken = new Set(near.map(({ other }) => levels[other]!));
    // Above all whose risers would pass through this one's level part.
    const under = near.filter(({ other, turn }) => crosses(link, links[other]!, turn, apart, apartRadially));
    let level = 1 + largest(under.map(({ other }) => levels[other]!));
    while (taken.has(level)) level++;
    levels[index] = level;
    placed.add(index);
    highest = Math.max(highest, level);
    for (const { other, turn } of near) {
      const moved = { ...link, from: link.from - turn, to: link.to - turn };
      if (levels[other]! < level && crosses(links[other]!, moved, 0, apart, apartRadially)) pierced++;
    }
  }
  return { levels, pierced, highest };
}

/** A bar end that stands upright as high as all links: a lead. */
export interface Upright {
  /** Radians about the axis. */
  readonly angle: number;
  /** m. */
  readonly radius: number;
}

interface Nearness {
  /** Radians. */
  readonly apart: number;
  /** Along the radius, m. */
  readonly radially: number;
}

/** What links have to keep clear of, and where they may run to do so. */
export interface LaneRoom {
  readonly leads: readonly Upright[];
  /** How near links may come to each other, and to leads, by their center lines. */
  readonly links: Nearness;
  readonly lead: Nearness;
  /** How much of both is clearance, which is better than to touch where it cannot be kept. */
  readonly clearance: Nearness;
  /** By how much a link whose feet stand at such a mean radius may leave it, m, signed, the best first; 0 is the first. */
  readonly offsets: (radius: number) => readonly number[];
}

/** How far a link runs beside the radius of its feet, m, signed; and how many leads and links stand in its way there. */
export interface Lane {
  /** Signed, m. */
  readonly beside: number;
  /** How many. */
  readonly meets: number;
}

/**
 * How far beside the radius of its feet each link runs, m: the first of its offsets with which its risers pass
 * beside the level parts of those below it and beside all other risers, and no lead stands in its way; where
 * there is none, the first of those that meet least, with how many others it meets there.
 */
export function linkLanes(
  links: readonly LinkSpan[],
  levels: readonly number[],
  { leads, links: others, lead, clearance, offsets }: LaneRoom,
): readonly Lane[] {
  const less = ({ apart, radially }: Nearness): Nearness => ({
    apart: apart - clearance.apart,
    radially: radially - clearance.radially,
  });
  const touching = { links: less(others), lead: less(lead) };
  const uprights = leads.map(({ angle, radius }) =>
    laidLink({ from: angle, to: angle, radiusFrom: radius, radiusTo: radius }, 0),
  );
  const lanes: Lane[] = [];
  const laid: LaidLink[] = [];
  const order = [...links.keys()].sort((a, b) => levels[a]! - levels[b]! || a - b);
  order.forEach((index, place) => {
    const link = links[index]!;
    const isBelow = (other: number) => levels[other]! < levels[index]!;
    const earlier = order.slice(0, place);
    const before: LaidBefore = {
      below: earlier.filter(isBelow).map((other) => laid[other]!),
      beside: earlier.filter((other) => !isBelow(other)).map((other) => laid[other]!),
      uprights,
    };
    const lane = bestLane(
      offsets((link.radiusFrom + link.radiusTo) / 2),
      meetsOf(link, before, { links: others, lead }),
      () => meetsOf(link, before, touching),
    );
    lanes[index] = lane;
    laid[index] = laidLink(link, lane.beside);
  });
  return lanes;
}

/** How much more it counts to touch something than to be nearer to it than asked. */
const touchWeight = 1000;

/** How many stand in the way of a link that runs so far beside its feet. */
type Meets = (by: number) => number;

/** The first lane in which a link meets none, else the first of those of least trouble. */
function bestLane(offsets: readonly number[], near: Meets, touching: () => Meets): Lane {
  let best: Lane = { beside: 0, meets: 0 };
  let least = Number.POSITIVE_INFINITY;
  let touched: Meets | null = null;
  for (const by of offsets) {
    const meets = near(by);
    if (meets === 0) return { beside: by, meets };
    if (meets >= least) continue;
    touched ??= touching();
    const trouble = meets + touchWeight * touched(by);
    if (trouble >= least) continue;
    least = trouble;
    best = { beside: by, meets };
  }
  return best;
}

/** What stands already when a link is laid: links of lower levels and of its own, and leads. */
interface LaidBefore {
  readonly below: readonly LaidLink[];
  readonly beside: readonly LaidLink[];
  readonly uprights: readonly LaidLink[];
}

/** What a link meets that is nearer than it may be; angles are compared once for all lanes. */
function meetsOf(
  link: LinkSpan,
  { below, beside, uprights }: LaidBefore,
  { links, lead }: { readonly links: Nearness; readonly lead: Nearness },
): Meets {
  const above = obstacles(link, below, links.apart, (span, turn) => ({
    above: feetUnder(span, link, turn, links.apart),
    under: none,
  }));
  const level = obstacles(link, beside, links.apart, () => noFeet);
  const upright = obstacles(link, uprights, lead.apart, (span, turn) => ({
    above: none,
    under: feetUnder(link, span, turn, lead.apart),
  }));
  return (by) => {
    let count = 0;
    for (const each of above) if (isMet(each, link, by, links.radially - 1e-9)) count++;
    for (const each of level) if (isMet(each, link, by, links.radially - 1e-9)) count++;
    for (const each of upright) if (isMet(each, link, by, lead.radially - 1e-9)) count++;
    return count;
  };
}

/** What of some that are laid may stand in the way of a link, by its feet and its risers. */
function obstacles(
  link: LinkSpan,
  laid: readonly LaidLink[],
  apart: number,
  feet: (span: LinkSpan, turn: number) => Feet,
): readonly Obstacle[] {
  const found: Obstacle[] = [];
  for (const { span, risers } of laid)
    for (const turn of turns) {
      if (!isNear(link, span, turn, apart)) continue;
      const { above, under } = feet(span, turn);
      const besides = risersBeside(link, risers, turn, apart);
      if (above.length + under.length + besides.length > 0) found.push({ above, under, risers: besides });
    }
  return found;
}

/** A link in its lane: its level part, and its risers, each from one radius to another, m. */
interface LaidLink {
  readonly span: LinkSpan;
  readonly risers: readonly Riser[];
}

interface Riser {
  readonly angle: number;
  readonly from: number;
  readonly to: number;
}

function laidLink(link: LinkSpan, by: number): LaidLink {
  const riser = (angle: number, radius: number): Riser => ({
    angle,
    from: Math.min(radius, radius + by),
    to: Math.max(radius, radius + by),
  });
  return {
    span: { ...link, radiusFrom: link.radiusFrom + by, radiusTo: link.radiusTo + by },
    risers: [riser(link.from, link.radiusFrom), riser(link.to, link.radiusTo)],
  };
}

/** A foot under a level part: its radius, and the share of the way round from where that begins. */
interface FootUnder {
  readonly radius: number;
  readonly share: number;
  readonly over: LinkSpan;
}

interface Feet {
  /** A link's own feet, under level parts that lie already. */
  readonly above: readonly FootUnder[];
  /** Feet of others under its level part. */
  readonly under: readonly FootUnder[];
}

/** What may stand in the way of a link by its angles; whether it does is a matter of radii, of its lane. */
interface Obstacle extends Feet {
  /** Risers that step along the radius beside one of its own, whose foot's radius this is. */
  readonly risers: readonly { readonly foot: number; readonly other: Riser }[];
}

const none: readonly never[] = [];
const noFeet: Feet = { above: none, under: none };

/** Whether a link comes near another one, or an upright, whichever lane it takes; turned, which is the same either way. */
function isNear(link: LinkSpan, span: LinkSpan, turn: number, apart: number): boolean {
  const between = Math.abs(middleOf(link) - middleOf(span)) - Math.abs(turn);
  return Math.abs(between) < (widthOf(link) + widthOf(span)) / 2 + apart;
}

/** Whether it stands in the way of a link that runs so far beside its feet. */
function isMet({ above, under, risers }: Obstacle, link: LinkSpan, by: number, radially: number): boolean {
  for (const { radius, share, over } of above)
    if (Math.abs(radiusAt(over, share, 0) - (radius + by)) < radially) return true;
  for (const { radius, share } of under)
    if (Math.abs(radiusAt(link, share, by) - radius) < radially) return true;
  for (const { foot, other } of risers) {
    const [from, to] = by < 0 ? [foot + by, foot] : [foot, foot + by];
    if (Math.max(from - other.to, other.from - to) < radially) return true;
  }
  return false;
}

/** Risers, turned, that stand beside one of those of a link, whichever lane that takes. */
function risersBeside(
  { from, to, radiusFrom, radiusTo }: LinkSpan,
  others: readonly Riser[],
  turn: number,
  apart: number,
): Obstacle['risers'] {
  const isBeside = ({ angle }: Riser, own: number) => Math.abs(angle + turn - own) < apart;
  if (!others.some((other) => isBeside(other, from) || isBeside(other, to))) return none;
  return others.flatMap((other) => [
    ...(isBeside(other, from) ? [{ foot: radiusFrom, other }] : []),
    ...(isBeside(other, to) ? [{ foot: radiusTo, other }] : []),
  ]);
}

function widthOf({ from, to }: LinkSpan): number {
  return to - from;
}

function middleOf({ from, to }: LinkSpan): number {
  return (from + to) / 2;
}

/** Links as they are placed, to be found by where they begin; with the turns that bring them near. */
function placedLinks(links: readonly LinkSpan[], apart: number) {
  const widest = links.reduce((most, link) => Math.max(most, widthOf(link)), 0);
  const size = Math.max(0.01, widest + apart);
  const cells = new Map<number, { readonly other: number; readonly turns: number }[]>();
  const add = (index: number) => {
    const turns = -Math.floor(links[index]!.from / fullTurn);
    const cell = Math.floor((links[index]!.from + turns * fullTurn) / size);
    cells.set(cell, [...(cells.get(cell) ?? []), { other: index, turns }]);
  };
  const near = (link: LinkSpan): { readonly other: number; readonly turn: number }[] => {
    const found: { readonly other: number; readonly turn: number }[] = [];
    // Whole turns lower and higher, so that links beside the place where angles begin anew are met too.
    const base = Math.floor((link.from - size) / fullTurn);
    const last = Math.floor((link.to + apart) / fullTurn);
    for (let turn = base; turn <= last; turn++) {
      const low = Math.max(0, Math.floor((link.from - size - turn * fullTurn) / size));
      const high = Math.min(
        Math.floor(fullTurn / size),
        Math.floor((link.to + apart - turn * fullTurn) / size),
      );
      for (let cell = low; cell <= high; cell++) {
        for (const { other, turns } of cells.get(cell) ?? [])
          found.push({ other, turn: (turns + turn) * fullTurn });
      }
    }
    return found;
  };
  return { add, near };
}

function meet(link: LinkSpan, other: LinkSpan, turn: number, apart: number, radially: number): boolean {
  if (link.from >= other.to + turn + apart || other.from + turn >= link.to + apart) return false;
  const least = ({ radiusFrom, radiusTo }: LinkSpan) => Math.min(radiusFrom, radiusTo);
  const most = ({ radiusFrom, radiusTo }: LinkSpan) => Math.max(radiusFrom, radiusTo);
  return least(link) < most(other) + radially && least(other) < most(link) + radially;
}

/** Whether an end of `other` stands under the level part of `link`. */
function crosses(link: LinkSpan, other: LinkSpan, turn: number, apart: number, radially: number): boolean {
  return feetUnder(link, other, turn, apart).some(
    ({ radius, share }) => Math.abs(radiusAt(link, share, 0) - radius) < radially,
  );
}

/** The feet of `other`, turned, that are under the level part of `link` by their angle. */
function feetUnder(link: LinkSpan, other: LinkSpan, turn: number, apart: number): readonly FootUnder[] {
  const [first, last] = [other.from + turn, other.to + turn];
  if (last <= link.from - apart || first >= link.to + apart) return none;
  const found: FootUnder[] = [];
  const look = (angle: number, radius: number) => {
    if (angle <= link.from - apart || angle >= link.to + apart) return;
    const share = Math.min(1, Math.max(0, (angle - link.from) / (widthOf(link) || 1)));
    found.push({ radius, share, over: link });
  };
  look(first, other.radiusFrom);
  look(last, other.radiusTo);
  return found;
}

/** Radius of a link's level part, so far beside its feet, at a share of its way. */
function radiusAt({ radiusFrom, radiusTo }: LinkSpan, share: number, by: number): number {
  const from = radiusFrom + by;
  return from + share * (radiusTo + by - from);
}
