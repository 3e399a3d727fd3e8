import fc from 'fast-check';
import { beforeAll, describe, expect, it } from 'vitest';
import { contrastRatio } from '../../pipeline/colour.ts';
import { loadLettering } from '../../pipeline/lettering/fonts.ts';
import type { Lettering } from '../../pipeline/lettering/lettering.ts';
import { GUIDE_NAME } from '../../pipeline/overlay/guide.ts';
import { GROUND_OF, INKS, type Inks } from '../../pipeline/overlay/marks.ts';
import type { FrameSize, MadeOverlay, OverlayKind } from '../../pipeline/overlay/overlay.ts';
import { OVERLAYS } from '../../pipeline/overlay/overlays.ts';
import { fitPlate, plateArea } from '../../pipeline/overlay/plate.ts';
import { footBlock } from '../../pipeline/overlay/plate-words.ts';
import { renderOverlay } from '../../pipeline/overlay/render.ts';
import { safeArea } from '../../pipeline/overlay/safe-area.ts';
import { FRAME_SIZES } from '../../pipeline/overlay/sizes.ts';
import { houseTheme, PLAIN_THEME, type PlateTheme } from '../../pipeline/overlay/theme.ts';
import type { House } from '../../pipeline/result/result.ts';
import { alphaOf, comparePictures, decodePng, type Picture } from './compare-pictures.ts';
import { ALL_SIZES, HOUSE, madeFrom, OTHER, TEST, THEMED_HOUSE, withCarName } from './fixture.ts';
import { type SvgPart, svgParts } from './svg-parts.ts';

const LONG_NAME = 'Marlinspike Harrier Estate Long Distance';
const HD = FRAME_SIZES[0]!;
let lettering: Lettering;
beforeAll(async () => {
  lettering = await loadLettering();
});

/** The full test's plates of a house, made once. */
const PLATES = new Map([HOUSE, THEMED_HOUSE].map(house => [house, madeFrom(TEST, house)]));
const platesOf = (house: House): readonly MadeOverlay[] => PLATES.get(house)!;

/** What is made of a plate at a size, once, however many tests look at it. */
function oncePerSize<T>(make: (made: MadeOverlay, size: FrameSize) => T) {
  const known = new WeakMap<MadeOverlay, WeakMap<FrameSize, T>>();
  return (made: MadeOverlay, size: FrameSize): T => {
    const bySize = known.get(made) ?? new WeakMap<FrameSize, T>();
    known.set(made, bySize);
    const one = bySize.get(size) ?? make(made, size);
    bySize.set(size, one);
    return one;
  };
}
const svgOf = oncePerSize((made, size) => made.svg(size, lettering));
const partsOf = oncePerSize<readonly SvgPart[]>((made, size) => svgParts(svgOf(made, size)));
const pngOf = oncePerSize((made, size) => renderOverlay({ svg: () => svgOf(made, size) }, size, lettering));

/** The text kept to its plate, the plate to the lower quarter and the graphics-safe area. */
function expectInPlace(
  made: MadeOverlay,
  size: FrameSize,
  { corner, safeAreas }: PlateTheme = PLAIN_THEME,
): void {
  const parts = partsOf(made, size);
  const area = plateArea(size, safeAreas);
  const plate = parts.filter(part => part.element === 'rect');
  const edge = {
    left: Math.min(...plate.map(part => part.box.left)),
    top: Math.min(...plate.map(part => part.box.top)),
    right: Math.max(...plate.map(part => part.box.right)),
    bottom: Math.max(...plate.map(part => part.box.bottom)),
  };
  const at = `${made.name} at ${size.name}`;
  if (corner === 'left') expect(edge.left, at).toBe(area.leftPx);
  else expect(edge.right, at).toBe(area.rightPx);
  expect(edge.bottom, at).toBe(area.bottomPx);
  expect(edge.left, at).toBeGreaterThanOrEqual(area.leftPx);
  expect(edge.right, at).toBeLessThanOrEqual(area.rightPx);
  expect(edge.top, at).toBeGreaterThanOrEqual(area.topPx);
  const drawn = parts.filter(part => part.element !== 'rect' && Number.isFinite(part.box.left));
  expect(
    drawn.some(part => part.element === 'path'),
    at,
  ).toBe(true);
  for (const { box } of drawn) {
    expect(box.left, at).toBeGreaterThan(edge.left);
    expect(box.right, at).toBeLessThan(edge.right);
    expect(box.top, at).toBeGreaterThan(edge.top);
    expect(box.bottom, at).toBeLessThan(edge.bottom);
  }
}

