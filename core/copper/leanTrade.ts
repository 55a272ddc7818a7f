import { ratedTorque } from '../analysis/emf/emf.ts';
import { windingFactor } from '../analysis/factors/factors.ts';
import {
  derive,
  deriveFigure,
  type Figure,
  known,
  knownIf,
  missing,
  undetermined,
} from '../figures/figure.ts';
import { valueOrDefault } from '../language/specification/defaults.ts';
import type { Specification } from '../language/specification/specification.ts';
import { machineStatements } from '../language/vocabulary/blocks/machine.ts';
import { buildSpace } from '../space/buildSpace.ts';
import type { Winding } from '../winding/model.ts';
import { cageStiffness, cageStresses, layersCross } from './cage/cage.ts';
import { crossingLayers } from './cage/cageFigures.ts';
import { type CopperInput, type GeometryFigures, geometryFigures } from './geometryFigures.ts';

/** What one lean of the bars gives and costs. */
export interface LeanTradeRow {
  /** Lean over the stack in slot pitches; every layer leans as far, in its own sense. */
  readonly slots: number;
  /** Winding factor of the fundamental over that without any skew; the rotor's skew is in it. */
  readonly skewFactor: Figure<number>;
  /** Mean length of a whole bar, m. */
  readonly barLength: Figure<number>;
  /** Phase resistance over that of straight bars. */
  readonly resistanceRatio: Figure<number>;
  /** Nm/rad; missing where the layers do not cross. */
  readonly stiffness: Figure<number>;
  /** Along the bars, Pa, at the torque of the machine as it stands. */
  readonly stress: Figure<number>;
  /** By bending at their ends, Pa, at that torque. */
  readonly bending: Figure<number>;
}

const noWorkingWave = 'the winding makes no working wave';
const samples = 9;
const mostSlots = 2;

/** Whether bars lean, or could without a yoke in their way: between two gaps. */
export function leanConcerns({ lean }: Winding, { machine }: Specification): boolean {
  return valueOrDefault(machineStatements, machine, 'gap') === 'both' || lean.some((each) => each !== 0);
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
    const stresses = deriveFigure({ cage, torque }, (given) => {
      const { layers, stack, metal } = given.cage;
      return knownIf(cageStresses(layers, stack, metal, given.torque), crossingLayers);
    });
    return {
      slots,
      skewFactor: derive({ factor: factorOf(winding), unskewed }, (given) => given.factor / given.unskewed),
      barLength: derive({ lengths: figures.lengths }, ({ lengths }) => lengths.mean),
      resistanceRatio: resistanceRatio(figures, straight.figures),
      stiffness: derive({ cage }, (given) => {
        const { layers, stack, metal } = given.cage;
        return cageStiffness(layers, stack, metal).stiffness;
      }),
      stress: derive({ stresses }, (given) => given.stresses.axial),
      bending: derive({ stresses }, (given) => given.stresses.bending),
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
  const { specification, connected } = input;
  const space = deriveFigure(
    { connected },
    (given) => buildSpace({ specification, winding, connections: given.connected.connections }).space,
  );
  return { winding, figures: geometryFigures({ ...input, winding, space }) };
}

function factorOf(winding: Winding): Figure<number> {
  const factor = windingFactor(winding, winding.polePairs);
  return factor > 1e-12 ? known(factor) : undetermined(noWorkingWave);
}

function resistanceRatio(figures: GeometryFigures, straight: GeometryFigures): Figure<number> {
  return derive(
    { now: figures.resistance20, before: straight.resistance20 },
    ({ now, before }) => now.phase / before.phase,
  );
}
