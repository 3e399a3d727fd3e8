/** Rolling to a stop in neutral: closed forms, and drag area and rolling resistance from such runs in a log. */
import { log } from '../elementary.ts';
import { solveSymmetric } from '../trace/least-squares.ts';
import { localSlopes } from '../trace/slope.ts';
import type { Trace } from '../trace/trace.ts';
import { kmhToMps, STANDARD_GRAVITY_MPS2 } from '../units.ts';
import { AMERICAN_HEAVY_COAST_DOWN } from './limits.ts';

/** What holds a coasting car back: −m dv/dt = F0 + k v². */
export interface CoastDownLaw {
  /** Apparent mass: the car's and that of its wheels turning. */
  readonly massKg: number;
  readonly constantN: number;
  /** N per (m/s)². */
  readonly quadraticNPerMps2: number;
}

/** Time to coast from one speed to another on a level road in still air, s: arctangents of the law above. */
export function coastDownTimeS(law: CoastDownLaw, fromMps: number, toMps: number): number {
  const { massKg, constantN, quadraticNPerMps2 } = law;
  const scale = Math.sqrt(quadraticNPerMps2 / constantN);
  return (
    (massKg / Math.sqrt(constantN * quadraticNPerMps2)) *
    (Math.atan(fromMps * scale) - Math.atan(toMps * scale))
  );
}

/** Distance of the same, m: logarithms of the law above. */
export function coastDownDistanceM(law: CoastDownLaw, fromMps: number, toMps: number): number {
  const { massKg, constantN, quadraticNPerMps2 } = law;
  const load = (speedMps: number): number => constantN + quadraticNPerMps2 * speedMps * speedMps;
  return (massKg / (2 * quadraticNPerMps2)) * log(load(fromMps) / load(toMps));
}

/** A stretch of a trace in which the car coasts; sample indices, inclusive. */
export interface CoastDown {
  readonly beginIndex: number;
  readonly endIndex: number;
}

/** What counts as coasting; common practice and our own limits, no source. */
export const COASTING = {
  /** Half width of the line that tells deceleration, s. */
  halfWidthS: 1,
  /** Brakes slow a car more than this, m/s². */
  hardestMps2: 1.2,
  /** A car that is driven slows less than this, m/s². */
  gentlestMps2: 0.04,
  /** Shortest, s. */
  shortestS: 10,
  /** Smallest loss of speed, m/s. */
  smallestLossMps: kmhToMps(25),
  /** Slower than this tells nothing of drag, m/s. */
  slowestMps: kmhToMps(15),
  /** Deceleration may rise by this much while speed falls, m/s²; beyond, something else slows the car. */
  riseMps2: 0.12,
} as const;

/**
 * Long smooth slowing down without brakes. A car that coasts slows less and less; where it slows more, the driver
 * brakes or the gear drags, and the stretch ends.
 */
export function findCoastDowns(trace: Trace): readonly CoastDown[] {
  const { timeS, speedMps } = trace;
  const slopes = localSlopes(timeS, speedMps, COASTING.halfWidthS);
  const found: CoastDown[] = [];
  let begin = -1;
  let least = Number.POSITIVE_INFINITY;
  const close = (end: number): void => {
    // The line at either end looks past it: half its width is left out.
    let first = begin;
    let last = end;
    while (first < last && timeS[first]! - timeS[begin]! < COASTING.halfWidthS) first++;
    while (last > first && timeS[end]! - timeS[last]! < COASTING.halfWidthS) last--;
    const longS = timeS[last]! - timeS[first]!;
    const lossMps = speedMps[first]! - speedMps[last]!;
    if (longS >= COASTING.shortestS && lossMps >= COASTING.smallestLossMps) {
      found.push({ beginIndex: first, endIndex: last });
    }
  };
  for (let i = 0; i < timeS.length; i++) {
    const slowing = -slopes[i]!;
    const gap = trace.gaps.some(({ index }) => index === i - 1);
    const coasting =
      !gap &&
      speedMps[i]! >= COASTING.slowestMps &&
      slowing >= COASTING.gentlestMps2 &&
      slowing <= COASTING.hardestMps2 &&
      (begin < 0 || slowing <= least + COASTING.riseMps2);
    if (coasting && begin < 0) {
      begin = i;
      least = slowing;
    } else if (coasting) least = Math.min(least, slowing);
    else if (begin >= 0) {
      close(i - 1);
      begin = -1;
    }
  }
  if (begin >= 0) close(timeS.length - 1);
  return found;
}

/** One coast-down with the way it went. */
export interface DirectedCoastDown {
  readonly trace: Trace;
  readonly coastDown: CoastDown;
  /** 1 one way along the road, −1 the other. */
  readonly way: 1 | -1;
}

