import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { wrapBalanced, wrapText, wrapWithoutWidow } from '../../pipeline/figure/wrap.ts';

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
});
