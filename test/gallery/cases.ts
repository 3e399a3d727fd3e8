/** Test days that between them put every figure, table and overlay into its plain and its awkward forms. */
import type { FigureChoice } from '../../pipeline/figure/figure.ts';
import type { House, TestResult } from '../../pipeline/result/result.ts';
import { FIXTURE_PLAN, type FixturePlan, houseFixture, testFixture } from '../result/fixture.ts';

export interface GalleryCase {
  /** Part of addresses. */
  readonly id: string;
  readonly describes: string;
  readonly house: House;
  readonly test: TestResult;
  readonly others: readonly TestResult[];
  /** Attempts asked for; each figure's own choice where absent. */
  readonly attempts?: readonly string[];
}

/** Another car on a wet day, slower. */
export function otherDay(): TestResult {
  const plan: FixturePlan = {
    ...FIXTURE_PLAN,
    attempts: FIXTURE_PLAN.attempts.map(one => ({
      ...one,
      launch: { ...one.launch, lagS: one.launch.lagS * 1.3 },
    })),
  };
  const test = testFixture(plan);
  return {
    ...test,
    id: 'other-day',
    car: { ...test.car, id: 'teasel', name: 'Wendover Teasel', short_name: 'Teasel' },
    attempts: test.attempts.map(one => ({ ...one, conditions: { ...one.conditions, surface: 'wet' } })),
  };
}

/** Runs that end within a hair of each other, as many as asked for. */
function closeRuns(count: number): TestResult {
  const [first] = FIXTURE_PLAN.attempts;
  return testFixture({
    ...FIXTURE_PLAN,
    attempts: Array.from({ length: count }, (_, index) => ({
      ...FIXTURE_PLAN.attempts[index % FIXTURE_PLAN.attempts.length]!,
      setAside: index === 3 ? 'Front wheels spun on the painted line' : undefined,
      topKmh: 128,
      launch: { ...first!.launch, lagS: 8.8 + index * 0.002, onsetS: 0.3 },
    })).map(({ setAside, ...one }) => (setAside === undefined ? one : { ...one, setAside })),
  });
}

const LONG = 'Held on the brake at two thousand revolutions, then released all at once';

/** Long names of everything a person can name. */
function longNames(): { readonly test: TestResult; readonly house: House } {
  const house: House = {
    ...houseFixture(),
    name: 'The Hedgerow Motorist and Quarterly Gazette of the Lanes',
    launch_methods: houseFixture().launch_methods.map(one =>
      one.id === 'brake' ? { ...one, name: LONG } : one,
    ),
  };
  const test = testFixture({
    ...FIXTURE_PLAN,
    attempts: FIXTURE_PLAN.attempts.map(one =>
      one.launchId === 'brake' ? { ...one, launchName: LONG } : one,
    ),
  });
  return {
    house,
    test: {
      ...test,
      car: { ...test.car, name: 'Wendover Sorrel 52 Estate Long Wheelbase', short_name: 'Sorrel 52 Estate' },
      road: { ...test.road, name: 'The disused perimeter road of Upper Fixture airfield' },
    },
  };
}

/** A day of few hours with air that warms and wind that turns. */
function changingDay(): TestResult {
  const test = closeRuns(10);
  const at = (hour: number): string => `${String(hour).padStart(2, '0')}:00`;
  const conditions = [9, 10, 11, 12, 13].map((hour, index) => ({
    at: at(hour),
    temperature_c: 4.5 + index * 4.3,
    pressure_hpa: 1013.2 - index * 1.4,
    humidity_pct: 88 - index * 9,
    wind_mps: [0.4, 3.8, 2.2, 6.1, 1][index]!,
    wind_from_deg: 90 + index * 60,
    surface: index < 2 ? ('damp' as const) : ('dry' as const),
  }));
  return {
    ...test,
    id: 'changing-day',
    content: { ...test.content, conditions },
    attempts: test.attempts.map((attempt, index) => {
      const reading = conditions[Math.floor(index / 2)]!;
      return {
        ...attempt,
        at: `${String(9 + Math.floor(index / 2)).padStart(2, '0')}:${index % 2 === 0 ? '12' : '41'}:05`,
        conditions: {
          ...attempt.conditions,
          readAt: reading.at,
          temperatureK: reading.temperature_c + 273.15,
          headwindMps: [-3.2, 0.2, 5.4, -1][index % 4]!,
          surface: reading.surface,
        },
      };
    }),
  };
}

/** From the fixtures alone; `publication` adds the demo's tests. */
export function galleryCases(publication?: {
  readonly house: House;
  readonly tests: readonly TestResult[];
}): readonly GalleryCase[] {
  const house = houseFixture();
  const long = longNames();
  const [eight, ten] = [closeRuns(8), closeRuns(10)];
  const all = (test: TestResult): readonly string[] => test.attempts.map(({ id }) => id);
  return [
    {
      id: 'plain',
      describes: 'The fixture: ten attempts with three launch methods',
      house,
      test: testFixture(),
      others: [otherDay()],
    },
    {
      id: 'alone',
      describes: 'The fixture, with no other test beside it',
      house,
      test: testFixture(),
      others: [],
    },
    {
      id: 'eight',
      describes: 'Eight runs within a hair of each other',
      house,
      test: eight,
      others: [otherDay()],
      attempts: all(eight),
    },
    {
      id: 'ten',
      describes: 'Ten runs asked for: a panel each',
      house,
      test: ten,
      others: [otherDay()],
      attempts: all(ten),
    },
    { id: 'long-names', describes: 'Long names', ...long, others: [otherDay()] },
    {
      id: 'changing-day',
      describes: 'A day that warms from 4.5 to 21.7 °C',
      house,
      test: changingDay(),
      others: [otherDay()],
    },
    ...(publication?.tests ?? []).map(
      (test): GalleryCase => ({
        id: test.id,
        describes: `Demo: ${test.content.title}`,
        house: publication!.house,
        test,
        others: publication!.tests.filter(({ id }) => id !== test.id),
      }),
    ),
  ];
}

export const choiceOf = ({ house, attempts }: GalleryCase): FigureChoice => ({
  startRule: house.headline_start_rule,
  ...(attempts === undefined ? {} : { attempts }),
});

/** A case as it is made in another language; what people wrote stays as it is. */
export const inLanguage = (one: GalleryCase, language: string): GalleryCase => ({
  ...one,
  house: { ...one.house, language },
});
