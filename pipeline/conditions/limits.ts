/** Published limits of weather and road for coast-down and road tests, to set a day's conditions against. */

import { MPH_MPS } from '../units.ts';

export interface WeatherLimits {
  /** For the page that names them. */
  readonly source: string;
  readonly meanWindMps: number;
  readonly gustMps: number;
  readonly crosswindMps: number;
  /** Largest relative departure from the reference density. */
  readonly densityShare: number;
  /** Reference air, dry. */
  readonly pressurePa: number;
  readonly temperatureK: number;
  /** Height the wind is measured at, m. */
  readonly anemometerHeightM: number;
}

/** Weather of the former European coast-down procedure (German StVZO, annex to section 47, 3.9.2.3). */
export const EUROPEAN_COAST_DOWN: WeatherLimits = {
  source: 'European coast-down rules (German StVZO, annex, 3.9.2.3)',
  meanWindMps: 3,
  gustMps: 5,
  crosswindMps: 2,
  densityShare: 0.075,
  pressurePa: 100_000,
  temperatureK: 293.2,
  anemometerHeightM: 0.7,
};

/** What American rules for heavy vehicles ask of coast-downs (40 CFR 1066.310). */
export const AMERICAN_HEAVY_COAST_DOWN = {
  source: '40 CFR 1066.310',
  runs: 16,
  runsEachWay: 8,
  /** Advised, mean. */
  windMps: 6 * MPH_MPS,
  /** A steeper road must enter the analysis, a fraction. */
  modelledSlope: 0.0002,
} as const;

export interface Weather {
  readonly windMps?: number;
  readonly gustMps?: number;
  readonly crosswindMps?: number;
  readonly densityKgm3?: number;
}

/** What of the weather is beyond the limits; what is not known is not beyond, and is the caller's to say. */
export function beyondLimits(
  weather: Weather,
  limits: WeatherLimits,
  referenceDensityKgm3: number,
): readonly ('wind' | 'gusts' | 'crosswind' | 'density')[] {
  const { windMps = 0, gustMps = 0, crosswindMps = 0, densityKgm3 = referenceDensityKgm3 } = weather;
  return [
    ...(windMps > limits.meanWindMps ? (['wind'] as const) : []),
    ...(gustMps >= limits.gustMps ? (['gusts'] as const) : []),
    ...(Math.abs(crosswindMps) >= limits.crosswindMps ? (['crosswind'] as const) : []),
    ...(Math.abs(densityKgm3 / referenceDensityKgm3 - 1) > limits.densityShare ? (['density'] as const) : []),
  ];
}
