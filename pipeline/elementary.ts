/**
 * Exponential and logarithm that come out the same to the last bit in every engine. ECMA-262 leaves those of `Math` to
 * the engine, and engines differ in the last bit; these use additions, multiplications and divisions alone, which
 * IEEE 754 rounds in one way only.
 *
 * After e_exp.c and e_log.c of the Freely Distributable LIBM:
 * Copyright (C) 2004 by Sun Microsystems, Inc. All rights reserved.
 * Permission to use, copy, modify, and distribute this software is freely granted, provided that this notice is preserved.
 */

const LN2_HIGH = 0.6931471803691238;
const LN2_LOW = 1.9082149292705877e-10;
const TWO_54 = 2 ** 54;
const MANTISSA = 0x000fffff;

const scratch = new DataView(new ArrayBuffer(8));

/** Sign, exponent and the first bits of the mantissa. */
function highWord(x: number): number {
  scratch.setFloat64(0, x);
  return scratch.getInt32(0);
}

function withHighWord(x: number, high: number): number {
  scratch.setFloat64(0, x);
  scratch.setInt32(0, high);
  return scratch.getFloat64(0);
}

/** 2 to a whole power from -1022 to 1023. */
const powerOfTwo = (k: number): number => withHighWord(1, (k + 1023) << 20);

/** e to the power of x. */
export function exp(x: number): number {
  if (Number.isNaN(x)) return x;
  if (x > 709.782712893384) return Number.POSITIVE_INFINITY;
  if (x < -745.1332191019411) return 0;
  const size = highWord(x) & 0x7fffffff;
  if (size < 0x3e300000) return 1 + x;
  let k = 0;
  let high = x;
  let low = 0;
  if (size > 0x3fd62e42) {
    if (x === 1) return Math.E;
    k = size < 0x3ff0a2b2 ? Math.sign(x) : Math.trunc(Math.LOG2E * x + (x < 0 ? -0.5 : 0.5));
    high = x - k * LN2_HIGH;
    low = k * LN2_LOW;
  }
  const r = high - low;
  const t = r * r;
  const c =
    r -
    t *
      (0.16666666666666602 +
        t *
          (-0.0027777777777015593 +
            t * (0.00006613756321437934 + t * (-0.0000016533902205465252 + t * 4.1381367970572385e-8))));
  if (k === 0) return 1 - ((r * c) / (c - 2) - r);
  const y = 1 - (low - (r * c) / (2 - c) - high);
  if (k === 1024) return y * 2 * powerOfTwo(1023);
  return k >= -1021 ? y * powerOfTwo(k) : y * powerOfTwo(k + 1000) * 2 ** -1000;
}

/** Natural logarithm. */
export function log(value: number): number {
  if (Number.isNaN(value) || value < 0) return Number.NaN;
  if (value === 0) return Number.NEGATIVE_INFINITY;
  if (value === Number.POSITIVE_INFINITY) return value;
  let k = 0;
  let x = value;
  if (highWord(x) < 0x00100000) {
    k = -54;
    x *= TWO_54;
  }
  const high = highWord(x);
  const mantissa = high & MANTISSA;
  const up = (mantissa + 0x95f64) & 0x100000;
  k += (high >> 20) - 1023 + (up >> 20);
  const f = withHighWord(x, mantissa | (up ^ 0x3ff00000)) - 1;
  if ((MANTISSA & (2 + mantissa)) < 3) {
    if (f === 0) return k === 0 ? 0 : k * LN2_HIGH + k * LN2_LOW;
    const near = f * f * (0.5 - 0.3333333333333333 * f);
    return k === 0 ? f - near : k * LN2_HIGH - (near - k * LN2_LOW - f);
  }
  const s = f / (2 + f);
  const z = s * s;
  const w = z * z;
  const even = w * (0.3999999999940942 + w * (0.22222198432149784 + w * 0.15313837699209373));
  const odd =
    z * (0.6666666666666735 + w * (0.2857142874366239 + w * (0.1818357216161805 + w * 0.14798198605116586)));
  const rest = odd + even;
  if (((mantissa - 0x6147a) | (0x6b851 - mantissa)) > 0) {
    const half = 0.5 * f * f;
    return k === 0
      ? f - (half - s * (half + rest))
      : k * LN2_HIGH - (half - (s * (half + rest) + k * LN2_LOW) - f);
  }
  return k === 0 ? f - s * (f - rest) : k * LN2_HIGH - (s * (f - rest) - k * LN2_LOW - f);
}

/** Natural logarithm of 1 + x, exact where x is small: what the sum loses is put back to first order. */
export function log1p(x: number): number {
  const sum = 1 + x;
  return sum === 1 ? x : log(sum) - (sum - 1 - x) / sum;
}
