import { beforeAll, describe, expect, it } from 'vitest';
import { compareThreshold, thresholdTable } from '../../pipeline/article/threshold-table.ts';
import { type WorkedExample, workedExample } from '../../pipeline/article/worked-example.ts';
import { exampleBlocks } from '../../pipeline/article/worked-example-page.ts';
import { pickResult } from '../../pipeline/result/pick.ts';
import type { Publication } from '../../pipeline/result/result.ts';
import { printResult } from '../../pipeline/result/words.ts';
import type { Table } from '../../pipeline/table/table.ts';
import { kmhToMps, ROLLOUT_M } from '../../pipeline/units.ts';
import { demoPublication } from '../demo.ts';
import { FIXTURE_PLAN, houseFixture, testFixture, timeToDistance, timeToSpeed } from '../result/fixture.ts';

let publication: Publication;
let example: WorkedExample;
beforeAll(async () => {
  publication = await demoPublication();
  example = workedExample(publication)!;
});

const number = (text: string): number => Number(text.replace('\u2212', '-'));
const tableNamed = (id: string): Table =>
  exampleBlocks(example, publication.house).find(
    (block): block is Table => typeof block !== 'string' && block.id === id,
  )!;
const columns = (id: string): number[][] =>
  tableNamed(id).rows.map(row => row.map(({ text }) => number(text)));
/** Every number of the paragraph that begins with a word. */
const numbersOf = (begin: string): number[] => {
  const paragraph = exampleBlocks(example, publication.house).find(
    block => typeof block === 'string' && block.startsWith(begin),
  ) as string;
  return [...paragraph.matchAll(/\d+(?:\.\d+)?/g)].map(([digits]) => Number(digits));
};

describe('the worked example of the demo', () => {
  it('is the best start of its test, and ends in the digits that the test publishes', () => {
    const { test, measure, attempt } = example;
    const best = pickResult(test, publication.house, { measure, startRule: 'first-movement' })!;
    expect(best.attemptIds).toEqual([attempt.id]);
    expect(example.result.value).toBe(best.value);
    const printed = printResult(best, publication.house);
    const last = exampleBlocks(example, publication.house).at(-1) as string;
    expect(last).toContain(`${printed.text} ${printed.uncertainty}`);
  });

  it('shows readings as the log has them', () => {
    const { timeS, speedMps } = example.attempt.trace;
    for (const reading of [...example.start, ...example.crossing]) {
      const index = timeS.indexOf(reading.timeS);
      expect(index).toBeGreaterThanOrEqual(0);
      expect(speedMps[index]).toBe(reading.speedMps);
    }
    expect(example.start[0]!.timeS).toBeLessThan(example.published.firstMovementS);
    expect(example.start.at(-1)!.distanceM).toBeGreaterThan(ROLLOUT_M);
    expect(example.start.at(-2)!.distanceM).toBeLessThan(ROLLOUT_M);
    const [, below, above] = example.crossing;
    expect(below!.speedMps).toBeLessThan(example.toMps);
    expect(above!.speedMps).toBeGreaterThanOrEqual(example.toMps);
  });

  // From here on nothing but printed digits is used, as a reader with a calculator would.
  it('can be followed from printed digits: the foot', () => {
    const rows = columns('example-start');
    const [firstMovement] = numbersOf('First movement').slice(-2);
    let distance = 0;
    let [beforeS, before] = [firstMovement!, 0];
    for (const [timeS, kmh, printed] of rows as [number, number, number][]) {
      if (timeS > beforeS) {
        distance += ((before + kmh / 3.6) / 2) * (timeS - beforeS);
        [beforeS, before] = [timeS, kmh / 3.6];
      }
      expect(distance).toBeCloseTo(printed, 3);
    }
    const [a, b] = rows.slice(-2) as [number, number, number][];
    const crossing = a![0] + ((ROLLOUT_M - a![2]) / (b![2] - a![2])) * (b![0] - a![0]);
    expect(numbersOf('One foot')[1]).toBeCloseTo(crossing, 2);
  });

  it('can be followed from printed digits: the speed', () => {
    const [, a, b] = columns('example-crossing') as [number, number][];
    const crossing = a![0] + ((example.toMps * 3.6 - a![1]) / (b![1] - a![1])) * (b![0] - a![0]);
    expect(example.straight.crossingS).toBeCloseTo(crossing, 2);
  });

  it('can be followed from printed digits: the subtraction', () => {
    const [crossing, movement, time, crossingAgain, foot, timeAfterFoot] = numbersOf('Subtraction');
    expect(crossing! - movement!).toBeCloseTo(time!, 2);
    expect(crossingAgain! - foot!).toBeCloseTo(timeAfterFoot!, 2);
    expect(time).toBeCloseTo(example.fromMovement.timeS, 3);
    expect(timeAfterFoot).toBeCloseTo(example.fromRolloutS, 3);
  });

  it('can be followed from printed digits: the budget', () => {
    const rows = tableNamed('example-budget').rows;
    const items = rows.slice(0, -3);
    expect(items.length).toBeGreaterThan(1);
    for (const [, standard, square] of items) {
      expect(number(standard!.text) ** 2).toBeCloseTo(number(square!.text), 5);
    }
    const sum = items.reduce((total, [, , square]) => total + number(square!.text), 0);
    expect(sum).toBeCloseTo(number(rows.at(-3)![2]!.text), 6);
    expect(Math.sqrt(sum)).toBeCloseTo(number(rows.at(-2)![1]!.text), 4);
    expect(2 * number(rows.at(-2)![1]!.text)).toBeCloseTo(number(rows.at(-1)![1]!.text), 4);
    expect(number(rows.at(-1)![1]!.text)).toBeCloseTo(example.fromMovement.uncertaintyS, 5);
  });

  it('by straight lines stays near the fits: within an interval of readings', () => {
    const interval = 1 / example.attempt.trace.rateHz;
    const { straight, published } = example;
    expect(Math.abs(straight.crossingS - published.crossingS)).toBeLessThan(interval);
    expect(Math.abs(straight.oneFootS - published.oneFootS)).toBeLessThan(interval);
  });

  it('is absent where nobody started from rest', () => {
    const tests = publication.tests.map(test => ({ ...test, attempts: [] }));
    expect(workedExample({ ...publication, tests })).toBeUndefined();
    expect(workedExample({ ...publication, tests: [] })).toBeUndefined();
  });
});

