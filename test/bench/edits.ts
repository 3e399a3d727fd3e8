/**
 * Builds after random edits: `npm run edits -- [EDITS] [SEED]`, 20 where absent. A publication of five tests of two
 * cars in three years and two languages is edited, a test taken out or put back, a part of the cache damaged now and
 * then; the site built from what is kept must be, to the last byte, the one that is built from nothing.
 */
import { mkdirSync, readdirSync, readFileSync, renameSync, rmSync, writeFileSync } from 'node:fs';
import { join } from 'node:path';
import { putFile } from '../content/put-file.ts';
import { CAR } from '../content/valid.ts';
import { randomFromSeed } from '../simulate/random.ts';
import {
  buildIn,
  damageCache,
  digestsUnder,
  SMALL_DAY,
  SMALL_HOUSE,
  smallProject,
  smallTest,
} from './small-project.ts';

const edits = Number(process.argv[2] ?? 20);
const seed = Number(process.argv[3] ?? 1);
const random = randomFromSeed(seed);
const DAMAGED_SHARE = 0.15;
/** Two near each other, one that has a page with some of the rest, one far from all. */
const DATES = ['2026-05-12', '2026-03-01', '2025-11-30', '2025-06-20', '2024-01-05'];
const TESTS = 'content/tests';
const CARS = ['content/cars/wren-a.yaml', 'content/cars/wren-b.yaml'];
const HIDDEN = 'taken-out';

const root = smallProject();
const names = (folder: string): readonly string[] => readdirSync(join(root, folder)).sort();
const testFile = (name: string): string => `${TESTS}/${random.pick(names(TESTS))}/${name}`;
/** @throws Error where the file does not hold what is to be replaced */
function replace(path: string, what: RegExp, by: (found: string) => string): string {
  const before = readFileSync(join(root, path), 'utf8');
  const after = before.replace(what, by);
  if (after === before) throw new Error(`${path} holds no ${String(what)}`);
  writeFileSync(join(root, path), after);
  return path;
}
const more = (found: string): string => found.replace(/\d+$/, digits => String(Number(digits) + 1));
function move(from: string, to: string, name: string): string {
  renameSync(join(root, from, name), join(root, to, name));
  return name;
}

/** What a person may do, each told by the file it concerns; nothing where there is nothing to do it to. */
const EDITS: Readonly<Record<string, () => string>> = {
  note: () => replace(testFile('test.yaml'), /note: [A-Z]\w*/, found => `${found}s`),
  'mass as tested': () => replace(testFile('test.yaml'), /mass_kg: \d+/, more),
  temperature: () => replace(testFile('test.yaml'), /temperature_c: \d+/, more),
  title: () => replace(testFile('test.yaml'), /^title: "[^"]*/m, found => `${found} once more`),
  article: () => replace(testFile('article.md'), /$/, () => '\nMore of it.\n'),
  car: () => replace(random.pick(CARS), /kerb_mass_kg: \d+/, more),
  'taken out': () => (names(TESTS).length > 3 ? move(TESTS, HIDDEN, random.pick(names(TESTS))) : ''),
  'put back': () => (names(HIDDEN).length > 0 ? move(HIDDEN, TESTS, random.pick(names(HIDDEN))) : ''),
};

function writePublication(): void {
  rmSync(join(root, TESTS), { recursive: true });
  mkdirSync(join(root, HIDDEN));
  putFile(root, 'content/house.yaml', `${SMALL_HOUSE}further_languages: [de-DE]\n`);
  for (const [index, path] of CARS.entries())
    putFile(root, path, CAR.replaceAll('Wren 40', `Wren ${'AB'.charAt(index)}`));
  for (const [index, date] of DATES.entries()) {
    const folder = `${TESTS}/test-${index}`;
    const text = smallTest('Clean')
      .replace('car: wren', `car: wren-${'ab'.charAt(index % 2)}`)
      .replace('date: "2026-05-12"', `date: "${date}"`);
    putFile(root, `${folder}/test.yaml`, text);
    putFile(root, `${folder}/article.md`, 'It needs :number{of=0-100-kmh}.\n');
    putFile(root, `${folder}/logs/morning.csv`, SMALL_DAY);
  }
}

const faults: string[] = [];
try {
  writePublication();
  buildIn(root);
  for (let round = 1; round <= edits; round += 1) {
    const done = Array.from({ length: random.whole(1, 2) }, () => {
      const edit = random.pick(Object.keys(EDITS));
      return `${edit} ${EDITS[edit]!()}`;
    });
    if (random.chance(DAMAGED_SHARE)) done.push(`${damageCache(root, random)} entries of the cache damaged`);
    buildIn(root);
    buildIn(root, '--out', 'anew', '--cache', 'empty');
    const [kept, anew] = [digestsUnder(join(root, 'dist')), digestsUnder(join(root, 'anew'))];
    const paths = new Set(Object.keys({ ...kept, ...anew }));
    const others = [...paths].filter(path => kept[path] !== anew[path]);
    if (others.length > 0)
      faults.push(`edit ${round} (${done.join('; ')}): ${others.slice(0, 5).join(', ')}`);
    process.stdout.write(`${round}: ${done.join('; ')}: ${paths.size} files, ${others.length} others\n`);
    for (const folder of ['anew', 'empty']) rmSync(join(root, folder), { recursive: true });
  }
} finally {
  rmSync(root, { recursive: true, force: true });
}
for (const fault of faults) process.stdout.write(`${fault}\n`);
process.stdout.write(`${edits} edits (seed ${seed}), ${faults.length} faults\n`);
process.exitCode = faults.length === 0 ? 0 : 1;
