/** Everything that people wrote, read and checked as one: each process of an archive's build asks for all of it. */
import { deserialize, serialize } from 'node:v8';
import { type Content, contentFilesToContent, type TestFolder } from '../content/content.ts';
import { type ContentFiles, isWritten } from '../content/files.ts';
import { SCHEMA_FOLDER } from '../content/json-schema.ts';
import { parseAs } from '../content/parse.ts';
import { filesOnDemand, readContentFolderWithProblems } from '../content/read-folder.ts';
import { testSchema } from '../content/schema.ts';
import type { Problem } from '../problem.ts';
import { codeDigest } from './code-digest.ts';
import { bytesDigest, digestOf } from './digest.ts';
import { keepingParse } from './kept-parse.ts';
import type { Store } from './store.ts';

const CODE = ['pipeline/content/content.ts', 'pipeline/content/read-folder.ts'];

/** SHA-256 of each file under content/ as it was seen a moment ago, by its path from the project's root. */
export type SeenContent = Readonly<Record<string, string>>;

export interface ReadContent {
  readonly files: ContentFiles;
  /** What could not be taken. */
  readonly unread: readonly Problem[];
  readonly content: Content;
}

/** All that is kept: where something stands in a test.yaml is found by parsing it once more. */
interface Kept {
  readonly paths: readonly string[];
  readonly content: Omit<Content, 'tests'> & { readonly tests: readonly Omit<TestFolder, 'place'>[] };
}

/**
 * @param seen what the answer is kept by; always read anew where absent
 * @param later takes the keeping of it, which nobody waits for; at once where absent
 */
export async function contentOnce(
  root: string,
  store: Store,
  seen: SeenContent | undefined,
  later: (keep: () => void) => void = keep => keep(),
): Promise<ReadContent> {
  if (seen === undefined) return await readAndChecked(root, store);
  const key = digestOf(['content', CODE.map(codeDigest), seen]);
  const kept = store.readSync(key);
  if (kept !== undefined) return again(root, deserialize(kept) as Kept);
  const read = await readAndChecked(root, store);
  if (read.unread.length === 0)
    later(() => {
      if (isAsSeen(read.files, seen)) store.writeSync(key, serialize(toKeep(read)));
    });
  return read;
}

async function readAndChecked(root: string, store: Store): Promise<ReadContent> {
  const { files, problems } = await readContentFolderWithProblems(root, undefined, { logsLater: true });
  return { files, unread: problems, content: contentFilesToContent(files, keepingParse(store)) };
}

const toKeep = ({ files, content }: ReadContent): Kept => ({
  paths: [...files.keys()],
  content: { ...content, tests: content.tests.map(({ place: _, ...test }) => test) },
});

function again(root: string, { paths, content }: Kept): ReadContent {
  const files = filesOnDemand(root, paths);
  const tests = content.tests.map(test => {
    const file = `${test.folder}/test.yaml`;
    const place: TestFolder['place'] = path => parseAs(file, files.get(file)!, testSchema).place(path);
    return { ...test, place };
  });
  return { files, unread: [], content: { ...content, tests } };
}

/** What changed, came or went since it was seen is not kept as what it was then; schemas are written for editors. */
const isAsSeen = (files: ContentFiles, seen: SeenContent): boolean =>
  Object.keys(seen).every(path => files.has(path) || path.startsWith(`${SCHEMA_FOLDER}/`)) &&
  [...files.keys()].every(
    path => path in seen && (!isWritten(path) || bytesDigest(files.get(path)!) === seen[path]),
  );
