/**
 * How a build grows with an archive: `npm run archive -- [TESTS …]`, 25 and 100 where absent. Each test has 20 runs at
 * 25 Hz, one test a fortnight, every car tested three times; the press folders hold what the site's pages show. Of each
 * size: built from nothing, built again untouched, and built after one note was edited. Archives are built side by side
 * in turns, each for a time by its size while the others are held, since the pace of a machine differs by more from one
 * hour to the next than what is looked for. Time and processor are those of
 * the build with all processes it starts, memory is the most that any one of them held (VmHWM, Linux) and the most that
 * all of them held at once; of each program also its own time of processor, as far as a look four times a second
 * catches it. `--parts N` spreads the first archive over N builds with `--shard` before.
 * A report as JSON goes to .evenground/archive.json, every process by itself. `--keep` leaves the folders, whose names
 * are told.
 */
import { spawn } from 'node:child_process';
import { mkdirSync, mkdtempSync, readdirSync, readFileSync, rmSync, writeFileSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { dirname, join, resolve } from 'node:path';
import { setTimeout as wait } from 'node:timers/promises';
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
/** All archives together, before the first one goes on again. */
const ROUND_MS = 60_000;
/** Longer than any build, as long as a timer can. */
const MOST_MS = 2 ** 31 - 1;
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

/** A process of a build, as it was seen last. */
interface Seen {
  readonly pid: number;
  readonly program: string;
  /** When it was seen first and last, from the start of the build. */
  readonly fromS: number;
  readonly toS: number;
  readonly userS: number;
  readonly systemS: number;
  readonly rssMb: number;
  readonly peakMb: number;
}

interface Spent {
  readonly what: string;
  readonly tests: number;
  readonly wallS: number;
  readonly userS: number;
  readonly systemS: number;
  readonly processes: readonly Seen[];
  /** The most that all processes held at once, and who held it; nothing where the system does not tell. */
  readonly togetherMb: number;
  readonly holding: readonly Pick<Seen, 'program' | 'rssMb'>[];
  /** As the build tells their ends. */
  readonly steps: readonly Step[];
}

/** Of a build, from the end of the one before it. */
interface Step {
  readonly name: string;
  readonly wallS: number;
  readonly cpuS: number;
}

/** Ticks of /proc/PID/stat in a second: USER_HZ of proc(5), 100 on every architecture that Node is built for. */
const TICKS_PER_S = 100;

/** Processes with `pid` and all below it; none where there is no /proc. */
function tree(pid: number): readonly Omit<Seen, 'fromS' | 'toS'>[] {
  const below = new Map<number, number[]>();
  for (const name of readdirSync('/proc')) {
    if (!/^\d+$/.test(name)) continue;
    const parent = statOf(Number(name))?.parent;
    if (parent !== undefined) below.set(parent, [...(below.get(parent) ?? []), Number(name)]);
  }
  const found: Omit<Seen, 'fromS' | 'toS'>[] = [];
  const visit = (one: number): void => {
    const seen = seenNow(one);
    if (seen) found.push(seen);
    for (const child of below.get(one) ?? []) visit(child);
  };
  visit(pid);
  return found;
}

/** Fields of /proc/PID/stat, which follow a name that may hold anything; undefined where the process has ended. */
function statOf(pid: number): { parent: number; userS: number; systemS: number } | undefined {
  try {
    const text = readFileSync(`/proc/${pid}/stat`, 'utf8');
    const [, parent, ...rest] = text.slice(text.lastIndexOf(')') + 2).split(' ');
    return {
      parent: Number(parent),
      userS: Number(rest[9]) / TICKS_PER_S,
      systemS: Number(rest[10]) / TICKS_PER_S,
    };
  } catch {
    return undefined;
  }
}

function seenNow(pid: number): Omit<Seen, 'fromS' | 'toS'> | undefined {
  const times = statOf(pid);
  if (times === undefined) return undefined;
  try {
    const status = readFileSync(`/proc/${pid}/status`, 'utf8');
    const heldMb = (key: string): number =>
      Number(new RegExp(`^${key}:\\s*(\\d+)`, 'm').exec(status)?.[1] ?? 0) / 1024;
    const command = readFileSync(`/proc/${pid}/cmdline`, 'utf8');
    const program = /(\w[\w-]*)\.(?:mjs|ts)\0/.exec(command)?.[1] ?? nameOf(command);
    const { userS, systemS } = times;
    return { pid, program, userS, systemS, rssMb: heldMb('VmRSS'), peakMb: heldMb('VmHWM') };
  } catch {
    return undefined;
  }
}

/** Of a program that is not ours, the name of its file; one that has ended has none any more, and its whole times. */
const nameOf = (command: string): string => (command.split('\0')[0] ?? '').replace(/^.*\//, '') || ENDED;
const ENDED = 'ended';

/** A build that is held, or under way. */
interface Build {
  readonly tests: number;
  /** Lets it go on for so long at most; true once it has ended. */
  goOn(mostMs: number): Promise<boolean>;
  /** What it took, the times it was held left out. @throws Error where it ended with anything but 0 */
  spent(): Spent;
}

function start(what: string, root: string, tests: number, args: readonly string[] = []): Build {
  // The shell tells the processor time of a whole tree of processes, which is a group, so that it can be held.
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
      detached: true,
      stdio: ['ignore', 'ignore', 'pipe'],
      env: { ...process.env, EVENGROUND_TIMES: '1' },
    },
  );
  const signal = (name: NodeJS.Signals): void => {
    try {
      process.kill(-child.pid!, name);
    } catch {
      // It has ended.
    }
  };
  const endWithThis = (): void => signal('SIGKILL');
  process.once('exit', endWithThis);
  signal('SIGSTOP');
  let goneS = 0;
  let since: number | undefined;
  const nowS = (): number => goneS + (since === undefined ? 0 : (performance.now() - since) / 1000);
  const processes = new Map<number, Seen>();
  let togetherMb = 0;
  let holding: Spent['holding'] = [];
  const look = (): void => {
    const all = tree(child.pid!);
    for (const seen of all) {
      const before = processes.get(seen.pid);
      const { program, peakMb } = seen.program === ENDED && before !== undefined ? before : seen;
      processes.set(seen.pid, { ...seen, program, peakMb, fromS: before?.fromS ?? nowS(), toS: nowS() });
    }
    const sumMb = all.reduce((sum, { rssMb }) => sum + rssMb, 0);
    if (sumMb > togetherMb) {
      togetherMb = sumMb;
      holding = all.map(({ program, rssMb }) => ({ program, rssMb }));
    }
  };
  let said = '';
  const steps: Step[] = [];
  child.stderr.on('data', data => {
    said += String(data);
    const told = [...said.matchAll(/^took \S+ s: (.*)$/gm)].slice(steps.length);
    if (told.length > 0) look();
    for (const [, name = ''] of told) {
      const before = (key: 'wallS' | 'cpuS'): number => steps.reduce((sum, step) => sum + step[key], 0);
      const cpuS = [...processes.values()].reduce((sum, { userS, systemS }) => sum + userS + systemS, 0);
      steps.push({ name, wallS: nowS() - before('wallS'), cpuS: cpuS - before('cpuS') });
    }
  });
  let status: number | null | undefined;
  const ended = new Promise<void>(done =>
    child.once('close', code => {
      status = code;
      process.removeListener('exit', endWithThis);
      done();
    }),
  );
  return {
    tests,
    async goOn(mostMs) {
      since = performance.now();
      signal('SIGCONT');
      const watch = setInterval(look, SAMPLE_EVERY_MS);
      const enough = new AbortController();
      await Promise.race([ended, wait(mostMs, undefined, { signal: enough.signal }).catch(() => {})]).finally(
        () => enough.abort(),
      );
      clearInterval(watch);
      if (status === undefined) signal('SIGSTOP');
      goneS = nowS();
      since = undefined;
      return status !== undefined;
    },
    spent() {
      if (status !== 0) throw new Error(`The build ended with ${String(status)}:\n${said}`);
      const [, userS = 0, systemS = 0] = (/^cpu (\S+) (\S+)$/m.exec(said) ?? []).map(Number);
      const all = [...processes.values()];
      return { what, tests, wallS: goneS, userS, systemS, processes: all, togetherMb, holding, steps };
    },
  };
}

