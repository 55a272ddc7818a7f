import type { Section } from '../section.ts';

/** A point of a section: along its width and its height, m. */
export type SectionPoint = readonly [width: number, height: number];

/** A side of a section's outline, to the next: straight, or a quarter circle round `center` with its sharp corner. */
export type OutlineSide =
  | { readonly kind: 'line'; readonly from: SectionPoint; readonly to: SectionPoint }
  | {
      readonly kind: 'arc';
      readonly from: SectionPoint;
      readonly to: SectionPoint;
      readonly center: SectionPoint;
      readonly corner: SectionPoint;
    };

/** The copper outline of a section with rounded edges, counterclockwise as seen against the center line's direction. */
export function outlineOf({ width, height, corner }: Section): readonly OutlineSide[] {
  const [w, h] = [width / 2, height / 2];
  const quarters: readonly SectionPoint[] = [
    [1, 1],
    [-1, 1],
    [-1, -1],
    [1, -1],
  ];
  const sides: OutlineSide[] = [];
  let last: SectionPoint = [w, -(h - corner)];
  quarters.forEach(([across, out], index) => {
    const onWidth: SectionPoint = [across * w, out * (h - corner)];
    const onHeight: SectionPoint = [across * (w - corner), out * h];
    const [from, to] = index % 2 === 0 ? [onWidth, onHeight] : [onHeight, onWidth];
    pushLine(sides, last, from);
    if (corner > 0) {
      const center: SectionPoint = [across * (w - corner), out * (h - corner)];
      sides.push({ kind: 'arc', from, to, center, corner: [across * w, out * h] });
    }
    last = to;
  });
  return sides;
}

function pushLine(sides: OutlineSide[], from: SectionPoint, to: SectionPoint): void {
  if (!same(from, to)) sides.push({ kind: 'line', from, to });
}

function same(one: SectionPoint, other: SectionPoint): boolean {
  return Math.hypot(one[0] - other[0], one[1] - other[1]) < 1e-9;
}
