/** What the desk's page can ask for, and what it gets. */
import type { IncomingMessage, ServerResponse } from 'node:http';
import { parseAs } from '../content/parse.ts';
import { carSchema, roadSchema, testSchema } from '../content/schema.ts';
import { type Problem, ProblemError } from '../problem.ts';
import {
  bodyUnreadable,
  cannotBeShown,
  deskFault,
  noSuchRequest,
  nothingThere,
  notYaml,
} from '../problems/desk.ts';
import { diskProblem } from '../problems/disk.ts';
import { planCautionOf } from '../result/caution.ts';
import { contentToRoadPlan, type PlanChoices } from '../result/road-plan.ts';
import { tableToHtml } from '../table/html.ts';
import { planAssumptions, planFinding, roadPlanTable } from '../table/road-plan.ts';
import { kmhToMps } from '../units.ts';
import { LOG_LIMIT_BYTES, readBody, readJson } from './body.ts';
import type { Change } from './change.ts';
import type { Desk } from './desk.ts';
import { draftOf } from './draft.ts';
import { overlaysZip, pressZip } from './export.ts';
import { insertsOf } from './inserts.ts';
import { freeName, logFileName, nameToSlug } from './names.ts';
import { type NewKind, newContentText, pathOfNew } from './new-content.ts';
import { figurePng, figureSvg, overlayPng, tableHtml } from './pictures.ts';
import { articlePreview } from './preview.ts';
import { ChangedMeanwhile, type Store, versionOf } from './store.ts';
import { traceToStrip } from './strip.ts';
import { publicationToView, testToView } from './view.ts';
import { changeYaml } from './yaml-edit.ts';

const SLUG = /^[a-z0-9]+(-[a-z0-9]+)*$/;
/** Readings farther apart than this many usual steps have a hole between them. */
const GAP_STEPS = 3;
const MOST_POINTS = 20_000;

/** What requests are answered from. */
export interface DeskParts {
  readonly desk: Desk;
  readonly store: Store;
  readonly signOff: SignOff;
}

interface Answer {
  readonly type: string;
  readonly body: string | Uint8Array;
  /** Name of a download. */
  readonly name?: string;
}
const json = (value: unknown): Answer => ({ type: 'application/json', body: JSON.stringify(value) });

/** Answers one request that has passed the guard; `path` is what follows `/desk/api/`, split at its slashes. */
export async function answer(
  { desk, store, signOff }: DeskParts,
  request: IncomingMessage,
  response: ServerResponse,
  path: readonly string[],
  query: URLSearchParams,
): Promise<void> {
  try {
    const { type, body, name } = await found({ desk, store, signOff }, request, path, query);
    response.writeHead(200, {
      'content-type': type,
      'cache-control': 'no-store',
      'x-content-type-options': 'nosniff',
      ...(name === undefined ? {} : { 'content-disposition': `attachment; filename="${name}"` }),
    });
    response.end(body);
  } catch (error) {
    refuse(response, error);
  }
}

/** Says no with problems in words: 409 where a file changed meanwhile, 400 for the rest, 500 for faults of the program. */
export function refuse(response: ServerResponse, error: unknown, status?: number): void {
  const disk = diskProblem(error);
  const problems: readonly Problem[] =
    error instanceof ProblemError
      ? error.problems
      : [disk ?? deskFault(error instanceof Error ? error.message : String(error))];
  const conflict = error instanceof ChangedMeanwhile ? { conflict: error.conflict } : {};
  const code = status ?? ('conflict' in conflict ? 409 : error instanceof ProblemError ? 400 : 500);
  response.writeHead(code, {
    'content-type': 'application/json',
    'cache-control': 'no-store',
    connection: 'close',
  });
  response.end(JSON.stringify({ ok: false, problems, ...conflict }));
}

