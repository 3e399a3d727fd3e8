/** Time gained between two runs over speed: where one gained on the other. */

import { withUnit } from '../digits.ts';
import { catalogue, tagOf } from '../language.ts';
import { COLOUR } from '../look.ts';
import { compareResults } from '../result/compare.ts';
import { flaggedAmong } from '../result/flag-rules.ts';
import { MEASURES, measureLabel, nominalSpeed } from '../result/measures.ts';
import { bestAttempt, launchMethodsOf } from '../result/pick.ts';
import type { House, MeasureId, TestResult } from '../result/result.ts';
import { printedWords } from '../result/words/printed.ts';
import {
  localiseDigits,
  printDifference,
  printQuantity,
  printResult,
  startRuleInWords,
} from '../result/words.ts';
import { decimalsForUncertainty, roundToDecimals } from '../round.ts';
import { type ForReaders, speedScale, speedUnitOf } from '../speed-unit.ts';
import type { Table } from '../table/table.ts';
import { type Chosen, chooseAttempts, headlineMeasure, quickestFirst } from './choose.ts';
import { everyLayout, type Figure, type FigureChoice, type FigureLayout, type MadeFigure } from './figure.ts';
import { feet } from './foot.ts';
import { type Gain, gainsOf, stretches } from './gains.ts';
import { slopeWindowS } from './local-slope.ts';
import { type Axis, bandLayer, dotLayer, labelLayers, lineLayer, plotSpec, ruleLayer } from './plot.ts';
import { type Box, CHARACTER_SHARE, shiftLayers, shiftMarksOf } from './shift-marks.ts';
import { plotWidthPx, SIZES } from './theme.ts';
import { roundStep, stepDecimals, ticksEvery, upTo } from './ticks.ts';
import { notMadeWords } from './words/not-made.ts';
import { figureWords } from './words/shared.ts';
import { timeGainedWords } from './words/time-gained.ts';

export const timeGained: Figure = {
  kind: 'time-gained',
  describes: catalogue({
    en: 'Time one run gains on another over speed; the best runs of the quickest and the slowest launch method unless told, or best against median.',
    de: 'Zeit, die eine Fahrt gegenüber einer anderen gewinnt, über der Geschwindigkeit; ohne Wahl die besten der schnellsten und der langsamsten Startmethode, oder beste gegen mittlere.',
  }),
  make(test, house, choice) {
    const measure = headlineMeasure(test, house);
    if (measure === undefined) return { reason: notMadeWords(house).noStart(speedUnitOf(house)) };
    const chosen = chooseAttempts(test, house, choice, measure, defaultPair(test, house, choice, measure));
    if ('reason' in chosen) return chosen;
    const [ahead, behind, third] = quickestFirst(chosen);
    if (ahead === undefined || behind === undefined || third !== undefined) {
      return { reason: notMadeWords(house).betweenTwo(chosen.length) };
    }
    const gains = gainsOf(ahead, behind, choice.startRule, house);
    if ('reason' in gains) return gains;
    return draw(test, house, choice, { ahead, behind, gains }, measure);
  },
};

function defaultPair(
  test: TestResult,
  house: House,
  { startRule }: FigureChoice,
  measure: MeasureId,
): readonly string[] {
  const bests = launchMethodsOf(test, house)
    .flatMap(({ id }) => bestAttempt(test, house, { measure, startRule, launch: id }) ?? [])
    .map(attempt => ({
      id: attempt.id,
      s: MEASURES[measure].valueOf(attempt.measurement, startRule)?.value ?? 0,
    }))
    .sort((a, b) => a.s - b.s);
  return bests.length > 1 ? [bests[0]!.id, bests.at(-1)!.id] : ['best', 'median'];
}

/** The gain at the headline speed: that of the published results where both have one. */
function headlineGain({ ahead, behind, gains }: Pair, speed: number): Gain {
  if (ahead.result !== undefined && behind.result !== undefined) {
    const { difference, uncertainty } = compareResults(behind.result, ahead.result);
    return { speed, s: difference, uncertaintyS: uncertainty };
  }
  return gains.find(gain => gain.speed === speed) ?? gains.at(-1)!;
}

