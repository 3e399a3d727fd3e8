import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { directiveInShort, isBlock, piecesToText, textToPieces } from '../../../site/desk/manuscript.ts';

describe('an article in pieces', () => {
  const part = fc.oneof(
    fc.string(),
    fc.constantFrom(
      ':number{of=0-100-kmh}',
      '::figure{show=braking}',
      ':number{',
      '}',
      ':',
      '\n',
      '16:9 and 10:30am',
      ':difference{of=0-100-kmh launch="a b"}',
    ),
  );

  it('is the same text to the last character when joined again', () => {
    fc.assert(
      fc.property(fc.array(part), parts => {
        const text = parts.join('');
        expect(piecesToText(textToPieces(text))).toBe(text);
      }),
    );
  });

  it('finds what stands in for a number, and leaves other colons alone', () => {
    expect(
      textToPieces('It needs :number{of=0-100-kmh} at 10:30am, 16:9.\n\n::table{show=splits}\n'),
    ).toEqual([
      { text: 'It needs ' },
      { directive: ':number{of=0-100-kmh}' },
      { text: ' at 10:30am, 16:9.\n\n' },
      { directive: '::table{show=splits}' },
      { text: '\n' },
    ]);
  });

  it('says what is asked for where nothing better is known', () => {
    expect(directiveInShort(':number{of=0-100-kmh take=median launch="brake-hold"}')).toBe(
      '0-100-kmh, median, brake-hold',
    );
    expect(isBlock('::table{show=splits}')).toBe(true);
    expect(isBlock(':count{of=kept}')).toBe(false);
  });
});
