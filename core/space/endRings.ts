import { valueOrDefault } from '../language/specification/defaults.ts';
import { machineStatements } from '../language/vocabulary/blocks/machine.ts';
import { deltaJoins, joinedWith } from '../winding/joints/deltaJoins.ts';
import type { EndSide } from '../winding/model.ts';
import type { Reach } from './ends/endForms.ts';
import type { EndSizes } from './ends/endSizes.ts';
import type { FreeEnd } from './ends/freeEnds.ts';
import { type Foot, ringPiece } from './links.ts';
import {
  type Post,
  type RingLane,
  type RingPost,
  type RingToLay,
  ringLaneAt,
  troubleOf,
} from './ringLanes.ts';
import { coatedHeight, coatedWidth, resized, type Section } from './section.ts';
import type { BendRadii, EndRing, SpaceInput } from './space.ts';
import type { SpaceProblem } from './spaceProblems.ts';

/** What the rings of a side are made from. */
export interface RingInput {
  readonly side: EndSide;
  readonly input: SpaceInput;
  readonly sizes: EndSizes;
  readonly radii: BendRadii;
  /** Where the tip of a free end stands. */
  readonly stand: (end: FreeEnd) => Foot;
}

/**
 * The rings of a side, one level each above the height `below`, m, and the ends as they come to them. A ring lies
 * on its ends where nothing that goes on past it stands in its way; else it has a lane of its own, behind the
 * winding first, and its ends bend towards it. The rings that are clear come first, so that the ends that they
 * take up no longer stand in the way of the others.
 */
export function sideRings(
  of: RingInput,
  ends: readonly FreeEnd[],
  below: number,
  problems: SpaceProblem[],
): { readonly rings: readonly EndRing[]; readonly ends: readonly FreeEnd[] } {
  const { side, input, sizes } = of;
  const asked = sizes.rings;
  if (!asked) return { rings: [], ends };
  const waiting = ringGroups(input, asked.which, ends).map((group) => groupToLay(of, group));
  const upright = ends.filter(({ form }) => form.use !== 'piece');
  // Leads that no ring takes up, as far as they stand higher than all ends that one does.
  let floor = upright.reduce((most, { form }) => Math.max(most, form.plane), below);
  const ringed = new Set(waiting.flatMap(({ members }) => members));
  const leads = upright
    .filter((end) => !ringed.has(end) && end.form.plane + end.form.lead > floor + 1e-9)
    .map((end) => postOf(of, end));
  const rings: EndRing[] = [];
  const changed = new Map<FreeEnd, FreeEnd>();
  while (waiting.length > 0) {
    const { group, lane } = nextRing(of, waiting, leads);
    waiting.splice(waiting.indexOf(group), 1);
    const { name, kind, members, section } = group;
    const arrivals = members.flatMap((end, index) => arrivalOf(of, end, lane.reaches[index]!));
    const half = Math.max(coatedHeight(section), ...arrivals.map(({ height }) => height)) / 2;
    const center = Math.max(floor + sizes.pieceClearance + half, ...arrivals.map(({ least }) => least));
    const at = { side: side === 'far' ? 1 : -1, stack: sizes.stack } as const;
    rings.push({
      name,
      kind,
      side,
      level: rings.length + 1,
      section,
      piece: ringPiece(at, lane.radius, center, lane.from, lane.extent),
      height: center,
      bars: members.map((end) => end.bar),
    });
    members.forEach((end, index) => {
      const reach = lane.reaches[index]!;
      const top = center - (reach ? cornerOf(of, end, reach) : coatedHeight(section) / 2);
      changed.set(end, { ...end, form: { ...end.form, lead: top - end.form.plane, reach } });
    });
    floor = center + half;
    problems.push(...gapProblems(of, group, lane));
  }
  return { rings, ends: ends.map((end) => changed.get(end) ?? end) };
}

