import { layerLetter } from '../../language/layerLetters.ts';
import { baseLine, filledShape, label, pathShape, text, textRow } from '../../picture/make.ts';
import { boxArea } from '../../picture/outlines.ts';
import type { Emphasis, PathPart, Primitive } from '../../picture/picture.ts';
import { barName, cellAt, type EndSide, phaseOfCell } from '../../winding/model.ts';
import { marksFrom } from '../room.ts';
import type { DrawnLayout } from './input.ts';
import type { LayoutScale } from './scale.ts';

/** Where the stack lies on paper. */
export interface StackPlace {
  /** The border before slot 1. */
  readonly left: number;
  /** The stack's ends: connection side and far side. */
  readonly top: number;
  readonly bottom: number;
  /** The slots that are drawn, where these are not all of them. */
  readonly range?: SlotRange | undefined;
}

/** Slots in a row, both ends included. */
export interface SlotRange {
  readonly first: number;
  readonly last: number;
}

/** The strip at mid-stack from which bars are kept out. */
export function stripOf(
  scale: LayoutScale,
  place: StackPlace,
): { readonly top: number; readonly bottom: number } {
  const middle = (place.top + place.bottom) / 2;
  return { top: middle - scale.strip / 2, bottom: middle + scale.strip / 2 };
}

/** Where a primitive lies: the layers of its bars, and its side, as far as it has any. */
export interface Whereabouts {
  readonly layers?: readonly number[];
  readonly side?: EndSide;
}

/**
 * How a primitive of a phase and path stands to the emphasis asked for. Where only a side is asked for,
 * the rest fades and nothing gets stronger.
 */
export function emphasisOf(
  { emphasis: wanted }: Pick<DrawnLayout, 'emphasis'>,
  phase: number,
  path: number | undefined,
  { layers, side }: Whereabouts = {},
): Emphasis | undefined {
  if (wanted === undefined) return undefined;
  const isWanted =
    agree(wanted.phase, phase) &&
    agree(wanted.path, path) &&
    agree(wanted.side, side) &&
    (wanted.layer === undefined || layers === undefined || layers.includes(wanted.layer));
  if (!isWanted) return 'faded';
  const sideOnly = wanted.phase === undefined && wanted.path === undefined && wanted.layer === undefined;
  return sideOnly ? undefined : 'strong';
}

/** Whether something is as wanted, where it is known what is wanted and what there is. */
function agree<T>(wanted: T | undefined, actual: T | undefined): boolean {
  return wanted === undefined || actual === undefined || wanted === actual;
}

/** The arrows and path strokes of all bars of one phase and path that stand out alike. */
interface Marks {
  readonly phase: number;
  readonly path: number | undefined;
  readonly emphasis: Emphasis | undefined;
  readonly arrows: PathPart[];
  readonly strokes: PathPart[];
}

/** Every bar as one path, every bar's label, and the arrows of each phase (of each path, once there are paths). */
export function drawBars(
  input: DrawnLayout,
  scale: LayoutScale,
  place: StackPlace,
): { readonly bars: readonly Primitive[]; readonly labels: readonly Primitive[] } {
  const { table, layers, slots, parallelPaths } = input.winding;
  const bars: Primitive[] = [];
  const labels: Primitive[] = [];
  const marks = new Map<number, Marks>();
  const strip = stripOf(scale, place);
  const { first, last } = place.range ?? { first: 1, last: slots };
  for (let slot = first; slot <= last; slot++)
    for (let layer = 0; layer < layers; layer++) {
      const cell = cellAt(table, slot, layer);
      if (cell === 0) continue;
      const bar = { slot, layer };
      const name = barName(bar);
      const phase = phaseOfCell(cell);
      const path = input.barPath?.(bar);
      const source = input.barSource?.(bar);
      const emphasis = emphasisOf(input, phase, path, { layers: [layer] });
      const middle = place.left + (slot - 1) * scale.pitch + scale.offsets[layer]!;
      const line = { middle, lean: scale.lean[layer]!, place, strip };
      bars.push(
        pathShape(`bar-${name}`, 'bar', barParts(line), {
          subject: { bar: name },
          phase,
          path,
          source,
          emphasis,
        }),
      );
      const mark = marksOf(marks, phase, path, emphasis);
      mark.arrows.push(arrowOf(line, cell > 0, scale));
      if (parallelPaths > 1 && path !== undefined) mark.strokes.push(...pathStrokes(line, path, scale));
      const words = scale.labels[phase]![cell > 0 ? 'plus' : 'minus'];
      const y = strip.top + 0.5 + (2 + (layer % scale.labelRows)) * textRow + baseLine;
      labels.push(
        label(`label-${name}`, 'bar-label', middle, y, words, {
          subject: { label: name },
          phase,
          path,
          source,
          emphasis,
        }),
      );
    }
  for (const mark of marks.values()) bars.push(...drawMarks(input, mark));
  return { bars, labels };
}

