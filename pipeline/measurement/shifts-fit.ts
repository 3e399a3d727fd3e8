/**
 * One dip of acceleration between two stretches of pull, fitted to speed.
 *
 *   v(t) = v₁ + a₁·x + c·x²/2 + s₁·(x − x₁)₊ + s₂·(x − x₂)₊
 *
 * Two straight knots x₁ < x₂ bound the dip; c lets the pull fade as speed rises. For every pair of knots of a grid
 * the rest is solved by least squares, and the answers are averaged with the weight the readings give each of them
 * (a posterior mean), so that knots between two readings bias nothing and their spread is in the uncertainty.
 */
import { exp } from '../elementary.ts';
import { solveSymmetric } from '../trace/least-squares.ts';

/** Readings this far before and after the dip take part, s. */
export const SHIFT_PULL_S = 0.8;
/** Least part of that which must be there on either side, s. */
export const SHIFT_PULL_LEAST_S = 0.4;
/** Shortest and longest dip, s. */
export const SHIFT_DIP_S = { shortest: 0.1, longest: 1 } as const;
/** In the dip the car is not braked: it slows by no more than what resists it, m/s² (with reserve for a slope). */
const COASTING_LOWEST_MPS2 = -1.5;
/** The model is trusted to this, m/s: a driveline swings on its springs after a shift. */
const MODEL_MPS = 0.01;
/** A fit in which one pull is less than this share of the other has lost hold of the shorter one. */
const PULLS_COMPARABLE = 0.2;
/**
 * What the model leaves out, as standard deviations, s: a dip has no straight edges, a pull does not fade evenly, and
 * an engine changes from full torque to full power somewhere beside the shift. Found on simulated runs without noise
 * (our own, see the tests); part of every stated uncertainty.
 */
export const SHIFT_MODEL_S = { lost: 0.012, begin: 0.008, duration: 0.02 } as const;
/** A best fit whose missing speed is under this many standard deviations is not followed further. */
const WORTH_FOLLOWING_SDS = 3;
const COARSE_S = 0.05;
const FINE_S = 0.02;

export interface FittedDip {
  readonly beginS: number;
  readonly beginSdS: number;
  readonly durationS: number;
  readonly durationSdS: number;
  readonly lostS: number;
  readonly lostSdS: number;
  readonly speedMps: number;
  /** Accelerations just before, in, and just after the dip, m/s². */
  readonly beforeMps2: number;
  readonly inMps2: number;
  readonly afterMps2: number;
  /** Speed missing after the dip against the pull, m/s, and its standard deviation. */
  readonly missingMps: number;
  readonly missingSdMps: number;
  /** Sum of squared residuals over variance, a reading. */
  readonly misfit: number;
}

interface Candidate extends Omit<FittedDip, 'beginSdS' | 'durationSdS' | 'misfit'> {
  readonly chiSquared: number;
}

/** Fits the dip nearest to `aroundS` among the readings `firstIndex` … `lastIndex`; undefined where none fits. */
export function fitDip(
  timeS: Float64Array,
  speedMps: Float64Array,
  firstIndex: number,
  lastIndex: number,
  aroundS: number,
  noiseMps: number,
): FittedDip | undefined {
  const sd = Math.hypot(noiseMps, MODEL_MPS);
  const intervalS = (timeS[lastIndex]! - timeS[firstIndex]!) / (lastIndex - firstIndex);
  const reachS = SHIFT_DIP_S.longest / 2 + SHIFT_PULL_S;
  let begin = firstIndex;
  while (begin < lastIndex && timeS[begin]! < aroundS - reachS) begin++;
  let end = lastIndex;
  while (end > begin && timeS[end]! > aroundS + reachS) end--;
  const t: number[] = [];
  const v: number[] = [];
  for (let k = begin; k <= end; k++) {
    t.push(timeS[k]! - aroundS);
    v.push(speedMps[k]!);
  }
  if (t.length < 9) return undefined;
  const least = SHIFT_PULL_LEAST_S - intervalS;
  const [lowest, highest] = [t[0]! + least, t.at(-1)! - least];
  const search = (from1: number, to1: number, from2: number, to2: number, step: number): Candidate[] => {
    const found: Candidate[] = [];
    for (let x1 = Math.max(from1, lowest); x1 <= to1; x1 += step) {
      for (let x2 = Math.max(from2, x1 + SHIFT_DIP_S.shortest); x2 <= Math.min(to2, highest); x2 += step) {
        if (x2 - x1 > SHIFT_DIP_S.longest) break;
        const one = solve(t, v, x1, x2, sd);
        if (one !== undefined) found.push(one);
      }
    }
    return found;
  };
  const half = SHIFT_DIP_S.longest / 2 + 0.2;
  const coarse = search(-half, half, -half, half, COARSE_S);
  if (coarse.length === 0) return undefined;
  const best = coarse.reduce((a, b) => (b.chiSquared < a.chiSquared ? b : a));
  if (best.missingMps < WORTH_FOLLOWING_SDS * best.missingSdMps) return undefined;
  // Everything the readings hold for possible: three standard deviations about the best.
  const likely = coarse.filter(one => one.chiSquared < best.chiSquared + 12);
  const spread = (of: (one: Candidate) => number): [number, number] => {
    const all = likely.map(of);
    return [Math.min(...all) - COARSE_S, Math.max(...all) + COARSE_S];
  };
  const [from1, to1] = spread(one => one.beginS);
  const [from2, to2] = spread(one => one.beginS + one.durationS);
  const fine = search(from1, to1, from2, to2, FINE_S);
  return fine.length === 0 ? undefined : average(fine, aroundS, t.length);
}

