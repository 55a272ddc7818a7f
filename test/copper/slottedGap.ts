/**
 * A gap lengthened by slots on one side, kC G with kC = pitch/(pitch - kappa opening): Carter's kappa as
 * the handbook writes it (Pyrhonen, Jokinen, Hrabovcova, ch. 3, from memory). Any one unit of length.
 */
export function slottedGap(pitch: number, opening: number, gap: number): number {
  const x = opening / (2 * gap);
  const kappa = (2 / Math.PI) * (Math.atan(x) - Math.log(1 + x * x) / (2 * x));
  return (gap * pitch) / (pitch - kappa * opening);
}