async function found(
  { desk, store, signOff }: DeskParts,
  request: IncomingMessage,
  path: readonly string[],
  query: URLSearchParams,
): Promise<Answer> {
  const [what = '', id = '', part, rest] = path;
  const method = request.method ?? 'GET';
  const route = `${method} ${what}${id === '' ? '' : '/ID'}${part === undefined ? '' : `/${part}`}${rest === undefined ? '' : '/NAME'}`;
  if (id !== '' && !SLUG.test(id)) throw new ProblemError(nothingThere(what, id));
  if (path.length > 4) throw new ProblemError(noSuchRequest(method, path.join('/')));
  const open = async () => desk.open(await desk.now(), id);
  const view = async () => json(await testToView(desk, store, id));
  const testFile = `content/tests/${id}/test.yaml`;
  switch (route) {
    case 'GET publication':
      return json(await publicationToView(desk, store));
    case 'POST new':
      return json({ ok: true, id: await makeNew(desk, store, await readJson(request)) });
    case 'GET test/ID':
      return await view();
    case 'PUT test/ID':
      await open();
      await change(store, testFile, await readJson(request), testSchema, id);
      return await view();
    case 'PUT test/ID/article': {
      await open();
      const { version, text } = await readJson(request);
      if (typeof version !== 'string' || typeof text !== 'string')
        throw new ProblemError(bodyUnreadable('version and text'));
      await store.change(`content/tests/${id}/article.md`, version, () => text, id);
      return await view();
    }
    case 'POST test/ID/log':
      await open();
      await takeLog(desk, store, id, query.get('name') ?? 'log', await readBody(request, LOG_LIMIT_BYTES));
      return await view();
    case 'POST test/ID/undo':
    case 'POST test/ID/redo':
      await open();
      await store.step(id, part as 'undo' | 'redo');
      return await view();
    case 'PUT car/ID':
    case 'PUT road/ID':
      if ((await store.read(`content/${what}s/${id}.yaml`)) === undefined)
        throw new ProblemError(nothingThere(what, id));
      await change(
        store,
        `content/${what}s/${id}.yaml`,
        await readJson(request),
        what === 'car' ? carSchema : roadSchema,
        `${what}-${id}`,
      );
      return json(await publicationToView(desk, store));
    case 'GET test/ID/trace':
      return json(await strip(desk, id, query));
    case 'GET test/ID/inserts':
      return json({ ok: true, ...insertsOf(await open()) });
    case 'GET test/ID/article.html':
      return { type: 'text/html; charset=utf-8', body: await articlePreview(await open()) };
    case 'GET test/ID/figure/NAME':
      return {
        type: 'image/svg+xml',
        body: await figureSvg(await open(), rest!, query.get('layout') ?? 'wide'),
      };
    case 'GET test/ID/overlay/NAME':
      return {
        type: 'image/png',
        body: await overlayPng(await open(), rest!, query.get('size') ?? '1920x1080'),
      };
    case 'GET test/ID/table/NAME':
      return { type: 'text/html; charset=utf-8', body: tableHtml(await open(), rest!) };
    case 'GET test/ID/plan':
      return json(await plan(desk, id, query));
    case 'POST test/ID/export':
      return await exported(await open(), await readJson(request));
    case 'POST test/ID/sign-off':
      return json(await signedOff(signOff, id, (await readJson(request)).again === true));
    default:
      throw new ProblemError(noSuchRequest(method, path.join('/')));
  }
}

/** Writes changes that leave no field wrong that they touch; what is still missing may stay missing. */
async function change(
  store: Store,
  file: string,
  { version, changes }: Readonly<Record<string, unknown>>,
  schema: typeof testSchema | typeof carSchema | typeof roadSchema,
  journal: string,
): Promise<void> {
  if (typeof version !== 'string' || !isChanges(changes))
    throw new ProblemError(bodyUnreadable('version and changes'));
  await store.change(
    file,
    version,
    text => {
      let edited: string;
      try {
        edited = changeYaml(text, changes);
      } catch (error) {
        throw new ProblemError(notYaml(file, error instanceof Error ? error.message : String(error)));
      }
      const wrong = faultsOf(file, edited, schema).filter(({ where }) =>
        changes.some(
          ({ path }) =>
            where?.field === path.join('.') || where?.field?.startsWith(`${path.join('.')}.`) === true,
        ),
      );
      if (wrong.length > 0) throw new ProblemError(wrong);
      return edited;
    },
    journal,
  );
}

const faultsOf = (
  file: string,
  text: string,
  schema: typeof testSchema | typeof carSchema | typeof roadSchema,
): readonly Problem[] =>
  parseAs<unknown>(file, new TextEncoder().encode(text), schema).problems.filter(
    ({ severity, id }) => severity === 'error' && id !== 'content-missing-key',
  );

function isChanges(value: unknown): value is readonly Change[] {
  return (
    Array.isArray(value) &&
    value.length <= 200 &&
    value.every(
      one =>
        typeof one === 'object' &&
        one !== null &&
        'value' in one &&
        Array.isArray((one as Change).path) &&
        (one as Change).path.length > 0 &&
        (one as Change).path.every(step => isStep(step)),
    )
  );
}

