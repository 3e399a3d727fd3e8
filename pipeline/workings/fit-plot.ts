/** A small plot of a start or of the end of a stop: readings, the fitted curve, the instant that is published. */
import { escapeHtml } from '../escape-html.ts';
import { localiseDigits } from '../result/words.ts';
import { type ForReaders, type SpeedScale, speedScale } from '../speed-unit.ts';
import { curveMps, type FitWorkings } from './fit.ts';
import type { Reading } from './readings.ts';
import { clockStandardS, type StartWorkings } from './start.ts';
import type { RestWorkings } from './stop.ts';
import { workingsWords } from './words.ts';

const WIDTH = 480;
const HEIGHT = 236;
const LEFT = 36;
const RIGHT = 12;
const TOP = 52;
const BOTTOM = 40;
const FACTOR = 2;
const STEPS_S = [0.05, 0.1, 0.2, 0.5, 1, 2] as const;
const STEPS = [1, 2, 5, 10, 20, 50] as const;
const MOST_STEPS = 6;
/** Points of the curve. */
const CURVE_POINTS = 160;

const stepFor = (span: number, steps: readonly number[]): number =>
  steps.find(step => span / step <= MOST_STEPS) ?? steps.at(-1)!;

interface Drawn {
  readonly readings: readonly Reading[];
  readonly fit: FitWorkings;
  /** The published instant that time counts from, s of the log, its name and standard uncertainty. */
  readonly zeroS: number;
  readonly zeroName: string;
  readonly standardS: number;
  /** A second instant, named to its right. */
  readonly also?: { readonly atS: number; readonly name: string };
  readonly ruler?: StartWorkings['ruler'];
  readonly axis: string;
  readonly alt: string;
}

/** A complete `<svg>` of a start. Times are on the log's clock less that of first movement. */
export function startPlot(start: StartWorkings, readers: ForReaders): string {
  const { readings, firstMovementS, rolloutAtS, ruler, fit } = start;
  const words = workingsWords(readers);
  const footShown = rolloutAtS <= readings.at(-1)!.timeS;
  return plot(
    {
      readings,
      fit,
      zeroS: firstMovementS,
      zeroName: words.plotFirstMovement,
      standardS: clockStandardS(start, 'first-movement'),
      ...(footShown ? { also: { atS: rolloutAtS, name: words.plotOneFoot } } : {}),
      ...(ruler === undefined ? {} : { ruler }),
      axis: words.plotSeconds,
      alt: words.plotAlt(readings.length, footShown, ruler !== undefined),
    },
    readers,
  );
}

/** A complete `<svg>` of the end of a stop. Times are on the log's clock less that of rest. */
export function restPlot({ readings, atS, standardS, fit }: RestWorkings, readers: ForReaders): string {
  const words = workingsWords(readers);
  return plot(
    {
      readings,
      fit,
      zeroS: atS,
      zeroName: words.plotRest,
      standardS,
      axis: words.plotSecondsToRest,
      alt: words.plotStopAlt(readings.length),
    },
    readers,
  );
}

