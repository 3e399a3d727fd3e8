/** Every message about reading a log: plain values in, one problem or one warning out. Ids are permanent. */
import type { Place, Problem } from '../problem.ts';

/** The shape of a log's warning; the place in time is added when the samples are in order. */
interface LogWarning {
  readonly code: string;
  readonly line?: number;
  readonly text: string;
}

const HEADER_EXAMPLE = 'time_s,speed_kmh';

function error(id: string, where: Place, what: string, mend: string, more: Partial<Problem> = {}): Problem {
  return { id, severity: 'error', what, where, ...more, mend };
}

const shorten = (text: string): string => (text.length > 80 ? `${text.slice(0, 77)}…` : text);
const quoted = (text: string): string => `“${shorten(text)}”`;
const listed = (names: readonly string[]): string =>
  names.length === 0 ? 'none' : shortenList(names.map(quoted), 12).join(', ');
const shortenList = (names: readonly string[], most: number): readonly string[] =>
  names.length > most ? [...names.slice(0, most), `${names.length - most} more`] : names;

/** What to type to say which column is what; quoted for a shell where the name needs it. */
export function columnOption(quantity: string, name: string, unit?: string): string {
  const value = `${quantity}=${name}${unit === undefined ? '' : `:${unit}`}`;
  return /^[\w=:./-]+$/.test(value) ? `--column ${value}` : `--column "${value}"`;
}

// Whole files

export const logEmpty = (file: string): Problem =>
  error('log-empty', { file }, 'The file is empty', 'Copy it again from the recorder.');

export const logTooLarge = (file: string, bytes: number, limit: number): Problem =>
  error(
    'log-too-large',
    { file },
    'The file is too large to read at once',
    'Split it into parts of the day.',
    {
      expected: `at most ${limit / 1e6} MB`,
      found: `${Math.ceil(bytes / 1e6)} MB`,
    },
  );

export const logBinary = (file: string): Problem =>
  error(
    'log-binary',
    { file },
    'The file holds binary data, not text',
    'Export it from the recorder’s own program as CSV, NMEA 0183 or GPX; unpack it first if it is an archive.',
  );

export const logWebPage = (file: string): Problem =>
  error('log-web-page', { file, line: 1 }, 'The file is a web page, not a log', 'Download the log itself.');

export const logOtherXml = (file: string): Problem =>
  error(
    'log-other-xml',
    { file, line: 1 },
    'The file is XML but not GPX',
    'Export the track as GPX 1.1, or as CSV with a time and a speed column.',
  );

export const logNoTable = (file: string): Problem =>
  error(
    'log-no-table',
    { file, line: 1 },
    'No table of readings was found',
    `A CSV log needs a header line such as ${HEADER_EXAMPLE} and numbers below it.`,
  );

export const logNoHeader = (file: string, line: number, found: string): Problem =>
  error(
    'log-no-header',
    { file, line },
    'The table has no header line that names its columns',
    `Add one above the numbers, such as ${HEADER_EXAMPLE}.`,
    { found: quoted(found) },
  );

export const logDecimalCommas = (file: string, line: number, expected: number, found: number): Problem =>
  error(
    'log-decimal-commas',
    { file, line },
    'The rows have more cells than the header, as decimal commas between commas make them',
    'Export the log with semicolons between the cells, or with decimal points.',
    { expected: `${expected} cells`, found: String(found) },
  );

export const logLineTooLong = (file: string, line: number, limit: number): Problem =>
  error(
    'log-line-too-long',
    { file, line },
    `The line is longer than ${limit / 1e6} million characters`,
    'Check that this is a log and that its line ends were not lost on the way.',
  );

export const logTooFewSamples = (file: string, found: number, reasons: readonly LogWarning[]): Problem =>
  error(
    'log-too-few-samples',
    { file, ...(reasons[0]?.line === undefined ? {} : { line: reasons[0].line }) },
    'No two readings with both a time and a speed are left',
    [
      ...reasons.map(reason => reason.text),
      'Check that the log was not cut off, and that the right columns are declared.',
    ].join(' '),
    { expected: 'at least 2', found: String(found) },
  );

export const logTimeRestarts = (file: string, line: number, fromText: string, toText: string): Problem =>
  error(
    'log-time-restarts',
    { file, line },
    `Time goes back to ${toText} s after ${fromText} s and goes on from there`,
    'Split the file at this line where the recorder restarted, or sort it by time.',
  );

// Columns

