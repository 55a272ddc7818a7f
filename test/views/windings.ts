import { coilEnds } from '../../core/views/layout/coilEnds.ts';
import type { DrawnEnd, LayoutInput } from '../../core/views/layout/input.ts';
import { defaultBelt, generateTable } from '../../core/winding/generate.ts';
import type { Bar, Joint, LayoutOrigin, SlotTable, Winding } from '../../core/winding/model.ts';
import { phaseSystem } from '../../core/winding/phases.ts';

export interface WindingRequest {
  readonly slots: number;
  readonly poles: number;
  readonly phases?: number;
  readonly apart?: number;
  readonly layers: number;
  readonly span: number;
  readonly stagger?: number;
  /** Lean of each layer in degrees. */
  readonly lean?: readonly number[];
  readonly parallelPaths?: number;
}

/** A generated winding; throws where the layout is refused. */
export function generated(request: WindingRequest): Winding {
  const { slots, poles, layers, span, stagger = 0, lean = [], parallelPaths = 1 } = request;
  const phases = phaseSystem(request.phases ?? 3, request.apart);
  const belt = defaultBelt(phases);
  const layout = generateTable({ slots, poles, phases, layers, span, stagger, belt });
  if (!layout.ok) throw new RangeError(`refused: ${JSON.stringify(layout.reason)}`);
  return {
    ...fromTable(layout.table, poles, { kind: 'generated', span, stagger, belt }, lean),
    phases,
    parallelPaths,
  };
}

/** A winding of any slot table; cells of `phases` phases. */
export function fromTable(
  table: SlotTable,
  poles: number,
  origin: LayoutOrigin,
  lean: readonly number[] = [],
  phases = 3,
): Winding {
  return {
    slots: table.slots,
    poles,
    polePairs: poles / 2,
    phases: phaseSystem(phases, phases === 6 ? 30 : undefined),
    layers: table.layers,
    table,
    lean: Array.from({ length: table.layers }, (_, layer) => ((lean[layer] ?? 0) * Math.PI) / 180),
    rotorSkew: { angle: 0, steps: null },
    parallelPaths: 1,
    origin,
  };
}

/** The layout of a generated winding before it has joints. */
export function layoutInput(winding: Winding, title = 'Tidal pump, stator A'): LayoutInput {
  return { winding, title, ends: coilEnds(winding), leads: [], starPoints: [] };
}

/** Joints as the layout draws them. */
export function drawnJoints(
  joints: readonly (Joint & { readonly phase: number; readonly path: number })[],
): readonly DrawnEnd[] {
  return joints.map((joint) => ({ ...joint }));
}

/** A path walked by hops `[slots, layer]` from a bar. */
export function walk(
  slots: number,
  first: Bar,
  hops: readonly (readonly [number, number])[],
): readonly Bar[] {
  const bars: Bar[] = [first];
  for (const [hop, layer] of hops)
    bars.push({ slot: ((((bars.at(-1)!.slot - 1 + hop) % slots) + slots) % slots) + 1, layer });
  return bars;
}

/**
 * Two paths of each phase of 48 slots, 8 poles, 2 layers, span 6: a progressive wave that goes twice
 * round, and its mirror image; written in the manner of any wave winding (common practice).
 */
export function connectedWave(lean: readonly number[] = []): LayoutInput {
  const winding = generated({ slots: 48, poles: 8, layers: 2, span: 6, lean, parallelPaths: 2 });
  const ends: DrawnEnd[] = [];
  const leads: LayoutInput['leads'][number][] = [];
  const star: LayoutInput['starPoints'][number]['ends'][number][] = [];
  const paths = new Map<string, number>();
  for (let phase = 0; phase < 3; phase++)
    for (const path of [1, 2]) {
      const way = path === 1 ? 1 : -1;
      const other = path === 1 ? 1 : 0;
      const round = [
        ...Array(3)
          .fill([
            [6 * way, other],
            [6 * way, 1 - other],
          ])
          .flat(),
        [6 * way, other],
      ];
      const hops = [...round, [path === 1 ? 7 : -7, 1 - other], ...round] as [number, number][];
      const first = { slot: (path === 1 ? 1 : 2) + 4 * phase, layer: path === 1 ? 0 : 1 };
      const bars = walk(48, path === 1 ? first : { ...first, slot: first.slot }, hops);
      for (const bar of bars) paths.set(`${bar.slot} ${bar.layer}`, path);
      for (const [index, [span]] of hops.entries())
        ends.push({
          side: index % 2 === 0 ? 'far' : 'connection',
          from: bars[index]!,
          to: bars[index + 1]!,
          span,
          kind: Math.abs(span) === 6 ? 'regular' : 'other-span',
          number: ends.length + 1,
          separatePiece: false,
          phase,
          path,
        });
      leads.push({ side: 'connection', bar: bars[0]!, phase, path, terminal: `${'UVW'[phase]}1` });
      star.push({ side: 'connection', bar: bars.at(-1)!, phase, path });
    }
  return {
    winding,
    title: 'Harbour ferry pod drive, stator B',
    ends,
    leads,
    starPoints: [{ name: 'N', ends: star }],
    barPath: ({ slot, layer }) => paths.get(`${slot} ${layer}`),
  };
}
