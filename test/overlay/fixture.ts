/** Tests that the overlay tests share. */
import type { RestatedFigure } from '../../pipeline/conditions/restate.ts';
import { readLogo } from '../../pipeline/overlay/logo.ts';
import type { FrameSize, MadeOverlay } from '../../pipeline/overlay/overlay.ts';
import { OVERLAYS } from '../../pipeline/overlay/overlays.ts';
import { FRAME_SIZES, POSTED_SIZES } from '../../pipeline/overlay/sizes.ts';
import type { House, TestResult } from '../../pipeline/result/result.ts';
import { FIXTURE_PLAN, houseFixture, testFixture } from '../result/fixture.ts';

export const HOUSE: House = houseFixture();
export const TEST: TestResult = restatedTest(testFixture());

/** Every start restated: 2 % slower, all of it by the wind; the braking and the rest as they were. */
function restatedTest(test: TestResult): TestResult {
  const figure = (timeS: number, uncertaintyS: number): RestatedFigure => ({
    timeS: timeS * 1.02,
    uncertaintyS: uncertaintyS * 2,
    changesS: { slope: 0, wind: timeS * 0.02, air: 0 },
    budget: [],
  });
  return {
    ...test,
    attempts: test.attempts.map(attempt => ({
      ...attempt,
      restated: {
        speedSplits: attempt.measurement.speedSplits.map(
          ({ fromMps, toMps, startRule, timeS, uncertaintyS }) => ({
            fromMps,
            toMps,
            startRule,
            ...figure(timeS, uncertaintyS),
          }),
        ),
        distanceSplits: attempt.measurement.distanceSplits.map(({ toM, startRule, timeS, uncertaintyS }) => ({
          toM,
          startRule,
          ...figure(timeS, uncertaintyS),
        })),
      },
    })),
  };
}

/** A picture of 300 × 200 px: two strokes on nothing, enough to be seen where it stands. */
const LOGO = await readLogo(
  'content/logo.svg',
  new TextEncoder().encode(
    '<svg xmlns="http://www.w3.org/2000/svg" viewBox="0 0 30 20"><path fill="#7fd0c0" d="M0 20L10 0H20L30 20H20L15 8L10 20Z"/></svg>',
  ),
  '#14212b',
);

/** A house with everything set: dark plates in the right corner, sans numbers, a logo. */
export const THEMED_HOUSE: House = {
  ...HOUSE,
  look: {
    ground: '#14212b',
    text: '#f4f7f5',
    quiet_text: '#b6c6cf',
    accent: '#7fd0c0',
    foot_ground: '#e9e4d4',
    foot_text: '#1d2a33',
    corner: 'right',
    number_face: 'sans',
    logo: 'logo.svg',
  },
  video: { safe_areas: 'smpte-st-2046-1' },
  ...(LOGO.picture === undefined ? {} : { logoPicture: LOGO.picture }),
};

export const ALL_SIZES: readonly FrameSize[] = [...FRAME_SIZES, ...POSTED_SIZES];

/** The same day with another car, its lag longer by this factor. */
export function otherTest(slower: number): TestResult {
  const test = testFixture({
    ...FIXTURE_PLAN,
    attempts: FIXTURE_PLAN.attempts.map(attempt => ({
      ...attempt,
      launch: { ...attempt.launch, lagS: attempt.launch.lagS * slower },
    })),
  });
  return {
    ...test,
    id: 'van-day',
    car: { ...test.car, id: 'van', name: 'Tansy Carrier long', short_name: 'Tansy Carrier' },
  };
}

export const OTHER = otherTest(1.25);

/** Every overlay of a test, in the order of their names. */
export const madeFrom = (
  test: TestResult,
  house: House = HOUSE,
  others: readonly TestResult[] = [OTHER],
): readonly MadeOverlay[] => Object.values(OVERLAYS).flatMap(overlay => overlay.make(test, house, others));

export const withCarName = (name: string, shortName: string = TEST.car.short_name): TestResult => ({
  ...TEST,
  car: { ...TEST.car, name, short_name: shortName },
});