export const logNoSpeedColumn = (file: string, line: number, columns: readonly string[]): Problem =>
  error(
    'log-no-speed-column',
    { file, line },
    'No column is named as a speed',
    `Say which one it is: ${columnOption('speed', 'NAME', 'km/h')}`,
    { found: listed(columns) },
  );

export const logNoTimeColumn = (file: string, line: number, columns: readonly string[]): Problem =>
  error(
    'log-no-time-column',
    { file, line },
    'No column is named as a time',
    `Say which one it is: ${columnOption('time', 'NAME', 's')}`,
    { found: listed(columns) },
  );

export const logSpeedUnitUnknown = (
  file: string,
  line: number,
  name: string,
  found: string | undefined,
  others: readonly string[],
): Problem =>
  error(
    'log-speed-unit-unknown',
    { file, line, field: name },
    others.length === 0
      ? 'The speed column has no unit'
      : `Which column is the speed, and in which unit? It may also be ${listed(others)}`,
    `Say it: ${columnOption('speed', name, 'km/h')}, or m/s, mph, kn.`,
    found === undefined ? {} : { found: quoted(found) },
  );

export const logTimeUnitUnknown = (
  file: string,
  line: number,
  name: string,
  found: string | undefined,
): Problem =>
  error(
    'log-time-unit-unknown',
    { file, line, field: name },
    'The unit of the time column is not certain',
    `Say it: ${columnOption('time', name, 's')}, or ms, us, hhmmss.`,
    found === undefined ? {} : { found: quoted(found) },
  );

export const logTimeUnreadable = (file: string, line: number, name: string, found: string): Problem =>
  error(
    'log-time-unreadable',
    { file, line, field: name },
    'The time column holds no time that can be read',
    `Use seconds, milliseconds, HH:MM:SS.fff or ISO 8601, or name another column: ${columnOption('time', 'NAME', 's')}`,
    { found: quoted(found) },
  );

export const logUnitUnknown = (
  file: string,
  line: number,
  quantity: string,
  unit: string,
  known: readonly string[],
): Problem =>
  error(
    'log-unit-unknown',
    { file, line, field: quantity },
    'The declared unit is not known',
    'Correct it.',
    {
      expected: `one of ${known.join(', ')}`,
      found: quoted(unit),
    },
  );

export const logColumnAbsent = (
  file: string,
  line: number,
  quantity: string,
  name: string,
  columns: readonly string[],
): Problem =>
  error(
    'log-column-absent',
    { file, line, field: quantity },
    `The log has no column ${quoted(name)}`,
    'Write the name as it stands in the header.',
    { found: listed(columns) },
  );

export const logQuantityUnknown = (file: string, quantity: string, known: readonly string[]): Problem =>
  error(
    'log-quantity-unknown',
    { file, field: quantity },
    'A declared column has a kind that is not known',
    'Correct it.',
    {
      expected: `one of ${known.join(', ')}`,
      found: quoted(quantity),
    },
  );

// NMEA and GPX

export const nmeaNoReadings = (file: string, reasons: readonly LogWarning[]): Problem =>
  error(
    'nmea-no-readings',
    { file, ...(reasons[0]?.line === undefined ? {} : { line: reasons[0].line }) },
    'No two RMC, VTG or GGA sentences with a valid checksum, a time and a fix are left',
    [
      ...reasons.map(reason => reason.text),
      'Wait for a fix before the first run, and let the receiver write RMC sentences with their checksums.',
    ].join(' '),
  );

export const gpxBroken = (file: string, line: number, column: number, found: string): Problem =>
  error(
    'gpx-broken',
    { file, line, column },
    'The XML is broken here',
    'Export the track again; if the file was cut off, delete the unfinished point and close the open elements.',
    { found: quoted(found) },
  );

export const gpxNoPoints = (file: string): Problem =>
  error(
    'gpx-no-points',
    { file },
    'The file holds no track points (trkpt)',
    'Export the recorded track; waypoints and routes have no speed to measure.',
  );

export const gpxNoTimes = (file: string, timed: number, points: number, line: number): Problem =>
  error(
    'gpx-no-times',
    { file, line },
    `${timed === 0 ? 'None' : `Only ${timed}`} of the ${points} track points ${timed > 1 ? 'have' : 'has'} a time that can be read`,
    'Export the recorded track with its times; a planned track cannot be measured.',
  );

// Warnings: told with the log, nothing mended

const times = (count: number): string => (count === 1 ? 'once' : `${count} times`);
const rows = (count: number): string => (count === 1 ? '1 row' : `${count} rows`);
const lines = (some: readonly number[], count: number): string => {
  const more = count > some.length ? ' and more' : '';
  return `${count === 1 ? 'line' : 'lines'} ${some.join(', ')}${more}`;
};

