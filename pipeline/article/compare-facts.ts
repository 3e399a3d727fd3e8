/** What the tests side by side were made under, as labelled texts. */
import { catalogue } from '../language.ts';
import type { House, TestResult } from '../result/result.ts';
import { conditionsWords } from '../result/words/conditions.ts';
import { printQuantity } from '../result/words.ts';
import { conditionSpan } from './condition-span.ts';

const WORDS = catalogue({
  en: {
    road: 'Road',
    mass: 'Mass as tested',
    tyres: 'Tyres',
    attempts: 'Attempts kept',
    headwind: 'Headwind',
  },
  de: {
    road: 'Strecke',
    mass: 'Masse im Test',
    tyres: 'Reifen',
    attempts: 'Gewertete Versuche',
    headwind: 'Gegenwind',
  },
});

export function specFacts(
  test: TestResult,
  house: House,
): readonly { readonly label: string; readonly text: string }[] {
  const words = WORDS(house);
  const said = conditionsWords(house);
  const kept = test.attempts.filter(({ setAside }) => setAside === undefined);
  const span = (of: 'surface' | 'temperature' | 'headwind'): string =>
    conditionSpan(kept, of, house.language) ?? said.notKnown;
  const { as_tested } = test.content;
  return [
    { label: words.road, text: test.road.name },
    { label: said.condition.surface, text: span('surface') },
    { label: said.condition.temperature, text: span('temperature') },
    { label: words.headwind, text: span('headwind') },
    { label: words.mass, text: printQuantity(as_tested.mass_kg, 'mass', undefined, house.language) },
    { label: words.tyres, text: as_tested.tyres },
    { label: words.attempts, text: printQuantity(kept.length, 'count', undefined, house.language) },
  ];
}
