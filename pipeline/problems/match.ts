/** Messages about putting the tester's notes and the runs of the logs together; ids are permanent. */
import type { Place, Problem, Severity } from '../problem.ts';

const make = (
  id: string,
  severity: Severity,
  where: Place,
  what: string,
  mend: string,
  facts: { expected?: string; found?: string } = {},
): Problem => ({ id: `match-${id}`, severity, what, where, ...facts, mend });

const duration = (seconds: number): string => {
  const whole = Math.round(Math.abs(seconds));
  const parts = [
    [Math.floor(whole / 3600), 'h'],
    [Math.floor(whole / 60) % 60, 'min'],
    [whole % 60, 's'],
  ] as const;
  const shown = parts.filter(([count]) => count > 0).map(([count, unit]) => `${count} ${unit}`);
  return shown.length > 0 ? shown.join(' ') : '0 s';
};

const count = (n: number, one: string, many: string): string => `${n} ${n === 1 ? one : many}`;

/** A note of an attempt that no run belongs to; told as an error unless the attempt was set aside anyway. */
export function noteWithoutRun(
  where: Place,
  at: string,
  setAside: boolean,
  nearest: { readonly log: string; readonly at: string; readonly missS: number } | undefined,
): Problem {
  return make(
    'note-without-run',
    setAside ? 'warning' : 'error',
    where,
    nearest === undefined
      ? `No run was found for the attempt at ${at}`
      : `No run begins at ${at}; the nearest run in ${nearest.log} begins ${nearest.at}, ${duration(nearest.missS)} off`,
    'Correct the time, or name the log and the run; where the attempt was never recorded, take the note out.',
  );
}

/** The run that the noted time means belongs to the note of another attempt. */
export function noteOfTakenRun(
  where: Place,
  at: string,
  setAside: boolean,
  run: { readonly log: string; readonly at: string; readonly takenByLine: number },
): Problem {
  return make(
    'note-without-run',
    setAside ? 'warning' : 'error',
    where,
    `No run is left for the attempt at ${at}: the one in ${run.log} that begins ${run.at} went to the attempt on line ${run.takenByLine}`,
    'Correct the time of one of the two attempts, or take one out.',
  );
}

export function noSuchRun(where: Place, run: number, log: string, runs: number): Problem {
  return make(
    'no-such-run',
    'error',
    where,
    `There is no run ${run} in ${log}`,
    'Correct the number: runs are counted from 1 in the order of time, as evenground measure prints them.',
    { found: count(runs, 'run', 'runs') },
  );
}

export function runTakenTwice(where: Place, run: number, log: string): Problem {
  return make(
    'run-taken-twice',
    'error',
    where,
    `Run ${run} of ${log} belongs to another attempt already`,
    'Correct the number of one of the two.',
  );
}

export function noteAndClockDiffer(where: Place, at: string, begins: string): Problem {
  return make(
    'note-and-clock-differ',
    'warning',
    where,
    'The noted time and the noted run do not fit each other; the run was taken',
    'Correct the time or the number of the run.',
    { expected: `about ${begins}`, found: at },
  );
}

export function severalRunsNear(where: Place, at: string, begins: readonly string[]): Problem {
  return make(
    'several-runs-near',
    'warning',
    where,
    `More runs begin near ${at} than notes tell of; the nearest was taken`,
    'Write the time to the second, or log: and run: instead.',
    { found: begins.join(', ') },
  );
}

export function runsWithoutNote(where: Place, log: string, begins: readonly string[]): Problem {
  const shown = begins.length > 8 ? [...begins.slice(0, 7), `and ${begins.length - 7} more`] : begins;
  return make(
    'runs-without-note',
    'warning',
    where,
    `${count(begins.length, 'run', 'runs')} of ${log} ${begins.length === 1 ? 'stands' : 'stand'} in no note and ${begins.length === 1 ? 'is' : 'are'} set aside`,
    'Add an attempt for each, with set_aside and the reason where it does not count.',
    { found: shown.join(', ') },
  );
}

export function abortedWithoutReason(where: Place, at: string): Problem {
  return make(
    'aborted-without-reason',
    'warning',
    where,
    `The attempt at ${at} ends before it is complete and is set aside as aborted`,
    'Add set_aside: with the reason.',
  );
}

