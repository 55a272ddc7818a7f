// Takes its time: goes through many cases.

import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { type CageLayer, cageStiffness, cageStresses } from '../../../core/copper/cage/cage.ts';
import { radialSpans } from '../../../core/copper/cage/radialSupports.ts';
import { copperCurves } from '../../../core/copper/curves.ts';
import { leanSenses } from '../../../core/copper/leanTrade.ts';
import { aluminiumMetal, copperMetal } from '../../../core/copper/metals.ts';
import { valuesOf } from '../../../core/figures/groups.ts';
import {
  type BarSection,
  rectangleTorsion,
  roundedArea,
  roundedSecondMoment,
} from '../../../core/sizes/section.ts';
import { tries } from '../../support/tries.ts';
import { copperInput, crossedDrive, examine, ferryDrive, withLine } from '../machines.ts';
import { frameOfCage, tiedPair } from './cageFrame.ts';

const slotPitch = (slots: number, count: number) => (slots * 2 * Math.PI) / count;

function barOf(width: number, height: number, corner: number): BarSection {
  return {
    width,
    height,
    area: roundedArea(width, height, corner),
    tangentialMoment: roundedSecondMoment(width, height, corner),
    radialMoment: roundedSecondMoment(height, width, corner),
    torsionConstant: rectangleTorsion(width, height),
  };
}

/** 48 slots, 120 mm long, bars 5 x 3.6 mm with corners of 0.5 mm, two layers leaning each way. */
const drumSection = barOf(5e-3, 3.6e-3, 0.5e-3);
const drumStack = 0.12;
function drum(slots: number, radii = [0.1277, 0.1315, 0.1367, 0.1405]): readonly CageLayer[] {
  return radii.map((radius, layer) => ({
    bars: 48,
    radius,
    section: drumSection,
    lean: (layer < 2 ? 1 : -1) * slotPitch(slots, 48),
    spans: [1],
  }));
}

// Torsional stiffness in Nm/rad of the drum by beams on the helix between rigid rings, clamped and free
// between the ends: own finite-element computation, two codes agree. No published value was found.
const frames: readonly (readonly [slots: number, stiffness: number])[] = [
  [0, 104_918],
  [0.5, 423_307],
  [1, 1_337_104],
  [1.5, 2_687_411],
  [2, 4_138_474],
];

