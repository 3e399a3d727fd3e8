/** Speed over time of a few runs from rest. */
import { compareResults } from '../result/compare.ts';
import { flaggedAmong } from '../result/flag-rules.ts';
import { MEASURES, measureLabel } from '../result/measures.ts';
import type { House, Result, TestResult } from '../result/result.ts';
import { localiseDigits, printDifference, printResult, startRuleInWords, withUnit } from '../result/words.ts';
import { roundToDecimals } from '../round.ts';
import type { StartRule } from '../run/run.ts';
import type { Table } from '../table/table.ts';
import { type Chosen, choiceInWords, chooseStarts, nominalKmh } from './choose.ts';
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
import { feet, heldTogether, listInWords } from './foot.ts';
import { type Axis, dotLayer, headlineLevel, lineLayer, plotSpec } from './plot.ts';
import { firstPassing, type RunSeries, standingStartSeries, valueAt } from './run-series.ts';
import { MOST_PANELS, speedPanels } from './speed-panels.ts';
import { MOST_SERIES, seriesStyle } from './theme.ts';
import { roundStep, ticksEvery, upTo } from './ticks.ts';

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
  describes:
    'Speed over time of chosen runs from rest, in a panel each where they are more than eight; the best kept run of each launch method unless told.',
  make(test, house, choice) {
    const starts = chooseStarts(test, house, choice, { most: MOST_PANELS });
    if ('reason' in starts) return starts;
    const drawn = starts.chosen.flatMap((one, index): Drawn[] => {
      const series = standingStartSeries(one.attempt, choice.startRule);
      return series === undefined ? [] : [{ ...one, series, style: seriesStyle(index) }];
    });
    if (drawn.length === 0) return { reason: 'None of the chosen attempts has a measured start.' };
    return draw(test, house, choice, drawn, nominalKmh(starts.measure));
  },
};

