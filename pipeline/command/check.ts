/** `evenground check`: everything that is wrong under content/, all of it at once, one line each. */
import { mkdir, writeFile } from 'node:fs/promises';
import { dirname, join } from 'node:path';
import { parseArgs } from 'node:util';
import { contentSchemaFiles, SCHEMA_FOLDER, schemaHint } from '../content/json-schema.ts';
import { sortProblems } from '../content/sort-problems.ts';
import { checkContent } from '../pipeline.ts';
import { planEveryLanguage } from '../press/press-test.ts';
import { type Problem, printable, problemToLine, type Severity } from '../problem.ts';
import type { Io } from './io.ts';

const USAGE = `Usage: npm run evenground -- check [--write-schemas]

Reads everything under content/ with its logs and prints what is wrong, one line each:
  file:line:column: severity: what is wrong (expected, found). What to do. [id]

  --write-schemas  write JSON Schemas to ${SCHEMA_FOLDER}/, so that editors can complete and explain fields.
                   An editor finds them by the first line of a file, such as in a test.yaml:
                   ${schemaHint('content/tests/x/test.yaml')}

Exit status: 0 no errors (there may be warnings); 1 errors; 2 wrong usage.
`;

/** Runs the command; @returns the exit status. */
export async function runCheck(
  args: readonly string[],
  io: Pick<Io, 'stdout' | 'stderr' | 'root'>,
): Promise<number> {
  let options: { readonly 'write-schemas'?: boolean; readonly help?: boolean };
  try {
    options = parseArgs({
      args: [...args],
      options: { 'write-schemas': { type: 'boolean' }, help: { type: 'boolean', short: 'h' } },
      strict: true,
      allowPositionals: false,
    }).values;
  } catch {
    io.stderr(`evenground check: it takes no such arguments: ${args.map(printable).join(' ')}\n\n${USAGE}`);
    return 2;
  }
  if (options.help) {
    io.stdout(USAGE);
    return 0;
  }
  if (options['write-schemas']) {
    for (const [path, text] of contentSchemaFiles()) {
      await mkdir(dirname(join(io.root, path)), { recursive: true });
      await writeFile(join(io.root, path), text);
      io.stdout(`wrote ${path}\n`);
    }
    return 0;
  }
  const { tests, problems: inContent, publication } = await checkContent(io.root);
  const inArticles =
    publication === undefined ? [] : planEveryLanguage(publication).flatMap(language => language.problems);
  const problems = sortProblems([...inContent, ...inArticles]);
  io.stdout(problemsToText(problems));
  const attempts = tests.reduce((sum, test) => sum + test.attempts.length, 0);
  const count = (severity: Severity) => problems.filter(problem => problem.severity === severity).length;
  const notes = count('note');
  io.stdout(
    `${[
      counted(tests.length, 'test'),
      counted(attempts, 'attempt'),
      counted(count('error'), 'error'),
      counted(count('warning'), 'warning'),
      ...(notes > 0 ? [counted(notes, 'note')] : []),
    ].join(', ')}\n`,
  );
  return count('error') > 0 ? 1 : 0;
}

/** One line a problem, a blank line between files; `field` is left to programs, the sentence names it. */
function problemsToText(problems: readonly Problem[]): string {
  let text = '';
  let file: string | undefined;
  for (const problem of problems) {
    const where = problem.where;
    if (text !== '' && where?.file !== file) text += '\n';
    file = where?.file;
    const { field: _, ...place } = where ?? { file: '' };
    text += `${problemToLine(where === undefined ? problem : { ...problem, where: place })}\n`;
  }
  return text === '' ? '' : `${text}\n`;
}

const counted = (n: number, one: string): string => `${n} ${one}${n === 1 ? '' : 's'}`;
