/** What a restated run is restated for: a level road, still air at 20 °C and 100 kPa, dry. */
import { type AirState, airDensity } from './air.ts';

/**
 * Reference air of the European coast-down rules (German StVZO, annex, 3.9.2.3; UN R83 carries the same, from
 * memory): 100 kPa and 20 °C, dry. The rules print 293.2 K for 20 °C.
 */
export const REFERENCE_AIR: AirState = { temperatureK: 293.15, pressurePa: 100_000, relativeHumidity: 0 };

/** Its density by the same formula as the day's air, kg/m³. */
export const REFERENCE_DENSITY_KGM3: number = airDensity(REFERENCE_AIR).densityKgm3;
