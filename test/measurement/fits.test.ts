/** The fits behind start and stop are told with the figures, and say the same as these. */
import { describe, expect, it } from 'vitest';
import { measureLog } from '../../pipeline/measurement/measure.ts';
import { type FittedMotion, fittedSpeed, type OnsetFit } from '../../pipeline/measurement/onset-average.ts';
import { leadShare, riseIntegral } from '../../pipeline/measurement/onset-model.ts';
import { CARS } from '../simulate/cars.ts';
import { drivePaths, readPath } from '../simulate/coverage.ts';
import { randomFromSeed } from '../simulate/random.ts';

const random = randomFromSeed(31);
const NOISE_MPS = 0.01;
const measured = CARS.flatMap(car =>
  drivePaths(car, 4, 77).map(path => {
    const log = readPath(path.trajectory, { rateHz: 25, noiseMps: NOISE_MPS }, 0, random);
    const { trace, measurements } = measureLog(log);
    return { trace, measurement: measurements[0]!, path };
  }),
);
const around = (fit: OnsetFit, timeS: Float64Array): number[] =>
  Array.from({ length: fit.lastIndex - fit.firstIndex + 1 }, (_, k) => timeS[fit.firstIndex + k]!);

describe('the fits of a start and of a stop', () => {
  it('stand with the measurement, and start and stop are theirs', () => {
    expect(measured).toHaveLength(16);
    for (const { measurement } of measured) {
      const { start, stop } = measurement.fits!;
      expect(measurement.start!.firstMovementS).toBe(start!.firstMovementS);
      expect(measurement.endsS).toBe(stop!.atS);
      expect(start!.onset.direction).toBe(1);
      expect(stop!.onset.direction).toBe(-1);
    }
  });

  it('draw a curve through the readings they were made from', () => {
    for (const { measurement, trace } of measured) {
      const { start, stop } = measurement.fits!;
      // A share of what is left of the speed is the model's own, and a dip of wheelspin is more of it.
      for (const [fit, allowedMps] of [
        [start!.onset, 0.12],
        [stop!.onset, 0.12],
      ] as const) {
        const squares = around(fit, trace.timeS).map(
          (t, k) => (Math.abs(fittedSpeed(fit, t)) - trace.speedMps[fit.firstIndex + k]!) ** 2,
        );
        const rms = Math.sqrt(squares.reduce((sum, value) => sum + value, 0) / squares.length);
        expect(rms).toBeLessThan(allowedMps);
      }
    }
  });

  it('leave rest where their own straight part, drawn back, and their own ramp say', () => {
    for (const { measurement } of measured) {
      const { likeliest } = measurement.fits!.start!.onset;
      const { leavesS, meetsS, rampS, rise, accelerationMps2 }: FittedMotion = likeliest;
      expect(leavesS).toBeCloseTo(meetsS - rampS * leadShare(rise), 12);
      // At the end of the ramp the curve has the speed that the integral of the rise gives.
      const endS = measurement.fits!.start!.onset.originS + leavesS + rampS;
      expect(fittedSpeed(measurement.fits!.start!.onset, endS)).toBeCloseTo(
        accelerationMps2 * rampS * riseIntegral(rise, 1),
        9,
      );
      expect(fittedSpeed(measurement.fits!.start!.onset, endS - rampS - 1e-9)).toBe(0);
    }
  });

  it('share one whole among the manners, the heaviest first', () => {
    for (const { measurement } of measured) {
      for (const { manners, answers } of [measurement.fits!.start!.onset, measurement.fits!.stop!.onset]) {
        expect(manners.reduce((sum, { share }) => sum + share, 0)).toBeCloseTo(1, 9);
        for (const [k, { share }] of manners.slice(1).entries())
          expect(share).toBeLessThanOrEqual(manners[k]!.share);
        expect(answers).toBeGreaterThan(10);
      }
    }
  });
});
