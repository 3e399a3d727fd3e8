/** Builds that are held and let go on in turns, and what each takes with all processes that it starts. */
import { spawn } from 'node:child_process';
import { setTimeout as wait } from 'node:timers/promises';
import { ENDED, type ProcessSeen, processTree } from './process-tree.ts';

const SAMPLE_EVERY_MS = 250;
/** All builds together, before the first one goes on again. */
const ROUND_MS = 60_000;
/** The step of a build that makes pages. */
const PAGES = 'pages of tests';
/** Longer than any build, as long as a timer can. */
const MOST_MS = 2 ** 31 - 1;

/** A process of a build, as it was seen last. */
interface Seen extends ProcessSeen {
  /** When it was seen first and last, from the start of the build. */
  readonly fromS: number;
  readonly toS: number;
}

export interface Spent {
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
  /** From the start of the program until pages are begun, or to the end where none are made. */
  readonly beforePagesS: number;
}

/** Of a build, from the end of the one before it. */
interface Step {
  readonly name: string;
  readonly wallS: number;
  readonly cpuS: number;
}

/** A build that is held, or under way. */
export interface Build {
  readonly tests: number;
  /** Lets it go on for so long at most; true once it has ended. */
  goOn(mostMs: number): Promise<boolean>;
  /** What it took, the times it was held left out. @throws Error where it ended with anything but 0 */
  spent(): Spent;
}

/** A build of so many tests under `root`, held until it is let go on. */
export function start(what: string, root: string, tests: number, args: readonly string[] = []): Build {
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
  const watched = watching(child.pid!, nowS);
  let said = '';
  const steps: Step[] = [];
  child.stderr.on('data', data => {
    said += String(data);
    const told = [...said.matchAll(/^took \S+ s: (.*)$/gm)].slice(steps.length);
    if (told.length > 0) watched.look();
    for (const [, name = ''] of told) {
      const before = (key: 'wallS' | 'cpuS'): number => steps.reduce((sum, step) => sum + step[key], 0);
      const cpuS = watched.seen().processes.reduce((sum, { userS, systemS }) => sum + userS + systemS, 0);
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
      const watch = setInterval(() => {
        // One that was being started while its group was stopped may have missed that it goes on.
        signal('SIGCONT');
        watched.look();
      }, SAMPLE_EVERY_MS);
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
      const pages = steps.findIndex(({ name }) => name === PAGES);
      const beforePagesS = steps.slice(0, pages).reduce((sum, step) => sum + step.wallS, 0);
      return {
        what,
        tests,
        wallS: goneS,
        userS,
        systemS,
        steps,
        beforePagesS: pages < 0 ? goneS : beforePagesS,
        ...watched.seen(),
      };
    },
  };
}

/** The processes below one, as looks at them find them; `nowS` is the clock of the build. */
function watching(pid: number, nowS: () => number) {
  const processes = new Map<number, Seen>();
  let togetherMb = 0;
  let holding: Spent['holding'] = [];
  return {
    look(): void {
      const all = processTree(pid);
      for (const seen of all) {
        const before = processes.get(seen.pid);
        const { program, peakMb } = seen.program === ENDED && before !== undefined ? before : seen;
        processes.set(seen.pid, { ...seen, program, peakMb, fromS: before?.fromS ?? nowS(), toS: nowS() });
      }
      const sumMb = all.reduce((sum, { rssMb }) => sum + rssMb, 0);
      if (sumMb <= togetherMb) return;
      togetherMb = sumMb;
      holding = all.map(({ program, rssMb }) => ({ program, rssMb }));
    },
    seen: (): Pick<Spent, 'processes' | 'togetherMb' | 'holding'> => ({
      processes: [...processes.values()],
      togetherMb,
      holding,
    }),
  };
}

/** A build to its end. */
export async function spent(
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
export async function inTurns(
  builds: readonly Build[],
  ended: (index: number) => Promise<void>,
): Promise<void> {
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
