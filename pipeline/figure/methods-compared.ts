/** Launch methods against the quickest: every kept attempt, the median, and between what the difference lies. */

import { capital, catalogue } from '../language.ts';
import { COLOUR } from '../look.ts';
import { headlineMeasure } from '../result/headline.ts';
import { measureLabel } from '../result/measures.ts';
import {
  compareLaunchMethods,
  type Method,
  type MethodPair,
  type MethodsCompared,
} from '../result/methods-compared.ts';
import {
  countsOf,
  methodsFinding,
  orderInWords,
  pairInWords,
  pairsOfFirst,
  printPair,
} from '../result/methods-words.ts';
import type { House, MeasureId } from '../result/result.ts';
import { compareWords } from '../result/words/compare.ts';
import { printResult, startRuleInWords } from '../result/words.ts';
import { speedUnitOf } from '../speed-unit.ts';
import { launchMethodsTable } from '../table/launch-methods.ts';
import { everyLayout, type Figure, type FigureLayout, isCrop } from './figure.ts';
import { feet } from './foot.ts';
import { aboutPx } from './panel.ts';
import { areaLayer, dotLayer, type Label, labelLayers, plotSpec, ruleLayer } from './plot.ts';
import { type RowSpan, rowGrid, rowScales, seenFrom } from './rows.ts';
import { plotWidthPx, SIZES } from './theme.ts';
import type { Point } from './thin.ts';
import { downTo, roundStep, upTo } from './ticks.ts';
import { methodsComparedWords } from './words/compared.ts';
import { notMadeWords } from './words/not-made.ts';
import { figureWords } from './words/shared.ts';

export const methodsCompared: Figure = {
  kind: 'methods-compared',
  describes: catalogue({
    en: 'Launch methods against the one with the best median: every kept attempt, and between what the difference lies.',
    de: 'Startmethoden gegenüber der mit dem besten Median: jeder gewertete Versuch, und zwischen welchen Werten der Unterschied liegt.',
  }),
  make(test, house, { startRule }) {
    const measure = headlineMeasure(test, house);
    if (measure === undefined) return { reason: notMadeWords(house).noStart(speedUnitOf(house)) };
    const compared = compareLaunchMethods(test, house, { measure, startRule });
    const finding = methodsFinding(compared, house);
    if (finding === undefined) return { reason: notMadeWords(house).fewMethods };
    const words = methodsComparedWords(house);
    const label = measureLabel(measure, house);
    const kept = compared.methods.flatMap(({ attempts }) => attempts);
    const drawn = test.attempts.filter(({ id }) => kept.some(attempt => attempt.id === id));
    const setAside = compared.methods.reduce((sum, { figures }) => sum + figures.nSetAside, 0);
    const counts = figureWords(house).counts(kept.length, setAside);
    const shaded = pairsOfFirst(compared).some(({ low }) => low !== undefined);
    const pairs = compared.pairs.map(pair => pairInWords(pair, measure, house)).join(' ');
    return {
      kind: 'methods-compared',
      title: capital(finding),
      deck: words.deck(label, test.car.name),
      caption: [
        words.caption(label, startRuleInWords(startRule, house), counts),
        ...(shaded ? [words.shaded, words.meetsDashed] : []),
      ].join(' '),
      ...feet(test, house, {
        attempts: drawn,
        startRule,
        key: words.key(shaded),
        method: [
          [words.marks, ...(shaded ? [words.shaded] : [])].join(' '),
          ...pairsOfFirst(compared).flatMap(pair => orderInWords(pair, house)),
        ],
      }),
      altText: `${words.chart(label, counts)} ${pairs}`,
      spec: everyLayout(layout => plot(compared, house, measure, layout)),
      table: { ...launchMethodsTable(test, house, startRule), id: 'methods-compared' },
    };
  },
};

const DOT_PX = 8.5;
/** From the top of a row: room for the name above where there is none beside, then dots, then what is said of them. */
const headPx = (layout: FigureLayout): number => (layout === 'wide' ? 0 : 24);
/** Above and below what a row holds, px. */
const padPx = (layout: FigureLayout): number => (isCrop(layout) ? 5 : layout === 'print' ? 9 : 14);
const SAID_PX = 18;

