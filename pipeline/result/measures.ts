/** Every figure that can be published, by its word: what it is called, its unit, and where it is read from. */

import { localiseDigits } from '../digits.ts';
import type { BrakingFigure, DistanceSplit, RunMeasurement, SpeedSplit } from '../measurement/measurement.ts';
import type { ClockRule, StartRule } from '../run/run.ts';
import { type ForReaders, type HouseUnits, houseUnits, type SpeedUnit, speedUnitOf } from '../speed-unit.ts';
import { kmhToMps, mphToMps, mpsToKmh } from '../units.ts';
import type { MeasureId } from './result.ts';
import { type MeasureName, type MeasureWords, measureWords, type NamedDistance } from './words/measures.ts';

/** A figure of one attempt, SI; `uncertainty` is expanded, k = 2, absent where none can be stated. */
export interface MeasuredValue {
  readonly value: number;
  readonly uncertainty?: number;
}

export interface Measure {
  readonly id: MeasureId;
  /** Unit of `valueOf`. */
  readonly unit: 's' | 'm' | 'm/s' | 'm/s²';
  /** True where clock or tape start at a standing start, so that the start rule matters. */
  readonly fromRest: boolean;
  readonly better: 'lower' | 'higher';
  /** What it is called; `measureLabel` and its like ask for it. */
  named(readers: ForReaders): MeasureName;
  /**
   * The figure of one attempt; undefined where the attempt did not reach it.
   * `startRule` counts for figures from rest only; `first-movement` unless told.
   */
  valueOf(measurement: RunMeasurement, startRule?: StartRule): MeasuredValue | undefined;
}

type Details = Omit<Measure, 'id'>;

/** Two nominal speeds or distances are the same one if they differ by less than this, m/s or m. */
const SAME_NOMINAL = 1e-6;
const same = (a: number, b: number): boolean => Math.abs(a - b) < SAME_NOMINAL;
const measured = (value: number | undefined, uncertainty: number | undefined): MeasuredValue | undefined =>
  value === undefined ? undefined : { value, ...(uncertainty === undefined ? {} : { uncertainty }) };

function speedSplitValue(
  measurement: RunMeasurement,
  fromMps: number,
  toMps: number,
  rule: ClockRule,
): MeasuredValue | undefined {
  const split = measurement.speedSplits.find(
    s => s.startRule === rule && same(s.fromMps, fromMps) && same(s.toMps, toMps),
  );
  return measured(split?.timeS, split?.uncertaintyS);
}

const distanceSplit = (
  measurement: RunMeasurement,
  toM: number,
  rule: StartRule,
): DistanceSplit | undefined =>
  measurement.distanceSplits.find(s => s.startRule === rule && same(s.toM, toM));

const brakingFrom = (measurement: RunMeasurement, fromMps: number): BrakingFigure | undefined =>
  measurement.braking.find(b => same(b.fromMps, fromMps));

const inMps = (speed: number, unit: SpeedUnit): number =>
  unit === 'mph' ? mphToMps(speed) : kmhToMps(speed);

/** A name from the catalogue, its numbers in the language's digits. */
const named =
  (
    name: (words: MeasureWords, print: (value: number) => string, readers: ForReaders) => MeasureName,
  ): Measure['named'] =>
  readers =>
    name(measureWords(readers), value => localiseDigits(String(value), readers), readers);

/** Time from rest to a speed. */
const toSpeed = (to: number, unit: SpeedUnit): Details => ({
  named: named((words, print, readers) =>
    words.toSpeed(
      print(to),
      unit,
      unit === 'mph' && speedUnitOf(readers) === 'km/h'
        ? `${print(Number(mpsToKmh(mphToMps(to)).toPrecision(9)))} km/h`
        : undefined,
    ),
  ),
  unit: 's',
  fromRest: true,
  better: 'lower',
  valueOf: (measurement, startRule = 'first-movement') =>
    speedSplitValue(measurement, 0, inMps(to, unit), startRule),
});

/** What a distance is called besides its metres. */
type DistanceName = Omit<NamedDistance, 'm'>;

/** Time over a distance from rest. */
const overDistance = (toM: number, label: string, called: DistanceName = {}): Details => ({
  named: named((words, print) => words.overDistance(label, { m: print(toM), ...called })),
  unit: 's',
  fromRest: true,
  better: 'lower',
  valueOf: (measurement, startRule = 'first-movement') => {
    const split = distanceSplit(measurement, toM, startRule);
    return measured(split?.timeS, split?.uncertaintyS);
  },
});

/** Speed at the end of a distance from rest, at the line and not a mean over a trap. */
const speedAt = (toM: number, at: string, called: DistanceName = {}): Details => ({
  named: named((words, print) => words.speedAt(at, { m: print(toM), ...called })),
  unit: 'm/s',
  fromRest: true,
  better: 'higher',
  valueOf: (measurement, startRule = 'first-movement') => {
    const split = distanceSplit(measurement, toM, startRule);
    return measured(split?.speedMps, split?.speedUncertaintyMps);
  },
});

