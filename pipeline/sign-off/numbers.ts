/** Every number a test publishes, by a key that stays the same from one version to the next. */
import { articleToHtml } from '../article/article.ts';
import { keyFigures } from '../article/key-figures.ts';
import type { PublishedNumber } from '../article/published-number.ts';
import { START_RULES } from '../content/schema.ts';
import type { SignedNumber } from '../content/sign-off-schema.ts';
import { FIGURES } from '../figure/figures.ts';
import { MEASURES, measureIds, measureLabel, measureRolling, measuresOf } from '../result/measures.ts';
import { resultOfOne } from '../result/one-attempt.ts';
import { pickResult } from '../result/pick.ts';
import type { Attempt, House, MeasureId, Publication, Result, TestResult } from '../result/result.ts';
import { type PrintedResult, printResult, startRuleInWords } from '../result/words.ts';
import type { StartRule } from '../run/run.ts';
import type { Table, TableCell } from '../table/table.ts';
import { TABLES, type TableKind } from '../table/tables.ts';

/**
 * Tables whose cells are keys of their own. `attempts` is left out because every figure of every attempt is a key
 * already; `against` because the other tests' numbers are signed off with them, and a new test adds to it.
 */
const LEFT_OUT: readonly TableKind[] = ['attempts', 'against'];

/** In the order of the page: key figures, the article, tables, attempts. Keys are unique. */
export function numbersOf(test: TestResult, publication: Publication): readonly SignedNumber[] {
  const { house } = publication;
  return withOwnKeys([
    ...keyNumbers(test, house),
    ...articleNumbers(test, publication),
    ...tableNumbers(test, house),
    ...test.attempts.flatMap(attempt => attemptNumbers(attempt, house)),
  ]);
}

const printedText = ({ text, uncertainty }: PrintedResult): string =>
  [text, uncertainty].filter(part => part !== undefined).join(' ');

const rulePath = (startRule: StartRule | undefined): readonly string[] =>
  startRule === undefined ? [] : [startRule];

function keyNumbers(test: TestResult, house: House): SignedNumber[] {
  return keyFigures(test, house).flatMap(({ measure }) => {
    const rules = MEASURES[measure].fromRest ? START_RULES : [undefined];
    return rules.flatMap(startRule =>
      (['best', 'median'] as const).flatMap((statistic): SignedNumber[] => {
        const result = pickResult(test, house, {
          measure,
          statistic,
          ...(startRule === undefined ? {} : { startRule }),
        });
        return result === undefined ? [] : [keyNumber(result, house)];
      }),
    );
  });
}

function keyNumber(result: Result, house: House): SignedNumber {
  const { measure, statistic, startRule, value, n } = result;
  const rule = startRule === undefined ? '' : `, ${startRuleInWords(startRule, house)}`;
  return {
    key: ['key-figures', measure, statistic, ...rulePath(startRule)].join('/'),
    name: `${measureLabel(measure, house)}, ${statistic}${rule}`,
    text: printedText(printResult(result, house)),
    value,
    ...(startRule === undefined ? {} : { start_rule: startRule }),
    n,
  };
}

function articleNumbers(test: TestResult, publication: Publication): SignedNumber[] {
  const { numbers } = articleToHtml({
    test,
    house: publication.house,
    publication,
    figureKinds: Object.keys(FIGURES),
    tableKinds: Object.keys(TABLES),
    // Numbers alone are asked for.
    figureHtml: () => '',
    tableHtml: () => '',
  });
  return numbers.map(articleNumber);
}

function articleNumber({ question, text, heading, results }: PublishedNumber): SignedNumber {
  const [directive = '', json = '{}'] = question.split(/ (.*)/s);
  const { of = '', ...rest } = JSON.parse(json) as Record<string, string>;
  const only = results.length === 1 ? results[0] : undefined;
  return {
    key: ['article', directive, of, ...Object.entries(rest).map(([key, value]) => `${key}=${value}`)]
      .map(segment)
      .join('/'),
    name: `${heading}, in the article`,
    text,
    ...(only === undefined ? {} : { value: only.value }),
    ...(only?.startRule === undefined ? {} : { start_rule: only.startRule }),
    ...(only === undefined ? {} : { n: only.n }),
  };
}

