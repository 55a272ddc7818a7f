import { type Finding, finding, type Range } from '../../language/finding.ts';
import { layerLetter } from '../../language/layerLetters.ts';
import type { ConnectSpecification } from '../../language/specification/specification.ts';
import type {
  Given,
  PathCopy,
  PhaseConnection,
  WrittenPath,
} from '../../language/specification/statements.ts';
import type { WalkStep } from '../../language/text/document.ts';
import { expandSequence, mostItems, sequenceLength } from '../../language/text/sequence.ts';
import { layerOutside, sequenceTooLong } from '../../language/textFindingKinds.ts';
import { modulo } from '../integers.ts';
import { phaseUnknown } from '../layoutFindingKinds.ts';
import { type Bar, barName, type EndSide, foldedSlot, type Path, type PhaseSystem } from '../model.ts';
import { lineTerminal, pathEnd } from '../terminals.ts';
import {
  copySourceMissing,
  copyTargetTaken,
  hopTooLong,
  pathEndSide,
  pathNumberRepeated,
  pathStartsWithHop,
  pieceMisplaced,
  positionOutside,
  terminalWrong,
} from './pathFindingKinds.ts';

/** A path with the places of the text it comes from: its statement, and each bar's step. */
export interface SourcedPath {
  readonly path: Path;
  readonly statement: Range;
  /** Step of each bar; the bars of a copied path stand for the copy's statement. */
  readonly steps: readonly Range[];
  /** The written path that this one is a copy of; null for a written one. */
  readonly source: SourcedPath | null;
}

/** What written paths are walked on; `layers` is null where no layout says how many there are. */
export interface WalkBase {
  readonly slots: number;
  readonly layers: number | null;
  readonly phases: PhaseSystem;
}

/** Name of a path in messages: `U 1`. */
export function pathName(path: Path, phases: PhaseSystem): string {
  return `${phases.names[path.phase]} ${path.number}`;
}

/**
 * The way a bar's end leans on a side, from the regular wave: on the far side the layers a, c, e ...
 * lean towards higher slot numbers, on the connection side the others do.
 */
function regularLean(side: EndSide, layer: number): 1 | -1 {
  return (side === 'far') === (layer % 2 === 0) ? 1 : -1;
}

/**
 * Walks all written paths and their copies. Paths with an error are left out; every problem goes to
 * `findings`.
 */
export function walkPaths(
  connect: ConnectSpecification,
  base: WalkBase,
  findings: Finding[],
): readonly SourcedPath[] {
  if (tooLong(connect.paths, findings)) return [];
  const connection = connect.connections[0]?.value ?? null;
  const walked = connect.paths.flatMap((written) => walkPath(written, base, connection, findings) ?? []);
  reportRepeatedNumbers(connect.paths, findings);
  const copied = connect.copies.flatMap((copy) =>
    copyPaths(copy, connect, walked, base, connection, findings),
  );
  return [...walked, ...copied];
}

function tooLong(paths: readonly Given<WrittenPath>[], findings: Finding[]): boolean {
  let items = 0;
  for (const { value } of paths) {
    items += sequenceLength(value.steps);
    if (items > mostItems) {
      findings.push(finding(sequenceTooLong, value.walkRange, { items, most: mostItems }));
      return true;
    }
  }
  return false;
}

function reportRepeatedNumbers(paths: readonly Given<WrittenPath>[], findings: Finding[]): void {
  const first = new Map<string, Range>();
  for (const { value } of paths) {
    const key = `${value.phase.value} ${value.number.value}`;
    const earlier = first.get(key);
    if (earlier) {
      const data = { phase: value.phase.value, number: value.number.value };
      const related = [{ message: 'the first stands here', range: earlier }];
      findings.push(finding(pathNumberRepeated, value.number.range, data, { related }));
    } else first.set(key, value.number.range);
  }
}

function phaseIndex(name: Given<string>, phases: PhaseSystem, findings: Finding[]): number | null {
  const index = phases.names.indexOf(name.value);
  if (index >= 0) return index;
  findings.push(finding(phaseUnknown, name.range, { phase: name.value, names: phases.names }));
  return null;
}

function walkPath(
  written: Given<WrittenPath>,
  base: WalkBase,
  connection: PhaseConnection | null,
  findings: Finding[],
): SourcedPath[] | null {
  const { value } = written;
  const phase = phaseIndex(value.phase, base.phases, findings);
  if (phase === null) return null;
  checkTerminals(value, phase, base.phases, connection, findings);
  const walk = walkSteps(value, base, findings);
  if (!walk || walk.bars.length === 0) return null;
  const endsFar = (walk.bars.length % 2 === 1) !== value.fromFar;
  const path: Path = {
    phase,
    number: value.number.value,
    bars: walk.bars,
    spans: walk.spans,
    pieces: walk.pieces,
    from: value.from.value,
    to: value.to.value,
    startsFar: value.fromFar,
    endsFar,
  };
  if (endsFar !== value.toFar) {
    const data = {
      path: pathName(path, base.phases),
      bars: walk.bars.length,
      ends: endsFar ? 'far' : 'connection',
    } as const;
    findings.push(finding(pathEndSide, value.to.range, data));
  }
  return [{ path, statement: written.statement, steps: walk.steps, source: null }];
}

