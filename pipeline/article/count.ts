/** `:count{of=attempts|kept|set-aside launch=… direction=… test=…}` */
import { catalogue, counted } from '../language.ts';
import { reasonInWords } from '../result/words/set-aside.ts';
import { localiseDigits } from '../result/words.ts';
import { AskedWords, directionsOf } from './asked-words.ts';
import { amongInWords, filterOf } from './number.ts';
import type { Answer, Asked } from './published-number.ts';

const COUNTED = ['attempts', 'kept', 'set-aside'] as const;

const WORDS = catalogue({
  en: {
    heading: { attempts: 'Attempts', kept: 'Attempts kept', 'set-aside': 'Attempts set aside' },
    told: {
      attempts: (all: number, kept: number, aside: number, among: string) =>
        `${all} ${among === '' ? 'in the whole day' : among}, of every kind of run: ${kept} kept, ${aside} set aside.`,
      kept: (all: number, kept: number, aside: number, among: string) =>
        `${kept} of ${all} ${counted(all, 'attempt', 'attempts')} ${among === '' ? 'in the whole day' : among}, of every kind of run; ${aside} set aside.`,
      'set-aside': (all: number, kept: number, aside: number, among: string) =>
        `${aside} of ${all} ${counted(all, 'attempt', 'attempts')} ${among === '' ? 'in the whole day' : among}, of every kind of run; ${kept} kept.`,
    },
    attempt: (number: number, reason: string) => `Attempt ${number}: ${reason}.`,
  },
  de: {
    heading: { attempts: 'Versuche', kept: 'Gewertete Versuche', 'set-aside': 'Nicht gewertete Versuche' },
    told: {
      attempts: (all, kept, aside, among) =>
        `${all} ${among === '' ? 'am ganzen Tag' : among}, von jeder Art Fahrt: ${kept} gewertet, ${aside} nicht.`,
      kept: (all, kept, aside, among) =>
        `${kept} von ${all} ${counted(all, 'Versuch', 'Versuchen')} ${among === '' ? 'am ganzen Tag' : among}, von jeder Art Fahrt; ${aside} nicht gewertet.`,
      'set-aside': (all, kept, aside, among) =>
        `${aside} von ${all} ${counted(all, 'Versuch', 'Versuchen')} ${among === '' ? 'am ganzen Tag' : among}, von jeder Art Fahrt; ${kept} gewertet.`,
    },
    attempt: (number, reason) => `Versuch ${number}: ${reason}.`,
  },
});

export function findCount(asked: Asked): Answer {
  const words = new AskedWords(asked);
  words.allow(['of', 'launch', 'direction', 'test']);
  const of = words.must('of', 'thing that is counted', COUNTED, ':count{of=kept}');
  const test = words.test();
  const launch = words.one('launch', 'launch method', words.launches());
  const direction = words.one('direction', 'direction of this road', directionsOf(test));
  if (of === undefined || words.problems.length > 0) return { problems: words.problems };
  const among = test.attempts.filter(
    attempt =>
      (launch === undefined || attempt.launchId === launch) &&
      (direction === undefined || attempt.directionId === direction),
  );
  const aside = among.filter(attempt => attempt.setAside !== undefined);
  const said = WORDS(asked.house);
  const count = { attempts: among.length, kept: among.length - aside.length, 'set-aside': aside.length }[of];
  const narrowed = amongInWords(filterOf(launch, direction), test, asked.house);
  return {
    text: localiseDigits(String(count), asked.house.language),
    heading: said.heading[of],
    told: [
      said.told[of](among.length, among.length - aside.length, aside.length, narrowed),
      ...aside.map(({ number, setAside }) => said.attempt(number, reasonInWords(setAside!, asked.house))),
    ],
    results: [],
    workings: [],
    rule: 'kept',
  };
}
