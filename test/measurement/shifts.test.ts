import { describe, expect, it } from 'vitest';
import { shiftWords } from '../../pipeline/figure/words/shifts.ts';
import type { Log } from '../../pipeline/log/log.ts';
import { measureLog } from '../../pipeline/measurement/measure.ts';
import type { RunMeasurement } from '../../pipeline/measurement/measurement.ts';
import { shiftCountInWords, shiftsOf, shiftsTo } from '../../pipeline/measurement/shifts.ts';
import { SHIFT_RATE_HZ } from '../../pipeline/measurement/shifts-acceleration.ts';
import type { Trace } from '../../pipeline/trace/trace.ts';
import { kmhToMps } from '../../pipeline/units.ts';
import { randomFromSeed } from '../simulate/random.ts';

/** A pull in straight pieces: pairs of acceleration, m/s², and time, s; then the car coasts. */
type Pieces = readonly (readonly [mps2: number, forS: number])[];

interface Recorded {
  readonly rateHz?: number;
  readonly noiseMps?: number;
  readonly change?: (log: Log) => Log;
}

const STANDS_S = 6;
const PULL: Pieces = [
  [4, 4],
  [-0.2, 0.3],
  [4, 3],
];

function speedAt(pieces: Pieces, timeS: number): number {
  let left = timeS - STANDS_S;
  let speed = 0;
  for (const [mps2, forS] of pieces) {
    if (left <= 0) return speed;
    speed += mps2 * Math.min(left, forS);
    left -= forS;
  }
  return Math.max(0, speed - 1.5 * Math.max(0, left));
}

function record(pieces: Pieces, { rateHz = 25, noiseMps = 0.01, change = log => log }: Recorded = {}) {
  const random = randomFromSeed(5);
  const endS = STANDS_S + pieces.reduce((sum, [, forS]) => sum + forS, 0) + 25;
  const count = Math.floor(endS * rateHz) + 1;
  const timeS = Float64Array.from({ length: count }, (_, k) => k / rateHz);
  const log: Log = {
    file: 'pieces.csv',
    format: 'csv',
    timeS,
    speedMps: timeS.map(t => Math.abs(speedAt(pieces, t) + noiseMps * random.normal())),
    speedSource: 'recorded',
    line: Uint32Array.from(timeS, (_, k) => k + 2),
    channels: {},
    warnings: [],
  };
  const { trace, measurements } = measureLog(change(log));
  const run = measurements.find(one => one.run.kind !== 'braking');
  if (run === undefined) throw new Error('No run was found in the pieces.');
  return { trace, run };
}
const look = ({ trace, run }: { trace: Trace; run: RunMeasurement }) => shiftsOf(trace, run);

describe('one interruption of a constant pull', () => {
  // The car gains −0.2 × 0.3 m/s in 0.3 s; at 4 m/s² that would have taken −0.015 s: 0.315 s are lost.
  it('costs its own time less what the same gain takes under power', () => {
    const { shifts, from, notFound } = look(record(PULL, { rateHz: 50 }));
    expect(from).toBe('acceleration');
    expect(notFound).toBeUndefined();
    expect(shifts).toHaveLength(1);
    const [shift] = shifts;
    expect(Math.abs(shift!.lostS! - 0.315)).toBeLessThan(0.01);
    expect(Math.abs(shift!.durationS! - 0.3)).toBeLessThan(0.03);
    expect(Math.abs(shift!.atS - 10)).toBeLessThan(0.02);
    expect(Math.abs(shift!.speedMps - 16)).toBeLessThan(0.06);
  });

  it('costs in the new gear’s pull what it gained in the old one’s', () => {
    // 0.4 s at 1 m/s² gain 0.4 m/s, for which the next gear, at 2.5 m/s², needs 0.16 s: 0.24 s are lost.
    const { shifts } = look(
      record(
        [
          [4, 4],
          [1, 0.4],
          [2.5, 4],
        ],
        { rateHz: 50 },
      ),
    );
    expect(shifts).toHaveLength(1);
    expect(Math.abs(shifts[0]!.lostS! - 0.24)).toBeLessThan(0.012);
  });

  it.each([10, 20, 25, 50, 100])('is found at %i readings a second, within its uncertainty', rateHz => {
    const { shifts } = look(record(PULL, { rateHz, noiseMps: kmhToMps(0.05) }));
    expect(shifts).toHaveLength(1);
    expect(Math.abs(shifts[0]!.lostS! - 0.315)).toBeLessThan(1.5 * shifts[0]!.lostUncertaintyS!);
    expect(shifts[0]!.lostUncertaintyS!).toBeLessThan(0.1);
  });

  it('is found twice where it happens twice, in the order of time', () => {
    const { shifts } = look(
      record([
        [4, 3],
        [0, 0.35],
        [3, 3],
        [0, 0.35],
        [2, 4],
      ]),
    );
    expect(shifts).toHaveLength(2);
    for (const [k, atS] of [9, 12.35].entries()) expect(Math.abs(shifts[k]!.atS - atS)).toBeLessThan(0.03);
  });
});