/** What an end bent to a ring takes along the axis there, and the least height of its center line, m. */
function arrivalOf(of: RingInput, end: FreeEnd, reach: Reach | null) {
  if (!reach) return [];
  const { section } = of.sizes.layers[end.bar.layer]!;
  const height = reach.round === 0 ? coatedHeight(section) : coatedWidth(section);
  return [{ height, least: end.form.plane + cornerOf(of, end, reach) }];
}

/** Radius of the bend, on its center line, by which an end leaves its straight part, m. */
function cornerOf({ sizes, radii }: RingInput, { bar }: FreeEnd, { round }: Reach): number {
  const { section } = sizes.layers[bar.layer]!;
  return round === 0 ? radii.flat + coatedHeight(section) / 2 : radii.edge + coatedWidth(section) / 2;
}

function postOf({ sizes, stand }: RingInput, end: FreeEnd): Post {
  const { angle, radius } = stand(end);
  const { section } = sizes.layers[end.bar.layer]!;
  return { angle, radius, width: coatedWidth(section), height: coatedHeight(section) };
}

interface PlacedGroup {
  readonly group: GroupToLay;
  readonly lane: RingLane;
}

/**
 * The ring that comes next, and its lane: the first that lies on its ends and is clear, or the first that is clear,
 * or the one that meets least.
 */
function nextRing(of: RingInput, waiting: readonly GroupToLay[], leads: readonly Post[]): PlacedGroup {
  const asked = { ring: of.sizes.pieceClearance, bars: of.sizes.endClearance };
  const othersOf = (group: GroupToLay) => [
    ...waiting.filter((other) => other !== group).flatMap(({ ring }) => ring.members),
    ...leads,
  ];
  const straight = (lane: RingLane) => lane.reaches.every((reach) => reach === null);
  for (const group of waiting) {
    const lane = ringLaneAt(group.radii[0]!, group.ring, othersOf(group), asked);
    if (lane && lane.near === 0 && straight(lane)) return { group, lane };
  }
  let best: PlacedGroup | null = null;
  const trouble = ({ lane }: PlacedGroup) => troubleOf(lane.near, lane.touching);
  for (const group of waiting) {
    const others = othersOf(group);
    for (const radius of group.radii) {
      const lane = ringLaneAt(radius, group.ring, others, asked);
      if (!lane) continue;
      const placed = { group, lane };
      if (lane.near === 0) return placed;
      if (!best || trouble(placed) < trouble(best)) best = placed;
    }
  }
  // Beyond all layers every end has room to bend, so that there is one.
  return best!;
}

interface GroupToLay extends RingGroup {
  readonly section: Section;
  readonly ring: RingToLay;
  /** Mean radii at which the ring may lie, the best first, m. */
  readonly radii: readonly number[];
}

function groupToLay(of: RingInput, group: RingGroup): GroupToLay {
  const { sizes } = of;
  const { width, height } = sizes.rings!;
  const bar = sizes.layers[group.members[0]!.bar.layer]!.section;
  const section = resized(bar, width, height);
  const members = group.members.map((end): RingPost => {
    const { layer } = end.bar;
    return {
      ...postOf(of, end),
      edge: cornerOf(of, end, { round: 1, along: 0 }),
      flat: cornerOf(of, end, { round: 0, along: 0 }),
      copper: sizes.layers[layer]!.section.height,
      sense: (end.form.turn ?? 0) < 0 ? -1 : 1,
    };
  });
  const ring = { width: coatedWidth(section), copper: width, members };
  return { ...group, section, ring, radii: ringRadii(of, ring) };
}

/**
 * Where a ring may lie: over the middle of its ends; behind the winding, where no bar stands; over the layers, as
 * far as its ends have room to bend, the nearest to its ends first; last over the air gap.
 */
