/** Keeps a list of every file that goes into a press folder, with its size and hash, and what each one shows. */
import { bytesDigest } from '../cache/digest.ts';
import type { ListedFile } from './manifest-file.ts';
import type { WriteFile } from './write-file.ts';

/** What is told of a file; the rest is found from its bytes. */
export type FileFacts = Omit<ListedFile, 'path' | 'bytes' | 'sha256' | 'media_type'>;

export interface Recorder {
  /** Writes a file and keeps it in the list. */
  readonly write: WriteFile;
  /** Says what a file is, by the path it was written to. */
  describe(path: string, facts: FileFacts): void;
  /** The files written so far in the order of their names; paths from the folder. @throws Error for one not described. */
  list(): readonly ListedFile[];
}

const MEDIA_TYPES: Readonly<Record<string, string>> = {
  svg: 'image/svg+xml',
  png: 'image/png',
  webp: 'image/webp',
  avif: 'image/avif',
  pdf: 'application/pdf',
  html: 'text/html',
  json: 'application/json',
  csv: 'text/csv',
  txt: 'text/plain',
  otio: 'application/json',
  edl: 'text/plain',
  vtt: 'text/vtt',
  parquet: 'application/vnd.apache.parquet',
  zip: 'application/zip',
};

/** @param folder the paths of the list are counted from it: `press/<test>` */
export function recordFiles(folder: string, write: WriteFile): Recorder {
  const written = new Map<string, Pick<ListedFile, 'bytes' | 'sha256'>>();
  const described = new Map<string, FileFacts>();
  return {
    async write(path, content) {
      const bytes = typeof content === 'string' ? Buffer.from(content, 'utf8') : content;
      written.set(path, {
        bytes: bytes.byteLength,
        sha256: bytesDigest(bytes),
      });
      await write(path, content);
    },
    describe: (path, facts) => {
      described.set(path, facts);
    },
    list: () =>
      [...written]
        .sort(([a], [b]) => (a < b ? -1 : 1))
        .map(([path, found]) => {
          const facts = described.get(path);
          if (facts === undefined) throw new Error(`Nothing says what ${path} is.`);
          return {
            path: path.slice(folder.length + 1),
            media_type: MEDIA_TYPES[path.slice(path.lastIndexOf('.') + 1)] ?? 'application/octet-stream',
            ...found,
            ...facts,
          };
        }),
  };
}