function plot(compared: MethodsCompared, house: House, measure: MeasureId, layout: FigureLayout) {
  const { methods } = compared;
  const size = SIZES[layout];
  const pairs = new Map(pairsOfFirst(compared).map(pair => [pair.behind.id, pair]));
  const quickest = methods[0]!.figures.median.value;
  const shaded = [...pairs.values()].flatMap(({ low, high }) =>
    low === undefined || high === undefined ? [] : [quickest + low, quickest + high],
  );
  const all = [...methods.flatMap(({ attempts }) => attempts.map(({ value }) => value)), ...shaded];
  const least = Math.min(...all);
  const spread = Math.max(Math.max(...all) - least, 0.2);
  const step = roundStep(spread * 1.1, layout === 'wide' ? 8 : 4);
  const from = downTo(least - spread * 0.03, step);
  const to = upTo(least + spread * 1.03, step);
  const pxPerS = (plotWidthPx(layout) - (layout === 'wide' ? 150 : 0)) / (to - from);

  const names: Label[] = [];
  const counts: Label[] = [];
  const said = { left: [] as Label[], right: [] as Label[], toEnd: [] as Label[] };
  const dots: Point[] = [];
  const medians: (Point & { x2: number; y2: number })[] = [];
  const bands: typeof medians = [];
  const breaks: number[] = [];
  const rows: RowSpan[] = [];
  const pad = padPx(layout);
  let top = 0;
  for (const method of methods) {
    const levels = stacked(method, pxPerS);
    const swarmPx = (Math.max(...levels) + 1) * DOT_PX;
    const first = top + pad + headPx(layout);
    const foot = first + swarmPx + 6;
    const nameY = layout === 'wide' ? first + swarmPx / 2 : top + pad + 4;
    if (top > 0) breaks.push(top);
    names.push({ x: from, y: nameY, text: method.name });
    counts.push({
      x: layout === 'wide' ? from : to,
      y: layout === 'wide' ? nameY + size.labelLeadingPx : nameY,
      text: methodsComparedWords(house).kept(method.attempts.length),
      colour: COLOUR.muted,
    });
    method.attempts.forEach(({ value }, index) => {
      dots.push({ x: value, y: first + swarmPx - (levels[index]! + 0.5) * DOT_PX });
    });
    const median = method.figures.median.value;
    medians.push({ x: median, x2: median, y: first - 5, y2: foot });
    const pair = pairs.get(method.id);
    if (pair?.low !== undefined && pair.high !== undefined) {
      bands.push({ x: quickest + pair.low, x2: quickest + pair.high, y: first - 5, y2: foot });
    }
    const text = sayOf(method, pair, house, measure, layout);
    const textPx = aboutPx(text, size.axisPx);
    const roomPx = (to - quickest) * pxPerS;
    // Beside the median, else up to the end of the scale, so that it stays off the dashed line.
    const side = median < (from + to) / 2 ? 'right' : roomPx > textPx ? 'toEnd' : 'left';
    said[side].push({
      x: side === 'toEnd' ? to : median,
      y: foot + 4,
      text,
      ...(pair?.verdict === 'apart' ? { colour: COLOUR.accent } : {}),
    });
    const below = foot + SAID_PX + pad;
    rows.push({ y: layout === 'wide' ? top : first - 6, y2: below });
    top = below;
  }
  const scale = { from, to, step, heightPx: top };
  const small = { sizePx: size.axisPx };
  const beside = { ...small, baseline: 'top' as const, halo: true };
  return plotSpec(layout, house.language, {
    ...rowScales(scale, measure, compared.startRule, house),
    layers: [
      ...rowGrid(scale, breaks),
      areaLayer(bands, { colour: COLOUR.accent, opacity: 0.18 }),
      seenFrom(quickest, rows),
      ruleLayer(medians, { colour: COLOUR.accent, width: 2 }),
      dotLayer(dots, { colour: COLOUR.ink, areaPx: 46 }),
      ...labelLayers(names, {
        align: layout === 'wide' ? 'right' : 'left',
        dx: layout === 'wide' ? -14 : 0,
        sizePx: size.labelPx,
        weight: 600,
        limitPx: layout === 'wide' ? 190 : 210,
        halo: true,
      }),
      ...labelLayers(counts, {
        align: 'right',
        dx: layout === 'wide' ? -14 : 0,
        ...small,
        halo: true,
      }),
      ...labelLayers(said.right, { align: 'left', dx: 5, ...beside }),
      ...labelLayers(said.left, { align: 'right', dx: -5, ...beside }),
      ...labelLayers(said.toEnd, { align: 'right', ...beside }),
    ],
  });
}

/** For each attempt, how many dots it stands above the line so that none hides another. */
function stacked({ attempts }: Method, pxPerS: number): readonly number[] {
  const order = attempts.map((_, index) => index).sort((a, b) => attempts[a]!.value - attempts[b]!.value);
  const levels = new Array<number>(attempts.length).fill(0);
  /** Where each level is free again, px. */
  const free: number[] = [];
  for (const index of order) {
    const px = attempts[index]!.value * pxPerS;
    let level = free.findIndex(until => until <= px);
    if (level < 0) level = free.length;
    free[level] = px + DOT_PX;
    levels[index] = level;
  }
  return levels;
}

/** Under a method's dots: its median, and how it stands to the first. */
function sayOf(
  { figures: { best, median, n } }: Method,
  pair: MethodPair | undefined,
  house: House,
  measure: MeasureId,
  layout: FigureLayout,
): string {
  const value = printResult({ ...best, value: median.value }, house).text;
  const words = methodsComparedWords(house);
  const verdicts = compareWords(house);
  const own = n < 2 ? value : figureWords(house).median(value);
  if (pair === undefined) return own;
  const { difference, low = '', high = '' } = printPair(pair, measure, house.language);
  switch (pair.verdict) {
    case 'apart':
      return layout === 'wide'
        ? words.behindBetween(own, difference, low, high)
        : words.behindBy(own, difference);
    case 'too-close':
      return words.verdict(own, verdicts.tooCloseToCall);
    case 'too-few':
      return words.verdict(
        own,
        layout === 'wide' ? `${verdicts.tooFewToTell}, ${countsOf(pair, house)}` : verdicts.tooFewToTell,
      );
    case 'not-known':
      return words.verdict(own, verdicts.notRankedVerdict);
  }
}
