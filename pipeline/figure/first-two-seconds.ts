/** The start of one run, reading by reading, with both instants a clock may start from. */
import { capital } from '../language.ts';
import { COLOUR } from '../look.ts';
import { flaggedAmong } from '../result/flag-rules.ts';
import type { House, TestResult } from '../result/result.ts';
import { localiseDigits, printQuantity, startRuleInWords } from '../result/words.ts';
import { roundToDecimals } from '../round.ts';
import { ROLLOUT_M } from '../units.ts';
import { type Chosen, chooseAttempts, headlineMeasure } from './choose.ts';
import { everyLayout, type Figure, type FigureLayout, type MadeFigure } from './figure.ts';
import { feet } from './foot.ts';
import { type Axis, areaLayer, dotLayer, labelLayers, lineLayer, plotSpec, ruleLayer } from './plot.ts';
import { type RunSeries, standingStartSeries, valueAt } from './run-series.ts';
import { SIZES } from './theme.ts';
import { roundStep, stepDecimals, ticksEvery, upTo } from './ticks.ts';

const BEFORE_S = 0.3;
const AFTER_S = 2;

export const firstTwoSeconds: Figure = {
  kind: 'first-two-seconds',
  describes:
    'Speed in the first two seconds of one run, every reading, with first movement and the instant one foot is covered; the best run unless told.',
  make(test, house, choice) {
    const measure = headlineMeasure(test, house);
    if (measure === undefined) return { reason: 'No kept attempt began from rest and reached 30 km/h.' };
    const chosen = chooseAttempts(test, house, choice, measure, ['best']);
    if ('reason' in chosen) return chosen;
    const [only, second] = chosen;
    if (only === undefined) return { reason: 'No attempt was chosen.' };
    if (second !== undefined) return { reason: 'This figure shows one attempt; more were asked for.' };
    const series = standingStartSeries(only.attempt, 'first-movement', BEFORE_S);
    if (series === undefined) return { reason: `Attempt ${only.attempt.id} has no measured start.` };
    return draw(test, house, only, series);
  },
};

