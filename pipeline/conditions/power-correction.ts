/**
 * Factors that restate an engine's power for reference air. They are for power measured on a bench: times on
 * the road are never multiplied by them. Outside a standard's own limits there is a refusal, not a factor.
 *
 * The texts of the standards were not at hand; formulas and limits are as quoted in makers' manuals and
 * training slides, and agree with UN R85, annex 5, as far as that could be compared.
 */

import { type PowerRefusal, type PowerStandard, refusalInWords } from './power-words.ts';

export interface EngineAir {
  /** Of the air the engine draws, K. */
  readonly temperatureK: number;
  /** Total pressure less vapour pressure, Pa. */
  readonly dryPressurePa: number;
}

export type PowerCorrection =
  | { readonly allowed: true; readonly factor: number }
  | {
      readonly allowed: false;
      /** Which limit stands against it. */
      readonly refused: 'temperature' | 'pressure' | 'factor' | 'engine';
      readonly refusal: PowerRefusal;
      /** In English; `refusalInWords` says it in other languages. */
      readonly reason: string;
      /** What the formula would have given; for tests and explanations, not for use. */
      readonly factor?: number;
    };

interface Limits {
  readonly standard: PowerStandard;
  readonly factor: readonly [number, number];
  readonly temperatureK?: readonly [number, number];
  readonly pressurePa?: readonly [number, number];
}

const within = (value: number, [low, high]: readonly [number, number]): boolean =>
  value >= low && value <= high;

const refusedFor = (refusal: PowerRefusal, factor?: number): PowerCorrection => ({
  allowed: false,
  refused: refusal.of,
  refusal,
  reason: refusalInWords(refusal, 'en'),
  ...(factor === undefined ? {} : { factor }),
});

function limited(factor: number, air: EngineAir, limits: Limits): PowerCorrection {
  const { standard, temperatureK, pressurePa } = limits;
  const refuse = (
    of: 'temperature' | 'pressure' | 'factor',
    [from, to]: readonly [number, number],
    found: number,
  ): PowerCorrection => refusedFor({ of, standard, from, to, found }, factor);
  if (temperatureK && !within(air.temperatureK, temperatureK)) {
    return refuse('temperature', temperatureK, air.temperatureK);
  }
  if (pressurePa && !within(air.dryPressurePa, pressurePa)) {
    const [low, high] = pressurePa;
    return refuse('pressure', [low / 1000, high / 1000], air.dryPressurePa / 1000);
  }
  if (!within(factor, limits.factor)) return refuse('factor', limits.factor, factor);
  return { allowed: true, factor };
}

/** Dry reference pressure of ISO 1585 and SAE J1349: 100 kPa less 1 kPa vapour, Pa. */
const REFERENCE_DRY_PA = 99_000;
/** Their reference temperature, K. */
const REFERENCE_K = 298;

/** ISO 1585, spark ignition without boost: (99/pd)^1.2 (T/298)^0.6; 0.93–1.07, 288–308 K, 80–110 kPa. */
export function iso1585SparkIgnition(air: EngineAir): PowerCorrection {
  const factor = (REFERENCE_DRY_PA / air.dryPressurePa) ** 1.2 * (air.temperatureK / REFERENCE_K) ** 0.6;
  return limited(factor, air, {
    standard: 'iso-1585-spark-ignition',
    factor: [0.93, 1.07],
    temperatureK: [288, 308],
    pressurePa: [80_000, 110_000],
  });
}

export type DieselCharging = 'none' | 'mechanical' | 'turbo' | 'turbo-liquid-cooled';

/**
 * Engine factor fm of the diesel formula: 0.036 qc − 1.14 between 37.2 and 65 mg per litre and cycle, 0.2 below,
 * 1.2 above (limits as a maker's manual gives them for ISO 1585).
 * @param deliveryMgPerLitreCycle fuel delivered a cycle and litre of swept volume, over the boost ratio.
 */
export function dieselEngineFactor(deliveryMgPerLitreCycle: number): number {
  if (deliveryMgPerLitreCycle < 37.2) return 0.2;
  if (deliveryMgPerLitreCycle > 65) return 1.2;
  return 0.036 * deliveryMgPerLitreCycle - 1.14;
}

/**
 * Atmospheric factor fa of the diesel formula by the way air is brought in. For a turbo without liquid cooling
 * the exponent of temperature is 1.2 as makers quote ISO 1585, and 1.5 in UN R85 (from memory): the first is used
 * unless told.
 */
export function dieselAtmosphericFactor(
  air: EngineAir,
  charging: DieselCharging,
  turboTemperatureExponent: 1.2 | 1.5 = 1.2,
): number {
  const pressure = REFERENCE_DRY_PA / air.dryPressurePa;
  const temperature = air.temperatureK / REFERENCE_K;
  if (charging === 'none' || charging === 'mechanical') return pressure * temperature ** 0.7;
  return pressure ** 0.7 * temperature ** (charging === 'turbo' ? turboTemperatureExponent : 0.7);
}

/** ISO 1585, compression ignition: fa^fm; 0.9–1.1, 283–313 K, 80–110 kPa. */
export function iso1585Diesel(
  air: EngineAir,
  charging: DieselCharging,
  deliveryMgPerLitreCycle: number,
  turboTemperatureExponent: 1.2 | 1.5 = 1.2,
): PowerCorrection {
  const factor =
    dieselAtmosphericFactor(air, charging, turboTemperatureExponent) **
    dieselEngineFactor(deliveryMgPerLitreCycle);
  return limited(factor, air, {
    standard: 'iso-1585-diesel',
    factor: [0.9, 1.1],
    temperatureK: [283, 313],
    pressurePa: [80_000, 110_000],
  });
}

/** SAE J1349 (1990), spark ignition without boost: 1.180 (99/pd) √((t + 273)/298) − 0.180; 0.93–1.07 (from memory). */
export function saeJ1349SparkIgnition(air: EngineAir): PowerCorrection {
  // The formula adds 273, not 273.15, to a temperature in °C.
  const formulaK = air.temperatureK - 0.15;
  const factor = 1.18 * (REFERENCE_DRY_PA / air.dryPressurePa) * Math.sqrt(formulaK / REFERENCE_K) - 0.18;
  return limited(factor, air, { standard: 'sae-j1349', factor: [0.93, 1.07] });
}

/** DIN 70020, spark ignition: (1013.25/p) √(T/293.15) of total pressure; no limits of its own are known here. */
export function din70020(temperatureK: number, totalPressurePa: number): number {
  return (101_325 / totalPressurePa) * Math.sqrt(temperatureK / 293.15);
}

/**
 * The correction used unless a publication asks for another: ISO 1585 for petrol engines without boost, none for
 * the rest. A boosted petrol engine that controls its absolute boost cancels most of the change in ambient air, so
 * a full correction overstates it; a diesel needs its fuel delivery, which road tests do not have.
 */
export function defaultPowerCorrection(
  drive: 'electric' | 'petrol' | 'petrol-boosted' | 'diesel' | 'diesel-boosted',
  air: EngineAir,
): PowerCorrection {
  if (drive === 'petrol') return iso1585SparkIgnition(air);
  return refusedFor({ of: 'engine', engine: drive === 'diesel-boosted' ? 'diesel' : drive });
}
