/** A small plot of a start: readings, the ruler through two of them, first movement and the end of the first foot. */
import { escapeHtml } from '../escape-html.ts';
import { localiseDigits } from '../result/words.ts';
import { mpsToKmh } from '../units.ts';
import { clockStandardS, type StartWorkings } from './start.ts';
import { workingsWords } from './words.ts';

const WIDTH = 480;
const HEIGHT = 220;
const LEFT = 36;
const RIGHT = 12;
const TOP = 36;
const BOTTOM = 40;
const FACTOR = 2;
const STEPS_S = [0.05, 0.1, 0.2, 0.5, 1, 2] as const;
const STEPS_KMH = [1, 2, 5, 10, 20, 50] as const;
const MOST_STEPS = 6;

const stepFor = (span: number, steps: readonly number[]): number =>
  steps.find(step => span / step <= MOST_STEPS) ?? steps.at(-1)!;

/**
 * A complete `<svg>`; classes carry its colours, so that no style stands in the page. Times are on the log's clock
 * less that of first movement.
 */
export function onsetPlot(start: StartWorkings, language: string): string {
  const { readings, firstMovementS, rolloutAtS, ruler } = start;
  const words = workingsWords(language);
  const at = (timeS: number): number => timeS - firstMovementS;
  const fromS = at(readings[0]!.timeS);
  const toS = at(readings.at(-1)!.timeS);
  const topKmh = Math.max(1, ...readings.map(({ speedMps }) => mpsToKmh(speedMps))) * 1.05;
  const x = (s: number): string => (LEFT + ((s - fromS) / (toS - fromS)) * (WIDTH - LEFT - RIGHT)).toFixed(1);
  const y = (kmh: number): string => (HEIGHT - BOTTOM - (kmh / topKmh) * (HEIGHT - TOP - BOTTOM)).toFixed(1);
  const base = HEIGHT - BOTTOM;

  const ticks = (step: number, from: number, to: number): number[] =>
    Array.from({ length: Math.floor(to / step) - Math.ceil(from / step) + 1 }, (_, k) =>
      Number(((Math.ceil(from / step) + k) * step).toFixed(6)),
    );
  const label = (value: number): string => localiseDigits(String(value), language);
  const parts: string[] = [];
  for (const kmh of ticks(stepFor(topKmh, STEPS_KMH), 0, topKmh)) {
    parts.push(
      `<line class="grid" x1="${LEFT}" x2="${WIDTH - RIGHT}" y1="${y(kmh)}" y2="${y(kmh)}"/>`,
      `<text class="tick" x="${LEFT - 6}" y="${y(kmh)}" dy="0.35em" text-anchor="end">${label(kmh)}</text>`,
    );
  }
  for (const s of ticks(stepFor(toS - fromS, STEPS_S), fromS, toS)) {
    parts.push(
      `<text class="tick" x="${x(s)}" y="${base + 16}" text-anchor="middle">${escapeHtml(label(s))}</text>`,
    );
  }
  const band = FACTOR * clockStandardS(start, 'first-movement');
  const [low, high] = [Math.max(fromS, -band), Math.min(toS, band)];
  parts.push(
    `<rect class="band" x="${x(low)}" width="${(Number(x(high)) - Number(x(low))).toFixed(1)}" y="${TOP}" height="${base - TOP}"/>`,
    `<line class="instant" x1="${x(0)}" x2="${x(0)}" y1="${TOP}" y2="${base}"/>`,
    `<text class="name" x="${x(0)}" y="${TOP - 8}" text-anchor="end" dx="4">${escapeHtml(words.plotFirstMovement)}</text>`,
  );
  if (at(rolloutAtS) <= toS) {
    parts.push(
      `<line class="instant" x1="${x(at(rolloutAtS))}" x2="${x(at(rolloutAtS))}" y1="${TOP}" y2="${base}"/>`,
      `<text class="name" x="${x(at(rolloutAtS))}" y="${TOP - 8}" text-anchor="start" dx="-4">${escapeHtml(words.plotOneFoot)}</text>`,
    );
  }
  if (ruler !== undefined) {
    const slope = ruler.to.speedMps / (ruler.to.timeS - ruler.meetsS);
    const endS = Math.min(toS, at(ruler.meetsS) + topKmh / mpsToKmh(slope));
    parts.push(
      `<line class="ruler" x1="${x(at(ruler.meetsS))}" y1="${y(0)}" x2="${x(endS)}" y2="${y(mpsToKmh(slope) * (endS - at(ruler.meetsS)))}"/>`,
    );
  }
  for (const { timeS, speedMps } of readings)
    parts.push(`<circle class="reading" cx="${x(at(timeS))}" cy="${y(mpsToKmh(speedMps))}" r="2.2"/>`);
  parts.push(
    `<line class="axis" x1="${LEFT}" x2="${WIDTH - RIGHT}" y1="${base}" y2="${base}"/>`,
    `<text class="tick" x="${WIDTH - RIGHT}" y="${HEIGHT - 4}" text-anchor="end">${escapeHtml(words.plotSeconds)}</text>`,
    `<text class="tick" x="0" y="${TOP - 8}">km/h</text>`,
  );
  const alt = words.plotAlt(readings.length, at(rolloutAtS) <= toS, ruler !== undefined);
  return `<svg class="onset" viewBox="0 0 ${WIDTH} ${HEIGHT}" role="img" aria-label="${escapeHtml(alt)}">${parts.join('')}</svg>`;
}