function marksOf(
  all: Map<number, Marks>,
  phase: number,
  path: number | undefined,
  emphasis: Emphasis | undefined,
): Marks {
  const key = 2 * (phase + 1000 * (path ?? 0)) + (emphasis === 'faded' ? 1 : 0);
  const known = all.get(key);
  if (known !== undefined) return known;
  const marks = { phase, path, emphasis, arrows: [], strokes: [] };
  all.set(key, marks);
  return marks;
}

function drawMarks(input: DrawnLayout, marks: Marks): readonly Primitive[] {
  const { phase, path, emphasis, arrows, strokes } = marks;
  const name = input.winding.phases.names[phase];
  const whose = `${name}${path === undefined ? '' : `-${path}`}${emphasis === 'faded' ? '-faded' : ''}`;
  const extras = { phase, path, emphasis, shownFrom: marksFrom };
  return [
    filledShape(`arrows-${whose}`, 'bar-arrow', arrows, extras),
    ...(strokes.length > 0 ? [filledShape(`strokes-${whose}`, 'path-stroke', strokes, extras)] : []),
  ];
}

/** A bar's line: its place at mid-stack and how far it moves to the right over the stack. */
interface BarLine {
  readonly middle: number;
  readonly lean: number;
  readonly place: StackPlace;
  readonly strip: { readonly top: number; readonly bottom: number };
}

function barAt({ middle, lean, place: { top, bottom } }: BarLine, y: number): number {
  return middle + (lean * (y - (top + bottom) / 2)) / (bottom - top);
}

/** A bar above and below the strip. */
function barParts(line: BarLine): readonly PathPart[] {
  const { place, strip } = line;
  return [
    [barAt(line, place.top), place.top, barAt(line, strip.top), strip.top],
    [barAt(line, strip.bottom), strip.bottom, barAt(line, place.bottom), place.bottom],
  ];
}

/** The arrow of a bar's sense: to the far side for +. */
function arrowOf(line: BarLine, plus: boolean, scale: LayoutScale): PathPart {
  const { place } = line;
  const center = (place.top + place.bottom) / 2 - scale.markDistance;
  const half = Math.min(0.9, 0.36 * scale.layerPitch);
  const tip = center + (plus ? 1.3 : -1.3);
  const tail = center - (plus ? 1.3 : -1.3);
  const at = barAt(line, tail);
  return [barAt(line, tip), tip, at - half, tail, at + half, tail];
}

/** As many cross strokes as the path's number; a wide one counts five. */
function pathStrokes(line: BarLine, path: number, scale: LayoutScale): readonly PathPart[] {
  const { place } = line;
  const fives = Math.floor(path / 5);
  const count = fives + (path % 5);
  const first = (place.top + place.bottom) / 2 + scale.markDistance - (count - 1) * 0.45;
  const strokes: PathPart[] = [];
  for (let index = 0; index < count; index++) {
    const y = first + index * 0.9;
    const x = barAt(line, y);
    const half = index < fives ? 1 : 0.6;
    strokes.push(boxArea(x - half, y - 0.14, x + half, y + 0.14));
  }
  return strokes;
}

/** Slot numbers, slot borders, layer letters: on sheets, whose rows have a range, at every bar, else at each pole's first slot. */
export function drawStrip(input: DrawnLayout, scale: LayoutScale, place: StackPlace): readonly Primitive[] {
  const { slots, layers, poles, table } = input.winding;
  const strip = stripOf(scale, place);
  const items: Primitive[] = [];
  const borders: PathPart[] = [];
  // Labels of the outer layers may reach into the next slot: then borders end above them.
  const widest = Math.max(0, ...scale.labels.map(({ plus, minus }) => Math.max(plus.width, minus.width)));
  const apart = widest / 2 < Math.min(scale.offsets[0]!, scale.pitch - scale.offsets.at(-1)!);
  const borderEnd = apart ? strip.bottom - 0.5 : strip.top + 0.5 + 2 * textRow;
  const { first, last } = place.range ?? { first: 1, last: slots };
  for (let slot = first; slot < last; slot++) {
    const x = place.left + slot * scale.pitch;
    borders.push([x, strip.top + 0.5, x, borderEnd]);
  }
  if (borders.length > 0)
    items.push(pathShape('slot-borders', 'slot-border', borders, { shownFrom: marksFrom }));
  const numberY = strip.top + 0.5 + baseLine;
  for (let slot = first; slot <= last; slot++) {
    const x = place.left + (slot - 0.5) * scale.pitch;
    items.push(
      text(`slot-${slot}`, 'slot-number', x, numberY, String(slot), { anchor: 'middle', subject: { slot } }),
    );
  }
  const poleStarts = new Set<number>();
  for (let pole = 0; pole < poles; pole++) poleStarts.add(Math.ceil((pole * slots) / poles - 1e-9) + 1);
  for (let slot = first; slot <= last; slot++)
    for (let layer = 0; layer < layers; layer++) {
      if (place.range ? cellAt(table, slot, layer) === 0 : !poleStarts.has(slot)) continue;
      const x = place.left + (slot - 1) * scale.pitch + scale.offsets[layer]!;
      const letter = layerLetter(layer);
      items.push(
        text(`letter-${slot}${letter}`, 'layer-letter', x, numberY + textRow, letter, { anchor: 'middle' }),
      );
    }
  return items;
}
