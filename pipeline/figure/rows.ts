/** Plots of rows over one scale of a measure: its axis, hairlines through all rows, and the line that all are seen from. */

import { COLOUR } from '../look.ts';
import { displayUnit, measureLabel } from '../result/measures.ts';
import type { House, MeasureId } from '../result/result.ts';
import { startRuleInWords } from '../result/words.ts';
import type { StartRule } from '../run/run.ts';
import { ruleLayer } from './plot.ts';
import { stepDecimals, ticksEvery } from './ticks.ts';

/** A scale in SI of the measure; rows are placed in px from the top. */
export interface RowScale {
  readonly from: number;
  readonly to: number;
  readonly step: number;
  readonly heightPx: number;
}

/** Top and foot of something in a row, px. */
export interface RowSpan {
  readonly y: number;
  readonly y2: number;
}

/** Both scales of the plot, the measure named under the lower one. */
export const rowScales = (
  { from, to, step, heightPx }: RowScale,
  measure: MeasureId,
  startRule: StartRule | undefined,
  house: House,
) => ({
  x: {
    title: [displayUnit(measure, house), measureLabel(measure, house)]
      .concat(startRule === undefined ? [] : [startRuleInWords(startRule, house)])
      .join(', '),
    from,
    to,
    ticks: ticksEvery(step, from, to),
    tickDecimals: stepDecimals(step),
  },
  y: { title: '', from: heightPx, to: 0 },
  heightPx,
});

/** Hairlines: upright at the ticks, level between rows at `breaks`, px from the top. */
export const rowGrid = ({ from, to, step, heightPx }: RowScale, breaks: readonly number[]) => [
  ruleLayer(
    ticksEvery(step, from, to).map(x => ({ x, x2: x, y: 0, y2: heightPx })),
    { colour: COLOUR.hairline, width: 0.6 },
  ),
  ruleLayer(
    breaks.map(y => ({ x: from, x2: to, y, y2: y })),
    { colour: COLOUR.hairline, width: 1 },
  ),
];

/** The value that all rows are seen from, through each of them but not through names that stand above its marks. */
export const seenFrom = (x: number, rows: readonly RowSpan[]) =>
  ruleLayer(
    rows.map(row => ({ x, x2: x, ...row })),
    { colour: COLOUR.ink, width: 0.9, dash: [4, 3] },
  );
