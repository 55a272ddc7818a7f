import { defaultBelt, generateTable, type LayoutRequest } from '../../core/winding/generate.ts';
import type { LayoutOrigin, PhaseSystem, RotorSkew, SlotTable, Winding } from '../../core/winding/model.ts';
import { phaseSystem } from '../../core/winding/phases.ts';

const noRotorSkew: RotorSkew = { angle: 0, steps: null };

/** What a test winding may be given; the rest is three phases, two layers, no skew, one path. */
export interface GeneratedOptions {
  readonly phases?: PhaseSystem;
  readonly layers?: number;
  readonly stagger?: number;
  readonly belt?: number;
  readonly lean?: readonly number[];
  readonly rotorSkew?: RotorSkew;
  readonly parallelPaths?: number;
}

export function request(
  slots: number,
  poles: number,
  span: number,
  options: GeneratedOptions = {},
): LayoutRequest {
  const phases = options.phases ?? phaseSystem(3);
  return {
    slots,
    poles,
    phases,
    layers: options.layers ?? 2,
    span,
    stagger: options.stagger ?? 0,
    belt: options.belt ?? defaultBelt(phases),
  };
}

export function tryGenerate(slots: number, poles: number, span: number, options: GeneratedOptions = {}) {
  return generateTable(request(slots, poles, span, options));
}

export function generated(
  slots: number,
  poles: number,
  span: number,
  options: GeneratedOptions = {},
): Winding {
  const asked = request(slots, poles, span, options);
  const result = generateTable(asked);
  if (!result.ok) throw new Error(`no layout: ${JSON.stringify(result.reason)}`);
  const origin: LayoutOrigin = { kind: 'generated', span, stagger: asked.stagger, belt: asked.belt };
  return windingOf(result.table, poles, asked.phases, origin, options);
}

/** A winding from written rows such as `+U +U -W . +V`, one text a layer. */
export function explicit(poles: number, rows: readonly string[], options: GeneratedOptions = {}): Winding {
  const phases = options.phases ?? phaseSystem(3);
  const codes = rows.map((row) =>
    row
      .trim()
      .split(/\s+/)
      .map((place) => codeOf(place, phases)),
  );
  return windingOf(tableOf(codes), poles, phases, { kind: 'rows' }, options);
}

/** The same table, taken as written rows. */
export function asRows(winding: Winding): Winding {
  return { ...winding, origin: { kind: 'rows' } };
}

export function tableOf(rows: readonly (readonly number[])[]): SlotTable {
  return { slots: rows[0]!.length, layers: rows.length, cells: Int8Array.from(rows.flat()) };
}

export function windingOf(
  table: SlotTable,
  poles: number,
  phases: PhaseSystem,
  origin: LayoutOrigin,
  options: GeneratedOptions = {},
): Winding {
  return {
    slots: table.slots,
    poles,
    polePairs: poles / 2,
    phases,
    layers: table.layers,
    table,
    lean: options.lean ?? new Array<number>(table.layers).fill(0),
    rotorSkew: options.rotorSkew ?? noRotorSkew,
    parallelPaths: options.parallelPaths ?? 1,
    origin,
  };
}

/** A layer written out as the language writes it. */
export function rowText(winding: Winding, layer: number): string {
  const { slots, cells } = winding.table;
  return Array.from(cells.slice(layer * slots, (layer + 1) * slots), (cell) =>
    cell === 0 ? '.' : `${cell > 0 ? '+' : '-'}${winding.phases.names[Math.abs(cell) - 1]}`,
  ).join(' ');
}

function codeOf(place: string, phases: PhaseSystem): number {
  if (place === '.') return 0;
  const code = phases.names.indexOf(place.slice(1)) + 1;
  if (code === 0) throw new Error(`no phase in ${place}`);
  return place.startsWith('-') ? -code : code;
}
