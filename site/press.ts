/** What the build put into the press folder before the pages were made. */
import { readFile } from 'node:fs/promises';
import {
  PRESS_MANIFEST,
  type PressManifest,
  type PressPicture,
  type PressTest,
} from '../pipeline/press/manifest.ts';

let reading: Promise<PressManifest> | undefined;

/**
 * @param lang word of a further language; absent for the main one
 * @throws Error naming the command that writes it, where there is none.
 */
export async function pressOf(testId: string, lang?: string): Promise<PressTest> {
  reading ??= readManifest();
  const { tests, translated } = await reading;
  const test = (lang === undefined ? tests : translated?.[lang])?.[testId];
  if (!test) throw new Error(`The press folder has nothing for the test '${testId}': run \`npm run build\`.`);
  return test;
}

/** The picture that social pages show of a test: its first figure, in the main language where there is no other. */
export async function socialPicture(
  testId: string,
  lang?: string,
): Promise<(PressPicture & { readonly alt: string }) | undefined> {
  for (const language of lang === undefined ? [undefined] : [lang, undefined]) {
    const { figures } = await pressOf(testId, language);
    const figure = figures.find(({ social }) => social !== undefined);
    if (figure?.social !== undefined) return { ...figure.social, alt: figure.altText };
  }
  return undefined;
}

async function readManifest(): Promise<PressManifest> {
  const text = await readFile(PRESS_MANIFEST, 'utf8').catch(() => undefined);
  if (text === undefined)
    throw new Error(`${PRESS_MANIFEST} is absent: run \`npm run build\`, which writes it.`);
  return JSON.parse(text) as PressManifest;
}
