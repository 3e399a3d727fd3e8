/** Splits as a ladder: a rail a car, a rung a speed, from first to last along the clock. */

import { catalogue } from '../language.ts';
import { COLOUR } from '../look.ts';
import { measureLabel, nominalSpeed, timesFromRest } from '../result/measures.ts';
import { bestAttempt, launchMethodsOf, pickResult } from '../result/pick.ts';
import type { House, MeasureId, Result, TestResult } from '../result/result.ts';
import { printResult, startRuleInWords } from '../result/words.ts';
import { type HouseUnits, houseUnits, speedScale, speedUnitOf } from '../speed-unit.ts';
import { workingsPaths } from '../table/figures-of.ts';
import { headlineMeasure } from './choose.ts';
import { everyLayout, type Figure, type FigureChoice, type FigureLayout, type MadeFigure } from './figure.ts';
import { dateInWords, feet, heldTogether } from './foot.ts';
import { aboutPx, bottomAxisLayers, type Panel, placeIn, pxAxes } from './panel.ts';
import { dotLayer, type Label, labelLayers, plotSpec, ruleLayer } from './plot.ts';
import { plotWidthPx, SIZES } from './theme.ts';
import { roundStep, ticksEvery, upTo } from './ticks.ts';
import { splitsLadderWords } from './words/compared.ts';
import { notMadeWords } from './words/not-made.ts';

/** The speeds of the rungs. */
const RUNGS: Readonly<Record<HouseUnits, readonly MeasureId[]>> = {
  kmh: ['0-30-kmh', '0-50-kmh', '0-80-kmh', '0-100-kmh', '0-130-kmh', '0-160-kmh', '0-200-kmh'],
  mph: ['0-30-mph', '0-50-mph', '0-60-mph', '0-80-mph', '0-100-mph', '0-120-mph'],
};

interface Rail {
  readonly of: TestResult;
  readonly name: string;
  /** What else is said of it: how many attempts stand behind it. */
  readonly detail: string;
  readonly rungs: readonly { readonly speed: number; readonly result: Result }[];
}

/** Most rails of one figure. */
const MOST_RAILS = 8;

export const splitsLadder: Figure = {
  kind: 'splits-ladder',
  describes: catalogue({
    en: 'Times to speeds from rest as a ladder, a rail for this test and each other test; of the launch methods where there is no other test.',
    de: 'Zeiten aus dem Stand auf mehrere Geschwindigkeiten als Leiter, ein Holm für diesen und jeden anderen Test; für die Startmethoden, wo es keinen anderen Test gibt.',
  }),
  make(test, house, choice, others = []) {
    if (headlineMeasure(test, house) === undefined) {
      return { reason: notMadeWords(house).noStart(speedUnitOf(house)) };
    }
    const across = others.length > 0;
    const rails = (
      across ? railsOfTests([test, ...others], house, choice) : railsOfMethods(test, house, choice)
    ).slice(0, MOST_RAILS);
    if (rails.length < 2) return { reason: notMadeWords(house).notTwo };
    return draw(test, house, choice, rails, across);
  },
};

/** The best kept run of each test: its splits belong to one run and can be read one after another. */
function railsOfTests(tests: readonly TestResult[], house: House, choice: FigureChoice): readonly Rail[] {
  const cars = tests.map(({ car }) => car.id);
  return tests.flatMap(test => {
    const twice = cars.filter(id => id === test.car.id).length > 1;
    const name = `${test.car.short_name}${twice ? `, ${dateInWords(test.content.date, house.language)}` : ''}`;
    return railOf(test, house, choice, {}, name);
  });
}

function railsOfMethods(test: TestResult, house: House, choice: FigureChoice): readonly Rail[] {
  return launchMethodsOf(test, house).flatMap(({ id, name }) =>
    railOf(test, house, choice, { launch: id }, name),
  );
}

function railOf(
  test: TestResult,
  house: House,
  { startRule }: FigureChoice,
  among: { readonly launch?: string },
  name: string,
): readonly Rail[] {
  const measure = headlineMeasure(test, house);
  if (measure === undefined) return [];
  const best = bestAttempt(test, house, { measure, startRule, ...among });
  const headline = pickResult(test, house, { measure, startRule, ...among });
  if (best === undefined || headline === undefined) return [];
  const rungs = RUNGS[houseUnits(house)].flatMap(measureTo => {
    const result = pickResult(test, house, { measure: measureTo, startRule, attempt: best.id });
    return result === undefined ? [] : [{ speed: nominalSpeed(measureTo), result }];
  });
  return rungs.length === 0
    ? []
    : [
        {
          of: test,
          name,
          detail:
            headline.n === 1
              ? splitsLadderWords(house).oneRun(printResult(headline, house).text)
              : splitsLadderWords(house).bestOf(printResult(headline, house).text, headline.n),
          rungs,
        },
      ];
}

const RAIL_PX: Readonly<Record<FigureLayout, number>> = {
  narrow: 62,
  wide: 58,
  print: 46,
  square: 44,
  portrait: 54,
  story: 58,
  landscape: 48,
};
const MOST_IN_CROP: Readonly<Partial<Record<FigureLayout, number>>> = {
  square: 3,
  portrait: 4,
  story: 4,
  landscape: 4,
};

