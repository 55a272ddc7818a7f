import type { CheckedText } from '../../core/findings/checkedText.ts';
import type { Range } from '../../core/language/finding.ts';
import type { RowPlace, Statement } from '../../core/language/text/document.ts';
import { expandSequence } from '../../core/language/text/sequence.ts';
import { type Bar, barName } from '../../core/winding/model.ts';
import type { PathMark } from '../protocol/shownParts.ts';
import type { Subject } from '../protocol/subject.ts';
import { barNamed, barUse, connectionOf } from './barUse.ts';

/** Things of a winding that stand out together. */
export interface Marks {
  readonly bars: readonly string[];
  /** Their numbers, from 1. */
  readonly joints: readonly number[];
  readonly paths: readonly PathMark[];
}

const nothing: Marks = { bars: [], joints: [], paths: [] };

/** What a subject lights: itself. */
export function marksOf(subject: Subject): Marks {
  if ('bar' in subject) return { ...nothing, bars: [subject.bar] };
  if ('coil' in subject) return { ...nothing, bars: subject.coil.split('-') };
  if ('slot' in subject || subject.joint === null) return nothing;
  return { ...nothing, joints: [subject.joint] };
}

/** The text that defines a subject: its step, its place in a row, else the statement it follows from. */
export function textOf(study: CheckedText, subject: Subject): Range | null {
  const { winding } = study;
  if (!winding) return null;
  if ('bar' in subject) {
    const bar = barNamed(winding, subject.bar);
    return bar && (stepText(study, bar) ?? placeOf(study, bar) ?? layoutStatement(study));
  }
  if ('coil' in subject) return layoutStatement(study);
  if ('slot' in subject) return placeOf(study, { slot: subject.slot, layer: 0 }) ?? layoutStatement(study);
  return (subject.joint === null ? null : endText(study, subject.joint)) ?? connectStatement(study);
}

/** What the text at an offset stands for: the bars of a step or place, or the path of a statement. */
export function marksAt(study: CheckedText, offset: number): Marks {
  const connection = connectionOf(study);
  const paths: PathMark[] = [];
  const bars: string[] = [];
  for (const { path, statement, steps } of connection?.written ?? []) {
    if (!holds(statement, offset)) continue;
    paths.push({ phase: path.phase, path: path.number });
    for (const [index, step] of steps.entries())
      if (step.start > statement.start && holds(step, offset)) bars.push(barName(path.bars[index]!));
  }
  if (bars.length > 0) return { ...nothing, bars };
  if (paths.length > 0) return { ...nothing, paths };
  return { ...nothing, bars: barsOfPlaceAt(study, offset) };
}

/** The next bar along the path of a bar, or the one before it; null at the path's end and without a path. */
export function nextBar(study: CheckedText, name: string, by: 1 | -1): string | null {
  const bar = study.winding && barNamed(study.winding, name);
  const place = bar && barUse(study, bar)?.place;
  const next = place?.path.bars[place.index + by];
  return next ? barName(next) : null;
}

function holds({ start, end }: Range, offset: number): boolean {
  return start <= offset && offset <= end;
}

/** The step of a written path that passes a bar. */
export function stepText(study: CheckedText, bar: Bar): Range | null {
  const place = barUse(study, bar)?.place;
  const written = place && connectionOf(study)?.written?.[place.pathIndex];
  return (place && written?.steps[place.index]) ?? null;
}

/** The rows of the layout that are written out, with the place of each slot. */
function writtenRows(study: CheckedText): readonly { layer: number; places: readonly RowPlace[] }[] {
  return (study.specification.layout?.rows ?? []).flatMap(({ value }) =>
    value.kind === 'row' ? [{ layer: value.layer, places: expandSequence(value.places) }] : [],
  );
}

/** The place of a bar in a row that is written out. */
export function placeText(study: CheckedText, { slot, layer }: Bar): Range | null {
  const row = writtenRows(study).find((one) => one.layer === layer);
  return row && row.places.length > 0 ? row.places[(slot - 1) % row.places.length]!.range : null;
}

/** The place of a bar in its row; of a derived row its statement. */
export function placeOf(study: CheckedText, bar: Bar): Range | null {
  const derived = study.specification.layout?.rows.find(({ value }) => value.layer === bar.layer);
  return placeText(study, bar) ?? derived?.statement ?? null;
}

function barsOfPlaceAt(study: CheckedText, offset: number): readonly string[] {
  const slots = study.winding?.slots ?? 0;
  for (const { layer, places } of writtenRows(study)) {
    const at = new Set(places.flatMap(({ range }, index) => (holds(range, offset) ? [index] : [])));
    if (at.size === 0) continue;
    const all = Array.from({ length: slots }, (_, index) => ({ slot: index + 1, layer }));
    return all.filter((bar) => at.has((bar.slot - 1) % places.length) && barUse(study, bar)).map(barName);
  }
  return [];
}

function statementOf(study: CheckedText, block: string, words: readonly string[]): Range | null {
  const found = study.document.blocks.find(({ name }) => name === block);
  const named = words.map((word) => found?.statements.find(({ entry }: Statement) => entry.word === word));
  return named.find((statement) => statement !== undefined)?.range ?? found?.word ?? null;
}

function layoutStatement(study: CheckedText): Range | null {
  return statementOf(study, 'layout', ['span', 'layers']);
}

function connectStatement(study: CheckedText): Range | null {
  return statementOf(study, 'connect', ['route', 'star', 'delta', 'open']);
}

/** The step a joint leads to, or the statement of the path whose end it is. */
function endText(study: CheckedText, number: number): Range | null {
  const connection = connectionOf(study);
  if (!connection?.written) return null;
  const joint = connection.joints().joints.find((one) => one.number === number);
  if (joint) return connection.written[joint.path]?.steps[joint.position + 1] ?? null;
  const end = connection.joints().ends.find((one) => one.number === number);
  return (end && connection.written[end.path]?.statement) ?? null;
}
