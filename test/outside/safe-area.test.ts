/** Safe areas against EBU R 95 and SMPTE ST 2046-1, by their published percentages. */
import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import type { FrameSize } from '../../pipeline/overlay/overlay.ts';
import {
  type SafeArea,
  type SafeStandard,
  safeArea,
  safeMarginPx,
} from '../../pipeline/overlay/safe-area.ts';
import { describeCheckValues, expectWithin } from './check-values.ts';

const frame = (widthPx: number, heightPx: number): FrameSize => ({ name: 'any', widthPx, heightPx });
const HD = frame(1920, 1080);
const UHD = frame(3840, 2160);

const margins = (size: FrameSize, area: SafeArea): readonly number[] => {
  const { xPx, yPx } = safeMarginPx(size, area, 'ebu-r95');
  return [xPx, yPx];
};
const inside = (size: FrameSize, area: SafeArea): readonly number[] => {
  const { xPx, yPx } = safeMarginPx(size, area, 'smpte-st-2046-1');
  return [size.widthPx - 2 * xPx, size.heightPx - 2 * yPx];
};

describeCheckValues('safe areas', {
  'safe.ebu-r95': entry =>
    expectWithin(
      {
        hd_action: margins(HD, 'action'),
        hd_graphics: margins(HD, 'graphics'),
        uhd_action: margins(UHD, 'action'),
        uhd_graphics: margins(UHD, 'graphics'),
      },
      entry,
    ),
  'safe.smpte-2046-1': entry =>
    expectWithin(
      {
        hd_action: inside(HD, 'action'),
        hd_title: inside(HD, 'graphics'),
        uhd_action: inside(UHD, 'action'),
        uhd_title: inside(UHD, 'graphics'),
      },
      entry,
    ),
});

describe('safe areas in whole pixels', () => {
  it('of HD are the published 5 % exactly and 3.5 % rounded inwards', () => {
    expect(safeArea(HD, 'graphics')).toEqual({ leftPx: 96, topPx: 54, rightPx: 1824, bottomPx: 1026 });
    expect(safeArea(HD, 'action')).toEqual({ leftPx: 68, topPx: 38, rightPx: 1852, bottomPx: 1042 });
  });

  it('are never larger than the percentage says, and smaller by less than a pixel at each edge', () => {
    fc.assert(
      fc.property(
        fc.integer({ min: 64, max: 8192 }),
        fc.integer({ min: 64, max: 8192 }),
        fc.constantFrom<SafeArea>('action', 'graphics'),
        fc.constantFrom<SafeStandard>('ebu-r95', 'smpte-st-2046-1'),
        (widthPx, heightPx, area, standard) => {
          const size = frame(widthPx, heightPx);
          const share = area === 'action' ? 0.035 : 0.05;
          const { leftPx, topPx, rightPx, bottomPx } = safeArea(size, area, standard);
          for (const [marginPx, side] of [
            [leftPx, widthPx],
            [widthPx - rightPx, widthPx],
            [topPx, heightPx],
            [heightPx - bottomPx, heightPx],
          ] as const) {
            expect(Number.isInteger(marginPx)).toBe(true);
            expect(marginPx).toBeGreaterThanOrEqual(side * share - 1e-9);
            expect(marginPx).toBeLessThan(side * share + 1);
          }
        },
      ),
    );
  });
});