function plot(all: readonly Rail[], layout: FigureLayout, house: House) {
  const rails = all.slice(0, MOST_IN_CROP[layout] ?? MOST_RAILS);
  const { axisPx, labelPx, labelLeadingPx } = SIZES[layout];
  const widthPx = plotWidthPx(layout);
  const rowPx = RAIL_PX[layout];
  const headPx = labelLeadingPx + 4;
  const mostS = Math.max(...rails.flatMap(({ rungs }) => rungs.map(({ result }) => result.value)));
  const step = roundStep(mostS, layout === 'wide' ? 12 : 6);
  const toS = upTo(mostS * 1.02, step / 2);
  const gutterPx = 4;
  const panel: Panel = {
    left: gutterPx,
    top: 0,
    widthPx: widthPx - gutterPx - aboutPx('00', axisPx) / 2,
    heightPx: rails.length * rowPx,
    x: { from: 0, to: toS },
    y: { from: 0, to: 1 },
  };
  const heightPx = panel.heightPx + axisPx + 14;
  const xOf = (s: number): number => placeIn(panel, { x: s, y: 0 }).x;
  const railY = (index: number): number => index * rowPx + headPx + axisPx + 6;
  const names: Label[] = [];
  const details: Label[] = [];
  const speeds: Label[] = [];
  const lines: { x: number; x2: number; y: number; y2: number }[] = [];
  const rungs: typeof lines = [];
  const dots: { x: number; y: number }[] = [];
  for (const [index, rail] of rails.entries()) {
    const y = railY(index);
    names.push({ x: 0, y: index * rowPx + headPx - 2, text: rail.name });
    details.push({
      x: widthPx,
      y: index * rowPx + headPx - 2,
      text: rail.detail,
      colour: COLOUR.accent,
    });
    lines.push({ x: xOf(0), x2: xOf(rail.rungs.at(-1)!.result.value), y, y2: y });
    const next = rails[index + 1];
    let free = Number.NEGATIVE_INFINITY;
    for (const { speed, result } of rail.rungs) {
      const x = xOf(result.value);
      dots.push({ x, y });
      const below = next?.rungs.find(rung => rung.speed === speed);
      if (below !== undefined) {
        rungs.push({ x, x2: xOf(below.result.value), y, y2: railY(index + 1) });
      }
      const text = String(speed);
      const half = aboutPx(text, axisPx) / 2;
      if (x - half < free) continue;
      free = x + half + 3;
      speeds.push({ x, y: y - 6, text, colour: COLOUR.muted });
    }
  }
  return plotSpec(layout, house.language, {
    ...pxAxes(widthPx, heightPx),
    heightPx,
    layers: [
      // Quieter than the rails: they lead the eye past names and times.
      ruleLayer(rungs, { colour: COLOUR.hairline, width: 1 }),
      ruleLayer(lines, { width: 1.4 }),
      dotLayer(dots, { colour: COLOUR.ink, areaPx: 34 }),
      ...labelLayers(names, {
        align: 'left',
        baseline: 'bottom',
        sizePx: labelPx,
        weight: 600,
        limitPx: widthPx - aboutPx(splitsLadderWords(house).bestOf('10.47 s', 12), labelPx) - 4,
        halo: true,
      }),
      ...labelLayers(details, { align: 'right', baseline: 'bottom', sizePx: labelPx, halo: true }),
      ...labelLayers(speeds, { align: 'center', baseline: 'bottom', sizePx: axisPx, halo: true }),
      ...bottomAxisLayers(
        panel,
        ticksEvery(step, 0, toS).map(value => ({ value, text: value === 0 ? '0\u00a0s' : String(value) })),
        axisPx,
      ),
    ],
  });
}

function draw(
  test: TestResult,
  house: House,
  { startRule }: FigureChoice,
  rails: readonly Rail[],
  across: boolean,
): MadeFigure {
  const top =
    rails[0]!.rungs.find(({ result }) => result.measure === timesFromRest(house)[0]) ??
    rails[0]!.rungs.at(-1)!;
  const label = measureLabel(top.result.measure, house);
  const own = printResult(top.result, house).text;
  const words = splitsLadderWords(house);
  const what = across ? words.tests(rails.length) : words.launches(rails.length);
  const who = across ? heldTogether(test.car.short_name) : rails[0]!.name;
  const { symbol } = speedScale(house);
  const speeds = RUNGS[houseUnits(house)]
    .map(nominalSpeed)
    .filter(speed => rails.some(({ rungs }) => rungs.some(rung => rung.speed === speed)));
  const method = words.method(speeds.map(String), symbol, across);
  return {
    kind: 'splits-ladder',
    title: words.title(who, !across, label, own, rails.length - 1),
    deck: words.deck(what, symbol),
    caption: `${words.caption(what, startRuleInWords(startRule, house))} ${method}`,
    ...feet(test, house, { attempts: test.attempts, startRule, method: [method] }),
    altText: [
      words.chart,
      ...rails.map(
        ({ name, detail, rungs }) =>
          `${name}, ${detail}: ${rungs.map(({ speed, result }) => words.rung(`${speed} ${symbol}`, printResult(result, house).text)).join(', ')}.`,
      ),
      words.notRanked(across),
    ].join(' '),
    spec: everyLayout(layout => plot(rails, layout, house)),
    table: {
      id: 'splits-ladder',
      caption: words.tableCaption(startRuleInWords(startRule, house)),
      columns: [
        { label: words.to, unit: symbol, align: 'end' },
        ...rails.map(({ name }) => ({ label: name, align: 'end' as const })),
      ],
      rows: speeds.map(speed => [
        { text: String(speed), header: true },
        ...rails.map(({ of, rungs }) => {
          const rung = rungs.find(one => one.speed === speed);
          return rung === undefined
            ? { text: '–' }
            : { text: printResult(rung.result, house).text, workings: workingsPaths(of, rung.result) };
        }),
      ]),
      notes: [method],
    },
  };
}
