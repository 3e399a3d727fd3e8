import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { EncodedText } from '../../pipeline/log/bytes.ts';
import { ClockCells } from '../../pipeline/log/clock-cells.ts';
import { type ClockReading, readClock } from '../../pipeline/log/clock-text.ts';

/** Cells after one another in one text, read by places. */
function readAll(cells: readonly string[], kind: ClockReading['kind']): number[] {
  const encoder = new TextEncoder();
  const text = new EncodedText(encoder.encode(cells.join(';')), 'utf-8');
  const clock = new ClockCells(kind);
  let start = 0;
  return cells.map(cell => {
    const end = start + encoder.encode(cell).length;
    const seconds = clock.readAt(text, start, end);
    start = end + 1;
    return seconds;
  });
}

const alone = (cell: string, kind: ClockReading['kind']): number => {
  const reading = readClock(cell);
  return reading?.kind === kind ? reading.seconds : Number.NaN;
};

const two = (least: number, most: number) =>
  fc.integer({ min: least, max: most }).map(n => String(n).padStart(2, '0'));
const decimals = fc.oneof(
  fc.constant(''),
  fc.constantFrom('.', ',', ':', '.x', '.5 '),
  fc.tuple(fc.constantFrom('.', ','), fc.integer({ min: 0, max: 999_999_999 })).map(([mark, n]) => mark + n),
);
const second = fc.tuple(two(0, 63), decimals).map(parts => parts.join(''));
/** Few hours and minutes, so that most cells share them with the one before. */
const clock = fc.tuple(two(8, 9), two(58, 61), second).map(parts => parts.join(':'));
const blank = fc.constantFrom('', '', '', ' ', '\u00a0');

const CELLS: Readonly<Record<string, fc.Arbitrary<string>>> = {
  utc: fc
    .tuple(
      fc.constantFrom('2026-05-12T', '2026-05-12 ', '2026-02-30T'),
      clock,
      fc.constantFrom('Z', '+01:30', ''),
    )
    .map(parts => parts.join('')),
  local: fc.tuple(fc.constant('2026/05/12 '), clock).map(parts => parts.join('')),
  'time-of-day': fc
    .tuple(fc.constantFrom('', '', '12.05.2026 '), clock, fc.constantFrom('', '', ' PM', 'am'))
    .map(parts => parts.join('')),
  elapsed: fc.tuple(two(0, 61), second).map(parts => parts.join(':')),
};

describe('a column of clocks', () => {
  it.each(Object.entries(CELLS))('%s is read as each cell by itself, to the last bit', (kind, cell) => {
    const padded = fc.tuple(blank, cell, blank).map(parts => parts.join(''));
    fc.assert(
      fc.property(fc.array(padded, { minLength: 2, maxLength: 30 }), cells => {
        const of = kind as ClockReading['kind'];
        expect(readAll(cells, of)).toEqual(cells.map(one => alone(one, of)));
      }),
      { numRuns: 200 },
    );
  });

  it('passes a minute, an hour and a cell that is no clock', () => {
    const cells = ['09:59:59.96', '10:00:00.00', 'x', '10:00:00.04', '10:00:60', '10:00:61', '10:00:1'];
    expect(readAll(cells, 'time-of-day')).toEqual([
      35_999.96,
      36_000,
      Number.NaN,
      36_000.04,
      36_060,
      Number.NaN,
      Number.NaN,
    ]);
  });
});
