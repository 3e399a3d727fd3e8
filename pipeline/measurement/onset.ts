/**
 * The instant a car leaves rest, from the whole rise of speed and not from a threshold.
 *
 * Acceleration is taken to rise from nothing to its full value in a time nobody knows, in a manner nobody knows,
 * and then to change slowly. For every ramp time of a grid and every manner of a list the rest is solved by least
 * squares; the answers are then averaged with the weight the readings give each of them (Bayesian model averaging:
 * Hoeting, Madigan, Raftery and Volinsky, Statistical Science 14 (1999) 382; from memory).
 * Averaging rather than picking the best keeps the estimate unbiased where the ramp falls between two readings, and
 * its spread states how much the unknown manner of the rise matters.
 */
import { log } from '../elementary.ts';
import { alikeFactor } from '../trace/noise.ts';
import { slopeOver } from '../trace/slope.ts';
import { averageOnsets, type Onset, type Weighed } from './onset-average.ts';
import { MANNERS, type Motion, type RampManner } from './onset-model.ts';
import { type Candidate, type Readings, restCosts, solveOnset } from './onset-solve.ts';

/** What is taken for possible before any reading is seen. */
export interface RampRange {
  readonly shortestS: number;
  readonly longestS: number;
  /** A ramp of time τ is taken for as likely as τ to this power, per unit of log τ; 1 is every time alike. */
  readonly lean: number;
  /** Share of starts without a ramp: the whole force at once. */
  readonly stepShare: number;
  readonly manners: readonly RampManner[];
}
/** Drivers and drivelines: every time is as likely, and a step is possible. */
export const START_RAMPS: RampRange = {
  shortestS: 0.02,
  longestS: 0.9,
  lean: 1.3,
  stepShare: 0.005,
  manners: MANNERS,
};
/**
 * Brakes hold until the wheels stand still, or are eased over the last tenths of a second: the end is a step, or what
 * is left at the end falls away evenly from the whole.
 */
export const STOP_RAMPS: RampRange = {
  shortestS: 0.02,
  longestS: 0.35,
  lean: 0,
  stepShare: 0.5,
  manners: MANNERS.filter(({ name }) =>
    /^(even|a third at once|half at once|a third at once, then slow)$/.test(name),
  ).map(manner => ({
    ...manner,
    share: 1,
    doubt: 1,
  })),
};
const AT_ONCE = { ...MANNERS[0]!, name: 'at once' as const };
const RAMP_COUNT = 16;
/** The second beginning is tried at every so many ramps. */
const FRESH_EVERY = 4;
/** No ramp, for the solver: shorter than any reading can tell. */
const STEP_S = 0.002;

/**
 * The model is trusted to this share of speed, so that what happens later weighs less than the onset; less beyond
 * `AFTER_S`. What is wrong with it is alike over `ALIKE_S`, so that more readings within that time do not tell more.
 */
export const ONSET_MODEL_SHARE = 0.007;
const ALIKE_S = 0.1;
/** Readings at rest before the rise that are looked at, s. */
const BEFORE_S = 1;
/** The rise is followed up to this speed or for this long, but for at least `AFTER_READINGS` readings. */
const AFTER_MPS = 6;
const AFTER_S = 1.2;
const AFTER_READINGS = 5;
/** The limit below which a recorder writes 0 is known to this share of it. */
const HIDDEN_EDGE = 0.4;
/** Readings on the edge of a stretch belong to it whatever the last bits of their times. */
const EDGE_S = 1e-6;
/** The first guess looks at this much of the rise, s. */
const EARLY_S = 0.7;
/** What of a trace the fit uses. */
export interface OnsetInput {
  readonly timeS: Float64Array;
  readonly speedMps: Float64Array;
  readonly noiseMps: number;
  /** Readings of 0 say only that speed is below this, m/s. */
  readonly hiddenMps?: number;
  readonly filterS?: number;
  readonly stampS?: number;
}

/**
 * Fits the rise that begins after the reading `restIndex`, the last one at rest. `firstIndex` and `lastIndex` bound
 * the readings that may be used. Returns undefined with fewer than two readings on the way up.
 */
