import { refusalWords } from '../../facts/unjoined.ts';
import { findingKind } from '../../language/finding.ts';
import { layerLetter } from '../../language/layerLetters.ts';
import { isOne, plural } from '../../language/lists.ts';
import { percent, significant } from '../../language/numbers.ts';
import type { RouteRefusal } from '../../routing/route.ts';
import { toldLength as told } from '../../space/clearance/placeWords.ts';
import type { TipRoom } from '../../space/ends/endRoom.ts';
import { atLeast, atMost, canBeTold } from '../space/freeingLengths.ts';

export const routingRefused = findingKind<{
  asked: number;
  reason: RouteRefusal;
  phases: readonly string[];
  /** Numbers of paths that can be balanced with crowns of any span, rising. */
  anyCrowns: readonly number[];
  /** One layer only, where the router joins no bars but by coils of one span. */
  oneLayer: boolean;
}>({
  code: 'routing-refused',
  severity: 'error',
  graded: ['info'],
  help: 'Balanced parallel paths are possible for some numbers of paths: with regular crowns, whose span joins layer pairs, for fewer than with special crowns, which `specials` allows. In one layer, and without a constant span, only written paths have crowns of other spans.',
  message: ({ asked, reason, phases, anyCrowns, oneLayer }) =>
    `${regularWords(asked, reason, phases)} ${specialWords(asked, reason, anyCrowns, oneLayer)}`,
});

/** What regular crowns allow, or why the search with special crowns ended. */
function regularWords(asked: number, reason: RouteRefusal, phases: readonly string[]): string {
  const crowns =
    reason.kind === 'none-met' || reason.kind === 'bars-do-not-divide' ? '' : ' with regular crowns';
  const refused = `${plural(asked, 'parallel path')} cannot be routed${crowns}: ${refusalWords(reason, phases)}.`;
  if (reason.kind !== 'paths-do-not-divide') return refused;
  const nearest =
    reason.nearest.length > 0 ? ` Nearest numbers that work: ${reason.nearest.join(', ')}.` : '';
  return `${refused}${nearest} All that work with them: ${reason.possible.join(', ')}.`;
}

/** What special crowns allow beside. */
function specialWords(
  asked: number,
  reason: RouteRefusal,
  anyCrowns: readonly number[],
  oneLayer: boolean,
): string {
  const spanless = reason.kind === 'no-constant-span';
  const onlyWritten = (oneLayer || spanless) && reason.kind !== 'bars-do-not-divide';
  if (reason.kind === 'none-met' && !oneLayer) return 'Written paths may do it.';
  if (anyCrowns.includes(asked)) {
    const paths = plural(asked, 'parallel path');
    if (!onlyWritten)
      return `With special crowns ${paths} ${isOne(asked) ? 'is' : 'are'} possible: write specials either.`;
    const why = spanless ? '' : '; in one layer route takes coils of one span only';
    return `Written paths with crowns of other spans allow ${paths}${why}.`;
  }
  const regular = reason.kind === 'paths-do-not-divide' ? reason.possible : [];
  const more = anyCrowns.filter((count) => !regular.includes(count));
  if (more.length === 0) return 'Special crowns allow no other numbers.';
  return `With special crowns neither; ${regular.length > 0 ? 'besides these ' : ''}they allow ${more.join(', ')}${onlyWritten ? ', as written paths' : ''}.`;
}

export const crownsTaken = findingKind<{ asked: number }>({
  code: 'special-crowns-taken',
  severity: 'info',
  help: 'With regular crowns no balanced paths of this number are possible, and `specials` is not stated, so special spans lie in crowns too.',
  message: ({ asked }) =>
    `${plural(asked, 'parallel path')} ${isOne(asked) ? 'is' : 'are'} not possible with regular crowns, so special spans lie in crowns too; specials either says so, specials joined refuses it.`,
});

export const limitDecides = findingKind<{ what: string; otherwise: string }>({
  code: 'limit-decides-connection',
  severity: 'info',
  help: 'A found connection that meets all limits goes before one that does not; this limit made the router take another one than it would have.',
  message: ({ what, otherwise }) =>
    `${what} decides the connection: without limits the best one would have ${otherwise}.`,
});

