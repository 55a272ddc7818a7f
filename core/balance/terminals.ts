import { coveringArc } from '../winding/coveringArc.ts';
import type { Path, Winding } from '../winding/model.ts';

/** A path start that is not where leads come out easily. */
export type TerminalProblem =
  | {
      readonly kind: 'lead-in-inner-layer';
      readonly path: number;
      readonly end: 'start' | 'finish';
      readonly layer: number;
    }
  | { readonly kind: 'starts-at-mixed-radius'; readonly phase: number; readonly layers: readonly number[] };

/** Where the leads of a winding lie. */
export interface TerminalPlaces {
  /** Smallest arc of the bore that holds the first bars of all paths, in slots and mechanical degrees. */
  readonly startWindow: { readonly slots: number; readonly angle: number };
  /** The same with the last bars. */
  readonly window: { readonly slots: number; readonly angle: number };
  readonly problems: readonly TerminalProblem[];
}

/** Terminal windows, and leads in layers that others cover. */
export function terminalPlaces(winding: Winding, paths: readonly Path[]): TerminalPlaces {
  const filled = paths.filter((path) => path.bars.length > 0);
  const starts = filled.map((path) => path.bars[0]!.slot);
  const ends = filled.map((path) => path.bars.at(-1)!.slot);
  return {
    startWindow: windowOf(winding, starts),
    window: windowOf(winding, [...starts, ...ends]),
    problems: [...innerLeads(winding, paths), ...mixedRadii(winding, paths)],
  };
}

function windowOf(winding: Winding, slots: readonly number[]): { slots: number; angle: number } {
  const arc = slots.length === 0 ? 0 : coveringArc(slots, winding.slots);
  return { slots: arc, angle: (360 * arc) / winding.slots };
}

function innerLeads(winding: Winding, paths: readonly Path[]): TerminalProblem[] {
  return paths.flatMap((path, index) =>
    (['start', 'finish'] as const).flatMap((end): TerminalProblem[] => {
      const layer = (end === 'start' ? path.bars[0] : path.bars.at(-1))?.layer;
      if (layer === undefined || layer === 0 || layer === winding.layers - 1) return [];
      return [{ kind: 'lead-in-inner-layer', path: index, end, layer }];
    }),
  );
}

function mixedRadii(winding: Winding, paths: readonly Path[]): TerminalProblem[] {
  return winding.phases.names.flatMap((_, phase): TerminalProblem[] => {
    const own = paths.filter((path) => path.phase === phase && path.bars.length > 0);
    const layers = [...new Set(own.map((path) => path.bars[0]!.layer))].sort((a, b) => a - b);
    return layers.length > 1 ? [{ kind: 'starts-at-mixed-radius', phase, layers }] : [];
  });
}
