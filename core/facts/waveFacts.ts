import { type GapOpening, gapOpenings } from '../analysis/gap/gapOpenings.ts';
import { phaseCurrent } from '../analysis/machineInputs.ts';
import { type Mmf, type MmfConditions, type MmfWave, mmf, wavesOfOrder } from '../analysis/mmf.ts';
import { type NoiseOrder, noiseOrders } from '../analysis/noise.ts';
import { type Figure, orNull } from '../figures/figure.ts';
import { lazy } from '../figures/lazy.ts';
import type { Specification } from '../language/specification/specification.ts';
import type { Winding } from '../winding/model.ts';
import type { WindingFacts } from './windingFacts.ts';

/** The waves that a winding makes at the gap, weakened by the openings of the slots where these are known. */
export interface WaveFacts {
  /** Rms current of a phase in amperes. */
  readonly phaseCurrent: () => Figure<number>;
  /** Waves at the gap (at the inner one of two), per ampere of phase current where it is not known. */
  readonly mmf: () => Mmf;
  /** The same up to any mechanical order. */
  readonly mmfUpTo: (orders: number) => Mmf;
  /** Waves at the outer of two gaps; null for machines with one gap. */
  readonly outerMmf: () => Mmf | null;
  /** Waves at the gap of one mechanical order. */
  readonly wavesOf: (order: number) => readonly MmfWave[];
  readonly noise: () => readonly NoiseOrder[];
}

/** The waves of a winding that a text describes; `facts` are those of the winding. */
export function waveFacts(
  specification: Specification,
  winding: Winding,
  { rotation, orders }: Pick<WindingFacts, 'rotation' | 'orders'>,
): WaveFacts {
  const current = lazy(() => phaseCurrent(specification, winding));
  const openings = lazy(() => gapOpenings(specification));
  const conditions = (opening: Figure<GapOpening> | undefined): MmfConditions => ({
    current: orNull(current()) ?? 1,
    rotation: rotation(),
    ...(opening?.known ? { opening: opening.value } : {}),
  });
  const waves = (count: number, opening: Figure<GapOpening> | undefined): Mmf =>
    mmf(winding, { ...conditions(opening), orders: count });
  const atGap = lazy(() => waves(orders, openings()[0]));
  return {
    phaseCurrent: current,
    mmf: atGap,
    mmfUpTo: (count) => waves(count, openings()[0]),
    outerMmf: lazy(() => (openings()[1] ? waves(orders, openings()[1]) : null)),
    wavesOf: (order) => wavesOfOrder(winding, order, conditions(openings()[0])),
    noise: lazy(() =>
      noiseOrders(
        atGap().waves,
        winding.polePairs,
        (specification.machine?.rotorField ?? []).map(({ value }) => value),
      ),
    ),
  };
}
