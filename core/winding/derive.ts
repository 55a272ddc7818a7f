import { type Finding, finding, type Range } from '../language/finding.ts';
import { layerLetter } from '../language/layerLetters.ts';
import { largest } from '../language/numbers.ts';
import { defaultOf, valueOrDefault } from '../language/specification/defaults.ts';
import type {
  ConnectSpecification,
  LayoutSpecification,
  Specification,
} from '../language/specification/specification.ts';
import type { Angle, Given } from '../language/specification/statements.ts';
import { nearestWord } from '../language/suggest.ts';
import {
  blockMissing,
  layerOutside,
  layerRepeated,
  phasesApartMissing,
  phasesApartUnexpected,
  statementMissing,
  statementsExclude,
  titleMissing,
} from '../language/textFindingKinds.ts';
import { machineStatements } from '../language/vocabulary/blocks/machine.ts';
import { connectStatements, layoutStatements } from '../language/vocabulary/blocks/winding.ts';
import { type BlockName, statementEntry, vocabularyEntry } from '../language/vocabulary/vocabulary.ts';
import { electricalDegrees, mechanicalRadians } from './angles.ts';
import { defaultBelt, generateTable, type LayoutRefusal, type LayoutRequest } from './generate.ts';
import {
  connectionMissing,
  connectionRepeated,
  gapLengthsExtra,
  layoutEmpty,
  layoutRefused,
  layoutTwofold,
  speedDisagrees,
} from './layoutFindingKinds.ts';
import type { Bar, LayoutOrigin, PhaseSystem, RotorSkew, SlotTable, Winding } from './model.ts';
import { compareWithTable } from './paths/againstTable.ts';
import { reportRepeatedBars } from './paths/clashes.ts';
import { layersOfPaths, tableOfPaths } from './paths/pathTable.ts';
import { type SourcedPath, walkPaths } from './paths/writtenPaths.ts';
import { phaseSystem } from './phases.ts';
import { tableFromRows } from './rows.ts';

/** A winding made from what a text says, or null with the findings that say why not. */
export interface DerivedWinding {
  readonly winding: Winding | null;
  /** The written paths; null where none are written, or where one of them is wrong. */
  readonly paths: readonly SourcedPath[] | null;
  readonly findings: readonly Finding[];
}

/** Slots, poles and phases: what everything else of a winding is measured by. */
interface Base {
  readonly slots: number;
  readonly poles: number;
  readonly polePairs: number;
  readonly phases: PhaseSystem;
}

/** Makes the winding a specification describes. Never throws for what a user can write. */
export function deriveWinding(specification: Specification): DerivedWinding {
  const findings: Finding[] = [];
  const start: Range = specification.machine?.range ?? specification.title?.statement ?? { start: 0, end: 0 };
  if (!specification.title && !isBroken(specification, 'file', 'winding')) {
    findings.push(finding(titleMissing, { start: 0, end: 0 }, null));
  }
  const base = readBase(specification, start, findings);
  checkMachine(specification, base, findings);
  checkConnect(specification.connect, findings);
  if (!base) return { winding: null, paths: null, findings };
  const made = makeTable(specification, base, start, findings);
  if (!made) return { winding: null, paths: null, findings };
  const { slots, poles, polePairs, phases } = base;
  const winding: Winding = {
    slots,
    poles,
    polePairs,
    phases,
    layers: made.table.layers,
    table: made.table,
    lean: readLean(specification.layout, base, made.table.layers, findings),
    rotorSkew: readRotorSkew(specification, base),
    parallelPaths: countPaths(specification.connect),
    origin: made.origin,
  };
  return { winding, paths: made.paths, findings };
}

/**
 * Whether a statement (or block, at file level) of that word was written, perhaps misspelled, but not
 * understood: what is then missing has its finding already.
 */
function isBroken(specification: Specification, block: BlockName, word: string): boolean {
  return specification.broken.some(
    (broken) =>
      broken.block === block && (broken.word === word || nearestWord(broken.word, [word]) !== undefined),
  );
}

function missing(block: BlockName, word: string, range: Range): Finding {
  const example = statementEntry(block, word)?.example ?? '';
  return finding(statementMissing, range, { block, word, example });
}

