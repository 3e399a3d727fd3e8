/**
 * How a build grows with an archive: `npm run archive -- [TESTS …]`, 25 and 100 where absent. Each test has 20 runs at
 * 25 Hz, one test a fortnight, every car tested three times; the press folders hold what the site's pages show. Of each
 * size: built from nothing, built again untouched, and built after one note was edited. Time and processor are those of
 * the build with all processes it starts, memory is the most that any one of them held (VmHWM, Linux) and the most that
 * all of them held at once. `--parts N` spreads the first archive over N builds with `--shard` before.
 * A report as JSON goes to .evenground/archive.json. `--keep` leaves the folders, whose names are told.
 */
import { spawn } from 'node:child_process';
import { mkdirSync, mkdtempSync, readdirSync, readFileSync, rmSync, writeFileSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { dirname, join, resolve } from 'node:path';
import { parseArgs } from 'node:util';
import { kmhToMps } from '../../pipeline/units.ts';
import { CAR, contentFiles } from '../content/valid.ts';
import { AUTOMATIC_ESTATE, CARS } from '../simulate/cars.ts';
import { simulateDay } from '../simulate/day.ts';
import { writeCsv } from '../simulate/write-log.ts';
import { programIn, SMALL_HOUSE, smallTest } from './small-project.ts';

const ROOT = resolve(import.meta.dirname, '../..');
const RUNS = 20;
/** Days that are driven; every test's log is one of them with a line of its own, so that its bytes are its own. */
const DAYS = 4;
const DAY_MS = 86_400_000;
const FORTNIGHT_MS = 14 * DAY_MS;
const NEWEST_MS = Date.parse('2026-05-12');
const TESTS_OF_A_CAR = 3;
const SAMPLE_EVERY_MS = 250;
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
  const put = (path: string, bytes: string | Uint8Array): void => {
    mkdirSync(dirname(join(root, path)), { recursive: true });
    writeFileSync(join(root, path), bytes);
  };
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

interface Spent {
  readonly what: string;
  readonly tests: number;
  readonly wallS: number;
  readonly cpuS: number;
  /** The most that a process of each program held, and all together at once; none where the system does not tell. */
  readonly peakMb: Readonly<Record<string, number>>;
  readonly togetherMb: number;
  /** Seconds of each step, as the build tells them. */
  readonly steps: Readonly<Record<string, number>>;
}

/** Processes with `pid` and all below it, with what each holds and has held, MB; none where there is no /proc. */
function tree(
  pid: number,
): readonly { readonly name: string; readonly rssMb: number; readonly peakMb: number }[] {
  const below = new Map<number, number[]>();
  const held = new Map<number, { name: string; rssMb: number; peakMb: number }>();
  for (const name of readdirSync('/proc')) {
    if (!/^\d+$/.test(name)) continue;
    try {
      const status = readFileSync(`/proc/${name}/status`, 'utf8');
      const field = (key: string): number =>
        Number(new RegExp(`^${key}:\\s*(\\d+)`, 'm').exec(status)?.[1] ?? 0);
      below.set(field('PPid'), [...(below.get(field('PPid')) ?? []), Number(name)]);
      const program =
        /(\w[\w-]*)\.(?:mjs|ts)\0/.exec(readFileSync(`/proc/${name}/cmdline`, 'utf8'))?.[1] ?? 'others';
      held.set(Number(name), { name: program, rssMb: field('VmRSS') / 1024, peakMb: field('VmHWM') / 1024 });
    } catch {
      // It ended meanwhile.
    }
  }
  const found: { name: string; rssMb: number; peakMb: number }[] = [];
  const visit = (one: number): void => {
    const its = held.get(one);
    if (its) found.push(its);
    for (const child of below.get(one) ?? []) visit(child);
  };
  visit(pid);
  return found;
}

/** A build to its end. */
async function spent(
  what: string,
  root: string,
  tests: number,
  args: readonly string[] = [],
): Promise<Spent> {
  const began = performance.now();
  // The shell tells the processor time of a whole tree of processes.
  const child = spawn(
    'bash',
    [
      '-c',
      'TIMEFORMAT="cpu %U %S"; time "$@"',
      'bash',
      process.execPath,
      'pipeline/evenground.mjs',
      'build',
      ...args,
    ],
    {
      cwd: root,
      stdio: ['ignore', 'ignore', 'pipe'],
      env: { ...process.env, EVENGROUND_TIMES: '1' },
    },
  );
  let said = '';
  child.stderr.on('data', data => {
    said += String(data);
  });
  const peakMb: Record<string, number> = {};
  let togetherMb = 0;
  const watch = setInterval(() => {
    const all = tree(child.pid!);
    for (const { name, peakMb: held } of all) peakMb[name] = Math.max(peakMb[name] ?? 0, held);
    togetherMb = Math.max(
      togetherMb,
      all.reduce((sum, { rssMb }) => sum + rssMb, 0),
    );
  }, SAMPLE_EVERY_MS);
  const status = await new Promise(done => child.once('close', done));
  clearInterval(watch);
  if (status !== 0) throw new Error(`The build ended with ${String(status)}:\n${said}`);
  const [, user = 0, system = 0] = (/^cpu (\S+) (\S+)$/m.exec(said) ?? []).map(Number);
  const steps = Object.fromEntries(
    [...said.matchAll(/^took (\S+) s: (.*)$/gm)].map(([, seconds, name]) => [name!, Number(seconds)]),
  );
  return {
    what,
    tests,
    wallS: (performance.now() - began) / 1000,
    cpuS: user + system,
    peakMb,
    togetherMb,
    steps,
  };
}

const { values, positionals } = parseArgs({
  allowPositionals: true,
  options: { parts: { type: 'string' }, keep: { type: 'boolean' } },
});
const sizes = positionals.length === 0 ? [25, 100] : positionals.map(Number);
const all: Spent[] = [];
const say = (took: Spent): void => {
  all.push(took);
  const { tests, what, wallS, cpuS, peakMb, togetherMb, steps } = took;
  process.stdout.write(
    `${String(tests).padStart(5)} tests  ${what.padEnd(24)} ${wallS.toFixed(2).padStart(8)} s ${cpuS.toFixed(1).padStart(8)} s of processor ` +
      `(${((cpuS / tests) * 1000).toFixed(0)} ms a test)  together ${togetherMb.toFixed(0)} MB\n` +
      Object.entries(peakMb)
        .map(([name, peak]) => `             ${peak.toFixed(0).padStart(8)} MB ${name}\n`)
        .join('') +
      Object.entries(steps)
        .map(([name, seconds]) => `             ${seconds.toFixed(2).padStart(8)} s  ${name}\n`)
        .join(''),
  );
};
for (const [index, tests] of sizes.entries()) {
  const root = mkdtempSync(join(tmpdir(), 'evenground-archive-'));
  try {
    writeArchive(root, tests);
    const parts = index === 0 && values.parts !== undefined ? Number(values.parts) : 0;
    const sharded = Array.from({ length: parts }, (_, part) => `${part + 1}/${parts}`);
    for (const took of await Promise.all(
      sharded.map(part => spent(`part ${part}`, root, tests, ['--shard', part])),
    ))
      say(took);
    say(await spent(parts > 0 ? 'built after its parts' : 'built from nothing', root, tests));
    say(await spent('untouched', root, tests));
    writeFileSync(
      join(root, testFolder(Math.floor(tests / 2)), 'test.yaml'),
      testText(Math.floor(tests / 2), 'Tidy'),
    );
    say(await spent('one note edited', root, tests));
  } finally {
    if (values.keep) process.stdout.write(`${root}\n`);
    else rmSync(root, { recursive: true, force: true });
  }
}
mkdirSync(join(ROOT, '.evenground'), { recursive: true });
writeFileSync(join(ROOT, '.evenground/archive.json'), `${JSON.stringify(all, null, 2)}\n`);
