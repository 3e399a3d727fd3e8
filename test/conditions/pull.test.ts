/** Readings made ready for a replay, and the replay itself where it goes by speed: closed forms. */
import { describe, expect, it } from 'vitest';
import { PULL_HALF_WIDTHS_S, readingsToPull, traceToPull } from '../../pipeline/conditions/pull.ts';
import { replay } from '../../pipeline/conditions/replay.ts';
import { measureLog } from '../../pipeline/measurement/measure.ts';
import type { RunMeasurement } from '../../pipeline/measurement/measurement.ts';
import { AT_S, fromRest, motionToLog } from '../measurement/trajectories.ts';

const RATE_HZ = 10;
const timesOf = (count: number): Float64Array => Float64Array.from({ length: count }, (_, i) => i / RATE_HZ);

describe('the lines through the readings of a pull', () => {
  const timeS = timesOf(61);
  const noisy = timeS.map((t, i) => 4 * t + (i % 2 === 0 ? 0.3 : -0.3));

  it('reach as far as their half width on either side, and as far as there are readings at the ends', () => {
    const { widthS, accelerationSd } = readingsToPull(
      timeS,
      timeS.map(t => 4 * t),
      0,
    );
    const first = PULL_HALF_WIDTHS_S[0]!;
    expect(widthS[30]).toBeCloseTo(2 * first, 9);
    expect(widthS[0]).toBeCloseTo(first, 9);
    expect(widthS[60]).toBeCloseTo(first, 9);
    expect(Math.max(...accelerationSd)).toBe(0);
  });

  it('are the least-squares lines, with the scatter these have', () => {
    const noiseMps = 0.01;
    const pull = readingsToPull(timeS, noisy, noiseMps);
    // Five readings 0.1 s apart: Σ(t − t̄)² is 0.1 s², and the slope sways by 0.01/√0.1.
    expect(pull.widthS[30]).toBeCloseTo(0.4, 9);
    expect(pull.accelerationSd[30]).toBeCloseTo(0.01 / Math.sqrt(0.1), 9);
    const byHand = [-2, -1, 0, 1, 2].reduce((sum, k) => sum + k * 0.1 * noisy[30 + k]!, 0) / 0.1;
    expect(pull.accelerationMps2[30]).toBeCloseTo(byHand, 9);
  });

  it('grow until they are steady to three parts in a hundred', () => {
    const widthAt = (noiseMps: number): number =>
      readingsToPull(
        timeS,
        timeS.map(t => 4 * t),
        noiseMps,
      ).widthS[30]!;
    // 3 % of 4 m/s² is 0.12 m/s²; five readings give noise/√0.1, seven noise/√0.28.
    expect(widthAt(0.1199 * Math.sqrt(0.1))).toBeCloseTo(0.4, 9);
    expect(widthAt(0.1201 * Math.sqrt(0.1))).toBeCloseTo(0.6, 9);
    expect(widthAt(0.1199 * Math.sqrt(0.28))).toBeCloseTo(0.6, 9);
    // Σ(t − t̄)² of 9, 15, 21, 31 readings, s²: 0.6, 2.8, 7.7, 24.8; then as wide as it gets.
    for (const [squares, widthS] of [
      [0.6, 0.8],
      [2.8, 1.4],
      [7.7, 2],
      [24.8, 3],
    ] as const) {
      expect(widthAt(0.1199 * Math.sqrt(squares))).toBeCloseTo(widthS, 9);
      expect(widthAt(0.1201 * Math.sqrt(squares))).toBeGreaterThan(widthS + 0.1);
    }
    expect(widthAt(9)).toBeCloseTo(4.4, 9);
  });

  it('hold three readings at least, however far apart', () => {
    const slow = readingsToPull(
      Float64Array.from({ length: 9 }, (_, i) => i),
      Float64Array.from({ length: 9 }, (_, i) => 2 * i),
      0,
    );
    expect([slow.widthS[0], slow.widthS[4], slow.widthS[8]]).toEqual([2, 2, 2]);
    for (const a of slow.accelerationMps2) expect(a).toBeCloseTo(2, 12);
  });

  it('have the distance of the speeds between', () => {
    const { distanceM } = readingsToPull(Float64Array.of(0, 1, 3, 4), Float64Array.of(0, 2, 6, 6), 0);
    expect([...distanceM]).toEqual([0, 1, 9, 15]);
  });
});

