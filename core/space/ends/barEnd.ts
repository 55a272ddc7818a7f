import { alongPath, type Curve, type Profile, type RolledPath } from '../curve.ts';
import { type BarPieceKind, lengthOf, type Piece, pieceOf } from '../piece.ts';
import type { Reach } from './endForms.ts';
import { firstHalf, middlePart, type RadialStep, radialStep, secondHalf } from './radialStep.ts';

/** Where a bar leaves the stack, and how its end may bend. Lengths in m, angles in radians. */
export interface EndStart {
  readonly side: -1 | 1;
  /** Its length. */
  readonly stack: number;
  /** Of the center line within the stack. */
  readonly radius: number;
  /** Over the stack, positive towards rising angles at the far side. */
  readonly lean: number;
  /** Between stack and first bend. */
  readonly endStraight: number;
  /** Beyond the last bend. */
  readonly jointStraight: number;
  /** Radii of bends on their center lines: edgewise, and out of the layer. */
  readonly edge: number;
  /** The same out of the layer. */
  readonly flat: number;
}

/**
 * The slope of a bar end: its signed angle from the end of its straight part to its tip or apex, and the
 * height it gains for each radian of it.
 */
export interface EndLeg {
  /** Radians, signed. */
  readonly turn: number;
  /** m per radian. */
  readonly rise: number;
}

/** How a bar end is finished. */
export type EndFinish =
  | {
      /** Half of a hairpin's crown: the other leg's radius and rise. */
      readonly kind: 'crown';
      readonly otherRadius: number;
      readonly otherRise: number;
    }
  | {
      /**
       * Bent back to the axis: stepped by `shift` along the radius, straight up to `plane` (m above the
       * stack) and on by `lead`; then bent to the side of a ring, if there is a `reach`.
       */
      readonly kind: 'axial';
      readonly shift: number;
      readonly plane: number;
      readonly lead: number;
      readonly reach: Reach | null;
    };

/** What is left of each part once bends and steps have taken theirs, m; less than 0: it does not fit. */
export interface EndRooms {
  /** Of the straight part below the first bend. */
  readonly straight: number;
  /** Of the slope between its bends. */
  readonly leg: number;
  /** Of the joint's straight part above the last bend. */
  readonly joint: number;
  /** How much of the leg a step along the radius takes. */
  readonly step: number;
}

/** The end of a bar from the stack's face outwards, for a bar in slot 1. */
export interface EndGeometry {
  readonly pieces: readonly Piece[];
  /** Along the center line, m. */
  readonly length: number;
  /** Height of the center line's highest point above the face, m. */
  readonly top: number;
  /** Where it ends: angle, radius and height of tip or apex. */
  readonly tip: { readonly angle: number; readonly radius: number; readonly height: number };
  readonly rooms: EndRooms;
}

const upright = Math.PI / 2;

/** Angle from a bar's place at mid-stack to where its straight part beyond the stack ends, radians. */
function straightEnd({ side, stack, lean, endStraight }: EndStart): number {
  return side * lean * (0.5 + endStraight / stack);
}

/** The end of a bar; `leg` null: straight out of the slot. */
export function endGeometry(start: EndStart, leg: EndLeg | null, finish: EndFinish): EndGeometry {
  return formed(builder(start), start, leg, finish);
}

/** What is left of each part of a bar end, without the work of its curves. */
export function endRooms(start: EndStart, leg: EndLeg | null, finish: EndFinish): EndRooms {
  return formed({ pieces: [], add: () => {} }, start, leg, finish).rooms;
}

/** Whether bends and steps leave something of each part. */
export function endFits({ straight, leg, joint }: EndRooms): boolean {
  return Math.min(straight, leg, joint) >= -rounding;
}

const rounding = 1e-9;

function formed(build: Builder, start: EndStart, leg: EndLeg | null, finish: EndFinish): EndGeometry {
  const direction = Math.atan2(start.stack, start.side * start.lean * start.radius);
  const length = (start.endStraight * Math.hypot(start.stack, start.lean * start.radius)) / start.stack;
  const first = cornerAt(start, direction, leg && legDirection(leg, start.radius));
  const straight = length - first.tangent;
  const face: RolledPath = {
    radius: start.radius,
    angle: (start.side * start.lean) / 2,
    height: 0,
    direction,
    curvature: 0,
  };
  build.add('straight', face, level(start.radius, straight));
  const bend = { ...alongPath(face, straight), curvature: Math.sign(first.turn) / start.edge };
  build.add('bend', bend, level(start.radius, start.edge * Math.abs(first.turn)));
  const corner: Corner = {
    angle: straightEnd(start),
    height: start.endStraight,
    tangent: first.tangent,
  };
  if (leg === null) {
    if (finish.kind === 'crown') throw new RangeError('a crown needs legs');
    return straightOut(build, start, corner, straight, finish);
  }
  return finish.kind === 'crown'
    ? crownHalf(build, start, leg, corner, straight, finish)
    : joinedEnd(build, start, leg, corner, straight, finish);
}

