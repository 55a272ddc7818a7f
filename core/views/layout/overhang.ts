import { textWidth } from '../../picture/fontMetrics.ts';
import { textSize } from '../../picture/make.ts';
import { isPiece } from '../../winding/joints/joints.ts';
import type { EndSide } from '../../winding/model.ts';
import type { DrawnEnd, DrawnLead, DrawnPathEnd, DrawnStarPoint } from './input.ts';
import { assignLevels, type Stretch, spread } from './levels.ts';
import { endOfBar, type LayoutScale } from './scale.ts';

/** Runs of x, h, x, h ...: x from the border before slot 1, h away from the stack's end. */
export type Runs = readonly (readonly number[])[];

/** Where a line leaves at one cut edge and comes back at the other. */
export interface Crossing {
  readonly left: number;
  readonly right: number;
  readonly height: number;
}

/** A joint or coil end with its place. */
export interface PlannedEnd {
  readonly end: DrawnEnd;
  readonly runs: Runs;
  readonly crossing: Crossing | null;
  readonly level: boolean;
}

/** One path end with its line to its terminal or star point. */
export interface PlannedPathEnd {
  readonly end: DrawnPathEnd;
  readonly runs: Runs;
  readonly crossing: Crossing | null;
  /** How often the common line has passed the cut edge, upwards, where it comes to this end: 0 or 1. */
  readonly turn: number;
  /** Places where lines are joined, x, h, x, h ... */
  readonly dots: readonly number[];
}

/** A terminal or star point with everything that leads to it. */
export interface PlannedBus {
  readonly name: string;
  readonly star: boolean;
  readonly ends: readonly PlannedPathEnd[];
  readonly nameX: number;
  readonly nameHeight: number;
}

/** One side's overhang. */
export interface Overhang {
  readonly side: EndSide;
  readonly ends: readonly PlannedEnd[];
  readonly buses: readonly PlannedBus[];
  /** Height of the crowns alone, and with connecting pieces, leads and names. */
  readonly crowns: number;
  readonly height: number;
}

/** Rise of a crown's legs: the same for all, so that legs that lean the same way are parallel and never coincide. */
export const steepness = 0.55;
const smallestCrown = 9;
const levelPitch = 2.6;
const nameRow = 3.4;

/** What stands in the overhangs of both sides. */
export interface OverhangParts {
  readonly ends: readonly DrawnEnd[];
  readonly leads: readonly DrawnLead[];
  readonly starPoints: readonly DrawnStarPoint[];
}

/**
 * Lays out one side: crowns lowest, then connecting pieces, terminals' and star points' lines, then
 * names. `rise` is the height of crowns' legs over their width, more where all crowns would be low.
 */
export function planOverhang(
  side: EndSide,
  scale: LayoutScale,
  { ends, leads, starPoints }: OverhangParts,
  rise: number = steepness,
): Overhang {
  const { bent, reaches, slope, crowns, pieces, levels, above } = planHeights(side, scale, ends, rise);
  const planned = bent.map((end, index) => planCrown(end, reaches[index]!, scale, slope));
  const lines = arrangeBuses(side, scale, leads, starPoints, above);
  return {
    side,
    ends: [...planned, ...pieces.map((end, index) => planPiece(end, levels[index]!, scale, crowns))],
    buses: planBuses(lines, scale, above),
    crowns,
    height: lines.height,
  };
}

/** The height of the same overhang, whose crowns are not laid out. */
export function overhangHeight(
  side: EndSide,
  scale: LayoutScale,
  { ends, leads, starPoints }: OverhangParts,
  rise: number = steepness,
): number {
  const { above } = planHeights(side, scale, ends, rise);
  return arrangeBuses(side, scale, leads, starPoints, above).height;
}

