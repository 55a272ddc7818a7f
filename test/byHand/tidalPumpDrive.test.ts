import { describe, expect, it } from 'vitest';
import { examine, joinedIn } from '../copper/machines.ts';

// One complete machine of the workshop, computed by hand: every step is written out with the machine's
// own numbers, in millimeters where a shop would use them, and compared with what the engine says.

const tidalPump = `winding "Tidal pump drive"
machine {
  slots 24  poles 8  phases 3
  gap inner  bore 120 mm  stack 80 mm
  air-gap 1 mm  magnet-height 3 mm  magnet-permeability 1.05  carter on
  speed 1500 rpm  flux 2.4 mWb  current 90 A  current-angle 0 edeg
  winding-temperature 110 degC  end-temperature 70 degC
}
slot { width 6 mm  depth 14 mm  opening 2 mm  opening-height 1 mm  wedge 1.5 mm  liner 0.3 mm  side-conductance 8 W/(m K) }
bar {
  width 5 mm  height 5.5 mm  corner 0.8 mm  coating 0.1 mm  metal copper  form hairpin  strands 1
  end-straight 5 mm  end-clearance 0.8 mm  joint-straight 7 mm
  joint-gap 0.2 mm  joint-plane free  bend-radius 4 mm flat 4 mm  joint-resistance 0 uohm  lead-length 20 mm
}
layout { layers 2  span 3  skew all 0 deg }
connect { star  route paths 2 }
`;

/** Expects a value from `low` to `high` times `reach`, to rounding. */
function expectBetween(value: number, low: number, high: number, reach: number): void {
  expect(value).toBeGreaterThanOrEqual(low * (1 - 1e-9));
  expect(value).toBeLessThanOrEqual(high * reach * (1 + 1e-9));
}

