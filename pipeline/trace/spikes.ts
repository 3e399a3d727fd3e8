/** Readings no car could make from its neighbours. They are left out of the arithmetic and told, not mended. */
import { STANDARD_GRAVITY_MPS2 } from '../units.ts';
import { medianOf } from './least-squares.ts';

/** Change of speed beyond this, both into a reading and out of it the other way, is no car's. */
export const SPIKE_LIMIT_MPS2 = 2 * STANDARD_GRAVITY_MPS2;
/** Longest run of wrong readings taken for a spike. */
export const SPIKE_LONGEST_READINGS = 2;
/** Allowance for noise, in standard deviations of the difference of two readings. */
const SPIKE_NOISE_SDS = 6;

/** Indices of spikes, in order. The first and the last reading cannot be judged and are never spikes. */
export function findSpikes(timeS: Float64Array, speedMps: Float64Array, stepMps = 0): number[] {
  const allowance = SPIKE_NOISE_SDS * differenceNoise(speedMps) + 2 * stepMps;
  const jump = (from: number, to: number): number => {
    const change = speedMps[to]! - speedMps[from]!;
    const possible = SPIKE_LIMIT_MPS2 * (timeS[to]! - timeS[from]!) + allowance;
    return Math.abs(change) > possible ? Math.sign(change) : 0;
  };
  const spikes: number[] = [];
  for (let i = 1; i < speedMps.length - 1; i++) {
    const into = jump(i - 1, i);
    if (into === 0) continue;
    for (let length = 1; length <= SPIKE_LONGEST_READINGS && i + length < speedMps.length; length++) {
      // The neighbours must agree with each other, or it is the car that changed and not the reading.
      if (jump(i + length - 1, i + length) !== -into || jump(i - 1, i + length) !== 0) continue;
      for (let k = 0; k < length; k++) spikes.push(i + k);
      i += length;
      break;
    }
  }
  return spikes;
}

/** Robust standard deviation of the difference of two neighbouring readings of a still signal, m/s. */
function differenceNoise(speedMps: Float64Array): number {
  const second = new Float64Array(Math.max(0, speedMps.length - 2));
  for (let i = 1; i < speedMps.length - 1; i++) {
    second[i - 1] = Math.abs(speedMps[i + 1]! - 2 * speedMps[i]! + speedMps[i - 1]!);
  }
  // A second difference has variance 6σ², a first difference 2σ²; 1.4826 turns a median into a normal's σ.
  return second.length === 0 ? 0 : (1.4826 * medianOf(second)) / Math.sqrt(3);
}
