import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { KERNED_SHARE, wrapBalanced, wrapText, wrapWithoutWidow } from '../../pipeline/figure/wrap.ts';
import { loadLettering } from '../../pipeline/lettering/fonts.ts';

const lettering = await loadLettering();

/** Every character is 10 px wide. */
const widthOf = (text: string): number => [...text].length * 10;
const words = fc
  .array(fc.stringMatching(/^[a-z]{1,30}$/), { minLength: 1, maxLength: 20 })
  .map(list => list.join(' '));

describe('wrapping text', () => {
  it.each([wrapText, wrapBalanced, wrapWithoutWidow])('%o loses no letter and exceeds no width', wrap => {
    fc.assert(
      fc.property(words, text => {
        const lines = wrap(text, 200, widthOf);
        expect(lines.join('').replaceAll(' ', '')).toBe(text.replaceAll(' ', ''));
        for (const line of lines) expect(widthOf(line)).toBeLessThanOrEqual(200);
      }),
    );
  });

  it.each([wrapBalanced, wrapWithoutWidow])('%o needs no more lines than the plain wrap', wrap => {
    fc.assert(
      fc.property(words, text => {
        expect(wrap(text, 200, widthOf)).toHaveLength(wrapText(text, 200, widthOf).length);
      }),
    );
  });

  it('gives a lone last word company', () => {
    expect(wrapText('aaaa bbbb cccc dd', 140, widthOf)).toEqual(['aaaa bbbb cccc', 'dd']);
    expect(wrapWithoutWidow('aaaa bbbb cccc dd', 140, widthOf)).toEqual(['aaaa bbbb', 'cccc dd']);
    expect(wrapBalanced('aaaa bbbb cccc dd', 140, widthOf)).toEqual(['aaaa bbbb', 'cccc dd']);
  });

  it('never breaks at a no-break space', () => {
    expect(wrapText('from 100\u00a0km/h', 100, widthOf)).toEqual(['from', '100\u00a0km/h']);
  });

  const letters = fc.stringMatching(/^[A-Za-zÄÖÜäöüßÝTVW0-9.,:;()–"“”'/±×%-]{1,12}$/);
  const styles = fc.record({
    face: fc.constantFrom('sans' as const, 'serif' as const),
    weight: fc.constantFrom(400 as const, 600 as const, 700 as const),
    sizePx: fc.constant(14),
  });

  it('counts on less kerning at a space than the fonts hold', () => {
    fc.assert(
      fc.property(letters, letters, styles, (one, other, style) => {
        const width = (text: string): number => lettering.width(text, style);
        const kerned = Math.abs(width(`${one} ${other}`) - width(one) - width(' ') - width(other));
        expect(kerned).toBeLessThanOrEqual(KERNED_SHARE * width(' '));
      }),
      { numRuns: 2000 },
    );
  });

  it('breaks where measuring each line whole breaks', () => {
    fc.assert(
      fc.property(fc.array(letters, { minLength: 1, maxLength: 30 }), styles, (list, style) => {
        const width = (text: string): number => lettering.width(text, style);
        const lines: string[] = [];
        for (const word of list) {
          const longer = lines.length === 0 ? word : `${lines.at(-1)} ${word}`;
          if (lines.length > 0 && width(longer) <= 160) lines[lines.length - 1] = longer;
          else lines.push(word);
        }
        fc.pre(list.every(word => width(word) <= 160));
        expect(wrapText(list.join(' '), 160, width)).toEqual(lines);
      }),
    );
  });
});