/** Largest alpha outside the graphics-safe area, and largest inside it; `alpha` is a byte a pixel, row after row. */
function alphaOutside(alpha: Uint8Array, size: FrameSize): { outside: number; inside: number } {
  const { leftPx, topPx, rightPx, bottomPx } = safeArea(size, 'graphics');
  const { widthPx, heightPx } = size;
  const nothing = new Uint8Array(widthPx);
  let outside = 0;
  let inside = 0;
  const largest = (from: number, to: number): number => {
    const part = alpha.subarray(from, to);
    if (Buffer.compare(part, nothing.subarray(0, part.length)) === 0) return 0;
    return part.includes(255) ? 255 : part.reduce((most, value) => Math.max(most, value), 0);
  };
  for (let y = 0; y < heightPx; y++) {
    const row = y * widthPx;
    if (y < topPx || y >= bottomPx) outside = Math.max(outside, largest(row, row + widthPx));
    else {
      outside = Math.max(outside, largest(row, row + leftPx), largest(row + rightPx, row + widthPx));
      inside = Math.max(inside, largest(row + leftPx, row + rightPx));
    }
  }
  return { outside, inside };
}

describe('overlays', () => {
  it('are listed under their own kinds, and each is made from a full test', () => {
    const kinds = new Set(platesOf(HOUSE).map(made => made.kind));
    for (const [kind, overlay] of Object.entries(OVERLAYS)) {
      expect(overlay.kind).toBe(kind);
      expect(kinds).toContain(kind);
    }
  });

  it('have names of their own that sort in the order of use and are file names everywhere', () => {
    const names = platesOf(HOUSE).map(made => made.name);
    expect(new Set(names).size).toBe(names.length);
    expect([...names, GUIDE_NAME].sort()).toEqual([GUIDE_NAME, ...names]);
    for (const name of names) expect(name).toMatch(/^[a-z0-9-]+$/);
  });

  it('are PNG of the frame’s size, with nothing outside the graphics-safe area and something inside', async () => {
    for (const house of [HOUSE, THEMED_HOUSE]) {
      for (const size of ALL_SIZES) {
        for (const made of platesOf(house)) {
          const picture = await alphaOf(await pngOf(made, size));
          expect([picture.widthPx, picture.heightPx]).toEqual([size.widthPx, size.heightPx]);
          expect(alphaOutside(picture.alpha, size), `${made.name} at ${size.name}`).toEqual({
            outside: 0,
            inside: 255,
          });
        }
      }
    }
  }, 120_000);

  it('are drawn whole in German', () => {
    const german = { ...HOUSE, language: 'de-DE' };
    for (const size of ALL_SIZES) {
      for (const made of madeFrom(TEST, german)) {
        expectInPlace(made, size, houseTheme(german));
        expect(made.problems(size, lettering), `${made.name} at ${size.name}`).toEqual([]);
      }
    }
  });

  it('keep text to the plate and the plate to the lower quarter at every size', () => {
    for (const house of [HOUSE, THEMED_HOUSE]) {
      for (const size of ALL_SIZES) {
        for (const made of platesOf(house)) expectInPlace(made, size, houseTheme(house));
      }
    }
  });

  it('keep to their area at sizes nobody thought of', () => {
    const side = fc.integer({ min: 360, max: 4000 });
    fc.assert(
      fc.property(side, side, (widthPx, heightPx) => {
        fc.pre(widthPx / heightPx > 0.4 && widthPx / heightPx < 2.6);
        const size = { name: `${widthPx}x${heightPx}`, widthPx, heightPx };
        for (const made of platesOf(THEMED_HOUSE)) expectInPlace(made, size, houseTheme(THEMED_HOUSE));
      }),
      { numRuns: 15 },
    );
  }, 60_000);

  it('are read at their usual size or little below, also where a picture is square or 4:5', () => {
    for (const house of [HOUSE, THEMED_HOUSE]) {
      for (const size of ALL_SIZES) {
        for (const made of platesOf(house)) {
          expect(made.problems(size, lettering), `${made.name} at ${size.name}`).toEqual([]);
        }
      }
    }
  });

  it('are the same bytes from a second load and a second drawing', async () => {
    const again = await loadLettering();
    for (const size of [HD, ALL_SIZES[3]!]) {
      for (const made of platesOf(THEMED_HOUSE)) {
        const one = await pngOf(made, size);
        const other = await renderOverlay(made, size, again);
        expect(Buffer.compare(one, other), made.name).toBe(0);
      }
    }
  });

  it('have straight alpha: the ground keeps its own colour under its transparency', async () => {
    const [caution] = platesOf(HOUSE);
    const picture = await decodePng(await pngOf(caution!, HD));
    const { leftPx, bottomPx } = plateArea(HD);
    const at = ((bottomPx - 4) * HD.widthPx + leftPx + 4) * 4;
    const wanted: Picture = {
      widthPx: 1,
      heightPx: 1,
      rgba: Uint8Array.of(
        ...[1, 3, 5].map(index => Number.parseInt(INKS.slate.colour.slice(index, index + 2), 16)),
        Math.round(INKS.slate.alpha * 255),
      ),
    };
    const found: Picture = { widthPx: 1, heightPx: 1, rgba: picture.rgba.slice(at, at + 4) };
    const difference = comparePictures(found, wanted);
    expect(difference.alpha).toBeLessThanOrEqual(1);
    expect(difference.colour).toBeLessThanOrEqual(1);
  });
});

