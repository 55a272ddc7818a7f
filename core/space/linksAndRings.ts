import { largest } from '../language/numbers.ts';
import { valueOrDefault } from '../language/specification/defaults.ts';
import { machineStatements } from '../language/vocabulary/blocks/machine.ts';
import { slotAngle } from '../winding/angles.ts';
import type { WindingJoint } from '../winding/joints/joints.ts';
import { offsetOf } from '../winding/joints/joints.ts';
import { endShift, type TipSide } from '../winding/joints/tips.ts';
import type { EndSide } from '../winding/model.ts';
import { sideRings } from './endRings.ts';
import type { BendInput } from './ends/bends.ts';
import type { FreeEnd, FreeEnds } from './ends/freeEnds.ts';
import { radialStep } from './ends/radialStep.ts';
import {
  type Foot,
  type Lane,
  type LinkSide,
  type LinkSpan,
  linkGeometry,
  linkLanes,
  linkLevels,
  type Upright,
} from './links.ts';
import { lengthOf } from './piece.ts';
import { coatedHeight, coatedWidth, resized, type Section } from './section.ts';
import type { BendRadii, ConnectingPiece, EndRing, SpaceInput } from './space.ts';
import type { SpaceProblem } from './spaceProblems.ts';

interface Plan {
  readonly tips: Readonly<Record<EndSide, TipSide>>;
  readonly bend: BendInput;
}

/** Connecting pieces and rings, and the free ends below them, as long as those need them. */
export interface Linked {
  readonly links: readonly ConnectingPiece[];
  readonly rings: readonly EndRing[];
  readonly ends: readonly FreeEnd[];
}

/**
 * Stands connecting pieces on the tips of their bars, level above level over the joints of their side
 * (`below`: how high those reach, m), and the rings above them.
 */
export function linksAndRings(
  input: SpaceInput,
  plan: Plan,
  radii: BendRadii,
  free: FreeEnds,
  below: Readonly<Record<EndSide, number>>,
  problems: SpaceProblem[],
): Linked {
  const links: ConnectingPiece[] = [];
  const rings: EndRing[] = [];
  const ends: FreeEnd[] = [];
  for (const side of ['connection', 'far'] as const) {
    const own = free.ends.filter((end) => end.side === side);
    const pieces = sideLinks(side, input, plan, radii, own, below[side], problems);
    links.push(...pieces.links);
    const stand = (end: FreeEnd) => footOf(plan, end, slotAngle(plan.bend.sizes.slots, end.bar.slot));
    const ringed = sideRings(
      { side, input, sizes: plan.bend.sizes, radii, stand },
      own,
      pieces.top,
      problems,
    );
    rings.push(...ringed.rings);
    ends.push(...ringed.ends);
  }
  return { links, rings, ends };
}

/** Where the tip of a free end stands; `turn` is its bar's. */
function footOf({ tips, bend }: Plan, { side, bar, form }: FreeEnd, turn: number): Foot {
  const pitch = (2 * Math.PI) / bend.sizes.slots;
  return {
    angle: turn + endShift(tips[side], bar.layer) * pitch + (form.turn ?? 0),
    radius: bend.sizes.layers[bar.layer]!.radius,
    height: form.plane,
  };
}

function sideOf({ bend }: Plan, side: EndSide): LinkSide {
  return { side: side === 'far' ? 1 : -1, stack: bend.sizes.stack };
}

interface Planned {
  readonly joint: WindingJoint;
  /** Angles from the first bar's. */
  readonly from: Foot;
  readonly to: Foot;
  readonly section: Section;
}

/** What the connecting pieces of a side take together, m. */
interface PieceRoom {
  readonly clearance: number;
  /** Coated, of the tallest and the widest piece. */
  readonly tallest: number;
  readonly widest: number;
  /** Radius of the innermost foot. */
  readonly innermost: number;
  /** How far a riser, which is flat, stands out of the round of the level part beside it. */
  readonly bulge: number;
  /** From one level to the next. */
  readonly rise: number;
  /** From one lane to the next. */
  readonly lane: number;
}

