import { modulo } from './integers.ts';
import { jointReason, kindOfReason } from './joints.ts';
import type { Bends } from './jointsBends.ts';
import type { Winding } from './model.ts';
import { shapeOf } from './routeMeasure.ts';
import type { Content, Unit } from './routeUnits.ts';

/** A possible connection-side joint between two units, some rotations of the machine apart. */
export interface Link {
  readonly to: number;
  readonly span: number;
  readonly jumper: boolean;
  readonly special: boolean;
  readonly shape: number;
  /** Rotations of the machine by its symmetry to go on. */
  readonly turns: number;
}

/** Units of one repeat of the machine, with all joints worth considering between them. */
export interface LinkGraph {
  readonly units: readonly Unit[];
  readonly classes: readonly number[];
  readonly repeats: number;
  readonly links: readonly (readonly Link[])[];
  /** Layers and size of each shape, shortest first by number. */
  readonly shapes: number;
}

export interface CoverTask {
  readonly graph: LinkGraph;
  /** Paths to find among the units of one repeat. */
  readonly paths: number;
  /** Each path found is run through this many repeats, one after another. */
  readonly chained: number;
  readonly classQuota: readonly number[];
  readonly pairQuota: readonly number[];
}

/** A path through the graph: units in order, the links between, and the link to its own next repeat. */
export interface GraphPath {
  readonly units: readonly number[];
  readonly links: readonly Link[];
  readonly closing: Link | null;
}

const mostLinksBetween = 3;

/** Cost of a link: jumpers count before all special joints. */
export function linkCost(link: Link): number {
  return (link.jumper ? 10000 : 0) + (link.special ? 1 : 0);
}

/** Units of the first repeat with the most sensible joints between each two; yields after each unit. */
export function* linkGraph(
  winding: Winding,
  bends: Bends,
  all: readonly Unit[],
  content: Content,
  repeats: number,
): Generator<undefined, LinkGraph> {
  const { slots } = winding;
  const move = slots / repeats;
  const kept = all.flatMap((unit, index) => (unit.go.slot <= move ? [index] : []));
  const units = kept.map((index) => all[index]!);
  const shapes = new Map<string, { id: number; size: number }>();
  const linksFrom = (from: Unit) =>
    units.flatMap((to, index) => {
      const options: (Omit<Link, 'shape'> & { key: string; rank: number })[] = [];
      for (let turns = 0; turns < repeats; turns++) {
        const forward = modulo(to.go.slot + turns * move - from.back.slot, slots);
        for (const span of [forward, forward - slots]) {
          if (span === 0 && to.go.layer === from.back.layer) continue;
          const reason = jointReason(bends, 'connection', from.back, to.go, span);
          const kind = kindOfReason(reason, false);
          const jumper = kind === 'jumper';
          const special = kind !== 'regular';
          const rank = (jumper ? 2 : special ? 1 : 0) * slots + Math.abs(span);
          const key = shapeOf('connection', from.back.layer, to.go.layer, span);
          options.push({ to: index, span, jumper, special, turns, key, rank });
        }
      }
      options.sort((a, b) => a.rank - b.rank || b.span - a.span);
      return options.slice(0, mostLinksBetween);
    });
  const links: ReturnType<typeof linksFrom>[] = [];
  for (const unit of units) {
    links.push(linksFrom(unit));
    yield;
  }
  for (const list of links) {
    for (const { key, rank, special } of list) {
      if (special && !shapes.has(key)) shapes.set(key, { id: 0, size: rank });
    }
  }
  const ranked = [...shapes].sort(([a, x], [b, y]) => x.size - y.size || (a < b ? -1 : 1));
  const ids = new Map(ranked.map(([key], id) => [key, id]));
  return {
    units,
    classes: kept.map((index) => content.classes[index]!),
    repeats,
    links: links.map((list) =>
      list.map(({ to, span, jumper, special, turns, key }) => {
        const shape = special ? ids.get(key)! : -1;
        return { to, span, jumper, special, shape, turns };
      }),
    ),
    shapes: ids.size,
  };
}
