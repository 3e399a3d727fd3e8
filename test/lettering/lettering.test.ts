import fc from 'fast-check';
import { beforeAll, describe, expect, it } from 'vitest';
import { loadFontFiles } from '../../pipeline/lettering/fonts.ts';
import type { FaceId, Lettering, TextStyle, Weight } from '../../pipeline/lettering/lettering.ts';
import { type FontFile, fontsToLettering } from '../../pipeline/lettering/outline.ts';
import { readFontTables } from './opentype.ts';
import { pathBox } from './path-box.ts';

const FACES: readonly FaceId[] = ['sans', 'serif'];
const WEIGHTS: readonly Weight[] = [400, 600, 700];
const STYLES: readonly TextStyle[] = FACES.flatMap(face =>
  WEIGHTS.map(weight => ({ face, weight, sizePx: 100 })),
);
const SANS: TextStyle = { face: 'sans', weight: 400, sizePx: 100 };
const SERIF: TextStyle = { face: 'serif', weight: 700, sizePx: 100 };

let files: readonly FontFile[];
let lettering: Lettering;

beforeAll(async () => {
  files = await loadFontFiles();
  lettering = fontsToLettering(files);
});

describe('widths', () => {
  it('of single characters are the advances of the font’s own hmtx table', () => {
    for (const style of STYLES) {
      const tables = files
        .filter(file => file.face === style.face && file.weight === style.weight)
        .map(file => readFontTables(file.ttf));
      expect(tables.length).toBe(2);
      for (const character of 'AaGgMWil0159.,:;()%°²±½·−–ßØÄéčřŁğő') {
        const table = tables.find(each => each.advance(character) !== undefined);
        expect(table, `${character} in a file`).toBeDefined();
        const expected = ((table?.advance(character) ?? 0) / (table?.unitsPerEm ?? 1)) * style.sizePx;
        expect(
          lettering.width(character, style),
          `${character} in ${style.face} ${style.weight}`,
        ).toBeCloseTo(expected, 9);
      }
    }
  });

  it('of numbers with the same count of digits are equal, so that columns stand', () => {
    fc.assert(
      fc.property(
        fc.constantFrom(...STYLES),
        fc.array(fc.tuple(fc.integer({ min: 0, max: 9 }), fc.integer({ min: 0, max: 9 })), {
          minLength: 1,
          maxLength: 8,
        }),
        (style, digits) => {
          const one = digits.map(pair => pair[0]).join('');
          const other = digits.map(pair => pair[1]).join('');
          expect(lettering.width(one, style)).toBeCloseTo(lettering.width(other, style), 9);
        },
      ),
    );
  });

  it('of decimal numbers are equal whatever digits stand beside the point', () => {
    for (const style of STYLES) {
      const widths = [...'0123456789'].flatMap(a =>
        [...'0123456789'].map(b => lettering.width(`${a}.${b}`, style)),
      );
      expect(Math.max(...widths) - Math.min(...widths)).toBeLessThan(1e-9);
    }
  });

  it('grow in proportion to the size', () => {
    fc.assert(
      fc.property(
        fc.string({ maxLength: 30 }),
        fc.double({ min: 1, max: 400, noNaN: true }),
        (text, sizePx) => {
          const atOne = lettering.width(text, { ...SANS, sizePx: 1 });
          expect(lettering.width(text, { ...SANS, sizePx })).toBeCloseTo(atOne * sizePx, 6);
        },
      ),
    );
  });

  it('of words set apart by a space differ from the sum of the parts by kerning only', () => {
    const together = lettering.width('Village Tor', SERIF);
    const apart = ['Village', ' ', 'Tor'].reduce((sum, part) => sum + lettering.width(part, SERIF), 0);
    expect(Math.abs(together - apart)).toBeLessThan(0.1 * SERIF.sizePx);
  });

  it('take kerning into account', () => {
    const pair = lettering.width('AV', SANS);
    expect(pair).toBeLessThan(lettering.width('A', SANS) + lettering.width('V', SANS));
  });

  it('of nothing are nothing', () => {
    expect(lettering.width('', SANS)).toBe(0);
    expect(lettering.path('', SANS, 10, 10)).toBe('');
  });
});

