/** Air, wind and road of the day, over the attempts that were kept. */

import { localiseDigits } from '../digits.ts';
import { catalogue } from '../language.ts';
import type { Attempt, House } from '../result/result.ts';
import type { QuantityKind } from '../result/words.ts';
import type { Overlay } from './overlay.ts';
import { dateInWords, keptAttempts, rangeInWords, said, sentenceCase, surfacesInWords } from './phrases.ts';
import { type Column, plateOverlay } from './plate.ts';
import { houseTheme } from './theme.ts';
import { plateWords } from './words/plates.ts';

type Known = 'air' | 'pressure' | 'density' | 'windHead' | 'road';

const READINGS: readonly (readonly [
  what: Exclude<Known, 'road'>,
  kind: QuantityKind,
  read: (attempt: Attempt) => number | undefined,
])[] = [
  ['air', 'temperature', ({ conditions }) => conditions.temperatureK],
  ['pressure', 'pressure', ({ conditions }) => conditions.pressurePa],
  ['density', 'density', ({ conditions }) => conditions.densityKgm3],
  ['windHead', 'wind', ({ conditions }) => conditions.windMps],
];

const WITHIN = {
  air: 'airWithin',
  pressure: 'pressureWithin',
  density: 'densityWithin',
  windHead: 'windWithin',
  road: 'roadWithin',
} as const satisfies Record<Known, string>;

interface Shown extends Column {
  /** Its head within a sentence. */
  readonly within: string;
}

/** `12–14` for `12 to 14`, except beside a minus sign, where the dash would be read as another. */
const rangeDash = (range: string): string =>
  range.includes('\u2212') ? range : range.replace(/ (to|bis) /, '–');

/** A column for one reading, its range split into digits and unit. */
function column(what: Known, printed: string | undefined, house: House): readonly Shown[] {
  if (printed === undefined) return [];
  const words = plateWords(house);
  const cut = printed.lastIndexOf('\u00a0');
  const shown = {
    head: words[what],
    within: words[WITHIN[what]],
    value: rangeDash(printed.slice(0, cut)),
    unit: printed.slice(cut + 1),
    notes: [],
  };
  // Density follows from the other two, so it is the one that may stand in the foot.
  return [what === 'density' ? { ...shown, orInFoot: words.airDensity(printed) } : shown];
}

function columns(attempts: readonly Attempt[], house: House): readonly Shown[] {
  const surface = surfacesInWords(attempts, house);
  const words = plateWords(house);
  return [
    ...READINGS.flatMap(([what, kind, read]) =>
      column(what, rangeInWords(attempts.map(read), kind, house), house),
    ),
    ...(surface === undefined
      ? []
      : [{ head: words.road, within: words.roadWithin, value: surface, unit: '', notes: [] }]),
  ];
}

export const conditionsOverlay: Overlay = {
  kind: 'conditions',
  describes: catalogue({
    en: 'Air, wind and surface over the kept attempts, with mass, tyres and receiver.',
    de: 'Luft, Wind und Fahrbahn über die gewerteten Versuche, mit Masse, Reifen und Empfänger.',
  }),
  make(test, house) {
    const attempts = keptAttempts(test);
    const shown = columns(attempts, house);
    if (shown.length === 0) return [];
    const { as_tested: car, receiver } = test.content;
    const words = plateWords(house);
    const foot = said([
      words.keptOf(attempts.length, test.attempts.length),
      words.asTested(test.car.short_name, `${localiseDigits(String(car.mass_kg), house)} kg`, car.tyres),
      receiver.what,
    ]);
    return [
      plateOverlay(
        {
          kind: 'conditions',
          name: '2-conditions',
          altText: `${words.conditionsAt(test.road.name, dateInWords(test.content.date, house))}: ${shown
            .map(({ within, value, unit }) => said([within, value, unit]).join(' '))
            .join(', ')}. ${foot.join(', ')}.`,
        },
        {
          label: house.name,
          title: test.road.name,
          subtitle: `${sentenceCase(test.road.surface)}, ${dateInWords(test.content.date, house)}`,
          content: { body: 'columns', columns: shown.map(({ within: _, ...column }) => column) },
          foot,
        },
        houseTheme(house),
      ),
    ];
  },
};
