import { expect, it } from 'vitest';
import { chordsFor } from '../../core/space/curve.ts';
import { linkGeometry } from '../../core/space/links.ts';

const at = { side: 1, stack: 0.09 } as const;
const foot = { angle: 1.7, radius: 0.0676, height: 0.04 };

it('a piece between feet at one angle runs along the radius, whatever the last digit of their angles', () => {
  const link = (angle: number) =>
    linkGeometry(at, foot, { angle, radius: 0.0588, height: 0.04 }, 0.06, 4e-3).pieces;
  const straight = link(foot.angle);
  expect(straight.map(({ kind }) => kind)).toEqual(['riser', 'arc', 'riser']);
  expect(straight[1]!.length).toBeCloseTo(0.0088, 12);
  for (const angle of [foot.angle + 4e-16, foot.angle - 4e-16]) {
    expect(angle).not.toBe(foot.angle);
    const pieces = link(angle);
    expect(pieces.map(({ kind }) => kind)).toEqual(straight.map(({ kind }) => kind));
    for (const { curve, length } of pieces) expect(chordsFor(curve, length, 1e-5)).toBe(1);
  }
});
