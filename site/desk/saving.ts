/**
 * Saving by itself: changes are sent one batch after another, kept in this browser until the server has them, and
 * sent again when it comes back. Nothing is written over a file that changed meanwhile.
 */
import { batch } from '@preact/signals';
import { settling } from '../../pipeline/desk/settling.ts';
import type { Change, Conflict, TestView, WrittenView } from './answers.ts';
import { joined } from './changes.ts';
import { NotThere, Refused, read, send, sendFile } from './server.ts';
import { articleDraft, conflict, place, reading, said, saving, underWay, view, waiting } from './state.ts';
import { wholeTrace } from './traces.ts';

/** Long enough for a word, short enough that results follow the hand. */
const PAUSE_MS = 350;
/** Who types without a pause is saved all the same. */
const LONGEST_MS = 2000;
const AGAIN_MS = 2000;

interface Kept {
  readonly version?: string;
  readonly changes: readonly Change[];
  readonly articleVersion?: string;
  readonly article?: string;
}

const keyOf = (id: string): string => `desk-unsent-${id}`;

/** Writes down in the browser what the server does not have yet. */
function keep(): void {
  const now = view.value;
  if (now === undefined) return;
  const changes = [...underWay.value, ...waiting.value];
  const article = articleDraft.value;
  if (changes.length === 0 && article === undefined) localStorage.removeItem(keyOf(now.id));
  else {
    const kept: Kept = {
      changes,
      version: now.version,
      ...(article === undefined ? {} : { article, articleVersion: now.articleVersion }),
    };
    localStorage.setItem(keyOf(now.id), JSON.stringify(kept));
  }
}

/** Opens a test, and sends what an earlier visit could not. */
export async function openTest(id: string): Promise<void> {
  const answer = await read<TestView>(`test/${encodeURIComponent(id)}`);
  if (place.value.test !== id) return;
  const kept = JSON.parse(localStorage.getItem(keyOf(id)) ?? '{"changes":[]}') as Kept;
  batch(() => {
    view.value =
      kept.version === undefined
        ? answer
        : { ...answer, version: kept.version, articleVersion: kept.articleVersion ?? answer.articleVersion };
    underWay.value = [];
    waiting.value = kept.changes;
    articleDraft.value = kept.article;
    conflict.value = undefined;
    saving.value = { is: 'saved' };
  });
  if (kept.changes.length > 0 || kept.article !== undefined) later(0);
}

/** Takes the server's word as it is now; only while nothing of ours is under way. */
export async function readAgain(): Promise<void> {
  const now = view.value;
  if (now === undefined || isBusy()) return;
  const answer = await read<TestView>(`test/${encodeURIComponent(now.id)}`);
  if (view.value?.id === answer.id && !isBusy()) view.value = answer;
}

const isBusy = (): boolean =>
  sendingNow ||
  reading.value.length > 0 ||
  underWay.value.length > 0 ||
  waiting.value.length > 0 ||
  articleDraft.value !== undefined ||
  conflict.value !== undefined;

/** Changes a field of the test; saved by itself in a moment. */
export function change(path: Change['path'], value: unknown): void {
  changeAll([{ path, value }]);
}

/** Several changes that belong together. */
export function changeAll(changes: readonly Change[]): void {
  waiting.value = changes.reduce(joined, waiting.value);
  keep();
  later();
}

/** Changes the article; saved by itself in a moment. */
export function changeArticle(text: string): void {
  articleDraft.value = text;
  keep();
  later();
}

let sendingNow = false;
const pause = settling(() => void sendAll(), { pauseMs: PAUSE_MS, mostMs: LONGEST_MS });

function later(pauseMs?: number): void {
  if (saving.value.is !== 'waiting') saving.value = { is: 'saving' };
  pause.later(pauseMs);
}

