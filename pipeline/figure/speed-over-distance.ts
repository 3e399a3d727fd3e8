/** Speed over distance of a few runs from rest: how much road a speed costs. */

import type { TopLevelSpec } from 'vega-lite';
import { catalogue } from '../language.ts';
import { nominalSpeed } from '../result/measures.ts';
import type { House, TestResult } from '../result/result.ts';
import { printedWords } from '../result/words/printed.ts';
import { reasonInWords } from '../result/words/set-aside.ts';
import { localiseDigits, printQuantity, startRuleInWords, withUnit } from '../result/words.ts';
import { roundToDecimals } from '../round.ts';
import type { StartRule } from '../run/run.ts';
import { speedScale } from '../speed-unit.ts';
import type { Table } from '../table/table.ts';
import { ROLLOUT_M } from '../units.ts';
import { type Chosen, choiceInWords, chooseStarts } from './choose.ts';
import { endLabelLayers, heightWithLabels } from './end-labels.ts';
import { everyLayout, type Figure, type FigureChoice, type FigureLayout, type MadeFigure } from './figure.ts';
import { feet, heldTogether } from './foot.ts';
import { type Axis, dotLayer, headlineLevel, lineLayer, plotSpec } from './plot.ts';
import { firstPassing, standingStartSeries, valueAt } from './run-series.ts';
import { seriesStyle } from './theme.ts';
import type { Point } from './thin.ts';
import { roundStep, ticksEvery, upTo } from './ticks.ts';
import { notMadeWords } from './words/not-made.ts';
import { figureWords } from './words/shared.ts';
import { speedOverDistanceWords } from './words/speed-over.ts';

interface Drawn extends Chosen {
  /** Distance in m under the start rule, speed in the house's unit. */
  readonly line: readonly Point[];
  /** Distance to the headline speed, m. */
  readonly atM?: number;
  readonly style: { readonly colour: string; readonly dash: readonly number[] };
}

/** The picture goes this much further than the headline speed of the last run, at least. */
const BEYOND_HEADLINE = 1.06;

export const speedOverDistance: Figure = {
  kind: 'speed-over-distance',
  describes: catalogue({
    en: 'Speed over distance of chosen runs from rest, with the distance to the headline speed; the best kept run of each launch method unless told.',
    de: 'Geschwindigkeit über dem Weg für gewählte Fahrten aus dem Stand, mit dem Weg bis zur Geschwindigkeit des Hauptwerts; ohne Wahl die beste gewertete jeder Startmethode.',
  }),
  make(test, house, choice) {
    const starts = chooseStarts(test, house, choice);
    if ('reason' in starts) return starts;
    const toSpeed = nominalSpeed(starts.measure);
    const drawn = starts.chosen.flatMap((one, index): Drawn[] => {
      const line = lineOf(one, choice.startRule, house);
      if (line.length < 2) return [];
      const atM = firstPassing(
        line.map(({ x }) => x),
        line.map(({ y }) => y),
        toSpeed,
      );
      return [{ ...one, line, style: seriesStyle(index), ...(atM === undefined ? {} : { atM }) }];
    });
    if (drawn.length === 0) return { reason: notMadeWords(house).noMeasuredStart };
    return draw({ test, house, choice, drawn, toSpeed });
  },
};

/** The tape starts with the clock: under the rollout rule one foot after the car moved. */
function lineOf({ attempt }: Chosen, startRule: StartRule, house: House): readonly Point[] {
  const series = standingStartSeries(attempt, startRule, house);
  if (series === undefined) return [];
  const lateM = startRule === 'one-foot-rollout' ? ROLLOUT_M : 0;
  return series.distanceM.map((m, index) => ({ x: m - lateM, y: series.speed[index]! }));
}

/** The runs drawn, the choice that named them, and the headline speed in the house's unit. */
interface Runs {
  readonly test: TestResult;
  readonly house: House;
  readonly choice: FigureChoice;
  readonly drawn: readonly Drawn[];
  readonly toSpeed: number;
}

const metresText = (m: number, { language }: House): string => printQuantity(m, 'distance', 0, language);

function draw(runs: Runs): MadeFigure {
  const { test, house, choice, drawn, toSpeed } = runs;
  const words = speedOverDistanceWords(house);
  const shared = figureWords(house);
  const speed = withUnit(String(toSpeed), speedScale(house).symbol);
  const title = titleOf(drawn, test, speed, house);
  const attempts = shared.ofAttempts(
    drawn.map(({ attempt }) => String(attempt.number)),
    test.attempts.length,
  );
  const { method } = words;
  const told = drawn.map(({ name, atM, attempt }) =>
    attempt.setAside !== undefined
      ? shared.runSetAside(name, reasonInWords(attempt.setAside, house))
      : atM === undefined
        ? shared.didNotReach(name, speed)
        : words.reached(name, speed, metresText(atM, house)),
  );
  return {
    kind: 'speed-over-distance',
    title,
    deck: words.deck(test.car.name, choiceInWords(choice, drawn.length, house)),
    caption: `${words.caption(attempts, startRuleInWords(choice.startRule, house))} ${method}`,
    ...feet(test, house, {
      attempts: drawn.map(({ attempt }) => attempt),
      startRule: choice.startRule,
      method: [method],
    }),
    altText: `${words.chart} ${title}. ${told.join(' ')}`,
    spec: everyLayout(layout => plot(runs, layout)),
    table: table(runs),
  };
}

