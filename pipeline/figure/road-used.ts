/** How much of the road a run took: from the start to the brake, to rest, and what was left. */

import type { Spoken } from '../language.ts';
import { catalogue } from '../language.ts';
import { COLOUR } from '../look.ts';
import { measureLabel } from '../result/measures.ts';
import { bestAttempt, launchMethodsOf } from '../result/pick.ts';
import type { Attempt, House, MeasureId, TestResult } from '../result/result.ts';
import { printQuantity, printResult } from '../result/words.ts';
import { speedUnitOf } from '../speed-unit.ts';
import { kmhToMps } from '../units.ts';
import { type Chosen, chooseStarts } from './choose.ts';
import {
  everyLayout,
  type Figure,
  type FigureChoice,
  type FigureLayout,
  isCrop,
  type MadeFigure,
} from './figure.ts';
import { feet } from './foot.ts';
import { aboutPx, bottomAxisLayers, type Panel, placeIn, pxAxes } from './panel.ts';
import { areaLayer, type Label, labelLayers, plotSpec, ruleLayer } from './plot.ts';
import { plotWidthPx, SIZES } from './theme.ts';
import { roundStep, ticksEvery } from './ticks.ts';
import { notMadeWords } from './words/not-made.ts';
import { roadUsedWords } from './words/road.ts';
import { figureWords } from './words/shared.ts';

interface Used extends Chosen {
  /** From first movement, m. */
  readonly brakeM: number;
  readonly endM: number;
  /** False where the log ends, or the run is given up, before the car stands. */
  readonly stopped: boolean;
  readonly topMps: number;
}

/** Below this a car counts as standing, m/s (2 km/h): the noise of a receiver at rest. */
const STANDING_MPS = kmhToMps(2);

export const roadUsed: Figure = {
  kind: 'road-used',
  describes: catalogue({
    en: 'How much of the road chosen runs took, from the start to the brake and to rest, and what of its length was left; the best of each launch method and the run that took most unless told.',
    de: 'Wie viel der Strecke gewählte Fahrten brauchten, vom Start bis zur Bremse und bis zum Stand, und was von ihrer Länge blieb; ohne Wahl die beste jeder Startmethode und die längste.',
  }),
  make(test, house, choice) {
    const starts = chooseStarts(test, house, choice, { fallback: bestsAndLongest });
    if ('reason' in starts) return starts;
    const used = starts.chosen.flatMap(one => usedBy(one) ?? []).sort((a, b) => b.endM - a.endM);
    if (used.length === 0) return { reason: notMadeWords(house).noMeasuredStart };
    return draw(test, house, used);
  },
};

function bestsAndLongest(
  test: TestResult,
  house: House,
  { startRule }: FigureChoice,
  measure: MeasureId,
): readonly string[] {
  const bests = launchMethodsOf(test, house).flatMap(
    ({ id }) => bestAttempt(test, house, { measure, startRule, launch: id })?.id ?? [],
  );
  const longest = test.attempts
    .flatMap(attempt => {
      const used = usedBy({ attempt, name: '' });
      return used === undefined ? [] : [{ id: attempt.id, endM: used.endM }];
    })
    .sort((a, b) => b.endM - a.endM)[0];
  return [...new Set([...(longest === undefined ? [] : [longest.id]), ...bests.slice(0, 5)])];
}

function usedBy(chosen: Chosen): Used | undefined {
  const { trace, measurement } = chosen.attempt;
  const { run, start } = measurement;
  if (start === undefined) return undefined;
  const originM = distanceAtTime(chosen.attempt, start.firstMovementS);
  const last = run.braking?.endIndex ?? run.endIndex;
  let top = run.beginIndex;
  for (let index = run.beginIndex; index <= last; index += 1) {
    if (trace.speedMps[index]! > trace.speedMps[top]!) top = index;
  }
  // From the highest speed on the car no longer gains; a run without a measured stop is slowed from there.
  const brake = run.braking?.beginIndex ?? top;
  return {
    ...chosen,
    brakeM: trace.distanceM[brake]! - originM,
    endM: trace.distanceM[last]! - originM,
    stopped: trace.speedMps[last]! <= STANDING_MPS,
    topMps: trace.speedMps[top]!,
  };
}

