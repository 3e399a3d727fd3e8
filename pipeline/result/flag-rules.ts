/** What each flag of a run means to a reader, and where it begins. A flagged run is shown flagged, never dropped. */

import { RESTATE_LIMITS } from '../conditions/circumstances.ts';
import { catalogue, type Spoken } from '../language.ts';
import { flagText } from '../measurement/flag-words.ts';
import {
  FEWEST_SATELLITES,
  HIGHEST_HDOP,
  IRREGULAR_S,
  LOW_RATE_HZ,
  NOISY_MPS,
  WORST_STATED_MPS,
} from '../measurement/flags.ts';
import { WARM_PAUSE_S } from '../measurement/launch-care.ts';
import type { MethodConstant } from '../measurement/methods.ts';
import { unitInWords } from '../measurement/words/units.ts';
import type { ForReaders } from '../speed-unit.ts';
import { FILTER_TOLD_S } from '../trace/filter.ts';
import { GAP_INTERVALS, GAP_SHORTEST_S } from '../trace/gaps.ts';
import { SPIKE_LIMIT_MPS2 } from '../trace/spikes.ts';
import { mpsToKmh } from '../units.ts';
import { SHORT_ROAD_SHARE } from './day-flags.ts';
import type { Attempt, House } from './result.ts';
import { FLAG_RULES_DE } from './words/flag-rules-de.ts';

export interface FlagRule {
  readonly name: string;
  /** Why a reader should know, whole sentences. */
  readonly why: string;
  /** Where it begins; empty where there is no threshold. */
  limits(house: Pick<House, 'limits'>): readonly MethodConstant[];
}

const constant = (what: string, unit: string, value: number): MethodConstant => ({
  what,
  values: [Number(value.toPrecision(10))],
  unit,
});
const stated = (what: string, unit: string, value: number | undefined): readonly MethodConstant[] =>
  value === undefined ? [] : [constant(what, unit, value)];

const RULES_EN = {
  gap: {
    name: 'Gap',
    why: 'Readings are missing within the run. Nothing is filled in; a figure across the gap keeps its value and carries the whole gap in its uncertainty.',
    limits: () => [
      constant('interval beyond', 'usual ones', GAP_INTERVALS),
      constant('and beyond', 's', GAP_SHORTEST_S),
    ],
  },
  spike: {
    name: 'Impossible reading',
    why: 'A reading no car could make from its neighbours was left out; the receiver lost its way for a moment.',
    limits: () => [constant('change of speed there and back beyond', 'm/s²', SPIKE_LIMIT_MPS2)],
  },
  'held-values': {
    name: 'Held readings',
    why: 'The recorder repeats one reading over several rows. The repeats are left out, and how late a reading may be is in the uncertainty.',
    limits: () => [],
  },
  'low-rate': {
    name: 'Low rate',
    why: 'With few readings a second the rise of speed at the start is hardly seen; the uncertainty grows.',
    limits: ({ limits }: Pick<House, 'limits'>) => [
      constant('fewer readings a second than', '', limits?.rate_hz ?? LOW_RATE_HZ),
    ],
  },
  noisy: {
    name: 'Noisy',
    why: 'Single readings scatter more than a good fix in the open gives; the uncertainty grows with it.',
    limits: () => [constant('one reading scatters by more than', 'km/h', mpsToKmh(NOISY_MPS))],
  },
  filtered: {
    name: 'Filtered',
    why: 'Neighbouring readings at rest are alike, as behind a filter: speeds may come late. Nothing is corrected; the uncertainty grows.',
    limits: () => [],
  },
  'brief-rest': {
    name: 'Brief rest',
    why: 'Whether a receiver filters shows only in readings at rest. Where a log holds too few of them, a filter may be there unseen, and the interval then holds the truth less often than it says. Let the car stand with the receiver on.',
    limits: () => [constant('a filter would not show of', 's', FILTER_TOLD_S)],
  },
  irregular: {
    name: 'Irregular time stamps',
    why: 'Time stamps stray from the instants they stand for; the uncertainty grows with the acceleration.',
    limits: () => [constant('time stamps irregular beyond', 's', IRREGULAR_S)],
  },
  creep: {
    name: 'Creep before the start',
    why: 'The car crept before it was launched. The clock starts with the rise that becomes the start; how far it crept is told.',
    limits: () => [],
  },
  'rolled-back': {
    name: 'Rolled before the start',
    why: 'The car moved a little, forwards or back, and came to rest again just before the start. The clock starts after that.',
    limits: () => [],
  },
  'derived-speed': {
    name: 'Speed from positions',
    why: 'The log holds no speed of the receiver’s own. Speed worked out from positions lags and scatters more.',
    limits: () => [],
  },
  'poor-fix': {
    name: 'Poor fix',
    why: 'With few satellites, or all of them in one part of the sky, speed is less certain than the scatter shows.',
    limits: () => [
      constant('fewer satellites than', '', FEWEST_SATELLITES),
      constant('or a horizontal dilution of precision above', '', HIGHEST_HDOP),
      constant(
        'or a speed accuracy, as the receiver states it, worse than',
        'km/h',
        mpsToKmh(WORST_STATED_MPS),
      ),
    ],
  },
  wind: {
    name: 'Wind',
    why: 'Wind along the road makes a run quicker or slower, and the mean of two directions does not take it out.',
    limits: ({ limits }: Pick<House, 'limits'>) => stated('mean wind above', 'm/s', limits?.wind_mps),
  },
  slope: {
    name: 'Slope',
    why: 'A slope of 1 % adds or takes away about 0.1 m/s² of acceleration.',
    limits: ({ limits }: Pick<House, 'limits'>) =>
      stated('mean slope, either way, above', '%', limits?.slope_pct),
  },
  'short-road': {
    name: 'Short road',
    why: 'The run used nearly the whole road. The driver may have lifted or braked for want of room, so that its highest speed and its longest figures say less about the car.',
    limits: () => [constant('run longer than', '% of the road', 100 * SHORT_ROAD_SHARE)],
  },
  'warm-driveline': {
    name: 'Warm driveline',
    why: 'The launch came soon after another. Clutch, gearbox, battery and tyres may still have been warm from it; the flag tells its place in the day.',
    limits: () => [constant('pause since the last launch under', 's', WARM_PAUSE_S)],
  },
  'not-restated': {
    name: 'Not restated',
    why: 'A fact that restating needs is missing, or the day was beyond what the method is shown to hold for.',
    limits: () => [
      constant('wind along the run above', 'm/s', RESTATE_LIMITS.headwindMps),
      constant('or slope over 50 m above', '%', 100 * RESTATE_LIMITS.slope),
      constant('or density from the reference above', '%', 100 * RESTATE_LIMITS.densityShare),
    ],
  },
} as const satisfies Readonly<Record<string, FlagRule>>;

