/** One file for a whole sequence, by ffmpeg where this computer has it. */
import { spawn } from 'node:child_process';
import { randomBytes } from 'node:crypto';
import { rename, rm } from 'node:fs/promises';
import type { FrameRate } from '../overlay/timecode.ts';

export const MOVIES = ['png', 'prores', 'vp9'] as const;
export type MovieKind = (typeof MOVIES)[number];

interface Movie {
  readonly ending: string;
  readonly container: string;
  readonly describes: string;
  readonly encode: readonly string[];
}

/** Without the first, ffmpeg takes the matrix of standard definition for RGB it turns into Y′CbCr; the second says so. */
const BT709 = [
  '-vf',
  'scale=out_color_matrix=bt709:out_range=tv,' +
    'setparams=colorspace=bt709:color_primaries=bt709:color_trc=bt709:range=tv',
];

const MOVIE: Readonly<Record<MovieKind, Movie>> = {
  png: {
    ending: '.mov',
    container: 'mov',
    describes: 'the same pictures in one file, PNG in QuickTime, nothing encoded anew',
    encode: ['-c:v', 'copy'],
  },
  prores: {
    ending: '-prores.mov',
    container: 'mov',
    describes: 'ProRes 4444 with alpha, for editing programs that like no PNG',
    encode: [
      ...BT709,
      ...['-c:v', 'prores_ks', '-profile:v', '4444', '-pix_fmt', 'yuva444p10le', '-alpha_bits', '16'],
      ...['-movflags', '+write_colr'],
    ],
  },
  vp9: {
    ending: '.webm',
    container: 'webm',
    describes: 'VP9 with alpha, for web pages',
    encode: [
      ...BT709,
      ...['-c:v', 'libvpx-vp9', '-pix_fmt', 'yuva420p', '-auto-alt-ref', '0', '-crf', '18', '-b:v', '0'],
    ],
  },
};

/** Name of the file and what it is, from the sequence's name. */
export const movieFile = (kind: MovieKind, name: string): readonly [name: string, what: string] => [
  `${name}${MOVIE[kind].ending}`,
  MOVIE[kind].describes,
];

export interface MovieSource {
  /** ffmpeg's pattern of the frames, such as `/…/frames/a05-%08d.png`. */
  readonly pattern: string;
  readonly firstFrame: number;
  readonly frameRate: FrameRate;
  /** Timecode of the first frame, kept in QuickTime files. */
  readonly timecode: string;
}

export type MovieOutcome =
  | { readonly made: true }
  | { readonly made: false; readonly absent: boolean; readonly reason: string };

/** Arguments for ffmpeg; no dates and no program names go into the file, so that the same frames give the same bytes. */
export function movieArguments(kind: MovieKind, source: MovieSource, path: string): readonly string[] {
  const { container, encode } = MOVIE[kind];
  const { frames, seconds } = source.frameRate;
  return [
    ...['-hide_banner', '-nostdin', '-loglevel', 'error', '-y'],
    ...['-framerate', `${frames}/${seconds}`, '-start_number', String(source.firstFrame)],
    ...['-i', source.pattern, ...encode],
    ...['-map_metadata', '-1', '-fflags', '+bitexact', '-flags:v', '+bitexact'],
    ...(container === 'mov' ? ['-timecode', source.timecode] : []),
    ...['-f', container, path],
  ];
}

/** Makes the file whole or not at all. `program` is ffmpeg unless told. */
export async function makeMovie(
  kind: MovieKind,
  source: MovieSource,
  path: string,
  program = 'ffmpeg',
): Promise<MovieOutcome> {
  const beside = `${path}.unfinished-${randomBytes(6).toString('hex')}`;
  const ended = await run(program, movieArguments(kind, source, beside));
  if (ended.status === 0) {
    await rename(beside, path);
    return { made: true };
  }
  await rm(beside, { force: true });
  return { made: false, absent: ended.status === 'absent', reason: ended.reason };
}

function run(
  program: string,
  args: readonly string[],
): Promise<{ readonly status: number | 'absent'; readonly reason: string }> {
  return new Promise(resolve => {
    const child = spawn(program, args, { stdio: ['ignore', 'ignore', 'pipe'] });
    let said = '';
    child.stderr.on('data', (chunk: Buffer) => {
      said = (said + chunk.toString()).slice(-4000);
    });
    child.on('error', (error: NodeJS.ErrnoException) => {
      resolve({ status: error.code === 'ENOENT' ? 'absent' : 1, reason: error.message });
    });
    child.on('close', code => {
      resolve({ status: code ?? 1, reason: said.trim().split('\n')[0] || 'it was stopped' });
    });
  });
}
