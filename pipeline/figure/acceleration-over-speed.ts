/** Acceleration over speed of a few runs from rest: where the car pulls, and where it stops pulling. */

import type { TopLevelSpec } from 'vega-lite';
import { catalogue } from '../language.ts';
import { flaggedAmong } from '../result/flag-rules.ts';
import { pickResult } from '../result/pick.ts';
import type { House, TestResult } from '../result/result.ts';
import { localiseDigits, printQuantity, printResult, withUnit } from '../result/words.ts';
import { roundToDecimals, roundToMultiple } from '../round.ts';
import { type SpeedScale, speedScale } from '../speed-unit.ts';
import type { Table } from '../table/table.ts';
import { kmhToMps } from '../units.ts';
import { type Chosen, choiceInWords, chooseStarts } from './choose.ts';
import { endLabelLayers, heightWithLabels } from './end-labels.ts';
import { everyLayout, type Figure, type FigureChoice, type FigureLayout, type MadeFigure } from './figure.ts';
import { feet, heldTogether } from './foot.ts';
import { localFit, slopeWindowS } from './local-slope.ts';
import { type Axis, lineLayer, plotSpec } from './plot.ts';
import { standingStartSeries } from './run-series.ts';
import { CHARACTER_SHARE, shiftLayers, shiftMarksOf } from './shift-marks.ts';
import { plotWidthPx, SIZES, seriesStyle } from './theme.ts';
import type { Point } from './thin.ts';
import { roundStep, stepDecimals, ticksEvery, upTo } from './ticks.ts';
import { accelerationWords } from './words/acceleration.ts';
import { notMadeWords } from './words/not-made.ts';
import { figureWords } from './words/shared.ts';

interface Drawn extends Chosen {
  /** Speed in the house's unit, acceleration in m/s². */
  readonly line: readonly Point[];
  readonly windowS: number;
  readonly style: { readonly colour: string; readonly dash: readonly number[] };
}

export const accelerationOverSpeed: Figure = {
  kind: 'acceleration-over-speed',
  describes: catalogue({
    en: 'Acceleration over speed of chosen runs from rest; the best kept run of each launch method unless told.',
    de: 'Beschleunigung über der Geschwindigkeit für gewählte Fahrten aus dem Stand; ohne Wahl die beste gewertete jeder Startmethode.',
  }),
  make(test, house, choice) {
    const starts = chooseStarts(test, house, choice);
    if ('reason' in starts) return starts;
    const found = starts.chosen.flatMap((one, index): Drawn[] => {
      const made = accelerationLine(one, house);
      return made.line.length < 2 ? [] : [{ ...one, ...made, style: seriesStyle(index) }];
    });
    if (found.length === 0) {
      return {
        reason: notMadeWords(house).fewReadings,
      };
    }
    return draw(test, house, choice, upToCommonSpeed(found));
  },
};

function accelerationLine({ attempt }: Chosen, house: House): { line: readonly Point[]; windowS: number } {
  const windowS = slopeWindowS(attempt.trace.rateHz);
  const series = standingStartSeries(attempt, 'first-movement', house);
  if (series === undefined) return { line: [], windowS };
  const { slope } = localFit(series.timeS, series.speed.map(speedScale(house).toMps), windowS);
  const line = series.speed
    .map((x, index) => ({ x, y: slope[index]!, timeS: series.timeS[index]! }))
    .filter(({ y, timeS }) => Number.isFinite(y) && timeS >= windowS / 2)
    .map(({ x, y }) => ({ x, y }));
  return { line, windowS };
}

/** All lines up to the highest speed that every one of them reached, so that their ends can be compared. */
function upToCommonSpeed(drawn: readonly Drawn[]): readonly Drawn[] {
  const topSpeed = Math.min(...drawn.map(({ line }) => Math.max(...line.map(({ x }) => x))));
  return drawn.map(one => ({ ...one, line: one.line.filter(({ x }) => x <= topSpeed) }));
}

const highest = (line: readonly Point[]): Point =>
  line.reduce((top, point) => (point.y > top.y ? point : top));

