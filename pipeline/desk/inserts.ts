/** What can be put into an article, each with the words that call it and what will stand there. */
import { CONDITIONS, type ConditionWord, conditionSpan } from '../article/condition-span.ts';
import { FIGURES } from '../figure/figures.ts';
import { catalogue } from '../language.ts';
import { MEASURES, measureLabel, measuresOf } from '../result/measures.ts';
import { launchMethodsOf, pickResult } from '../result/pick.ts';
import { capital, printResult } from '../result/words.ts';
import { TABLES } from '../table/tables.ts';
import type { OpenTest } from './desk.ts';

interface Insert {
  readonly directive: string;
  readonly label: string;
  readonly shows: string;
}

const WORDS = catalogue({
  en: {
    best: (label: string) => `${label}, best`,
    median: (label: string) => `${label}, median`,
    afterRollout: (label: string) => `${label}, best after the one-foot rollout`,
    bestOf: (label: string, launch: string) => `${label}, best of “${launch}”`,
    conditions: {
      temperature: 'Temperature',
      pressure: 'Pressure',
      humidity: 'Humidity',
      density: 'Density of the air',
      wind: 'Wind',
      headwind: 'Headwind',
      surface: 'State of the road',
    } satisfies Record<ConditionWord, string>,
    attempts: 'How many attempts',
    kept: 'How many of them are kept',
  },
  de: {
    best: label => `${label}, bester Wert`,
    median: label => `${label}, Median`,
    afterRollout: label => `${label}, bester Wert nach dem Anrollweg`,
    bestOf: (label, launch) => `${label}, bester Wert mit „${launch}“`,
    conditions: {
      temperature: 'Temperatur',
      pressure: 'Luftdruck',
      humidity: 'Luftfeuchte',
      density: 'Luftdichte',
      wind: 'Wind',
      headwind: 'Gegenwind',
      surface: 'Zustand der Strecke',
    },
    attempts: 'Wie viele Versuche',
    kept: 'Wie viele davon gewertet',
  },
});

/** In the order a writer looks for them. */
export function insertsOf({
  result,
  publication: { house },
  others,
}: OpenTest): Readonly<Record<'numbers' | 'conditions' | 'figures' | 'tables', readonly Insert[]>> {
  if (result === undefined) return { numbers: [], conditions: [], figures: [], tables: [] };
  const words = WORDS(house);
  const number = (
    attributes: string,
    query: Parameters<typeof pickResult>[2],
    label: string,
  ): readonly Insert[] => {
    const picked = pickResult(result, house, query);
    return picked === undefined
      ? []
      : [{ directive: `:number{${attributes}}`, label, shows: printResult(picked, house).text }];
  };
  const launches = launchMethodsOf(result, house);
  const numbers = measuresOf(house).flatMap(measure => {
    const label = capital(measureLabel(measure, house));
    return [
      ...number(`of=${measure}`, { measure }, words.best(label)),
      ...number(`of=${measure} take=median`, { measure, statistic: 'median' }, words.median(label)),
      ...(MEASURES[measure].fromRest
        ? [
            ...number(
              `of=${measure} start=one-foot-rollout`,
              { measure, startRule: 'one-foot-rollout' },
              words.afterRollout(label),
            ),
            ...launches.flatMap(({ id, name }) =>
              number(`of=${measure} launch=${id}`, { measure, launch: id }, words.bestOf(label, name)),
            ),
          ]
        : []),
    ];
  });
  const kept = result.attempts.filter(({ setAside }) => setAside === undefined);
  return {
    numbers: [
      ...numbers,
      { directive: ':count{of=attempts}', label: words.attempts, shows: String(result.attempts.length) },
      { directive: ':count{of=kept}', label: words.kept, shows: String(kept.length) },
    ],
    conditions: CONDITIONS.flatMap(of => {
      const shows = conditionSpan(kept, of, house.language);
      return shows === undefined
        ? []
        : [{ directive: `:condition{of=${of}}`, label: words.conditions[of], shows }];
    }),
    figures: Object.values(FIGURES).flatMap(figure => {
      const made = figure.make(result, house, { startRule: house.headline_start_rule }, others);
      return 'reason' in made
        ? []
        : [{ directive: `::figure{show=${figure.kind}}`, label: figure.describes(house), shows: made.title }];
    }),
    tables: Object.entries(TABLES).map(([kind, { describes, make }]) => ({
      directive: `::table{show=${kind}}`,
      label: describes(house),
      shows: make(result, house, others).caption,
    })),
  };
}
