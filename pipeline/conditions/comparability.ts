/**
 * Whether two tests may be set against each other, condition by condition: alike, not alike, or not known. A limit is
 * a published one where there is one, otherwise our own and said to be.
 */
import { EUROPEAN_COAST_DOWN } from './limits.ts';
import { REFERENCE_DENSITY_KGM3 } from './reference.ts';

/** Lowest and highest of what the attempts of a test were made under. */
export interface Span {
  readonly low: number;
  readonly high: number;
}

/** What is known of one test, SI; absent is not known, also where some of its attempts lack it. */
export interface ComparedConditions {
  /** Every state of the road during the attempts. */
  readonly surfaces?: readonly string[];
  readonly temperatureK?: Span;
  readonly densityKgm3?: Span;
  readonly windMps?: Span;
  /** Mean rise in the direction driven over the attempts, %. */
  readonly slopePct?: number;
  readonly startRule?: string;
  readonly rateHz?: Span;
  readonly attempts?: number;
  /** Mass as tested less the maker's, kg: what was aboard, so that two cars can be compared. */
  readonly loadKg?: number;
}

export const COMPARED = [
  'surface',
  'temperature',
  'density',
  'wind',
  'slope',
  'start-rule',
  'rate',
  'attempts',
  'load',
] as const;
export type ComparedCondition = (typeof COMPARED)[number];

export type Likeness = 'alike' | 'not-alike' | 'not-known';

export interface ConditionLikeness {
  readonly condition: ComparedCondition;
  readonly likeness: Likeness;
  /** By how much the tests differ, in the unit of the limit; absent for words and where it is not known. */
  readonly difference?: number;
  /** Of the tests that are beyond the limit by themselves: 0 the first, 1 the second. */
  readonly beyond: readonly (0 | 1)[];
}

export interface ComparisonLimit {
  /** SI, or as the unit says; absent where a condition must simply be the same. */
  readonly value?: number;
  readonly unit?: 'K' | 'share' | 'm/s' | '%' | 'Hz' | 'count' | 'kg';
  /** What is asked, in a reader's words. */
  readonly asks: string;
  readonly source: string;
}

const OWN = 'our own limit';

/** What is asked of two tests before one is set against the other. */
export const COMPARISON_LIMITS: Readonly<Record<ComparedCondition, ComparisonLimit>> = {
  surface: { asks: 'the road in the same state all through both tests', source: OWN },
  temperature: {
    value: 10,
    unit: 'K',
    asks: 'air temperatures within 10 °C of each other: tyres, battery and engine work differently beyond',
    source: OWN,
  },
  density: {
    value: EUROPEAN_COAST_DOWN.densityShare,
    unit: 'share',
    asks: 'air densities both within 7.5 % of the reference, 20 °C and 100 kPa dry, and within 7.5 % of each other',
    source: `${EUROPEAN_COAST_DOWN.source} for the departure from the reference; ${OWN} for the difference`,
  },
  wind: {
    value: EUROPEAN_COAST_DOWN.meanWindMps,
    unit: 'm/s',
    asks: 'a mean wind of at most 3 m/s in both tests',
    source: EUROPEAN_COAST_DOWN.source,
  },
  slope: {
    value: 0.1,
    unit: '%',
    asks: 'a mean slope over all attempts within 0.1 % of each other: 0.1 % is 0.01 m/s² of acceleration',
    source: OWN,
  },
  'start-rule': { asks: 'the same rule for the start of the clock', source: OWN },
  rate: {
    value: 10,
    unit: 'Hz',
    asks: 'at least 10 readings a second in both tests, where stated uncertainties are shown to hold',
    source: OWN,
  },
  attempts: { value: 3, unit: 'count', asks: 'at least three attempts in both tests', source: OWN },
  load: {
    value: 50,
    unit: 'kg',
    asks: 'people and gear aboard, beyond the mass its maker states, within 50 kg of each other',
    source: OWN,
  },
};

/** Every condition in the order of `COMPARED`. */
export function compareConditions(a: ComparedConditions, b: ComparedConditions): ConditionLikeness[] {
  return COMPARED.map(condition => ({ condition, ...JUDGES[condition](a, b) }));
}

