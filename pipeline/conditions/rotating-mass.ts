/** Share by which what turns adds to a car's mass while it pulls, where only drive and speed are known. */
import type { Drive } from './circumstances.ts';

/** Wheels and driveline alone: the constant of the handbook formula 1.04 + 0.0025 i² (Wong; Gillespie; from memory). */
const WHEELS_SHARE = 0.04;
/** Its factor of the overall ratio squared: what turns with the engine. */
const ENGINE_SHARE = 0.0025;
/** One gear and a motor: about 0.05 (common practice, no source). */
const ELECTRIC_SHARE = 0.05;
/** Overall ratio of a usual first gear (common practice, no source). */
const FIRST_RATIO = 13;
/** Tyre radius of a usual car, m. */
const RADIUS_M = 0.32;
/**
 * Mean engine speed of a full pull through the gears, rad/s: 85 % of where the engine gives its greatest power,
 * about 6000 rpm for petrol and 4000 rpm for diesel (common practice, no source).
 */
const PULLING_RADPS = { petrol: (0.85 * 6000 * Math.PI) / 30, diesel: (0.85 * 4000 * Math.PI) / 30 };

/** Relative standard uncertainty of the engine's share; of an electric car's whole share. */
export const ROTATING_UNCERTAINTY = 0.3;

export interface RotatingShare {
  /** Known well. */
  readonly wheels: number;
  /** Known to about `ROTATING_UNCERTAINTY`. */
  readonly engine: number;
}

/**
 * Apparent extra mass over mass at a speed. Below the speed at which first gear runs at full engine speed the
 * clutch may slip or the tyres may be at their limit, where the engine's inertia does not hold the car back: half
 * of first gear's share is taken there.
 */
export function rotatingShare(drive: Drive, speedMps: number, knownFactor?: number): RotatingShare {
  if (knownFactor !== undefined) return { wheels: knownFactor - 1, engine: 0 };
  if (drive === 'electric') return { wheels: 0, engine: ELECTRIC_SHARE };
  const ratio = overallRatio(drive, speedMps);
  const engine = inFirstGear(drive, speedMps)
    ? (ENGINE_SHARE * FIRST_RATIO * FIRST_RATIO) / 2
    : ENGINE_SHARE * ratio * ratio;
  return { wheels: WHEELS_SHARE, engine };
}

/** Ratio at which the engine pulls at its mean speed, whatever the gears are. */
function overallRatio(drive: Drive, speedMps: number): number {
  const engineRadps = drive.startsWith('petrol') ? PULLING_RADPS.petrol : PULLING_RADPS.diesel;
  return (engineRadps * RADIUS_M) / Math.max(speedMps, 0.1);
}

/** Whether a car with gears is most likely in its first at a speed, full out. */
export const inFirstGear = (drive: Drive, speedMps: number): boolean =>
  drive !== 'electric' && overallRatio(drive, speedMps) >= FIRST_RATIO;
