/** Speed over distance of the day's stops from one nominal speed. */

import type { TopLevelSpec } from 'vega-lite';
import { capital, catalogue } from '../language.ts';
import { COLOUR } from '../look.ts';
import { flaggedAmong } from '../result/flag-rules.ts';
import { MEASURES, nominalSpeed, stopsFrom } from '../result/measures.ts';
import { medianAttempt, pickResult } from '../result/pick.ts';
import type { Attempt, House, MeasureId, TestResult } from '../result/result.ts';
import { localiseDigits, printMedian, printQuantity, printResult, withUnit } from '../result/words.ts';
import { workingsAddress } from '../result/workings-address.ts';
import { roundToDecimals } from '../round.ts';
import { speedScale, speedUnitOf } from '../speed-unit.ts';
import type { Table } from '../table/table.ts';
import { isKept } from './choose.ts';
import { everyLayout, type Figure, type FigureChoice, type FigureLayout, type MadeFigure } from './figure.ts';
import { feet, heldTogether } from './foot.ts';
import { type Axis, dotLayer, labelLayers, lineLayer, plotSpec } from './plot.ts';
import { interpolate } from './run-series.ts';
import { SIZES } from './theme.ts';
import type { Point } from './thin.ts';
import { roundStep, ticksEvery, upTo } from './ticks.ts';
import { notMadeWords } from './words/not-made.ts';
import { brakingWords } from './words/road.ts';
import { figureWords } from './words/shared.ts';

interface Stop {
  readonly attempt: Attempt;
  /** Distance after the nominal speed in m, speed in the house's unit. */
  readonly line: readonly Point[];
  /** Published distance, m. */
  readonly distanceM: number;
}

export const braking: Figure = {
  kind: 'braking',
  describes: catalogue({
    en: 'Speed over distance of the stops, from 100 km/h (70 mph) or the highest of 80 and 50 km/h (60 mph) that most reached.',
    de: 'Geschwindigkeit über dem Weg der Bremsungen, aus 100 km/h (70 mph) oder der höchsten von 80 und 50 km/h (60 mph), die die meisten erreichten.',
  }),
  make(test, house, choice) {
    const braked = test.attempts.filter(attempt => isKept(attempt) && attempt.measurement.braking.length > 0);
    const measure = stopsFrom(house).find(
      from => (pickResult(test, house, { measure: from })?.n ?? 0) * 2 >= Math.max(1, braked.length),
    );
    const least = from(nominalSpeed(stopsFrom(house).at(-1)!), house);
    if (measure === undefined) return { reason: notMadeWords(house).noStopFrom(least) };
    const speed = nominalSpeed(measure);
    const wanted = attemptsWanted(test, house, choice, measure);
    if ('reason' in wanted) return wanted;
    const stops = wanted.flatMap(attempt => stopOf(attempt, measure, speed, house) ?? []);
    if (stops.length === 0) return { reason: notMadeWords(house).noChosenStopFrom(from(speed, house)) };
    return draw(test, house, stops, measure);
  },
};

/** A speed in words. */
const from = (speed: number, house: House): string => withUnit(String(speed), speedUnitOf(house));

function attemptsWanted(
  test: TestResult,
  house: House,
  { attempts, startRule }: FigureChoice,
  measure: MeasureId,
): readonly Attempt[] | { readonly reason: string } {
  if (attempts === undefined) return test.attempts;
  const found: Attempt[] = [];
  for (const word of attempts) {
    const statistic = word === 'best' || word === 'median' ? word : undefined;
    const launch = word.startsWith('best:') ? word.slice('best:'.length) : undefined;
    const id =
      statistic === 'median'
        ? medianAttempt(test, house, { measure, startRule })?.id
        : statistic === 'best' || launch !== undefined
          ? pickResult(test, house, { measure, ...(launch === undefined ? {} : { launch }) })?.attemptIds[0]
          : word;
    const attempt = test.attempts.find(one => one.id === id);
    if (attempt === undefined) return { reason: notMadeWords(house).noSuchStop(word) };
    if (!found.includes(attempt)) found.push(attempt);
  }
  return found;
}

