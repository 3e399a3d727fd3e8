import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { glyphsToPath } from '../../pipeline/lettering/glyph-path.ts';

const glyph = (values: readonly number[]) => ({
  name: 'any',
  outline: [
    { type: 'M', values: [0, 0] },
    { type: 'Q', values },
    { type: 'Z', values: [] },
  ],
  unitsPerEm: 1,
  xEm: 0,
  yEm: 0,
});
/** The number a pixel place is rounded to, as the language writes it; `-0` is 0. */
const said = (px: number): string => String(Math.round(px * 100) / 100 + 0);

describe('a path of glyphs', () => {
  it('has every place in hundredths of a pixel, as short as a number is written', () => {
    const place = fc.oneof(
      fc.double({ min: -20_000, max: 20_000, noNaN: true }),
      fc.integer({ min: -2_000_000, max: 2_000_000 }).map(whole => whole / 100),
      fc.constantFrom(0, -0, 0.004, -0.004, 0.01, -0.01, 0.1, -0.1, 9.995, 10, -99.999, 100.05),
    );
    fc.assert(
      fc.property(fc.array(place, { minLength: 4, maxLength: 4 }), values => {
        const [x1, y1, x2, y2] = values as [number, number, number, number];
        expect(glyphsToPath([glyph(values)], 1, 0, 0)).toBe(
          `M0 0Q${said(x1)} ${said(0 - y1)} ${said(x2)} ${said(0 - y2)}Z`,
        );
      }),
      { numRuns: 500 },
    );
  });

  it('is as long as its glyphs, however many', () => {
    const many = Array.from({ length: 5000 }, () => glyph([1.25, -2.5, -3.75, 4]));
    expect(glyphsToPath(many, 1, 0, 0)).toBe('M0 0Q1.25 2.5 -3.75 -4Z'.repeat(5000));
  });
});