interface Pair {
  readonly ahead: Chosen;
  readonly behind: Chosen;
  readonly gains: readonly Gain[];
}

function draw(
  test: TestResult,
  house: House,
  choice: FigureChoice,
  pair: Pair,
  measure: MeasureId,
): MadeFigure {
  const { ahead, behind, gains } = pair;
  const language = house.language;
  const words = timeGainedWords(house);
  const shared = figureWords(house);
  const symbol = speedUnitOf(house);
  const headlineSpeed = nominalSpeed(measure);
  const at = headlineGain(pair, headlineSpeed);
  const shifts = shiftMarksOf([ahead, behind], test, house);
  const { title, sentence } = findingOf(pair, at, house, choice, measure);
  const texts = [ahead, behind].map(({ name, attempt, result }) =>
    words.run(
      name,
      attempt.number,
      attempt.setAside !== undefined
        ? shared.setAside
        : result === undefined
          ? words.notReached(`${at.speed} ${symbol}`)
          : words.reached(printResult(result, house).text, `${headlineSpeed} ${symbol}`),
    ),
  );
  const windows = [ahead, behind]
    .map(({ attempt }) => slopeWindowS(attempt.trace.rateHz))
    .sort((x, y) => x - y)
    .map(seconds => printQuantity(seconds, 'time', 1, language))
    .filter((text, index, all) => all.indexOf(text) === index);
  const gaps = stretches(gains).length > 1;
  return {
    kind: 'time-gained',
    title,
    deck: `${words.howMuchLater(behind.name, ahead.name)}, ${test.car.name}`,
    caption: words.caption(
      [ahead.name, ahead.attempt.number],
      [behind.name, behind.attempt.number],
      startRuleInWords(choice.startRule, house),
    ),
    ...feet(test, house, {
      attempts: [ahead.attempt, behind.attempt],
      startRule: choice.startRule,
      key: words.key,
      method: [
        [
          words.shaded,
          ...(ahead.result === undefined ? [] : [words.counts(measureLabel(measure, house), ahead.result.n)]),
          words.smoothed(windows),
          ...(gaps ? [words.gaps] : []),
        ].join(' '),
      ],
    }),
    altText: `${words.chart} ${[sentence, ...texts, ...shifts.sentences].join(' ')}`,
    spec: everyLayout(layout => plot(layout, { ...pair, at, shifts, house })),
    table: tableOf(pair, house, choice, shifts.notes),
  };
}

/** What the plot shows in every layout. */
interface Shown extends Pair {
  /** At the headline speed. */
  readonly at: Gain;
  readonly shifts: ReturnType<typeof shiftMarksOf>;
  readonly house: House;
}