describe('the ends of what counts as a shift', () => {
  const found = (pieces: Pieces, more: Recorded = {}) =>
    look(record(pieces, { rateHz: 50, ...more })).shifts.length;

  it('are two fifths of the old pull for the new one', () => {
    const into = (mps2: number): number =>
      found([
        [4, 4],
        [0, 0.35],
        [mps2, 5],
      ]);
    expect([into(1.7), into(1.5)]).toEqual([1, 0]);
  });

  it('are three fifths of the lesser pull for the dip', () => {
    const to = (mps2: number): number =>
      found([
        [4, 4],
        [mps2, 0.5],
        [4, 3],
      ]);
    expect([to(2.25), to(2.55)]).toEqual([1, 0]);
  });

  it('are 20 km/h where it begins', () => {
    const at = (kmh: number): number =>
      found([
        [4, kmhToMps(kmh) / 4],
        [0, 0.35],
        [4, 5],
      ]);
    expect([at(21.5), at(18.5)]).toEqual([1, 0]);
  });

  it('are gaps in it or near it, not far from it', () => {
    const without =
      (fromS: number, toS: number) =>
      (log: Log): Log => {
        const kept = [...log.timeS.keys()].filter(k => log.timeS[k]! < fromS || log.timeS[k]! > toS);
        return {
          ...log,
          timeS: Float64Array.from(kept, k => log.timeS[k]!),
          speedMps: Float64Array.from(kept, k => log.speedMps[k]!),
          line: Uint32Array.from(kept, k => log.line[k]!),
        };
      };
    // The shift is at 10 s.
    const gapped = (fromS: number, toS: number) => look(record(PULL, { change: without(fromS, toS) }));
    expect(gapped(8.1, 8.5)).toMatchObject({ shifts: [{}], notFound: 'gap' });
    expect(gapped(11.7, 12.1)).toMatchObject({ shifts: [{}], notFound: 'gap' });
    expect(gapped(10.5, 10.9)).toMatchObject({ shifts: [], notFound: 'gap' });
    expect(gapped(9.3, 9.7)).toMatchObject({ shifts: [], notFound: 'gap' });
  });
});

describe('what is no shift', () => {
  it.each([
    ['a pull without a dip', [[4, 7]]],
    [
      'a pull that fades by steps',
      [
        [5, 2],
        [4, 2],
        [3, 2],
        [2, 2],
      ],
    ],
    [
      'a dip to two thirds, as of tyres that slip',
      [
        [4, 3],
        [2.7, 0.5],
        [4, 3],
      ],
    ],
    [
      'a dip below 20 km/h, as of a clutch that bites',
      [
        [4, 0.8],
        [0.5, 0.5],
        [4, 5],
      ],
    ],
    [
      'a pause of more than a second',
      [
        [4, 4],
        [0.8, 1.4],
        [4, 4],
      ],
    ],
    [
      'an end of the pull',
      [
        [4, 6],
        [-0.5, 3],
      ],
    ],
    [
      'a pull taken up again at a fraction',
      [
        [5, 4],
        [0.2, 0.4],
        [0.7, 5],
      ],
    ],
  ] as const)('%s', (_, pieces) => {
    expect(look(record(pieces as Pieces)).shifts).toEqual([]);
  });
});

