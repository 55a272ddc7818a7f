import { sideOfJoint } from '../winding/joints/bends.ts';
import { type Bar, cellAt, type EndSide, type Path } from '../winding/model.ts';
import { type DrawingBase, freeBars, madeJoint, type NextBar, rankOf } from './nextBars.ts';

/** A joint of a path: from bar `position` of the path at this index to the next one. */
export interface JointPlace {
  readonly path: number;
  readonly position: number;
}

/** Paths after a joint was changed, with how many joints are new in all. */
export interface ChangedPaths {
  readonly paths: readonly Path[];
  readonly newJoints: number;
}

/** Pairs of places that are tried to bring a closed loop into a path again; more are refused. */
const mostTried = 4_000_000;

/**
 * The other bars that a joint can lead to, the nearest to regular first: those of the phase that carry their current
 * as the present one does. Each gives up its own partner, so that all bars stay in use.
 */
export function otherPartners(
  base: DrawingBase,
  paths: readonly Path[],
  { path, position }: JointPlace,
): readonly NextBar[] {
  const own = paths[path]!;
  const [from, to] = [own.bars[position]!, own.bars[position + 1]!];
  const sense = cellAt(base.winding.table, to.slot, to.layer) > 0 ? 1 : -1;
  const side = sideOfJoint(own, position);
  const inUse = new Set(
    paths.filter(({ phase }) => phase === own.phase).flatMap(({ bars }) => bars.map(nameOf)),
  );
  return freeBars(base, own.phase, new Set(), sense)
    .filter((bar) => nameOf(bar) !== nameOf(to) && inUse.has(nameOf(bar)))
    .map((bar) => ({ bar, ...madeJoint(base, side, from, bar) }))
    .sort((a, b) => rankOf(a) - rankOf(b) || Math.abs(a.span) - Math.abs(b.span));
}

/**
 * The paths of a winding with one joint leading to another bar of its phase. The bar that had led there leads to the
 * partner that was given up, so that the rests of two paths change places. Within one path a loop would be closed so:
 * it is opened where that takes the most regular joints, and set into the nearest path. Null where `partner` is none of
 * `otherPartners`, or where the phase has too many bars to look for that place.
 */
export function changeJoint(
  base: DrawingBase,
  paths: readonly Path[],
  { path, position }: JointPlace,
  partner: Bar,
): ChangedPaths | null {
  const own = paths[path]!;
  const to = own.bars[position + 1];
  if (to === undefined || nameOf(partner) === nameOf(to)) return null;
  const other = paths.findIndex(
    (each) => each.phase === own.phase && each.bars.some((bar) => nameOf(bar) === nameOf(partner)),
  );
  if (other < 0) return null;
  const rest = paths[other]!;
  const at = rest.bars.findIndex((bar) => nameOf(bar) === nameOf(partner));
  const senseOf = (bar: Bar) => Math.sign(cellAt(base.winding.table, bar.slot, bar.layer));
  if (senseOf(partner) !== senseOf(to)) return null;
  const joins = at > 0 ? 2 : 1;
  if (other !== path) {
    const [head, tail] = [own.bars.slice(0, position + 1), own.bars.slice(position + 1)];
    return {
      newJoints: joins,
      paths: replaced(paths, [
        [path, remade(base, paths, own, [...head, ...rest.bars.slice(at)])],
        [other, remade(base, paths, rest, [...rest.bars.slice(0, at), ...tail])],
      ]),
    };
  }
  const forward = at > position;
  const loop = forward ? own.bars.slice(position + 1, at) : own.bars.slice(at, position + 1);
  const left = forward
    ? [...own.bars.slice(0, position + 1), ...own.bars.slice(at)]
    : [...own.bars.slice(0, at), ...own.bars.slice(position + 1)];
  const without = replaced(paths, [[path, remade(base, paths, own, left)]]);
  // The joint that was asked for stays: in the rest of the path, or as the one that closes the loop.
  const fixed = forward ? nameOf(partner) : null;
  const set = intoPaths(base, { paths: without, before: paths }, own.phase, loop, forward, fixed);
  return set && { paths: set, newJoints: joins + 2 };
}