/** Time between two speeds of a car already rolling. */
const between = (from: number, to: number, unit: SpeedUnit = 'km/h'): Details => ({
  named: named((words, print) => words.between(print(from), print(to), unit)),
  unit: 's',
  fromRest: false,
  better: 'lower',
  valueOf: measurement => speedSplitValue(measurement, inMps(from, unit), inMps(to, unit), 'rolling'),
});

const stopFrom = (from: number, unit: SpeedUnit = 'km/h'): Details => ({
  named: named((words, print) => words.stopFrom(print(from), unit)),
  unit: 'm',
  fromRest: false,
  better: 'lower',
  valueOf: measurement => {
    const figure = brakingFrom(measurement, inMps(from, unit));
    return measured(figure?.distanceM, figure?.uncertaintyM);
  },
});

const mfddFrom = (from: number, unit: SpeedUnit = 'km/h'): Details => ({
  named: named((words, print) => words.mfddFrom(print(from), unit)),
  unit: 'm/s²',
  fromRest: false,
  better: 'higher',
  valueOf: measurement => {
    const figure = brakingFrom(measurement, inMps(from, unit));
    return measured(figure?.mfddMps2, figure?.mfddUncertaintyMps2);
  },
});

const DETAILS: Readonly<Record<MeasureId, Details>> = {
  '0-30-kmh': toSpeed(30, 'km/h'),
  '0-50-kmh': toSpeed(50, 'km/h'),
  '0-60-kmh': toSpeed(60, 'km/h'),
  '0-80-kmh': toSpeed(80, 'km/h'),
  '0-100-kmh': toSpeed(100, 'km/h'),
  '0-120-kmh': toSpeed(120, 'km/h'),
  '0-130-kmh': toSpeed(130, 'km/h'),
  '0-160-kmh': toSpeed(160, 'km/h'),
  '0-200-kmh': toSpeed(200, 'km/h'),
  '0-30-mph': toSpeed(30, 'mph'),
  '0-50-mph': toSpeed(50, 'mph'),
  '0-60-mph': toSpeed(60, 'mph'),
  '0-80-mph': toSpeed(80, 'mph'),
  '0-100-mph': toSpeed(100, 'mph'),
  '0-120-mph': toSpeed(120, 'mph'),
  '0-60-ft': overDistance(18.288, '0–60 ft', { ft: '60' }),
  '0-100-m': overDistance(100, '0–100 m'),
  '0-201-m': overDistance(201.168, '0–201 m', { mile: 'eighth' }),
  '0-402-m': overDistance(402.336, '0–402 m', { mile: 'quarter' }),
  '0-1000-m': overDistance(1000, '0–1000 m'),
  '402-m-speed': speedAt(402.336, '402 m', { mile: 'quarter' }),
  '1000-m-speed': speedAt(1000, '1000 m'),
  '50-80-kmh': between(50, 80),
  '60-100-kmh': between(60, 100),
  '80-120-kmh': between(80, 120),
  '100-160-kmh': between(100, 160),
  '100-200-kmh': between(100, 200),
  '30-70-mph': between(30, 70, 'mph'),
  'stop-from-100-kmh': stopFrom(100),
  'stop-from-80-kmh': stopFrom(80),
  'stop-from-50-kmh': stopFrom(50),
  'stop-from-70-mph': stopFrom(70, 'mph'),
  'stop-from-60-mph': stopFrom(60, 'mph'),
  'mfdd-from-100-kmh': mfddFrom(100),
  'mfdd-from-80-kmh': mfddFrom(80),
  'mfdd-from-50-kmh': mfddFrom(50),
  'mfdd-from-70-mph': mfddFrom(70, 'mph'),
  'mfdd-from-60-mph': mfddFrom(60, 'mph'),
  'peak-acceleration': {
    named: named(words => words.peakAcceleration),
    unit: 'm/s²',
    fromRest: false,
    better: 'higher',
    valueOf: ({ run, peakMps2, peakUncertaintyMps2 }) =>
      run.kind === 'braking' || !(peakMps2 > 0) ? undefined : measured(peakMps2, peakUncertaintyMps2),
  },
  'top-speed': {
    named: named(words => words.topSpeed),
    unit: 'm/s',
    fromRest: false,
    better: 'higher',
    valueOf: ({ run, topMps, topUncertaintyMps }) =>
      run.kind === 'braking' ? undefined : measured(topMps, topUncertaintyMps),
  },
};

/** Every word, in the order figures are printed. */
export const measureIds = Object.keys(DETAILS) as readonly MeasureId[];

