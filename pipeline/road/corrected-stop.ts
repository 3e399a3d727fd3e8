/** A stopping distance from nearly the stated speed, set to that speed; the measured one is printed beside it. */

/**
 * Least share of the stated speed from which a stop may be taken for one from that speed: UN Regulation No. 13-H,
 * Annex 3, 1.1.2 asks for 98 %. As far above is our own limit.
 */
export const CORRECTED_FROM_SHARE = 0.98;
export const CORRECTED_TO_SHARE = 2 - CORRECTED_FROM_SHARE;

export interface CorrectedStop {
  readonly measuredM: number;
  /** Speed at which the brake was put on, m/s. */
  readonly measuredMps: number;
  readonly statedMps: number;
  readonly correctedM: number;
}

/**
 * s · (stated / measured)², metres: energy goes with the square of speed. The build-up of the brakes goes with speed
 * alone, so that a stop with a long build-up is corrected a little too much; over 2 % of speed and 0.2 s of build-up
 * that is about 0.05 m. Undefined where the speeds lie further apart than the limits above.
 */
export function correctedStop(
  measuredM: number,
  measuredMps: number,
  statedMps: number,
): CorrectedStop | undefined {
  const share = measuredMps / statedMps;
  // A speed of exactly 98 % is in, whatever the last bits of its conversion.
  if (!(share >= CORRECTED_FROM_SHARE - 1e-9 && share <= CORRECTED_TO_SHARE + 1e-9)) return undefined;
  return { measuredM, measuredMps, statedMps, correctedM: measuredM / (share * share) };
}
