/**
 * How every figure is worked out, with the constants the code itself uses: the methodology page prints this list.
 * Values are in the unit people read; each is converted here from the constant that computes.
 */
import { catalogue } from '../language.ts';
import * as run from '../run/rules.ts';
import { GAP_INTERVALS, GAP_SHORTEST_S } from '../trace/gaps.ts';
import { ASSUMED_NOISE_MPS } from '../trace/noise.ts';
import { SPIKE_LIMIT_MPS2, SPIKE_LONGEST_READINGS } from '../trace/spikes.ts';
import { STANDING_MPS, STANDING_SHORTEST_S } from '../trace/standing.ts';
import { mpsToKmh, ROLLOUT_M } from '../units.ts';
import {
  BRAKING_ONSET_MPS2,
  BRAKING_SPEEDS_KMH,
  BRAKING_SPEEDS_MPH,
  MFDD_LOWER_SHARE,
  MFDD_UPPER_SHARE,
} from './braking.ts';
import { CROSSING_HALF_WIDTHS_S } from './crossing.ts';
import { SPLIT_DISTANCES_M } from './distance-splits.ts';
import {
  FEWEST_SATELLITES,
  HIGHEST_HDOP,
  IRREGULAR_S,
  LOW_RATE_HZ,
  NOISY_MPS,
  WORST_STATED_MPS,
} from './flags.ts';
import { DERIVED_SPEED, LAG_SHARES } from './lag.ts';
import { ONSET_MODEL_SHARE, START_RAMPS } from './onset.ts';
import { ABRUPT_DOUBT, ABRUPT_SHARE } from './onset-model.ts';
import { PEAK_WINDOW_S } from './peak-acceleration.ts';
import { PEAK_DRAWS } from './peak-doubt.ts';
import { SPLIT_SPEEDS_KMH, SPLIT_SPEEDS_MPH } from './speed-splits.ts';
import { ROLLOUT_SHARE, START_MODEL_S } from './start.ts';
import { TOP_HALF_WIDTH_S, TOP_READINGS } from './top-speed.ts';
import { COVERAGE_FACTOR } from './uncertainty.ts';
import { METHODS_DE } from './words/methods-de.ts';
import { translateRules } from './words/translated.ts';

export type MethodId =
  | 'readings'
  | 'noise'
  | 'distance'
  | 'standing-start'
  | 'rolling-run'
  | 'braking-run'
  | 'first-movement'
  | 'one-foot-rollout'
  | 'speed-splits'
  | 'distance-splits'
  | 'rolling-splits'
  | 'stopping-distance'
  | 'mfdd'
  | 'peak-acceleration'
  | 'top-speed'
  | 'uncertainty'
  | 'flags';

/** One constant as the code uses it. */
export interface MethodConstant {
  readonly what: string;
  readonly values: readonly number[];
  /** Empty for a plain number. */
  readonly unit: string;
  /** True of speeds in km/h that a figure is named by: they are never told in another unit. */
  readonly byName?: true;
}

export interface Method {
  readonly name: string;
  /** What is done, in plain words, whole sentences. */
  readonly rule: string;
  readonly constants: readonly MethodConstant[];
  /** Standard or practice the rule follows. */
  readonly source: string;
}

const constant = (what: string, unit: string, ...values: number[]): MethodConstant => ({
  what,
  values,
  unit,
});
/** Speeds that figures are named by, in the unit of the name. */
const named = (what: string, unit: string, ...values: number[]): MethodConstant => ({
  ...constant(what, unit, ...values),
  byName: true,
});
/** km/h without the conversion's last bits. */
const kmh = (speedMps: number): number => Number(mpsToKmh(speedMps).toPrecision(10));
const OWN = 'Our own rule';
const PRACTICE = 'Common practice, no source';

