/** Workings of the greatest acceleration and of the highest speed: the readings they were found in. */
import { PEAK_WINDOW_S } from '../measurement/peak-acceleration.ts';
import { likeliestTop, type TopFit } from '../measurement/top-speed.ts';
import { type BudgetItem, COVERAGE_FACTOR } from '../measurement/uncertainty.ts';
import { MEASURES } from '../result/measures.ts';
import type { Attempt } from '../result/result.ts';
import { slopeOver } from '../trace/slope.ts';
import { type Reading, readingAt, readingsBetween } from './readings.ts';
import type { WorkedFigure } from './workings.ts';

/** The steepest straight line through the readings of a stated time. */
export interface PeakWorkings {
  readonly readings: readonly Reading[];
  /** By hand: last reading less first, over the time between. */
  readonly betweenEndsMps2: number;
}

/** The readings around the highest. */
export interface TopWorkings {
  readonly readings: readonly Reading[];
  /** As published, the average over all curves. */
  readonly publishedMps: number;
  /** The likeliest of the curves fitted around it, and their number; absent where none was. */
  readonly fit?: TopFit & { readonly answers: number; readonly from: Reading; readonly to: Reading };
  /** By hand: the greatest middle one of three neighbouring readings. */
  readonly middleMps: number;
}

/** Readings shown on either side of the highest. */
const AROUND = 4;
const EDGE_S = 1e-9;

export function peakWorkings({ trace, measurement }: Attempt): WorkedFigure[] {
  const { run, peakMps2, peakUncertaintyMps2 } = measurement;
  if (MEASURES['peak-acceleration'].valueOf(measurement) === undefined) return [];
  const { timeS, speedMps } = trace;
  const last = run.braking?.beginIndex ?? run.endIndex;
  let found: { readonly begin: number; readonly end: number; readonly off: number } | undefined;
  let end = run.beginIndex;
  for (let begin = run.beginIndex; begin < last; begin++) {
    while (end < last && (timeS[end]! - timeS[begin]! < PEAK_WINDOW_S - EDGE_S || end - begin < 2)) end++;
    const off = Math.abs(slopeOver(timeS, speedMps, begin, end) - peakMps2);
    if (found === undefined || off < found.off) found = { begin, end, off };
  }
  if (found === undefined) return [];
  const { begin } = found;
  const betweenEndsMps2 = (speedMps[found.end]! - speedMps[begin]!) / (timeS[found.end]! - timeS[begin]!);
  return [
    {
      measure: 'peak-acceleration',
      steps: { kind: 'peak', readings: readingsBetween(trace, begin, found.end), betweenEndsMps2 },
      ...budgetOf(peakUncertaintyMps2, [], 'noise'),
    },
  ];
}

export function topWorkings({ trace, measurement }: Attempt, receiverMps: number): WorkedFigure[] {
  const { run, topUncertaintyMps } = measurement;
  if (MEASURES['top-speed'].valueOf(measurement) === undefined) return [];
  let at = run.beginIndex;
  let middleMps = 0;
  for (let i = run.beginIndex + 1; i < run.endIndex; i++) {
    const [, middle = 0] = [...trace.speedMps.slice(i - 1, i + 2)].sort((a, b) => a - b);
    if (middle <= middleMps) continue;
    middleMps = middle;
    at = i;
  }
  const fit = likeliestTop(trace, run.beginIndex, run.endIndex);
  return [
    {
      measure: 'top-speed',
      steps: {
        kind: 'top',
        readings: readingsBetween(trace, at - AROUND, at + AROUND),
        middleMps,
        publishedMps: measurement.topMps,
        ...(fit === undefined
          ? {}
          : {
              fit: {
                ...fit,
                from: readingAt(trace, fit.firstIndex),
                to: readingAt(trace, fit.lastIndex),
              },
            }),
      },
      ...budgetOf(topUncertaintyMps, [{ source: 'receiver', standard: receiverMps }], 'sampling'),
    },
  ];
}

/** Items that are known by themselves, and what is left of the whole under one name. */
function budgetOf(
  expanded: number | undefined,
  known: readonly BudgetItem[],
  rest: BudgetItem['source'],
): Pick<WorkedFigure, 'budget'> {
  if (expanded === undefined) return {};
  const whole = (expanded / COVERAGE_FACTOR) ** 2;
  const told = known.reduce((sum, { standard }) => sum + standard ** 2, 0);
  const items: BudgetItem[] = [...known, { source: rest, standard: Math.sqrt(Math.max(0, whole - told)) }];
  return { budget: items.filter(({ standard }) => standard > 0) };
}
