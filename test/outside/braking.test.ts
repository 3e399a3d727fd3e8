/** Braking figures held to UN R13-H Annex 3 and to closed forms, through the whole chain. */
import { expect } from 'vitest';
import { meanFullyDevelopedMps2 } from '../../pipeline/measurement/braking.ts';
import { measureLog } from '../../pipeline/measurement/measure.ts';
import type { BrakingFigure } from '../../pipeline/measurement/measurement.ts';
import { kmhToMps } from '../../pipeline/units.ts';
import { braked, motionToLog } from '../measurement/trajectories.ts';
import { describeCheckValues, expectWithin } from './check-values.ts';

const RATES_HZ = [10, 25, 100];

function stopFrom(fromKmh: number, motion: (timeS: number) => number, rateHz: number): BrakingFigure {
  const { measurements } = measureLog(motionToLog(motion, { rateHz, lastsS: 15 }));
  expect(measurements.map(({ run }) => run.kind)).toEqual(['braking']);
  return measurements[0]!.braking.find(one => Math.abs(one.fromMps - kmhToMps(fromKmh)) < 1e-6)!;
}

const mfddKmh = (vb: number, ve: number, sb: number, se: number): number =>
  meanFullyDevelopedMps2(kmhToMps(vb), kmhToMps(ve), sb, se);

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
