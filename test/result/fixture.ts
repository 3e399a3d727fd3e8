/**
 * A test day from closed-form traces: every time, distance and speed below is known exactly.
 *
 * A run leaves rest as a lag of second order,
 *   v(t) = V · (1 − (T e^{−t/T} − S e^{−t/S}) / (T − S)),
 * so that acceleration starts from nothing; distance and acceleration are its integral and derivative.
 * A stop decelerates at a constant rate: d = v² / 2a.
 */
import type {
  BrakingFigure,
  DistanceSplit,
  RunMeasurement,
  SpeedSplit,
} from '../../pipeline/measurement/measurement.ts';
import type { Attempt, House, TestResult } from '../../pipeline/result/result.ts';
import type { StartRule } from '../../pipeline/run/run.ts';
import type { Trace } from '../../pipeline/trace/trace.ts';
import { kmhToMps, mphToMps, ROLLOUT_M } from '../../pipeline/units.ts';

/** V in m/s, T and S in s. */
export interface Launch {
  readonly finalMps: number;
  readonly lagS: number;
  readonly onsetS: number;
}

/** Speed (m/s), distance (m) and acceleration (m/s²) a time after first movement, exactly. */
export function launchAt(
  launch: Launch,
  timeS: number,
): { speedMps: number; distanceM: number; accelerationMps2: number } {
  if (timeS <= 0) return { speedMps: 0, distanceM: 0, accelerationMps2: 0 };
  const { finalMps: V, lagS: T, onsetS: S } = launch;
  const slow = Math.exp(-timeS / T);
  const fast = Math.exp(-timeS / S);
  return {
    speedMps: V * (1 - (T * slow - S * fast) / (T - S)),
    distanceM: V * (timeS - (T * T * (1 - slow) - S * S * (1 - fast)) / (T - S)),
    accelerationMps2: (V * (slow - fast)) / (T - S),
  };
}

function timeWhere(reached: (timeS: number) => number, target: number): number {
  let below = 0;
  let above = 200;
  for (let step = 0; step < 100; step += 1) {
    const middle = (below + above) / 2;
    if (reached(middle) < target) below = middle;
    else above = middle;
  }
  return (below + above) / 2;
}

/** Time after first movement at which a speed is reached, s, to rounding error. */
export const timeToSpeed = (launch: Launch, speedMps: number): number =>
  timeWhere(t => launchAt(launch, t).speedMps, speedMps);
/** Time after first movement at which a distance is covered, s, to rounding error. */
export const timeToDistance = (launch: Launch, distanceM: number): number =>
  timeWhere(t => launchAt(launch, t).distanceM, distanceM);

export interface PlannedAttempt {
  readonly launchId?: string;
  readonly launchName?: string;
  readonly directionId?: string;
  readonly setAside?: string;
  readonly note?: string;
  readonly launch: Launch;
  /** The driver lifts, and brakes, at this speed. */
  readonly topKmh: number;
  readonly brakingMps2: number;
}

export interface FixturePlan {
  readonly rateHz: number;
  /** Expanded uncertainty put on every time, s. */
  readonly uncertaintyS: number;
  readonly attempts: readonly PlannedAttempt[];
}

const SPLIT_SPEEDS_MPS = [
  ...[30, 50, 60, 80, 100, 120, 130, 160, 200].map(kmhToMps),
  ...[30, 50, 60, 80, 100, 120].map(mphToMps),
];
const SPLIT_DISTANCES_M = [18.288, 100, 201.168, 402.336, 1000];
const STANDING_S = 4;

const attempt = (
  launchId: string,
  launchName: string,
  finalKmh: number,
  lagS: number,
  onsetS: number,
  more: Partial<PlannedAttempt> = {},
): PlannedAttempt => ({
  launchId,
  launchName,
  directionId: 'east',
  launch: { finalMps: kmhToMps(finalKmh), lagS, onsetS },
  topKmh: 128,
  brakingMps2: 8.9,
  ...more,
});

