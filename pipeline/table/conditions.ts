/** Every reading of air, wind and surface, with the density worked out from it. */

import { COVERAGE_FACTOR } from '../measurement/uncertainty.ts';
import type { AttemptConditions, House, TestResult } from '../result/result.ts';
import { surfaceInWords } from '../result/words/conditions.ts';
import { localiseDigits, printQuantity, withUnit } from '../result/words.ts';
import { NONE } from './figures-of.ts';
import type { Table, TableCell } from './table.ts';
import { conditionsTableWords } from './words/conditions.ts';
import { tableWords } from './words/shared.ts';

/** One row a reading, in the day's order; digits as they were written. */
export function conditionsTable({ attempts, content, road, loggedSlope }: TestResult, house: House): Table {
  const { language } = house;
  const words = conditionsTableWords(house);
  const written = (value: number | undefined, unit: string): string =>
    value === undefined ? NONE : withUnit(localiseDigits(String(value), language), unit);
  const workedOut = new Map<string, AttemptConditions>();
  for (const { conditions } of attempts) workedOut.set(conditions.readAt, conditions);
  const methods = new Set<string>();

  const slopeNote = (): readonly string[] => {
    if (loggedSlope !== undefined) {
      const { slopePct, standardPct, passes, lengthM } = loggedSlope;
      const uncertainty = COVERAGE_FACTOR * standardPct;
      return [
        words.loggedSlopeNote(
          printQuantity(slopePct, 'slope', { uncertainty }, language),
          printQuantity(uncertainty, 'slope', { uncertainty }, language),
          passes,
          printQuantity(lengthM, 'altitude', undefined, language),
        ),
      ];
    }
    return road.slope_pct === undefined ? [] : [words.slopeNote(written(road.slope_pct, '%'))];
  };

  const rows = content.conditions.map((reading): readonly TableCell[] => {
    const air = workedOut.get(reading.at);
    if (air?.densityBy !== undefined) methods.add(words.densityBy[air.densityBy]);
    return [
      { text: reading.at, header: true },
      { text: written(reading.temperature_c, '°C') },
      { text: written(reading.pressure_hpa, 'hPa') },
      { text: written(reading.humidity_pct, '%') },
      { text: written(reading.wind_mps, 'm/s') },
      { text: written(reading.wind_from_deg, '°') },
      { text: written(reading.gust_mps, 'm/s') },
      {
        text:
          air?.densityKgm3 === undefined
            ? NONE
            : printQuantity(air.densityKgm3, 'density', undefined, language),
      },
      { text: reading.surface === undefined ? NONE : surfaceInWords(reading.surface, house) },
      { text: reading.note ?? '' },
    ];
  });
  return {
    id: 'conditions',
    caption: words.caption(road.name, tableWords(house).readings(rows.length)),
    columns: [
      { label: tableWords(house).at, align: 'start' },
      { label: words.temperature, align: 'end' },
      { label: words.pressure, align: 'end' },
      { label: words.humidity, align: 'end' },
      { label: words.wind, align: 'end' },
      { label: words.windFrom, align: 'end' },
      { label: words.gusts, align: 'end' },
      { label: words.density, align: 'end' },
      { label: words.surface, align: 'start' },
      { label: words.note, align: 'start' },
    ],
    rows,
    notes: [
      [words.pressureNote, ...(methods.size === 0 ? [] : [words.densityNote([...methods])])].join(' '),
      [words.roadNote(road.surface), ...slopeNote()].join(' '),
    ],
  };
}