/** Classes carry the colours, so that no style stands in the page. */
function plot(drawn: Drawn, readers: ForReaders): string {
  const { readings, fit, zeroS, standardS, also, ruler } = drawn;
  const { symbol, fromMps } = speedScale(readers);
  const at = (timeS: number): number => timeS - zeroS;
  const fromS = at(readings[0]!.timeS);
  const toS = at(readings.at(-1)!.timeS);
  const top = Math.max(1, ...readings.map(({ speedMps }) => fromMps(speedMps))) * 1.05;
  const x = (s: number): string => (LEFT + ((s - fromS) / (toS - fromS)) * (WIDTH - LEFT - RIGHT)).toFixed(1);
  const y = (speed: number): string => (HEIGHT - BOTTOM - (speed / top) * (HEIGHT - TOP - BOTTOM)).toFixed(1);
  const base = HEIGHT - BOTTOM;

  const ticks = (step: number, from: number, to: number): number[] =>
    Array.from({ length: Math.floor(to / step) - Math.ceil(from / step) + 1 }, (_, k) =>
      Number(((Math.ceil(from / step) + k) * step).toFixed(6)),
    );
  const label = (value: number): string => localiseDigits(String(value), readers);
  const parts: string[] = [];
  for (const speed of ticks(stepFor(top, STEPS), 0, top)) {
    parts.push(
      `<line class="grid" x1="${LEFT}" x2="${WIDTH - RIGHT}" y1="${y(speed)}" y2="${y(speed)}"/>`,
      `<text class="tick" x="${LEFT - 6}" y="${y(speed)}" dy="0.35em" text-anchor="end">${label(speed)}</text>`,
    );
  }
  for (const s of ticks(stepFor(toS - fromS, STEPS_S), fromS, toS)) {
    parts.push(
      `<text class="tick" x="${x(s)}" y="${base + 16}" text-anchor="middle">${escapeHtml(label(s))}</text>`,
    );
  }
  const band = FACTOR * standardS;
  const [low, high] = [Math.max(fromS, -band), Math.min(toS, band)];
  const instant = (s: number, name: string, anchor: 'start' | 'end'): string =>
    `<line class="instant" x1="${x(s)}" x2="${x(s)}" y1="${TOP}" y2="${base}"/>` +
    `<text class="name" x="${x(s)}" y="${TOP - 8}" text-anchor="${anchor}" dx="${anchor === 'end' ? 4 : -4}">${escapeHtml(name)}</text>`;
  parts.push(
    `<rect class="band" x="${x(low)}" width="${(Number(x(high)) - Number(x(low))).toFixed(1)}" y="${TOP}" height="${base - TOP}"/>`,
    instant(0, drawn.zeroName, 'end'),
  );
  if (also !== undefined) parts.push(instant(at(also.atS), also.name, 'start'));
  if (ruler !== undefined) {
    const slope = ruler.to.speedMps / (ruler.to.timeS - ruler.meetsS);
    const endS = Math.min(toS, at(ruler.meetsS) + top / fromMps(slope));
    parts.push(
      `<line class="ruler" x1="${x(at(ruler.meetsS))}" y1="${y(0)}" x2="${x(endS)}" y2="${y(fromMps(slope) * (endS - at(ruler.meetsS)))}"/>`,
    );
  }
  parts.push(
    `<polyline class="fitted" points="${curvePoints(fit, fromMps, [zeroS, fromS, toS, top], x, y)}"/>`,
  );
  for (const { timeS, speedMps } of readings)
    parts.push(`<circle class="reading" cx="${x(at(timeS))}" cy="${y(fromMps(speedMps))}" r="2.2"/>`);
  parts.push(
    `<line class="axis" x1="${LEFT}" x2="${WIDTH - RIGHT}" y1="${base}" y2="${base}"/>`,
    `<text class="tick" x="${WIDTH - RIGHT}" y="${HEIGHT - 4}" text-anchor="end">${escapeHtml(drawn.axis)}</text>`,
    // Over the names of instants: beside them it would be read as their first word.
    `<text class="tick" x="0" y="${TOP - 30}">${symbol}</text>`,
  );
  return `<svg class="onset" viewBox="0 0 ${WIDTH} ${HEIGHT}" role="img" aria-label="${escapeHtml(drawn.alt)}">${parts.join('')}</svg>`;
}

/** The curve over the readings it was made from, as far as they are shown. */
function curvePoints(
  fit: FitWorkings,
  fromMps: SpeedScale['fromMps'],
  [zeroS, fromS, toS, top]: readonly [number, number, number, number],
  x: (s: number) => string,
  y: (speed: number) => string,
): string {
  const beginS = Math.max(fromS, fit.from.timeS - zeroS);
  const endS = Math.min(toS, fit.to.timeS - zeroS);
  return Array.from({ length: CURVE_POINTS + 1 }, (_, k) => beginS + ((endS - beginS) * k) / CURVE_POINTS)
    .map(s => [s, fromMps(curveMps(fit, zeroS + s))] as const)
    .filter(([, speed]) => speed <= top)
    .map(([s, speed]) => `${x(s)},${y(speed)}`)
    .join(' ');
}
