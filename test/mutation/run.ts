/**
 * How many small faults in the code that measures are found by tests: `npm run mutants -- [--sample 600 | --all]
 * [--seed 1] [--only PATH] [--budget 12]`, or `--again` for those alone that survived last time. One fault at a time is put into a copy of a module in memory; the files
 * themselves stay untouched. See DEVELOPERS.md for what counts. The report stands in .evenground/mutants/.
 */
import { type ChildProcess, fork } from 'node:child_process';
import { createHash } from 'node:crypto';
import { mkdirSync, readdirSync, readFileSync, rmSync } from 'node:fs';
import { setPriority } from 'node:os';
import { dirname, join, relative, resolve } from 'node:path';
import { parseArgs } from 'node:util';
import { progressTo } from '../../pipeline/command/progress.ts';
import { writeWhole } from '../../pipeline/press/whole.ts';
import { isEquivalent } from './equivalent.ts';
import { type Mutant, mutantsOf, mutantToText } from './mutate.ts';
import { firstMs, indexed, planFor } from './plan.ts';
import { shareInterval, shuffled, stratified } from './sample.ts';
import type { Answer, FileReach, Order, Part } from './worker.ts';

const ROOT = resolve(import.meta.dirname, '../..');
const KEPT = join(ROOT, '.evenground/mutants');
/** What is changed, and the folders of tests that must find it. */
const SOURCES = ['pipeline/measurement', 'pipeline/run', 'pipeline/conditions'];
const TESTS = ['trace', 'run', 'measurement', 'road', 'conditions', 'result', 'outside', 'article'].map(
  folder => `test/${folder}`,
);
/** Simulations of ten seconds to minutes before their first test: what only they find counts as not found. */
const LEFT_OUT = new Set(
  ['coverage', 'shifts-days', 'simulated-days', 'derived-speed'].map(
    name => `test/measurement/${name}.test.ts`,
  ),
);
/** So much longer than without a mutant, and so much more, before a test counts as hanging, ms. */
const PATIENCE = { times: 10, moreMs: 20_000 };
/** Gives way to everything else on the machine. */
const NICE = 10;

interface Outcome {
  readonly mutant: Mutant;
  readonly how: 'found' | 'hung' | 'survived' | 'unreached';
  readonly by?: string;
}

const { values } = parseArgs({
  options: {
    sample: { type: 'string', default: '600' },
    all: { type: 'boolean', default: false },
    seed: { type: 'string', default: '1' },
    only: { type: 'string', default: '' },
    budget: { type: 'string', default: '12' },
    again: { type: 'boolean', default: false },
  },
});
const size = values.all ? Number.POSITIVE_INFINITY : Number(values.sample);
const seed = Number(values.seed);
const budgetMs = Number(values.budget) * 1000;
if (!(size > 0) || !Number.isInteger(seed) || !(budgetMs > 0)) {
  process.stderr.write(
    'Usage: npm run mutants -- [--sample MUTANTS | --all] [--seed WHOLE NUMBER] [--only PART OF A PATH] [--budget SECONDS A MUTANT] [--again]\n',
  );
  process.exit(2);
}

const sourcesUnder = (folder: string, ending: string): string[] =>
  (readdirSync(join(ROOT, folder), { recursive: true }) as string[])
    .filter(file => file.endsWith(ending))
    .map(file => `${folder}/${file.replaceAll('\\', '/')}`)
    .sort();
const read = (file: string): string => readFileSync(join(ROOT, file), 'utf8');
const files = SOURCES.flatMap(folder => sourcesUnder(folder, '.ts'));
const everyMutant = files.flatMap(file => mutantsOf(file, read(file)));
const counted = everyMutant.filter(mutant => !isEquivalent(mutant) && mutant.file.includes(values.only));
const chosen = values.again ? lastSurvivors() : stratified(counted, ({ file }) => file, size, seed);
const sites = files.map(
  file => [file, [...new Set(everyMutant.filter(one => one.file === file).map(one => one.site))]] as const,
);
const places = new Map(
  sites.flatMap(([file, keys]) => keys.map(key => `${file} ${key}`)).map((key, n) => [key, n]),
);

