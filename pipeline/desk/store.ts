/**
 * The content's files as the desk writes them: whole, on the disk before it is said so, never over a file that
 * changed meanwhile, and each step able to be taken back, also after the process was killed.
 */
import { createHash, randomBytes } from 'node:crypto';
import { lstat, mkdir, open, readFile, rename, rm } from 'node:fs/promises';
import { dirname, join } from 'node:path';
import { CONTENT_FOLDER } from '../content/files.ts';
import { ProblemError } from '../problem.ts';
import { changedMeanwhile, nothingToUndo, outsideContent, takenName } from '../problems/desk.ts';

/** Version of a text: SHA-256 of its bytes. */
export const versionOf = (text: string | Uint8Array): string =>
  createHash('sha256').update(text).digest('hex');

/** Thrown where a file changed since the version that a change was made on; holds both. */
export class ChangedMeanwhile extends ProblemError {
  readonly conflict: { readonly yours: string; readonly onDisk: string; readonly versionOnDisk: string };
  constructor(file: string, yours: string, onDisk: string) {
    super(changedMeanwhile(file));
    this.conflict = { yours, onDisk, versionOnDisk: versionOf(onDisk) };
  }
}

interface Step {
  readonly file: string;
  readonly before: string;
  readonly after: string;
}
interface Journal {
  readonly past: readonly Step[];
  readonly future: readonly Step[];
}
const NOTHING: Journal = { past: [], future: [] };
/** Steps that can be taken back. */
const MOST_STEPS = 200;

export class Store {
  private readonly root: string;
  /** Writes happen one after another. */
  private last: Promise<unknown> = Promise.resolve();

  constructor(root: string) {
    this.root = root;
  }

  /** A text below content/; undefined where there is none. @throws ProblemError for a path that leads elsewhere */
  async read(path: string): Promise<string | undefined> {
    await this.mustLieInside(path);
    try {
      return await readFile(join(this.root, path), 'utf8');
    } catch (error) {
      if ((error as NodeJS.ErrnoException).code === 'ENOENT') return undefined;
      throw error;
    }
  }

  /**
   * Changes a text that is at `version`, and remembers the step under `journal`.
   * @throws ChangedMeanwhile where the file is at another version
   */
  change(path: string, version: string, edit: (text: string) => string, journal: string): Promise<void> {
    return this.inTurn(async () => {
      const before = (await this.read(path)) ?? '';
      if (versionOf(before) !== version) {
        const known = await this.textOf(journal, path, version);
        throw new ChangedMeanwhile(path, edit(known ?? before), before);
      }
      const after = edit(before);
      if (after === before) return;
      await this.write(path, after);
      const { past } = await this.journal(journal);
      await this.keep(journal, {
        past: [...past, { file: path, before, after }].slice(-MOST_STEPS),
        future: [],
      });
    });
  }

  /** Makes a file that must not exist. @throws ProblemError where it does */
  create(path: string, content: string | Uint8Array): Promise<void> {
    return this.inTurn(async () => {
      await this.mustLieInside(path);
      if (await lstat(join(this.root, path)).catch(() => undefined)) throw new ProblemError(takenName(path));
      await this.write(path, content);
    });
  }

  /** Takes the last step back or puts it in again. @throws ProblemError where there is none, or the file moved on */
  step(journal: string, which: 'undo' | 'redo'): Promise<void> {
    return this.inTurn(async () => {
      const { past, future } = await this.journal(journal);
      const step = which === 'undo' ? past.at(-1) : future.at(-1);
      if (step === undefined) throw new ProblemError(nothingToUndo(which));
      const [from, to] = which === 'undo' ? [step.after, step.before] : [step.before, step.after];
      const now = (await this.read(step.file)) ?? '';
      if (now !== from) throw new ChangedMeanwhile(step.file, to, now);
      await this.write(step.file, to);
      await this.keep(
        journal,
        which === 'undo'
          ? { past: past.slice(0, -1), future: [...future, step] }
          : { past: [...past, step], future: future.slice(0, -1) },
      );
    });
  }

  /** How many steps can be taken back and put in again. */
  async steps(journal: string): Promise<{ readonly undo: number; readonly redo: number }> {
    const { past, future } = await this.journal(journal);
    return { undo: past.length, redo: future.length };
  }

  private inTurn<T>(work: () => Promise<T>): Promise<T> {
    const done = this.last.then(work);
    this.last = done.catch(() => {});
    return done;
  }

  /** @throws ProblemError where the path, or a link on it, leads out of content/ */
  private async mustLieInside(path: string): Promise<void> {
    const parts = path.split('/');
    const odd = (part: string) => part === '' || part.startsWith('.') || /[\\\0:]/.test(part);
    if (parts[0] !== CONTENT_FOLDER || parts.length < 2 || parts.some(odd))
      throw new ProblemError(outsideContent(path));
    for (let depth = 1; depth <= parts.length; depth++) {
      const found = await lstat(join(this.root, ...parts.slice(0, depth))).catch(() => undefined);
      if (found?.isSymbolicLink()) throw new ProblemError(outsideContent(path));
    }
  }

  private write(path: string, content: string | Uint8Array): Promise<void> {
    return writeDurably(join(this.root, path), content);
  }

  private journalPath(journal: string): string {
    return join(this.root, '.evenground', 'desk', `${journal}.json`);
  }

  private async journal(journal: string): Promise<Journal> {
    try {
      return JSON.parse(await readFile(this.journalPath(journal), 'utf8')) as Journal;
    } catch {
      // Absent, or of another version of the program: there is nothing to take back then.
      return NOTHING;
    }
  }

  private keep(journal: string, content: Journal): Promise<void> {
    return writeDurably(this.journalPath(journal), JSON.stringify(content));
  }

  /** A text of an earlier version, as far as the journal knows it. */
  private async textOf(journal: string, file: string, version: string): Promise<string | undefined> {
    const { past, future } = await this.journal(journal);
    return [...past, ...future]
      .filter(step => step.file === file)
      .flatMap(({ before, after }) => [before, after])
      .find(text => versionOf(text) === version);
  }
}

/** Written beside its place, forced to the disk, then moved into it: after this returns a cut of the power takes nothing. */
export async function writeDurably(path: string, content: string | Uint8Array): Promise<void> {
  const folder = dirname(path);
  await mkdir(folder, { recursive: true });
  // Names that begin with a point are passed over when content is read.
  const beside = join(folder, `.unfinished-${randomBytes(6).toString('hex')}`);
  try {
    const file = await open(beside, 'wx');
    try {
      await file.writeFile(content);
      await file.sync();
    } finally {
      await file.close();
    }
    await rename(beside, path);
  } catch (error) {
    await rm(beside, { force: true });
    throw error;
  }
  const opened = await open(folder, 'r').catch(() => undefined);
  // Some systems cannot force a folder; the file itself is on the disk by then.
  await opened?.sync().catch(() => {});
  await opened?.close();
}
