/** Serves a built site from a folder, as a plain host would: no rewriting, 404.html for what is not there. */
import { readFile, stat } from 'node:fs/promises';
import { createServer, type Server } from 'node:http';
import type { AddressInfo } from 'node:net';
import { extname, join, normalize } from 'node:path';

const TYPES: Readonly<Record<string, string>> = {
  '.html': 'text/html; charset=utf-8',
  '.js': 'text/javascript; charset=utf-8',
  '.xml': 'application/xml',
  '.css': 'text/css; charset=utf-8',
  '.svg': 'image/svg+xml',
  '.png': 'image/png',
  '.woff2': 'font/woff2',
  '.json': 'application/json',
  '.csv': 'text/csv; charset=utf-8',
  '.txt': 'text/plain; charset=utf-8',
};

export interface StaticServer {
  /** Address of the front page, with its base and a slash at the end. */
  readonly address: string;
  close(): Promise<void>;
}

/** @param base path under which the folder is served, `/` or `/name/` */
export async function serveFolder(folder: string, base = '/'): Promise<StaticServer> {
  const server = createServer((request, response) => {
    const path = decodeURIComponent(new URL(request.url ?? '/', 'http://x').pathname);
    answer(folder, base, path).then(
      ({ status, headers, body }) => response.writeHead(status, headers).end(body),
      (error: unknown) => response.writeHead(500).end(String(error)),
    );
  });
  await new Promise<void>(listening => server.listen(0, '127.0.0.1', listening));
  const { port } = server.address() as AddressInfo;
  return { address: `http://127.0.0.1:${port}${base}`, close: () => closeServer(server) };
}

async function answer(
  folder: string,
  base: string,
  path: string,
): Promise<{ status: number; headers: Record<string, string>; body?: Uint8Array }> {
  const found = path.startsWith(base) ? await fileFor(folder, path.slice(base.length - 1)) : undefined;
  if (found === 'folder') return { status: 301, headers: { location: `${path}/` } };
  const file = found ?? join(folder, '404.html');
  return {
    status: found === undefined ? 404 : 200,
    headers: { 'content-type': TYPES[extname(file)] ?? 'application/octet-stream' },
    body: await readFile(file),
  };
}

async function fileFor(folder: string, path: string): Promise<string | undefined> {
  const file = join(folder, normalize(path));
  if (!file.startsWith(folder)) return undefined;
  const found = await stat(file).catch(() => undefined);
  if (found?.isDirectory()) {
    if (!path.endsWith('/')) return 'folder';
    const index = join(file, 'index.html');
    return (await stat(index).catch(() => undefined)) ? index : undefined;
  }
  return found ? file : undefined;
}

function closeServer(server: Server): Promise<void> {
  server.closeAllConnections();
  return new Promise(closed => server.close(() => closed()));
}