/** Filled anew by every fit, of which a shift takes some hundreds. */
const SCRATCH = {
  sums: new Float64Array(25),
  matrix: Array.from({ length: 5 }, () => [0, 0, 0, 0, 0]),
  right: [0, 0, 0, 0, 0],
  row: new Float64Array(5),
};

function solve(
  t: readonly number[],
  v: readonly number[],
  x1: number,
  x2: number,
  sd: number,
): Candidate | undefined {
  const { sums, right, row, matrix } = SCRATCH;
  sums.fill(0);
  right.fill(0);
  let squares = 0;
  let count = 0;
  for (let k = 0; k < t.length; k++) {
    const at = t[k]!;
    if (at < x1 - SHIFT_PULL_S || at > x2 + SHIFT_PULL_S) continue;
    const speed = v[k]!;
    fill(row, at, x1, x2);
    for (let r = 0; r < 5; r++) {
      right[r]! += row[r]! * speed;
      for (let c = r; c < 5; c++) sums[5 * r + c]! += row[r]! * row[c]!;
    }
    squares += speed * speed;
    count++;
  }
  // A curvature is known beforehand to be slight: pull fades with speed by a few m/s³ at most.
  sums[5 * 2 + 2]! += (sd / FADING_MPS3) ** 2;
  for (let r = 0; r < 5; r++) {
    for (let c = 0; c < 5; c++) matrix[r]![c] = sums[5 * Math.min(r, c) + Math.max(r, c)]!;
  }
  const solved = solveSymmetric(matrix, right);
  if (solved === undefined) return undefined;
  const [v1, a1, c, s1, s2] = solved.solution as [number, number, number, number, number];
  let explained = 0;
  for (let r = 0; r < 5; r++) explained += solved.solution[r]! * right[r]!;
  const durationS = x2 - x1;
  const inMps2 = a1 + s1 + (c * durationS) / 2;
  const afterMps2 = a1 + s1 + s2 + c * durationS;
  const missingMps = -s1 * durationS;
  if (inMps2 < COASTING_LOWEST_MPS2 || missingMps <= 0) return undefined;
  if (!(Math.min(a1, afterMps2) >= PULLS_COMPARABLE * Math.max(a1, afterMps2, 0))) return undefined;
  // The new pull, drawn back, passes the speed of the beginning this long after the beginning.
  const gain = (a1 + s1) * durationS + (c * durationS * durationS) / 2;
  const lostS = durationS - (2 * gain) / (afterMps2 + Math.sqrt(Math.max(0, afterMps2 ** 2 - 2 * c * gain)));
  // Derivative of the lost time by the parameters, at first order in the gain.
  const perGain = -1 / afterMps2;
  const perAfter = gain / afterMps2 ** 2;
  const gradient = [
    0,
    perGain * durationS + perAfter,
    (perGain * durationS ** 2) / 2 + perAfter * durationS,
    perGain * durationS + perAfter,
    perAfter,
  ];
  let variance = 0;
  for (let r = 0; r < 5; r++) {
    for (let k = 0; k < 5; k++) variance += gradient[r]! * gradient[k]! * solved.inverse[r]![k]!;
  }
  // Readings outside the pulls are not counted: knots that leave more of them out have no better fit for it.
  const chiSquared = (Math.max(0, squares - explained) / (sd * sd)) * (t.length / count);
  return {
    beginS: x1,
    durationS,
    lostS,
    lostSdS: sd * Math.sqrt(variance),
    speedMps: v1,
    beforeMps2: a1,
    inMps2,
    afterMps2,
    missingMps,
    missingSdMps: sd * durationS * Math.sqrt(solved.inverse[3]![3]!),
    chiSquared,
  };
}

/** Spread of a fading pull before any reading is seen, m/s³. */
const FADING_MPS3 = 2;

function fill(row: Float64Array, t: number, x1: number, x2: number): void {
  const x = t - x1;
  row[0] = 1;
  row[1] = x;
  row[2] = (x * x) / 2;
  row[3] = Math.max(0, x);
  row[4] = Math.max(0, t - x2);
}

function average(all: readonly Candidate[], aroundS: number, count: number): FittedDip {
  const least = Math.min(...all.map(one => one.chiSquared));
  const weights = all.map(one => exp((least - one.chiSquared) / 2));
  const total = weights.reduce((sum, weight) => sum + weight, 0);
  const mean = (of: (one: Candidate) => number): number =>
    all.reduce((sum, one, k) => sum + weights[k]! * of(one), 0) / total;
  const sdOf = (of: (one: Candidate) => number, own: (one: Candidate) => number): number => {
    const centre = mean(of);
    return Math.sqrt(mean(one => (of(one) - centre) ** 2 + own(one) ** 2));
  };
  // A grid no finer than its step: its rectangular width is part of every knot.
  const knot = (modelS: number) => (): number => Math.hypot(modelS, FINE_S / Math.sqrt(12));
  return {
    beginS: aroundS + mean(one => one.beginS),
    beginSdS: sdOf(one => one.beginS, knot(SHIFT_MODEL_S.begin)),
    durationS: mean(one => one.durationS),
    durationSdS: sdOf(one => one.durationS, knot(SHIFT_MODEL_S.duration)),
    lostS: mean(one => one.lostS),
    lostSdS: sdOf(
      one => one.lostS,
      one => Math.hypot(one.lostSdS, SHIFT_MODEL_S.lost),
    ),
    speedMps: mean(one => one.speedMps),
    beforeMps2: mean(one => one.beforeMps2),
    inMps2: mean(one => one.inMps2),
    afterMps2: mean(one => one.afterMps2),
    missingMps: mean(one => one.missingMps),
    missingSdMps: sdOf(
      one => one.missingMps,
      one => one.missingSdMps,
    ),
    misfit: least / count,
  };
}
