/** Words that pages share: kinds of run, drives, cautions. */
import type { Problem } from '../problem.ts';
import type { Car, House } from '../result/result.ts';
import { capital } from '../result/words.ts';

export { cautionOf, STANDARD_CAUTION } from '../result/caution.ts';

import type { RunKind, StartRule } from '../run/run.ts';

const DRIVE_WORDS: Readonly<Record<Car['drive'], string>> = {
  electric: 'electric',
  petrol: 'petrol',
  'petrol-boosted': 'petrol, boosted',
  diesel: 'diesel',
  'diesel-boosted': 'diesel, boosted',
};

export const driveInWords = (drive: Car['drive']): string => DRIVE_WORDS[drive];

const KIND_WORDS: Readonly<Record<RunKind, string>> = {
  'standing-start': 'standing start',
  rolling: 'rolling',
  braking: 'braking',
};

export const runKindInWords = (kind: RunKind): string => KIND_WORDS[kind];

/** The start rule that is not the house's. */
export const otherStartRule = (house: House): StartRule =>
  house.headline_start_rule === 'first-movement' ? 'one-foot-rollout' : 'first-movement';

/** Column heads for the two rules. */
export const startRuleHead = (rule: StartRule): string =>
  rule === 'first-movement' ? 'First movement' : 'One-foot rollout';

/** What a log or the notes left uncertain, for readers: what it is and where, without what the tester could mend. */
export function uncertainInWords({ what, where }: Problem): string {
  const sentence = `${capital(what)}.`;
  if (where === undefined) return sentence;
  const file = /(?:logs\/)?[^/]+$/.exec(where.file)?.[0] ?? where.file;
  return `${sentence} (${file}${where.line === undefined ? '' : `, line ${where.line}`})`;
}

const TABLE_TITLES: Readonly<Record<string, string>> = {
  spec: 'Car as tested',
  splits: 'From rest',
  moving: 'On the move and stopping',
  restated: 'On a level road in still reference air',
  'launch-methods': 'Launch methods',
  launches: 'Launches of the day',
  against: 'Beside other tests',
  conditions: 'Conditions',
  attempts: 'Every attempt',
};

/** Heading of a table's part of a test page; a kind without one of its own is named by its word. */
export function tableTitle(kind: string): string {
  const word = kind.replaceAll('-', ' ');
  return TABLE_TITLES[kind] ?? capital(word);
}
