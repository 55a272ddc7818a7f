import { describe, expect, it } from 'vitest';
import { crossedDrive, examine, ferryDrive, joinedIn, withLine } from './machines.ts';
import { slotPitches } from './slotPitches.ts';

describe('layer radii', () => {
  it('one mouth inside: from the closed outer end inwards', () => {
    const { radii } = examine(ferryDrive).copper;
    // Outermost: bore/2 + opening + depth - liner - coating - half a bar.
    const outermost = 81 + 0.8 + 15.2 - 0.25 - 0.09 - 1.5;
    [0, 1, 2, 3].forEach((layer) => {
      expect(radii![layer]! * 1e3).toBeCloseTo(outermost - (3 - layer) * 3.18, 9);
    });
  });

  it('one mouth outside: from the closed inner end outwards', () => {
    const text = ferryDrive.replace('gap inner', 'gap outer').replace('bore 162 mm', 'outside 220 mm');
    const { radii } = examine(text).copper;
    const innermost = 110 - 0.8 - 15.2 + 0.25 + 0.09 + 1.5;
    [0, 1, 2, 3].forEach((layer) => {
      expect(radii![layer]! * 1e3).toBeCloseTo(innermost + layer * 3.18, 9);
    });
  });

  it('two mouths: centered in the depth, from either diameter alike', () => {
    const text = ferryDrive
      .replace('gap inner', 'gap both')
      .replace('bore 162 mm', 'bore 162 mm\noutside 195.6 mm');
    const { radii } = examine(text).copper;
    const middle = 81 + 0.8 + 15.2 / 2;
    [-1.5, -0.5, 0.5, 1.5].forEach((place, layer) => {
      expect(radii![layer]! * 1e3).toBeCloseTo(middle + place * 3.18, 9);
    });
    const fromOutside = examine(withLine(text, 'bore', null)).copper.radii!;
    fromOutside.forEach((radius, layer) => {
      expect(radius).toBeCloseTo(radii![layer]!, 12);
    });
  });

  it('slot rows follow each other outwards, each with its own depth', () => {
    const { radii } = examine(crossedDrive).copper;
    const first = 81 + 0.8 + 8.9 / 2;
    const second = 81 + 0.8 + 8.9 + 8.1 / 2;
    [first - 1.59, first + 1.59, second - 1.59, second + 1.59].forEach((expected, layer) => {
      expect(radii![layer]! * 1e3).toBeCloseTo(expected, 9);
    });
  });
});

/** Straight bars with a bend radius: every part of a bar end is closed. */
const straightDrive = ferryDrive
  .replace('form hairpin', 'form straight')
  .replace('joint-straight 8 mm', 'joint-straight 8 mm\n  bend-radius 2 mm');
const crossedStraight = crossedDrive
  .replace('form hairpin', 'form straight')
  .replace('joint-straight 8 mm', 'joint-straight 8 mm\n  bend-radius 2 mm');
const sizes = {
  clearance: 0.6e-3,
  width: 3.78e-3,
  height: 3.18e-3,
  endStraight: 6e-3,
  jointStraight: 8e-3,
  bendRadius: 2e-3,
  stack: 96e-3,
};

