/** What a perfect observer would have measured on a simulated drive. */
import type { Drive, DrivenRun } from './drive.ts';
import type { Trajectory } from './trajectory.ts';

const KMH = 1 / 3.6;
const MPH_60_MPS = 26.8224;
/** One foot, m. */
const ROLLOUT_M = 0.3048;
export const TRUE_SPEEDS_MPS: readonly number[] = [
  30 * KMH,
  50 * KMH,
  60 * KMH,
  80 * KMH,
  MPH_60_MPS,
  100 * KMH,
  120 * KMH,
  130 * KMH,
  160 * KMH,
  200 * KMH,
  ...[30, 50, 80, 100, 120].map(mph => (mph * MPH_60_MPS) / 60),
].sort((a, b) => a - b);
export const TRUE_DISTANCES_M: readonly number[] = [18.288, 100, 201.168, 402.336, 1000];
const BRAKING_FROM_MPS = [100 * KMH, 80 * KMH, 50 * KMH, (70 * MPH_60_MPS) / 60, MPH_60_MPS];
const ROLLING_MPS = [
  [50, 80],
  [60, 100],
  [80, 120],
  [100, 160],
  [100, 200],
  [(30 * MPH_60_MPS) / 60 / KMH, (70 * MPH_60_MPS) / 60 / KMH],
] as const;

export interface TrueSpeedSplit {
  readonly toMps: number;
  /** Since first movement, and the distance since then. */
  readonly timeS: number;
  readonly distanceM: number;
  /** Since the car had covered one foot. */
  readonly rolloutTimeS: number;
  readonly rolloutDistanceM: number;
}

export interface TrueDistanceSplit {
  readonly toM: number;
  readonly timeS: number;
  readonly speedMps: number;
  /** Clock and tape both from where the car had covered one foot; absent where not reached. */
  readonly rolloutTimeS?: number;
  readonly rolloutSpeedMps?: number;
}

export interface TrueBraking {
  readonly fromMps: number;
  readonly distanceM: number;
  readonly timeS: number;
  /** Mean fully developed deceleration between 0.8 and 0.1 of `fromMps` (UN R13-H Annex 3). */
  readonly mfddMps2: number;
}

/** Times are seconds of the drive, which are also seconds of the log: its first sample is at 0. */
export interface TrueRun {
  readonly kind: DrivenRun['kind'];
  readonly status: 'complete' | 'aborted';
  readonly launchId?: string;
  readonly label?: string;
  readonly courseDeg: number;
  readonly beginsS: number;
  readonly endsS: number;
  readonly firstMovementS?: number;
  /** Time spent on the first 0.3048 m. */
  readonly rolloutS?: number;
  readonly speedSplits: readonly TrueSpeedSplit[];
  readonly distanceSplits: readonly TrueDistanceSplit[];
  /** Splits between two speeds within full acceleration of a rolling run. */
  readonly rollingSplits: readonly {
    readonly fromMps: number;
    readonly toMps: number;
    readonly timeS: number;
    readonly distanceM: number;
  }[];
  readonly braking: readonly TrueBraking[];
  /** Speed at which the brake was put on. */
  readonly brakedFromMps?: number;
  readonly brakedAtS?: number;
  /** MFDD from that speed. */
  readonly mfddMps2?: number;
  readonly topMps: number;
  /** Greatest mean acceleration over any 0.1 s of the run, m/s². */
  readonly peakMps2: number;
  /** Upshifts in order of time: where the force begins to fall. */
  readonly shifts: DrivenRun['shifts'];
}

/** (vb² − ve²) / 2(se − sb) with vb = 0.8 v0, ve = 0.1 v0. */
function mfdd(path: Trajectory, fromMps: number, from: number, to: number): number | undefined {
  const begin = path.fallingTo(0.8 * fromMps, from, to);
  const end = path.fallingTo(0.1 * fromMps, from, to);
  if (!begin || !end) return undefined;
  return (0.63 * fromMps * fromMps) / (2 * (end.distanceM - begin.distanceM));
}

function peak(path: Trajectory, from: number, to: number): number {
  const window = 0.1;
  let greatest = 0;
  let tail = from;
  for (let i = from + 1; i <= to; i++) {
    while (path.timeS[i]! - path.timeS[tail + 1]! >= window - 1e-9) tail += 1;
    const span = path.timeS[i]! - path.timeS[tail]!;
    if (span >= window - 1e-9)
      greatest = Math.max(greatest, (path.speedMps[i]! - path.speedMps[tail]!) / span);
  }
  return greatest;
}

