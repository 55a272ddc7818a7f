/**
 * Geometric mean distance of a rectangle's points from each other, in the unit of its sides: the distance
 * of two filaments that link as the rectangle links itself (Maxwell, Treatise, 692).
 */
export function rectangleMeanDistance(width: number, height: number): number {
  const [a, b] = [width, height];
  const [ab, ba] = [a / b, b / a];
  const log =
    Math.log(a * a + b * b) / 2 -
    (ab * ab * Math.log(1 + ba * ba) + ba * ba * Math.log(1 + ab * ab)) / 12 +
    (2 / 3) * (ab * Math.atan(ba) + ba * Math.atan(ab)) -
    25 / 12;
  return Math.exp(log);
}