describe('lengths from the actual joints', () => {
  it.each([
    ['upright bars', straightDrive],
    [
      'leaning bars: longer in the stack, straights along the lean, joints at their true span',
      crossedStraight,
    ],
  ])('%s', (_, text) => {
    const { input, copper } = examine(text);
    const walked = slotPitches(input, copper.radii!, sizes);
    expect(walked.size).toBeGreaterThan(100);
    walked.forEach((length, place) => {
      expect(copper.length.byPlace![place]).toBeCloseTo(length, 12);
    });
    const all = [...copper.length.byPlace!];
    expect(copper.length.total).toBeCloseTo(
      all.reduce((a, b) => a + b, 0),
      10,
    );
    expect(copper.length.bars).toBeCloseTo(copper.length.total! / 192, 12);
  });

  it('leaning bars within the stack', () => {
    const { copper } = examine(crossedDrive);
    const active = copper.length.active![0]!;
    expect(active).toBeCloseTo(Math.hypot(0.096, (2 * Math.PI * copper.radii![0]!) / 48), 12);
  });

  it('overhang: the highest crown, coating included', () => {
    const text = ferryDrive.replace('joint-straight 8 mm', 'joint-straight 8 mm\n  bend-radius 2 mm');
    const { copper } = examine(text);
    const tops = [0, 2].map((layer) => {
      // The lower layer of a pair rises more; both legs run so to an apex at mid span, rounded at their mean radius.
      const [radius, other] = [copper.radii![layer]!, copper.radii![layer + 1]!];
      const pitch = (2 * Math.PI * (radius - 1.59e-3)) / 48;
      const rise = radius * Math.tan(Math.asin(4.38e-3 / pitch));
      const apex = Math.atan(rise / ((radius + other) / 2));
      return 6e-3 + (3 * 2 * Math.PI * rise) / 48 - 3.89e-3 * (1 / Math.cos(apex) - 1) + 1.89e-3;
    });
    expect(copper.length.overhangFar).toBeCloseTo(Math.max(...tops), 12);
  });
});

/**
 * A step of risers by a distance on arcs of a radius, by hand: how high it is, and how much longer its line. Beyond
 * two radii two quarter arcs with a straight between, up to there arcs that turn by acos(1 - d/(2 R)).
 */
function riserStep(distance: number, bend: number): { readonly height: number; readonly longer: number } {
  if (distance > 2 * bend)
    return { height: 2 * bend, longer: Math.PI * bend + distance - 2 * bend - 2 * bend };
  const turn = Math.acos(1 - distance / (2 * bend));
  return { height: 2 * bend * Math.sin(turn), longer: 2 * bend * (turn - Math.sin(turn)) };
}

