/** Speed over time of a few runs from rest. */

import { catalogue } from '../language.ts';
import { compareResults } from '../result/compare.ts';
import { flaggedAmong } from '../result/flag-rules.ts';
import { MEASURES, measureLabel, nominalSpeed } from '../result/measures.ts';
import type { House, Result, TestResult } from '../result/result.ts';
import { reasonInWords } from '../result/words/set-aside.ts';
import {
  localiseDigits,
  printDifference,
  printMedian,
  printResult,
  startRuleInWords,
  withUnit,
} from '../result/words.ts';
import { roundToDecimals } from '../round.ts';
import type { StartRule } from '../run/run.ts';
import { speedScale, speedUnitOf } from '../speed-unit.ts';
import type { Table } from '../table/table.ts';
import { type Chosen, choiceInWords, chooseStarts } from './choose.ts';
import { endLabelLayers, heightWithLabels } from './end-labels.ts';
import {
  everyLayout,
  type Figure,
  type FigureChoice,
  type FigureLayout,
  isCrop,
  type MadeFigure,
  type NotMade,
} from './figure.ts';
import { feet, heldTogether } from './foot.ts';
import { type Axis, dotLayer, headlineLevel, lineLayer, plotSpec } from './plot.ts';
import { firstPassing, type RunSeries, standingStartSeries, valueAt } from './run-series.ts';
import { MOST_PANELS, speedPanels } from './speed-panels.ts';
import { MOST_SERIES, seriesStyle } from './theme.ts';
import { roundStep, ticksEvery, upTo } from './ticks.ts';
import { notMadeWords } from './words/not-made.ts';
import { figureWords } from './words/shared.ts';
import { speedOverTimeWords } from './words/speed-over.ts';

interface Drawn extends Chosen {
  readonly series: RunSeries;
  readonly style: { readonly colour: string; readonly dash: readonly number[] };
}

/** More labels than this beside a small plot leave it no height. */
const MOST_LABELS_IN_CROP = 3;
/** The picture goes this much further than the slowest run's headline time, at least. */
const BEYOND_HEADLINE = 1.06;

export const speedOverTime: Figure = {
  kind: 'speed-over-time',
  describes: catalogue({
    en: 'Speed over time of chosen runs from rest, in a panel each where they are more than eight; the best kept run of each launch method unless told.',
    de: 'Geschwindigkeit über der Zeit für gewählte Fahrten aus dem Stand, bei mehr als acht jede in einem eigenen Feld; ohne Wahl die beste gewertete jeder Startmethode.',
  }),
  make(test, house, choice) {
    const starts = chooseStarts(test, house, choice, { most: MOST_PANELS });
    if ('reason' in starts) return starts;
    const drawn = starts.chosen.flatMap((one, index): Drawn[] => {
      const series = standingStartSeries(one.attempt, choice.startRule, house);
      return series === undefined ? [] : [{ ...one, series, style: seriesStyle(index) }];
    });
    if (drawn.length === 0) return { reason: notMadeWords(house).noMeasuredStart };
    return draw(test, house, choice, drawn, nominalSpeed(starts.measure));
  },
};

