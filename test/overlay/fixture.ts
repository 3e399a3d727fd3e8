/** Tests that the overlay tests share. */
import type { MadeOverlay } from '../../pipeline/overlay/overlay.ts';
import { OVERLAYS } from '../../pipeline/overlay/overlays.ts';
import type { House, TestResult } from '../../pipeline/result/result.ts';
import { FIXTURE_PLAN, houseFixture, testFixture } from '../result/fixture.ts';

export const HOUSE: House = houseFixture();
export const TEST: TestResult = testFixture();

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
