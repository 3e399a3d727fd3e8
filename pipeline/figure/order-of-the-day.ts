/** The headline figure of every attempt against the clock, with heat and wind below: did the day change it? */

import type { TopLevelSpec } from 'vega-lite';
import { fitLine } from '../compare/line-fit.ts';
import { studentTFactor } from '../compare/student-t.ts';
import { catalogue } from '../language.ts';
import { COLOUR } from '../look.ts';
import { displayUnit, MEASURES, measureLabel } from '../result/measures.ts';
import { launchMethodsOf, pickResult } from '../result/pick.ts';
import type { Attempt, House, Result, TestResult } from '../result/result.ts';
import { reasonInWords } from '../result/words/set-aside.ts';
import { localiseDigits, printResult, startRuleInWords } from '../result/words.ts';
import { workingsAddress } from '../result/workings-address.ts';
import { decimalsForUncertainty, roundToDecimals } from '../round.ts';
import type { StartRule } from '../run/run.ts';
import { speedUnitOf } from '../speed-unit.ts';
import type { Table } from '../table/table.ts';
import { headlineMeasure, isKept } from './choose.ts';
import {
  alongWindStrip,
  clockS,
  daySpan,
  dayStrips,
  readingLayers,
  readingsOf,
  STRIP_PX,
  type Strip,
} from './day-strips.ts';
import { everyLayout, type Figure, type FigureLayout, type MadeFigure } from './figure.ts';
import { feet, heldTogether } from './foot.ts';
import { aboutPx } from './panel.ts';
import { dotLayer, type Label, labelLayers, ruleLayer } from './plot.ts';
import { SIZES } from './theme.ts';
import { orderOfTheDayWords } from './words/day.ts';
import { notMadeWords } from './words/not-made.ts';
import { figureWords } from './words/shared.ts';

interface Timed {
  readonly attempt: Attempt;
  readonly atS: number;
  readonly value: number;
  readonly uncertainty?: number;
  /** A, B, C …: the launch method, in the order of the house. */
  readonly letter: string;
}

interface Method {
  readonly letter: string;
  readonly name: string;
}

/** A drift is only told from this many kept attempts of one launch method on, over this long at least. */
const FEWEST_FOR_DRIFT = 6;
const SHORTEST_FOR_DRIFT_S = 1800;

export const orderOfTheDay: Figure = {
  kind: 'order-of-the-day',
  describes: catalogue({
    en: 'The headline figure of every attempt against the clock, with air temperature and wind below on the same clock.',
    de: 'Der Hauptwert jedes Versuchs über der Uhrzeit, darunter Lufttemperatur und Wind über derselben Uhrzeit.',
  }),
  make(test, house, choice) {
    const measure = headlineMeasure(test, house);
    if (measure === undefined) return { reason: notMadeWords(house).noStart(speedUnitOf(house)) };
    const methods = launchMethodsOf(test, house).map(({ id, name }, index) => ({
      id,
      name,
      letter: String.fromCharCode(65 + index),
    }));
    const timed = test.attempts.flatMap((attempt): Timed[] => {
      const found = MEASURES[measure].valueOf(attempt.measurement, choice.startRule);
      const letter = methods.find(({ id }) => id === attempt.launchId)?.letter ?? '';
      return found === undefined ? [] : [{ attempt, atS: clockS(attempt.at), letter, ...found }];
    });
    const overall = pickResult(test, house, { measure, startRule: choice.startRule })!;
    return draw({ test, house, startRule: choice.startRule, timed, overall }, methods);
  },
};

/** The attempts of a day that have the headline figure. */
interface TimedDay {
  readonly test: TestResult;
  readonly house: House;
  readonly startRule: StartRule;
  readonly timed: readonly Timed[];
  /** What the kept of them come to, and which is best. */
  readonly overall: Result;
}