function draw(
  test: TestResult,
  house: House,
  choice: FigureChoice,
  drawn: readonly Drawn[],
  toSpeed: number,
): MadeFigure | NotMade {
  const words = speedOverTimeWords(house);
  const { symbol, step: speedStep } = speedScale(house);
  const speed = withUnit(String(toSpeed), symbol);
  const endS = commonEnd(drawn, toSpeed);
  const figure = (layout: FigureLayout) => {
    const top = Math.max(
      ...drawn.map(({ series }) => Math.max(...series.speed.filter((_, i) => series.timeS[i]! <= endS))),
    );
    const from = Math.min(0, ...drawn.map(({ series }) => series.timeS[0]!));
    const step = roundStep(endS - from, layout === 'wide' ? 12 : 6);
    const axes: { x: Axis; y: Axis } = {
      x: {
        title: `s, ${startRuleInWords(choice.startRule, house)}`,
        from,
        to: endS,
        ticks: ticksEvery(step, from, endS),
      },
      y: {
        title: symbol,
        from: 0,
        to: upTo(top, speedStep),
        ticks: ticksEvery(speedStep, 0, upTo(top, speedStep)),
      },
    };
    if (drawn.length > (isCrop(layout) ? MOST_LABELS_IN_CROP : MOST_SERIES)) {
      const runs = drawn.map(({ name, series, result, attempt }) => ({
        name,
        number: attempt.number,
        series,
        detail: detailOf(result, attempt.setAside, house),
        kept: attempt.setAside === undefined,
      }));
      return speedPanels(runs, toSpeed, endS, layout, house.language);
    }
    const heightPx = heightWithLabels(drawn, layout);
    return plotSpec(layout, house.language, {
      ...axes,
      heightPx,
      layers: [
        ...headlineLevel(from, endS, toSpeed, words.timeTo(speed), layout),
        ...[...drawn].reverse().map(({ series, style }) =>
          lineLayer(
            series.timeS.map((x, i) => ({ x, y: series.speed[i]! })).filter(({ x }) => x <= endS),
            axes,
            style,
          ),
        ),
        ...[...drawn].reverse().flatMap(({ series, style }) => {
          const x = firstPassing(series.timeS, series.speed, toSpeed);
          return x === undefined
            ? []
            : [dotLayer([{ x, y: toSpeed }], { colour: style.colour, areaPx: 42, hollow: true })];
        }),
        ...endLabelLayers(
          drawn.map(({ name, series, style, result, attempt }) => {
            const last = lastWithin(series, endS);
            return {
              end: last,
              name,
              detail: detailOf(result, attempt.setAside, house),
              colour: style.colour,
            };
          }),
          axes,
          heightPx,
          layout,
        ),
      ],
    });
  };
  const { title, finding } = findingOf(drawn, test, house, speed, choice.attempts === undefined);
  const attempts = figureWords(house).ofAttempts(
    drawn.map(({ attempt }) => String(attempt.number)),
    test.attempts.length,
  );
  const counts = countsInWords(drawn, house);
  return {
    kind: 'speed-over-time',
    title,
    deck: words.deck(
      test.car.name,
      choiceInWords(choice, drawn.length, house),
      drawn.length > MOST_SERIES ? symbol : undefined,
    ),
    caption: `${words.caption(attempts, startRuleInWords(choice.startRule, house))} ${counts}`.trim(),
    ...feet(test, house, {
      attempts: drawn.map(({ attempt }) => attempt),
      startRule: choice.startRule,
      method: [counts].filter(Boolean),
    }),
    altText:
      `${words.chart(drawn.length > MOST_SERIES ? drawn.length : undefined)} ${finding} ${drawn.map(one => sentenceOf(one, house, speed)).join(' ')}`.trim(),
    spec: everyLayout(figure),
    table: tableOf(drawn, house, choice.startRule, endS),
  };
}

const detailOf = (result: Result | undefined, setAside: string | undefined, house: House): string =>
  setAside !== undefined
    ? figureWords(house).setAside
    : result === undefined
      ? figureWords(house).notReached
      : printResult(result, house).text;

/** Where all lines stop: as soon as the first complete one does, but after every headline time. */
function commonEnd(drawn: readonly Drawn[], toSpeed: number): number {
  const passed = drawn.flatMap(({ series }) => firstPassing(series.timeS, series.speed, toSpeed) ?? []);
  const complete = drawn.filter(({ series }) => series.speed.at(-1)! >= toSpeed);
  const ends = (complete.length > 0 ? complete : drawn).map(({ series }) => series.timeS.at(-1)!);
  return Math.max(
    passed.length === 0 ? Math.max(...ends) : Math.max(...passed) * BEYOND_HEADLINE,
    Math.min(...ends),
  );
}