function readBase(specification: Specification, start: Range, findings: Finding[]): Base | null {
  const { machine } = specification;
  if (!machine) {
    if (!specification.broken.some(({ block }) => block === 'file')) {
      const example = vocabularyEntry('file', 'block', 'machine')!.example;
      findings.push(finding(blockMissing, start, { block: 'machine', example }));
    }
    return null;
  }
  for (const word of ['slots', 'poles', 'phases'] as const) {
    if (
      !machine[word] &&
      !isBroken(specification, 'machine', word) &&
      !isBroken(specification, 'file', 'machine')
    )
      findings.push(missing('machine', word, machine.range));
  }
  if (!machine.slots || !machine.poles || !machine.phases) return null;
  const slots = machine.slots.value;
  const polePairs = machine.poles.value / 2;
  const { count, apart } = machine.phases.value;
  if (count === 6 && apart === null) {
    findings.push(finding(phasesApartMissing, machine.phases.range, null));
    return null;
  }
  if (count !== 6 && apart !== null) {
    findings.push(finding(phasesApartUnexpected, machine.phases.range, { count }));
    return null;
  }
  const lag = apart ? ((electricalDegrees(apart, slots, polePairs) % 360) + 360) % 360 : undefined;
  return { slots, poles: machine.poles.value, polePairs, phases: phaseSystem(count, lag) };
}

function checkMachine({ machine }: Specification, base: Base | null, findings: Finding[]): void {
  if (!machine) return;
  for (const [word, lengths] of [
    ['air-gap', machine.airGap],
    ['magnet-height', machine.magnetHeight],
  ] as const) {
    if (
      lengths &&
      lengths.value.second !== null &&
      valueOrDefault(machineStatements, machine, 'gap') !== 'both'
    ) {
      findings.push(finding(gapLengthsExtra, lengths.range, { word }));
    }
  }
  if (base && machine.speed && machine.frequency) {
    const expected = machine.speed.value * base.polePairs;
    if (Math.abs(expected - machine.frequency.value) > 1e-6 * expected) {
      const data = { frequency: machine.frequency.value, speed: machine.speed.value, expected };
      const related = [{ message: 'the speed is given here', range: machine.speed.statement }];
      findings.push(finding(speedDisagrees, machine.frequency.range, data, { related }));
    }
  }
}

function checkConnect(connect: ConnectSpecification | undefined, findings: Finding[]): void {
  if (!connect) return;
  const [first, ...others] = connect.connections;
  if (!first) findings.push(finding(connectionMissing, connect.range, null));
  const word = (connection: Given<string>) => connection.value.replace('-', ' ');
  for (const other of others) {
    const related = [{ message: 'first given here', range: first!.statement }];
    findings.push(
      finding(connectionRepeated, other.range, { word: word(other), first: word(first!) }, { related }),
    );
  }
  const path = connect.paths[0];
  if (connect.route && path) {
    const data = { word: 'route', other: 'path', reason: 'paths are found, or written, not both' };
    findings.push(
      finding(statementsExclude, connect.route.statement, data, {
        related: [{ message: 'a written path', range: path.statement }],
      }),
    );
  }
}

/** A slot table, where it came from, and the written paths where there are good ones. */
interface MadeTable {
  readonly table: SlotTable;
  readonly origin: LayoutOrigin;
  readonly paths: readonly SourcedPath[] | null;
}

function makeTable(
  specification: Specification,
  base: Base,
  start: Range,
  findings: Finding[],
): MadeTable | null {
  const { connect, layout } = specification;
  if (!connect || connect.paths.length + connect.copies.length === 0) {
    const laid = makeLayout(specification, base, start, findings);
    return laid ? { ...laid, paths: null } : null;
  }
  const before = findings.length;
  if (layout && (layout.rows.length > 0 || layout.span)) {
    const laid = makeLayout(specification, base, start, findings);
    if (!laid) return null;
    const paths = walkPaths(connect, { ...base, layers: laid.table.layers }, findings);
    if (findings.length > before) {
      reportRepeatedBars(paths, base.phases, findings);
      return { ...laid, paths: null };
    }
    const place = (bar: Bar) =>
      layout.rows.find(({ value }) => value.layer === bar.layer)?.statement ?? layout.range;
    compareWithTable({ paths, connect, table: laid.table, phases: base.phases, place }, findings);
    return { ...laid, paths: findings.length > before ? null : paths };
  }
  const paths = walkPaths(connect, { ...base, layers: layout?.layers?.value ?? null }, findings);
  reportRepeatedBars(paths, base.phases, findings);
  if (paths.length === 0) return null;
  const table = tableOfPaths(paths, base.slots, layout?.layers?.value ?? layersOfPaths(paths));
  return { table, origin: { kind: 'paths' }, paths: findings.length > before ? null : paths };
}

