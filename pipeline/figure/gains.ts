/** How much later one run reaches each speed than another, and how sure that is. */

import { publishedSplits } from '../result/measures.ts';
import type { StartRule } from '../run/run.ts';
import { type ForReaders, type SpeedUnit, speedScale, speedUnitOf } from '../speed-unit.ts';
import type { Chosen } from './choose.ts';
import type { NotMade } from './figure.ts';
import { localFit, slopeWindowS } from './local-slope.ts';
import { firstPassing, interpolate, standingStartSeries } from './run-series.ts';
import { notMadeWords } from './words/not-made.ts';

/** At one speed: how much later the second run reached it, and how sure that is. */
export interface Gain {
  /** A whole number of the unit of those it is drawn for. */
  readonly speed: number;
  readonly s: number;
  /** Expanded, k = 2. */
  readonly uncertaintyS: number;
}

/** The gain of one run on another at each whole speed both passed; the reason where there is none. */
export function gainsOf(
  ahead: Chosen,
  behind: Chosen,
  rule: StartRule,
  readers: ForReaders,
): readonly Gain[] | NotMade {
  const a = timesToSpeeds(ahead, rule, readers);
  const b = timesToSpeeds(behind, rule, readers);
  const gains = [...a].flatMap(([speed, s]): Gain[] => {
    const later = b.get(speed);
    if (later === undefined) return [];
    const uncertaintyS = Math.hypot(
      uncertaintyAt(ahead, speed, rule, readers),
      uncertaintyAt(behind, speed, rule, readers),
    );
    return [{ speed, s: later - s, uncertaintyS }];
  });
  return gains.length < 2 ? { reason: notMadeWords(readers).noRangeShared } : gains;
}

/** Below this the readings are mostly noise: 3 km/h, in whole numbers of the unit. */
const FIRST: Readonly<Record<SpeedUnit, number>> = { 'km/h': 3, mph: 2 };
/** A speed stands still where passing it takes this many times as long as passing its neighbours does. */
const STANDS_STILL = 3;
/** How far its neighbours reach on both sides: 8 km/h. */
const NEIGHBOURS: Readonly<Record<SpeedUnit, number>> = { 'km/h': 8, mph: 5 };

/**
 * The times at which whole speeds are passed, s by speed, on speeds smoothed by a line over the window.
 * Left out are speeds at which the car hardly gains any, as in a gear change: there a time says nothing.
 */
function timesToSpeeds(
  { attempt }: Chosen,
  rule: StartRule,
  readers: ForReaders,
): ReadonlyMap<number, number> {
  const series = standingStartSeries(attempt, 'first-movement', readers);
  const unit = speedUnitOf(readers);
  const neighbours = NEIGHBOURS[unit];
  if (series === undefined) return new Map();
  const windowS = slopeWindowS(attempt.trace.rateHz);
  const { value } = localFit(series.timeS, series.speed, windowS);
  const points = series.timeS
    .map((s, index) => ({ s, speed: value[index]! }))
    .filter(({ s, speed }) => s >= windowS / 2 && Number.isFinite(speed));
  const timeS = points.map(({ s }) => s);
  const speeds = points.map(({ speed }) => speed);
  const passed = new Map<number, number>();
  for (let speed = FIRST[unit]; speed <= Math.max(...speeds); speed += 1) {
    const s = firstPassing(timeS, speeds, speed);
    if (s !== undefined) passed.set(speed, s);
  }
  const stepAt = (speed: number): number =>
    (passed.get(speed + 1) ?? Number.NaN) - (passed.get(speed - 1) ?? Number.NaN);
  const lateS = rule === 'one-foot-rollout' ? (attempt.measurement.start?.rolloutS ?? 0) : 0;
  return new Map(
    [...passed].flatMap(([speed, s]) => {
      const around = Array.from({ length: 2 * neighbours + 1 }, (_, nth) => stepAt(speed - neighbours + nth))
        .filter(Number.isFinite)
        .sort((x, y) => x - y);
      const usual = around[Math.floor(around.length / 2)] ?? Number.POSITIVE_INFINITY;
      return stepAt(speed) > STANDS_STILL * usual ? [] : [[speed, s - lateS] as const];
    }),
  );
}

/** Stretches without a speed left out between. */
export function stretches(gains: readonly Gain[]): readonly (readonly Gain[])[] {
  const parts: Gain[][] = [];
  for (const gain of gains) {
    const part = parts.at(-1);
    if (part !== undefined && gain.speed - part.at(-1)!.speed === 1) part.push(gain);
    else parts.push([gain]);
  }
  return parts;
}

/** Expanded uncertainty of the time to a speed, between the splits of the run by straight line, s. */
function uncertaintyAt({ attempt }: Chosen, speed: number, rule: StartRule, readers: ForReaders): number {
  const { fromMps } = speedScale(readers);
  const splits = publishedSplits(attempt.measurement, rule, readers)
    .map(({ toMps, uncertaintyS }) => ({ speed: fromMps(toMps), s: uncertaintyS }))
    .sort((a, b) => a.speed - b.speed);
  const after = splits.findIndex(split => split.speed >= speed);
  if (splits.length === 0) return attempt.measurement.start?.uncertaintyS ?? Number.NaN;
  if (after === 0) return splits[0]!.s;
  if (after < 0) return splits.at(-1)!.s;
  const low = splits[after - 1]!;
  const high = splits[after]!;
  return interpolate(low.speed, low.s, high.speed, high.s, speed);
}