/** A field's name or a place in a list; nothing that means something to the language. */
const isStep = (step: unknown): boolean =>
  (typeof step === 'string' &&
    step.length <= 60 &&
    !['__proto__', 'constructor', 'prototype'].includes(step)) ||
  (typeof step === 'number' && Number.isInteger(step) && step >= 0 && step < 2000);

/** The log as it came, under a free name, and a line for it in test.yaml. @throws ProblemError as the readers do */
async function takeLog(desk: Desk, store: Store, id: string, name: string, bytes: Uint8Array): Promise<void> {
  const { stem, ending } = logFileName(name);
  const { files } = await desk.now();
  const folder = `content/tests/${id}/logs`;
  const file = freeName(stem, free => files.has(`${folder}/${free}.${ending}`));
  try {
    desk.tools.readLog(name, bytes, {});
  } catch (error) {
    // What a column would mend is asked for on the page; anything else is no log, and is not kept.
    const isAsked =
      error instanceof ProblemError &&
      error.problems.some(({ id: fault }) => /(column|unit-unknown|unreadable)/.test(fault));
    if (!isAsked) throw error;
  }
  await store.create(`${folder}/${file}.${ending}`, bytes);
  const path = `content/tests/${id}/test.yaml`;
  const text = (await store.read(path)) ?? '';
  const known = parseAs(path, new TextEncoder().encode(text), testSchema).partly.logs?.length ?? 0;
  await store.change(
    path,
    versionOf(text),
    now => changeYaml(now, [{ path: ['logs', known], value: { file: `logs/${file}.${ending}` } }]),
    id,
  );
}

async function strip(desk: Desk, id: string, query: URLSearchParams): Promise<object> {
  const { files, content } = await desk.now();
  const name = query.get('log') ?? '';
  const noted = draftOf(id, files, content)?.parsed.partly.logs?.find(log => log?.file === name);
  const bytes = files.get(`content/tests/${id}/${name}`);
  if (noted === undefined || bytes === undefined) throw new ProblemError(nothingThere('log', name));
  const columns = noted.columns as Parameters<Desk['tools']['readLog']>[2]['columns'];
  const log = desk.tools.readLog(
    `content/tests/${id}/${name}`,
    bytes,
    columns === undefined ? {} : { columns },
  );
  const lastS = log.timeS.at(-1) ?? 0;
  const number = (key: string, usual: number): number => {
    const value = Number(query.get(key) ?? usual);
    return Number.isFinite(value) ? value : usual;
  };
  const fromS = Math.max(0, number('from', 0));
  const stepS = lastS / Math.max(1, log.timeS.length - 1);
  return {
    ok: true,
    truncated: false,
    ...traceToStrip(log.timeS, log.speedMps, {
      fromS,
      toS: Math.max(fromS, Math.min(lastS, number('to', lastS))),
      points: Math.min(MOST_POINTS, Math.max(10, Math.round(number('points', 2000)))),
      gapS: Math.max(1, GAP_STEPS * stepS),
    }),
  };
}

async function plan(desk: Desk, id: string, query: URLSearchParams): Promise<object> {
  const open = desk.open(await desk.now(), id);
  const { result, publication } = open;
  const { house } = publication;
  const { car: carId, road: roadId } = open.draft.parsed.partly;
  const car = publication.cars.find(one => one.id === carId);
  const road = publication.roads.find(one => one.id === roadId);
  if (car === undefined || road === undefined) {
    throw new ProblemError(cannotBeShown('The road plan', 'Choose the car and the road of this test first.'));
  }
  const number = (key: string): number | undefined => {
    const text = query.get(key);
    const value = Number(text);
    return text === null || text.trim() === '' || !Number.isFinite(value) ? undefined : value;
  };
  const direction = query.get('direction') ?? undefined;
  const choices: Partial<Record<keyof PlanChoices, unknown>> = {
    ...(query.get('wet') === '1' ? { wet: true } : {}),
    ...(road.directions.some(one => one.id === direction) ? { direction } : {}),
    loadKg: number('load'),
    towKg: number('tow'),
    headwindMps: number('headwind'),
    fromMps: number('from') === undefined ? undefined : kmhToMps(number('from')!),
    reactionTimeS: number('reaction'),
    decelerationMps2: number('deceleration'),
    reserveM: number('reserve'),
  };
  const told = Object.fromEntries(
    Object.entries(choices).filter(([, value]) => value !== undefined),
  ) as PlanChoices;
  const today = result !== undefined && result.attempts.length > 0 ? result : undefined;
  const made = contentToRoadPlan(car, road, told, today);
  return {
    ok: true,
    sentence: planFinding(made, house.language),
    tableHtml: tableToHtml(roadPlanTable(made, house.language), house),
    assumptions: planAssumptions(made, house.language).map(({ name, says }) => `${name}: ${says}`),
    caution: planCautionOf(house),
  };
}

