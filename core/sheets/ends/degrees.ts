import { fixedText } from '../../picture/numberText.ts';

/** An angle of 0 to 360 degrees with one decimal. */
export function degreesText(radians: number): string {
  const turn = 360;
  const degrees = (radians * 180) / Math.PI;
  const within = degrees - turn * Math.floor(degrees / turn + 1e-9);
  // What rounds to a whole turn is none.
  return fixedText(within >= turn - 0.05 ? 0 : within, 1);
}
