/** `evenground sign-off TEST`: records the numbers that go out, so that none moves unseen afterwards. */
import { join } from 'node:path';
import { parseArgs } from 'node:util';
import { codeVersion } from '../code-version.ts';
import { dateTextToMs } from '../content/calendar.ts';
import { nearMiss } from '../content/near-miss.ts';
import { SIGNED_OFF_NAME, signedOffToText } from '../content/signed-off-file.ts';
import { checkContent } from '../pipeline.ts';
import { planPublication } from '../press/press-test.ts';
import { writeWhole } from '../press/whole.ts';
import { type Problem, problemToLine } from '../problem.ts';
import { againWithoutCorrection, noSuchTest, signedOffAlready } from '../problems/sign-off.ts';
import type { TestResult } from '../result/result.ts';
import { changedLogs, compareWithRecord, freshCorrections } from '../sign-off/moved.ts';
import { recordOf } from '../sign-off/record.ts';
import type { Io } from './io.ts';

const USAGE = `Usage: npm run evenground -- sign-off TEST [--again] [--date YYYY-MM-DD]

Records every number of content/tests/TEST as it goes out, in content/tests/TEST/${SIGNED_OFF_NAME}.
From then on check and build fail where one of them moves, and name it, old and new, until test.yaml tells readers:

  corrections:
    - date: "2026-06-02"
      what: The best time to 100 km/h was 0.02 s too short.
      reason: One log had lost its first minute.
      numbers: [0-100-kmh]      # keys of ${SIGNED_OFF_NAME} or parts of them; every number that moved where absent

  --again  record them anew after a correction; the record keeps what each correction changed
  --date   the day they go out; today where absent

Exit status: 0 recorded; 1 refused, because the content has errors or the numbers went out already; 2 wrong usage.
`;

/** Runs the command; `program` is the folder of the program, where the content lies elsewhere. @returns the exit status. */
export async function runSignOff(
  args: readonly string[],
  io: Pick<Io, 'stdout' | 'stderr' | 'root'>,
  program = io.root,
): Promise<number> {
  let parsed: { readonly id: string; readonly again: boolean; readonly date: string };
  try {
    const { values, positionals } = parseArgs({
      args: [...args],
      options: {
        again: { type: 'boolean' },
        date: { type: 'string' },
        help: { type: 'boolean', short: 'h' },
      },
      allowPositionals: true,
    });
    if (values.help) {
      io.stdout(USAGE);
      return 0;
    }
    const [id, ...more] = positionals;
    const date = values.date ?? todayAtHome();
    if (id === undefined || more.length > 0) throw new Error('It takes one test.');
    if (dateTextToMs(date) === undefined) throw new Error('There is no such day.');
    parsed = { id, again: values.again === true, date };
  } catch (error) {
    io.stderr(`evenground sign-off: ${(error as Error).message.split('\n')[0]}\n\n${USAGE}`);
    return 2;
  }

  const { publication, problems: inContent } = await checkContent(io.root);
  const inArticles = publication === undefined ? [] : planPublication(publication).problems;
  const errors = [...inContent, ...inArticles].filter(({ severity }) => severity === 'error');
  const test = publication?.tests.find(({ id }) => id === parsed.id);
  const refused = errors.length > 0 ? errors : refusalOf(test, parsed, publication?.tests ?? []);
  if (publication === undefined || test === undefined || refused.length > 0) {
    for (const problem of refused) io.stderr(`${problemToLine(problem)}\n`);
    io.stderr('Nothing was signed off.\n');
    return 1;
  }

  const record = recordOf(test, publication, parsed.date, codeVersion(program));
  if (test.signedOff !== undefined && isNothingNew(test, record.numbers)) {
    io.stderr(`${problemToLine(againWithoutCorrection({ file: test.signedOff.file }))}\n`);
    return 1;
  }
  const file = `${folderOf(test)}${SIGNED_OFF_NAME}`;
  await writeWhole(join(io.root, file), signedOffToText(record));
  io.stdout(
    `${file}: ${record.numbers.length} numbers signed off as they go out on ${record.signed_off}.\n` +
      'Keep this file with the test: check and build hold every later number to it.\n',
  );
  return 0;
}

const folderOf = (test: TestResult): string => test.articleFile.replace(/[^/]*$/, '');

function refusalOf(
  test: TestResult | undefined,
  { id, again }: { readonly id: string; readonly again: boolean },
  tests: readonly TestResult[],
): readonly Problem[] {
  if (test === undefined) {
    const known = tests.map(other => other.id);
    return [noSuchTest(id, nearMiss(id, known), known)];
  }
  const { signedOff } = test;
  return signedOff === undefined || again
    ? []
    : [signedOffAlready({ file: signedOff.file }, signedOff.record.signed_off)];
}

/** A move without a correction is an error by then: what is left are corrections, drift and new numbers. */
function isNothingNew(test: TestResult, numbers: Parameters<typeof compareWithRecord>[1]): boolean {
  const { record } = test.signedOff!;
  const { moved, drifted, added } = compareWithRecord(record, numbers);
  const fresh = freshCorrections(record, test.content.corrections ?? []);
  const logs = changedLogs(record, test.logSha256);
  return moved.length + drifted.length + added.length + fresh.length + logs.length === 0;
}

/** The day where the person is. */
function todayAtHome(): string {
  const now = new Date();
  const two = (n: number) => String(n).padStart(2, '0');
  return `${now.getFullYear()}-${two(now.getMonth() + 1)}-${two(now.getDate())}`;
}
