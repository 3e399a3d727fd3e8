/** Strips over the clock of a test day, one above another on one axis of time. */

import type { TopLevelSpec } from 'vega-lite';
import type { Spoken } from '../language.ts';
import { COLOUR } from '../look.ts';
import type { Attempt, TestResult } from '../result/result.ts';
import type { FigureLayout } from './figure.ts';
import { aboutPx, bottomAxisLayers, gridLayers, type Panel, placeIn, pxAxes } from './panel.ts';
import { dotLayer, type Layer, labelLayers, plotSpec, ruleLayer } from './plot.ts';
import { plotWidthPx, SIZES } from './theme.ts';
import type { Point } from './thin.ts';
import { downTo, roundStep, stepDecimals, ticksEvery, upTo } from './ticks.ts';
import { figureWords } from './words/shared.ts';

/** Seconds of the day of `10:22` or `10:22:41`. */
export function clockS(at: string): number {
  const [hours = 0, minutes = 0, seconds = 0] = at.split(':').map(Number);
  return hours * 3600 + minutes * 60 + seconds;
}

const clockText = (s: number): string =>
  `${String(Math.floor(s / 3600)).padStart(2, '0')}:${String(Math.floor((s % 3600) / 60)).padStart(2, '0')}`;

export interface Strip {
  /** Quantity and unit, above the strip. */
  readonly title: string;
  readonly heightPx: number;
  /** All that has to fit in, in its unit. */
  readonly values: readonly number[];
  /** Smallest span shown, so that a calm day does not look wild. */
  readonly leastSpan: number;
  /** Marks of the strip; a place is given by the second of the day and the value. */
  readonly layers: (place: (atS: number, value: number) => Point, panel: Panel) => readonly Layer[];
}

/** Steps between clock times, s. */
const TIME_STEPS_S = [300, 600, 900, 1800, 3600, 7200, 14400];

/** From the first reading or attempt to the last, with a little room. */
export function daySpan(test: TestResult): { readonly from: number; readonly to: number } {
  const times = [
    ...test.attempts.map(({ at }) => clockS(at)),
    ...test.content.conditions.map(({ at }) => clockS(at)),
  ];
  const [first, last] = [Math.min(...times), Math.max(...times)];
  const room = Math.max(120, (last - first) * 0.03);
  return { from: first - room, to: last + room };
}

/** Round ends and ticks whose numbers do not touch; where there is hardly any height, the two ends. */
function scaleOf(
  low: number,
  high: number,
  heightPx: number,
  sizePx: number,
): {
  readonly ticks: readonly number[];
  readonly decimals: number;
  readonly y: { readonly from: number; readonly to: number };
} {
  for (let most = Math.max(2, Math.floor(heightPx / (sizePx * 2.2))); ; most -= 1) {
    const step = roundStep((high - low) * 1.1, most);
    const y = { from: downTo(low, step), to: upTo(high, step) };
    const apartPx = (heightPx * step) / (y.to - y.from);
    const decimals = stepDecimals(step);
    if (apartPx >= sizePx * 1.4) return { ticks: ticksEvery(step, y.from, y.to), decimals, y };
    if (most <= 1) return { ticks: [y.from, y.to], decimals, y };
  }
}

/** The whole plot. */
export function dayStrips(
  strips: readonly Strip[],
  span: { readonly from: number; readonly to: number },
  layout: FigureLayout,
  language: string,
): TopLevelSpec {
  const { axisPx } = SIZES[layout];
  const widthPx = plotWidthPx(layout);
  const gutterPx = aboutPx('1000.5', axisPx) + 4;
  const titlePx = axisPx + 9;
  const betweenPx = axisPx;
  let top = 0;
  const placed = strips.map(strip => {
    const low = Math.min(...strip.values);
    const high = Math.max(...strip.values);
    const spare = Math.max(0, strip.leastSpan - (high - low)) / 2;
    const { ticks, decimals, y } = scaleOf(low - spare, high + spare, strip.heightPx, axisPx);
    const panel: Panel = {
      left: gutterPx,
      top: top + titlePx,
      widthPx: widthPx - gutterPx,
      heightPx: strip.heightPx,
      x: span,
      y,
    };
    top += titlePx + strip.heightPx + betweenPx;
    return { strip, panel, ticks, decimals };
  });
  const heightPx = top - betweenPx + axisPx + 10;
  const most = layout === 'wide' ? 10 : 5;
  const stepS = TIME_STEPS_S.find(s => (span.to - span.from) / s <= most) ?? 14400;
  const last = placed.at(-1)!.panel;
  return plotSpec(layout, language, {
    ...pxAxes(widthPx, heightPx),
    heightPx,
    layers: placed
      .flatMap(({ strip, panel, ticks, decimals }): Layer[] => [
        ...gridLayers(panel, ticks, {
          decimals,
          sizePx: axisPx,
          language,
        }),
        ...labelLayers([{ x: 0, y: panel.top - titlePx + 2, text: strip.title, colour: COLOUR.muted }], {
          align: 'left',
          baseline: 'top',
          sizePx: axisPx,
        }),
        ...strip.layers((atS, value) => placeIn(panel, { x: atS, y: value }), panel),
      ])
      .concat(
        bottomAxisLayers(
          last,
          ticksEvery(stepS, span.from, span.to).map(value => ({ value, text: clockText(value) })),
          axisPx,
        ),
      ),
  });
}

