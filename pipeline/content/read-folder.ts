/** Reads the content folder; the only file-system code among the content. */
import { accessSync, type BigIntStats, constants, lstatSync, readdirSync, readFileSync } from 'node:fs';
import { join } from 'node:path';
import { type Problem, ProblemError } from '../problem.ts';
import {
  fileTooLarge,
  linkRefused,
  noContentFolder,
  notAFile,
  tooManyFiles,
  unreadableFile,
} from '../problems/content.ts';
import {
  CONTENT_FOLDER,
  type ContentFiles,
  FILE_COUNT_LIMIT,
  FILE_LIMIT_BYTES,
  isWritten,
  WRITTEN_LIMIT_BYTES,
} from './files.ts';
import { SCHEMA_FOLDER } from './json-schema.ts';

/** Stands for bytes that are read when they are asked for. */
const LATER = new Uint8Array();

/** Where asked for, logs and pictures are read each time they are wanted: those of an archive do not fit into memory. */
class FolderFiles extends Map<string, Uint8Array> {
  private readonly root: string;

  constructor(root: string) {
    super();
    this.root = root;
  }

  /** @throws ProblemError where a file can no longer be read */
  override get(path: string): Uint8Array | undefined {
    const bytes = super.get(path);
    if (bytes !== LATER) return bytes;
    try {
      return new Uint8Array(readFileSync(join(this.root, path)));
    } catch (error) {
      throw new ProblemError(unreadableFile(path, reasonOf(error)));
    }
  }

  override *entries(): MapIterator<[string, Uint8Array]> {
    for (const path of this.keys()) yield [path, this.get(path)!];
  }

  override *values(): MapIterator<Uint8Array> {
    for (const path of this.keys()) yield this.get(path)!;
  }

  override forEach(take: (bytes: Uint8Array, path: string, files: Map<string, Uint8Array>) => void): void {
    for (const [path, bytes] of this.entries()) take(bytes, path, this);
  }

  override [Symbol.iterator](): MapIterator<[string, Uint8Array]> {
    return this.entries();
  }
}

export interface ReadFolder {
  readonly files: ContentFiles;
  readonly problems: readonly Problem[];
}

/** Files as they were read before, by path, so that they are read again only where they may have changed. */
export type ReadBefore = Map<string, { readonly mark: string; readonly bytes: Uint8Array }>;

/** Times of some file systems move in steps of seconds: a file changed this shortly before is read again, ms. */
const TOO_FRESH_MS = 3000;

/**
 * Every file under content/ in the order of paths, and what could not be taken: links (they may lead
 * outside), devices, files beyond the size limits. Names that begin with a point, and the schemas
 * written for editors, are passed over.
 * @param before files of an earlier reading, brought up to date; unchanged ones keep their very bytes
 * @param logsLater what people do not write by hand is read each time it is asked for, and not held
 */
export async function readContentFolderWithProblems(
  root: string,
  before: ReadBefore = new Map(),
  { logsLater = false }: { readonly logsLater?: boolean } = {},
): Promise<ReadFolder> {
  const files = new FolderFiles(root);
  const problems: Problem[] = [];
  let count = 0;

  // At once, not in turn with other work: waiting for each of an archive's files takes six times as long.
  const walk = (path: string): void => {
    let names: string[];
    try {
      names = readdirSync(join(root, path)).sort();
    } catch (error) {
      problems.push(path === CONTENT_FOLDER ? noContentFolder(path) : unreadableFile(path, reasonOf(error)));
      return;
    }
    for (const name of names) {
      if (name.startsWith('.')) continue;
      take(`${path}/${name}`);
    }
  };

  const take = (path: string): void => {
    if (path === SCHEMA_FOLDER || count > FILE_COUNT_LIMIT) return;
    try {
      const found = lstatSync(join(root, path), { bigint: true });
      if (found.isSymbolicLink()) problems.push(linkRefused(path));
      else if (found.isDirectory()) walk(path);
      else if (!found.isFile()) problems.push(notAFile(path));
      else if (++count > FILE_COUNT_LIMIT) problems.push(tooManyFiles(CONTENT_FOLDER, FILE_COUNT_LIMIT));
      else {
        const limit = isWritten(path) ? WRITTEN_LIMIT_BYTES : FILE_LIMIT_BYTES;
        if (found.size > limit) problems.push(fileTooLarge(path, Number(found.size), limit));
        else if (!logsLater || isWritten(path)) files.set(path, bytesOf(path, found));
        else {
          accessSync(join(root, path), constants.R_OK);
          files.set(path, LATER);
        }
      }
    } catch (error) {
      problems.push(unreadableFile(path, reasonOf(error)));
    }
  };

  const bytesOf = (path: string, { ino, size, mtimeNs, ctimeNs }: BigIntStats): Uint8Array => {
    // Nobody can set the time of the last change of a file's own record back.
    const mark = [ino, size, mtimeNs, ctimeNs].join(' ');
    const known = before.get(path);
    if (known?.mark === mark) return known.bytes;
    const bytes = new Uint8Array(readFileSync(join(root, path)));
    if (Date.now() - Number(ctimeNs / 1_000_000n) > TOO_FRESH_MS) before.set(path, { mark, bytes });
    else before.delete(path);
    return bytes;
  };

  if (isLink(join(root, CONTENT_FOLDER))) problems.push(linkRefused(CONTENT_FOLDER));
  else walk(CONTENT_FOLDER);
  for (const path of before.keys()) if (!files.has(path)) before.delete(path);
  return { files, problems };
}

/** Files known to be there, each read every time that it is asked for. */
export function filesOnDemand(root: string, paths: readonly string[]): ContentFiles {
  const files = new FolderFiles(root);
  for (const path of paths) files.set(path, LATER);
  return files;
}

/** @throws ProblemError with every file that could not be taken. */
export async function readContentFolder(root: string): Promise<ContentFiles> {
  const { files, problems } = await readContentFolderWithProblems(root);
  if (problems.length > 0) throw new ProblemError(problems);
  return files;
}

/** What cannot be looked at is told by who reads it. */
function isLink(place: string): boolean {
  try {
    return lstatSync(place).isSymbolicLink();
  } catch {
    return false;
  }
}

/** The system's short name of what went wrong, never the path on this machine. */
function reasonOf(error: unknown): string {
  const code = (error as { code?: unknown } | undefined)?.code;
  return typeof code === 'string' ? code : 'unknown reason';
}