export interface CoastedCar {
  readonly massKg: number;
  /** Air density of the day, kg/m³. */
  readonly densityKgm3: number;
  /** Wheels' share of apparent mass out of gear; `COAST_WHEEL_SHARE` unless told. */
  readonly wheelShare?: number;
}

export interface CoastedRoad {
  /**
   * Standard deviation of the mean slope of long stretches of the road, a fraction. A road that steepens along its
   * length looks like drag in both directions alike, and coasting cannot tell the two apart.
   */
  readonly unevenness: number;
}

export interface CoastDownEstimate {
  readonly dragAreaM2: number;
  readonly dragAreaStandardM2: number;
  readonly rollingResistance: number;
  readonly rollingResistanceStandard: number;
  /** Along the first way, positive against it; told by the two ways differing. */
  readonly headwindMps: number;
  /** Rise along the first way, a fraction. */
  readonly slope: number;
  readonly runs: number;
  /** Fewer each way than `AMERICAN_HEAVY_COAST_DOWN` asks for: to be said beside the figures. */
  readonly fewerThanAdvised: boolean;
}

/** Why coast-downs decide nothing; `coastDownRefusalInWords` says it. */
export type CoastDownRefusal =
  | { readonly why: 'few'; readonly there: number; readonly back: number; readonly fewest: number }
  | { readonly why: 'narrow' | 'undetermined' | 'negative' }
  /** Relative standard uncertainty of the drag area, %. */
  | { readonly why: 'disagree'; readonly percent: number };

export type CoastDownAnswer =
  | { readonly decided: true; readonly estimate: CoastDownEstimate }
  | { readonly decided: false; readonly reason: CoastDownRefusal };

/** Wheels' share of apparent mass out of gear; common practice, no source. */
export const COAST_WHEEL_SHARE = 0.035;
/** Relative standard uncertainty of mass with turning wheels. */
const MASS_UNCERTAINTY = 0.012;
/** The speeds must span at least this ratio for drag and rolling to be told apart. */
export const NARROWEST_RATIO = 1.6;
/** Fewest runs each way that show a scatter; fewer than rules ask for, which the estimate says. */
export const FEWEST_EACH_WAY = 2;
/** A drag area known worse than this decides nothing, relative standard uncertainty. */
export const WORST_DRAG_AREA = 0.08;

/**
 * Drag area and rolling resistance from coast-downs both ways along one road in steady wind.
 *
 * With the load integrated, v = v₀ − A t − K ∫v² dt − ±(B t + C ∫v dt) is a straight line in its unknowns: K = k/m,
 * A = F₀/m + K w², B = g sin θ, C = 2 K w, the sign by direction. No speed is differentiated. Uncertainties are from
 * the spread of the answer when each run is left out in turn (jackknife; Tukey 1958), since wind and road differ
 * from run to run more than one run scatters about its own line; and from what a road that steepens would change.
 */
export function estimateCoastDown(
  runs: readonly DirectedCoastDown[],
  car: CoastedCar,
  road: CoastedRoad = { unevenness: 0 },
): CoastDownAnswer {
  const refuse = (reason: CoastDownRefusal): CoastDownAnswer => ({ decided: false, reason });
  const there = runs.filter(({ way }) => way === 1).length;
  const back = runs.length - there;
  if (Math.min(there, back) < FEWEST_EACH_WAY) {
    return refuse({ why: 'few', there, back, fewest: FEWEST_EACH_WAY });
  }
  const lists = runs.map(run => regressors(run));
  // Slopes spread evenly from −a to a have a standard deviation of a/√3.
  const trend = (Math.sqrt(3) * road.unevenness) / (1 + (car.wheelShare ?? COAST_WHEEL_SHARE));
  const fastest = Math.max(...lists.map(({ fromMps }) => fromMps));
  const slowest = Math.min(...lists.map(({ toMps }) => toMps));
  if (fastest < NARROWEST_RATIO * slowest) {
    return refuse({ why: 'narrow' });
  }
  const whole = solve(lists, car);
  const steepening =
    trend === 0
      ? whole
      : solve(
          runs.map(run => regressors(run, trend * STANDARD_GRAVITY_MPS2)),
          car,
        );
  const without = lists.map((_, left) =>
    solve(
      lists.filter((__, i) => i !== left),
      car,
    ),
  );
  if (whole === undefined || steepening === undefined || without.some(answer => answer === undefined)) {
    return refuse({ why: 'undetermined' });
  }
  const spread = (of: (answer: Solved) => number): number => {
    const values = (without as readonly Solved[]).map(of);
    const mean = values.reduce((sum, value) => sum + value, 0) / values.length;
    const squares = values.reduce((sum, value) => sum + (value - mean) ** 2, 0);
    return Math.sqrt(((values.length - 1) / values.length) * squares);
  };
  const dragAreaStandardM2 = Math.hypot(
    spread(({ dragAreaM2 }) => dragAreaM2),
    MASS_UNCERTAINTY * whole.dragAreaM2,
    steepening.dragAreaM2 - whole.dragAreaM2,
  );
  if (!(whole.dragAreaM2 > 0) || !(whole.rollingResistance > 0)) {
    return refuse({ why: 'negative' });
  }
  if (dragAreaStandardM2 > WORST_DRAG_AREA * whole.dragAreaM2) {
    return refuse({ why: 'disagree', percent: (100 * dragAreaStandardM2) / whole.dragAreaM2 });
  }
  return {
    decided: true,
    estimate: {
      ...whole,
      dragAreaStandardM2,
      rollingResistanceStandard: Math.hypot(
        spread(({ rollingResistance }) => rollingResistance),
        MASS_UNCERTAINTY * whole.rollingResistance,
        steepening.rollingResistance - whole.rollingResistance,
      ),
      runs: runs.length,
      fewerThanAdvised: Math.min(there, back) < AMERICAN_HEAVY_COAST_DOWN.runsEachWay,
    },
  };
}

