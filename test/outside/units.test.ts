import { expect } from 'vitest';
import type { RunMeasurement } from '../../pipeline/measurement/measurement.ts';
import { MEASURES } from '../../pipeline/result/measures.ts';
import {
  FOOT_M,
  feetToM,
  HORSEPOWER_W,
  kmhToMps,
  knotsToMps,
  METRIC_HORSEPOWER_W,
  MPH_MPS,
  mphToMps,
  mpsToKmh,
  mpsToMph,
  POUND_FORCE_FOOT_NM,
  POUND_KG,
  PSI_PA,
} from '../../pipeline/units.ts';
import { type CheckValue, describeCheckValues, expectWithin } from './check-values.ts';

const inFeet = (entry: CheckValue): void => expectWithin(feetToM(entry.inputs.ft), entry);

/** A run with one split over `toM`: a measure that looks for that distance finds it, any other does not. */
const withDistance = (toM: number): RunMeasurement => ({
  run: { number: 1, kind: 'standing-start', status: 'complete', beginIndex: 0, endIndex: 1 },
  beginsS: 0,
  endsS: 40,
  speedSplits: [],
  distanceSplits: [{ toM, startRule: 'first-movement', timeS: 30, uncertaintyS: 0.1, speedMps: 50 }],
  braking: [],
  peakMps2: 3,
  topMps: 50,
  flags: [],
});

describeCheckValues('units', {
  'dist.rollout-1ft': entry => {
    inFeet(entry);
    expectWithin(FOOT_M, entry);
  },
  'dist.60ft': inFeet,
  'dist.66ft-trap': inFeet,
  'dist.330ft': inFeet,
  'dist.eighth-mile': inFeet,
  'dist.1000ft': inFeet,
  'dist.quarter-mile': inFeet,
  // The word for it finds a split over exactly this distance, and none a millimetre off.
  'dist.standing-km': entry => {
    expect(MEASURES['0-1000-m'].valueOf(withDistance(entry.expected))?.value).toBe(30);
    expect(MEASURES['0-1000-m'].valueOf(withDistance(entry.expected + 0.001))).toBeUndefined();
  },
  'speed.60mph-kmh': entry => expectWithin(mpsToKmh(mphToMps(entry.inputs.mph)), entry),
  'speed.60mph-ms': entry => expectWithin(mphToMps(entry.inputs.mph), entry),
  'speed.1mph-ms': entry => expectWithin(MPH_MPS, entry),
  'speed.100kmh-mph': entry => expectWithin(mpsToMph(kmhToMps(entry.inputs.kmh)), entry),
  'speed.1kn-ms': entry => expectWithin(knotsToMps(entry.inputs.kn), entry),
  'power.1hp-w': entry => expectWithin(HORSEPOWER_W, entry),
  'power.1ps-w': entry => expectWithin(METRIC_HORSEPOWER_W, entry),
  'mass.1lb-kg': entry => expectWithin(POUND_KG, entry),
  'torque.1lbfft-nm': entry => expectWithin(POUND_FORCE_FOOT_NM, entry),
  'press.1psi-pa': entry => expectWithin(PSI_PA, entry),
});
