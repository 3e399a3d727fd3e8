/** What the desk's page can ask for, and what it gets. */
import type { IncomingMessage, ServerResponse } from 'node:http';
import { ProblemError } from '../problem.ts';
import { bodyUnreadable, cannotBeShown, noSuchRequest, nothingThere } from '../problems/desk.ts';
import { type Answer, give, json, refuse } from './answer.ts';
import { LOG_LIMIT_BYTES, readBody, readJson } from './body.ts';
import { changeFile } from './change-file.ts';
import type { Desk, OpenTest } from './desk.ts';
import { exported } from './export.ts';
import { insertsOf } from './inserts.ts';
import { makeNew } from './make-new.ts';
import { pathOfNew } from './new-content.ts';
import { figureSvg, overlayPng, tableHtml } from './pictures.ts';
import { planAsked } from './plan-asked.ts';
import { articlePreview } from './preview.ts';
import type { Store } from './store.ts';
import { takeLog } from './take-log.ts';
import { traceAsked } from './trace-asked.ts';
import { journalOf, publicationToView, testToView, writtenToView } from './view.ts';

const SLUG = /^[a-z0-9]+(-[a-z0-9]+)*$/;
/** `car/ID/…` and so on has four parts at most. */
const MOST_PARTS = 4;

/** Records the numbers of a test as they go out; gives the exit status and what was said. */
export type SignOff = (
  id: string,
  again: boolean,
) => Promise<{ readonly status: number; readonly said: string }>;

/** What requests are answered from. */
export interface DeskParts {
  readonly desk: Desk;
  readonly store: Store;
  readonly signOff: SignOff;
}

/** One request with what its address names. */
interface Asked extends DeskParts {
  readonly request: IncomingMessage;
  readonly query: URLSearchParams;
  /** Of the test, car or road. */
  readonly id: string;
  /** Of the picture or table. */
  readonly name: string;
}

/** Answers one request that has passed the guard; `path` is what follows `/desk/api/`, split at its slashes. */
export async function answer(
  parts: DeskParts,
  request: IncomingMessage,
  response: ServerResponse,
  path: readonly string[],
  query: URLSearchParams,
): Promise<void> {
  try {
    give(response, await found(parts, request, path, query));
  } catch (error) {
    refuse(response, error);
  }
}

async function found(
  parts: DeskParts,
  request: IncomingMessage,
  path: readonly string[],
  query: URLSearchParams,
): Promise<Answer> {
  const [what = '', id = '', part, name] = path;
  const method = request.method ?? 'GET';
  if (id !== '' && !SLUG.test(id)) throw new ProblemError(nothingThere(what, id));
  const route = [
    `${method} ${what}`,
    id === '' ? '' : '/ID',
    part === undefined ? '' : `/${part}`,
    name === undefined ? '' : '/NAME',
  ].join('');
  if (path.length > MOST_PARTS || !Object.hasOwn(ROUTES, route))
    throw new ProblemError(noSuchRequest(method, path.join('/')));
  return await ROUTES[route]!({ ...parts, request, query, id, name: name ?? '' });
}

