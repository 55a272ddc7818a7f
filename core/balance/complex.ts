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
  const count = matrix.length;
  const rows = matrix.map((row, index) => numbersOf(row, right[index]!));
  const limit =
    1e-13 * matrix.reduce((most, row) => row.reduce((max, entry) => Math.max(max, size(entry)), most), 0);
  for (let column = 0; column < count; column++) {
    const pivot = largestInColumn(rows, column);
    if (sizeAt(rows[pivot]!, column) <= limit) return null;
    [rows[column], rows[pivot]] = [rows[pivot]!, rows[column]!];
    for (let row = column + 1; row < count; row++) eliminate(rows[row]!, rows[column]!, column);
  }
  const solution: Complex[] = Array.from({ length: count }, () => zero);
  for (let row = count - 1; row >= 0; row--) {
    let rest = entryAt(rows[row]!, count);
    for (let column = row + 1; column < count; column++) {
      rest = subtract(rest, multiply(entryAt(rows[row]!, column), solution[column]!));
    }
    solution[row] = divide(rest, entryAt(rows[row]!, row));
  }
  return solution;
}

/** A row and its right side as plain numbers, real and imaginary parts in turn. */
function numbersOf(row: readonly Complex[], right: Complex): Float64Array {
  const numbers = new Float64Array(2 * row.length + 2);
  [...row, right].forEach(({ re, im }, index) => {
    numbers[2 * index] = re;
    numbers[2 * index + 1] = im;
  });
  return numbers;
}

function entryAt(row: Float64Array, column: number): Complex {
  return { re: row[2 * column]!, im: row[2 * column + 1]! };
}

function sizeAt(row: Float64Array, column: number): number {
  return Math.hypot(row[2 * column]!, row[2 * column + 1]!);
}

function largestInColumn(rows: readonly Float64Array[], column: number): number {
  let pivot = column;
  let largest = sizeAt(rows[column]!, column);
  for (let row = column + 1; row < rows.length; row++) {
    const here = sizeAt(rows[row]!, column);
    if (here <= largest) continue;
    pivot = row;
    largest = here;
  }
  return pivot;
}

/** Takes the multiple of the pivot's row from a row that makes its entry in `column` zero. */
function eliminate(row: Float64Array, pivot: Float64Array, column: number): void {
  const { re, im } = divide(entryAt(row, column), entryAt(pivot, column));
  if (re === 0 && im === 0) return;
  for (let at = 2 * column; at < row.length; at += 2) {
    const pivotRe = pivot[at]!;
    const pivotIm = pivot[at + 1]!;
    row[at]! -= re * pivotRe - im * pivotIm;
    row[at + 1]! -= re * pivotIm + im * pivotRe;
  }
}