function stopOf(attempt: Attempt, measure: MeasureId, fromSpeed: number, house: House): Stop | undefined {
  const { trace, measurement } = attempt;
  const distanceM = MEASURES[measure].valueOf(measurement)?.value;
  if (distanceM === undefined) return undefined;
  const { beginIndex, endIndex } = measurement.run.braking ?? measurement.run;
  const { fromMps } = speedScale(house);
  const points: Point[] = [];
  for (let index = beginIndex; index <= endIndex; index += 1) {
    points.push({ x: trace.distanceM[index]!, y: fromMps(trace.speedMps[index]!) });
  }
  const after = points.findLastIndex(({ y }) => y >= fromSpeed) + 1;
  const before = points[after - 1];
  const next = points[after];
  if (next === undefined) return undefined;
  // A stop begun a little below the nominal speed starts where it starts.
  const begins =
    before === undefined
      ? next
      : { x: interpolate(before.y, before.x, next.y, next.x, fromSpeed), y: fromSpeed };
  const line = [begins, ...points.slice(after)].map(({ x, y }) => ({ x: x - begins.x, y }));
  const rest = line.findIndex(({ y }) => y <= 0);
  return { attempt, distanceM, line: rest < 0 ? line : line.slice(0, rest + 1) };
}

/** The stops drawn, and what all the day's stops from the same speed come to. */
interface Stops {
  readonly test: TestResult;
  readonly house: House;
  readonly measure: MeasureId;
  readonly fromSpeed: number;
  readonly stops: readonly Stop[];
  readonly kept: readonly Stop[];
  /** The shortest of those kept, where it is among those drawn. */
  readonly best?: Stop;
  readonly bestText: string;
  readonly medianText: string;
}

function draw(test: TestResult, house: House, stops: readonly Stop[], measure: MeasureId): MadeFigure {
  const words = brakingWords(house);
  const fromSpeed = nominalSpeed(measure);
  const passing = from(fromSpeed, house);
  const overall = pickResult(test, house, { measure })!;
  const kept = stops.filter(({ attempt }) => isKept(attempt));
  const best = kept.find(({ attempt }) => attempt.id === overall.attemptIds[0]);
  const bestText = printResult(overall, house).text;
  const medianText = printMedian(overall, house);
  const drawn: Stops = {
    test,
    house,
    measure,
    fromSpeed,
    stops,
    kept,
    bestText,
    medianText,
    ...(best === undefined ? {} : { best }),
  };
  const aside = stops.length - kept.length;
  const counts = words.counts(kept.length, aside);
  const car = heldTogether(test.car.short_name);
  const title =
    kept.length === 0
      ? words.allAside(car, passing)
      : overall.n > 1
        ? words.titleOfMany(car, passing, bestText, medianText, overall.n)
        : words.title(car, passing, bestText);
  const mfdd = pickResult(test, house, {
    measure: measure.replace('stop', 'mfdd') as MeasureId,
    ...(best === undefined ? {} : { attempt: best.attempt.id }),
  });
  const method = words.method(capital(counts), aside > 0, passing);
  return {
    kind: 'braking',
    title,
    deck: words.deck(test.car.name),
    caption: words.caption(passing, counts, bestText, medianText, overall.n),
    ...feet(test, house, { attempts: stops.map(({ attempt }) => attempt), method: [method] }),
    altText: [
      words.chart(counts, passing),
      `${title}.`,
      ...(mfdd === undefined ? [] : [words.mfdd(printResult(mfdd, house).text)]),
    ].join(' '),
    spec: everyLayout(layout => plot(drawn, layout)),
    table: table(drawn),
  };
}

