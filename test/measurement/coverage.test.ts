/**
 * Whether figures come near the truth, and stated intervals hold it as often as they say: some 7,800 simulated runs of
 * four kinds of car, half of the starts in manners and ramp times that are no car's own. The even and the smooth rise
 * are among those the fit tries, the rest are not quite. The fit's shares and allowances were set on other seeds of
 * this same population: this holds what they promise there, and is no proof for starts of another kind.
 *
 * The half that are cars' own launches is held more often than the whole (98 to 99 of 100 from first movement), for an
 * interval must leave room for manners that readings cannot tell apart: narrowed until own launches are held in 97,
 * starts that bite at once are held in 55 (weights tried on 2,400 runs of another seed). `node test/simulate/coverage-table.ts 1000` prints the same in full.
 */
import { describe, expect, it } from 'vitest';
import { measureLog } from '../../pipeline/measurement/measure.ts';
import { CARS } from '../simulate/cars.ts';
import {
  type Deviation,
  drivePaths,
  KINDS,
  type Kind,
  type Plan,
  type Reading,
  readPath,
  START_KINDS,
  STOP_KINDS,
  simulateDeviations,
  summarise,
} from '../simulate/coverage.ts';
import { randomFromSeed } from '../simulate/random.ts';

const { deviations, runs, missed } = simulateDeviations({ seed: 9412, perCell: 260, paths: 96 });
const of = (kind: Kind): Deviation[] => deviations.filter(one => one.kind === kind);
const groups = (list: readonly Deviation[], by: (one: Deviation) => string): Map<string, Deviation[]> =>
  Map.groupBy(list, by);

describe('simulated runs', () => {
  it('are more than two thousand, and every one is found', () => {
    expect(runs).toBeGreaterThan(7000);
    expect(missed).toBe(0);
  });

  it('of the cars’ own launch methods: 0–100 km/h from first movement within 0.005 s on average and 0.02 s rms', () => {
    const { bias, rms, count } = summarise(of('first-movement').filter(one => one.shape === 'own'));
    expect(count).toBeGreaterThan(2000);
    expect(Math.abs(bias)).toBeLessThan(0.005);
    expect(rms).toBeLessThan(0.02);
  });

  it('0–100 km/h after one foot within 0.008 s rms, whatever the manner of the start', () => {
    const { bias, rms } = summarise(of('one-foot'));
    expect(Math.abs(bias)).toBeLessThan(0.001);
    expect(rms).toBeLessThan(0.008);
  });

  it('stopping distance within 0.2 m rms and MFDD within 1 %', () => {
    expect(summarise(of('stop distance')).rms).toBeLessThan(0.2);
    const shares = of('mfdd').map(({ error, truth }) => Math.abs(error / truth));
    expect(Math.sqrt(shares.reduce((sum, share) => sum + share * share, 0) / shares.length)).toBeLessThan(
      0.002,
    );
    expect(Math.max(...shares)).toBeLessThan(0.01);
  });

  it('top speed within 0.1 km/h rms, and not low', () => {
    const { bias, rms } = summarise(of('top'));
    expect(rms).toBeLessThan(0.1 / 3.6);
    expect(Math.abs(bias)).toBeLessThan(0.02 / 3.6);
  });
});

describe('stated intervals of 95 %', () => {
  it.each(KINDS)('hold the truth in 93 to 97 of 100 runs: %s', kind => {
    const { coverage } = summarise(of(kind));
    expect(coverage).toBeGreaterThan(0.93);
    expect(coverage).toBeLessThan(0.97);
  });

  it.each(KINDS)('hold it in 90 to 99 of 100 runs of every car at every rate: %s', kind => {
    for (const [cell, list] of groups(of(kind), ({ carId, rateHz }) => `${carId} ${rateHz} Hz`)) {
      expect(list.length, cell).toBeGreaterThanOrEqual(250);
      const { coverage } = summarise(list);
      expect(coverage, cell).toBeGreaterThanOrEqual(0.9);
      expect(coverage, cell).toBeLessThanOrEqual(0.99);
    }
  });

  it('hold the start more often than not even in the manner the average takes for least likely', () => {
    for (const [shape, list] of groups(of('first-movement'), one => one.shape)) {
      expect(summarise(list).coverage, shape).toBeGreaterThan(0.75);
    }
  });
});

