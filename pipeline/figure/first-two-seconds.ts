/** The start of one run, reading by reading, with both instants a clock may start from. */

import type { TopLevelSpec } from 'vega-lite';
import { catalogue } from '../language.ts';
import { COLOUR } from '../look.ts';
import { flaggedAmong } from '../result/flag-rules.ts';
import type { Attempt, House, TestResult } from '../result/result.ts';
import { localiseDigits, printQuantity } from '../result/words.ts';
import { roundToDecimals } from '../round.ts';
import { speedScale, speedUnitOf } from '../speed-unit.ts';
import type { Table } from '../table/table.ts';
import { ROLLOUT_M } from '../units.ts';
import { type Chosen, chooseAttempts, headlineMeasure } from './choose.ts';
import { everyLayout, type Figure, type FigureLayout, type MadeFigure } from './figure.ts';
import { feet } from './foot.ts';
import {
  type Axis,
  areaLayer,
  dotLayer,
  type Label,
  labelLayers,
  lineLayer,
  plotSpec,
  ruleLayer,
} from './plot.ts';
import { type RunSeries, standingStartSeries, valueAt } from './run-series.ts';
import { SIZES } from './theme.ts';
import type { Point } from './thin.ts';
import { roundStep, stepDecimals, ticksEvery, upTo } from './ticks.ts';
import { firstTwoSecondsWords } from './words/first-two-seconds.ts';
import { notMadeWords } from './words/not-made.ts';
import { figureWords } from './words/shared.ts';

const BEFORE_S = 0.3;
const AFTER_S = 2;

export const firstTwoSeconds: Figure = {
  kind: 'first-two-seconds',
  describes: catalogue({
    en: 'Speed in the first two seconds of one run, every reading, with first movement and the instant one foot is covered; the best run unless told.',
    de: 'Die ersten zwei Sekunden einer Fahrt, jeder Messwert, mit der ersten Bewegung und dem Augenblick, in dem ein Fuß zurückgelegt ist; ohne Wahl die beste.',
  }),
  make(test, house, choice) {
    const measure = headlineMeasure(test, house);
    if (measure === undefined) return { reason: notMadeWords(house).noStart(speedUnitOf(house)) };
    const chosen = chooseAttempts(test, house, choice, measure, ['best']);
    if ('reason' in chosen) return chosen;
    const [only, second] = chosen;
    if (only === undefined) return { reason: notMadeWords(house).noneChosen };
    if (second !== undefined) return { reason: notMadeWords(house).oneOnly };
    const series = standingStartSeries(only.attempt, 'first-movement', house, BEFORE_S);
    if (series === undefined) return { reason: notMadeWords(house).attemptWithoutStart(only.attempt.id) };
    return draw(test, house, only, series);
  },
};

/** The run drawn, with what is said of it more than once. */
interface DrawnStart {
  readonly test: TestResult;
  readonly house: House;
  readonly attempt: Attempt;
  readonly series: RunSeries;
  /** First movement at 0 s, speed in the house's unit. */
  readonly shown: readonly Point[];
  readonly rolloutS: number;
  readonly rolloutText: string;
  readonly uncertaintyText: string;
}

function draw(test: TestResult, house: House, { attempt }: Chosen, series: RunSeries): MadeFigure {
  const { rolloutS, uncertaintyS } = attempt.measurement.start!;
  const { language } = house;
  const words = firstTwoSecondsWords(house);
  const { toMps } = speedScale(house);
  const printed = (s: number): string => printQuantity(s, 'time', { uncertainty: uncertaintyS }, language);
  const [rolloutText, uncertaintyText] = [printed(rolloutS), printed(uncertaintyS)];
  const shown = series.timeS.map((x, i) => ({ x, y: series.speed[i]! })).filter(({ x }) => x <= AFTER_S);
  const drawn = { test, house, attempt, series, shown, rolloutS, rolloutText, uncertaintyText };
  const footSpeed = valueAt(series.timeS, series.speed, rolloutS);
  const speedText =
    footSpeed === undefined ? '' : words.speedThere(printQuantity(toMps(footSpeed), 'speed', 1, house));
  const method = words.method(
    withoutUnit(ROLLOUT_M, language),
    printQuantity(attempt.trace.rateHz, 'rate', undefined, language),
  );
  return {
    kind: 'first-two-seconds',
    title: words.title(rolloutText),
    deck: words.deck(attempt.number, attempt.launchName, test.car.name),
    caption: words.caption(attempt.number, rolloutText),
    ...feet(test, house, { attempts: [attempt], method: [method] }),
    altText: words.alt(
      withoutUnit(AFTER_S, language),
      attempt.number,
      uncertaintyText,
      rolloutText,
      speedText,
      printQuantity(toMps(shown.at(-1)?.y ?? 0), 'speed', 1, house),
    ),
    spec: everyLayout(layout => plot(drawn, layout)),
    table: table(drawn),
  };
}