describe('outlines', () => {
  it('stay within the advance, but for the small side bearings of letters', () => {
    for (const style of STYLES) {
      for (const text of [
        '0–100 km/h in 7.84 s',
        'Run 3, northbound',
        '±0.04 s · median of 6',
        'Šárka of Łódź',
      ]) {
        const box = pathBox(lettering.path(text, style, 50, 200));
        const allowance = 0.06 * style.sizePx;
        expect(box.left).toBeGreaterThan(50 - allowance);
        expect(box.right).toBeLessThan(50 + lettering.width(text, style) + allowance);
      }
    }
  });

  it('stay between ascent and descent', () => {
    for (const style of STYLES) {
      const { ascentPx, descentPx } = lettering.metrics(style);
      const box = pathBox(lettering.path('Ågjpqy|0', style, 0, 0));
      expect(box.top).toBeGreaterThanOrEqual(-ascentPx);
      expect(box.bottom).toBeLessThanOrEqual(descentPx);
      expect(box.top).toBeLessThan(-0.6 * style.sizePx);
      expect(box.bottom).toBeGreaterThan(0.1 * style.sizePx);
    }
  });

  it('move with their origin', () => {
    const here = pathBox(lettering.path('7.84', SERIF, 0, 0));
    const there = pathBox(lettering.path('7.84', SERIF, 300, 120));
    expect(there.left - here.left).toBeCloseTo(300, 1);
    expect(there.bottom - here.bottom).toBeCloseTo(120, 1);
  });

  it('are the same from two fresh loads, with at most two decimals', async () => {
    const again = fontsToLettering(await loadFontFiles());
    const text = 'Stopped in 38.2 m ± 0.4 m';
    const path = lettering.path(text, SERIF, 12.345, 67.891);
    expect(again.path(text, SERIF, 12.345, 67.891)).toBe(path);
    expect(path).not.toMatch(/\.\d{3}/);
    expect(path).not.toMatch(/NaN|e-|undefined|-0[^.\d]/);
  });
});

describe('font files', () => {
  it('are the same bytes when loaded twice at once', async () => {
    const [one, other] = await Promise.all([loadFontFiles(), loadFontFiles()]);
    for (const [index, file] of one.entries()) {
      expect(Buffer.compare(file.ttf, other[index]?.ttf ?? new Uint8Array())).toBe(0);
      expect([...file.ttf.subarray(0, 4)], 'TrueType signature').toEqual([0, 1, 0, 0]);
    }
  });
});

describe('characters', () => {
  it('of European names, units and typography are all there', () => {
    for (const style of STYLES) {
      expect(lettering.missing('° ² ³ − – — ½ · ± × č ß Ø ł ő ș … “ ” ‘ ’ € µ', style)).toEqual([]);
      expect(lettering.missing('7.84\u00a0s 7.84\u202fs 7.84\u2009s a\u2011b', style)).toEqual([]);
      expect(lettering.width('\u202f', style)).toBeGreaterThan(0);
    }
  });

  it('composed and decomposed are drawn alike', () => {
    expect(lettering.path('c\u030c', SANS, 0, 0)).toBe(lettering.path('č', SANS, 0, 0));
  });

  it('that no file has are drawn as a box and told once, never dropped', () => {
    const fresh = fontsToLettering(files);
    expect(fresh.problems()).toEqual([]);
    expect(fresh.missing('Δt → 3 s, Δv', SANS)).toEqual(['Δ', '→']);
    expect(fresh.width('Δ', SANS)).toBeGreaterThan(0.4 * SANS.sizePx);
    expect(fresh.path('Δ', SANS, 0, 0)).toContain('M6 0');
    expect(fresh.missing('Δ again', SERIF)).toEqual(['Δ']);
    expect(fresh.problems().map(problem => [problem.id, problem.severity, problem.found])).toEqual([
      ['lettering.character-missing', 'warning', 'U+0394'],
      ['lettering.character-missing', 'warning', 'U+2192'],
    ]);
  });

  it('are missing exactly where the files’ own cmap tables have none, but for spaces and invisible ones', () => {
    const tables = files
      .filter(file => file.face === 'sans' && file.weight === 400)
      .map(file => readFontTables(file.ttf));
    const shaperOwn = /^[\p{White_Space}\p{Default_Ignorable_Code_Point}\u200b-\u200f\u2010\u2011\p{Cs}]$/u;
    let seenMissing = 0;
    for (let code = 0x20; code <= 0x2fff; code++) {
      const character = String.fromCodePoint(code);
      if (shaperOwn.test(character) || character.normalize('NFC') !== character) continue;
      const inFiles = tables.some(table => table.advance(character) !== undefined);
      expect(lettering.missing(character, SANS), `U+${code.toString(16)}`).toEqual(
        inFiles ? [] : [character],
      );
      if (!inFiles) seenMissing++;
    }
    expect(seenMissing).toBeGreaterThan(1000);
  });
});