function makeLayout(
  specification: Specification,
  base: Base,
  start: Range,
  findings: Finding[],
): { readonly table: SlotTable; readonly origin: LayoutOrigin } | null {
  const { layout } = specification;
  if (!layout) {
    if (!specification.broken.some(({ block }) => block === 'file')) {
      const example = vocabularyEntry('file', 'block', 'layout')!.example;
      findings.push(finding(blockMissing, start, { block: 'layout', example }));
    }
    return null;
  }
  if (layout.rows.length > 0)
    return tableOfRows(layout, base, isBroken(specification, 'layout', 'layer'), findings);
  if (specification.broken.some(({ block }) => block === 'layout') && !(layout.span && layout.layers))
    return null;
  if (!layout.span) {
    findings.push(finding(layoutEmpty, layout.range, null));
    return null;
  }
  if (!layout.layers) {
    findings.push(missing('layout', 'layers', layout.range));
    return null;
  }
  const request = layoutRequest(layout, base, layout.layers.value, layout.span.value);
  const { span, stagger, belt } = request;
  const made = generateTable(request);
  if (!made.ok) {
    findings.push(finding(layoutRefused, refusedPlace(made.reason.kind, specification, layout), made.reason));
    return null;
  }
  return { table: made.table, origin: { kind: 'generated', span, stagger, belt } };
}

function layoutRequest(layout: LayoutSpecification, base: Base, layers: number, span: number): LayoutRequest {
  const belt = layout.belt
    ? electricalDegrees(layout.belt.value, base.slots, base.polePairs)
    : defaultBelt(base.phases);
  const { slots, poles, phases } = base;
  const stagger = valueOrDefault(layoutStatements, layout, 'stagger');
  return { slots, poles, phases, layers, span, stagger, belt };
}

/** The statement that a refusal is about. */
function refusedPlace(
  kind: LayoutRefusal['kind'],
  specification: Specification,
  layout: LayoutSpecification,
): Range {
  switch (kind) {
    case 'odd-layers':
      return layout.layers!.range;
    case 'belt-refused':
      return layout.belt?.range ?? layout.range;
    case 'stagger-cancels-fundamental':
      return layout.stagger?.range ?? layout.range;
    case 'two-sets-need-30':
      return specification.machine?.phases?.range ?? layout.range;
    case 'unbalanced':
    case 'slots-odd':
      return specification.machine?.slots?.range ?? layout.range;
    default:
      return layout.span?.range ?? layout.range;
  }
}

function tableOfRows(
  layout: LayoutSpecification,
  base: Base,
  rowsBroken: boolean,
  findings: Finding[],
): { readonly table: SlotTable; readonly origin: LayoutOrigin } | null {
  for (const [word, given] of [
    ['span', layout.span],
    ['stagger', layout.stagger],
    ['belt', layout.belt],
  ] as const) {
    if (given) findings.push(finding(layoutTwofold, given.statement, { word }));
  }
  const layers = layout.layers?.value ?? largest(layout.rows.map(({ value }) => value.layer)) + 1;
  const range = layout.layers?.range ?? layout.range;
  const table = tableFromRows(
    layout.rows,
    { slots: base.slots, layers, phases: base.phases, range, rowsBroken },
    findings,
  );
  return table ? { table, origin: { kind: 'rows' } } : null;
}

/** Lean of each layer in mechanical radians over the stack; the default where no skew is given. */
function readLean(
  layout: LayoutSpecification | undefined,
  base: Base,
  layers: number,
  findings: Finding[],
): readonly number[] {
  const unsaid = defaultOf(layoutStatements.skew).value;
  const lean = new Array<number>(layers).fill(mechanicalRadians(unsaid, base.slots, base.polePairs));
  const first = new Map<number, Given<unknown>>();
  for (const skew of layout?.skew ?? []) {
    const angle: Angle = skew.value.value;
    for (const layer of skew.value.layers ?? lean.keys()) {
      const letter = layerLetter(layer);
      if (layer >= layers) {
        findings.push(finding(layerOutside, skew.range, { layer: letter, layers }));
      } else if (first.has(layer)) {
        const related = [{ message: 'first given here', range: first.get(layer)!.statement }];
        findings.push(finding(layerRepeated, skew.statement, { layer: letter, what: 'a skew' }, { related }));
      } else {
        first.set(layer, skew);
        lean[layer] = mechanicalRadians(angle, base.slots, base.polePairs);
      }
    }
  }
  return lean;
}

function readRotorSkew({ machine }: Specification, base: Base): RotorSkew {
  const skew = machine?.rotorSkew?.value;
  if (!skew) return { angle: 0, steps: null };
  return { angle: mechanicalRadians(skew.angle, base.slots, base.polePairs), steps: skew.steps };
}

/** Parallel paths of a phase: as routed, or as many as the first phase has written, or the default. */
function countPaths(connect: ConnectSpecification | undefined): number {
  if (connect?.route) return connect.route.value.paths;
  const first = connect?.paths[0]?.value.phase.value;
  const written = connect?.paths.filter(({ value }) => value.phase.value === first).length ?? 0;
  return written > 0 ? written : defaultOf(connectStatements.route).paths;
}
