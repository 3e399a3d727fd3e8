/**
 * What a test came to: its attempts, each kept or set aside, with the figures and the conditions they
 * were measured under. Figures, tables, overlays and pages are made from these types and nothing else.
 */
import type { RestatedRun } from '../conditions/restate.ts';
import type { CarContent, HouseContent, RoadContent, TestContent } from '../content/schema.ts';
import type { SignedOffFile } from '../content/signed-off-file.ts';
import type { Translation } from '../content/translations.ts';
import type { RunMeasurement } from '../measurement/measurement.ts';
import type { Problem } from '../problem.ts';
import type { StartRule } from '../run/run.ts';
import type { Trace } from '../trace/trace.ts';
import type { TestCoastDowns } from './coast-downs.ts';
import type { FromLogs } from './restate-attempt.ts';
import type { LoggedRoadSlope } from './road-slope.ts';

export interface House extends HouseContent {
  /** The logo drawn as pixels; absent where the look names none. */
  readonly logoPicture?: LogoPicture;
  /** Where this is the house in a further language: the one it is written in. */
  readonly mainLanguage?: string;
  readonly untranslated?: Untranslated;
}

/** Where something is shown in a further language: its words that are still in the main one. */
export interface Untranslated {
  /** Tag of that language. */
  readonly language: string;
  /** Such as `strapline` or `launch_methods.brake-hold.how`; `article` for the whole article. */
  readonly paths: ReadonlySet<string>;
}

/** A PNG of this program's own making with straight alpha. */
export interface LogoPicture {
  readonly pngBase64: string;
  readonly widthPx: number;
  readonly heightPx: number;
}
export interface Car extends CarContent {
  readonly id: string;
  readonly untranslated?: Untranslated;
}
export interface Road extends RoadContent {
  readonly id: string;
  readonly untranslated?: Untranslated;
}

/** Air, wind and surface during one attempt: the reading nearest in time before it, never a mean of guesses. */
export interface AttemptConditions {
  readonly readAt: string;
  readonly temperatureK?: number;
  readonly pressurePa?: number;
  readonly relativeHumidity?: number;
  readonly densityKgm3?: number;
  /** `cipm-2007` inside its range, otherwise `ideal-gas`. */
  readonly densityBy?: 'cipm-2007' | 'ideal-gas';
  readonly densityAltitudeM?: number;
  /** Positive against the car; absent where wind, its direction or the car's is not known. */
  readonly headwindMps?: number;
  readonly crosswindMps?: number;
  readonly windMps?: number;
  /** Rise of the road in the car's direction, %. */
  readonly slopePct?: number;
  readonly surface?: 'dry' | 'damp' | 'wet';
}

export interface Attempt {
  /** Unique in its test and stable while notes are not reordered: `a01`, `a02`, … in the day's order. */
  readonly id: string;
  /** 1-based place in the day. */
  readonly number: number;
  /** Clock time at the road when the run begins, `10:22:41`. */
  readonly at: string;
  readonly launchId?: string;
  readonly launchName?: string;
  readonly directionId?: string;
  readonly note?: string;
  /** Absent: kept. Present: set aside, for this reason. */
  readonly setAside?: string;
  readonly log: string;
  readonly trace: Trace;
  readonly measurement: RunMeasurement;
  readonly conditions: AttemptConditions;
  /** Of standing starts: the same run on a level road in still reference air, or the reason why there is none. */
  readonly restated?: RestatedRun;
}