function sideLinks(
  side: EndSide,
  input: SpaceInput,
  plan: Plan,
  radii: BendRadii,
  ends: readonly FreeEnd[],
  below: number,
  problems: SpaceProblem[],
): { readonly links: readonly ConnectingPiece[]; readonly top: number } {
  const { connections, winding, specification } = input;
  const { sizes } = plan.bend;
  const planned = plannedPieces(input, plan, ends);
  if (planned.length === 0) return { links: [], top: below };
  const room = roomOf(planned, sizes.pieceClearance);
  const { clearance, tallest, widest, innermost, rise, lane } = room;
  const spans = planned.map((piece) => spanOf(piece, slotAngle(winding.slots, piece.joint.from.slot)));
  const apart = rise / innermost;
  const levels = linkLevels(spans, connections.bends.direction, apart, widest + clearance);
  const lanes = linkLanes(spans, levels, {
    leads: uprightsAbove(plan, ends, below),
    links: { apart, radially: lane },
    lead: leadRoom(sizes, room),
    clearance: { apart: clearance / innermost, radially: clearance },
    offsets: laneOffsets(specification, sizes, room),
  });
  problems.push(...laneProblems(side, planned, lanes, lane, specification.machine));
  const corner = (section: Section) => radii.flat + coatedHeight(section) / 2;
  const edge = radii.edge + widest / 2;
  const stepFrom = planned.reduce((most, { from, to }) => Math.max(most, from.height, to.height), below);
  const stepHeight = largest(
    lanes.map(({ beside }) => 2 * radialStep(beside, edge).half * Math.sign(Math.abs(beside))),
  );
  // The lowest level is above the joints and the steps of risers; each is high enough above its own feet, or the
  // step of its risers, for its corners.
  const lowest = planned.reduce(
    (most, { from, to, section }, index) => {
      const feet = lanes[index]!.beside === 0 ? Math.max(from.height, to.height) : stepFrom + stepHeight;
      return Math.max(most, feet + corner(section) - (levels[index]! - 1) * rise);
    },
    Math.max(below, stepHeight > 0 ? stepFrom + stepHeight : 0) + clearance + tallest / 2,
  );
  const shared = new Map<string, ReturnType<typeof linkGeometry>>();
  const links = planned.map(({ joint, from, to, section }, index): ConnectingPiece => {
    const level = levels[index]!;
    const height = lowest + (level - 1) * rise;
    const { beside } = lanes[index]!;
    const key = [
      joint.shape,
      offsetOf(joint) === joint.span,
      level,
      beside,
      from.angle,
      to.angle,
      from.height,
      to.height,
    ].join(' ');
    const known = shared.get(key);
    const step = { distance: beside, bend: edge, from: stepFrom };
    const geometry = known ?? linkGeometry(sideOf(plan, side), from, to, height, corner(section), step);
    shared.set(key, geometry);
    if (!known && geometry.corner < corner(section) - 1e-9) {
      const radius = geometry.corner - coatedHeight(section) / 2;
      problems.push({ kind: 'piece-corners-tight', joint: joint.number, radius, asked: radii.flat });
    }
    return {
      joint: joint.number,
      path: joint.path,
      side,
      from: joint.from,
      to: joint.to,
      level,
      section,
      turn: slotAngle(winding.slots, joint.from.slot),
      pieces: geometry.pieces,
      length: lengthOf(geometry.pieces),
      height,
      beside,
      corner: geometry.corner,
    };
  });
  const top = lowest + (largest(levels) - 1) * rise + tallest / 2;
  return { links: links.sort((a, b) => a.joint - b.joint), top };
}

/** The connecting pieces that stand on free ends of a side, in the order of the paths, which a mirror leaves alone. */
function plannedPieces(
  { connections, winding }: SpaceInput,
  plan: Plan,
  ends: readonly FreeEnd[],
): readonly Planned[] {
  const byNumber = new Map<number, FreeEnd[]>();
  for (const end of ends) {
    if (end.form.use === 'piece') byNumber.set(end.number, [...(byNumber.get(end.number) ?? []), end]);
  }
  const { sizes } = plan.bend;
  const joints = connections.joints.filter(({ number }) => byNumber.has(number));
  joints.sort((a, b) => a.path - b.path || a.position - b.position);
  return joints.map((joint) => {
    const [from, to] = byNumber.get(joint.number)! as [FreeEnd, FreeEnd];
    const reach = (joint.span * 2 * Math.PI) / winding.slots;
    const section = pieceSection(sizes.layers[joint.from.layer]!.section, sizes);
    return { joint, from: footOf(plan, from, 0), to: footOf(plan, to, reach), section };
  });
}

function roomOf(planned: readonly Planned[], clearance: number): PieceRoom {
  const tallest = planned.reduce((most, { section }) => Math.max(most, coatedHeight(section)), 0);
  const widest = planned.reduce((most, { section }) => Math.max(most, coatedWidth(section)), 0);
  const innermost = planned.reduce(
    (least, { from, to }) => Math.min(least, from.radius, to.radius),
    Number.POSITIVE_INFINITY,
  );
  const bulge = tallest ** 2 / (8 * innermost);
  const rise = tallest + clearance;
  const lane = widest + clearance + bulge;
  return { clearance, tallest, widest, innermost, bulge, rise, lane };
}

