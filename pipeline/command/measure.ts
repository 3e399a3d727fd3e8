/** `evenground measure LOG …`: logs in, measured runs out, as a table or as the contract's JSON. */
import type { RunCircumstances } from '../conditions/circumstances.ts';
import { readConditionsFile } from '../content/conditions-file.ts';
import type { Log } from '../log/log.ts';
import { readLog } from '../log/readers.ts';
import { type MeasuredLog, measureLog } from '../measurement/measure.ts';
import { type Problem, ProblemError, printable, problemToLine } from '../problem.ts';
import { fileUnreadable, logNotMeasured } from '../problems/command.ts';
import type { Io } from './io.ts';
import { MEASURE_ACCEPTS, type MeasureArguments, parseMeasureArguments } from './measure-arguments.ts';
import { measuredToJson } from './measured-json.ts';
import { type RestatedLog, restateLog } from './measured-restated.ts';
import { measuredToTable } from './measured-table.ts';

const STANDARD_INPUT = '-';
const HELP = `Usage: npm run --silent evenground -- measure LOG [LOG …]
  ${MEASURE_ACCEPTS}

Finds standing starts, rolling runs and braking in logs of a speed recorder and
prints their figures. A log named - is standard input. With --conditions, a YAML
file of car, air, wind and road, standing starts are also restated for a level
road in still, dry air at 20 °C and 100 kPa. Exit status: 0 measured, 1 a log
could not be read, 2 wrong usage.
`;

interface Measured {
  readonly log: Log;
  readonly measured: MeasuredLog;
  readonly restated?: RestatedLog;
}

/** What the command touches of the outside. */
export type MeasureIo = Pick<Io, 'stdout' | 'stderr' | 'stdin' | 'readFile' | 'isTerminal'>;

/** @returns 0 measured; 1 a log could not be read, the others were; 2 wrong usage */
export async function runMeasure(args: readonly string[], io: MeasureIo): Promise<number> {
  let asked: MeasureArguments;
  try {
    asked = parseMeasureArguments(args);
  } catch (error) {
    if (!(error instanceof ProblemError)) throw error;
    tell(io, error.problems);
    return 2;
  }
  if (asked.help) {
    io.stdout(HELP);
    return 0;
  }
  const done: Measured[] = [];
  const circumstances =
    asked.conditions === undefined ? undefined : await circumstancesOf(asked.conditions, io);
  if (circumstances === 'faulty') return 2;
  for (const file of asked.logs) {
    const one = await measureFile(file, asked, circumstances, io);
    if (one === undefined) continue;
    done.push(one);
    warn(io, one);
    if (!asked.json)
      io.stdout(`${done.length > 1 ? '\n' : ''}${measuredToTable(one.log, one.measured, one.restated)}`);
  }
  if (asked.json) io.stdout(measuredToJson(done));
  return done.length === asked.logs.length ? 0 : 1;
}

async function measureFile(
  file: string,
  asked: MeasureArguments,
  circumstances: RunCircumstances | undefined,
  io: MeasureIo,
): Promise<Measured | undefined> {
  try {
    const log = readLog(file, await bytesOf(file, io), asked.reading);
    const measured = measureLog(log);
    if (circumstances === undefined) return { log, measured };
    const restated = restateLog(measured, circumstances);
    return { log, measured: restated.measured, restated };
  } catch (error) {
    if (error instanceof ProblemError) tell(io, error.problems);
    else tell(io, [logNotMeasured(file, (error as Error).message.split('\n')[0] ?? '')]);
    return undefined;
  }
}

/** Without conditions that can be read nothing is measured: the person asked for restated figures. */
async function circumstancesOf(file: string, io: MeasureIo): Promise<RunCircumstances | 'faulty'> {
  try {
    const { circumstances, problems } = readConditionsFile(file, await bytesOfFile(file, io));
    tell(io, problems);
    return circumstances ?? 'faulty';
  } catch (error) {
    if (!(error instanceof ProblemError)) throw error;
    tell(io, error.problems);
    return 'faulty';
  }
}

const bytesOf = (file: string, io: MeasureIo): Promise<Uint8Array> =>
  file === STANDARD_INPUT ? io.stdin() : bytesOfFile(file, io);

async function bytesOfFile(file: string, io: MeasureIo): Promise<Uint8Array> {
  try {
    return await io.readFile(file);
  } catch (error) {
    const code = (error as { code?: unknown }).code;
    throw new ProblemError(fileUnreadable(file, typeof code === 'string' ? code : (error as Error).message));
  }
}

function tell(io: MeasureIo, problems: readonly Problem[]): void {
  for (const problem of problems) io.stderr(`${problemToLine(problem)}\n`);
}

/** Warnings go to standard error, never into the data of the table; the JSON carries them too. */
function warn(io: MeasureIo, { log, measured }: Measured): void {
  for (const { code, line, text } of measured.warnings) {
    const place = line === undefined ? log.file : `${log.file}:${line}`;
    io.stderr(`${printable(`${place}: warning: ${text} [${code}]`)}\n`);
  }
  if (measured.measurements.length === 0)
    io.stderr(`${printable(log.file)}: note: no runs found in this log\n`);
}
