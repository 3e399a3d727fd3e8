/** Traces of logs as the strip draws them: each whole day asked for once, closer parts when they are looked at. */
import { bytesToStrip } from '../../pipeline/desk/strip-bytes.ts';
import type { LogSeen, TraceSeen } from './answers.ts';
import { readWhole } from './server.ts';

/** Stretches of a whole log: at least one for every pixel of the widest strip that a laptop shows. */
const WHOLE_POINTS = 2000;
/** Logs whose traces are kept. */
const MOST = 40;

/** By test, log and version. */
const whole = new Map<string, Promise<TraceSeen>>();

/** Least and greatest speed of a whole log. @throws Refused, NotThere */
export function wholeTrace(test: string, log: LogSeen): Promise<TraceSeen> {
  const key = [test, log.file, log.version].join('\n');
  const known = whole.get(key);
  if (known !== undefined) return known;
  const asked = askTrace(test, log, { points: WHOLE_POINTS });
  whole.set(key, asked);
  // What failed is asked for again the next time.
  asked.catch(() => whole.delete(key));
  if (whole.size > MOST) whole.delete(whole.keys().next().value!);
  return asked;
}

interface Part {
  readonly from?: number;
  readonly to?: number;
  readonly points: number;
}

/** A part of a log, seconds of its own, as so many stretches. @throws Refused, NotThere */
export async function askTrace(
  test: string,
  log: LogSeen,
  part: Part,
  signal?: AbortSignal,
): Promise<TraceSeen> {
  const told = Object.entries(part).map(([name, value]) => [name, String(value)]);
  const query = new URLSearchParams([['log', log.file], ...told]);
  const blob = await readWhole(`test/${encodeURIComponent(test)}/trace?${query}`, signal);
  return bytesToStrip(await blob.arrayBuffer());
}