describe('separate connecting pieces', () => {
  const text = `winding "Lock-gate winch"
machine { slots 12  poles 4  phases 3  gap inner  bore 90 mm  stack 60 mm  current 40 A }
slot { width 5 mm  depth 12 mm  opening 2 mm  opening-height 1 mm }
bar { width 3.5 mm  height 5 mm  end-straight 4 mm  end-clearance 1 mm  joint-straight 6 mm  bend-radius 1 mm }
layout { layers 2  span 3 }
connect {
  star
  path U 1 from U1 1a +3b +3a +3b | 7b -3a -3b -3a to N
  repeat U as V shift 2
  repeat U as W shift 4
}
`;

  it('stand on the tips of their bars, lie level above all joints, and count in resistance and mass', () => {
    const { input, copper } = examine(text);
    const joints = joinedIn(input).connections.joints.filter((joint) => joint.kind === 'jumper');
    expect(joints).toHaveLength(3);
    expect(copper.length.pieces).toHaveLength(3);
    // Both feet in layer b, three slots apart: tips half the regular span aside, of both bars alike.
    const radius = copper.radii![1]!;
    const space = input.space.known ? input.space.value : null;
    const [link] = space!.links;
    const feet = [link!.from, link!.to].map(
      ({ slot, layer }) => space!.bars[layer * 12 + slot - 1]!.connection,
    );
    expect(feet[0]).toBe(feet[1]);
    // Lanes are the width and the clearance apart, and what a round level part takes beside a flat riser; risers
    // step from lane to lane on arcs of 1 + 1.75 mm.
    const lane = 3.5e-3 + 1e-3 + 5e-3 ** 2 / (8 * radius);
    const steps = space!.links.map(({ beside }) => {
      expect(beside / lane).toBeCloseTo(Math.round(beside / lane), 9);
      return beside === 0 ? { height: 0, longer: 0 } : riserStep(Math.abs(beside), 2.75e-3);
    });
    expect(space!.links.filter(({ beside }) => beside !== 0)).toHaveLength(1);
    // Corners of Rf = 1 + 2.5 mm; between them the arc in its lane, less a corner at either end.
    copper.length.pieces!.forEach(({ across, risers, length }, index) => {
      expect(across).toBeCloseTo(((3 * 2 * Math.PI) / 12) * (radius + space!.links[index]!.beside), 12);
      expect(risers[0]).toBeCloseTo(risers[1], 12);
      const straight = across + 2 * risers[0] - 2 * 3.5e-3 * (2 - Math.PI / 2);
      expect(length).toBeCloseTo(straight + 2 * steps[index]!.longer, 9);
    });
    // Steps begin above all tips and joints. The lowest runs its clearance, 1 mm, above them, half of its height above that.
    const lowest = copper.length.pieces!.find(({ level }) => level === 1)!;
    const joint = space!.jointPlanes.connection!.highest;
    const ownTip = feet[0]!.plane;
    const step = Math.max(...steps.map(({ height }) => height));
    const under = Math.max(joint, ownTip) + step;
    expect(lowest.risers[0]).toBeCloseTo(Math.max(under + 1e-3 + 2.5e-3, ownTip + 3.5e-3) - ownTip, 12);
    const bars = [...copper.length.byPlace!].reduce((a, b) => a + b, 0);
    const pieces = copper.length.pieces!.reduce((sum, piece) => sum + piece.length, 0);
    expect(copper.length.total).toBeCloseTo(bars + pieces, 12);
    const conductor = copper.length.total! / 3;
    expect(copper.resistance.path20).toBeCloseTo((1e-6 / 58) * (conductor / 17.5e-6), 12);
    expect(copper.mass).toBeCloseTo(copper.length.total! * 17.5e-6 * 8890, 12);
    expect(copper.assumptions.join()).toContain('connecting pieces');
  });

  it('have a section of their own where it is written', () => {
    const plain = examine(text).copper;
    const thin = examine(
      text.replace('bend-radius 1 mm', 'bend-radius 1 mm piece-width 2 mm piece-height 4 mm'),
    ).copper;
    expect(plain.length.pieces!.map(({ area }) => area * 1e6)).toEqual(
      [17.5, 17.5, 17.5].map((area) => expect.closeTo(area, 9)),
    );
    expect(thin.length.pieces!.map(({ area }) => area * 1e6)).toEqual(
      [8, 8, 8].map((area) => expect.closeTo(area, 9)),
    );
    expect(thin.resistance.path20!).toBeGreaterThan(plain.resistance.path20!);
  });

  it('that reach over each other lie on levels, each its height and clearance above the one below', () => {
    // All three phases reach over each other: one level each.
    const { input, copper } = examine(text);
    const links = input.space.known ? input.space.value.links : [];
    const levels = [...copper.length.pieces!].sort((a, b) => a.level - b.level);
    expect(levels.map(({ level }) => level)).toEqual([1, 2, 3]);
    levels.slice(1).forEach((piece, index) => {
      expect(piece.risers[0] - levels[index]!.risers[0]).toBeCloseTo(6e-3, 12);
      // The risers are longer by that, and each level part is as long as its own lane.
      const [own, below] = [piece, levels[index]!].map(({ joint, length, across }) => {
        const { beside } = links.find((link) => link.joint === joint)!;
        return length - across - (beside === 0 ? 0 : 2 * riserStep(Math.abs(beside), 2.75e-3).longer);
      });
      expect(own! - below!).toBeCloseTo(2 * 6e-3, 9);
    });
    const { overhangConnection } = copper.length;
    expect(overhangConnection! - levels[2]!.risers[0] - 2.5e-3).toBeGreaterThan(0);
  });
});

