/** What must hold for any run, whatever the car and the recorder. */
import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import type { Log } from '../../pipeline/log/log.ts';
import { measureLog } from '../../pipeline/measurement/measure.ts';
import type { RunMeasurement } from '../../pipeline/measurement/measurement.ts';
import { randomFromSeed } from '../simulate/random.ts';
import { AT_S, fromRest, motionToLog, readingsToLog } from './trajectories.ts';

/** Full thrust after a ramp, falling off with speed; noise folded at 0. */
const launches = fc.record({
  thrustMps2: fc.double({ min: 3.5, max: 9, noNaN: true }),
  limitMps: fc.double({ min: 60, max: 110, noNaN: true }),
  rampS: fc.double({ min: 0.05, max: 0.6, noNaN: true }),
  rateHz: fc.constantFrom<number>(10, 20, 25, 100),
  noiseMps: fc.double({ min: 0.005, max: 0.03, noNaN: true }),
  seed: fc.integer({ min: 1, max: 1e6 }),
});
type Launch = typeof launches extends fc.Arbitrary<infer T> ? T : never;

function launchLog({ thrustMps2, limitMps, rampS, rateHz, noiseMps, seed }: Launch): Log {
  const random = randomFromSeed(seed);
  const clean = motionToLog(
    fromRest(s => {
      const effective = s < rampS ? (s * s) / (2 * rampS) : s - rampS / 2;
      return limitMps * Math.tanh((thrustMps2 * effective) / limitMps);
    }),
    { rateHz, lastsS: 20 },
  );
  return readingsToLog(
    clean.timeS,
    clean.speedMps.map(value => Math.abs(value + noiseMps * random.normal())),
  );
}

const only = (log: Log): RunMeasurement => {
  const { measurements } = measureLog(log);
  expect(measurements).toHaveLength(1);
  return measurements[0]!;
};
const timesOf = (run: RunMeasurement): number[] =>
  [...run.speedSplits, ...run.distanceSplits].map(({ timeS }) => timeS);
const near = (found: readonly number[], expected: readonly number[], within: number): void => {
  expect(found).toHaveLength(expected.length);
  for (const [k, value] of found.entries()) expect(Math.abs(value - expected[k]!)).toBeLessThan(within);
};
const RUNS = { numRuns: 40 };

describe('any standing start', () => {
  it('is timed the same however the clock is set', () => {
    fc.assert(
      fc.property(launches, fc.double({ min: 0, max: 80_000, noNaN: true }), (launch, shiftS) => {
        const log = launchLog(launch);
        const moved = { ...log, timeS: log.timeS.map(t => t + shiftS) };
        const [before, shifted] = [only(log), only(moved)];
        near(timesOf(shifted), timesOf(before), 1e-5);
        expect(shifted.beginsS - shiftS).toBeCloseTo(before.beginsS, 4);
      }),
      RUNS,
    );
  });

  it('reaches higher speeds and longer distances later, and is shorter after one foot', () => {
    fc.assert(
      fc.property(launches, launch => {
        const { speedSplits, distanceSplits, start } = only(launchLog(launch));
        for (const splits of [speedSplits, distanceSplits]) {
          for (const rule of ['first-movement', 'one-foot-rollout']) {
            const times = splits.filter(({ startRule }) => startRule === rule).map(({ timeS }) => timeS);
            expect(times).toEqual([...times].sort((a, b) => a - b));
          }
        }
        expect(speedSplits.length).toBeGreaterThan(0);
        for (const split of speedSplits.filter(({ startRule }) => startRule === 'one-foot-rollout')) {
          const other = speedSplits.find(
            one => one.toMps === split.toMps && one.startRule === 'first-movement',
          )!;
          expect(other.timeS - split.timeS).toBeCloseTo(start!.rolloutS, 9);
          expect(split.distanceM).toBeCloseTo(other.distanceM - 0.3048, 9);
          expect(split.uncertaintyS).toBeGreaterThan(0);
        }
      }),
      RUNS,
    );
  });

  it('takes a tenth longer between speeds where time itself is stretched by a tenth', () => {
    fc.assert(
      fc.property(launches, launch => {
        const log = launchLog({
          ...launch,
          thrustMps2: launch.thrustMps2 / 2 + 3,
          noiseMps: 0.005,
          rateHz: 100,
        });
        const stretched = { ...log, timeS: log.timeS.map(t => t * 1.1) };
        const afterOneFoot = (run: RunMeasurement) =>
          run.speedSplits
            .filter(({ startRule }) => startRule === 'one-foot-rollout')
            .map(({ timeS }) => timeS);
        // The first foot is covered at a different instant, so that only the differences scale exactly.
        const differences = (times: number[]) => times.slice(1).map((time, k) => time - times[k]!);
        const [before, slower] = [
          differences(afterOneFoot(only(log))),
          differences(afterOneFoot(only(stretched))),
        ];
        near(
          slower,
          before.map(time => time * 1.1),
          0.02,
        );
      }),
      RUNS,
    );
  });

  it('says less the slower it was recorded', () => {
    const launch: Launch = { thrustMps2: 5, limitMps: 80, rampS: 0.3, rateHz: 100, noiseMps: 0.02, seed: 4 };
    const starts = [100, 10, 2, 1].map(rateHz => only(launchLog({ ...launch, rateHz })).start!);
    const [fine, usual, ...coarse] = starts.map(({ uncertaintyS }) => uncertaintyS);
    expect(fine).toBeLessThan(0.06);
    expect(usual).toBeGreaterThan(fine!);
    for (const uncertaintyS of coarse) expect(uncertaintyS).toBeGreaterThan(1.5 * usual!);
    for (const { firstMovementS, uncertaintyS } of starts) {
      expect(Math.abs(firstMovementS - AT_S)).toBeLessThan(uncertaintyS);
    }
  });
});

