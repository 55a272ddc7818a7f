import type { Steps } from '../../figures/steps.ts';
import { modulo } from '../../winding/integers.ts';
import type { Bends } from '../../winding/joints/bends.ts';
import type { Winding } from '../../winding/model.ts';
import { routedKind, shapeOf } from '../jointKind.ts';
import type { Content, Unit } from './units.ts';

/** A possible connection-side joint between two units, some rotations of the machine apart. */
export interface Link {
  /** Index of the unit it leads to, in the graph. */
  readonly to: number;
  /** Slots, signed. */
  readonly span: number;
  readonly jumper: boolean;
  readonly special: boolean;
  /** Rotations of the machine by its symmetry to go on. */
  readonly turns: number;
}

/** Units of one repeat of the machine, with all joints worth considering between them. */
export interface LinkGraph {
  readonly units: readonly Unit[];
  /** Class of each unit, as in `Content`. */
  readonly classes: readonly number[];
  /** How often the units stand round the machine. */
  readonly repeats: number;
  /** Links from each unit, rising by the unit they lead to, then best first. */
  readonly rows: readonly LinkRow[];
  /** Regular joints from each unit, as places in its row. */
  readonly regular: readonly (readonly number[])[];
  /** Joints of each special shape, shortest shapes first, as unit x `stride` + place in its row. */
  readonly byShape: readonly (readonly number[])[];
  /** Links that each row has room for. */
  readonly stride: number;
}

/** Links of one unit, column by column: there are too many to hold each as an object. */
interface LinkRow {
  readonly count: number;
  readonly to: Int32Array;
  readonly span: Int32Array;
  readonly turns: Int32Array;
  /** 0 regular, 1 special, 2 jumper. */
  readonly rank: Uint8Array;
}

export interface CoverTask {
  readonly graph: LinkGraph;
  /** Paths to find among the units of one repeat. */
  readonly paths: number;
  /** Each path found is run through this many repeats, one after another. */
  readonly chained: number;
  /** Units of each class that a path is to hold within one repeat. */
  readonly classQuota: readonly number[];
  /** Units of each pair of layers, likewise. */
  readonly pairQuota: readonly number[];
}

/** A path through the graph: units in order, the links between, and the link to its own next repeat. */
export interface GraphPath {
  /** Indices of the graph's units. */
  readonly units: readonly number[];
  readonly links: readonly Link[];
  readonly closing: Link | null;
}

const mostLinksBetween = 3;

/** Cost of a link: jumpers count before all special joints. */
export function linkCost(link: Link): number {
  return (link.jumper ? 10000 : 0) + (link.special ? 1 : 0);
}

/** All links from a unit. */
export function linksFrom({ rows }: LinkGraph, unit: number): Link[] {
  return Array.from({ length: rows[unit]!.count }, (_, place) => linkAt(rows[unit]!, place));
}

/** Links from each unit: regular joints, and those of some special shapes. */
export function linksOfShapes(graph: LinkGraph, shapes: readonly number[]): Link[][] {
  const places = graph.regular.map((list) => [...list]);
  for (const shape of shapes) {
    for (const link of graph.byShape[shape]!) {
      places[Math.floor(link / graph.stride)]!.push(link % graph.stride);
    }
  }
  return places.map((list, unit) => {
    const row = graph.rows[unit]!;
    return list.sort((a, b) => a - b).map((place) => linkAt(row, place));
  });
}

function linkAt(row: LinkRow, place: number): Link {
  const rank = row.rank[place]!;
  return {
    to: row.to[place]!,
    span: row.span[place]!,
    jumper: rank === 2,
    special: rank > 0,
    turns: row.turns[place]!,
  };
}

