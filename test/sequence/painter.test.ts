import sharp from 'sharp';
import { beforeAll, describe, expect, it } from 'vitest';
import { contrastRatio } from '../../pipeline/colour.ts';
import { START_RULES } from '../../pipeline/content/schema.ts';
import { loadLettering } from '../../pipeline/lettering/fonts.ts';
import type { Lettering } from '../../pipeline/lettering/lettering.ts';
import { INKS, marksToSvg } from '../../pipeline/overlay/marks.ts';
import type { FrameSize } from '../../pipeline/overlay/overlay.ts';
import { moved, textMark } from '../../pipeline/overlay/plate-block.ts';
import { safeArea } from '../../pipeline/overlay/safe-area.ts';
import { houseTheme } from '../../pipeline/overlay/theme.ts';
import { ProblemError } from '../../pipeline/problem.ts';
import { cellsText, runningContent } from '../../pipeline/sequence/content.ts';
import { createPainter, type Painter } from '../../pipeline/sequence/painter.ts';
import { type FrameValues, frameValues, type SequencePlan } from '../../pipeline/sequence/plan.ts';
import { type FittedRunningPlate, fitRunningPlate } from '../../pipeline/sequence/running-plate.ts';
import { comparePictures, decodePng } from '../overlay/compare-pictures.ts';
import { ATTEMPT, fixturePlan, framesOf, HOUSE, TEST } from './fixture.ts';

const size = (widthPx: number, heightPx: number): FrameSize => ({
  name: `${widthPx}x${heightPx}`,
  widthPx,
  heightPx,
});
const HD = size(1920, 1080);
const SIZES = [HD, size(3840, 2160), size(1080, 1920), size(1080, 1080), size(1998, 1080), size(853, 479)];

const GERMAN = { ...HOUSE, language: 'de-DE' };

let lettering: Lettering;
beforeAll(async () => {
  lettering = await loadLettering();
});

interface Drawn {
  readonly plan: SequencePlan;
  readonly plate: FittedRunningPlate;
  readonly painter: Painter;
  readonly values: (frame: number) => FrameValues;
}

/** Every other size with a decimal comma, which hangs below the digits. */
async function drawn(
  frame: FrameSize,
  house = SIZES.indexOf(frame) % 2 === 1 ? GERMAN : HOUSE,
): Promise<Drawn> {
  const plan = fixturePlan({ holdS: 1 }, ATTEMPT, house);
  const plate = fitRunningPlate(runningContent(plan, TEST, house), frame, lettering);
  return {
    plan,
    plate,
    painter: await createPainter(plan, plate, frame, lettering),
    values: frameValues(plan, 'en'),
  };
}

/** First, moving, at a split, between splits, just stopped, last. */
function tellingFrames({ plan, values }: Drawn): readonly number[] {
  const held = framesOf(plan).find(frame => values(frame).splits.includes('held'))!;
  return [plan.firstFrame, plan.movesAtFrame + 1, held, held + 30, plan.stopsAtFrame, plan.lastFrame];
}

/** The whole frame as one SVG with every character set where it belongs: drawn without cells, bands or copying. */
function frameSvg({ plan, plate, values }: Drawn, frame: FrameSize, at: number): string {
  const here = values(at);
  const digits = plate.numbers.flatMap(field => {
    const ink = here.clockUnits === undefined && field.id === 'clock' ? 'accent' : 'ink';
    return [...cellsText(field.id, field.shape, here, plan)].flatMap((character, index) => {
      const widthPx = field.characters.find(each => each.character === character)?.widthPx;
      if (widthPx === undefined) return [];
      const x = field.cells[index]!.xPx + (widthPx - lettering.width(character, field.style)) / 2;
      return [textMark(character, field.style, x, field.yPx + field.baselinePx, ink)];
    });
  });
  const splits = plate.splits.flatMap(({ marks, xPx, yPx }, index) =>
    moved(marks[here.splits[index]!], xPx, yPx),
  );
  const marks = marksToSvg([...plate.marks, ...digits, ...splits], plate.leftPx, plate.topPx, lettering);
  return `<svg xmlns="http://www.w3.org/2000/svg" width="${frame.widthPx}" height="${frame.heightPx}">${marks}</svg>`;
}