function draw(
  test: TestResult,
  house: House,
  choice: FigureChoice,
  drawn: readonly Drawn[],
  toKmh: number,
): MadeFigure | NotMade {
  const speed = withUnit(String(toKmh), 'km/h');
  const endS = commonEnd(drawn, toKmh);
  const figure = (layout: FigureLayout) => {
    const top = Math.max(
      ...drawn.map(({ series }) => Math.max(...series.speedKmh.filter((_, i) => series.timeS[i]! <= endS))),
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
      y: { title: 'km/h', from: 0, to: upTo(top, 20), ticks: ticksEvery(20, 0, upTo(top, 20)) },
    };
    if (drawn.length > (isCrop(layout) ? MOST_LABELS_IN_CROP : MOST_SERIES)) {
      const runs = drawn.map(({ name, series, result, attempt }) => ({
        name,
        number: attempt.number,
        series,
        detail: detailOf(result, attempt.setAside, house),
        kept: attempt.setAside === undefined,
      }));
      return speedPanels(runs, toKmh, endS, layout, house.language);
    }
    const heightPx = heightWithLabels(drawn, layout);
    return plotSpec(layout, house.language, {
      ...axes,
      heightPx,
      layers: [
        ...headlineLevel(from, endS, toKmh, `time to ${speed}`, layout),
        ...[...drawn].reverse().map(({ series, style }) =>
          lineLayer(
            series.timeS.map((x, i) => ({ x, y: series.speedKmh[i]! })).filter(({ x }) => x <= endS),
            axes,
            style,
          ),
        ),
        ...[...drawn].reverse().flatMap(({ series, style }) => {
          const x = firstPassing(series.timeS, series.speedKmh, toKmh);
          return x === undefined
            ? []
            : [dotLayer([{ x, y: toKmh }], { colour: style.colour, areaPx: 42, hollow: true })];
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
  const { title, finding } = findingOf(
    drawn,
    test,
    house,
    speed,
    choice.attempts === undefined ? 'At its best ' : '',
  );
  const chosenIds = listInWords(drawn.map(({ attempt }) => String(attempt.number)));
  return {
    kind: 'speed-over-time',
    title,
    deck: `Speed over time${drawn.length > MOST_SERIES ? ' in km/h' : ''}, ${test.car.name}: ${choiceInWords(choice, drawn.length)}${drawn.length > MOST_SERIES ? '; the thin line is the first run' : ''}`,
    caption:
      `Speed over time of ${drawn.length === 1 ? 'attempt' : 'attempts'} ${chosenIds} of ${test.attempts.length}, ${startRuleInWords(choice.startRule, house)}. ${countsInWords(drawn, house)}`.trim(),
    ...feet(test, house, {
      attempts: drawn.map(({ attempt }) => attempt),
      startRule: choice.startRule,
      method: [countsInWords(drawn, house)].filter(Boolean),
    }),
    altText:
      `${drawn.length > MOST_SERIES ? `${drawn.length} small line charts` : 'Line chart'} of speed over time. ${finding} ${drawn.map(one => sentenceOf(one, house, speed)).join(' ')}`.trim(),
    spec: everyLayout(figure),
    table: tableOf(drawn, house, choice.startRule, endS),
  };
}

const detailOf = (result: Result | undefined, setAside: string | undefined, house: House): string =>
  setAside !== undefined
    ? 'set aside'
    : result === undefined
      ? 'not reached'
      : printResult(result, house).text;

/** Where all lines stop: as soon as the first complete one does, but after every headline time. */
function commonEnd(drawn: readonly Drawn[], toKmh: number): number {
  const passed = drawn.flatMap(({ series }) => firstPassing(series.timeS, series.speedKmh, toKmh) ?? []);
  const complete = drawn.filter(({ series }) => series.speedKmh.at(-1)! >= toKmh);
  const ends = (complete.length > 0 ? complete : drawn).map(({ series }) => series.timeS.at(-1)!);
  return Math.max(
    passed.length === 0 ? Math.max(...ends) : Math.max(...passed) * BEYOND_HEADLINE,
    Math.min(...ends),
  );
}

function lastWithin(series: RunSeries, endS: number): { x: number; y: number } {
  const y = valueAt(series.timeS, series.speedKmh, endS);
  return y === undefined ? { x: series.timeS.at(-1)!, y: series.speedKmh.at(-1)! } : { x: endS, y };
}

/** The title and the same in one sentence: the first is ranked before the last only where that can be told. */
function findingOf(
  drawn: readonly Drawn[],
  test: TestResult,
  house: House,
  speed: string,
  before: string,
): { readonly title: string; readonly finding: string } {
  const timed = drawn.filter(one => one.result !== undefined);
  const first = timed[0];
  if (first?.result === undefined) {
    const title = `Speed over time of the ${heldTogether(test.car.short_name)}`;
    return { title, finding: `${title}.` };
  }
  const firstText = printResult(first.result, house).text;
  const last = timed.at(-1)!;
  if (timed.length === 1 || last.result === undefined) {
    const title = `The ${heldTogether(test.car.short_name)} takes ${firstText} from rest to ${speed}`;
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
    const title = `${timed.length === 2 ? 'Two' : 'These'} runs to ${speed} are too close to call`;
    return { title, finding: `${title}: ${firstText} to ${printResult(last.result, house).text}.` };
  }
  const level = timed.slice(1).filter(({ result }) => compareResults(first.result!, result!).tooCloseToCall);
  const [second] = level;
  const rider =
    second === undefined
      ? ''
      : level.length === 1
        ? `; ‘${second.name}’ is too close to it to call`
        : `; ${level.length} others are too close to it to call`;
  const title = `${before}‘${first.name}’ is ${text} quicker to ${speed} than ‘${last.name}’${rider}`;
  return { title, finding: `${title}.` };
}

function sentenceOf({ name, attempt, result }: Drawn, house: House, speed: string): string {
  if (attempt.setAside !== undefined) return `${name}: set aside, ${attempt.setAside}.`;
  if (result === undefined) return `${name}: did not reach ${speed}.`;
  const { text, uncertainty } = printResult(result, house);
  return `${name}: ${speed} in ${text}${uncertainty === undefined ? '' : ` ${uncertainty}`}.`;
}

/** How many attempts stand behind the drawn ones. */
function countsInWords(drawn: readonly Drawn[], house: House): string {
  const [first] = drawn.flatMap(({ result }) => result ?? []);
  if (first === undefined) return '';
  return `${measureLabel(first.measure, house)}: ${first.n} kept attempts, median ${printResult({ ...first, value: first.median }, house).text}${first.nSetAside > 0 ? `; ${first.nSetAside} set aside` : ''}.`;
}

const TABLE_STEP_S = 0.5;

function tableOf(drawn: readonly Drawn[], house: House, rule: StartRule, endS: number): Table {
  const step = endS > 12 ? 1 : TABLE_STEP_S;
  return {
    id: 'speed-over-time',
    caption: `Speed at every ${localiseDigits(String(step), house.language)} s, ${startRuleInWords(rule, house)}`,
    columns: [
      { label: 'Time', unit: 's', align: 'end' },
      ...drawn.map(({ name }) => ({ label: name, unit: 'km/h', align: 'end' as const })),
    ],
    rows: ticksEvery(step, 0, endS).map(atS => [
      { text: localiseDigits(roundToDecimals(atS, 1), house.language), header: true },
      ...drawn.map(({ series }) => {
        const value = valueAt(series.timeS, series.speedKmh, atS);
        return {
          text: value === undefined ? '–' : localiseDigits(roundToDecimals(value, 1), house.language),
        };
      }),
    ]),
    notes: [
      'Read off the recorded speeds by straight line between readings.',
      ...flaggedAmong(
        drawn.map(({ attempt }) => attempt),
        house,
      ),
    ],
  };
}
