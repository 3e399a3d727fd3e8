import { expect } from 'vitest';
import { HIGHWAY_CODE, stoppingDistance } from '../../pipeline/road/road-load.ts';
import { roundToDecimals } from '../../pipeline/round.ts';
import { mphToMps } from '../../pipeline/units.ts';
import { type CheckValue, describeCheckValues, expectWithin } from './check-values.ts';

/** The table prints whole metres and adds the rounded parts, so its totals are held through its parts. */
const row = (entry: CheckValue): void => {
  const stop = stoppingDistance(mphToMps(entry.inputs.mph), HIGHWAY_CODE);
  expectWithin(
    { thinking_m: stop.thinkingM, braking_m: stop.brakingM, total_m: stop.totalM, model_m: stop.totalM },
    entry,
  );
  expectWithin({ model_m: stop.totalM }, entry, { abs: 1e-9 });
  const printed = Number(roundToDecimals(stop.thinkingM, 0)) + Number(roundToDecimals(stop.brakingM, 0));
  expect(printed).toBe(entry.expected.total_m);
};

describeCheckValues('stopping distances', {
  'highway-code.20': row,
  'highway-code.30': row,
  'highway-code.40': row,
  'highway-code.50': row,
  'highway-code.60': row,
  'highway-code.70': row,
  'highway-code.think-time': entry => expectWithin(HIGHWAY_CODE.reactionTimeS, entry),
  'highway-code.decel': entry => expectWithin(HIGHWAY_CODE.decelerationMps2, entry),
});
