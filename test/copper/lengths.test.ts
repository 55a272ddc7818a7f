import { describe, expect, it } from 'vitest';
import { copper } from '../../core/copper/copper.ts';
import { endBends } from '../../core/copper/endGeometry.ts';
import { copperInput, crossedDrive, examine, ferryDrive, withLine } from './machines.ts';
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

describe('end bends', () => {
  const inputs = { radius: 0.09, slots: 48, coatedWidth: 3.78e-3, clearance: 0.6e-3, bendRadius: null };

  it('parallel bends leave exactly the clearance between each other', () => {
    const bends = endBends(inputs)!;
    // Two parallel lines one pitch apart along the circumference, sloping by beta: distance pitch sin(beta).
    const beta = Math.atan(bends.rise);
    expect(bends.pitch * Math.sin(beta)).toBeCloseTo(3.78e-3 + 0.6e-3, 12);
    expect(bends.stretch).toBeCloseTo(Math.hypot(1, bends.rise), 12);
  });

  it('rounded corners: an independent walk along arcs and slope', () => {
    const rounded = endBends({ ...inputs, bendRadius: 4e-3 })!;
    const sharp = endBends(inputs)!;
    const beta = Math.atan(sharp.rise);
    const turn = Math.PI / 2 - beta;
    const radius = 4e-3 + 3.78e-3 / 2;
    // Circumference and height covered by one arc; the slope makes up the rest.
    const arcAcross = radius * (1 - Math.cos(turn));
    const arcUp = radius * Math.sin(turn);
    const across = 3 * sharp.pitch;
    const slope = (across - 2 * arcAcross) / Math.cos(beta);
    const height = 2 * arcUp + slope * Math.sin(beta);
    const straightBetween = across * Math.tan(beta);
    const length = slope + 2 * radius * turn - (height - straightBetween);
    expect(3 * sharp.pitch * sharp.stretch - rounded.saved).toBeCloseTo(length, 12);
  });

  it('a pitch that coated width and clearance fill cannot be passed', () => {
    const pitch = (2 * Math.PI * 0.09) / 48;
    expect(endBends({ ...inputs, clearance: pitch - 3.78e-3 })).toBeNull();
    expect(endBends({ ...inputs, clearance: pitch - 3.78e-3 - 1e-6 })).not.toBeNull();
  });
});

describe('lengths from the actual joints', () => {
  it('every bar is as long as its stack part and the halves of its joints', () => {
    const { input, copper } = examine(ferryDrive);
    slotPitches(input, copper.radii!, {
      clearance: 0.6e-3,
      width: 3.78e-3,
      endStraight: 6e-3,
      jointStraight: 8e-3,
      hairpins: true,
      stack: 96e-3,
    }).forEach((length, place) => {
      expect(copper.length.byPlace![place]).toBeCloseTo(length, 12);
    });
    const all = [...copper.length.byPlace!];
    expect(copper.length.total).toBeCloseTo(
      all.reduce((a, b) => a + b, 0),
      10,
    );
    expect(copper.length.bars).toBeCloseTo(copper.length.total! / 192, 12);
  });

  it('leaning bars: longer in the stack, and joints at their true span', () => {
    const { input, copper } = examine(crossedDrive);
    slotPitches(input, copper.radii!, {
      clearance: 0.6e-3,
      width: 3.78e-3,
      endStraight: 6e-3,
      jointStraight: 8e-3,
      hairpins: true,
      stack: 96e-3,
    }).forEach((length, place) => {
      expect(copper.length.byPlace![place]).toBeCloseTo(length, 12);
    });
    const active = copper.length.active![0]!;
    expect(active).toBeCloseTo(Math.hypot(0.096, (2 * Math.PI * copper.radii![0]!) / 48), 12);
    // A far-side joint from layer b (leaning +1 slot) to layer c (-1 slot) is one slot shorter: shown by
    // the layer steps of the route, which lie on the connection side and are one slot longer.
    const step = input.joints!.find((joint) => joint.side === 'connection' && joint.kind === 'layer-step')!;
    const lean = (bar: { layer: number }) => (bar.layer < 2 ? 1 : -1);
    const expected = step.span - (lean(step.to) - lean(step.from)) / 2;
    expect((step as unknown as { trueSpan: number }).trueSpan).toBeCloseTo(expected, 12);
  });

  it('overhang: the tallest bend on each side', () => {
    const { copper } = examine(ferryDrive);
    const rise = (layer: number) => {
      const pitch = (2 * Math.PI * copper.radii![layer]!) / 48;
      const sine = 4.38e-3 / pitch;
      return pitch * Math.tan(Math.asin(sine));
    };
    // All crowns span 6 slots; the innermost layer rises most. Nothing is joined at a crown.
    expect(copper.length.overhangFar).toBeCloseTo(
      6e-3 + 3 * Math.max(rise(0), rise(1), rise(2), rise(3)),
      12,
    );
  });

  it('separate connecting pieces: straight ends, arc and two risers', () => {
    const text = `winding "Lock-gate winch"
machine { slots 12  poles 4  phases 3  gap inner  bore 90 mm  stack 60 mm  current 40 A }
slot { width 5 mm  depth 12 mm  opening 2 mm  opening-height 1 mm }
bar { width 3.5 mm  height 5 mm  end-straight 4 mm  end-clearance 1 mm  joint-straight 6 mm }
layout { layers 2  span 3 }
connect {
  star
  path U 1 from U1 1a +3b +3a +3b | 7b -3a -3b -3a to N
  repeat U as V shift 2
  repeat U as W shift 4
}
`;
    const { input, copper } = examine(text);
    const pieces = input.joints!.filter((joint) => joint.kind === 'jumper');
    expect(pieces).toHaveLength(3);
    expect(copper.length.pieces).toHaveLength(3);
    const [inner, outer] = copper.radii!;
    const bends = [inner!, outer!].map((radius) => {
      const pitch = (2 * Math.PI * radius) / 12;
      return { pitch, tan: Math.tan(Math.asin(4.5e-3 / pitch)) };
    });
    const riser = 1.5 * Math.max(...bends.map(({ pitch, tan }) => pitch * tan));
    const span = Math.abs(pieces[0]!.span);
    const arc = ((span * 2 * Math.PI) / 12) * outer!;
    expect(copper.length.pieces[0]!.length).toBeCloseTo(arc + 2 * riser, 12);
    const bars = [...copper.length.byPlace!].reduce((a, b) => a + b, 0);
    expect(copper.length.total).toBeCloseTo(bars + 3 * copper.length.pieces[0]!.length, 12);
    // The piece is part of its path's resistance and of the mass.
    const conductor = copper.length.total! / 3;
    expect(copper.resistance.path20).toBeCloseTo((1e-6 / 58) * (conductor / 17.5e-6), 12);
    expect(copper.mass).toBeCloseTo(copper.length.total! * 17.5e-6 * 8890, 12);
    expect(copper.assumptions.join()).toContain('connecting pieces');
  });
});

