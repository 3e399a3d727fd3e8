/** The edge of the program: what a command may touch, handed in so that commands can be tested without a process. */
import { readFile } from 'node:fs/promises';
import { resolve } from 'node:path';
import { buffer } from 'node:stream/consumers';

export interface Io {
  stdout(text: string): void;
  stderr(text: string): void;
  /** All of standard input. */
  stdin(): Promise<Uint8Array>;
  /** Paths are relative to the folder the person is in. */
  readFile(path: string): Promise<Uint8Array>;
  /** Whether standard error is a terminal: decides between a moving line and plain lines. */
  readonly isTerminal: boolean;
  /** The project's root. */
  readonly root: string;
}

/** The real process. `npm run` moves to the project's root and tells where the person was in INIT_CWD. */
export function processIo(): Io {
  const from = process.env.INIT_CWD ?? process.cwd();
  return {
    stdout: text => void process.stdout.write(text),
    stderr: text => void process.stderr.write(text),
    stdin: async () => new Uint8Array(await buffer(process.stdin)),
    readFile: async path => new Uint8Array(await readFile(resolve(from, path))),
    isTerminal: process.stderr.isTTY === true,
    root: process.cwd(),
  };
}
