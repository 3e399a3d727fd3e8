/** Acceleration over speed of a few runs from rest: where the car pulls, and where it stops pulling. */

import { catalogue } from '../language.ts';
import { flaggedAmong } from '../result/flag-rules.ts';
import { pickResult } from '../result/pick.ts';
import type { House, TestResult } from '../result/result.ts';
import { localiseDigits, printQuantity, printResult, withUnit } from '../result/words.ts';
import { roundToDecimals, roundToMultiple } from '../round.ts';
import { type SpeedScale, speedScale } from '../speed-unit.ts';
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

function draw(test: TestResult, house: House, choice: FigureChoice, drawn: readonly Drawn[]): MadeFigure {
  const language = house.language;
  const words = accelerationWords(house);
  const shared = figureWords(house);
  const scale = speedScale(house);
  const { symbol } = scale;
  // Speeds in words are given to the nearest 5: the window spans more than that.
  const near = (speed: number): string => withUnit(String(roundToMultiple(speed, 5)), symbol);
  const topSpeed = Math.max(...drawn.flatMap(({ line }) => line.map(({ x }) => x)));
  const topMps2 = Math.max(...drawn.map(({ line }) => highest(line).y));
  const stepY = roundStep(topMps2, 6);
  const leastMps2 = Math.min(0, ...drawn.flatMap(({ line }) => line.map(({ y }) => y)));
  const fromY = leastMps2 < -stepY / 4 ? -stepY : 0;
  const shifts = shiftMarksOf(drawn, test, house);
  const figure = (layout: FigureLayout) => {
    const { labelPx, labelLimitPx } = SIZES[layout];
    const heightPx = heightWithLabels(drawn, layout);
    const nameLength = Math.max(...drawn.map(({ name }) => name.length), words.peak('10.0 m/s²').length);
    // What axis numbers and the labels beside the plot surely leave.
    const widthPx = plotWidthPx(layout) - 50 - Math.min(labelLimitPx, nameLength * labelPx * CHARACTER_SHARE);
    const axes: { x: Axis; y: Axis } = {
      x: {
        title: shared.speedAxis(symbol),
        from: 0,
        to: topSpeed,
        ticks: ticksEvery(layout === 'wide' ? scale.step : scale.wideStep, 0, topSpeed),
      },
      y: {
        title: words.axis,
        from: fromY,
        to: upTo(topMps2 * 1.02, stepY),
        ticks: ticksEvery(stepY, fromY, upTo(topMps2 * 1.02, stepY)),
        tickDecimals: stepDecimals(stepY),
      },
    };
    return plotSpec(layout, language, {
      ...axes,
      heightPx,
      layers: [
        ...[...drawn].reverse().map(({ line, style }) => lineLayer(line, axes, style)),
        ...endLabelLayers(
          drawn.map(({ name, line, style, attempt }) => ({
            end: line.at(-1)!,
            name,
            detail: attempt.setAside === undefined ? words.peak(peakText(line)) : shared.setAside,
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
  };
  const peakText = (line: readonly Point[]) => printQuantity(highest(line).y, 'acceleration', 1, language);
  const first = drawn[0]!;
  const top = highest(first.line);
  const half = halvedAt(first.line);
  const even = evenUpTo(first.line, scale);
  const car = heldTogether(test.car.short_name);
  const title =
    even !== undefined
      ? words.even(car, printQuantity(even.mps2, 'acceleration', 1, language), near(even.toSpeed))
      : half === undefined
        ? words.hardest(car, near(top.x))
        : words.hardestThenHalf(car, near(top.x), near(half));
  const windows = [
    ...new Set(drawn.map(({ windowS }) => localiseDigits(roundToDecimals(windowS, 1), language))),
  ];
  const method = words.method(windows);
  const attempts = shared.ofAttempts(
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
      ...drawn.map(({ name, line }) =>
        words.run(
          name,
          peakText(line),
          near(highest(line).x),
          printQuantity(line.at(-1)!.y, 'acceleration', 1, language),
          near(line.at(-1)!.x),
        ),
      ),
      ...(peak === undefined ? [] : [words.published(first.name, printResult(peak, house).text)]),
      ...shifts.sentences,
    ].join(' '),
    spec: everyLayout(figure),
    table: {
      id: 'acceleration-over-speed',
      caption: words.tableCaption(symbol),
      columns: [
        { label: shared.speed, unit: symbol, align: 'end' },
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
    },
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