/** How high one side's crowns are, and the connecting pieces on their levels above them. */
function planHeights(side: EndSide, scale: LayoutScale, ends: readonly DrawnEnd[], rise: number) {
  const own = ends.filter((end) => end.side === side);
  const bent = own.filter((end) => !isPiece(end));
  const reaches = bent.map((end) => reachOf(end, scale));
  const widest = reaches.reduce((most, reach) => Math.max(most, Math.abs(reach)), 0);
  const slope = Math.max(rise, widest === 0 ? 0 : (2 * smallestCrown) / widest);
  const crowns = (slope * widest) / 2;
  const pieces = own.filter(isPiece);
  const levels = assignLevels(
    pieces.map((end) => {
      const from = endOfBar(scale, end.from, end.side);
      const to = from + reachOf(end, scale);
      return { from: Math.min(from, to), to: Math.max(from, to) };
    }),
    scale.width,
    1.5,
  );
  const above = crowns + (Math.max(-1, ...levels) + 1) * levelPitch;
  return { bent, reaches, slope, crowns, pieces, levels, above };
}

/** Signed distance from one bar end to the other along the end's own way round: its true span. */
function reachOf(end: DrawnEnd, scale: LayoutScale): number {
  const { from, to, side, span } = end;
  const half = (scale.lean[to.layer]! - scale.lean[from.layer]!) / 2;
  return (
    span * scale.pitch +
    scale.offsets[to.layer]! -
    scale.offsets[from.layer]! +
    (side === 'far' ? half : -half)
  );
}

/** Two straight legs that meet at mid-span. */
function planCrown(end: DrawnEnd, reach: number, scale: LayoutScale, slope: number): PlannedEnd {
  const from = endOfBar(scale, end.from, end.side);
  const height = Math.max((slope * Math.abs(reach)) / 2, 1.5);
  return { ...place(end, scale, [from, 0, from + reach / 2, height, from + reach, 0]), level: false };
}

/** A connecting piece: straight out, along its level, straight back. */
function planPiece(end: DrawnEnd, level: number, scale: LayoutScale, crowns: number): PlannedEnd {
  const from = endOfBar(scale, end.from, end.side);
  const to = from + reachOf(end, scale);
  const height = crowns + (level + 1) * levelPitch;
  return { ...place(end, scale, [from, 0, from, height, to, height, to, 0]), level: true };
}

/** An end drawn as a line, cut where the drawing is. */
function place(end: DrawnEnd, scale: LayoutScale, line: readonly number[]): Omit<PlannedEnd, 'level'> {
  return { end, ...cutAtEdge(line, endOfBar(scale, end.to, end.side), scale) };
}

/** Cuts a line that goes on beyond a cut edge, so that it ends at a place within them. */
function cutAtEdge(
  line: readonly number[],
  target: number,
  scale: LayoutScale,
): Pick<PlannedEnd, 'runs' | 'crossing'> {
  const first = line[0]!;
  const last = line.at(-2)!;
  const turns = Math.round((last - target) / scale.width);
  if (turns === 0) return { runs: [line], crossing: null };
  const way = Math.sign(turns);
  const edge = (way > 0 ? scale.width : 0) - scale.cutInset;
  const margin = Math.min(1, 0.3 * Math.abs(last - first));
  const cut = Math.max(Math.min(first, last) + margin, Math.min(edge, Math.max(first, last) - margin));
  const [before, after, height] = cutLine(line, cut);
  const shifted = after.map((value, index) => (index % 2 === 0 ? value - way * scale.width : value));
  const back = cut - way * scale.width;
  return {
    runs: [before, shifted],
    crossing: { left: Math.min(cut, back), right: Math.max(cut, back), height },
  };
}

/** The parts of a line before and after it passes x, and the height at which it does. */
export function cutLine(
  line: readonly number[],
  x: number,
): [before: number[], after: number[], height: number] {
  for (let index = 2; index + 1 < line.length; index += 2) {
    const [x1, h1, x2, h2] = [line[index - 2]!, line[index - 1]!, line[index]!, line[index + 1]!];
    if (x1 === x2 || (x - x1) * (x - x2) > 0) continue;
    const height = h1 + ((h2 - h1) * (x - x1)) / (x2 - x1);
    return [[...line.slice(0, index), x, height], [x, height, ...line.slice(index)], height];
  }
  throw new RangeError(`A line from ${line[0]} to ${line.at(-2)} does not pass ${x}`);
}

