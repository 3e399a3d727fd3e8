/** One figure is one file exporting one value of `Figure`, listed in `figures.ts`. */
import type { TopLevelSpec } from 'vega-lite';
import type { House, TestResult } from '../result/result.ts';
import type { StartRule } from '../run/run.ts';
import type { Table } from '../table/table.ts';

/** Narrow for a phone column, wide for a page: two layouts, not one scaled. */
export type FigureLayout = 'narrow' | 'wide';

export const FIGURE_WIDTH_PX: Readonly<Record<FigureLayout, number>> = { narrow: 360, wide: 760 };

export interface FigureChoice {
  /** Attempt ids, or the words `best`, `median`, `best:<launch>`; the figure's own default where absent. */
  readonly attempts?: readonly string[];
  readonly startRule: StartRule;
}

export interface MadeFigure {
  readonly kind: string;
  /** The finding, in a sentence; never ranks what is too close to call. */
  readonly title: string;
  /** Under the title, smaller: what is drawn, of which car. */
  readonly deck?: string;
  /** Under the figure on a page: what is drawn, start rule, n. */
  readonly caption: string;
  /** In the plot's own foot: start rule, conditions, source and date, so that it stands alone. */
  readonly foot: readonly string[];
  /** The same finding for someone who cannot see it. */
  readonly altText: string;
  /** Plot only; `render.ts` adds title, foot and margins. */
  readonly spec: Readonly<Record<FigureLayout, TopLevelSpec>>;
  /** The numbers behind the picture. */
  readonly table: Table;
}

/** Why a figure cannot be drawn from this test. */
export interface NotMade {
  readonly reason: string;
}

export interface Figure {
  /** As written in an article: `::figure{show=speed-over-time}`. */
  readonly kind: string;
  /** For the list of figures in the documentation. */
  readonly describes: string;
  make(test: TestResult, house: House, choice: FigureChoice): MadeFigure | NotMade;
}