function lastWithin(series: RunSeries, endS: number): { x: number; y: number } {
  const y = valueAt(series.timeS, series.speed, endS);
  return y === undefined ? { x: series.timeS.at(-1)!, y: series.speed.at(-1)! } : { x: endS, y };
}

/** The title and the same in one sentence: the first is ranked before the last only where that can be told. */
function findingOf(
  drawn: readonly Drawn[],
  test: TestResult,
  house: House,
  speed: string,
  bests: boolean,
): { readonly title: string; readonly finding: string } {
  const words = speedOverTimeWords(house);
  const timed = drawn.filter(one => one.result !== undefined);
  const first = timed[0];
  if (first?.result === undefined) {
    const title = words.title(heldTogether(test.car.short_name));
    return { title, finding: `${title}.` };
  }
  const firstText = printResult(first.result, house).text;
  const last = timed.at(-1)!;
  if (timed.length === 1 || last.result === undefined) {
    const title = words.takes(heldTogether(test.car.short_name), firstText, speed);
    return { title, finding: `${title}.` };
  }
  const apart = compareResults(first.result, last.result);
  const text = printDifference(
    apart.difference,
    apart.uncertainty,
    MEASURES[first.result.measure],
    house.language,
  ).text;
  if (apart.tooCloseToCall) {
    const title = words.tooClose(timed.length, speed);
    return { title, finding: words.tooCloseRange(title, firstText, printResult(last.result, house).text) };
  }
  const level = timed.slice(1).filter(({ result }) => compareResults(first.result!, result!).tooCloseToCall);
  const title = words.quicker(
    first.name,
    text,
    speed,
    last.name,
    level.map(({ name }) => name),
    bests,
  );
  return { title, finding: `${title}.` };
}

function sentenceOf({ name, attempt, result }: Drawn, house: House, speed: string): string {
  if (attempt.setAside !== undefined) {
    return figureWords(house).runSetAside(name, reasonInWords(attempt.setAside, house));
  }
  if (result === undefined) return figureWords(house).didNotReach(name, speed);
  const { text, uncertainty } = printResult(result, house);
  const time = uncertainty === undefined ? text : `${text} ${uncertainty}`;
  return speedOverTimeWords(house).reached(name, speed, time);
}

/** How many attempts stand behind the drawn ones. */
function countsInWords(drawn: readonly Drawn[], house: House): string {
  const [first] = drawn.flatMap(({ result }) => result ?? []);
  if (first === undefined) return '';
  return speedOverTimeWords(house).counts(
    measureLabel(first.measure, house),
    first.n,
    printMedian(first, house),
    first.nSetAside,
  );
}

const TABLE_STEP_S = 0.5;

function tableOf(drawn: readonly Drawn[], house: House, rule: StartRule, endS: number): Table {
  const step = endS > 12 ? 1 : TABLE_STEP_S;
  return {
    id: 'speed-over-time',
    caption: speedOverTimeWords(house).tableCaption(
      localiseDigits(String(step), house.language),
      startRuleInWords(rule, house),
    ),
    columns: [
      { label: figureWords(house).time, unit: 's', align: 'end' },
      ...drawn.map(({ name }) => ({ label: name, unit: speedUnitOf(house), align: 'end' as const })),
    ],
    rows: ticksEvery(step, 0, endS).map(atS => [
      { text: localiseDigits(roundToDecimals(atS, 1), house.language), header: true },
      ...drawn.map(({ series }) => {
        const value = valueAt(series.timeS, series.speed, atS);
        return {
          text: value === undefined ? '–' : localiseDigits(roundToDecimals(value, 1), house.language),
        };
      }),
    ]),
    notes: [
      figureWords(house).readOff,
      ...flaggedAmong(
        drawn.map(({ attempt }) => attempt),
        house,
      ),
    ],
  };
}
