/** What a build reads, as it has just seen it: what people wrote, and the code with what it is set up by. */
import type { SeenFiles } from '../cache/file-tree.ts';
import type { SeenContent } from '../cache/kept-content.ts';
import { isContent } from '../content/files.ts';

/** SHA-256 of the files that people wrote and of logs, by path. */
export const contentDigests = (inputs: SeenFiles): SeenContent => digestsOf(inputs, path => isContent(path));

/** The same of all other files. */
export const codeDigests = (inputs: SeenFiles): Readonly<Record<string, string>> =>
  digestsOf(inputs, path => !isContent(path));

const digestsOf = (inputs: SeenFiles, counts: (path: string) => boolean): Record<string, string> =>
  Object.fromEntries(
    Object.entries(inputs).flatMap(([path, [, , sha256]]) => (counts(path) ? [[path, sha256]] : [])),
  );
