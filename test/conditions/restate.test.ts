import { describe, expect, it } from 'vitest';
import { propagate } from '../../pipeline/compare/monte-carlo.ts';
import { DEFAULT_UNCERTAINTY, type RunCircumstances } from '../../pipeline/conditions/circumstances.ts';
import { powerInWords } from '../../pipeline/conditions/power-words.ts';
import { REFERENCE_AIR } from '../../pipeline/conditions/reference.ts';
import {
  notRestatedFlag,
  type RestatedFigure,
  restatedDistance,
  restatedSpeed,
  restateRun,
} from '../../pipeline/conditions/restate.ts';
import { constantSlope, surveyedSlope } from '../../pipeline/conditions/slope.ts';
import {
  AUTOMATIC_ESTATE,
  CARS,
  DIESEL_VAN,
  ELECTRIC_HATCH,
  MANUAL_TURBO,
  type SimulatedCar,
} from '../simulate/cars.ts';
import { type Random, randomFromSeed } from '../simulate/random.ts';
import {
  type Day,
  randomDay,
  randomReceiver,
  type SimulatedPair,
  simulatePair,
  trueSplits,
} from './simulated-pair.ts';

const pairOf = (
  car: SimulatedCar,
  random: Random,
  day: Day = randomDay(random, car),
  powerResponse = 1,
): SimulatedPair =>
  simulatePair({
    car,
    launch: random.pick(car.launches),
    day,
    receiver: randomReceiver(random),
    random,
    powerResponse,
  });

const EXACT = { mass: 0, dragArea: 0, headwindMps: 0, slope: 0, density: 0 };

interface Error95 {
  readonly car: string;
  readonly kind: string;
  readonly errorS: number;
  readonly uncertaintyS: number;
  /** The same of the change alone, without the error of the measured time it is a change of. */
  readonly changeErrorS: number;
  readonly changeUncertaintyS: number;
}

/** Errors of every split of a restated run against the truth of the reference road. */
function errorsOf(pair: SimulatedPair, car: string, told: RunCircumstances): Error95[] {
  const restated = restateRun(pair.trace, pair.measurement, told);
  expect(restated.notRestated).toBeUndefined();
  const [truth, day] = [pair.referenceTruth, pair.dayTruth].map(each => trueSplits(pair, each));
  const one = (
    kind: string,
    figure: RestatedFigure,
    measured: { readonly timeS: number; readonly uncertaintyS: number } | undefined,
    trueS: number | undefined,
    dayS: number | undefined,
  ): Error95[] => {
    if (trueS === undefined || dayS === undefined || measured === undefined) return [];
    return [
      {
        car,
        kind,
        errorS: figure.timeS - trueS,
        uncertaintyS: figure.uncertaintyS,
        changeErrorS: figure.timeS - measured.timeS - (trueS - dayS),
        changeUncertaintyS: Math.sqrt(Math.max(0, figure.uncertaintyS ** 2 - measured.uncertaintyS ** 2)),
      },
    ];
  };
  const { speedSplits, distanceSplits } = pair.measurement;
  return [
    ...speedSplits.flatMap(split => {
      const { toMps, startRule } = split;
      const figure = restatedSpeed(restated, split);
      const times = [truth!.speed(toMps, startRule), day!.speed(toMps, startRule)] as const;
      return figure ? one(`speed ${startRule}`, figure, split, ...times) : [];
    }),
    ...distanceSplits.flatMap(split => {
      const { toM, startRule } = split;
      const figure = restatedDistance(restated, split);
      const times = [truth!.distance(toM, startRule), day!.distance(toM, startRule)] as const;
      return figure ? one(`distance ${startRule}`, figure, split, ...times) : [];
    }),
  ];
}

/** The same errors with those of the change in their place. */
const changesOnly = (errors: readonly Error95[]): Error95[] =>
  errors.map(error => ({
    ...error,
    errorS: error.changeErrorS,
    uncertaintyS: error.changeUncertaintyS,
  }));

const rms = (errors: readonly Error95[]): number =>
  Math.sqrt(errors.reduce((sum, { errorS }) => sum + errorS * errorS, 0) / errors.length);
const bias = (errors: readonly Error95[]): number =>
  errors.reduce((sum, { errorS }) => sum + errorS, 0) / errors.length;