/** Speed after the peak at which acceleration has fallen to half of it for good; undefined where it has not. */
function halvedAt(line: readonly Point[]): number | undefined {
  const top = highest(line);
  const above = line.findLastIndex(({ y }) => y > top.y / 2);
  return above < line.length - 1 ? line[above + 1]!.x : undefined;
}

/** Acceleration that stays within this share of its peak counts as even, over at least this range of speed, m/s: 30 km/h. */
const EVEN = { share: 0.9, overMps: kmhToMps(30) } as const;

/** Up to which speed a run pulls evenly from low speed on, and how hard; undefined where it does not. */
function evenUpTo(
  line: readonly Point[],
  { fromMps }: SpeedScale,
): { readonly toSpeed: number; readonly mps2: number } | undefined {
  const floor = highest(line).y * EVEN.share;
  const first = line.findIndex(({ y }) => y >= floor);
  const end = line.findIndex(({ y }, index) => index > first && y < floor);
  const part = line.slice(first, end < 0 ? line.length : end);
  const toSpeed = part.at(-1)!.x;
  if (toSpeed - part[0]!.x < fromMps(EVEN.overMps)) return undefined;
  const sorted = part.map(({ y }) => y).sort((a, b) => a - b);
  return { toSpeed, mps2: sorted[Math.floor(sorted.length / 2)]! };
}

/** The runs drawn, and the shifts in them. */
interface Runs {
  readonly test: TestResult;
  readonly house: House;
  readonly drawn: readonly Drawn[];
  readonly topSpeed: number;
  readonly shifts: ReturnType<typeof shiftMarksOf>;
  readonly method: string;
}

const mps2Text = (mps2: number, { language }: House): string =>
  printQuantity(mps2, 'acceleration', 1, language);
const peakText = (line: readonly Point[], house: House): string => mps2Text(highest(line).y, house);
/** Speeds in words are given to the nearest 5: the window spans more than that. */
const near = (speed: number, house: House): string =>
  withUnit(String(roundToMultiple(speed, 5)), speedScale(house).symbol);

function draw(test: TestResult, house: House, choice: FigureChoice, drawn: readonly Drawn[]): MadeFigure {
  const words = accelerationWords(house);
  const windows = [
    ...new Set(drawn.map(({ windowS }) => localiseDigits(roundToDecimals(windowS, 1), house.language))),
  ];
  const method = words.method(windows);
  const topSpeed = Math.max(...drawn.flatMap(({ line }) => line.map(({ x }) => x)));
  const shifts = shiftMarksOf(drawn, test, house);
  const runs: Runs = { test, house, drawn, topSpeed, shifts, method };
  const first = drawn[0]!;
  const title = titleOf(first.line, test, house);
  const attempts = figureWords(house).ofAttempts(
    drawn.map(({ attempt }) => String(attempt.number)),
    test.attempts.length,
  );
  const peak = pickResult(test, house, { measure: 'peak-acceleration', attempt: first.attempt.id });
  return {
    kind: 'acceleration-over-speed',
    title,
    deck: words.deck(test.car.name, choiceInWords(choice, drawn.length, house)),
    caption: `${words.caption(attempts)} ${method}`,
    ...feet(test, house, { attempts: drawn.map(({ attempt }) => attempt), method: [method] }),
    altText: [
      `${words.chart} ${title}.`,
      ...drawn.map(({ name, line }) => {
        const [top, last] = [highest(line), line.at(-1)!];
        return words.run(
          name,
          mps2Text(top.y, house),
          near(top.x, house),
          mps2Text(last.y, house),
          near(last.x, house),
        );
      }),
      ...(peak === undefined ? [] : [words.published(first.name, printResult(peak, house).text)]),
      ...shifts.sentences,
    ].join(' '),
    spec: everyLayout(layout => plot(runs, layout)),
    table: table(runs),
  };
}

/** What the first run does: pulls evenly, or hardest at a speed, from where on half of it is left. */
function titleOf(line: readonly Point[], test: TestResult, house: House): string {
  const words = accelerationWords(house);
  const car = heldTogether(test.car.short_name);
  const even = evenUpTo(line, speedScale(house));
  if (even !== undefined) return words.even(car, mps2Text(even.mps2, house), near(even.toSpeed, house));
  const hardest = near(highest(line).x, house);
  const half = halvedAt(line);
  return half === undefined
    ? words.hardest(car, hardest)
    : words.hardestThenHalf(car, hardest, near(half, house));
}

