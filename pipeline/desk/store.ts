/**
 * The content's files as the desk writes them: whole, on the disk before it is said so, never over a file that
 * changed meanwhile, and each step able to be taken back, also after the process was killed.
 */
import { createHash, randomBytes } from 'node:crypto';
import { lstat, mkdir, open, readdir, readFile, rename, rm } from 'node:fs/promises';
import { dirname, join } from 'node:path';
import { CONTENT_FOLDER } from '../content/files.ts';
import { ProblemError } from '../problem.ts';
import { changedMeanwhile, nothingToUndo, outsideContent, takenName } from '../problems/desk.ts';
import { stepBack, stepBetween, stepOn, type TextStep } from './text-step.ts';

/** What the name of a file begins with until it is whole; names that begin with a point are passed over when content is read. */
export const UNFINISHED = '.unfinished-';
const LEFT_OVER = new RegExp(`^${UNFINISHED.replaceAll('.', '\\.')}[0-9a-f]{12}$`);
/** Writing takes seconds at most; another desk may be at it in the same folder. */
const OLD_MS = 60_000;
/** Where steps are remembered, from the root. */
const JOURNALS = '.evenground/desk';

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

interface Step extends TextStep {
  readonly file: string;
  /** Versions of the file on either side. */
  readonly before: string;
  readonly after: string;
}
interface Journal {
  /** Of this form; another program's is not read. */
  readonly form: typeof FORM;
  readonly past: readonly Step[];
  readonly future: readonly Step[];
  /** Each file as the journal left it: steps hold only what differs. */
  readonly texts: Readonly<Record<string, string>>;
}
const FORM = 2;
const NOTHING: Journal = { form: FORM, past: [], future: [], texts: {} };
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
      const { past, texts } = await this.journal(journal);
      const made: Step = {
        file: path,
        before: version,
        after: versionOf(after),
        ...stepBetween(before, after),
      };
      await this.keep(journal, {
        form: FORM,
        past: [...past, made].slice(-MOST_STEPS),
        future: [],
        texts: { ...texts, [path]: after },
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
      const { past, future, texts } = await this.journal(journal);
      const step = which === 'undo' ? past.at(-1) : future.at(-1);
      if (step === undefined) throw new ProblemError(nothingToUndo(which));
      const [from, go] = which === 'undo' ? [step.after, stepBack] : [step.before, stepOn];
      const now = (await this.read(step.file)) ?? '';
      if (versionOf(now) !== from) {
        const known = await this.textOf(journal, step.file, from);
        throw new ChangedMeanwhile(step.file, known === undefined ? now : go(known, step), now);
      }
      const to = go(now, step);
      await this.write(step.file, to);
      await this.keep(journal, {
        form: FORM,
        ...(which === 'undo'
          ? { past: past.slice(0, -1), future: [...future, step] }
          : { past: [...past, step], future: future.slice(0, -1) }),
        texts: { ...texts, [step.file]: to },
      });
    });
  }

  /** How many steps can be taken back and put in again. */
  async steps(journal: string): Promise<{ readonly undo: number; readonly redo: number }> {
    const { past, future } = await this.journal(journal);
    return { undo: past.length, redo: future.length };
  }

  /**
   * Takes away what a process that was killed left beside its place: files that this program named so, and that
   * nothing can be writing any more. What cannot be taken away stays.
   */
  async clearUnfinished(): Promise<void> {
    for (const folder of [CONTENT_FOLDER, JOURNALS]) {
      const found = await readdir(join(this.root, folder), { recursive: true, withFileTypes: true }).catch(
        () => [],
      );
      for (const entry of found) {
        if (!entry.isFile() || !LEFT_OVER.test(entry.name)) continue;
        const path = join(entry.parentPath, entry.name);
        const { mtimeMs } = await lstat(path).catch(() => ({ mtimeMs: Number.POSITIVE_INFINITY }));
        if (Date.now() - mtimeMs > OLD_MS) await rm(path, { force: true }).catch(() => {});
      }
    }
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
    return join(this.root, JOURNALS, `${journal}.json`);
  }

  private async journal(journal: string): Promise<Journal> {
    try {
      const read = JSON.parse(await readFile(this.journalPath(journal), 'utf8')) as Journal;
      return read.form === FORM ? read : NOTHING;
    } catch {
      // Absent or cut: there is nothing to take back then.
      return NOTHING;
    }
  }

  private keep(journal: string, content: Journal): Promise<void> {
    return writeDurably(this.journalPath(journal), JSON.stringify(content));
  }

  /** A text of an earlier version, as far as the journal knows it. */
  private async textOf(journal: string, file: string, version: string): Promise<string | undefined> {
    const { past, future, texts } = await this.journal(journal);
    const latest = texts[file];
    if (latest === undefined) return undefined;
    const own = (steps: readonly Step[]) => steps.filter(step => step.file === file).toReversed();
    return gone(latest, version, own(past), stepBack) ?? gone(latest, version, own(future), stepOn);
  }
}

/** The text of a version, found by going one step after another; undefined where the steps do not lead there. */
function gone(
  text: string,
  version: string,
  steps: readonly Step[],
  go: (text: string, step: Step) => string,
): string | undefined {
  if (versionOf(text) === version) return text;
  let at = text;
  for (const step of steps) {
    try {
      at = go(at, step);
    } catch {
      // A change from elsewhere lies between two steps.
      return undefined;
    }
    if (versionOf(at) === version) return at;
  }
  return undefined;
}

/** Written beside its place, forced to the disk, then moved into it: after this returns a cut of the power takes nothing. */
export async function writeDurably(path: string, content: string | Uint8Array): Promise<void> {
  const folder = dirname(path);
  await mkdir(folder, { recursive: true });
  const beside = join(folder, `${UNFINISHED}${randomBytes(6).toString('hex')}`);
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