export const anotherOffered = findingKind<{ kept: string; offered: string }>({
  code: 'connection-offered',
  severity: 'info',
  help: 'Told while typing, when other sizes make another connection the best: the one found before stays until that one is taken, which the text gives wherever else it is read.',
  message: ({ kept, offered }) =>
    `With the sizes as they are now, ${offered} is the best connection; ${kept}, found before, stays until that one is taken, or this one is written out.`,
});

export const farEnd = findingKind<{ path: string; end: string }>({
  code: 'path-end-on-far-side',
  severity: 'warning',
  help: 'A hairpin has both ends on the connection side; a path that starts or ends on the far side needs a single bar there.',
  message: ({ path, end }) => `Path ${path} ${end} on the far side; with hairpins this needs a single bar.`,
});

/** A share in percent; above the whole, how many times it. Completed by what it is a share of. */
function shareOf(ratio: number): string {
  return ratio > 1 ? `${significant(ratio, 3)} times` : `${percent(ratio, 3)} of`;
}

/** `in all, 4 a phase`: a count over all phases beside the counts of limits, which are a phase's. */
function inAll(phases: readonly number[]): string {
  if (phases.length === 1) return '';
  const least = Math.min(...phases);
  const most = Math.max(...phases);
  return ` in all, ${least === most ? least : `${least} to ${most}`} a phase`;
}

export const leanCollision = findingKind<{
  bars: string;
  count: number;
  /** The hop that leads to the same bar the other way round, where that would not collide. */
  hop: string | null;
}>({
  code: 'lean-collision',
  severity: 'error',
  help: 'All bar ends of a layer lean the same way on a side; a joint that leans against them needs a separate connecting piece.',
  message: ({ bars, count, hop }) => {
    const joints = `${count === 1 ? 'The joint' : `${count} joints`} ${bars} ${isOne(count) ? 'leans' : 'lean'} against the other bar ends of a layer`;
    return hop === null
      ? `${joints}; write | before the step for a separate connecting piece.`
      : `${joints}: a position does not say which way round; write the hop ${hop} to go the other way.`;
  },
});

export const jumperNeeded = findingKind<{
  bars: string;
  count: number;
  /** How many of them each phase has, for the phases that have some; of one step, its own. */
  phases: readonly number[];
  /** They cross the end winding. */
  crossing: boolean;
}>({
  code: 'jumpers',
  severity: 'info',
  graded: ['warning'],
  help: 'Joints that reach over layers or against the lean are made by separate connecting pieces.',
  message: ({ bars, count, phases, crossing }) =>
    `${plural(count, 'separate connecting piece')}${inAll(phases)}${crossing ? `${phases.length > 1 ? ',' : ''} that ${isOne(count) ? 'crosses' : 'cross'} the end winding` : ''}: ${bars}.`,
});

export const farSideSpecial = findingKind<{ bars: string; count: number; phases: readonly number[] }>({
  code: 'special-joint-on-far-side',
  severity: 'warning',
  help: 'Where special spans lie in the joined legs, special joints on the far side change the form of crowns; `specials crowns` or `either` has them there on purpose.',
  message: ({ bars, count, phases }) =>
    `${plural(count, 'special joint')}${inAll(phases)}${phases.length > 1 ? ',' : ''} on the far side: ${bars}.`,
});

export const jointWithoutSpan = findingKind<{ bars: string }>({
  code: 'joint-without-span',
  severity: 'warning',
  help: 'Two bars of one slot are joined directly: there is no room to bend.',
  message: ({ bars }) => `The joint ${bars} stays within its slot.`,
});

export const pathsUnequal = findingKind<{
  phase: string;
  difference: number;
  worst: string;
  circulating: number | null;
  deviation: number | null;
}>({
  code: 'paths-unequal-voltage',
  severity: 'error',
  graded: ['warning', 'info'],
  help: 'Parallel paths of a phase need equal voltages; otherwise a current circulates between them even without load.',
  message: ({ phase, difference, worst, circulating, deviation }) => {
    const flows =
      circulating === null
        ? ''
        : `, which drives a circulating current of ${shareOf(circulating)} the path current`;
    const atLoad =
      deviation === null || deviation < 0.01
        ? ''
        : `; at load the path currents differ by up to ${shareOf(deviation)} an equal share`;
    return `The parallel paths of phase ${phase} have unequal voltages: ${worst} differs by ${shareOf(difference)} the mean${flows}${atLoad}.`;
  },
});

