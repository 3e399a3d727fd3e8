/** Air, wind and surface over the clock of the day, with the attempts between the readings. */

import { capital, catalogue } from '../language.ts';
import { COLOUR } from '../look.ts';
import type { House, TestResult } from '../result/result.ts';
import { surfaceInWords } from '../result/words/conditions.ts';
import { localiseDigits, withUnit } from '../result/words.ts';
import {
  alongWindStrip,
  clockS,
  daySpan,
  dayStrips,
  type Reading,
  readingLayers,
  readingsOf,
  STRIP_PX,
  type Strip,
} from './day-strips.ts';
import { everyLayout, type Figure, type FigureLayout, isCrop, type MadeFigure } from './figure.ts';
import { conditionsInWords, feet } from './foot.ts';
import { ruleLayer } from './plot.ts';
import { conditionsStripWords } from './words/day.ts';
import { notMadeWords } from './words/not-made.ts';
import { figureWords } from './words/shared.ts';

type Field = 'temperature_c' | 'wind_mps' | 'pressure_hpa' | 'humidity_pct';

const FIELDS: readonly {
  readonly field: Field;
  readonly unit: string;
  readonly leastSpan: number;
}[] = [
  { field: 'temperature_c', unit: '°C', leastSpan: 4 },
  { field: 'wind_mps', unit: 'm/s', leastSpan: 2 },
  { field: 'humidity_pct', unit: '%', leastSpan: 20 },
  { field: 'pressure_hpa', unit: 'hPa', leastSpan: 4 },
];

export const conditionsStrip: Figure = {
  kind: 'conditions-strip',
  describes: catalogue({
    en: 'Air temperature, wind, humidity and pressure over the clock of the day, with a tick for every attempt.',
    de: 'Lufttemperatur, Wind, Luftfeuchte und Luftdruck über der Uhrzeit des Tages, mit einem Strich für jeden Versuch.',
  }),
  make(test, house) {
    if (test.attempts.length === 0) return { reason: notMadeWords(house).noAttempts };
    const known = FIELDS.map(one => ({ ...one, readings: readingsOf(test, one.field) })).filter(
      ({ readings }) => readings.length > 0,
    );
    if (known.length === 0) return { reason: notMadeWords(house).noReadings };
    return draw(test, house, known);
  },
};

type Known = (typeof FIELDS)[number] & { readonly readings: readonly Reading[] };

function draw(test: TestResult, house: House, known: readonly Known[]): MadeFigure {
  const { language } = house;
  const words = conditionsStripWords(house);
  const shared = figureWords(house);
  const span = daySpan(test);
  const figure = (layout: FigureLayout) => {
    const { low } = STRIP_PX[layout];
    // Temperature and wind change times most; a small picture shows them alone.
    const shown = isCrop(layout) ? known.slice(0, 2) : known;
    const strips = shown.map(
      ({ field, unit, readings, leastSpan }, index): Strip => ({
        title: `${unit}, ${words.field[field]}`,
        heightPx: isCrop(layout) ? low * 1.4 : low,
        values: readings.map(({ value }) => value),
        leastSpan,
        layers: (place, panel) => [
          ...(index > 0
            ? []
            : [
                ruleLayer(
                  test.attempts.map(({ at }) => {
                    const { x } = place(clockS(at), 0);
                    return { x, x2: x, y: panel.top + panel.heightPx, y2: panel.top + panel.heightPx - 6 };
                  }),
                  { colour: COLOUR.accent, width: 1.2 },
                ),
              ]),
          ...readingLayers(readings, span.to, place),
        ],
      }),
    );
    const along = isCrop(layout) ? undefined : alongWindStrip(test.attempts, layout, house);
    return dayStrips(along === undefined ? strips : [...strips, along], span, layout, language);
  };
  const summary = conditionsInWords(test.attempts, language);
  const ranges = known.map(
    ({ field, unit, readings }) => `${words.field[field]} ${rangeOf(readings, unit, language)}`,
  );
  const method = words.method(surfacesOf(test, language));
  return {
    kind: 'conditions-strip',
    title: titleOf(known, test, language),
    deck: words.deck(test.road.name),
    caption: `${words.caption(test.attempts.length)} ${method}`,
    ...feet(test, house, { attempts: test.attempts, method: [method], key: words.key }),
    altText: words.alt(capital(ranges.join('; ')), summary),
    spec: everyLayout(figure),
    table: {
      id: 'conditions-strip',
      caption: words.tableCaption,
      columns: [
        { label: shared.at, align: 'start' },
        ...known.map(({ field, unit }) => ({
          label: capital(words.field[field]),
          unit,
          align: 'end' as const,
        })),
        { label: shared.surface, align: 'start' },
        { label: words.untilNext, align: 'end' },
      ],
      rows: test.content.conditions.map((reading, index, all) => {
        const next = all[index + 1];
        const count = test.attempts.filter(
          ({ at }) =>
            clockS(at) >= clockS(reading.at) && (next === undefined || clockS(at) < clockS(next.at)),
        ).length;
        return [
          { text: reading.at, header: true },
          ...known.map(({ field }) => ({
            text: reading[field] === undefined ? '–' : localiseDigits(String(reading[field]), language),
          })),
          { text: reading.surface === undefined ? '–' : surfaceInWords(reading.surface, house) },
          { text: String(count) },
        ];
      }),
      notes: [words.note],
    },
  };
}

function rangeOf(readings: readonly Reading[], unit: string, language: string): string {
  const digits = (value: number): string => localiseDigits(String(value), language);
  const values = readings.map(({ value }) => value);
  const [least, most] = [Math.min(...values), Math.max(...values)];
  return least === most
    ? withUnit(digits(least), unit)
    : figureWords(language).range(digits(least), withUnit(digits(most), unit));
}

/** As read, without a claim of what it did to any figure. */
function titleOf(known: readonly Known[], test: TestResult, language: string): string {
  const surfaces = surfacesOf(test, language);
  const parts = known
    .filter(({ field }) => field === 'temperature_c' || field === 'wind_mps')
    .map(({ field, unit, readings }) =>
      field === 'wind_mps'
        ? figureWords(language).wind(rangeOf(readings, unit, language))
        : rangeOf(readings, unit, language),
    );
  const all = [...surfaces.slice(0, 1), ...parts];
  return all.length === 0 ? conditionsStripWords(language).title(test.road.name) : capital(all.join(', '));
}

/** The states the road went through. */
const surfacesOf = ({ content }: TestResult, language: string): readonly string[] =>
  [...new Set(content.conditions.flatMap(({ surface }) => surface ?? []))].map(surface =>
    surfaceInWords(surface, language),
  );
