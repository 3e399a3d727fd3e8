/** Propagation of distributions by seeded draws (JCGM 101:2008): the same seed gives the same figures everywhere. */
import { log } from '../elementary.ts';
import { meanOf, sumOf } from './repeats.ts';

/** Draws from the distributions a budget uses. */
export interface Draws {
  /** Even from 0 to 1, 0 possible and 1 not; 53 bits. */
  even(): number;
  /** JCGM 101:2008, 6.4.2. */
  rectangular(low: number, high: number): number;
  /** JCGM 101:2008, 6.4.7; polar method of Marsaglia and Bray 1964. */
  normal(mean: number, sd: number): number;
}

/**
 * Seeded draws: xoshiro128** of Blackman and Vigna (ACM TOMS 47(4), 2021), its state filled by splitmix32.
 * @param seed a whole number; only its lowest 32 bits count.
 */
export function seededDraws(seed: number): Draws {
  let filler = seed | 0;
  const fill = (): number => {
    filler = (filler + 0x9e3779b9) | 0;
    let z = filler ^ (filler >>> 16);
    z = Math.imul(z, 0x21f0aaad);
    z ^= z >>> 15;
    z = Math.imul(z, 0x735a2d97);
    return z ^ (z >>> 15);
  };
  let a = fill();
  let b = fill();
  let c = fill();
  let d = fill();
  const rotate = (x: number, by: number): number => (x << by) | (x >>> (32 - by));
  const next = (): number => {
    const word = Math.imul(rotate(Math.imul(b, 5), 7), 9) >>> 0;
    const shifted = b << 9;
    c ^= a;
    d ^= b;
    b ^= c;
    a ^= d;
    c ^= shifted;
    d = rotate(d, 11);
    return word;
  };
  const even = (): number => ((next() >>> 5) * 2 ** 26 + (next() >>> 6)) / 2 ** 53;
  let spare: number | undefined;
  const standardNormal = (): number => {
    if (spare !== undefined) {
      const kept = spare;
      spare = undefined;
      return kept;
    }
    while (true) {
      const x = 2 * even() - 1;
      const y = 2 * even() - 1;
      const square = x * x + y * y;
      if (square >= 1 || square === 0) continue;
      const scale = Math.sqrt((-2 * log(square)) / square);
      spare = y * scale;
      return x * scale;
    }
  };
  return {
    even,
    rectangular: (low, high) => low + (high - low) * even(),
    normal: (mean, sd) => mean + sd * standardNormal(),
  };
}

/** The standard normal draws of one seed, in their order, drawn once however often they are asked for. */
export function keptNormals(seed: number): (count: number) => Float64Array {
  let kept = new Float64Array(0);
  return count => {
    if (kept.length < count) {
      const draws = seededDraws(seed);
      kept = Float64Array.from({ length: Math.max(count, 2 * kept.length) }, () => draws.normal(0, 1));
    }
    return kept;
  };
}

export interface Propagated {
  readonly mean: number;
  readonly standardUncertainty: number;
  /** Interval with equal shares left out at both ends. */
  readonly low: number;
  readonly high: number;
  /** The narrowest interval of the same coverage (JCGM 101:2008, 5.3.4). */
  readonly shortestLow: number;
  readonly shortestHigh: number;
}

export interface PropagateOptions {
  readonly seed: number;
  /** 200 000 unless told: two digits of a standard uncertainty, with room (JCGM 101:2008, 7.2). */
  readonly draws?: number;
  /** 0.95 unless told. */
  readonly coverage?: number;
}

/**
 * Draws a model's result many times and tells its mean, standard uncertainty and coverage interval.
 * @throws RangeError for fewer than 1000 draws or where a draw is not a number.
 */
export function propagate(model: (draws: Draws) => number, options: PropagateOptions): Propagated {
  const { seed, draws: count = 200_000, coverage = 0.95 } = options;
  if (!(count >= 1000)) throw new RangeError('Fewer than 1000 draws tell nothing about 95 %');
  const draws = seededDraws(seed);
  const results = new Float64Array(count);
  for (let i = 0; i < count; i++) results[i] = model(draws);
  results.sort();
  const at = (i: number): number => results[i] ?? Number.NaN;
  if (Number.isNaN(at(count - 1))) throw new RangeError('The model gave a result that is not a number');
  const within = Math.round(coverage * count);
  const tail = Math.floor((count - within) / 2);
  let shortest = 0;
  for (let i = 1; i + within < count; i++) {
    if (at(i + within) - at(i) < at(shortest + within) - at(shortest)) shortest = i;
  }
  const values = results as unknown as readonly number[];
  const mean = meanOf(values);
  const squares = results.map(value => (value - mean) ** 2) as unknown as readonly number[];
  return {
    mean,
    standardUncertainty: Math.sqrt(sumOf(squares) / (count - 1)),
    low: at(tail),
    high: at(tail + within),
    shortestLow: at(shortest),
    shortestHigh: at(shortest + within),
  };
}