/** Units of the first repeat with the most sensible joints between each two; yields after each unit. */
export function* linkGraph(
  winding: Winding,
  bends: Bends,
  all: readonly Unit[],
  content: Content,
  repeats: number,
): Steps<LinkGraph> {
  const { slots } = winding;
  const kept = all.flatMap((unit, index) => (unit.go.slot <= slots / repeats ? [index] : []));
  const units = kept.map((index) => all[index]!);
  const stride = units.length * Math.min(mostLinksBetween, 2 * repeats);
  const shapes = new Map<number, FoundShape>();
  const rows: LinkRow[] = [];
  const regular: number[][] = [];
  for (const from of units) {
    const row = emptyRow(stride);
    const own: number[] = [];
    units.forEach((to, index) => {
      for (const option of linkOptions(winding, bends, from, to, repeats)) {
        const place = addLink(row, index, option);
        if (option.rank === 0) own.push(place);
        else shapeOfLink(shapes, slots, from, to, option).links.push(rows.length * stride + place);
      }
    });
    rows.push(row);
    regular.push(own);
    yield;
  }
  const ranked = [...shapes.values()].sort((a, b) => a.size - b.size || (a.name < b.name ? -1 : 1));
  const classes = kept.map((index) => content.classes[index]!);
  const byShape = ranked.map(({ links }) => links);
  return { units, classes, repeats, rows, regular, byShape, stride };
}

/** A joint that may be considered between two units; its rank is 0 regular, 1 special, 2 jumper. */
interface LinkOption {
  readonly span: number;
  readonly turns: number;
  readonly rank: number;
}

/** A special shape: its size, a name that decides between shapes of one size, and its links. */
interface FoundShape {
  readonly size: number;
  readonly name: string;
  readonly links: number[];
}

function emptyRow(links: number): { -readonly [Field in keyof LinkRow]: LinkRow[Field] } {
  return {
    count: 0,
    to: new Int32Array(links),
    span: new Int32Array(links),
    turns: new Int32Array(links),
    rank: new Uint8Array(links),
  };
}

/** The best joints from one unit to another, over all repeats: by rank, then the shortest. */
function linkOptions(winding: Winding, bends: Bends, from: Unit, to: Unit, repeats: number): LinkOption[] {
  const { slots } = winding;
  const options: LinkOption[] = [];
  for (let turns = 0; turns < repeats; turns++) {
    const forward = modulo(to.go.slot + (turns * slots) / repeats - from.back.slot, slots);
    for (const span of [forward, forward - slots]) {
      if (span === -slots || (span === 0 && to.go.layer === from.back.layer)) continue;
      const kind = routedKind(winding, bends, { side: 'connection', from: from.back, to: to.go, span });
      options.push({ span, turns, rank: kind === 'jumper' ? 2 : kind === 'regular' ? 0 : 1 });
    }
  }
  const cost = ({ rank, span }: LinkOption) => rank * slots + Math.abs(span);
  if (options.length > 1) options.sort((a, b) => cost(a) - cost(b) || b.span - a.span);
  return options.length > mostLinksBetween ? options.slice(0, mostLinksBetween) : options;
}

/** Appends a link to a row, and tells its place. */
function addLink(row: ReturnType<typeof emptyRow>, to: number, { span, turns, rank }: LinkOption): number {
  const place = row.count++;
  row.to[place] = to;
  row.span[place] = span;
  row.turns[place] = turns;
  row.rank[place] = rank;
  return place;
}

function shapeOfLink(
  shapes: Map<number, FoundShape>,
  slots: number,
  from: Unit,
  to: Unit,
  { span, rank }: LinkOption,
): FoundShape {
  const start = from.back.layer;
  const end = to.go.layer;
  const key = shapeOf('connection', start, end, span);
  const known = shapes.get(key);
  if (known) return known;
  const offset = start === end ? Math.abs(span) : start < end ? span : -span;
  const name = `${Math.min(start, end)} ${Math.max(start, end)} ${offset}`;
  const shape = { size: rank * slots + Math.abs(span), name, links: [] };
  shapes.set(key, shape);
  return shape;
}
