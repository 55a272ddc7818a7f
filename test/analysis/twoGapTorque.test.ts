import { describe, expect, it } from 'vitest';
import { emfText } from '../../core/report/markdown/machine.ts';
import { newSources } from '../../core/report/markdown/sources.ts';
import { examine, ferryDrive, withLine } from '../copper/machines.ts';
import { study } from '../support/study.ts';

// Gaps and radii that would divide the torque quite otherwise than the magnets do.
const twoGaps = ferryDrive
  .replace('gap inner', 'gap both\n  outside 195.6 mm')
  .replace('air-gap 0.9 mm', 'air-gap 2 mm 0.8 mm')
  .replace('magnet-height 4 mm', 'magnet-height 4 mm 7 mm');

const [slots, polePairs, paths, stack] = [48, 4, 2, 0.096];
const sides = [
  { radius: 81e-3, air: 2e-3, magnets: 4e-3 },
  { radius: 97.8e-3, air: 0.8e-3, magnets: 7e-3 },
] as const;
const [remanence, permeability, mu0] = [1.1, 1.06, 4e-7 * Math.PI];

/** Winding functions of the phases over the teeth, turns of one path's series circuit. */
function windingFunctions(text: string): number[][] {
  const { table } = examine(text).input.winding;
  return [1, 2, 3].map((phase) => {
    let turns = 0;
    const steps = Array.from({ length: slots }, (_, slot) => {
      for (let layer = 0; layer < table.layers; layer++) {
        const cell = table.cells[layer * slots + slot]!;
        if (Math.abs(cell) === phase) turns += Math.sign(cell) / paths;
      }
      return turns;
    });
    const mean = steps.reduce((sum, value) => sum + value, 0) / slots;
    return steps.map((value) => value - mean);
  });
}

/** Field of magnets that cover about five sixths of the pole pitch, rounded at their edges, over a tooth pitch. */
function meanMagnets(tooth: number, turned: number): number {
  const samples = 24;
  let sum = 0;
  for (let i = 0; i < samples; i++) {
    const angle = polePairs * (((tooth + (i + 0.5) / samples) * 2 * Math.PI) / slots - turned);
    sum += Math.tanh(4 * Math.cos(angle)) / samples;
  }
  return sum;
}

/**
 * A ring of teeth, each a series circuit from rotor iron to rotor iron: magnets, gap, tooth with the
 * winding's MMF, gap, magnets. Fluxes through the teeth, Wb; together they are zero.
 */
function toothFluxes(turned: readonly [number, number], mmf: readonly number[]): number[] {
  const reluctance = sides.reduce(
    (sum, { radius, air, magnets }) =>
      sum + (air + magnets / permeability) / (mu0 * ((2 * Math.PI * radius) / slots) * stack),
    0,
  );
  const driven = sourcesOf(turned).map((sources, tooth) => sources + mmf[tooth]!);
  const between = driven.reduce((sum, value) => sum + value, 0) / slots;
  return driven.map((value) => (value - between) / reluctance);
}

/** MMF of both magnets at each tooth, A. */
function sourcesOf(turned: readonly [number, number]): number[] {
  return Array.from({ length: slots }, (_, tooth) =>
    sides.reduce(
      (sum, { magnets }, side) =>
        sum + ((remanence * magnets) / (mu0 * permeability)) * meanMagnets(tooth, turned[side]!),
      0,
    ),
  );
}

/** Coenergy of the linear circuit: half of MMF times flux. */
function coenergy(turned: readonly [number, number], mmf: readonly number[]): number {
  const sources = sourcesOf(turned);
  return toothFluxes(turned, mmf).reduce(
    (sum, flux, tooth) => sum + (flux * (sources[tooth]! + mmf[tooth]!)) / 2,
    0,
  );
}

