import { describe, expect, it } from 'vitest';
import { MEASURES, measureIds, measureLabel } from '../../pipeline/result/measures.ts';
import { kmhToMps, ROLLOUT_M } from '../../pipeline/units.ts';
import { FIXTURE_PLAN, launchAt, testFixture, timeToDistance, timeToSpeed } from './fixture.ts';

const test = testFixture();
const first = test.attempts[0]!.measurement;
const { launch, brakingMps2, topKmh } = FIXTURE_PLAN.attempts[0]!;
const rolloutS = timeToDistance(launch, ROLLOUT_M);

describe('the measures', () => {
  it('carry the word they are listed under, and no two the same label', () => {
    for (const id of measureIds) expect(MEASURES[id].id).toBe(id);
    expect(new Set(measureIds.map(id => measureLabel(id, 'en'))).size).toBe(measureIds.length);
    expect(measureIds).toHaveLength(40);
  });

  it('describe themselves in a sentence', () => {
    for (const id of measureIds) expect(MEASURES[id].named('en').describes).toMatch(/^[A-Z].+\.$/);
  });

  it('are better when lower for times and distances, when higher for speeds and decelerations', () => {
    for (const id of measureIds) {
      const { unit, better } = MEASURES[id];
      expect(better, id).toBe(unit === 's' || unit === 'm' ? 'lower' : 'higher');
    }
  });

  it('read times to speeds under either rule', () => {
    const measure = MEASURES['0-100-kmh'];
    const truth = timeToSpeed(launch, kmhToMps(100));
    expect(measure.valueOf(first, 'first-movement')?.value).toBeCloseTo(truth, 12);
    expect(measure.valueOf(first, 'one-foot-rollout')?.value).toBeCloseTo(truth - rolloutS, 12);
    expect(measure.valueOf(first)).toEqual({ value: truth, uncertainty: FIXTURE_PLAN.uncertaintyS });
  });

  it('tell 60 km/h from 60 mph', () => {
    expect(MEASURES['0-60-kmh'].valueOf(first)?.value).toBeCloseTo(timeToSpeed(launch, kmhToMps(60)), 12);
    expect(MEASURES['0-60-mph'].valueOf(first)?.value).toBeCloseTo(timeToSpeed(launch, 26.8224), 12);
  });

  it('read times over distances, and the speed at the line', () => {
    const throughS = timeToDistance(launch, 100 + ROLLOUT_M);
    expect(MEASURES['0-100-m'].valueOf(first, 'one-foot-rollout')?.value).toBeCloseTo(
      throughS - rolloutS,
      12,
    );
    const timeS = timeToDistance(launch, 402.336 + ROLLOUT_M);
    const { speedMps } = launchAt(launch, timeS);
    const line = {
      toM: 402.336,
      startRule: 'one-foot-rollout' as const,
      timeS: timeS - rolloutS,
      uncertaintyS: 0.03,
      speedMps,
    };
    const { valueOf: speedOf } = MEASURES['402-m-speed'];
    expect(speedOf({ ...first, distanceSplits: [line] }, 'one-foot-rollout')).toEqual({ value: speedMps });
    expect(speedOf({ ...first, distanceSplits: [line] }, 'first-movement')).toBeUndefined();
    const known = { ...line, speedUncertaintyMps: 0.05 };
    expect(speedOf({ ...first, distanceSplits: [known] }, 'one-foot-rollout')).toEqual({
      value: speedMps,
      uncertainty: 0.05,
    });
  });

  it('read braking from the speed they name', () => {
    expect(MEASURES['stop-from-80-kmh'].valueOf(first)).toEqual({
      value: kmhToMps(80) ** 2 / (2 * brakingMps2),
      uncertainty: 0.3,
    });
    expect(MEASURES['mfdd-from-80-kmh'].valueOf(first)).toEqual({ value: brakingMps2, uncertainty: 0.1 });
  });

  it('are absent where the attempt did not come so far', () => {
    const givenUp = test.attempts.at(-1)!.measurement;
    for (const id of ['0-80-kmh', '0-1000-m', '1000-m-speed', 'stop-from-80-kmh', '50-80-kmh'] as const) {
      expect(MEASURES[id].valueOf(givenUp), id).toBeUndefined();
    }
    expect(MEASURES['0-60-kmh'].valueOf(givenUp)).toBeDefined();
  });

  it('read rolling splits from rolling runs only', () => {
    const split = {
      fromMps: kmhToMps(80),
      toMps: kmhToMps(120),
      timeS: 5,
      uncertaintyS: 0.1,
      distanceM: 140,
    };
    const rolling = { ...first, speedSplits: [{ ...split, startRule: 'rolling' as const }] };
    expect(MEASURES['80-120-kmh'].valueOf(rolling)).toEqual({ value: 5, uncertainty: 0.1 });
    const standing = { ...first, speedSplits: [{ ...split, startRule: 'first-movement' as const }] };
    expect(MEASURES['80-120-kmh'].valueOf(standing)).toBeUndefined();
  });

  it('read 30–70 mph between exactly 13.4112 and 31.2928 m/s: a mile is 1609.344 m by the agreement of 1959', () => {
    const speedSplits = [
      {
        fromMps: 13.4112,
        toMps: 31.2928,
        timeS: 6.5,
        uncertaintyS: 0.1,
        distanceM: 150,
        startRule: 'rolling' as const,
      },
    ];
    expect(MEASURES['30-70-mph'].valueOf({ ...first, speedSplits })).toEqual({
      value: 6.5,
      uncertainty: 0.1,
    });
    const metric = [{ ...speedSplits[0]!, fromMps: kmhToMps(48.28) }];
    expect(MEASURES['30-70-mph'].valueOf({ ...first, speedSplits: metric })).toBeUndefined();
  });

  it('take no acceleration and no highest speed from a stop', () => {
    expect(MEASURES['top-speed'].valueOf(first)?.value).toBeCloseTo(kmhToMps(topKmh), 12);
    expect(MEASURES['peak-acceleration'].valueOf(first)).toEqual({ value: first.peakMps2, uncertainty: 0.2 });
    const stop = { ...first, run: { ...first.run, kind: 'braking' as const } };
    expect(MEASURES['top-speed'].valueOf(stop)).toBeUndefined();
    expect(MEASURES['peak-acceleration'].valueOf(stop)).toBeUndefined();
  });
});
