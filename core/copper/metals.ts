import { derive, type Figure } from '../figures/figure.ts';
import { stated } from '../language/specification/defaults.ts';
import type { Specification } from '../language/specification/specification.ts';
import { barStatements } from '../language/vocabulary/blocks/copper.ts';
import type { SaidBy } from '../language/vocabulary/word.ts';

type MetalName = SaidBy<(typeof barStatements)['metal']>;

/** Constants of a bar metal. */
export interface Metal {
  readonly name: MetalName;
  /** Resistivity at 20 degC, ohm m. */
  readonly resistivity20: number;
  /** Temperature coefficient of resistance at 20 degC, 1/K. */
  readonly temperatureCoefficient: number;
  /** kg/m3. */
  readonly density: number;
  /** Of a volume, J/(m3 K). */
  readonly heatCapacity: number;
  /** Thermal conductivity near 60 degC, W/(m K). */
  readonly thermalConductivity: number;
  /** Modulus of elasticity, Pa. */
  readonly elasticity: number;
  readonly poissonRatio: number;
}

/**
 * Annealed copper: 58 m/(ohm mm2), 0.00393 1/K, 8.89 g/cm3 after IEC 60028. Heat capacity after IEC
 * 60949 as quoted by others; thermal conductivity, elasticity and Poisson's ratio from memory.
 */
export const copperMetal: Metal = {
  name: 'copper',
  resistivity20: 1e-6 / 58,
  temperatureCoefficient: 0.00393,
  density: 8890,
  heatCapacity: 3.45e6,
  thermalConductivity: 394,
  elasticity: 117e9,
  poissonRatio: 0.34,
};

/**
 * Hard-drawn aluminium of 61 % of the conductivity of annealed copper: 0.028264 ohm mm2/m,
 * 0.00403 1/K, 2.703 g/cm3 after IEC 60889 (from memory). Thermal conductivity, elasticity and
 * Poisson's ratio from memory.
 */
export const aluminiumMetal: Metal = {
  name: 'aluminium',
  resistivity20: 0.028264e-6,
  temperatureCoefficient: 0.00403,
  density: 2703,
  heatCapacity: 2.5e6,
  thermalConductivity: 230,
  elasticity: 69e9,
  poissonRatio: 0.34,
};

/** The metals that the language names. */
const metals: Readonly<Record<MetalName, Metal>> = { copper: copperMetal, aluminium: aluminiumMetal };

/** Above this, in degC, no bar metal is solid: a temperature that is computed so high has run away. */
export const noSolidMetal = 1500;

/** The metal of the bars. */
export function barMetal(specification: Specification): Figure<Metal> {
  return derive({ metal: stated(barStatements, specification.bar, 'metal') }, ({ metal }) => metals[metal]);
}

/** Resistivity at a temperature in degC, ohm m; linear in the temperature. */
export function resistivity(metal: Metal, temperature: number): number {
  return metal.resistivity20 * (1 + metal.temperatureCoefficient * (temperature - 20));
}
