/** The desk on a folder of its own, started as a person starts it and ended with everything it began. */
import { type ChildProcess, spawn } from 'node:child_process';
import { appendFileSync, cpSync, mkdirSync, mkdtempSync, rmSync } from 'node:fs';
import { createServer } from 'node:net';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { ROOT } from './built-site.ts';

export interface RunningDesk {
  /** Holds content/. */
  readonly root: string;
  /** The address a person opens, with the token of this start. */
  readonly address: string;
  stop(): Promise<void>;
}

/** A house, one car and one road; no test yet. */
export function smallContent(): string {
  const root = mkdtempSync(join(tmpdir(), 'evenground-desk-'));
  for (const folder of ['cars', 'roads', 'tests'])
    mkdirSync(join(root, 'content', folder), { recursive: true });
  for (const file of [
    'house.yaml',
    'logo.svg',
    'methodology.md',
    'cars/quillet-sorrel.yaml',
    'roads/ossenby-fen.yaml',
  ]) {
    cpSync(join(ROOT, 'content', file), join(root, 'content', file));
  }
  // The press folder in every shape, paper and size is looked at elsewhere.
  appendFileSync(
    join(root, 'content/house.yaml'),
    'press: { papers: [light], crops: none }\nvideo: { sizes: ["1920x1080"] }\n',
  );
  return root;
}

/** Starts the desk on a folder that `stop` removes. @throws Error with its own words where it does not start */
export async function startDesk(root = smallContent()): Promise<RunningDesk> {
  const port = await freePort();
  // A process group of its own, so that whatever it starts ends with it.
  const desk = spawn(
    process.execPath,
    ['pipeline/evenground.mjs', 'desk', '--root', root, '--port', String(port), '--no-open'],
    {
      cwd: ROOT,
      detached: true,
      stdio: ['ignore', 'pipe', 'pipe'],
      // The test runner's own NODE_ENV, BASE_URL and the like would be taken for the site's.
      env: { PATH: process.env.PATH, HOME: process.env.HOME, ASTRO_TELEMETRY_DISABLED: '1' },
    },
  );
  const end = () => endGroup(desk);
  process.once('exit', end);
  const stop = async () => {
    process.removeListener('exit', end);
    const ended = new Promise(resolve => desk.once('close', resolve));
    end();
    if (desk.exitCode === null) await ended;
    rmSync(root, { recursive: true, force: true });
  };
  try {
    return { root, address: await addressOf(desk), stop };
  } catch (error) {
    await stop();
    throw error;
  }
}

function endGroup({ pid, exitCode }: ChildProcess): void {
  if (pid === undefined || exitCode !== null) return;
  try {
    process.kill(-pid, 'SIGKILL');
  } catch {
    // It has ended by itself.
  }
}

function addressOf(desk: ChildProcess): Promise<string> {
  return new Promise((resolve, reject) => {
    let told = '';
    const listen = (chunk: Buffer) => {
      told += chunk;
      const address = /http:\/\/127\.0\.0\.1:\d+\/\S*\?token=\S+/.exec(told)?.[0];
      if (address !== undefined) resolve(address);
    };
    desk.stdout!.on('data', listen);
    desk.stderr!.on('data', listen);
    desk.once('close', () => reject(new Error(`The desk ended before it could be opened:\n${told}`)));
    setTimeout(() => reject(new Error(`The desk did not print its address:\n${told}`)), 60_000).unref();
  });
}

function freePort(): Promise<number> {
  return new Promise((resolve, reject) => {
    const server = createServer();
    server.once('error', reject);
    server.listen(0, '127.0.0.1', () => {
      const address = server.address();
      server.close(() => resolve(typeof address === 'object' && address ? address.port : 0));
    });
  });
}
