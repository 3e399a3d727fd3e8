/** A log that was dropped on the page: kept as it came, and named in its test. */
import { parseAs } from '../content/parse.ts';
import { testSchema } from '../content/schema.ts';
import { type Problem, ProblemError } from '../problem.ts';

import type { Desk } from './desk.ts';
import { freeName, logFileName } from './names.ts';
import { type Store, versionOf } from './store.ts';
import { changeYaml } from './yaml-edit.ts';

/** Under a free name, with a line for it in test.yaml. @throws ProblemError as the readers do */
export async function takeLog(
  desk: Desk,
  store: Store,
  id: string,
  name: string,
  bytes: Uint8Array,
): Promise<void> {
  const { stem, ending } = logFileName(name);
  const { files } = await desk.now();
  const folder = `content/tests/${id}`;
  const free = freeName(stem, one => files.has(`${folder}/logs/${one}.${ending}`));
  const file = `logs/${free}.${ending}`;
  // Read under the name it will have, so that it is not read once more when it is measured.
  const problems = problemsOf(() => desk.tools.readLog(`${folder}/${file}`, bytes, {}));
  // What a column would mend is asked for on the page; anything else is no log, and is not kept.
  if (problems.length > 0 && !problems.some(({ id: fault }) => COLUMN_MENDS.test(fault)))
    throw new ProblemError(problems.map(problem => underItsOwnName(problem, name)));
  await store.create(`${folder}/${file}`, bytes);
  const path = `${folder}/test.yaml`;
  const text = (await store.read(path)) ?? '';
  const known = parseAs(path, new TextEncoder().encode(text), testSchema).partly.logs?.length ?? 0;
  await store.change(
    path,
    versionOf(text),
    now => changeYaml(now, [{ path: ['logs', known], value: { file } }]),
    id,
  );
}

const COLUMN_MENDS = /(column|unit-unknown|unreadable)/;

function problemsOf(read: () => unknown): readonly Problem[] {
  try {
    read();
    return [];
  } catch (error) {
    if (error instanceof ProblemError) return error.problems;
    throw error;
  }
}

/** The person knows the log by the name it was dropped under. */
const underItsOwnName = (problem: Problem, name: string): Problem =>
  problem.where === undefined ? problem : { ...problem, where: { ...problem.where, file: name } };
