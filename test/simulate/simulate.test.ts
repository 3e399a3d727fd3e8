import { createHash } from 'node:crypto';
import { describe, expect, it } from 'vitest';
import { CARS, ELECTRIC_HATCH, type SimulatedCar } from './cars.ts';
import { simulateDay } from './day.ts';
import { drive, type Manoeuvre, STILL_DRY_AIR } from './drive.ts';
import { randomFromSeed } from './random.ts';
import { receive } from './receiver.ts';
import { driveToTruth } from './truth.ts';
import { nmeaChecksum, writeCsv, writeGpx, writeNmea } from './write-log.ts';

/** A car without losses, whose runs have closed forms. */
const ideal = (change: Partial<SimulatedCar>): SimulatedCar => ({
  ...ELECTRIC_HATCH,
  massKg: 1500,
  powerW: 1e12,
  torqueNm: 1e9,
  efficiency: 1,
  tractionN: 1e9,
  dragAreaM2: 0,
  rollingResistance: 0,
  rotatingShare: () => 0,
  ratios: [1],
  shiftRpm: 1e9,
  ...change,
});
const STEP_LAUNCH = { id: 'step', rampS: 0, shape: 'linear' } as const;
const level = { headingDeg: 0 };
const oneRun = (car: SimulatedCar, script: readonly Manoeuvre[], road = level, air = STILL_DRY_AIR) => {
  const run = driveToTruth(drive(car, road, air, [{ kind: 'stand', forS: 1 }, ...script]))[0];
  if (!run) throw new Error('The script holds no run.');
  return run;
};
const toSpeed = (toMps: number): Manoeuvre => ({ kind: 'standing-start', launch: STEP_LAUNCH, toMps });
const split = (run: ReturnType<typeof oneRun>, kmh: number) => {
  const found = run.speedSplits.find(s => Math.abs(s.toMps * 3.6 - kmh) < 1e-6);
  if (!found) throw new Error(`The run never reached ${kmh} km/h.`);
  return found;
};
const TENTH_MS = 0.0001;
const MILLIMETRE = 0.001;