describe('logs that cannot show shifts', () => {
  it.each([1, 2, 5])('are refused at %i readings a second', rateHz => {
    expect(look(record(PULL, { rateHz }))).toEqual({
      shifts: [],
      from: 'acceleration',
      notFound: 'rate-too-low',
    });
    expect(shiftWords('en').reasons['rate-too-low']).toContain(`${SHIFT_RATE_HZ} readings`);
  });

  it('are refused where their scatter would hide a shift of 0.4 s', () => {
    const { shifts, notFound, smallestLostS } = look(record(PULL, { rateHz: 10, noiseMps: kmhToMps(1) }));
    expect([shifts, notFound]).toEqual([[], 'noise-hides-them']);
    expect(smallestLostS).toBeGreaterThan(0.4);
  });

  it('are refused where speed comes from positions', () => {
    const change = (log: Log): Log => ({ ...log, speedSource: 'derived-from-position' });
    expect(look(record(PULL, { change })).notFound).toBe('speed-from-position');
  });

  it('are refused where rows repeat a reading', () => {
    const change = (log: Log): Log => ({
      ...log,
      speedMps: log.speedMps.map((_, k) => Math.round(log.speedMps[k - (k % 10)]! * 3.6) / 3.6),
      speedStepMps: 1 / 3.6,
    });
    expect(
      look(
        record(
          [
            [4, 4],
            [0, 0.3],
            [3, 8],
          ],
          { rateHz: 10, change },
        ),
      ).notFound,
    ).toBe('held-values');
  });

  it('tell a gap in which a shift may hide', () => {
    const change = (log: Log): Log => {
      const keep = [...log.timeS.keys()].filter(k => log.timeS[k]! < 9.9 || log.timeS[k]! > 10.5);
      return {
        ...log,
        timeS: Float64Array.from(keep, k => log.timeS[k]!),
        speedMps: Float64Array.from(keep, k => log.speedMps[k]!),
        line: Uint32Array.from(keep, k => log.line[k]!),
      };
    };
    expect(look(record(PULL, { change }))).toMatchObject({ shifts: [], notFound: 'gap' });
  });

  it('are not looked at for a car that has one gear', () => {
    const { trace, run } = record(PULL);
    expect(shiftsOf(trace, run, { oneGear: true })).toMatchObject({ shifts: [], notFound: 'one-gear' });
  });
});

/** Engine speed of a car with these ratios, rpm per m/s, as `PULL` shifts once. */
const withEngine =
  (first: number, second: number) =>
  (log: Log): Log => ({
    ...log,
    channels: {
      engineSpeedRpm: log.timeS.map((t, k) =>
        Math.max(800, log.speedMps[k]! * (t < STANDS_S + 4.15 ? first : second)),
      ),
    },
  });

describe('engine speed', () => {
  it('tells the step of the ratio, and the acceleration what it cost', () => {
    const found = look(record(PULL, { change: withEngine(400, 240) }));
    expect(found.from).toBe('engine-speed');
    expect(found.shifts).toHaveLength(1);
    expect(found.shifts[0]!.ratioStep).toBeCloseTo(0.6, 2);
    expect(Math.abs(found.shifts[0]!.lostS! - 0.315)).toBeLessThan(0.02);
  });

  it('overrules a dip in which the ratio stays, as of a driver who lifts', () => {
    expect(look(record(PULL, { change: withEngine(300, 300) }))).toEqual({
      shifts: [],
      from: 'engine-speed',
    });
  });

  it('shows a shift at one reading a second, to no better than a second, and not what it cost', () => {
    const found = look(
      record(
        [
          [4, 4.3],
          [0, 0.3],
          [3, 6],
        ],
        { rateHz: 1, change: withEngine(400, 240) },
      ),
    );
    expect(found.shifts).toHaveLength(1);
    expect(found.shifts[0]!.atUncertaintyS).toBeGreaterThan(0.5);
    expect(found.shifts[0]!.lostS).toBeUndefined();
    expect(Math.abs(found.shifts[0]!.atS - 10.3)).toBeLessThan(found.shifts[0]!.atUncertaintyS);
  });
});

describe('gears to a speed', () => {
  it('are counted as shifts where only the acceleration shows them', () => {
    const { trace, run } = record(PULL);
    const found = shiftsOf(trace, run);
    const words = (kmh: number) => {
      const count = shiftsTo(trace, run, found, kmhToMps(kmh));
      return count && shiftCountInWords(count);
    };
    expect(words(40)).toBe('without a shift');
    expect(words(90)).toBe('after one shift');
    expect(words(200)).toBeUndefined();
  });

  it('are a least number where slight shifts may go unseen', () => {
    const { trace, run } = record(PULL, { rateHz: 10, noiseMps: kmhToMps(0.15) });
    const found = shiftsOf(trace, run);
    expect(found.smallestLostS).toBeGreaterThan(0.1);
    const words = (kmh: number) => shiftCountInWords(shiftsTo(trace, run, found, kmhToMps(kmh))!);
    expect(words(40)).toBe('without a shift that could be seen');
    expect(words(90)).toBe('after at least one shift');
  });

  it('are named where engine speed shows them', () => {
    const { trace, run } = record(PULL, { change: withEngine(400, 240) });
    const count = shiftsTo(trace, run, shiftsOf(trace, run), kmhToMps(90))!;
    expect(shiftCountInWords(count)).toBe('in second gear');
  });

  it('are not told where shifts could not be seen', () => {
    const { trace, run } = record(PULL, { rateHz: 5 });
    expect(shiftsTo(trace, run, shiftsOf(trace, run), kmhToMps(90))).toBeUndefined();
  });
});
