// Every figure, table and overlay from the test cases and the demo: on a page that is drawn anew on every reload, or,
// with --out FOLDER, as files. Plain JavaScript, so that a Node too old gets the remedy instead of a stack trace.
import { mkdirSync, writeFileSync } from 'node:fs';
import { createServer } from 'node:http';
import { dirname, join } from 'node:path';
import { parseArgs } from 'node:util';
import { Worker } from 'node:worker_threads';

if (Number(process.versions.node.split('.')[0]) < 24) {
  process.stderr.write(
    `This is Node ${process.versions.node}, and 24 or later is needed: use npm run gallery after npm ci.\n`,
  );
  process.exit(2);
}

const { values } = parseArgs({
  options: { out: { type: 'string' }, port: { type: 'string', default: '4600' } },
});

let count = 0;
function startWorker() {
  const worker = new Worker(new URL('./worker.ts', import.meta.url));
  const waiting = new Map();
  const fail = error => {
    for (const { reject } of waiting.values()) reject(error);
    waiting.clear();
  };
  worker.on('message', ({ id, text, error }) => {
    const { resolve, reject } = waiting.get(id) ?? {};
    waiting.delete(id);
    if (error === undefined) resolve?.(text);
    else reject?.(new Error(error));
  });
  worker.on('error', fail);
  worker.on('exit', () => fail(new Error('The sources were read anew.')));
  return {
    ask: address =>
      new Promise((resolve, reject) => {
        count += 1;
        waiting.set(count, { resolve, reject });
        worker.postMessage({ id: count, address });
      }),
    stop: () => worker.terminate(),
  };
}

if (values.out !== undefined) {
  const worker = startWorker();
  const write = (path, text) => {
    mkdirSync(dirname(join(values.out, path)), { recursive: true });
    writeFileSync(join(values.out, path), text);
  };
  for (const name of ['index', 'dark', 'mono']) {
    for (const page of [`${name}.html`, `${name}-de.html`]) write(page, await worker.ask(page));
  }
  const list = (await worker.ask('list')).split('\n');
  for (const [index, address] of list.entries()) {
    write(address, await worker.ask(address));
    if ((index + 1) % 100 === 0) process.stderr.write(`${index + 1} of ${list.length}\n`);
  }
  process.stdout.write(`${list.length} pictures in ${values.out}\n`);
  await worker.stop();
} else {
  let worker = startWorker();
  const server = createServer(async (request, response) => {
    const path = decodeURIComponent(new URL(request.url ?? '/', 'http://localhost').pathname).slice(1);
    const page = path === '' ? 'index.html' : path;
    try {
      if (page.endsWith('.html')) {
        const before = worker;
        worker = startWorker();
        void before.stop();
      }
      const text = await worker.ask(page);
      const type = page.endsWith('.svg') ? 'image/svg+xml' : 'text/html; charset=utf-8';
      response.writeHead(text === undefined ? 404 : 200, {
        'Content-Type': type,
        'Cache-Control': 'no-store',
      });
      response.end(text ?? 'There is nothing at this address.');
    } catch (error) {
      response.writeHead(500, { 'Content-Type': 'text/plain; charset=utf-8' });
      response.end(error instanceof Error ? error.message : String(error));
    }
  });
  // Own machine only.
  server.listen(Number(values.port), '127.0.0.1', () => {
    process.stdout.write(`http://127.0.0.1:${server.address().port}/ – reload to draw anew, Ctrl+C to end\n`);
  });
}
