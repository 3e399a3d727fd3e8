/** The two ways along the road against each other, and their mean, with what a mean of both leaves out and keeps. */

import { catalogue, nameWithin } from '../language.ts';
import { measureInSentence, measureLabel } from '../result/measures.ts';
import { compareDirections } from '../result/methods-compared.ts';
import { shortFinding } from '../result/methods-words.ts';
import type { Result } from '../result/result.ts';
import { commonLaunch } from '../result/tests-compared.ts';
import { printResult, startRuleInWords } from '../result/words.ts';
import type { Overlay } from './overlay.ts';
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

/** Mean of two medians, each way counting once; its uncertainty from theirs, taken as independent (JCGM 100, 5.1.2). */
export function meanOfBothWays(one: Result, other: Result): Result {
  const value = (one.value + other.value) / 2;
  const { uncertainty: _, medianUncertainty: __, ...rest } = one;
  const uncertainty =
    one.uncertainty === undefined || other.uncertainty === undefined
      ? undefined
      : Math.hypot(one.uncertainty, other.uncertainty) / 2;
  return {
    ...rest,
    value,
    median: value,
    n: one.n + other.n,
    nSetAside: one.nSetAside + other.nSetAside,
    attemptIds: [...one.attemptIds, ...other.attemptIds],
    ...(uncertainty === undefined ? {} : { uncertainty, medianUncertainty: uncertainty }),
  };
}

export const directionsOverlay: Overlay = {
  kind: 'directions',
  describes: catalogue({
    en: 'Both ways along the road by their medians, and the mean of the two.',
    de: 'Beide Richtungen der Strecke nach ihren Medianen, und das Mittel aus beiden.',
  }),
  make(test, house) {
    const measure = headlineMeasure([test], house);
    if (measure === undefined) return [];
    const startRule = house.headline_start_rule;
    const launch = commonLaunch(measure, [test], house);
    const compared = compareDirections(test, house, {
      measure,
      startRule,
      ...(launch === undefined ? {} : { among: { launch: launch.id } }),
    });
    const [first, second] = compared.methods;
    const finding = shortFinding(compared, house);
    if (first === undefined || second === undefined || finding === undefined) return [];
    const mean = meanOfBothWays(first.figures.median, second.figures.median);
    const inOrder = test.road.directions.flatMap(
      ({ id }) => compared.methods.find(each => each.id === id) ?? [],
    );
    const words = plateWords(house);
    const columns = [
      ...inOrder.map(({ name, figures: { median } }) => ({
        head: sentenceCase(name),
        printed: printResult(median, house),
        count: median.n === 1 ? words.oneAttempt : words.medianOf(median.n),
      })),
      { head: words.meanOfBoth, printed: printResult(mean, house), count: words.eachWayOnce },
    ].map(({ head, printed, count }) => ({
      head,
      value: printed.value,
      unit: printed.unit,
      notes: [printed.uncertainty ?? words.notKnown, count],
    }));
    const attempts = attemptsWithIds(
      test,
      compared.methods.flatMap(method => method.attempts.map(({ id }) => id)),
    );
    const foot = footPhrases([
      startRuleInWords(startRule, house),
      words.medianUncertainty,
      words.meanLeavesOut,
      mean.nSetAside > 0 ? words.setAside(mean.nSetAside) : undefined,
      conditionsInWords(attempts, house),
      placeAndDate(test, house),
    ]);
    const title = sentenceCase(finding);
    const subtitle = said([
      words.eachWay(test.car.short_name, measureInSentence(measure, house)),
      launch && nameWithin(launch.name, house),
    ]).join(', ');
    return [
      plateOverlay(
        {
          kind: 'directions',
          name: '7-two-way',
          altText: `${title}. ${subtitle}: ${columns
            .map(({ head, value, unit, notes }) => `${head} ${value} ${unit} ${notes.join(', ')}`)
            .join('; ')}. ${measureLabel(measure, house)}. ${foot.join(', ')}.`,
        },
        { label: house.name, title, subtitle, content: { body: 'columns', columns }, foot },
        houseTheme(house),
      ),
    ];
  },
};
