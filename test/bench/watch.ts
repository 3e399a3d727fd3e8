// A file saved in an editor while the desk runs: `node test/bench/watch.ts`.
// From the save to the word of it, to the test measured anew, to its figures drawn anew.
import { readFileSync, writeFileSync } from 'node:fs';
import { join } from 'node:path';
import { listenTo, median } from '../desk/listening.ts';
import { copiedContent, removeContent, startDesk } from '../desk/running-desk.ts';

const TEST = 'quillet-sorrel-dry';
const ROUNDS = 7;
const FIGURES = ['speed-over-time', 'runs-of-the-day', 'splits-ladder'];

const root = copiedContent();
const desk = await startDesk(root);
const asked = async (path: string): Promise<string> => {
  const response = await fetch(`${desk.origin}/desk/api/${path}`, {
    headers: { 'x-desk-token': desk.token, 'sec-fetch-site': 'same-origin' },
  });
  const text = await response.text();
  if (!response.ok) throw new Error(`${path}: ${response.status} ${text.slice(0, 300)}`);
  return text;
};
try {
  const events = await listenTo(desk);
  const file = join(root, `content/tests/${TEST}/test.yaml`);
  const first = performance.now();
  await asked(`test/${TEST}`);
  process.stdout.write(
    `first look at the test, all logs measured: ${(performance.now() - first).toFixed(0)} ms\n`,
  );
  for (const kind of FIGURES) await asked(`test/${TEST}/figure/${kind}`);
  const told: number[] = [];
  const measured: number[] = [];
  const drawn: number[] = [];
  const before = readFileSync(file, 'utf8');
  for (let round = 0; round < ROUNDS; round++) {
    const changed = events.of(`content/tests/${TEST}/test.yaml`);
    const begun = performance.now();
    // A mass that every restated time depends on.
    writeFileSync(file, before.replace(/mass_kg: \d+/, `mass_kg: ${1500 + round}`));
    await changed;
    told.push(performance.now() - begun);
    await asked(`test/${TEST}`);
    measured.push(performance.now() - begun);
    await Promise.all(FIGURES.map(kind => asked(`test/${TEST}/figure/${kind}`)));
    drawn.push(performance.now() - begun);
  }
  process.stdout.write(
    `saved in an editor, median of ${ROUNDS}: told after ${median(told).toFixed(0)} ms, measured after ` +
      `${median(measured).toFixed(0)} ms, ${FIGURES.length} figures drawn after ${median(drawn).toFixed(0)} ms ` +
      `(slowest ${Math.max(...drawn).toFixed(0)} ms)\n`,
  );
  events.close();
} finally {
  await desk.kill();
  removeContent(root);
}