describe('a damaged run', () => {
  const launch: Launch = { thrustMps2: 5, limitMps: 80, rampS: 0.3, rateHz: 25, noiseMps: 0.01, seed: 9 };
  const whole = launchLog(launch);

  it('with a hole of 1.3 s across 100 km/h is flagged, and its interval still holds the truth', () => {
    const atHundred = only(whole).speedSplits.find(({ toMps }) => Math.abs(toMps - 100 / 3.6) < 1e-6)!;
    const middleS = only(whole).beginsS + atHundred.timeS;
    const keep = [...whole.timeS.keys()].filter(i => Math.abs(whole.timeS[i]! - middleS - 0.2) > 0.65);
    const run = only(
      readingsToLog(
        Float64Array.from(keep, i => whole.timeS[i]!),
        Float64Array.from(keep, i => whole.speedMps[i]!),
      ),
    );
    expect(run.flags.map(({ code }) => code)).toContain('gap');
    const found = run.speedSplits.find(({ toMps }) => toMps === atHundred.toMps)!;
    expect(found.uncertaintyS).toBeGreaterThan(0.5);
    expect(Math.abs(found.timeS - atHundred.timeS)).toBeLessThan(found.uncertaintyS);
    // What lies before the hole is untouched.
    expect(run.speedSplits[0]!.timeS).toBeCloseTo(only(whole).speedSplits[0]!.timeS, 2);
  });

  it('with a hole across the start says how little it knows of it', () => {
    const keep = [...whole.timeS.keys()].filter(i => whole.timeS[i]! < 3.6 || whole.timeS[i]! > 4.9);
    const run = only(
      readingsToLog(
        Float64Array.from(keep, i => whole.timeS[i]!),
        Float64Array.from(keep, i => whole.speedMps[i]!),
      ),
    );
    expect(run.start!.uncertaintyS).toBeGreaterThan(0.5);
    expect(Math.abs(run.start!.firstMovementS - AT_S)).toBeLessThan(run.start!.uncertaintyS);
  });

  it('with a reading of 412 km/h measures as if it were not there, and says so', () => {
    const spiked = readingsToLog(
      whole.timeS,
      whole.speedMps.map((value, i) => (i === 170 ? 412 / 3.6 : value)),
    );
    const run = only(spiked);
    expect(run.flags.map(({ code }) => code)).toContain('spike');
    expect(run.topMps).toBeLessThan(90);
    near(timesOf(run), timesOf(only(whole)), 0.01);
  });
});