const covered = (errors: readonly Error95[]): number =>
  errors.filter(({ errorS, uncertaintyS }) => Math.abs(errorS) <= uncertaintyS).length / errors.length;
const groups = (errors: readonly Error95[], by: (error: Error95) => string) =>
  Object.entries(Object.groupBy(errors, by)) as [string, Error95[]][];

describe('a run under the reference conditions', () => {
  it.each(CARS)('restates to exactly the measured figures: $id', car => {
    const random = randomFromSeed(11);
    const pair = pairOf(car, random);
    const restated = restateRun(pair.trace, pair.measurement, {
      ...pair.circumstances,
      air: REFERENCE_AIR,
      headwindMps: 0,
      road: constantSlope(0),
    });
    expect(restated.speedSplits).toHaveLength(pair.measurement.speedSplits.length);
    expect(restated.distanceSplits).toHaveLength(pair.measurement.distanceSplits.length);
    for (const split of pair.measurement.speedSplits) {
      const figure = restatedSpeed(restated, split)!;
      expect(figure.timeS).toBe(split.timeS);
      expect(Object.values(figure.changesS).every(change => change === 0)).toBe(true);
      expect(figure.uncertaintyS).toBeGreaterThanOrEqual(split.uncertaintyS);
    }
    for (const split of pair.measurement.distanceSplits) {
      expect(restatedDistance(restated, split)?.timeS).toBe(split.timeS);
    }
  });
});

describe('restated times', () => {
  it('recover the truth of the level, calm run in reference air within 0.03 s rms', () => {
    const random = randomFromSeed(2024);
    const errors = Array.from({ length: 25 }, () => CARS)
      .flat()
      .flatMap(car => {
        const pair = pairOf(car, random);
        return errorsOf(pair, car.id, { ...pair.circumstances, uncertainty: EXACT });
      });
    expect(errors.length).toBeGreaterThan(2500);
    expect(rms(errors)).toBeLessThan(0.025);
    // What restating adds to the error of the measured times themselves.
    expect(rms(changesOnly(errors))).toBeLessThan(0.012);
    expect(Math.abs(bias(changesOnly(errors)))).toBeLessThan(0.004);
    for (const [, kind] of groups(errors, error => error.kind)) {
      expect(rms(kind)).toBeLessThan(0.03);
    }
    for (const [, car] of groups(errors, error => error.car)) expect(rms(car)).toBeLessThan(0.03);
  });

  it('are covered by their intervals in 93 to 97 of 100 where what they rest on is known as stated', () => {
    const random = randomFromSeed(5);
    const u = DEFAULT_UNCERTAINTY;
    const errors = Array.from({ length: 50 }, () => CARS)
      .flat()
      .flatMap(car => {
        // The correction of power is taken to be known to 30 % of itself.
        const response = 1 + 0.3 * random.normal();
        const pair = pairOf(car, random, randomDay(random, car), response);
        const { circumstances } = pair;
        return errorsOf(pair, car.id, {
          ...circumstances,
          car: {
            ...circumstances.car,
            massKg: car.massKg * (1 + u.mass * random.normal()),
            dragAreaM2: car.dragAreaM2 * (1 + u.dragArea * random.normal()),
          },
          air: {
            ...circumstances.air,
            pressurePa: circumstances.air.pressurePa! * (1 + u.density * random.normal()),
          },
          headwindMps: circumstances.headwindMps! + u.headwindMps * random.normal(),
          road: constantSlope(100 * (circumstances.road!.slopeAt(0) + u.slope * random.normal())),
        });
      });
    const changes = changesOnly(errors);
    expect(covered(changes)).toBeGreaterThanOrEqual(0.93);
    expect(covered(changes)).toBeLessThanOrEqual(0.97);
    // Measured times bring intervals of their own, tested elsewhere.
    expect(covered(errors)).toBeGreaterThanOrEqual(0.93);
    expect(covered(errors)).toBeLessThanOrEqual(0.97);
    for (const [, kind] of groups(errors, error => error.kind)) {
      expect(covered(kind)).toBeGreaterThanOrEqual(0.92);
      expect(covered(kind)).toBeLessThanOrEqual(0.99);
    }
  });

  it('recover the truth on a road that rises and falls', () => {
    const random = randomFromSeed(31);
    const errors = Array.from({ length: 12 }, () => CARS)
      .flat()
      .flatMap(car => {
        let height = 0;
        const profile = Array.from({ length: 14 }, (_, i) => {
          if (i > 0) height += random.between(-0.8, 0.8);
          return [i * 100, height] as const;
        });
        const pair = pairOf(car, random, { ...randomDay(random, car), profile });
        return errorsOf(pair, car.id, { ...pair.circumstances, uncertainty: EXACT });
      });
    expect(rms(errors)).toBeLessThan(0.03);
  });

  it('of a rolling run recover the truth as well', () => {
    const random = randomFromSeed(8);
    const errors: number[] = [];
    for (let k = 0; k < 40; k++) {
      const car = random.pick(CARS);
      const pair = simulatePair({
        car,
        launch: car.launches[0]!,
        day: randomDay(random, car),
        receiver: { rateHz: 25, noiseMps: 0.015 },
        random,
        script: [
          { kind: 'glide', toMps: 12, overS: 12 },
          { kind: 'cruise', forS: 4 },
          { kind: 'pull', toMps: 36 },
        ],
      });
      const restated = restateRun(pair.trace, pair.measurement, pair.circumstances);
      for (const split of restated.speedSplits) {
        const truth = pair.referenceTruth.rollingSplits.find(
          each => Math.abs(each.fromMps - split.fromMps) < 1e-6 && Math.abs(each.toMps - split.toMps) < 1e-6,
        );
        if (truth) errors.push(split.timeS - truth.timeS);
      }
    }
    expect(errors.length).toBeGreaterThan(80);
    expect(Math.sqrt(errors.reduce((sum, e) => sum + e * e, 0) / errors.length)).toBeLessThan(0.03);
  });
});

