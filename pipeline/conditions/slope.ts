/** How a road rises along the way a car takes it. Slopes are fractions: 0.01 rises 1 m in 100 m. */

/** Distance along the road and height, m. */
export type ProfilePoint = readonly [distanceM: number, heightM: number];

export interface SlopeProfile {
  /** Height over the start, m; beyond its ends the nearest stretch goes on. */
  heightAt(distanceM: number): number;
  slopeAt(distanceM: number): number;
  /** Mean rise from one place to another. */
  meanSlope(fromM: number, toM: number): number;
  /** Stretch that is known, m; without ends for a road of one slope. */
  readonly fromM: number;
  readonly toM: number;
}

/** A road that rises alike all along; the slope in percent of distance as people write it. */
export function constantSlope(slopePct: number): SlopeProfile {
  const slope = slopePct / 100;
  return {
    heightAt: distanceM => slope * distanceM,
    slopeAt: () => slope,
    meanSlope: () => slope,
    fromM: Number.NEGATIVE_INFINITY,
    toM: Number.POSITIVE_INFINITY,
  };
}

/**
 * A surveyed road, straight between its points, driven in the direction of rising distance.
 * @throws RangeError for fewer than two points, or where distance does not rise.
 */
export function surveyedSlope(points: readonly ProfilePoint[]): SlopeProfile {
  const first = points[0];
  const last = points.at(-1);
  if (first === undefined || last === undefined || points.length < 2) {
    throw new RangeError('A profile has at least two points');
  }
  const slopes = points.slice(1).map(([toM, toHeightM], i) => {
    const [fromM, fromHeightM] = points[i]!;
    if (!(toM > fromM)) throw new RangeError(`A profile goes on from ${fromM} m, not back to ${toM} m`);
    return (toHeightM - fromHeightM) / (toM - fromM);
  });
  const stretchAt = (distanceM: number): number => {
    let low = 0;
    let high = slopes.length - 1;
    while (low < high) {
      const middle = (low + high + 1) >> 1;
      if (points[middle]![0] <= distanceM) low = middle;
      else high = middle - 1;
    }
    return low;
  };
  const heightAt = (distanceM: number): number => {
    const i = stretchAt(distanceM);
    const [fromM, fromHeightM] = points[i]!;
    return fromHeightM + slopes[i]! * (distanceM - fromM) - first[1];
  };
  const slopeAt = (distanceM: number): number => slopes[stretchAt(distanceM)]!;
  return {
    heightAt,
    slopeAt,
    meanSlope: (fromM, toM) =>
      toM === fromM ? slopeAt(fromM) : (heightAt(toM) - heightAt(fromM)) / (toM - fromM),
    fromM: first[0],
    toM: last[0],
  };
}

/**
 * The same road as a car meets it that starts `startM` along it: distance from its own start, and turned round
 * where it goes against the profile.
 */
export function drivenFrom(profile: SlopeProfile, startM: number, against = false): SlopeProfile {
  const way = against ? -1 : 1;
  const place = (distanceM: number): number => startM + way * distanceM;
  const ends = [way * (profile.fromM - startM), way * (profile.toM - startM)];
  return {
    heightAt: distanceM => profile.heightAt(place(distanceM)) - profile.heightAt(startM),
    slopeAt: distanceM => way * profile.slopeAt(place(distanceM)),
    meanSlope: (fromM, toM) => way * profile.meanSlope(place(fromM), place(toM)),
    fromM: Math.min(...ends),
    toM: Math.max(...ends),
  };
}

export interface TwoWayMean {
  readonly mean: number;
  /** Half of what the directions differ by, first less second. */
  readonly halfDifference: number;
  readonly says: string;
}

/** What the mean of two opposite directions leaves out and what it keeps; printed beside every such mean. */
export const TWO_WAY_STATEMENT =
  'The mean of two opposite directions leaves out the slope of the road, which helps one way what it costs the other, ' +
  'to first order. It does not leave out wind: the mean drag of both ways is higher than in still air by the square of ' +
  'wind speed over road speed.';

/** Mean of a figure over two opposite directions. Each direction counts once, however often it was driven. */
export function twoWayMean(one: readonly number[], other: readonly number[]): TwoWayMean {
  if (one.length === 0 || other.length === 0) throw new RangeError('Both directions have at least one run');
  const mean = (values: readonly number[]): number =>
    values.reduce((sum, value) => sum + value, 0) / values.length;
  const [a, b] = [mean(one), mean(other)];
  return { mean: (a + b) / 2, halfDifference: (a - b) / 2, says: TWO_WAY_STATEMENT };
}
