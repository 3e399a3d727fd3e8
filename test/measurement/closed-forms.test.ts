/** Distance, greatest acceleration, top speed and braking of readings put down by hand. */
import { describe, expect, it } from 'vitest';
import { brakingOnset, meanFullyDevelopedMps2 } from '../../pipeline/measurement/braking.ts';
import { creepBefore, withoutCreep } from '../../pipeline/measurement/creep.ts';
import { crossingBudget } from '../../pipeline/measurement/crossing-budget.ts';
import { measureLog } from '../../pipeline/measurement/measure.ts';
import { measurePeak } from '../../pipeline/measurement/peak-acceleration.ts';
import { shiftsOf } from '../../pipeline/measurement/shifts.ts';
import { betweenCrossings, lastIndexAtOrBefore, layTape } from '../../pipeline/measurement/tape.ts';
import { thresholdStartS } from '../../pipeline/measurement/threshold-clock.ts';
import { measureTop } from '../../pipeline/measurement/top-speed.ts';
import type { Run } from '../../pipeline/run/run.ts';
import { type Point, traceOf } from '../trace/points.ts';
import { motionToLog } from './trajectories.ts';

const every = (intervalS: number, count: number, speedAt: (t: number) => number): Point[] =>
  Array.from({ length: count }, (_, k): Point => [k * intervalS, speedAt(k * intervalS)]);
const itemsOf = (items: readonly { readonly source: string; readonly standard: number }[]) =>
  Object.fromEntries(items.map(({ source, standard }) => [source, standard]));

describe('a tape along an even acceleration', () => {
  // 3 m/s² from rest, read four times a second; laid at 0.6 s, where the car does 1.8 m/s.
  const trace = traceOf(
    every(0.25, 41, t => 3 * t),
    { rateHz: 4, noiseMps: 0.02 },
  );
  const tape = layTape(trace, 0.6, 1.8, 0.01);
  const alongM = (t: number): number => 1.5 * (t * t - 0.36);

  it('has the distance and the speed of every instant, between readings too', () => {
    for (const t of [0.6, 0.7, 0.75, 1, 3.33, 9.99, 10]) {
      expect(tape.at(t)).toBeCloseTo(alongM(t), 9);
      expect(tape.speedAt(t)).toBeCloseTo(3 * t, 9);
    }
    // Beyond the last reading it goes on at that one's speed.
    expect(tape.at(10.5)).toBeCloseTo(alongM(10) + 15, 9);
    expect(tape.speedAt(10.5)).toBe(30);
  });

  it('has the instant of every distance, up to a reading', () => {
    for (const t of [0.61, 0.75, 2.5, 7.77]) expect(tape.timeOf(alongM(t), 40)).toBeCloseTo(t, 9);
    expect(tape.timeOf(alongM(10), 40)).toBeCloseTo(10, 9);
    expect(tape.timeOf(alongM(10) + 1e-6, 40)).toBeUndefined();
    expect(tape.timeOf(alongM(5), 19)).toBeUndefined();
    expect(tape.timeOf(0, 2)).toBeUndefined();
  });

  it('is doubtful by noise with the root of its time, by the receiver with its time, by gaps with what they hide', () => {
    const at = (t: number) => itemsOf(tape.uncertaintyAt(t));
    expect(at(4.6).noise).toBeCloseTo(0.02 * Math.sqrt(0.25 * 4), 12);
    expect(at(4.6).receiver).toBeCloseTo(0.04, 12);
    expect(at(4.6).sampling).toBeUndefined();
    expect(at(0.5)).toEqual({});
    const gaps = [
      { index: 2, fromS: 0.5, toS: 0.75 },
      { index: 8, fromS: 2, toS: 2.25 },
    ];
    const holed = layTape({ ...trace, gaps }, 0.6, 1.8);
    // A change of 0.75 m/s over 0.25 s, as a rectangle.
    const one = (0.75 * 0.25) / Math.sqrt(12);
    expect(itemsOf(holed.uncertaintyAt(1.9)).gap).toBeCloseTo(one, 12);
    expect(itemsOf(holed.uncertaintyAt(2.1)).gap).toBeCloseTo(one * Math.SQRT2, 12);
    expect(itemsOf(layTape({ ...trace, gaps }, 0.8, 2.4).uncertaintyAt(1.9)).gap).toBeUndefined();
  });

  it('is doubtful by bends between readings', () => {
    const bent = traceOf(
      every(0.5, 21, t => t * t),
      { rateHz: 2, noiseMps: 0 },
    );
    // Second differences are 2 × 0.25; from the reading after 0.1 s to 4 s there are six pairs of them.
    const items = itemsOf(layTape(bent, 0.1, 0.01).uncertaintyAt(4));
    expect(items).toEqual({ sampling: expect.closeTo((Math.sqrt(6 * 0.25) * 0.5) / 12, 12) });
  });

  it('between two crossings takes its noise from these', () => {
    expect(betweenCrossings(tape.uncertaintyAt(4.6)).map(({ source }) => source)).toEqual(['receiver']);
  });
});