function plot({ house, drawn, topSpeed, shifts }: Runs, layout: FigureLayout): TopLevelSpec {
  const { language } = house;
  const words = accelerationWords(house);
  const shared = figureWords(house);
  const scale = speedScale(house);
  const topMps2 = Math.max(...drawn.map(({ line }) => highest(line).y));
  const leastMps2 = Math.min(0, ...drawn.flatMap(({ line }) => line.map(({ y }) => y)));
  const stepY = roundStep(topMps2, 6);
  const fromY = leastMps2 < -stepY / 4 ? -stepY : 0;
  const toY = upTo(topMps2 * 1.02, stepY);
  const axes: { x: Axis; y: Axis } = {
    x: {
      title: shared.speedAxis(scale.symbol),
      from: 0,
      to: topSpeed,
      ticks: ticksEvery(layout === 'wide' ? scale.step : scale.wideStep, 0, topSpeed),
    },
    y: {
      title: words.axis,
      from: fromY,
      to: toY,
      ticks: ticksEvery(stepY, fromY, toY),
      tickDecimals: stepDecimals(stepY),
    },
  };
  const { labelPx, labelLimitPx } = SIZES[layout];
  const heightPx = heightWithLabels(drawn, layout);
  const nameLength = Math.max(...drawn.map(({ name }) => name.length), words.peak('10.0 m/s²').length);
  // What axis numbers and the labels beside the plot surely leave.
  const widthPx = plotWidthPx(layout) - 50 - Math.min(labelLimitPx, nameLength * labelPx * CHARACTER_SHARE);
  return plotSpec(layout, language, {
    ...axes,
    heightPx,
    layers: [
      ...drawn.toReversed().map(({ line, style }) => lineLayer(line, axes, style)),
      ...endLabelLayers(
        drawn.map(({ name, line, style, attempt }) => ({
          end: line.at(-1)!,
          name,
          detail: attempt.setAside === undefined ? words.peak(peakText(line, house)) : shared.setAside,
          colour: style.colour,
        })),
        axes,
        heightPx,
        layout,
      ),
      ...shiftLayers(shifts.marks, {
        ...axes,
        heightPx,
        widthPx,
        layout,
        language,
        lines: drawn.map(({ line }) => line),
      }),
    ],
  });
}

function table({ house, drawn, topSpeed, shifts, method }: Runs): Table {
  const { language } = house;
  const scale = speedScale(house);
  return {
    id: 'acceleration-over-speed',
    caption: accelerationWords(house).tableCaption(scale.symbol),
    columns: [
      { label: figureWords(house).speed, unit: scale.symbol, align: 'end' },
      ...drawn.map(({ name }) => ({ label: name, unit: 'm/s²', align: 'end' as const })),
    ],
    rows: ticksEvery(10, 10, topSpeed).map(speed => [
      { text: localiseDigits(String(speed), language), header: true },
      ...drawn.map(({ line }) => ({ text: meanNear(line, speed, scale, language) })),
    ]),
    notes: [
      method,
      ...shifts.notes,
      ...flaggedAmong(
        drawn.map(({ attempt }) => attempt),
        house,
      ),
    ],
  };
}

/** Readings within this of a speed count as at it, m/s: 2 km/h. */
const NEAR_MPS = kmhToMps(2);

/** Mean of the readings near a speed, one decimal; a dash where there is none. */
function meanNear(line: readonly Point[], speed: number, { fromMps }: SpeedScale, language: string): string {
  const within = Number(fromMps(NEAR_MPS).toPrecision(12));
  const close = line.filter(({ x }) => Math.abs(x - speed) <= within).map(({ y }) => y);
  if (close.length === 0) return '–';
  const mean = close.reduce((sum, y) => sum + y, 0) / close.length;
  return localiseDigits(roundToDecimals(mean, 1), language);
}