describe('the straight-line foot of a closed-form start', () => {
  it('comes within a hundredth of a second of the true one', () => {
    const house = houseFixture();
    const day = testFixture();
    const tests = [
      {
        ...day,
        attempts: day.attempts.map(attempt => ({
          ...attempt,
          measurement: {
            ...attempt.measurement,
            // The fixture's clock starts at 0; its trace does not.
            start: {
              ...attempt.measurement.start!,
              firstMovementS: movesAt(attempt.number, attempt.measurement.run.beginIndex),
            },
            speedSplits: attempt.measurement.speedSplits.map(split => ({
              ...split,
              budget: [{ source: 'start' as const, standard: 0.01 }],
            })),
          },
        })),
      },
    ];
    const found = workedExample({ ...publication, house, tests })!;
    const { launch } = FIXTURE_PLAN.attempts[found.attempt.number - 1]!;
    const truth = found.published.firstMovementS + timeToDistance(launch, ROLLOUT_M);
    expect(Math.abs(found.straight.oneFootS - truth)).toBeLessThan(0.01);
    expect(found.toMps).toBeCloseTo(kmhToMps(100), 12);
  });

  /** When the fixture's car leaves rest: a reading's time less the closed-form time to its speed. */
  const movesAt = (number: number, beginIndex: number): number => {
    const { trace } = testFixture().attempts[0]!;
    const moving = trace.speedMps.findIndex((speed, i) => i > beginIndex && speed > 5);
    const { launch } = FIXTURE_PLAN.attempts[number - 1]!;
    return trace.timeS[moving]! - timeToSpeed(launch, trace.speedMps[moving]!);
  };
});

describe('the table of the threshold', () => {
  it('has a row a test, with the medians that the test publishes', () => {
    const { rows } = thresholdTable(publication);
    expect(rows).toHaveLength(publication.tests.length);
    for (const [index, test] of publication.tests.entries()) {
      const compared = compareThreshold(test, publication.house)!;
      for (const [column, startRule] of [
        [2, 'first-movement'],
        [3, 'one-foot-rollout'],
      ] as const) {
        const { measure } = compared;
        const median = pickResult(test, publication.house, { measure, startRule, statistic: 'median' })!;
        expect(rows[index]?.[column]?.text).toBe(printResult(median, publication.house).text);
      }
      expect(compared.meanDifferenceS).toBeLessThan(0);
      expect(rows[index]?.[5]?.text).toMatch(/^−0\.\d\d\u00a0s$/);
    }
  });

  it('leaves out a test without a start from rest', () => {
    const tests = publication.tests.map(test => ({ ...test, attempts: [] }));
    expect(thresholdTable({ ...publication, tests }).rows).toEqual([]);
  });
});
