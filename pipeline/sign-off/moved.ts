/** Numbers as they went out beside the numbers as they are: what moved, what drifted unseen, what came and went. */
import type { CorrectionContent, SignedNumber, SignedOff } from '../content/sign-off-schema.ts';
import { startRuleInWords } from '../result/words.ts';

export interface Moved {
  readonly key: string;
  readonly name: string;
  readonly was: string;
  /** Absent where the number is no longer published. */
  readonly now?: string;
}

export interface Compared {
  readonly moved: readonly Moved[];
  /** The print is the same, the unrounded value is not. */
  readonly drifted: readonly { readonly name: string; readonly was: number; readonly now: number }[];
  readonly added: readonly SignedNumber[];
}

/** Moved is what a reader could see: the printed text, the start rule, or of how many attempts it is. */
export function compareWithRecord(record: SignedOff, now: readonly SignedNumber[]): Compared {
  const byKey = new Map(now.map(number => [number.key, number]));
  const known = new Set(record.numbers.map(({ key }) => key));
  const moved: Moved[] = [];
  const drifted: Compared['drifted'][number][] = [];
  for (const was of record.numbers) {
    const is = byKey.get(was.key);
    const { key, name } = was;
    if (is === undefined) moved.push({ key, name, was: was.text });
    else if (was.text !== is.text || was.start_rule !== is.start_rule || was.n !== is.n) {
      const [before, after] = told(was, is);
      moved.push({ key, name, was: before, now: after });
    } else if (was.value !== undefined && is.value !== undefined && !isSameValue(was.value, is.value))
      drifted.push({ name, was: was.value, now: is.value });
  }
  return { moved, drifted, added: now.filter(({ key }) => !known.has(key)) };
}

/** Logs that are not the ones the numbers went out with; `now` is absent where one is gone. */
export function changedLogs(
  { logs = [] }: Pick<SignedOff, 'logs'>,
  now: Readonly<Record<string, string>>,
): readonly { readonly file: string; readonly was: string; readonly now?: string }[] {
  return logs
    .filter(({ file, sha256 }) => now[file] !== sha256)
    .map(({ file, sha256 }) => ({
      file,
      was: sha256,
      ...(now[file] === undefined ? {} : { now: now[file] }),
    }));
}

/** Rounding of the last binary digits, which differs from one machine to another, is no drift. */
const isSameValue = (a: number, b: number): boolean =>
  Math.abs(a - b) <= 1e-11 * Math.max(Math.abs(a), Math.abs(b));

/** Both texts, with the start rule and the count where they differ. */
function told(was: SignedNumber, is: SignedNumber): readonly [string, string] {
  const say = ({ text, start_rule, n }: SignedNumber): string =>
    [
      text,
      was.start_rule === is.start_rule || start_rule === undefined ? '' : startRuleInWords(start_rule, 'en'),
      was.n === is.n || n === undefined ? '' : `n = ${n}`,
    ]
      .filter(part => part !== '')
      .join(', ');
  return [say(was), say(is)];
}

/** Whether a key is what `part` names: the key itself or neighbouring segments of it. */
export const isNamedBy = (key: string, part: string): boolean => `/${key}/`.includes(`/${part}/`);

/** Corrections that had not gone out with the record, oldest first. */
export function freshCorrections(
  record: Pick<SignedOff, 'corrections'>,
  corrections: readonly CorrectionContent[],
): readonly CorrectionContent[] {
  return corrections.filter(
    correction => !record.corrections.some(gone => isSameCorrection(gone, correction)),
  );
}

export const isSameCorrection = (
  a: Pick<CorrectionContent, 'date' | 'what'>,
  b: Pick<CorrectionContent, 'date' | 'what'>,
): boolean => a.date === b.date && a.what === b.what;

/** The newest of these corrections that covers a number; undefined where none does. */
export const coveredBy = (
  key: string,
  corrections: readonly CorrectionContent[],
): CorrectionContent | undefined =>
  corrections.findLast(({ numbers }) => numbers === undefined || numbers.some(part => isNamedBy(key, part)));