describe('the simulator against closed forms', () => {
  // t = v/a, x = v²/2a, quarter mile sqrt(2x/a): elementary kinematics.
  it('drives constant force as t = v/a and x = v²/2a', () => {
    const run = oneRun(ideal({ tractionN: 1500 * 5 }), [
      { kind: 'standing-start', launch: STEP_LAUNCH, toM: 403 },
    ]);
    expect(run.firstMovementS).toBeCloseTo(1, 9);
    expect(Math.abs(split(run, 100).timeS - 5.555555556)).toBeLessThan(TENTH_MS);
    expect(Math.abs(split(run, 100).distanceM - 77.160493827)).toBeLessThan(MILLIMETRE);
    expect(Math.abs(run.rolloutS! - 0.349170445)).toBeLessThan(TENTH_MS);
    expect(Math.abs(split(run, 96.56064).timeS - 5.36448)).toBeLessThan(TENTH_MS);
    expect(Math.abs(split(run, 96.56064).rolloutTimeS - 5.015309555)).toBeLessThan(TENTH_MS);
    const quarter = run.distanceSplits.find(s => s.toM === 402.336)!;
    expect(Math.abs(quarter.timeS - 12.685992)).toBeLessThan(TENTH_MS);
    expect(Math.abs(quarter.speedMps * 3.6 - 228.347861)).toBeLessThan(0.001);
  });

  // Traction m·a until P/F, then m(v² − vs²)/2P: 0.9 × 0.6 of the weight, 150 kW, 1500 kg.
  it('drives traction and then constant power', () => {
    const car = ideal({ tractionN: 0.9 * 0.6 * 1500 * 9.80665, powerW: 150_000 });
    const run = oneRun(car, [toSpeed(34)]);
    expect(Math.abs(split(run, 100).timeS - 5.640982776)).toBeLessThan(TENTH_MS);
    const [from, to] = [80 / 3.6, 120 / 3.6];
    expect(
      Math.abs(split(run, 120).timeS - split(run, 80).timeS - (1500 * (to * to - from * from)) / 300_000),
    ).toBeLessThan(TENTH_MS);
  });

  // F − k v²: v = vt tanh(t/τ), vt = sqrt(F/k), τ = m vt/F.
  it('drives constant force against drag as a hyperbolic tangent', () => {
    const car = ideal({ massKg: 1200, tractionN: 3000, dragAreaM2: 0.6 });
    const run = oneRun(car, [toSpeed(28)]);
    expect(Math.abs(split(run, 100).timeS - 11.474456869)).toBeLessThan(TENTH_MS);
  });

  it('turns work into kinetic energy and height, no more and no less', () => {
    const rise = 0.03;
    const car = ideal({ tractionN: 6000 });
    const profile = [
      [0, 0],
      [1000, 1000 * rise],
    ] as const;
    const run = oneRun(car, [toSpeed(30)], { ...level, profile } as typeof level);
    const { distanceM } = split(run, 100);
    const kinetic = (1500 * (100 / 3.6) ** 2) / 2;
    const potential = 1500 * 9.80665 * rise * distanceM;
    expect(Math.abs((kinetic + potential) / 6000 - distanceM)).toBeLessThan(MILLIMETRE);
  });

  // 100 km/h, 0.2 s linear rise to 8 m/s²: 50.989753086 m; MFDD after UN R13-H Annex 3.
  it('brakes with a linear build-up over the closed-form distance', () => {
    const v0 = 100 / 3.6;
    const car = ideal({ tractionN: 1500 * 5, brakeMps2: 8, brakeBuildUpS: 0.2 });
    const path = drive(car, level, STILL_DRY_AIR, [
      { kind: 'glide', toMps: v0, overS: 20 },
      { kind: 'brake' },
    ]);
    const run = driveToTruth(path)[0]!;
    const at = path.runs[0]!.brakeNode!;
    const covered = path.trajectory.distanceM[path.trajectory.count - 1]! - path.trajectory.distanceM[at]!;
    expect(Math.abs(covered - 50.989753086)).toBeLessThan(MILLIMETRE);
    expect(run.kind).toBe('braking');
    expect(Math.abs(run.mfddMps2! - 8)).toBeLessThan(0.0005);
  });

  it('holds a headwind against the square of speed through the air', () => {
    const air = { densityKgm3: 1.2, windMps: 5, windFromDeg: 0, grip: 1 };
    const car = ideal({ massKg: 1200, tractionN: 3000, dragAreaM2: 0.6 });
    const run = oneRun(car, [toSpeed(28)], level, air);
    // The same tanh, in speed through the air, from 5 m/s upward.
    const [vt, tau] = [Math.sqrt(3000 / 0.36), (1200 * Math.sqrt(3000 / 0.36)) / 3000];
    const expected = tau * (Math.atanh((100 / 3.6 + 5) / vt) - Math.atanh(5 / vt));
    expect(Math.abs(split(run, 100).timeS - expected)).toBeLessThan(TENTH_MS);
  });

  // 0–60 mph time ÷ (mv²/2P) of 400 production cars lies between 1.53 and 3.52 (vega-datasets `cars`).
  it('makes every kind of car accelerate within the bounds of real ones', () => {
    for (const car of CARS) {
      for (const launch of car.launches) {
        const run = oneRun(car, [{ kind: 'standing-start', launch, toMps: 27 }]);
        const ratio = split(run, 96.56064).timeS / ((car.massKg * 26.8224 ** 2) / 2 / car.powerW);
        expect(ratio, car.id).toBeGreaterThan(1.5);
        expect(ratio, car.id).toBeLessThan(3.5);
      }
    }
  });
});

