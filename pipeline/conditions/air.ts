/** Density of the air a car drives through, from temperature, pressure at the road and relative humidity. */
import { exp } from '../elementary.ts';
import { hpaToPa, kelvinToCelsius } from '../units.ts';
import { DRY_AIR_GAS_CONSTANT } from './atmosphere.ts';

export interface AirState {
  readonly temperatureK: number;
  /** At the road, not reduced to sea level, Pa. */
  readonly pressurePa: number;
  /** 0 to 1. */
  readonly relativeHumidity: number;
}

export interface AirDensity {
  readonly densityKgm3: number;
  /** The formula it was worked out by. */
  readonly by: 'cipm-2007' | 'ideal-gas';
}

/** Formulas of saturation vapour pressure over water; they differ by up to 0.3 %, so a figure names its own. */
export type VapourFormula = 'buck-1996' | 'magnus-wmo' | 'cipm-2007';

const SATURATION_PA: Readonly<Record<VapourFormula, (temperatureK: number) => number>> = {
  // Buck Research CR-1A manual, appendix 1 (1996).
  'buck-1996': temperatureK => {
    const t = kelvinToCelsius(temperatureK);
    return hpaToPa(6.1121 * exp((18.678 - t / 234.5) * (t / (257.14 + t))));
  },
  // WMO Guide to Instruments and Methods of Observation (WMO-No. 8), annex 4.B.
  'magnus-wmo': temperatureK => {
    const t = kelvinToCelsius(temperatureK);
    return hpaToPa(6.112 * exp((17.62 * t) / (243.12 + t)));
  },
  // Picard et al., Metrologia 45 (2008) 149, equation A1.1.
  'cipm-2007': temperatureK =>
    exp(
      1.2378847e-5 * temperatureK * temperatureK -
        1.9121316e-2 * temperatureK +
        33.93711047 -
        6.3431645e3 / temperatureK,
    ),
};

/** Saturation vapour pressure over water, Pa; Buck 1996 unless told. */
export function saturationVapourPressurePa(
  temperatureK: number,
  formula: VapourFormula = 'buck-1996',
): number {
  return SATURATION_PA[formula](temperatureK);
}

function checkState({ temperatureK, pressurePa, relativeHumidity }: AirState): void {
  if (!(temperatureK > 0 && temperatureK < 1000)) throw new RangeError(`No air is at ${temperatureK} K`);
  if (!(pressurePa > 0 && pressurePa < 1e7)) throw new RangeError(`No road is under ${pressurePa} Pa`);
  if (!(relativeHumidity >= 0 && relativeHumidity <= 1)) {
    throw new RangeError(`Relative humidity is a fraction from 0 to 1, not ${relativeHumidity}`);
  }
}

/** Amount fraction of carbon dioxide taken where it is not measured (CIPM-2007, section 2). */
const CO2_FRACTION = 0.0004;
/** Molar gas constant used by CIPM-2007 (CODATA 2006), J/(mol·K). */
const MOLAR_GAS_CONSTANT = 8.314472;
/** Molar mass of water, kg/mol. */
const WATER_KG_PER_MOL = 18.01528e-3;

export interface Cipm2007 {
  readonly densityKgm3: number;
  readonly saturationPa: number;
  /** Enhancement factor f. */
  readonly enhancement: number;
  /** Mole fraction of water vapour. */
  readonly vapourFraction: number;
  /** Compressibility factor Z. */
  readonly compressibility: number;
}

/**
 * Moist air by the CIPM-2007 equation with its intermediate values, whatever the range.
 * Picard, Davis, Gläser, Fujii: Metrologia 45 (2008) 149–155, equation 1 and appendix A.
 */
export function cipm2007Air(state: AirState, co2Fraction = CO2_FRACTION): Cipm2007 {
  checkState(state);
  const { temperatureK: T, pressurePa: p, relativeHumidity } = state;
  const t = kelvinToCelsius(T);
  const saturationPa = saturationVapourPressurePa(T, 'cipm-2007');
  const enhancement = 1.00062 + 3.14e-8 * p + 5.6e-7 * t * t;
  const x = (relativeHumidity * enhancement * saturationPa) / p;
  const compressibility =
    1 -
    (p / T) *
      (1.58123e-6 -
        2.9331e-8 * t +
        1.1043e-10 * t * t +
        (5.707e-6 - 2.051e-8 * t) * x +
        (1.9898e-4 - 2.376e-6 * t) * x * x) +
    (p / T) ** 2 * (1.83e-11 - 0.765e-8 * x * x);
  const dryKgPerMol = 28.96546e-3 + 12.011e-3 * (co2Fraction - CO2_FRACTION);
  const densityKgm3 =
    ((p * dryKgPerMol) / (compressibility * MOLAR_GAS_CONSTANT * T)) *
    (1 - x * (1 - WATER_KG_PER_MOL / dryKgPerMol));
  return { densityKgm3, saturationPa, enhancement, vapourFraction: x, compressibility };
}

/** Specific gas constant of water vapour, J/(kg·K). */
const VAPOUR_GAS_CONSTANT = 461.495;

/** Moist air as a mixture of two ideal gases, kg/m³; vapour pressure by Buck 1996 unless told. */
export function idealGasDensityKgm3(state: AirState, formula: VapourFormula = 'buck-1996'): number {
  checkState(state);
  const vapourPa = state.relativeHumidity * saturationVapourPressurePa(state.temperatureK, formula);
  return (
    ((state.pressurePa - vapourPa) / DRY_AIR_GAS_CONSTANT + vapourPa / VAPOUR_GAS_CONSTANT) /
    state.temperatureK
  );
}

/** Pressure of the air without its vapour, Pa, as power corrections want it. */
export function dryPressurePa(state: AirState, formula: VapourFormula = 'buck-1996'): number {
  checkState(state);
  return state.pressurePa - state.relativeHumidity * saturationVapourPressurePa(state.temperatureK, formula);
}

/** Where CIPM-2007 stands, ends included; from its paper's section 1. */
export const CIPM_2007_RANGE = {
  lowestK: 288.15,
  highestK: 300.15,
  lowestPa: 60_000,
  highestPa: 110_000,
} as const;

/**
 * Air density: CIPM-2007 from 15 to 27 °C and 600 to 1100 hPa, otherwise two ideal gases with Buck 1996.
 * Where the two meet they differ by less than 0.1 %. @throws RangeError where a value is outside all sense.
 */
export function airDensity(state: AirState): AirDensity {
  checkState(state);
  const { temperatureK, pressurePa } = state;
  const inside =
    temperatureK >= CIPM_2007_RANGE.lowestK &&
    temperatureK <= CIPM_2007_RANGE.highestK &&
    pressurePa >= CIPM_2007_RANGE.lowestPa &&
    pressurePa <= CIPM_2007_RANGE.highestPa;
  return inside
    ? { densityKgm3: cipm2007Air(state).densityKgm3, by: 'cipm-2007' }
    : { densityKgm3: idealGasDensityKgm3(state), by: 'ideal-gas' };
}
