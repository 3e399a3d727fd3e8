/** The font files of the two faces, read from the installed packages (OFL-1.1) and made ready for shaping. */
import { readFile } from 'node:fs/promises';
import { createRequire } from 'node:module';
import wawoff2 from 'wawoff2';
import { FACE } from '../look.ts';
import type { FaceId, Lettering, Weight } from './lettering.ts';
import { type FontFile, fontsToLettering } from './outline.ts';
import { subsetFont } from './subset.ts';

const FAMILY: Readonly<Record<FaceId, string>> = { sans: FACE.chart, serif: FACE.text };
const PACKAGE: Readonly<Record<FaceId, string>> = {
  sans: '@fontsource/source-sans-3',
  serif: '@fontsource/source-serif-4',
};
const WEIGHTS: readonly Weight[] = [400, 600, 700];
/** In the order they are asked for a character: the packages split one family over several files. */
const SUBSETS = ['latin', 'latin-ext'] as const;

/** The call before this one; see `inTurn`. */
let previous: Promise<unknown> = Promise.resolve();

/**
 * One file after another even when called from several places: the coder answers with a window onto memory that its
 * next call overwrites, so each answer is copied before the next begins.
 */
function inTurn(code: () => Promise<Uint8Array>): Promise<Uint8Array> {
  const coded = previous.then(async () => (await code()).slice());
  previous = coded.catch(() => undefined);
  return coded;
}
const woff2ToTtf = (woff2: Uint8Array): Promise<Uint8Array> => inTurn(() => wawoff2.decompress(woff2));

/** Layout features that pages ask for, or that a browser applies by itself. */
const PAGE_FEATURES = ['ccmp', 'kern', 'liga', 'lnum', 'locl', 'mark', 'tnum'] as const;

/** One face of the pages with `characters` only, as WOFF2. The same characters give the same bytes. */
export async function pageFont(
  face: FaceId,
  weight: Weight,
  style: 'normal' | 'italic',
  characters: Iterable<string>,
): Promise<Uint8Array> {
  const whole = await woff2ToTtf(await readFile(fontPath(face, 'latin', weight, style)));
  const part = await subsetFont(whole, characters, PAGE_FEATURES);
  return inTurn(() => wawoff2.compress(part));
}

function fontPath(face: FaceId, subset: string, weight: Weight, style: 'normal' | 'italic'): string {
  const name = PACKAGE[face];
  const file = `${name.split('/')[1]}-${subset}-${weight}-${style}.woff2`;
  return createRequire(import.meta.url).resolve(`${name}/files/${file}`);
}

/** TrueType bytes of every face, weight and subset, in the order of fallback. */
export async function loadFontFiles(): Promise<readonly FontFile[]> {
  const files: FontFile[] = [];
  for (const face of Object.keys(FAMILY) as FaceId[]) {
    const family = FAMILY[face];
    for (const weight of WEIGHTS) {
      for (const subset of SUBSETS) {
        const path = fontPath(face, subset, weight, 'normal');
        files.push({ face, weight, family, ttf: await woff2ToTtf(await readFile(path)) });
      }
    }
  }
  return files;
}

/** Lettering in both faces and all weights, loaded afresh; load it once and hand it on. */
export async function loadLettering(): Promise<Lettering> {
  return fontsToLettering(await loadFontFiles());
}
