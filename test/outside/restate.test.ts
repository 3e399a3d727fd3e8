/** Published closed forms of longitudinal dynamics through restating: a log in, the restated figure out. */
import { expect } from 'vitest';
import { airDensity } from '../../pipeline/conditions/air.ts';
import type { KnownCircumstances, RunCircumstances } from '../../pipeline/conditions/circumstances.ts';
import { knownCircumstances } from '../../pipeline/conditions/circumstances.ts';
import {
  coastDownDistanceM,
  coastDownTimeS,
  estimateCoastDown,
  findCoastDowns,
} from '../../pipeline/conditions/coast-down.ts';
import { AS_KNOWN, type Condition, gainsOf } from '../../pipeline/conditions/gain.ts';
import { readingsToPull } from '../../pipeline/conditions/pull.ts';
import { REFERENCE_AIR, REFERENCE_DENSITY_KGM3 } from '../../pipeline/conditions/reference.ts';
import { restatedSpeed, restateRun } from '../../pipeline/conditions/restate.ts';
import { constantSlope } from '../../pipeline/conditions/slope.ts';
import type { Log } from '../../pipeline/log/log.ts';
import { measureLog } from '../../pipeline/measurement/measure.ts';
import { logToTrace } from '../../pipeline/trace/build.ts';
import { kmhToMps } from '../../pipeline/units.ts';
import { describeCheckValues, expectWithin } from './check-values.ts';

/** A log whose speed is a closed form of time, after standing and before standing still again. */
function closedFormLog(speedAt: (sinceS: number) => number, endS: number, rateHz = 100): Log {
  const standS = 4;
  const count = Math.floor((standS + endS) * rateHz);
  const timeS = Float64Array.from({ length: count }, (_, i) => i / rateHz);
  return {
    file: 'closed-form.csv',
    format: 'csv',
    timeS,
    speedMps: timeS.map(t => (t < standS ? 0 : speedAt(t - standS))),
    speedSource: 'recorded',
    line: Uint32Array.from(timeS, (_, i) => i + 2),
    channels: {},
    warnings: [],
  };
}

/** What changes acceleration at one speed where a condition gives way, m/s². */
function gainAt(circumstances: RunCircumstances, speedMps: number, away: readonly Condition[]): number {
  const answer = knownCircumstances(circumstances);
  if ('missing' in answer) throw new Error(answer.missing.join());
  const known: KnownCircumstances = answer.known;
  const pull = readingsToPull(Float64Array.from([0, 1, 2, 3, 4]), new Float64Array(5).fill(speedMps), 0);
  return gainsOf({ known, pull, power: { change: 0, perDensity: 0 } })(away, AS_KNOWN)[2]!;
}

/** An electric car without rotating mass in the reference air. */
const circumstancesOf = (
  car: { readonly massKg: number; readonly dragAreaM2: number; readonly rollingResistance: number },
  day: Partial<RunCircumstances> = {},
): RunCircumstances => ({
  car: { ...car, drive: 'electric', rotatingMassFactor: 1 },
  air: REFERENCE_AIR,
  headwindMps: 0,
  road: constantSlope(0),
  ...day,
});

