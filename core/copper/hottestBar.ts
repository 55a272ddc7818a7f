import { deriveFigure, type Figure, known, missing } from '../analysis/figure.ts';
import { machineValue, slotOfLayer } from '../analysis/machineInputs.ts';
import type { Specification } from '../language/specification.ts';
import type { Winding } from '../winding/model.ts';
import { type FieldWeights, type LayerSection, reducedHeight } from './acLoss.ts';
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
  readonly weights: Figure<FieldWeights>;
  readonly sections: Figure<readonly LayerSection[]>;
  readonly metal: Figure<Metal>;
  readonly frequency: Figure<number>;
  readonly pathCurrent: Figure<number>;
}

/** What is missing where no bar reaches a steady temperature. */
export const noSteadyTemperature = 'less current, thicker bars or side cooling: no steady temperature';

const lumped = 'heat along the bar: lumped one-dimensional estimate of the worst bar, not a thermal design';
const noSideCooling = 'no heat from bars to the core: slot side-conductance is not given';

/**
 * Heat of the bar that gets hottest: in each layer the one with the largest AC loss, between ends at
 * the end temperature where the bar leaves the stack, with loss and resistance at its own mean
 * temperature.
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
        const weight = given.weights.largest[layer];
        if (weight == null) continue;
        const bar: HeatedBar = {
          length: given.active[layer]!,
          area: given.areas[layer]!,
          conductivity: metal.thermalConductivity,
          sideConductance: slotOfLayer(specification, layer)?.sideConductance?.value ?? 0,
        };
        const heat = steadyHeat(bar, endTemperature, (temperature) => {
          const rho = resistivity(metal, temperature);
          const xi = reducedHeight(given.sections[layer]!, frequency, rho);
          return ((pathCurrent ** 2 * rho) / bar.area) * (phi(xi) + weight * psi(xi));
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
