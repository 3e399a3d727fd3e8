/** What the build put into the press folder before the pages were made. */
import { readFile } from 'node:fs/promises';
import { PRESS_MANIFEST, type PressManifest, type PressTest } from '../pipeline/press/manifest.ts';

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

async function readManifest(): Promise<PressManifest> {
  const text = await readFile(PRESS_MANIFEST, 'utf8').catch(() => undefined);
  if (text === undefined)
    throw new Error(`${PRESS_MANIFEST} is absent: run \`npm run build\`, which writes it.`);
  return JSON.parse(text) as PressManifest;
}