describe('what each condition changed', () => {
  const calm: Day = {
    slopePct: 0,
    headwindMps: 0,
    temperatureK: 295,
    relativeHumidity: 0.5,
    densityShare: 0,
  };
  const changesOf = (day: Day, car = DIESEL_VAN) => {
    const random = randomFromSeed(3);
    const pair = simulatePair({
      car,
      launch: car.launches[0]!,
      day,
      receiver: { rateHz: 25, noiseMps: 0.01 },
      random,
    });
    const restated = restateRun(pair.trace, pair.measurement, pair.circumstances);
    const measured = pair.measurement.speedSplits;
    return restated.speedSplits.map((split, i) => ({
      ...split.changesS,
      totalS: split.timeS - measured[i]!.timeS,
    }));
  };

  it('adds up to the difference of restated and measured', () => {
    const changes = changesOf({ ...calm, slopePct: 0.4, headwindMps: -2, densityShare: 0.06 });
    expect(changes.length).toBeGreaterThan(8);
    for (const { slope, wind, air, totalS } of changes) expect(slope + wind + air).toBeCloseTo(totalS, 9);
  });

  it('is a gain of time where the day held the car back, and nothing where it did not differ', () => {
    for (const { slope, wind, air } of changesOf({ ...calm, slopePct: 0.4 })) {
      expect(slope).toBeLessThan(0);
      expect(Math.abs(wind)).toBe(0);
      expect(Math.abs(air)).toBeLessThan(1e-6);
    }
    for (const { slope, wind } of changesOf({ ...calm, headwindMps: 3 })) {
      expect(Math.abs(slope)).toBe(0);
      expect(wind).toBeLessThan(0);
    }
    for (const { air } of changesOf({ ...calm, densityShare: -0.08 })) expect(air).toBeGreaterThan(0);
  });

  it('says what was done about power: a correction for petrol without boost, none for the rest', () => {
    const random = randomFromSeed(4);
    const words = CARS.map(car => {
      const { trace, measurement, circumstances } = pairOf(car, random, { ...calm, temperatureK: 298 });
      const { power } = restateRun(trace, measurement, circumstances);
      return power && powerInWords(power, 'en');
    });
    expect(words[0]).toContain('does not breathe');
    expect(words[1]).toBe('Power corrected by ISO 1585 for spark ignition');
    expect(words[2]).toContain('holds its boost');
    expect(words[3]).toContain('fuel delivered');
  });
});

