import { layoutInput } from '../views/layout/connectedLayout.ts';
import type { DrawnEnd, DrawnLead, DrawnPathEnd, LayoutInput } from '../views/layout/input.ts';
import { lowerBar, offsetOf, upperBar } from '../winding/joints/joints.ts';
import { type Bar, barName, cellAt, type SlotTable, type Winding } from '../winding/model.ts';
import { turned } from './places.ts';
import type { Wound } from './reviewed.ts';

/** What became of a line: numbers that pass through the layout as if they were path numbers. */
export const change = { kept: 1, removed: 2, added: 3, replaced: 4 } as const;

/** Both windings as one layout; the old winding's joints have their numbers raised by `oldNumbersFrom`. */
export interface OverlayInput {
  readonly input: LayoutInput;
  readonly oldNumbersFrom: number;
}

/** Whether two windings can lie on each other: equal slots and phases. */
export function canOverlay(old: Winding, now: Winding): boolean {
  return old.slots === now.slots && old.phases.names.join() === now.phases.names.join();
}

/** One winding whose lines all count as kept, removed or added. */
export function singleInput(study: Wound, code: number): LayoutInput {
  const input = drawnOf(study);
  return {
    ...input,
    compared: true,
    winding: { ...study.winding, parallelPaths: 1 },
    ends: input.ends.map((end) => ({ ...end, path: code })),
    leads: input.leads.map((end) => ({ ...end, path: code })),
    starPoints: input.starPoints.map(({ name, ends }) => ({
      name,
      ends: ends.map((end) => ({ ...end, path: code })),
    })),
    barPath: () => code,
  };
}

/** The old winding, turned by `rotation` slots, laid over the new one. */
export function overlayInput(old: Wound, now: Wound, rotation: number): OverlayInput {
  const { slots } = now.winding;
  const after = drawnOf(now);
  const before = turnedInput(drawnOf(old), rotation, slots);
  // Coil ends and joints are no changes of each other: where one side has joints, only joints are drawn.
  const joined = [after, before].some((input) => input.leads.length + input.starPoints.length > 0);
  const drawn = (ends: readonly DrawnEnd[]) =>
    joined ? ends.filter(({ kind }) => kind !== 'coil-end') : ends;
  // A digit longer than any number of either winding, so that a number with a mark takes no more room.
  const digits = String(Math.max(highestNumber(after), highestNumber(before))).length;
  const oldNumbersFrom = joined ? 10 ** digits : Number.POSITIVE_INFINITY;
  const layers = Math.max(old.winding.layers, now.winding.layers);
  const oldCell = (bar: Bar) =>
    cellAt(old.winding.table, turned(bar, slots - rotation, slots).slot, bar.layer);
  const held = (winding: Winding, layer: number) => layer < winding.layers;
  const cells = new Int8Array(slots * layers);
  const codes = new Map<string, number>();
  for (let layer = 0; layer < layers; layer++)
    for (let slot = 1; slot <= slots; slot++) {
      const bar = { slot, layer };
      const one = held(old.winding, layer) ? oldCell(bar) : 0;
      const other = held(now.winding, layer) ? cellAt(now.winding.table, slot, layer) : 0;
      cells[layer * slots + slot - 1] = other === 0 ? one : other;
      codes.set(barName(bar), codeOf(one, other));
    }
  const table: SlotTable = { slots, layers, cells };
  const lean = Array.from({ length: layers }, (_, i) => now.winding.lean[i] ?? old.winding.lean[i] ?? 0);
  const renumbered = <End extends { readonly number?: number | undefined }>(end: End): End =>
    end.number === undefined ? end : { ...end, number: end.number + oldNumbersFrom };
  const names = new Set([...after.starPoints, ...before.starPoints].map(({ name }) => name));
  const starOf = (input: LayoutInput, name: string) =>
    input.starPoints.find((star) => star.name === name)?.ends ?? [];
  return {
    oldNumbersFrom,
    input: {
      compared: true,
      winding: { ...now.winding, layers, table, lean, parallelPaths: 1 },
      title: after.title,
      ends: union(drawn(before.ends), drawn(after.ends), endKey, renumbered),
      leads: union(before.leads, after.leads, leadKey, renumbered),
      starPoints: [...names].map((name) => ({
        name,
        ends: union(starOf(before, name), starOf(after, name), pathEndKey, renumbered),
      })),
      barPath: (bar) => codes.get(barName(bar)),
      barSource: after.barSource,
    },
  };
}

function drawnOf({ winding, title, facts }: Wound): LayoutInput {
  return layoutInput(winding, title, facts.connection);
}

function codeOf(old: number, now: number): number {
  if (old === now) return change.kept;
  if (old === 0) return change.added;
  return now === 0 ? change.removed : change.replaced;
}

function turnedInput(input: LayoutInput, rotation: number, slots: number): LayoutInput {
  if (rotation === 0) return input;
  const turn = (bar: Bar) => turned(bar, rotation, slots);
  const turnEnd = <End extends DrawnPathEnd>(end: End): End => ({ ...end, bar: turn(end.bar) });
  return {
    ...input,
    ends: input.ends.map((end) => ({ ...end, from: turn(end.from), to: turn(end.to) })),
    leads: input.leads.map(turnEnd),
    starPoints: input.starPoints.map(({ name, ends }) => ({ name, ends: ends.map(turnEnd) })),
  };
}

function highestNumber({ ends, leads, starPoints }: LayoutInput): number {
  const all = [...ends, ...leads, ...starPoints.flatMap((star) => star.ends)];
  return all.reduce((most, { number }) => Math.max(most, number ?? 0), 0);
}

/** The new ones, kept or added, then those only in the old. */
function union<End extends { readonly path?: number | undefined }>(
  old: readonly End[],
  now: readonly End[],
  keyOf: (end: End) => string,
  renumbered: (end: End) => End,
): readonly End[] {
  const before = new Set(old.map(keyOf));
  const after = new Set(now.map(keyOf));
  return [
    ...now.map((end) => ({ ...end, path: before.has(keyOf(end)) ? change.kept : change.added })),
    ...old
      .filter((end) => !after.has(keyOf(end)))
      .map((end) => ({ ...renumbered(end), path: change.removed, source: undefined })),
  ];
}

function endKey(end: DrawnEnd): string {
  const places = `${barName(lowerBar(end))} ${barName(upperBar(end))} ${offsetOf(end)}`;
  return `${end.side} ${places}${end.separatePiece ? ' piece' : ''}`;
}

function pathEndKey({ side, bar }: DrawnPathEnd): string {
  return `${side} ${barName(bar)}`;
}

function leadKey(lead: DrawnLead): string {
  return `${lead.terminal} ${pathEndKey(lead)}`;
}
