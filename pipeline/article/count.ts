/** `:count{of=attempts|kept|set-aside launch=… direction=… test=…}` */
import { localiseDigits } from '../result/words.ts';
import { AskedWords, directionsOf } from './asked-words.ts';
import { amongInWords, filterOf } from './number.ts';
import type { Answer, Asked } from './published-number.ts';

const COUNTED = ['attempts', 'kept', 'set-aside'] as const;

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
  const all = `${among.length} ${among.length === 1 ? 'attempt' : 'attempts'}`;
  const keptText = `${among.length - aside.length} kept`;
  const asideText = `${aside.length} set aside`;
  const toldOf = {
    attempts: (where: string) => `${among.length} ${where}, of every kind of run: ${keptText}, ${asideText}.`,
    kept: (where: string) =>
      `${among.length - aside.length} of ${all} ${where}, of every kind of run; ${asideText}.`,
    'set-aside': (where: string) => `${aside.length} of ${all} ${where}, of every kind of run; ${keptText}.`,
  };
  const counted = { attempts: among.length, kept: among.length - aside.length, 'set-aside': aside.length }[
    of
  ];
  const narrowed = amongInWords(filterOf(launch, direction), test, asked.house);
  return {
    text: localiseDigits(String(counted), asked.house.language),
    heading: of === 'attempts' ? 'Attempts' : of === 'kept' ? 'Attempts kept' : 'Attempts set aside',
    told: [
      toldOf[of](narrowed === '' ? 'in the whole day' : narrowed),
      ...aside.map(({ number, setAside }) => `Attempt ${number}: ${setAside}.`),
    ],
    results: [],
    workings: [],
    rule: 'kept',
  };
}