function distanceAtTime({ trace }: Attempt, atS: number): number {
  const after = trace.timeS.findIndex(time => time >= atS);
  return trace.distanceM[after < 0 ? trace.distanceM.length - 1 : after]!;
}

const BAR_PX: Readonly<Record<FigureLayout, number>> = {
  narrow: 16,
  wide: 18,
  print: 12,
  square: 11,
  portrait: 15,
  story: 17,
  landscape: 13,
};
/** A small picture shows these many runs, those that took most. */
const MOST_IN_CROP = 3;

function plot(used: readonly Used[], lengthM: number, layout: FigureLayout, house: House) {
  const { language } = house;
  const words = roadUsedWords(house);
  const { labelPx, axisPx, labelLeadingPx } = SIZES[layout];
  const shown = isCrop(layout) ? used.slice(0, MOST_IN_CROP) : used;
  const widthPx = plotWidthPx(layout);
  const farthestM = Math.max(lengthM, ...used.map(({ endM }) => endM));
  const headPx = labelLeadingPx + 5;
  const rowPx = headPx + BAR_PX[layout] + axisPx + 18;
  const heightPx = shown.length * rowPx + axisPx + 14;
  const axes = pxAxes(widthPx, heightPx);
  const panel: Panel = {
    left: 0,
    top: 0,
    widthPx: widthPx - 1,
    heightPx: shown.length * rowPx,
    x: { from: 0, to: farthestM },
    y: { from: 0, to: 1 },
  };
  const xOf = (m: number): number => placeIn(panel, { x: m, y: 0 }).x;
  const names: Label[] = [];
  const lefts: Label[] = [];
  const driven: Label[] = [];
  const braked: Label[] = [];
  const boxes = { drive: [] as Bar[], brake: [] as Bar[] };
  const outlines: Bar[] = [];
  const metres = (m: number): string => printQuantity(m, 'distance', 0, language);
  for (const [index, { name, brakeM, endM, stopped, topMps, attempt }] of shown.entries()) {
    const top = index * rowPx + headPx;
    const bottom = top + BAR_PX[layout];
    const speed = printQuantity(topMps, 'speed', 0, house);
    boxes.drive.push({ x: 0, x2: xOf(brakeM), y: top, y2: bottom });
    boxes.brake.push({ x: xOf(brakeM), x2: xOf(endM), y: top, y2: bottom });
    outlines.push(
      { x: 0, x2: xOf(lengthM), y: top, y2: top },
      { x: 0, x2: xOf(lengthM), y: bottom, y2: bottom },
      { x: xOf(lengthM), x2: xOf(lengthM), y: top - 3, y2: bottom + 3 },
    );
    names.push({
      x: 0,
      y: top - 5,
      text: attempt.setAside === undefined ? name : words.nameAside(name),
    });
    const left = lengthM - endM;
    lefts.push({
      x: xOf(lengthM),
      y: top - 5,
      text: leftInWords(left, stopped, metres, house),
      colour: left >= 0 ? COLOUR.ink : COLOUR.accent,
    });
    const driveText = words.driven(metres(brakeM), speed);
    const brakeText = stopped
      ? words.toRest(metres(endM - brakeM))
      : endM - brakeM < 1
        ? words.noStop
        : words.slowing(metres(endM - brakeM));
    // The second label starts where braking does, or where the first one ends.
    driven.push({ x: 0, y: bottom + 4, text: driveText });
    braked.push({
      x: Math.max(xOf(brakeM), aboutPx(driveText, axisPx) + 8),
      y: bottom + 4,
      text: brakeText,
      colour: COLOUR.accent,
    });
  }
  const step = roundStep(farthestM, layout === 'wide' ? 12 : 5);
  return plotSpec(layout, language, {
    ...axes,
    heightPx,
    layers: [
      areaLayer(boxes.drive, { colour: COLOUR.ink, opacity: 0.8 }),
      areaLayer(boxes.brake, { colour: COLOUR.accent, opacity: 0.42 }),
      // Hatching keeps braking apart from driving without any colour.
      ruleLayer(boxes.brake.flatMap(hatching), { colour: COLOUR.accent, width: 0.9 }),
      ruleLayer(outlines, { colour: COLOUR.muted, width: 0.8 }),
      ...labelLayers(names, {
        align: 'left',
        baseline: 'bottom',
        sizePx: labelPx,
        weight: 600,
        limitPx: widthPx * 0.6,
      }),
      ...labelLayers(lefts, { align: 'right', baseline: 'bottom', sizePx: labelPx }),
      ...labelLayers(driven, { align: 'left', baseline: 'top', sizePx: axisPx }),
      ...labelLayers(braked, { align: 'left', baseline: 'top', sizePx: axisPx }),
      ...bottomAxisLayers(
        panel,
        ticksEvery(step, 0, farthestM - step * 0.3).map(value => ({
          value,
          text: value === 0 ? '0\u00a0m' : metres(value).split('\u00a0')[0]!,
        })),
        axisPx,
      ),
    ],
  });
}