/** The truth of one driven run. */
export function runToTruth(path: Trajectory, run: DrivenRun): TrueRun {
  const { beginNode, endNode, brakeNode } = run;
  const pullEnd = brakeNode ?? endNode;
  const beginsS = path.timeS[beginNode]!;
  const beginsM = path.distanceM[beginNode]!;
  const standing = run.kind === 'standing-start';
  const foot = standing ? path.covering(ROLLOUT_M, beginNode, pullEnd) : undefined;

  const speedSplits: TrueSpeedSplit[] = [];
  const distanceSplits: TrueDistanceSplit[] = [];
  if (foot) {
    for (const toMps of TRUE_SPEEDS_MPS) {
      const at = path.risingTo(toMps, beginNode, pullEnd);
      if (at)
        speedSplits.push({
          toMps,
          timeS: at.timeS - beginsS,
          distanceM: at.distanceM - beginsM,
          rolloutTimeS: at.timeS - foot.timeS,
          rolloutDistanceM: at.distanceM - foot.distanceM,
        });
    }
    for (const toM of TRUE_DISTANCES_M) {
      const at = path.covering(toM, beginNode, pullEnd);
      const further = path.covering(toM + ROLLOUT_M, beginNode, pullEnd);
      if (at)
        distanceSplits.push({
          toM,
          timeS: at.timeS - beginsS,
          speedMps: at.speedMps,
          ...(further ? { rolloutTimeS: further.timeS - foot.timeS, rolloutSpeedMps: further.speedMps } : {}),
        });
    }
  }

  const rollingSplits = ROLLING_MPS.flatMap(([fromKmh, toKmh]) => {
    if (run.kind === 'braking') return [];
    const from = path.risingTo(fromKmh * KMH, beginNode, pullEnd);
    const to = path.risingTo(toKmh * KMH, beginNode, pullEnd);
    return from && to
      ? [
          {
            fromMps: fromKmh * KMH,
            toMps: toKmh * KMH,
            timeS: to.timeS - from.timeS,
            distanceM: to.distanceM - from.distanceM,
          },
        ]
      : [];
  });

  const braking: TrueBraking[] = [];
  let braked: { brakedFromMps: number; brakedAtS: number; mfddMps2?: number } | undefined;
  if (brakeNode !== undefined) {
    const v0 = path.speedMps[brakeNode]!;
    const whole = mfdd(path, v0, brakeNode, endNode);
    braked = {
      brakedFromMps: v0,
      brakedAtS: path.timeS[brakeNode]!,
      ...(whole === undefined ? {} : { mfddMps2: whole }),
    };
    for (const fromMps of BRAKING_FROM_MPS) {
      const at = path.fallingTo(fromMps, brakeNode, endNode);
      const mean = mfdd(path, fromMps, brakeNode, endNode);
      if (at && mean !== undefined)
        braking.push({
          fromMps,
          distanceM: path.distanceM[endNode]! - at.distanceM,
          timeS: path.timeS[endNode]! - at.timeS,
          mfddMps2: mean,
        });
    }
  }

  let topMps = 0;
  for (let i = beginNode; i <= endNode; i++) topMps = Math.max(topMps, path.speedMps[i]!);
  return {
    kind: run.kind,
    status: run.aborted ? 'aborted' : 'complete',
    ...(run.launchId === undefined ? {} : { launchId: run.launchId }),
    ...(run.label === undefined ? {} : { label: run.label }),
    courseDeg: run.courseDeg,
    beginsS,
    endsS: path.timeS[endNode]!,
    ...(foot ? { firstMovementS: beginsS, rolloutS: foot.timeS - beginsS } : {}),
    speedSplits,
    distanceSplits,
    rollingSplits,
    braking,
    ...(braked ?? {}),
    topMps,
    peakMps2: peak(path, beginNode, pullEnd),
    shifts: run.shifts,
  };
}

/** The truth of every run of a drive, in the order of time. */
export const driveToTruth = (driven: Drive): TrueRun[] =>
  driven.runs.map(run => runToTruth(driven.trajectory, run));
