/** The files of content/ as bytes by path, and where each kind of file lies. */

/** Bytes by POSIX path from the project root, such as `content/tests/x/test.yaml`. */
export type ContentFiles = ReadonlyMap<string, Uint8Array>;

export const CONTENT_FOLDER = 'content';

/** Whether a file of the project, by its path from the root, is what people wrote. */
export const isContent = (path: string): boolean => path.startsWith(`${CONTENT_FOLDER}/`);
export const HOUSE_FILE = 'content/house.yaml';
export const METHODOLOGY_FILE = 'content/methodology.md';

/** Largest file people write by hand, bytes: far above any real one, far below what would stall the reader. */
export const WRITTEN_LIMIT_BYTES = 2 * 1024 * 1024;
/** Largest log or picture, bytes. */
export const FILE_LIMIT_BYTES = 512 * 1024 * 1024;
/** Most files under content/. */
export const FILE_COUNT_LIMIT = 20_000;

/** True for files people write by hand, YAML and Markdown. */
export function isWritten(path: string): boolean {
  return /\.(ya?ml|md)$/i.test(path);
}

/** The folder of the test that a file belongs to, such as `content/tests/x`; undefined where it belongs to none. */
export const testFolderOf = (path: string): string | undefined =>
  /^content\/tests\/[^/]+(?=\/)/.exec(path)?.[0];

/** Files of each test by its folder. */
export function pathsByTest(paths: Iterable<string>): ReadonlyMap<string, readonly string[]> {
  const found = new Map<string, string[]>();
  for (const path of paths) {
    const folder = testFolderOf(path);
    if (folder === undefined) continue;
    const own = found.get(folder);
    if (own === undefined) found.set(folder, [path]);
    else own.push(path);
  }
  return found;
}

/** The part of a path after its last slash. */
export function fileName(path: string): string {
  return path.slice(path.lastIndexOf('/') + 1);
}

/**
 * Joins a path written in a test file to its folder; undefined where it would leave the folder or is not
 * a plain relative path (absolute, with a drive letter, a backslash or a scheme).
 */
export function pathInFolder(folder: string, written: string): string | undefined {
  if (written.startsWith('/') || /[\\:\0]/.test(written)) return undefined;
  const parts: string[] = [];
  for (const part of written.split('/')) {
    if (part === '' || part === '.') continue;
    if (part === '..') return undefined;
    parts.push(part);
  }
  return parts.length === 0 ? undefined : `${folder}/${parts.join('/')}`;
}