async function exported(
  open: ReturnType<Desk['open']>,
  asked: Readonly<Record<string, unknown>>,
): Promise<Answer> {
  const texts = (value: unknown): readonly string[] =>
    Array.isArray(value) ? value.filter((one): one is string => typeof one === 'string').slice(0, 100) : [];
  const { what, kind, layout, format } = asked;
  if (what === 'press')
    return { type: 'application/zip', body: await pressZip(open), name: `${open.id}-press.zip` };
  if (what === 'overlays') {
    const body = await overlaysZip(open, texts(asked.names), texts(asked.sizes));
    return { type: 'application/zip', body, name: `${open.id}-lower-thirds.zip` };
  }
  if (what === 'figure' && typeof kind === 'string' && typeof layout === 'string') {
    const name = `${open.id}-${kind}-${layout}`;
    return format === 'png'
      ? { type: 'image/png', body: await figurePng(open, kind, layout), name: `${name}.png` }
      : { type: 'image/svg+xml', body: await figureSvg(open, kind, layout), name: `${name}.svg` };
  }
  throw new ProblemError(bodyUnreadable('what: press, overlays or figure'));
}

/** Records the numbers of a test as they go out; gives the exit status and what was said. */
export type SignOff = (
  id: string,
  again: boolean,
) => Promise<{ readonly status: number; readonly said: string }>;

async function signedOff(sign: SignOff, id: string, again: boolean): Promise<object> {
  const { status, said } = await sign(id, again);
  const says = said.trim().replace(/\s*\n\s*/g, ' ');
  if (status !== 0) throw new ProblemError(cannotBeShown('The sign-off', says));
  return { ok: true, signedOff: true, says };
}

const KINDS: readonly NewKind[] = ['test', 'car', 'road'];

/** @returns the id of what was made @throws ProblemError where a field is wrong */
async function makeNew(desk: Desk, store: Store, told: Readonly<Record<string, unknown>>): Promise<string> {
  const kind = KINDS.find(one => one === told.kind);
  const name = told.kind === 'test' ? told.title : told.name;
  if (kind === undefined || typeof name !== 'string' || name.trim() === '') {
    throw new ProblemError(bodyUnreadable('kind (test, car or road) and a title or name'));
  }
  const { files } = await desk.now();
  const id = freeName(nameToSlug(name, kind), free => files.has(pathOfNew(kind, free)));
  const text = newContentText(kind, await fieldsOfNew(kind, told, desk));
  const schema = { test: testSchema, car: carSchema, road: roadSchema }[kind];
  const wrong = faultsOf(pathOfNew(kind, id), text, schema);
  if (wrong.length > 0) throw new ProblemError(wrong);
  await store.create(pathOfNew(kind, id), text);
  if (kind === 'test') await store.create(`content/tests/${id}/article.md`, '');
  return id;
}

async function fieldsOfNew(
  kind: NewKind,
  told: Readonly<Record<string, unknown>>,
  desk: Desk,
): Promise<Record<string, unknown>> {
  const { kind: _, kind_of_car, like, ...fields } = told;
  if (kind === 'car') return { ...fields, ...(kind_of_car === undefined ? {} : { kind: kind_of_car }) };
  if (kind === 'road') {
    const directions = Array.isArray(fields.directions)
      ? (fields.directions as Record<string, unknown>[])
      : [];
    return {
      ...fields,
      ...(directions.length === 0
        ? {}
        : {
            directions: directions.map(one => ({
              id: one.id ?? nameToSlug(String(one.name ?? ''), 'way'),
              ...one,
            })),
          }),
    };
  }
  if (typeof like !== 'string') return fields;
  const before = desk.open(await desk.now(), like).draft.parsed.partly;
  return { time_zone: before.time_zone, as_tested: before.as_tested, receiver: before.receiver, ...fields };
}
