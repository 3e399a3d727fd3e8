import { chmod, mkdtemp, readdir, rm, writeFile } from 'node:fs/promises';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { afterEach, beforeEach, describe, expect, it } from 'vitest';
import { MOVIES, type MovieSource, makeMovie, movieArguments } from '../../pipeline/command/frames-movie.ts';
import { FRAME_RATES } from '../../pipeline/overlay/timecode.ts';

const SOURCE: MovieSource = {
  pattern: 'frames/a01-%08d.png',
  firstFrame: 1800,
  frameRate: FRAME_RATES['29.97'],
  timecode: '00:01:00;02',
};
let folder: string;
beforeEach(async () => {
  folder = await mkdtemp(join(tmpdir(), 'movie-'));
});
afterEach(() => rm(folder, { recursive: true, force: true }));

/** A program in ffmpeg's place that writes its last argument and ends with a status. */
async function stand(status: number): Promise<string> {
  const path = join(folder, 'stand-in');
  await writeFile(
    path,
    `#!/bin/sh\nfor last; do :; done\nprintf film > "$last"\necho 'no such encoder' >&2\nexit ${status}\n`,
  );
  await chmod(path, 0o755);
  return path;
}

describe('a single file of a sequence', () => {
  it('is asked for with the exact rate, the first frame’s number and its timecode', () => {
    for (const kind of MOVIES) {
      const args = movieArguments(kind, SOURCE, 'out');
      expect(args[args.indexOf('-framerate') + 1]).toBe('30000/1001');
      expect(args[args.indexOf('-start_number') + 1]).toBe('1800');
      expect(args.indexOf('-framerate')).toBeLessThan(args.indexOf('-i'));
      expect(args.includes('-timecode')).toBe(kind !== 'vp9');
    }
    expect(movieArguments('png', SOURCE, 'out')).toContain('copy');
  });

  it('stands whole or not at all', async () => {
    const path = join(folder, 'a01.mov');
    expect(await makeMovie('png', SOURCE, path, await stand(1))).toEqual({
      made: false,
      absent: false,
      reason: 'no such encoder',
    });
    expect(await readdir(folder)).toEqual(['stand-in']);
    expect(await makeMovie('png', SOURCE, path, await stand(0))).toEqual({ made: true });
    expect(await readdir(folder)).toEqual(['a01.mov', 'stand-in']);
  });

  it('is told apart from a program that is not on the computer', async () => {
    const outcome = await makeMovie('png', SOURCE, join(folder, 'a01.mov'), join(folder, 'no-such-program'));
    expect(outcome).toMatchObject({ made: false, absent: true });
  });
});
