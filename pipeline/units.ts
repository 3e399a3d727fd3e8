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

/** Kilograms in one avoirdupois pound, exact. */
export const POUND_KG = 0.45359237;
/** Watts in one mechanical horsepower, 550 ft·lbf/s, exact. */
export const HORSEPOWER_W = 550 * FOOT_M * POUND_KG * STANDARD_GRAVITY_MPS2;
/** Watts in one metric horsepower, 75 kgf·m/s, exact. */
export const METRIC_HORSEPOWER_W = 75 * STANDARD_GRAVITY_MPS2;
/** Newton metres in one pound-force foot, exact. */
export const POUND_FORCE_FOOT_NM = POUND_KG * STANDARD_GRAVITY_MPS2 * FOOT_M;
/** Pascals in one pound-force per square inch, exact. */
export const PSI_PA = (POUND_KG * STANDARD_GRAVITY_MPS2) / (FOOT_M / 12) ** 2;

export const feetToM = (lengthFt: number): number => lengthFt * FOOT_M;
export const mToFeet = (lengthM: number): number => lengthM / FOOT_M;
export const kwToW = (powerKw: number): number => powerKw * 1000;
export const wToHorsepower = (powerW: number): number => powerW / HORSEPOWER_W;
export const wToMetricHorsepower = (powerW: number): number => powerW / METRIC_HORSEPOWER_W;
export const kgToPounds = (massKg: number): number => massKg / POUND_KG;
export const nmToPoundForceFeet = (torqueNm: number): number => torqueNm / POUND_FORCE_FOOT_NM;
export const paToPsi = (pressurePa: number): number => pressurePa / PSI_PA;
