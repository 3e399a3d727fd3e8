/** Tables of a test under a reader's own choices. */
import { keyFigures } from '../article/key-figures.ts';
import { MEASURES, measureIds, measureLabel } from '../result/measures.ts';
import { resultOfOne } from '../result/one-attempt.ts';
import { restatedFigure } from '../result/restated-figure.ts';
import type { MeasureId, Result, TestResult } from '../result/result.ts';
import { printResult, startRuleBrief, startRuleInWords } from '../result/words.ts';
import { workingsOfResult } from '../result/workings-address.ts';
import { START_RULES, type StartRule } from '../run/run.ts';
import { restatedTable } from '../table/restated.ts';
import type { Table, TableCell } from '../table/table.ts';
import { restatedWords } from '../table/words/restated.ts';
import type { OwnHouse } from './recompute.ts';
import { recomputeWords } from './words.ts';

const NONE = '–';

/** The key figures, with the restated figure of the best attempt beside its measured one where asked for. */
export function ownKeyFigures(test: TestResult, house: OwnHouse, restated: boolean): Table {
  const words = recomputeWords(house);
  const rows = keyFigures(test, house).map(({ label, best, median, results, n }): readonly TableCell[] => [
    { text: label, header: true },
    numberCell(test, results[0]!, best),
    ...(restated ? [{ text: restatedBest(test, house, results[0]!) }] : []),
    numberCell(test, results[1]!, median),
    { text: String(n) },
  ]);
  return {
    id: 'own-key-figures',
    caption: words.keyCaption(startRuleInWords(house.headline_start_rule, house)),
    columns: [
      { label: words.figure, align: 'start' },
      { label: words.best, align: 'end' },
      ...(restated ? [{ label: words.restated, align: 'end' as const }] : []),
      { label: words.median, align: 'end' },
      { label: words.n, align: 'end' },
    ],
    rows,
    notes: [],
  };
}

const numberCell = (
  test: TestResult,
  result: Result,
  { text, uncertainty }: { readonly text: string; readonly uncertainty?: string },
): TableCell => ({
  text: uncertainty === undefined ? text : `${text} ${uncertainty}`,
  workings: workingsOfResult(test.id, result).map(({ address }) => address),
});

function restatedBest(test: TestResult, house: OwnHouse, { measure, startRule, attemptIds }: Result): string {
  const attempt = test.attempts.find(({ id }) => id === attemptIds[0]);
  const found =
    attempt && restatedFigure(attempt, { measure, ...(startRule === undefined ? {} : { startRule }) });
  if (found === undefined) return NONE;
  const value = { value: found.timeS, uncertainty: found.uncertaintyS };
  const { text, uncertainty } = printResult(
    resultOfOne(value, measure, startRule ?? house.headline_start_rule),
    house,
  );
  return `${text} ${uncertainty ?? ''}`;
}

/** The table of restated starts; under choices other than the publication's its note does not call them published. */
export function ownRestatedTable(test: TestResult, house: OwnHouse, differs: boolean): Table {
  const table = restatedTable(test, house);
  const { measuredNote, ownNote } = restatedWords(house);
  return differs
    ? { ...table, notes: table.notes.map(note => (note === measuredNote ? ownNote : note)) }
    : table;
}

/** One figure of one attempt, unrounded. */
export interface UnroundedFigure {
  readonly attempt: string;
  readonly measure: MeasureId;
  readonly startRule?: StartRule;
  readonly value: number;
  readonly uncertainty?: number;
  readonly restated?: number;
  readonly restatedUncertainty?: number;
}

/** Every figure of every attempt, counted or not, measured and restated. */
export function unroundedFigures({ attempts }: Pick<TestResult, 'attempts'>): readonly UnroundedFigure[] {
  return attempts.flatMap(attempt =>
    measureIds.flatMap(measure => {
      const { fromRest, valueOf: figureOf } = MEASURES[measure];
      return (fromRest ? START_RULES : [undefined]).flatMap((startRule): UnroundedFigure[] => {
        const rule = startRule === undefined ? {} : { startRule };
        const figure = figureOf(attempt.measurement, startRule);
        if (figure === undefined) return [];
        const restated = restatedFigure(attempt, { measure, ...rule });
        return [
          {
            attempt: attempt.id,
            measure,
            ...rule,
            ...figure,
            ...(restated === undefined
              ? {}
              : { restated: restated.timeS, restatedUncertainty: restated.uncertaintyS }),
          },
        ];
      });
    }),
  );
}

/** The same as a table. Numbers have the point and all digits that are needed to read them back the same. */
export function unroundedTable(test: TestResult, house: OwnHouse): Table {
  const words = recomputeWords(house);
  const cell = (value: number | undefined): TableCell => ({
    text: value === undefined ? NONE : String(value),
  });
  return {
    id: 'unrounded',
    caption: words.allCaption,
    columns: [
      { label: words.attempt, align: 'start' },
      { label: words.figure, align: 'start' },
      { label: words.rule, align: 'start' },
      ...[words.value, words.uncertainty, words.restatedPlain, words.restatedUncertainty].map(label => ({
        label,
        align: 'end' as const,
      })),
      { label: words.unit, align: 'start' },
    ],
    rows: unroundedFigures(test).map(figure => [
      { text: figure.attempt, header: true },
      { text: measureLabel(figure.measure, house) },
      { text: figure.startRule === undefined ? NONE : startRuleBrief(figure.startRule, house) },
      cell(figure.value),
      cell(figure.uncertainty),
      cell(figure.restated),
      cell(figure.restatedUncertainty),
      { text: MEASURES[figure.measure].unit },
    ]),
    notes: [],
  };
}
