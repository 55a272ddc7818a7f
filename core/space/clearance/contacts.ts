import type { Steps } from '../../figures/steps.ts';
import type { Connections } from '../../winding/joints/joints.ts';
import type { BarEnd, Space } from '../space.ts';
import { type Body, bodyOf } from './body.ts';
import { type AskedClearance, type Judged, pairJudge } from './clearance.ts';
import { nearPairs, type Pair } from './pairs.ts';
import { type Make, type Standing, standingBodies } from './standing.ts';

/** Pairs of bar ends, connecting pieces and rings that run into each other, and that come nearer than asked for. */
export interface Contacts {
  /** Pairs. */
  readonly colliding: number;
  /** Pairs. */
  readonly close: number;
}

/** Pairs that are looked at before it gives way. */
const pairsAtOnce = 50;

/**
 * Contacts of connections of one geometry, for choosing among them: a table of how every two makes of ends
 * stand to each other at a number of slots apart, filled as pairs are met. Pairs of regular joints are left
 * out, which are the same whatever the connection.
 */
export function contactTable(
  asked: AskedClearance,
): (space: Space, connections: Pick<Connections, 'joints'>) => Steps<Contacts> {
  const bodies = new Map<string, Body>();
  const names = new Map<Body, number>();
  const table = new Map<string, Judged>();
  // Keys take their time, and often there is one connection: those of its bodies are made for the next.
  const unkeyed: (() => void)[] = [];
  const bodyBefore: typeof bodyOf = (pieces, section, marks, ends) => {
    const key = () =>
      JSON.stringify([section, marks, ends, pieces.map(({ curve, length }) => [curve, length])]);
    const known = bodies.size > 0 ? bodies.get(key()) : undefined;
    if (known) return known;
    const body = bodyOf(pieces, section, marks, ends);
    names.set(body, names.size);
    const keep = () => void bodies.set(key(), body);
    if (bodies.size > 0) keep();
    else unkeyed.push(keep);
    return body;
  };
  const judged = (judge: (pair: Pair) => Judged, pair: Pair) => {
    const { first, second, turn } = pair;
    const one = names.get(first.make.body)!;
    const other = names.get(second.make.body)!;
    // Full turns and the last digits of angles make no difference.
    const apart = Math.round((turn / (2 * Math.PI) - Math.floor(turn / (2 * Math.PI) + 1e-9)) * 1e7);
    const key = `${one} ${other} ${apart}`;
    const known = table.get(key) ?? judge(pair);
    table.set(key, known);
    return known;
  };
  return function* (space, connections) {
    for (const keep of unkeyed.splice(0)) keep();
    const regular = regularEnds(space, connections);
    const counts = ({ make }: Standing) => make.link || !regular.has(make.pieces);
    const reach = Math.max(asked.bars, asked.pieces);
    const judge = pairJudge(space, asked);
    let colliding = 0;
    let close = 0;
    let looked = 0;
    const special = [
      ...space.links,
      ...space.rings,
      ...space.ends.filter(({ pieces }) => !regular.has(pieces)),
    ];
    for (const side of new Set(special.map((one) => one.side))) {
      for (const pair of nearPairs(space.slots, standingBodies(space, side, bodyBefore), reach, counts)) {
        const is = judged(judge, pair);
        if (++looked % pairsAtOnce === 0) yield;
        if (is === 'collides') colliding += pair.count;
        else if (is === 'close') close += pair.count;
      }
    }
    return { colliding, close };
  };
}

/** The pieces of the ends of regular joints. */
function regularEnds(space: Space, { joints }: Pick<Connections, 'joints'>): ReadonlySet<Make['pieces']> {
  const regular = new Set(joints.filter(({ kind }) => kind === 'regular').map(({ number }) => number));
  const ends = new Set<Make['pieces']>();
  const add = ({ use, pieces }: BarEnd, number: number) => {
    if ((use === 'joint' || use === 'crown') && regular.has(number)) ends.add(pieces);
  };
  for (const bar of space.bars) {
    if (!bar) continue;
    add(bar.connection, bar.connectionNumber);
    add(bar.far, bar.farNumber);
  }
  return ends;
}