function plot(layout: FigureLayout, { ahead, behind, gains, at, shifts, house }: Shown) {
  const { language } = house;
  const words = timeGainedWords(house);
  const symbol = speedUnitOf(house);
  const { labelPx, labelLeadingPx, plotHeightPx: heightPx } = SIZES[layout];
  const axes = axesOf(layout, gains, house);
  const { from, to } = axes.y;
  const topSpeed = axes.x.to;
  const line = gains.map(({ speed, s }) => ({ x: speed, y: s }));
  const band = [{ ...gains[0]!, speed: 0 }, ...gains].map(({ speed, uncertaintyS }) => ({
    x: speed,
    y: -uncertaintyS,
    y2: uncertaintyS,
  }));
  const aheadStyle = {
    align: 'left' as const,
    dx: 3,
    sizePx: labelPx,
    weight: 600 as const,
    limitPx: plotWidthPx(layout) * 0.8,
    halo: true,
  };
  const aheadText = words.aheadAbove(ahead.name);
  const behindText = words.aheadBelow(behind.name);
  const apart = secondsText(Math.abs(at.s), at.uncertaintyS, language);
  const atText = words.at(apart, withUnit(String(at.speed), symbol));
  const labelSpeed = topSpeed * (layout === 'wide' ? 0.25 : 0.5);
  const overLabel = line.filter(({ x }) => x <= at.speed && x >= at.speed - labelSpeed).map(({ y }) => y);
  const labelS = Math.max(at.s, ...overLabel);
  // What the axis numbers surely leave, and the room that labels and the line at 0 take.
  const widthPx = plotWidthPx(layout) - 45;
  const wide = (text: string): number => text.length * labelPx * CHARACTER_SHARE;
  const toPx = (s: number): number => ((to - s) / (to - from)) * heightPx;
  const dotX = (at.speed / topSpeed) * widthPx;
  const taken: readonly Box[] = [
    { x1: 0, x2: widthPx, y1: toPx(0), y2: toPx(0) },
    { x1: 0, x2: wide(aheadText), y1: 0, y2: labelLeadingPx },
    { x1: 0, x2: wide(behindText), y1: heightPx - 5 - labelLeadingPx, y2: heightPx },
    {
      x1: dotX - wide(atText),
      x2: dotX + 6,
      y1: toPx(labelS) - 8 - labelLeadingPx,
      y2: toPx(labelS) + 6,
    },
  ];
  return plotSpec(layout, language, {
    ...axes,
    heightPx,
    layers: [
      bandLayer(band, { colour: COLOUR.hairline, opacity: 0.5 }),
      ruleLayer([{ x: 0, x2: topSpeed, y: 0, y2: 0 }], { colour: COLOUR.ink, width: 1 }),
      ...labelLayers([{ x: 0, y: to, text: aheadText }], { ...aheadStyle, baseline: 'top' }),
      ...labelLayers([{ x: 0, y: from, text: behindText }], { ...aheadStyle, baseline: 'bottom', dy: -5 }),
      ...stretches(gains).map(part =>
        lineLayer(
          part.map(({ speed, s }) => ({ x: speed, y: s })),
          axes,
          { colour: COLOUR.accent, width: 2 },
        ),
      ),
      dotLayer([{ x: at.speed, y: at.s }], { colour: COLOUR.accent, areaPx: 46, hollow: true }),
      ...labelLayers([{ x: at.speed, y: labelS, text: atText, colour: COLOUR.accent }], {
        align: 'right',
        baseline: 'bottom',
        dx: 4,
        dy: -8,
        sizePx: labelPx,
        weight: 600,
      }),
      ...shiftLayers(shifts.marks, { ...axes, heightPx, widthPx, layout, language, lines: [line], taken }),
    ],
  });
}

/** Strips above and below that line and band leave free: above for two labels, below for one. */
function axesOf(
  layout: FigureLayout,
  gains: readonly Gain[],
  house: House,
): { readonly x: Axis; readonly y: Axis } {
  const { labelLeadingPx, plotHeightPx: heightPx } = SIZES[layout];
  const { symbol, step: speedStep } = speedScale(house);
  const topSpeed = gains.at(-1)!.speed;
  const abovePx = 2 * labelLeadingPx + 16;
  const belowPx = labelLeadingPx + 10;
  const high = Math.max(...gains.map(({ s, uncertaintyS }) => Math.max(s, uncertaintyS)));
  const low = Math.min(...gains.map(({ s, uncertaintyS }) => Math.min(s, -uncertaintyS)));
  const pxS = (high - low) / (heightPx - abovePx - belowPx);
  const step = roundStep(pxS * heightPx, 7);
  const [from, to] = [low - belowPx * pxS, high + abovePx * pxS];
  return {
    x: {
      title: figureWords(house).speedAxis(symbol),
      from: 0,
      to: topSpeed,
      ticks: ticksEvery(layout === 'wide' && speedStep === 20 ? 10 : speedStep, 0, topSpeed),
    },
    y: {
      title: timeGainedWords(house).axis,
      from,
      to,
      // A tick that nearly touches the axis below would read as its number.
      ticks: ticksEvery(step, from + ((to - from) * 12) / heightPx, to),
      tickDecimals: stepDecimals(step),
    },
  };
}