describe('uncertainty of a restated time', () => {
  it('to first order is what a Monte Carlo of the inputs gives', () => {
    const random = randomFromSeed(21);
    const day: Day = {
      slopePct: 0.3,
      headwindMps: 2,
      temperatureK: 290,
      relativeHumidity: 0.5,
      densityShare: 0.04,
    };
    const pair = simulatePair({
      car: MANUAL_TURBO,
      launch: MANUAL_TURBO.launches[0]!,
      day,
      receiver: { rateHz: 10, noiseMps: 0.02 },
      random,
    });
    const { trace, measurement, circumstances } = pair;
    const split = measurement.speedSplits.find(
      ({ toMps, startRule }) => Math.abs(toMps - 100 / 3.6) < 1e-9 && startRule === 'one-foot-rollout',
    )!;
    const figure = restatedSpeed(restateRun(trace, measurement, circumstances), split)!;
    const inputs = ['mass', 'drag-area', 'wind', 'slope', 'density'];
    const firstOrder = Math.hypot(
      ...figure.budget.filter(({ source }) => inputs.includes(source)).map(({ standard }) => standard),
    );
    const u = DEFAULT_UNCERTAINTY;
    const drawn = propagate(
      draws => {
        const moved: RunCircumstances = {
          ...circumstances,
          car: {
            ...circumstances.car,
            massKg: draws.normal(1, u.mass) * circumstances.car.massKg!,
            dragAreaM2: draws.normal(1, u.dragArea) * circumstances.car.dragAreaM2!,
          },
          air: {
            ...circumstances.air,
            pressurePa: draws.normal(1, u.density) * circumstances.air.pressurePa!,
          },
          headwindMps: draws.normal(2, u.headwindMps),
          road: constantSlope(draws.normal(0.3, 100 * u.slope)),
        };
        return restatedSpeed(restateRun(trace, measurement, moved), split)!.timeS;
      },
      { seed: 1, draws: 2000 },
    );
    expect(drawn.mean).toBeCloseTo(figure.timeS, 2);
    expect(drawn.standardUncertainty / firstOrder).toBeGreaterThan(0.93);
    expect(drawn.standardUncertainty / firstOrder).toBeLessThan(1.07);
  });

  it('grows where the run leaves the surveyed stretch of road', () => {
    const { trace, measurement, circumstances } = pairOf(ELECTRIC_HATCH, randomFromSeed(14));
    const on = (endM: number) =>
      restateRun(trace, measurement, {
        ...circumstances,
        road: surveyedSlope([
          [0, 0],
          [endM, endM * 0.001],
        ]),
      }).distanceSplits;
    const slopeOf = ({ budget }: RestatedFigure): number =>
      budget.find(({ source }) => source === 'slope')!.standard;
    const [whole, half] = [on(2000), on(300)];
    for (const [i, split] of measurement.distanceSplits.entries()) {
      expect(half[i]!.timeS).toBeCloseTo(whole[i]!.timeS, 9);
      const ratio = slopeOf(half[i]!) / slopeOf(whole[i]!);
      if (split.toM < 300) expect(ratio).toBeCloseTo(1, 9);
      else expect(ratio).toBeGreaterThan(1.2);
    }
  });

  it('of a petrol engine holds what a correction beyond its validity would have changed', () => {
    const random = randomFromSeed(17);
    const day: Day = {
      slopePct: 0,
      headwindMps: 0,
      temperatureK: 282,
      relativeHumidity: 0.5,
      densityShare: 0.06,
    };
    const { trace, measurement, circumstances } = pairOf(AUTOMATIC_ESTATE, random, day);
    const petrol = restateRun(trace, measurement, circumstances);
    const boosted = restateRun(trace, measurement, {
      ...circumstances,
      car: { ...circumstances.car, drive: 'petrol-boosted' },
    });
    const power = powerInWords(petrol.power!, 'en');
    expect(power).toContain('288 to 308 K');
    expect(power).toContain('counts as uncertainty');
    expect(petrol.speedSplits.at(-1)!.timeS).toBeCloseTo(boosted.speedSplits.at(-1)!.timeS, 9);
    expect(petrol.speedSplits.at(-1)!.budget[0]!.source).toBe('power');
    expect(powerInWords(boosted.power!, 'en')).toContain('stays in the figure');
  });

  it('counts every input, and grows with the wind’s', () => {
    const { trace, measurement, circumstances } = pairOf(ELECTRIC_HATCH, randomFromSeed(6));
    const last = (uncertainty: RunCircumstances['uncertainty']): RestatedFigure =>
      restateRun(trace, measurement, {
        ...circumstances,
        ...(uncertainty === undefined ? {} : { uncertainty }),
      }).speedSplits.at(-1)!;
    expect(last({ headwindMps: 1.5 }).uncertaintyS).toBeGreaterThan(2 * last({}).uncertaintyS);
    const sources = last(undefined).budget.map(({ source }) => source);
    for (const source of ['measured', 'mass', 'drag-area', 'wind', 'slope', 'density', 'rotating-mass']) {
      expect(sources).toContain(source);
    }
    expect(last(undefined).uncertaintyS).toBeCloseTo(
      2 * Math.hypot(...last(undefined).budget.map(({ standard }) => standard)),
      12,
    );
  });
});

