import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { bytesToEncoded } from '../../pipeline/log/bytes.ts';
import { Cells } from '../../pipeline/log/cells.ts';
import { Lines, MAX_LINE } from '../../pipeline/log/lines.ts';
import { rowToCells } from '../../pipeline/log/table.ts';

const linesOf = (text: string): Lines =>
  new Lines('day.csv', bytesToEncoded('day.csv', new TextEncoder().encode(text)));
const all = (lines: Lines): string[] => Array.from({ length: lines.count }, (_, i) => lines.at(i));

describe('lines found in the bytes of a text', () => {
  it('are those of the text split at its line ends', () => {
    const piece = fc.constantFrom('a', 'é', '€', ',', ' ', '\n', '\r\n', '"');
    fc.assert(
      fc.property(fc.array(piece, { maxLength: 40 }), pieces => {
        const text = pieces.join('');
        fc.pre(text.includes('\n'));
        const expected = text.split('\n').map(line => line.replace(/\r$/, ''));
        expect(all(linesOf(text))).toEqual(expected);
      }),
    );
  });

  it('may end as old computers end them', () => {
    expect(all(linesOf('a\rb\r'))).toEqual(['a', 'b', '']);
  });

  it('are refused where one is longer than a log can have', () => {
    expect(() => linesOf(`a\n${'9'.repeat(MAX_LINE + 1)}`)).toThrow(/line 2|:2/);
  });
});

describe('cells told by their places', () => {
  it('are those of the row split into strings', () => {
    const piece = fc.constantFrom('1', '12.5', 'é', ';', ';', ' ', '"', '""', 'x');
    fc.assert(
      fc.property(fc.array(piece, { maxLength: 20 }), pieces => {
        const row = pieces.join('');
        const lines = linesOf(`${row}\n`);
        const cells = new Cells(lines, ';');
        const filled = cells.split(0, 3);
        expect(filled).toBe(row.trim() !== '');
        if (!filled) return;
        const expected = rowToCells(row, ';');
        while (expected.length > 3 && expected.at(-1)!.trim() === '') expected.pop();
        expect(Array.from({ length: cells.count }, (_, i) => cells.at(i))).toEqual(expected);
        for (const [i, cell] of expected.entries()) expect(cells.isBlank(i)).toBe(cell.trim() === '');
      }),
    );
  });
});