describe('crossed bars against beams in space', () => {
  it.each(frames)('a lean of %d slot pitches: %d Nm/rad', (slots, stiffness) => {
    const cage = drum(slots);
    expect(Math.abs(cageStiffness(cage, drumStack, copperMetal).stiffness / stiffness - 1)).toBeLessThan(
      0.01,
    );
    expect(frameOfCage(cage, drumStack, copperMetal).stiffness / stiffness).toBeCloseTo(1, 4);
  });

  it('straight: 101 895 Nm/rad by bending and 3 023 by torsion', () => {
    const { stiffness, straight } = cageStiffness(drum(0), drumStack, copperMetal);
    const stiff = { ...copperMetal, poissonRatio: 1e9 };
    expect(cageStiffness(drum(0), drumStack, stiff).stiffness).toBeCloseTo(101_895, -1);
    expect(stiffness - cageStiffness(drum(0), drumStack, stiff).stiffness).toBeCloseTo(3023, -1);
    expect(straight).toBe(stiffness);
    expect(cageStiffness(drum(1), drumStack, copperMetal).straight).toBe(straight);
  });

  it('other cages: within 4 % as long as a bar bows by less than 1 % of its length', () => {
    fc.assert(
      fc.property(
        fc.record({
          slots: fc.integer({ min: 24, max: 96 }),
          radius: fc.double({ min: 0.06, max: 0.3, noNaN: true }),
          slender: fc.double({ min: 0.6, max: 2.5, noNaN: true }),
          lean: fc.double({ min: 0, max: 2, noNaN: true }),
          aspect: fc.double({ min: 0.5, max: 2, noNaN: true }),
          aluminium: fc.boolean(),
        }),
        ({ slots, radius, slender, lean, aspect, aluminium }) => {
          const width = (0.35 * 2 * Math.PI * radius) / slots;
          const section = barOf(width, aspect * width, 0.1 * Math.min(width, aspect * width));
          const metal = aluminium ? aluminiumMetal : copperMetal;
          const layers = [0, 1].map(
            (layer): CageLayer => ({
              bars: slots,
              radius: radius + 1.4 * layer * section.height,
              section,
              lean: (layer === 0 ? 1 : -1) * slotPitch(lean, slots),
              spans: [1],
            }),
          );
          const stack = slender * radius;
          const { stiffness, bow } = cageStiffness(layers, stack, metal);
          fc.pre(bow < 0.01);
          const beams = frameOfCage(layers, stack, metal).stiffness;
          expect(Math.abs(stiffness / beams - 1)).toBeLessThan(0.04);
        },
      ),
      { seed: 4141, numRuns: tries(6) },
    );
  });

  it('held radially where layers that touch cross: bars tied to each other there', () => {
    const radii = [0.1277, 0.1315, 0.1353, 0.1391];
    for (const slots of [0.5, 1, 1.5, 2]) {
      const leaning = drum(slots, radii).map(({ radius, lean }) => ({ radius, lean, height: 3.8e-3 }));
      const spans = radialSpans(leaning, 48);
      expect([spans[0], spans[3]]).toEqual([[1], [1]]);
      const cage = drum(slots, radii).map((layer, index) => ({ ...layer, spans: spans[index]! }));
      let at = -0.5;
      const ties = spans[1]!.slice(0, -1).map((share) => {
        at += share;
        return at;
      });
      expect(ties).toHaveLength({ 0.5: 1, 1: 1, 1.5: 3, 2: 3 }[slots]!);
      const [b, c] = tiedPair([cage[1]!, cage[2]!], drumStack, copperMetal, ties);
      const outer = frameOfCage([cage[0]!, cage[3]!], drumStack, copperMetal).stiffness;
      const { stiffness } = cageStiffness(cage, drumStack, copperMetal);
      expect(Math.abs(stiffness / (48 * (b + c) + outer) - 1)).toBeLessThan(0.012);
      // The supports matter: 5 % at two slot pitches.
      if (slots === 2)
        expect(stiffness).toBeGreaterThan(
          1.04 * cageStiffness(drum(2, radii), drumStack, copperMetal).stiffness,
        );
    }
  });

  it('stresses: along the bars within 1 %, bending at the ends within 15 %, rather too large', () => {
    const torque = 700;
    for (const slots of [0, 0.25, 0.5, 1, 1.5, 2]) {
      const cage = drum(slots);
      const { axial, bending } = cageStresses(cage, drumStack, copperMetal, torque)!;
      const beams = frameOfCage(cage, drumStack, copperMetal);
      const turn = torque / beams.stiffness;
      if (slots === 0) expect(axial).toBe(0);
      else expect(axial / (turn * Math.max(...beams.axial))).toBeCloseTo(1, 2);
      const ratio = bending / (turn * Math.max(...beams.bending));
      expect(ratio).toBeGreaterThan(0.98);
      expect(ratio).toBeLessThan(1.15);
    }
  });
});

/** Strain energy of straight chords between pins on two rings, one turned by a small angle. */
function trussEnergy(layers: readonly CageLayer[], stack: number, twist: number): number {
  let energy = 0;
  for (const { bars, radius, section, lean } of layers) {
    const between = (angle: number) => Math.hypot(2 * radius * Math.sin(angle / 2), stack);
    const before = between(lean);
    energy +=
      (bars * 0.5 * copperMetal.elasticity * section.area * (between(lean + twist) - before) ** 2) / before;
  }
  return energy;
}

