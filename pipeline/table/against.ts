/** This test beside the others: medians, differences, what was alike and what was not, restated where it can be. */

import type { Spoken } from '../language.ts';
import { measuresTold, timesFromRest } from '../result/measures.ts';
import type { House, Result, TestResult } from '../result/result.ts';
import {
  compareTests,
  type TestSide,
  type TestsCompared,
  type TestsVerdict,
  testNames,
} from '../result/tests-compared.ts';
import { figureInWords, testsApart, testsVerdictInWords, unlikeInWords } from '../result/tests-words.ts';
import { printedWords } from '../result/words/printed.ts';
import { printResult } from '../result/words.ts';
import { NONE, workingsPaths } from './figures-of.ts';
import type { Table, TableCell } from './table.ts';
import { againstWords } from './words/against.ts';
import { tableWords } from './words/shared.ts';

/** Shorter than the names, which a row holds already. */
const aheadIn = (verdict: TestsVerdict, spoken: Spoken): string | undefined => {
  const { thisAhead, otherAhead } = againstWords(spoken);
  return verdict === 'first' ? thisAhead : verdict === 'second' ? otherAhead : undefined;
};

/** Rows by other test, then by figure and start rule. */
export function againstTable(test: TestResult, house: House, others: readonly TestResult[] = []): Table {
  const [own, ...names] = testNames([test, ...others], house);
  const compared = others.flatMap((other, index) => comparedWith(test, other, house, [own!, names[index]!]));
  const restated = compared.some(each => each.restated !== undefined);
  const words = againstWords(house);
  const heads = tableWords(house);
  return {
    id: 'against',
    caption: words.caption(test.car.name),
    columns: [
      { label: words.otherTest, align: 'start' },
      { label: heads.figure, align: 'start' },
      { label: words.clockFrom, align: 'start' },
      { label: words.thisTest, align: 'end' },
      { label: words.theOther, align: 'end' },
      { label: words.apart, align: 'end' },
      { label: heads.uncertainty, align: 'end' },
      ...(restated
        ? [
            { label: words.thisRestated, align: 'end' as const },
            { label: words.otherRestated, align: 'end' as const },
          ]
        : []),
      { label: heads.verdict, align: 'start' },
    ],
    rows: compared.map(each => rowOf(each, house, restated)),
    notes: compared.length === 0 ? [words.none] : notesOf(compared, restated, house),
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
  // Each only where both reached it.
  return measuresTold(house).flatMap(measure =>
    rules
      .slice(0, measure === timesFromRest(house)[0] ? 2 : 1)
      .flatMap(startRule => compareTests([test, other], house, { measure, startRule, names }) ?? []),
  );
}

function rowOf(compared: TestsCompared, house: House, restated: boolean): readonly TableCell[] {
  const { startRule, first, second } = compared;
  const apart = testsApart(compared, house);
  const print = (result: Result | undefined): string =>
    result === undefined ? NONE : printResult(result, house).text;
  const medianOf = ({ test, figures: { median, n } }: TestSide): TableCell => ({
    text: `${print(median)} (${n})`,
    workings: workingsPaths(test, median),
  });
  return [
    { text: second.name, header: true },
    { text: figureInWords(compared, house) },
    { text: startRule === undefined ? NONE : tableWords(house).clock[startRule] },
    medianOf(first),
    medianOf(second),
    { text: apart.text },
    { text: apart.uncertainty ?? printedWords(house).notStated },
    ...(restated ? [{ text: print(first.restated) }, { text: print(second.restated) }] : []),
    { text: aheadIn(compared.verdict, house) ?? testsVerdictInWords(compared, house) },
  ];
}

function notesOf(compared: readonly TestsCompared[], restated: boolean, house: House): readonly string[] {
  const words = againstWords(house);
  const byTest = new Map(compared.map(each => [each.second.name, each]));
  return [
    words.uncertaintyNote,
    words.launchNote,
    ...(restated ? [words.restatedNote] : []),
    ...[...byTest].flatMap(([name, each]) => {
      const unlike = unlikeInWords(each);
      return unlike.length === 0 ? [] : [`${name}. ${unlike.join(' ')}`];
    }),
  ];
}
