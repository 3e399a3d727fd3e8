/** The font files of the two faces, read from the installed packages (OFL-1.1) and made ready for shaping. */
import { readFile } from 'node:fs/promises';
import { createRequire } from 'node:module';
import wawoff2 from 'wawoff2';
import { FACE } from '../look.ts';
import type { FaceId, Lettering, Weight } from './lettering.ts';
import { type FontFile, fontsToLettering } from './outline.ts';

const FAMILY: Readonly<Record<FaceId, string>> = { sans: FACE.chart, serif: FACE.text };
const WEIGHTS: readonly Weight[] = [400, 600, 700];
/** In the order they are asked for a character: the packages split one family over several files. */
const SUBSETS = ['latin', 'latin-ext'] as const;

/** The call before this one; see `woff2ToTtf`. */
let previous: Promise<unknown> = Promise.resolve();

/**
 * WOFF2 to TrueType bytes, one file after another even when called from several places: the decoder answers
 * with a window onto memory that its next call overwrites, so each answer is copied before the next begins.
 */
function woff2ToTtf(woff2: Uint8Array): Promise<Uint8Array> {
  const ttf = previous.then(async () => (await wawoff2.decompress(woff2)).slice());
  previous = ttf.catch(() => undefined);
  return ttf;
}

/** TrueType bytes of every face, weight and subset, in the order of fallback. */
export async function loadFontFiles(): Promise<readonly FontFile[]> {
  const require = createRequire(import.meta.url);
  const files: FontFile[] = [];
  for (const face of Object.keys(FAMILY) as FaceId[]) {
    const family = FAMILY[face];
    const name = family.toLowerCase().replaceAll(' ', '-');
    for (const weight of WEIGHTS) {
      for (const subset of SUBSETS) {
        const path = require.resolve(`@fontsource/${name}/files/${name}-${subset}-${weight}-normal.woff2`);
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
