/** The desk on Astro's development server: a page and its interface, on this machine only, never in a build. */
import { type FSWatcher, watch } from 'node:fs';
import { readFile } from 'node:fs/promises';
import type { IncomingMessage, ServerResponse } from 'node:http';
import type { AddressInfo } from 'node:net';
import { join } from 'node:path';
import type { AstroIntegration } from 'astro';
import { ProblemError } from '../problem.ts';
import { refuse } from './answer.ts';
import { Desk } from './desk.ts';
import { refusal } from './guard.ts';
import { answer, type DeskParts, type SignOff } from './requests.ts';
import { settling } from './settling.ts';
import { Store, UNFINISHED, versionOf } from './store.ts';

const API = '/desk/api/';
/** Libraries of the page, made ready at the start so that the first visit does not load twice. */
const LIBRARIES = [
  'preact',
  'preact/hooks',
  'preact/jsx-runtime',
  'preact/jsx-dev-runtime',
  '@preact/signals',
  'uplot',
  'zod',
];
/** Several files are written in one go by some editors. */
const SETTLE_MS = 40;
/** A file that is being written on and on, such as a log still running, is told of all the same. */
const LONGEST_MS = 400;

/** @param root folder that holds content/ @param token of this start; without it nothing is answered */
export function deskIntegration(root: string, token: string, signOff: SignOff): AstroIntegration {
  const parts: DeskParts = { desk: new Desk(root), store: new Store(root), signOff };
  const listeners = new Set<ServerResponse>();
  let watcher: FSWatcher | undefined;
  return {
    name: 'evenground-desk',
    hooks: {
      'astro:config:setup': ({ command, injectRoute, updateConfig }) => {
        if (command !== 'dev') return;
        injectRoute({ pattern: '/desk', entrypoint: './site/desk/desk.astro', prerender: true });
        updateConfig({ vite: { optimizeDeps: { include: LIBRARIES } } });
      },
      'astro:server:setup': ({ server }) => {
        const handle = (request: IncomingMessage, response: ServerResponse, next: () => void): void => {
          const address = new URL(request.url ?? '/', 'http://desk.invalid');
          if (!address.pathname.startsWith(API)) {
            next();
            return;
          }
          const port = (server.httpServer?.address() as AddressInfo | null)?.port ?? 0;
          const refused = refusal(
            {
              method: request.method ?? 'GET',
              remoteAddress: request.socket.remoteAddress,
              host: request.headers.host,
              origin: request.headers.origin,
              secFetchSite: one(request.headers['sec-fetch-site']),
              token: one(request.headers['x-desk-token']),
            },
            { port, token },
          );
          if (refused) refuse(response, new ProblemError(refused), 403);
          else if (address.pathname === `${API}events`) listen(response, listeners);
          else void answer(parts, request, response, stepsOf(address.pathname), address.searchParams);
        };
        // Before Astro's own handlers, which answer addresses without a slash at the end by themselves.
        setImmediate(() => server.middlewares.stack.unshift({ route: '', handle: handle as never }));
        void parts.store.clearUnfinished();
        watcher = tellOfChanges(root, listeners);
        server.httpServer?.on('close', () => watcher?.close());
      },
    },
  };
}

const one = (header: string | readonly string[] | undefined): string | undefined =>
  typeof header === 'string' ? header : header?.[0];

/** @returns a path that names nothing where an escape in it is broken */
function stepsOf(pathname: string): readonly string[] {
  try {
    return pathname.slice(API.length).split('/').map(decodeURIComponent);
  } catch {
    return ['?'];
  }
}

function listen(response: ServerResponse, listeners: Set<ServerResponse>): void {
  response.writeHead(200, { 'content-type': 'text/event-stream', 'cache-control': 'no-store' });
  response.write(': listening\n\n');
  listeners.add(response);
  response.on('close', () => listeners.delete(response));
}

/** What a page is told: which files of a test changed, or of what all tests share, and the versions they have now. */
export interface ChangeTold {
  readonly test: string | null;
  readonly changed: readonly string[];
  /** By path; a file that is gone has none. */
  readonly versions: Readonly<Record<string, string>>;
}

/** Tells every page which files changed, a moment after the last of them. */
function tellOfChanges(root: string, listeners: ReadonlySet<ServerResponse>): FSWatcher {
  const changed = new Set<string>();
  const tell = async (): Promise<void> => {
    const files = [...changed];
    changed.clear();
    // A branch changed or a folder copied touches many: each test gets a word of its own, as do cars, roads and the house.
    const byTest = Map.groupBy(files, file => /^content\/tests\/([^/]+)\//.exec(file)?.[1] ?? null);
    for (const [test, of] of byTest) {
      const change: ChangeTold = { test, changed: of, versions: await versionsOf(root, of) };
      for (const listener of listeners) listener.write(`data: ${JSON.stringify(change)}\n\n`);
    }
  };
  const told = settling(() => void tell(), { pauseMs: SETTLE_MS, mostMs: LONGEST_MS });
  const watcher = watch(join(root, 'content'), { recursive: true }, (_, name) => {
    if (name === null || name.includes(UNFINISHED)) return;
    changed.add(`content/${name.replaceAll('\\', '/')}`);
    told.later();
  });
  // A folder that is renamed or removed meanwhile is no reason to stop.
  watcher.on('error', () => {});
  return watcher;
}

/** A page that wrote a file itself, or has read it since, knows its version and need not ask again. */
async function versionsOf(root: string, files: readonly string[]): Promise<Readonly<Record<string, string>>> {
  const versions = files.map(async file => {
    const bytes = await readFile(join(root, file)).catch(() => undefined);
    return bytes === undefined ? [] : [[file, versionOf(bytes)] as const];
  });
  return Object.fromEntries((await Promise.all(versions)).flat());
}
