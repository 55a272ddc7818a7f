import { machineValue, slotOfLayer } from '../analysis/machineInputs.ts';
import { deriveFigure, type Figure, known, missing } from '../figures/figure.ts';
import type { Specification } from '../language/specification/specification.ts';
import type { Winding } from '../winding/model.ts';
import { type BarLoads, type LayerSection, reducedHeight } from './acLoss.ts';
import { type HeatedBar, type SteadyHeat, steadyHeat } from './heat.ts';
import { type Metal, resistivity } from './metals.ts';
import { phi, psi } from './skinEffect.ts';

/** The hottest bar: its layer (from 0), its steady heat, and the temperature of its ends in degC. */
export interface BarHeatFigures {
  readonly layer: number;
  readonly bar: HeatedBar;
  readonly heat: SteadyHeat;
  readonly endTemperature: number;
}

interface Conditions {
  readonly active: Figure<readonly number[]>;
  readonly areas: Figure<readonly number[]>;
  readonly loads: Figure<readonly BarLoads[]>;
  readonly sections: Figure<readonly LayerSection[]>;
  readonly metal: Figure<Metal>;
  readonly frequency: Figure<number>;
  readonly pathCurrent: Figure<number>;
}

/** What is missing where no bar reaches a steady temperature. */
export const noSteadyTemperature = 'less current, thicker bars or side cooling: no steady temperature';

const lumped =
  'heat along the bar: lumped one-dimensional estimate of the worst bar within the stack, not a thermal design; its ends are at the end temperature where it leaves the stack, so that the overhang adds no rise, and its length is that in the stack';
const noSideCooling = 'no heat from bars to the core: slot side-conductance is not given';

/**
 * Heat of the bar that gets hottest: in each layer the one that loses most, between ends at the end
 * temperature where the bar leaves the stack, with loss and resistance at its own mean temperature.
 */
export function hottestBar(
  specification: Specification,
  winding: Winding,
  conditions: Conditions,
): Figure<BarHeatFigures> {
  return deriveFigure(
    { ...conditions, endTemperature: machineValue(specification, 'endTemperature') },
    (given) => {
      const { metal, frequency, pathCurrent, endTemperature } = given;
      let hottest: BarHeatFigures | null = null;
      for (let layer = 0; layer < winding.layers; layer++) {
        const loads = loadsOfLayer(winding, given.loads, layer);
        if (loads.length === 0) continue;
        const bar: HeatedBar = {
          length: given.active[layer]!,
          area: given.areas[layer]!,
          conductivity: metal.thermalConductivity,
          sideConductance: slotOfLayer(specification, layer)?.sideConductance?.value ?? 0,
        };
        const heat = steadyHeat(bar, endTemperature, (temperature) => {
          const rho = resistivity(metal, temperature);
          const xi = reducedHeight(given.sections[layer]!, frequency, rho);
          const [own, others] = [phi(xi), psi(xi)];
          const most = loads.reduce(
            (largest, { square, field }) => Math.max(largest, square * own + field * others),
            0,
          );
          return ((pathCurrent ** 2 * rho) / bar.area) * most;
        });
        if (heat === null) return missing(noSteadyTemperature);
        if (hottest === null || heat.hotSpot > hottest.heat.hotSpot) {
          hottest = { layer, bar, heat, endTemperature };
        }
      }
      if (hottest === null) return missing('layout');
      const lines = hottest.bar.sideConductance === 0 ? [lumped, noSideCooling] : [lumped];
      return known(hottest, ...lines);
    },
  );
}

interface Load {
  readonly square: number;
  readonly field: number;
}

/** The loads of a layer's bars that can be the largest: of each current, the one in the strongest field. */
function loadsOfLayer(winding: Winding, runs: readonly BarLoads[], layer: number): readonly Load[] {
  const { slots, cells } = winding.table;
  const strongest = new Map<number, Load>();
  for (const { square, field } of runs) {
    for (let place = layer * slots; place < (layer + 1) * slots; place++) {
      if (cells[place] === 0) continue;
      const load = { square: square[place]!, field: field[place]! };
      const key = Math.round(load.square * 1e9);
      const before = strongest.get(key);
      if (!before || load.field > before.field) strongest.set(key, load);
    }
  }
  return [...strongest.values()];
}
