// Takes its time: studies whole windings.

import { describe, expect, it } from 'vitest';
import { withLine } from '../../copper/machines.ts';
import { pathsByHand } from '../../copper/pathsByHand.ts';
import { unequalPaths, unequalSizes } from '../../copper/unequalPaths.ts';
import { study } from '../../support/study.ts';
import { study as withoutEnds } from '../../support/withoutEnds.ts';

/** Paths of equal angles and layers; path 2 of a phase has as long a connecting piece as wanted. */
const pieces = (piece: string) => `winding "Windlass, one path with a long piece"
machine { slots 12  poles 4  phases 3  gap inner  bore 100 mm  stack 80 mm
  air-gap 1 mm
  magnet-height 5 mm
  speed 1500 rpm  flux 6 mWb  current 100 A  winding-temperature 100 degC }
slot { width 7 mm  depth 12 mm
  opening 2 mm
  opening-height 1 mm  liner 0.3 mm }
bar { form straight  width 6 mm  height 4.5 mm  coating 0.1 mm
  end-straight 8 mm  end-clearance 1 mm  joint-straight 10 mm }
layout { layers 2  span 3 }
connect {
  star
  path U 1 from U1 1a +3b +3a +3b to N
  path U 2 from U1 1b -3a ${piece} -3a to N
  repeat U as V shift 2
  repeat U as W shift 4
}
`;

const findingsOf = (text: string, code: string) =>
  study(text).findings.filter((found) => found.code === code);

describe('paths of equal voltage that share the load unequally', () => {
  it('for want of equal resistance: said once, as grave as it is', () => {
    const text = pieces('| +9b');
    const deviation = study(text).report().balance.pathCurrentDeviation!;
    const [found, ...others] = findingsOf(text, 'path-currents-unequal');
    expect(others).toEqual([]);
    expect(deviation).toBeGreaterThan(0.01);
    expect(found!.severity).toBe(deviation > 0.05 ? 'error' : 'warning');
    expect(found!.message).toContain(`${Number((deviation * 100).toPrecision(3))} % of an equal share`);
    for (const code of ['paths-unequal-voltage', 'layer-occupation-unequal'])
      expect(findingsOf(text, code)).toEqual([]);
  });

  it('not where they are alike, nor where it cannot be told', () => {
    // Star ends take tips half a slot apart from the regular ones; in bars this long that counts little.
    const alike = pieces('-3b').replace('stack 80 mm', 'stack 400 mm');
    expect(findingsOf(alike, 'path-currents-unequal')).toEqual([]);
    expect(findingsOf(withLine(pieces('| +9b'), 'opening 2', null), 'path-currents-unequal')).toEqual([]);
  });
});

describe('paths of unequal voltage', () => {
  const at = (flux: string) => {
    const text = withLine(unequalPaths, 'flux', flux);
    const [found] = findingsOf(text, 'paths-unequal-voltage');
    expect(findingsOf(text, 'path-currents-unequal')).toEqual([]);
    return found!;
  };

  it('what circulates without load and what the load adds, in one finding', () => {
    const found = at('  flux 0.9 mWb');
    expect(found.severity).toBe('error');
    expect(found.message).toContain(
      'drives a circulating current of 1.01 times the path current; at load the path currents differ by up to 1.65 times an equal share.',
    );
  });

  it('an error by the load alone, where hardly anything circulates', () => {
    expect(at('  flux 0.005 mWb').severity).toBe('error');
    // The figures by hand, without the leakage of the end windings.
    const made = withoutEnds(withLine(unequalPaths, 'flux', '  flux 0.005 mWb'));
    const found = made.findings.find(({ code }) => code === 'paths-unequal-voltage')!;
    const { circulating, deviation } = pathsByHand(made, made.report(), unequalSizes(0.005e-3, 15000));
    expect(circulating).toBeLessThan(0.01);
    expect(found.message).toContain(
      `circulating current of ${(100 * circulating).toPrecision(3)} % of the path current`,
    );
    expect(found.message).toContain(`differ by up to ${deviation.toPrecision(3)} times an equal share.`);
    expect(found.severity).toBe('error');
  });

  it('without the flux the difference itself decides', () => {
    const [found] = findingsOf(withLine(unequalPaths, 'flux', null), 'paths-unequal-voltage');
    expect(found!.severity).toBe('error');
    expect(found!.message).not.toContain('circulating');
    expect(found!.message).toContain('at load the path currents differ');
  });
});

describe('paths that use the layers unequally', () => {
  const text = `winding "Culvert pump, doubled paths"
machine { slots 12  poles 4  phases 3  gap inner  bore 100 mm  stack 120 mm
  air-gap 1 mm
  magnet-height 5 mm  speed 1500 rpm  winding-temperature 100 degC }
slot { width 7 mm  depth 22 mm  opening 2 mm  opening-height 1 mm  liner 0.3 mm }
bar { form straight  width 6 mm  height 4.5 mm  coating 0.1 mm
  end-straight 8 mm  end-clearance 1 mm  joint-straight 10 mm }
layout { layers 4  span 3 }
connect {
  star
  path U 1 from U1 1a +3b +3a +3b | +3b -3a -3b -3a to N
  path U 2 from U1 1c +3d +3c +3d | +3d -3c -3d -3c to N
  repeat U as V shift 2
  repeat U as W shift 4
}
`;

  it('by resistance, slot leakage and gap field where the sizes are given, by slot leakage alone else', () => {
    const [known] = findingsOf(text, 'layer-occupation-unequal');
    expect(known!.message).toContain('resistance, slot leakage and gap field make the path currents differ');
    const [unknown] = findingsOf(withLine(text, 'air-gap', null), 'layer-occupation-unequal');
    expect(unknown!.message).toContain('slot leakage alone makes the path currents differ');
    for (const found of [known, unknown]) expect(found!.severity).toBe('error');
    expect(findingsOf(text, 'path-currents-unequal')).toEqual([]);
  });
});
