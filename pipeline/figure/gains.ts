/** How much later one run reaches each speed than another, and how sure that is. */
import type { StartRule } from '../run/run.ts';
import { mpsToKmh } from '../units.ts';
import type { Chosen } from './choose.ts';
import type { NotMade } from './figure.ts';
import { localFit, slopeWindowS } from './local-slope.ts';
import { firstPassing, interpolate, standingStartSeries } from './run-series.ts';

/** At one speed: how much later the second run reached it, and how sure that is. */
export interface Gain {
  readonly kmh: number;
  readonly s: number;
  /** Expanded, k = 2. */
  readonly uncertaintyS: number;
}

/** The gain of one run on another at each whole speed both passed; the reason where there is none. */
export function gainsOf(ahead: Chosen, behind: Chosen, rule: StartRule): readonly Gain[] | NotMade {
  const a = timesToSpeeds(ahead, rule);
  const b = timesToSpeeds(behind, rule);
  const gains = [...a].flatMap(([kmh, s]): Gain[] => {
    const later = b.get(kmh);
    if (later === undefined) return [];
    const uncertaintyS = Math.hypot(uncertaintyAt(ahead, kmh, rule), uncertaintyAt(behind, kmh, rule));
    return [{ kmh, s: later - s, uncertaintyS }];
  });
  return gains.length < 2 ? { reason: 'The two runs share no range of speed with readings enough.' } : gains;
}

/** Below this the readings are mostly noise, km/h. */
const FIRST_KMH = 3;
/** A speed stands still where passing it takes this many times as long as passing its neighbours does. */
const STANDS_STILL = 3;
/** How far its neighbours reach, km/h on both sides. */
const NEIGHBOURS_KMH = 8;

/**
 * The times at which whole speeds are passed, s by km/h, on speeds smoothed by a line over the window.
 * Left out are speeds at which the car hardly gains any, as in a gear change: there a time says nothing.
 */
function timesToSpeeds({ attempt }: Chosen, rule: StartRule): ReadonlyMap<number, number> {
  const series = standingStartSeries(attempt, 'first-movement');
  if (series === undefined) return new Map();
  const windowS = slopeWindowS(attempt.trace.rateHz);
  const { value } = localFit(series.timeS, series.speedKmh, windowS);
  const points = series.timeS
    .map((s, index) => ({ s, kmh: value[index]! }))
    .filter(({ s, kmh }) => s >= windowS / 2 && Number.isFinite(kmh));
  const timeS = points.map(({ s }) => s);
  const speedKmh = points.map(({ kmh }) => kmh);
  const passed = new Map<number, number>();
  for (let kmh = FIRST_KMH; kmh <= Math.max(...speedKmh); kmh += 1) {
    const s = firstPassing(timeS, speedKmh, kmh);
    if (s !== undefined) passed.set(kmh, s);
  }
  const stepAt = (kmh: number): number =>
    (passed.get(kmh + 1) ?? Number.NaN) - (passed.get(kmh - 1) ?? Number.NaN);
  const lateS = rule === 'one-foot-rollout' ? (attempt.measurement.start?.rolloutS ?? 0) : 0;
  return new Map(
    [...passed].flatMap(([kmh, s]) => {
      const around = Array.from({ length: 2 * NEIGHBOURS_KMH + 1 }, (_, nth) =>
        stepAt(kmh - NEIGHBOURS_KMH + nth),
      )
        .filter(Number.isFinite)
        .sort((x, y) => x - y);
      const usual = around[Math.floor(around.length / 2)] ?? Number.POSITIVE_INFINITY;
      return stepAt(kmh) > STANDS_STILL * usual ? [] : [[kmh, s - lateS] as const];
    }),
  );
}

/** Stretches without a speed left out between. */
export function stretches(gains: readonly Gain[]): readonly (readonly Gain[])[] {
  const parts: Gain[][] = [];
  for (const gain of gains) {
    const part = parts.at(-1);
    if (part !== undefined && gain.kmh - part.at(-1)!.kmh === 1) part.push(gain);
    else parts.push([gain]);
  }
  return parts;
}

/** Expanded uncertainty of the time to a speed, between the splits of the run by straight line, s. */
function uncertaintyAt({ attempt }: Chosen, kmh: number, rule: StartRule): number {
  const splits = attempt.measurement.speedSplits
    .filter(({ fromMps, startRule }) => fromMps === 0 && startRule === rule)
    .map(({ toMps, uncertaintyS }) => ({ kmh: mpsToKmh(toMps), s: uncertaintyS }))
    .sort((a, b) => a.kmh - b.kmh);
  const after = splits.findIndex(split => split.kmh >= kmh);
  if (splits.length === 0) return attempt.measurement.start?.uncertaintyS ?? Number.NaN;
  if (after === 0) return splits[0]!.s;
  if (after < 0) return splits.at(-1)!.s;
  const low = splits[after - 1]!;
  const high = splits[after]!;
  return interpolate(low.kmh, low.s, high.kmh, high.s, kmh);
}