type Count = { readonly count: number; readonly firstLines: readonly number[] };

function warning(code: string, text: string, at: { line?: number | undefined }): LogWarning {
  return { code, ...(at.line === undefined ? {} : { line: at.line }), text };
}

export const badChecksum = ({ count, firstLines }: Count): LogWarning =>
  warning('bad-checksum', `A wrong checksum ${times(count)} (${lines(firstLines, count)}); left out.`, {
    line: firstLines[0],
  });

export const noChecksum = ({ count, firstLines }: Count): LogWarning =>
  warning(
    'no-checksum',
    `A sentence without a checksum ${times(count)} (${lines(firstLines, count)}); left out.`,
    {
      line: firstLines[0],
    },
  );

export const noFix = ({ count, firstLines }: Count): LogWarning =>
  warning('no-fix', `The receiver had no fix ${times(count)} (${lines(firstLines, count)}); left out.`, {
    line: firstLines[0],
  });

export const badField = ({ count, firstLines }: Count): LogWarning =>
  warning(
    'bad-field',
    `A time or speed that cannot be read ${times(count)} (${lines(firstLines, count)}); left out.`,
    {
      line: firstLines[0],
    },
  );

export const badCell = (name: string, found: string, { count, firstLines }: Count): LogWarning =>
  warning(
    'bad-cell',
    `${quoted(name)} is not a number in ${rows(count)} (${lines(firstLines, count)}, ${quoted(found)}); left out.`,
    { line: firstLines[0] },
  );

export const unevenRows = ({ count, firstLines }: Count): LogWarning =>
  warning(
    'uneven-rows',
    `${rows(count)} with more or fewer cells than the header (${lines(firstLines, count)}); left out unless time and speed are whole.`,
    { line: firstLines[0] },
  );

export const emptyTail = (bytes: number): LogWarning =>
  warning(
    'cut-off',
    `The last ${bytes} bytes hold nothing, as after a loss of power while recording; left out.`,
    {},
  );

export const cutOff = (line: number): LogWarning =>
  warning('cut-off', `The last line (${line}) is cut off; left out.`, { line });

export const timeBackwards = ({ count, firstLines }: Count): LogWarning =>
  warning(
    'time-backwards',
    `Time goes backwards in ${rows(count)} (${lines(firstLines, count)}); those rows are left out.`,
    { line: firstLines[0] },
  );

export const timeRepeated = ({ count, firstLines }: Count): LogWarning =>
  warning(
    'time-repeated',
    `The time stands still in ${rows(count)} (${lines(firstLines, count)}); only the first row of each time is used.`,
    { line: firstLines[0] },
  );

export const negativeSpeed = ({ count, firstLines }: Count): LogWarning =>
  warning(
    'negative-speed',
    `Speed is negative in ${rows(count)} (${lines(firstLines, count)}); taken as reversing, without the sign.`,
    { line: firstLines[0] },
  );

export const noSpeed = (mark: string, { count, firstLines }: Count): LogWarning =>
  warning('no-speed', `No speed (${mark}) in ${rows(count)} (${lines(firstLines, count)}); left out.`, {
    line: firstLines[0],
  });

export const twoSpeedColumns = (line: number, taken: string, others: readonly string[]): LogWarning =>
  warning(
    'two-speed-columns',
    `${quoted(taken)} is taken as the speed; ${listed(others)} could be it too. To choose: ${columnOption('speed', others[0] ?? 'NAME')}`,
    { line },
  );

export const speedColumnByUnit = (line: number, taken: string): LogWarning =>
  warning('speed-column-by-unit', `${quoted(taken)} is taken as the speed by its unit alone.`, { line });

export const timeUnitInferred = (line: number, name: string, unit: string): LogWarning =>
  warning(
    'time-unit-inferred',
    `${quoted(name)} has no unit; ${unit} is the only one that fits its steps. To say so: ${columnOption('time', name, unit)}`,
    { line },
  );

export const derivedFromPosition = (withSpeed: number, points: number): LogWarning =>
  warning(
    'derived-from-position',
    withSpeed === 0
      ? 'The log has no speed; it is worked out from the position, which is less exact.'
      : `Only ${withSpeed} of ${points} points have a speed; all speeds are worked out from the position, which is less exact.`,
    {},
  );

export const severalSegments = (count: number, line: number): LogWarning =>
  warning('gap', `The track is in ${count} segments; nothing is known of the time between them.`, { line });
