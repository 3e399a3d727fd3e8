/** Test days whose ways back are quick: as fast as a slow vehicle's attempts, and still no runs. */
import { describe, expect, it } from 'vitest';
import { findRuns } from '../../pipeline/run/find.ts';
import { logToTrace } from '../../pipeline/trace/build.ts';
import { kmhToMps } from '../../pipeline/units.ts';
import { CARS } from '../simulate/cars.ts';
import { samplesToLog, varied } from '../simulate/day.ts';
import { drive, type Manoeuvre, STILL_DRY_AIR } from '../simulate/drive.ts';
import { randomFromSeed } from '../simulate/random.ts';
import { receive } from '../simulate/receiver.ts';

const ATTEMPTS = 4;
const cases = CARS.flatMap(car => [10, 20, 25, 100].map(rateHz => ({ id: car.id, car, rateHz })));

describe('simulated days with ways back at 50 to 62 km/h', () => {
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
    // At the end brisk drive-offs to 58 km/h, 1.25 m/s² on average from 10 to 50 km/h, as on the way home.
    for (let k = 0; k < 2; k++) {
      script.push(
        { kind: 'glide', toMps: kmhToMps(58), overS: 18.5 },
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
    for (const [k, run] of driven.runs.entries()) {
      const beginsS = driven.trajectory.timeS[run.beginNode]!;
      expect(Math.abs(trace.timeS[runs[k]!.beginIndex]! - beginsS)).toBeLessThan(1.5);
    }
  });
});
