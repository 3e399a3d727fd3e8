/** A figure as one piece of HTML for another publishing system, its pictures beside it in the same folder. */
import { NARROW_UP_TO } from '../article/figure-html.ts';
import { escapeHtml } from '../escape-html.ts';
import type { ScreenLayout } from '../figure/figure.ts';

/** One picture in one format, at 1 and 2 device pixels to the px. */
export interface SnippetPicture {
  readonly layout: ScreenLayout;
  readonly mediaType: string;
  readonly files: readonly { readonly name: string; readonly scale: number }[];
  /** In px. */
  readonly widthPx: number;
  readonly heightPx: number;
}

/**
 * A complete `<figure>`: the narrow picture for phones, the wide one otherwise, each in the smallest format that a
 * browser takes and as fine as its screen shows. PNG is the one that everything takes.
 */
export function figureSnippet(
  pictures: readonly SnippetPicture[],
  { altText, caption }: { readonly altText: string; readonly caption: string },
): string {
  const fallback = pictures.find(({ layout, mediaType }) => layout === 'wide' && mediaType === 'image/png')!;
  const best = ['image/avif', 'image/webp', 'image/png'];
  const sources = (['narrow', 'wide'] as const).flatMap(layout =>
    pictures
      .filter(picture => picture.layout === layout && picture !== fallback)
      .sort((a, b) => best.indexOf(a.mediaType) - best.indexOf(b.mediaType)),
  );
  return [
    '<figure>',
    '  <picture>',
    ...sources.map(
      picture =>
        `    <source${picture.layout === 'narrow' ? ` media="${NARROW_UP_TO}"` : ''} type="${picture.mediaType}" srcset="${srcset(picture)}" ${size(picture)}>`,
    ),
    `    <img src="${escapeHtml(fallback.files[0]!.name)}" srcset="${srcset(fallback)}" ${size(fallback)} alt="${escapeHtml(altText)}" loading="lazy" decoding="async">`,
    '  </picture>',
    `  <figcaption>${escapeHtml(caption)}</figcaption>`,
    '</figure>',
    '',
  ].join('\n');
}

const srcset = ({ files }: SnippetPicture): string =>
  files.map(({ name, scale }) => `${escapeHtml(name)} ${scale}x`).join(', ');
const size = ({ widthPx, heightPx }: SnippetPicture): string => `width="${widthPx}" height="${heightPx}"`;
