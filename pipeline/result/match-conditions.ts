/** Air, wind, surface and slope during one attempt, and the flags that follow from the house's limits. */
import { airDensity } from '../conditions/air.ts';
import { densityAltitudeM } from '../conditions/atmosphere.ts';
import { windComponents } from '../conditions/wind.ts';
import { DAY_S } from '../content/calendar.ts';
import type { ConditionsContent, HouseContent, RoadContent } from '../content/schema.ts';
import { flag } from '../measurement/flag-words.ts';
import type { Flag } from '../measurement/measurement.ts';
import { celsiusToKelvin, hpaToPa } from '../units.ts';
import type { AttemptConditions } from './result.ts';

/** A reading with its time on the scale of the runs. */
export interface PlacedReading {
  readonly atS: number;
  readonly reading: ConditionsContent;
}

/** Puts the readings on the day on which the first of them is nearest to the first run. */
export function placeReadings(
  readings: readonly ConditionsContent[],
  readingsS: readonly number[],
  firstRunS: number | undefined,
): PlacedReading[] {
  const first = readingsS[0];
  const daysS =
    first === undefined || firstRunS === undefined ? 0 : Math.round((firstRunS - first) / DAY_S) * DAY_S;
  return readings.map((reading, i) => ({ reading, atS: (readingsS[i] ?? 0) + daysS }));
}

/** The last reading at or before an instant; the first one where there is none before, or no instant is known. */
export function readingBefore(readings: readonly PlacedReading[], atS: number | undefined): PlacedReading {
  const before = atS === undefined ? undefined : readings.findLast(reading => reading.atS <= atS);
  const chosen = before ?? readings[0];
  if (chosen === undefined) throw new RangeError('A test has at least one reading of its conditions');
  return chosen;
}

/** The direction an attempt was driven in: the noted one, or the only one there is. */
export function directionOf(
  road: RoadContent,
  noted: string | undefined,
): { readonly id: string; readonly name: string; readonly heading_deg: number } | undefined {
  if (noted === undefined) return road.directions.length === 1 ? road.directions[0] : undefined;
  return road.directions.find(direction => direction.id === noted);
}

/** Mean rise of the road in a direction, %; absent where the road file does not tell it or the direction is unknown. */
export function slopePct(road: RoadContent, directionId: string | undefined): number | undefined {
  const first = road.profile?.[0];
  const last = road.profile?.at(-1);
  const fromProfile =
    first && last && last[0] > first[0] ? (100 * (last[1] - first[1])) / (last[0] - first[0]) : undefined;
  const rise = road.slope_pct ?? fromProfile;
  if (rise === undefined || rise === 0) return rise;
  const index = road.directions.findIndex(direction => direction.id === directionId);
  return index < 0 ? undefined : index === 0 ? rise : -rise;
}

/** What one reading and the road say about an attempt, SI; anything not written down is absent. */
export function readingToConditions(
  reading: ConditionsContent,
  road: RoadContent,
  direction: { readonly id: string; readonly heading_deg: number } | undefined,
): AttemptConditions {
  const { temperature_c, pressure_hpa, humidity_pct, wind_mps, wind_from_deg } = reading;
  const slope = slopePct(road, direction?.id);
  return {
    readAt: reading.at,
    ...(temperature_c === undefined ? {} : { temperatureK: celsiusToKelvin(temperature_c) }),
    ...(pressure_hpa === undefined ? {} : { pressurePa: hpaToPa(pressure_hpa) }),
    ...(humidity_pct === undefined ? {} : { relativeHumidity: humidity_pct / 100 }),
    ...density(temperature_c, pressure_hpa, humidity_pct),
    ...(wind_mps === undefined ? {} : { windMps: wind_mps }),
    ...wind(wind_mps, wind_from_deg, direction?.heading_deg),
    ...(slope === undefined ? {} : { slopePct: slope }),
    ...(reading.surface === undefined ? {} : { surface: reading.surface }),
  };
}

function density(
  temperatureC: number | undefined,
  pressureHpa: number | undefined,
  humidityPct: number | undefined,
): Pick<AttemptConditions, 'densityKgm3' | 'densityBy' | 'densityAltitudeM'> {
  if (temperatureC === undefined || pressureHpa === undefined || humidityPct === undefined) return {};
  const { densityKgm3, by } = airDensity({
    temperatureK: celsiusToKelvin(temperatureC),
    pressurePa: hpaToPa(pressureHpa),
    relativeHumidity: humidityPct / 100,
  });
  return { densityKgm3, densityBy: by, densityAltitudeM: densityAltitudeM(densityKgm3) };
}

function wind(
  windMps: number | undefined,
  fromDeg: number | undefined,
  headingDeg: number | undefined,
): Pick<AttemptConditions, 'headwindMps' | 'crosswindMps'> {
  if (windMps === 0) return { headwindMps: 0, crosswindMps: 0 };
  if (windMps === undefined || fromDeg === undefined || headingDeg === undefined) return {};
  return windComponents(windMps, fromDeg, headingDeg);
}

/** Flags of what lies beyond the house's limits; without a limit there is no flag. */
export function conditionsToFlags(conditions: AttemptConditions, limits: HouseContent['limits']): Flag[] {
  const flags: Flag[] = [];
  const { windMps, slopePct: slope } = conditions;
  if (limits?.wind_mps !== undefined && windMps !== undefined && windMps > limits.wind_mps) {
    flags.push(flag('wind', { mps: windMps, limitMps: limits.wind_mps }));
  }
  if (limits?.slope_pct !== undefined && slope !== undefined && Math.abs(slope) > limits.slope_pct) {
    flags.push(flag('slope', { risePct: slope, limitPct: limits.slope_pct }));
  }
  return flags;
}
