import { describe, expect, it } from 'vitest';
import { type Beam, type Frame, sixOf, solveFrame, type Vector } from './spaceFrame.ts';

/** Held fully at these nodes. */
function clamped(...nodes: readonly number[]): Map<number, number> {
  return new Map(nodes.flatMap((node) => sixOf(node).map((unknown): [number, number] => [unknown, 0])));
}

function loadsAt(entries: Readonly<Record<number, readonly number[]>>): Map<number, number> {
  return new Map(
    Object.entries(entries).flatMap(([node, six]) =>
      six.map((load, direction): [number, number] => [6 * Number(node) + direction, load]),
    ),
  );
}

/** Equal to the last printed digit. */
function expectPrinted(actual: Float64Array | readonly number[], printed: string): void {
  printed.split(' ').forEach((value, index) => {
    const [digits = '', exponent = '0'] = value.split('e');
    const unit = 10 ** (Number(exponent) - (digits.split('.')[1]?.length ?? 0));
    expect(Math.abs(actual[index]! - Number(value)) / unit, `${actual[index]} as ${value}`).toBeLessThan(
      0.51,
    );
  });
}

// The beam code against frames in space of the textbooks, before it judges a cage.
describe('space frames of textbooks', () => {
  it('Kassimali, Matrix Analysis of Structures, 2nd ed., example 8.4: all displacements and reactions', () => {
    // Kips and inches. Three members of 240 in meet in joint 1; rolls 0, 90 and 30 degrees; the first
    // carries 0.25 kip/in downwards.
    const section = {
      elasticity: 29_000,
      shearModulus: 11_500,
      area: 32.9,
      alongY: 716,
      acrossY: 236,
      torsion: 15.1,
    };
    const roll = Math.PI / 6;
    const frame: Frame = {
      nodes: [
        [0, 0, 0],
        [-240, 0, 0],
        [0, -240, 0],
        [0, 0, -240],
      ],
      beams: [
        { ...section, from: 1, to: 0, y: [0, 1, 0] },
        { ...section, from: 2, to: 0, y: [0, 0, 1] },
        { ...section, from: 3, to: 0, y: [-Math.sin(roll), Math.cos(roll), 0] },
      ],
    };
    const { displacements, reactions } = solveFrame(
      frame,
      clamped(1, 2, 3),
      loadsAt({ 0: [0, -30, 0, -1800, 0, 1800 + 1200] }),
    );
    expectPrinted(
      [...displacements.subarray(0, 6)].map((each) => each * 1e3),
      '-1.3522 -2.7965 -1.812 -3.0021 1.0569 6.4986',
    );
    // The member's load is carried at joint 2 by 30 kip and 240^2 x 0.25/12 = 1200 kip in besides.
    const second = [...reactions.subarray(6, 12)];
    second[1]! += 30;
    second[5]! += 1200;
    expectPrinted(second, '5.3757 44.106 -0.74272 2.1722 58.987 2330.52');
    expectPrinted(reactions.subarray(12, 18), '-4.6249 11.117 -6.4607 -515.55 -0.76472 369.67');
    expectPrinted(reactions.subarray(18, 24), '-0.75082 4.7763 7.2034 -383.5 -60.166 -4.702');
  });

  it('Weaver, Computer Programs for Structural Analysis, p. 146, problem 8', () => {
    const section = { elasticity: 30_000, shearModulus: 12_000, area: 11, alongY: 56, acrossY: 56 };
    const { displacements, reactions } = solveFrame(
      zFrame(120, { ...section, torsion: 83 }, false),
      clamped(0, 3),
      loadsAt({ 1: [2, 0, 0, 0, 0, 0], 2: [0, -1, 0, 0, 0, -120] }),
    );
    expectPrinted(displacements.subarray(6, 12), '0.22267 0.00016 -0.17182 -0.00255 0.00217 -0.00213');
    expectPrinted(displacements.subarray(12, 18), '0.22202 -0.48119 -0.70161 -0.00802 0.00101 -0.00435');
    expectPrinted(reactions.subarray(0, 6), '-1.1041 -0.43222 0.21731 48.785 -17.973 96.122');
    expectPrinted(reactions.subarray(18, 24), '-0.89588 1.4322 -0.21731 123.08 47.246 -11.72');
  });

  it('the same shape in meters, against figures of another open code (pystran, Weaver and Gere 1)', () => {
    const section = { elasticity: 200e9, shearModulus: 80e9, area: 0.01, alongY: 1e-3, acrossY: 1e-3 };
    const load = 60e3;
    const { displacements } = solveFrame(
      zFrame(3, { ...section, torsion: 2e-3 }, true),
      clamped(0, 4),
      loadsAt({
        1: [2 * load, 0, 0, 0, 0, 0],
        2: [0, 0, 4 * load, 0, 0, 0],
        3: [0, -load, 0, 0, 0, -load * 3],
      }),
    );
    const printed = '-8.59409726e-4 5.77635277e-5 5.00764459e-3 2.39333188e-3 -1.62316861e-3 6.81331291e-4';
    expectPrinted(displacements.subarray(6, 12), printed);
  });

  it('Ferreira, MATLAB Codes for Finite Element Analysis, example 8.3', () => {
    const section = {
      elasticity: 210e6,
      shearModulus: 84e6,
      area: 0.02,
      alongY: 2e-4,
      acrossY: 1e-4,
      torsion: 5e-5,
    };
    const frame: Frame = {
      nodes: [
        [0, 0, 0],
        [3, 0, 0],
        [0, 0, -3],
        [0, -4, 0],
      ],
      beams: [
        { ...section, from: 0, to: 1, y: [0, 1, 0] },
        { ...section, from: 0, to: 2, y: [0, 1, 0] },
        { ...section, from: 0, to: 3, y: [1, 0, 0] },
      ],
    };
    const { displacements } = solveFrame(frame, clamped(1, 2, 3), loadsAt({ 0: [-10, 0, 20, 0, 0, 0] }));
    const printed = '-7.0515e-6 -6.654e-8 1.41770e-5 1.44779e-6 1.74858e-6 1.13605e-6';
    expectPrinted(displacements.subarray(0, 6), printed);
  });
});

