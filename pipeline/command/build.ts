/** `evenground build`: content and logs in, press folder and site out, whole or not at all. */
import { readdir } from 'node:fs/promises';
import { join, resolve } from 'node:path';
import { parseArgs } from 'node:util';
import { loadLettering } from '../lettering/fonts.ts';
import { houseFrameSizes } from '../overlay/sizes.ts';
import { loadPublication } from '../pipeline.ts';
import { withLock } from '../press/lock.ts';
import { PRESS_MANIFEST, type PressManifest, type PressTest } from '../press/manifest.ts';
import { MANIFEST_SCHEMA, manifestSchemaText } from '../press/manifest-file.ts';
import { GUIDE_KIND } from '../press/press-overlays.ts';
import { countPictures, planEveryLanguage, writeTest } from '../press/press-test.ts';
import { writeSearchIndex } from '../press/search-index.ts';
import { replaceFolder, writeWhole } from '../press/whole.ts';
import { writeData } from '../press/write-data.ts';
import { type Problem, problemToLine } from '../problem.ts';
import { languageWord } from '../result/in-language.ts';
import type { Publication } from '../result/result.ts';
import type { Io } from './io.ts';
import { progressTo } from './progress.ts';

const PUBLIC_FOLDER = '.evenground/public';
const LOCK = '.evenground/build.lock';
const SITE_FOLDER = 'dist';

const HELP = `Usage: npm run evenground -- build [--out FOLDER]

Reads everything under content/ with its logs and makes figures, tables, lower thirds and the site.
Where there is an error nothing is made, and what was built before stays.

  --out FOLDER  where they go; ${SITE_FOLDER} where absent

Exit status: 0 built; 1 content has errors or a file could not be made; 2 wrong usage.
`;

/**
 * Builds the publication under `io.root` into `dist/` (or `--out`).
 * @returns 0 built; 1 content has errors, and what stood in the folder before is untouched; 2 wrong usage
 * @throws ProblemError where another build of the folder is under way
 */
export async function runBuild(args: readonly string[], io: Io): Promise<number> {
  if (args.includes('--help') || args.includes('-h')) {
    io.stdout(HELP);
    return 0;
  }
  let out: string;
  try {
    out = parseArgs({ args: [...args], options: { out: { type: 'string' } } }).values.out ?? SITE_FOLDER;
  } catch (error) {
    io.stderr(`evenground build: ${(error as Error).message.split('\n')[0]} Only --out FOLDER is known.\n`);
    return 2;
  }
  return await withLock(join(io.root, LOCK), () => buildInto(out, io));
}

/** The build itself; nothing else builds in this folder meanwhile. */
async function buildInto(out: string, io: Io): Promise<number> {
  const began = performance.now();
  const progress = progressTo(io);
  progress.step('reading content and measuring logs', 1);
  const publication = await loadPublication(io.root);
  const planned = planEveryLanguage(publication);
  const problems = [...publication.problems, ...planned.flatMap(language => language.problems)];
  progress.close();
  for (const problem of problems) io.stderr(`${problemToLine(problem)}\n`);
  if (problems.some(isError)) {
    const count = problems.filter(isError).length;
    io.stderr(`Nothing was built: ${count} error${count === 1 ? '' : 's'} above. ${out}/ is as it was.\n`);
    return 1;
  }

  const lettering = await loadLettering();
  progress.step(
    'figures and overlays',
    planned
      .flatMap(language => language.tests.map(test => countPictures(test, language.publication)))
      .reduce((sum, count) => sum + count, 0),
  );
  const tests: Record<string, PressTest> = {};
  const translated: Record<string, Record<string, PressTest>> = {};
  const drawn: Problem[] = [];
  await replaceFolder(join(io.root, PUBLIC_FOLDER), async staging => {
    const write = (path: string, content: string | Uint8Array) => writeWhole(join(staging, path), content);
    await write(MANIFEST_SCHEMA, manifestSchemaText());
    await writeData(publication, write);
    for (const { publication: own, tests: ofLanguage } of planned) {
      const { language, mainLanguage } = own.house;
      const ownTests: Record<string, PressTest> = {};
      for (const test of ofLanguage) {
        const main = mainLanguage === undefined ? undefined : tests[test.test.id];
        const written = await writeTest(test, own, lettering, write, progress.done, main);
        ownTests[test.test.id] = written.press;
        drawn.push(...written.problems);
      }
      if (mainLanguage === undefined) Object.assign(tests, ownTests);
      else translated[languageWord(language)] = ownTests;
    }
  });
  const manifest: PressManifest = {
    tests,
    ...(planned.length > 1 ? { translated } : {}),
  };
  await writeWhole(join(io.root, PRESS_MANIFEST), `${JSON.stringify(manifest, null, 2)}\n`);
  progress.close();
  for (const problem of [...drawn, ...lettering.problems()]) io.stderr(`${problemToLine(problem)}\n`);

  progress.step('pages', 1);
  await buildSite(io.root, resolve(io.root, out));
  progress.close();
  await sayWhatWasMade(publication, manifest, out, (performance.now() - began) / 1000, io);
  return 0;
}

const isError = (problem: Problem): boolean => problem.severity === 'error';

async function buildSite(root: string, out: string): Promise<void> {
  process.env.ASTRO_TELEMETRY_DISABLED = '1';
  const { build } = await import('astro');
  await replaceFolder(out, async staging => {
    await build({ root, outDir: staging, logLevel: 'warn' });
    await writeSearchIndex(staging);
  });
}

async function sayWhatWasMade(
  { house, tests }: Publication,
  manifest: PressManifest,
  out: string,
  seconds: number,
  io: Io,
): Promise<void> {
  const press = Object.values(manifest.tests);
  const sum = (count: (test: PressTest) => number): number =>
    press.reduce((total, test) => total + count(test), 0);
  const attempts = tests.flatMap(test => test.attempts);
  const kept = attempts.filter(attempt => attempt.setAside === undefined).length;
  const pages = (await readdir(resolve(io.root, out), { recursive: true })).filter(name =>
    name.endsWith('.html'),
  ).length;
  const lowerThirds = sum(test => test.overlays.filter(({ kind }) => kind !== GUIDE_KIND).length);
  const sizes = houseFrameSizes(house).length;
  io.stdout(
    [
      `${house.name}: ${tests.length} tests, ${attempts.length} attempts (${kept} kept, ${attempts.length - kept} set aside).`,
      `Made in ${seconds.toFixed(1)} s:`,
      `  ${out}/               the site, ${pages} pages; start at ${out}/index.html`,
      `  ${out}/press/<test>/  ${sum(test => test.figures.length)} figures, ${sum(test => test.tables.length)} tables, ${lowerThirds} lower thirds in ${sizes} ${sizes === 1 ? 'size' : 'sizes'}, data`,
      ...tests.map(test => `  ${out}/tests/${test.id}/`),
      'Look at it: npm run preview',
      '',
    ].join('\n'),
  );
}