function plot(
  { house, shown, rolloutS, rolloutText, uncertaintyText }: DrawnStart,
  layout: FigureLayout,
): TopLevelSpec {
  const words = firstTwoSecondsWords(house);
  const size = SIZES[layout];
  const topSpeed = Math.max(10, ...shown.map(({ y }) => y));
  const step = roundStep(topSpeed, 6);
  const high = upTo(topSpeed, step);
  const low = high * 0.8;
  const axes: { x: Axis; y: Axis } = {
    x: {
      title: words.axis,
      from: -BEFORE_S,
      to: AFTER_S,
      ticks: ticksEvery(layout === 'wide' ? 0.2 : 0.5, layout === 'wide' ? -0.2 : 0, AFTER_S),
      tickDecimals: 1,
    },
    y: {
      title: speedScale(house).symbol,
      from: 0,
      to: high,
      ticks: ticksEvery(step, 0, high),
      tickDecimals: stepDecimals(step),
    },
  };
  const line = (size.labelLeadingPx / size.plotHeightPx) * high;
  const label = (of: Label, weight?: 600) =>
    labelLayers([of], {
      align: 'left',
      baseline: 'top',
      dx: 7,
      dy: 5,
      sizePx: size.labelPx,
      halo: true,
      ...(weight && { weight }),
    });
  const readings = shown.filter(({ x, y }) => x !== 0 || y !== 0);
  return plotSpec(layout, house.language, {
    ...axes,
    heightPx: size.plotHeightPx,
    layers: [
      areaLayer([{ x: 0, x2: rolloutS, y: 0, y2: low }], { colour: COLOUR.hairline, opacity: 0.35 }),
      ruleLayer([{ x: 0, x2: 0, y: 0, y2: high }], { colour: COLOUR.ink, width: 1.1 }),
      ruleLayer([{ x: rolloutS, x2: rolloutS, y: 0, y2: low }], {
        colour: COLOUR.accent,
        width: 1.1,
        dash: [5, 3],
      }),
      lineLayer(shown, axes, { colour: COLOUR.ink, width: 1 }),
      dotLayer(readings, { colour: COLOUR.ink, areaPx: layout === 'wide' ? 17 : 11 }),
      ...label({ x: 0, y: high, text: words.firstMovement }, 600),
      ...label({ x: 0, y: high - line, text: words.fromTheRise(uncertaintyText), colour: COLOUR.muted }),
      ...label({ x: rolloutS, y: low, text: words.oneFoot, colour: COLOUR.accent }, 600),
      ...label({ x: rolloutS, y: low - line, text: words.after(rolloutText), colour: COLOUR.accent }),
    ],
  });
}

function table({ house, attempt, series, rolloutText }: DrawnStart): Table {
  const { language } = house;
  const words = firstTwoSecondsWords(house);
  const shared = figureWords(house);
  const at = (values: readonly number[], atS: number, decimals: number): string => {
    const value = valueAt(series.timeS, values, atS);
    return value === undefined ? '–' : localiseDigits(roundToDecimals(value, decimals), language);
  };
  return {
    id: 'first-two-seconds',
    caption: words.tableCaption(attempt.number),
    columns: [
      { label: shared.time, unit: 's', align: 'end' },
      { label: shared.speed, unit: speedScale(house).symbol, align: 'end' },
      { label: shared.distance, unit: 'm', align: 'end' },
    ],
    rows: ticksEvery(0.1, 0, AFTER_S).map(atS => [
      { text: localiseDigits(roundToDecimals(atS, 1), language), header: true },
      { text: at(series.speed, atS, 1) },
      { text: at(series.distanceM, atS, 2) },
    ]),
    notes: [words.note(rolloutText), ...flaggedAmong([attempt], house)],
  };
}

const withoutUnit = (value: number, language: string): string => localiseDigits(String(value), language);