describe('the pull of a run', () => {
  const log = motionToLog(
    fromRest(s => Math.min(4 * s, 31)),
    { rateHz: RATE_HZ, lastsS: 16 },
  );
  const { trace, measurements } = measureLog(log);
  const [start] = measurements as [RunMeasurement];

  it('begins at rest with first movement and holds each later reading of the run', () => {
    const pull = traceToPull(trace, start)!;
    expect(pull.timeS[0]).toBe(start.start!.firstMovementS);
    expect(Math.abs(pull.timeS[0]! - AT_S)).toBeLessThan(0.03);
    expect(pull.speedMps[0]).toBe(0);
    const later = [...trace.timeS].filter(t => t > pull.timeS[0]! && t <= trace.timeS[start.run.endIndex]!);
    expect([...pull.timeS.subarray(1)]).toEqual(later);
    expect(pull.speedMps.at(-1)).toBe(trace.speedMps[start.run.endIndex]);
  });

  it('ends where the brakes come on', () => {
    const at = start.run.beginIndex + 30;
    const braked = {
      ...start,
      run: { ...start.run, braking: { beginIndex: at, endIndex: start.run.endIndex } },
    };
    expect(traceToPull(trace, braked)!.timeS.at(-1)).toBe(trace.timeS[at]);
  });

  it('of a rolling run begins with its first reading and its speed', () => {
    const { start: _, ...rest } = start;
    const at = start.run.beginIndex + 20;
    const pull = traceToPull(trace, { ...rest, run: { ...start.run, kind: 'rolling', beginIndex: at } })!;
    expect([pull.timeS[0], pull.speedMps[0], pull.timeS[1]]).toEqual([
      trace.timeS[at],
      trace.speedMps[at],
      trace.timeS[at + 1],
    ]);
  });

  it('is none of braking, of a start without its instant, and of fewer than five readings', () => {
    const { start: _, ...rest } = start;
    expect(traceToPull(trace, { ...start, run: { ...start.run, kind: 'braking' } })).toBeUndefined();
    expect(traceToPull(trace, rest)).toBeUndefined();
    const rolling = (readings: number) =>
      traceToPull(trace, {
        ...rest,
        run: { ...start.run, kind: 'rolling', beginIndex: 100, endIndex: 100 + readings - 1 },
      });
    expect(rolling(5)?.timeS).toHaveLength(5);
    expect(rolling(4)).toBeUndefined();
  });
});

describe('a replay', () => {
  const timeS = timesOf(101);
  const constant = (mps2: number, noiseMps = 0) =>
    readingsToPull(
      timeS,
      timeS.map(t => mps2 * t),
      noiseMps,
    );
  const evenly = (gain: number) => new Float64Array(timeS.length).fill(gain);

  it('tells the noise of its change: that of the slopes, alike over the width of a line', () => {
    const pull = constant(4, 0.01);
    const gain = 0.2;
    const sd = 0.01 / Math.sqrt(0.1);
    const { noiseS } = replay(pull, evenly(gain));
    // Each step adds (δ/a² σ)² × step × width; a is 4.2 m/s² on the reference road.
    const perS = (gain / 4.2 ** 2) ** 2 * sd ** 2 * 0.4;
    expect(noiseS(8) ** 2 - noiseS(2) ** 2).toBeCloseTo(6 * perS, 12);
    expect(noiseS(0)).toBe(0);
  });

  it('moves first movement by the gain over the push, times how long a push takes to come in', () => {
    expect(replay(constant(4), evenly(0.2)).earlierS).toBeCloseTo((0.7 * 0.2) / 4.2, 9);
    expect(replay(constant(0.1), evenly(-0.2)).earlierS).toBeNaN();
  });

  it('between readings goes along the straight line, and stays at the last one beyond them', () => {
    const again = replay(constant(4), evenly(0.2));
    expect(again.speedChangeS(5.05)).toBeCloseTo((again.speedChangeS(5) + again.speedChangeS(5.1)) / 2, 12);
    expect(again.speedChangeS(11)).toBe(again.speedChangeS(10));
    expect(again.speedChangeS(-1)).toBe(again.speedChangeS(0));
  });

  /** 1 m/s² for two seconds, as a clutch slips; 4 m/s² from then on. */
  const launched = readingsToPull(
    timeS,
    timeS.map(t => (t <= 2 ? t : 2 + 4 * (t - 2))),
    0,
  );

  it('of a launch by time adds the gain to its speed, by speed reckons with three tenths of the push', () => {
    const gain = 0.2;
    const byTime = replay(launched, evenly(gain));
    // 1.2 m/s² for 2 s comes to 2.4 m/s; from there 4.2 m/s² to the 22 m/s that were measured at 7 s.
    expect(7 + byTime.speedChangeS(7)).toBeCloseTo(2 + (22 - 2.4) / 4.2, 1);
    const bySpeed = replay(launched, evenly(gain), false);
    // By speed each step takes as much less as the push is harder: 0.3 of 4.2 m/s² is more than 1.2.
    const atTwo = -(gain / (0.3 * 4.2)) * 1.5;
    expect(bySpeed.speedChangeS(1.5)).toBeCloseTo(atTwo, 6);
    expect(byTime.speedChangeS(1.5)).toBeCloseTo(-(gain * 1.5) / 4.2, 2);
    // The place after 1.5 s: by time half of δ t² is ahead, which at 1.5 m/s and 1.2 m/s² takes so long.
    const ahead = (gain * 1.5 * 1.5) / 2;
    const speed = 1.5 + gain * 1.5;
    const early = (speed - Math.sqrt(speed * speed - 2 * 1.2 * ahead)) / 1.2;
    expect(byTime.distanceChangeS(1.5)).toBeCloseTo(-early, 2);
  });
});
