/** This test beside the others: medians, differences, what was alike and what was not, restated where it can be. */
import { measureLabel } from '../result/measures.ts';
import type { House, MeasureId, Result, TestResult } from '../result/result.ts';
import { compareTests, type TestsCompared, type TestsVerdict, testNames } from '../result/tests-compared.ts';
import { testsApart, testsVerdictInWords, unlikeInWords } from '../result/tests-words.ts';
import { printResult } from '../result/words.ts';
import { NONE } from './figures-of.ts';
import type { Table, TableCell } from './table.ts';

/** Figures that tests are told by; each only where both reached it. */
const MEASURES_TOLD: readonly MeasureId[] = [
  '0-50-kmh',
  '0-100-kmh',
  '0-160-kmh',
  '0-402-m',
  '80-120-kmh',
  'stop-from-100-kmh',
];
const CLOCK = { 'first-movement': 'first movement', 'one-foot-rollout': 'one-foot rollout' } as const;

/** Shorter than the names, which a row holds already. */
const AHEAD: Partial<Readonly<Record<TestsVerdict, string>>> = {
  first: 'this test is ahead',
  second: 'the other is ahead',
};

/** Rows by other test, then by figure and start rule. */
export function againstTable(test: TestResult, house: House, others: readonly TestResult[] = []): Table {
  const [own, ...names] = testNames([test, ...others], house);
  const compared = others.flatMap((other, index) => comparedWith(test, other, house, [own!, names[index]!]));
  const restated = compared.some(each => each.restated !== undefined);
  return {
    id: 'against',
    caption: `${test.car.name} beside other tests: medians of the kept attempts, with how many they are of`,
    columns: [
      { label: 'Other test', align: 'start' },
      { label: 'Figure', align: 'start' },
      { label: 'Clock from', align: 'start' },
      { label: 'This test', align: 'end' },
      { label: 'The other', align: 'end' },
      { label: 'Apart', align: 'end' },
      { label: 'Uncertainty', align: 'end' },
      ...(restated
        ? [
            { label: 'This, restated', align: 'end' as const },
            { label: 'The other, restated', align: 'end' as const },
          ]
        : []),
      { label: 'Verdict', align: 'start' },
    ],
    rows: compared.map(each => rowOf(each, house, restated)),
    notes: compared.length === 0 ? ['No other test reached the same figures.'] : notesOf(compared, restated),
  };
}

function comparedWith(
  test: TestResult,
  other: TestResult,
  house: House,
  names: readonly [string, string],
): readonly TestsCompared[] {
  const headline = house.headline_start_rule;
  const rules = [headline, headline === 'first-movement' ? 'one-foot-rollout' : 'first-movement'] as const;
  return MEASURES_TOLD.flatMap(measure =>
    rules
      .slice(0, measure === '0-100-kmh' ? 2 : 1)
      .flatMap(startRule => compareTests([test, other], house, { measure, startRule, names }) ?? []),
  );
}

function rowOf(compared: TestsCompared, house: House, restated: boolean): readonly TableCell[] {
  const { measure, startRule, launch, first, second } = compared;
  const apart = testsApart(compared, house.language);
  const print = (result: Result | undefined): string =>
    result === undefined ? NONE : printResult(result, house).text;
  return [
    { text: second.name, header: true },
    {
      text: `${measureLabel(measure, house)}${launch === undefined ? '' : `, ${launch.name.toLowerCase()}`}`,
    },
    { text: startRule === undefined ? NONE : CLOCK[startRule] },
    { text: `${print(first.figures.median)} (${first.figures.n})` },
    { text: `${print(second.figures.median)} (${second.figures.n})` },
    { text: apart.text },
    { text: apart.uncertainty ?? 'not stated' },
    ...(restated ? [{ text: print(first.restated) }, { text: print(second.restated) }] : []),
    { text: AHEAD[compared.verdict] ?? testsVerdictInWords(compared, house) },
  ];
}

function notesOf(compared: readonly TestsCompared[], restated: boolean): readonly string[] {
  const byTest = new Map(compared.map(each => [each.second.name, each]));
  return [
    'Uncertainty: expanded, about 95 %, of the difference, with the scatter between the attempts of both days. Ranked only where the difference exceeds it and nothing that matters stood against it.',
    'Where both tests tried a launch method twice or more, its attempts alone count; otherwise all do.',
    ...(restated
      ? [
          'Restated: the same runs worked out for a level road in still reference air, never instead of the measured ones.',
        ]
      : []),
    ...[...byTest].flatMap(([name, each]) => {
      const unlike = unlikeInWords(each);
      return unlike.length === 0 ? [] : [`${name}. ${unlike.join(' ')}`];
    }),
  ];
}
