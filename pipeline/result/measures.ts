/** Every figure that can be published, by its word: what it is called, its unit, and where it is read from. */

import { localiseDigits } from '../digits.ts';
import type { Spoken } from '../language.ts';
import type { BrakingFigure, DistanceSplit, RunMeasurement } from '../measurement/measurement.ts';
import type { ClockRule, StartRule } from '../run/run.ts';
import { kmhToMps, mphToMps } from '../units.ts';
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
  /** Unit in print; `printResult` converts. */
  readonly displayUnit: 's' | 'm' | 'km/h' | 'm/s²';
  /** True where clock or tape start at a standing start, so that the start rule matters. */
  readonly fromRest: boolean;
  readonly better: 'lower' | 'higher';
  /** What it is called; `measureLabel` and its like ask for it. */
  named(spoken: Spoken): MeasureName;
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

const brakingFrom = (measurement: RunMeasurement, fromKmh: number): BrakingFigure | undefined =>
  measurement.braking.find(b => same(b.fromMps, kmhToMps(fromKmh)));

/** A name from the catalogue, its numbers in the language's digits. */
const named =
  (name: (words: MeasureWords, print: (value: number) => string) => MeasureName): Measure['named'] =>
  spoken =>
    name(measureWords(spoken), value => localiseDigits(String(value), spoken));

/** Time from rest to a speed. */
const toSpeed = (to: number, unit: 'km/h' | 'mph'): Details => ({
  named: named((words, print) =>
    words.toSpeed(
      print(to),
      unit,
      unit === 'mph' ? `${print(Number((to * 1.609344).toPrecision(9)))} km/h` : undefined,
    ),
  ),
  unit: 's',
  displayUnit: 's',
  fromRest: true,
  better: 'lower',
  valueOf: (measurement, startRule = 'first-movement') =>
    speedSplitValue(measurement, 0, unit === 'mph' ? mphToMps(to) : kmhToMps(to), startRule),
});

/** What a distance is called besides its metres. */
type DistanceName = Omit<NamedDistance, 'm'>;

/** Time over a distance from rest. */
const overDistance = (toM: number, label: string, called: DistanceName = {}): Details => ({
  named: named((words, print) => words.overDistance(label, { m: print(toM), ...called })),
  unit: 's',
  displayUnit: 's',
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
  displayUnit: 'km/h',
  fromRest: true,
  better: 'higher',
  valueOf: (measurement, startRule = 'first-movement') => {
    const split = distanceSplit(measurement, toM, startRule);
    return measured(split?.speedMps, split?.speedUncertaintyMps);
  },
});

/** Time between two speeds of a car already rolling. */
const between = (from: number, to: number): Details => ({
  named: named((words, print) => words.between(print(from), print(to), 'km/h')),
  unit: 's',
  displayUnit: 's',
  fromRest: false,
  better: 'lower',
  valueOf: measurement => speedSplitValue(measurement, kmhToMps(from), kmhToMps(to), 'rolling'),
});

const stopFrom = (from: number): Details => ({
  named: named((words, print) => words.stopFrom(print(from), 'km/h')),
  unit: 'm',
  displayUnit: 'm',
  fromRest: false,
  better: 'lower',
  valueOf: measurement => {
    const figure = brakingFrom(measurement, from);
    return measured(figure?.distanceM, figure?.uncertaintyM);
  },
});

const mfddFrom = (from: number): Details => ({
  named: named((words, print) => words.mfddFrom(print(from), 'km/h')),
  unit: 'm/s²',
  displayUnit: 'm/s²',
  fromRest: false,
  better: 'higher',
  valueOf: measurement => {
    const figure = brakingFrom(measurement, from);
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
  '0-60-mph': toSpeed(60, 'mph'),
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
  'stop-from-100-kmh': stopFrom(100),
  'stop-from-80-kmh': stopFrom(80),
  'stop-from-50-kmh': stopFrom(50),
  'mfdd-from-100-kmh': mfddFrom(100),
  'mfdd-from-80-kmh': mfddFrom(80),
  'mfdd-from-50-kmh': mfddFrom(50),
  'peak-acceleration': {
    named: named(words => words.peakAcceleration),
    unit: 'm/s²',
    displayUnit: 'm/s²',
    fromRest: false,
    better: 'higher',
    valueOf: ({ run, peakMps2, peakUncertaintyMps2 }) =>
      run.kind === 'braking' || !(peakMps2 > 0) ? undefined : measured(peakMps2, peakUncertaintyMps2),
  },
  'top-speed': {
    named: named(words => words.topSpeed),
    unit: 'm/s',
    displayUnit: 'km/h',
    fromRest: false,
    better: 'higher',
    valueOf: ({ run, topMps, topUncertaintyMps }) =>
      run.kind === 'braking' ? undefined : measured(topMps, topUncertaintyMps),
  },
};

/** Every word, in the order figures are printed. */
export const measureIds = Object.keys(DETAILS) as readonly MeasureId[];

/** Every measure by its word. */
export const MEASURES = Object.fromEntries(
  measureIds.map(id => [id, { id, ...DETAILS[id] }]),
) as unknown as Readonly<Record<MeasureId, Measure>>;

/** What a figure is called, such as `0–100 km/h`. */
export const measureLabel = (id: MeasureId, spoken: Spoken): string => MEASURES[id].named(spoken).label;

/** The same of a car already rolling, to tell it from a figure from rest: `80–120 km/h, rolling`. */
export const measureRolling = (id: MeasureId, spoken: Spoken): string =>
  measureWords(spoken).rolling(measureLabel(id, spoken));

/** Within a sentence: `0–100 km/h`, `speed at 402 m`. */
export const measureInSentence = (id: MeasureId, spoken: Spoken): string =>
  MEASURES[id].named(spoken).inSentence;