describe('crowns and levels', () => {
  it('straight bars have a straight part to be joined at on both sides, hairpins on one', () => {
    const hairpin = examine(ferryDrive).copper.length;
    const straight = examine(ferryDrive.replace('form hairpin', 'form straight')).copper.length;
    expect(straight.bars! - hairpin.bars!).toBeCloseTo(8e-3, 12);
    expect(straight.overhangFar! - hairpin.overhangFar!).toBeCloseTo(8e-3, 12);
    expect(straight.overhangConnection).toBeCloseTo(hairpin.overhangConnection!, 12);
  });

  it('pieces that cross lie on levels, each with longer risers, and reach farther out', () => {
    const text = `winding "Lock-gate winch"
machine { slots 12  poles 4  phases 3  gap inner  bore 90 mm  stack 60 mm  current 40 A }
slot { width 5 mm  depth 12 mm  opening 2 mm  opening-height 1 mm }
bar { width 3.5 mm  height 5 mm  end-straight 4 mm  end-clearance 1 mm  joint-straight 6 mm  coating 0.1 mm }
layout { layers 2  span 3 }
connect {
  star
  path U 1 from U1 1a +3b +3a +3b | 7b -3a -3b -3a to N
  repeat U as V shift 2
  repeat U as W shift 4
}
`;
    const input = copperInput(text);
    const joints = input.joints!.filter((joint) => joint.kind === 'jumper');
    const levels = new Map(joints.map(({ number }, index) => [number, index + 1]));
    const { length } = copper({ ...input, levels });
    const flat = copper(input).length;
    // Each level is coated width and clearance above the one below: 3.5 + 2 x 0.1 + 1 mm, up and down.
    joints.forEach(({ number }, index) => {
      const piece = length.pieces.find(({ joint }) => joint === number)!;
      const below = flat.pieces.find(({ joint }) => joint === number)!;
      expect(piece.length - below.length).toBeCloseTo(2 * index * 4.7e-3, 12);
      expect(piece.riser - below.riser).toBeCloseTo(index * 4.7e-3, 12);
    });
    expect(length.overhangConnection! - flat.overhangConnection!).toBeCloseTo(2 * 4.7e-3, 12);
  });
});

describe('resistance', () => {
  it('per-layer heights: every bar has its own section', () => {
    const { input, copper } = examine(withLine(ferryDrive, 'height', 'height a b 3.4 mm  height c d 2.2 mm'));
    const area = [3.4, 3.4, 2.2, 2.2].map((h) => (3.6 * h - (4 - Math.PI) * 0.25) * 1e-6);
    const [path] = input.paths!;
    const ohm = path!.bars.reduce((sum, { slot, layer }) => {
      return sum + ((1e-6 / 58) * copper.length.byPlace![layer * 48 + slot - 1]!) / area[layer]!;
    }, 0);
    expect(copper.resistance.path20).toBeCloseTo(ohm, 9);
    expect(copper.resistance.phase20).toBeCloseTo(ohm / 2, 9);
  });

  it('star 2 R, delta 2/3 R, five phases in a ring 4/5 R, open none', () => {
    const star = examine(ferryDrive).copper.resistance;
    expect(star.line).toBeCloseTo(2 * star.phase!, 15);
    const delta = examine(withLine(ferryDrive, 'star', '  delta')).copper.resistance;
    expect(delta.phase).toBeCloseTo(star.phase!, 15);
    // One phase in parallel with the two others in series.
    expect(delta.line).toBeCloseTo(1 / (1 / star.phase! + 1 / (2 * star.phase!)), 12);
    const five = ferryDrive
      .replace('phases 3', 'phases 5')
      .replace('slots 48', 'slots 40')
      .replace('span 6', 'span 5');
    const ring = examine(withLine(five, 'star', '  delta')).copper.resistance;
    expect(ring.line).toBeCloseTo(1 / (1 / ring.phase! + 1 / (4 * ring.phase!)), 12);
    const open = examine(withLine(ferryDrive, 'star', '  open')).copper;
    expect(open.resistance.line).toBeNull();
    expect(open.missing.find(({ quantity }) => quantity === 'copper.resistance.line')?.needs).toEqual([
      'connect star or delta',
    ]);
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