function plot(drawn: Stops, layout: FigureLayout): TopLevelSpec {
  const { house, fromSpeed, stops, best } = drawn;
  const { symbol, step: speedStep } = speedScale(house);
  const size = SIZES[layout];
  const heightPx = layout === 'wide' ? 280 : size.plotHeightPx;
  const farthest = Math.max(...stops.map(({ line }) => line.at(-1)!.x));
  const step = roundStep(farthest, layout === 'wide' ? 10 : 6);
  const to = upTo(farthest * 1.04, step);
  const top = upTo(fromSpeed, speedStep);
  const title = brakingWords(house).axis(from(fromSpeed, house));
  const axes: { x: Axis; y: Axis } = {
    x: { title, from: 0, to, ticks: ticksEvery(step, 0, to) },
    y: { title: symbol, from: 0, to: top, ticks: ticksEvery(speedStep, 0, top) },
  };
  const linePx = (size.labelLeadingPx / heightPx) * top;
  return plotSpec(layout, house.language, {
    ...axes,
    heightPx,
    layers: [
      ...stops
        .filter(stop => stop !== best)
        .map(({ attempt, line }) =>
          isKept(attempt)
            ? lineLayer(line, axes, { colour: COLOUR.ink, width: 0.9, opacity: 0.75 })
            : lineLayer(line, axes, { colour: COLOUR.muted, width: 0.9, dash: [3, 3] }),
        ),
      ...(best === undefined ? [] : [lineLayer(best.line, axes, { colour: COLOUR.accent, width: 2.2 })]),
      ...stops.map(({ attempt, line }) =>
        dotLayer([line.at(-1)!], {
          colour: stops.length > 1 && attempt.id === best?.attempt.id ? COLOUR.accent : COLOUR.ink,
          areaPx: 30,
          hollow: !isKept(attempt),
        }),
      ),
      // In the empty corner under the curves, beside the end of the shortest stop.
      ...saidOf(drawn).flatMap(({ text, colour, weight }, nth, { length }) =>
        labelLayers(
          [{ x: (best ?? stops[0]!).line.at(-1)!.x * 0.95, y: (length - nth) * linePx, text, colour }],
          { align: 'right', sizePx: size.labelPx, weight, halo: true },
        ),
      ),
    ],
  });
}

/** Beside the curves: the shortest and the median of several, or what the one stop came to. */
function saidOf({ house, kept, bestText, medianText }: Stops) {
  const words = brakingWords(house);
  return kept.length > 1
    ? [
        { text: words.shortest(bestText), colour: COLOUR.accent, weight: 600 as const },
        { text: words.median(medianText), colour: COLOUR.ink, weight: 400 as const },
      ]
    : [{ text: bestText, colour: COLOUR.accent, weight: 600 as const }];
}

function table({ test, house, measure, fromSpeed, stops }: Stops): Table {
  const { language } = house;
  const words = brakingWords(house);
  return {
    id: 'braking',
    caption: words.tableCaption(from(fromSpeed, house)),
    columns: [
      { label: figureWords(house).speed, unit: speedScale(house).symbol, align: 'end' },
      ...stops.map(({ attempt }) => ({
        label: words.column(attempt.number, !isKept(attempt)),
        unit: 'm',
        align: 'end' as const,
      })),
    ],
    rows: ticksEvery(10, 0, fromSpeed)
      .toReversed()
      .map(speed => [
        { text: localiseDigits(String(speed), language), header: true },
        ...stops.map(({ attempt, line }) => ({
          text: distanceTo(line, speed, language),
          // What is left at rest is the stopping distance itself.
          ...(speed === 0 ? { workings: [workingsAddress(test.id, attempt.id, measure)] } : {}),
        })),
      ]),
    notes: [
      words.published(
        stops.map(({ attempt, distanceM }) =>
          words.publishedOne(attempt.number, printQuantity(distanceM, 'distance', 1, language)),
        ),
      ),
      ...flaggedAmong(
        stops.map(({ attempt }) => attempt),
        house,
      ),
    ],
  };
}

function distanceTo(line: readonly Point[], speed: number, language: string): string {
  const after = line.findIndex(({ y }) => y <= speed);
  if (after < 0) return '–';
  const next = line[after]!;
  const before = line[after - 1] ?? next;
  const m = interpolate(before.y, before.x, next.y, next.x, speed);
  return localiseDigits(roundToDecimals(m, 1), language);
}
