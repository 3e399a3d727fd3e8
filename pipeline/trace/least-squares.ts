/** Weighted polynomial least squares of low degree, the one solver behind noise, crossings and slopes. */
import { log } from '../elementary.ts';

/** A polynomial in (x − originX), lowest power first, with what is needed to judge it. */
export interface PolynomialFit {
  readonly originX: number;
  readonly coefficients: readonly number[];
  /** Inverse normal matrix: times the variance of one reading it is the covariance of the coefficients. */
  readonly inverse: readonly (readonly number[])[];
  readonly residualSumOfSquares: number;
  readonly count: number;
}

/**
 * Solves a small symmetric positive definite system and inverts it (Gauss–Jordan with pivoting).
 * Returns undefined where the matrix is singular to working precision.
 */
export function solveSymmetric(
  matrix: readonly (readonly number[])[],
  right: readonly number[],
): { solution: number[]; inverse: number[][]; logDeterminant: number } | undefined {
  const n = right.length;
  // Matrix, unit matrix and right side in a row each, one after the other.
  const width = 2 * n + 1;
  const work = n * width <= SCRATCH.length ? SCRATCH.fill(0, 0, n * width) : new Float64Array(n * width);
  const starts: number[] = [];
  for (let r = 0; r < n; r++) {
    const start = r * width;
    const row = matrix[r]!;
    starts.push(start);
    for (let c = 0; c < n; c++) work[start + c] = row[c]!;
    work[start + n + r] = 1;
    work[start + 2 * n] = right[r]!;
  }
  let logDeterminant = 0;
  for (let column = 0; column < n; column++) {
    let pivot = column;
    for (let r = column + 1; r < n; r++) {
      if (Math.abs(work[starts[r]! + column]!) > Math.abs(work[starts[pivot]! + column]!)) pivot = r;
    }
    const from = starts[pivot]!;
    const value = work[from + column]!;
    if (!(Math.abs(value) > 1e-12 * Math.abs(matrix[column]![column]!)) || value === 0) return undefined;
    logDeterminant += log(Math.abs(value));
    starts[pivot] = starts[column]!;
    starts[column] = from;
    // What stands left of the column is 0 by now.
    for (let k = column; k < width; k++) work[from + k]! /= value;
    for (let r = 0; r < n; r++) {
      const to = starts[r]!;
      const factor = work[to + column]!;
      if (r === column || factor === 0) continue;
      for (let k = column; k < width; k++) work[to + k]! -= factor * work[from + k]!;
    }
  }
  const solution: number[] = [];
  const inverse: number[][] = [];
  for (const start of starts) {
    solution.push(work[start + 2 * n]!);
    const row: number[] = [];
    for (let c = 0; c < n; c++) row.push(work[start + n + c]!);
    inverse.push(row);
  }
  return { solution, inverse, logDeterminant };
}

/** Small systems are solved by the hundred thousand: finding a place for each took longer than solving it. */
const SCRATCH = new Float64Array(128);

/**
 * Fits y over x for the samples `begin` … `end` (inclusive).
 * Returns undefined where there are fewer samples than coefficients.
 */
export function fitPolynomial(
  x: Float64Array,
  y: Float64Array,
  begin: number,
  end: number,
  originX: number,
  degree: number,
): PolynomialFit | undefined {
  const size = degree + 1;
  const count = end - begin + 1;
  if (count < size) return undefined;
  const powers = new Float64Array(2 * degree + 1);
  const right = new Float64Array(size);
  for (let i = begin; i <= end; i++) {
    const dx = x[i]! - originX;
    let power = 1;
    for (let k = 0; k <= 2 * degree; k++) {
      powers[k]! += power;
      if (k < size) right[k]! += power * y[i]!;
      power *= dx;
    }
  }
  const matrix: number[][] = [];
  for (let r = 0; r < size; r++) {
    const row: number[] = [];
    for (let c = 0; c < size; c++) row.push(powers[r + c]!);
    matrix.push(row);
  }
  const solved = solveSymmetric(matrix, [...right]);
  if (solved === undefined) return undefined;
  let residualSumOfSquares = 0;
  for (let i = begin; i <= end; i++) {
    const residual = y[i]! - evaluatePolynomial(solved.solution, x[i]! - originX);
    residualSumOfSquares += residual * residual;
  }
  return { originX, coefficients: solved.solution, inverse: solved.inverse, residualSumOfSquares, count };
}

/** Value of a polynomial, lowest power first. */
export function evaluatePolynomial(coefficients: readonly number[], x: number): number {
  let value = 0;
  for (let k = coefficients.length - 1; k >= 0; k--) value = value * x + coefficients[k]!;
  return value;
}

/** Slope of a polynomial, lowest power first. */
export function polynomialSlope(coefficients: readonly number[], x: number): number {
  let value = 0;
  for (let k = coefficients.length - 1; k >= 1; k--) value = value * x + k * coefficients[k]!;
  return value;
}

/** Variance of the fitted value at x for readings of unit variance. */
export function fittedVariance(fit: PolynomialFit, x: number): number {
  const dx = x - fit.originX;
  const powers = fit.coefficients.map((_, k) => dx ** k);
  let variance = 0;
  for (const [r, row] of fit.inverse.entries()) {
    for (const [c, value] of row.entries()) variance += powers[r]! * value * powers[c]!;
  }
  return variance;
}

/** Middle value; the mean of the two middle ones for an even number; NaN for none. */
export function medianOf(values: readonly number[] | Float64Array): number {
  const own = new Float64Array(values);
  const n = own.length;
  if (n === 0) return Number.NaN;
  const middle = n >> 1;
  const upper = selected(own, middle);
  if (n % 2 === 1 && upper !== 0 && !Number.isNaN(upper)) return upper;
  let lower = own[0]!;
  for (let i = 1; i < middle; i++) lower = Math.max(lower, own[i]!);
  const median = (lower + upper) / 2;
  if (n % 2 === 0 && lower !== 0 && upper !== 0 && !Number.isNaN(median)) return median;
  // Only sorting tells 0 from −0 and puts what is no number last.
  own.sort();
  return n % 2 === 1 ? own[middle]! : (own[middle - 1]! + own[middle]!) / 2;
}

/**
 * The value that would stand at a place if all were sorted: none before it is greater then. Hoare's selection, in time
 * proportional to the number of values. NaN where any of them is. Puts the values into another order.
 */
export function selected(values: Float64Array, place: number): number {
  for (let i = 0; i < values.length; i++) if (Number.isNaN(values[i])) return Number.NaN;
  let from = 0;
  let to = values.length - 1;
  while (from < to) {
    const [a, b, c] = [values[from]!, values[(from + to) >> 1]!, values[to]!];
    const pivot = Math.max(Math.min(a, b), Math.min(Math.max(a, b), c));
    let low = from;
    let high = to;
    while (low <= high) {
      while (values[low]! < pivot) low++;
      while (values[high]! > pivot) high--;
      if (low > high) break;
      const moved = values[low]!;
      values[low++] = values[high]!;
      values[high--] = moved;
    }
    if (place <= high) to = high;
    else if (place >= low) from = low;
    else break;
  }
  return values[place]!;
}
