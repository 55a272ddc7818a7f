import { describe, expect, it } from 'vitest';
import { emf } from '../../core/analysis/emf/emf.ts';
import { copper } from '../../core/copper/copper.ts';
import { figureRegister, figuresOf } from '../../core/figures/register.ts';
import { told } from '../support/told.ts';
import { copperInput, crossedDrive, partsOf } from './machines.ts';

/**
 * Dimensions, tested by similarity: the same machine `scale` times as large in every length must change
 * each figure by the power of `scale` that its physics asks for. A meter taken for a millimeter
 * anywhere, or a length left out of a formula, breaks the power.
 */
interface Scales {
  readonly length: number;
  readonly frequency: number;
  readonly current: number;
  readonly flux: number;
  readonly conductance: number;
}

function scaled(scales: Scales, text = crossedDrive) {
  // Radii are written: assumed ones are whole tenths of a millimeter.
  const rings = 'rings terminals';
  const input = copperInput(
    resized(
      text
        .replace(
          'end-straight 6 mm',
          'end-straight 6 mm  bend-radius 2 mm flat 3 mm  ring-width 9 mm  ring-height 4 mm',
        )
        .replace('route paths 2', `route paths 2\n  ${rings}`),
      scales,
    ),
  );
  const { winding, specification } = input;
  const result = copper(input, partsOf(input));
  const voltages = emf({
    winding,
    specification,
    windingFactor: input.windingFactor,
    meanSquareFactor: 0.9,
    differentialLeakage: 0.03,
    copperLoss: result.fundamentalLoss,
    harmonicFactor: () => null,
  });
  return { copper: told('copper', result), emf: told('emf', voltages) };
}

/** A text with every number that carries one of these units scaled, so that no word of the language is left out. */
function resized(text: string, { length, frequency, current, flux, conductance }: Scales): string {
  const factors: Readonly<Record<string, number>> = {
    mm: length,
    rpm: frequency,
    A: current,
    mWb: flux,
    'W/(m K)': conductance,
  };
  return text.replace(/([\d.]+) (mm|rpm|A|mWb|W\/\(m K\))(?![\w/])/g, (_, number: string, unit: string) => {
    return `${Number(number) * factors[unit]!} ${unit}`;
  });
}

/** A number for every model's quantity. */
function figure(result: ReturnType<typeof scaled>, quantity: string): number {
  const special: Record<string, () => number> = {
    'copper.section.barArea': () => result.copper.section.barArea![0]!,
    'copper.section.spareRoom': () => result.copper.section.spareRoom![0]!.height,
    'copper.acRatio.layers': () => result.copper.acRatio.layers![0]!,
    'copper.acRatio.bestHeights': () => result.copper.acRatio.bestHeights![0]!.height,
    'copper.leakage.pathImpedances': () => result.copper.leakage.pathImpedances!.inductance[0]!,
    'emf.gaps': () => result.emf.gaps![0]!.shearStress,
  };
  const path = quantity.split('.');
  return (
    special[quantity]?.() ??
    path
      .slice(1)
      .reduce<number>(
        (value, key) => (value as unknown as Record<string, number>)[key]!,
        result[path[0] as 'copper' | 'emf'] as unknown as number,
      )
  );
}

const s = 2.5;
// Reduced heights stay where frequency goes with 1/length^2; the current density stays where the current
// goes with length^2; the flux density stays where the flux does.
const large: Scales = { length: s, frequency: s ** -2, current: s ** 2, flux: s ** 2, conductance: 1 };