/** Ten attempts with three launch methods; one set aside, one given up early. */
export const FIXTURE_PLAN: FixturePlan = {
  rateHz: 20,
  uncertaintyS: 0.03,
  attempts: [
    attempt('plain', 'Plain throttle', 205, 9.1, 0.42, { topKmh: 131 }),
    attempt('plain', 'Plain throttle', 205, 8.95, 0.44, { directionId: 'west', brakingMps2: 9.1 }),
    attempt('plain', 'Plain throttle', 205, 9.0, 0.4),
    attempt('brake', 'Brake and throttle', 205, 8.8, 0.2, { brakingMps2: 8.7 }),
    attempt('brake', 'Brake and throttle', 205, 8.75, 0.19, { directionId: 'west', topKmh: 134 }),
    attempt('brake', 'Brake and throttle', 205, 8.7, 0.45, {
      setAside: 'Front wheels spun on the painted line',
    }),
    attempt('brake', 'Brake and throttle', 205, 8.92, 0.21, { brakingMps2: 9.0 }),
    attempt('sport', 'Sport setting', 205, 8.78, 0.23),
    attempt('sport', 'Sport setting', 205, 8.9, 0.25, { directionId: 'west' }),
    attempt('sport', 'Sport setting', 205, 8.85, 0.24, { topKmh: 72, note: 'Given up: a hare on the road' }),
  ],
};

function measure(planned: PlannedAttempt, uncertaintyS: number): Omit<RunMeasurement, 'run'> {
  const { launch } = planned;
  const topMps = kmhToMps(planned.topKmh);
  const topS = timeToSpeed(launch, topMps);
  const topM = launchAt(launch, topS).distanceM;
  const rolloutS = timeToDistance(launch, ROLLOUT_M);
  const rules: readonly { startRule: StartRule; lateS: number; lateM: number }[] = [
    { startRule: 'first-movement', lateS: 0, lateM: 0 },
    { startRule: 'one-foot-rollout', lateS: rolloutS, lateM: ROLLOUT_M },
  ];
  const speedSplits: SpeedSplit[] = [];
  const distanceSplits: DistanceSplit[] = [];
  for (const { startRule, lateS, lateM } of rules) {
    for (const toMps of SPLIT_SPEEDS_MPS.filter(speed => speed <= topMps)) {
      const timeS = timeToSpeed(launch, toMps);
      speedSplits.push({
        fromMps: 0,
        toMps,
        startRule,
        timeS: timeS - lateS,
        uncertaintyS,
        distanceM: launchAt(launch, timeS).distanceM - lateM,
      });
    }
    for (const toM of SPLIT_DISTANCES_M.filter(distance => distance + lateM <= topM)) {
      const timeS = timeToDistance(launch, toM + lateM);
      distanceSplits.push({
        toM,
        startRule,
        timeS: timeS - lateS,
        uncertaintyS,
        speedMps: launchAt(launch, timeS).speedMps,
      });
    }
  }
  const braking: BrakingFigure[] = [...[100, 80, 50].map(kmhToMps), ...[70, 60].map(mphToMps)].flatMap(
    (fromMps): BrakingFigure[] =>
      fromMps > topMps
        ? []
        : [
            {
              fromMps,
              toMps: 0,
              distanceM: fromMps ** 2 / (2 * planned.brakingMps2),
              uncertaintyM: 0.3,
              mfddMps2: planned.brakingMps2,
              mfddUncertaintyMps2: 0.1,
              timeS: fromMps / planned.brakingMps2,
            },
          ],
  );
  // Where the derivative of the acceleration, V (−slow/T + fast/S) / (T − S), is nothing.
  const { lagS: T, onsetS: S } = launch;
  const peakS = (Math.log(T / S) * T * S) / (T - S);
  return {
    beginsS: 0,
    endsS: topS + topMps / planned.brakingMps2,
    start: { firstMovementS: 0, rolloutS, uncertaintyS: 0.02 },
    speedSplits,
    distanceSplits,
    braking,
    peakMps2: launchAt(launch, peakS).accelerationMps2,
    peakUncertaintyMps2: 0.2,
    topMps,
    topUncertaintyMps: 0.03,
    flags: [],
  };
}

