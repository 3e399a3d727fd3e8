/**
 * The only conversions between SI and the units people write and read.
 *
 * Everything inside the pipeline is SI with the unit in the name (`speedMps`, `distanceM`, `timeS`);
 * a value is converted once when it is read and once when it is displayed.
 * Exact factors: NIST SP 811, appendix B.
 */

/** Metres in one international foot, exact. */
export const FOOT_M = 0.3048;
/** Metres in one international mile, exact. */
export const MILE_M = 1609.344;
/** Metres per second in one mile per hour, exact. */
export const MPH_MPS = MILE_M / 3600;
/** Metres per second in one knot (1852 m per hour), exact. */
export const KNOT_MPS = 1852 / 3600;
/** Standard acceleration of free fall, m/s², exact (ISO 80000-3). */
export const STANDARD_GRAVITY_MPS2 = 9.80665;
/** Kelvin at 0 °C, exact. */
export const ZERO_CELSIUS_K = 273.15;

/** Distance the car covers before the `one-foot-rollout` clock and tape start, m. */
export const ROLLOUT_M = FOOT_M;

export const kmhToMps = (speedKmh: number): number => speedKmh / 3.6;
export const mpsToKmh = (speedMps: number): number => speedMps * 3.6;
export const mphToMps = (speedMph: number): number => speedMph * MPH_MPS;
export const mpsToMph = (speedMps: number): number => speedMps / MPH_MPS;
export const knotsToMps = (speedKn: number): number => speedKn * KNOT_MPS;
export const celsiusToKelvin = (temperatureC: number): number => temperatureC + ZERO_CELSIUS_K;
export const kelvinToCelsius = (temperatureK: number): number => temperatureK - ZERO_CELSIUS_K;
export const hpaToPa = (pressureHpa: number): number => pressureHpa * 100;
export const paToHpa = (pressurePa: number): number => pressurePa / 100;
export const degToRad = (angleDeg: number): number => (angleDeg * Math.PI) / 180;
export const radToDeg = (angleRad: number): number => (angleRad * 180) / Math.PI;