describe('the last reading at or before an instant', () => {
  it('is found among rising ones', () => {
    const times = Float64Array.of(1, 2, 4);
    expect([0.9, 1, 1.9, 2, 3.9, 4, 9].map(t => lastIndexAtOrBefore(times, t))).toEqual([
      -1, 0, 0, 1, 1, 2, 2,
    ]);
  });
});

describe('the greatest acceleration', () => {
  it('is that of the steepest half second', () => {
    const trace = traceOf(
      every(0.1, 61, t => (t < 2 ? 3 * t : t < 3 ? 6 + 5 * (t - 2) : 11 + 2 * (t - 3))),
      { rateHz: 10, noiseMps: 0 },
    );
    expect(measurePeak(trace, 0, 60).peakMps2).toBeCloseTo(5, 9);
    expect(measurePeak(trace, 0, 60).peakUncertaintyMps2).toBeCloseTo(0, 9);
    expect(measurePeak(trace, 0, 20).peakMps2).toBeCloseTo(3, 9);
    expect(measurePeak(trace, 31, 60).peakMps2).toBeCloseTo(2, 9);
    // Lines over a gap are left out: what is left beside it is 0.5 s on either side, less steep.
    const gap = { ...trace, gaps: [{ index: 25, fromS: 2.5, toS: 2.6 }] };
    expect(measurePeak(gap, 0, 60).peakMps2).toBeCloseTo(5, 9);
    const two = {
      ...trace,
      gaps: [23, 27].map(index => ({ index, fromS: index / 10, toS: (index + 1) / 10 })),
    };
    expect(measurePeak(two, 0, 60).peakMps2).toBeLessThan(5);
  });

  it('is none of what only slows down, and of less than half a second', () => {
    const none = { peakMps2: 0, peakUncertaintyMps2: 0 };
    const falling = traceOf(
      every(0.1, 21, t => 30 - 2 * t),
      { rateHz: 10 },
    );
    expect(measurePeak(falling, 0, 20)).toEqual(none);
    const rising = traceOf(
      every(0.1, 21, t => 2 * t),
      { rateHz: 10 },
    );
    expect(measurePeak(rising, 0, 4)).toEqual(none);
    expect(measurePeak(rising, 0, 5).peakMps2).toBeCloseTo(2, 9);
  });

  it('is doubtful where readings are so few that the half second stretches', () => {
    const at = (intervalS: number) =>
      measurePeak(
        traceOf(
          every(intervalS, 21, t => 2 * t),
          { rateHz: 1 / intervalS, noiseMps: 0 },
        ),
        0,
        20,
      ).peakUncertaintyMps2;
    // Three readings a second apart span 2 s: four times the half second, 2.5 more than one and a half; 2.5 % each, twice.
    expect(at(1)).toBeCloseTo(2 * 0.025 * 2.5 * 2, 9);
    expect(at(0.5)).toBeCloseTo(2 * 0.025 * 0.5 * 2, 9);
    expect(at(0.25)).toBeCloseTo(0, 9);
  });
});

