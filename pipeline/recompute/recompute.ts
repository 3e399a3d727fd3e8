/** A test worked out anew from its published readings, by the functions that made the page. */

import { measureRun } from '../measurement/measure.ts';
import { restateAttempt } from '../result/restate-attempt.ts';
import type { Attempt, Car, House, Road, TestResult } from '../result/result.ts';
import type { SpeedUnit } from '../result/words.ts';
import type { StartRule } from '../run/run.ts';
import { speedUnitOf } from '../speed-unit.ts';
import { type PublishedTest, readTrace } from './published.ts';

/** What a reader may choose otherwise than the publication does. */
export interface OwnChoices {
  readonly startRule: StartRule;
  readonly speedUnit: SpeedUnit;
  /** Whether restated figures stand beside the measured ones. */
  readonly restated: boolean;
  /** Attempts that count. */
  readonly counted: ReadonlySet<string>;
}

/** The reader's house: that of the publication with the reader's start rule and unit. */
export type OwnHouse = House & { readonly speedUnit: SpeedUnit };

/** Measures every attempt, and restates those from rest. */
export function recomputeTest(published: PublishedTest): TestResult {
  const { id, receiverMps, asTested, house } = published;
  // Only what measuring, restating and the tables below read; a page of articles needs more.
  const content = { as_tested: asTested } as TestResult['content'];
  const car = published.car as Car;
  const road = published.road as Road;
  const attempts = published.attempts.map((one): Attempt => {
    const { run, trace: readings, ...facts } = one;
    const trace = readTrace(readings);
    const launchName = house.launch_methods.find(method => method.id === one.launchId)?.name;
    const measured = {
      ...facts,
      ...(launchName === undefined ? {} : { launchName }),
      log: readings.file,
      trace,
      measurement: measureRun(trace, run, { receiverMps }),
    };
    const restated = restateAttempt(measured, content, car, road, published.fromLogs);
    return restated === undefined ? measured : { ...measured, restated };
  });
  return {
    id,
    content,
    car,
    road,
    ...(published.fromLogs === undefined ? {} : { fromLogs: published.fromLogs }),
    attempts,
    articleMarkdown: '',
    articleFile: '',
    logSha256: {},
    warnings: [],
  };
}

/** The publication's own choices. */
export function publishedChoices({ house, attempts }: PublishedTest): OwnChoices {
  return {
    startRule: house.headline_start_rule,
    speedUnit: speedUnitOf(house),
    restated: false,
    counted: new Set(attempts.filter(({ setAside }) => setAside === undefined).map(({ id }) => id)),
  };
}

/** Whether numbers can differ from those of the publication: units and what stands beside do not make them so. */
export function differs(own: OwnChoices, published: OwnChoices): boolean {
  const otherCount = own.counted.size !== published.counted.size;
  return (
    own.startRule !== published.startRule ||
    otherCount ||
    [...own.counted].some(id => !published.counted.has(id))
  );
}

/** The test and the house as the reader would have them. */
export function withChoices(
  test: TestResult,
  house: PublishedTest['house'],
  choices: OwnChoices,
): { readonly test: TestResult; readonly house: OwnHouse } {
  const attempts = test.attempts.map((attempt): Attempt => {
    const { setAside, ...rest } = attempt;
    return choices.counted.has(attempt.id) ? rest : { ...rest, setAside: setAside ?? '–' };
  });
  return {
    test: { ...test, attempts },
    house: {
      ...house,
      headline_start_rule: choices.startRule,
      speedUnit: choices.speedUnit,
    } as OwnHouse,
  };
}
