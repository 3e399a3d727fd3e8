import fc from 'fast-check';
import { beforeAll, describe, expect, it } from 'vitest';
import { loadLettering } from '../../pipeline/lettering/fonts.ts';
import type { Lettering, TextStyle } from '../../pipeline/lettering/lettering.ts';
import { cutLine, fitText, withoutWidow, wrapParts, wrapWords } from '../../pipeline/overlay/fit.ts';

const STYLE: TextStyle = { face: 'serif', weight: 600, sizePx: 46 };
let lettering: Lettering;
beforeAll(async () => {
  lettering = await loadLettering();
});

describe('text fitted to a width', () => {
  it('stays as it is where it fits', () => {
    const fitted = fitText('Short', STYLE, { maxWidthPx: 600, maxLines: 2, smallest: 0.7 }, lettering);
    expect(fitted).toMatchObject({ lines: ['Short'], style: STYLE, cut: false });
  });

  it('is set smaller before it is wrapped, and wrapped before it is cut', () => {
    const name = 'Wendell Harrier Estate Long Distance';
    const full = lettering.width(name, STYLE);
    const rule = { maxLines: 2, smallest: 0.7 };
    const smaller = fitText(name, STYLE, { ...rule, maxWidthPx: full * 0.8 }, lettering);
    expect(smaller.lines.length).toBe(1);
    expect(smaller.style.sizePx).toBeLessThan(STYLE.sizePx);
    const wrapped = fitText(name, STYLE, { ...rule, maxWidthPx: full * 0.6 }, lettering);
    expect(wrapped.lines.join(' ')).toBe(name);
    expect(wrapped.lines.length).toBe(2);
    const cut = fitText(name, STYLE, { ...rule, maxWidthPx: full * 0.2 }, lettering);
    expect(cut.cut).toBe(true);
    expect(cut.lines.at(-1)).toMatch(/…$/);
  });

  it('never is wider than asked, loses nothing unsaid and keeps to its lines and sizes, whatever the text', () => {
    fc.assert(
      fc.property(
        fc.string({ maxLength: 80 }),
        fc.integer({ min: 60, max: 900 }),
        fc.integer({ min: 1, max: 3 }),
        (text, maxWidthPx, maxLines) => {
          const fitted = fitText(text, STYLE, { maxWidthPx, maxLines, smallest: 0.6 }, lettering);
          expect(fitted.lines.length).toBeLessThanOrEqual(maxLines);
          expect(fitted.style.sizePx).toBeGreaterThanOrEqual(0.6 * STYLE.sizePx - 1e-9);
          for (const line of fitted.lines) {
            expect(lettering.width(line, fitted.style)).toBeLessThanOrEqual(maxWidthPx);
          }
          const words = (lines: readonly string[]) =>
            lines
              .join(' ')
              .split(/[ \t\r\n]+/)
              .filter(Boolean);
          if (fitted.cut) expect(fitted.lines.some(line => line.endsWith('…'))).toBe(true);
          else expect(words(fitted.lines)).toEqual(words([text]));
        },
      ),
      { numRuns: 150 },
    );
  });
});

describe('lines', () => {
  it('break between parts only, as full as they get', () => {
    const parts = ['one part', 'another part', 'a third', 'the last'];
    const maxWidthPx = lettering.width('one part · another part', STYLE);
    expect(wrapParts(parts, ' · ', STYLE, maxWidthPx, lettering)).toEqual([
      'one part · another part',
      'a third · the last',
    ]);
  });

  it('keep words held together by a no-break space on one line', () => {
    expect(wrapWords('about 14\u00a0°C today', STYLE, lettering.width('about 14', STYLE), lettering)).toEqual(
      ['about', '14\u00a0°C', 'today'],
    );
  });

  it('give a lone last part company where that takes no further line', () => {
    const parts = ['Luft 17 °C,', 'Gegenwind 3,1 bis 3,4 m/s,', 'Neigung 0,2 %,', 'trocken'];
    const wrap = (widthPx: number) => wrapParts(parts, ' ', STYLE, widthPx, lettering);
    const widthOf = (line: string): number => lettering.width(line, STYLE);
    const full = widthOf(parts.slice(0, 3).join(' ')) + 1;
    expect(wrap(full)).toEqual([parts.slice(0, 3).join(' '), 'trocken']);
    expect(withoutWidow(wrap, full, widthOf)).toEqual([
      parts.slice(0, 2).join(' '),
      parts.slice(2).join(' '),
    ]);
    // Two words that fill a line each stay as they are.
    const two = (widthPx: number) => wrapWords('Höchstgeschwindigkeitstests ja', STYLE, widthPx, lettering);
    const one = widthOf('Höchstgeschwindigkeitstests') + 1;
    expect(withoutWidow(two, one, widthOf)).toEqual(['Höchstgeschwindigkeitstests', 'ja']);
  });

  it('are cut to nothing rather than drawn too wide', () => {
    expect(cutLine('Wide', STYLE, 1, lettering)).toBe('');
  });
});
