/** The running desk, asked over the network as its page asks it, and as others try to. */
import { readdirSync, readFileSync, writeFileSync } from 'node:fs';
import { request } from 'node:http';
import { connect } from 'node:net';
import { networkInterfaces } from 'node:os';
import { join, resolve } from 'node:path';
import { afterAll, beforeAll, describe, expect, it } from 'vitest';
import { parse } from 'yaml';
import { LOG_LIMIT_BYTES } from '../../pipeline/desk/body.ts';
import type { PlanSeen } from '../../pipeline/desk/plan-asked.ts';
import { bytesToStrip } from '../../pipeline/desk/strip-bytes.ts';
import { copiedContent, onlyTests, type RunningDesk, removeContent, startDesk } from './running-desk.ts';

const TEST = 'quillet-sorrel-wet';
const FILE = `content/tests/${TEST}/test.yaml`;

let root: string;
let desk: RunningDesk;
beforeAll(async () => {
  root = copiedContent(onlyTests(TEST));
  desk = await startDesk(root);
}, 120_000);
afterAll(async () => {
  await desk?.kill();
  removeContent(root);
});

interface Asked {
  readonly method?: string;
  readonly headers?: Readonly<Record<string, string | undefined>>;
  readonly body?: string | Buffer;
  /** Without a content-length, as a stream. */
  readonly streamed?: boolean;
}
interface Got {
  readonly status: number;
  readonly text: string;
  readonly bytes: Buffer;
  readonly headers: Readonly<Record<string, string | string[] | undefined>>;
}

/** By hand, since a browser's fetch would not let a test lie about its host or origin. */
function ask(
  path: string,
  { method = 'GET', headers = {}, body, streamed = false }: Asked = {},
): Promise<Got> {
  const own: Record<string, string | undefined> = {
    host: `127.0.0.1:${desk.port}`,
    origin: method === 'GET' ? undefined : desk.origin,
    'sec-fetch-site': 'same-origin',
    'x-desk-token': desk.token,
    ...(body === undefined || streamed ? {} : { 'content-length': String(Buffer.byteLength(body)) }),
    ...headers,
  };
  const sent = Object.fromEntries(Object.entries(own).filter(([, value]) => value !== undefined)) as Record<
    string,
    string
  >;
  return new Promise((got, failed) => {
    const asked = request({ host: '127.0.0.1', port: desk.port, path, method, headers: sent }, response => {
      const parts: Buffer[] = [];
      response.on('data', part => parts.push(part));
      response.on('end', () =>
        got({
          status: response.statusCode ?? 0,
          text: Buffer.concat(parts).toString(),
          bytes: Buffer.concat(parts),
          headers: response.headers,
        }),
      );
    });
    asked.on('error', failed);
    if (body !== undefined) asked.write(body);
    asked.end();
  });
}
const api = (path: string, asked: Asked = {}) => ask(`/desk/api/${path}`, asked);
interface View {
  readonly version: string;
  readonly articleVersion: string;
  readonly article: string;
  readonly test: { readonly title: string; readonly attempts: readonly { readonly note?: string }[] };
  readonly undo: number;
  readonly drawnFrom: string;
  readonly runs: readonly { readonly attempt?: number; readonly kept: boolean }[];
  readonly results: readonly { readonly measure: string; readonly text: string }[];
  readonly logs: readonly { readonly file: string; readonly asks?: readonly unknown[] }[];
  readonly problems: readonly { readonly id: string }[];
}
const viewOf = async (id = TEST): Promise<View> => JSON.parse((await api(`test/${id}`)).text) as View;
const put = (body: unknown, id = TEST) => api(`test/${id}`, { method: 'PUT', body: JSON.stringify(body) });
const idsOf = ({ text }: Got): readonly string[] =>
  (JSON.parse(text) as { problems: readonly { id: string }[] }).problems.map(({ id }) => id);

