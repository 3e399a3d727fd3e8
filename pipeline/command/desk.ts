/** `evenground desk`: the local page in the browser where a test is put together. */
import { randomBytes } from 'node:crypto';
import { existsSync } from 'node:fs';
import { join, resolve } from 'node:path';
import { parseArgs } from 'node:util';
import type { SignOff } from '../desk/requests.ts';
import { deskIntegration } from '../desk/server.ts';
import type { Io } from './io.ts';
import { runSignOff } from './sign-off.ts';

/** Libraries as the desk serves them. */
const SERVED_LIBRARIES = '.evenground/vite';

const USAGE = `Usage: npm start -- [--port N] [--root FOLDER]

Opens the desk: a page in your browser where a test is put together from its logs and notes. It runs on this machine
only, answers nobody else, and saves into the plain files of content/. Ctrl-C ends it.

  --port N       where it listens; 4321 or the next free one where absent
  --root FOLDER  the folder that holds content/; this project where absent

Exit status: 0 ended; 1 it could not be started; 2 wrong usage.
`;

/** Runs until it is ended; @returns the exit status. */
export async function runDesk(args: readonly string[], io: Io): Promise<number> {
  let port: number;
  let root: string;
  try {
    const { values } = parseArgs({
      args: [...args],
      options: {
        port: { type: 'string' },
        root: { type: 'string' },
        // Nothing is opened by itself; the option says so where a script asks for it.
        'no-open': { type: 'boolean' },
        help: { type: 'boolean', short: 'h' },
      },
    });
    if (values.help) {
      io.stdout(USAGE);
      return 0;
    }
    port = Number(values.port ?? '4321');
    if (!Number.isInteger(port) || port < 1024 || port > 65_535)
      throw new Error('--port takes a number from 1024 to 65535.');
    root = values.root === undefined ? io.root : resolve(process.env.INIT_CWD ?? io.root, values.root);
    if (!existsSync(join(root, 'content')))
      throw new Error(`There is no folder content/ in ${values.root ?? 'this project'}.`);
  } catch (error) {
    io.stderr(`evenground desk: ${(error as Error).message.split('\n')[0]}\n\n${USAGE}`);
    return 2;
  }
  process.env.ASTRO_TELEMETRY_DISABLED = '1';
  const token = randomBytes(24).toString('base64url');
  const { dev } = await import('astro');
  const server = await dev({
    root: io.root,
    logLevel: 'warn',
    base: '/',
    server: { port, host: '127.0.0.1' },
    // Of its own: a check of types beside it, of other settings, would take the libraries it serves away.
    vite: { cacheDir: join(io.root, SERVED_LIBRARIES) },
    integrations: [deskIntegration(root, token, (id, again) => signOffIn(root, io.root, id, again))],
  });
  io.stdout(`The desk is open at http://127.0.0.1:${server.address.port}/desk/?token=${token}\n`);
  io.stdout(
    'Open that address in a browser on this machine. Ctrl-C ends it; everything saved stands in content/.\n',
  );
  await new Promise<void>(ended => {
    for (const signal of ['SIGINT', 'SIGTERM'] as const) process.once(signal, () => ended());
  });
  await server.stop();
  return 0;
}

/** The command of that name, what it says handed on. */
async function signOffIn(root: string, program: string, id: string, again: boolean): ReturnType<SignOff> {
  let said = '';
  const tell = (text: string): void => {
    said += text;
  };
  const args = again ? [id, '--again'] : [id];
  const status = await runSignOff(args, { root, stdout: tell, stderr: tell }, program);
  return { status, said };
}
