import { readFile } from 'node:fs/promises';
import { createRequire } from 'node:module';
import { describe, expect, it } from 'vitest';
import { loadFontFiles, pageFont } from '../../pipeline/lettering/fonts.ts';
import { subsetFont } from '../../pipeline/lettering/subset.ts';
import { PAGE_CHARACTERS, pageFonts, unicodeRange } from '../../site/fonts.ts';
import { readFontTables } from './opentype.ts';

const FEATURES = ['kern', 'tnum'];

describe('a font with some of its characters', () => {
  it('has those, as wide as they were, and no others', async () => {
    const { ttf } = (await loadFontFiles()).find(({ face, weight }) => face === 'serif' && weight === 400)!;
    const [whole, part] = [
      readFontTables(ttf),
      readFontTables(await subsetFont(ttf, 'Test 0–9 ß', FEATURES)),
    ];
    for (const character of 'Test09–ß') {
      expect(whole.advance(character), character).toBeGreaterThan(0);
      expect(part.advance(character), character).toBe(whole.advance(character));
    }
    for (const character of 'Aa1é') {
      expect(whole.advance(character), character).toBeGreaterThan(0);
      expect(part.advance(character), character).toBeUndefined();
    }
    expect(part.unitsPerEm).toBe(whole.unitsPerEm);
  });

  it('comes out in the same bytes twice, and refuses what is no font', async () => {
    const [first, second] = await Promise.all([1, 2].map(() => pageFont('sans', 600, 'normal', 'abc ±')));
    expect(Buffer.compare(first!, second!)).toBe(0);
    await expect(subsetFont(new Uint8Array(40), 'abc', FEATURES)).rejects.toThrow('40 bytes are no font');
  });
});

/** The characters of a `unicode-range`. */
const charactersOf = (ranges: string): string[] =>
  ranges.split(', ').flatMap(range => {
    const [from, to = from] = range
      .slice(2)
      .split('-')
      .map(hex => Number.parseInt(hex, 16));
    return Array.from({ length: to! - from! + 1 }, (_, k) => String.fromCodePoint(from! + k));
  });

describe('the fonts of the pages', () => {
  it('are all five less than two thirds of the whole Latin ones', async () => {
    const require = createRequire(import.meta.url);
    let [parts, wholes] = [0, 0];
    for (const { face, weight, style, bytes } of await pageFonts()) {
      const family = face === 'serif' ? 'source-serif-4' : 'source-sans-3';
      const path = `@fontsource/${family}/files/${family}-latin-${weight}-${style}.woff2`;
      parts += bytes.length;
      wholes += (await readFile(require.resolve(path))).length;
    }
    expect(parts / wholes).toBeLessThan(2 / 3);
    expect(new Set((await pageFonts()).map(({ name }) => name)).size).toBe(5);
  });

  it('say in unicode-range exactly what they hold', () => {
    const said = charactersOf(unicodeRange(PAGE_CHARACTERS));
    expect(said.sort()).toEqual([...PAGE_CHARACTERS].sort());
    expect(unicodeRange(['b', 'a', 'd'])).toBe('U+0061-0062, U+0064');
  });

  it('leave to the whole families only characters that they do not hold, and of Latin all of these', async () => {
    const css = await readFile(new URL('../../site/styles/fonts.css', import.meta.url), 'utf8');
    const faces = css.split('@font-face').filter(face => face.includes('url('));
    expect(faces.length).toBe(10);
    const latin = charactersOf('U+00A0-00FF, U+0152-0153, U+2010-2044, U+20AC, U+2122, U+2191, U+2212');
    for (const face of faces) {
      const left = charactersOf(/unicode-range:([^;]*);/.exec(face)![1]!.replace(/\s+/g, ' ').trim());
      expect(left.filter(character => PAGE_CHARACTERS.includes(character))).toEqual([]);
      if (face.includes('latin-ext')) continue;
      expect([...PAGE_CHARACTERS, ...left]).toEqual(expect.arrayContaining(latin));
    }
  });
});