function clockText(secondsOfDay: number): string {
  const two = (value: number) => String(Math.floor(value)).padStart(2, '0');
  return `${two(secondsOfDay / 3600)}:${two((secondsOfDay / 60) % 60)}:${two(secondsOfDay % 60)}`;
}

/** The house the fixture belongs to. */
export function houseFixture(): House {
  return {
    name: 'The Hedgerow Motorist',
    site: 'https://hedgerow.example',
    language: 'en-GB',
    headline_start_rule: 'first-movement',
    licence: { name: 'CC BY 4.0', url: 'https://creativecommons.org/licenses/by/4.0/' },
    launch_methods: [
      { id: 'plain', name: 'Plain throttle', how: 'Foot off the brake, then full throttle' },
      { id: 'brake', name: 'Brake and throttle', how: 'Both pedals, then off the brake' },
      { id: 'sport', name: 'Sport setting', how: 'Sport setting, then full throttle' },
    ],
  };
}

/** The whole day in one log; the attempts share its trace. */
export function testFixture(plan: FixturePlan = FIXTURE_PLAN): TestResult {
  const timeS: number[] = [];
  const speedMps: number[] = [];
  const distanceM: number[] = [];
  const placed: { beginIndex: number; endIndex: number; brakingIndex: number; movesS: number }[] = [];
  let clockS = 0;
  let doneM = 0;
  const stepS = 1 / plan.rateHz;
  for (const planned of plan.attempts) {
    const topMps = kmhToMps(planned.topKmh);
    const topS = timeToSpeed(planned.launch, topMps);
    const topM = launchAt(planned.launch, topS).distanceM;
    const stopS = topMps / planned.brakingMps2;
    const movesS = clockS + STANDING_S;
    const endsS = movesS + topS + stopS + STANDING_S;
    const beginIndex = timeS.length + Math.floor((STANDING_S - 1) / stepS);
    let brakingIndex = 0;
    let endIndex = 0;
    for (let index = Math.ceil(clockS / stepS); index * stepS < endsS; index += 1) {
      const atS = index * stepS;
      const sinceS = atS - movesS;
      const brakedS = Math.min(Math.max(0, sinceS - topS), stopS);
      const rising = launchAt(planned.launch, Math.min(sinceS, topS));
      if (sinceS <= topS) brakingIndex = timeS.length;
      if (sinceS <= topS + stopS + stepS) endIndex = timeS.length;
      timeS.push(atS);
      speedMps.push(brakedS > 0 ? topMps - planned.brakingMps2 * brakedS : rising.speedMps);
      distanceM.push(doneM + rising.distanceM + topMps * brakedS - (planned.brakingMps2 * brakedS ** 2) / 2);
    }
    placed.push({ beginIndex, endIndex, brakingIndex, movesS });
    doneM += topM + topMps ** 2 / (2 * planned.brakingMps2);
    clockS = endsS;
  }
  const trace: Trace = {
    file: 'logs/day.csv',
    format: 'csv',
    speedSource: 'recorded',
    timeS: Float64Array.from(timeS),
    speedMps: Float64Array.from(speedMps, speed => Math.max(0, speed)),
    distanceM: Float64Array.from(distanceM),
    line: Uint32Array.from(timeS, (_, index) => index + 2),
    channels: {},
    rateHz: plan.rateHz,
    noiseMps: 0.02,
    noiseFrom: 'standing',
    gaps: [],
    spikes: [],
  };
  const attempts = plan.attempts.map((planned, index): Attempt => {
    const place = placed[index]!;
    const measured = measure(planned, plan.uncertaintyS);
    return {
      id: `a${String(index + 1).padStart(2, '0')}`,
      number: index + 1,
      at: clockText(10 * 3600 + index * 240 + place.movesS),
      ...(planned.launchId === undefined ? {} : { launchId: planned.launchId }),
      ...(planned.launchName === undefined ? {} : { launchName: planned.launchName }),
      ...(planned.directionId === undefined ? {} : { directionId: planned.directionId }),
      ...(planned.note === undefined ? {} : { note: planned.note }),
      ...(planned.setAside === undefined ? {} : { setAside: planned.setAside }),
      log: 'logs/day.csv',
      trace,
      measurement: {
        ...measured,
        run: {
          number: index + 1,
          kind: 'standing-start',
          status: planned.topKmh < 100 ? 'aborted' : 'complete',
          beginIndex: place.beginIndex,
          endIndex: place.endIndex,
          braking: { beginIndex: place.brakingIndex, endIndex: place.endIndex },
        },
        beginsS: place.movesS,
        endsS: place.movesS + measured.endsS,
        start: { ...measured.start!, firstMovementS: place.movesS },
      },
      conditions: {
        readAt: '09:50',
        temperatureK: 287.35,
        pressurePa: 100_620,
        relativeHumidity: 0.62,
        densityKgm3: 1.214,
        densityBy: 'ideal-gas',
        densityAltitudeM: 90,
        windMps: 2.1,
        headwindMps: planned.directionId === 'west' ? -1.6 : 1.6,
        crosswindMps: 1.4,
        slopePct: planned.directionId === 'west' ? -0.1 : 0.1,
        surface: 'dry',
      },
    };
  });
  return {
    id: 'fixture-day',
    content: {
      title: 'A day in the fixture',
      standfirst: 'Every number of it is known beforehand.',
      car: 'sorrel',
      road: 'field',
      date: '2026-05-12',
      published: '2026-05-20',
      time_zone: '+01:00',
      as_tested: {
        mass_kg: 1612,
        mass_from: 'weighed',
        aboard: 'driver, 82 kg, and 6 kg of gear',
        fuel: 'battery at 80 %',
        tyres: '205/55 R16 summer',
        tyre_pressure_front_kpa: 250,
        tyre_pressure_rear_kpa: 240,
        odometer_km: 4210,
      },
      receiver: { what: '20 Hz satellite receiver, roof centre', speed_accuracy_kmh: 0.1 },
      conditions: [
        {
          at: '09:50',
          temperature_c: 14.2,
          pressure_hpa: 1006.2,
          humidity_pct: 62,
          wind_mps: 2.1,
          wind_from_deg: 130,
          surface: 'dry',
        },
      ],
      logs: [{ file: 'logs/day.csv' }],
      attempts: plan.attempts.map((_, index) => ({ log: 'logs/day.csv', run: index + 1 })),
    },
    car: {
      id: 'sorrel',
      name: 'Wendover Sorrel 52',
      short_name: 'Sorrel 52',
      kind: 'five-door hatchback',
      drive: 'electric',
      driven_wheels: 'front',
      gearbox: 'single speed',
      power_kw: 115,
      torque_nm: 260,
      kerb_mass_kg: 1495,
    },
    road: {
      id: 'field',
      name: 'Fixture field',
      about: 'A runway closed for the day',
      permission: 'The owner',
      surface: 'concrete',
      length_m: 1900,
      altitude_m: 61,
      directions: [
        { id: 'east', name: 'eastbound', heading_deg: 88 },
        { id: 'west', name: 'westbound', heading_deg: 268 },
      ],
      slope_pct: 0.1,
    },
    attempts,
    articleMarkdown: '',
    articleFile: 'tests/fixture-day/article.md',
    logSha256: {},
    warnings: [],
  };
}