export interface TestResult {
  readonly id: string;
  readonly content: TestContent;
  readonly car: Car;
  /** With the slope its logs tell where `loggedSlope` is there. */
  readonly road: Road;
  readonly loggedSlope?: LoggedRoadSlope;
  /** What coasting tells of the car; absent where no log was taken so. */
  readonly coastDowns?: TestCoastDowns;
  /** What restating takes from the logs and not from the files of car and road. */
  readonly fromLogs?: FromLogs;
  /** In the day's order: kept and set aside, of every kind of run. */
  readonly attempts: readonly Attempt[];
  /** For each attempt the place of its note in test.yaml, from 0; undefined where nobody noted it. */
  readonly noteOfAttempt?: readonly (number | undefined)[];
  readonly articleMarkdown: string;
  /** Path of the article as errors name it. */
  readonly articleFile: string;
  /** SHA-256 of each log, hexadecimal, by its path. */
  readonly logSha256: Readonly<Record<string, string>>;
  /** The numbers that went out; absent where none have. */
  readonly signedOff?: SignedOffFile;
  readonly warnings: readonly Problem[];
  readonly untranslated?: Untranslated;
  /** Digest of everything it was made from; absent where that is not known. */
  readonly madeFrom?: string;
}

export interface Publication {
  readonly house: House;
  readonly cars: readonly Car[];
  readonly roads: readonly Road[];
  /** Newest first. */
  readonly tests: readonly TestResult[];
  readonly methodologyMarkdown: string;
  /** Path of the methodology as errors name it; content/methodology.md where absent. */
  readonly methodologyFile?: string;
  /** What is written in further languages. */
  readonly translations?: readonly Translation[];
  /** Where this is the publication in a further language: its own texts that are still in the main one. */
  readonly untranslated?: Untranslated;
  readonly problems: readonly Problem[];
}

/** The word of one figure everywhere: in prose, tables, overlays and addresses. `measurement/methods.ts` lists them. */
export type MeasureId =
  | '0-30-kmh'
  | '0-50-kmh'
  | '0-60-kmh'
  | '0-80-kmh'
  | '0-100-kmh'
  | '0-120-kmh'
  | '0-130-kmh'
  | '0-160-kmh'
  | '0-200-kmh'
  | '0-30-mph'
  | '0-50-mph'
  | '0-60-mph'
  | '0-80-mph'
  | '0-100-mph'
  | '0-120-mph'
  | '0-60-ft'
  | '0-100-m'
  | '0-201-m'
  | '0-402-m'
  | '0-1000-m'
  | '402-m-speed'
  | '1000-m-speed'
  | '50-80-kmh'
  | '60-100-kmh'
  | '80-120-kmh'
  | '100-160-kmh'
  | '100-200-kmh'
  | '30-70-mph'
  | 'stop-from-100-kmh'
  | 'stop-from-80-kmh'
  | 'stop-from-50-kmh'
  | 'stop-from-70-mph'
  | 'stop-from-60-mph'
  | 'mfdd-from-100-kmh'
  | 'mfdd-from-80-kmh'
  | 'mfdd-from-50-kmh'
  | 'mfdd-from-70-mph'
  | 'mfdd-from-60-mph'
  | 'peak-acceleration'
  | 'top-speed';

export type Statistic = 'best' | 'median' | 'this';

/** One published number with everything that must be said beside it. */
export interface Result {
  readonly measure: MeasureId;
  readonly statistic: Statistic;
  /** Only for figures timed from rest. */
  readonly startRule?: StartRule;
  /** SI: s, m, m/s or m/s², as the measure says. */
  readonly value: number;
  /** Expanded, k = 2; absent only where none can be stated, and then said. */
  readonly uncertainty?: number;
  /** Kept attempts that reached the figure. */
  readonly n: number;
  /** Attempts set aside that would have counted. */
  readonly nSetAside: number;
  /** Median of the same attempts, for printing beside a best. */
  readonly median: number;
  /** Expanded, of that median, scatter between the attempts included: it sets the places that the median prints with. */
  readonly medianUncertainty?: number;
  /** Launch method, direction: what the attempts were narrowed to. */
  readonly among: ResultFilter;
  /** The attempt the value comes from; for a median of an even number the two middle ones. */
  readonly attemptIds: readonly string[];
}

export interface ResultFilter {
  readonly launch?: string;
  readonly direction?: string;
  readonly attempt?: string;
}

export interface ResultQuery extends ResultFilter {
  readonly measure: MeasureId;
  readonly statistic?: Statistic;
  /** Headline rule of the house unless told. */
  readonly startRule?: StartRule;
}
