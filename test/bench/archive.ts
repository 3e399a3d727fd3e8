/**
 * How work grows with an archive: `npm run archive -- [TESTS …]`, 20 and 80 where absent; `--parts N` also makes the
 * press folders of the first one, in N processes at once. Each test has 20 runs at 25 Hz. Time, processor and peak memory
 * are those of processes of their own: measuring all logs, test by test, then loading them measured.
 */
import { spawn } from 'node:child_process';
import { cpSync, mkdirSync, mkdtempSync, rmSync, symlinkSync, writeFileSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { dirname, join, resolve } from 'node:path';
import { parseArgs } from 'node:util';
import { kmhToMps } from '../../pipeline/units.ts';
import { contentFiles } from '../content/valid.ts';
import { AUTOMATIC_ESTATE, CARS } from '../simulate/cars.ts';
import { simulateDay } from '../simulate/day.ts';
import { writeCsv } from '../simulate/write-log.ts';
import { SMALL_HOUSE, smallTest } from './small-project.ts';

const ROOT = resolve(import.meta.dirname, '../..');
const RUNS = 20;
/** Days that are driven; every test's log is one of them with a line of its own, so that its bytes are its own. */
const DAYS = 4;

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

/** Writes `content/` of so many tests under `root`. */
function writeArchive(root: string, tests: number): void {
  const changes: Record<string, string | Uint8Array | undefined> = {
    'content/house.yaml': SMALL_HOUSE,
    'content/tests/wren-dry/test.yaml': undefined,
    'content/tests/wren-dry/article.md': undefined,
    'content/tests/wren-dry/logs/morning.csv': undefined,
  };
  const put = (path: string, bytes: Uint8Array): void => {
    mkdirSync(dirname(join(root, path)), { recursive: true });
    writeFileSync(join(root, path), bytes);
  };
  for (const [path, bytes] of contentFiles(changes)) put(path, bytes);
  const text = (said: string): Uint8Array => new TextEncoder().encode(said);
  for (let test = 0; test < tests; test += 1) {
    const folder = `content/tests/test-${String(test).padStart(4, '0')}`;
    put(`${folder}/test.yaml`, text(smallTest('Clean')));
    put(`${folder}/article.md`, text('It needs :number{of=0-100-kmh}.\n'));
    put(`${folder}/logs/morning.csv`, writeCsv(days[test % DAYS]!, { preamble: [`Session ${test}`] }));
  }
}

interface Spent {
  readonly wallS: number;
  readonly cpuS: number;
  readonly peakMb: number;
}

/** Runs code of this program in a process of its own that ends by saying what it took. */
async function spent(root: string, code: string): Promise<Spent> {
  const told = `${code}
    const { userCPUTime, systemCPUTime, maxRSS } = process.resourceUsage();
    process.stdout.write(JSON.stringify({ cpuS: (userCPUTime + systemCPUTime) / 1e6, peakMb: maxRSS / 1024 }));`;
  const began = performance.now();
  const child = spawn(process.execPath, ['--input-type=module', '--eval', told], {
    cwd: root,
    stdio: ['ignore', 'pipe', 'inherit'],
  });
  let said = '';
  child.stdout.on('data', data => {
    said += String(data);
  });
  const status = await new Promise(done => child.once('close', done));
  if (status !== 0) throw new Error(`Ended with ${String(status)}`);
  return { wallS: (performance.now() - began) / 1000, ...(JSON.parse(said) as Omit<Spent, 'wallS'>) };
}

const from = (module: string): string => JSON.stringify(join(ROOT, 'pipeline', module));
/** Test by test, nothing held. */
const measure = (part = 1, of = 1): string => `
  const { checkContent } = await import(${from('pipeline.ts')});
  await checkContent(process.cwd(), { only: index => index % ${of} === ${part - 1} });`;
const LOAD = `
  const { loadPublication } = await import(${from('pipeline.ts')});
  const { tests } = await loadPublication(process.cwd());
  if (tests.some(({ attempts }) => attempts.length < ${RUNS})) throw new Error('Runs were lost');`;

const { values, positionals } = parseArgs({ allowPositionals: true, options: { parts: { type: 'string' } } });
const sizes = positionals.length === 0 ? [20, 80] : positionals.map(Number);
const say = (what: string, tests: number, { wallS, cpuS, peakMb }: Spent): void => {
  process.stdout.write(
    `${String(tests).padStart(5)} tests  ${what.padEnd(34)} ${wallS.toFixed(1).padStart(7)} s ${cpuS.toFixed(1).padStart(7)} s of processor ` +
      `(${((cpuS / tests) * 1000).toFixed(0)} ms a test)  peak ${peakMb.toFixed(0)} MB\n`,
  );
};
for (const [index, tests] of sizes.entries()) {
  const root = mkdtempSync(join(tmpdir(), 'evenground-archive-'));
  try {
    writeArchive(root, tests);
    say('logs measured', tests, await spent(root, measure()));
    say('loaded, measured before', tests, await spent(root, LOAD));
    const parts = index === 0 && values.parts !== undefined ? Number(values.parts) : 0;
    if (parts > 0) {
      for (const part of ['pipeline', 'site', 'package.json', 'package-lock.json', 'astro.config.mjs'])
        cpSync(join(ROOT, part), join(root, part), { recursive: true });
      symlinkSync(join(ROOT, 'node_modules'), join(root, 'node_modules'));
      const cli = (args: readonly string[]): string => `
        const { main } = await import(${from('cli.ts')});
        const silent = { stdout() {}, stderr() {}, isTerminal: false, root: process.cwd() };
        if ((await main(${JSON.stringify(args)}, silent)) !== 0) throw new Error('It failed');`;
      const made = await Promise.all(
        Array.from({ length: parts }, (_, part) =>
          spent(root, cli(['build', '--shard', `${part + 1}/${parts}`])),
        ),
      );
      for (const [part, took] of made.entries())
        say(`press folders, part ${part + 1} of ${parts}`, tests, took);
      say('all parts again, found done', tests, await spent(root, cli(['build', '--shard', '1/1'])));
    }
  } finally {
    rmSync(root, { recursive: true, force: true });
  }
}