const layer = fc.record({
  bars: fc.integer({ min: 1, max: 96 }),
  radius: fc.double({ min: 0.05, max: 0.5, noNaN: true }),
  // So high a bar does not bow.
  section: fc
    .double({ min: 5e-6, max: 5e-5, noNaN: true })
    .map((area) => ({ ...drumSection, area, radialMoment: 1 })),
  lean: fc.double({ min: -0.4, max: 0.4, noNaN: true }),
  spans: fc.constant([1]),
});

describe('crossed bars against the strain energy of a truss', () => {
  it('what leaning adds is the second derivative of the energy', () => {
    fc.assert(
      fc.property(
        fc.array(layer, { minLength: 1, maxLength: 4 }),
        fc.double({ min: 0.05, max: 0.5, noNaN: true }),
        (layers, stack) => {
          fc.pre(layers.some(({ lean }) => Math.abs(lean) > 0.02));
          const { stiffness, straight } = cageStiffness(layers, stack, copperMetal);
          const twist = 1e-6;
          const energies = trussEnergy(layers, stack, twist) + trussEnergy(layers, stack, -twist);
          expect(energies / twist ** 2 / (stiffness - straight)).toBeCloseTo(1, 3);
        },
      ),
      { seed: 4141, numRuns: tries(30) },
    );
  });

  it('the drum with chords that do not bow: 1 243 452 Nm/rad more than straight', () => {
    const cage = drum(1).map((each) => ({ ...each, section: { ...each.section, radialMoment: 1 } }));
    const { stiffness, straight } = cageStiffness(cage, drumStack, copperMetal);
    expect(stiffness - straight).toBeCloseTo(1_243_452, 0);
  });

  it('the bars carry the torque: forces times lever arms, and what they bend and twist, add up to it', () => {
    const cage = drum(1).slice(0, 1);
    const [{ radius, lean, section }] = cage as [CageLayer];
    const { axial } = cageStresses(cage, drumStack, copperMetal, 75)!;
    const { stiffness, straight } = cageStiffness(cage, drumStack, copperMetal);
    // The force runs along the chord, which passes the axis at r cos(lean/2) and leans by its tangential part.
    const chord = Math.hypot(drumStack, 2 * radius * Math.sin(lean / 2));
    const lever = (radius * Math.cos(lean / 2) * 2 * radius * Math.sin(lean / 2)) / chord;
    const bentAndTwisted = (75 * straight) / stiffness;
    expect(48 * axial * section.area * lever + bentAndTwisted).toBeCloseTo(75, 9);
  });
});

describe('places that hold bars radially', () => {
  const at = (lean: readonly number[], between: number) =>
    radialSpans(
      lean.map((each, index) => ({
        radius: 0.1 + index * 0.004,
        height: 0.004 - between,
        lean: slotPitch(each, 48),
      })),
      48,
    );

  it('only the rings where crossing layers do not touch, or layers run alike', () => {
    expect(at([1, -1], 1e-4)).toEqual([[1], [1]]);
    expect(at([1, 1], 0)).toEqual([[1], [1]]);
    expect(at([0, 0], 0)).toEqual([[1], [1]]);
  });

  it('crossings at equal distances from mid-stack, counted by hand', () => {
    // One slot pitch apart: in the middle only. Two: in the middle and at the rings. Three: at 0 and 1/3.
    expect(at([0.5, -0.5], 0)[0]).toEqual([0.5, 0.5]);
    expect(at([1, -1], 0)[1]).toEqual([0.5, 0.5]);
    const thirds = at([1.5, -1.5], 0)[0]!;
    expect(thirds).toHaveLength(4);
    [1 / 6, 1 / 3, 1 / 3, 1 / 6].forEach((share, index) => {
      expect(thirds[index]).toBeCloseTo(share, 12);
    });
  });

  it('from both sides: the inner two layers of four that alternate', () => {
    expect(at([0.5, -0.5, 0.5], 0)).toEqual([
      [0.5, 0.5],
      [0.5, 0.5],
      [0.5, 0.5],
    ]);
    // Two crossings a bar's length with layer c alone: at 0 and, three slot pitches apart, at 1/3 either way.
    expect(at([0.5, -0.5, 2.5], 0).map((spans) => spans.length)).toEqual([2, 4, 4]);
  });
});