/** Every request by its method and the form of its address. */
const ROUTES: Readonly<Record<string, (asked: Asked) => Promise<Answer>>> = {
  'GET publication': async ({ desk, store }) => json(await publicationToView(desk, store)),
  'POST new': async ({ desk, store, request }) =>
    json({ ok: true, id: await makeNew(desk, store, await readJson(request)) }),
  'PUT car/ID': asked => changedDescription('car', asked),
  'PUT road/ID': asked => changedDescription('road', asked),
  'POST car/ID/undo': asked => steppedDescription('car', asked),
  'POST road/ID/undo': asked => steppedDescription('road', asked),
  'GET test/ID': asked => view(asked),
  'PUT test/ID': async asked => {
    await mustBeThere(asked);
    const { store, id, request } = asked;
    await changeFile(store, 'test', testFile(id), await readJson(request), id);
    return await view(asked);
  },
  'PUT test/ID/article': async asked => {
    await mustBeThere(asked);
    const { store, id, request } = asked;
    const { version, text } = await readJson(request);
    if (typeof version !== 'string' || typeof text !== 'string')
      throw new ProblemError(bodyUnreadable('version and text'));
    await store.change(`content/tests/${id}/article.md`, version, () => text, id);
    return await view(asked);
  },
  // Measuring takes its time: what the log is, and the trace that is asked for next, come before it.
  'POST test/ID/log': async asked => {
    await mustBeThere(asked);
    const { desk, store, id, request, query } = asked;
    await takeLog(desk, store, id, query.get('name') ?? 'log', await readBody(request, LOG_LIMIT_BYTES));
    return json({ ok: true, ...(await writtenToView(desk, store, id)) });
  },
  'POST test/ID/undo': asked => stepped('undo', asked),
  'POST test/ID/redo': asked => stepped('redo', asked),
  'POST test/ID/export': async asked => await exported(await open(asked), await readJson(asked.request)),
  'POST test/ID/sign-off': asked => signedOff(asked),
  'GET test/ID/trace': async ({ desk, id, query }) => ({
    type: 'application/octet-stream',
    body: await traceAsked(desk, id, query),
  }),
  'GET test/ID/plan': async asked => json({ ok: true, ...(await planAsked(await open(asked), asked.query)) }),
  'GET test/ID/inserts': async asked => json({ ok: true, ...insertsOf(await open(asked)) }),
  'GET test/ID/article.html': async asked => ({
    type: 'text/html; charset=utf-8',
    body: await articlePreview(await open(asked)),
  }),
  'GET test/ID/figure/NAME': async asked => ({
    type: 'image/svg+xml',
    body: await figureSvg(await open(asked), asked.name, asked.query.get('layout') ?? 'wide'),
  }),
  'GET test/ID/overlay/NAME': async asked => ({
    type: 'image/png',
    body: await overlayPng(await open(asked), asked.name, asked.query.get('size') ?? '1920x1080'),
  }),
  'GET test/ID/table/NAME': async asked => ({
    type: 'text/html; charset=utf-8',
    body: tableHtml(await open(asked), asked.name),
  }),
};

const testFile = (id: string): string => pathOfNew('test', id);

const open = async ({ desk, id }: Asked): Promise<OpenTest> => desk.open(await desk.now(), id);

const view = async ({ desk, store, id }: Asked): Promise<Answer> => json(await testToView(desk, store, id));

async function mustBeThere({ store, id }: Asked): Promise<void> {
  if ((await store.read(testFile(id))) === undefined) throw new ProblemError(nothingThere('test', id));
}

/** A car's or a road's own file. */
async function changedDescription(
  kind: 'car' | 'road',
  { desk, store, id, request }: Asked,
): Promise<Answer> {
  const file = pathOfNew(kind, id);
  if ((await store.read(file)) === undefined) throw new ProblemError(nothingThere(kind, id));
  await changeFile(store, kind, file, await readJson(request), journalOf(kind, id));
  return json(await publicationToView(desk, store));
}

async function steppedDescription(kind: 'car' | 'road', { desk, store, id }: Asked): Promise<Answer> {
  await store.step(journalOf(kind, id), 'undo');
  return json(await publicationToView(desk, store));
}

async function stepped(which: 'undo' | 'redo', asked: Asked): Promise<Answer> {
  await mustBeThere(asked);
  await asked.store.step(asked.id, which);
  return await view(asked);
}

async function signedOff({ signOff, id, request }: Asked): Promise<Answer> {
  const { status, said } = await signOff(id, (await readJson(request)).again === true);
  const says = said.trim().replace(/\s*\n\s*/g, ' ');
  if (status !== 0) throw new ProblemError(cannotBeShown('The sign-off', says));
  return json({ ok: true, signedOff: true, says });
}
