/** A test that is not finished yet, measured as far as it goes: what is missing stands in for, nothing is written. */
import type { Content, TestFolder } from '../content/content.ts';
import type { ContentFiles } from '../content/files.ts';
import { type Parsed, parseAs } from '../content/parse.ts';
import { type TestContent, testSchema } from '../content/schema.ts';
import { bytesToText } from '../content/text.ts';
import { PLAN_DEFAULTS } from '../result/road-plan.ts';

export interface Draft {
  readonly parsed: Parsed<TestContent>;
  readonly article: string;
  /** Complete enough to be measured; undefined where there is no car or road to measure it with. */
  readonly folder?: TestFolder;
  /** Place in test.yaml of each attempt, log and reading of `folder`. */
  readonly attemptIndex: readonly number[];
}

const MISSING = '–';

/** @returns undefined where there is no such test */
export function draftOf(id: string, files: ContentFiles, content: Content): Draft | undefined {
  const folder = `content/tests/${id}`;
  const bytes = files.get(`${folder}/test.yaml`);
  if (bytes === undefined) return undefined;
  const parsed = parseAs(`${folder}/test.yaml`, bytes, testSchema);
  const articleBytes = files.get(`${folder}/article.md`);
  const read = articleBytes && bytesToText(`${folder}/article.md`, articleBytes);
  const article = read && 'text' in read ? read.text : '';
  const { partly } = parsed;
  const car = content.cars.find(one => one.id === partly.car) ?? content.cars[0];
  const road = content.roads.find(one => one.id === partly.road) ?? content.roads[0];
  if (car === undefined || road === undefined) return { parsed, article, attemptIndex: [] };

  const attempts = entriesOf(partly.attempts, ['at', 'run']);
  const logs = entriesOf(partly.logs, ['file']);
  const conditions = entriesOf(partly.conditions, ['at']);
  const tested = partly.as_tested ?? {};
  const complete = {
    ...partly,
    title: partly.title ?? MISSING,
    standfirst: partly.standfirst ?? MISSING,
    car: car.id,
    road: road.id,
    date: partly.date ?? '2000-01-01',
    time_zone: partly.time_zone ?? '+00:00',
    as_tested: {
      ...tested,
      mass_kg: tested.mass_kg ?? car.kerb_mass_kg + PLAN_DEFAULTS.aboardKg,
      aboard: tested.aboard ?? MISSING,
      fuel: tested.fuel ?? MISSING,
      tyres: tested.tyres ?? MISSING,
    },
    receiver: { ...partly.receiver, what: partly.receiver?.what ?? MISSING },
    // Every run takes a reading; before there is one, it is a reading of nothing.
    conditions: conditions.length === 0 ? [{ at: '00:00' }] : conditions.map(({ entry }) => entry),
    logs: logs.map(({ entry }) => entry),
    attempts: attempts.map(({ entry }) => entry),
  };
  const indices = {
    attempts: attempts.map(({ index }) => index),
    logs: logs.map(({ index }) => index),
    conditions: conditions.map(({ index }) => index),
  };
  return {
    parsed,
    article,
    attemptIndex: indices.attempts,
    folder: {
      id,
      folder,
      content: withoutUndefined(complete) as unknown as TestContent,
      articleMarkdown: article,
      articleFile: `${folder}/article.md`,
      place: ([first, second, ...rest]) => {
        const index =
          typeof second === 'number' ? indices[first as keyof typeof indices]?.[second] : undefined;
        const path = [first, index ?? second, ...rest].filter(step => step !== undefined);
        return parsed.place(path);
      },
    },
  };
}

/** Entries that have at least one of these fields, with their places in the list as it is written. */
function entriesOf(
  list: readonly (object | undefined)[] | undefined,
  oneOf: readonly string[],
): readonly { readonly entry: object; readonly index: number }[] {
  return (list ?? []).flatMap((entry, index) => {
    const fields = entry as Readonly<Record<string, unknown>> | undefined;
    return fields !== undefined && oneOf.some(field => fields[field] !== undefined)
      ? [{ entry: fields, index }]
      : [];
  });
}

/** Fields left out because of a fault are absent, not undefined. */
function withoutUndefined(value: unknown): unknown {
  if (Array.isArray(value)) return value.map(withoutUndefined);
  if (typeof value !== 'object' || value === null) return value;
  return Object.fromEntries(
    Object.entries(value)
      .filter(([, inner]) => inner !== undefined)
      .map(([key, inner]) => [key, withoutUndefined(inner)]),
  );
}
