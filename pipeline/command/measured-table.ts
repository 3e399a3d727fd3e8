/** Measured runs as text for a terminal of 80 columns. */
import type { RestatedFigure, RestatedRun } from '../conditions/restate.ts';
import type { Log, LogClock } from '../log/log.ts';
import type { MeasuredLog } from '../measurement/measure.ts';
import type { BrakingFigure, RunMeasurement } from '../measurement/measurement.ts';
import { PEAK_WINDOW_S } from '../measurement/peak-acceleration.ts';
import { decimalsForUncertainty, roundToDecimals, roundUncertainty } from '../round.ts';
import type { StartRule } from '../run/run.ts';
import { kmhToMps, mphToMps, mpsToKmh, mpsToMph } from '../units.ts';
import type { RestatedLog } from './measured-restated.ts';

const WIDTH = 80;
const KINDS = { 'standing-start': 'standing start', rolling: 'rolling run', braking: 'braking' } as const;
const RULE_NAMES = { 'first-movement': 'from first movement', 'one-foot-rollout': 'after one foot' } as const;
/** The splits a person looks for first; the JSON has them all. */
const SPEEDS = [
  [kmhToMps(50), '0–50 km/h'],
  [mphToMps(60), '0–60 mph'],
  [kmhToMps(100), '0–100 km/h'],
  [kmhToMps(160), '0–160 km/h'],
  [kmhToMps(200), '0–200 km/h'],
] as const;
const DISTANCES = [
  [18.288, '18.288 m (60 ft)'],
  [402.336, '402.336 m (¼ mile)'],
  [1000, '1000 m'],
] as const;

/** One log: a heading, its runs, and what must be said about them as footnotes. */
export function measuredToTable(log: Log, measured: MeasuredLog, restated?: RestatedLog): string {
  const notes: string[] = [];
  const noteMark = (text: string): string => {
    if (!notes.includes(text)) notes.push(text);
    return `[${notes.indexOf(text) + 1}]`;
  };
  const runs = measured.measurements.map(run =>
    runToText(run, restated?.byRun.get(run.run.number), log.clock, noteMark),
  );
  const heading = [
    log.file,
    `${log.format.toUpperCase()}, ${log.timeS.length} samples, ${durationText(log.timeS[log.timeS.length - 1] ?? 0)}, ` +
      `${number(measured.trace.rateHz, 1)} readings a second, speed ${log.speedSource.replaceAll('-', ' ')}`,
  ];
  const body = runs.length === 0 ? ['No runs found in this log.\n'] : runs;
  const uncertainty =
    runs.length === 0 ? [] : wrapped('± is the expanded uncertainty, k = 2 (about 95 %).', '    ');
  const footnotes = notes.flatMap((text, k) => wrapped(`[${k + 1}] ${text}`, '    '));
  return `${[...heading, '', ...body, ...uncertainty, ...footnotes].join('\n')}\n`;
}

function runToText(
  measurement: RunMeasurement,
  restated: RestatedRun | undefined,
  clock: LogClock | undefined,
  noteMark: (text: string) => string,
): string {
  const { run } = measurement;
  const marks = measurement.flags.map(flag => noteMark(`${flag.code}: ${flag.text}`)).join('');
  const lines = [
    `Run ${run.number}  ${KINDS[run.kind]}, ${run.status}${marks && ` ${marks}`}`,
    `  ${clockText(measurement.beginsS, clock)}, ${number(measurement.endsS - measurement.beginsS, 1)} s long`,
    ...(run.kind === 'standing-start' ? standingLines(measurement) : rollingLines(measurement)),
    ...(restated === undefined ? [] : restatedLines(restated)),
    ...measurement.braking.map(brakingLine),
    `  ${extremes(measurement)}`,
  ];
  return `${lines.join('\n')}\n`;
}

const LABEL = 22;
const COLUMN = 28;

function standingLines(measurement: RunMeasurement): string[] {
  const rules = Object.keys(RULE_NAMES) as StartRule[];
  const row = (label: string, cells: readonly (string | undefined)[]): string[] =>
    cells.every(cell => cell === undefined)
      ? []
      : [`  ${label.padEnd(LABEL)}${cells.map(cell => (cell ?? '').padEnd(COLUMN)).join('')}`.trimEnd()];
  const speeds = SPEEDS.flatMap(([toMps, label]) =>
    row(
      label,
      rules.map(rule => {
        const split = measurement.speedSplits.find(
          ({ startRule, toMps: to }) => startRule === rule && Math.abs(to - toMps) < 1e-6,
        );
        return (
          split && `${withUncertainty(split.timeS, split.uncertaintyS)} s  ${number(split.distanceM, 0)} m`
        );
      }),
    ),
  );
  const distances = DISTANCES.flatMap(([toM, label]) =>
    row(
      label,
      rules.map(rule => {
        const split = measurement.distanceSplits.find(one => one.startRule === rule && one.toM === toM);
        return (
          split &&
          `${withUncertainty(split.timeS, split.uncertaintyS)} s  ${number(mpsToKmh(split.speedMps), 0)} km/h`
        );
      }),
    ),
  );
  if (speeds.length + distances.length === 0) return [];
  const head =
    `  ${''.padEnd(LABEL)}${rules.map(rule => RULE_NAMES[rule].padEnd(COLUMN)).join('')}`.trimEnd();
  const { start } = measurement;
  const rollout =
    start === undefined
      ? []
      : [
          `  ${'First foot (0.3048 m)'.padEnd(LABEL)}${withUncertainty(start.rolloutS, start.uncertaintyS)} s`,
        ];
  return [head, ...rollout, ...speeds, ...distances];
}