describe('strangers', () => {
  it.each<[string, Asked]>([
    ['without the token', { headers: { 'x-desk-token': undefined } }],
    ['with the token of another start', { headers: { 'x-desk-token': 'x'.repeat(32) } }],
    [
      'from a page of elsewhere',
      { headers: { origin: 'https://evil.example', 'sec-fetch-site': 'cross-site' } },
    ],
    ['by a name bound to this address', { headers: { host: 'evil.example' } }],
    ['writing without an origin', { method: 'PUT', body: '{}', headers: { origin: undefined } }],
  ])('%s are refused, and nothing is written', async (_, asked) => {
    const before = readFileSync(join(root, FILE), 'utf8');
    for (const path of ['publication', `test/${TEST}`, 'events']) {
      const got = await api(path, asked);
      expect(got.status, path).toBe(403);
      expect(got.headers['access-control-allow-origin']).toBeUndefined();
    }
    expect(readFileSync(join(root, FILE), 'utf8')).toBe(before);
  });

  it.each([
    'test/..%2f..%2fpackage.json',
    'test/%2e%2e',
    'test/../../../etc/passwd',
    'test/%00',
    'test/%E0%A4%A',
    `test/${TEST}/trace?log=../test.yaml`,
    `test/${TEST}/trace?log=/etc/passwd`,
    'test/C:%5Cx',
    'car/..%2ftests',
  ])('asking for %s get nothing of the disk', async path => {
    const got = await api(path);
    expect([400, 403, 404]).toContain(got.status);
    expect(got.text).not.toMatch(/root:|"name": "evenground"|\n\s+at /);
  });

  it('may not send more than a log can be, said or streamed', async () => {
    const said = await api(`test/${TEST}/log?name=a.csv`, {
      method: 'POST',
      headers: { 'content-length': String(LOG_LIMIT_BYTES + 1) },
      streamed: true,
    }).catch((error: Error) => error);
    if (!(said instanceof Error)) expect(idsOf(said)).toEqual(['desk-too-large']);
    const streamed = await api(`test/${TEST}`, {
      method: 'PUT',
      body: Buffer.alloc(2 * 2 ** 20, 32),
      streamed: true,
    }).catch((error: Error) => error);
    if (!(streamed instanceof Error)) expect(idsOf(streamed)).toEqual(['desk-too-large']);
    expect(readdirSync(join(root, `content/tests/${TEST}/logs`)).some(name => name.startsWith('a.'))).toBe(
      false,
    );
    expect((await api('publication')).status).toBe(200);
  });

  const outside = Object.values(networkInterfaces())
    .flat()
    .find(one => one !== undefined && !one.internal && one.family === 'IPv4')?.address;
  it.skipIf(outside === undefined)('of another machine meet no door at all', async () => {
    const asked = new Promise((_, failed) => connect(desk.port, outside).once('error', failed));
    await expect(asked).rejects.toMatchObject({ code: 'ECONNREFUSED' });
  });

  it('find no way to change what an object is', async () => {
    const { version } = await viewOf();
    const got = await put({ version, changes: [{ path: ['__proto__', 'polluted'], value: 1 }] });
    expect(got.status).toBe(400);
  });
});

