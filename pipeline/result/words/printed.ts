/** What is said beside a printed number: start rule, count, launch method, what its uncertainty covers. */
import { catalogue, counted } from '../../language.ts';
import type { StartRule } from '../../run/run.ts';

export const printedWords = catalogue({
  en: {
    /** As a phrase of its own, under or beside a number. */
    startRule: {
      'first-movement': 'clock from first movement',
      'one-foot-rollout': 'clock after the one-foot rollout',
    } satisfies Record<StartRule, string>,
    /** After a time, or of the clock in a sentence. */
    startRuleBrief: {
      'first-movement': 'from first movement',
      'one-foot-rollout': 'after the one-foot rollout',
    } satisfies Record<StartRule, string>,
    /** Of a distance: where the tape begins. */
    tapeRule: {
      'first-movement': 'tape from first movement',
      'one-foot-rollout': 'tape after the one-foot rollout',
    } satisfies Record<StartRule, string>,
    oneAttempt: 'one attempt',
    bestOf: (n: number, median: string) => `best of ${n}, median ${median}`,
    medianOf: (n: number) => `median of ${n}`,
    oneOf: (n: number, median: string) => `one of ${n} attempts, median ${median}`,
    setAside: (n: number) => `${n} set aside`,
    launchMethod: (name: string) => `launch method: ${name}`,
    coverageOfOne: 'k = 2',
    coverageOfFew: 'about 95 %, scatter between so few attempts taken as normal',
    coverageOfMany: 'about 95 %, scatter between attempts included',
    noUncertainty: 'no uncertainty can be stated',
    attempt: (number: number) => `attempt ${number}`,
    attempts: (n: number) => `${n} ${counted(n, 'attempt', 'attempts')}`,
    keptAttempts: (n: number) => `${n} kept ${counted(n, 'attempt', 'attempts')}`,
    /** In the cell of a table. */
    notStated: 'not stated',
    range: (low: string, high: string) => `${low} to ${high}`,
  },
  de: {
    startRule: {
      'first-movement': 'gemessen ab der ersten Bewegung',
      'one-foot-rollout': 'gemessen nach einem Fuß Anrollweg',
    },
    startRuleBrief: {
      'first-movement': 'ab der ersten Bewegung',
      'one-foot-rollout': 'nach einem Fuß Anrollweg',
    },
    tapeRule: {
      'first-movement': 'gemessen ab der ersten Bewegung',
      'one-foot-rollout': 'gemessen nach einem Fuß Anrollweg',
    },
    oneAttempt: 'ein Versuch',
    bestOf: (n, median) => `bester von ${n} Versuchen, Median ${median}`,
    medianOf: n => `Median aus ${n} Versuchen`,
    oneOf: (n, median) => `einer von ${n} Versuchen, Median ${median}`,
    setAside: n => `${n} nicht gewertet`,
    launchMethod: name => `Startmethode: ${name}`,
    coverageOfOne: 'k = 2',
    coverageOfFew: 'rund 95 %, Streuung zwischen so wenigen Versuchen als normalverteilt angenommen',
    coverageOfMany: 'rund 95 %, Streuung zwischen den Versuchen eingeschlossen',
    noUncertainty: 'Unsicherheit nicht angebbar',
    attempt: number => `Versuch ${number}`,
    attempts: n => `${n} ${counted(n, 'Versuch', 'Versuche')}`,
    keptAttempts: n => `${n} ${counted(n, 'gewerteter Versuch', 'gewertete Versuche')}`,
    notStated: 'nicht angegeben',
    range: (low, high) => `${low} bis ${high}`,
  },
});
