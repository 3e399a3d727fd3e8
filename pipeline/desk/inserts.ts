/** What can be put into an article, each with the words that call it and what will stand there. */
import { CONDITIONS, conditionSpan } from '../article/condition-span.ts';
import { FIGURES } from '../figure/figures.ts';
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

/** In the order a writer looks for them. */
export function insertsOf({
  result,
  publication: { house },
  others,
}: OpenTest): Readonly<Record<'numbers' | 'conditions' | 'figures' | 'tables', readonly Insert[]>> {
  if (result === undefined) return { numbers: [], conditions: [], figures: [], tables: [] };
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
      ...number(`of=${measure}`, { measure }, `${label}, best`),
      ...number(`of=${measure} take=median`, { measure, statistic: 'median' }, `${label}, median`),
      ...(MEASURES[measure].fromRest
        ? [
            ...number(
              `of=${measure} start=one-foot-rollout`,
              { measure, startRule: 'one-foot-rollout' },
              `${label}, best after the one-foot rollout`,
            ),
            ...launches.flatMap(({ id, name }) =>
              number(`of=${measure} launch=${id}`, { measure, launch: id }, `${label}, best of “${name}”`),
            ),
          ]
        : []),
    ];
  });
  const kept = result.attempts.filter(({ setAside }) => setAside === undefined);
  return {
    numbers: [
      ...numbers,
      { directive: ':count{of=attempts}', label: 'How many attempts', shows: String(result.attempts.length) },
      { directive: ':count{of=kept}', label: 'How many of them are kept', shows: String(kept.length) },
    ],
    conditions: CONDITIONS.flatMap(of => {
      const shows = conditionSpan(kept, of, house.language);
      return shows === undefined ? [] : [{ directive: `:condition{of=${of}}`, label: capital(of), shows }];
    }),
    figures: Object.values(FIGURES).flatMap(figure => {
      const made = figure.make(result, house, { startRule: house.headline_start_rule }, others);
      return 'reason' in made
        ? []
        : [{ directive: `::figure{show=${figure.kind}}`, label: figure.describes, shows: made.title }];
    }),
    tables: Object.entries(TABLES).map(([kind, { describes, make }]) => ({
      directive: `::table{show=${kind}}`,
      label: describes,
      shows: make(result, house, others).caption,
    })),
  };
}
