/**
 * Carter's factor: by how much slot openings on one side lengthen an air gap of `gap` m, for a slot
 * pitch and an opening in m at that gap. 1 for closed slots. Throws RangeError where an opening is
 * as wide as the pitch, or a length is not positive.
 *
 * Conformal mapping of one opening in infinitely permeable iron (Carter; Pyrhonen, Jokinen,
 * Hrabovcova, Design of Rotating Electrical Machines, 2nd ed., 3.1.1, from memory).
 */
export function carterFactor(pitch: number, opening: number, gap: number): number {
  if (!(gap > 0)) throw new RangeError(`air gap must be above 0 m, got ${gap}`);
  if (!(opening >= 0) || !(opening < pitch)) {
    throw new RangeError(`slot opening must be from 0 to below the slot pitch ${pitch} m, got ${opening}`);
  }
  return pitch / (pitch - equivalentOpening(opening, gap));
}

/** The width of a field-free strip that lets through as little flux as the opening does, m. */
function equivalentOpening(opening: number, gap: number): number {
  const ratio = opening / (2 * gap);
  return ((4 * gap) / Math.PI) * (ratio * Math.atan(ratio) - Math.log1p(ratio * ratio) / 2);
}