function plot({ house, choice, drawn, toSpeed }: Runs, layout: FigureLayout): TopLevelSpec {
  const words = speedOverDistanceWords(house);
  const shared = figureWords(house);
  const { symbol, step } = speedScale(house);
  const endM = commonEnd(drawn);
  const heightPx = heightWithLabels(drawn, layout);
  const within = drawn.map(one => ({ ...one, line: one.line.filter(({ x }) => x <= endM) }));
  const top = upTo(Math.max(toSpeed, ...within.flatMap(({ line }) => line.map(({ y }) => y))), step);
  const from = Math.min(0, ...within.map(({ line }) => line[0]!.x));
  const axes: { x: Axis; y: Axis } = {
    x: {
      title: `m, ${printedWords(house).tapeRule[choice.startRule]}`,
      from,
      to: endM,
      ticks: ticksEvery(roundStep(endM, layout === 'wide' ? 12 : 5), 0, endM),
    },
    y: { title: symbol, from: 0, to: top, ticks: ticksEvery(step, 0, top) },
  };
  // The first one on top.
  const fromLast = within.toReversed();
  const detailOf = ({ atM, attempt }: Drawn): string =>
    attempt.setAside !== undefined
      ? shared.setAside
      : atM === undefined
        ? shared.notReached
        : words.after(metresText(atM, house));
  return plotSpec(layout, house.language, {
    ...axes,
    heightPx,
    layers: [
      ...headlineLevel(from, endM, toSpeed, words.distanceTo(withUnit(String(toSpeed), symbol)), layout),
      ...fromLast.map(({ line, style }) => lineLayer(line, axes, style)),
      ...fromLast.flatMap(({ atM, style }) =>
        atM === undefined
          ? []
          : [dotLayer([{ x: atM, y: toSpeed }], { colour: style.colour, areaPx: 42, hollow: true })],
      ),
      ...endLabelLayers(
        within.map(one => ({
          end: one.line.at(-1)!,
          name: one.name,
          detail: detailOf(one),
          colour: one.style.colour,
        })),
        axes,
        heightPx,
        layout,
      ),
    ],
  });
}

function table({ house, choice, drawn }: Runs): Table {
  const { language } = house;
  const shared = figureWords(house);
  const endM = commonEnd(drawn);
  const runs = drawn.map(({ line }) => ({ m: line.map(({ x }) => x), speed: line.map(({ y }) => y) }));
  return {
    id: 'speed-over-distance',
    caption: speedOverDistanceWords(house).tableCaption(startRuleInWords(choice.startRule, house)),
    columns: [
      { label: shared.distance, unit: 'm', align: 'end' },
      ...drawn.map(({ name }) => ({
        label: name,
        unit: speedScale(house).symbol,
        align: 'end' as const,
      })),
    ],
    rows: ticksEvery(roundStep(endM, 16), 0, endM).map(m => [
      { text: localiseDigits(String(m), language), header: true },
      ...runs.map(run => {
        const value = valueAt(run.m, run.speed, m);
        return { text: value === undefined ? '–' : localiseDigits(roundToDecimals(value, 1), language) };
      }),
    ]),
    notes: [shared.readOff],
  };
}

/** Where all lines stop: with the first complete one, but after every headline distance. */
function commonEnd(drawn: readonly Drawn[]): number {
  const passed = drawn.flatMap(({ atM }) => atM ?? []);
  const complete = drawn.filter(({ atM }) => atM !== undefined);
  const ends = (complete.length > 0 ? complete : drawn).map(({ line }) => line.at(-1)!.x);
  return Math.max(
    passed.length === 0 ? Math.max(...ends) : Math.max(...passed) * BEYOND_HEADLINE,
    Math.min(...ends),
  );
}

/** A span of distances, never an order: what a distance is sure to is not known. */
function titleOf(drawn: readonly Drawn[], test: TestResult, speed: string, house: House): string {
  const words = speedOverDistanceWords(house);
  const passed = drawn
    .filter(({ attempt }) => attempt.setAside === undefined)
    .flatMap(({ atM }) => atM ?? []);
  const car = heldTogether(test.car.short_name);
  if (passed.length === 0) return words.title(car);
  const [least, most] = [metresText(Math.min(...passed), house), metresText(Math.max(...passed), house)];
  const distance = least === most ? least! : figureWords(house).range(least!.split('\u00a0')[0]!, most!);
  return words.covers(car, distance, speed);
}