describe('a simulated day', () => {
  it('is the same, byte by byte, from the same seed', () => {
    const bytes = () => writeCsv(simulateDay({ seed: 11, rateHz: 20, noiseMps: 0.02, runs: 3 }).samples);
    const sha = (data: Uint8Array) => createHash('sha256').update(data).digest('hex');
    expect(sha(bytes())).toBe(sha(bytes()));
    const other = writeCsv(simulateDay({ seed: 12, rateHz: 20, noiseMps: 0.02, runs: 3 }).samples);
    expect(sha(other)).not.toBe(sha(bytes()));
  });

  it('has as many runs as planned, aborted ones among them, each from rest', () => {
    for (let seed = 1; seed <= 6; seed++) {
      const day = simulateDay({ seed, rateHz: 10, noiseMps: 0.02, runs: 4, aborted: 2, rolling: 1 });
      const starts = day.truth.filter(run => run.kind === 'standing-start');
      expect(starts).toHaveLength(6);
      expect(starts.filter(run => run.status === 'aborted')).toHaveLength(2);
      expect(day.truth.filter(run => run.kind === 'rolling')).toHaveLength(1);
      for (const run of starts) {
        expect(day.drive.trajectory.speedAt(run.firstMovementS!)).toBe(0);
        expect(day.drive.trajectory.speedAt(run.firstMovementS! + 0.05)).toBeGreaterThan(0);
      }
    }
  });

  it('gives a log that begins at zero, goes forward in time and never writes a negative speed', () => {
    const log = simulateDay({ seed: 3, rateHz: 25, noiseMps: 0.05, receiver: { jitterS: 0.004 } }).toLog();
    expect(log.timeS[0]).toBe(0);
    for (let i = 1; i < log.timeS.length; i++) {
      expect(log.timeS[i]! > log.timeS[i - 1]!).toBe(true);
      if (log.speedMps[i]! < 0) throw new Error(`Sample ${i} is negative.`);
    }
  });

  it('returns to the line after every run', () => {
    const { drive: driven } = simulateDay({ seed: 5, rateHz: 10, noiseMps: 0.02, traffic: false });
    const { trajectory, runs } = driven;
    for (const run of runs) {
      const place = Math.hypot(
        trajectory.eastM[run.beginNode]! - trajectory.eastM[runs[0]!.beginNode]!,
        trajectory.northM[run.beginNode]! - trajectory.northM[runs[0]!.beginNode]!,
      );
      expect(place).toBeLessThan(60);
    }
  });
});

describe('a simulated receiver', () => {
  const path = drive(ideal({ tractionN: 1500 * 4 }), level, STILL_DRY_AIR, [
    { kind: 'stand', forS: 20 },
    { kind: 'standing-start', launch: STEP_LAUNCH, toMps: 40 },
  ]).trajectory;

  it('adds noise of the standard deviation asked for', () => {
    const samples = receive(path, { rateHz: 100, noiseMps: 0.05 }, randomFromSeed(1));
    let sum = 0;
    let n = 0;
    for (let i = 2200; i < samples.timeS.length - 1; i++) {
      sum += (samples.speedMps[i]! - path.speedAt(samples.timeS[i]!)) ** 2;
      n += 1;
    }
    expect(Math.sqrt(sum / n)).toBeGreaterThan(0.046);
    expect(Math.sqrt(sum / n)).toBeLessThan(0.054);
  });

  // A first-order lag follows a ramp of slope a behind by a·τ once settled.
  it('lags a steady rise by its time constant', () => {
    const samples = receive(path, { rateHz: 10, noiseMps: 0, lagS: 0.25 }, randomFromSeed(1));
    const late = samples.timeS.findIndex(t => t >= 26);
    expect(path.speedAt(samples.timeS[late]!) - samples.speedMps[late]!).toBeCloseTo(4 * 0.25, 4);
  });

  it('writes steps, holes and spikes where asked', () => {
    const samples = receive(
      path,
      {
        rateHz: 10,
        noiseMps: 0.02,
        stepMps: 1 / 3.6,
        dropouts: [{ fromS: 22.05, toS: 23.35 }],
        spikes: [{ atS: 25, speedMps: 412 / 3.6 }],
      },
      randomFromSeed(2),
    );
    const kmh = [...samples.speedMps].map(v => v * 3.6);
    expect(kmh.every(v => Math.abs(v - Math.round(v)) < 1e-9)).toBe(true);
    expect(kmh.filter(v => Math.round(v) === 412)).toHaveLength(1);
    const steps = [...samples.timeS].map((t, i) => (i === 0 ? 0 : t - samples.timeS[i - 1]!));
    expect(Math.max(...steps)).toBeCloseTo(1.4, 6);
  });

  it('puts positions as far apart as the car drove', () => {
    const samples = receive(path, { rateHz: 10, noiseMps: 0, wanderM: 0 }, randomFromSeed(2));
    const last = samples.timeS.length - 1;
    const north = (samples.latitudeDeg[last]! - samples.latitudeDeg[0]!) * 111_270;
    expect(north / path.distanceAt(samples.timeS[last]!)).toBeCloseTo(1, 3);
  });
});

