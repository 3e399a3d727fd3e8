/** One reading of the sources: a new worker is started for every reload, so that it draws with the code as it is now. */
import { parentPort } from 'node:worker_threads';
import { loadLettering } from '../../pipeline/lettering/fonts.ts';
import type { Paper } from '../../pipeline/look.ts';
import { loadPublication } from '../../pipeline/pipeline.ts';
import { galleryCases } from './cases.ts';
import { indexHtml } from './page.ts';
import { pictureAt, picturesOf } from './pictures.ts';

const ROOT = new URL('../..', import.meta.url).pathname;
const ready = Promise.all([loadPublication(ROOT), loadLettering()]).then(([publication, lettering]) => ({
  cases: galleryCases(publication),
  lettering,
}));

/** `index.html`, `dark.html`, `mono.html`, `list` for every address, or the address of a picture. */
async function answer(address: string): Promise<string | undefined> {
  const { cases, lettering } = await ready;
  if (address === 'list') return cases.flatMap(picturesOf).join('\n');
  const page = /^(index|dark|mono)\.html$/.exec(address)?.[1];
  if (page !== undefined) return indexHtml(cases, page === 'index' ? 'light' : (page as Paper));
  return pictureAt(address, cases, lettering);
}

// One at a time: text is measured through one function of the whole process.
let queue = Promise.resolve();
parentPort?.on('message', ({ id, address }: { readonly id: number; readonly address: string }) => {
  queue = queue.then(async () => {
    try {
      parentPort!.postMessage({ id, text: await answer(address) });
    } catch (error) {
      parentPort!.postMessage({ id, error: error instanceof Error ? error.stack : String(error) });
    }
  });
});
