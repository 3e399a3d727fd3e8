/**
 * How a build grows with an archive: `npm run archive -- [TESTS …]`, 25 and 100 where absent. Each test has 20 runs at
 * 25 Hz, one test a fortnight, every car tested three times; the press folders hold what the site's pages show. Of each
 * size: built from nothing, then three times each untouched and with one note edited. Archives are built side by side
 * in turns, each for a time by its size while the others are held, since the pace of a machine differs by more from one
 * hour to the next than what is looked for. Time and processor are those of the build with all processes it starts,
 * memory is the most that any one of them held (VmHWM, Linux) and the most that all of them held at once; of each
 * program also its own time of processor, as far as a look four times a second catches it. `--parts N` spreads the
 * first archive over N builds with `--shard` before.
 * A report as JSON goes to .evenground/archive.json, every process by itself. `--keep` leaves the folders, whose names
 * are told; `--again FOLDER` brings such a one up to date with the program and tells the untouched and the edited builds
 * anew, as often as `--times` says: the pace of a machine is another from one minute to the next.
 */
import { spawnSync } from 'node:child_process';
import { mkdirSync, mkdtempSync, readdirSync, rmSync, writeFileSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join, resolve } from 'node:path';
import { parseArgs } from 'node:util';
import { kmhToMps } from '../../pipeline/units.ts';
import { putFile } from '../content/put-file.ts';
import { CAR, contentFiles } from '../content/valid.ts';
import { AUTOMATIC_ESTATE, CARS } from '../simulate/cars.ts';
import { simulateDay } from '../simulate/day.ts';
import { writeCsv } from '../simulate/write-log.ts';
import { inTurns, type Spent, spent, start } from './builds-in-turns.ts';
import { median } from './side-by-side.ts';
import { programIn, SMALL_HOUSE, smallTest } from './small-project.ts';

const ROOT = resolve(import.meta.dirname, '../..');
const RUNS = 20;
/** Untouched and edited builds each. */
const TIMES = 3;
/** Days that are driven; every test's log is one of them with a line of its own, so that its bytes are its own. */
const DAYS = 4;
const DAY_MS = 86_400_000;
const FORTNIGHT_MS = 14 * DAY_MS;
const NEWEST_MS = Date.parse('2026-05-12');
const TESTS_OF_A_CAR = 3;
const HOUSE = SMALL_HOUSE.replace('papers: [light]', 'papers: [light], files: pages');

const days = Array.from(
  { length: DAYS },
  (_, day) =>
    simulateDay({
      seed: 100 + day,
      car: CARS[day % CARS.length] ?? AUTOMATIC_ESTATE,
      rateHz: 25,
      noiseMps: kmhToMps(0.08),
      runs: RUNS,
      aborted: 0,
      traffic: false,
    }).samples,
);

const testFolder = (test: number): string => `content/tests/test-${String(test).padStart(4, '0')}`;
const testText = (test: number, note: string): string =>
  smallTest(note)
    .replace('car: wren', `car: wren-${Math.floor(test / TESTS_OF_A_CAR)}`)
    .replace(
      'date: "2026-05-12"',
      `date: "${new Date(NEWEST_MS - test * FORTNIGHT_MS).toISOString().slice(0, 10)}"`,
    );

/** Writes the program and `content/` of so many tests under `root`. */
function writeArchive(root: string, tests: number): void {
  const put = (path: string, bytes: string | Uint8Array): void => putFile(root, path, bytes);
  const files = contentFiles({
    'content/house.yaml': HOUSE,
    'content/cars/wren.yaml': undefined,
    'content/tests/wren-dry/test.yaml': undefined,
    'content/tests/wren-dry/article.md': undefined,
    'content/tests/wren-dry/logs/morning.csv': undefined,
  });
  for (const [path, bytes] of files) put(path, bytes);
  for (let car = 0; car * TESTS_OF_A_CAR < tests; car += 1)
    put(`content/cars/wren-${car}.yaml`, CAR.replaceAll('Wren 40', `Wren ${car}`));
  for (let test = 0; test < tests; test += 1) {
    const folder = testFolder(test);
    put(`${folder}/test.yaml`, testText(test, 'Clean'));
    put(`${folder}/article.md`, 'It needs :number{of=0-100-kmh}.\n');
    put(`${folder}/logs/morning.csv`, writeCsv(days[test % DAYS]!, { preamble: [`Day ${test}`] }));
  }
  programIn(root);
}

