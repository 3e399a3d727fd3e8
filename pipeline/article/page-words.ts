/** Words that pages share: kinds of run, drives, cautions. */
import { catalogue, type Spoken } from '../language.ts';
import type { Problem } from '../problem.ts';
import type { Car, House } from '../result/result.ts';
import { capital } from '../result/words.ts';

export { cautionOf, STANDARD_CAUTION } from '../result/caution.ts';

import type { RunKind, StartRule } from '../run/run.ts';

const WORDS = catalogue({
  en: {
    drive: {
      electric: 'electric',
      petrol: 'petrol',
      'petrol-boosted': 'petrol, boosted',
      diesel: 'diesel',
      'diesel-boosted': 'diesel, boosted',
    } satisfies Record<Car['drive'], string>,
    wheels: {
      front: 'front wheels',
      rear: 'rear wheels',
      all: 'all wheels',
    } satisfies Record<Car['driven_wheels'], string>,
    kind: {
      'standing-start': 'standing start',
      rolling: 'rolling',
      braking: 'braking',
    } satisfies Record<RunKind, string>,
    startRule: {
      'first-movement': 'First movement',
      'one-foot-rollout': 'One-foot rollout',
    } satisfies Record<StartRule, string>,
    line: (line: number) => `, line ${line}`,
    tables: {
      spec: 'Car as tested',
      splits: 'From rest',
      moving: 'On the move and stopping',
      restated: 'On a level road in still reference air',
      'launch-methods': 'Launch methods',
      launches: 'Launches of the day',
      against: 'Beside other tests',
      conditions: 'Conditions',
      attempts: 'Every attempt',
      'road-plan': 'Road plan',
    },
  },
  de: {
    drive: {
      electric: 'elektrisch',
      petrol: 'Benzin',
      'petrol-boosted': 'Benzin, aufgeladen',
      diesel: 'Diesel',
      'diesel-boosted': 'Diesel, aufgeladen',
    },
    wheels: { front: 'Vorderräder', rear: 'Hinterräder', all: 'alle Räder' },
    kind: { 'standing-start': 'aus dem Stand', rolling: 'aus rollender Fahrt', braking: 'Bremsung' },
    startRule: { 'first-movement': 'Erste Bewegung', 'one-foot-rollout': 'Ein Fuß Anrollweg' },
    line: line => `, Zeile ${line}`,
    tables: {
      spec: 'Das Auto im Test',
      splits: 'Aus dem Stand',
      moving: 'Aus rollender Fahrt und beim Bremsen',
      restated: 'Auf ebener Strecke in ruhender Bezugsluft',
      'launch-methods': 'Startmethoden',
      launches: 'Starts des Tages',
      against: 'Neben anderen Tests',
      conditions: 'Bedingungen',
      attempts: 'Jeder Versuch',
      'road-plan': 'Streckenplan',
    },
  },
});

export const driveInWords = (drive: Car['drive'], spoken: Spoken): string => WORDS(spoken).drive[drive];

export const wheelsInWords = (wheels: Car['driven_wheels'], spoken: Spoken): string =>
  WORDS(spoken).wheels[wheels];

export const runKindInWords = (kind: RunKind, spoken: Spoken): string => WORDS(spoken).kind[kind];

/** The start rule that is not the house's. */
export const otherStartRule = (house: House): StartRule =>
  house.headline_start_rule === 'first-movement' ? 'one-foot-rollout' : 'first-movement';

/** Column heads for the two rules. */
export const startRuleHead = (rule: StartRule, spoken: Spoken): string => WORDS(spoken).startRule[rule];

/**
 * What a log or the notes left uncertain, for readers: what it is and where, without what the tester could mend. What
 * it is stays English, as every message to the tester does.
 */
export function uncertainInWords({ what, where }: Problem, spoken: Spoken): string {
  const sentence = `${capital(what)}.`;
  if (where === undefined) return sentence;
  const file = /(?:logs\/)?[^/]+$/.exec(where.file)?.[0] ?? where.file;
  return `${sentence} (${file}${where.line === undefined ? '' : WORDS(spoken).line(where.line)})`;
}

/** Heading of a table's part of a test page; a kind without one of its own is named by its word. */
export function tableTitle(kind: string, spoken: Spoken): string {
  const word = kind.replaceAll('-', ' ');
  const titles: Readonly<Record<string, string>> = WORDS(spoken).tables;
  return titles[kind] ?? capital(word);
}