describe('recorders that are not ideal', () => {
  const read = (reading: Partial<Reading>, rateHz: number, more: Partial<Plan> = {}): Deviation[] => {
    // A run at 100 Hz takes as long as four at 25.
    const perCell = rateHz < 100 ? 24 : 12;
    return simulateDeviations({ seed: 5, perCell, paths: perCell, rates: [rateHz], reading, ...more })
      .deviations;
  };
  const held = (list: readonly Deviation[], kinds: readonly Kind[]): number =>
    summarise(list.filter(({ kind }) => kinds.includes(kind))).coverage;

  it.each([10, 25, 100])('that write whole km/h are measured without great bias at %d Hz', rateHz => {
    const list = read({ stepMps: 1 / 3.6 }, rateHz);
    const moved = summarise(list.filter(({ kind }) => kind === 'first-movement'));
    expect(Math.abs(moved.bias)).toBeLessThan(0.03);
    expect(held(list, [...START_KINDS, 'rolling'])).toBeGreaterThan(0.93);
    // Stairs of a recorder are no noise: stops are held less often, and every such run is flagged.
    expect(held(list, STOP_KINDS)).toBeGreaterThan(0.9);
  });

  it.each([10, 25, 100])('whose time stamps stray by 10 ms keep their intervals at %d Hz', rateHz => {
    const list = read({ jitterS: 0.01 }, rateHz);
    expect(held(list, ['first-movement', 'one-foot', 'rolling', 'stop distance'])).toBeGreaterThan(0.93);
  });

  it.each([25, 100])(
    'that filter by 0.1 s are told by their noise at rest, and intervals widen at %d Hz',
    rateHz => {
      const list = read({ lagS: 0.1 }, rateHz, { standS: 40, pulls: false, perCell: 24, paths: 24 });
      expect(held(list, [...START_KINDS, ...STOP_KINDS])).toBeGreaterThan(0.93);
      expect(held(list, ['top'])).toBeGreaterThan(0.75);
    },
  );

  it('that filter by 0.2 s, as their maker states, keep their intervals at 10 Hz', () => {
    const list = read({ lagS: 0.2 }, 10, { options: { lagS: 0.2 } });
    expect(held(list, START_KINDS)).toBeGreaterThan(0.93);
    expect(held(list, STOP_KINDS)).toBeGreaterThan(0.93);
    expect(held(list, ['rolling', 'top'])).toBeGreaterThan(0.93);
  });

  it.each([1, 2])('that write %d readings a second keep their intervals', rateHz => {
    const list = read({}, rateHz);
    // Chance moves a share of so few by a hundredth.
    expect(held(list, [...START_KINDS, 'rolling'])).toBeGreaterThan(0.92);
    expect(held(list, [...STOP_KINDS, 'top'])).toBeGreaterThan(0.93);
  });

  it('are flagged for it, so that no interval is promised without its reason', () => {
    const [path] = drivePaths(CARS[0]!, 1, 8, 40);
    const codes = (reading: Reading, standS = 40): readonly string[] => {
      const log = readPath(path!.trajectory, reading, 40 - standS, randomFromSeed(3));
      return measureLog(log).measurements[0]!.flags.map(({ code }) => code);
    };
    const good: Reading = { rateHz: 25, noiseMps: 0.02 };
    expect(codes(good)).toEqual([]);
    expect(codes({ ...good, stepMps: 1 / 3.6 })).toContain('noisy');
    expect(codes({ ...good, rateHz: 2 })).toContain('low-rate');
    expect(codes({ ...good, lagS: 0.1 })).toContain('filtered');
    // A short rest shows no filter: with one or without, the run says so.
    expect(codes({ ...good, rateHz: 10 }, 4)).toContain('brief-rest');
    expect(codes({ ...good, rateHz: 10, lagS: 0.1 }, 4)).toContain('brief-rest');
  });
});
