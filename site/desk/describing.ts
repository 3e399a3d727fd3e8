/**
 * Cars and roads changed from the page: shown at once, saved by themselves each into its own file, kept in this
 * browser until the server has them, and never over a file that changed meanwhile.
 */
import { batch, signal } from '@preact/signals';
import { settling } from '../../pipeline/desk/settling.ts';
import type { Change, Conflict, NamedCar, NamedRoad, PublicationView } from './answers.ts';
import { joined, withChanges } from './changes.ts';
import { NotThere, Refused, read, send } from './server.ts';
import { publication, type Saving } from './state.ts';

const PAUSE_MS = 350;
const LONGEST_MS = 2000;
const AGAIN_MS = 2000;
const KEY = 'desk-unsent-descriptions';

export type DescribedKind = 'car' | 'road';

/** Changes of one file that the server does not have yet, made on a version of it. */
interface Unsent {
  readonly kind: DescribedKind;
  readonly id: string;
  readonly version: string;
  readonly changes: readonly Change[];
}

/** In the order they were begun; the first is being sent. */
const unsent = signal<readonly Unsent[]>([]);
export const describing = signal<Saving>({ is: 'saved' });
/** A file changed elsewhere meanwhile: nothing is written until the person has chosen. */
export const describedConflict = signal<(Conflict & { readonly name: string }) | undefined>(undefined);

const pause = settling(() => void sendAll(), { pauseMs: PAUSE_MS, mostMs: LONGEST_MS });
let sendingNow = false;

const namedOf = (kind: DescribedKind, id: string): NamedCar | NamedRoad | undefined =>
  (kind === 'car' ? publication.value?.cars : publication.value?.roads)?.find(one => one.id === id);

const isOf =
  (kind: DescribedKind, id: string) =>
  (one: Unsent): boolean =>
    one.kind === kind && one.id === id;

/** A car as it stands on the page: the server's word with what is not sent yet. */
export function carNow(id: string | undefined): NamedCar | undefined {
  const named = publication.value?.cars.find(one => one.id === id);
  return named && { ...named, car: withUnsent('car', named.id, named.car) };
}

/** A road as it stands on the page. */
export function roadNow(id: string | undefined): NamedRoad | undefined {
  const named = publication.value?.roads.find(one => one.id === id);
  return named && { ...named, road: withUnsent('road', named.id, named.road) };
}

const withUnsent = <T>(kind: DescribedKind, id: string, of: T): T =>
  withChanges(of, unsent.value.find(isOf(kind, id))?.changes ?? []);

/** Changes a field of a car or a road; saved by itself in a moment. */
export function changeDescription(
  kind: DescribedKind,
  id: string,
  path: Change['path'],
  value: unknown,
): void {
  const known = unsent.value.find(isOf(kind, id));
  const begun: Unsent = known ?? { kind, id, version: namedOf(kind, id)?.version ?? '', changes: [] };
  const next = { ...begun, changes: joined(begun.changes, { path, value }) };
  keepAs(
    known === undefined ? [...unsent.value, next] : unsent.value.map(one => (one === known ? next : one)),
  );
  if (describing.value.is !== 'waiting') describing.value = { is: 'saving' };
  pause.later();
}

function keepAs(now: readonly Unsent[]): void {
  unsent.value = now;
  if (now.length === 0) localStorage.removeItem(KEY);
  else localStorage.setItem(KEY, JSON.stringify(now));
}

/** Reads cars, roads and tests anew; what is not sent yet stays on top, on the version it was made on. */
export async function readPublication(): Promise<void> {
  publication.value = await read<PublicationView>('publication');
}

/** Sends what an earlier visit could not. */
export function resumeDescribing(): void {
  unsent.value = JSON.parse(localStorage.getItem(KEY) ?? '[]') as readonly Unsent[];
  if (unsent.value.length > 0) pause.later(0);
}

async function sendAll(): Promise<void> {
  if (sendingNow || describedConflict.value !== undefined) return;
  sendingNow = true;
  try {
    for (let first = unsent.value[0]; first !== undefined; first = unsent.value[0]) await sendOne(first);
    describing.value = { is: 'saved', at: new Date() };
  } catch (error) {
    if (error instanceof NotThere) {
      describing.value = { is: 'waiting' };
      pause.later(AGAIN_MS);
    } else if (!(error instanceof Refused)) throw error;
    else if (error.conflict === undefined) describing.value = { is: 'refused', problems: error.problems };
  } finally {
    sendingNow = false;
  }
}

async function sendOne(sent: Unsent): Promise<void> {
  const { kind, id, version, changes } = sent;
  try {
    const answer = await send<PublicationView>('PUT', pathOf(kind, id), { version, changes });
    batch(() => {
      publication.value = answer;
      forget(sent);
    });
  } catch (error) {
    if (error instanceof NotThere) throw error;
    const refused = error instanceof Refused;
    // What the server cannot take would be refused again and again; the message says what it was.
    if (refused && error.conflict !== undefined)
      describedConflict.value = { ...error.conflict, name: namedOf(kind, id)?.name ?? id };
    else forget(sent);
    throw error;
  }
}

/** What was typed while it was sent stays, on the version that the server has now. */
function forget({ kind, id, changes }: Unsent): void {
  const version = namedOf(kind, id)?.version ?? '';
  keepAs(
    unsent.value.flatMap(one => {
      if (!isOf(kind, id)(one)) return [one];
      const more = one.changes.filter(change => !changes.includes(change));
      return more.length === 0 ? [] : [{ ...one, version, changes: more }];
    }),
  );
}

const pathOf = (kind: DescribedKind, id: string): string => `${kind}/${encodeURIComponent(id)}`;

/** Ours is put on top of what is on the disk: only the fields we changed. */
export async function keepOurDescription(): Promise<void> {
  const clash = describedConflict.value;
  const [first, ...rest] = unsent.value;
  if (clash === undefined || first === undefined) return;
  batch(() => {
    keepAs([{ ...first, version: clash.versionOnDisk }, ...rest]);
    describedConflict.value = undefined;
  });
  await sendAll();
}

/** What is on the disk stays; ours is dropped after the person said so. */
export async function keepDescriptionOnDisk(): Promise<void> {
  batch(() => {
    keepAs(unsent.value.slice(1));
    describedConflict.value = undefined;
  });
  await readPublication();
  await sendAll();
}

/** Takes back the last change of a car or a road. @throws Refused, NotThere */
export async function takeBackDescription(kind: DescribedKind, id: string): Promise<void> {
  await sendAll();
  publication.value = await send<PublicationView>('POST', `${pathOf(kind, id)}/undo`);
  describing.value = { is: 'saved', at: new Date() };
}
