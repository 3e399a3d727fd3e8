/** Saving by itself, with the browser and the server stood in for. */
import { afterEach, beforeEach, describe, expect, it, vi } from 'vitest';

interface Put {
  readonly atMs: number;
  readonly title: string;
}

const puts: Put[] = [];
let answers: 'yes' | 'nobody' = 'yes';
const kept = new Map<string, string>();

beforeEach(() => {
  vi.useFakeTimers();
  puts.length = 0;
  kept.clear();
  answers = 'yes';
  vi.stubGlobal('location', { hash: '#/test/wren/road' });
  vi.stubGlobal('addEventListener', () => {});
  vi.stubGlobal('document', {});
  vi.stubGlobal('sessionStorage', { getItem: () => 'token' });
  vi.stubGlobal('localStorage', {
    getItem: (key: string) => kept.get(key) ?? null,
    setItem: (key: string, value: string) => kept.set(key, value),
    removeItem: (key: string) => kept.delete(key),
  });
  let version = 0;
  vi.stubGlobal('fetch', async (_: string, { body }: RequestInit) => {
    if (answers === 'nobody') throw new TypeError('no server');
    const { changes } = JSON.parse(String(body)) as { changes: readonly { value: string }[] };
    const title = changes.at(-1)!.value;
    puts.push({ atMs: performance.now(), title });
    return new Response(JSON.stringify({ id: 'wren', version: String(++version), test: { title } }));
  });
});
afterEach(() => {
  vi.useRealTimers();
  vi.unstubAllGlobals();
  vi.resetModules();
});

async function openedPage() {
  const saving = await import('../../../site/desk/saving.ts');
  const state = await import('../../../site/desk/state.ts');
  state.view.value = { id: 'wren', version: '0', test: {} } as never;
  return { ...saving, ...state };
}

const LETTER_MS = 150;
/** Types on and on without a pause. @returns what was typed */
async function typed(
  change: (path: readonly string[], value: unknown) => void,
  forMs: number,
): Promise<string> {
  let title = '';
  for (let ms = 0; ms < forMs; ms += LETTER_MS) {
    title += 'a';
    change(['title'], title);
    await vi.advanceTimersByTimeAsync(LETTER_MS);
  }
  return title;
}

describe('what is typed', () => {
  it('is saved a moment after the last letter, in one go', async () => {
    const { change, saving } = await openedPage();
    const title = await typed(change, 900);
    expect(puts).toEqual([]);
    expect(saving.value.is).toBe('saving');
    await vi.advanceTimersByTimeAsync(400);
    expect(puts.map(put => put.title)).toEqual([title]);
    expect(saving.value.is).toBe('saved');
  });

  it('without ever pausing is saved every two seconds all the same', async () => {
    const { change } = await openedPage();
    const begun = performance.now();
    await typed(change, 10_000);
    const times = puts.map(({ atMs }) => atMs - begun);
    expect(times[0]).toBeLessThanOrEqual(2000);
    expect(times.length).toBeGreaterThanOrEqual(4);
    for (const [i, at] of times.slice(1).entries()) {
      expect(at - times[i]!, 'never more than a letter over the bound').toBeLessThanOrEqual(2000 + LETTER_MS);
    }
  });

  it('is kept in the browser while nobody answers, and sent when somebody does', async () => {
    const { change, saving } = await openedPage();
    answers = 'nobody';
    const title = await typed(change, 3000);
    await vi.advanceTimersByTimeAsync(3000);
    expect(saving.value.is).toBe('waiting');
    expect(JSON.parse([...kept.values()][0]!).changes.at(-1).value).toBe(title);
    answers = 'yes';
    await vi.advanceTimersByTimeAsync(3000);
    expect(puts.at(-1)?.title).toBe(title);
    expect(saving.value.is).toBe('saved');
    expect(kept.size).toBe(0);
  });
});
