import { joinedFacts } from '../facts/connection.ts';
import {
  barName,
  cellAt,
  type Path,
  phaseOfCell,
  placeName,
  typedSigns,
  type Winding,
} from '../winding/model.ts';
import { type Alignment, knownPaths, pathKey, turned } from './places.ts';
import type { Joined } from './reviewed.ts';
import type { ChangedBar } from './schema.ts';

/** Places whose phase, sense or parallel path differs, by the new numbers of slots and paths. Either side may be no file. */
export function changedBars(
  old: Joined | null,
  now: Joined | null,
  { rotation }: Alignment,
): readonly ChangedBar[] {
  const slots = Math.max(old?.winding.slots ?? 0, now?.winding.slots ?? 0);
  const layers = Math.max(old?.winding.layers ?? 0, now?.winding.layers ?? 0);
  const before = old ? placesOf(old, rotation) : new Map<string, Place>();
  const after = now ? placesOf(now, 0) : new Map<string, Place>();
  const numbers = old && now ? matchPaths(old, now, rotation) : new Map<string, number>();
  const changed: ChangedBar[] = [];
  for (let slot = 1; slot <= slots; slot++)
    for (let layer = 0; layer < layers; layer++) {
      const bar = barName({ slot, layer });
      const [one, other] = [before.get(bar), after.get(bar)];
      if (!one && !other) continue;
      const renumbered = one && { ...one, path: numbers.get(pathName(one.phase, one.path)) ?? one.path };
      if (renumbered && other && samePlace(renumbered, other)) continue;
      changed.push({ bar, old: placeText(renumbered), new: placeText(other) });
    }
  return changed;
}

/** What lies in a place; the path is its number within the phase, null where paths are not known. */
interface Place {
  readonly phase: string;
  /** Phase and sense: `+U`. */
  readonly name: string;
  readonly path: number | null;
  /** Whether the phase has several paths, so that the path is worth naming. */
  readonly several: boolean;
}

function placesOf({ winding, facts }: Joined, rotation: number): ReadonlyMap<string, Place> {
  const pathOf = new Map<string, number>();
  for (const path of joinedFacts(facts)?.paths ?? [])
    for (const bar of path.bars) pathOf.set(barName(bar), path.number);
  const places = new Map<string, Place>();
  for (let slot = 1; slot <= winding.slots; slot++)
    for (let layer = 0; layer < winding.layers; layer++) {
      const cell = cellAt(winding.table, slot, layer);
      if (cell === 0) continue;
      const bar = { slot, layer };
      places.set(barName(turned(bar, rotation, winding.slots)), {
        phase: winding.phases.names[phaseOfCell(cell)]!,
        name: placeName(cell, winding.phases, typedSigns),
        path: pathOf.get(barName(bar)) ?? null,
        several: winding.parallelPaths > 1,
      });
    }
  return places;
}

function samePlace(one: Place, other: Place): boolean {
  if (one.name !== other.name) return false;
  return one.path === null || other.path === null || one.path === other.path;
}

function placeText(place: Place | undefined): string | null {
  if (!place) return null;
  const path = place.several && place.path !== null ? ` path ${place.path}` : '';
  return `${place.name}${path}`;
}

function pathName(phase: string, number: number | null): string {
  return `${phase} ${number}`;
}

/**
 * Which new path number each old path has become, by `phase number`: the same path first, then the one
 * that shares most bars. Old paths that became none have the numbers after the new ones.
 */
function matchPaths(old: Joined, now: Joined, rotation: number): ReadonlyMap<string, number> {
  const [before, after] = [knownPaths(old), knownPaths(now)];
  const matched = new Map<string, number>();
  if (before.kind !== 'connected' || after.kind !== 'connected') return matched;
  const free = new Set(after.facts.paths);
  const name = (winding: Winding, { phase, number }: Path) => pathName(winding.phases.names[phase]!, number);
  const candidates = before.facts.paths.flatMap((path) => {
    const { slots } = old.winding;
    const bars = new Set(path.bars.map((bar) => barName(turned(bar, rotation, slots))));
    const key = pathKey(path, rotation, slots);
    return after.facts.paths
      .filter((other) => old.winding.phases.names[path.phase] === now.winding.phases.names[other.phase])
      .map((other) => {
        const common = other.bars.filter((bar) => bars.has(barName(bar))).length;
        const score = pathKey(other, 0, slots) === key ? Number.POSITIVE_INFINITY : common;
        return { path, other, score, sameNumber: path.number === other.number };
      });
  });
  candidates.sort((a, b) =>
    a.score === b.score ? Number(b.sameNumber) - Number(a.sameNumber) : b.score - a.score,
  );
  for (const { path, other } of candidates) {
    const key = name(old.winding, path);
    if (matched.has(key) || !free.delete(other)) continue;
    matched.set(key, other.number);
  }
  const highest = Math.max(0, ...after.facts.paths.map(({ number }) => number));
  for (const phase of old.winding.phases.names.keys())
    before.facts.paths
      .filter((path) => path.phase === phase && !matched.has(name(old.winding, path)))
      .forEach((path, i) => {
        matched.set(name(old.winding, path), highest + 1 + i);
      });
  return matched;
}