interface Corner {
  readonly angle: number;
  readonly height: number;
  /** How far the bend reaches along either of its straights. */
  readonly tangent: number;
}

interface Builder {
  readonly pieces: readonly Piece[];
  readonly add: (kind: BarPieceKind, path: RolledPath, profile: Profile) => void;
}

/** Pieces in the making, with what all their curves share. */
function builder({ side, stack }: EndStart): Builder {
  const pieces: Piece[] = [];
  const add = (kind: BarPieceKind, path: RolledPath, profile: Profile) => {
    if ('extent' in profile ? profile.extent === 0 : profile.from === profile.to) return;
    const curve: Curve = { side, face: stack / 2, path, profile, radialSide: 'height' };
    pieces.push(pieceOf(kind, curve));
  };
  return { pieces, add };
}

function level(radius: number, extent: number): Profile {
  return { kind: 'level', radius, extent };
}

/** Direction of a slope at a radius, from rising angle towards rising height. */
function legDirection({ turn, rise }: EndLeg, radius: number): number {
  const slope = Math.atan2(rise, radius);
  return turn < 0 ? Math.PI - slope : slope;
}

/** The corner from one direction to another, to the axis where the second is null. */
function cornerAt({ edge }: EndStart, from: number, to: number | null) {
  const turn = (to ?? upright) - from;
  return { turn, tangent: edge * Math.tan(Math.abs(turn) / 2) };
}

/** Straight out of the slot: a corner of leaning bars only, then the axial part. */
function straightOut(
  { pieces, add }: Builder,
  start: EndStart,
  corner: Corner,
  straight: number,
  { plane, lead, reach }: Extract<EndFinish, { kind: 'axial' }>,
): EndGeometry {
  const { radius, jointStraight } = start;
  const from = corner.height + corner.tangent;
  const axial = { radius, angle: corner.angle, direction: upright, curvature: 0 };
  add('joint', { ...axial, height: from }, level(radius, plane - from));
  const top = addLead(add, start, { ...axial, height: plane }, lead, reach);
  return finished(
    pieces,
    top,
    { angle: corner.angle, radius, height: plane },
    {
      straight,
      leg: 0,
      joint: jointStraight - corner.tangent,
      step: 0,
    },
  );
}

/** A leg, a step along the radius where there is one, the second bend, and the axial part. */
function joinedEnd(
  { pieces, add }: Builder,
  start: EndStart,
  leg: EndLeg,
  corner: Corner,
  straight: number,
  { shift, plane, lead, reach }: Extract<EndFinish, { kind: 'axial' }>,
): EndGeometry {
  const { radius, edge, flat, jointStraight } = start;
  const sense = Math.sign(leg.turn);
  const outer = radius + shift;
  const tip = { angle: corner.angle + leg.turn, height: corner.height + Math.abs(leg.turn) * leg.rise };
  // The second bend, in the surface the step leads to.
  const slope = Math.atan2(leg.rise, outer);
  const tangent = edge * Math.tan((upright - slope) / 2);
  const bend: RolledPath = {
    radius: outer,
    angle: tip.angle - (sense * tangent * Math.cos(slope)) / outer,
    height: tip.height - tangent * Math.sin(slope),
    direction: legDirection(leg, outer),
    curvature: sense / edge,
  };
  const step = radialStep(shift, flat);
  const stepPath = pathBefore(bend, leg, radius + shift / 2, 2 * step.half);
  const own = slopeFrom(corner, leg, radius);
  const extent = ((stepPath.angle - own.angle) * sense * radius) / Math.cos(Math.atan2(leg.rise, radius));
  add('leg', own, level(radius, extent));
  if (step.size > 0) addStep(add, step, stepPath, radius, outer);
  add('bend', bend, level(outer, edge * (upright - slope)));
  const from = tip.height + tangent;
  const axial = { radius: outer, angle: tip.angle, direction: upright, curvature: 0 };
  add('joint', { ...axial, height: from }, level(outer, plane - from));
  const top = addLead(add, start, { ...axial, height: plane }, lead, reach);
  return finished(
    pieces,
    top,
    { angle: tip.angle, radius: outer, height: plane },
    {
      straight,
      leg: extent,
      joint: jointStraight - tangent,
      step: 2 * step.half,
    },
  );
}

