/**
 * The stages in their order: the one place that shows the whole.
 *
 *     content/ ──► read-folder ──► files
 *                                    │
 *            ┌───────────────────────┴──────────────┐
 *        content: what people wrote,            log ─► trace ─► run ─► measurement
 *        checked, with places                       │                     │
 *            └────────────────┬─────────────────────┴── conditions ───────┘
 *                          result: tests, attempts kept and set aside
 *                             │
 *              ┌──────────┬───┴──────┬───────────┐
 *            table      figure    overlay     article
 *              └──────────┴───┬──────┴───────────┘
 *                        press folder ──► site
 *
 * Up to the result everything is pure; this file and `content/read-folder.ts` are where it meets the disk.
 * From there on `press/press-test.ts` makes the files and `command/build.ts` puts them in place.
 */
import { createHash } from 'node:crypto';
import { contentFilesToContent } from './content/content.ts';
import { readContentFolderWithProblems } from './content/read-folder.ts';
import { sortProblems } from './content/sort-problems.ts';
import { readLog } from './log/readers.ts';
import { measureLog } from './measurement/measure.ts';
import { type Problem, ProblemError } from './problem.ts';
import { type AssembleTools, contentToPublication, contentToTests } from './result/assemble.ts';
import type { Publication, TestResult } from './result/result.ts';

/** The real readers and measurements. */
export const ASSEMBLE_TOOLS: AssembleTools = {
  readLog,
  measureLog,
  sha256: bytes => createHash('sha256').update(bytes).digest('hex'),
};

/**
 * Reads, checks, measures and puts together everything under `root`/content. The problems of the result
 * hold errors too; what they touch is left out of it.
 * @throws ProblemError with all problems where house.yaml is missing or has faults
 */
export async function loadPublication(root: string): Promise<Publication> {
  const { files, problems } = await readContentFolderWithProblems(root);
  try {
    const publication = contentToPublication(contentFilesToContent(files), files, ASSEMBLE_TOOLS);
    return { ...publication, problems: sortProblems([...problems, ...publication.problems]) };
  } catch (error) {
    if (!(error instanceof ProblemError)) throw error;
    throw new ProblemError(sortProblems([...problems, ...error.problems]));
  }
}

/** The same without giving up on a missing or faulty house.yaml, for telling everything at once. */
export async function checkContent(
  root: string,
): Promise<{ readonly tests: readonly TestResult[]; readonly problems: readonly Problem[] }> {
  const { files, problems } = await readContentFolderWithProblems(root);
  const assembled = contentToTests(contentFilesToContent(files), files, ASSEMBLE_TOOLS);
  return { tests: assembled.tests, problems: sortProblems([...problems, ...assembled.problems]) };
}