export function fitOnset(
  input: OnsetInput,
  restIndex: number,
  firstIndex: number,
  lastIndex: number,
  ramps: RampRange = START_RAMPS,
): Onset | undefined {
  const { timeS, speedMps } = input;
  const window = readingsAround(timeS, speedMps, restIndex, firstIndex, lastIndex);
  if (window.end - restIndex < 2) return undefined;
  const originS = timeS[restIndex]!;
  const readings = readingsOf(input, window.begin, window.end, originS);
  const fresh = firstGuess(readings.t, readings.v);
  const found: Weighed[] = [];
  const consider = (
    manner: Pick<Weighed, 'name' | 'share' | 'doubt' | 'rise'>,
    rampS: number,
    logPrior: number,
    guesses: readonly Motion[],
  ): Motion => {
    let best: Candidate | undefined;
    // Two beginnings, because the sum of squares can have a second valley where the acceleration dips.
    for (const guess of guesses) {
      const solved = solveOnset(readings, manner.rise, rampS, guess);
      if (solved !== undefined && solved.logWeight > (best?.logWeight ?? Number.NEGATIVE_INFINITY))
        best = solved;
    }
    if (best === undefined) return guesses[0]!;
    const { name, share, doubt } = manner;
    found.push({ ...best, logWeight: best.logWeight + logPrior, share, doubt, name });
    return best.motion;
  };
  consider(AT_ONCE, STEP_S, log(ramps.stepShare), [fresh]);
  const times = Array.from(
    { length: RAMP_COUNT },
    (_, k) => ramps.shortestS * (ramps.longestS / ramps.shortestS) ** (k / (RAMP_COUNT - 1)),
  );
  const priors = times.map(rampS => rampS ** ramps.lean);
  const whole = priors.reduce((sum, prior) => sum + prior, 0) * ramps.manners.length;
  for (const manner of ramps.manners) {
    let previous = fresh;
    for (const [k, rampS] of times.entries()) {
      const logPrior = log(((1 - ramps.stepShare) * priors[k]!) / whole);
      const guesses = k % FRESH_EVERY === 0 && k > 0 ? [previous, fresh] : [previous];
      previous = consider(manner, rampS, logPrior, guesses);
    }
  }
  return found.length === 0 ? undefined : averageOnsets(found, originS, window);
}

function readingsAround(
  timeS: Float64Array,
  speedMps: Float64Array,
  restIndex: number,
  firstIndex: number,
  lastIndex: number,
): { begin: number; end: number } {
  let begin = restIndex;
  while (begin > firstIndex && timeS[restIndex]! - timeS[begin - 1]! <= BEFORE_S + EDGE_S) begin--;
  let end = restIndex;
  while (end < lastIndex) {
    const enough = end - restIndex >= AFTER_READINGS;
    if (enough && (speedMps[end + 1]! > AFTER_MPS || timeS[end + 1]! - timeS[restIndex]! > AFTER_S + EDGE_S))
      break;
    end++;
  }
  return { begin, end };
}

function readingsOf(input: OnsetInput, begin: number, end: number, originS: number): Readings {
  const { timeS, speedMps, hiddenMps = 0, stampS = 0 } = input;
  const count = end - begin + 1;
  const t = new Float64Array(count);
  const v = new Float64Array(count);
  const sd = new Float64Array(count);
  const intervalS = (timeS[end]! - timeS[begin]!) / (count - 1);
  const share = ONSET_MODEL_SHARE * Math.sqrt(Math.max(1, ALIKE_S / intervalS));
  // Readings that are alike tell less; those of a filter are still alike when they no longer stand.
  const noiseMps = Math.max(input.noiseMps, 1e-4) * alikeFactor(input.filterS, 1 / intervalS);
  const slopeMps2 = Math.max(0, slopeOver(timeS, speedMps, begin, end));
  // A recorder that rounds hides more than its readings scatter; one that writes 0 for what is negative hides noise.
  const edgeMps = noiseMps > hiddenMps ? noiseMps : HIDDEN_EDGE * hiddenMps;
  for (let k = 0; k < count; k++) {
    t[k] = timeS[begin + k]! - originS;
    v[k] = speedMps[begin + k]!;
    const hidden = v[k] === 0 && hiddenMps > 0;
    // Readings taken in for want of nearer ones are trusted the less the later they come.
    const model = share * Math.max(1, t[k]! / AFTER_S) ** 2 * v[k]!;
    const stamped = v[k]! > 2 * noiseMps ? slopeMps2 * stampS : 0;
    sd[k] = hidden ? edgeMps : Math.hypot(noiseMps, model, stamped);
  }
  return { t, v, sd, hiddenMps, atRest: restCosts({ v, sd, hiddenMps }) };
}

/** A straight line through the early readings of the rise, where no later change of acceleration misleads. */
function firstGuess(t: Float64Array, v: Float64Array): Motion {
  const last = t.length - 1;
  let end = last;
  while (end > 2 && t[end - 1]! > EARLY_S + EDGE_S) end--;
  let begin = end;
  while (begin > 0 && v[begin - 1]! > v[end]! / 4 && t[begin - 1]! > 0) begin--;
  begin = Math.min(begin, end - 1);
  const slope = Math.max(0.5, slopeOver(t, v, begin, end));
  return [(t[begin]! + t[end]!) / 2 - (v[begin]! + v[end]!) / 2 / slope, slope, 0, 0];
}
