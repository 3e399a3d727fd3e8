/** Test days whose other driving is as brisk as a slow vehicle's attempts, and still no runs. */
import { describe, expect, it } from 'vitest';
import { findRuns } from '../../pipeline/run/find.ts';
import { logToTrace } from '../../pipeline/trace/build.ts';
import { kmhToMps } from '../../pipeline/units.ts';
import { CARS, type Launch, type SimulatedCar } from '../simulate/cars.ts';
import { samplesToLog, varied } from '../simulate/day.ts';
import { drive, type Manoeuvre, STILL_DRY_AIR } from '../simulate/drive.ts';
import { randomFromSeed } from '../simulate/random.ts';
import { receive } from '../simulate/receiver.ts';

const ATTEMPTS = 4;
const cases = CARS.flatMap(car => [10, 20, 25, 100].map(rateHz => ({ id: car.id, car, rateHz })));

/** Driving off as on the way home: neither hard nor hesitant. */
const GENTLE: Launch = { id: 'gentle', rampS: 0.6, shape: 'smooth' };
const HOME = 'home';

/** Share of the car's power with which it gains so much on average from 10 to 50 km/h, by halving. */
function powerFor(car: SimulatedCar, meanMps2: number): number {
  let [low, high] = [0.05, 1];
  for (let i = 0; i < 12; i++) {
    const power = (low + high) / 2;
    const { trajectory } = drive(car, { headingDeg: 68 }, STILL_DRY_AIR, [
      { kind: 'stand', forS: 1 },
      { kind: 'standing-start', launch: GENTLE, toMps: kmhToMps(51), power },
    ]);
    const at = (kmh: number): number =>
      trajectory.timeS[trajectory.speedMps.findIndex(mps => mps >= kmhToMps(kmh))]!;
    if (kmhToMps(40) / (at(50) - at(10)) < meanMps2) low = power;
    else high = power;
  }
  return high;
}

describe('simulated days with ways back at 50 to 62 km/h and gentle drive-offs past 50 km/h', () => {
  it.each(cases)('$id at $rateHz Hz: the attempts and nothing else', ({ car, rateHz }) => {
    const random = randomFromSeed(7000 + rateHz);
    const script: Manoeuvre[] = [{ kind: 'stand', forS: 10 }];
    for (let k = 0; k < ATTEMPTS; k++) {
      const launch = varied(car.launches[k % car.launches.length]!, random);
      // Every other attempt is lifted at 55 to 70 km/h.
      const toMps = k % 2 === 0 ? 29 : kmhToMps(random.between(55, 70));
      script.push(
        { kind: 'standing-start', launch, toMps },
        { kind: 'glide', toMps: 0, overS: random.between(14, 20) },
        { kind: 'stand', forS: 3 },
        { kind: 'three-point-turn' },
        { kind: 'travel-to', alongM: -20, cruiseMps: kmhToMps(random.between(50, 62)) },
        { kind: 'three-point-turn' },
        { kind: 'stand', forS: 2 },
        { kind: 'travel-to', alongM: 0, cruiseMps: 1.5 },
        { kind: 'stand', forS: random.between(4, 9) },
      );
    }
    const power = powerFor(car, 1.25);
    for (let k = 0; k < 2; k++) {
      script.push(
        { kind: 'standing-start', launch: GENTLE, toMps: kmhToMps(56), power, label: HOME },
        { kind: 'cruise', forS: 8 },
        { kind: 'glide', toMps: 0, overS: 15 },
        { kind: 'stand', forS: 5 },
      );
    }
    const driven = drive(car, { headingDeg: 68 }, STILL_DRY_AIR, script);
    const samples = receive(driven.trajectory, { rateHz, noiseMps: kmhToMps(0.08) }, random);
    const { trace } = logToTrace(samplesToLog(samples));
    const runs = findRuns(trace);
    expect(runs.map(({ kind }) => kind)).toEqual(Array<string>(ATTEMPTS).fill('standing-start'));
    for (const [k, run] of driven.runs.filter(({ label }) => label !== HOME).entries()) {
      const beginsS = driven.trajectory.timeS[run.beginNode]!;
      expect(Math.abs(trace.timeS[runs[k]!.beginIndex]! - beginsS)).toBeLessThan(1.5);
    }
  });
});
