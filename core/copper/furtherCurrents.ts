import { innerGapShare } from '../analysis/gap/magneticGap.ts';
import { parallelPaths } from '../analysis/machineInputs.ts';
import { assuming, derive, type Figure, known } from '../figures/figure.ts';
import type { Specification } from '../language/specification/specification.ts';
import { barStrandsOfLayers } from '../sizes/barInputs.ts';
import type { Winding } from '../winding/model.ts';
import { type BarLoads, barLoads, fieldRows } from './acLoss/acLoss.ts';
import { barCurrentsOfOrder } from './carriedCurrents.ts';

/** A current of a path: electrical Hz, A rms. */
export interface PathCurrent {
  /** Electrical, Hz; without a sign. */
  readonly frequency: number;
  /** A rms. */
  readonly current: number;
}

/** A current beside the fundamental: what it loads each bar with per ampere of a path, and how large it is. */
export interface FurtherCurrent {
  readonly loads: BarLoads;
  /** Where the fundamental has this frequency and current. */
  readonly at: (fundamental: PathCurrent) => PathCurrent;
}

/** Currents of an order of the fundamental, their phases as the order puts them, one ampere a path. */
export function orderLoads(
  specification: Specification,
  winding: Winding,
): Figure<(order: number) => BarLoads> {
  return derive(
    {
      rows: fieldRows(specification, winding),
      strands: barStrandsOfLayers(specification, winding.layers),
      share: innerGapShare(specification, winding),
    },
    (given) => (order: number) =>
      barLoads(winding, given.rows, given.strands, given.share, barCurrentsOfOrder(winding, order)),
  );
}

const equalPaths =
  'harmonics of the current: the paths of a phase carry equal shares; ripple of positive sequence; none of them but the ripple at standstill';

/** Whether an order, the same in all phases of a set, has no way to flow from terminal to terminal. */
export function cannotFlow({ connect }: Specification, { phases }: Winding, order: number): boolean {
  const open = connect?.connections[0]?.value === 'open';
  return !open && order % (phases.names.length / phases.sets) === 0;
}

/** Harmonics and ripple that the text states of the phase current; orders that cannot flow are left out. */
export function statedCurrents(
  specification: Specification,
  winding: Winding,
): Figure<readonly FurtherCurrent[]> {
  const harmonics = (specification.machine?.currentHarmonics ?? []).filter(
    ({ value }) => value.relative > 0 && !cannotFlow(specification, winding, value.harmonic),
  );
  const ripples = (specification.machine?.currentRipples ?? []).filter(({ value }) => value.relative > 0);
  if (harmonics.length + ripples.length === 0) return known([]);
  const currents = derive({ loads: orderLoads(specification, winding) }, ({ loads }) => [
    ...harmonics.map(
      ({ value: { harmonic, relative } }): FurtherCurrent => ({
        loads: loads(harmonic),
        at: ({ frequency, current }) => ({
          frequency: harmonic * frequency,
          current: frequency === 0 ? 0 : relative * current,
        }),
      }),
    ),
    ...ripples.map(
      ({ value: { frequency, relative } }): FurtherCurrent => ({
        loads: loads(1),
        at: ({ current }) => ({ frequency, current: relative * current }),
      }),
    ),
  ]);
  return assuming(currents, equalPaths);
}

/** What drives the harmonics that circulate in a ring of phases. */
export interface RingHarmonics {
  /** Rms EMF of a phase over its frequency in Hz, one an order of the fundamental. */
  readonly orders: readonly { readonly harmonic: number; readonly voltagePerHertz: number }[];
  /** Of a phase while all phases of a ring carry the same current, H. */
  readonly inductance: number;
  /** Of a phase for such a current of a frequency in Hz, ohm. */
  readonly resistance: (frequency: number) => number;
}

/** Currents that the rotor's field drives round a ring of phases: I = E/abs(R + j h w L0). */
export function ringCurrents(
  specification: Specification,
  winding: Winding,
  ring: Figure<RingHarmonics>,
): Figure<readonly FurtherCurrent[]> {
  const paths = parallelPaths(specification, winding);
  return derive({ ring, paths, loads: orderLoads(specification, winding) }, (given) =>
    given.ring.orders.map(
      ({ harmonic, voltagePerHertz }): FurtherCurrent => ({
        loads: given.loads(harmonic),
        at: ({ frequency }) => {
          const hertz = harmonic * frequency;
          if (hertz === 0) return { frequency: 0, current: 0 };
          const reactance = 2 * Math.PI * hertz * given.ring.inductance;
          const voltage = voltagePerHertz * hertz;
          return {
            frequency: hertz,
            current: voltage / Math.hypot(given.ring.resistance(hertz), reactance) / given.paths,
          };
        },
      }),
    ),
  );
}
