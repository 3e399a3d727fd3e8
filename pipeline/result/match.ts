/**
 * Which note of the tester belongs to which run found in the logs.
 *
 * By the number of the run where the note gives one; by the clock otherwise. Clock times are matched one
 * to one: as many notes as can be met within the tolerance are met, and of all ways to do so the one with
 * the least distance in sum is taken. The order in which notes are written plays no part, except between
 * notes of the very same time, which are taken as written.
 */
import { DAY_S } from '../content/calendar.ts';

/** How far a noted time may be from the run's beginning: a phone's clock and a thumb. Common practice, no source. */
export const MATCH_TOLERANCE_S = 30;

/** A time written to the minute stands for any instant of that minute. */
const HALF_MINUTE_S = 30;

export interface Note {
  /** Seconds since midnight on the clock at the road. */
  readonly atS?: number;
  /** The time was written without seconds. */
  readonly toTheMinute?: boolean;
  readonly log?: string;
  readonly run?: number;
}

export interface FoundRun {
  readonly log: string;
  readonly number: number;
  /** Seconds since midnight of the test's day on the clock at the road, 86 400 and more after midnight. */
  readonly beginsS?: number;
}

export interface Match {
  /** Index of the note of each run; undefined where no note tells of it. */
  readonly noteOfRun: readonly (number | undefined)[];
  /** Index of the run of each note. */
  readonly runOfNote: readonly (number | undefined)[];
}

/** Pairs notes and runs, each in one pair at most: first by number, then by clock within a named log, then by clock. */
export function matchNotesToRuns(notes: readonly Note[], runs: readonly FoundRun[]): Match {
  const noteOfRun: (number | undefined)[] = runs.map(() => undefined);
  const runOfNote: (number | undefined)[] = notes.map(() => undefined);
  const pair = (note: number, run: number) => {
    noteOfRun[run] = note;
    runOfNote[note] = run;
  };
  for (const [n, note] of notes.entries()) {
    if (note.run === undefined) continue;
    const named = runs.findIndex(run => run.number === note.run && (note.log ?? run.log) === run.log);
    if (named >= 0 && noteOfRun[named] === undefined) pair(n, named);
  }
  const logs = new Set(notes.map(note => note.log));
  logs.delete(undefined);
  for (const log of [...logs, undefined]) {
    const timed = notes.flatMap((note, n) =>
      note.run === undefined && note.atS !== undefined && note.log === log ? [n] : [],
    );
    const free = runs.flatMap((run, r) =>
      noteOfRun[r] === undefined && run.beginsS !== undefined && (log ?? run.log) === run.log ? [r] : [],
    );
    const found = nearestPairs(
      timed.map(n => notes[n]!),
      free.map(r => runs[r]!.beginsS!),
    );
    for (const [n, r] of found) pair(timed[n]!, free[r]!);
  }
  return { noteOfRun, runOfNote };
}

/** Difference of two clock times the shorter way round, from minus to plus twelve hours. */
export function clockDifferenceS(laterS: number, earlierS: number): number {
  const around = (((laterS - earlierS) % DAY_S) + DAY_S) % DAY_S;
  return around > DAY_S / 2 ? around - DAY_S : around;
}

const middleS = (note: Note): number => (note.atS ?? Number.NaN) + (note.toTheMinute ? HALF_MINUTE_S : 0);

/** Seconds by which a run misses the noted time, 0 inside the noted minute; on whichever day is nearest. */
export function missS(note: Note, beginsS: number): number {
  const apart = Math.abs(clockDifferenceS(beginsS, middleS(note)));
  return Math.max(0, apart - (note.toTheMinute ? HALF_MINUTE_S : 0));
}

/** One way of matching: more pairs are better, then less distance. */
interface Score {
  readonly pairs: number;
  readonly distanceS: number;
}

const NONE: Score = { pairs: 0, distanceS: 0 };
const better = (a: Score, b: Score): boolean =>
  a.pairs > b.pairs || (a.pairs === b.pairs && a.distanceS < b.distanceS);

type Step = 'skip-note' | 'skip-run' | 'pair';