/** Named in miles an hour, and yet read everywhere. */
const READ_EVERYWHERE: readonly MeasureId[] = ['0-60-mph'];
const published = (units: HouseUnits): readonly MeasureId[] =>
  measureIds.filter(
    id => (units === 'mph' ? !id.endsWith('-kmh') : !id.endsWith('-mph')) || READ_EVERYWHERE.includes(id),
  );
const PUBLISHED = { kmh: published('kmh'), mph: published('mph') } as const;

/**
 * What a publication shows unasked: those named in its own unit, those named in none, and 0–60 mph. An article may
 * ask for any of them by name.
 */
export const measuresOf = (readers: ForReaders): readonly MeasureId[] => PUBLISHED[houseUnits(readers)];

/** Measures of one kind, the one a test is told by first; the next where a test did not reach it. */
type InTurn = Readonly<Record<HouseUnits, readonly MeasureId[]>>;
const FROM_REST: InTurn = {
  kmh: ['0-100-kmh', '0-80-kmh', '0-60-kmh', '0-50-kmh', '0-30-kmh'],
  mph: ['0-60-mph', '0-50-mph', '0-30-mph'],
};
const ROLLING: InTurn = { kmh: ['80-120-kmh', '60-100-kmh', '50-80-kmh'], mph: ['30-70-mph'] };
const STOPS: InTurn = {
  kmh: ['stop-from-100-kmh', 'stop-from-80-kmh', 'stop-from-50-kmh'],
  mph: ['stop-from-70-mph', 'stop-from-60-mph'],
};
/** The figures that tests are set side by side by. */
const TOLD: InTurn = {
  kmh: ['0-50-kmh', '0-100-kmh', '0-160-kmh', '0-402-m', '80-120-kmh', 'stop-from-100-kmh'],
  mph: ['0-30-mph', '0-60-mph', '0-100-mph', '0-402-m', '30-70-mph', 'stop-from-70-mph'],
};

export const timesFromRest = (readers: ForReaders): readonly MeasureId[] => FROM_REST[houseUnits(readers)];
export const rollingTimes = (readers: ForReaders): readonly MeasureId[] => ROLLING[houseUnits(readers)];
export const stopsFrom = (readers: ForReaders): readonly MeasureId[] => STOPS[houseUnits(readers)];
export const measuresTold = (readers: ForReaders): readonly MeasureId[] => TOLD[houseUnits(readers)];

/** Every measure by its word. */
export const MEASURES = Object.fromEntries(
  measureIds.map(id => [id, { id, ...DETAILS[id] }]),
) as unknown as Readonly<Record<MeasureId, Measure>>;

/** What a figure is called, such as `0–100 km/h`. */
export const measureLabel = (id: MeasureId, readers: ForReaders): string => MEASURES[id].named(readers).label;

/** The same of a car already rolling, to tell it from a figure from rest: `80–120 km/h, rolling`. */
export const measureRolling = (id: MeasureId, readers: ForReaders): string =>
  measureWords(readers).rolling(measureLabel(id, readers));

/** Within a sentence: `0–100 km/h`, `speed at 402 m`. */
export const measureInSentence = (id: MeasureId, readers: ForReaders): string =>
  MEASURES[id].named(readers).inSentence;

/** The nominal speed that a measure goes to, or a stop from, as its word has it: 100 of `0-100-kmh`. */
export function nominalSpeed(id: MeasureId): number {
  const digits = /(\d+)-(?:kmh|mph)$/.exec(id)?.[1];
  if (digits === undefined) throw new RangeError(`${id} goes to no speed`);
  return Number(digits);
}

/** The times from rest that a run has a published figure of, under one rule, in the order of the log. */
export const publishedSplits = (
  measurement: RunMeasurement,
  rule: ClockRule,
  readers: ForReaders,
): readonly SpeedSplit[] =>
  measurement.speedSplits.filter(
    split =>
      split.fromMps === 0 &&
      split.startRule === rule &&
      measuresOf(readers).some(id => speedOf(id) !== undefined && same(speedOf(id)!, split.toMps)),
  );

/** The stops that a run has a published figure of. */
export const publishedStops = (measurement: RunMeasurement, readers: ForReaders): readonly BrakingFigure[] =>
  measurement.braking.filter(stop =>
    stopsFrom(readers).some(id => same(inMps(nominalSpeed(id), unitNamed(id)), stop.fromMps)),
  );

const unitNamed = (id: MeasureId): SpeedUnit => (id.endsWith('-mph') ? 'mph' : 'km/h');
/** What a time from rest goes to, m/s; undefined of any other measure. */
const speedOf = (id: MeasureId): number | undefined =>
  /^0-\d+-(kmh|mph)$/.test(id) ? inMps(nominalSpeed(id), unitNamed(id)) : undefined;

/** The unit a measure is printed in; `printResult` converts. */
export const displayUnit = (id: MeasureId, readers: ForReaders): string =>
  MEASURES[id].unit === 'm/s' ? speedUnitOf(readers) : MEASURES[id].unit;
