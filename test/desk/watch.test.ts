/** A file saved in an editor while the desk runs: its pages are told which. */
import { createHash } from 'node:crypto';
import { readFileSync, renameSync, writeFileSync } from 'node:fs';
import { join } from 'node:path';
import { afterAll, beforeAll, expect, it } from 'vitest';
import { type Listening, listenTo } from './listening.ts';
import { copiedContent, type RunningDesk, removeContent, startDesk } from './running-desk.ts';

const TEST = 'quillet-sorrel-wet';

let root: string;
let desk: RunningDesk;
let listening: Listening;
beforeAll(async () => {
  root = copiedContent();
  desk = await startDesk(root);
  listening = await listenTo(desk);
}, 120_000);
afterAll(async () => {
  listening?.close();
  await desk?.kill();
  removeContent(root);
});

const sha256 = (bytes: Uint8Array): string => createHash('sha256').update(bytes).digest('hex');

it.each<[string, (path: string, text: string) => void]>([
  ['written in place', writeFileSync],
  [
    'written beside and moved into place, as many editors do',
    (path, text) => {
      writeFileSync(`${path}~`, text);
      renameSync(`${path}~`, path);
    },
  ],
])('%s', async (_, save) => {
  const file = `content/tests/${TEST}/test.yaml`;
  const told = listening.of(file);
  save(join(root, file), `${readFileSync(join(root, file), 'utf8')}# by hand\n`);
  const { test, versions } = await told;
  expect(test).toBe(TEST);
  expect(versions[file]).toBe(sha256(readFileSync(join(root, file))));
});

it('is told without a test where it belongs to none', async () => {
  const path = join(root, 'content/house.yaml');
  const told = listening.of('content/house.yaml');
  writeFileSync(path, `${readFileSync(path, 'utf8')}# by hand\n`);
  expect(await told).toMatchObject({ test: null, changed: ['content/house.yaml'] });
});

it('each of several files saved at once is told to whom it belongs', async () => {
  const files = [TEST, 'quillet-sorrel-dry'].map(id => [id, `content/tests/${id}/article.md`] as const);
  const told = [...files, [null, 'content/methodology.md'] as const].map(async ([test, file]) => {
    expect(await listening.of(file)).toMatchObject({ test });
  });
  for (const file of [...files.map(([, path]) => path), 'content/methodology.md']) {
    const path = join(root, file);
    writeFileSync(path, `${readFileSync(path, 'utf8')}\n`);
  }
  await Promise.all(told);
});