export type RuledFlag = keyof typeof RULES_EN;

/** In English, by the flag's permanent code, in the order of the page. */
export const FLAG_RULES: Readonly<Record<string, FlagRule>> = RULES_EN;

const WORDS = catalogue({
  en: {
    flag: (name: string, why: string) => `Flag “${name}”: ${why}`,
    /** A flag within a sentence. */
    within: (name: string) => name.toLowerCase(),
    attempt: (number: number, flags: readonly string[]) => `attempt ${number} (${flags.join(', ')})`,
    flagged: (attempts: readonly string[]) => `Flagged: ${attempts.join(', ')}.`,
  },
  de: {
    flag: (name, why) => `Kennzeichen „${name}“: ${why}`,
    within: name => name,
    attempt: (number, flags) => `Versuch ${number} (${flags.join(', ')})`,
    flagged: attempts => `Gekennzeichnet: ${attempts.join(', ')}.`,
  },
});

/** The rules in a reader's language, in the order of the page. */
export const flagRules = catalogue<Readonly<Record<string, FlagRule>>>({
  en: FLAG_RULES,
  de: inGerman(RULES_EN),
});

function inGerman(rules: Readonly<Record<RuledFlag, FlagRule>>): Readonly<Record<RuledFlag, FlagRule>> {
  const codes = Object.keys(rules) as RuledFlag[];
  const translated = codes.map((code): [RuledFlag, FlagRule] => {
    const { name, why, limits } = FLAG_RULES_DE[code];
    return [
      code,
      {
        name,
        why,
        limits: house =>
          rules[code].limits(house).map((each, i) => ({
            ...each,
            what: limits[i] ?? each.what,
            unit: unitInWords(each.unit, 'de'),
          })),
      },
    ];
  });
  return Object.fromEntries(translated) as Record<RuledFlag, FlagRule>;
}

/** The flag's name for readers; a code without a rule is its own name. */
export const flagName = (code: string, spoken: Spoken): string =>
  flagRules(spoken)[code]?.name ?? code.replaceAll('-', ' ');

/** `Gap: no reading for 2.20 s`, flag by flag; empty where an attempt has none. */
export const flagsInWords = ({ measurement }: Pick<Attempt, 'measurement'>, spoken: ForReaders): string =>
  measurement.flags.map(flag => `${flagName(flag.code, spoken)}: ${flagText(flag, spoken)}`).join('; ');

/** Why each kind of flag among these attempts matters, for notes under a table. */
export function flagReasons(
  attempts: readonly Pick<Attempt, 'measurement'>[],
  spoken: Spoken,
): readonly string[] {
  const found = new Set(attempts.flatMap(({ measurement }) => measurement.flags.map(({ code }) => code)));
  return Object.entries(flagRules(spoken)).flatMap(([code, { name, why }]) =>
    found.has(code) ? [WORDS(spoken).flag(name, why)] : [],
  );
}

/** `Flagged: attempt 5 (gap), attempt 7 (wind, slope).` for notes under a figure; none where none is. */
export function flaggedAmong(
  attempts: readonly Pick<Attempt, 'number' | 'measurement'>[],
  spoken: Spoken,
): readonly string[] {
  const words = WORDS(spoken);
  const flagged = attempts.filter(({ measurement }) => measurement.flags.length > 0);
  if (flagged.length === 0) return [];
  const named = flagged.map(({ number, measurement }) =>
    words.attempt(
      number,
      measurement.flags.map(({ code }) => words.within(flagName(code, spoken))),
    ),
  );
  return [words.flagged(named)];
}
