/** This test among others: the median of one measure with its uncertainty, a row a test, restated below measured. */

import { catalogue, nameWithin, type Spoken } from '../language.ts';
import { COLOUR } from '../look.ts';
import { headlineMeasure } from '../result/headline.ts';
import { measureLabel } from '../result/measures.ts';
import { pickResult } from '../result/pick.ts';
import type { House, MeasureId, Result, TestResult } from '../result/result.ts';
import {
  commonLaunch,
  compareTests,
  type TestSide,
  type TestsCompared,
  testNames,
} from '../result/tests-compared.ts';
import { testsApart, testsInWords, testsVerdictInWords } from '../result/tests-words.ts';
import { surfaceInWords } from '../result/words/conditions.ts';
import { printResult, startRuleInWords } from '../result/words.ts';
import type { StartRule } from '../run/run.ts';
import { speedUnitOf } from '../speed-unit.ts';
import { againstTable } from '../table/against.ts';
import { everyLayout, type Figure, type FigureLayout, isCrop } from './figure.ts';
import { dateInWords, feet, heldTogether } from './foot.ts';
import { dotLayer, type Label, type Line, labelLayers, plotSpec, ruleLayer } from './plot.ts';
import { type RowSpan, rowGrid, rowScales, seenFrom } from './rows.ts';
import { SIZES } from './theme.ts';
import type { Point } from './thin.ts';
import { downTo, roundStep, upTo } from './ticks.ts';
import { testAgainstTestWords } from './words/compared.ts';
import { notMadeWords } from './words/not-made.ts';
import { figureWords } from './words/shared.ts';

/** Most other tests in one figure. */
const MOST_OTHERS = 7;

export const testAgainstTest: Figure = {
  kind: 'test-against-test',
  describes: catalogue({
    en: 'This test among others by the median of its headline figure, measured and restated.',
    de: 'Dieser Test zwischen anderen nach dem Median seines Hauptwerts, gemessen und umgerechnet.',
  }),
  make(test, house, { startRule }, others = []) {
    const measure = headlineMeasure(test, house);
    if (measure === undefined) return { reason: notMadeWords(house).noStart(speedUnitOf(house)) };
    const compared = comparedWith(test, others, house, measure, startRule);
    const [any] = compared;
    if (any === undefined) return { reason: notMadeWords(house).noOtherTest(measureLabel(measure, house)) };
    const words = testAgainstTestWords(house);
    const label = measureLabel(measure, house);
    const by = any.launch === undefined ? words.allLaunches : nameWithin(any.launch.name, house);
    const sides = [any.first, ...compared.map(({ second }) => second)];
    const restated = sides.some(side => side.restated !== undefined);
    const marks = [words.marks, ...(restated ? [words.restatedMarks] : [])].join(' ');
    const attempts = test.attempts.filter(({ id }) => any.first.figures.median.attemptIds.includes(id));
    return {
      kind: 'test-against-test',
      title: titleOf(compared, house),
      deck: words.deck(label, by, test.car.name),
      caption: `${words.caption(
        label,
        sides.length,
        by,
        startRuleInWords(startRule, house),
        sides.map(({ name, figures }) => words.kept(name, figures.n)),
      )} ${marks}`,
      ...feet(test, house, { attempts, startRule, method: [marks] }),
      altText: `${words.chart(label, sides.length)} ${compared.map(each => testsInWords(each, house)).join(' ')}`,
      spec: everyLayout(layout => plot(sides, compared, house, measure, startRule, layout)),
      table: { ...againstTable(test, house, others), id: 'test-against-test' },
    };
  },
};

/** Every other test that reached the measure, by one launch method if all share one; newest first. */
function comparedWith(
  test: TestResult,
  others: readonly TestResult[],
  house: House,
  measure: MeasureId,
  startRule: StartRule,
): readonly TestsCompared[] {
  const drawn = others
    .filter(other => pickResult(other, house, { measure, startRule }) !== undefined)
    .slice(0, MOST_OTHERS);
  const launch = commonLaunch(measure, [test, ...drawn], house)?.id ?? null;
  const [own, ...names] = testNames([test, ...drawn], house);
  return drawn.flatMap(
    (other, index) =>
      compareTests([test, other], house, {
        measure,
        startRule,
        launch,
        names: [own!, names[index]!],
      }) ?? [],
  );
}

/** Who is ahead of whom; with one other test, by how much. */
function titleOf(compared: readonly TestsCompared[], house: House): string {
  const own = heldTogether(compared[0]!.first.name);
  if (compared.length === 1) return testsInWords(compared[0]!, house).replace(/:[^:]*\.$|\.$/, '');
  const words = testAgainstTestWords(house);
  const named = (...verdicts: TestsCompared['verdict'][]): readonly string[] =>
    compared
      .filter(({ verdict }) => verdicts.includes(verdict))
      .map(({ second }) => heldTogether(second.name));
  const parts = [
    [named('first'), words.ahead],
    [named('second'), words.behind],
    [named('too-close'), words.tooClose],
    [named('not-alike', 'not-known'), words.notRanked],
  ] as const;
  const said = parts.flatMap(([names, say]) => (names.length === 0 ? [] : [say(names)]));
  return `${own}: ${said.join('; ')}`;
}

/** Heights inside a row, px: name where it stands above, measured lane, restated lane, what is said of it. */
/** Above and below what a row holds, px. */
const padPx = (layout: FigureLayout): number => (isCrop(layout) ? 5 : layout === 'print' ? 8 : 12);
const headPx = (layout: FigureLayout): number => (layout === 'wide' ? 6 : isCrop(layout) ? 12 : 20);
const LANE_PX = 18;
const SAID_PX = 18;

