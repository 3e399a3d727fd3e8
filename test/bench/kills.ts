/**
 * Builds killed at random: `npm run kills -- [KILLS] [SEED]`, 100 where absent. A small publication goes to and fro
 * between two states; each build is ended by SIGKILL after a random time, some with entries of the cache damaged
 * before. The output must then be the old site or the new one, whole, and the next build must come to the right one.
 */
import { spawn } from 'node:child_process';
import { existsSync, readdirSync, rmSync, writeFileSync } from 'node:fs';
import { basename, join } from 'node:path';
import { setTimeout as wait } from 'node:timers/promises';
import { digestOf } from '../../pipeline/cache/digest.ts';
import { randomFromSeed } from '../simulate/random.ts';
import {
  BUILD_COMMAND,
  buildEnvironment,
  buildIn,
  damageCache,
  digestsUnder,
  SMALL_TEST_FILE,
  smallProject,
  smallTest,
} from './small-project.ts';

const kills = Number(process.argv[2] ?? 100);
const seed = Number(process.argv[3] ?? 1);
const random = randomFromSeed(seed);
const NOTES = ['Clean', 'Not so clean'] as const;
/** Of the builds, so many find a part of the cache damaged, and have to make things. */
const DAMAGED_SHARE = 0.1;
/** Longest time before a kill, ms: that of a build from what is kept, and of one that makes things. */
const LONGEST_MS = { kept: 2500, made: 8000 } as const;

const root = smallProject();
const siteDigest = (): string =>
  existsSync(join(root, 'dist')) ? digestOf(digestsUnder(join(root, 'dist'))) : 'absent';
const write = (state: number): void => writeFileSync(join(root, SMALL_TEST_FILE), smallTest(NOTES[state]!));

const faults: string[] = [];
const counts = { old: 0, new: 0, between: 0 };
try {
  const sites: string[] = [];
  for (const state of [0, 1]) {
    write(state);
    buildIn(root);
    sites.push(siteDigest());
  }
  if (sites[0] === sites[1]) throw new Error('The two states must differ');
  for (let round = 1; round <= kills; round += 1) {
    const [before, after] = [sites[round % 2]!, sites[(round + 1) % 2]!];
    write((round + 1) % 2);
    const damaged = random.chance(DAMAGED_SHARE);
    if (damaged) damageCache(root, random);
    const child = spawn(process.execPath, BUILD_COMMAND, {
      cwd: root,
      env: buildEnvironment(),
      stdio: 'ignore',
    });
    const ended = new Promise(done => child.once('close', done));
    await Promise.race([wait(random.uniform() * LONGEST_MS[damaged ? 'made' : 'kept']), ended]);
    child.kill('SIGKILL');
    await ended;
    const found = siteDigest();
    if (found === before) counts.old += 1;
    else if (found === after) counts.new += 1;
    else if (found === 'absent' && readdirSync(root).some(name => name.endsWith('-former'))) {
      // Between the two renames: the next build, or a look beside, finds the old one whole.
      counts.between += 1;
    } else faults.push(`kill ${round}: the site is neither the old one nor the new one`);
    buildIn(root);
    if (siteDigest() !== after) faults.push(`kill ${round}: the next build is not right`);
    const left = readdirSync(root).filter(name => name.includes('.unfinished-'));
    if (left.length > 0)
      faults.push(`kill ${round}: ${left.map(name => basename(name)).join(', ')} left over`);
    if (round % 10 === 0) process.stdout.write(`${round} killed, ${faults.length} faults\n`);
  }
} finally {
  rmSync(root, { recursive: true, force: true });
}
for (const fault of faults) process.stdout.write(`${fault}\n`);
process.stdout.write(
  `${kills} builds killed (seed ${seed}): the site was the old one ${counts.old} times, the new one ${counts.new}, ` +
    `between two names ${counts.between}; ${faults.length} faults\n`,
);
process.exitCode = faults.length === 0 ? 0 : 1;