/** A build to its end. */
async function spent(
  what: string,
  root: string,
  tests: number,
  args: readonly string[] = [],
): Promise<Spent> {
  const build = start(what, root, tests, args);
  await build.goOn(MOST_MS);
  return build.spent();
}

/**
 * Builds side by side, the others held while one goes on, each for a time by its tests, so that whatever the machine
 * does meanwhile is shared evenly.
 * @param ended hears of each as it ends; the others are held until then
 */
async function inTurns(builds: readonly Build[], ended: (index: number) => Promise<void>): Promise<void> {
  const sum = builds.reduce((sum, { tests }) => sum + tests, 0);
  const left = new Map(builds.entries());
  while (left.size > 0) {
    for (const [index, build] of left) {
      if (!(await build.goOn(left.size === 1 ? MOST_MS : (ROUND_MS * build.tests) / sum))) continue;
      left.delete(index);
      await ended(index);
    }
  }
}

const { values, positionals } = parseArgs({
  allowPositionals: true,
  options: { parts: { type: 'string' }, keep: { type: 'boolean' } },
});
const sizes = positionals.length === 0 ? [25, 100] : positionals.map(Number);
const all: Spent[] = [];
const say = (took: Spent): void => {
  all.push(took);
  const { tests, what, wallS, userS, systemS, processes, togetherMb, holding, steps } = took;
  const line = (value: number, digits: number, text: string): string =>
    `             ${value.toFixed(digits).padStart(8)} ${text}\n`;
  const sumOf = (of: readonly Seen[], key: 'userS' | 'systemS'): string =>
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
      ...steps.map(({ name, wallS, cpuS }) =>
        line(wallS, 2, `s  ${name} (${cpuS.toFixed(1)} s of processor)`),
      ),
    ].join(''),
  );
};
process.once('SIGINT', () => process.exit(130));
const roots = sizes.map(() => mkdtempSync(join(tmpdir(), 'evenground-archive-')));
try {
  for (const [index, tests] of sizes.entries()) writeArchive(roots[index]!, tests);
  const parts = Number(values.parts ?? 0);
  const sharded = Array.from({ length: parts }, (_, part) => `${part + 1}/${parts}`);
  const [first, most] = [roots[0]!, sizes[0]!];
  for (const took of await Promise.all(
    sharded.map(part => spent(`part ${part}`, first, most, ['--shard', part])),
  ))
    say(took);
  const builds = sizes.map((tests, index) => {
    const what = index === 0 && parts > 0 ? 'built after its parts' : 'built from nothing';
    return start(what, roots[index]!, tests);
  });
  await inTurns(builds, async index => {
    const [root, tests] = [roots[index]!, sizes[index]!];
    say(builds[index]!.spent());
    say(await spent('untouched', root, tests));
    const edited = Math.floor(tests / 2);
    writeFileSync(join(root, testFolder(edited), 'test.yaml'), testText(edited, 'Tidy'));
    say(await spent('one note edited', root, tests));
  });
} finally {
  for (const root of roots) {
    if (values.keep) process.stdout.write(`${root}\n`);
    else rmSync(root, { recursive: true, force: true });
  }
}
mkdirSync(join(ROOT, '.evenground'), { recursive: true });
writeFileSync(join(ROOT, '.evenground/archive.json'), `${JSON.stringify(all, null, 2)}\n`);
