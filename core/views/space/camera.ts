import type { Vector } from '../../space/vectors.ts';

/** Where the eye is: a direction in space, and what lies to its right and above. Each of length 1, square to each other. */
export interface Camera {
  readonly right: Vector;
  readonly up: Vector;
  readonly towards: Vector;
}

/**
 * An eye far away, above the connection side (which is up) by an angle, and turned about the axis;
 * both in radians.
 */
export function cameraAt(turn: number, above: number): Camera {
  const [cosine, sine] = [Math.cos(turn), Math.sin(turn)];
  const [level, high] = [Math.cos(above), Math.sin(above)];
  // Up is against the axis' direction, so that the connection side is.
  return {
    right: [cosine, sine, 0],
    up: [high * sine, -high * cosine, -level],
    towards: [-level * sine, level * cosine, -high],
  };
}