export function clockShiftLikely(where: Place, shiftS: number, met: number, notes: number): Problem {
  return make(
    'clock-shift-likely',
    'warning',
    where,
    `With the notes ${duration(shiftS)} ${shiftS > 0 ? 'later' : 'earlier'}, ${met} of ${notes} would meet a run`,
    'Check time_zone, and whether phone and log show the same clock; nothing was shifted.',
  );
}

export function logWithoutClock(where: Place, log: string): Problem {
  return make(
    'log-without-clock',
    'error',
    where,
    `The log ${log} carries no clock, so its runs cannot be placed in the day`,
    'Add starts_at: with the time at which the log begins.',
  );
}

export function logOfOtherDay(where: Place, log: string, logDate: string, testDate: string): Problem {
  return make(
    'log-of-other-day',
    'warning',
    where,
    `The log ${log} was recorded on another day than the test; only its time of day was used`,
    'Correct the date of the test, or take the log out.',
    { expected: testDate, found: logDate },
  );
}

export function startsAtNotUsed(where: Place, log: string, logStarts: string, written: string): Problem {
  return make(
    'starts-at-not-used',
    'warning',
    where,
    `The log ${log} carries a clock of its own, which was used instead of starts_at`,
    'Remove starts_at, or correct it.',
    { expected: logStarts, found: written },
  );
}

export function logsOverlap(where: Place, first: string, second: string): Problem {
  return make(
    'logs-overlap',
    'warning',
    where,
    `The logs ${first} and ${second} cover the same time, so that a run may stand in both`,
    'Add log: to each attempt, or leave one of the logs out.',
  );
}

export function logWithoutRuns(where: Place, log: string): Problem {
  return make(
    'log-without-runs',
    'warning',
    where,
    `No run was found in ${log}`,
    'Check that it is the log of this test; take it out if it is not needed.',
  );
}

export function attemptsOfUnreadLog(where: Place, attempts: number): Problem {
  return make(
    'attempts-of-unread-log',
    'note',
    where,
    `${count(attempts, 'attempt', 'attempts')} met no run and may be in a log that cannot be read`,
    'Mend the log first; then these attempts are checked again.',
  );
}

export function headingAgainstDirection(
  where: Place,
  direction: string,
  expectedDeg: number,
  foundDeg: number,
): Problem {
  return make(
    'heading-against-direction',
    'warning',
    where,
    `The log shows the car driving against the direction ${direction}`,
    'Correct the direction of the attempt, or the headings in the road file.',
    { expected: `about ${Math.round(expectedDeg)} degrees`, found: `${Math.round(foundDeg)} degrees` },
  );
}

/** A warning that came with a log, carried over to the test. */
export function warningOfLog(
  file: string,
  warning: { readonly code: string; readonly line?: number; readonly atS?: number; readonly text: string },
): Problem {
  return {
    id: `log-warning-${warning.code}`,
    severity: 'warning',
    what: warning.text.replace(/\.\s*$/, ''),
    where: { file, ...(warning.line === undefined ? {} : { line: warning.line }) },
    mend: 'The log is measured as it stands; the runs concerned are flagged.',
  };
}

/** A log taken coasting holds another number of coast-downs than were noted. */
export const coastDownsDiffer = (
  where: Place,
  log: string,
  noted: number,
  begins: readonly string[],
): Problem =>
  make(
    'coast-downs-differ',
    'error',
    where,
    `${log} holds another number of coast-downs than coast_downs has directions; none was used`,
    'Write a direction for each, in order. One is found where the car slows by 25 km/h without brakes, for 10 s and from above 15 km/h.',
    {
      expected: count(noted, 'coast-down', 'coast-downs'),
      found: begins.length === 0 ? 'none' : begins.join(', '),
    },
  );

/** A road is to take its slope from logs, and these do not tell it. */
export const slopeNotLogged = (where: Place, passes: number, fewest: number): Problem =>
  make(
    'slope-not-logged',
    'warning',
    where,
    'The logs of this test do not tell the slope of the road, so that no start is restated',
    'Log position and altitude, over more passes of the same stretch, or write slope_pct or profile in the road file.',
    {
      expected: `at least ${fewest} passes with altitude over one stretch`,
      found: count(passes, 'pass', 'passes'),
    },
  );