export const pathCurrentsUnequal = findingKind<{ deviation: number }>({
  code: 'path-currents-unequal',
  severity: 'error',
  help: 'Paths of equal voltage still share the load unequally where their resistance, slot leakage or gap field differs.',
  message: ({ deviation }) =>
    `The currents of parallel paths differ at load by up to ${shareOf(deviation)} an equal share: their resistance, slot leakage or gap field is not the same.`,
});

export const occupationUnequal = findingKind<{
  phase: string;
  path: string;
  cells: boolean;
  split: number | null;
  /** The split is by slot leakage alone, for want of sizes. */
  alone: boolean;
}>({
  code: 'layer-occupation-unequal',
  severity: 'error',
  graded: ['warning', 'info'],
  help: 'Paths that use the layers unequally have unequal slot leakage and share the current unequally.',
  message: ({ phase, path, cells, split, alone }) => {
    const cause = alone ? 'slot leakage alone makes' : 'resistance, slot leakage and gap field make';
    const effect =
      split === null
        ? ''
        : `: ${cause} the path currents differ by up to ${shareOf(split)} an equal share (upper estimate)`;
    return `Path ${path} of phase ${phase} uses ${cells ? 'the places of the layers' : 'the layers'} otherwise than its first path${effect}.`;
  },
});

export const jumperLevelsMany = findingKind<{ levels: number }>({
  code: 'jumper-levels',
  severity: 'warning',
  help: 'Connecting pieces that cross lie one above another and make the end winding higher.',
  message: ({ levels }) =>
    `The connecting pieces of all phases need ${plural(levels, 'level')} above the end winding.`,
});

export const accessBlocked = findingKind<{ joints: string }>({
  code: 'joints-hide-each-other',
  severity: 'error',
  help: 'Joints are set one after another; a ring of joints each of which hides the next cannot be set.',
  message: ({ joints }) => `The joints ${joints} hide each other in a ring: none of them can be set first.`,
});

export const innerLead = findingKind<{ paths: string; count: number }>({
  code: 'lead-in-inner-layer',
  severity: 'warning',
  help: 'Leads come out easily from the first and the last layer only.',
  message: ({ paths, count }) => `${plural(count, 'lead')} in a layer between others: ${paths}.`,
});

export const mixedRadius = findingKind<{ phases: string; layers: string }>({
  code: 'starts-at-mixed-radius',
  severity: 'info',
  help: 'Starts of one phase in one layer are easier to join to its terminal.',
  message: ({ phases, layers }) =>
    `The paths of each phase (${phases}) start in different layers: ${layers}.`,
});

export const wideTerminals = findingKind<{ degrees: number }>({
  code: 'terminals-apart',
  severity: 'warning',
  help: 'Starts of all paths near each other make short terminal leads.',
  message: ({ degrees }) =>
    `The starts of the paths spread over ${plural(significant(degrees, 4), 'mechanical degree')}.`,
});

export const phaseVoltagesUnequal = findingKind<{ phase: string; difference: number }>({
  code: 'phase-voltages-unequal',
  severity: 'error',
  help: 'The paths of all phases have equal voltages on their declared axes.',
  message: ({ phase, difference }) =>
    `The voltage of phase ${phase} differs by ${percent(difference, 3)} from its place in the star.`,
});

export const voltageInSlotHigh = findingKind<{ value: number; bars: string; side: string }>({
  code: 'voltage-in-slot-high',
  severity: 'warning',
  help: 'Neighboring bars of one phase in a slot with a large part of the phase voltage between them need insulation for it.',
  message: ({ value, bars, side }) =>
    `Between the neighboring bars ${bars} of one phase stand ${percent(value, 3)} of the phase voltage (${side} side).`,
});

