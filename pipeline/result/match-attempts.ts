/** The attempts of a test: every run of its logs, with what the tester noted about it. */
import { clockTextToS, sToClockText } from '../content/calendar.ts';
import type { TestFolder } from '../content/content.ts';
import type { HouseContent, RoadContent } from '../content/schema.ts';
import type { RunMeasurement } from '../measurement/measurement.ts';
import type { Problem } from '../problem.ts';
import {
  abortedWithoutReason,
  attemptsOfUnreadLog,
  clockShiftLikely,
  headingAgainstDirection,
  noSuchRun,
  noteAndClockDiffer,
  noteOfTakenRun,
  noteWithoutRun,
  runsWithoutNote,
  runTakenTwice,
  severalRunsNear,
} from '../problems/match.ts';
import { degToRad, radToDeg } from '../units.ts';
import {
  type FoundRun,
  likelyShiftS,
  MATCH_TOLERANCE_S,
  type Match,
  matchNotesToRuns,
  missS,
  type Note,
  nearestRun,
} from './match.ts';
import {
  conditionsToFlags,
  directionOf,
  placeReadings,
  readingBefore,
  readingToConditions,
} from './match-conditions.ts';
import type { MeasuredLog, MeasuredLogs } from './match-logs.ts';
import type { Attempt } from './result.ts';
import { ABORTED, NOT_IN_NOTES } from './words/set-aside.ts';

type NotedAttempt = TestFolder['content']['attempts'][number];

interface DayRun extends FoundRun {
  readonly source: MeasuredLog;
  readonly measurement: RunMeasurement;
}

/** Attempts in the day's order, kept and set aside, and what did not fit. */
export function matchAttempts(
  test: TestFolder,
  road: RoadContent,
  house: Pick<HouseContent, 'launch_methods' | 'limits'> | undefined,
  measured: MeasuredLogs,
  readingsS: readonly number[],
): {
  readonly attempts: readonly Attempt[];
  readonly noteOfAttempt: readonly (number | undefined)[];
  readonly problems: readonly Problem[];
} {
  const runs = inDayOrder(measured.logs);
  const noted = test.content.attempts;
  const notes = noted.map(attempt => attemptToNote(attempt, test.content.logs));
  const match = matchNotesToRuns(notes, runs);
  const problems = [
    ...notesWithoutRuns(test, notes, runs, match, measured),
    ...runsWithoutNotes(test, notes, runs, match),
    ...doubtfulPairs(test, notes, runs, match),
  ];
  const readings = placeReadings(
    test.content.conditions,
    readingsS,
    runs.find(run => run.beginsS !== undefined)?.beginsS,
  );

  const attempts = runs.map((run, r): Attempt => {
    const n = match.noteOfRun[r];
    const note = n === undefined ? undefined : noted[n];
    const direction = directionOf(road, note?.direction);
    const { reading } = readingBefore(readings, run.beginsS);
    const conditions = readingToConditions(reading, road, direction);
    const at = run.beginsS === undefined ? (note?.at ?? '') : sToClockText(run.beginsS);
    const where = test.place(['attempts', n ?? 0]);
    const aborted = run.measurement.run.status === 'aborted';
    if (note && aborted && note.set_aside === undefined) problems.push(abortedWithoutReason(where, at));
    if (n !== undefined && direction && note?.direction !== undefined) {
      const headingDeg = meanHeadingDeg(run);
      if (headingDeg !== undefined && Math.abs(turnDeg(headingDeg, direction.heading_deg)) > 90) {
        const place = test.place(['attempts', n, 'direction']);
        problems.push(headingAgainstDirection(place, direction.id, direction.heading_deg, headingDeg));
      }
    }
    const setAside = note === undefined ? NOT_IN_NOTES : (note.set_aside ?? (aborted ? ABORTED : undefined));
    const launchName = house?.launch_methods.find(method => method.id === note?.launch)?.name;
    const own = new Set(run.measurement.flags.map(flag => flag.code));
    const flags = conditionsToFlags(conditions, house?.limits).filter(flag => !own.has(flag.code));
    return {
      id: `a${String(r + 1).padStart(2, '0')}`,
      number: r + 1,
      at,
      ...(note?.launch === undefined ? {} : { launchId: note.launch }),
      ...(launchName === undefined ? {} : { launchName }),
      ...(direction === undefined ? {} : { directionId: direction.id }),
      ...(note?.note === undefined ? {} : { note: note.note }),
      ...(setAside === undefined ? {} : { setAside }),
      log: run.log,
      trace: run.source.trace,
      measurement: { ...run.measurement, flags: [...run.measurement.flags, ...flags] },
      conditions,
    };
  });
  return { attempts, noteOfAttempt: match.noteOfRun, problems };
}

