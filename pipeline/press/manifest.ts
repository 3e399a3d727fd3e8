/**
 * What the press folder of a test holds, as written to `.evenground/press/` and read by the site's pages.
 * Paths are relative to the site's root, without a slash at the beginning: `press/<test>/figures/….svg`.
 */
import type { ScreenLayout } from '../figure/figure.ts';

export interface PressPicture {
  readonly path: string;
  readonly widthPx: number;
  readonly heightPx: number;
}

export interface PressFigure {
  readonly kind: string;
  /** Kind and choice as one word: `figureKey`. */
  readonly key: string;
  /** Place in the article, from 1; absent for figures that are only in the press folder. */
  readonly number?: number;
  readonly files: Readonly<Record<ScreenLayout, PressPicture>>;
  /** The wide one at 2 device pixels to the px. */
  readonly png: PressPicture;
  /** The 16:9 picture for social pages; absent where it is not made. */
  readonly social?: PressPicture;
  /** Paths of the PDF page and of the piece of HTML; absent where they are not made. */
  readonly pdf?: string;
  readonly snippet?: string;
  readonly title: string;
  readonly caption: string;
  readonly altText: string;
  /** The numbers behind the picture, a complete `<table>`. */
  readonly tableHtml: string;
}

export interface PressTable {
  /** As in `::table{show=…}`: `spec`, `splits`, `conditions`. */
  readonly kind: string;
  readonly caption: string;
  /** A complete `<table>`. */
  readonly html: string;
  /** Path of the same as CSV. */
  readonly csv?: string;
}

/** The kind under which the guide is listed, which is no plate. */
export const GUIDE_KIND = 'guide';

export interface PressOverlay {
  readonly kind: string;
  readonly name: string;
  readonly altText: string;
  readonly sizes: readonly { readonly name: string; readonly path: string }[];
}

/** Any other file of the folder: the article as HTML, data, a list of numbers. */
export interface PressFile {
  readonly path: string;
  /** What it holds, such as `Every published number with its workings`. */
  readonly describes: string;
  readonly bytes?: number;
}

export interface PressTest {
  readonly figures: readonly PressFigure[];
  readonly tables: readonly PressTable[];
  readonly overlays: readonly PressOverlay[];
  readonly files?: readonly PressFile[];
  /** Path of the road plan as a card. */
  readonly planCard?: string;
}

/** With what it shows in words. */
export type SocialPicture = PressPicture & { readonly alt: string };

/**
 * The picture that social pages show of a test: its first figure, in the main language where there is no other.
 * @param lang word of a further language; absent for the main one
 * @param pressOf gives what is said of the test's press folder in a language
 */
export async function socialPictureOf(
  lang: string | undefined,
  pressOf: (lang: string | undefined) => Promise<PressTest>,
): Promise<SocialPicture | undefined> {
  for (const language of lang === undefined ? [undefined] : [lang, undefined]) {
    const { figures } = await pressOf(language);
    const figure = figures.find(({ social }) => social !== undefined);
    if (figure?.social !== undefined) return { ...figure.social, alt: figure.altText };
  }
  return undefined;
}

/** Where the pages find what is said of the press folders, from the project's root. */
export const PRESS_FOR_PAGES = '.evenground/press';

/** File of one test; `lang` is the word of a further language in addresses, absent for the main one. */
export const pressFile = (testId: string, lang?: string): string =>
  [PRESS_FOR_PAGES, ...(lang === undefined ? [] : [lang]), `${testId}.json`].join('/');
