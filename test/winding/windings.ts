import { defaultBelt, generateTable } from '../../core/winding/generate.ts';
import type { Winding } from '../../core/winding/model.ts';
import { phaseSystem } from '../../core/winding/phases.ts';

export interface MachineRequest {
  readonly slots: number;
  readonly poles: number;
  /** 3, 5, ...; 6 means two sets 30 electrical degrees apart. */
  readonly phases?: number;
  readonly layers: number;
  /** Default: the pole pitch, rounded down, at least 1. */
  readonly span?: number;
  readonly stagger?: number;
  readonly paths?: number;
  /** Mechanical radians over the stack, one a layer. */
  readonly lean?: readonly number[];
}

/** A generated winding for tests; throws when the layout is refused. */
export function machine(request: MachineRequest): Winding {
  const { slots, poles, layers } = request;
  const count = request.phases ?? 3;
  const phases = count === 6 ? phaseSystem(6, 30) : phaseSystem(count);
  const span = request.span ?? Math.max(1, Math.floor(slots / poles));
  const stagger = request.stagger ?? 0;
  const belt = defaultBelt(phases);
  const layout = generateTable({ slots, poles, phases, layers, span, stagger, belt });
  if (!layout.ok) throw new Error(`no layout: ${JSON.stringify(layout.reason)}`);
  return {
    slots,
    poles,
    polePairs: poles / 2,
    phases,
    layers,
    table: layout.table,
    lean: request.lean ?? Array.from({ length: layers }, () => 0),
    rotorSkew: { angle: 0, steps: null },
    parallelPaths: request.paths ?? 1,
    origin: { kind: 'generated', span, stagger, belt },
  };
}