/** Every method in English, in the order a reader meets them. */
export const METHODS: Readonly<Record<MethodId, Method>> = {
  readings: {
    name: 'Readings',
    rule:
      'Only fresh readings count. Where a recorder repeats one reading over several rows although the car is changing ' +
      'speed, the repeats are left out and the run is flagged. A reading that no car could make from its neighbours is ' +
      'left out and told, and a hole is never filled in.',
    constants: [
      constant('change of speed beyond which a reading is no car’s', 'm/s²', SPIKE_LIMIT_MPS2),
      constant('longest run of such readings', 'readings', SPIKE_LONGEST_READINGS),
      constant('an interval is a gap beyond this many usual ones', 'intervals', GAP_INTERVALS),
      constant('and beyond', 's', GAP_SHORTEST_S),
    ],
    source: OWN,
  },
  noise: {
    name: 'Noise of one reading',
    rule:
      'The scatter of readings while the car stands, or of third differences while it moves, whichever is larger; ' +
      'never less than the recorder’s smallest step divided by √12. Where a log shows neither, a value is assumed.',
    constants: [
      constant('the car stands below', 'km/h', kmh(STANDING_MPS)),
      constant('assumed where the log is silent', 'km/h', kmh(ASSUMED_NOISE_MPS)),
    ],
    source: 'JCGM 100:2008, 4.2 and 4.3.7',
  },
  distance: {
    name: 'Distance',
    rule:
      'The integral of recorded speed by the trapezoid rule. Positions are never summed, and nothing is added while ' +
      'the car stands.',
    constants: [],
    source: PRACTICE,
  },
  'standing-start': {
    name: 'Standing start',
    rule:
      'The car rests, then leaves rest and gains speed hard. Creeping, three-point turns, queueing and gentle drive-offs ' +
      'gain less and are not runs. A gentler start still counts if it is carried on and pulls nearly as hard as the ' +
      'hardest start of the same log: a slow vehicle’s best is a fast one’s way back. A start that lifts early is ' +
      'aborted; it is still shown.',
    constants: [
      constant('rest lasts at least', 's', STANDING_SHORTEST_S),
      constant('the launch is judged from', 'km/h', kmh(run.LAUNCH_FROM_MPS)),
      constant('which is passed within', 's', run.LAUNCH_LATEST_S),
      constant('to', 'km/h', kmh(run.LAUNCH_TO_MPS)),
      constant('mean acceleration between them at least', 'm/s²', run.LAUNCH_MPS2),
      constant('or, held up to the speed of a complete run, at least', 'm/s²', run.LAUNCH_SLOW_MPS2),
      constant('an attempt given up earlier is judged to', 'km/h', kmh(run.LAUNCH_SHORT_TO_MPS)),
      constant('and gains at least', 'm/s²', run.LAUNCH_SHORT_MPS2),
      constant('a gentler start gains at least', 'm/s²', run.SUSTAINED_MPS2),
      constant('which it already does to', 'km/h', kmh(run.SUSTAINED_EARLY_TO_MPS)),
      constant(
        'and at least this share of the hardest start’s mean',
        '%',
        Math.round(100 * run.SUSTAINED_SHARE),
      ),
      constant('complete from', 'km/h', kmh(run.COMPLETE_MPS)),
      constant('a gear change is no longer than', 's', run.SHIFT_LONGEST_S),
    ],
    source: OWN,
  },
  'rolling-run': {
    name: 'Rolling run',
    rule:
      'The car gains speed hard from a roll, and covers at least one rolling split. Hard means kinetic energy gained a ' +
      'second and kilogram, which is the same demand at every speed.',
    constants: [
      constant('begins at', 'km/h', kmh(run.ROLLING_FROM_MPS)),
      constant('gains at least', 'W/kg', run.ROLLING_POWER_WPKG),
    ],
    source: OWN,
  },
  'braking-run': {
    name: 'Braking',
    rule:
      'Continuous braking to rest. Braking soon after an acceleration belongs to the same run; any other is a run of ' +
      'its own.',
    constants: [
      constant('begins at', 'km/h', kmh(run.BRAKING_FROM_MPS)),
      constant('loses on average at least', 'm/s²', run.BRAKING_MEAN_MPS2),
      constant('brakes are released for no longer than', 's', run.BRAKING_PAUSE_S),
      constant('same run if it begins within', 's', run.BRAKING_FOLLOWS_S),
    ],
    source: OWN,
  },
  'first-movement': {
    name: 'First movement',
    rule:
      'The instant the car leaves rest, from a fit of the whole rise and not from a threshold. Acceleration rises from ' +
      'nothing in a time and a manner nobody knows: even, smooth, slow or quick to begin, or a part of it at once. Every ' +
      'time and manner is tried, the rest is fitted by least squares, and the answers are averaged with the weight the ' +
      'readings give them. What comes at once is taken for unlikely in the average, because tyres and shafts wind up ' +
      'before they push; in the uncertainty, which is the spread of the answers, it counts for half as much as the others. Where the ' +
      'car creeps to the line or rolls back, the clock starts with the rise that becomes the start, and the run is flagged.',
    constants: [
      constant('ramps considered', 's', START_RAMPS.shortestS, START_RAMPS.longestS),
      constant('share in the average of a manner with a part at once, beside 1', '', ABRUPT_SHARE),
      constant('and in the uncertainty', '', ABRUPT_DOUBT),
      constant('the fit is trusted to this share of speed', '%', 100 * ONSET_MODEL_SHARE),
      constant('standard uncertainty for what the fit leaves out', 's', START_MODEL_S),
    ],
    source:
      'Our own; averaging over models as in Hoeting and others, Statistical Science 14 (1999) 382 (from memory)',
  },
  'one-foot-rollout': {
    name: 'One-foot rollout',
    rule: 'Clock and tape both start where the car has covered one foot, by the same fit as first movement.',
    constants: [
      constant('rollout', 'm', ROLLOUT_M),
      constant('share of the fit’s spread that the first foot is uncertain by', '', ROLLOUT_SHARE),
    ],
    source: 'SAE J1491 (2006), 3.3 takes the same distance as initial vehicle movement',
  },
  'speed-splits': {
    name: 'Times to a speed',
    rule:
      'The instant speed passes the value, from a parabola through the readings around it: the widest stretch that the ' +
      'noise of the log explains and that agrees with the narrower ones; otherwise the straight line between two readings.',
    constants: [
      named('speeds', 'km/h', ...SPLIT_SPEEDS_KMH),
      named('and', 'mph', ...SPLIT_SPEEDS_MPH),
      constant('half widths of the stretches', 's', ...CROSSING_HALF_WIDTHS_S),
    ],
    source: PRACTICE,
  },
  'distance-splits': {
    name: 'Times over a distance',
    rule: 'The instant the tape reads the distance. Under each start rule the tape starts where the clock starts.',
    constants: [constant('distances', 'm', ...SPLIT_DISTANCES_M)],
    source: PRACTICE,
  },
  'rolling-splits': {
    name: 'Rolling splits',
    rule: 'The time from one speed to another within one acceleration; both instants as for times to a speed.',
    constants: [],
    source: PRACTICE,
  },
  'stopping-distance': {
    name: 'Stopping distance',
    rule:
      'The distance from where the car passes the stated speed under braking to where it comes to rest. Reaction, and ' +
      'what happens above that speed, are not in it. The instant of rest is found like first movement, backwards in time.',
    constants: [
      named('speeds', 'km/h', ...BRAKING_SPEEDS_KMH),
      named('and', 'mph', ...BRAKING_SPEEDS_MPH),
      constant('braking has begun where the car loses more than', 'm/s²', BRAKING_ONSET_MPS2),
    ],
    source: PRACTICE,
  },
  mfdd: {
    name: 'Mean fully developed deceleration',
    rule:
      '(vb² − ve²) / 25.92 (se − sb), as the regulation writes it, whatever unit speeds are shown in: speeds in km/h ' +
      'and distances in metres, where vb and ve are shares of the speed ' +
      'from which the stop is given, at the instant the car passes it under braking.',
    constants: [
      constant('vb', 'of that speed', MFDD_UPPER_SHARE),
      constant('ve', 'of that speed', MFDD_LOWER_SHARE),
    ],
    source: 'UN Regulation No. 13-H, Annex 3, 1.1.2',
  },
  'peak-acceleration': {
    name: 'Greatest acceleration',
    rule:
      'The steepest straight line through the readings of a stated time, which belongs to the figure’s name. The ' +
      'steepest of many lines is a little too steep on average; by how much is drawn (JCGM 101) with the log’s own ' +
      'noise, always with the same draws. It is not taken off, but widens the uncertainty (JCGM 100, F.2.4.5).',
    constants: [constant('time', 's', PEAK_WINDOW_S), constant('draws', '', PEAK_DRAWS)],
    source: PRACTICE,
  },
  'top-speed': {
    name: 'Top speed',
    rule:
      'The top of a curve through the readings around the highest: bent smoothly, or with a point where the driver ' +
      'leaves the power or brakes; averaged with the weight the readings give each. One wild reading cannot make it.',
    constants: [
      constant('readings on either side at least', '', TOP_READINGS),
      constant('and within', 's', TOP_HALF_WIDTH_S),
    ],
    source: OWN,
  },
  uncertainty: {
    name: 'Uncertainty',
    rule:
      'Each figure has a budget: start, noise, interpolation, sampling, the receiver’s stated accuracy, its lag, scatter ' +
      'of time stamps, held readings, gaps. A receiver’s filter shows where neighbouring readings at rest are alike; ' +
      'nothing is corrected for it, and the share of its time that a figure may be off by is an item. The items are added in quadrature and expanded. A figure across a gap keeps its value and carries the ' +
      'whole gap in its uncertainty.',
    constants: [
      constant('coverage factor', '', COVERAGE_FACTOR),
      constant(
        'share of a filter’s time: from first movement, after one foot, between two speeds',
        '',
        LAG_SHARES['first-movement'],
        LAG_SHARES['one-foot-rollout'],
        LAG_SHARES.rolling,
      ),
      constant(
        'standard uncertainty of speed from positions: first movement, one foot, between two speeds',
        's',
        DERIVED_SPEED['first-movement'],
        DERIVED_SPEED['one-foot-rollout'],
        DERIVED_SPEED.rolling,
      ),
    ],
    source: 'JCGM 100:2008, 4.3.7, 5.1.2 and 6.2',
  },
  flags: {
    name: 'Flags',
    rule: 'A flagged run is shown flagged and never dropped.',
    constants: [
      constant('low rate below', 'readings a second', LOW_RATE_HZ),
      constant('noisy beyond', 'km/h', kmh(NOISY_MPS)),
      constant('time stamps irregular beyond', 's', IRREGULAR_S),
      constant('poor fix with fewer than', 'satellites', FEWEST_SATELLITES),
      constant('or a horizontal dilution of precision above', '', HIGHEST_HDOP),
      constant('or a stated speed accuracy worse than', 'km/h', kmh(WORST_STATED_MPS)),
    ],
    source: PRACTICE,
  },
};

/** Every method in a reader's language. */
export const methodsIn = catalogue<Readonly<Record<MethodId, Method>>>({
  en: METHODS,
  de: translateRules(METHODS, METHODS_DE, 'de'),
});
