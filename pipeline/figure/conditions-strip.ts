/** Air, wind and surface over the clock of the day, with the attempts between the readings. */
import { COLOUR } from '../look.ts';
import type { House, TestResult } from '../result/result.ts';
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
import { capital, conditionsInWords, feet } from './foot.ts';
import { ruleLayer } from './plot.ts';

type Field = 'temperature_c' | 'wind_mps' | 'pressure_hpa' | 'humidity_pct';

const FIELDS: readonly {
  readonly field: Field;
  readonly unit: string;
  readonly label: string;
  readonly leastSpan: number;
}[] = [
  { field: 'temperature_c', unit: '°C', label: 'air temperature', leastSpan: 4 },
  { field: 'wind_mps', unit: 'm/s', label: 'wind', leastSpan: 2 },
  { field: 'humidity_pct', unit: '%', label: 'humidity', leastSpan: 20 },
  { field: 'pressure_hpa', unit: 'hPa', label: 'pressure', leastSpan: 4 },
];

export const conditionsStrip: Figure = {
  kind: 'conditions-strip',
  describes:
    'Air temperature, wind, humidity and pressure over the clock of the day, with a tick for every attempt.',
  make(test, house) {
    if (test.attempts.length === 0)
      return { reason: 'No kept attempt, and no attempt at all, to show conditions of.' };
    const known = FIELDS.map(one => ({ ...one, readings: readingsOf(test, one.field) })).filter(
      ({ readings }) => readings.length > 0,
    );
    if (known.length === 0) return { reason: 'No reading of air or wind was noted in this test.' };
    return draw(test, house, known);
  },
};

type Known = (typeof FIELDS)[number] & { readonly readings: readonly Reading[] };

function draw(test: TestResult, house: House, known: readonly Known[]): MadeFigure {
  const { language } = house;
  const span = daySpan(test);
  const figure = (layout: FigureLayout) => {
    const { low } = STRIP_PX[layout];
    // Temperature and wind change times most; a small picture shows them alone.
    const shown = isCrop(layout) ? known.slice(0, 2) : known;
    const strips = shown.map(
      ({ unit, label, readings, leastSpan }, index): Strip => ({
        title: `${unit}, ${label}`,
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
    const along = isCrop(layout) ? undefined : alongWindStrip(test.attempts, layout);
    return dayStrips(along === undefined ? strips : [...strips, along], span, layout, language);
  };
  const summary = conditionsInWords(test.attempts, language);
  const surfaces = [...new Set(test.content.conditions.flatMap(({ surface }) => surface ?? []))];
  const ranges = known.map(({ label, unit, readings }) => `${label} ${rangeOf(readings, unit, language)}`);
  const method = `Each reading holds until the next. Short ticks: attempts.${surfaces.length === 0 ? '' : ` Surface: ${surfaces.join(', then ')}.`}`;
  return {
    kind: 'conditions-strip',
    title: titleOf(known, test, language),
    deck: `What was read through the day, ${test.road.name}`,
    caption: `Air and wind through the day of ${test.attempts.length} attempts. ${method}`,
    ...feet(test, house, { attempts: test.attempts, method: [method], key: 'Short ticks: attempts.' }),
    altText: `Line charts of readings over the clock of the day. ${capital(ranges.join('; '))}. Over the attempts: ${summary}.`,
    spec: everyLayout(figure),
    table: {
      id: 'conditions-strip',
      caption: 'Readings through the day',
      columns: [
        { label: 'At', align: 'start' },
        ...known.map(({ label, unit }) => ({ label: capital(label), unit, align: 'end' as const })),
        { label: 'Surface', align: 'start' },
        { label: 'Attempts until the next reading', align: 'end' },
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
          { text: reading.surface ?? '–' },
          { text: String(count) },
        ];
      }),
      notes: ['A reading counts for the attempts after it, until the next.'],
    },
  };
}

function rangeOf(readings: readonly Reading[], unit: string, language: string): string {
  const digits = (value: number): string => localiseDigits(String(value), language);
  const values = readings.map(({ value }) => value);
  const [least, most] = [Math.min(...values), Math.max(...values)];
  return least === most
    ? withUnit(digits(least), unit)
    : `${digits(least)} to ${withUnit(digits(most), unit)}`;
}

/** As read, without a claim of what it did to any figure. */
function titleOf(known: readonly Known[], test: TestResult, language: string): string {
  const surfaces = [...new Set(test.content.conditions.flatMap(({ surface }) => surface ?? []))];
  const parts = known
    .filter(({ field }) => field === 'temperature_c' || field === 'wind_mps')
    .map(
      ({ field, unit, readings }) =>
        `${field === 'wind_mps' ? 'wind ' : ''}${rangeOf(readings, unit, language)}`,
    );
  const all = [...surfaces.slice(0, 1), ...parts];
  return all.length === 0 ? `The air of the day on ${test.road.name}` : capital(all.join(', '));
}
