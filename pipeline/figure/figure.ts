/** One figure is one file exporting one value of `Figure`, listed in `figures.ts`. */

import type { TopLevelSpec } from 'vega-lite';
import type { Spoken } from '../language.ts';
import type { House, TestResult } from '../result/result.ts';
import type { StartRule } from '../run/run.ts';
import type { Table } from '../table/table.ts';

/** Narrow for a phone column, wide for a page, print for a column of an A4 sheet: three layouts, not one scaled. */
export type PageLayout = ScreenLayout | 'print';

/** The two a page on a screen chooses between. */
export type ScreenLayout = 'narrow' | 'wide';

/** Pictures of one fixed shape for social pages: 1:1, 4:5, 9:16 and 16:9. */
export type CropLayout = 'square' | 'portrait' | 'story' | 'landscape';

export type FigureLayout = PageLayout | CropLayout;

export const PAGE_LAYOUTS: readonly PageLayout[] = ['narrow', 'wide', 'print'];
export const CROP_LAYOUTS: readonly CropLayout[] = ['square', 'portrait', 'story', 'landscape'];
export const FIGURE_LAYOUTS: readonly FigureLayout[] = [...PAGE_LAYOUTS, ...CROP_LAYOUTS];

export const isCrop = (layout: FigureLayout): layout is CropLayout => Object.hasOwn(CROP_SIZE, layout);

/** Two columns on A4 with a gutter are 85 mm each; a CSS px is 1/96 in. */
const COLUMN_PX = Math.floor((85 * 96) / 25.4);

/**
 * Crops are laid out in px of the screen they are looked at on, about that of a phone, and drawn `scale` times as
 * large: 1080×1080, 1080×1350, 1080×1920 and 1600×900 device pixels.
 */
export const CROP_SIZE: Readonly<
  Record<CropLayout, { readonly widthPx: number; readonly heightPx: number; readonly scale: number }>
> = {
  square: { widthPx: 360, heightPx: 360, scale: 3 },
  portrait: { widthPx: 360, heightPx: 450, scale: 3 },
  story: { widthPx: 360, heightPx: 640, scale: 3 },
  landscape: { widthPx: 512, heightPx: 288, scale: 3.125 },
};

export const FIGURE_WIDTH_PX: Readonly<Record<FigureLayout, number>> = {
  narrow: 360,
  wide: 760,
  print: COLUMN_PX,
  square: CROP_SIZE.square.widthPx,
  portrait: CROP_SIZE.portrait.widthPx,
  story: CROP_SIZE.story.widthPx,
  landscape: CROP_SIZE.landscape.widthPx,
};

/** Something of every layout, worked out when it is first asked for. */
export function everyLayout<T>(make: (layout: FigureLayout) => T): Readonly<Record<FigureLayout, T>> {
  const made = {} as Record<FigureLayout, T>;
  for (const layout of FIGURE_LAYOUTS) {
    let value: { readonly made: T } | undefined;
    Object.defineProperty(made, layout, {
      enumerable: true,
      get: () => {
        value ??= { made: make(layout) };
        return value.made;
      },
    });
  }
  return made;
}

export interface FigureChoice {
  /** Attempt ids, or the words `best`, `median`, `best:<launch>`; the figure's own default where absent. */
  readonly attempts?: readonly string[];
  readonly startRule: StartRule;
}

/** The attempts a figure draws, and the clock they are on. */
export interface DrawnFacts {
  /** Absent where no clock starts from rest. */
  readonly startRule?: StartRule;
  readonly attempts: number;
  readonly kept: number;
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
  /** What is drawn, counted: for lists of files. */
  readonly drawn?: DrawnFacts;
  /** The same in a line or two for a crop: rule, count, conditions; publication last. From `foot` where absent. */
  readonly cropFoot?: readonly string[];
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
  /** What it draws, for lists to choose from. */
  readonly describes: (spoken: Spoken) => string;
  /** `others`: the publication's other tests, newest first, for figures that set this one beside them. */
  make(
    test: TestResult,
    house: House,
    choice: FigureChoice,
    others?: readonly TestResult[],
  ): MadeFigure | NotMade;
}
