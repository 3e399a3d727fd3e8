/**
 * The faces of the pages with the characters of English and German and the signs that figures need: every page shows
 * all five, so they are as small as they can be. Any other character comes from the whole families (`fonts.css`),
 * which a browser fetches only where a page holds it.
 */
import { createHash } from 'node:crypto';
import { codeDigest } from '../pipeline/cache/code-digest.ts';
import { storeOf } from '../pipeline/cache/folder.ts';
import { bytesOnce } from '../pipeline/cache/kept.ts';
import { pageFont } from '../pipeline/lettering/fonts.ts';
import type { FaceId, Weight } from '../pipeline/lettering/lettering.ts';

/** A part of a font has a name of its own (OFL-1.1, reserved names). */
export const PAGE_FAMILY: Readonly<Record<FaceId, string>> = { serif: 'Page Serif', sans: 'Page Sans' };

const ASCII = Array.from({ length: 0x7f - 0x20 }, (_, k) => String.fromCodePoint(0x20 + k));
/** Spaces and hyphens, quotation marks of both languages, signs of units and of arithmetic, letters of German. */
export const PAGE_CHARACTERS: readonly string[] = [
  ...ASCII,
  ...'\u00a0\u2009\u202f\u2010\u2011–—‘’‚“”„«»…′″−×÷±²³·°½§£€→↑↓äöüÄÖÜßé',
];

export interface PageFont {
  readonly face: FaceId;
  readonly weight: Weight;
  readonly style: 'normal' | 'italic';
  /** Of its file: a part of its own bytes stands in it. */
  readonly name: string;
  readonly bytes: Uint8Array;
}

const FACES: readonly (readonly [FaceId, Weight, 'normal' | 'italic'])[] = [
  ['serif', 400, 'normal'],
  ['serif', 600, 'normal'],
  ['serif', 400, 'italic'],
  ['sans', 400, 'normal'],
  ['sans', 600, 'normal'],
];

let making: Promise<readonly PageFont[]> | undefined;

/** Takes the parts of fonts out and packs them. */
const CODE = 'pipeline/lettering/fonts.ts';

/** Made once: every process that makes pages asks for them, and packing takes as long as many pages. */
export function pageFonts(): Promise<readonly PageFont[]> {
  const store = storeOf(process.cwd());
  making ??= Promise.all(
    FACES.map(async ([face, weight, style]): Promise<PageFont> => {
      const from = ['page font', codeDigest(CODE), face, weight, style, PAGE_CHARACTERS];
      const bytes = await bytesOnce(store, from, () => pageFont(face, weight, style, PAGE_CHARACTERS));
      const hash = createHash('sha256').update(bytes).digest('hex').slice(0, 8);
      return { face, weight, style, name: `${face}-${weight}-${style}.${hash}`, bytes };
    }),
  );
  return making;
}

/** Address of a font's file from the site's root. */
export const fontPath = ({ name }: PageFont): string => `/fonts/${name}.woff2`;

/** `U+0020-007E, U+00A0`: the characters of the pages, for `unicode-range`. */
export function unicodeRange(characters: readonly string[]): string {
  const points = characters.map(character => character.codePointAt(0)!).sort((a, b) => a - b);
  const ranges: [number, number][] = [];
  for (const point of points) {
    const last = ranges.at(-1);
    if (last !== undefined && point <= last[1] + 1) last[1] = point;
    else ranges.push([point, point]);
  }
  const hex = (point: number): string => point.toString(16).toUpperCase().padStart(4, '0');
  return ranges.map(([from, to]) => `U+${hex(from)}${from === to ? '' : `-${hex(to)}`}`).join(', ');
}