/** The paths with a closed loop of bars opened and set into one of them, with the most regular joints. */
function intoPaths(
  base: DrawingBase,
  { paths, before: old }: { readonly paths: readonly Path[]; readonly before: readonly Path[] },
  phase: number,
  loop: readonly Bar[],
  closeMayOpen: boolean,
  fixed: string | null,
): readonly Path[] | null {
  const own = paths.flatMap((path, index) => (path.phase === phase ? [{ path, index }] : []));
  const places = own.reduce((sum, { path }) => sum + path.bars.length + 1, 0);
  if (places * loop.length > mostTried) return null;
  const senseOf = (bar: Bar) => Math.sign(cellAt(base.winding.table, bar.slot, bar.layer));
  const costOf = (from: Bar | undefined, to: Bar | undefined, side: EndSide) => {
    if (from === undefined || to === undefined) return 0;
    const made = madeJoint(base, side, from, to);
    return 1000 * rankOf(made) * rankOf(made) + Math.abs(made.span);
  };
  let best: { readonly cost: number; readonly index: number; readonly bars: readonly Bar[] } | null = null;
  for (let open = 0; open < loop.length; open++) {
    // The loop is opened before its bar `open`.
    if (open === 0 && !closeMayOpen) continue;
    const first = loop[open]!;
    const last = loop[(open + loop.length - 1) % loop.length]!;
    const side: EndSide = senseOf(first) > 0 ? 'connection' : 'far';
    const saved = costOf(last, first, side);
    for (const { path, index } of own)
      for (let at = 0; at <= path.bars.length; at++) {
        const [before, after] = [path.bars[at - 1], path.bars[at]];
        const fits = before ? senseOf(before) === senseOf(last) : senseOf(after ?? first) === senseOf(first);
        if (!fits || (after && nameOf(after) === fixed)) continue;
        const cost =
          costOf(before, first, side) + costOf(last, after, side) - costOf(before, after, side) - saved;
        if (best !== null && cost >= best.cost) continue;
        const turned = [...loop.slice(open), ...loop.slice(0, open)];
        best = { cost, index, bars: [...path.bars.slice(0, at), ...turned, ...path.bars.slice(at)] };
      }
  }
  if (best === null) return null;
  const found = paths[best.index]!;
  return replaced(paths, [[best.index, remade(base, [...old, ...paths], found, best.bars)]]);
}

/** A path over other bars. Joints that were there before, in any path, stay as they are written. */
function remade(base: DrawingBase, before: readonly Path[], path: Path, bars: readonly Bar[]): Path {
  const spans: number[] = [];
  const pieces: boolean[] = [];
  const known = new Map<string, { readonly span: number; readonly piece: boolean }>();
  for (const { bars: old, spans: had, pieces: were } of before)
    for (const [i, span] of had.entries())
      known.set(`${nameOf(old[i]!)} ${nameOf(old[i + 1]!)}`, { span, piece: were[i] === true });
  for (let i = 0; i + 1 < bars.length; i++) {
    const had = known.get(`${nameOf(bars[i]!)} ${nameOf(bars[i + 1]!)}`);
    const made = had ?? madeJoint(base, sideOfJoint(path, i), bars[i]!, bars[i + 1]!);
    spans.push(made.span);
    pieces.push('piece' in made ? made.piece : made.kind === 'piece');
  }
  return { ...path, bars, spans, pieces, endsFar: (bars.length % 2 === 1) !== path.startsFar };
}

function replaced(paths: readonly Path[], changes: readonly (readonly [number, Path])[]): readonly Path[] {
  const next = [...paths];
  for (const [index, path] of changes) next[index] = path;
  return next;
}

function nameOf({ slot, layer }: Bar): string {
  return `${slot}/${layer}`;
}