describe('rings', () => {
  const text = ferryDrive
    .replace('route paths 2', 'route paths 2\n  rings star')
    .replace('corner 0.5 mm', 'corner 0.5 mm\n  ring-width 13 mm\n  ring-height 4 mm');

  it('count in the mass and have a current density, that of a whole phase', () => {
    const [plain, ringed] = [examine(ferryDrive), examine(text)];
    const space = ringed.input.space.known ? ringed.input.space.value : null;
    expect(space!.rings.map(({ name, bars }) => [name, bars.length])).toEqual([['N', 6]]);
    const area = 13 * 4 - (4 - Math.PI) * 0.25;
    const longer = ringed.copper.length.total! - plain.copper.length.total!;
    // Star ends rise to the ring; the ring itself is copper too.
    expect(longer).toBeGreaterThan(0);
    const bar = 3.6 * 3 - (4 - Math.PI) * 0.25;
    expect(ringed.copper.mass! - plain.copper.mass!).toBeCloseTo(
      8890e-6 * (longer * bar + space!.rings[0]!.piece.length * area),
      9,
    );
    expect(ringed.copper.ringCurrentDensity! * 1e-6).toBeCloseTo(210 / area, 9);
    expect(plain.copper.ringCurrentDensity).toBeNull();
    expect(plain.copper.missing.some(({ quantity }) => quantity === 'copper.ringCurrentDensity')).toBe(false);
  });
});

describe('resistance', () => {
  it('per-layer heights: every bar has its own section', () => {
    const { input, copper } = examine(withLine(ferryDrive, 'height', 'height a b 3.4 mm  height c d 2.2 mm'));
    const area = [3.4, 3.4, 2.2, 2.2].map((h) => (3.6 * h - (4 - Math.PI) * 0.25) * 1e-6);
    const [path] = joinedIn(input).paths;
    const ohm = path!.bars.reduce((sum, { slot, layer }) => {
      return sum + ((1e-6 / 58) * copper.length.byPlace![layer * 48 + slot - 1]!) / area[layer]!;
    }, 0);
    expect(copper.resistance.path20).toBeCloseTo(ohm, 9);
    expect(copper.resistance.phase20).toBeCloseTo(ohm / 2, 9);
  });

  it('star 2 R, delta 2/3 R, five phases in a ring 4/5 R, open none', () => {
    const star = examine(ferryDrive).copper.resistance;
    expect(star.line).toBeCloseTo(2 * star.phase!, 15);
    expect(star.line20).toBeCloseTo(2 * star.phase20!, 15);
    const delta = examine(withLine(ferryDrive, 'star', '  delta')).copper.resistance;
    expect(delta.phase).toBeCloseTo(star.phase!, 15);
    // One phase in parallel with the two others in series.
    expect(delta.line).toBeCloseTo(1 / (1 / star.phase! + 1 / (2 * star.phase!)), 12);
    expect(delta.line20).toBeCloseTo(1 / (1 / star.phase20! + 1 / (2 * star.phase20!)), 12);
    const five = ferryDrive
      .replace('phases 3', 'phases 5')
      .replace('slots 48', 'slots 40')
      .replace('span 6', 'span 5');
    const ring = examine(withLine(five, 'star', '  delta')).copper.resistance;
    expect(ring.line).toBeCloseTo(1 / (1 / ring.phase! + 1 / (4 * ring.phase!)), 12);
    expect(ring.line20).toBeCloseTo(1 / (1 / ring.phase20! + 1 / (4 * ring.phase20!)), 12);
    const open = examine(withLine(ferryDrive, 'star', '  open')).copper;
    for (const between of ['line20', 'line'] as const) {
      expect(open.resistance[between]).toBeNull();
      const lacks = open.missing.find(({ quantity }) => quantity === `copper.resistance.${between}`);
      expect(lacks?.needs).toEqual(['connect star or delta']);
    }
  });

  it('delta: the phase current is the line current over 2 sin(pi/m)', () => {
    const star = examine(ferryDrive).copper;
    const delta = examine(withLine(ferryDrive, 'star', '  delta')).copper;
    expect(delta.currentDensity! / star.currentDensity!).toBeCloseTo(1 / Math.sqrt(3), 12);
    expect(delta.loss.dc! / star.loss.dc!).toBeCloseTo(1 / 3, 12);
  });

  it('aluminium: resistivity and density of IEC 60889', () => {
    const one = examine(ferryDrive).copper;
    const other = examine(withLine(ferryDrive, 'metal', '  metal aluminium')).copper;
    expect(other.resistance.path20! / one.resistance.path20!).toBeCloseTo(0.028264 * 58, 9);
    expect(other.mass! / one.mass!).toBeCloseTo(2703 / 8890, 12);
  });
});