/** What a piece spans round the axis, from its foot at the smaller angle; `turn` is its first bar's. */
function spanOf({ from, to }: Planned, turn: number): LinkSpan {
  const [first, last] = from.angle <= to.angle ? [from, to] : [to, from];
  return {
    from: turn + first.angle,
    to: turn + last.angle,
    radiusFrom: first.radius,
    radiusTo: last.radius,
  };
}

/** Pieces that have no room of their own, and those that run over an air gap. */
function laneProblems(
  side: EndSide,
  planned: readonly Planned[],
  lanes: readonly Lane[],
  width: number,
  machine: SpaceInput['specification']['machine'],
): readonly SpaceProblem[] {
  const crowded = planned.filter((_, index) => lanes[index]!.meets > 0);
  const gap = valueOrDefault(machineStatements, machine, 'gap');
  const bore = gap === 'outer' ? null : machine?.bore;
  const outside = gap === 'inner' ? null : machine?.outside;
  const reaches = planned.map(({ from, to, section }, index) => {
    const { beside } = lanes[index]!;
    const half = coatedWidth(section) / 2;
    const inwards = bore ? bore.value / 2 - (Math.min(from.radius, to.radius) + beside - half) : 0;
    const outwards = outside ? Math.max(from.radius, to.radius) + beside + half - outside.value / 2 : 0;
    return Math.max(inwards, outwards);
  });
  const over = planned.filter((_, index) => reaches[index]! > 1e-6);
  const numbers = (some: readonly Planned[]) => some.map(({ joint }) => joint.number).sort((a, b) => a - b);
  return [
    ...(crowded.length === 0
      ? []
      : [{ kind: 'pieces-without-room', side, joints: numbers(crowded), width } as const]),
    ...(over.length === 0
      ? []
      : [{ kind: 'pieces-over-gap', side, joints: numbers(over), reach: largest(reaches) } as const]),
  ];
}

/** Leads, and ends below rings, that stand up among connecting pieces, which lie above the height `below`. */
function uprightsAbove(plan: Plan, ends: readonly FreeEnd[], below: number): readonly Upright[] {
  const { sizes } = plan.bend;
  const which = sizes.rings?.which;
  return ends.flatMap((end): Upright[] => {
    const { use, plane, lead } = end.form;
    if (use === 'piece') return [];
    const ringed = which === 'all' || which === (use === 'star' ? 'star' : 'terminals');
    if (!ringed && plane + lead <= below) return [];
    const { angle, radius } = footOf(plan, end, slotAngle(sizes.slots, end.bar.slot));
    return [{ angle, radius }];
  });
}

/** How near center lines of leads and connecting pieces may come, with what the widest bar takes. */
function leadRoom(
  { layers }: BendInput['sizes'],
  { tallest, widest, clearance, innermost, bulge }: PieceRoom,
): { readonly apart: number; readonly radially: number } {
  const across = largest(layers.map(({ section }) => coatedWidth(section)));
  const high = largest(layers.map(({ section }) => coatedHeight(section)));
  return {
    apart: ((tallest + across) / 2 + clearance) / innermost,
    radially: (widest + high) / 2 + clearance + bulge,
  };
}

/** Most lanes to either side of a piece's feet that are looked at. */
const mostLanes = 24;

/**
 * Where a connecting piece may run beside the radius of its feet: over the other layers, where no joint stands so
 * high, or behind the winding, lane by lane; last over the air gap. Clear of the axis.
 */
function laneOffsets(
  { machine }: SpaceInput['specification'],
  { layers }: BendInput['sizes'],
  { lane, widest }: PieceRoom,
): (radius: number) => readonly number[] {
  const gap = valueOrDefault(machineStatements, machine, 'gap');
  const inmost = layers[0]!;
  const outmost = layers.at(-1)!;
  const inner = inmost.radius - coatedHeight(inmost.section) / 2;
  const outer = outmost.radius + coatedHeight(outmost.section) / 2;
  const middle = (inmost.radius + outmost.radius) / 2;
  const overGap = (radius: number) =>
    (gap !== 'outer' && radius - widest / 2 < inner) || (gap !== 'inner' && radius + widest / 2 > outer);
  return (radius) => {
    const towards = radius > middle ? -1 : 1;
    const steps = Array.from({ length: 2 * mostLanes }, (_, index) => {
      const lanes = (index >> 1) + 1;
      return (index % 2 === 0 ? 1 : -1) * lanes * lane * towards;
    }).filter((by) => radius + by >= lane);
    return [0, ...steps.filter((by) => !overGap(radius + by)), ...steps.filter((by) => overGap(radius + by))];
  };
}

/** A connecting piece's section: its own sizes where written, else those of its bars. */
function pieceSection(
  bar: Section,
  { pieceWidth, pieceHeight }: { readonly pieceWidth: number | null; readonly pieceHeight: number | null },
): Section {
  return resized(bar, pieceWidth ?? bar.width, pieceHeight ?? bar.height);
}