describe('tidal pump drive: 24 slots, 8 poles, two layers, two paths, star', () => {
  const { copper, emf, input } = examine(tidalPump);

  it('is a wave winding of regular joints only: eight bars and seven joints a path', () => {
    const { paths, connections } = joinedIn(input);
    expect(paths).toHaveLength(6);
    for (const path of paths) expect(path.bars).toHaveLength(8);
    const { joints } = connections;
    expect(joints).toHaveLength(42);
    for (const joint of joints) expect([joint.kind, Math.abs(joint.span)]).toEqual(['regular', 3]);
  });

  // Section: 5 x 5.5 less the corners (4 - pi) 0.8^2 = 0.54938.
  const area = 27.5 - 0.858407346 * 0.64;
  it('section and fill', () => {
    expect(area).toBeCloseTo(26.95062, 5);
    expect(copper.section.barArea![0]! * 1e6).toBeCloseTo(area, 6);
    // Two bars in 6 x 14 = 84 mm2: 64.168 %.
    expect(copper.section.slotFill).toBeCloseTo((2 * area) / 84, 8);
    // Room: 6 - 0.6 - 5.2 = 0.2 across; 14 - 1.5 - 0.3 - 2 x 5.7 = 0.8 along the depth.
    expect(copper.section.spareRoom![0]!.width * 1e3).toBeCloseTo(0.2, 9);
    expect(copper.section.spareRoom![0]!.height * 1e3).toBeCloseTo(0.8, 9);
  });

  // Radii: closed end at 60 + 1 + 14 = 75; less liner 0.3 and half a coated bar 2.85: layer b 71.85,
  // layer a one coated bar (5.7) further in: 66.15.
  const radii = [66.15, 71.85];
  it('radii', () => {
    radii.forEach((radius, layer) => {
      expect(copper.radii![layer]! * 1e3).toBeCloseTo(radius, 9);
    });
  });

  // Legs of a ring pass each other at their inner faces, 2.85 mm further in: pitches 2 pi r/24 = 16.57190 and
  // 18.06416. Needed 5.2 + 0.8 = 6: sines 0.362059 and 0.332149. Rise a radian r tan: 25.69333 and 25.30138;
  // the pair takes the steeper, so that both legs end at one height.
  const inner = radii.map((radius) => ((radius - 2.85) * Math.PI) / 12);
  const rises = inner.map((pitch, layer) => radii[layer]! * Math.tan(Math.asin(6 / pitch)));
  const rise = rises[0]!;
  const slopes = radii.map((radius) => Math.atan(rise / radius));
  // Bends: R = 4 + 2.6 = 6.6 mm on the center line, from the axis to the slope.
  const turns = slopes.map((slope) => Math.PI / 2 - slope);
  const tangents = turns.map((turn) => 6.6 * Math.tan(turn / 2));
  const along = (layer: number, slots: number) =>
    ((slots * Math.PI) / 12) * (radii[layer]! / Math.cos(slopes[layer]!));
  // Joined: 5 and 7 mm straight and the slope, to sharp corners, less what two bends save.
  const joined = (layer: number, slots: number) =>
    5 + 7 + along(layer, slots) + 2 * (6.6 * turns[layer]! - 2 * tangents[layer]!);
  // A crown: both legs run into a step of 5.7 mm of arcs with Rf = 4 + 2.85 = 6.85 mm, sqrt(6.85 5.7 - 5.7^2/4)
  // = 5.5608 mm to either side of the apex, which is rounded by 6.6 mm at the mean radius of 69 mm. Its halves,
  // by a polyline through 20000 of their points in a separate program: 6.35647 and 6.62137 mm.
  const middle = 69;
  const apex = Math.atan(rise / middle);
  const step = Math.sqrt(6.85 * 5.7 - 5.7 ** 2 / 4);
  const crownHalves = [6.35647315, 6.62137098];
  const crown = (layer: number) => {
    // The leg ends where the step begins, before the rounding.
    const before = 6.6 * Math.tan(apex) + step - 6.6 * apex;
    const angle = (1.5 * Math.PI) / 12 - (before * Math.cos(apex)) / middle;
    const leg = (angle * radii[layer]!) / Math.cos(slopes[layer]!);
    return 5 + leg + 6.6 * turns[layer]! - 2 * tangents[layer]! + crownHalves[layer]!;
  };
  // Path 1: eight bars, four crowns, three joints, the lead in layer a at half the span, 1.5 slots, the star
  // end in b: at 1.5 slots it would meet that lead's tip, so it takes 2. Path 2: lead in b, whose tip leaves
  // the star end in a 1 slot. Both go on by 20 mm.
  const common = 8 * 80 + 4 * (crown(0) + crown(1)) + 3 * (joined(0, 1.5) + joined(1, 1.5));
  const paths = [common + joined(0, 1.5) + joined(1, 2) + 40, common + joined(1, 1.5) + joined(0, 1) + 40];
  const path = (paths[0]! + paths[1]!) / 2;
  it('lengths', () => {
    expect(inner[0]).toBeCloseTo(16.5719, 4);
    expect(inner[1]).toBeCloseTo(18.06416, 5);
    expect(rises[0]).toBeCloseTo(25.69333, 5);
    expect(rises[1]).toBeCloseTo(25.30138, 5);
    expect(joined(0, 1.5)).toBeCloseTo(37.64453, 5);
    expect(joined(1, 1.5)).toBeCloseTo(39.56985, 5);
    expect(crown(0)).toBeCloseTo(32.6518, 5);
    expect(crown(1)).toBeCloseTo(34.51709, 5);
    const bar = (slot: number, layer: number) => copper.length.byPlace![layer * 24 + slot - 1]! * 1e3;
    expect(bar(1, 0)).toBeCloseTo(80 + crown(0) + joined(0, 1.5) + 20, 6);
    expect(bar(4, 1)).toBeCloseTo(80 + crown(1) + joined(1, 1.5), 6);
    expect(bar(22, 1)).toBeCloseTo(80 + crown(1) + joined(1, 2) + 20, 6);
    expect(bar(4, 0)).toBeCloseTo(80 + crown(0) + joined(0, 1) + 20, 6);
    expect(copper.length.total! * 1e3).toBeCloseTo(3 * (paths[0]! + paths[1]!), 5);
    expect(copper.length.bars! * 1e3).toBeCloseTo(path / 8, 6);
    // Overhang: straights and the star end's rise of 2 slots, and its lead; a crown's apex, rounded, with half
    // of its coated width.
    expect(copper.length.overhangConnection! * 1e3).toBeCloseTo(12 + (2 * Math.PI * rise) / 12 + 20, 9);
    const rounded = 6.6 * (1 / Math.cos(apex) - 1);
    expect(copper.length.overhangFar! * 1e3).toBeCloseTo(5 + (1.5 * Math.PI * rise) / 12 - rounded + 2.6, 9);
  });

  // Resistance at 20 degC: rho l/A = l/(58 A) ohm with m and mm2; at 110 degC times 1 + 0.00393 x 90 = 1.3537.
  const ohms = paths.map((length) => length / 1e3 / (58 * area));
  const path20 = (ohms[0]! + ohms[1]!) / 2;
  const phase20 = 1 / (1 / ohms[0]! + 1 / ohms[1]!);
  const phase = phase20 * 1.3537;
  // The paths differ by this share either way; their currents by no more, and their loss by its square.
  const uneven = Math.abs(ohms[0]! - ohms[1]!) / (ohms[0]! + ohms[1]!);
  it('resistance, mass, current density, DC loss', () => {
    expect(path20 * 1e3).toBeCloseTo(0.8047, 4);
    expect(copper.resistance.path20).toBeCloseTo(path20, 10);
    expect(copper.resistance.phase20).toBeCloseTo(phase20, 10);
    expect(copper.resistance.phase).toBeCloseTo(phase, 10);
    expect(copper.resistance.line20).toBeCloseTo(2 * phase20, 10);
    expect(copper.resistance.line).toBeCloseTo(2 * phase, 10);
    // 8.89 g/cm3 x 6 paths.
    expect(copper.mass).toBeCloseTo(6 * path * area * 8.89e-6, 6);
    expect(uneven).toBeLessThan(0.01);
    expectBetween(copper.currentDensity! * 1e-6, 45 / area, 45 / area, 1 + uneven);
    expectBetween(copper.loss.dc!, 3 * 90 * 90 * phase, 3 * 90 * 90 * phase, 1 + uneven ** 2);
  });

  // AC: 1500 rpm x 4 pole pairs = 100 Hz; rho = 1.3537/58 uOhm m = 2.33397e-8;
  // xi = 5.5e-3 sqrt(pi 100 mu0 (5/6)/rho). Full pitch: both bars of a slot carry the same current.
  const xi = 5.5e-3 * Math.sqrt((Math.PI * 100 * 4e-7 * Math.PI * (5 / 6)) / (1.3537e-6 / 58));
  const phi = (xi * (Math.sinh(2 * xi) + Math.sin(2 * xi))) / (Math.cosh(2 * xi) - Math.cos(2 * xi));
  const psi = (2 * xi * (Math.sinh(xi) - Math.sin(xi))) / (Math.cosh(xi) + Math.cos(xi));
  const slot = phi + psi; // (z^2 - 1)/3 = 1 for z = 2.
  it('AC loss', () => {
    expect(xi).toBeCloseTo(0.65298, 4);
    // Layer b lies at the closed end.
    expect(copper.acRatio.layers![1]).toBeCloseTo(phi, 9);
    expect(copper.acRatio.layers![0]).toBeCloseTo(phi + 2 * psi, 9);
    expect(copper.acRatio.slot).toBeCloseTo(slot, 9);
    const whole = (640 * slot + (path - 640)) / path;
    expect(copper.acRatio.bar).toBeCloseTo(whole, 9);
    const total = 3 * 90 * 90 * phase * whole;
    expectBetween(copper.loss.total!, total, total, 1 + 2 * uneven);
    // Best height for two bars: reduced height 0.9613.
    expect(copper.acRatio.bestHeights![0]!.height * 1e3).toBeCloseTo((0.9613 / xi) * 5.5, 3);
  });

  // Heat of a layer-a bar: p' = 45^2 rho(T)/A k, u = sqrt(8/(394 x 26.95e-6)) x 0.04.
  it('heat along the bar', () => {
    const u = Math.sqrt(8 / (394 * area * 1e-6)) * 0.04;
    expect(copper.heat.endShare).toBeCloseTo(Math.tanh(u) / u, 9);
    const riseAt = (current: number) => {
      let mean = 70;
      let hottest = 0;
      for (let round = 0; round < 20; round++) {
        const rho = (1 + 0.00393 * (mean - 20)) * (1e-6 / 58);
        const x = 5.5e-3 * Math.sqrt((Math.PI * 100 * 4e-7 * Math.PI * (5 / 6)) / rho);
        const k =
          (x * (Math.sinh(2 * x) + Math.sin(2 * x))) / (Math.cosh(2 * x) - Math.cos(2 * x)) +
          (4 * x * (Math.sinh(x) - Math.sin(x))) / (Math.cosh(x) + Math.cos(x));
        const loss = ((current * current * rho) / (area * 1e-6)) * k;
        hottest = (loss / 8) * (1 - 1 / Math.cosh(u));
        mean = 70 + (loss / 8) * (1 - Math.tanh(u) / u);
      }
      return hottest;
    };
    expectBetween(copper.heat.rise!, riseAt(45), riseAt(45 * (1 + uneven)), 1 + uneven);
    expect(copper.heat.hotSpot).toBeCloseTo(70 + copper.heat.rise!, 9);
    expect(copper.heat.layer).toBe(0);
  });

  // EMF: 16 bars a phase, two paths: N = 16/(2 x 2) = 4; kw = 1 at q = 1, full pitch.
  const voltage = Math.SQRT2 * Math.PI * 100 * 4 * 2.4e-3;
  it('EMF, torque, power', () => {
    expect(voltage).toBeCloseTo(4.26517, 4);
    expect(input.windingFactor).toBeCloseTo(1, 12);
    expect(emf.frequency).toBeCloseTo(100, 9);
    expect(emf.phaseVoltage).toBeCloseTo(voltage, 9);
    expect(emf.lineVoltage).toBeCloseTo(Math.sqrt(3) * voltage, 9);
    expect(emf.power).toBeCloseTo(3 * voltage * 90, 7);
    // 25 revolutions a second.
    const torque = (3 * voltage * 90) / (2 * Math.PI * 25);
    expect(emf.torque).toBeCloseTo(torque, 9);
    expect(emf.torquePerAmpere).toBeCloseTo(torque / 90, 10);
    expect(emf.motorConstant).toBeCloseTo(torque / Math.sqrt(copper.loss.total!), 9);
    // Gap of 120 x 80: area pi x 0.12 x 0.08, lever 0.06.
    expect(emf.gaps![0]!.area).toBeCloseTo(0.0301593, 7);
    expect(emf.gaps![0]!.shearStress).toBeCloseTo(torque / (Math.PI * 0.12 * 0.08 * 0.06), 6);
  });

  it('inductances', () => {
    // Gap and magnets 1 + 3/1.05 = 27/7. Carter: pitch pi 120/24 = 15.708, b/2G = 7/27: field-free strip of
    // (4 G/pi)(7/27 atan 7/27 - ln sqrt(1 + 49/729)) = 0.1632 mm.
    const strip = ((108 / 7) * ((7 / 27) * Math.atan(7 / 27) - Math.log(778 / 729) / 2)) / Math.PI;
    expect(strip).toBeCloseTo(0.1632, 4);
    const carter = (5 * Math.PI) / (5 * Math.PI - strip);
    const gap = carter * (1 + 3 / 1.05);
    const magnetizing = (3 * 4e-7 * Math.PI * 0.08 * 16 * (120 / gap)) / (Math.PI * 16);
    expect(emf.magnetizingInductance).toBeCloseTo(magnetizing, 12);
    // q = 1: differential leakage pi^2/9 - 1 = 0.0966.
    expect(emf.differentialLeakageInductance! / magnetizing).toBeCloseTo(Math.PI ** 2 / 9 - 1, 9);
    // Slot: two bars of 5.5 mm, coatings of 0.1 between and beside them, in phase. Below the first bar
    // nothing; across bar b a third of its quarter share; across the coatings a quarter; and so on.
    const b = 6;
    const barB = 5.5 / b / 3 / 4; // field from 0 to 1/2 of the slot's current
    const between = 0.2 / b / 4;
    const barA = (5.5 / b) * ((1 / 3) * (1 + 1 / 2 + 1 / 4)); // from 1/2 to 1
    const above = (14 - 0.3 - 0.1 - 5.5 - 0.2 - 5.5) / b;
    const lambda = barB + between + barA + above + 1 / 2;
    expect(copper.leakage.slotPermeance).toBeCloseTo(lambda, 9);
    const slotLeakage = (4 * 3 * 4e-7 * Math.PI * 0.08 * 16 * lambda) / 24;
    expect(copper.leakage.slotInductance).toBeCloseTo(slotLeakage, 14);
  });

  it('stiffness of the straight bars for comparison', () => {
    // 48 bars of 5 across: h w^3/12 less the corners' second moment, 12 E I r^2/l^3.
    const corner = 0.8;
    const cut = (1 - Math.PI / 4) * corner ** 2;
    const offset = (corner * (10 - 3 * Math.PI)) / (12 - 3 * Math.PI);
    const own = corner ** 4 * (1 / 3 - Math.PI / 16 - 1 / (9 * (4 - Math.PI)));
    const moment = ((5.5 * 125) / 12 - 4 * (own + cut * (2.5 - offset) ** 2)) * 1e-12;
    const sum = 24 * (0.06615 ** 2 + 0.07185 ** 2);
    // Torsion: G = 117/2.68 GPa, J = 5.5 x 125 (1/3 - 0.21 x 5/5.5 (1 - (5/5.5)^4/12)) = 105.88 mm4.
    const torsion = 5.5 * 125 * (1 / 3 - (0.21 / 1.1) * (1 - 1.1 ** -4 / 12));
    expect(torsion).toBeCloseTo(105.39, 2);
    const twisting = (48 * (117e9 / 2.68) * torsion * 1e-12) / 0.08;
    const bending = (12 * 117e9 * moment * sum) / 0.08 ** 3;
    expect(copper.cage.straight! / (bending + twisting)).toBeCloseTo(1, 9);
  });

  it('has no default left to assume: only the models speak', () => {
    for (const line of [...copper.assumptions, ...emf.assumptions]) expect(line).not.toContain('(default)');
  });
});