export interface Reading {
  readonly atS: number;
  readonly value: number;
}

/** A reading holds until the next, since that is how attempts take it; a dot where it was read. */
export function readingLayers(
  readings: readonly Reading[],
  untilS: number,
  place: (atS: number, value: number) => Point,
): readonly Layer[] {
  const steps = readings.flatMap(({ atS, value }, index) => {
    const next = readings[index + 1];
    const from = place(atS, value);
    const to = place(next?.atS ?? untilS, value);
    const rise = next === undefined ? [] : [{ ...to, x2: to.x, y2: place(next.atS, next.value).y }];
    return [{ ...from, x2: to.x, y2: to.y }, ...rise];
  });
  return [
    ruleLayer(steps, { colour: COLOUR.ink, width: 1.2 }),
    dotLayer(
      readings.map(({ atS, value }) => place(atS, value)),
      { colour: COLOUR.ink, areaPx: 26 },
    ),
  ];
}

/** The readings of one field, in the day's order. */
export function readingsOf(
  test: TestResult,
  field: 'temperature_c' | 'pressure_hpa' | 'humidity_pct' | 'wind_mps',
): readonly Reading[] {
  return test.content.conditions
    .flatMap(reading => {
      const value = reading[field];
      return value === undefined ? [] : [{ atS: clockS(reading.at), value }];
    })
    .sort((a, b) => a.atS - b.atS);
}

/** Heights of strips; the first of `order-of-the-day` is the tall one. */
export const STRIP_PX: Readonly<Record<FigureLayout, { readonly tall: number; readonly low: number }>> = {
  narrow: { tall: 170, low: 58 },
  wide: { tall: 210, low: 64 },
  print: { tall: 125, low: 42 },
  square: { tall: 80, low: 26 },
  portrait: { tall: 110, low: 36 },
  story: { tall: 125, low: 40 },
  landscape: { tall: 90, low: 28 },
};

/** Air along the road at each attempt that knows it, positive against the car: solid kept, hollow set aside. */
export function alongWindStrip(
  attempts: readonly Attempt[],
  layout: FigureLayout,
  spoken: Spoken,
): Strip | undefined {
  const known = attempts.flatMap(attempt => {
    const mps = attempt.conditions.headwindMps;
    return mps === undefined ? [] : [{ attempt, atS: clockS(attempt.at), mps }];
  });
  if (known.length === 0) return undefined;
  return {
    title: figureWords(spoken).windAlong,
    heightPx: STRIP_PX[layout].low,
    values: [0, ...known.map(({ mps }) => mps)],
    leastSpan: 2,
    layers: (place, panel) => {
      const zero = placeIn(panel, { x: panel.x.from, y: 0 }).y;
      const at = known.map(({ attempt, atS, mps }) => ({
        ...place(atS, mps),
        kept: attempt.setAside === undefined,
      }));
      return [
        ruleLayer([{ x: panel.left, x2: panel.left + panel.widthPx, y: zero, y2: zero }], { width: 0.7 }),
        ruleLayer(
          at.map(({ x, y }) => ({ x, x2: x, y: zero, y2: y })),
          { width: 1 },
        ),
        dotLayer(
          at.filter(({ kept }) => kept),
          { colour: COLOUR.ink, areaPx: 26 },
        ),
        dotLayer(
          at.filter(({ kept }) => !kept),
          { colour: COLOUR.ink, areaPx: 26, hollow: true, width: 1 },
        ),
      ];
    },
  };
}
