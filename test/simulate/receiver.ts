/** A satellite speed receiver and its recorder: samples the truth with noise, steps, lag and losses. */
import type { Random } from './random.ts';
import type { Trajectory } from './trajectory.ts';

export interface Receiver {
  readonly rateHz: number;
  /** Standard deviation of one speed reading, m/s. */
  readonly noiseMps: number;
  /** Smallest step of the recorder, m/s; no rounding where absent. */
  readonly stepMps?: number;
  /** Time constant of a first-order filter in the receiver, s. */
  readonly lagS?: number;
  /** Standard deviation of the time stamps, s; never as much as half an interval. */
  readonly jitterS?: number;
  /** Nothing is written between these times of the drive, s. */
  readonly dropouts?: readonly { readonly fromS: number; readonly toS: number }[];
  /** One reading each, replaced by this speed. */
  readonly spikes?: readonly { readonly atS: number; readonly speedMps: number }[];
  /** Standard deviation of the slow wander of position, m. */
  readonly wanderM?: number;
  /** Where the line of the road is. */
  readonly origin?: {
    readonly latitudeDeg: number;
    readonly longitudeDeg: number;
    readonly altitudeM: number;
  };
  /** Satellites in ordinary view. */
  readonly satellites?: number;
}

/** Struct of arrays; time is seconds of the drive, the first sample at 0. */
export interface Samples {
  readonly timeS: Float64Array<ArrayBuffer>;
  readonly speedMps: Float64Array<ArrayBuffer>;
  readonly stepMps?: number;
  readonly latitudeDeg: Float64Array<ArrayBuffer>;
  readonly longitudeDeg: Float64Array<ArrayBuffer>;
  readonly altitudeM: Float64Array<ArrayBuffer>;
  readonly courseDeg: Float64Array<ArrayBuffer>;
  readonly satellites: Float64Array<ArrayBuffer>;
  readonly hdop: Float64Array<ArrayBuffer>;
}

const DEFAULT_ORIGIN = { latitudeDeg: 52.4, longitudeDeg: -1.2, altitudeM: 92 };
const WGS84_A_M = 6_378_137;
const WGS84_E2 = 0.006_694_379_990_141_317;
const DEG = 180 / Math.PI;
/** Position wander has this time constant, s. */
const WANDER_S = 60;
const FILTER_STEP_S = 0.002;

/** Metres in one degree of latitude and of longitude at a place on WGS 84. */
function metresADegree(latitudeDeg: number): { north: number; east: number } {
  const sine = Math.sin(latitudeDeg / DEG);
  const w = 1 - WGS84_E2 * sine * sine;
  const prime = WGS84_A_M / Math.sqrt(w);
  return {
    north: (prime * (1 - WGS84_E2)) / w / DEG,
    east: (prime * Math.cos(latitudeDeg / DEG)) / DEG,
  };
}

/** Reads the truth in the order of time, with the receiver's filter where it has one. */
function filteredSpeed(path: Trajectory, lagS: number): (timeS: number) => number {
  let node = 0;
  const exact = (timeS: number): number => {
    while (node < path.count - 2 && path.timeS[node + 1]! <= timeS) node += 1;
    const from = path.timeS[node]!;
    const step = path.timeS[node + 1]! - from;
    const share = step > 0 ? Math.min(1, Math.max(0, (timeS - from) / step)) : 0;
    return path.speedMps[node]! + share * (path.speedMps[node + 1]! - path.speedMps[node]!);
  };
  if (lagS <= 0) return exact;
  let atS = 0;
  let input = exact(0);
  let output = input;
  const advance = (toS: number): void => {
    const step = toS - atS;
    if (step <= 0) return;
    const next = exact(toS);
    // Exact answer of a first-order lag to an input that is linear over the step.
    const slope = (next - input) / step;
    output = next - slope * lagS + (output - input + slope * lagS) * Math.exp(-step / lagS);
    input = next;
    atS = toS;
  };
  return timeS => {
    while (timeS - atS > FILTER_STEP_S) advance(atS + FILTER_STEP_S);
    advance(timeS);
    return output;
  };
}