function checkTerminals(
  value: WrittenPath,
  phase: number,
  phases: PhaseSystem,
  connection: PhaseConnection | null,
  findings: Finding[],
): void {
  const name = phases.names[phase]!;
  const from = lineTerminal(name);
  if (value.from.value !== from) {
    findings.push(
      finding(terminalWrong, value.from.range, {
        terminal: value.from.value,
        phase: name,
        expected: from,
        end: 'from',
      }),
    );
  }
  if (!connection) return;
  const to = pathEnd(phases, phase, connection);
  if (value.to.value !== to) {
    findings.push(
      finding(terminalWrong, value.to.range, {
        terminal: value.to.value,
        phase: name,
        expected: to,
        end: 'to',
      }),
    );
  }
}

interface Walk {
  readonly bars: Bar[];
  readonly spans: number[];
  readonly pieces: boolean[];
  readonly steps: Range[];
}

/** Bars and spans of a path; null where a step is wrong. */
function walkSteps(value: WrittenPath, base: WalkBase, findings: Finding[]): Walk | null {
  const walk: Walk = { bars: [], spans: [], pieces: [], steps: [] };
  const before = findings.length;
  let side: EndSide = value.fromFar ? 'connection' : 'far';
  let piece: Range | null = null;
  for (const step of expandSequence<WalkStep>(value.steps)) {
    const range = { start: step.range.start, end: step.range.end };
    if (step.kind === 'piece') {
      if (piece || walk.bars.length === 0) findings.push(finding(pieceMisplaced, range, null));
      piece = range;
      continue;
    }
    if (!stepIsPossible(step, range, base, walk.bars.length === 0, findings)) return null;
    const last = walk.bars[walk.bars.length - 1];
    const span = last ? spanOf(step, last, side, base.slots) : 0;
    const slot = step.kind === 'position' ? step.slot : foldedSlot(last!.slot + span, base.slots);
    if (last) {
      walk.spans.push(span);
      walk.pieces.push(piece !== null);
      side = side === 'far' ? 'connection' : 'far';
    }
    walk.bars.push({ slot, layer: step.layer });
    walk.steps.push(range);
    piece = null;
  }
  if (piece) findings.push(finding(pieceMisplaced, piece, null));
  return findings.length > before ? null : walk;
}

function stepIsPossible(
  step: Exclude<WalkStep, { kind: 'piece' }>,
  range: Range,
  base: WalkBase,
  first: boolean,
  findings: Finding[],
): boolean {
  const text =
    step.kind === 'position'
      ? barName(step)
      : `${step.slots > 0 ? '+' : ''}${step.slots}${layerLetter(step.layer)}`;
  if (first && step.kind === 'hop') findings.push(finding(pathStartsWithHop, range, null));
  else if (step.kind === 'position' && (step.slot < 1 || step.slot > base.slots)) {
    findings.push(finding(positionOutside, range, { position: text, slots: base.slots }));
  } else if (step.kind === 'hop' && Math.abs(step.slots) >= base.slots) {
    findings.push(finding(hopTooLong, range, { hop: text, slots: base.slots }));
  } else if (base.layers !== null && step.layer >= base.layers) {
    findings.push(finding(layerOutside, range, { layer: layerLetter(step.layer), layers: base.layers }));
  } else return true;
  return false;
}

/** Span of a step: as written for a hop; the shorter way for a position, at half a turn the way the leaving bar leans. */
function spanOf(step: Exclude<WalkStep, { kind: 'piece' }>, last: Bar, side: EndSide, slots: number): number {
  if (step.kind === 'hop') return step.slots;
  const forward = modulo(step.slot - last.slot, slots);
  if (2 * forward === slots) return regularLean(side, last.layer) * forward;
  return 2 * forward < slots ? forward : forward - slots;
}

/** Bars moved round the bore by some slots. */
export function movedBars(bars: readonly Bar[], shift: number, slots: number): readonly Bar[] {
  return bars.map(({ slot, layer }) => ({ slot: foldedSlot(slot + shift, slots), layer }));
}

/** The paths of one phase, moved round the bore, as those of another. */
function copyPaths(
  copy: Given<PathCopy>,
  connect: ConnectSpecification,
  walked: readonly SourcedPath[],
  base: WalkBase,
  connection: PhaseConnection | null,
  findings: Finding[],
): readonly SourcedPath[] {
  const { phase, as, shift } = copy.value;
  const source = phaseIndex(phase, base.phases, findings);
  const target = phaseIndex(as, base.phases, findings);
  if (source === null || target === null) return [];
  const written = connect.paths.some(({ value }) => value.phase.value === phase.value);
  if (!written) {
    findings.push(finding(copySourceMissing, phase.range, { phase: phase.value }));
    return [];
  }
  const taken =
    connect.paths.some(({ value }) => value.phase.value === as.value) ||
    connect.copies.some(
      (other) =>
        other !== copy && other.value.as.value === as.value && other.statement.start < copy.statement.start,
    );
  if (taken) {
    findings.push(finding(copyTargetTaken, as.range, { phase: as.value }));
    return [];
  }
  const name = base.phases.names[target]!;
  return walked
    .filter(({ path }) => path.phase === source)
    .map((written) => ({
      path: {
        ...written.path,
        phase: target,
        bars: movedBars(written.path.bars, shift.value, base.slots),
        from: lineTerminal(name),
        to: connection ? pathEnd(base.phases, target, connection) : written.path.to,
      },
      statement: copy.statement,
      steps: written.path.bars.map(() => copy.statement),
      source: written,
    }));
}