function attemptToNote(attempt: NotedAttempt, logs: readonly { readonly file: string }[]): Note {
  const atS = attempt.at === undefined ? undefined : clockTextToS(attempt.at);
  const log = attempt.log ?? (attempt.run !== undefined && logs.length === 1 ? logs[0]?.file : undefined);
  return {
    ...(atS === undefined ? {} : { atS, toTheMinute: (attempt.at ?? '').length === 5 }),
    ...(log === undefined ? {} : { log }),
    ...(attempt.run === undefined ? {} : { run: attempt.run }),
  };
}

/** By the clock; runs of logs without one come last, in the order of the logs. */
function inDayOrder(logs: readonly MeasuredLog[]): DayRun[] {
  return logs
    .flatMap(source =>
      source.measurements.map((measurement): DayRun => {
        const beginsS = source.startsS === undefined ? undefined : source.startsS + measurement.beginsS;
        return {
          log: source.file,
          number: measurement.run.number,
          source,
          measurement,
          ...(beginsS === undefined ? {} : { beginsS }),
        };
      }),
    )
    .sort((a, b) => {
      const [first, second] = [a.beginsS ?? Infinity, b.beginsS ?? Infinity];
      if (first !== second) return first < second ? -1 : 1;
      return a.source.index - b.source.index || a.number - b.number;
    });
}

function notesWithoutRuns(
  test: TestFolder,
  notes: readonly Note[],
  runs: readonly DayRun[],
  match: Match,
  { logs, unread }: MeasuredLogs,
): Problem[] {
  const problems: Problem[] = [];
  let mayBeUnread = 0;
  const listed = new Set(test.content.logs.map(log => log.file));
  for (const [n, note] of notes.entries()) {
    if (match.runOfNote[n] !== undefined) continue;
    // Checked and told with the content: neither time nor run, or a log that is not listed.
    if (note.log !== undefined && !listed.has(note.log)) continue;
    if (note.atS === undefined && (note.run === undefined || note.log === undefined)) continue;
    if (note.log === undefined ? unread.length > 0 : unread.some(log => log.file === note.log)) {
      mayBeUnread++;
      continue;
    }
    const attempt = test.content.attempts[n]!;
    if (note.run !== undefined) {
      const where = test.place(['attempts', n, 'run']);
      const log = note.log ?? '';
      const count = runs.filter(run => run.log === log).length;
      problems.push(
        runs.some(run => run.log === log && run.number === note.run)
          ? runTakenTwice(where, note.run, log)
          : noSuchRun(where, note.run, log, count),
      );
      continue;
    }
    // A log without a clock has been told; a time cannot be looked up in it.
    if (logs.every(log => log.startsS === undefined)) continue;
    const nearest = nearestRun(note, runs);
    const taker = nearest && match.noteOfRun[runs.indexOf(nearest)];
    if (
      nearest?.beginsS !== undefined &&
      taker !== undefined &&
      missS(note, nearest.beginsS) <= MATCH_TOLERANCE_S
    ) {
      problems.push(
        noteOfTakenRun(test.place(['attempts', n, 'at']), attempt.at ?? '', attempt.set_aside !== undefined, {
          log: nearest.log,
          at: sToClockText(nearest.beginsS),
          takenByLine: test.place(['attempts', taker]).line ?? 1,
        }),
      );
      continue;
    }
    problems.push(
      noteWithoutRun(
        test.place(['attempts', n, 'at']),
        attempt.at ?? '',
        attempt.set_aside !== undefined,
        nearest?.beginsS === undefined
          ? undefined
          : {
              log: nearest.log,
              at: sToClockText(nearest.beginsS),
              missS: missS(note, nearest.beginsS),
            },
      ),
    );
  }
  const first = unread[0];
  if (mayBeUnread > 0 && first) {
    problems.push(attemptsOfUnreadLog(test.place(['logs', first.index, 'file']), mayBeUnread));
  }
  if (problems.some(problem => problem.id === 'match-note-without-run')) {
    const shift = likelyShiftS(notes, runs);
    if (shift) {
      problems.push(clockShiftLikely(test.place(['time_zone']), shift.shiftS, shift.met, notes.length));
    }
  }
  return problems;
}

