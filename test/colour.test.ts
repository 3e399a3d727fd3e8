import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import {
  COLOUR_VISION,
  type ColourVision,
  colourDifference,
  contrastRatio,
  hexToLab,
  hexToRgb,
  linearToSrgb,
  rgbToHex,
  simulateVision,
  srgbToLinear,
} from '../pipeline/colour.ts';
import { COLOUR, PALETTES, SERIES } from '../pipeline/look.ts';

const VISIONS = Object.keys(COLOUR_VISION) as ColourVision[];
const anyHex = fc
  .tuple(fc.integer({ min: 0, max: 255 }), fc.integer({ min: 0, max: 255 }), fc.integer({ min: 0, max: 255 }))
  .map(rgbToHex);

/** Just noticed is about 2.3; ten times that is told apart in thin lines, away from each other (our own limit). */
const APART = 20;

describe('the house colours', () => {
  it('paper is at least 4.5:1 on slate, as text of lower thirds must be', () => {
    expect(contrastRatio(COLOUR.paper, COLOUR.slate)).toBeGreaterThanOrEqual(4.5);
  });

  it('no two series share a dash, so that they differ without any colour', () => {
    expect(new Set(SERIES.map(({ dash }) => dash.join(' '))).size).toBe(SERIES.length);
  });
});

describe.each(Object.entries(PALETTES))('the %s paper', (_name, palette) => {
  it.each(['ink', 'muted', 'accent'] as const)(
    '%s is at least 4.5:1, as text must be (WCAG 2.2, 1.4.3)',
    of => {
      expect(contrastRatio(palette[of], palette.paper)).toBeGreaterThanOrEqual(4.5);
    },
  );

  it('every series is at least 4.5:1, so that labels can take its colour; marks need 3:1 (1.4.11)', () => {
    expect(palette.series).toHaveLength(SERIES.length);
    for (const colour of palette.series) {
      expect(contrastRatio(colour, palette.paper), colour).toBeGreaterThanOrEqual(4.5);
    }
  });

  it('ink and accent are the first two series, so that colours are exchanged one for one', () => {
    expect(palette.series.slice(0, 2)).toEqual([palette.ink, palette.accent]);
  });
});

describe.each(['light', 'dark'] as const)('the eight series on %s paper', name => {
  it.each([undefined, ...VISIONS])('stay 20 apart as seen with %s vision', vision => {
    const seen = PALETTES[name].series.map(colour => (vision ? simulateVision(colour, vision) : colour));
    const differences = seen.flatMap((a, i) => seen.slice(i + 1).map(b => colourDifference(a, b)));
    expect(differences).toHaveLength(28);
    expect(Math.min(...differences)).toBeGreaterThanOrEqual(APART);
  });
});

describe('the paper for black-and-white printers', () => {
  it('has no hue that a printer without colour would lose', () => {
    for (const colour of Object.values(PALETTES.mono).flat()) {
      const [red, green, blue] = hexToRgb(colour);
      expect([red, green], colour).toEqual([blue, blue]);
    }
  });
});

describe('colour arithmetic', () => {
  it('writes every colour as it read it', () => {
    fc.assert(fc.property(anyHex, hex => rgbToHex(hexToRgb(hex)) === hex));
  });

  it('refuses what is not #rrggbb', () => {
    for (const wrong of ['red', '#fff', '#12345g', '1c1b19', '#1c1b1900']) {
      expect(() => hexToRgb(wrong)).toThrow(RangeError);
    }
  });

  it('turns light back into the value it came from', () => {
    fc.assert(
      fc.property(fc.double({ min: 0, max: 1, noNaN: true }), value => {
        expect(linearToSrgb(srgbToLinear(value))).toBeCloseTo(value, 6);
      }),
    );
  });

  it('gives the same contrast in either order, from 1 to 21', () => {
    fc.assert(
      fc.property(anyHex, anyHex, (a, b) => {
        const ratio = contrastRatio(a, b);
        expect(ratio).toBe(contrastRatio(b, a));
        expect(ratio).toBeGreaterThanOrEqual(1);
        expect(ratio).toBeLessThanOrEqual(21);
      }),
    );
  });

  // Each row of the matrices sums to 1 within 1e-6, so greys have to stay.
  it('leaves greys as they are in every simulation', () => {
    for (let value = 0; value < 256; value += 5) {
      const grey = rgbToHex([value, value, value]);
      for (const vision of VISIONS) expect(simulateVision(grey, vision)).toBe(grey);
    }
  });

  // CIE 15: white is (100, 0, 0), black (0, 0, 0). Red is tabulated as 53.24, 80.09, 67.20 (Lindbloom, sRGB, D65).
  it('places white, black and red in CIE L*a*b*', () => {
    const places: readonly (readonly [string, readonly number[]])[] = [
      ['#ffffff', [100, 0, 0]],
      ['#000000', [0, 0, 0]],
      ['#ff0000', [53.24, 80.09, 67.2]],
    ];
    for (const [hex, lab] of places) {
      hexToLab(hex).forEach((value, i) => {
        expect(Math.abs(value - lab[i]!), `${hex} ${i}`).toBeLessThan(0.01);
      });
    }
  });
});