describe('a frame', () => {
  it.each(SIZES)(
    'at $name is the picture that drawing it whole gives, transparent but in the lower quarter of the graphics-safe area',
    async frame => {
      const sequence = await drawn(frame);
      const area = safeArea(frame, 'graphics');
      for (const at of tellingFrames(sequence)) {
        const picture = await decodePng(await sequence.painter.png(sequence.values(at)));
        const whole = await sharp(Buffer.from(frameSvg(sequence, frame, at)), { density: 72 })
          .ensureAlpha()
          .png({ compressionLevel: 1 })
          .toBuffer();
        const difference = comparePictures(picture, await decodePng(whole));
        expect(difference.sameSize).toBe(true);
        // Outlines are written to a hundredth of a pixel, elsewhere in the frame than in their cell.
        expect(difference.alpha).toBeLessThanOrEqual(2);
        expect(difference.colour).toBeLessThanOrEqual(4);
        const { rgba, widthPx, heightPx } = picture;
        let inside = 0;
        let outside = 0;
        for (let y = 0; y < heightPx; y++) {
          for (let x = 0; x < widthPx; x++) {
            if (rgba[(y * widthPx + x) * 4 + 3] === 0) continue;
            const safe = x >= area.leftPx && x < area.rightPx && y >= heightPx * 0.75 && y < area.bottomPx;
            if (safe) inside++;
            else outside++;
          }
        }
        expect(outside).toBe(0);
        expect(inside).toBeGreaterThan(widthPx * heightPx * 0.04);
      }
    },
  );

  it('is the same bytes whoever draws it and in whatever order', async () => {
    const one = await drawn(HD);
    const other = await drawn(HD);
    const frames = tellingFrames(one);
    const forth: Uint8Array[] = [];
    for (const at of frames) forth.push(await one.painter.png(one.values(at)));
    const back = await Promise.all([...frames].reverse().map(at => other.painter.png(other.values(at))));
    for (const [index, png] of forth.entries()) {
      expect(Buffer.compare(png, back[frames.length - 1 - index]!)).toBe(0);
    }
    expect(one.painter.key(framesOf(one.plan).map(one.values))).toBe(
      other.painter.key(framesOf(other.plan).map(other.values)),
    );
  });

  it('differs from the one before only inside cells and split places', async () => {
    const sequence = await drawn(HD);
    const { plate, plan, values, painter } = sequence;
    const boxes = [
      ...plate.numbers.flatMap(field =>
        field.cells.map(({ xPx }, index) => ({
          xPx,
          yPx: field.yPx,
          heightPx: field.cellHeightPx,
          widthPx: field.characters.find(({ character }) => character === field.shape[index])!.widthPx,
        })),
      ),
      ...plate.splits,
    ].map(box => ({ ...box, xPx: box.xPx + plate.leftPx, yPx: box.yPx + plate.topPx }));
    const first = await decodePng(await painter.png(values(plan.firstFrame)));
    for (const at of tellingFrames(sequence).slice(1)) {
      const { rgba, widthPx } = await decodePng(await painter.png(values(at)));
      let changed = 0;
      for (let pixel = 0; pixel < rgba.length / 4; pixel++) {
        if ([0, 1, 2, 3].every(channel => rgba[pixel * 4 + channel] === first.rgba[pixel * 4 + channel]))
          continue;
        changed++;
        const x = pixel % widthPx;
        const y = Math.floor(pixel / widthPx);
        const within = boxes.some(
          box => x >= box.xPx && x < box.xPx + box.widthPx && y >= box.yPx && y < box.yPx + box.heightPx,
        );
        if (!within) expect.fail(`frame ${at} changes (${x}, ${y}), which is in no cell`);
      }
      expect(changed).toBeGreaterThan(0);
    }
  });

  it('has digits in cells of whole pixels, all digits of a number equally wide and none overlapping', async () => {
    for (const frame of SIZES) {
      const { plate } = await drawn(frame);
      for (const field of plate.numbers) {
        const digits = field.characters.filter(({ character }) => /\d/.test(character));
        expect(digits).toHaveLength(10);
        expect(new Set(digits.map(({ widthPx }) => widthPx)).size).toBe(1);
        let end = 0;
        for (const [index, { xPx }] of field.cells.entries()) {
          expect(Number.isInteger(xPx)).toBe(true);
          expect(xPx).toBeGreaterThanOrEqual(end);
          end = xPx + field.characters.find(({ character }) => character === field.shape[index])!.widthPx;
        }
      }
      expect(plate.cut).toBe(false);
    }
  });
});