describe('a log without any noise', () => {
  it('is measured like any other: its figures are finite', () => {
    // Exact in binary, so that neither rest nor third differences show any scatter.
    for (const rateHz of [8, 16]) {
      const log = motionToLog(t => (t < 4 ? 0 : Math.min(4 * (t - 4), 32)), { rateHz, lastsS: 30 });
      const { trace, measurements } = measureLog(log);
      expect(trace.noiseMps).toBe(0);
      expect(measurements).toHaveLength(1);
      const [run] = measurements;
      expect(run!.peakMps2).toBeCloseTo(4, 9);
      const split = run!.speedSplits.find(
        ({ startRule, toMps }) => startRule === 'first-movement' && toMps > 27.7,
      )!;
      expect(Math.abs(split.timeS - split.toMps / 4)).toBeLessThan(split.uncertaintyS);
      for (const one of [...run!.speedSplits, ...run!.distanceSplits]) {
        expect(Number.isFinite(one.timeS) && Number.isFinite(one.uncertaintyS)).toBe(true);
      }
      expect(Number.isFinite(run!.topUncertaintyMps)).toBe(true);
      expect(shiftsOf(trace, run!).shifts).toEqual([]);
    }
  });
});

describe('the top speed', () => {
  /** Rises at a to 2 s, falls at b from there. */
  const pointed = (rise: number, fall: number, rateHz: number) =>
    traceOf(
      every(1 / rateHz, 4 * rateHz + 1, t => (t <= 2 ? 30 + rise * (t - 2) : 30 - fall * (t - 2))),
      { rateHz, noiseMps: 0.001 },
    );
  const standard = (trace: ReturnType<typeof pointed>, receiverMps = 0): number =>
    measureTop(trace, 0, trace.timeS.length - 1, receiverMps).topUncertaintyMps / 2;

  it('of a point is the point', () => {
    for (const rateHz of [5, 10, 50]) {
      const { topMps } = measureTop(pointed(2, 4, rateHz), 0, 4 * rateHz, 0);
      expect(Math.abs(topMps - 30)).toBeLessThan(0.02);
    }
  });

  it('is doubtful by the receiver, and by what a filter takes off a point', () => {
    for (const rateHz of [5, 10, 50]) {
      const trace = pointed(2, 4, rateHz);
      const plain = standard(trace);
      expect(Math.sqrt(standard(trace, 0.05) ** 2 - plain ** 2)).toBeCloseTo(0.05, 9);
      // b τ ln(1 + a/b), nine tenths of it.
      const lost = Math.sqrt(standard({ ...trace, filterS: 0.1 }) ** 2 - plain ** 2);
      expect(lost).toBeCloseTo(0.9 * 4 * 0.1 * Math.log(1 + 2 / 4), 6);
    }
  });

  it('is doubtful by what lies between two readings: the lines of both sides meet above them', () => {
    const unseen = (rateHz: number): number => standard(pointed(2, 4, rateHz));
    // 0.6 of a b/(a + b) over the rate, less where the interval is short beside a quarter of a second.
    expect(unseen(5)).toBeCloseTo((0.6 * (1 / (0.25 * 5)) * (8 / 6)) / 5, 2);
    expect(unseen(2)).toBeGreaterThan((0.6 * (8 / 6)) / 2 - 0.001);
    const flat = traceOf(
      every(0.1, 41, t => Math.min(30, 10 * t)),
      { rateHz: 10, noiseMps: 0.001 },
    );
    expect(measureTop(flat, 0, 40, 0).topMps).toBeCloseTo(30, 2);
    expect(measureTop(flat, 0, 40, 0).topUncertaintyMps).toBeLessThan(0.01);
  });

  it('is not that of one wild reading', () => {
    const trace = pointed(2, 2, 10);
    trace.speedMps[33] = 60;
    expect(measureTop(trace, 0, 40, 0).topMps).toBeLessThan(30.1);
  });
});