function plot(
  sides: readonly TestSide[],
  compared: readonly TestsCompared[],
  house: House,
  measure: MeasureId,
  startRule: StartRule,
  layout: FigureLayout,
) {
  const size = SIZES[layout];
  const reach = sides.flatMap(({ figures, restated }) =>
    [figures.median, ...(restated === undefined ? [] : [restated])].flatMap(({ value, uncertainty = 0 }) => [
      value - uncertainty,
      value + uncertainty,
    ]),
  );
  const least = Math.min(...reach);
  const spread = Math.max(Math.max(...reach) - least, 0.2);
  const step = roundStep(spread * 1.1, layout === 'wide' ? 8 : 6);
  const from = downTo(least - spread * 0.03, step);
  const to = upTo(least + spread * 1.03, step);
  const names: Label[] = [];
  const days: Label[] = [];
  const said = { left: [] as Label[], right: [] as Label[] };
  const bars = { measured: [] as Line[], restated: [] as Line[] };
  const dots = { own: [] as Point[], other: [] as Point[], restated: [] as Point[] };
  const breaks: number[] = [];
  const rows: RowSpan[] = [];
  const pad = padPx(layout);
  let top = 0;
  sides.forEach((side, index) => {
    const { median } = side.figures;
    const lane = top + pad + headPx(layout) + LANE_PX / 2;
    const nameY = layout === 'wide' ? lane : top + pad + 4;
    if (index > 0) breaks.push(top);
    names.push({ x: from, y: nameY, text: side.test.car.short_name });
    days.push({
      x: layout === 'wide' ? from : to,
      y: layout === 'wide' ? nameY + size.labelLeadingPx : nameY,
      text: [dateInWords(side.test.content.date, house.language), surfacesOf(side, house)]
        .filter(Boolean)
        .join(', '),
      colour: COLOUR.muted,
    });
    (index === 0 ? dots.own : dots.other).push({ x: median.value, y: lane });
    bars.measured.push(barOf(median, lane));
    let foot = lane + LANE_PX / 2;
    // A picture of fixed shape has no room for a second line of marks; its foot names none.
    if (side.restated !== undefined && !isCrop(layout)) {
      dots.restated.push({ x: side.restated.value, y: foot + LANE_PX / 2 });
      bars.restated.push(barOf(side.restated, foot + LANE_PX / 2));
      foot += LANE_PX;
    }
    const atRight = median.value < (from + to) / 2;
    said[atRight ? 'right' : 'left'].push({
      x: median.value,
      y: foot + 2,
      text: sayOf(side, index === 0 ? undefined : compared[index - 1], house),
    });
    const below = foot + SAID_PX + pad;
    rows.push({ y: layout === 'wide' ? top : top + pad + headPx(layout) - 4, y2: below });
    top = below;
  });
  const beside = { sizePx: size.axisPx, baseline: 'top' as const, halo: true };
  const heads = {
    align: layout === 'wide' ? ('right' as const) : ('left' as const),
    dx: layout === 'wide' ? -14 : 0,
  };
  const own = sides[0]!.figures.median.value;
  const scale = { from, to, step, heightPx: top };
  return plotSpec(layout, house.language, {
    ...rowScales(scale, measure, startRule, house),
    layers: [
      ...rowGrid(scale, breaks),
      seenFrom(own, rows),
      ruleLayer(bars.measured, { colour: COLOUR.ink, width: 1.4 }),
      ruleLayer(bars.restated, { colour: COLOUR.muted, width: 1 }),
      dotLayer(dots.other, { colour: COLOUR.ink, areaPx: 62 }),
      dotLayer(dots.own, { colour: COLOUR.accent, areaPx: 78 }),
      dotLayer(dots.restated, { colour: COLOUR.ink, areaPx: 50, hollow: true }),
      ...labelLayers(names, { ...heads, sizePx: size.labelPx, weight: 600, limitPx: 190, halo: true }),
      ...labelLayers(days, { ...heads, align: 'right', sizePx: size.axisPx, halo: true, limitPx: 210 }),
      ...labelLayers(said.right, { align: 'left', dx: 5, ...beside }),
      ...labelLayers(said.left, { align: 'right', dx: -5, ...beside }),
    ],
  });
}

const barOf = ({ value, uncertainty = 0 }: Result, y: number): Line => ({
  x: value - uncertainty,
  x2: value + uncertainty,
  y,
  y2: y,
});

function surfacesOf({ test, figures }: TestSide, spoken: Spoken): string {
  const all = test.attempts.filter(
    ({ setAside, launchId }) =>
      setAside === undefined &&
      (figures.median.among.launch === undefined || launchId === figures.median.among.launch),
  );
  const surfaces = [...new Set(all.flatMap(({ conditions }) => conditions.surface ?? []))];
  return figureWords(spoken).surfaces(surfaces.map(surface => surfaceInWords(surface, spoken)));
}

/** Under a mark: the median of how many, and how it stands to this test. */
function sayOf({ figures }: TestSide, compared: TestsCompared | undefined, house: House): string {
  const { text } = printResult(figures.median, house);
  const words = testAgainstTestWords(house);
  const own = figures.n === 1 ? words.oneAttempt(text) : words.medianOf(text, figures.n);
  if (compared === undefined) return own;
  const apart = testsApart(compared, house).text;
  if (compared.verdict === 'first') return words.behindBy(text, apart);
  if (compared.verdict === 'second') return words.aheadBy(text, apart);
  return `${text}, ${testsVerdictInWords(compared, house)}`;
}