describe('text on plates', () => {
  /** A ground as it comes out over a picture of one colour. */
  const over = ({ colour, alpha }: Inks['paper'], picture: 0 | 255): string => {
    const channels = [1, 3, 5].map(at =>
      Math.round(Number.parseInt(colour.slice(at, at + 2), 16) * alpha + picture * (1 - alpha)),
    );
    return `#${channels.map(channel => channel.toString(16).padStart(2, '0')).join('')}`;
  };

  it('has a contrast of 4.5:1 or more over white and over black pictures (WCAG 2.2, 1.4.3)', () => {
    for (const inks of [INKS, houseTheme(THEMED_HOUSE).inks]) {
      for (const [ink, ground] of Object.entries(GROUND_OF)) {
        for (const picture of [0, 255] as const) {
          const ratio = contrastRatio(
            inks[ink as keyof typeof GROUND_OF].colour,
            over(inks[ground], picture),
          );
          expect(ratio, `${ink} on ${ground} over ${picture}`).toBeGreaterThanOrEqual(4.5);
        }
      }
    }
  });

  it('stands on the ground its contrast was worked out for', () => {
    for (const [house, size] of [HOUSE, THEMED_HOUSE].flatMap(each =>
      ALL_SIZES.map(size => [each, size] as const),
    )) {
      for (const made of platesOf(house)) {
        const inks = made.kind === 'caution' ? INKS : houseTheme(house).inks;
        const grounds = new Map([
          [inks.paper.colour, 'paper'],
          [inks.slate.colour, 'slate'],
        ]);
        const parts = partsOf(made, size);
        const plates = parts.filter(part => part.element === 'rect' && part.opacity < 1);
        for (const { fill, box, opacity } of parts.filter(part => part.element === 'path')) {
          const under = plates.filter(plate => plate.box.top <= box.top && plate.box.bottom >= box.bottom);
          expect(under.length, `one ground under text of ${made.name}`).toBe(1);
          const ground = grounds.get(under[0]!.fill);
          const allowed = Object.entries(GROUND_OF).filter(([, on]) => on === ground);
          expect(allowed.map(([ink]) => inks[ink as keyof typeof GROUND_OF].colour)).toContain(fill);
          expect(opacity).toBe(1);
        }
      }
    }
  });
});

