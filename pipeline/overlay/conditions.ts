/** Air, wind and road of the day, over the attempts that were kept. */
import type { Attempt, House } from '../result/result.ts';
import type { QuantityKind } from '../result/words.ts';
import type { Overlay } from './overlay.ts';
import { dateInWords, keptAttempts, rangeInWords, said, sentenceCase, surfacesInWords } from './phrases.ts';
import { type Column, plateOverlay } from './plate.ts';
import { houseTheme } from './theme.ts';

const READINGS: readonly (readonly [
  head: string,
  kind: QuantityKind,
  read: (attempt: Attempt) => number | undefined,
])[] = [
  ['Air', 'temperature', ({ conditions }) => conditions.temperatureK],
  ['Pressure', 'pressure', ({ conditions }) => conditions.pressurePa],
  ['Density', 'density', ({ conditions }) => conditions.densityKgm3],
  ['Wind', 'wind', ({ conditions }) => conditions.windMps],
];

/** `12–14` for `12 to 14`, except beside a minus sign, where the dash would be read as another. */
const rangeDash = (range: string): string => (range.includes('\u2212') ? range : range.replace(' to ', '–'));

/** A column for one reading, its range split into digits and unit. */
function column(head: string, printed: string | undefined): readonly Column[] {
  if (printed === undefined) return [];
  const cut = printed.lastIndexOf('\u00a0');
  const column = { head, value: rangeDash(printed.slice(0, cut)), unit: printed.slice(cut + 1), notes: [] };
  // Density follows from the other two, so it is the one that may stand in the foot.
  return [head === 'Density' ? { ...column, orInFoot: `air density ${printed}` } : column];
}

function columns(attempts: readonly Attempt[], house: House): readonly Column[] {
  const surface = surfacesInWords(attempts);
  return [
    ...READINGS.flatMap(([head, kind, read]) => column(head, rangeInWords(attempts.map(read), kind, house))),
    ...(surface === undefined ? [] : [{ head: 'Road', value: surface, unit: '', notes: [] }]),
  ];
}

export const conditionsOverlay: Overlay = {
  kind: 'conditions',
  describes: 'Air, wind and surface over the kept attempts, with mass, tyres and receiver.',
  make(test, house) {
    const attempts = keptAttempts(test);
    const shown = columns(attempts, house);
    if (shown.length === 0) return [];
    const { as_tested: car, receiver } = test.content;
    const foot = said([
      `${attempts.length} of ${test.attempts.length} attempts kept`,
      `${test.car.short_name}: ${car.mass_kg} kg as tested, ${car.tyres}`,
      receiver.what,
    ]);
    return [
      plateOverlay(
        {
          kind: 'conditions',
          name: '2-conditions',
          altText: `Conditions at ${test.road.name}, ${dateInWords(test.content.date, house)}: ${shown
            .map(({ head, value, unit }) => said([head.toLowerCase(), value, unit]).join(' '))
            .join(', ')}. ${foot.join(', ')}.`,
        },
        {
          label: house.name,
          title: test.road.name,
          subtitle: `${sentenceCase(test.road.surface)}, ${dateInWords(test.content.date, house)}`,
          content: { body: 'columns', columns: shown },
          foot,
        },
        houseTheme(house),
      ),
    ];
  },
};
