/** How gear changes are found and what the driveline was asked: rules with the constants the code uses. */
import { SLIP_ENDED_SHARE, SLIP_RATE_HZ, TURNING_SHARE, WARM_PAUSE_S } from '../measurement/launch-care.ts';
import type { Method } from '../measurement/methods.ts';
import { COUNT_FIRM_S } from '../measurement/shifts.ts';
import {
  SHIFT_DEPTH_SHARE,
  SHIFT_FROM_MPS,
  SHIFT_MUST_SHOW_S,
  SHIFT_PULL_MPS2,
  SHIFT_PULLS_ALIKE,
  SHIFT_RATE_HZ,
  SHIFT_SDS,
} from '../measurement/shifts-acceleration.ts';
import { SHIFT_DIP_S, SHIFT_MODEL_S } from '../measurement/shifts-fit.ts';
import { mpsToKmh } from '../units.ts';

export type DrivelineRuleId = 'shifts' | 'shift-loss' | 'launches' | 'slip-heat';

const OWN = 'Our own rule';
const percent = (share: number): number => Number((100 * share).toPrecision(10));
const kmh = (speedMps: number): number => Number(mpsToKmh(speedMps).toPrecision(10));

/** Every rule of this kind, in the order a reader meets them. */
export const DRIVELINE_RULES: Readonly<Record<DrivelineRuleId, Method>> = {
  shifts: {
    name: 'Gear changes',
    rule:
      'An upshift is seen as a dip of acceleration between two stretches of pull, or, where the log holds engine speed, ' +
      'as a step of its ratio to the speed of the car. A car that pulls on without a dip has made none that anyone could ' +
      'measure; a driver who lifts for as long looks the same. Where a log could not have shown them, that is said.',
    constants: [
      { what: 'fewest readings a second', values: [SHIFT_RATE_HZ], unit: '' },
      { what: 'looked for above', values: [kmh(SHIFT_FROM_MPS)], unit: 'km/h' },
      { what: 'the dip lasts', values: [SHIFT_DIP_S.shortest, SHIFT_DIP_S.longest], unit: 's' },
      {
        what: 'acceleration falls to at most this share of the lesser pull',
        values: [percent(SHIFT_DEPTH_SHARE)],
        unit: '%',
      },
      { what: 'the pull on either side is at least', values: [SHIFT_PULL_MPS2], unit: 'm/s²' },
      {
        what: 'the new pull is at least this share of the old one',
        values: [percent(SHIFT_PULLS_ALIKE)],
        unit: '%',
      },
      { what: 'the speed missing exceeds its standard deviation', values: [SHIFT_SDS], unit: 'times' },
      {
        what: 'not looked for where the scatter would hide a loss of',
        values: [SHIFT_MUST_SHOW_S],
        unit: 's',
      },
      {
        what: 'counted as “at least” where a loss may go unseen beyond',
        values: [COUNT_FIRM_S],
        unit: 's',
      },
    ],
    source: OWN,
  },
  'shift-loss': {
    name: 'Time lost in a gear change',
    rule:
      'What the change really took, from the old pull to the new one, less what it would have taken had it needed no ' +
      'time: the old pull lasting up to the speed at which the change began, and the new one beginning at that speed.',
    constants: [
      {
        what: 'standard uncertainty for what the fit leaves out',
        values: [SHIFT_MODEL_S.lost],
        unit: 's',
      },
    ],
    source: OWN,
  },
  launches: {
    name: 'Launches and pauses',
    rule:
      'Every standing start is counted by its method, those given up and set aside too, with the pause since the one ' +
      'before, from first movement to first movement. A start soon after another is flagged.',
    constants: [{ what: 'a pause is short under', values: [WARM_PAUSE_S], unit: 's' }],
    source: OWN,
  },
  'slip-heat': {
    name: 'Heat of a slipping clutch',
    rule:
      'Where engine speed is logged, force on the car times the speed of the slip, added up until the slip ends; ' +
      'otherwise only what it can have been at least and at most. It is an estimate of energy. It does not tell how ' +
      'hot anything was, what it bears, or what its maker allows.',
    constants: [
      { what: 'fewest readings a second', values: [SLIP_RATE_HZ], unit: '' },
      {
        what: 'the slip has ended within this share of a closed clutch’s speed',
        values: [percent(SLIP_ENDED_SHARE)],
        unit: '%',
      },
      {
        what: 'what turns adds this share to the car’s mass',
        values: [percent(TURNING_SHARE)],
        unit: '%',
      },
    ],
    source:
      'Shigley, Mechanical Engineering Design (from memory); turning share 1.04 + 0.0025 i² of handbooks',
  },
};