describeCheckValues('restating closed forms', {
  // Thrust of 3000 N against 0.36 v²: the day's air is 15 % thinner, and the closed form is found again.
  'dyn.tanh': entry => {
    const { F, k, m } = entry.inputs;
    const { t100 } = entry.expected;
    const thin = { ...REFERENCE_AIR, pressurePa: REFERENCE_AIR.pressurePa * 0.85 };
    const dayK = (k * airDensity(thin).densityKgm3) / REFERENCE_DENSITY_KGM3;
    const terminal = Math.sqrt(F / dayK);
    const scale = m / Math.sqrt(F * dayK);
    const { trace, measurements } = measureLog(
      closedFormLog(sinceS => terminal * Math.tanh(sinceS / scale), 20),
    );
    const measurement = measurements[0]!;
    const car = { massKg: m, dragAreaM2: (2 * k) / REFERENCE_DENSITY_KGM3, rollingResistance: 0.01 };
    const restated = restateRun(trace, measurement, circumstancesOf(car, { air: thin }));
    const split = measurement.speedSplits.find(
      ({ toMps, startRule }) => Math.abs(toMps - kmhToMps(100)) < 1e-9 && startRule === 'first-movement',
    )!;
    const figure = restatedSpeed(restated, split)!;
    const dayS = scale * Math.atanh(kmhToMps(100) / terminal);
    expect(t100 - dayS).toBeGreaterThan(0.05);
    // The change alone comes within a thousandth of itself and a little; the start of the log adds its own error.
    expect(Math.abs(figure.timeS - split.timeS - (t100 - dayS))).toBeLessThan(2e-4);
    expectWithin({ t100: figure.timeS }, entry, { abs: 0.005 });
  },

  // A log of that coast-down, both ways: the law it was made by is found again.
  'dyn.coastdown': entry => {
    const { F0, k, m } = entry.inputs;
    const law = { massKg: m, constantN: F0, quadraticNPerMps2: k };
    expectWithin(
      { t: coastDownTimeS(law, kmhToMps(100), 0), x: coastDownDistanceM(law, kmhToMps(100), 0) },
      entry,
    );
    const top = Math.sqrt(F0 / k);
    const rate = Math.sqrt(F0 * k) / m;
    const speedAt = (sinceS: number): number =>
      top * Math.tan(Math.max(0, Math.atan(kmhToMps(100) / top) - rate * sinceS));
    const { trace } = logToTrace(closedFormLog(speedAt, 120, 10));
    const found = findCoastDowns(trace);
    expect(found).toHaveLength(1);
    const runs = ([1, 1, -1, -1] as const).map(way => ({ trace, coastDown: found[0]!, way }));
    const answer = estimateCoastDown(runs, { massKg: m, densityKgm3: 1.2, wheelShare: 0 });
    if (!answer.decided) throw new Error(answer.reason.why);
    expect((answer.estimate.dragAreaM2 * 1.2) / 2).toBeCloseTo(k, 3);
    expect(answer.estimate.rollingResistance * m * 9.80665).toBeCloseTo(F0, 0);
  },

  'dyn.roadload': entry => {
    const { m, f, rho, CdA, grade } = entry.inputs;
    const car = { massKg: m, dragAreaM2: CdA, rollingResistance: f };
    const speed = kmhToMps(100);
    const hill = circumstancesOf(car, { road: constantSlope(100 * grade) });
    const level = gainAt(circumstancesOf({ ...car, rollingResistance: 0 }, { road: hill.road! }), speed, [
      'slope',
    ]);
    expectWithin({ grade: m * level }, entry);
    // Rolling resistance changes with the cosine of the slope only: 0.009 N of 177 N.
    expect(m * gainAt(hill, speed, ['slope'])).toBeCloseTo(entry.expected.grade, 1);
    // Head wind as fast as the car makes four times the drag of still air: three times is taken away.
    const windy = circumstancesOf(car, { headwindMps: speed });
    const dragN = (m * gainAt(windy, speed, ['wind'])) / 3;
    expectWithin({ aero: (dragN * rho) / REFERENCE_DENSITY_KGM3 }, entry);
  },

  'dyn.grade1pct': entry =>
    expectWithin(
      gainAt(
        circumstancesOf({ massKg: 1500, dragAreaM2: 0.65, rollingResistance: 0 }, { road: constantSlope(1) }),
        10,
        ['slope'],
      ),
      entry,
    ),

  'wind.two-way': entry => {
    const { v_ms: speed, w_ms: wind } = entry.inputs;
    const car = { massKg: 1500, dragAreaM2: 0.65, rollingResistance: 0.012 };
    const stillMps2 = (0.5 * REFERENCE_DENSITY_KGM3 * car.dragAreaM2 * speed * speed) / car.massKg;
    const ratio = (headwindMps: number): number =>
      1 + gainAt(circumstancesOf(car, { headwindMps }), speed, ['wind']) / stillMps2;
    expectWithin({ head: ratio(wind), mean: (ratio(wind) + ratio(-wind)) / 2 }, entry);
  },
});
