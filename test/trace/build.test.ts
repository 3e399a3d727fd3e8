import { describe, expect, it } from 'vitest';
import { logToTrace } from '../../pipeline/trace/build.ts';
import { kmhToMps, mpsToKmh } from '../../pipeline/units.ts';
import { motionToLog, readingsToLog } from '../measurement/trajectories.ts';
import { randomFromSeed } from '../simulate/random.ts';

const KMH = kmhToMps(1);

/** Up at 3 m/s², a cruise, and down at 2 m/s², from and to rest. */
const upAndDown = (t: number): number => Math.max(0, Math.min(3 * (t - 5), 30, 2 * (45 - t)));

/** The same log as a recorder that refreshes once a second and writes ten rows a second. */
function heldLog(refreshS: number, rowHz: number, lastsS = 60, stepMps = KMH) {
  const count = lastsS * rowHz;
  const timeS = Float64Array.from({ length: count }, (_, i) => i / rowHz);
  const speedMps = timeS.map(t => {
    const sampledS = Math.floor(t / refreshS + 1e-9) * refreshS;
    return Math.round(upAndDown(sampledS) / stepMps) * stepMps;
  });
  return readingsToLog(timeS, speedMps, stepMps);
}

describe('held values', () => {
  it.each([
    [1, 10],
    [0.5, 10],
    [1, 8],
  ])('are recognised where a reading refreshed every %d s fills %d rows a second', (refreshS, rowHz) => {
    const { trace, warnings } = logToTrace(heldLog(refreshS, rowHz));
    expect(trace.heldS).toBeCloseTo(refreshS, 1);
    expect(trace.rateHz).toBeCloseTo(1 / refreshS, 1);
    expect(warnings.map(({ code }) => code)).toEqual(['held-values']);
  });

  it('leave one reading a refresh while the speed stays the same', () => {
    const { trace } = logToTrace(heldLog(1, 10));
    const inCruise = trace.timeS.filter(t => t > 20 && t < 28);
    expect(inCruise.length).toBeGreaterThanOrEqual(7);
    expect(trace.gaps).toEqual([]);
  });

  it.each([1, 5, 10, 25, 100])('are not seen in fresh whole-km/h readings at %d Hz', rateHz => {
    const { trace } = logToTrace(motionToLog(upAndDown, { rateHz, lastsS: 60, stepMps: KMH }));
    expect(trace.heldS).toBeUndefined();
  });

  it('are not seen in slow cruising that flickers by one step', () => {
    const random = randomFromSeed(7);
    const log = motionToLog(t => 9 + 0.3 * Math.sin(t / 3) + 0.1 * random.normal(), {
      rateHz: 10,
      lastsS: 300,
      stepMps: KMH,
    });
    expect(logToTrace(log).trace.heldS).toBeUndefined();
  });
});

describe('spikes', () => {
  const clean = motionToLog(upAndDown, { rateHz: 10, lastsS: 60 });
  const withReadings = (changed: Readonly<Record<number, number>>) =>
    readingsToLog(
      clean.timeS,
      clean.speedMps.map((value, i) => changed[i] ?? value),
    );

  it('of one reading are left out and told with their line', () => {
    const { trace, warnings } = logToTrace(withReadings({ 203: kmhToMps(412) }));
    expect(trace.spikes).toHaveLength(1);
    expect(mpsToKmh(trace.spikes[0]!.speedMps)).toBeCloseTo(412, 6);
    expect(warnings).toEqual([expect.objectContaining({ code: 'spike', atS: 20.3, line: 205 })]);
    expect(warnings[0]!.text).toContain('412.0 km/h');
    expect(Math.max(...trace.speedMps)).toBeLessThanOrEqual(30);
    expect(trace.timeS.length).toBe(clean.timeS.length - 1);
  });

  it('of two readings, and drop-outs to 0, are left out too', () => {
    const { trace } = logToTrace(withReadings({ 203: 110, 204: 112, 240: 0 }));
    expect(trace.spikes.map(({ atS }) => atS)).toEqual([20.3, 20.4, 24]);
  });

  it('are not seen in noise, nor where the car brakes as hard as tyres can', () => {
    const random = randomFromSeed(3);
    for (const rateHz of [1, 10, 100]) {
      const log = motionToLog(
        t => Math.max(0, Math.min(6 * (t - 5), 40, 12 * (30 - t))) + 0.03 * random.normal(),
        {
          rateHz,
          lastsS: 40,
        },
      );
      expect(logToTrace(log).trace.spikes).toEqual([]);
    }
  });
});

describe('gaps', () => {
  it('are told with their place and never filled in', () => {
    const whole = motionToLog(upAndDown, { rateHz: 10, lastsS: 60 });
    const keep = Array.from(whole.timeS.keys()).filter(i => i <= 80 || i >= 93);
    const log = readingsToLog(
      Float64Array.from(keep, i => whole.timeS[i]!),
      Float64Array.from(keep, i => whole.speedMps[i]!),
    );
    const { trace, warnings } = logToTrace(log);
    expect(trace.gaps).toEqual([{ fromS: 8, toS: 9.3, index: 80 }]);
    expect(trace.timeS.length).toBe(keep.length);
    expect(warnings.map(({ code, atS, line }) => [code, atS, line])).toEqual([['gap', 8, 82]]);
  });

  it('are not seen where single readings are missing or steps are uneven', () => {
    const timeS = Float64Array.from({ length: 400 }, (_, i) => i / 10 + (i % 3) * 0.02);
    const log = readingsToLog(timeS, timeS.map(upAndDown));
    expect(logToTrace(log).trace.gaps).toEqual([]);
  });
});

describe('noise', () => {
  const DAY_S = 400;
  /** Stands, drives, stands; noise folded at 0 as a magnitude is. */
  const noisy = (sdMps: number, fold: (value: number) => number) => {
    const random = randomFromSeed(11);
    const clean = motionToLog(t => upAndDown(t % 100), { rateHz: 10, lastsS: DAY_S });
    return readingsToLog(
      clean.timeS,
      clean.speedMps.map(value => fold(value + sdMps * random.normal())),
    );
  };

  it.each([0.01, 0.03])('of %d m/s is estimated within a tenth, folded or cut off at 0', sdMps => {
    for (const fold of [Math.abs, (value: number) => Math.max(0, value)]) {
      const { trace } = logToTrace(noisy(sdMps, fold));
      expect(trace.noiseMps / sdMps).toBeGreaterThan(0.9);
      expect(trace.noiseMps / sdMps).toBeLessThan(1.15);
    }
  });

  it('is never less than the recorder’s step over √12', () => {
    const { trace } = logToTrace(motionToLog(upAndDown, { rateHz: 10, lastsS: 60, stepMps: KMH }));
    expect(trace.noiseMps).toBeGreaterThanOrEqual(KMH / Math.sqrt(12));
  });

  it('adds no distance while the car stands', () => {
    const random = randomFromSeed(5);
    const log = motionToLog(() => Math.abs(0.03 * random.normal()), { rateHz: 10, lastsS: 600 });
    expect(logToTrace(log).trace.distanceM.at(-1)).toBe(0);
  });

  it('does not bend the distance of a drive', () => {
    const { trace } = logToTrace(noisy(0.03, Math.abs));
    const once = 5 * 30 + 30 * 15 + 7.5 * 30;
    expect(Math.abs(trace.distanceM.at(-1)! / (4 * once) - 1)).toBeLessThan(0.001);
  });
});