/** Samples a whole drive. */
export function receive(path: Trajectory, receiver: Receiver, random: Random): Samples {
  const interval = 1 / receiver.rateHz;
  const endS = path.timeS[path.count - 1]!;
  const most = Math.floor(endS * receiver.rateHz + 1e-9) + 1;
  const column = (): Float64Array<ArrayBuffer> => new Float64Array(most);
  const out = {
    timeS: column(),
    speedMps: column(),
    latitudeDeg: column(),
    longitudeDeg: column(),
    altitudeM: column(),
    courseDeg: column(),
    satellites: column(),
    hdop: column(),
  };
  const origin = receiver.origin ?? DEFAULT_ORIGIN;
  const degree = metresADegree(origin.latitudeDeg);
  const speedAt = filteredSpeed(path, receiver.lagS ?? 0);
  const wanderM = receiver.wanderM ?? 0.6;
  const keep = Math.exp(-interval / WANDER_S);
  const fresh = Math.sqrt(1 - keep * keep) * wanderM;
  let [wanderEast, wanderNorth, wanderUp] = [
    random.normal() * wanderM,
    random.normal() * wanderM,
    random.normal() * wanderM * 1.8,
  ];
  let satellites = receiver.satellites ?? 16;
  const spikes = [...(receiver.spikes ?? [])].sort((a, b) => a.atS - b.atS);
  let spike = 0;
  let node = 0;
  let count = 0;

  for (let k = 0; k < most; k++) {
    const trueS = k * interval;
    const noise = receiver.noiseMps * random.normal();
    const jitter = k === 0 || !receiver.jitterS ? 0 : receiver.jitterS * random.normal();
    wanderEast = wanderEast * keep + fresh * random.normal();
    wanderNorth = wanderNorth * keep + fresh * random.normal();
    wanderUp = wanderUp * keep + fresh * 1.8 * random.normal();
    if (k % Math.max(1, Math.round(receiver.rateHz * 7)) === 0)
      satellites = Math.min(19, Math.max(9, satellites + random.whole(-1, 1)));
    const truth = speedAt(trueS);
    if (receiver.dropouts?.some(gap => trueS > gap.fromS && trueS < gap.toS)) continue;

    let speedMps = Math.abs(truth + noise);
    const due = spikes[spike];
    if (due && trueS >= due.atS) {
      speedMps = due.speedMps;
      spike += 1;
    }
    if (receiver.stepMps) speedMps = Math.round(speedMps / receiver.stepMps) * receiver.stepMps;
    node = path.nodeAt(trueS, node);
    const next = Math.min(node + 1, path.count - 1);
    const span = path.timeS[next]! - path.timeS[node]!;
    const share = span > 0 ? (trueS - path.timeS[node]!) / span : 0;
    const east = path.eastM[node]! + share * (path.eastM[next]! - path.eastM[node]!) + wanderEast;
    const north = path.northM[node]! + share * (path.northM[next]! - path.northM[node]!) + wanderNorth;
    out.timeS[count] = trueS + Math.max(-0.45 * interval, Math.min(0.45 * interval, jitter));
    out.speedMps[count] = speedMps;
    out.latitudeDeg[count] = origin.latitudeDeg + north / degree.north;
    out.longitudeDeg[count] = origin.longitudeDeg + east / degree.east;
    out.altitudeM[count] = origin.altitudeM + wanderUp;
    out.courseDeg[count] = path.courseDeg[node]!;
    out.satellites[count] = satellites;
    out.hdop[count] = Math.round(1000 / satellites) / 100 + 0.1;
    count += 1;
  }
  const trimmed = Object.fromEntries(
    Object.entries(out).map(([name, values]) => [name, values.slice(0, count)]),
  ) as typeof out;
  return { ...trimmed, ...(receiver.stepMps === undefined ? {} : { stepMps: receiver.stepMps }) };
}
