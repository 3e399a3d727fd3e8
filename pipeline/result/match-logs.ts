/** The logs of one test, read, measured and put on the clock at the road; a bad one does not lose the others. */
import { clockTextToS, DAY_S, msToDateText, sToClockText } from '../content/calendar.ts';
import type { TestFolder } from '../content/content.ts';
import { type ContentFiles, pathInFolder } from '../content/files.ts';
import type { Log, LogWarning, ReadOptions } from '../log/log.ts';
import type { RunMeasurement } from '../measurement/measurement.ts';
import { type Problem, ProblemError } from '../problem.ts';
import {
  logOfOtherDay,
  logsOverlap,
  logWithoutClock,
  logWithoutRuns,
  startsAtNotUsed,
  warningOfLog,
} from '../problems/match.ts';
import type { Trace } from '../trace/trace.ts';
import { kmhToMps } from '../units.ts';
import { logToStart, type RoadDay } from './match-clock.ts';

/** The stages that read and measure. */
export interface MeasureTools {
  /** @throws ProblemError where nothing can be measured from the bytes. */
  readLog(file: string, bytes: Uint8Array, options: ReadOptions): Log;
  measureLog(
    log: Log,
    options: { readonly receiverMps?: number; readonly lowRateHz?: number },
  ): {
    readonly trace: Trace;
    readonly measurements: readonly RunMeasurement[];
    readonly warnings: readonly LogWarning[];
  };
  /** SHA-256 in hexadecimal. */
  sha256(bytes: Uint8Array): string;
}

export interface MeasuredLog {
  /** As test.yaml names it. */
  readonly file: string;
  /** Place in the list of logs. */
  readonly index: number;
  readonly sha256: string;
  readonly trace: Trace;
  /** None of a log that was taken coasting. */
  readonly measurements: readonly RunMeasurement[];
  /** Of a log that was taken coasting: the direction of each coast-down as noted. */
  readonly coastDowns?: readonly string[];
  /** First sample, seconds since midnight of the test's day at the road. */
  readonly startsS?: number;
}

export interface MeasuredLogs {
  readonly logs: readonly MeasuredLog[];
  /** Names of the logs that could not be read, with their places in the list. */
  readonly unread: readonly { readonly file: string; readonly index: number }[];
  readonly problems: readonly Problem[];
}

/** Two logs of one recorder may touch; more than this long they do not run at once, s. */
const OVERLAP_S = 60;

/** Reads and measures every log that test.yaml names; runs slower than `lowRateHz` are flagged by the measurement. */
export function measureLogs(
  test: TestFolder,
  files: ContentFiles,
  day: RoadDay,
  lowRateHz: number | undefined,
  tools: MeasureTools,
): MeasuredLogs {
  const logs: MeasuredLog[] = [];
  const unread: { file: string; index: number }[] = [];
  const problems: Problem[] = [];
  const accuracyKmh = test.content.receiver.speed_accuracy_kmh;
  for (const [index, { file, starts_at, columns, coast_downs: coastDowns }] of test.content.logs.entries()) {
    const path = pathInFolder(test.folder, file);
    const bytes = path === undefined ? undefined : files.get(path);
    // Checked and told with the content.
    if (path === undefined || bytes === undefined || logs.some(log => log.file === file)) {
      unread.push({ file, index });
      continue;
    }
    try {
      const log = tools.readLog(path, bytes, columns === undefined ? {} : { columns: plain(columns) });
      const measured = tools.measureLog(log, {
        ...(accuracyKmh === undefined ? {} : { receiverMps: kmhToMps(accuracyKmh) }),
        ...(lowRateHz === undefined ? {} : { lowRateHz }),
      });
      for (const warning of distinct([...log.warnings, ...measured.warnings])) {
        problems.push(warningOfLog(path, { ...warning, text: optionToField(warning.text) }));
      }
      const startsAtS = starts_at === undefined ? undefined : clockTextToS(starts_at);
      const start = logToStart(log, day, startsAtS);
      const where = test.place(['logs', index, 'file']);
      if (start.startsS === undefined) problems.push(logWithoutClock(where, file));
      if (start.daysOff !== undefined) {
        const logDate = msToDateText(day.dateMs + start.daysOff * DAY_S * 1000);
        problems.push(logOfOtherDay(where, file, logDate, test.content.date));
      }
      if (start.startsAtUnused && start.startsS !== undefined && starts_at !== undefined) {
        const at = test.place(['logs', index, 'starts_at']);
        problems.push(startsAtNotUsed(at, file, sToClockText(start.startsS), starts_at));
      }
      if (measured.measurements.length === 0 && coastDowns === undefined)
        problems.push(logWithoutRuns(where, file));
      logs.push({
        file,
        index,
        sha256: tools.sha256(bytes),
        trace: measured.trace,
        // A run-up to coasting is no attempt.
        measurements: coastDowns === undefined ? measured.measurements : [],
        ...(coastDowns === undefined ? {} : { coastDowns }),
        ...(start.startsS === undefined ? {} : { startsS: start.startsS }),
      });
    } catch (error) {
      if (!(error instanceof ProblemError)) throw error;
      problems.push(...error.problems.map(p => ({ ...p, mend: optionToField(p.mend) })));
      unread.push({ file, index });
    }
  }
  return { logs, unread, problems: [...problems, ...overlaps(test, logs)] };
}

/** Readers propose what to type on a command line; in a content folder the same is said in test.yaml. */
export function optionToField(text: string): string {
  return text.replace(
    /--column (?:"([^"]+)"|(\S+?))(?=[.,;]?(?:\s|$))/g,
    (_, quoted?: string, bare?: string) => {
      const [, key = '', name = '', unit] = /^([^=]+)=(.*?)(?::([^:]+))?$/.exec(quoted ?? bare ?? '') ?? [];
      const written = /^\w+$/.test(name) ? name : JSON.stringify(name);
      const rest = unit === undefined ? '' : `, unit: ${unit}`;
      return `columns: { ${key}: { name: ${written}${rest} } } under this log in test.yaml`;
    },
  );
}

/** `exactOptionalPropertyTypes`: the schema's optional unit may be undefined, the reader's may only be absent. */
function plain(
  columns: Readonly<Record<string, { readonly name: string; readonly unit?: string | undefined }>>,
): NonNullable<ReadOptions['columns']> {
  return Object.fromEntries(
    Object.entries(columns).map(([key, { name, unit }]) => [
      key,
      unit === undefined ? { name } : { name, unit },
    ]),
  );
}

/** Measuring may hand on the warnings of reading. */
function distinct(warnings: readonly LogWarning[]): LogWarning[] {
  return [
    ...new Map(warnings.map(w => [JSON.stringify([w.code, w.line, w.atS, w.text]), w] as const)).values(),
  ];
}

function overlaps(test: TestFolder, logs: readonly MeasuredLog[]): Problem[] {
  if (test.content.attempts.every(attempt => attempt.log !== undefined)) return [];
  const spans = logs.flatMap(log => {
    const lastS = log.trace.timeS.at(-1);
    return log.startsS === undefined || lastS === undefined
      ? []
      : [{ log, fromS: log.startsS, toS: log.startsS + lastS }];
  });
  return spans.flatMap((a, i) =>
    spans
      .slice(i + 1)
      .filter(b => Math.min(a.toS, b.toS) - Math.max(a.fromS, b.fromS) > OVERLAP_S)
      .map(b => logsOverlap(test.place(['logs', b.log.index, 'file']), a.log.file, b.log.file)),
  );
}