/**
 * Best matching of points on a line: two pairs never need to cross, so that walking notes and runs in the
 * order of time finds it (alignment by dynamic programming). Gives pairs of indices.
 */
function nearestPairs(notes: readonly Note[], runsS: readonly number[]): [note: number, run: number][] {
  const byRun = runsS.map((beginsS, run) => ({ beginsS, run })).sort((a, b) => a.beginsS - b.beginsS);
  const byNote = notes
    .map((note, index) => ({ note, index, placeS: dayPlaceS(note, runsS) }))
    .sort((a, b) => a.placeS - b.placeS || a.index - b.index);

  const scores: Score[][] = [new Array<Score>(byRun.length + 1).fill(NONE)];
  const steps: Step[][] = [[]];
  for (const { note, placeS } of byNote) {
    const above = scores.at(-1)!;
    const row: Score[] = [NONE];
    const step: Step[] = ['skip-note'];
    for (const [j, { beginsS }] of byRun.entries()) {
      let best = above[j + 1]!;
      let how: Step = 'skip-note';
      if (better(row[j]!, best)) {
        best = row[j]!;
        how = 'skip-run';
      }
      const miss = missS(note, beginsS);
      if (miss <= MATCH_TOLERANCE_S) {
        // Inside the noted minute its middle decides, too weakly to outweigh a real distance.
        const distanceS = above[j]!.distanceS + miss + 1e-3 * Math.abs(beginsS - placeS);
        const paired = { pairs: above[j]!.pairs + 1, distanceS };
        if (better(paired, best)) {
          best = paired;
          how = 'pair';
        }
      }
      row.push(best);
      step.push(how);
    }
    scores.push(row);
    steps.push(step);
  }

  const pairs: [number, number][] = [];
  let [i, j] = [byNote.length, byRun.length];
  while (i > 0 && j > 0) {
    const how = steps[i]![j]!;
    if (how === 'pair') pairs.push([byNote[i - 1]!.index, byRun[j - 1]!.run]);
    if (how !== 'skip-run') i--;
    if (how !== 'skip-note') j--;
  }
  return pairs;
}

/** A noted time on the scale of the runs: on the day on which it is nearest to any of them. */
function dayPlaceS(note: Note, runsS: readonly number[]): number {
  let place = middleS(note);
  let least = Number.POSITIVE_INFINITY;
  for (const beginsS of runsS) {
    const apart = clockDifferenceS(middleS(note), beginsS);
    if (Math.abs(apart) < least) {
      least = Math.abs(apart);
      place = beginsS + apart;
    }
  }
  return place;
}

/** The run whose beginning is nearest to a noted time, whatever the distance. */
export function nearestRun<R extends FoundRun>(note: Note, runs: readonly R[]): R | undefined {
  let nearest: R | undefined;
  let leastS = Number.POSITIVE_INFINITY;
  for (const run of runs) {
    if (run.beginsS === undefined || (note.log ?? run.log) !== run.log) continue;
    const miss = missS(note, run.beginsS);
    if (miss < leastS) {
      nearest = run;
      leastS = miss;
    }
  }
  return nearest;
}

/** Zones differ by whole quarters of an hour (time zone database of IANA); beyond half a day a clock shows the same again. */
const QUARTER_S = 900;

/**
 * The shift of the noted clock under which most notes would meet a run; absent unless it brings at least two
 * more together than no shift does. It hints at a wrong zone and is never applied.
 */
export function likelyShiftS(
  notes: readonly Note[],
  runs: readonly FoundRun[],
): { readonly shiftS: number; readonly met: number } | undefined {
  const met = (shiftS: number): number =>
    matchNotesToRuns(
      notes.map(note => (note.atS === undefined ? note : { ...note, atS: note.atS + shiftS })),
      runs,
    ).runOfNote.filter(run => run !== undefined).length;
  const now = met(0);
  let best: { shiftS: number; met: number } | undefined;
  for (let shiftS = QUARTER_S; shiftS <= DAY_S / 2; shiftS += QUARTER_S) {
    for (const signed of [shiftS, -shiftS]) {
      const count = met(signed);
      if (count >= now + 2 && count > (best?.met ?? 0)) best = { shiftS: signed, met: count };
    }
  }
  return best;
}