describe('the key of a sequence', () => {
  it('changes with anything that changes a picture', async () => {
    const key = async (frame: FrameSize, plan: SequencePlan, test = TEST, house = HOUSE) => {
      const plate = fitRunningPlate(runningContent(plan, test, house), frame, lettering);
      return (await createPainter(plan, plate, frame, lettering)).key(
        framesOf(plan).map(frameValues(plan, 'en')),
      );
    };
    const keys = await Promise.all([
      key(HD, fixturePlan()),
      key(size(1920, 1082), fixturePlan()),
      key(HD, fixturePlan({ rate: '24' })),
      key(HD, fixturePlan({ holdS: 1 })),
      key(HD, fixturePlan({ startRule: 'one-foot-rollout' })),
      key(HD, fixturePlan({ freezeS: 3 })),
      key(HD, fixturePlan(), { ...TEST, car: { ...TEST.car, name: 'Wendover Sorrel 53' } }),
      key(HD, fixturePlan(), TEST, { ...HOUSE, name: 'The Hedgerow Motorists' }),
    ]);
    expect(new Set(keys).size).toBe(keys.length);
    expect(await key(HD, fixturePlan())).toBe(keys[0]);
  });
});

describe('the running plate', () => {
  it('sets nothing across the edge of a cell, a decimal comma neither', async () => {
    const { plate, plan, painter, values } = await drawn(HD, GERMAN);
    expect(plate.numbers[0]!.shape).toMatch(/^0+,00$/);
    const { rgba, widthPx } = await decodePng(await painter.png(values(plan.lastFrame)));
    const { yPx, cellHeightPx, cells } = plate.numbers[0]!;
    // The last row of the cells is plain paper from the first cell to the last: what hangs below has ended by then.
    const row = plate.topPx + yPx + cellHeightPx - 1;
    const colours = new Set<string>();
    for (let x = plate.leftPx + cells[0]!.xPx; x < plate.leftPx + cells.at(-1)!.xPx; x++) {
      colours.add(rgba.subarray((row * widthPx + x) * 4, (row * widthPx + x) * 4 + 4).join());
    }
    expect(colours.size).toBe(1);
  });

  it('says the start rule over the clock, and that ± is expanded uncertainty', () => {
    for (const startRule of START_RULES) {
      const { numbers, foot } = runningContent(fixturePlan({ startRule }), TEST, HOUSE);
      expect(numbers[0]!.head).toBe(
        startRule === 'first-movement' ? 'Clock from first movement' : 'Clock after the one-foot rollout',
      );
      expect(foot.join(' ')).toContain('expanded uncertainty, k = 2');
    }
  });

  it('takes the corner, the face and the colours of its house', async () => {
    const dressed = {
      ...HOUSE,
      look: { corner: 'right' as const, number_face: 'sans' as const, ground: '#ffffff', text: '#001a33' },
      video: { safe_areas: 'smpte-st-2046-1' as const },
    };
    const theme = houseTheme(dressed);
    const plan = fixturePlan();
    const plate = fitRunningPlate(runningContent(plan, TEST, dressed), HD, lettering, theme);
    expect(plate.leftPx + plate.widthPx).toBe(safeArea(HD, 'graphics', 'smpte-st-2046-1').rightPx);
    expect(plate.numbers.every(({ style }) => style.face === 'sans')).toBe(true);
    const painter = await createPainter(plan, plate, HD, lettering);
    const { rgba, widthPx } = await decodePng(await painter.png(frameValues(plan, 'en')(plan.firstFrame)));
    const ground = ((plate.topPx + 20) * widthPx + plate.leftPx + 3) * 4;
    expect([...rgba.subarray(ground, ground + 3)]).toEqual([255, 255, 255]);
  });

  it('says of an attempt set aside that it is', () => {
    const setAside = TEST.attempts.find(attempt => attempt.setAside !== undefined)!;
    const { foot, splits } = runningContent(fixturePlan({}, setAside), TEST, HOUSE);
    expect(foot[0]).toMatch(/^Set aside/);
    expect(splits.length).toBeGreaterThan(0);
  });

  it('reads over white and over black pictures, where a split is set off too', () => {
    // WCAG 2.2, 1.4.3: 4.5:1. The accent is opaque, so that the picture under it does not matter.
    expect(INKS.accent.alpha).toBe(1);
    expect(contrastRatio(INKS.onAccent.colour, INKS.accent.colour)).toBeGreaterThan(4.5);
  });

  it('is refused with a plain message where a picture has no room for it', () => {
    expect(() =>
      fitRunningPlate(runningContent(fixturePlan(), TEST, HOUSE), size(4000, 180), lettering),
    ).not.toThrow();
    const long = { ...TEST, car: { ...TEST.car, name: 'Wendover Sorrel '.repeat(200) } };
    expect(fitRunningPlate(runningContent(fixturePlan(), long, HOUSE), HD, lettering).cut).toBe(true);
    expect(() =>
      fitRunningPlate(runningContent(fixturePlan(), TEST, HOUSE), size(10, 10), lettering),
    ).toThrow(ProblemError);
  });
});