/** Path ends that meet, in the order in which their line comes to them. */
interface Bus {
  readonly name: string;
  readonly ends: readonly DrawnPathEnd[];
  /** Where their bars are drawn. */
  readonly taps: readonly number[];
  /** For each, how often the line has passed the cut edge: 0 or 1. */
  readonly turns: readonly number[];
}

/** Where a bus begins and ends; its end counted on where it passes the cut edge. */
function stretchOf({ taps, turns }: Bus, { width }: LayoutScale): Stretch {
  return { from: taps[0]!, to: taps.at(-1)! + turns.at(-1)! * width };
}

/** Terminals on the levels above the pieces, star points on the levels above those, names on top: how high that is. */
function arrangeBuses(
  side: EndSide,
  scale: LayoutScale,
  leads: readonly DrawnLead[],
  starPoints: readonly DrawnStarPoint[],
  below: number,
) {
  const terminals = gatherTerminals(side, scale, leads);
  const stars = starPoints
    .map(({ name, ends }) =>
      busOf(
        name,
        ends.filter((end) => end.side === side),
        scale,
      ),
    )
    .filter((bus) => bus.taps.length > 0);
  const levels = assignLevels(
    terminals.map((bus) => stretchOf(bus, scale)),
    scale.width,
    1.5,
  );
  const single = terminals.every(({ taps }) => taps.length === 1);
  const levelCount = terminals.length === 0 || single ? 0 : Math.max(...levels) + 1;
  const starBase = below + levelCount * levelPitch;
  const top = starBase + stars.length * (nameRow + 1.4) + (terminals.length > 0 ? 4.5 + nameRow : 0);
  return { terminals, stars, levels, starBase, top, height: top === below ? below + 0.5 : top };
}

function planBuses(
  { terminals, stars, levels, starBase, top }: ReturnType<typeof arrangeBuses>,
  scale: LayoutScale,
  below: number,
): readonly PlannedBus[] {
  const risers = terminals.map(({ taps }) => taps[0]!);
  const names = placeNames(terminals, scale);
  return [
    ...terminals.map((bus, index) =>
      planTerminal(bus, scale, below + (levels[index]! + 1) * levelPitch, names[index]!, top - nameRow),
    ),
    ...stars.map((bus, index) => planStar(bus, scale, starBase + index * (nameRow + 1.4) + 1.4, risers)),
  ];
}

function gatherTerminals(side: EndSide, scale: LayoutScale, leads: readonly DrawnLead[]): readonly Bus[] {
  const gathered = new Map<string, DrawnLead[]>();
  for (const lead of leads) {
    if (lead.side !== side) continue;
    const same = gathered.get(lead.terminal);
    if (same === undefined) gathered.set(lead.terminal, [lead]);
    else same.push(lead);
  }
  return [...gathered].map(([name, ends]) => busOf(name, ends, scale));
}

/** From left to right, or over the cut edge where that way is shorter by more than a quarter of the bore. */
function busOf(name: string, ends: readonly DrawnPathEnd[], scale: LayoutScale): Bus {
  const sorted = ends
    .map((end) => ({ end, tap: endOfBar(scale, end.bar, end.side), turn: 0 }))
    .sort((one, other) => one.tap - other.tap);
  const begin = beginOfBus(
    sorted.map(({ tap }) => tap),
    scale.width,
  );
  const placed = [...sorted.slice(begin), ...sorted.slice(0, begin).map((each) => ({ ...each, turn: 1 }))];
  return {
    name,
    ends: placed.map(({ end }) => end),
    taps: placed.map(({ tap }) => tap),
    turns: placed.map(({ turn }) => turn),
  };
}

