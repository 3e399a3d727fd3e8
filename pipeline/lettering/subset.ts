/** A font with only the characters that pages hold, by HarfBuzz's subsetter. */
import { readFile } from 'node:fs/promises';
import { createRequire } from 'node:module';

/** What is called of `harfbuzz-subset.wasm` (HarfBuzz, hb-subset.h); pointers are places in its memory. */
interface Subsetter {
  readonly memory: WebAssembly.Memory;
  malloc(bytes: number): number;
  free(at: number): void;
  hb_blob_create(data: number, bytes: number, mode: number, user: number, destroy: number): number;
  hb_blob_destroy(blob: number): void;
  hb_blob_get_data(blob: number, length: number): number;
  hb_blob_get_length(blob: number): number;
  hb_face_create(blob: number, index: number): number;
  hb_face_destroy(face: number): void;
  hb_face_reference_blob(face: number): number;
  hb_set_add(set: number, value: number): void;
  hb_set_clear(set: number): void;
  hb_subset_input_create_or_fail(): number;
  hb_subset_input_destroy(input: number): void;
  hb_subset_input_set(input: number, which: number): number;
  hb_subset_input_set_flags(input: number, flags: number): void;
  hb_subset_input_unicode_set(input: number): number;
  hb_subset_or_fail(face: number, input: number): number;
}

const MEMORY_MODE_WRITABLE = 2;
const SETS = { nameIds: 4, layoutFeatures: 6 } as const;
const NO_HINTING = 1;
/** Copyright, licence and its address stay; the name of the whole font does not go with a part of it (OFL-1.1). */
const NAME_IDS = [0, 13, 14];

const tag = (name: string): number =>
  [...name].reduce((value, letter) => (value << 8) | letter.charCodeAt(0), 0);

let loading: Promise<Subsetter> | undefined;

async function subsetter(): Promise<Subsetter> {
  const path = createRequire(import.meta.url).resolve('harfbuzzjs/dist/harfbuzz-subset.wasm');
  const { instance } = await WebAssembly.instantiate(await readFile(path), {});
  return instance.exports as unknown as Subsetter;
}

/**
 * @param ttf TrueType bytes
 * @param characters what it is to draw; those the font lacks are left out
 * @param features layout features kept, by their OpenType names
 * @throws Error where the bytes are no font
 */
export async function subsetFont(
  ttf: Uint8Array,
  characters: Iterable<string>,
  features: readonly string[],
): Promise<Uint8Array> {
  loading ??= subsetter();
  const hb = await loading;
  const data = hb.malloc(ttf.length);
  new Uint8Array(hb.memory.buffer).set(ttf, data);
  const blob = hb.hb_blob_create(data, ttf.length, MEMORY_MODE_WRITABLE, 0, 0);
  const face = hb.hb_face_create(blob, 0);
  const input = hb.hb_subset_input_create_or_fail();
  const only = (set: number, values: Iterable<number>): void => {
    hb.hb_set_clear(set);
    for (const value of values) hb.hb_set_add(set, value);
  };
  only(
    hb.hb_subset_input_unicode_set(input),
    [...characters].map(character => character.codePointAt(0)!),
  );
  only(hb.hb_subset_input_set(input, SETS.layoutFeatures), features.map(tag));
  only(hb.hb_subset_input_set(input, SETS.nameIds), NAME_IDS);
  hb.hb_subset_input_set_flags(input, NO_HINTING);
  const made = hb.hb_subset_or_fail(face, input);
  const written = made === 0 ? 0 : hb.hb_face_reference_blob(made);
  const length = written === 0 ? 0 : hb.hb_blob_get_length(written);
  const bytes =
    length === 0
      ? undefined
      : new Uint8Array(hb.memory.buffer, hb.hb_blob_get_data(written, 0), length).slice();
  if (written !== 0) hb.hb_blob_destroy(written);
  if (made !== 0) hb.hb_face_destroy(made);
  hb.hb_subset_input_destroy(input);
  hb.hb_face_destroy(face);
  hb.hb_blob_destroy(blob);
  hb.free(data);
  if (bytes === undefined) throw new Error(`These ${ttf.length} bytes are no font that can be made smaller.`);
  return bytes;
}
