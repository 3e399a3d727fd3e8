import { beforeAll, describe, expect, it } from 'vitest';
import { loadLettering } from '../../pipeline/lettering/fonts.ts';
import type { Lettering } from '../../pipeline/lettering/lettering.ts';
import { guideOverlay } from '../../pipeline/overlay/guide.ts';
import { overlaysNote } from '../../pipeline/overlay/note.ts';
import { plateArea } from '../../pipeline/overlay/plate.ts';
import { renderOverlay } from '../../pipeline/overlay/render.ts';
import { type PixelArea, type SafeStandard, safeArea } from '../../pipeline/overlay/safe-area.ts';
import { FRAME_SIZES, houseFrameSizes } from '../../pipeline/overlay/sizes.ts';
import { decodePng } from './compare-pictures.ts';
import { ALL_SIZES, HOUSE, madeFrom, TEST, THEMED_HOUSE } from './fixture.ts';

let lettering: Lettering;
beforeAll(async () => {
  lettering = await loadLettering();
});

const STANDARDS: readonly SafeStandard[] = ['ebu-r95', 'smpte-st-2046-1'];

describe('the guide for the editor', () => {
  it('outlines action-safe, graphics-safe and plate area, to the pixel, and leaves the rest clear', async () => {
    for (const size of ALL_SIZES) {
      const { rgba, widthPx, heightPx } = await decodePng(
        await renderOverlay(guideOverlay('ebu-r95'), size, lettering),
      );
      expect([widthPx, heightPx]).toEqual([size.widthPx, size.heightPx]);
      const alpha = (x: number, y: number): number => rgba[(y * widthPx + x) * 4 + 3]!;
      const areas: readonly PixelArea[] = [
        safeArea(size, 'action'),
        safeArea(size, 'graphics'),
        plateArea(size),
      ];
      for (const { leftPx, rightPx, bottomPx } of areas) {
        // Just above the plate area, and below it, no other outline runs across.
        const y = Math.round(heightPx * 0.6);
        const x = Math.round(widthPx * 0.9);
        if (bottomPx !== plateArea(size).bottomPx) expect(alpha(leftPx, y)).toBe(255);
        expect(alpha(x, bottomPx - 1)).toBe(255);
        expect(alpha(x, bottomPx)).toBe(0);
        expect(alpha(rightPx - 1, heightPx - 3 - (heightPx - bottomPx))).toBe(255);
        expect(alpha(rightPx, Math.round(heightPx * 0.9))).toBe(0);
      }
      const action = areas[0]!;
      let outside = 0;
      for (let y = 0; y < heightPx; y++) {
        for (let x = 0; x < widthPx; x++) {
          const inside = x >= action.leftPx && x < action.rightPx && y >= action.topPx && y < action.bottomPx;
          if (!inside) outside = Math.max(outside, alpha(x, y));
        }
      }
      expect(outside).toBe(0);
    }
  });

  it('names the standard it is drawn after, and says where a picture is not 16:9', () => {
    for (const standard of STANDARDS) {
      for (const size of ALL_SIZES) {
        const texts: string[] = [];
        guideOverlay(standard).svg(size, {
          ...lettering,
          path(text, style, x, y) {
            texts.push(text);
            return lettering.path(text, style, x, y);
          },
        });
        const words = texts.join('\n');
        expect(words).toContain(
          standard === 'ebu-r95' ? 'EBU R 95, action safe, 3.5 %' : 'ST 2046-1, safe action area, 93 %',
        );
        expect(words).toContain(size.name);
        expect(words.includes('written for 16:9')).toBe(size.widthPx * 9 !== size.heightPx * 16);
      }
    }
  });

  it('is the same bytes each time', async () => {
    const draw = () => renderOverlay(guideOverlay('smpte-st-2046-1'), ALL_SIZES[3]!, lettering);
    expect(Buffer.compare(await draw(), await draw())).toBe(0);
  });
});

describe('the note beside the overlays', () => {
  it('says what the files are, every plate’s use, and every plate in words', () => {
    const made = madeFrom(TEST);
    const note = overlaysNote(TEST, THEMED_HOUSE, made, FRAME_SIZES);
    expect(note).toMatch(/sRGB, straight \(unassociated\) alpha/);
    expect(note).toMatch(/SMPTE ST 2046-1/);
    for (const { name } of FRAME_SIZES) expect(note).toContain(`${name}/`);
    for (const { name, altText } of made) {
      expect(note).toMatch(new RegExp(`^  ${name} +\\w.{8,}$`, 'm'));
      expect(note).toContain(altText);
    }
    expect(note).toMatch(/0-guide .*not in the film/);
    expect(note).not.toMatch(/\bsafe to\b/);
  });
});

describe('frame sizes', () => {
  it('are the house’s, each once, and three where it names none', () => {
    expect(houseFrameSizes(HOUSE)).toBe(FRAME_SIZES);
    expect(houseFrameSizes({ video: { sizes: ['1080x1350', '1920x1080', '1080x1350'] } })).toEqual([
      { name: '1080x1350', widthPx: 1080, heightPx: 1350 },
      { name: '1920x1080', widthPx: 1920, heightPx: 1080 },
    ]);
  });
});