/** The tap from which the line is led to the right: the one behind the widest gap, else the first. */
function beginOfBus(taps: readonly number[], around: number): number {
  const gaps = taps.slice(1).map((tap, index) => tap - taps[index]!);
  const widest = Math.max(...gaps);
  const atEdge = around - (taps.at(-1)! - taps[0]!);
  return widest - atEdge > around / 4 ? gaps.indexOf(widest) + 1 : 0;
}

/** From the middle of one name to that of the next, at least. */
export function nameGap(named: readonly { readonly name: string }[]): number {
  return Math.max(0, ...named.map(({ name }) => textWidth(name, textSize))) + 1.2;
}

/** The end of a line straight out to a name, at last slanting where the name stands aside. */
export function riseTo(x: number, nameX: number, top: number): readonly number[] {
  return Math.abs(nameX - x) < 1e-9 ? [x, top] : [x, top - 3, nameX, top];
}

/** Places for the terminals' names, near their leads and apart from each other. */
function placeNames(terminals: readonly Bus[], scale: LayoutScale): readonly number[] {
  const gap = nameGap(terminals);
  const order = terminals.map((_, index) => index);
  order.sort((one, other) => terminals[one]!.taps[0]! - terminals[other]!.taps[0]!);
  const places = spread(
    order.map((index) => terminals[index]!.taps[0]!),
    gap,
    Math.min(0, scale.width / 2 - ((terminals.length - 1) * gap) / 2),
    Math.max(scale.width, scale.width / 2 + ((terminals.length - 1) * gap) / 2),
  );
  const names = new Array<number>(terminals.length).fill(0);
  for (const [rank, index] of order.entries()) names[index] = places[rank]!;
  return names;
}

/** The first bar straight out to the terminal, at last perhaps slanting; each further one to the line of the one before. */
function planTerminal(bus: Bus, scale: LayoutScale, level: number, nameX: number, top: number): PlannedBus {
  const first = bus.taps[0]!;
  const dots = bus.taps.length > 1 ? [first, level] : [];
  const ends = planBusEnds(bus, scale, level, {
    runs: [[first, 0, ...riseTo(first, nameX, top)]],
    dots,
  });
  return { name: bus.name, star: false, ends, nameX, nameHeight: top + 0.4 };
}

/** Bars straight out to the star point's line; its name stands on the line where no lead passes. */
function planStar(bus: Bus, scale: LayoutScale, level: number, risers: readonly number[]): PlannedBus {
  const { from: first, to } = stretchOf(bus, scale);
  const half = textWidth(bus.name, textSize) / 2 + 0.6;
  const edge = scale.width - scale.cutInset;
  const drawn = (x: number) => (to > edge && x > edge ? x - scale.width : x);
  const free = (x: number) =>
    risers.every((riser) => Math.abs(riser - drawn(x)) > half) && (to <= edge || Math.abs(x - edge) > half);
  let nameX = to - half;
  while (!free(nameX) && nameX > first) nameX -= 1;
  const ends = planBusEnds(bus, scale, level, { runs: [[first, 0, first, level]], dots: [first, level] });
  return { name: bus.name, star: true, ends, nameX: drawn(nameX), nameHeight: level + 0.5 };
}

/** The first end as it is; every further bar straight out and along the common line to the bar before it. */
function planBusEnds(
  { ends, taps, turns }: Bus,
  scale: LayoutScale,
  level: number,
  first: Pick<PlannedPathEnd, 'runs' | 'dots'>,
): readonly PlannedPathEnd[] {
  return ends.map((end, index) => {
    const turn = turns[index]!;
    if (index === 0) return { end, ...first, crossing: null, turn };
    const [tap, before] = [taps[index]!, taps[index - 1]!];
    const line = [tap, 0, tap, level, before - (turn - turns[index - 1]!) * scale.width, level];
    return { end, ...cutAtEdge(line, before, scale), turn, dots: [tap, level] };
  });
}