describe('a test at the desk', () => {
  it('shows what is written and what was measured', async () => {
    const view = await viewOf();
    expect(view.runs.length).toBeGreaterThan(5);
    expect(view.runs.some(({ kept }) => kept)).toBe(true);
    expect(view.results.find(({ measure }) => measure === '0-100-kmh')?.text).toMatch(/^\d+\.\d+\u00a0s ±/);
  });

  it('is changed in its one place, measured anew, and taken back', async () => {
    const before = readFileSync(join(root, FILE), 'utf8');
    const view = await viewOf();
    const kept = view.runs.findIndex(run => run.kept && run.attempt !== undefined);
    const index = view.runs[kept]!.attempt!;
    const got = await put({
      version: view.version,
      changes: [{ path: ['attempts', index, 'set_aside'], value: 'A dog' }],
    });
    expect(got.status, got.text).toBe(200);
    const after = JSON.parse(got.text) as View;
    expect(after.runs[kept]!.kept).toBe(false);
    const lines = (text: string) => new Set(text.split('\n'));
    const written = readFileSync(join(root, FILE), 'utf8');
    expect([...lines(before)].filter(line => !lines(written).has(line)).length).toBeLessThanOrEqual(2);
    const back = JSON.parse((await api(`test/${TEST}/undo`, { method: 'POST', body: '{}' })).text) as View;
    expect(back.runs[kept]!.kept).toBe(true);
    expect(readFileSync(join(root, FILE), 'utf8')).toBe(before);
  });

  it('takes no value that its field cannot have', async () => {
    const { version } = await viewOf();
    const before = readFileSync(join(root, FILE), 'utf8');
    const got = await put({ version, changes: [{ path: ['as_tested', 'mass_kg'], value: 'heavy' }] });
    expect(got.status).toBe(400);
    expect(idsOf(got)[0]).toMatch(/^content-/);
    expect(readFileSync(join(root, FILE), 'utf8')).toBe(before);
  });

  it('that was changed in an editor meanwhile is not written over', async () => {
    const { version } = await viewOf();
    const edited = `${readFileSync(join(root, FILE), 'utf8')}# by hand\n`;
    writeFileSync(join(root, FILE), edited);
    const got = await put({ version, changes: [{ path: ['title'], value: 'Mine' }] });
    expect(got.status).toBe(409);
    const { conflict } = JSON.parse(got.text) as {
      conflict: { yours: string; onDisk: string; versionOnDisk: string };
    };
    expect(conflict.onDisk).toBe(edited);
    expect(conflict.yours).toContain('title: Mine');
    expect(readFileSync(join(root, FILE), 'utf8')).toBe(edited);
    const again = await put({
      version: conflict.versionOnDisk,
      changes: [{ path: ['title'], value: 'Mine' }],
    });
    expect(again.status).toBe(200);
    expect(readFileSync(join(root, FILE), 'utf8')).toContain('# by hand');
  });

  it('begins from nothing: made, given a log, shown in the day', async () => {
    const body = JSON.stringify({
      kind: 'test',
      title: 'A new day',
      car: 'quillet-sorrel',
      road: 'ossenby-fen',
      date: '2026-05-12',
    });
    const { id } = JSON.parse((await api('new', { method: 'POST', body })).text) as { id: string };
    expect(id).toBe('a-new-day');
    const log = readFileSync(
      resolve(import.meta.dirname, '../../content/tests/quillet-sorrel-dry/logs/first.csv'),
    );
    const got = await api(`test/${id}/log?name=${encodeURIComponent('../My Log.CSV')}`, {
      method: 'POST',
      body: log,
    });
    expect(got.status, got.text).toBe(200);
    // What the log is comes at once, before its runs are measured.
    const written = JSON.parse(got.text) as View;
    expect(written.logs.map(({ file }) => file)).toEqual(['logs/my-log.csv']);
    expect(written.runs).toBeUndefined();
    const view = await viewOf(id);
    expect(view.version).toBe(written.version);
    expect(view.runs.length).toBeGreaterThan(2);
    const trace = await api(`test/${id}/trace?log=logs/my-log.csv&points=500`);
    const { timeS, minKmh, maxKmh } = bytesToStrip(Uint8Array.from(trace.bytes).buffer);
    expect(timeS.length).toBeGreaterThan(400);
    expect(maxKmh.every((most, i) => most === null || (minKmh[i] ?? 0) <= most)).toBe(true);
    const asked = await api(`test/${id}/log?name=b.csv`, {
      method: 'POST',
      body: 'when,how fast\n0.0,0\n0.1,3\n0.2,6\n',
    });
    expect((JSON.parse(asked.text) as View).logs.at(-1)!.asks).toMatchObject([
      {
        as: 'time',
        choices: expect.arrayContaining([{ name: 'when', unit: 's', examples: ['0.0', '0.1', '0.2'] }]),
      },
    ]);
    const none = await api(`test/${id}/log?name=c.csv`, {
      method: 'POST',
      body: '<!doctype html><html></html>',
    });
    expect(idsOf(none)).toEqual(['log-web-page']);
    expect(readdirSync(join(root, `content/tests/${id}/logs`)).sort()).toEqual(['b.csv', 'my-log.csv']);
  });
});

