/** Gears out of the engine speed: levels of its ratio to the speed of the car, put down by hand. */
import { describe, expect, it } from 'vitest';
import type { RunMeasurement } from '../../pipeline/measurement/measurement.ts';
import { shiftCountInWords, shiftsTo } from '../../pipeline/measurement/shifts.ts';
import {
  carriesEngineSpeed,
  levelsOf,
  shiftsFromEngineSpeed,
} from '../../pipeline/measurement/shifts-engine-speed.ts';
import { kmhToMps } from '../../pipeline/units.ts';
import { traceOf } from '../trace/points.ts';

/** One reading each: engine speed over speed of the car, at ten a second and 10 m/s upwards. */
function driven(ratios: readonly number[], fromMps = 10, rateHz = 10) {
  const trace = traceOf(
    ratios.map((_, k) => [k / rateHz, fromMps + k * 0.25]),
    { rateHz },
  );
  const engineSpeedRpm = trace.speedMps.map((speed, k) => ratios[k]! * speed);
  const run = {
    number: 1,
    kind: 'standing-start',
    status: 'complete',
    beginIndex: 0,
    endIndex: ratios.length - 1,
  } as const;
  return {
    trace: { ...trace, channels: { engineSpeedRpm } },
    measurement: { run } as unknown as RunMeasurement,
  };
}
const times = (count: number, ratio: number): number[] => Array<number>(count).fill(ratio);
const levels = (ratios: readonly number[], fromMps?: number, rateHz?: number) => {
  const { trace, measurement } = driven(ratios, fromMps, rateHz);
  return levelsOf(trace, measurement).map(({ ratio, beginIndex, endIndex }) => [
    Math.round(ratio * 1e6) / 1e6,
    beginIndex,
    endIndex,
  ]);
};

describe('levels of the ratio', () => {
  it('last long enough, each with its readings', () => {
    expect(levels([...times(5, 200), ...times(5, 120)])).toEqual([
      [200, 0, 4],
      [120, 5, 9],
    ]);
    // Four readings last 0.3 s.
    expect(levels([...times(4, 200), ...times(5, 120)])).toEqual([[120, 4, 8]]);
    // One alone is no level, however far the next.
    expect(levels([200, 120, 120], 10, 2)).toEqual([[120, 1, 2]]);
  });

  it('hold readings that differ by no more than their share', () => {
    expect(levels([...times(5, 100), ...times(5, 103.4)])).toHaveLength(1);
    expect(levels([...times(5, 100), ...times(5, 103.6)])).toHaveLength(2);
    expect(levels([...times(5, 100), ...times(5, 96.4)])).toHaveLength(2);
  });

  it('go on after a reading that strayed', () => {
    expect(levels([...times(6, 100), 150, ...times(6, 101)])).toEqual([[100, 0, 12]]);
  });

  it('end where the brakes come on', () => {
    const { trace, measurement } = driven([...times(8, 100), ...times(8, 60)]);
    const run = { ...measurement.run, braking: { beginIndex: 7, endIndex: 15 } };
    expect(levelsOf(trace, { ...measurement, run }).map(({ ratio }) => Math.round(ratio))).toEqual([100]);
  });

  it('leave out what is slow, and readings without an engine speed', () => {
    const slow = kmhToMps(15);
    expect(levels(times(9, 100), slow)).toEqual([[100, 0, 8]]);
    expect(levels(times(9, 100), slow - 0.01)).toEqual([[100, 1, 8]]);
    expect(levels([...times(5, 100), 0, ...times(3, 100)])).toEqual([[100, 0, 8]]);
  });
});

describe('an engine speed', () => {
  const carried = (missing: number): boolean => {
    const { trace, measurement } = driven([...times(20 - missing, 100), ...times(missing, 0)]);
    return carriesEngineSpeed(trace, measurement);
  };

  it('is carried where four readings of five have one', () => {
    expect([carried(0), carried(4), carried(5)]).toEqual([true, true, false]);
    const { trace, measurement } = driven(times(5, 100));
    expect(carriesEngineSpeed({ ...trace, channels: {} }, measurement)).toBe(false);
  });
});

