/** All tests as rows of one table, each with what it can be found, sorted and chosen by. */
import { rollingTimes, stopsFrom, timesFromRest } from '../result/measures.ts';
import { pickResult } from '../result/pick.ts';
import type { House, MeasureId, TestResult } from '../result/result.ts';
import { printResult } from '../result/words.ts';
import { conditionSpan } from './condition-span.ts';

/** Figures with a column of their own, medians of the kept attempts. */
export const tableMeasures = (house: House): readonly MeasureId[] =>
  [timesFromRest(house), rollingTimes(house), stopsFrom(house)].flatMap(kind => kind.slice(0, 1));

export interface RowFigure {
  /** `8.41 s`; absent where no kept attempt reached it. */
  readonly text?: string;
  readonly uncertainty?: string;
  readonly n?: number;
  /** SI, to sort by. */
  readonly value?: number;
}

export interface TestRow {
  readonly id: string;
  readonly title: string;
  readonly date: string;
  readonly car: string;
  readonly kind: string;
  readonly drive: TestResult['car']['drive'];
  /** Every state of the road during the kept attempts, `dry`, `damp`, `wet`. */
  readonly surfaces: readonly string[];
  /** The same in words; absent where nobody noted it. */
  readonly surface?: string;
  readonly figures: readonly RowFigure[];
}

export function testRow(test: TestResult, house: House): TestRow {
  const kept = test.attempts.filter(({ setAside }) => setAside === undefined);
  const surface = conditionSpan(kept, 'surface', house.language);
  return {
    id: test.id,
    title: test.content.title,
    date: test.content.date,
    car: test.car.name,
    kind: test.car.kind,
    drive: test.car.drive,
    surfaces: [...new Set(kept.flatMap(({ conditions }) => conditions.surface ?? []))],
    ...(surface === undefined ? {} : { surface }),
    figures: tableMeasures(house).map(measure => figureOf(test, house, measure)),
  };
}

function figureOf(test: TestResult, house: House, measure: MeasureId): RowFigure {
  const result = pickResult(test, house, { measure, statistic: 'median' });
  if (result === undefined) return {};
  const { text, uncertainty } = printResult(result, house);
  return {
    text,
    ...(uncertainty === undefined ? {} : { uncertainty }),
    n: result.n,
    value: result.value,
  };
}