describe('a car or a road at the desk', () => {
  const CAR = 'content/cars/quillet-sorrel.yaml';
  const ROAD = 'content/roads/ossenby-fen.yaml';
  interface Publication {
    readonly cars: readonly Named[];
    readonly roads: readonly Named[];
  }
  interface Named {
    readonly id: string;
    readonly version: string;
    readonly undo: number;
  }
  const named = async (kind: 'cars' | 'roads', id: string): Promise<Named> =>
    (JSON.parse((await api('publication')).text) as Publication)[kind].find(one => one.id === id)!;
  const putAt = (path: string, body: unknown) => api(path, { method: 'PUT', body: JSON.stringify(body) });
  const car = () => named('cars', 'quillet-sorrel');

  it('is changed in its one place, and taken back', async () => {
    for (const [kind, path, file, field, value] of [
      ['cars', 'car/quillet-sorrel', CAR, 'power_kw', 151],
      ['roads', 'road/ossenby-fen', ROAD, 'slope_pct', 0.25],
    ] as const) {
      const before = readFileSync(join(root, file), 'utf8');
      const { version, undo } = await named(kind, path.split('/')[1]!);
      const got = await putAt(path, { version, changes: [{ path: [field], value }] });
      expect(got.status, got.text).toBe(200);
      const after = readFileSync(join(root, file), 'utf8').split('\n');
      const changed = before.split('\n').filter((line, i) => line !== after[i]);
      expect(changed, file).toHaveLength(1);
      expect(parse(after.join('\n'))[field]).toBe(value);
      const now = (JSON.parse(got.text) as Publication)[kind].find(({ id }) => path.endsWith(id))!;
      expect(now.undo).toBe(undo + 1);
      await api(`${path}/undo`, { method: 'POST', body: '{}' });
      expect(readFileSync(join(root, file), 'utf8')).toBe(before);
    }
  });

  it('takes no value that its field cannot have, and keeps what it cannot be without', async () => {
    const before = readFileSync(join(root, CAR), 'utf8');
    const { version } = await car();
    for (const [field, value, fault] of [
      ['power_kw', -3, /^content-/],
      ['kerb_mass_kg', null, /^content-missing-key$/],
      ['no_such_field', 1, /^content-unknown-key$/],
    ] as const) {
      const got = await putAt('car/quillet-sorrel', { version, changes: [{ path: [field], value }] });
      expect(got.status, field).toBe(400);
      expect(idsOf(got)[0], field).toMatch(fault);
    }
    expect(readFileSync(join(root, CAR), 'utf8')).toBe(before);
  });

  it('that was changed in an editor meanwhile is not written over', async () => {
    const { version } = await car();
    const edited = `${readFileSync(join(root, CAR), 'utf8')}# by hand\n`;
    writeFileSync(join(root, CAR), edited);
    const changes = [{ path: ['power_kw'], value: 152 }];
    const { drawnFrom } = await viewOf();
    const got = await putAt('car/quillet-sorrel', { version, changes });
    expect(got.status).toBe(409);
    expect(readFileSync(join(root, CAR), 'utf8')).toBe(edited);
    const { conflict } = JSON.parse(got.text) as { conflict: { versionOnDisk: string } };
    expect((await putAt('car/quillet-sorrel', { version: conflict.versionOnDisk, changes })).status).toBe(
      200,
    );
    expect(readFileSync(join(root, CAR), 'utf8')).toMatch(/power_kw: 152\n[\s\S]*# by hand/);
    expect((await viewOf()).drawnFrom, 'pictures of its tests are drawn anew').not.toBe(drawnFrom);
  });

  it('that is not there is not made by a change', async () => {
    const changes = [{ path: ['name'], value: 'x' }];
    for (const path of ['car/nobody', 'road/nowhere']) {
      const got = await putAt(path, { version: 'x', changes });
      expect(idsOf(got)).toEqual(['desk-nothing-there']);
    }
  });
});

describe('the road plan at the desk', () => {
  it('is a figure, a table and a sentence with the cautions, from the runs of the day', async () => {
    const plan = JSON.parse((await api(`test/${TEST}/plan?layout=narrow`)).text) as PlanSeen;
    expect(plan.starts).toBeGreaterThan(1);
    expect(plan.figureSvg).toMatch(/^<svg[^>]* width="360"/);
    expect(plan.figureAlt).toContain('not a clearance to drive');
    expect(plan.tableHtml).toContain('<table');
    expect(plan.caution).toContain('not a clearance to drive');
    expect(plan.sentence).toMatch(/km\/h/);
    const longer = JSON.parse((await api(`test/${TEST}/plan?reserve=900&wet=1`)).text) as PlanSeen;
    expect(longer.sentence).not.toBe(plan.sentence);
    expect(longer.assumptions.join(' ')).toMatch(/900\sm/);
  });

  it('says which mass it stands on: that of the test, or the maker’s where nobody has typed one', async () => {
    const car = async (): Promise<string> => {
      const { assumptions } = JSON.parse((await api(`test/${TEST}/plan`)).text) as PlanSeen;
      return assumptions.find(one => one.startsWith('Car: '))!;
    };
    expect(await car()).toMatch(/^Car: 1735\skg as tested/);
    const typed = readFileSync(join(root, FILE), 'utf8');
    writeFileSync(join(root, FILE), typed.replace(/^ *mass_kg: .*\n/m, ''));
    expect(await car()).toMatch(/kg: the maker’s and 100\skg aboard/);
    writeFileSync(join(root, FILE), typed);
  });
});

describe('what a build makes', () => {
  it('has nothing of the desk in it', () => {
    // The route is added by the development command alone; the pages of a build are those in site/pages.
    const pages = readdirSync(resolve(import.meta.dirname, '../../site/pages'), {
      recursive: true,
    }) as string[];
    expect(pages.filter(page => /desk/i.test(page))).toEqual([]);
    const config = readFileSync(resolve(import.meta.dirname, '../../astro.config.mjs'), 'utf8');
    expect(config).not.toMatch(/desk/i);
  });
});