function attemptNumbers(attempt: Attempt, house: House): SignedNumber[] {
  return measuresOf(house).flatMap(measure => {
    const rules = MEASURES[measure].fromRest ? START_RULES : [undefined];
    return rules.flatMap((startRule): SignedNumber[] => {
      const measured = MEASURES[measure].valueOf(attempt.measurement, startRule);
      if (measured === undefined) return [];
      const printed = printResult(
        resultOfOne(measured, measure, startRule ?? house.headline_start_rule, attempt),
        house,
      );
      const rule = startRule === undefined ? '' : `, ${startRuleInWords(startRule, house)}`;
      return [
        {
          key: ['attempts', attempt.id, measure, ...rulePath(startRule)].join('/'),
          name: `${measureLabel(measure, house)}, attempt ${attempt.number}${rule}`,
          text: printedText(printed),
          value: measured.value,
          ...(startRule === undefined ? {} : { start_rule: startRule }),
        },
      ];
    });
  });
}

function tableNumbers(test: TestResult, house: House): SignedNumber[] {
  const segmentOf = rowSegments(house);
  return (Object.keys(TABLES) as TableKind[])
    .filter(kind => !LEFT_OUT.includes(kind))
    .flatMap(kind => cellNumbers(kind, TABLES[kind].make(test, house), segmentOf));
}

/** The cells of a table that hold a number, by the words of their row and the label of their column. */
function cellNumbers(kind: string, table: Table, segmentOf: (row: string) => string): SignedNumber[] {
  const alignOf = (cell: TableCell, column: number) => cell.align ?? table.columns[column]?.align;
  return table.rows.flatMap(row => {
    const before = row.findIndex((cell, column) => column > 0 && holdsNumber(cell, alignOf(cell, column)));
    const words = row.slice(0, Math.max(1, before)).map(({ text }) => text);
    return row.flatMap((cell, column): SignedNumber[] => {
      if (cell.header === true || column === 0 || !holdsNumber(cell, alignOf(cell, column))) return [];
      const label = table.columns[column]?.label ?? '';
      return [
        {
          key: ['tables', kind, ...words.map(segmentOf), label].map(segment).join('/'),
          name: `${words.join(', ')}: ${label.toLowerCase()}, in the table “${kind.replaceAll('-', ' ')}”`,
          text: cell.text,
        },
      ];
    });
  });
}

const holdsNumber = ({ text }: TableCell, align: 'start' | 'end' | undefined): boolean =>
  /\d/.test(text) && (align === 'end' || /^[±\u2212\d]/.test(text));

/** A row of a measure goes by the measure's word, as articles write it. */
function rowSegments(house: House): (text: string) => string {
  const ids = new Map<string, MeasureId>();
  for (const id of measureIds) {
    for (const name of [measureLabel(id, house), measureRolling(id, house)]) {
      if (!ids.has(name)) ids.set(name, id);
    }
  }
  return text => ids.get(text) ?? text;
}

/** Letters, digits and hyphens: a key needs no quotes in test.yaml, and blanks and slashes part it. */
const segment = (text: string): string =>
  text
    .trim()
    .toLowerCase()
    .replace(/[^\p{L}\p{N}=.#]+/gu, '-')
    .replace(/^-+|-+$/g, '') || 'none';

/** The second of two alike gets a number: a table may hold two rows of one name. */
function withOwnKeys(numbers: readonly SignedNumber[]): readonly SignedNumber[] {
  const seen = new Map<string, number>();
  return numbers.map(number => {
    const times = (seen.get(number.key) ?? 0) + 1;
    seen.set(number.key, times);
    return times === 1 ? number : { ...number, key: `${number.key}#${times}` };
  });
}
