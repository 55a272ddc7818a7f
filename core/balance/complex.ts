/** A complex number. */
export interface Complex {
  readonly re: number;
  readonly im: number;
}

export const zero: Complex = { re: 0, im: 0 };

export function add(a: Complex, b: Complex): Complex {
  return { re: a.re + b.re, im: a.im + b.im };
}

export function subtract(a: Complex, b: Complex): Complex {
  return { re: a.re - b.re, im: a.im - b.im };
}

export function multiply(a: Complex, b: Complex): Complex {
  return { re: a.re * b.re - a.im * b.im, im: a.re * b.im + a.im * b.re };
}

export function scale(a: Complex, factor: number): Complex {
  return { re: a.re * factor, im: a.im * factor };
}

/** a / b; throws RangeError for b = 0. */
export function divide(a: Complex, b: Complex): Complex {
  const square = b.re * b.re + b.im * b.im;
  if (square === 0) throw new RangeError('division by a complex zero');
  return { re: (a.re * b.re + a.im * b.im) / square, im: (a.im * b.re - a.re * b.im) / square };
}

export function size(a: Complex): number {
  return Math.hypot(a.re, a.im);
}

/** Angle in degrees, -180 < angle <= 180; 0 for a complex zero. */
export function degrees(a: Complex): number {
  return a.re === 0 && a.im === 0 ? 0 : (Math.atan2(a.im, a.re) * 180) / Math.PI;
}

/** Unit vector at an angle in degrees. */
export function unit(angle: number): Complex {
  const radians = (angle * Math.PI) / 180;
  return { re: Math.cos(radians), im: Math.sin(radians) };
}

/**
 * Solves a square system by elimination with column pivots. Returns null when it is singular to working
 * precision.
 */
export function solveComplex(
  matrix: readonly (readonly Complex[])[],
  right: readonly Complex[],
): Complex[] | null {
  const rows = matrix.map((row, index) => [...row, right[index]!]);
  const count = rows.length;
  const largest = Math.max(...rows.flatMap((row) => row.slice(0, count).map(size)), 0);
  for (let column = 0; column < count; column++) {
    let pivot = column;
    for (let row = column + 1; row < count; row++) {
      if (size(rows[row]![column]!) > size(rows[pivot]![column]!)) pivot = row;
    }
    if (size(rows[pivot]![column]!) <= largest * 1e-13) return null;
    [rows[column], rows[pivot]] = [rows[pivot]!, rows[column]!];
    for (let row = column + 1; row < count; row++) {
      const factor = divide(rows[row]![column]!, rows[column]![column]!);
      if (factor.re === 0 && factor.im === 0) continue;
      for (let entry = column; entry <= count; entry++) {
        rows[row]![entry] = subtract(rows[row]![entry]!, multiply(factor, rows[column]![entry]!));
      }
    }
  }
  const solution: Complex[] = Array.from({ length: count }, () => zero);
  for (let row = count - 1; row >= 0; row--) {
    let rest = rows[row]![count]!;
    for (let column = row + 1; column < count; column++) {
      rest = subtract(rest, multiply(rows[row]![column]!, solution[column]!));
    }
    solution[row] = divide(rest, rows[row]![row]!);
  }
  return solution;
}
