/** The splits of one run: the best attempt at the headline measure. */

import { catalogue, nameWithin } from '../language.ts';
import { MEASURES, measureLabel } from '../result/measures.ts';
import { pickResult } from '../result/pick.ts';
import type { MeasureId } from '../result/result.ts';
import { printResult } from '../result/words.ts';
import { type HouseUnits, houseUnits } from '../speed-unit.ts';
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

/** The splits shown, in the order of importance; the first five that the run has. */
const WANTED: Readonly<Record<HouseUnits, readonly MeasureId[]>> = {
  kmh: ['0-100-kmh', '0-50-kmh', '0-402-m', '0-130-kmh', '0-80-kmh', '0-160-kmh', '0-30-kmh', '0-100-m'],
  mph: ['0-60-mph', '0-30-mph', '0-402-m', '0-80-mph', '0-50-mph', '0-100-mph', '0-100-m'],
};
const MOST = 5;

export const splitsOverlay: Overlay = {
  kind: 'splits',
  describes: catalogue({
    en: 'Times of one run to several speeds and over a quarter mile, each with its uncertainty.',
    de: 'Zeiten einer Fahrt auf mehrere Geschwindigkeiten und über eine Viertelmeile, jede mit ihrer Unsicherheit.',
  }),
  make(test, house) {
    const headline = headlineMeasure([test], house);
    const best = headline && pickResult(test, house, { measure: headline });
    const attemptId = best?.attemptIds[0];
    if (!best || attemptId === undefined) return [];
    const chosen = WANTED[houseUnits(house)]
      .flatMap(measure => {
        const result = pickResult(test, house, { measure, attempt: attemptId });
        return result === undefined ? [] : [{ measure, result }];
      })
      .slice(0, MOST);
    if (chosen.length < 2) return [];
    // Speeds first, then distances, each rising: as a table prints them.
    const order = Object.keys(MEASURES);
    const splits = chosen
      .sort((a, b) => order.indexOf(a.measure) - order.indexOf(b.measure))
      .map(({ measure, result }) => ({
        measure,
        label: measureLabel(measure, house),
        printed: printResult(result, house),
      }));
    const attempts = attemptsWithIds(test, [attemptId]);
    const [attempt] = attempts;
    const printedBest = printResult(best, house);
    const words = plateWords(house);
    const foot = footPhrases([
      printedBest.rule,
      best.n === 1
        ? words.onlyAttempt(attempt?.number ?? 0)
        : words.bestAttemptAt(attempt?.number ?? 0, best.n, measureLabel(best.measure, house)),
      best.nSetAside > 0 ? words.setAside(best.nSetAside) : undefined,
      words.expanded,
      conditionsInWords(attempts, house),
      placeAndDate(test, house),
    ]);
    const altText = `${words.splitsAlt(test.car.name)}: ${splits
      .map(({ label, printed }) => said([`${label} ${printed.text}`, printed.uncertainty]).join(' '))
      .join('; ')}. ${foot.join(', ')}.`;
    const launch = attempt?.launchName;
    return [
      plateOverlay(
        { kind: 'splits', name: '4-splits', altText },
        {
          label: house.name,
          title: test.car.name,
          subtitle: launch === undefined ? words.splitsOfOneRun : words.splits(nameWithin(launch, house)),
          content: {
            body: 'columns',
            columns: splits.map(({ measure, label, printed }) => ({
              head: label,
              value: printed.value,
              unit: printed.unit,
              notes: [printed.uncertainty ?? words.notKnown],
              strong: measure === headline,
            })),
          },
          foot,
        },
        houseTheme(house),
      ),
    ];
  },
};