function lastSurvivors(): readonly Mutant[] {
  const { survivors } = JSON.parse(read('.evenground/mutants/report.json')) as {
    survivors: readonly Mutant[];
  };
  const keyOf = ({ file, text, from, to }: Mutant): string => JSON.stringify([file, text, from, to]);
  const keys = new Set(survivors.map(keyOf));
  return counted.filter(mutant => keys.has(keyOf(mutant)));
}

let child: ChildProcess | undefined;
const isTerminal = process.stderr.isTTY === true;
const progress = progressTo({ stderr: text => void process.stderr.write(text), isTerminal });
const line = (text: string): void => {
  progress.close();
  process.stdout.write(`${text}\n`);
};

/** The process for one kind of work; a new one where the last was ended. */
function worker(): ChildProcess {
  if (child?.connected) return child;
  child = fork(join(import.meta.dirname, 'worker.ts'), [], {
    cwd: ROOT,
    execArgv: ['--max-old-space-size=2048'],
  });
  if (child.pid !== undefined) setPriority(child.pid, NICE);
  return child;
}

async function end(): Promise<void> {
  const ending = child;
  child = undefined;
  if (ending === undefined || ending.exitCode !== null || ending.signalCode !== null) return;
  const gone = new Promise(done => ending.once('exit', done));
  ending.kill('SIGKILL');
  await gone;
  rmSync(join(KEPT, `cache-${ending.pid}`), { recursive: true, force: true });
}

/** Sends an order and hands on its answers until one is the last. @returns undefined where the process died */
function ask<T>(order: Order, onAnswer: (answer: Answer) => T | undefined, onDeath: () => T): Promise<T> {
  const to = worker();
  return new Promise(done => {
    const settle = (value: T): void => {
      to.off('message', heard);
      to.off('exit', died);
      done(value);
    };
    const heard = (answer: Answer): void => {
      const value = onAnswer(answer);
      if (value !== undefined) settle(value);
    };
    const died = (): void => settle(onDeath());
    to.on('message', heard);
    to.on('exit', died);
    to.send(order);
  });
}

/** A file and all that it imports from the project, directly and through others. */
function closureOf(file: string, found = new Set<string>()): Set<string> {
  if (found.has(file)) return found;
  found.add(file);
  for (const [, target] of read(file).matchAll(/(?:from|import)\s*\(?\s*'(\.[^']+\.ts)'/g)) {
    closureOf(relative(ROOT, resolve(ROOT, dirname(file), target!)).replaceAll('\\', '/'), found);
  }
  return found;
}

/** Which places each test reaches; kept for each test file as long as it, all it imports and the content are the same. */
async function reaches(): Promise<readonly FileReach[]> {
  const tests = TESTS.flatMap(folder => sourcesUnder(folder, '.test.ts')).filter(file => !LEFT_OUT.has(file));
  const common = createHash('sha256').update(JSON.stringify([process.version, sites]));
  for (const file of sourcesUnder('content', ''))
    if (/\.(yaml|md|csv)$/.test(file)) common.update(read(file));
  const base = common.digest('hex');
  const keyOf = (file: string): string => {
    const hash = createHash('sha256').update(base);
    for (const one of [...closureOf(file)].sort()) hash.update(`${one}\n${read(one)}`);
    return hash.digest('hex');
  };
  const keys = new Map(tests.map(file => [file, keyOf(file)]));
  let known: Record<string, { readonly key: string; readonly reach: FileReach }> = {};
  try {
    known = JSON.parse(read('.evenground/mutants/reach.json')) as typeof known;
  } catch {
    // Nothing is kept yet.
  }
  const due = tests.filter(file => known[file]?.key !== keys.get(file));
  if (due.length > 0) {
    progress.step('test files seen through', due.length);
    await ask(
      { kind: 'reach', files: due, sites },
      answer => {
        if (answer.kind === 'reach') {
          const { file } = answer.reach;
          known[file] = { key: keys.get(file)!, reach: answer.reach };
          progress.done();
        }
        return answer.kind === 'reached' || undefined;
      },
      () => {
        throw new Error('The process that runs the tests ended by itself');
      },
    );
    progress.close();
    await end();
    await write('reach.json', JSON.stringify(known));
  }
  return tests.map(file => known[file]!.reach);
}

