/** The constants of finding, measuring and judging, read from the code that uses them. */
import { CIPM_2007_RANGE } from '../conditions/air.ts';
import { BRAKING_ONSET_MPS2, MFDD_LOWER_SHARE, MFDD_UPPER_SHARE } from '../measurement/braking.ts';
import { FEWEST_SATELLITES, HIGHEST_HDOP, LOW_RATE_HZ, NOISY_MPS } from '../measurement/flags.ts';
import { PEAK_WINDOW_S } from '../measurement/peak-acceleration.ts';
import { TOP_READINGS } from '../measurement/top-speed.ts';
import { COVERAGE_FACTOR } from '../measurement/uncertainty.ts';
import type { House } from '../result/result.ts';
import { localiseDigits, printQuantity, type QuantityKind, withUnit } from '../result/words.ts';
import * as rules from '../run/rules.ts';
import type { Table } from '../table/table.ts';
import { GAP_INTERVALS, GAP_SHORTEST_S } from '../trace/gaps.ts';
import { ASSUMED_NOISE_MPS } from '../trace/noise.ts';
import { SPIKE_LIMIT_MPS2 } from '../trace/spikes.ts';
import { STANDING_MPS, STANDING_SHORTEST_S } from '../trace/standing.ts';
import { FOOT_M, kelvinToCelsius, MILE_M, paToHpa, ROLLOUT_M, STANDARD_GRAVITY_MPS2 } from '../units.ts';

type Row = readonly [rule: string, value: string];

function ruleTable(id: string, caption: string, rows: readonly Row[]): Table {
  return {
    id,
    caption,
    columns: [
      { label: 'Rule', align: 'start' },
      { label: 'Value', align: 'end' },
    ],
    rows: rows.map(([rule, value]) => [{ text: rule, header: true }, { text: value }]),
    notes: [],
  };
}

/** Prints a constant as it is, with only the decimals it has. */
function printer(house: House): (value: number, kind: QuantityKind, decimals?: number) => string {
  return (value, kind, decimals = 1) => printQuantity(value, kind, decimals, house.language);
}

/** What counts as a run. */
export function runRules(house: House): Table {
  const print = printer(house);
  return ruleTable('run-rules', 'What the program takes for a run in a day’s log.', [
    ['Standing start: from rest past this speed', print(rules.LAUNCH_FROM_MPS, 'speed', 0)],
    ['… within this long; slower is creeping', print(rules.LAUNCH_LATEST_S, 'time', 0)],
    [
      `Mean acceleration from there to ${print(rules.LAUNCH_TO_MPS, 'speed', 0)}, at least`,
      print(rules.LAUNCH_MPS2, 'acceleration'),
    ],
    ['A standing start that lifts below this speed was given up', print(rules.COMPLETE_MPS, 'speed', 0)],
    [
      'An interruption shorter than this, such as a gear change, ends no run',
      print(rules.SHIFT_LONGEST_S, 'time'),
    ],
    ['Rolling run: begins at least this fast', print(rules.ROLLING_FROM_MPS, 'speed', 0)],
    ['Braking: loses speed by more than this', print(rules.BRAKING_MPS2, 'acceleration')],
    ['A stop begins at least this fast', print(rules.BRAKING_FROM_MPS, 'speed', 0)],
    ['… and loses on average at least', print(rules.BRAKING_MEAN_MPS2, 'acceleration')],
  ]);
}

/** How figures are read from a run. */
export function figureRules(house: House): Table {
  const print = printer(house);
  const percent = (share: number): string =>
    withUnit(localiseDigits(String(share * 100), house.language), '%');
  return ruleTable('figure-rules', 'How figures are read from a run.', [
    ['One-foot rollout', print(ROLLOUT_M, 'distance', 4)],
    ['Coverage factor of every printed uncertainty', localiseDigits(String(COVERAGE_FACTOR), house.language)],
    [
      'Mean fully developed deceleration: between these shares of the speed (UN R13-H, annex 3)',
      `${percent(MFDD_UPPER_SHARE)} and ${percent(MFDD_LOWER_SHARE)}`,
    ],
    ['Braking has begun where speed falls faster than', print(BRAKING_ONSET_MPS2, 'acceleration')],
    ['Peak acceleration is held for', print(PEAK_WINDOW_S, 'time')],
    ['Highest speed: middle one of this many readings', localiseDigits(String(TOP_READINGS), house.language)],
    ['Foot', print(FOOT_M, 'distance', 4)],
    ['Mile', print(MILE_M, 'distance', 3)],
    ['Standard acceleration of free fall', print(STANDARD_GRAVITY_MPS2, 'acceleration', 5)],
  ]);
}

/** What a log is watched for; told on the page, never mended. */
export function logRules(house: House): Table {
  const print = printer(house);
  const number = (value: number): string => localiseDigits(String(value), house.language);
  const { limits } = house;
  return ruleTable('log-rules', 'What a log is watched for. It is told, and nothing is filled in.', [
    ['The car stands below this speed', print(STANDING_MPS, 'speed')],
    ['… for at least, before a start', print(STANDING_SHORTEST_S, 'time', 0)],
    ['A gap: readings this many usual intervals apart', number(GAP_INTERVALS)],
    ['… and at least', print(GAP_SHORTEST_S, 'time', 2)],
    ['A spike: speed changes there and back faster than', print(SPIKE_LIMIT_MPS2, 'acceleration')],
    ['Noise of a reading where the log does not show it', print(ASSUMED_NOISE_MPS, 'speed')],
    ['Noisy: a reading scatters by more than', print(NOISY_MPS, 'speed')],
    ['Low rate: fewer readings a second than', print(LOW_RATE_HZ, 'rate', 0)],
    ['Poor fix: fewer satellites than', number(FEWEST_SATELLITES)],
    ['… or a horizontal dilution of precision above', number(HIGHEST_HDOP)],
    ...(limits?.rate_hz === undefined
      ? []
      : [[`${house.name} flags a rate below`, print(limits.rate_hz, 'rate', 0)] as const]),
    ...(limits?.wind_mps === undefined
      ? []
      : [[`${house.name} flags a wind above`, print(limits.wind_mps, 'wind')] as const]),
    ...(limits?.slope_pct === undefined
      ? []
      : [[`${house.name} flags a slope above`, print(limits.slope_pct, 'slope')] as const]),
  ]);
}

/** Where CIPM-2007 is used, in words. */
export function airRangeInWords(house: House): string {
  const number = (value: number): string =>
    localiseDigits(String(Math.round(value * 10) / 10), house.language);
  const { lowestK, highestK, lowestPa, highestPa } = CIPM_2007_RANGE;
  return `${number(kelvinToCelsius(lowestK))} to ${number(kelvinToCelsius(highestK))} °C and ${number(paToHpa(lowestPa))} to ${number(paToHpa(highestPa))} hPa`;
}