function draw(test: TestResult, house: House, { attempt }: Chosen, series: RunSeries): MadeFigure {
  const start = attempt.measurement.start!;
  const language = house.language;
  const precision = { uncertainty: start.uncertaintyS };
  const rolloutText = printQuantity(start.rolloutS, 'time', precision, language);
  const uncertaintyText = printQuantity(start.uncertaintyS, 'time', precision, language);
  const shown = series.timeS.map((x, i) => ({ x, y: series.speedKmh[i]! })).filter(({ x }) => x <= AFTER_S);
  const readings = shown.filter(({ x, y }) => x !== 0 || y !== 0);
  const topKmh = Math.max(10, ...shown.map(({ y }) => y));
  const step = roundStep(topKmh, 6);
  const footKmh = valueAt(series.timeS, series.speedKmh, start.rolloutS);

  const figure = (layout: FigureLayout) => {
    const size = SIZES[layout];
    const axes: { x: Axis; y: Axis } = {
      x: {
        title: 's, after first movement',
        from: -BEFORE_S,
        to: AFTER_S,
        ticks: ticksEvery(layout === 'wide' ? 0.2 : 0.5, layout === 'wide' ? -0.2 : 0, AFTER_S),
        tickDecimals: 1,
      },
      y: {
        title: 'km/h',
        from: 0,
        to: upTo(topKmh, step),
        ticks: ticksEvery(step, 0, upTo(topKmh, step)),
        tickDecimals: stepDecimals(step),
      },
    };
    const high = axes.y.to;
    const low = high * 0.8;
    const label = {
      align: 'left' as const,
      baseline: 'top' as const,
      dx: 7,
      dy: 5,
      sizePx: size.labelPx,
      halo: true,
    };
    const line = (size.labelLeadingPx / size.plotHeightPx) * high;
    return plotSpec(layout, language, {
      ...axes,
      heightPx: size.plotHeightPx,
      layers: [
        areaLayer([{ x: 0, x2: start.rolloutS, y: 0, y2: low }], { colour: COLOUR.hairline, opacity: 0.35 }),
        ruleLayer([{ x: 0, x2: 0, y: 0, y2: high }], { colour: COLOUR.ink, width: 1.1 }),
        ruleLayer([{ x: start.rolloutS, x2: start.rolloutS, y: 0, y2: low }], {
          colour: COLOUR.accent,
          width: 1.1,
          dash: [5, 3],
        }),
        lineLayer(shown, axes, { colour: COLOUR.ink, width: 1 }),
        dotLayer(readings, { colour: COLOUR.ink, areaPx: layout === 'wide' ? 17 : 11 }),
        ...labelLayers([{ x: 0, y: high, text: 'First movement' }], { ...label, weight: 600 }),
        ...labelLayers(
          [
            {
              x: 0,
              y: high - line,
              text: `from the rise itself, ± ${uncertaintyText}`,
              colour: COLOUR.muted,
            },
          ],
          {
            ...label,
          },
        ),
        ...labelLayers([{ x: start.rolloutS, y: low, text: 'One foot covered', colour: COLOUR.accent }], {
          ...label,
          weight: 600,
        }),
        ...labelLayers(
          [{ x: start.rolloutS, y: low - line, text: `after ${rolloutText}`, colour: COLOUR.accent }],
          label,
        ),
      ],
    });
  };

  const title = `The first foot takes ${rolloutText}, which a clock started after it leaves out`;
  const speedText =
    footKmh === undefined ? '' : ` The car is then at ${printQuantity(footKmh / 3.6, 'speed', 1, language)}.`;
  const method = `One foot is ${withoutUnit(ROLLOUT_M, language)} m. Each dot is one reading, ${printQuantity(attempt.trace.rateHz, 'rate', undefined, language)}. First movement is fitted to the rise; ± is expanded, k = 2.`;
  return {
    kind: 'first-two-seconds',
    title,
    deck: `The first two seconds of attempt ${attempt.number}${attempt.launchName === undefined ? '' : `, ‘${attempt.launchName}’`}, ${test.car.name}`,
    caption: `Speed over the first two seconds of attempt ${attempt.number}: every reading, first movement, and the instant one foot is covered. ${capital(startRuleInWords('first-movement', house))} is at 0 s; ${startRuleInWords('one-foot-rollout', house)} starts ${rolloutText} later.`,
    ...feet(test, house, { attempts: [attempt], method: [method] }),
    altText: `Line chart of speed over the first ${AFTER_S} s of attempt ${attempt.number}. First movement is at 0 s, uncertain by ${uncertaintyText}; one foot is covered ${rolloutText} later.${speedText} After ${AFTER_S} s the speed is ${printQuantity((shown.at(-1)?.y ?? 0) / 3.6, 'speed', 1, language)}.`,
    spec: everyLayout(figure),
    table: {
      id: 'first-two-seconds',
      caption: `Speed and distance in the first two seconds of attempt ${attempt.number}, clock and tape from first movement`,
      columns: [
        { label: 'Time', unit: 's', align: 'end' },
        { label: 'Speed', unit: 'km/h', align: 'end' },
        { label: 'Distance', unit: 'm', align: 'end' },
      ],
      rows: ticksEvery(0.1, 0, AFTER_S).map(atS => [
        { text: localiseDigits(roundToDecimals(atS, 1), language), header: true },
        { text: at(series.speedKmh, atS, 1) },
        { text: at(series.distanceM, atS, 2) },
      ]),
      notes: [
        `One foot is covered after ${rolloutText}. Read off by straight line between readings.`,
        ...flaggedAmong([attempt], house),
      ],
    },
  };

  function at(values: readonly number[], atS: number, decimals: number): string {
    const value = valueAt(series.timeS, values, atS);
    return value === undefined ? '–' : localiseDigits(roundToDecimals(value, decimals), language);
  }
}

const withoutUnit = (value: number, language: string): string => localiseDigits(String(value), language);