/** How often each test file was asked, and how often it found. */
const asked = new Map<string, number>();
const finders = new Map<string, number>();
/** What costs least for a find goes first; which tests are asked at all does not hang on it. */
function likelyFirst(parts: readonly Part[]): readonly Part[] {
  const costOf = (part: Part): number =>
    (firstMs(part) * ((asked.get(part.file) ?? 0) + 2)) / ((finders.get(part.file) ?? 0) + 1);
  return parts.toSorted((a, b) => costOf(a) - costOf(b));
}

async function attempt(mutant: Mutant, parts: readonly Part[]): Promise<Outcome> {
  if (parts.length === 0) return { mutant, how: 'unreached' };
  let hanging: NodeJS.Timeout | undefined;
  let at = '';
  try {
    return await ask<Outcome>(
      { kind: 'try', mutant, parts },
      answer => {
        if (answer.kind === 'begins') {
          at = answer.part.file;
          asked.set(at, (asked.get(at) ?? 0) + 1);
          clearTimeout(hanging);
          const patienceMs = answer.part.expectedMs * PATIENCE.times + PATIENCE.moreMs;
          hanging = setTimeout(() => void end(), patienceMs);
        }
        if (answer.kind === 'found') finders.set(at, (finders.get(at) ?? 0) + 1);
        if (answer.kind === 'found') return { mutant, how: 'found', by: `${answer.by}: ${answer.how}` };
        return answer.kind === 'survived' ? { mutant, how: 'survived' } : undefined;
      },
      () => ({ mutant, how: 'hung', by: at }),
    );
  } finally {
    clearTimeout(hanging);
  }
}

const write = (name: string, text: string): Promise<void> => writeWhole(join(KEPT, name), text);

const wasFound = ({ how }: Outcome): boolean => how === 'found' || how === 'hung';
const percent = (share: number): string => `${(share * 100).toFixed(1)} %`;
function score(name: string, list: readonly Outcome[]): string {
  const found = list.filter(wasFound).length;
  const [low, high] = shareInterval(found, list.length);
  return `${name}: ${found} of ${list.length} found, ${percent(found / list.length)} (95 %: ${percent(low)} to ${percent(high)})`;
}

async function report(outcomes: readonly Outcome[]): Promise<void> {
  const content = {
    sources: SOURCES,
    mutants: everyMutant.length,
    equivalent: everyMutant.filter(isEquivalent).length,
    tried: outcomes.length,
    seed,
    budgetS: budgetMs / 1000,
    found: outcomes.filter(wasFound).length,
    survivors: outcomes
      .filter(one => !wasFound(one))
      .map(({ mutant, how }) => ({ how, is: mutantToText(mutant), ...mutant })),
    outcomes: outcomes.map(({ mutant, how, by }) => ({ how, is: mutantToText(mutant), by })),
  };
  await write('report.json', JSON.stringify(content, undefined, 1));
  if (outcomes.length === 0) return;
  const folderOf = ({ mutant }: Outcome): string =>
    SOURCES.find(folder => mutant.file.startsWith(`${folder}/`))!;
  for (const [operator, list] of Map.groupBy(outcomes, ({ mutant }) => mutant.operator))
    line(`  ${score(operator, list)}`);
  for (const [folder, list] of Map.groupBy(outcomes, folderOf)) line(score(folder, list));
  const drawn = values.again
    ? 'those that survived last time'
    : `${chosen.length} of ${counted.length} mutants, from each file in proportion, seed ${seed}`;
  line(
    `${score('all', outcomes)}; ${drawn}; ${everyMutant.filter(isEquivalent).length} more can change nothing`,
  );
}

mkdirSync(KEPT, { recursive: true });
const outcomes: Outcome[] = [];
process.once('SIGINT', () => {
  void end()
    .then(() => report(outcomes))
    .finally(() => process.exit(130));
});

const reach = await reaches();
for (const { file, failed } of reach) if (failed !== undefined) line(`left out: ${file}: ${failed}`);
const index = reach.filter(one => one.failed === undefined).map(indexed);
progress.step('mutants', chosen.length);
// In no order, so that what has been tried so far tells of all.
for (const mutant of shuffled(chosen, seed)) {
  const place = places.get(`${mutant.file} ${mutant.site}`)!;
  const outcome = await attempt(mutant, likelyFirst(planFor(place, index, budgetMs)));
  outcomes.push(outcome);
  if (!wasFound(outcome)) line(`${outcome.how}: ${mutantToText(mutant)}`);
  progress.done();
}
progress.close();
await end();
await report(outcomes);