describe('names', () => {
  it('of forty characters are drawn whole, in place, at every size', () => {
    expect(LONG_NAME.length).toBe(40);
    const test = withCarName(LONG_NAME, LONG_NAME);
    for (const size of ALL_SIZES) {
      for (const made of madeFrom(test)) expectInPlace(made, size);
      const layout = fitPlate(
        {
          label: HOUSE.name,
          title: LONG_NAME,
          content: {
            body: 'headline',
            head: '0–100 km/h',
            value: '12.84',
            unit: 's',
            uncertainty: '± 0.03 s',
          },
          foot: ['Clock from first movement'],
        },
        size,
        lettering,
      );
      expect(layout.cut, size.name).toBe(false);
    }
  });

  it('of any kind keep every plate in place, and draw no text but outlines', () => {
    const hostile = fc.constantFrom(
      '<script>alert(1)</script>',
      'Salt & Pepper "GT" <b>',
      ']]><svg/onload=x>',
      '& &amp;',
      '→ Δ 漢字',
    );
    fc.assert(
      fc.property(
        fc.oneof(
          hostile,
          fc.string({ minLength: 1, maxLength: 90 }),
          fc.string({ unit: 'grapheme', minLength: 1, maxLength: 60 }),
        ),
        fc.constantFrom(...ALL_SIZES),
        (name, size) => {
          const test = withCarName(name, name);
          const house = { ...HOUSE, name };
          // `svgParts` accepts nothing but rectangles and outlines made of numbers.
          for (const made of madeFrom(test, house)) expectInPlace(made, size);
        },
      ),
      { numRuns: 25 },
    );
  });

  it('of launch methods, roads and a long caution keep to the plate as well', () => {
    const long =
      'Very long words said about one thing, again and again, until no plate could hold them all. ';
    const house = {
      ...HOUSE,
      caution: long.repeat(4),
      launch_methods: HOUSE.launch_methods.map(method => ({ ...method, name: long + method.id })),
    };
    const test = {
      ...TEST,
      road: { ...TEST.road, name: long },
      attempts: TEST.attempts.map(attempt => ({ ...attempt, launchName: long })),
    };
    for (const size of ALL_SIZES) for (const made of madeFrom(test, house)) expectInPlace(made, size);
  });
});

/** Every text that a picture draws, in its order; letter-spaced lines come letter by letter. */
function drawnTexts(made: MadeOverlay, size: FrameSize): string {
  const texts: string[] = [];
  made.svg(size, {
    ...lettering,
    path(text) {
      texts.push(text);
      return '';
    },
  });
  return texts.join(' ').replaceAll(/\s+/g, ' ');
}

