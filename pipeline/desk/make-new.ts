/** A new test, car or road, made from what a small form told. */
import { ProblemError } from '../problem.ts';
import { bodyUnreadable } from '../problems/desk.ts';
import { faultsOf } from './change-file.ts';
import type { Desk } from './desk.ts';
import { draftOf } from './draft.ts';
import { freeName, nameToSlug } from './names.ts';
import { type NewKind, newContentText, pathOfNew } from './new-content.ts';
import type { Store } from './store.ts';

const KINDS: readonly NewKind[] = ['test', 'car', 'road'];

type Told = Readonly<Record<string, unknown>>;

/** @returns the id of what was made @throws ProblemError where a field is wrong */
export async function makeNew(desk: Desk, store: Store, told: Told): Promise<string> {
  const kind = KINDS.find(one => one === told.kind);
  const name = told.kind === 'test' ? told.title : told.name;
  if (kind === undefined || typeof name !== 'string' || name.trim() === '') {
    throw new ProblemError(bodyUnreadable('kind (test, car or road) and a title or name'));
  }
  const { files } = await desk.now();
  const id = freeName(nameToSlug(name, kind), free => files.has(pathOfNew(kind, free)));
  const text = newContentText(kind, await FIELDS[kind](told, desk));
  const wrong = faultsOf(kind, pathOfNew(kind, id), text);
  if (wrong.length > 0) throw new ProblemError(wrong);
  await store.create(pathOfNew(kind, id), text);
  if (kind === 'test') await store.create(`content/tests/${id}/article.md`, '');
  return id;
}

const FIELDS: Readonly<Record<NewKind, (told: Told, desk: Desk) => Promise<Told>>> = {
  // A car has a kind of its own.
  car: async ({ kind: _, kind_of_car, ...fields }) => ({
    ...fields,
    ...(kind_of_car === undefined ? {} : { kind: kind_of_car }),
  }),
  road: async ({ kind: _, directions, ...fields }) => ({
    ...fields,
    ...(Array.isArray(directions) && directions.length > 0
      ? {
          directions: (directions as Told[]).map(one => ({
            id: one.id ?? nameToSlug(String(one.name ?? ''), 'way'),
            ...one,
          })),
        }
      : {}),
  }),
  test: async ({ kind: _, like, ...fields }, desk) => {
    if (typeof like !== 'string') return fields;
    const { files, content } = await desk.now();
    const before = draftOf(like, files, content)?.parsed.partly;
    return {
      time_zone: before?.time_zone,
      as_tested: before?.as_tested,
      receiver: before?.receiver,
      ...fields,
    };
  },
};
