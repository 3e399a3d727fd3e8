/** Stretches of a trace in which the car gains or loses speed all along. */
import type { Span } from '../trace/standing.ts';
import type { Trace } from '../trace/trace.ts';
import {
  ACCELERATING_MPS2,
  BRAKING_MPS2,
  BRAKING_PAUSE_S,
  SHIFT_DEEPEST_MPS,
  SHIFT_LONGEST_S,
} from './rules.ts';

/** Accelerations in order of time; gear changes do not divide them. */
export function accelerations(trace: Trace, slopes: Float64Array): Span[] {
  const raw = stretches(slopes, slope => slope > ACCELERATING_MPS2);
  return joined(raw, (before, after) => {
    const { timeS, speedMps } = trace;
    const pause = timeS[after.beginIndex]! - timeS[before.endIndex]!;
    const loss = speedMps[before.endIndex]! - speedMps[after.beginIndex]!;
    return pause <= SHIFT_LONGEST_S && loss <= SHIFT_DEEPEST_MPS;
  });
}

/** Hard decelerations in order of time. */
export function decelerations(trace: Trace, slopes: Float64Array): Span[] {
  const raw = stretches(slopes, slope => slope < -BRAKING_MPS2);
  return joined(
    raw,
    (before, after) => trace.timeS[after.beginIndex]! - trace.timeS[before.endIndex]! <= BRAKING_PAUSE_S,
  );
}

function stretches(values: Float64Array, belongs: (value: number) => boolean): Span[] {
  const found: Span[] = [];
  let begin = -1;
  for (let i = 0; i <= values.length; i++) {
    const inside = i < values.length && belongs(values[i]!);
    if (inside && begin < 0) begin = i;
    if (inside || begin < 0) continue;
    found.push({ beginIndex: begin, endIndex: i - 1 });
    begin = -1;
  }
  return found;
}

function joined(spans: readonly Span[], together: (before: Span, after: Span) => boolean): Span[] {
  const result: Span[] = [];
  for (const span of spans) {
    const last = result[result.length - 1];
    if (last !== undefined && together(last, span)) {
      result[result.length - 1] = { beginIndex: last.beginIndex, endIndex: span.endIndex };
    } else {
      result.push(span);
    }
  }
  return result;
}