/** Power of the length scale of every figure, by hand. rho, mu0, k, E and density do not change. */
const powers: Readonly<Record<string, number>> = {
  'copper.section.barArea': 2,
  'copper.section.slotFill': 0,
  'copper.section.spareRoom': 1,
  'copper.length.bars': 1,
  'copper.length.total': 1,
  'copper.length.overhangConnection': 1,
  'copper.length.overhangFar': 1,
  'copper.resistance.path20': -1,
  'copper.resistance.phase20': -1,
  'copper.resistance.phase': -1,
  'copper.resistance.line20': -1,
  'copper.resistance.line': -1,
  'copper.mass': 3,
  'copper.currentDensity': 0,
  'copper.ringCurrentDensity': 0,
  'copper.loss.dc': 3,
  'copper.loss.ac': 3,
  'copper.loss.total': 3,
  'copper.acRatio.layers': 0,
  'copper.acRatio.slot': 0,
  'copper.acRatio.bar': 0,
  'copper.acRatio.worst': 0,
  'copper.acRatio.bestHeights': 1,
  'copper.leakage.slotPermeance': 0,
  'copper.leakage.slotInductance': 1,
  'copper.leakage.pathImpedances': 1,
  'copper.cage.stiffness': 3,
  'copper.cage.straight': 3,
  // Torque ~ flux x current = s^4, over K ~ s^3, times r/l.
  'copper.cage.stress': 1,
  'copper.cage.bending': 1,
  'emf.frequency': -2,
  'emf.phaseVoltage': 0,
  'emf.lineVoltage': 0,
  'emf.torque': 4,
  'emf.power': 2,
  'emf.torquePerAmpere': 2,
  'emf.motorConstant': 2.5,
  'emf.magnetizingInductance': 1,
  'emf.differentialLeakageInductance': 1,
  'emf.gapFluxDensity': 0,
  'emf.gaps': 1,
};

/** Of losses beside those of the fundamental: volume times f^2 B^2 h^2 for the field of the rotor. */
const furtherPowers: Readonly<Record<string, number>> = {
  'copper.loss.harmonics': 3,
  'copper.loss.barField': 1,
};

/** The heat scales so only where its own temperature does not change: the loss density then is s^2 W/m. */
const heatQuantities = [
  'copper.heat.rise',
  'copper.heat.hotSpot',
  'copper.heat.endShare',
  'copper.heat.coreShare',
];

/** Every figure of copper and EMF that has a model. */
const modeled = [...figuresOf('copper'), ...figuresOf('emf')].filter(
  (path) => figureRegister[path].model !== undefined,
);

describe('the same machine 2.5 times as large', () => {
  const small = scaled({ length: 1, frequency: 1, current: 1, flux: 1, conductance: 1 });
  const big = scaled(large);

  it.each(Object.entries(powers))('%s goes with length^%d', (quantity, power) => {
    const before = figure(small, quantity);
    expect(before).not.toBe(0);
    expect(figure(big, quantity) / before / s ** power).toBeCloseTo(1, 7);
  });

  it('losses beside those of the fundamental', () => {
    const text = crossedDrive
      .replace('machine {', 'machine {\n  current-harmonic 5 4 %')
      .replaceAll(/slot ([a-d ]*)\{/g, 'slot $1{ bar-field radial 20 mT tangential 30 mT ');
    const [before, after] = [
      scaled({ length: 1, frequency: 1, current: 1, flux: 1, conductance: 1 }, text),
      scaled(large, text),
    ];
    for (const [quantity, power] of Object.entries(furtherPowers))
      expect(figure(after, quantity) / figure(before, quantity) / s ** power).toBeCloseTo(1, 7);
  });

  it('covers every quantity that has a model', () => {
    const others = ['emf.harmonics', 'copper.heat.coreTemperature'];
    const tested = [...Object.keys(powers), ...Object.keys(furtherPowers), ...heatQuantities, ...others];
    expect([...modeled].sort()).toEqual([...tested].sort());
  });

  it('heat: with the current as length^1 and the side conductance as it is, every rise stays', () => {
    const even = scaled({ ...large, current: s });
    // p ~ I^2 rho/A = s^0, L^2/A = s^0, G L^2/(k A) = s^0.
    for (const quantity of heatQuantities) {
      expect(figure(even, quantity)).toBeCloseTo(figure(small, quantity), 9);
    }
  });

  it('a machine in millimeters is a thousandth of one in meters', () => {
    expect(small.copper.section.barArea![0]! * 1e6).toBeCloseTo(3.6 * 3 - (4 - Math.PI) * 0.25, 9);
    expect(small.copper.length.active![0]!).toBeGreaterThan(0.096);
    expect(small.copper.length.active![0]!).toBeLessThan(0.0975);
  });
});

describe('units', () => {
  it('every quantity names an SI unit', () => {
    const known = new Set([
      '1',
      'm',
      'm2',
      'kg',
      'ohm',
      'ohm and H',
      'A/m2',
      'W',
      'H',
      'K',
      'degC',
      'Nm/rad',
      'Pa',
      'Hz',
      'V',
      'Nm',
      'Nm/A',
      'Nm/sqrt(W)',
      'T',
    ]);
    for (const path of modeled) expect(known).toContain(figureRegister[path].unit);
  });
});
