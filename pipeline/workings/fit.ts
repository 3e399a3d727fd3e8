/** The fit behind a start or a stop: its likeliest answer, which can be drawn and redone, beside what all answers say. */
import { fittedSpeed, type OnsetFit } from '../measurement/onset-average.ts';
import type { Trace } from '../trace/trace.ts';
import { type Reading, readingAt } from './readings.ts';

export interface FitWorkings {
  readonly onset: OnsetFit;
  /** Where the likeliest answer leaves rest, or comes to it, s of the log. */
  readonly restS: number;
  /** Of a car that was creeping when it was launched: speed the curve stands on, m/s; 0 otherwise. */
  readonly creepMps: number;
  /** First and last reading it was made from. */
  readonly from: Reading;
  readonly to: Reading;
  /** A moving reading it was made from, to hold the curve against. */
  readonly example: Reading;
}

/** `shown`: the readings that stand on the page. */
export function fitWorkings(
  trace: Trace,
  onset: OnsetFit,
  shown: readonly Reading[],
  creepMps = 0,
): FitWorkings {
  const { originS, direction, likeliest, firstIndex, lastIndex } = onset;
  const from = readingAt(trace, firstIndex);
  const to = readingAt(trace, lastIndex);
  const restS = originS + direction * likeliest.leavesS;
  const used = shown.filter(
    ({ timeS }) => timeS >= from.timeS && timeS <= to.timeS && direction * (timeS - restS) > 0,
  );
  // The farthest from rest: there every parameter has its say.
  const example = (direction === 1 ? used.at(-1) : used[0]) ?? (direction === 1 ? to : from);
  return { onset, restS, creepMps, from, to, example };
}

/** Speed of the curve at an instant of the log, m/s. */
export const curveMps = ({ onset, creepMps }: FitWorkings, timeS: number): number =>
  creepMps + fittedSpeed(onset, timeS);
