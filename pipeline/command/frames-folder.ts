/** The folder of a sequence: which frames stand there whole and may stay, and what an earlier sequence left. */
import { mkdir, open, readdir, readFile, rm } from 'node:fs/promises';
import { join } from 'node:path';
import { writeWhole } from '../press/whole.ts';
import { ProblemError } from '../problem.ts';
import { folderNotOurs } from '../problems/sequence.ts';
import { isWholePng, PNG_ENDS } from '../sequence/png-bands.ts';

/** As written beside the frames; frames are kept only where every word of it is the same. */
export interface SequenceRecord {
  /** What the pictures are made from, SHA-256. */
  readonly key: string;
  readonly name: string;
  readonly first_frame: number;
  readonly last_frame: number;
  readonly frame_rate: string;
  readonly width_px: number;
  readonly height_px: number;
}

export const RECORD_FILE = 'sequence.json';
export const FRAMES_FOLDER = 'frames';
export const FRAME_DIGITS = 8;

/** `a05-00001234.png`. */
export const frameName = (name: string, frame: number): string =>
  `${name}-${String(frame).padStart(FRAME_DIGITS, '0')}.png`;

const FRAME_NAME = /-\d{8}\.png$/;
const UNFINISHED = /\.unfinished-[0-9a-f]+$/;
const MOVIE_NAME = /\.(mov|webm)$/;

/**
 * Makes the folder ready for this sequence and tells which frames are still to be drawn, rising. Frames of other
 * inputs are removed, and whatever an interrupted run left unfinished.
 * @throws ProblemError where the folder holds files, none of which says that a sequence stands there
 */
export async function openSequenceFolder(folder: string, record: SequenceRecord): Promise<readonly number[]> {
  const frames = join(folder, FRAMES_FOLDER);
  await mkdir(folder, { recursive: true });
  const names = await readdir(folder);
  const before = await recordIn(folder);
  if (before === undefined && names.some(name => !UNFINISHED.test(name))) {
    throw new ProblemError(folderNotOurs(folder));
  }
  await mkdir(frames, { recursive: true });
  await removeMatching(folder, UNFINISHED);
  await removeMatching(frames, UNFINISHED);
  if (before !== JSON.stringify(record)) {
    // Removed before the new record is written: whatever happens between, no frame is taken for another's.
    await removeMatching(frames, FRAME_NAME);
    await removeMatching(folder, MOVIE_NAME);
    await writeWhole(join(folder, RECORD_FILE), `${JSON.stringify(record, null, 2)}\n`);
  }
  const standing = new Set(await readdir(frames));
  const missing: number[] = [];
  for (let frame = record.first_frame; frame <= record.last_frame; frame++) {
    const name = frameName(record.name, frame);
    if (!standing.has(name) || !(await isWhole(join(frames, name)))) missing.push(frame);
  }
  return missing;
}

/** The record in one line; undefined where there is none, empty where it cannot be read. */
async function recordIn(folder: string): Promise<string | undefined> {
  let text: string;
  try {
    text = await readFile(join(folder, RECORD_FILE), 'utf8');
  } catch (error) {
    if ((error as NodeJS.ErrnoException).code === 'ENOENT') return undefined;
    throw error;
  }
  try {
    return JSON.stringify(JSON.parse(text));
  } catch {
    return '';
  }
}

async function removeMatching(folder: string, pattern: RegExp): Promise<void> {
  for (const name of await readdir(folder)) {
    if (pattern.test(name)) await rm(join(folder, name), { force: true });
  }
}

/** Whether a file begins and ends as a PNG: a copy cut short by a full disk does not. */
async function isWhole(path: string): Promise<boolean> {
  const file = await open(path);
  try {
    const { size } = await file.stat();
    const begin = new Uint8Array(PNG_ENDS.begin);
    const end = new Uint8Array(PNG_ENDS.end);
    await file.read(begin, 0, begin.length, 0);
    await file.read(end, 0, end.length, Math.max(0, size - end.length));
    return isWholePng(begin, end);
  } finally {
    await file.close();
  }
}
