/** The motion of a car that leaves rest: how acceleration rises, and the speed and distance that follow from it. */
import { risingRoot } from '../root.ts';

/**
 * How acceleration rises from rest to its full value: c₀ + c₁u + c₂u² + c₃u³ with u from 0 to 1 over the ramp, 1 at
 * the end. c₀ is what is there at once.
 */
export type Manner = readonly [c0: number, c1: number, c2: number, c3: number];

/** When the straight part, drawn back, meets zero (s); full acceleration a (m/s²); its change c (m/s³) and d (m/s⁴). */
export type Motion = readonly [meetsS: number, a: number, c: number, d: number];

/** Rolling resistance is about a thirtieth of a hard start's force. */
const HELD_FORCE = 1 / 30;

/**
 * A rise of the driving force of 3x² − 2x³ or of x², seen from where it exceeds what holds the car: nothing moves
 * before.
 */
function held([c0, c1, c2, c3]: Manner): Manner {
  const force = (x: number): number => c0 + x * (c1 + x * (c2 + x * c3));
  let low = 0;
  let high = 1;
  for (let k = 0; k < 40; k++) {
    const middle = (low + high) / 2;
    if (force(middle) < HELD_FORCE) low = middle;
    else high = middle;
  }
  const left = 1 - low;
  const rise = 1 - HELD_FORCE;
  return [
    0,
    ((c1 + low * (2 * c2 + 3 * low * c3)) * left) / rise,
    ((c2 + 3 * low * c3) * left * left) / rise,
    (c3 * left ** 3) / rise,
  ];
}

/** A manner, and how it enters the average. */
export interface RampManner {
  readonly name:
    | 'even'
    | 'smooth'
    | 'slow to begin'
    | 'quick to begin'
    | 'a fifth at once'
    | 'a third at once'
    | 'half at once'
    | 'a third at once, then slow';
  readonly rise: Manner;
  /** Shares in the estimate and in its uncertainty, relative to the other manners. */
  readonly share: number;
  readonly doubt: number;
}

/**
 * Share of a manner with a part at once, beside 1 for the others, in the estimate and in its uncertainty: judgements,
 * set on simulated starts. The estimate leans on what is common; the uncertainty leaves room for what is not.
 */
export const ABRUPT_SHARE = 0.01;
export const ABRUPT_DOUBT = 0.5;

const gradual = { share: 1, doubt: 1 };
const abrupt = { share: ABRUPT_SHARE, doubt: ABRUPT_DOUBT };

/**
 * The manners tried. Tyres and shafts wind up before they push, so that what comes at once is taken for a hundredth as
 * likely as what comes gradually.
 */
export const MANNERS: readonly RampManner[] = [
  { name: 'even', rise: [0, 1, 0, 0], ...gradual },
  { name: 'smooth', rise: held([0, 0, 3, -2]), ...gradual },
  { name: 'slow to begin', rise: held([0, 0, 1, 0]), ...gradual },
  { name: 'quick to begin', rise: [0, 2, -1, 0], ...abrupt },
  { name: 'a fifth at once', rise: [0.2, 0.8, 0, 0], ...abrupt },
  { name: 'a third at once', rise: [0.35, 0.65, 0, 0], ...abrupt },
  { name: 'half at once', rise: [0.5, 0.5, 0, 0], ...abrupt },
  { name: 'a third at once, then slow', rise: [0.35, 0, 0.65, 0], ...abrupt },
];

export const riseAt = ([c0, c1, c2, c3]: Manner, u: number): number => c0 + u * (c1 + u * (c2 + u * c3));
/** Integral of the rise from 0 to u. */
export const riseIntegral = ([c0, c1, c2, c3]: Manner, u: number): number =>
  u * (c0 + u * (c1 / 2 + u * (c2 / 3 + (u * c3) / 4)));
/** Integral of that integral from 0 to u. */
const riseSecondIntegral = ([c0, c1, c2, c3]: Manner, u: number): number =>
  u * u * (c0 / 2 + u * (c1 / 6 + u * (c2 / 12 + (u * c3) / 20)));

/** First movement before the point where the straight part, drawn back, meets zero, as a share of the ramp. */
export const leadShare = (manner: Manner): number => 1 - riseIntegral(manner, 1);

/** Speed at a time, m/s. */
export function motionSpeed(manner: Manner, rampS: number, p: Motion, t: number): number {
  const since = t - (p[0] - rampS * leadShare(manner));
  if (since <= 0) return 0;
  if (since < rampS) return p[1] * rampS * riseIntegral(manner, since / rampS);
  const s = since - rampS;
  return p[1] * (t - p[0]) + (p[2] * s * s) / 2 + (p[3] * s * s * s) / 6;
}

/** Distance covered at a time, m. */
export function motionDistance(manner: Manner, rampS: number, p: Motion, t: number): number {
  const since = t - (p[0] - rampS * leadShare(manner));
  if (since <= 0) return 0;
  if (since < rampS) return p[1] * rampS * rampS * riseSecondIntegral(manner, since / rampS);
  const s = since - rampS;
  const ramp = p[1] * rampS * (rampS * riseSecondIntegral(manner, 1) + riseIntegral(manner, 1) * s);
  return ramp + (p[1] * s * s) / 2 + (p[2] * s ** 3) / 6 + (p[3] * s ** 4) / 24;
}

/** When a distance is covered, s. */
export function timeToCover(
  manner: Manner,
  rampS: number,
  p: Motion,
  startS: number,
  distanceM: number,
): number {
  let low = startS;
  let high = startS + 0.1;
  while (motionDistance(manner, rampS, p, high) < distanceM && high < startS + 10) {
    low = high;
    high += 0.1;
  }
  return risingRoot(
    t => motionDistance(manner, rampS, p, t) - distanceM,
    t => motionSpeed(manner, rampS, p, t),
    low,
    high,
    NEAR_S,
  );
}

/** Nearer than any figure is printed, s. */
const NEAR_S = 1e-9;