describe('log writers', () => {
  const { samples } = simulateDay({ seed: 4, rateHz: 10, noiseMps: 0.02, runs: 1, aborted: 0 });
  const text = (bytes: Uint8Array) => new TextDecoder('utf-8', { ignoreBOM: true }).decode(bytes);
  const startMs = Date.UTC(2026, 4, 12, 9, 0, 0);

  // NMEA 0183 textbook sentences.
  it('computes the checksum of published sentences', () => {
    expect(nmeaChecksum('GPGGA,123519,4807.038,N,01131.000,E,1,08,0.9,545.4,M,46.9,M,,')).toBe('47');
    expect(nmeaChecksum('GPRMC,123519,A,4807.038,N,01131.000,E,022.4,084.4,230394,003.1,W')).toBe('6A');
    expect(nmeaChecksum('GPVTG,054.7,T,034.4,M,005.5,N,010.2,K')).toBe('48');
  });

  it('writes a row a sample in every dialect of CSV', () => {
    for (const dialect of [
      {},
      { delimiter: ';', decimal: ',', byteOrderMark: true, lineEnd: '\r\n' },
      { time: 'ms', unit: 'm/s', speedDecimals: 3, delimiter: '\t' },
      { time: 'iso', unit: 'mph', startMs, extra: ['satellites', 'hdop'] },
      { time: 'time-of-day', startMs, zoneMin: 60, preamble: ['Airfield, 12 May', ''] },
      { header: ['a', 'b'] },
    ] as const) {
      const lines = text(writeCsv(samples, dialect)).trim().split(/\r?\n/);
      const above = 'preamble' in dialect ? dialect.preamble.length : 0;
      expect(lines).toHaveLength(samples.timeS.length + 1 + above);
    }
    expect(text(writeCsv(samples, { byteOrderMark: true })).charCodeAt(0)).toBe(0xfeff);
    const clock = text(writeCsv(samples, { time: 'time-of-day', startMs, zoneMin: 60, timeDecimals: 2 }));
    expect(clock.split('\n')[1]).toMatch(/^10:00:00\.00,/);
  });

  it('writes two verified sentences an epoch and one track point a sample', () => {
    const sentences = text(writeNmea(samples, { startMs })).trim().split('\r\n');
    expect(sentences).toHaveLength(samples.timeS.length * 2);
    for (const sentence of sentences.slice(0, 50)) {
      const [body, sum] = sentence.slice(1).split('*');
      expect(nmeaChecksum(body!)).toBe(sum);
    }
    expect(sentences[0]).toMatch(
      /^\$GNRMC,090000\.00,A,5224\.\d{5},N,00112\.\d{5},W,\d+\.\d{3},68\.0,120526,,,A\*/,
    );
    const points = text(writeGpx(samples, { startMs })).match(/<trkpt /g);
    expect(points).toHaveLength(samples.timeS.length);
  });
});
