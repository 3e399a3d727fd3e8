/** The plot of a road plan: the road once for each speed, from the start to its end. */
import type { TopLevelSpec } from 'vega-lite';
import { COLOUR } from '../look.ts';
import type { House } from '../result/result.ts';
import type { RoadPlan } from '../result/road-plan.ts';
import { printQuantity } from '../result/words.ts';
import type { PlanRow } from '../road/plan.ts';
import { speedScale } from '../speed-unit.ts';
import { wholeDown } from '../table/road-plan.ts';
import { type FigureLayout, isCrop } from './figure.ts';
import { bottomAxisLayers, type Panel, placeIn, pxAxes } from './panel.ts';
import { areaLayer, type Label, labelLayers, plotSpec, ruleLayer } from './plot.ts';
import { planWords, rowWords } from './road-plan.ts';
import { type Bar, hatching } from './road-used.ts';
import { plotWidthPx, SIZES } from './theme.ts';
import { roundStep, ticksEvery } from './ticks.ts';

const BAR_PX: Readonly<Record<FigureLayout, number>> = {
  narrow: 14,
  wide: 16,
  print: 11,
  square: 11,
  portrait: 14,
  story: 16,
  landscape: 12,
};
/** The fastest speeds are shown: those near the end of the road. */
const MOST_ROWS: Readonly<Record<FigureLayout, number>> = {
  narrow: 6,
  wide: 6,
  print: 6,
  square: 2,
  portrait: 3,
  story: 4,
  landscape: 3,
};
/** What is planned beyond the end is drawn this far, as a share of the road. */
const BEYOND = 1.06;

export function planPlot(
  plan: RoadPlan,
  rows: readonly PlanRow[],
  layout: FigureLayout,
  house: House,
): TopLevelSpec {
  const { language } = house;
  const words = planWords(house);
  const { symbol, fromMps } = speedScale(house);
  const { labelPx, axisPx, labelLeadingPx } = SIZES[layout];
  const { lengthM, driving } = plan;
  const shown = rows.slice(-MOST_ROWS[layout]);
  const widthPx = plotWidthPx(layout);
  const over = shown.some(({ stoppedM }) => stoppedM.adverse > lengthM);
  const farthestM = lengthM * (over ? BEYOND : 1);
  const headPx = labelLeadingPx + 5;
  const rowPx = headPx + BAR_PX[layout] + axisPx + (isCrop(layout) ? 12 : 16);
  const heightPx = shown.length * rowPx + axisPx + 14;
  const panel: Panel = {
    left: 0,
    top: 0,
    widthPx: widthPx - 1,
    heightPx: shown.length * rowPx,
    x: { from: 0, to: farthestM },
    y: { from: 0, to: 1 },
  };
  const xOf = (m: number): number => placeIn(panel, { x: Math.min(m, farthestM), y: 0 }).x;
  const heads: Label[] = [];
  const lefts: Label[] = [];
  const places: Label[] = [];
  const brakes: Label[] = [];
  const boxes = { gain: [] as Bar[], react: [] as Bar[], brake: [] as Bar[], reserve: [] as Bar[] };
  const outlines: Bar[] = [];
  const lastPoints: Bar[] = [];
  for (const [index, row] of shown.entries()) {
    const top = index * rowPx + headPx;
    const bottom = top + BAR_PX[layout];
    const room = row.room === 'room';
    const reached = row.reachedM.adverse;
    const braking = reached + row.reactionM.adverse;
    const said = rowWords(row, house);
    boxes.reserve.push({ x: xOf(lengthM - driving.reserveM), x2: xOf(lengthM), y: top, y2: bottom });
    boxes.gain.push({ x: 0, x2: xOf(reached), y: top, y2: bottom });
    boxes.react.push({ x: xOf(reached), x2: xOf(braking), y: top, y2: bottom });
    boxes.brake.push({ x: xOf(braking), x2: xOf(row.stoppedM.adverse), y: top, y2: bottom });
    outlines.push(
      { x: 0, x2: xOf(lengthM), y: top, y2: top },
      { x: 0, x2: xOf(lengthM), y: bottom, y2: bottom },
      { x: xOf(lengthM), x2: xOf(lengthM), y: top - 3, y2: bottom + 3 },
    );
    if (room) {
      const x = xOf(row.lastPointM.adverse);
      lastPoints.push({ x, x2: x, y: top - 4, y2: bottom + 3 });
    }
    heads.push({ x: 0, y: top - 5, text: `${wholeDown(fromMps(row.speedMps), language)}\u00a0${symbol}` });
    lefts.push({
      x: xOf(lengthM),
      y: top - 5,
      text: said.left,
      colour: room ? COLOUR.ink : COLOUR.accent,
    });
    places.push({
      x: 0,
      y: bottom + 6,
      text: words.row(said.reached.replace('\u00a0m', ''), said.stopped),
      colour: COLOUR.muted,
    });
    if (room) brakes.push({ x: xOf(lengthM), y: bottom + 6, text: words.brakeBy(said.brakeBy) });
  }
  const step = roundStep(farthestM, layout === 'wide' ? 12 : 5);
  const metres = (m: number): string => printQuantity(m, 'distance', 0, language);
  return plotSpec(layout, language, {
    ...pxAxes(widthPx, heightPx),
    heightPx,
    layers: [
      areaLayer(boxes.reserve, { colour: COLOUR.hairline, opacity: 1 }),
      areaLayer(boxes.gain, { colour: COLOUR.ink, opacity: 0.8 }),
      areaLayer(boxes.react, { colour: COLOUR.muted, opacity: 0.4 }),
      areaLayer(boxes.brake, { colour: COLOUR.accent, opacity: 0.42 }),
      // Hatching keeps braking apart from the rest without any colour.
      ruleLayer(boxes.brake.flatMap(hatching), { colour: COLOUR.accent, width: 0.9 }),
      ruleLayer(outlines, { colour: COLOUR.muted, width: 0.8 }),
      ruleLayer(lastPoints, { colour: COLOUR.ink, width: 1.6 }),
      ...labelLayers(heads, { align: 'left', baseline: 'bottom', sizePx: labelPx, weight: 600 }),
      ...labelLayers(lefts, { align: 'right', baseline: 'bottom', sizePx: labelPx }),
      ...labelLayers(places, { align: 'left', baseline: 'top', sizePx: axisPx }),
      ...labelLayers(brakes, { align: 'right', baseline: 'top', sizePx: axisPx, weight: 600 }),
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