function draw(day: TimedDay, methods: readonly Method[]): MadeFigure {
  const { test, house, startRule, timed, overall } = day;
  const words = orderOfTheDayWords(house);
  const label = measureLabel(overall.measure, house);
  const key = methods
    .filter(({ letter }) => timed.some(one => one.letter === letter))
    .map(({ letter, name }) => `${letter} ${name}`)
    .join(', ');
  const counts = figureWords(house).counts(overall.n, overall.nSetAside);
  const method = `${key === '' ? '' : `${key}. `}${words.method}`;
  const { title, sentence } = findingOf(day, methods);
  return {
    kind: 'order-of-the-day',
    title,
    deck: words.deck(label, test.car.name, key),
    caption: `${words.caption(label, startRuleInWords(startRule, house), counts)} ${method}`,
    ...feet(test, house, {
      attempts: timed.map(({ attempt }) => attempt),
      startRule,
      method: [method],
      ...(key === '' ? {} : { key: `${key}.` }),
    }),
    altText: `${words.chart(label, counts)} ${sentence}`,
    spec: everyLayout(layout => plot(day, layout)),
    table: table(day, sentence),
  };
}

/** The attempts above, heat and wind below, where they were read. */
function plot(day: TimedDay, layout: FigureLayout): TopLevelSpec {
  const { test, house } = day;
  const words = figureWords(house);
  const span = daySpan(test);
  const heat = readingsOf(test, 'temperature_c');
  const wind = readingsOf(test, 'wind_mps');
  const read = (title: string, readings: typeof heat, leastSpan: number): Strip => ({
    title,
    heightPx: STRIP_PX[layout].low,
    values: readings.map(({ value }) => value),
    leastSpan,
    layers: place => readingLayers(readings, span.to, place),
  });
  const windStrip =
    alongWindStrip(test.attempts, layout, house) ??
    (wind.length === 0 ? undefined : read(words.windStrip, wind, 2));
  return dayStrips(
    [
      attemptsStrip(day, layout),
      ...(heat.length === 0 ? [] : [read(words.airTemperature, heat, 4)]),
      ...(windStrip === undefined ? [] : [windStrip]),
    ],
    span,
    layout,
    house.language,
  );
}

function attemptsStrip({ timed, overall, house }: TimedDay, layout: FigureLayout): Strip {
  const { axisPx } = SIZES[layout];
  return {
    title: `${displayUnit(overall.measure, house)}, ${measureLabel(overall.measure, house)}`,
    heightPx: STRIP_PX[layout].tall,
    values: timed.flatMap(({ value, uncertainty = 0 }) => [value - uncertainty, value + uncertainty]),
    leastSpan: 0.2,
    layers: (place, panel) => {
      const marks = timed.map(one => ({ ...one, ...place(one.atS, one.value) }));
      const best = marks.filter(({ attempt }) => overall.attemptIds.includes(attempt.id));
      const reaches = marks.map(({ atS, value, uncertainty = 0, x }) => ({
        x,
        x2: x,
        y: place(atS, value - uncertainty).y,
        y2: place(atS, value + uncertainty).y,
      }));
      const aside = marks.filter(({ attempt }) => !isKept(attempt));
      const others = marks.filter(one => isKept(one.attempt) && !best.includes(one));
      const letters = lettersApart(marks, overall.attemptIds, panel.left + panel.widthPx, axisPx, house);
      return [
        ruleLayer(reaches, { colour: COLOUR.muted, width: 0.8 }),
        dotLayer(aside, { colour: COLOUR.ink, areaPx: 46, hollow: true, width: 1.2 }),
        dotLayer(others, { colour: COLOUR.ink, areaPx: 46 }),
        dotLayer(best, { colour: COLOUR.accent, areaPx: 62 }),
        ...labelLayers(letters, { align: 'left', dx: 6, sizePx: axisPx, halo: true }),
      ];
    },
  };
}

