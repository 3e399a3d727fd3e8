/** The standard atmosphere of ISO 2533:1975 (the same as ICAO Doc 7488), troposphere only. */
import { STANDARD_GRAVITY_MPS2 } from '../units.ts';

/** Sea-level temperature, K. */
const SEA_LEVEL_TEMPERATURE_K = 288.15;
/** Sea-level pressure, Pa. */
export const SEA_LEVEL_PRESSURE_PA = 101_325;
/** Fall of temperature with geopotential altitude, K/m. */
const LAPSE_K_PER_M = 0.0065;
/** Specific gas constant of dry air, J/(kg·K). */
export const DRY_AIR_GAS_CONSTANT = 287.05287;
/** Exponent of the pressure law, g/(R·L). */
const PRESSURE_EXPONENT = STANDARD_GRAVITY_MPS2 / (DRY_AIR_GAS_CONSTANT * LAPSE_K_PER_M);
/** Altitudes the law stands for here, geopotential metres. */
const LOWEST_M = -5000;
const HIGHEST_M = 11_000;

export interface StandardAir {
  readonly temperatureK: number;
  readonly pressurePa: number;
  readonly densityKgm3: number;
}

/** Air of the standard atmosphere at a geopotential altitude, m. @throws RangeError outside −5000 to 11 000 m. */
export function standardAtmosphere(altitudeM: number): StandardAir {
  if (!(altitudeM >= LOWEST_M && altitudeM <= HIGHEST_M)) {
    throw new RangeError(`The troposphere reaches from ${LOWEST_M} to ${HIGHEST_M} m, not to ${altitudeM} m`);
  }
  const temperatureK = SEA_LEVEL_TEMPERATURE_K - LAPSE_K_PER_M * altitudeM;
  const pressurePa = SEA_LEVEL_PRESSURE_PA * (temperatureK / SEA_LEVEL_TEMPERATURE_K) ** PRESSURE_EXPONENT;
  return { temperatureK, pressurePa, densityKgm3: pressurePa / (DRY_AIR_GAS_CONSTANT * temperatureK) };
}

/** Geopotential altitude, m, from how far a quantity that goes with a power of temperature has fallen. */
function altitudeFor(ratio: number, exponent: number): number {
  const altitudeM = (SEA_LEVEL_TEMPERATURE_K / LAPSE_K_PER_M) * (1 - ratio ** (1 / exponent));
  if (!(altitudeM >= LOWEST_M && altitudeM <= HIGHEST_M)) {
    throw new RangeError(`No altitude of the troposphere has air like this (${altitudeM} m)`);
  }
  return altitudeM;
}

/**
 * Density altitude: where the standard atmosphere has this density, geopotential metres.
 * @throws RangeError outside −5000 to 11 000 m.
 */
export function densityAltitudeM(densityKgm3: number): number {
  const seaLevel = SEA_LEVEL_PRESSURE_PA / (DRY_AIR_GAS_CONSTANT * SEA_LEVEL_TEMPERATURE_K);
  return altitudeFor(densityKgm3 / seaLevel, PRESSURE_EXPONENT - 1);
}

/** Where the standard atmosphere has this pressure, geopotential metres. @throws RangeError as `densityAltitudeM`. */
export function pressureAltitudeM(pressurePa: number): number {
  return altitudeFor(pressurePa / SEA_LEVEL_PRESSURE_PA, PRESSURE_EXPONENT);
}