describe('what must always be said', () => {
  it('start rule, count, uncertainty and conditions stand on every figure, drawn and in its alt text', () => {
    const figures = platesOf(HOUSE).filter(made =>
      ['result', 'splits', 'comparison', 'directions', 'restated'].includes(made.kind),
    );
    expect(figures.length).toBeGreaterThanOrEqual(6);
    for (const size of ALL_SIZES) {
      for (const made of figures) {
        for (const text of [drawnTexts(made, size), made.altText.replaceAll(/\s+/g, ' ')]) {
          if (!made.name.includes('stop')) expect(text, made.name).toMatch(/Clock from first movement/);
          expect(text, made.name).toMatch(/best of \d|median of \d/i);
          expect(text, made.name).toMatch(/± \d/);
          expect(text, made.name).toMatch(/14 °C, 1006 hPa/);
          expect(text, made.name).toMatch(/12 May 2026/);
        }
      }
    }
  });

  it('the other start rule stands beside the headline figure', () => {
    const drawn = (house: House): string => drawnTexts(OVERLAYS.result.make(TEST, house, [])[0]!, HD);
    expect(drawn(HOUSE)).toMatch(/\d s after the one-foot rollout/);
    const other = drawn({ ...HOUSE, headline_start_rule: 'one-foot-rollout' });
    expect(other).toMatch(/Clock after the one-foot rollout/);
    expect(other).toMatch(/\d s from first movement/);
  });

  it('the caution names permission, law and practice, and clears nobody to drive', () => {
    const house = { ...HOUSE, caution: 'Ask the owner of the airfield.' };
    const [caution] = OVERLAYS.caution.make(TEST, house, []);
    for (const size of ALL_SIZES) {
      const drawn = drawnTexts(caution!, size);
      expect(drawn).toMatch(/Closed road, with permission/);
      expect(drawn).toMatch(/Local law and licensed practice come first/);
      expect(drawn).toMatch(/not a clearance to drive/);
      expect(drawn).toMatch(/Ask the owner of the airfield\./);
      expect(drawn).not.toMatch(/\bsafe\b/i);
    }
  });

  it('the caution is drawn in the plain colours at its full size, whatever the house looks like', () => {
    const [plain] = OVERLAYS.caution.make(TEST, HOUSE, []);
    const [themed] = OVERLAYS.caution.make(TEST, THEMED_HOUSE, []);
    for (const size of ALL_SIZES) {
      const shape = (made: MadeOverlay) =>
        svgParts(made.svg(size, lettering)).map(({ element, fill, opacity, box }) => [
          element,
          fill,
          opacity,
          Math.round(box.right - box.left),
          Math.round(box.bottom - box.top),
        ]);
      expect(shape(themed!)).toEqual(shape(plain!));
    }
  });

  it('the mean of both ways says that it keeps the wind, and the restated figure stands beside the measured', () => {
    const drawnBy = (kind: OverlayKind): string => drawnTexts(OVERLAYS[kind].make(TEST, HOUSE, [])[0]!, HD);
    expect(drawnBy('directions')).toMatch(/leaves out the slope, not the wind/);
    expect(drawnBy('directions')).toMatch(/Eastbound .*Westbound .*Mean of both/);
    const restated = drawnBy('restated');
    const [, measured = '', value = ''] = /Measured (\d+\.\d+) .*Restated (\d+\.\d+)/.exec(restated) ?? [];
    expect(Number(value) / Number(measured)).toBeCloseTo(1.02, 2);
    expect(restated).toMatch(/level road in still, dry air at 20 °C and 1000 hPa/);
    expect(restated).toMatch(/wind \+0\.\d\d s/);
    const without = { ...TEST, attempts: TEST.attempts.map(({ restated: _, ...attempt }) => attempt) };
    expect(OVERLAYS.restated.make(without, HOUSE, [])).toEqual([]);
  });

  it('the credits name driver, receiver, road, permission and licence, from the content', () => {
    const test = { ...TEST, content: { ...TEST.content, byline: 'Ada Thatch' } };
    for (const size of ALL_SIZES) {
      const drawn = drawnTexts(OVERLAYS.credits.make(test, HOUSE, [])[0]!, size);
      for (const text of [
        'Ada Thatch',
        '20 Hz satellite receiver',
        'Fixture field',
        'The owner',
        'CC BY 4.0',
      ]) {
        expect(drawn).toContain(text);
      }
      expect(drawn).toContain('hedgerow.example');
    }
    expect(OVERLAYS.credits.make(TEST, HOUSE, [])[0]!.altText).not.toContain('Drove');
  });

  it('nothing is made of what was not measured', () => {
    const empty = { ...TEST, attempts: [] };
    expect(madeFrom(empty, HOUSE, []).map(made => made.kind)).toEqual(['caution', 'credits']);
    const setAside = { ...TEST, attempts: TEST.attempts.map(each => ({ ...each, setAside: 'Rain' })) };
    expect(madeFrom(setAside, HOUSE, [OTHER]).map(made => made.kind)).toEqual(['caution', 'credits']);
  });

  it('text that a plate cannot hold is told, and text that it holds is not', () => {
    for (const size of FRAME_SIZES) {
      for (const made of madeFrom(withCarName(LONG_NAME))) expect(made.problems(size, lettering)).toEqual([]);
      const house = { ...HOUSE, caution: 'Ask the owner of the airfield before anything else. '.repeat(30) };
      const [caution] = OVERLAYS.caution.make(TEST, house, []);
      const [problem] = caution!.problems(size, lettering);
      expect(problem).toMatchObject({ id: 'overlay.too-much-text', severity: 'warning' });
    }
  });
});

describe('the foot', () => {
  it('breaks a phrase that is too long after a comma, never inside a figure', () => {
    const phrase =
      'Van: 14\u00a0°C, 1006\u00a0hPa, headwind 1.6\u00a0m/s, slope −0.1 to 0.1\u00a0%, dry, Fixture field';
    const style = (face: 'sans' | 'serif', weight: 400 | 600 | 700, units: number) => ({
      face,
      weight,
      sizePx: units,
    });
    for (let widthPx = 260; widthPx < 900; widthPx += 20) {
      const layer = { unitPx: 1, widthPx, upright: true, lettering, style };
      const lines = footBlock([phrase, 'the end'], widthPx, layer).marks.flatMap(mark =>
        mark.mark === 'text' ? [mark.text] : [],
      );
      expect(lines.join(' ').replace('\u2002·\u2002', ' ')).toBe(`${phrase} the end`);
      for (const line of lines.slice(0, -1)) expect(line).toMatch(/(,|field)$/);
    }
  });
});
