/** The desk on Astro's development server: a page and its interface, on this machine only, never in a build. */
import { type FSWatcher, watch } from 'node:fs';
import type { IncomingMessage, ServerResponse } from 'node:http';
import type { AddressInfo } from 'node:net';
import { join } from 'node:path';
import type { AstroIntegration } from 'astro';
import { ProblemError } from '../problem.ts';
import { Desk } from './desk.ts';
import { refusal } from './guard.ts';
import { answer, type DeskParts, refuse, type SignOff } from './requests.ts';
import { Store } from './store.ts';

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

/** Tells every page which files changed, a moment after the last of them. */
function tellOfChanges(root: string, listeners: ReadonlySet<ServerResponse>): FSWatcher {
  const changed = new Set<string>();
  let timer: ReturnType<typeof setTimeout> | undefined;
  const tell = (): void => {
    const files = [...changed];
    changed.clear();
    // A branch changed or a folder copied touches many: each test gets a word of its own, as do cars, roads and the house.
    const byTest = Map.groupBy(files, file => /^content\/tests\/([^/]+)\//.exec(file)?.[1] ?? null);
    for (const [test, of] of byTest)
      for (const listener of listeners) listener.write(`data: ${JSON.stringify({ test, changed: of })}\n\n`);
  };
  const watcher = watch(join(root, 'content'), { recursive: true }, (_, name) => {
    if (name === null || name.includes('.unfinished-')) return;
    changed.add(`content/${name.replaceAll('\\', '/')}`);
    clearTimeout(timer);
    timer = setTimeout(tell, SETTLE_MS);
  });
  // A folder that is renamed or removed meanwhile is no reason to stop.
  watcher.on('error', () => {});
  return watcher;
}
