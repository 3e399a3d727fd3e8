/** What filters, positions and hidden readings are worth, and the heat of a clutch that is followed: by hand. */
import { describe, expect, it } from 'vitest';
import {
  DERIVED_SPEED,
  LAG_SHARES,
  lagBudget,
  lagOfMfdd,
  lagOfStop,
  topLostMps,
} from '../../pipeline/measurement/lag.ts';
import { launchCare } from '../../pipeline/measurement/launch-care.ts';
import type { RunMeasurement } from '../../pipeline/measurement/measurement.ts';
import { restCosts } from '../../pipeline/measurement/onset-solve.ts';
import { type Point, traceOf } from '../trace/points.ts';

const ONE: Point[] = [[0, 0]];

describe('what a filter may do', () => {
  const filtered = traceOf(ONE, { filterS: 0.2 });
  const derived = traceOf(ONE, { speedSource: 'derived-from-position' });

  it('is a share of its time constant, nothing where there is none', () => {
    for (const rule of ['first-movement', 'one-foot-rollout', 'rolling'] as const) {
      expect(lagBudget(filtered, rule)).toEqual([{ source: 'lag', standard: LAG_SHARES[rule] * 0.2 }]);
      expect(lagBudget(derived, rule)).toEqual([{ source: 'position', standard: DERIVED_SPEED[rule] }]);
      expect(lagBudget(traceOf(ONE), rule)).toEqual([]);
    }
    expect(lagOfStop(filtered, 'stop')).toEqual([{ source: 'lag', standard: expect.closeTo(0.3, 12) }]);
    expect(lagOfMfdd(filtered)).toEqual([{ source: 'lag', standard: expect.closeTo(0.02, 12) }]);
    expect(lagOfMfdd(derived)).toEqual([{ source: 'position', standard: 0.2 }]);
  });

  it('to a distance grows with the speed it begins at', () => {
    expect(lagOfStop(filtered, 'distance', 30)).toEqual([
      { source: 'lag', standard: expect.closeTo(1.44, 12) },
    ]);
    expect(lagOfStop(derived, 'distance', 30)).toEqual([
      { source: 'position', standard: expect.closeTo(0.75, 12) },
    ]);
    expect(lagOfStop({ ...derived, filterS: 0.1 }, 'stop')).toHaveLength(2);
  });

  it('takes nothing off a top that is none, and b τ ln(1 + a/b) off a point', () => {
    expect([topLostMps(0.1, 0, 3), topLostMps(0.1, 3, 0), topLostMps(0.1, -1, 3)]).toEqual([0, 0, 0]);
    expect(topLostMps(0.1, 3, 3)).toBeCloseTo(0.3 * Math.log(2), 12);
  });
});

describe('a reading at rest', () => {
  it('of 0 from a recorder that hides slow speeds costs what being under that is worth', () => {
    const costs = (hiddenMps: number) =>
      restCosts({ v: Float64Array.of(0), sd: Float64Array.of(0.02), hiddenMps })[1]!;
    // Standard normal distribution up to 1 and 2 standard deviations: 0.841345 and 0.977250.
    expect(costs(0.02)).toBeCloseTo(-2 * Math.log(0.841_344_7), 5);
    expect(costs(0.04)).toBeCloseTo(-2 * Math.log(0.977_249_9), 5);
    expect(costs(0.1)).toBeGreaterThan(0);
    expect(costs(0.121)).toBe(0);
  });

  it('of something costs its distance from the mean of folded noise', () => {
    // A folded normal has the mean σ√(2/π) and the variance σ²(1 − 2/π).
    const sd = 0.02;
    const cost = (speed: number) =>
      restCosts({ v: Float64Array.of(speed), sd: Float64Array.of(sd), hiddenMps: 0 })[1]!;
    const [mean, share] = [sd * Math.sqrt(2 / Math.PI), 1 - 2 / Math.PI];
    expect(cost(mean)).toBeCloseTo(Math.log(share), 6);
    expect(cost(mean + sd) - cost(mean)).toBeCloseTo(1 / share, 5);
    expect(cost(0)).toBeCloseTo(Math.log(share) + (mean / sd) ** 2 / share, 5);
  });
});

describe('the heat of a clutch that is followed', () => {
  /** Rest to 1 s, then 5 m/s², twenty readings a second; the engine held at a speed until the car has caught up. */
  function launched(heldRpm: number, more: Parameters<typeof traceOf>[1] = {}) {
    const points = Array.from({ length: 120 }, (_, k): Point => [k / 20, Math.max(0, k - 20) / 4]);
    const trace = traceOf(points, { rateHz: 20, ...more });
    const engineSpeedRpm = trace.speedMps.map(speed => Math.max(heldRpm, 375 * speed));
    const run = {
      number: 1,
      kind: 'standing-start',
      status: 'complete',
      beginIndex: 20,
      endIndex: 119,
    } as const;
    const measurement = {
      run,
      beginsS: 1,
      start: { firstMovementS: 1, rolloutS: 0.5, uncertaintyS: 0.01 },
    } as unknown as RunMeasurement;
    return {
      number: 1,
      at: '10:00:00',
      log: 'one.csv',
      trace: { ...trace, channels: { engineSpeedRpm } },
      measurement,
    };
  }
  const heat = (attempt: ReturnType<typeof launched>) =>
    launchCare([attempt], { massKg: 1000, coupling: 'clutch' }).launches[0]!.heat;

  it('is force times slip until both turn together but for a twentieth', () => {
    // 3000 rpm are 8 m/s. The step to 7.75 m/s, 7.625 m/s on average, is within 0.39 m/s of that: up to 7.5 m/s counts.
    const expected = 1000 * 1.04 * (8 * 7.5 - 7.5 ** 2 / 2);
    expect(heat(launched(3000))).toEqual({
      fromJ: expect.closeTo(expected, 3),
      toJ: expect.closeTo(expected, 3),
      by: 'engine-speed',
    });
  });

  it('grows with the square of the speed that is held', () => {
    const ratio = heat(launched(3600))!.toJ / heat(launched(2400))!.toJ;
    expect(Math.abs(ratio - 2.25)).toBeLessThan(0.1);
  });

  it('is not followed where it is not known when the car began to move', () => {
    const attempt = launched(3000);
    const { start: _, ...measurement } = attempt.measurement;
    expect(heat({ ...attempt, measurement })).toBeUndefined();
  });

  it('is not followed where readings repeat or are few', () => {
    expect(heat(launched(3000, { heldS: 0.2 }))).toBeUndefined();
    expect(heat(launched(3000, { rateHz: 4.7 }))).toBeUndefined();
    expect(heat(launched(3000, { rateHz: 4.8 }))).toBeDefined();
  });
});
