/** Launch methods side by side: best, median, spread, and what the day can tell of their difference. */

import { FAIR_ATTEMPTS, FEW_ATTEMPTS } from '../result/fair-best.ts';
import { headlineMeasure } from '../result/headline.ts';
import { measureLabel } from '../result/measures.ts';
import { compareLaunchMethods, type Method, type MethodsCompared } from '../result/methods-compared.ts';
import {
  chanceInWords,
  comparisonNotes,
  pairInWords,
  pairsOfFirst,
  printPair,
  verdictInWords,
} from '../result/methods-words.ts';
import type { House, TestResult } from '../result/result.ts';
import { printedWords } from '../result/words/printed.ts';
import { printResult, startRuleInWords } from '../result/words.ts';
import { keptOf, NONE, workingsPaths } from './figures-of.ts';
import type { Table, TableCell } from './table.ts';
import { launchMethodsWords } from './words/launch-methods.ts';
import { tableWords } from './words/shared.ts';

/** One row a launch method, best median first, each against the first; the other pairs stand in the notes. */
export function launchMethodsTable(
  test: TestResult,
  house: House,
  startRule = house.headline_start_rule,
): Table {
  const measure = headlineMeasure(test, house);
  const compared =
    measure === undefined ? undefined : compareLaunchMethods(test, house, { measure, startRule });
  const words = launchMethodsWords(house);
  const heads = tableWords(house);
  const label = measure === undefined ? words.fromRest : measureLabel(measure, house);
  const rows = compared?.methods.map(method => rowOf(test, method, compared, house)) ?? [];
  return {
    id: 'launch-methods',
    caption: words.caption(label, startRuleInWords(startRule, house)),
    columns: [
      { label: heads.launchMethod, align: 'start' },
      { label: heads.keptAttempts, align: 'end' },
      { label: heads.best, align: 'end' },
      { label: words.expectedBest(FAIR_ATTEMPTS), align: 'end' },
      { label: heads.median, align: 'end' },
      { label: words.spread, align: 'end' },
      { label: words.behind, align: 'end' },
      { label: words.between, align: 'end' },
      { label: words.byChance, align: 'end' },
      { label: heads.verdict, align: 'start' },
    ],
    rows,
    notes: compared === undefined || rows.length === 0 ? [words.none] : notesOf(compared, house),
  };
}

function rowOf(
  test: TestResult,
  { name, figures: { best, median, ofThree, from, to, n, nSetAside }, ...method }: Method,
  compared: MethodsCompared,
  house: House,
): readonly TableCell[] {
  const { measure } = compared;
  // All printed to the places of the best, so that they can be read against each other.
  const print = (value: number): string => printResult({ ...best, value }, house).text;
  const [low, high] = [print(from), print(to)];
  const pair = pairsOfFirst(compared).find(({ behind }) => behind.id === method.id);
  const printed = pair && printPair(pair, measure, house.language);
  const chance = pair?.adjustedP ?? pair?.p;
  return [
    { text: name, header: true },
    { text: keptOf(n, nSetAside, house) },
    { text: print(best.value), workings: workingsPaths(test, best) },
    { text: ofThree === undefined ? NONE : print(ofThree) },
    n < 2 ? { text: NONE } : { text: print(median.value), workings: workingsPaths(test, median) },
    { text: n < 2 ? NONE : printedWords(house).range(low.split('\u00a0')[0]!, high) },
    { text: printed?.difference ?? NONE },
    {
      text:
        printed?.low === undefined ? NONE : launchMethodsWords(house).and(printed.low, printed.high ?? ''),
    },
    { text: chance === undefined ? NONE : chanceInWords(chance, house.language) },
    { text: pair === undefined ? NONE : verdictInWords(pair, house) },
  ];
}

function notesOf(compared: MethodsCompared, house: House): readonly string[] {
  const words = launchMethodsWords(house);
  const others = compared.pairs.filter(pair => !pairsOfFirst(compared).includes(pair));
  const few = compared.methods.filter(({ figures: { few, ofThree } }) => few && ofThree !== undefined);
  return [
    [words.expectedBestNote(FAIR_ATTEMPTS), ...(few.length === 0 ? [] : [words.fewNote(FEW_ATTEMPTS)])].join(
      ' ',
    ),
    ...comparisonNotes(compared, house.language),
    ...others.map(pair => pairInWords(pair, compared.measure, house)),
  ];
}
