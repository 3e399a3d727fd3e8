/** What the build put under `data/` before the pages were made. */
import { readFile } from 'node:fs/promises';
import { DATA_PACKAGE_FOR_PAGES as FILE } from '../pipeline/press/write-data.ts';

export interface DataFile {
  readonly name: string;
  /** From the folder of the data. */
  readonly path: string;
  readonly format: string;
  readonly bytes: number;
  readonly title: string;
}

/** @throws Error naming the command that writes them, where there are none. */
export async function dataFiles(): Promise<readonly DataFile[]> {
  const text = await readFile(FILE, 'utf8').catch(() => undefined);
  if (text === undefined) throw new Error(`${FILE} is absent: run \`npm run build\`, which writes it.`);
  return (JSON.parse(text) as { resources: readonly DataFile[] }).resources;
}