/** Sends what is waiting at once, and is done when the server has it or said no. */
export async function sendAll(): Promise<void> {
  if (sendingNow || conflict.value !== undefined) return;
  const id = view.value?.id;
  if (id === undefined) return;
  sendingNow = true;
  try {
    while (view.value?.id === id && conflict.value === undefined) {
      if (waiting.value.length > 0) await sendChanges(id);
      else if (articleDraft.value !== undefined) await sendArticle(id, articleDraft.value);
      else break;
    }
    if (conflict.value === undefined) saving.value = { is: 'saved', at: new Date() };
  } catch (error) {
    if (error instanceof NotThere) {
      saving.value = { is: 'waiting' };
      pause.later(AGAIN_MS);
    } else if (error instanceof Refused) saving.value = { is: 'refused', problems: error.problems };
    else throw error;
  } finally {
    sendingNow = false;
    keep();
  }
}

async function sendChanges(id: string): Promise<void> {
  const changes = waiting.value;
  batch(() => {
    underWay.value = changes;
    waiting.value = [];
  });
  try {
    const path = `test/${encodeURIComponent(id)}`;
    const answer = await send<TestView>('PUT', path, { version: view.value!.version, changes });
    batch(() => {
      underWay.value = [];
      take(answer);
    });
  } catch (error) {
    const clashed = error instanceof Refused && error.conflict !== undefined;
    batch(() => {
      underWay.value = [];
      // What the server cannot take would be refused again and again; the message says what it was.
      if (clashed || error instanceof NotThere) waiting.value = [...changes, ...waiting.value];
      if (clashed) conflict.value = { ...(error as Refused).conflict!, of: 'test' };
    });
    if (!clashed) throw error;
  }
}

async function sendArticle(id: string, text: string): Promise<void> {
  try {
    const answer = await send<TestView>('PUT', `test/${encodeURIComponent(id)}/article`, {
      version: view.value!.articleVersion,
      text,
    });
    batch(() => {
      take(answer);
      if (articleDraft.value === text) articleDraft.value = undefined;
    });
  } catch (error) {
    if (!(error instanceof Refused)) throw error;
    if (error.conflict === undefined) throw error;
    conflict.value = { ...error.conflict, of: 'article' };
  }
}

/** The server's answer becomes what is known, as long as the same test is open. */
export function take(answer: TestView): void {
  if (view.value?.id === answer.id) view.value = answer;
}

/** Ours is put on top of what is on the disk: only the fields we changed. */
export async function keepOurs(): Promise<void> {
  const clash = conflict.value as (Conflict & { of: 'test' | 'article' }) | undefined;
  const now = view.value;
  if (clash === undefined || now === undefined) return;
  batch(() => {
    view.value =
      clash.of === 'test'
        ? { ...now, version: clash.versionOnDisk }
        : { ...now, articleVersion: clash.versionOnDisk };
    conflict.value = undefined;
  });
  await sendAll();
}

/** What is on the disk stays; ours is dropped after the person said so. */
export async function keepDisk(): Promise<void> {
  const clash = conflict.value;
  if (clash === undefined) return;
  batch(() => {
    if (clash.of === 'test') waiting.value = [];
    else articleDraft.value = undefined;
    conflict.value = undefined;
  });
  await sendAll();
  await readAgain();
}

/** Takes back the last saved change, or puts it in again. */
export async function step(which: 'undo' | 'redo'): Promise<void> {
  await sendAll();
  const now = view.value;
  if (now === undefined || now[which] === 0) return;
  take(await send<TestView>('POST', `test/${encodeURIComponent(now.id)}/${which}`));
  said.value = which === 'undo' ? 'Taken back.' : 'Put in again.';
  saving.value = { is: 'saved', at: new Date() };
}

/** Hands a log to the server, which adds it to the test; what it is shows at once, its runs follow with `readAgain`. */
export async function addLog(file: File): Promise<void> {
  await sendAll();
  const now = view.value;
  if (now === undefined) return;
  const path = `test/${encodeURIComponent(now.id)}/log?name=${encodeURIComponent(file.name)}`;
  const written = await sendFile<WrittenView>(path, file);
  if (view.value?.id === written.id) view.value = { ...view.value, ...written };
  saving.value = { is: 'saved', at: new Date() };
  // On its way before the measuring begins, which keeps the server busy.
  const added = written.logs.filter(log => log.durationS !== undefined).at(-1);
  if (added !== undefined) await wholeTrace(written.id, added);
}