function tableOf(
  { ahead, behind, gains }: Pair,
  house: House,
  { startRule }: FigureChoice,
  shiftNotes: readonly string[],
): Table {
  const { language } = house;
  const words = timeGainedWords(house);
  const shared = figureWords(house);
  return {
    id: 'time-gained',
    caption: `${words.howMuchLater(behind.name, ahead.name)}, ${startRuleInWords(startRule, house)}`,
    columns: [
      { label: shared.speed, unit: speedUnitOf(house), align: 'end' },
      { label: words.laterBy, unit: 's', align: 'end' },
      { label: shared.uncertainty, unit: 's', align: 'end' },
    ],
    rows: gains
      .filter(({ speed }) => speed % 10 === 0)
      .map(({ speed, s, uncertaintyS }) => [
        { text: String(speed), header: true },
        { text: digits(s, uncertaintyS, language) },
        { text: digits(uncertaintyS, uncertaintyS, language) },
      ]),
    notes: [words.negative, ...shiftNotes, ...flaggedAmong([ahead.attempt, behind.attempt], house)],
  };
}

const places = (uncertaintyS: number): number =>
  Number.isFinite(uncertaintyS) ? decimalsForUncertainty(uncertaintyS, { most: 2 }) : 1;
const digits = (s: number, uncertaintyS: number, language: string): string =>
  Number.isFinite(s)
    ? localiseDigits(roundToDecimals(s, places(uncertaintyS)), language)
    : printedWords(language).notStated;
const secondsText = (s: number, uncertaintyS: number, language: string): string =>
  `${digits(s, uncertaintyS, language)}\u00a0s`;

/** Share of the final gain that counts as most of it. */
const MOST_OF_IT = 2 / 3;

/** A gain counts as having been there from this many times its uncertainty on: it is the greatest of a hundred. */
const SURELY = 2;

/** The greatest gain on the way to a speed at which nothing is left of it; undefined where there was none. */
function cameBack(
  gains: readonly Gain[],
  at: Gain,
  readers: ForReaders,
): { readonly s: number; readonly text: string; readonly where: string } | undefined {
  const before = gains.filter(({ speed }) => speed < at.speed);
  const most = [...before].sort((a, b) => Math.abs(b.s) - Math.abs(a.s))[0];
  if (most === undefined || !(Math.abs(most.s) > SURELY * most.uncertaintyS)) return undefined;
  const text = secondsText(Math.abs(most.s), most.uncertaintyS, tagOf(readers));
  return { s: most.s, text, where: withUnit(String(most.speed), speedUnitOf(readers)) };
}

/** Ranks the two only where the difference at the headline speed exceeds its uncertainty. */
function findingOf(
  { ahead, behind, gains }: Pair,
  at: Gain,
  house: House,
  { startRule }: FigureChoice,
  measure: MeasureId,
): { readonly title: string; readonly sentence: string } {
  const text = printDifference(at.s, at.uncertaintyS, MEASURES[measure], house).text;
  const sure = `± ${digits(at.uncertaintyS, at.uncertaintyS, house.language)}\u00a0s`;
  const symbol = speedUnitOf(house);
  const where = withUnit(String(at.speed), symbol);
  const words = timeGainedWords(house);
  const official = ahead.result !== undefined && behind.result !== undefined;
  if (!official || !(at.s > at.uncertaintyS)) {
    const found = cameBack(gains, at, house);
    const came = found && { ...found, ahead: found.s > 0 ? ahead.name : behind.name };
    const title = words.tooClose(ahead.name, behind.name, where, came);
    return official || at.s <= at.uncertaintyS
      ? { title, sentence: words.tooCloseSentence(title, came, text, where, sure) }
      : {
          title: words.differ(ahead.name, behind.name),
          sentence: words.notBothKept(where, text, sure),
        };
  }
  // The first speed from which on the gain never falls below most of the final one again.
  const under = gains.findLastIndex(({ speed, s }) => speed <= at.speed && s < at.s * MOST_OF_IT);
  const reached = gains[under + 1]?.speed ?? at.speed;
  const below = Math.max(10, upTo(reached, 10));
  const title =
    below <= at.speed / 2
      ? words.gainsMostBelow(ahead.name, text, behind.name, withUnit(String(below), symbol))
      : words.gainsLate(ahead.name, text, behind.name, where);
  const afterRollout = startRule !== 'first-movement';
  return { title, sentence: words.gainSentence(title, where, text, afterRollout, sure) };
}
