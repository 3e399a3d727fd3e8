/** `evenground new test|car|road`: a file to fill in, for those who prefer files. */
import { mkdir, writeFile } from 'node:fs/promises';
import { dirname, join } from 'node:path';
import { parseArgs } from 'node:util';
import { nameToSlug } from '../desk/names.ts';
import { type NewKind, newContentText, pathOfNew } from '../desk/new-content.ts';
import { problemToLine } from '../problem.ts';
import { takenName } from '../problems/desk.ts';
import type { Io } from './io.ts';

const USAGE = `Usage: npm run evenground -- new test|car|road NAME [--car CAR] [--road ROAD] [--date YYYY-MM-DD]

Writes a file to fill in, with a line for every field it needs and what to write there:

  new car "Ambler Wren 40"     content/cars/ambler-wren-40.yaml
  new road "Tarn Field"        content/roads/tarn-field.yaml
  new test "Wren in the rain"  content/tests/wren-in-the-rain/ with test.yaml, article.md and logs/

What is there already is never written over. \`npm run check\` says what is still missing.

Exit status: 0 written; 1 there is one of this name; 2 wrong usage.
`;
const KINDS: readonly NewKind[] = ['test', 'car', 'road'];

/** Runs the command; @returns the exit status. */
export async function runNew(
  args: readonly string[],
  io: Pick<Io, 'stdout' | 'stderr' | 'root'>,
): Promise<number> {
  let kind: NewKind | undefined;
  let name: string | undefined;
  let told: Readonly<Record<string, string>>;
  try {
    const { values, positionals } = parseArgs({
      args: [...args],
      options: {
        car: { type: 'string' },
        road: { type: 'string' },
        date: { type: 'string' },
        help: { type: 'boolean', short: 'h' },
      },
      allowPositionals: true,
    });
    if (values.help) {
      io.stdout(USAGE);
      return 0;
    }
    kind = KINDS.find(one => one === positionals[0]);
    name = positionals[1];
    if (kind === undefined || name === undefined || positionals.length > 2)
      throw new Error('It takes test, car or road, and one name in quotes.');
    const { help: _, ...rest } = values;
    if (kind !== 'test' && Object.keys(rest).length > 0)
      throw new Error('--car, --road and --date belong to a test.');
    told = { [kind === 'test' ? 'title' : 'name']: name, ...rest } as Record<string, string>;
  } catch (error) {
    io.stderr(`evenground new: ${(error as Error).message.split('\n')[0]}\n\n${USAGE}`);
    return 2;
  }
  const path = pathOfNew(kind, nameToSlug(name, kind));
  try {
    await mkdir(dirname(join(io.root, path)), { recursive: true });
    await writeFile(join(io.root, path), newContentText(kind, told), { flag: 'wx' });
    if (kind === 'test') {
      const folder = dirname(join(io.root, path));
      await mkdir(join(folder, 'logs'), { recursive: true });
      await writeFile(join(folder, 'article.md'), '', { flag: 'wx' });
    }
  } catch (error) {
    if ((error as NodeJS.ErrnoException).code !== 'EEXIST') throw error;
    io.stderr(`${problemToLine({ ...takenName(path), where: { file: path } })}\n`);
    return 1;
  }
  io.stdout(`${path}: fill in the lines that begin with #, then run npm run check.\n`);
  return 0;
}
