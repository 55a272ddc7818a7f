import { type Finding, finding, type Range } from '../language/finding.ts';
import { layerLetter } from '../language/layerLetters.ts';
import type { Given, LayerRow } from '../language/specification/statements.ts';
import type { RowPlace } from '../language/text/document.ts';
import { expandSequence, mostItems, sequenceLength } from '../language/text/sequence.ts';
import { layerOutside, layerRepeated, sequenceTooLong } from '../language/textFindingKinds.ts';
import { modulo } from './integers.ts';
import { layerCircular, layerMissing, phaseUnknown, rowLength } from './layoutFindingKinds.ts';
import type { PhaseSystem, SlotTable } from './model.ts';

type WrittenRow = Extract<LayerRow, { kind: 'row' }>;

/** What rows are read for. */
export interface RowBase {
  readonly slots: number;
  readonly layers: number;
  readonly phases: PhaseSystem;
  /** Where the number of layers is given. */
  readonly range: Range;
  /** Some row was not understood: layers without a row have their finding already. */
  readonly rowsBroken: boolean;
}

/**
 * The slot table of a layout written row by row. Null where a row is missing or wrong; every problem
 * goes to `findings`.
 */
export function tableFromRows(
  rows: readonly Given<LayerRow>[],
  base: RowBase,
  findings: Finding[],
): SlotTable | null {
  const { slots, layers, phases } = base;
  const before = findings.length;
  const byLayer = new Map<number, Given<LayerRow>>();
  for (const row of rows) {
    const letter = layerLetter(row.value.layer);
    if (row.value.layer >= layers) findings.push(finding(layerOutside, row.range, { layer: letter, layers }));
    else if (byLayer.has(row.value.layer)) {
      const first = byLayer.get(row.value.layer)!;
      const related = [{ message: 'first described here', range: first.statement }];
      findings.push(finding(layerRepeated, row.statement, { layer: letter, what: 'a row' }, { related }));
    } else byLayer.set(row.value.layer, row);
  }
  if (tooLong(rows, findings)) return null;

  const cells = new Int8Array(slots * layers);
  const written = new Map<number, Int8Array>();
  for (let layer = 0; layer < layers; layer++) {
    const row = byLayer.get(layer);
    if (!row && !base.rowsBroken)
      findings.push(finding(layerMissing, base.range, { layer: layerLetter(layer) }));
    else if (row?.value.kind === 'row') {
      const made = writtenCells(row.value, slots, phases, findings);
      if (made) written.set(layer, made);
    }
  }
  for (const [layer, row] of byLayer) {
    const resolved = resolveLayer(layer, byLayer, written, slots);
    if (resolved === 'circular' && row.value.kind === 'derived' && !base.rowsBroken) {
      const data = { layer: layerLetter(layer), from: layerLetter(row.value.from) };
      findings.push(finding(layerCircular, row.value.fromRange, data));
    } else if (resolved !== 'circular') cells.set(resolved, layer * slots);
  }
  return findings.slice(before).some(({ severity }) => severity === 'error')
    ? null
    : { slots, layers, cells };
}

function tooLong(rows: readonly Given<LayerRow>[], findings: Finding[]): boolean {
  let items = 0;
  for (const { value } of rows) {
    if (value.kind !== 'row') continue;
    items += sequenceLength(value.places) * value.repeat;
    if (items > mostItems) {
      findings.push(finding(sequenceTooLong, value.rowRange, { items, most: mostItems }));
      return true;
    }
  }
  return false;
}

/** Cell codes of a written row, or null where its length or a phase is wrong. */
function writtenCells(
  row: WrittenRow,
  slots: number,
  phases: PhaseSystem,
  findings: Finding[],
): Int8Array | null {
  const places = expandSequence<RowPlace>(row.places);
  const unknown = places.find(({ phase }) => phase !== null && !phases.names.includes(phase));
  if (unknown) {
    const data = { phase: unknown.phase!, names: phases.names };
    findings.push(finding(phaseUnknown, { start: unknown.range.start, end: unknown.range.end }, data));
    return null;
  }
  const length = places.length * row.repeat;
  if (length !== slots) {
    findings.push(finding(rowLength, row.rowRange, { layer: layerLetter(row.layer), places: length, slots }));
    return null;
  }
  const index = new Map(phases.names.map((name, phase) => [name, phase + 1]));
  return Int8Array.from({ length }, (_, slot) => {
    const { phase, sense } = places[slot % places.length]!;
    if (phase === null) return 0;
    const copy = Math.floor(slot / places.length);
    return index.get(phase)! * sense * (row.alternating && copy % 2 === 1 ? -1 : 1);
  });
}

/** Cells of a layer, derived ones followed to the written row they lead to. */
function resolveLayer(
  layer: number,
  byLayer: ReadonlyMap<number, Given<LayerRow>>,
  written: ReadonlyMap<number, Int8Array>,
  slots: number,
): Int8Array | 'circular' {
  let moved = 0;
  let sense = 1;
  let at = layer;
  for (let steps = 0; steps <= byLayer.size; steps++) {
    const row = byLayer.get(at)?.value;
    if (!row) return 'circular';
    if (row.kind === 'row') {
      const source = written.get(at);
      // A row that was wrong has its own finding.
      if (!source) return new Int8Array(slots);
      return source.map((_, slot) => source[modulo(slot - moved, slots)]! * sense);
    }
    moved += row.moved;
    if (row.negated) sense = -sense;
    at = row.from;
  }
  return 'circular';
}
