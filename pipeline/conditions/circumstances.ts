/** What is known of a run's car, air, wind and road, how well, and what of it is missing. */

import type { AirState } from './air.ts';
import { airDensity } from './air.ts';
import type { NeededFact } from './restate-words.ts';
import type { SlopeProfile } from './slope.ts';

export type Drive = 'electric' | 'petrol' | 'petrol-boosted' | 'diesel' | 'diesel-boosted';

/** Facts a run is restated from, SI; anything not known is absent and never guessed. */
export interface RunCircumstances {
  readonly car: {
    /** As tested, with people and gear. */
    readonly massKg?: number;
    /** Drag coefficient times frontal area, m². */
    readonly dragAreaM2?: number;
    /** Rolling resistance over weight; needed only where power is corrected, since it cancels otherwise. */
    readonly rollingResistance?: number;
    readonly drive?: Drive;
    /** Apparent mass over mass, such as 1.05, where known; otherwise estimated from drive and speed. */
    readonly rotatingMassFactor?: number;
  };
  readonly air: {
    readonly temperatureK?: number;
    /** At the road, Pa. */
    readonly pressurePa?: number;
    /** 0 to 1. */
    readonly relativeHumidity?: number;
  };
  /** Mean along the run, positive against the car, m/s. */
  readonly headwindMps?: number;
  /** From the run's own start, in the car's direction. */
  readonly road?: SlopeProfile;
  /** Standard uncertainties that are known better than `DEFAULT_UNCERTAINTY`. */
  readonly uncertainty?: Partial<InputUncertainty>;
}

/** Standard uncertainties of what goes into a restated figure. */
export interface InputUncertainty {
  /** Relative. */
  readonly mass: number;
  /** Relative. */
  readonly dragArea: number;
  readonly headwindMps: number;
  /** A fraction, the same all along the run. */
  readonly slope: number;
  /** Relative. */
  readonly density: number;
}

/**
 * Taken where nothing better is stated; our own estimates, each with its reason.
 * Mass: a public weighbridge reads in steps of 10 or 20 kg and fuel burns away: 1 %.
 * Drag area: makers round the coefficient to two digits and quote the sleekest version: 5 %.
 * Wind: the mean at one place over some minutes is not that along the run: 0.5 m/s (gusts are not modelled).
 * Slope: a builder's level or a map gives about 0.1 m in 100 m: 0.05 % of distance as a standard deviation.
 * Density: 1 K, 1 hPa and 10 % of humidity at fault together give 0.4 %.
 */
export const DEFAULT_UNCERTAINTY: InputUncertainty = {
  mass: 0.01,
  dragArea: 0.05,
  headwindMps: 0.5,
  slope: 0.0005,
  density: 0.004,
};

/** Beyond these a run is not restated: the method has not been shown to hold there (our own limits). */
export interface RestateLimits {
  readonly headwindMps: number;
  /** Steepest mean rise or fall over 50 m, a fraction. */
  readonly slope: number;
  /** Departure of density from the reference, relative. */
  readonly densityShare: number;
}
export const RESTATE_LIMITS: RestateLimits = { headwindMps: 6, slope: 0.02, densityShare: 0.25 };

/** Facts with nothing missing. */
export interface KnownCircumstances {
  readonly massKg: number;
  readonly dragAreaM2: number;
  readonly rollingResistance: number;
  readonly drive: Drive;
  readonly rotatingMassFactor?: number;
  readonly air: AirState;
  readonly densityKgm3: number;
  readonly headwindMps: number;
  readonly road: SlopeProfile;
  readonly uncertainty: InputUncertainty;
}

/** Everything needed, or what of it is not known. */
export function knownCircumstances(
  circumstances: RunCircumstances,
): { readonly known: KnownCircumstances } | { readonly missing: readonly NeededFact[] } {
  const { car, air, headwindMps, road } = circumstances;
  const needed = {
    massKg: car.massKg,
    dragAreaM2: car.dragAreaM2,
    drive: car.drive,
    // Only the power correction asks for the whole force; elsewhere the day's and the reference's rolling cancel.
    rollingResistance: car.drive === 'petrol' ? car.rollingResistance : (car.rollingResistance ?? 0),
    temperatureK: air.temperatureK,
    pressurePa: air.pressurePa,
    relativeHumidity: air.relativeHumidity,
    headwindMps,
    road,
  };
  const missing = (Object.keys(needed) as (keyof typeof needed)[]).filter(
    name => needed[name] === undefined || Number.isNaN(needed[name]),
  );
  if (missing.length > 0) return { missing };
  const whole = needed as { [K in keyof typeof needed]-?: NonNullable<(typeof needed)[K]> };
  const state: AirState = {
    temperatureK: whole.temperatureK,
    pressurePa: whole.pressurePa,
    relativeHumidity: whole.relativeHumidity,
  };
  return {
    known: {
      massKg: whole.massKg,
      dragAreaM2: whole.dragAreaM2,
      rollingResistance: whole.rollingResistance,
      drive: whole.drive,
      ...(car.rotatingMassFactor === undefined ? {} : { rotatingMassFactor: car.rotatingMassFactor }),
      air: state,
      densityKgm3: airDensity(state).densityKgm3,
      headwindMps: whole.headwindMps,
      road: whole.road,
      uncertainty: { ...DEFAULT_UNCERTAINTY, ...circumstances.uncertainty },
    },
  };
}