function ringRadii({ input, sizes }: RingInput, ring: RingToLay): readonly number[] {
  const { width, members } = ring;
  const own = members.map(({ radius }) => radius);
  const middle = overEnds(input, ring);
  const inmost = sizes.layers[0]!;
  const outmost = sizes.layers.at(-1)!;
  const bend = Math.max(...members.map(({ flat }) => flat));
  const inside = inmost.radius - bend - width / 2;
  const outside = outmost.radius + bend + width / 2;
  const gap = valueOrDefault(machineStatements, input.specification.machine, 'gap');
  const behind = gap === 'inner' ? [outside] : gap === 'outer' ? [inside] : [];
  const overGap = gap === 'inner' ? [inside] : gap === 'outer' ? [outside] : [outside, inside];
  const beside = own.flatMap((radius) => [radius - bend - width / 2, radius + bend + width / 2]);
  const over = [...sizes.layers.map(({ radius }) => radius), ...beside]
    .filter((radius) => radius > inside && radius < outside)
    .sort((a, b) => Math.abs(a - middle) - Math.abs(b - middle) || a - b);
  // Clear of the axis.
  return [...new Set([middle, ...behind, ...over, ...overGap])].filter((radius) => radius > width / 2);
}

/** The mean radius of a ring over the middle of its ends, or off it by as much as keeps it from over the air gap and on them. */
function overEnds(input: SpaceInput, { width, copper, members }: RingToLay): number {
  const inner = Math.min(...members.map((post) => post.radius - post.copper / 2));
  const outer = Math.max(...members.map((post) => post.radius + post.copper / 2));
  const { bore, outside } = gapFaces(input);
  const middle = (inner + outer) / 2;
  if (outer - inner > copper) return middle;
  const fromBore = Math.max(middle, Math.min(bore + width / 2, inner + copper / 2));
  return Math.min(fromBore, Math.max(outside - width / 2, outer - copper / 2));
}

/** The radii between which no air gap lies, m. */
function gapFaces({ specification }: SpaceInput): { readonly bore: number; readonly outside: number } {
  const { machine } = specification;
  const gap = valueOrDefault(machineStatements, machine, 'gap');
  return {
    bore: gap === 'outer' || !machine?.bore ? 0 : machine.bore.value / 2,
    outside: gap === 'inner' || !machine?.outside ? Number.POSITIVE_INFINITY : machine.outside.value / 2,
  };
}

/** A ring that reaches over an air gap. */
function gapProblems({ side, input }: RingInput, group: GroupToLay, lane: RingLane): readonly SpaceProblem[] {
  const { bore, outside } = gapFaces(input);
  const half = group.ring.width / 2;
  const reach = Math.max(bore - (lane.radius - half), lane.radius + half - outside);
  return reach > 1e-6 ? [{ kind: 'ring-over-gap', ring: group.name, side, reach }] : [];
}

interface RingGroup {
  readonly name: string;
  readonly kind: EndRing['kind'];
  readonly members: readonly FreeEnd[];
}

/** The ends that one ring joins, star points first; a single end needs none. */
function ringGroups(
  { winding, specification }: SpaceInput,
  which: 'star' | 'terminals' | 'all',
  ends: readonly FreeEnd[],
): readonly RingGroup[] {
  const joins = specification.connect?.connections[0]?.value === 'delta' ? deltaJoins(winding.phases) : [];
  const groups = new Map<string, RingGroup & { readonly members: FreeEnd[] }>();
  for (const end of ends) {
    const { use } = end.form;
    if (end.terminal === null || use === 'piece') continue;
    const kind = use === 'star' ? 'star' : 'terminal';
    if (which !== 'all' && (which === 'star') !== (kind === 'star')) continue;
    const other = joinedWith(joins, end.terminal);
    const name = other === null ? end.terminal : [end.terminal, other].sort().join(' ');
    const group = groups.get(`${kind} ${name}`) ?? { name, kind, members: [] };
    group.members.push(end);
    groups.set(`${kind} ${name}`, group);
  }
  const several = [...groups.values()].filter(({ members }) => members.length > 1);
  return several.sort(
    (a, b) => Number(a.kind === 'terminal') - Number(b.kind === 'terminal') || (a.name < b.name ? -1 : 1),
  );
}
