/** Speed over distance of the day's stops from one nominal speed. */

import { capital } from '../language.ts';
import { COLOUR } from '../look.ts';
import { flaggedAmong } from '../result/flag-rules.ts';
import { MEASURES } from '../result/measures.ts';
import { medianAttempt, pickResult } from '../result/pick.ts';
import type { Attempt, House, MeasureId, TestResult } from '../result/result.ts';
import { localiseDigits, printQuantity, printResult } from '../result/words.ts';
import { workingsAddress } from '../result/workings-address.ts';
import { roundToDecimals } from '../round.ts';
import { mpsToKmh } from '../units.ts';
import { isKept } from './choose.ts';
import { everyLayout, type Figure, type FigureChoice, type FigureLayout, type MadeFigure } from './figure.ts';
import { feet, heldTogether } from './foot.ts';
import { type Axis, dotLayer, labelLayers, lineLayer, plotSpec } from './plot.ts';
import { interpolate } from './run-series.ts';
import { SIZES } from './theme.ts';
import type { Point } from './thin.ts';
import { roundStep, ticksEvery, upTo } from './ticks.ts';
import { brakingWords } from './words/road.ts';
import { figureWords } from './words/shared.ts';

interface Stop {
  readonly attempt: Attempt;
  /** Distance after the nominal speed in m, speed in km/h. */
  readonly line: readonly Point[];
  /** Published distance, m. */
  readonly distanceM: number;
}

const FROM_KMH = [100, 80, 50] as const;
const measureFrom = (kmh: (typeof FROM_KMH)[number]): MeasureId => `stop-from-${kmh}-kmh`;

export const braking: Figure = {
  kind: 'braking',
  describes:
    'Speed over distance of the stops, from 100 km/h or the highest of 80 and 50 km/h that most reached.',
  make(test, house, choice) {
    const braked = test.attempts.filter(attempt => isKept(attempt) && attempt.measurement.braking.length > 0);
    const kmh = FROM_KMH.find(
      from =>
        (pickResult(test, house, { measure: measureFrom(from) })?.n ?? 0) * 2 >= Math.max(1, braked.length),
    );
    if (kmh === undefined) return { reason: 'No kept attempt was braked to a stop from 50 km/h or more.' };
    const measure = measureFrom(kmh);
    const wanted = attemptsWanted(test, house, choice, measure);
    if ('reason' in wanted) return wanted;
    const stops = wanted.flatMap(attempt => stopOf(attempt, measure, kmh) ?? []);
    if (stops.length === 0)
      return { reason: `None of the chosen attempts was braked to a stop from ${kmh} km/h.` };
    return draw(test, house, stops, measure, kmh);
  },
};

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
    if (attempt === undefined) return { reason: `There is no attempt ‘${word}’ with a stop in this test.` };
    if (!found.includes(attempt)) found.push(attempt);
  }
  return found;
}

function stopOf(attempt: Attempt, measure: MeasureId, fromKmh: number): Stop | undefined {
  const { trace, measurement } = attempt;
  const distanceM = MEASURES[measure].valueOf(measurement)?.value;
  if (distanceM === undefined) return undefined;
  const { beginIndex, endIndex } = measurement.run.braking ?? measurement.run;
  const points: Point[] = [];
  for (let index = beginIndex; index <= endIndex; index += 1) {
    points.push({ x: trace.distanceM[index]!, y: mpsToKmh(trace.speedMps[index]!) });
  }
  const after = points.findLastIndex(({ y }) => y >= fromKmh) + 1;
  const before = points[after - 1];
  const next = points[after];
  if (next === undefined) return undefined;
  // A stop begun a little below the nominal speed starts where it starts.
  const from =
    before === undefined ? next : { x: interpolate(before.y, before.x, next.y, next.x, fromKmh), y: fromKmh };
  const line = [from, ...points.slice(after)].map(({ x, y }) => ({ x: x - from.x, y }));
  const rest = line.findIndex(({ y }) => y <= 0);
  return { attempt, distanceM, line: rest < 0 ? line : line.slice(0, rest + 1) };
}

