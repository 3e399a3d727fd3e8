/** What is missing in the notes of the day, and what cannot be worked out without it. */
import { catalogue } from '../language.ts';
import type { Car, House, Road } from '../result/result.ts';

export interface Gap {
  /** Path of the field, such as `conditions.0.pressure_hpa`. */
  readonly field: string;
  readonly says: string;
}

interface Reading {
  readonly temperature_c?: number | undefined;
  readonly pressure_hpa?: number | undefined;
  readonly humidity_pct?: number | undefined;
  readonly wind_mps?: number | undefined;
  readonly wind_from_deg?: number | undefined;
  readonly surface?: string | undefined;
}

interface Day {
  readonly conditions: readonly (Reading | undefined)[];
  readonly massKg?: number | undefined;
  readonly car?: Pick<Car, 'drag_area_m2' | 'rolling_resistance'> | undefined;
  readonly road?: Pick<Road, 'slope_pct' | 'profile' | 'slope_from_logs'> | undefined;
}

const WORDS = catalogue({
  en: {
    noReading: 'Without a reading of the weather, no number can carry its conditions.',
    air: 'Air density, density altitude and the restated times.',
    humidity: 'The last digits of the air’s density; it is worked out as dry.',
    wind: 'Head and side wind, and the restated times.',
    windFrom: 'How much of the wind blew against the car.',
    surface: 'Whether this test may be compared with others.',
    mass: 'The restated times, and the road plan as tested.',
    dragArea: 'What wind and air changed: no restated times.',
    rolling: 'What the road’s slope and the air changed: no restated times.',
    slope: 'What the slope changed; the road is taken as level, and said to be so.',
  },
  de: {
    noReading: 'Ohne eine Ablesung des Wetters kann keine Zahl ihre Bedingungen nennen.',
    air: 'Luftdichte, Dichtehöhe und die umgerechneten Zeiten.',
    humidity: 'Die letzten Stellen der Luftdichte; gerechnet wird mit trockener Luft.',
    wind: 'Gegen- und Seitenwind und die umgerechneten Zeiten.',
    windFrom: 'Wie viel des Windes gegen das Auto blies.',
    surface: 'Ob dieser Test mit anderen verglichen werden darf.',
    mass: 'Die umgerechneten Zeiten und der Streckenplan im Testzustand.',
    dragArea: 'Was Wind und Luft ausmachten: keine umgerechneten Zeiten.',
    rolling: 'Was Steigung und Luft ausmachten: keine umgerechneten Zeiten.',
    slope: 'Was die Steigung ausmachte; die Strecke gilt als eben, und das wird gesagt.',
  },
});

/** Every gap in the order of the form; each field of a reading where the first reading without it stands. */
export function gapsOf(
  { conditions, massKg, car, road }: Day,
  house: Pick<House, 'language'>,
): readonly Gap[] {
  const words = WORDS(house);
  const gaps: Gap[] = [];
  if (conditions.length === 0) gaps.push({ field: 'conditions', says: words.noReading });
  const lacks = (field: keyof Reading, says: string): void => {
    const index = conditions.findIndex(reading => reading !== undefined && reading[field] === undefined);
    if (index >= 0) gaps.push({ field: `conditions.${index}.${field}`, says });
  };
  lacks('temperature_c', words.air);
  lacks('pressure_hpa', words.air);
  lacks('humidity_pct', words.humidity);
  lacks('wind_mps', words.wind);
  lacks('wind_from_deg', words.windFrom);
  lacks('surface', words.surface);
  if (massKg === undefined) gaps.push({ field: 'as_tested.mass_kg', says: words.mass });
  if (car && car.drag_area_m2 === undefined) gaps.push({ field: 'car.drag_area_m2', says: words.dragArea });
  if (car && car.rolling_resistance === undefined)
    gaps.push({ field: 'car.rolling_resistance', says: words.rolling });
  if (
    road &&
    road.slope_pct === undefined &&
    road.profile === undefined &&
    road.slope_from_logs === undefined
  )
    gaps.push({ field: 'road.slope_pct', says: words.slope });
  return gaps;
}
