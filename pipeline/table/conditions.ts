/** Every reading of air, wind and surface, with the density worked out from it. */
import type { AttemptConditions, House, TestResult } from '../result/result.ts';
import { localiseDigits, printQuantity, withUnit } from '../result/words.ts';
import { NONE } from './figures-of.ts';
import type { Table, TableCell } from './table.ts';

const DENSITY_BY = { 'cipm-2007': 'CIPM-2007', 'ideal-gas': 'ideal gas, Buck 1996' } as const;

/** One row a reading, in the day's order; digits as they were written. */
export function conditionsTable({ attempts, content, road }: TestResult, { language }: House): Table {
  const written = (value: number | undefined, unit: string): string =>
    value === undefined ? NONE : withUnit(localiseDigits(String(value), language), unit);
  const workedOut = new Map<string, AttemptConditions>();
  for (const { conditions } of attempts) workedOut.set(conditions.readAt, conditions);
  const methods = new Set<string>();

  const rows = content.conditions.map((reading): readonly TableCell[] => {
    const air = workedOut.get(reading.at);
    if (air?.densityBy !== undefined) methods.add(DENSITY_BY[air.densityBy]);
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
      { text: reading.surface ?? NONE },
      { text: reading.note ?? '' },
    ];
  });
  const slope =
    road.slope_pct === undefined ? '' : ` Mean slope ${written(road.slope_pct, '%')} in the first direction.`;
  return {
    id: 'conditions',
    caption: `Conditions at ${road.name}, ${rows.length} ${rows.length === 1 ? 'reading' : 'readings'}`,
    columns: [
      { label: 'At', align: 'start' },
      { label: 'Temperature', align: 'end' },
      { label: 'Pressure', align: 'end' },
      { label: 'Humidity', align: 'end' },
      { label: 'Wind', align: 'end' },
      { label: 'Wind from', align: 'end' },
      { label: 'Gusts', align: 'end' },
      { label: 'Air density', align: 'end' },
      { label: 'Surface', align: 'start' },
      { label: 'Note', align: 'start' },
    ],
    rows,
    notes: [
      `Pressure at the road, not reduced to sea level.${methods.size === 0 ? '' : ` Air density by ${[...methods].join(' and ')}; given where an attempt was made under that reading.`}`,
      `Road: ${road.surface}.${slope}`,
    ],
  };
}