function table({ test, house, startRule, timed, overall }: TimedDay, finding: string): Table {
  const words = orderOfTheDayWords(house);
  const shared = figureWords(house);
  const label = measureLabel(overall.measure, house);
  const digits = (number: number | undefined): string =>
    number === undefined ? '–' : localiseDigits(roundToDecimals(number, 1), house.language);
  return {
    id: 'order-of-the-day',
    caption: words.tableCaption(label, startRuleInWords(startRule, house)),
    columns: [
      { label: shared.attemptHead, align: 'end' },
      { label: shared.at, align: 'start' },
      { label: shared.launchMethod, align: 'start' },
      { label: label, align: 'end' },
      { label: words.airTemperature, unit: '°C', align: 'end' },
      { label: words.headwind, unit: 'm/s', align: 'end' },
      { label: '', align: 'start' },
    ],
    rows: timed.map(({ attempt, value }) => {
      const { temperatureK, headwindMps } = attempt.conditions;
      const reason =
        attempt.setAside === undefined ? '' : shared.setAsideWhy(reasonInWords(attempt.setAside, house));
      return [
        { text: String(attempt.number), header: true },
        { text: attempt.at },
        { text: attempt.launchName ?? '–' },
        {
          text: printResult({ ...overall, value }, house).text,
          workings: [workingsAddress(test.id, attempt.id, overall.measure, startRule)],
        },
        { text: digits(temperatureK === undefined ? undefined : temperatureK - 273.15) },
        { text: digits(headwindMps) },
        { text: reason },
      ];
    }),
    notes: [finding],
  };
}

/** Letters beside the marks, and which is best; left out where they would stand on another mark or letter. */
function lettersApart(
  marks: readonly (Timed & { readonly x: number; readonly y: number })[],
  best: readonly string[],
  edgePx: number,
  sizePx: number,
  house: House,
): readonly Label[] {
  const taken: { readonly x: number; readonly x2: number; readonly y: number }[] = [];
  return marks.flatMap(({ attempt, x, y, letter }): Label[] => {
    const wordings = best.includes(attempt.id) ? [orderOfTheDayWords(house).best(letter), letter] : [letter];
    for (const text of wordings) {
      const x2 = x + 8 + aboutPx(text, sizePx);
      const clear = (from: number, to: number, at: number): boolean =>
        to < x + 5 || from > x2 || Math.abs(at - y) >= sizePx;
      if (text === '' || x2 > edgePx + 8) continue;
      if (!marks.every(other => other.attempt === attempt || clear(other.x - 6, other.x + 6, other.y)))
        continue;
      if (!taken.every(other => clear(other.x, other.x2, other.y))) continue;
      taken.push({ x: x + 5, x2, y });
      return [{ x, y, text }];
    }
    return [];
  });
}

/** A drift is told only where a line through the kept attempts of one launch method says so, 95 %, and not as a cause. */
function findingOf(
  { test, house, overall, timed }: TimedDay,
  methods: readonly Method[],
): { readonly title: string; readonly sentence: string } {
  const words = orderOfTheDayWords(house);
  const car = heldTogether(test.car.short_name);
  const label = measureLabel(overall.measure, house);
  const groups = methods
    .map(({ letter, name }) => ({
      name,
      runs: timed.filter(one => one.letter === letter && isKept(one.attempt)),
    }))
    .sort((a, b) => b.runs.length - a.runs.length);
  const most = groups[0];
  const hours = most?.runs.map(({ atS }) => atS / 3600) ?? [];
  const long = hours.length > 0 && (Math.max(...hours) - Math.min(...hours)) * 3600 >= SHORTEST_FOR_DRIFT_S;
  if (most === undefined || most.runs.length < FEWEST_FOR_DRIFT || !long) {
    return { title: words.title(label, car), sentence: words.tooFew(printResult(overall, house).text) };
  }
  const fit = fitLine(
    hours,
    most.runs.map(({ value }) => value),
  );
  const reach = fit.slopeUncertainty * studentTFactor(0.95, most.runs.length - 2);
  if (Math.abs(fit.slope) <= reach) {
    return {
      title: words.noDriftTitle(label, car),
      sentence: words.noDrift(most.runs.length, most.name),
    };
  }
  const decimals = decimalsForUncertainty(reach, { most: 2 });
  const an = (value: number): string =>
    `${localiseDigits(roundToDecimals(Math.abs(value), decimals), house.language)}\u00a0s`;
  const quicker = fit.slope < 0;
  return {
    title: words.driftTitle(most.name, car, quicker, an(fit.slope)),
    sentence: words.drift(most.runs.length, most.name, quicker, an(fit.slope), an(reach)),
  };
}
