import papaparse from 'papaparse';
import type { FactorRow } from '../analysis/factors.ts';
import { senseInPath } from '../balance/validity.ts';
import type { ConnectionFacts } from '../facts/connection.ts';
import type { Facts } from '../facts/facts.ts';
import { fixed } from '../language/numbers.ts';
import { emfAngle } from '../winding/angles.ts';
import { deltaJoins, joinedWith } from '../winding/joints/deltaJoins.ts';
import { type Bar, barName, cellAt, layerLetter, phaseOfCell, type Winding } from '../winding/model.ts';
import { shapeLength } from './shapeLength.ts';

export const scheduleTables = ['slots', 'bars', 'joints', 'leads', 'factors'] as const;

export type ScheduleTable = (typeof scheduleTables)[number];

export type ScheduleCell = string | number | null;
type Rows = readonly (readonly ScheduleCell[])[];

/**
 * A table of the winding as CSV (RFC 4180: CRLF, header row, UTF-8 without a mark; `.` decimals), in an
 * order that does not depend on how the paths were found: two revisions compare line by line. Empty
 * cells: what is not known, as paths and joints before the bars are joined.
 * slots: each place as phase and sense, 1 carrying current away from the connection side, -1 back. (In
 * one cell, `+U` would be taken for a formula.)
 * bars: by slot and layer; sense 1 or -1, developed length of the whole piece (a hairpin: both legs and
 * crown) in mm, EMF angle in electrical degrees, 0 <= angle < 360.
 * joints: every joint and lead as in the report, by number; spans in slots.
 * leads: path ends; of a delta also the terminal that each is to be joined with.
 */
export function schedule(facts: Facts, table: ScheduleTable): string {
  const rows = scheduleRows(facts, table);
  return `${papaparse.unparse(rows, { newline: '\r\n', escapeFormulae: true })}\r\n`;
}

/** The same table as rows of cells, its header first; null for what is not known. */
export function scheduleRows(facts: Facts, table: ScheduleTable): readonly (readonly ScheduleCell[])[] {
  return rowsOf[table](facts);
}

const rowsOf: Readonly<Record<ScheduleTable, (facts: Facts) => Rows>> = {
  slots: slotRows,
  bars: barRows,
  joints: jointRows,
  leads: leadRows,
  factors: factorRowsOf,
};

function joined(facts: Facts): ConnectionFacts | null {
  return facts.connection.kind === 'connected' ? facts.connection.facts : null;
}

function slotRows({ winding }: Facts): Rows {
  const layers = Array.from({ length: winding.layers }, (_, layer) => layer);
  return [
    ['slot', ...layers.flatMap((layer) => [layerLetter(layer), `${layerLetter(layer)}Sense`])],
    ...slotsOf(winding).map((slot) => [
      slot,
      ...layers.flatMap((layer) => placeCells(winding, { slot, layer })),
    ]),
  ];
}

function slotsOf(winding: Winding): readonly number[] {
  return Array.from({ length: winding.slots }, (_, index) => index + 1);
}

function placeCells(winding: Winding, bar: Bar): readonly [phase: ScheduleCell, sense: ScheduleCell] {
  const cell = cellAt(winding.table, bar.slot, bar.layer);
  return cell === 0 ? [null, null] : [winding.phases.names[phaseOfCell(cell)]!, Math.sign(cell)];
}

function barRows(facts: Facts): Rows {
  const { winding } = facts;
  const connection = joined(facts);
  const uses = connection ? barUses(connection) : null;
  const lengths = new Map(
    (connection?.barShapes() ?? []).map((shape) => {
      const length = shapeLength(facts, shape);
      return [shape.number, length === null ? null : rounded(length * 1000)] as const;
    }),
  );
  const rows: (readonly ScheduleCell[])[] = [
    ['position', 'slot', 'layer', 'phase', 'sense', 'path', 'placeInPath', 'shape', 'lengthMm', 'emfAngle'],
  ];
  for (const slot of slotsOf(winding))
    for (let layer = 0; layer < winding.layers; layer++) {
      const cell = cellAt(winding.table, slot, layer);
      if (cell === 0) continue;
      const name = barName({ slot, layer });
      const use = uses?.get(name);
      const sense = use?.sense ?? Math.sign(cell);
      rows.push([
        name,
        slot,
        layerLetter(layer),
        winding.phases.names[phaseOfCell(cell)]!,
        sense,
        use?.path ?? null,
        use?.place ?? null,
        use?.shape ?? null,
        use?.shape == null ? null : (lengths.get(use.shape) ?? null),
        rounded(emfAngle(winding, { slot }, sense)),
      ]);
    }
  return rows;
}