export const phaseInsulation = findingKind<{
  value: number;
  bars: string;
  /** What it takes to be at one potential, where the bars are of different sets. */
  common: string | null;
}>({
  code: 'phase-insulation-needed',
  severity: 'info',
  help: 'Slots that hold two phases need phase insulation between their layers.',
  message: ({ value, bars, common }) =>
    `Slots hold two phases: up to ${percent(value, 3)} of the phase voltage between neighboring bars (${bars}${common === null ? '' : `, ${common} taken at one potential`}); phase insulation is needed.`,
});

/** What leaves tips room: less clearance, where some is left, or narrower bars. */
const tipRoom = ({ left, actual, needed }: TipRoom) =>
  `${canBeTold(left) ? `An end-clearance of at most ${atMost(left)} or bars` : 'Bars'} narrower by at least ${atLeast(needed - actual)} leave room.`;

export const tipsTooClose = findingKind<{
  side: string;
  gap: number;
  /** Where sizes are given: the layer with the least room, which may be enough. */
  room: TipRoom | null;
}>({
  code: 'joint-tips-close',
  severity: 'warning',
  graded: ['error'],
  help: 'The tips of bent joints lie in a ring: neighbors need their coated width and clearance, and less than a slot pitch is tight.',
  message: ({ side, gap, room }) => {
    const as = 'however they are bent';
    if (gap === 0) return `On the ${side} side two joint tips fall on the same place ${as}.`;
    if (room === null)
      return `On the ${side} side joint tips come as near as ${significant(gap, 3)} slot pitches ${as}.`;
    const { layer, actual, needed } = room;
    const near = `On the ${side} side joint tips of layer ${layerLetter(layer)} come as near as ${told(actual, needed)} ${as}`;
    const need = `coated width and clearance need ${told(needed, actual)}.`;
    return actual < needed ? `${near}; ${need} ${tipRoom(room)}` : `${near}, less than a slot pitch; ${need}`;
  },
});

export const legsOvertake = findingKind<{
  side: string;
  /** The longer leg, and the bar whose joint it runs through. */
  bars: readonly [string, string];
  count: number;
  /** The joint-straight with which the longer legs pass above, m; null where none does or sizes are missing. */
  jointStraight: number | null;
  crowns: boolean;
}>({
  code: 'legs-cross',
  severity: 'error',
  graded: ['warning'],
  help: 'The legs of a layer rise side by side. One that begins behind another and ends before it runs through its joint, unless it passes above. A warning without the sizes that tell heights.',
  message: ({ side, bars: [longer, shorter], count, jointStraight, crowns }) => {
    const where = `On the ${side} side the leg of ${longer} runs through the joint of ${shorter} however they are bent${count > 1 ? `; ${count} pairs of legs cross so` : ''}.`;
    const spans = 'Spans that differ less from the regular one keep them apart';
    const freed =
      jointStraight === null
        ? crowns
          ? `${spans}, or special spans in the crowns ('specials crowns'), which stand above each other.`
          : `${spans}.`
        : `A joint-straight of at most ${significant(Math.floor(jointStraight * 1e5) / 100, 4)} mm lets the longer legs pass above.`;
    return `${where} ${freed}`;
  },
});

export const legsApart = findingKind<{ count: number }>({
  code: 'legs-bent-apart',
  severity: 'warning',
  help: 'The open legs of a layer form a ring, which is bent in one stroke by the regular span; a leg with another span is bent by itself.',
  message: ({ count }) =>
    isOne(count)
      ? '1 hairpin leg has another span than the rest of its layer, so it is bent by itself, not with the ring.'
      : `${count} hairpin legs in all have another span than the rest of their layer, so they are bent one by one, not with the ring.`,
});

/** Every kind a connected winding reports. */
export const connectionKinds = [
  routingRefused,
  crownsTaken,
  limitDecides,
  anotherOffered,
  farEnd,
  leanCollision,
  jumperNeeded,
  farSideSpecial,
  jointWithoutSpan,
  pathsUnequal,
  pathCurrentsUnequal,
  occupationUnequal,
  jumperLevelsMany,
  accessBlocked,
  innerLead,
  mixedRadius,
  wideTerminals,
  phaseVoltagesUnequal,
  voltageInSlotHigh,
  phaseInsulation,
  tipsTooClose,
  legsOvertake,
  legsApart,
];
