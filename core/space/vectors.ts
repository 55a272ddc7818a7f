/** A point (m) or a direction in space: x, y across the axis, z along it from the connection side to the far side. */
export type Vector = readonly [x: number, y: number, z: number];

/** Sum of a point and multiples of two directions. */
export function offsetBy(
  point: Vector,
  first: Vector,
  along: number,
  second: Vector,
  across: number,
): Vector {
  return [
    point[0] + along * first[0] + across * second[0],
    point[1] + along * first[1] + across * second[1],
    point[2] + along * first[2] + across * second[2],
  ];
}

/** Turned about the axis by an angle (radians about +z). */
export function rotated([x, y, z]: Vector, turn: number): Vector {
  const [cosine, sine] = [Math.cos(turn), Math.sin(turn)];
  return [x * cosine - y * sine, x * sine + y * cosine, z];
}

export function dot(a: Vector, b: Vector): number {
  return a[0] * b[0] + a[1] * b[1] + a[2] * b[2];
}

export function cross(a: Vector, b: Vector): Vector {
  return [a[1] * b[2] - a[2] * b[1], a[2] * b[0] - a[0] * b[2], a[0] * b[1] - a[1] * b[0]];
}

export function distance(a: Vector, b: Vector): number {
  return Math.hypot(a[0] - b[0], a[1] - b[1], a[2] - b[2]);
}

/** From the second point to the first. */
export function difference(a: Vector, b: Vector): Vector {
  return [a[0] - b[0], a[1] - b[1], a[2] - b[2]];
}

export function negated(a: Vector): Vector {
  return [-a[0], -a[1], -a[2]];
}