interface Regressors {
  readonly fromMps: number;
  readonly toMps: number;
  /** Rows of −t, −∫v², ∓t, ∓∫v, and v; the run's own first speed is taken out by centring. */
  readonly rows: readonly (readonly number[])[];
}

/** `steepeningMps2`: added to the deceleration at the end of the way and taken from it at the beginning. */
function regressors({ trace, coastDown, way }: DirectedCoastDown, steepeningMps2 = 0): Regressors {
  const { timeS, speedMps, distanceM } = trace;
  const { beginIndex, endIndex } = coastDown;
  const wayM = distanceM[endIndex]! - distanceM[beginIndex]!;
  let slowed = 0;
  const rows: number[][] = [];
  let squares = 0;
  let metres = 0;
  for (let i = beginIndex; i <= endIndex; i++) {
    if (i > beginIndex) {
      const stepS = timeS[i]! - timeS[i - 1]!;
      const [a, b] = [speedMps[i - 1]!, speedMps[i]!];
      // The square of a noisy speed is too large by the noise squared on average.
      squares += ((a * a + a * b + b * b) / 3 - (trace.noiseMps * trace.noiseMps * 2) / 3) * stepS;
      metres += ((a + b) / 2) * stepS;
      slowed += steepeningMps2 * ((2 * (distanceM[i]! - distanceM[beginIndex]!)) / wayM - 1) * stepS;
    }
    const t = timeS[i]! - timeS[beginIndex]!;
    rows.push([-t, -squares, -way * t, -way * metres, speedMps[i]! - slowed]);
  }
  const means = [0, 1, 2, 3, 4].map(c => rows.reduce((sum, row) => sum + row[c]!, 0) / rows.length);
  return {
    fromMps: speedMps[beginIndex]!,
    toMps: speedMps[endIndex]!,
    rows: rows.map(row => row.map((value, c) => value - means[c]!)),
  };
}

interface Solved {
  readonly dragAreaM2: number;
  readonly rollingResistance: number;
  readonly headwindMps: number;
  readonly slope: number;
}

function solve(lists: readonly Regressors[], car: CoastedCar): Solved | undefined {
  const size = 4;
  const matrix = Array.from({ length: size }, () => new Array<number>(size).fill(0));
  const right = new Array<number>(size).fill(0);
  for (const { rows } of lists) {
    for (const row of rows) {
      for (let r = 0; r < size; r++) {
        right[r]! += row[r]! * row[size]!;
        for (let c = 0; c < size; c++) matrix[r]![c]! += row[r]! * row[c]!;
      }
    }
  }
  const solved = solveSymmetric(matrix, right);
  if (solved === undefined) return undefined;
  const [constant, quadratic, antisymmetric, linear] = solved.solution as [number, number, number, number];
  const factor = 1 + (car.wheelShare ?? COAST_WHEEL_SHARE);
  const headwindMps = linear / (2 * quadratic);
  return {
    dragAreaM2: (2 * quadratic * factor * car.massKg) / car.densityKgm3,
    rollingResistance: ((constant - quadratic * headwindMps * headwindMps) * factor) / STANDARD_GRAVITY_MPS2,
    headwindMps,
    slope: (antisymmetric * factor) / STANDARD_GRAVITY_MPS2,
  };
}
