/** The speed of one log as its page asks for it: decimated, as numbers in a row. */
import { ProblemError } from '../problem.ts';
import { nothingThere } from '../problems/desk.ts';
import { declaredOf } from './declared.ts';
import type { Desk } from './desk.ts';
import { draftOf } from './draft.ts';
import { traceToStrip } from './strip.ts';
import { stripToBytes } from './strip-bytes.ts';

/** Readings farther apart than this many usual steps have a hole between them. */
const GAP_STEPS = 3;
/** Shortest hole, s. */
const GAP_S = 1;
const FEWEST_POINTS = 10;
const MOST_POINTS = 20_000;
const USUAL_POINTS = 2000;

/** @throws ProblemError where the test names no such log, or it cannot be read */
export async function traceAsked(desk: Desk, id: string, query: URLSearchParams): Promise<Uint8Array> {
  const { files, content } = await desk.now();
  const name = query.get('log') ?? '';
  const noted = draftOf(id, files, content)?.parsed.partly.logs?.find(log => log?.file === name);
  const path = `content/tests/${id}/${name}`;
  const bytes = files.get(path);
  if (noted === undefined || bytes === undefined) throw new ProblemError(nothingThere('log', name));
  const { timeS, speedMps } = desk.tools.readLog(path, bytes, declaredOf(noted));
  const lastS = timeS.at(-1) ?? 0;
  const number = (key: string, usual: number): number => {
    const value = Number(query.get(key) ?? usual);
    return Number.isFinite(value) ? value : usual;
  };
  const fromS = Math.max(0, number('from', 0));
  const stepS = lastS / Math.max(1, timeS.length - 1);
  return stripToBytes(
    traceToStrip(timeS, speedMps, {
      fromS,
      toS: Math.max(fromS, Math.min(lastS, number('to', lastS))),
      points: Math.min(MOST_POINTS, Math.max(FEWEST_POINTS, Math.round(number('points', USUAL_POINTS)))),
      gapS: Math.max(GAP_S, GAP_STEPS * stepS),
    }),
  );
}