/** Restated times under their own heading, below the measured ones and never among them. */
function restatedLines({ speedSplits, distanceSplits }: RestatedRun): string[] {
  const row = (label: string, figures: readonly (RestatedFigure & { startRule: string })[]): string[] => {
    const [first] = figures;
    if (first === undefined) return [];
    const cells = (Object.keys(RULE_NAMES) as StartRule[]).map(rule => {
      const figure = figures.find(({ startRule }) => startRule === rule);
      return figure === undefined ? '' : `${withUncertainty(figure.timeS, figure.uncertaintyS)} s`;
    });
    const changes = Object.entries(first.changesS).map(([condition, change]) => {
      const size = number(Math.abs(change), 2);
      const sign = Number(size) === 0 ? '' : change < 0 ? '−' : '+';
      return `${condition} ${sign}${size} s`;
    });
    return [
      `  ${label.padEnd(LABEL)}${cells.map(cell => cell.padEnd(COLUMN)).join('')}`.trimEnd(),
      `  ${''.padEnd(LABEL)}${changes.join(', ')}`,
    ];
  };
  const rows = [
    ...SPEEDS.flatMap(([toMps, label]) =>
      row(
        label,
        speedSplits.filter(split => Math.abs(split.toMps - toMps) < 1e-6),
      ),
    ),
    ...DISTANCES.flatMap(([toM, label]) =>
      row(
        label,
        distanceSplits.filter(split => split.toM === toM),
      ),
    ),
  ];
  return rows.length === 0
    ? []
    : ['  Restated for a level road in still, dry air at 20 °C and 100 kPa:', ...rows];
}

function rollingLines(measurement: RunMeasurement): string[] {
  return measurement.speedSplits.map(split => {
    const label = between(split.fromMps, split.toMps);
    return `  ${label.padEnd(LABEL)}${withUncertainty(split.timeS, split.uncertaintyS)} s  ${number(split.distanceM, 0)} m`;
  });
}

/** `80–120 km/h`, or `30–70 mph` where those are the whole numbers. */
function between(fromMps: number, toMps: number): string {
  const whole = (speed: number): boolean => Math.abs(speed - Math.round(speed)) < 1e-6;
  const kmh = [fromMps, toMps].map(mpsToKmh);
  const [unit, [from = 0, to = 0]] = kmh.every(whole)
    ? (['km/h', kmh] as const)
    : (['mph', [fromMps, toMps].map(mpsToMph)] as const);
  return `${number(from, 0)}–${number(to, 0)} ${unit}`;
}

function brakingLine(figure: BrakingFigure): string {
  const label = between(figure.fromMps, 0);
  const distance = `${withUncertainty(figure.distanceM, figure.uncertaintyM, 1)} m`;
  const mean = figure.mfddMps2 === undefined ? '' : `  MFDD ${number(figure.mfddMps2, 2)} m/s²`;
  return `  ${label.padEnd(LABEL)}${distance.padEnd(16)}  ${number(figure.timeS, 2)} s${mean}`;
}

function extremes({ run, topMps, peakMps2 }: RunMeasurement): string {
  const top = `Top speed ${number(mpsToKmh(topMps), 1)} km/h`;
  if (run.kind === 'braking' || !(peakMps2 > 0)) return top;
  return `${top}; most acceleration over ${PEAK_WINDOW_S} s ${number(peakMps2, 1)} m/s²`;
}

function withUncertainty(value: number, uncertainty: number, most = 3): string {
  const decimals = decimalsForUncertainty(uncertainty, { most });
  return `${roundToDecimals(value, decimals)} ± ${roundUncertainty(uncertainty, decimals)}`;
}

const number = (value: number, decimals: number): string =>
  Number.isFinite(value) ? roundToDecimals(value, decimals) : '–';

function durationText(seconds: number): string {
  const whole = Math.round(seconds);
  const [h, min, s] = [Math.floor(whole / 3600), Math.floor(whole / 60) % 60, whole % 60];
  return [h > 0 ? `${h} h` : '', h > 0 || min > 0 ? `${min} min` : '', `${s} s`].filter(Boolean).join(' ');
}

/** The wall clock where the log has one, and always the log's own. */
function clockText(atS: number, clock: LogClock | undefined): string {
  const own = `${number(atS, 2)} s into the log`;
  if (clock === undefined) return own;
  const seconds = Math.floor(clock.startMs / 1000 + atS) % 86_400;
  const part = (value: number): string => String(Math.floor(value)).padStart(2, '0');
  const time = `${part(seconds / 3600)}:${part((seconds / 60) % 60)}:${part(seconds % 60)}`;
  return `${time}${clock.kind === 'utc' ? ' UTC' : ''}, ${own}`;
}

/** Lines of at most the terminal's width; those after the first are indented. */
function wrapped(text: string, indent: string): string[] {
  const lines: string[] = [];
  let line = '';
  for (const word of text.split(' ')) {
    if (line !== '' && line.length + 1 + word.length > WIDTH) {
      lines.push(line);
      line = indent + word;
    } else {
      line = line === '' ? word : `${line} ${word}`;
    }
  }
  return [...lines, line];
}