describe('braking', () => {
  it('begins with the last reading before speed falls faster than coasting', () => {
    const trace = traceOf(
      every(0.1, 51, t => (t <= 2 ? 30 - t : 28 - 8 * (t - 2))),
      { rateHz: 10 },
    );
    // The line over three tenths of a second, or four where these fall short by a last bit, shows the first tenth of braking.
    expect(trace.timeS[brakingOnset(trace, 0, 50)]).toBeCloseTo(1.7, 9);
    expect(brakingOnset(trace, 0, 15)).toBe(0);
    expect(brakingOnset(trace, 30, 50)).toBe(30);
  });

  it('has the mean of the regulation: difference of squares over twice the way', () => {
    expect(meanFullyDevelopedMps2(20, 10, 5, 20)).toBe(10);
    // 25.92 is 2 × 3.6², of speeds in km/h.
    expect(meanFullyDevelopedMps2(80 / 3.6, 10 / 3.6, 10, 42)).toBeCloseTo(
      (80 ** 2 - 10 ** 2) / (25.92 * 32),
      12,
    );
  });
});

describe('a crossing', () => {
  it('has its noise told apart from that of the stamps, and what the receiver and repeats add', () => {
    const trace = traceOf([
      [0, 1],
      [1, 2],
    ]);
    const crossing = { timeS: 1, index: 0, slopeMps2: -4, noiseS: 0.01, interpolationS: 0.002, gapS: 0.003 };
    expect(itemsOf(crossingBudget(trace, { ...crossing, stampShare: 0.6 }, 0.02))).toEqual({
      noise: expect.closeTo(0.008, 12),
      jitter: expect.closeTo(0.006, 12),
      interpolation: 0.002,
      receiver: expect.closeTo(0.005, 12),
      gap: 0.003,
    });
    const held = crossingBudget({ ...trace, heldS: 0.6 }, { ...crossing, slopeMps2: 0 }, 0.02);
    expect(itemsOf(held)).toMatchObject({
      noise: 0.01,
      receiver: expect.closeTo(2, 12),
      'held-values': expect.closeTo(0.6 / Math.sqrt(12), 12),
    });
  });
});

describe('a start', () => {
  const run = (endIndex: number, beginIndex = 0): Run => ({
    number: 1,
    kind: 'standing-start',
    status: 'complete',
    beginIndex,
    endIndex,
  });

  it('by a threshold is the first reading at or over 1 km/h', () => {
    const trace = traceOf([
      [0, 0],
      [1, 0.2777],
      [2, 1 / 3.6],
      [3, 5],
    ]);
    expect(thresholdStartS(trace, { run: run(3) })).toBe(2);
    expect(thresholdStartS(trace, { run: run(1) })).toBeUndefined();
    expect(thresholdStartS(trace, { run: run(3, 3) })).toBe(3);
  });

  /** Rest to 1 s, a roll at an even speed to 3 s, then 5 m/s². */
  const crept = (creepMps: number, toS = 3) =>
    traceOf(
      every(0.1, 60, t => (t <= 1.05 ? 0 : t <= toS ? creepMps : creepMps + 5 * (t - toS))),
      { rateHz: 10 },
    );

  it('out of a creep leaves that out, and tells how far it went', () => {
    const trace = crept(0.5);
    const creep = creepBefore(trace, run(59, 10))!;
    expect(creep.speedMps).toBeCloseTo(0.5, 9);
    // Nothing of the last 0.45 s before the straight part, drawn back to rest at 2.9 s.
    expect(trace.timeS[creep.index]).toBeCloseTo(2.4, 9);
    expect(creep.distanceM).toBeCloseTo(0.5 * 1.35, 9);
    const without = withoutCreep(trace, creep);
    expect(without.speedMps[5]).toBeCloseTo(0.5, 9);
    expect(without.speedMps[25]).toBeCloseTo(0, 9);
    expect(without.speedMps[50]).toBeCloseTo(5 * 2, 9);
  });

  it('from rest, from a roll that is faster than a creep, and of a gentle car is none of a creep', () => {
    expect(creepBefore(crept(0.5, 1.1), run(59, 10))).toBeUndefined();
    expect(creepBefore(crept(1.3), run(59, 10))).toBeUndefined();
    expect(creepBefore(crept(1.19), run(59, 10))?.speedMps).toBeCloseTo(1.19, 9);
    const gentle = traceOf(
      every(0.1, 80, t => (t <= 1 ? 0 : t <= 3 ? 0.5 : 0.5 + 0.9 * (t - 3))),
      { rateHz: 10 },
    );
    expect(creepBefore(gentle, run(79, 10))).toBeUndefined();
  });
});