function draw(
  test: TestResult,
  house: House,
  stops: readonly Stop[],
  measure: MeasureId,
  fromKmh: number,
): MadeFigure {
  const language = house.language;
  const words = brakingWords(house);
  const from = `${fromKmh}\u00a0km/h`;
  const overall = pickResult(test, house, { measure })!;
  const kept = stops.filter(({ attempt }) => isKept(attempt));
  const best = kept.find(({ attempt }) => attempt.id === overall.attemptIds[0]);
  const aside = stops.length - kept.length;
  const farthest = Math.max(...stops.map(({ line }) => line.at(-1)!.x));
  const bestText = printResult(overall, house).text;
  const medianText = printResult({ ...overall, value: overall.median }, house).text;

  const figure = (layout: FigureLayout) => {
    const size = SIZES[layout];
    const heightPx = layout === 'wide' ? 280 : size.plotHeightPx;
    const step = roundStep(farthest, layout === 'wide' ? 10 : 6);
    const to = upTo(farthest * 1.04, step);
    const top = upTo(fromKmh, 20);
    const axes: { x: Axis; y: Axis } = {
      x: { title: words.axis(from), from: 0, to, ticks: ticksEvery(step, 0, to) },
      y: { title: 'km/h', from: 0, to: top, ticks: ticksEvery(20, 0, top) },
    };
    const linePx = (size.labelLeadingPx / heightPx) * top;
    return plotSpec(layout, language, {
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
        ...labelsFor(best, kept.length > 1),
      ],
    });

    function labelsFor(shortest: Stop | undefined, several: boolean) {
      const target = shortest ?? stops[0]!;
      const end = target.line.at(-1)!;
      const said = several
        ? [
            { text: words.shortest(bestText), colour: COLOUR.accent, weight: 600 as const },
            { text: words.median(medianText), colour: COLOUR.ink, weight: 400 as const },
          ]
        : [{ text: bestText, colour: COLOUR.accent, weight: 600 as const }];
      // In the empty corner under the curves, beside the end of the shortest stop.
      return said.flatMap(({ text, colour, weight }, nth) =>
        labelLayers([{ x: end.x * 0.95, y: (said.length - nth) * linePx, text, colour }], {
          align: 'right',
          sizePx: size.labelPx,
          weight,
          halo: true,
        }),
      );
    }
  };

  const counts = words.counts(kept.length, aside);
  const car = heldTogether(test.car.short_name);
  const title =
    kept.length === 0
      ? words.allAside(car, from)
      : overall.n > 1
        ? words.titleOfMany(car, from, bestText, medianText, overall.n)
        : words.title(car, from, bestText);
  const mfdd = pickResult(test, house, {
    measure: `mfdd-from-${fromKmh}-kmh` as MeasureId,
    ...(best === undefined ? {} : { attempt: best.attempt.id }),
  });
  const method = words.method(capital(counts), aside > 0, from);
  const grid = ticksEvery(10, 0, fromKmh).toReversed();
  return {
    kind: 'braking',
    title,
    deck: words.deck(test.car.name),
    caption: words.caption(from, counts, bestText, medianText, overall.n),
    ...feet(test, house, { attempts: stops.map(({ attempt }) => attempt), method: [method] }),
    altText: [
      words.chart(counts, from),
      `${title}.`,
      ...(mfdd === undefined ? [] : [words.mfdd(printResult(mfdd, house).text)]),
    ].join(' '),
    spec: everyLayout(figure),
    table: {
      id: 'braking',
      caption: words.tableCaption(from),
      columns: [
        { label: figureWords(house).speed, unit: 'km/h', align: 'end' },
        ...stops.map(({ attempt }) => ({
          label: words.column(attempt.number, !isKept(attempt)),
          unit: 'm',
          align: 'end' as const,
        })),
      ],
      rows: grid.map(kmh => [
        { text: localiseDigits(String(kmh), language), header: true },
        ...stops.map(({ attempt, line }) => ({
          text: distanceTo(line, kmh, language),
          // What is left at rest is the stopping distance itself.
          ...(kmh === 0 ? { workings: [workingsAddress(test.id, attempt.id, measure)] } : {}),
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
    },
  };
}

function distanceTo(line: readonly Point[], kmh: number, language: string): string {
  const after = line.findIndex(({ y }) => y <= kmh);
  if (after < 0) return '–';
  const next = line[after]!;
  const before = line[after - 1] ?? next;
  const m = interpolate(before.y, before.x, next.y, next.x, kmh);
  return localiseDigits(roundToDecimals(m, 1), language);
}
