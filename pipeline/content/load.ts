/** The publication from the disk: the one place where reading the folder meets the pure stages. */
import { createHash } from 'node:crypto';
import { readLog } from '../log/readers.ts';
import { measureLog } from '../measurement/measure.ts';
import { type Problem, ProblemError } from '../problem.ts';
import { type AssembleTools, contentToPublication, contentToTests } from '../result/assemble.ts';
import type { Publication, TestResult } from '../result/result.ts';
import { contentFilesToContent } from './content.ts';
import { readContentFolderWithProblems } from './read-folder.ts';
import { sortProblems } from './sort-problems.ts';

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