describe('torques of two rotors, by the coenergy of a ring of teeth', () => {
  const functions = windingFunctions(twoGaps);
  const positions = 96;
  const positionOf = (index: number) => (2 * Math.PI * index) / positions / polePairs;
  const noCurrent = new Array<number>(slots).fill(0);
  // Flux linkages of the phases over an electrical period, and the fundamentals in them.
  const linkages = Array.from({ length: positions }, (_, index) => {
    const fluxes = toothFluxes([positionOf(index), positionOf(index)], noCurrent);
    return functions.map((turns) => turns.reduce((sum, value, tooth) => sum + value * fluxes[tooth]!, 0));
  });
  const fundamentals = functions.map((_, phase) => {
    const part = (wave: (angle: number) => number) =>
      (2 / positions) *
      linkages.reduce((sum, all, index) => sum + all[phase]! * wave((2 * Math.PI * index) / positions), 0);
    return { cos: part(Math.cos), sin: part(Math.sin) };
  });
  const size = Math.hypot(fundamentals[0]!.cos, fundamentals[0]!.sin);

  /** MMF of the teeth for currents in phase with the fundamental of the EMF, A. */
  const mmfAt = (index: number) => {
    const angle = (2 * Math.PI * index) / positions;
    const currents = fundamentals.map(
      ({ cos, sin }) => (210 * Math.SQRT2 * (sin * Math.cos(angle) - cos * Math.sin(angle))) / size,
    );
    return noCurrent.map((_, tooth) =>
      functions.reduce((sum, turns, phase) => sum + turns[tooth]! * currents[phase]!, 0),
    );
  };

  // Virtual work at constant currents, mean over an electrical period.
  const step = 1e-6;
  const torques = [0, 1].map((side) => {
    let sum = 0;
    for (let index = 0; index < positions; index++) {
      const mmf = mmfAt(index);
      const moved = (by: number) => {
        const turned: [number, number] = [positionOf(index), positionOf(index)];
        turned[side]! += by;
        return coenergy(turned, mmf);
      };
      sum += (moved(step) - moved(-step)) / (2 * step) / positions;
    }
    return sum;
  });

  it('each rotor takes as much as its magnets are high, and both together the torque', () => {
    const factor = examine(twoGaps).input.windingFactor!;
    // The flux of a pole that makes this linkage: N kw Phi, N = 16 turns.
    const flux = (size / (16 * factor)) * 1e3;
    const { emf } = examine(withLine(twoGaps, 'flux', `  flux ${flux.toFixed(9)} mWb`));
    expect((torques[0]! + torques[1]!) / emf.torque!).toBeCloseTo(1, 6);
    expect(emf.gaps!.map(({ torqueShare }) => torqueShare)).toEqual([
      expect.closeTo(4 / 11, 12),
      expect.closeTo(7 / 11, 12),
    ]);
    emf.gaps!.forEach(({ torqueShare, shearStress }, side) => {
      expect((torqueShare * emf.torque!) / torques[side]!).toBeCloseTo(1, 6);
      const { radius } = sides[side]!;
      expect(shearStress / (torques[side]! / (2 * Math.PI * radius ** 2 * stack))).toBeCloseTo(1, 6);
    });
    expect(emf.assumptions.join('\n')).toContain(
      '36.4 % of the torque acts on the inner rotor, the rest on the outer, as magnet height/permeability, for magnets of equal remanence',
    );
  });

  it('where the gaps would have divided it otherwise', () => {
    const [inner, outer] = sides.map(({ radius, air, magnets }) => (air + magnets / permeability) / radius);
    expect(Math.abs(inner! / (inner! + outer!) - 4 / 11)).toBeGreaterThan(0.1);
  });
});

it('the report tells areas in square centimeters', () => {
  const { gaps } = examine(twoGaps).emf;
  const text = emfText(study(twoGaps).facts!, newSources());
  for (const { side, area } of gaps!)
    expect(text).toContain(`${side} gap: ${Number((area * 1e4).toPrecision(4))} cm²`);
});

describe('torque without magnets on a side', () => {
  const shares = (heights: string) =>
    examine(twoGaps.replace('magnet-height 4 mm 7 mm', `magnet-height ${heights}`)).emf;

  it('the side with the magnets takes it all', () => {
    expect(shares('4 mm 0 mm').gaps!.map(({ torqueShare }) => torqueShare)).toEqual([1, 0]);
    expect(shares('0 mm 7 mm').gaps!.map(({ torqueShare }) => torqueShare)).toEqual([0, 1]);
  });

  it('without any it is not known which side does', () => {
    const { gaps, missing, torque } = shares('0 mm 0 mm');
    expect(gaps).toBeNull();
    expect(torque).not.toBeNull();
    expect(missing.find(({ quantity }) => quantity === 'emf.gaps')?.needs).toEqual([
      'machine magnet-height above 0 mm',
    ]);
  });

  it('it needs no air gap', () => {
    expect(examine(withLine(twoGaps, 'air-gap', null)).emf.gaps).toHaveLength(2);
  });
});
