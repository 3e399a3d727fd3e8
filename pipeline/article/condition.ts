/** `:condition{of=temperature|pressure|humidity|density|wind|headwind|surface launch=… direction=… test=…}` */
import { catalogue } from '../language.ts';
import { conditionNotRead } from '../problems/article.ts';
import { AskedWords, directionsOf } from './asked-words.ts';
import { CONDITIONS, type ConditionWord, conditionHeading, conditionSpan } from './condition-span.ts';
import type { Answer, Asked } from './published-number.ts';
import type { RuleId } from './rules.ts';

/** Temperature, pressure and the like are read; density and headwind are worked out. */
const RULE_OF: Readonly<Record<ConditionWord, RuleId>> = {
  temperature: 'reading-of-conditions',
  pressure: 'reading-of-conditions',
  humidity: 'reading-of-conditions',
  surface: 'reading-of-conditions',
  density: 'air',
  wind: 'wind',
  headwind: 'wind',
};

const WORDS = catalogue({
  en: {
    told: (text: string, isState: boolean, kept: number, readings: readonly string[]) =>
      `${text}, ${isState ? 'over' : 'from the least to the most of'} ${kept} attempts kept, ` +
      `each with the last reading before it. Read at ${readings.join(', ')}.`,
  },
  de: {
    told: (text, isState, kept, readings) =>
      `${text}, ${isState ? 'über' : 'vom kleinsten bis zum größten Wert über'} ${kept} gewertete Versuche, ` +
      `jeder mit der letzten Ablesung davor. Abgelesen um ${readings.join(', ')}.`,
  },
});

export function findCondition(asked: Asked): Answer {
  const words = new AskedWords(asked);
  words.allow(['of', 'launch', 'direction', 'test']);
  const of = words.must('of', 'condition', CONDITIONS, ':condition{of=temperature}');
  const test = words.test();
  const launch = words.one('launch', 'launch method', words.launches());
  const direction = words.one('direction', 'direction of this road', directionsOf(test));
  if (of === undefined || words.problems.length > 0) return { problems: words.problems };
  const kept = test.attempts.filter(
    attempt =>
      attempt.setAside === undefined &&
      (launch === undefined || attempt.launchId === launch) &&
      (direction === undefined || attempt.directionId === direction),
  );
  const text = conditionSpan(kept, of, asked.house.language);
  if (text === undefined) return { problems: [conditionNotRead(asked.where, of)] };
  const readings = [...new Set(kept.map(({ conditions }) => conditions.readAt))].sort();
  return {
    text,
    heading: conditionHeading(of, asked.house),
    told: [WORDS(asked.house).told(text, of === 'surface', kept.length, readings)],
    results: [],
    workings: [],
    rule: RULE_OF[of],
  };
}
