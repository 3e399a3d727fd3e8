/** The best attempt as measured, and beside it the same run worked out for a level road in still reference air. */

import { CONDITIONS } from '../conditions/gain.ts';
import { REFERENCE_AIR } from '../conditions/reference.ts';
import { catalogue, nameWithin } from '../language.ts';
import { measureLabel } from '../result/measures.ts';
import { pickResult } from '../result/pick.ts';
import { restatedFigure } from '../result/restated-figure.ts';
import { printQuantity, printResult, startRuleInWords } from '../result/words.ts';
import type { Overlay } from './overlay.ts';
import {
  attemptsWithIds,
  conditionsInWords,
  footPhrases,
  headlineMeasure,
  placeAndDate,
  said,
} from './phrases.ts';
import { plateOverlay } from './plate.ts';
import { houseTheme } from './theme.ts';
import { plateWords } from './words/plates.ts';

export const restatedOverlay: Overlay = {
  kind: 'restated',
  describes: catalogue({
    en: 'The best attempt as measured, and beside it restated for a level road in still reference air.',
    de: 'Der beste Versuch wie gemessen, daneben umgerechnet auf ebene Straße und ruhende Bezugsluft.',
  }),
  make(test, house) {
    const measure = headlineMeasure([test], house);
    const measured = measure && pickResult(test, house, { measure });
    const attempts = measured ? attemptsWithIds(test, measured.attemptIds) : [];
    const [attempt] = attempts;
    if (!measured || attempt === undefined) return [];
    const startRule = house.headline_start_rule;
    const restated = restatedFigure(attempt, { measure: measured.measure, startRule });
    if (restated === undefined) return [];
    const { language } = house;
    const label = measureLabel(measured.measure, house);
    const asMeasured = printResult(measured, house);
    const asRestated = printResult(
      { ...measured, value: restated.timeS, uncertainty: restated.uncertaintyS },
      house,
    );
    const words = plateWords(house);
    const columns = [
      { head: words.measured, within: words.measuredWithin, printed: asMeasured, strong: true },
      { head: words.restated, within: words.restatedWithin, printed: asRestated, strong: false },
    ].map(({ head, within, printed, strong }) => ({
      head,
      within,
      value: printed.value,
      unit: printed.unit,
      notes: [printed.uncertainty ?? words.notKnown],
      strong,
    }));
    const changes = CONDITIONS.map(condition => {
      const seconds = printQuantity(restated.changesS[condition], 'time', 2, language);
      return `${words.change[condition]} ${restated.changesS[condition] > 0 && /[1-9]/.test(seconds) ? `+${seconds}` : seconds}`;
    });
    const air = [
      printQuantity(REFERENCE_AIR.temperatureK, 'temperature', undefined, language),
      printQuantity(REFERENCE_AIR.pressurePa, 'pressure', undefined, language),
    ];
    const foot = footPhrases([
      startRuleInWords(startRule, house),
      words.restatedFor(air[0]!, air[1]!),
      words.changedBy(changes),
      measured.n === 1 ? words.onlyAttempt(attempt.number) : words.bestAttempt(attempt.number, measured.n),
      measured.nSetAside > 0 ? words.setAside(measured.nSetAside) : undefined,
      words.expanded,
      conditionsInWords(attempts, house),
      placeAndDate(test, house),
    ]);
    const subtitle = said([label, attempt.launchName && nameWithin(attempt.launchName, house)]).join(', ');
    return [
      plateOverlay(
        {
          kind: 'restated',
          name: '8-restated',
          altText: `${test.car.name}, ${subtitle}: ${columns
            .map(({ within, value, unit, notes }) => `${within} ${value} ${unit} ${notes.join(', ')}`)
            .join('; ')}. ${foot.join(', ')}.`,
        },
        {
          label: house.name,
          title: test.car.name,
          subtitle,
          content: { body: 'columns', columns: columns.map(({ within: _, ...column }) => column) },
          foot,
        },
        houseTheme(house),
      ),
    ];
  },
};