function runsWithoutNotes(
  test: TestFolder,
  notes: readonly Note[],
  runs: readonly DayRun[],
  match: Match,
): Problem[] {
  const byLog = new Map<MeasuredLog, DayRun[]>();
  for (const [r, run] of runs.entries()) {
    if (match.noteOfRun[r] !== undefined) continue;
    byLog.set(run.source, [...(byLog.get(run.source) ?? []), run]);
  }
  const begins = (run: DayRun) =>
    run.beginsS === undefined ? `run ${run.number}` : `run ${run.number} at ${sToClockText(run.beginsS)}`;
  const problems = [...byLog].map(([log, missing]) =>
    runsWithoutNote(test.place(['logs', log.index, 'file']), log.file, missing.map(begins)),
  );
  for (const [n, note] of notes.entries()) {
    if (match.runOfNote[n] === undefined || note.run !== undefined) continue;
    const others = runs.filter(
      (run, r) =>
        match.noteOfRun[r] === undefined &&
        run.beginsS !== undefined &&
        (note.log ?? run.log) === run.log &&
        missS(note, run.beginsS) <= MATCH_TOLERANCE_S,
    );
    if (others.length === 0) continue;
    const near = [runs[match.runOfNote[n]!]!, ...others].map(run => `${begins(run)} in ${run.log}`);
    problems.push(
      severalRunsNear(test.place(['attempts', n, 'at']), test.content.attempts[n]?.at ?? '', near),
    );
  }
  return problems;
}

/** Notes that give both the number of the run and a time that does not fit it. */
function doubtfulPairs(
  test: TestFolder,
  notes: readonly Note[],
  runs: readonly DayRun[],
  match: Match,
): Problem[] {
  return notes.flatMap((note, n) => {
    const beginsS = match.runOfNote[n] === undefined ? undefined : runs[match.runOfNote[n]]?.beginsS;
    if (note.run === undefined || note.atS === undefined || beginsS === undefined) return [];
    if (missS(note, beginsS) <= MATCH_TOLERANCE_S) return [];
    const at = test.content.attempts[n]?.at ?? '';
    return [noteAndClockDiffer(test.place(['attempts', n, 'at']), at, sToClockText(beginsS))];
  });
}

/** Below this a receiver's course over ground is mostly noise, m/s; common practice, no source. */
const HEADING_FROM_MPS = 3;

/** Mean recorded heading while the car moves, as a mean of directions; absent where the log has none. */
function meanHeadingDeg({ source: { trace }, measurement: { run } }: DayRun): number | undefined {
  const headings = trace.channels.headingDeg;
  if (!headings) return undefined;
  let [north, east] = [0, 0];
  for (let i = run.beginIndex; i <= run.endIndex; i++) {
    const heading = headings[i];
    if (heading === undefined || Number.isNaN(heading) || !(trace.speedMps[i]! > HEADING_FROM_MPS)) continue;
    north += Math.cos(degToRad(heading));
    east += Math.sin(degToRad(heading));
  }
  if (north === 0 && east === 0) return undefined;
  return (radToDeg(Math.atan2(east, north)) + 360) % 360;
}

const turnDeg = (a: number, b: number): number => ((((a - b + 180) % 360) + 360) % 360) - 180;
