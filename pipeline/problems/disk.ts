/** Messages about files and folders that the system would not let be written or read; ids are permanent. */
import type { Problem } from '../problem.ts';

/** `path` is the lock's. */
export const busyElsewhere = (path: string, pid: number, machine: string): Problem => ({
  id: 'disk-busy',
  severity: 'error',
  what: `Another build of this folder is under way (process ${pid} on ${machine})`,
  mend: `Wait until it has ended. If there is none, remove ${path}.`,
});

interface Told {
  readonly id: string;
  readonly what: string;
  readonly mend: string;
}

/** What the system's own short names mean to a person. */
const CODES: Readonly<Record<string, Told>> = {
  ENOSPC: {
    id: 'disk-full',
    what: 'The disk is full',
    mend: 'Make room, then call it again; what stood there before is whole.',
  },
  EDQUOT: {
    id: 'disk-full',
    what: 'Your share of the disk is used up',
    mend: 'Make room, then call it again; what stood there before is whole.',
  },
  EROFS: {
    id: 'disk-read-only',
    what: 'The disk can only be read',
    mend: 'Choose a folder that can be written.',
  },
  EACCES: {
    id: 'disk-not-allowed',
    what: 'The system does not allow it',
    mend: 'Choose another folder, or change who may read and write this one.',
  },
  EPERM: {
    id: 'disk-not-allowed',
    what: 'The system does not allow it',
    mend: 'Choose another folder, or change who may read and write this one.',
  },
  EMFILE: {
    id: 'disk-too-many-open',
    what: 'Too many files are open',
    mend: 'Close other programs, or raise the limit (ulimit -n), then call it again.',
  },
  EIO: {
    id: 'disk-fault',
    what: 'The disk reports a fault',
    mend: 'Check the disk or the card, then call it again.',
  },
};

/** The problem behind an error of the file system; undefined for any other error. */
export function diskProblem(error: unknown): Problem | undefined {
  const { code, path } = (error ?? {}) as { code?: unknown; path?: unknown };
  const told = typeof code === 'string' && Object.hasOwn(CODES, code) ? CODES[code] : undefined;
  if (told === undefined) return undefined;
  return { severity: 'error', ...told, ...(typeof path === 'string' ? { where: { file: path } } : {}) };
}
