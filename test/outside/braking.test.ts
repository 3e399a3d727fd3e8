/** Braking figures held to UN R13-H Annex 3 and to closed forms, through the whole chain. */
import { expect } from 'vitest';
import { meanFullyDevelopedMps2 } from '../../pipeline/measurement/braking.ts';
import { measureLog } from '../../pipeline/measurement/measure.ts';
import type { BrakingFigure } from '../../pipeline/measurement/measurement.ts';
import { correctedStop } from '../../pipeline/road/corrected-stop.ts';
import { stoppingDistance } from '../../pipeline/road/road-load.ts';
import { FOOT_M, kmhToMps, mphToMps } from '../../pipeline/units.ts';
import { braked, motionToLog } from '../measurement/trajectories.ts';
import { type CheckValue, describeCheckValues, expectWithin } from './check-values.ts';

const RATES_HZ = [10, 25, 100];

function stopFrom(fromKmh: number, motion: (timeS: number) => number, rateHz: number): BrakingFigure {
  const { measurements } = measureLog(motionToLog(motion, { rateHz, lastsS: 15 }));
  expect(measurements.map(({ run }) => run.kind)).toEqual(['braking']);
  return measurements[0]!.braking.find(one => Math.abs(one.fromMps - kmhToMps(fromKmh)) < 1e-6)!;
}

const mfddKmh = (vb: number, ve: number, sb: number, se: number): number =>
  meanFullyDevelopedMps2(kmhToMps(vb), kmhToMps(ve), sb, se);

/** A term k·v² of a limit, v in km/h and the result in metres, as the deceleration that stops in it, m/s². */
const behindSquare = (k: number): number => mfddKmh(100, 0, 0, k * 100 ** 2);
const implied = (entry: CheckValue): void => expectWithin(behindSquare(entry.inputs.k), entry);

/** Limits that cars are approved by: held to the same formulas, no page judges a car by them. */
describeCheckValues('stopping limits of UN R13-H', {
  'r13h.type0-100': entry => {
    // 0.1 v is 0.36 s at the speed in km/h.
    const limit = stoppingDistance(kmhToMps(entry.inputs.v), {
      reactionTimeS: 0.36,
      decelerationMps2: behindSquare(0.006),
    });
    expectWithin(limit.totalM, entry);
  },
  'r13h.type0-mfdd': implied,
  'r13h.type0-connected': implied,
  'r13h.secondary': implied,
  'r13h.r13-m1': implied,
});

describeCheckValues('stopping distance set to the stated speed', {
  'brake.corr-kmh': entry => {
    const { s, vm, vn } = entry.inputs;
    expectWithin(correctedStop(s, kmhToMps(vm), kmhToMps(vn))?.correctedM, entry);
  },
  'brake.corr-mph': entry => {
    const { s, vm, vn } = entry.inputs;
    expectWithin(correctedStop(s * FOOT_M, mphToMps(vm), mphToMps(vn))!.correctedM / FOOT_M, entry);
  },
  'brake.corr-98pct': entry => {
    const { s, vm, vn } = entry.inputs;
    expectWithin(correctedStop(s, kmhToMps(vm), kmhToMps(vn))?.correctedM, entry);
  },
});

describeCheckValues('braking', {
  'mfdd.simple': entry => {
    const { vb, ve, sb, se } = entry.inputs;
    expectWithin(mfddKmh(vb, ve, sb, se), entry);
  },
  'mfdd.constant': entry => {
    // One metre from 1 km/h to rest: the formula's divisor is what is left.
    expectWithin(Number((1 / mfddKmh(1, 0, 0, 1)).toPrecision(14)), entry);
  },
  'mfdd.const8': entry => {
    const { v0, sb, se } = entry.inputs;
    expectWithin(mfddKmh(0.8 * v0, 0.1 * v0, sb, se), entry);
    for (const rateHz of RATES_HZ) {
      const figure = stopFrom(
        v0,
        braked(kmhToMps(110), s => 8 * s),
        rateHz,
      );
      expectWithin(figure.mfddMps2, entry, { abs: 1e-4 });
      // The same stop from 100 km/h: v²/2a.
      expect(figure.distanceM).toBeCloseTo(kmhToMps(100) ** 2 / 16, 2);
      expect(Math.abs(figure.distanceM - kmhToMps(100) ** 2 / 16)).toBeLessThan(figure.uncertaintyM);
    }
  },
  'brake.ramp': entry => {
    const { v0, a, ts } = entry.inputs as { v0: number; a: number; ts: number };
    const lost = (s: number): number => (s < ts ? (a * s * s) / (2 * ts) : a * (s - ts / 2));
    for (const rateHz of RATES_HZ) {
      // Braked from exactly the stated speed, where the instant of passing it is the least certain.
      const figure = stopFrom(v0, braked(kmhToMps(v0), lost), rateHz);
      expect(Math.abs(figure.distanceM - entry.expected)).toBeLessThan(figure.uncertaintyM);
      // From 1 km/h more the build-up lies above: the rest of the same stop in closed form.
      const above = kmhToMps(v0 + 5);
      const passed = stopFrom(v0, braked(above, lost), rateHz);
      expectWithin(passed.distanceM + (entry.expected - kmhToMps(v0) ** 2 / (2 * a)), entry, { abs: 0.02 });
    }
  },
});