/** What goes on beyond the joint's plane: straight, then to the side of a ring; the height that it comes to. */
function addLead(
  add: Builder['add'],
  { edge, flat }: EndStart,
  from: RolledPath,
  lead: number,
  reach: Reach | null,
): number {
  const { radius } = from;
  add('lead', from, level(radius, lead));
  let turned: RolledPath = { ...from, height: from.height + lead };
  if (!reach) return turned.height;
  const step = radialStep(reach.along, flat);
  const quarter: RadialStep = { ...step, slope: upright, half: flat };
  if (reach.round !== 0) {
    const sense = Math.sign(reach.round);
    const aside = { ...turned, curvature: -sense / edge };
    add('lead', aside, level(radius, edge * upright));
    turned = { ...alongPath(aside, edge * upright), curvature: 0 };
    const between = Math.max(0, Math.abs(reach.round) * radius - edge - flat);
    add('lead', turned, level(radius, between));
    turned = alongPath(turned, between);
  }
  add('lead', turned, firstHalf(quarter, radius, 0, flat));
  const end = alongPath(turned, flat);
  const extent = Math.max(0, step.size - flat);
  add('lead', end, { kind: 'radial', radius: radius + step.sense * flat, sense: step.sense, extent });
  return end.height;
}

/** Half of a crown: the leg up to it, then rounding and step, which end at the apex. */
function crownHalf(
  { pieces, add }: Builder,
  start: EndStart,
  leg: EndLeg,
  corner: Corner,
  straight: number,
  { otherRadius, otherRise }: Extract<EndFinish, { kind: 'crown' }>,
): EndGeometry {
  const { radius, edge, flat } = start;
  const sense = Math.sign(leg.turn);
  const middle = (radius + otherRadius) / 2;
  const slope = Math.atan2(leg.rise, middle);
  const otherSlope = Math.atan2(otherRise, middle);
  const tangent = edge * Math.tan((slope + otherSlope) / 2);
  const halfArc = (edge * (slope + otherSlope)) / 2;
  const apex = { angle: corner.angle + leg.turn, height: corner.height + Math.abs(leg.turn) * leg.rise };
  const rounding: RolledPath = {
    radius: middle,
    angle: apex.angle - (sense * tangent * Math.cos(slope)) / middle,
    height: apex.height - tangent * Math.sin(slope),
    direction: legDirection(leg, middle),
    curvature: -sense / edge,
  };
  const step = radialStep(otherRadius - radius, flat);
  // Where the step reaches farther than the rounding, it begins on the leg.
  const before = Math.max(0, step.half - halfArc);
  const crownPath = pathBefore(rounding, leg, middle, before);
  const own = slopeFrom(corner, leg, radius);
  const extent = ((crownPath.angle - own.angle) * sense * radius) / Math.cos(Math.atan2(leg.rise, radius));
  add('leg', own, level(radius, extent));
  if (before > 0) add('crown', crownPath, firstHalf(step, radius, 0, before));
  const roundOnly = Math.max(0, halfArc - step.half);
  add('crown', rounding, level(radius, roundOnly));
  if (step.size > 0) {
    const path = alongPath(rounding, roundOnly);
    add('crown', path, firstHalf(step, radius, before, step.half));
    const end = alongPath(rounding, halfArc);
    add('crown', end, { ...middlePart(step, radius), extent: step.radial / 2 });
  }
  const top = rounding.height + edge * (1 - Math.cos(slope));
  const { angle, height } = alongPath(rounding, halfArc);
  return finished(
    pieces,
    top,
    { angle, radius: middle, height },
    {
      straight,
      leg: extent,
      joint: 0,
      step: before,
    },
  );
}

/** The slope from the end of the first bend on. */
function slopeFrom(corner: Corner, leg: EndLeg, radius: number): RolledPath {
  const direction = legDirection(leg, radius);
  const path = { radius, angle: corner.angle, height: corner.height, direction, curvature: 0 };
  return alongPath(path, corner.tangent);
}

/** The slope's last stretch before a bend begins, rolled at a radius of its own. */
function pathBefore(bend: RolledPath, leg: EndLeg, radius: number, distance: number): RolledPath {
  const direction = legDirection(leg, radius);
  const path = { radius, angle: bend.angle, height: bend.height, direction, curvature: 0 };
  return alongPath(path, -distance);
}

/** A whole step on a straight slope. */
function addStep(add: Builder['add'], step: RadialStep, path: RolledPath, from: number, to: number): void {
  add('leg', path, firstHalf(step, from, 0, step.half));
  const middle = alongPath(path, step.half);
  add('leg', middle, middlePart(step, from));
  add('leg', middle, secondHalf(step, to));
}

function finished(
  pieces: readonly Piece[],
  top: number,
  tip: EndGeometry['tip'],
  rooms: EndRooms,
): EndGeometry {
  return { pieces, length: lengthOf(pieces), top, tip, rooms };
}
