/** One measured figure: the headline time, the quarter mile, and the stop from 100 km/h where they were measured. */

import { catalogue, nameWithin } from '../language.ts';
import { MEASURES, measureInSentence, measureLabel, stopsFrom } from '../result/measures.ts';
import { pickResult } from '../result/pick.ts';
import type { House, MeasureId, Result, TestResult } from '../result/result.ts';
import { printResult, startRuleBrief } from '../result/words.ts';
import type { MadeOverlay, Overlay } from './overlay.ts';
import {
  attemptsWithIds,
  conditionsInWords,
  footPhrases,
  headlineMeasure,
  placeAndDate,
  said,
  sentenceCase,
} from './phrases.ts';
import { plateOverlay } from './plate.ts';
import { houseTheme } from './theme.ts';
import { plateWords } from './words/plates.ts';

/** The same attempt on the other clock: `5.72 s after the one-foot rollout`. */
function underOtherRule(result: Result, test: TestResult, house: House): string | undefined {
  const [attempt] = result.attemptIds;
  if (result.startRule === undefined || attempt === undefined) return undefined;
  const startRule = result.startRule === 'first-movement' ? 'one-foot-rollout' : 'first-movement';
  const other = pickResult(test, house, { measure: result.measure, attempt, startRule });
  if (other === undefined) return undefined;
  return `${printResult(other, house).text} ${startRuleBrief(startRule, house)}`;
}

const ALSO = (house: House): readonly MeasureId[] => ['0-402-m', ...stopsFrom(house).slice(0, 1)];

function makeOne(measure: MeasureId, test: TestResult, house: House): readonly MadeOverlay[] {
  const result = pickResult(test, house, { measure });
  if (result === undefined) return [];
  const printed = printResult(result, house);
  const attempts = attemptsWithIds(test, result.attemptIds);
  const launch = MEASURES[measure].fromRest ? attempts[0]?.launchName : undefined;
  const conditions = conditionsInWords(attempts, house);
  const foot = footPhrases([
    printed.rule,
    printed.count,
    underOtherRule(result, test, house),
    printed.uncertainty === undefined ? plateWords(house).noUncertainty : plateWords(house).expanded,
    conditions,
    placeAndDate(test, house),
  ]);
  return [
    plateOverlay(
      {
        kind: 'result',
        name: `3-result-${measure}`,
        altText: said([
          `${test.car.name}, ${measureInSentence(measure, house)}: ${printed.text}${printed.uncertainty === undefined ? '' : ` ${printed.uncertainty}`}.`,
          launch && plateWords(house).launchMethod(launch),
          `${foot.join(', ')}.`,
        ]).join(' '),
      },
      {
        label: house.name,
        title: test.car.name,
        subtitle: sentenceCase(said([test.car.kind, launch && nameWithin(launch, house)]).join(', ')),
        content: {
          body: 'headline',
          head: measureLabel(measure, house),
          value: printed.value,
          unit: printed.unit,
          ...(printed.uncertainty === undefined ? {} : { uncertainty: printed.uncertainty }),
        },
        foot,
      },
      houseTheme(house),
    ),
  ];
}

export const resultOverlay: Overlay = {
  kind: 'result',
  describes: catalogue({
    en: 'One figure with its uncertainty, start rule, count and conditions.',
    de: 'Ein Wert mit Unsicherheit, Startregel, Anzahl und Bedingungen.',
  }),
  make(test, house) {
    const headline = headlineMeasure([test], house);
    const measures = [...(headline === undefined ? [] : [headline]), ...ALSO(house)];
    return measures.flatMap(measure => makeOne(measure, test, house));
  },
};