/** Not alike if any condition is not; alike only if every one is; otherwise not known. */
export function overallLikeness(likenesses: readonly { readonly likeness: Likeness }[]): Likeness {
  if (likenesses.some(({ likeness }) => likeness === 'not-alike')) return 'not-alike';
  return likenesses.every(({ likeness }) => likeness === 'alike') ? 'alike' : 'not-known';
}

type Judgement = Omit<ConditionLikeness, 'condition'>;
type Judge = (a: ComparedConditions, b: ComparedConditions) => Judgement;

const NOT_KNOWN: Judgement = { likeness: 'not-known', beyond: [] };
// Rounding of units must not decide a value that stands exactly at its limit.
const SLACK = 1e-9;
const limitOf = (condition: ComparedCondition): number => COMPARISON_LIMITS[condition].value!;

/** How far apart the furthest attempts of the two tests are. */
const apart = (a: Span, b: Span): number => Math.max(a.high - b.low, b.high - a.low);

function judged(
  difference: number | undefined,
  alike: boolean,
  beyond: readonly boolean[] = [false, false],
): Judgement {
  const outside = ([0, 1] as const).filter(index => beyond[index]);
  return {
    likeness: alike && outside.length === 0 ? 'alike' : 'not-alike',
    ...(difference === undefined ? {} : { difference }),
    beyond: outside,
  };
}

const JUDGES: Readonly<Record<ComparedCondition, Judge>> = {
  surface({ surfaces: a }, { surfaces: b }) {
    // A test that is known to hold two states is unlike any other, whatever that was.
    const mixed = [a, b].map(states => states !== undefined && new Set(states).size > 1);
    if (mixed.some(Boolean)) return judged(undefined, false, mixed);
    return a?.[0] === undefined || b?.[0] === undefined ? NOT_KNOWN : judged(undefined, a[0] === b[0]);
  },
  temperature({ temperatureK: a }, { temperatureK: b }) {
    if (!a || !b) return NOT_KNOWN;
    return judged(apart(a, b), apart(a, b) <= limitOf('temperature') + SLACK);
  },
  density({ densityKgm3: a }, { densityKgm3: b }) {
    const limit = limitOf('density') + SLACK;
    const outside = [a, b].map(
      span =>
        span !== undefined &&
        [span.low, span.high].some(density => Math.abs(density / REFERENCE_DENSITY_KGM3 - 1) > limit),
    );
    if (!a || !b) return outside.some(Boolean) ? judged(undefined, false, outside) : NOT_KNOWN;
    const difference = apart(a, b) / REFERENCE_DENSITY_KGM3;
    return judged(difference, difference <= limit, outside);
  },
  wind({ windMps: a }, { windMps: b }) {
    const outside = [a, b].map(span => span !== undefined && span.high > limitOf('wind') + SLACK);
    if (!a || !b) return outside.some(Boolean) ? judged(undefined, false, outside) : NOT_KNOWN;
    return judged(apart(a, b), true, outside);
  },
  slope({ slopePct: a }, { slopePct: b }) {
    if (a === undefined || b === undefined) return NOT_KNOWN;
    return judged(Math.abs(a - b), Math.abs(a - b) <= limitOf('slope') + SLACK);
  },
  'start-rule'({ startRule: a }, { startRule: b }) {
    return a === undefined || b === undefined ? NOT_KNOWN : judged(undefined, a === b);
  },
  rate({ rateHz: a }, { rateHz: b }) {
    // A receiver of 10 Hz writes 9.9 or 10.1 at times.
    const slow = [a, b].map(span => span !== undefined && span.low < 0.95 * limitOf('rate'));
    if (!a || !b) return slow.some(Boolean) ? judged(undefined, false, slow) : NOT_KNOWN;
    return judged(apart(a, b), true, slow);
  },
  attempts({ attempts: a }, { attempts: b }) {
    const few = [a, b].map(n => n !== undefined && n < limitOf('attempts'));
    if (a === undefined || b === undefined) {
      return few.some(Boolean) ? judged(undefined, false, few) : NOT_KNOWN;
    }
    return judged(Math.abs(a - b), true, few);
  },
  load({ loadKg: a }, { loadKg: b }) {
    if (a === undefined || b === undefined) return NOT_KNOWN;
    return judged(Math.abs(a - b), Math.abs(a - b) <= limitOf('load') + SLACK);
  },
};
