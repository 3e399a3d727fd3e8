import { mkdir, mkdtemp, readdir, readFile, rm, writeFile } from 'node:fs/promises';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { afterEach, beforeEach, describe, expect, it } from 'vitest';
import { frameName, openSequenceFolder, type SequenceRecord } from '../../pipeline/command/frames-folder.ts';
import { ProblemError } from '../../pipeline/problem.ts';
import { bandsToPng, rowBytes, rowsToBand } from '../../pipeline/sequence/png-bands.ts';

const RECORD: SequenceRecord = {
  key: 'abc',
  name: 'a01',
  first_frame: 7,
  last_frame: 12,
  frame_rate: '25/1',
  width_px: 2,
  height_px: 2,
};
let folder: string;
let png: Uint8Array;
beforeEach(async () => {
  folder = await mkdtemp(join(tmpdir(), 'sequence-'));
  png = bandsToPng(2, 2, [await rowsToBand(new Uint8Array(rowBytes(2) * 2))]);
});
afterEach(() => rm(folder, { recursive: true, force: true }));

const put = (frame: number, bytes = png): Promise<void> =>
  writeFile(join(folder, 'frames', frameName('a01', frame)), bytes);

describe('the folder of a sequence', () => {
  it('wants every frame at first, and keeps those that are whole when it is opened again', async () => {
    expect(await openSequenceFolder(folder, RECORD)).toEqual([7, 8, 9, 10, 11, 12]);
    await put(7);
    await put(9);
    await put(10, png.subarray(0, png.length - 3));
    await put(11, new Uint8Array());
    expect(await openSequenceFolder(folder, RECORD)).toEqual([8, 10, 11, 12]);
  });

  it('begins anew where anything the pictures are made from has changed, and drops single files too', async () => {
    await openSequenceFolder(folder, RECORD);
    await put(7);
    await writeFile(join(folder, 'a01.mov'), 'film');
    expect(await openSequenceFolder(folder, { ...RECORD, key: 'abd' })).toHaveLength(6);
    expect(await readdir(join(folder, 'frames'))).toEqual([]);
    expect(await readdir(folder)).not.toContain('a01.mov');
  });

  it('removes what an interrupted run left unfinished', async () => {
    await openSequenceFolder(folder, RECORD);
    await writeFile(join(folder, 'frames', `${frameName('a01', 8)}.unfinished-0a1b2c3d4e5f`), 'half');
    await writeFile(join(folder, 'sequence.json.unfinished-0a1b2c3d4e5f'), 'half');
    await openSequenceFolder(folder, RECORD);
    expect(await readdir(join(folder, 'frames'))).toEqual([]);
    expect(await readdir(folder)).toEqual(['frames', 'sequence.json']);
  });

  it('draws everything again where the record cannot be read', async () => {
    await openSequenceFolder(folder, RECORD);
    await put(7);
    await writeFile(join(folder, 'sequence.json'), '{"key": "ab');
    expect(await openSequenceFolder(folder, RECORD)).toHaveLength(6);
    expect(JSON.parse(await readFile(join(folder, 'sequence.json'), 'utf8'))).toEqual(RECORD);
  });

  it('touches nothing in a folder that holds something else', async () => {
    await mkdir(join(folder, 'frames'));
    await writeFile(join(folder, 'frames', frameName('a01', 7)), 'not ours');
    await expect(openSequenceFolder(folder, RECORD)).rejects.toThrow(ProblemError);
    expect(await readFile(join(folder, 'frames', frameName('a01', 7)), 'utf8')).toBe('not ours');
  });
});
