/** The desk as a person starts it, over a copy of some content, for tests that ask it things. */
import { type ChildProcess, spawn } from 'node:child_process';
import { cpSync, mkdtempSync, rmSync } from 'node:fs';
import { createServer } from 'node:net';
import { tmpdir } from 'node:os';
import { join, resolve } from 'node:path';

const ROOT = resolve(import.meta.dirname, '../..');

export interface RunningDesk {
  readonly root: string;
  readonly port: number;
  readonly origin: string;
  readonly token: string;
  /** Address that a person opens. */
  readonly address: string;
  kill(signal?: NodeJS.Signals): Promise<void>;
}

/** A folder with a copy of the project's content, or of parts of it. */
export function copiedContent(keep: (path: string) => boolean = () => true): string {
  const root = mkdtempSync(join(tmpdir(), 'evenground-desk-'));
  cpSync(join(ROOT, 'content'), join(root, 'content'), { recursive: true, filter: keep });
  return root;
}

/** Of the demo's tests, those alone. */
export const onlyTests =
  (...ids: readonly string[]) =>
  (path: string): boolean => {
    const test = /content\/tests\/([^/]+)/.exec(path)?.[1];
    return test === undefined || ids.includes(test);
  };

export const removeContent = (root: string): void => rmSync(root, { recursive: true, force: true });

/** @throws Error with what the desk said, where it does not start */
export async function startDesk(root: string): Promise<RunningDesk> {
  const port = await freePort();
  const env: NodeJS.ProcessEnv = {
    PATH: process.env.PATH,
    HOME: process.env.HOME,
    ASTRO_TELEMETRY_DISABLED: '1',
  };
  const args = ['pipeline/evenground.mjs', 'desk', '--root', root, '--port', String(port), '--no-open'];
  const child = spawn(process.execPath, args, { cwd: ROOT, env, detached: true });
  const address = await new Promise<string>((found, failed) => {
    let said = '';
    const hear = (chunk: Buffer): void => {
      said += chunk;
      const told = /http:\/\/127\.0\.0\.1:\d+\/desk\/\?token=\S+/.exec(said);
      if (told) found(told[0]);
    };
    child.stdout.on('data', hear);
    child.stderr.on('data', hear);
    child.once('close', () => failed(new Error(`the desk did not start:\n${said}`)));
  });
  const { origin, port: opened, searchParams } = new URL(address);
  return {
    root,
    port: Number(opened),
    origin,
    token: searchParams.get('token')!,
    address,
    kill: signal => killed(child, signal),
  };
}

/** The whole group: the development server has processes of its own. */
function killed(child: ChildProcess, signal: NodeJS.Signals = 'SIGKILL'): Promise<void> {
  if (child.exitCode !== null || child.signalCode !== null) return Promise.resolve();
  const ended = new Promise<void>(done => child.once('close', () => done()));
  process.kill(-child.pid!, signal);
  return ended;
}

function freePort(): Promise<number> {
  return new Promise((found, failed) => {
    const server = createServer();
    server.once('error', failed);
    server.listen(0, '127.0.0.1', () => {
      const address = server.address();
      server.close(() => found(typeof address === 'object' && address !== null ? address.port : 0));
    });
  });
}
