/** Under which rules the numbers of a test went out, and what would be printed otherwise under today's. */
import { catalogue, counted } from '../language.ts';
import type { House, Publication, TestResult } from '../result/result.ts';
import { dateInWords } from '../result/words.ts';
import { compareWithRecord } from './moved.ts';
import { numbersOf } from './numbers.ts';

export interface RulesThen {
  /** Year-month-day. */
  readonly signedOff: string;
  /** Version of the program that worked them out, and the one that does today. */
  readonly program: string;
  readonly today: string;
  readonly numbers: number;
  /** Printed otherwise today; `now` is absent where a number is no longer published. */
  readonly moved: readonly { readonly name: string; readonly was: string; readonly now?: string }[];
  /** Printed the same, but not the same in digits that are not printed. */
  readonly drifted: number;
  readonly added: number;
}

/**
 * Absent where nothing went out. Both are of the main language, in which numbers are recorded.
 * @param today version of the program that makes the page
 */
export function rulesThen(test: TestResult, publication: Publication, today: string): RulesThen | undefined {
  const record = test.signedOff?.record;
  if (record === undefined) return undefined;
  const { moved, drifted, added } = compareWithRecord(record, [...numbersOf(test, publication)]);
  return {
    signedOff: record.signed_off,
    program: record.program,
    today,
    numbers: record.numbers.length,
    moved: moved.map(({ name, was, now }) => ({ name, was, ...(now === undefined ? {} : { now }) })),
    drifted: drifted.length,
    added: added.length,
  };
}

const WORDS = catalogue({
  en: {
    under: (version: string, date: string) =>
      `The numbers of this test were measured under the rules of version ${version} and signed off on ${date}.`,
    todaysRules: 'Those are the rules of today.',
    same: (today: string, n: number) =>
      `Measured again under the rules of today, version ${today}, ${n === 1 ? 'the one number comes' : `all ${n} numbers come`} out as printed.`,
    otherwise: (today: string, moved: number, n: number) =>
      `Measured again under the rules of today, version ${today}, ${moved} of ${n} numbers ${counted(moved, 'is', 'are')} printed otherwise than they went out; the corrections above say why.`,
    drifted: (n: number) => `${n} ${counted(n, 'differs', 'differ')} only in digits that are not printed.`,
    added: (n: number) => `${n} ${counted(n, 'is', 'are')} new since.`,
    gone: 'no longer published',
    line: (name: string, was: string, now: string) => `${name}: ${now} (before: ${was})`,
  },
  de: {
    under: (version, date) =>
      `Die Zahlen dieses Tests wurden nach den Regeln der Version ${version} gemessen und am ${date} freigegeben.`,
    todaysRules: 'Das sind die heutigen Regeln.',
    same: (today, n) =>
      `Nach den heutigen Regeln, Version ${today}, neu gemessen, ${n === 1 ? 'kommt die eine Zahl' : `kommen alle ${n} Zahlen`} so heraus wie gedruckt.`,
    otherwise: (today, moved, n) =>
      `Nach den heutigen Regeln, Version ${today}, neu gemessen, ${counted(moved, 'wird', 'werden')} ${moved} von ${n} Zahlen anders gedruckt, als sie hinausgegangen sind; die Korrekturen oben sagen, warum.`,
    drifted: n => `${n} ${counted(n, 'weicht', 'weichen')} nur in Stellen ab, die nicht gedruckt werden.`,
    added: n => `${n} ${counted(n, 'ist', 'sind')} seitdem hinzugekommen.`,
    gone: 'nicht mehr veröffentlicht',
    line: (name, was, now) => `${name}: ${now} (vorher: ${was})`,
  },
});

/** Whole sentences, then each number that is printed otherwise. */
export function rulesThenInWords(
  { signedOff, program, today, numbers, moved, drifted, added }: RulesThen,
  house: House,
): { readonly sentences: readonly string[]; readonly moved: readonly string[] } {
  const words = WORDS(house);
  const result =
    moved.length === 0 ? words.same(today, numbers) : words.otherwise(today, moved.length, numbers);
  return {
    sentences: [
      words.under(program, dateInWords(signedOff, house.language)),
      program === today && moved.length === 0 ? words.todaysRules : result,
      ...(drifted === 0 ? [] : [words.drifted(drifted)]),
      ...(added === 0 ? [] : [words.added(added)]),
    ],
    moved: moved.map(({ name, was, now }) => words.line(name, was, now ?? words.gone)),
  };
}
