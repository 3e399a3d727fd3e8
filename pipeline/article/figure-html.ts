/** A figure on a page: picture for narrow and wide, caption with its number, and the numbers behind it. */

import { escapeHtml } from '../escape-html.ts';
import type { ScreenLayout } from '../figure/figure.ts';
import { catalogue, type Spoken } from '../language.ts';
import { scrollRegion } from '../table/html.ts';

export interface ShownFigure {
  readonly number: number;
  readonly caption: string;
  readonly altText: string;
  readonly files: Readonly<
    Record<ScreenLayout, { readonly address: string; readonly widthPx: number; readonly heightPx: number }>
  >;
  /** The numbers behind the picture, a complete `<table>`. */
  readonly tableHtml: string;
  /** Other forms of the same picture, such as PNG for print. */
  readonly downloads?: readonly { readonly label: string; readonly address: string }[];
}

const WORDS = catalogue({
  en: {
    figure: (number: number) => `Figure ${number}`,
    theNumbers: (number: number) => `The numbers behind figure ${number}`,
    numbers: (number: number) => `Numbers behind figure ${number}`,
    forPrint: 'This figure for print:',
  },
  de: {
    figure: number => `Abbildung ${number}`,
    theNumbers: number => `Die Zahlen hinter Abbildung ${number}`,
    numbers: number => `Zahlen hinter Abbildung ${number}`,
    forPrint: 'Diese Abbildung für den Druck:',
  },
});

/** Widest screen that gets the narrow picture. */
export const NARROW_UP_TO = '(max-width: 640px)';

/** A complete `<figure>`; both pictures state their size, so that nothing moves when they arrive. */
export function figureToHtml(figure: ShownFigure, spoken: Spoken): string {
  const words = WORDS(spoken);
  const { number, files } = figure;
  const size = ({ widthPx, heightPx }: ShownFigure['files']['wide']): string =>
    `width="${widthPx}" height="${heightPx}"`;
  const downloads = (figure.downloads ?? [])
    .map(({ label, address }) => `<a href="${escapeHtml(address)}" download>${escapeHtml(label)}</a>`)
    .join(' ');
  return [
    `<figure class="plot" id="figure-${number}">`,
    `<picture><source media="${NARROW_UP_TO}" srcset="${escapeHtml(files.narrow.address)}" ${size(files.narrow)}>`,
    `<img src="${escapeHtml(files.wide.address)}" ${size(files.wide)} alt="${escapeHtml(figure.altText)}" loading="lazy" decoding="async"></picture>`,
    `<figcaption><span class="figure-number">${words.figure(number)}</span> ${escapeHtml(figure.caption)}</figcaption>`,
    `<details><summary>${words.theNumbers(number)}</summary>`,
    scrollRegion(words.numbers(number), figure.tableHtml, spoken),
    downloads === '' ? '' : `<p class="downloads">${words.forPrint} ${downloads}</p>`,
    '</details></figure>',
  ].join('');
}