describe('a run that is not restated', () => {
  const { trace, measurement, circumstances } = pairOf(ELECTRIC_HATCH, randomFromSeed(9));

  it.each([
    ['mass', { car: { ...circumstances.car, massKg: undefined } }],
    ['drag area', { car: { ...circumstances.car, dragAreaM2: undefined } }],
    ['kind of drive', { car: { ...circumstances.car, drive: undefined } }],
    ['rolling resistance', { car: { ...circumstances.car, drive: 'petrol', rollingResistance: undefined } }],
    ['temperature', { air: { ...circumstances.air, temperatureK: undefined } }],
    ['pressure', { air: { ...circumstances.air, pressurePa: undefined } }],
    ['humidity', { air: { ...circumstances.air, relativeHumidity: undefined } }],
    ['wind', { headwindMps: undefined }],
    ['slope', { road: undefined }],
  ])('has no figure and names the fact where it is not known: %s', (name, without) => {
    const told = { ...circumstances, ...without } as unknown as RunCircumstances;
    const restated = restateRun(trace, measurement, told);
    expect(restated.speedSplits).toEqual([]);
    expect(restated.distanceSplits).toEqual([]);
    expect(restated.notRestated?.missing).toHaveLength(1);
    expect(restated.notRestated?.missing[0]).toContain(name);
    expect(notRestatedFlag(restated)).toMatchObject({ code: 'not-restated' });
    expect(notRestatedFlag(restated)?.text).toContain(name);
  });

  it('does not ask for rolling resistance where it cancels', () => {
    const { rollingResistance, ...car } = circumstances.car;
    expect(rollingResistance).toBeDefined();
    const without = restateRun(trace, measurement, { ...circumstances, car });
    const withIt = restateRun(trace, measurement, circumstances);
    expect(without.notRestated).toBeUndefined();
    expect(without.speedSplits[0]!.timeS).toBeCloseTo(withIt.speedSplits[0]!.timeS, 6);
  });

  it('has no figure beyond what the method is shown to hold for', () => {
    for (const [word, beyond] of [
      ['wind', { headwindMps: 9 }],
      ['slope', { road: constantSlope(-3) }],
      ['density', { air: { ...circumstances.air, pressurePa: 70_000 } }],
    ] as const) {
      const { notRestated } = restateRun(trace, measurement, { ...circumstances, ...beyond });
      expect(notRestated?.text).toContain(word);
      expect(notRestated?.missing).toEqual([]);
    }
  });

  it('has no figure for a speed the car only reached with the day’s help', () => {
    const day: Day = {
      slopePct: -1.5,
      headwindMps: -5,
      temperatureK: 295,
      relativeHumidity: 0.5,
      densityShare: -0.1,
    };
    const random = randomFromSeed(2);
    const pair = simulatePair({
      car: { ...DIESEL_VAN, powerW: 85_000 },
      launch: DIESEL_VAN.launches[0]!,
      day,
      receiver: { rateHz: 25, noiseMps: 0.01 },
      random,
      script: [{ kind: 'standing-start', launch: DIESEL_VAN.launches[0]!, toM: 3500 }],
    });
    const restated = restateRun(pair.trace, pair.measurement, pair.circumstances);
    const fastest = (splits: readonly { readonly toMps: number }[]): number =>
      Math.max(...splits.map(({ toMps }) => toMps));
    expect(fastest(pair.referenceTruth.speedSplits)).toBeLessThan(fastest(pair.dayTruth.speedSplits));
    expect(fastest(restated.speedSplits)).toBeCloseTo(fastest(pair.referenceTruth.speedSplits), 9);
    for (const split of restated.speedSplits) {
      expect(Number.isFinite(split.timeS) && Number.isFinite(split.uncertaintyS)).toBe(true);
    }
  });
});
