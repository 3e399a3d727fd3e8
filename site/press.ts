/** What the build put into the press folder before the pages were made. */
import { readFile } from 'node:fs/promises';
import { holdingRecent } from '../pipeline/cache/recent.ts';
import {
  type PressTest,
  pressFile,
  type SocialPicture,
  socialPictureOf,
} from '../pipeline/press/manifest.ts';

/** Held for the pages of the same test, which come one after another. */
const recent = holdingRecent<Promise<PressTest>>(8);

/**
 * @param lang word of a further language; absent for the main one
 * @throws Error naming the command that writes it, where there is none.
 */
export function pressOf(testId: string, lang?: string): Promise<PressTest> {
  const file = pressFile(testId, lang);
  return recent(file, () => readPress(file));
}

export const socialPicture = (testId: string, lang?: string): Promise<SocialPicture | undefined> =>
  socialPictureOf(lang, language => pressOf(testId, language));

async function readPress(file: string): Promise<PressTest> {
  const text = await readFile(file, 'utf8').catch(() => undefined);
  if (text === undefined) throw new Error(`${file} is absent: run \`npm run build\`, which writes it.`);
  return JSON.parse(text) as PressTest;
}
