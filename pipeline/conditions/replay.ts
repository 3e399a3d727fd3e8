/**
 * One run driven again under another road load.
 *
 * What the wheels push with is not measured, but it need not be: at the same speed in the same gear they push as
 * hard on the day as on the reference road, so the two accelerations differ by what resists alone,
 * δ = (load of the day − load of the reference) / apparent mass. The time between two speeds then changes by
 * −∫ δ/(a + δ) dt over the measured run: a difference, so that noise in the measured acceleration a moves only the
 * change and never the figure, and nothing to change gives exactly the measured time.
 *
 * Where the push goes by time and not by speed (the clutch coming in, a gear change, a spinning wheel), the same
 * driver takes the same time and comes out of it faster or slower by ∫ δ dt. Those stretches are told by the car
 * accelerating harder afterwards, at a higher speed, than it does there. Where the push is constant both ways of
 * reckoning give the same.
 */
import type { Pull } from './pull.ts';

/** A stretch goes by time where the car accelerates less than this share of what it does later. */
const BY_TIME_BELOW = 0.9;
/**
 * How long the push takes to rise by as much as the car comes to, about when the car begins to move, s. A push that
 * rises evenly over 0.15 to 0.5 s gives as much; one that rises softly, several times as much; a sudden one nothing
 * (ramps of simulated launches; our own estimate, known to all of itself either way).
 */
const SOFT_START_S = 0.7;
/** Reckoned by speed, a launch is taken to accelerate at least this share of what it comes to. */
const SLOWEST_SHARE = 0.3;

export interface Replay {
  /** Change of the time at which a speed is reached that was measured at this instant, s; NaN if never reached. */
  speedChangeS(atS: number): number;
  /** Change of the time at which the distance is covered that was measured at this instant, s. */
  distanceChangeS(atS: number): number;
  /**
   * By how much longer the car has been moving when its push has come in, s: held back by less it begins to move
   * earlier in the driver's own movement.
   */
  readonly earlierS: number;
  /** Standard uncertainty of these changes from the noise of the acceleration, s. */
  noiseS(atS: number): number;
}

/**
 * @param gainMps2 δ at each node of the pull: by how much the car accelerates harder on the reference road.
 * @param launchByTime whether the stretch before the first full acceleration goes by time; by speed otherwise.
 */
export function replay(pull: Pull, gainMps2: Float64Array, launchByTime = true): Replay {
  const { timeS, speedMps, accelerationMps2, accelerationSd, widthS } = pull;
  const n = timeS.length;
  const reference = new Float64Array(n);
  for (let i = 0; i < n; i++) reference[i] = accelerationMps2[i]! + gainMps2[i]!;
  /** Greatest acceleration from here on. */
  const later = new Float64Array(n);
  let greatest = Number.NEGATIVE_INFINITY;
  for (let i = n - 1; i >= 0; i--) {
    greatest = Math.max(greatest, reference[i]!);
    later[i] = greatest;
  }
  /** Time, speed and place of the reference run less those of the measured one, at each node. */
  const lateS = new Float64Array(n);
  const fasterMps = new Float64Array(n);
  const aheadM = new Float64Array(n);
  const variance = new Float64Array(n);
  let launched = false;
  for (let i = 1; i < n; i++) {
    const stepS = timeS[i]! - timeS[i - 1]!;
    const gain = (gainMps2[i]! + gainMps2[i - 1]!) / 2;
    const reach = (later[i]! + later[i - 1]!) / 2;
    const now = (reference[i]! + reference[i - 1]!) / 2;
    const full = now >= BY_TIME_BELOW * reach;
    const byTime = !full && (launched || launchByTime);
    let late = lateS[i - 1]!;
    let faster = fasterMps[i - 1]!;
    let ahead = aheadM[i - 1]!;
    let added = 0;
    if (byTime) {
      faster += gain * stepS;
      ahead += ((faster + fasterMps[i - 1]!) / 2) * stepS;
    } else {
      launched ||= full;
      if (faster !== 0) {
        const backS = -faster / now;
        ahead += (speedMps[i - 1]! + faster / 2) * backS;
        late += backS;
        faster = 0;
      }
      const share = gain / Math.max(now, SLOWEST_SHARE * reach);
      late -= share * stepS;
      ahead -= share * stepS * ((speedMps[i]! + speedMps[i - 1]!) / 2);
      // Slopes of overlapping lines go together over about the width of one.
      const sd = (share / Math.max(now, SLOWEST_SHARE * reach)) * accelerationSd[i]!;
      added = sd * sd * stepS * Math.max(widthS[i]!, stepS);
    }
    const stuck = !(reach > 0);
    lateS[i] = stuck ? Number.NaN : late;
    fasterMps[i] = stuck ? Number.NaN : faster;
    aheadM[i] = stuck ? Number.NaN : ahead;
    variance[i] = variance[i - 1]! + added;
  }
  const at = (values: Float64Array, atS: number): number => {
    let low = 0;
    let high = n - 1;
    while (high - low > 1) {
      const middle = (low + high) >> 1;
      if (timeS[middle]! <= atS) low = middle;
      else high = middle;
    }
    const share = Math.min(1, Math.max(0, (atS - timeS[low]!) / (timeS[high]! - timeS[low]!)));
    return values[low]! + share * (values[high]! - values[low]!);
  };
  return {
    earlierS: later[0]! > 0 ? (SOFT_START_S * gainMps2[0]!) / later[0]! : Number.NaN,
    speedChangeS(atS) {
      const faster = at(fasterMps, atS);
      return at(lateS, atS) - (faster === 0 ? 0 : faster / at(later, atS));
    },
    distanceChangeS(atS) {
      const ahead = at(aheadM, atS);
      const speed = at(speedMps, atS) + at(fasterMps, atS);
      // −ahead = v s + a s²/2 in the form that does not cancel where acceleration is small.
      const left = -ahead;
      const a = at(reference, atS);
      const root = Math.sqrt(Math.max(0, speed * speed + 2 * a * left));
      return at(lateS, atS) + (left === 0 ? 0 : (2 * left) / (speed + root));
    },
    noiseS: atS => Math.sqrt(at(variance, atS)),
  };
}