/** The book's frame: up, along, and down and away; with a node in the middle of the upper beam or without. */
function zFrame(length: number, section: Omit<Beam, 'from' | 'to' | 'y'>, middle: boolean): Frame {
  const corner: Vector = [2 * length, length, 0];
  const nodes: readonly Vector[] = [
    [0, 0, 0],
    [0, length, 0],
    ...(middle ? [[length, length, 0] as Vector] : []),
    corner,
    [3 * length, 0, length],
  ];
  const beams = nodes.slice(1).map((_, index): Beam => {
    return { ...section, from: index, to: index + 1, y: index === 0 ? [1, 0, 0] : [0, 1, 0] };
  });
  return { nodes, beams };
}

describe('arches', () => {
  // Clamped circular arches of a bar 5 x 3.6 mm on flat, length and bow in mm: share of the stretch
  // stiffness E A/L that is left (own figures by 200 beams in a plane, check of the fixed arch's
  // 45 E I/(4 d^2), Timoshenko and Young, Theory of Structures, from memory).
  it.each([
    [100, 1, 0.924161],
    [100, 3, 0.574586],
    [100, 6, 0.250879],
    [120, 2, 0.752583],
    [120, 10, 0.106541],
  ])('chord %d mm, bow %d mm keep %d of E A/L', (length, bow, share) => {
    const [elasticity, area, inertia] = [117e3, 18, 19.44];
    const radius = length ** 2 / (8 * bow) + bow / 2;
    const half = Math.asin(length / 2 / radius);
    const count = 200;
    const nodes = Array.from({ length: count + 1 }, (_, index): Vector => {
      const angle = half * ((2 * index) / count - 1);
      return [radius * Math.sin(angle), radius * Math.cos(angle), 0];
    });
    const beams = nodes.slice(1).map(
      (_, index): Beam => ({
        from: index,
        to: index + 1,
        elasticity,
        shearModulus: 43e3,
        area,
        alongY: inertia,
        acrossY: 37.5,
        torsion: 43,
        y: [0, 1, 0],
      }),
    );
    const held = clamped(0, count);
    held.set(6 * count, 1);
    const { reactions } = solveFrame({ nodes, beams }, held);
    expect(reactions[6 * count]! / ((elasticity * area) / length)).toBeCloseTo(share, 4);
  });
});