const { values, positionals } = parseArgs({
  allowPositionals: true,
  options: {
    parts: { type: 'string' },
    keep: { type: 'boolean' },
    again: { type: 'string' },
    times: { type: 'string', default: String(TIMES) },
  },
});
const sizes = positionals.length === 0 ? [25, 100] : positionals.map(Number);
const times = Number(values.times);
const all: Spent[] = [];
const say = (took: Spent): void => {
  all.push(took);
  const { tests, what, wallS, userS, systemS, processes, togetherMb, holding, steps, beforePagesS } = took;
  const line = (value: number, digits: number, text: string): string =>
    `             ${value.toFixed(digits).padStart(8)} ${text}\n`;
  const sumOf = (of: Spent['processes'], key: 'userS' | 'systemS'): string =>
    of.reduce((sum, seen) => sum + seen[key], 0).toFixed(1);
  const programs = Map.groupBy(processes, ({ program }) => program);
  process.stdout.write(
    [
      `${String(tests).padStart(5)} tests  ${what.padEnd(24)} ${wallS.toFixed(2).padStart(8)} s ` +
        `${userS.toFixed(1).padStart(8)} + ${systemS.toFixed(1)} s of processor (user + system, ` +
        `${(((userS + systemS) / tests) * 1000).toFixed(0)} ms a test)  together ${togetherMb.toFixed(0)} MB: ` +
        `${holding.map(({ program, rssMb }) => `${program} ${rssMb.toFixed(0)}`).join(', ')}\n`,
      ...[...programs].map(([name, of]) =>
        line(
          Math.max(...of.map(({ peakMb }) => peakMb)),
          0,
          `MB ${name} (${of.length}; ${sumOf(of, 'userS')} + ${sumOf(of, 'systemS')} s of processor)`,
        ),
      ),
      ...(beforePagesS === wallS ? [] : [line(beforePagesS, 2, 's  until pages are begun')]),
      ...steps.map(({ name, wallS, cpuS }) =>
        line(wallS, 2, `s  ${name} (${cpuS.toFixed(1)} s of processor)`),
      ),
    ].join(''),
  );
};
/** Builds an archive untouched, and with one note edited. */
async function buildAgain(root: string, tests: number): Promise<void> {
  const again = async (what: string): Promise<void> => {
    // What the build before wrote, gigabytes after a first one, is not to be written to the disk during this one.
    spawnSync('sync');
    say(await spent(what, root, tests));
  };
  for (let time = 0; time < times; time += 1) await again('untouched');
  const edited = Math.floor(tests / 2);
  for (let time = 0; time < times; time += 1) {
    // Another note than any before, also of an earlier run.
    writeFileSync(join(root, testFolder(edited), 'test.yaml'), testText(edited, `Noted-${Date.now()}`));
    await again('one note edited');
  }
  const wholeS = (what: string, of: (took: Spent) => number): string => {
    const wallsS = all.filter(took => took.what === what && took.tests === tests).map(of);
    const [least, most] = [Math.min(...wallsS), Math.max(...wallsS)];
    return `median ${median(wallsS).toFixed(2)} s, ${least.toFixed(2)} to ${most.toFixed(2)} s`;
  };
  process.stdout.write(
    `${String(tests).padStart(5)} tests  untouched: ${wholeS('untouched', ({ wallS }) => wallS)}\n` +
      `${String(tests).padStart(5)} tests  one note edited, until pages are begun: ` +
      `${wholeS('one note edited', ({ beforePagesS }) => beforePagesS)}\n`,
  );
}

/** Archives of several sizes, side by side. */
async function buildFromNothing(): Promise<void> {
  const roots = sizes.map(() => mkdtempSync(join(tmpdir(), 'evenground-archive-')));
  try {
    for (const [index, tests] of sizes.entries()) writeArchive(roots[index]!, tests);
    const parts = Number(values.parts ?? 0);
    const sharded = Array.from({ length: parts }, (_, part) => `${part + 1}/${parts}`);
    const [firstRoot, firstSize] = [roots[0]!, sizes[0]!];
    for (const took of await Promise.all(
      sharded.map(part => spent(`part ${part}`, firstRoot, firstSize, ['--shard', part])),
    ))
      say(took);
    const builds = sizes.map((tests, index) => {
      const what = index === 0 && parts > 0 ? 'built after its parts' : 'built from nothing';
      return start(what, roots[index]!, tests);
    });
    await inTurns(builds, async index => {
      say(builds[index]!.spent());
      await buildAgain(roots[index]!, sizes[index]!);
    });
  } finally {
    for (const root of roots) {
      if (values.keep) process.stdout.write(`${root}\n`);
      else rmSync(root, { recursive: true, force: true });
    }
  }
}

/** An archive that an earlier run left. */
async function buildKept(root: string): Promise<void> {
  const tests = readdirSync(join(root, 'content/tests')).length;
  for (const part of ['node_modules', 'pipeline', 'site']) rmSync(join(root, part), { recursive: true });
  programIn(root);
  say(await spent('brought up to date', root, tests));
  await buildAgain(root, tests);
}

process.once('SIGINT', () => process.exit(130));
if (values.again === undefined) await buildFromNothing();
else await buildKept(resolve(values.again));
mkdirSync(join(ROOT, '.evenground'), { recursive: true });
writeFileSync(join(ROOT, '.evenground/archive.json'), `${JSON.stringify(all, null, 2)}\n`);