describe('cage of a machine', () => {
  it('written out bar by bar', () => {
    const { input, copper, emf } = examine(crossedDrive);
    const { area, radialMoment, tangentialMoment, torsionConstant } = barOf(3.6e-3, 3e-3, 0.5e-3);
    const lean = (2 * Math.PI) / 48;
    const stack = 0.096;
    let stiffness = 0;
    const axial = copper.radii!.map((radius) => {
      const chord = Math.sqrt(stack ** 2 + 4 * radius ** 2 * Math.sin(lean / 2) ** 2);
      const length = Math.hypot(stack, lean * radius);
      const sine = (lean * radius) / length;
      const bow = (length ** 2 * sine ** 2) / (8 * radius);
      const softer = 1 + ((4 / 45) * area * bow ** 2) / radialMoment;
      stiffness += (48 * 117e9 * area * (radius ** 2 * Math.sin(lean)) ** 2) / chord ** 3 / softer;
      stiffness += (48 * 12 * 117e9 * tangentialMoment * radius ** 2) / stack ** 3;
      stiffness += (48 * (117e9 / 2.68) * torsionConstant) / stack;
      return (117e9 * radius ** 2 * Math.sin(lean)) / chord ** 2 / softer;
    });
    expect(copper.cage.stiffness! / stiffness).toBeCloseTo(1, 12);
    expect(copper.cage.stress! / ((emf.torque! / stiffness) * Math.max(...axial))).toBeCloseTo(1, 12);
    expect(copper.cage.bending).toBeGreaterThan(0);
    expect(input.winding.lean).toEqual([lean, lean, -lean, -lean]);
  });

  it('says what is left out, and never calls a figure an upper bound', () => {
    const lines = examine(crossedDrive).copper.assumptions.join('\n');
    expect(lines).toMatch(/crossed-bar cage: .*compliance of the rings, insulation, joints/);
    expect(lines).toContain('crossing layers do not touch, so the bars are free between the rings');
    expect(lines).toContain('torque also pulls at the rings along the axis');
    expect(lines).not.toContain('bow by');
    expect(lines).not.toContain('strands of a bar count');
    const stranded = examine(withLine(crossedDrive, 'strands', '  strands 2')).copper;
    expect(stranded.assumptions.join('\n')).toContain('the strands of a bar count as one solid bar');
    expect(stranded.cage.stiffness).toBe(examine(crossedDrive).copper.cage.stiffness);
    expect(JSON.stringify(examine(crossedDrive).copper)).not.toContain('upper bound');
    expect(examine(ferryDrive).copper.assumptions.join('\n')).not.toContain('crossed-bar cage');
  });

  it('layers that touch hold each other, and it is said which', () => {
    // Two bars of 3.18 mm fill the inner row, the outer row has none to spare: b and c touch.
    const touching = withLine(
      crossedDrive.replace('depth 8.1 mm', 'depth 6.36 mm'),
      'depth 8.9 mm',
      '  depth 6.36 mm',
    );
    const lines = examine(touching).copper.assumptions.join('\n');
    expect(lines).toContain('layers b c touch crossing ones and are held radially where they cross');
    expect(lines).not.toContain('free between the rings');
  });

  it('a large lean: how far the bars bow, and that this tells on the figure', () => {
    const far = crossedDrive.replace('+1 slot', '+4 slot').replace('-1 slot', '-4 slot');
    expect(examine(far).copper.assumptions.join('\n')).toMatch(/bars bow by 3 % of the distance/);
  });

  it('families on equal radii balance along the axis, others do not', () => {
    const cage = (radius: number) =>
      drum(1, [0.09, radius]).map((each, index) => {
        return { ...each, lean: index === 0 ? 0.13 : -0.13 };
      });
    expect(cageStiffness(cage(0.09), 0.1, copperMetal).balanced).toBe(true);
    expect(cageStiffness(cage(0.1), 0.1, copperMetal).balanced).toBe(false);
  });

  it('a cage without bars has no stress', () => {
    expect(cageStresses([], 0.1, copperMetal, 50)).toBeNull();
    const none = drum(1).map((each) => ({ ...each, bars: 0 }));
    expect(cageStresses(none, 0.1, copperMetal, 50)).toBeNull();
  });

  it('the trade over the lean: it starts from straight bars and rises; longer, less EMF', () => {
    const rows = valuesOf(copperCurves(copperInput(crossedDrive)).leanTrade);
    expect(rows.map(({ slots }) => slots)).toEqual([0, 0.25, 0.5, 0.75, 1, 1.25, 1.5, 1.75, 2]);
    const { copper } = examine(crossedDrive);
    expect(rows[0]).toMatchObject({ skewFactor: 1, resistanceRatio: 1, stress: 0 });
    expect(rows[0]!.stiffness! / copper.cage.straight!).toBeCloseTo(1, 12);
    expect(rows[4]!.stiffness).toBeCloseTo(copper.cage.stiffness!, 3);
    expect(rows[4]!.stress).toBeCloseTo(copper.cage.stress!, 3);
    expect(rows[4]!.bending).toBeCloseTo(copper.cage.bending!, 3);
    expect(rows[4]!.barLength).toBeCloseTo(copper.length.bars!, 12);
    // Fundamental of 4 pole pairs: sinc(p gamma/2), the handbook's skew factor for bars leaning by gamma.
    rows.slice(1).forEach(({ slots, skewFactor }) => {
      const x = (4 * slots * 2 * Math.PI) / 48 / 2;
      expect(skewFactor).toBeCloseTo(Math.sin(x) / x, 12);
    });
    for (let i = 1; i < rows.length; i++) {
      expect(rows[i]!.stiffness!).toBeGreaterThan(rows[i - 1]!.stiffness!);
      // Leaning layers set their joint tips anew, by half slots: the ends vary by a few in a thousand.
      expect(rows[i]!.barLength!).toBeGreaterThan(0.995 * rows[i - 1]!.barLength!);
    }
    expect(rows[8]!.barLength!).toBeGreaterThan(1.01 * rows[0]!.barLength!);
  });

  it('the trade is offered for straight bars between two gaps, and shows what data allow', () => {
    const straight = crossedDrive.replace('+1 slot', '0 slot').replace('-1 slot', '0 slot');
    const rows = valuesOf(copperCurves(copperInput(withLine(straight, 'end-straight', null))).leanTrade);
    expect(rows[4]!.stiffness!).toBeGreaterThan(0);
    // The inner half of the layers leans one way, the outer the other.
    const table = { ...copperInput(straight).winding, layers: 4, lean: [0, 0, 0, 0] };
    expect(leanSenses(table)).toEqual([1, 1, -1, -1]);
    expect(leanSenses({ ...table, lean: [0.1, 0, 0, -0.2] })).toEqual([1, 0, 0, -1]);
    expect(rows[4]!.barLength).toBeNull();
    expect(rows[4]!.resistanceRatio).toBeNull();
  });

  it('no trade where bars neither lean nor could; costs only where all lean alike', () => {
    expect(copperCurves(copperInput(ferryDrive)).leanTrade).toEqual([]);
    const skewed = withLine(ferryDrive, 'skew', '  skew all 1 slot');
    const rows = valuesOf(copperCurves(copperInput(skewed)).leanTrade);
    expect(rows[4]!.skewFactor!).toBeLessThan(1);
    expect(rows.map(({ stiffness }) => stiffness)).toEqual(rows.map(() => null));
  });
});