interface BarUse {
  readonly path: number;
  /** Place in the path, from 1. */
  readonly place: number;
  readonly sense: 1 | -1;
  readonly shape: number | null;
}

/** Where each bar is used (first), by its name. */
function barUses(connection: ConnectionFacts): ReadonlyMap<string, BarUse> {
  const shapes = new Map(
    connection.barShapes().flatMap(({ number, bars }) => bars.map((bar) => [barName(bar), number] as const)),
  );
  const uses = new Map<string, BarUse>();
  for (const path of connection.paths)
    for (const [position, bar] of path.bars.entries()) {
      const name = barName(bar);
      if (uses.has(name)) continue;
      const sense = senseInPath(path, position);
      uses.set(name, { path: path.number, place: position + 1, sense, shape: shapes.get(name) ?? null });
    }
  return uses;
}

function jointRows(facts: Facts): Rows {
  const connection = joined(facts);
  const header = [
    'number',
    'side',
    'phase',
    'path',
    'from',
    'to',
    'span',
    'trueSpan',
    'kind',
    'separatePiece',
    'shape',
  ];
  if (!connection) return [header];
  const { joints, ends } = connection.joints();
  const { names } = facts.winding.phases;
  return [
    header,
    ...joints.map((joint) => [
      joint.number,
      joint.side,
      names[joint.phase]!,
      connection.paths[joint.path]!.number,
      barName(joint.from),
      barName(joint.to),
      joint.span,
      rounded(joint.trueSpan),
      joint.kind,
      joint.separatePiece ? 'yes' : 'no',
      joint.shape,
    ]),
    ...ends.map((end) => [
      end.number,
      end.side,
      names[end.phase]!,
      connection.paths[end.path]!.number,
      end.end === 'start' ? end.terminal : barName(end.bar),
      end.end === 'start' ? barName(end.bar) : end.terminal,
      null,
      null,
      end.kind,
      'no',
      null,
    ]),
  ];
}

function leadRows(facts: Facts): Rows {
  const connection = joined(facts);
  const header = [
    'number',
    'terminal',
    'kind',
    'phase',
    'path',
    'end',
    'bar',
    'slot',
    'layer',
    'side',
    'joinedWith',
  ];
  if (!connection) return [header];
  const joins = connection.connection === 'delta' ? deltaJoins(facts.winding.phases) : [];
  return [
    header,
    ...connection
      .joints()
      .ends.map((end) => [
        end.number,
        end.terminal,
        end.kind,
        facts.winding.phases.names[end.phase]!,
        connection.paths[end.path]!.number,
        end.end,
        barName(end.bar),
        end.bar.slot,
        layerLetter(end.bar.layer),
        end.side,
        joinedWith(joins, end.terminal),
      ]),
  ];
}

/** Phases with the same factors share one block, `all`. The harmonic is a decimal: `7/5` would become a date. */
function factorRowsOf(facts: Facts): Rows {
  const { orders, winding } = facts;
  const byPhase = facts.factorRowsByPhase(orders);
  const block = (phase: string, rows: readonly FactorRow[]) =>
    rows.map((row) => [
      phase,
      row.order,
      rounded(row.order / winding.polePairs),
      factorText(row.distribution),
      factorText(row.pitch),
      factorText(row.skew),
      factorText(row.winding),
      factorText(row.coilPitch),
    ]);
  return [
    ['phase', 'order', 'harmonic', 'distribution', 'pitch', 'skew', 'winding', 'coilPitch'],
    ...(byPhase
      ? byPhase.flatMap((rows, phase) => block(winding.phases.names[phase]!, rows))
      : block('all', facts.factorRows(orders))),
  ];
}

/** Nine decimals, so that no exponent is ever needed. */
function factorText(factor: number | null | undefined): string | null {
  return factor == null ? null : fixed(factor, 9);
}

/** To six decimals; never a negative zero. */
function rounded(value: number): number {
  return Math.round(value * 1e6) / 1e6 + 0;
}
