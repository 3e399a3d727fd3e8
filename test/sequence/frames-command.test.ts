/** The command itself, as a process that can be killed, over the content of this project. */
import { type ChildProcess, spawn } from 'node:child_process';
import { createHash } from 'node:crypto';
import { mkdtemp, readdir, readFile, rm } from 'node:fs/promises';
import { tmpdir } from 'node:os';
import { join, resolve } from 'node:path';
import { afterAll, beforeAll, describe, expect, it } from 'vitest';
import { decodePng } from '../overlay/compare-pictures.ts';

const ROOT = resolve(import.meta.dirname, '../..');
const TEST = 'quillet-sorrel-dry';
/** Many small frames, so that there is time to interrupt. */
const MANY = ['--rate', '30', '--size', '320x180', '--freeze', '12', '--hold', '1'];

let folder: string;
beforeAll(async () => {
  folder = await mkdtemp(join(tmpdir(), 'frames-'));
});
afterAll(() => rm(folder, { recursive: true, force: true }));

interface Ended {
  readonly status: number | null;
  readonly stdout: string;
  readonly stderr: string;
}

function start(args: readonly string[]): { readonly child: ChildProcess; readonly ended: Promise<Ended> } {
  const env = { ...process.env };
  // Paths are the person's: npm tells where they were, and these tests may run under npm.
  delete env.INIT_CWD;
  const child = spawn(process.execPath, ['pipeline/evenground.mjs', 'frames', ...args], { cwd: ROOT, env });
  let stdout = '';
  let stderr = '';
  child.stdout.on('data', chunk => {
    stdout += chunk;
  });
  child.stderr.on('data', chunk => {
    stderr += chunk;
  });
  const ended = new Promise<Ended>(done => {
    child.on('close', status => done({ status, stdout, stderr }));
  });
  return { child, ended };
}

const namesIn = async (out: string): Promise<readonly string[]> => {
  try {
    return (await readdir(join(out, 'frames'))).sort();
  } catch {
    return [];
  }
};

/** Frames that stand whole: a file still being written has another ending. */
const framesIn = async (out: string): Promise<readonly string[]> =>
  (await namesIn(out)).filter(name => name.endsWith('.png'));

/** Sends the signal once this many frames stand; gives how the process ended. */
async function interrupt(out: string, frames: number, signal: NodeJS.Signals): Promise<Ended> {
  const { child, ended } = start([TEST, 'a01', ...MANY, '--out', out]);
  let running = true;
  void ended.then(() => {
    running = false;
  });
  while (running && (await framesIn(out)).length < frames) await new Promise(wake => setTimeout(wake, 5));
  child.kill(signal);
  return ended;
}

const digest = async (out: string): Promise<string> => {
  const hash = createHash('sha256');
  for (const name of await namesIn(out)) hash.update(name).update(await readFile(join(out, 'frames', name)));
  return hash.digest('hex');
};

describe('evenground frames', () => {
  it('goes on after being killed, again and again, and ends with the same bytes as one that was not', async () => {
    const out = join(folder, 'killed');
    for (const frames of [20, 150, 350]) {
      const ended = await interrupt(out, frames, 'SIGKILL');
      expect(ended.status, ended.stderr).toBeNull();
      const names = await framesIn(out);
      expect(names.length).toBeGreaterThanOrEqual(frames);
      // Every file with a frame's name is a whole picture of the right size, however the process ended.
      for (const name of [...names.slice(0, 20), ...names.slice(-40)]) {
        const picture = await decodePng(await readFile(join(out, 'frames', name)));
        expect([picture.widthPx, picture.heightPx]).toEqual([320, 180]);
      }
    }
    const rest = await start([TEST, 'a01', ...MANY, '--out', out]).ended;
    expect(rest.status, rest.stderr).toBe(0);
    expect(rest.stdout).toMatch(/\((\d{3,4}) were there already\)/);
    const whole = join(folder, 'whole');
    expect((await start([TEST, 'a01', ...MANY, '--out', whole]).ended).status).toBe(0);
    expect(await namesIn(out)).toEqual(await namesIn(whole));
    expect(await digest(out)).toBe(await digest(whole));
    expect((await namesIn(out)).every(name => /^a01-\d{8}\.png$/.test(name))).toBe(true);
  });

  it('on Ctrl-C finishes the frames it has begun and leaves no other file', async () => {
    const out = join(folder, 'interrupted');
    const { status, stderr } = await interrupt(out, 30, 'SIGINT');
    expect(status, stderr).toBe(130);
    expect(stderr).toMatch(/Stopped: \d+ of \d+ frames stand in .*, all whole/);
    const names = await namesIn(out);
    expect(names.length).toBeGreaterThanOrEqual(30);
    expect(names.every(name => /^a01-\d{8}\.png$/.test(name))).toBe(true);
  });

  it('writes beside the frames the note and the lists an editor loads', async () => {
    const out = join(folder, 'listed');
    const asked = ['--moves-at', '00:10:00;00', '--rate', '29.97', '--clip', 'C0042.MP4', '--to', '0-30-kmh'];
    const { status, stdout, stderr } = await start([TEST, '1', ...asked, '--size', '640x360', '--out', out])
      .ended;
    expect(status, stderr).toBe(0);
    expect(stdout).toContain('The car moves at frame 17982 (00:10:00;00).');
    expect((await readdir(out)).sort()).toEqual([
      'README.txt',
      'a01.edl',
      'a01.otio',
      'captions.vtt',
      'chapters.vtt',
      'frames',
      'sequence.json',
    ]);
    const note = await readFile(join(out, 'README.txt'), 'utf8');
    for (const said of [
      'straight (not premultiplied)',
      '30000/1001',
      '00:10:00;00',
      'C0042.MP4',
      'first movement',
    ]) {
      expect(note).toContain(said);
    }
    expect((await namesIn(out))[0]).toBe('a01-00017952.png');
  });

  it.each([
    [['no-such-test', 'a01'], 2, 'usage-frames-test'],
    [[TEST, 'a99'], 2, 'usage-frames-attempt'],
    [[TEST, 'a01', '--to', '0-200-kmh'], 2, 'usage-frames-to'],
    [[TEST, 'a01', '--moves-at', '23:59:59:20'], 2, 'sequence-past-midnight'],
    [[TEST], 2, 'usage-frames-names'],
  ])('refuses %j with status %i and one line', async (args, expected, id) => {
    const { status, stdout, stderr } = await start(args).ended;
    expect(status, stderr).toBe(expected);
    expect(stdout).toBe('');
    expect(stderr.trim().split('\n').at(-1)).toContain(`[${id}]`);
    expect(stderr).not.toMatch(/\n\s+at /);
  });
});