function leftInWords(leftM: number, stopped: boolean, metres: (m: number) => string, spoken: Spoken): string {
  const words = roadUsedWords(spoken);
  if (leftM < 0) return words.beyond(metres(-leftM));
  return stopped ? words.left(metres(leftM)) : words.leftMoving(metres(leftM));
}

export interface Bar {
  readonly x: number;
  readonly x2: number;
  readonly y: number;
  readonly y2: number;
}

const HATCH_PX = 6;
/** Slanting lines inside a box. */
export function hatching({ x, x2, y, y2 }: Bar): readonly Bar[] {
  const height = y2 - y;
  const lines: Bar[] = [];
  for (let foot = x; foot < x2; foot += HATCH_PX) {
    const reach = Math.min(height, x2 - foot);
    lines.push({ x: foot, x2: foot + reach, y: y2, y2: y2 - reach });
  }
  return lines;
}

function draw(test: TestResult, house: House, used: readonly Used[]): MadeFigure {
  const { language } = house;
  const words = roadUsedWords(house);
  const lengthM = test.road.length_m;
  const metres = (m: number): string => printQuantity(m, 'distance', 0, language);
  const most = used[0]!;
  const left = lengthM - most.endM;
  const alone = used.length === 1 ? most.attempt.number : undefined;
  const title =
    left >= 0
      ? words.took(alone, metres(most.endM), metres(lengthM), most.stopped)
      : words.tookMore(alone, metres(most.endM), metres(lengthM));
  const { method, caution } = words;
  const sentences = used.map(({ name, brakeM, endM, topMps, stopped, result, attempt }) =>
    words.sentence(
      name,
      attempt.setAside !== undefined,
      words.driven(metres(brakeM), printQuantity(topMps, 'speed', 0, house)),
      result && words.reached(measureLabel(result.measure, house), printResult(result, house).text),
      metres(endM - brakeM),
      stopped,
      leftInWords(lengthM - endM, stopped, metres, house),
    ),
  );
  return {
    kind: 'road-used',
    title,
    deck: words.deck(test.car.name, test.road.name),
    caption: `${words.caption(used.map(({ attempt }) => String(attempt.number)))} ${method} ${caution}`,
    ...feet(test, house, {
      attempts: used.map(({ attempt }) => attempt),
      method: [method],
      caution,
    }),
    altText: `${words.chart} ${title}. ${sentences.join(' ')} ${caution}`,
    spec: everyLayout(layout => plot(used, lengthM, layout, house)),
    table: {
      id: 'road-used',
      caption: words.tableCaption(metres(lengthM)),
      columns: [
        { label: figureWords(house).run, align: 'start' },
        { label: words.highestSpeed, unit: speedUnitOf(house), align: 'end' },
        { label: words.toBrake, unit: 'm', align: 'end' },
        { label: words.fromThereToRest, unit: 'm', align: 'end' },
        { label: words.inAll, unit: 'm', align: 'end' },
        { label: words.leftOfLength, unit: 'm', align: 'end' },
      ],
      rows: used.map(({ name, topMps, brakeM, endM, stopped }) => {
        const digits = (m: number): string => metres(m).split('\u00a0')[0]!;
        return [
          { text: name, header: true },
          { text: printQuantity(topMps, 'speed', 0, house).split('\u00a0')[0]! },
          { text: digits(brakeM) },
          { text: stopped ? digits(endM - brakeM) : words.notToRest(digits(endM - brakeM)) },
          { text: digits(endM) },
          { text: digits(lengthM - endM) },
        ];
      }),
      notes: [method, caution],
    },
  };
}