describe('shifts by engine speed', () => {
  const none = { shifts: [], from: 'acceleration' } as const;
  const shifts = (...ratios: number[]) => {
    const { trace, measurement } = driven(ratios);
    return shiftsFromEngineSpeed(trace, measurement, none).shifts;
  };

  it('are steps down as large as those of gearboxes', () => {
    const to = (share: number) => shifts(...times(6, 100), ...times(6, 100 * share)).length;
    expect([to(0.919), to(0.921), to(0.451), to(0.449), to(1.3)]).toEqual([1, 0, 1, 0, 0]);
  });

  it('lie half way between the last reading of the one gear and the first of the next', () => {
    const [shift] = shifts(...times(6, 100), 0, 0, ...times(6, 60));
    // Readings 5 and 8: from 0.5 s to 0.8 s, from 11.25 to 12 m/s; the width of 0.3 s over √12, twice.
    expect(shift!.atS).toBeCloseTo(0.65, 12);
    expect(shift!.atUncertaintyS).toBeCloseTo((2 * 0.3) / Math.sqrt(12), 12);
    expect(shift!.speedMps).toBeCloseTo(11.625, 12);
    expect(shift!.ratioStep).toBeCloseTo(0.6, 12);
    expect(shift!.lostS).toBeUndefined();
  });

  it('take what they cost from the acceleration where that shows them within half a second and a reading', () => {
    const { trace, measurement } = driven([...times(12, 100), ...times(12, 60)]);
    const seenAt = (atS: number) =>
      shiftsFromEngineSpeed(trace, measurement, {
        from: 'acceleration',
        shifts: [{ atS, atUncertaintyS: 0.01, speedMps: 12, lostS: 0.2 }],
      }).shifts[0]!.lostS;
    // The step lies between 1.1 and 1.2 s.
    expect([seenAt(0.51), seenAt(1.79)]).toEqual([0.2, 0.2]);
    expect([seenAt(0.49), seenAt(1.81)]).toEqual([undefined, undefined]);
  });
});

describe('shifts up to a speed', () => {
  const { trace, measurement } = driven(times(20, 100));
  const shift = (atS: number) => ({ atS, atUncertaintyS: 0.01, speedMps: 12 });
  const found = { shifts: [shift(0.5), shift(1)], from: 'engine-speed' } as const;

  it('are those before it is reached, and tell the gear of a start from rest', () => {
    // 12.5 m/s are read at 1.0 s, 11.25 m/s at 0.5 s.
    expect(shiftsTo(trace, measurement, found, 12.51)).toEqual({ shifts: 2, gear: 3 });
    expect(shiftsTo(trace, measurement, found, 12.5)).toEqual({ shifts: 1, gear: 2 });
    expect(shiftsTo(trace, measurement, found, 11.25)).toEqual({ shifts: 0, gear: 1 });
    expect(shiftsTo(trace, measurement, found, 14.75)).toEqual({ shifts: 2, gear: 3 });
    expect(shiftsTo(trace, measurement, found, 14.76)).toBeUndefined();
    expect(shiftsTo(trace, measurement, { ...found, notFound: 'gap' }, 12)).toBeUndefined();
  });

  it('are at least so many where slight ones may have gone unseen', () => {
    const seen = (smallestLostS: number) =>
      shiftsTo(trace, measurement, { ...found, from: 'acceleration', smallestLostS }, 13);
    expect([seen(0.1), seen(0.101)]).toEqual([{ shifts: 2 }, { shifts: 2, atLeast: true }]);
    const rolling = { ...measurement, run: { ...measurement.run, kind: 'rolling' as const } };
    expect(shiftsTo(trace, rolling, found, 13)).toEqual({ shifts: 2 });
  });

  it('are told in words', () => {
    expect(
      [
        { shifts: 1, gear: 2 },
        { shifts: 9, gear: 10 },
        { shifts: 0 },
        { shifts: 0, atLeast: true as const },
        { shifts: 1 },
        { shifts: 3, atLeast: true as const },
        { shifts: 12 },
      ].map(shiftCountInWords),
    ).toEqual([
      'in second gear',
      'in 10th gear',
      'without a shift',
      'without a shift that could be seen',
      'after one shift',
      'after at least three shifts',
      'after 12 shifts',
    ]);
  });
});
