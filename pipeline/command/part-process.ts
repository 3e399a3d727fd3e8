/** Measures or draws some tests into the store, for a build that is spread over processes. */
import { storeOf } from '../cache/folder.ts';
import { checkContent, loadPublication } from '../pipeline.ts';
import { keepShown } from '../press/test-key.ts';
import { packTables } from '../press/write-data.ts';
import { inLanguage, languagesOf } from '../result/in-language.ts';
import { drawTests } from './build-work.ts';
import { processIo } from './io.ts';
import type { PartAsked, PartSays } from './spread.ts';

const say = (says: PartSays): void => {
  process.send?.(says);
};
// Nobody waits for it any more.
process.on('disconnect', () => process.exit(1));
const { work, items, seen } = await new Promise<PartAsked>(resolve => process.once('message', resolve));
// Faults are told by the build itself, which finds them again.
const silent = { ...processIo(), stdout() {}, stderr() {} };
const ids = new Set(items);
const store = storeOf(silent.root);
if (work === 'measure') {
  const counting = { step() {}, done: () => say('done') };
  const { publication } = await checkContent(silent.root, { only: id => ids.has(id), seen, counting });
  // Here their attempts are in memory; the build would read those of every test for it.
  if (publication !== undefined)
    for (const tag of languagesOf(publication.house)) keepShown(inLanguage(publication, tag), store);
} else if (work === 'pack') {
  const publication = await loadPublication(silent.root, { seen });
  await packTables(publication, store, ids);
} else {
  // Whole tests are counted by the one that asked: how many pictures they will be is not known before.
  const progress = { step() {}, done() {}, close() {} };
  await drawTests(ids, store, silent, progress, { seen });
}
process.exit(0);
