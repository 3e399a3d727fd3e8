/** Which pictures of a figure a press folder holds, from what house.yaml asks for. */
import { CROP_LAYOUTS, CROP_SIZE, type FigureLayout, isCrop } from '../figure/figure.ts';
import { catalogue, type Spoken } from '../language.ts';
import type { Paper } from '../look.ts';
import type { House } from '../result/result.ts';

/** One drawing on one paper. */
export interface WantedPicture {
  readonly layout: FigureLayout;
  readonly paper: Paper;
  /** What its files are called after the name of the figure: `wide`, `wide-dark`, `social-1x1`. */
  readonly suffix: string;
  /** As vectors besides pixels, with letters as outlines and as text in a font; social pages take pixels only. */
  readonly vectors: readonly ('outlines' | 'fonts')[];
  /** As pixels: device pixels to the px, each with what its files are called after the suffix. */
  readonly scales: readonly { readonly scale: number; readonly suffix: string }[];
}

/** A crop by its shape, as people who post pictures call it. */
const SHAPE = { square: '1x1', portrait: '4x5', story: '9x16', landscape: '16x9' } as const;

const ONCE = { scale: 1, suffix: '' } as const;
/** On other than light paper the only one: screens that show dark pages are fine ones, and print takes every pixel. */
const TWICE = { scale: 2, suffix: '-2x' } as const;

/** Page layouts on the papers they are made for. */
const PAGES: readonly (readonly [FigureLayout, readonly Paper[]])[] = [
  ['wide', ['light', 'dark']],
  ['narrow', ['light', 'dark']],
  ['print', ['light', 'mono']],
];

/** What the pages of the site show of a figure, and lead to. */
const OWN_PAGES: readonly WantedPicture[] = [
  { layout: 'wide', paper: 'light', suffix: 'wide', vectors: ['outlines'], scales: [TWICE] },
  { layout: 'narrow', paper: 'light', suffix: 'narrow', vectors: ['outlines'], scales: [] },
];

/** Whether figures are made for print and other publishing systems too. */
export const isForOthers = ({ press }: Pick<House, 'press'>): boolean => press?.files !== 'pages';

/**
 * Wide, narrow and print on the papers asked for, then the social pictures; light first of each. In a further
 * language only pages on light paper, where house.yaml does not ask for more.
 */
export function wantedPictures(
  house: Pick<House, 'press' | 'mainLanguage'>,
  { inArticle }: { readonly inArticle: boolean },
): readonly WantedPicture[] {
  const { press, mainLanguage } = house;
  const further = mainLanguage !== undefined;
  const papers = new Set<Paper>([
    'light',
    ...(press?.papers ?? (further ? [] : (['dark', 'mono'] as const))),
  ]);
  const crops = press?.crops ?? (further ? 'none' : 'article');
  const pages = isForOthers(house)
    ? PAGES.flatMap(([layout, made]) =>
        made
          .filter(paper => papers.has(paper))
          .map(
            (paper): WantedPicture => ({
              layout,
              paper,
              suffix: paper === 'light' ? layout : `${layout}-${paper}`,
              vectors: ['outlines', 'fonts'],
              scales: paper === 'light' ? [ONCE, TWICE] : [TWICE],
            }),
          ),
      )
    : OWN_PAGES;
  return [
    ...pages,
    ...CROP_LAYOUTS.filter(() => crops === 'all' || (crops === 'article' && inArticle)).map(layout => ({
      layout,
      paper: 'light' as const,
      suffix: `social-${SHAPE[layout]}`,
      vectors: [],
      scales: [{ scale: CROP_SIZE[layout].scale, suffix: '' }],
    })),
  ];
}

/** How many layouts are drawn for these pictures, for progress. */
export const countLayouts = (pictures: readonly WantedPicture[]): number =>
  new Set(pictures.map(({ layout }) => layout)).size;

const WORDS = catalogue({
  en: {
    social: (shape: string) => `${shape} for social pages`,
    layouts: { wide: 'wide', narrow: 'narrow', print: 'for print' },
    papers: { light: 'on light paper', dark: 'on dark paper', mono: 'in black and white' },
  },
  de: {
    social: shape => `${shape} für soziale Netze`,
    layouts: { wide: 'breit', narrow: 'schmal', print: 'für den Druck' },
    papers: { light: 'auf hellem Grund', dark: 'auf dunklem Grund', mono: 'schwarz-weiß' },
  },
});

/** What a picture is, in words: `narrow, on dark paper`, `1:1 for social pages`. */
export function pictureInWords({ layout, paper }: WantedPicture, spoken: Spoken): string {
  const words = WORDS(spoken);
  return isCrop(layout)
    ? words.social(SHAPE[layout].replace('x', ':'))
    : `${words.layouts[layout]}, ${words.papers[paper]}`;
}
