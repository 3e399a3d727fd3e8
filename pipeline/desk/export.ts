/** Everything for other programs as one file to download. */
import { zipSync } from 'fflate';
import { loadLettering } from '../lettering/fonts.ts';
import { planTest, writeTest } from '../press/press-test.ts';
import { ProblemError } from '../problem.ts';
import { bodyUnreadable, nothingThere } from '../problems/desk.ts';
import type { Answer } from './answer.ts';
import type { OpenTest } from './desk.ts';
import { figurePng, figureSvg, overlayPng } from './pictures.ts';

/** One day for all files: the same content gives the same archive. */
const WRITTEN = new Date('2000-01-01T00:00:00');

/** The press folder as the build writes it. @throws ProblemError where there is nothing to write, or the article has errors */
export async function pressZip(open: OpenTest): Promise<Uint8Array> {
  const { result, publication } = open;
  if (result === undefined) throw new ProblemError(nothingThere('measured test', open.id));
  const planned = planTest(publication, result);
  const errors = planned.problems.filter(({ severity }) => severity === 'error');
  if (errors.length > 0) throw new ProblemError(errors);
  const files: Record<string, Uint8Array> = {};
  const write = async (path: string, content: string | Uint8Array): Promise<void> => {
    files[path.replace(/^press\//, '')] =
      typeof content === 'string' ? new TextEncoder().encode(content) : content;
  };
  await writeTest(planned, publication, await loadLettering(), write, () => {});
  return zipSync(sorted(files), { level: 6, mtime: WRITTEN });
}

/** Lower thirds by name, each in every size asked for. */
export async function overlaysZip(
  open: OpenTest,
  names: readonly string[],
  sizes: readonly string[],
): Promise<Uint8Array> {
  const files: Record<string, Uint8Array> = {};
  for (const size of sizes) {
    for (const name of names) files[`${open.id}/${size}/${name}.png`] = await overlayPng(open, name, size);
  }
  // Pictures are compressed already.
  return zipSync(sorted(files), { level: 0, mtime: WRITTEN });
}

const sorted = (files: Readonly<Record<string, Uint8Array>>): Record<string, Uint8Array> =>
  Object.fromEntries(Object.entries(files).sort(([a], [b]) => (a < b ? -1 : 1)));

/** A download: `what` is `press`, `overlays` or `figure`. @throws ProblemError where it is none of them */
export async function exported(open: OpenTest, asked: Readonly<Record<string, unknown>>): Promise<Answer> {
  const { what, kind, layout, format } = asked;
  if (what === 'press')
    return { type: 'application/zip', body: await pressZip(open), name: `${open.id}-press.zip` };
  if (what === 'overlays') {
    const body = await overlaysZip(open, textsOf(asked.names), textsOf(asked.sizes));
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

/** Names of pictures in one download at most. */
const MOST_NAMES = 100;

const textsOf = (value: unknown): readonly string[] =>
  Array.isArray(value)
    ? value.filter((one): one is string => typeof one === 'string').slice(0, MOST_NAMES)
    : [];
