import { ratedTorque } from '../analysis/emf/emf.ts';
import { windingFactor } from '../analysis/factors/factors.ts';
import { derive, missing, orNull } from '../figures/figure.ts';
import type { Specification } from '../language/specification/specification.ts';
import { buildSpace } from '../space/buildSpace.ts';
import type { Winding } from '../winding/model.ts';
import { cageStiffness, cageStresses, layersCross } from './cage/cage.ts';
import { crossingLayers } from './cage/cageFigures.ts';
import { type CopperInput, type GeometryFigures, geometryFigures } from './geometryFigures.ts';

/** What one lean of the bars gives and costs. Null where data lack. */
export interface LeanTradeRow {
  /** Lean over the stack in slot pitches; every layer leans as far, in its own sense. */
  readonly slots: number;
  /** Winding factor of the fundamental over that without any skew; the rotor's skew is in it. */
  readonly skewFactor: number | null;
  /** Mean length of a whole bar, m. */
  readonly barLength: number | null;
  /** Phase resistance over that of straight bars. */
  readonly resistanceRatio: number | null;
  /** Nm/rad; null where the layers do not cross. */
  readonly stiffness: number | null;
  /** Along the bars and by bending at their ends, Pa, at the torque of the machine as it stands. */
  readonly stress: number | null;
  readonly bending: number | null;
}

const samples = 9;
const mostSlots = 2;

/** Whether bars lean, or could without a yoke in their way: between two gaps. */
export function leanConcerns({ lean }: Winding, { machine }: Specification): boolean {
  return machine?.gap?.value === 'both' || lean.some((each) => each !== 0);
}

/**
 * The trade of lean from straight bars to two slot pitches over the stack; empty where bars neither lean
 * nor could. Layers keep the sense in which they lean; of a winding without lean the inner half leans
 * one way and the outer the other.
 */
export function leanTrade(input: CopperInput): readonly LeanTradeRow[] {
  if (!leanConcerns(input.winding, input.specification)) return [];
  const senses = leanSenses(input.winding);
  const straight = atLean(input, senses, 0);
  const unskewed = factorOf({ ...straight.winding, rotorSkew: { angle: 0, steps: null } });
  const crosses = layersCross(senses);
  const torque = ratedTorque(input.specification, input.winding, input.windingFactor);
  return Array.from({ length: samples }, (_, index): LeanTradeRow => {
    const slots = (mostSlots * index) / (samples - 1);
    const { figures, winding } = atLean(input, senses, slots);
    const parts = { layers: figures.cageLayers, stack: figures.stack, metal: figures.metal };
    const cage = crosses ? derive(parts, (given) => given) : missing(crossingLayers);
    const stresses = orNull(
      derive({ cage, torque }, (given) => {
        const { layers, stack, metal } = given.cage;
        return cageStresses(layers, stack, metal, given.torque);
      }),
    );
    const factor = factorOf(winding);
    return {
      slots,
      skewFactor: unskewed && factor !== null ? factor / unskewed : null,
      barLength: orNull(derive({ lengths: figures.lengths }, ({ lengths }) => lengths.mean)),
      resistanceRatio: resistanceRatio(figures, straight.figures),
      stiffness: orNull(
        derive({ cage }, (given) => {
          const { layers, stack, metal } = given.cage;
          return cageStiffness(layers, stack, metal).stiffness;
        }),
      ),
      stress: stresses?.axial ?? null,
      bending: stresses?.bending ?? null,
    };
  });
}

/** The sense in which each layer leans: as written, else one half against the other. */
export function leanSenses(winding: Winding): readonly number[] {
  if (winding.lean.some((lean) => lean !== 0)) return winding.lean.map(Math.sign);
  return winding.lean.map((_, layer) => (layer < winding.layers / 2 ? 1 : -1));
}

function atLean(
  input: CopperInput,
  senses: readonly number[],
  slots: number,
): { readonly winding: Winding; readonly figures: GeometryFigures } {
  const lean = senses.map((sense) => (sense * slots * 2 * Math.PI) / input.winding.slots);
  const winding = { ...input.winding, lean };
  const { specification, connections } = input;
  const space = connections
    ? buildSpace({ specification, winding, connections }).space
    : missing('connect route or written paths');
  return { winding, figures: geometryFigures({ ...input, winding, space }) };
}

function factorOf(winding: Winding): number | null {
  const factor = windingFactor(winding, winding.polePairs);
  return factor > 1e-12 ? factor : null;
}

function resistanceRatio(figures: GeometryFigures, straight: GeometryFigures): number | null {
  return orNull(
    derive(
      { now: figures.resistance20, before: straight.resistance20 },
      ({ now, before }) => now.phase / before.phase,
    ),
  );
}
