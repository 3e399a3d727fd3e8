/** One reading of the sources: a new worker is started for every reload, so that it draws with the code as it is now. */
import { parentPort } from 'node:worker_threads';
import { loadLettering } from '../../pipeline/lettering/fonts.ts';
import type { Paper } from '../../pipeline/look.ts';
import { loadPublication } from '../../pipeline/pipeline.ts';
import { galleryCases, inLanguage } from './cases.ts';
import { indexHtml } from './page.ts';
import { pictureAt, picturesOf } from './pictures.ts';

/** At the end of a German case's id and of a German page's name. */
const GERMAN = '-de';

const ROOT = new URL('../..', import.meta.url).pathname;
const ready = Promise.all([loadPublication(ROOT), loadLettering()]).then(([publication, lettering]) => ({
  cases: galleryCases(publication).flatMap(one => [
    one,
    { ...inLanguage(one, 'de-DE'), id: `${one.id}${GERMAN}` },
  ]),
  lettering,
}));

/**
 * `index.html`, `dark.html`, `mono.html`, the same with `-de` in German, `list` for every address, or the address of a
 * picture.
 */
async function answer(address: string): Promise<string | undefined> {
  const { cases, lettering } = await ready;
  if (address === 'list') return cases.flatMap(picturesOf).join('\n');
  const [, page, german = ''] = /^(index|dark|mono)(-de)?\.html$/.exec(address) ?? [];
  if (page !== undefined) {
    const shown = cases.filter(({ id }) => id.endsWith(GERMAN) === (german !== ''));
    return indexHtml(shown, page === 'index' ? 'light' : (page as Paper), german);
  }
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
