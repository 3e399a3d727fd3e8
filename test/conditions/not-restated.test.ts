/** When a run is not restated, and what is said of it; a run by hand, not simulated. */
import { describe, expect, it } from 'vitest';
import type { RunCircumstances } from '../../pipeline/conditions/circumstances.ts';
import { type PowerSays, powerInWords } from '../../pipeline/conditions/power-words.ts';
import { REFERENCE_AIR } from '../../pipeline/conditions/reference.ts';
import {
  notRestatedFlag,
  restatedDistance,
  restatedSpeed,
  restateRun,
} from '../../pipeline/conditions/restate.ts';
import { notRestatedInWords } from '../../pipeline/conditions/restate-words.ts';
import { constantSlope, surveyedSlope } from '../../pipeline/conditions/slope.ts';
import { measureLog } from '../../pipeline/measurement/measure.ts';
import type { RunMeasurement } from '../../pipeline/measurement/measurement.ts';
import { fromRest, motionToLog } from '../measurement/trajectories.ts';

const { trace, measurements } = measureLog(
  motionToLog(
    fromRest(s => 45 * (1 - Math.exp(-s / 9))),
    { rateHz: 10, lastsS: 20 },
  ),
);
const [run] = measurements as [RunMeasurement];
const KNOWN: RunCircumstances = {
  car: { massKg: 1500, dragAreaM2: 0.66, rollingResistance: 0.012, drive: 'electric' },
  air: REFERENCE_AIR,
  headwindMps: 0,
  road: constantSlope(0),
};
const why = (change: Partial<RunCircumstances>) =>
  restateRun(trace, run, { ...KNOWN, ...change }).notRestated?.reason;

describe('a run is not restated', () => {
  it('in more wind than the method is shown to hold in, from either side', () => {
    expect(why({ headwindMps: 6 })).toBeUndefined();
    expect(why({ headwindMps: 6.001 })).toEqual({ why: 'wind', mps: 6.001, limitMps: 6 });
    expect(why({ headwindMps: -6.001 })).toEqual({ why: 'wind', mps: 6.001, limitMps: 6 });
  });

  it('in air that is a quarter thicker or thinner', () => {
    const pressed = (pressurePa: number) => why({ air: { ...REFERENCE_AIR, pressurePa } });
    expect([pressed(124_000), pressed(76_000)]).toEqual([undefined, undefined]);
    const thin = pressed(74_000);
    expect(thin).toMatchObject({ why: 'density', limitPercent: 25 });
    expect(thin?.why === 'density' && Math.abs(thin.percent + 26)).toBeLessThan(0.1);
    expect(pressed(126_000)).toMatchObject({ why: 'density' });
  });

  it('where any fifty metres that it used are steeper than two in a hundred, up or down', () => {
    const road = (rise: number) => {
      const points = [
        [0, 0],
        [100, 0],
        [150, rise],
        [200, rise],
        [2000, rise],
      ] as const;
      return surveyedSlope(points);
    };
    expect(why({ road: road(0.99) })).toBeUndefined();
    const steep = why({ road: road(1.01) });
    expect(steep).toMatchObject({ why: 'slope', afterM: 100, limitPercent: 2 });
    expect(steep?.why === 'slope' && steep.percent).toBeCloseTo(2.02, 9);
    const falling = why({ road: road(-1.01) });
    expect(falling?.why === 'slope' && falling.percent).toBeCloseTo(-2.02, 9);
    // The run ends some 530 m on: what comes after it does not matter.
    const beyond = surveyedSlope([
      [0, 0],
      [700, 0],
      [750, 5],
      [800, 5],
    ]);
    expect(why({ road: beyond })).toBeUndefined();
  });

  it('without the facts it hangs on, which are named and flagged', () => {
    const { headwindMps: _, road: __, ...rest } = KNOWN;
    const restated = restateRun(trace, run, rest);
    expect(restated.notRestated?.reason).toEqual({ why: 'not-known', facts: ['headwindMps', 'road'] });
    expect(restated.notRestated?.missing).toHaveLength(2);
    expect([restated.speedSplits, restated.distanceSplits]).toEqual([[], []]);
    expect(notRestatedFlag(restated)).toEqual({ code: 'not-restated', text: restated.notRestated!.text });
    expect(notRestatedFlag(restateRun(trace, run, KNOWN))).toBeUndefined();
    const braked = restateRun(trace, { ...run, run: { ...run.run, kind: 'braking' } }, KNOWN);
    expect(braked.notRestated?.reason).toEqual({ why: 'few-readings' });
    expect(braked.notRestated?.missing).toEqual([]);
  });
});

describe('the words of it', () => {
  it('give the numbers with the digits they are worth, in both languages', () => {
    const said = (spoken: 'en' | 'de') =>
      [
        { why: 'wind', mps: 6.26, limitMps: 6 } as const,
        { why: 'density', percent: -26.4, limitPercent: 25 } as const,
        { why: 'slope', percent: 2.04, afterM: 100, limitPercent: 2 } as const,
      ].map(reason => notRestatedInWords(reason, spoken).match(/[−-]?\d+(?:[.,]\d+)?/g));
    expect(said('en')).toEqual([
      ['6.3', '6'],
      ['−26', '25'],
      ['2.0', '100', '2'],
    ]);
    expect(said('de')).toEqual([
      ['6,3', '6'],
      ['−26', '25'],
      ['2,0', '100', '2'],
    ]);
    expect(notRestatedInWords({ why: 'not-known', facts: ['road'] }, 'de')).toBe(
      'die Neigung der Straße ist nicht bekannt',
    );
    expect(notRestatedInWords({ why: 'not-known', facts: ['road', 'drive'] }, 'de')).toMatch(
      / sind nicht bekannt$/,
    );
  });
});

describe('what was done about the power', () => {
  const power = (change: Partial<RunCircumstances['car']>, air: RunCircumstances['air'] = REFERENCE_AIR) =>
    restateRun(trace, run, { ...KNOWN, car: { ...KNOWN.car, ...change }, air }).power;

  it('is a correction within the limits of the standard, nothing for motors, and told where it is uncertain', () => {
    expect(power({ drive: 'petrol' }, { ...REFERENCE_AIR, temperatureK: 300 })).toEqual({ corrected: true });
    expect(power({ drive: 'electric' })).toMatchObject({ corrected: false, stays: 'none' });
    expect(power({ drive: 'diesel' })).toMatchObject({ corrected: false, stays: 'in the figure' });
    const cold = power({ drive: 'petrol' }, { ...REFERENCE_AIR, temperatureK: 283 });
    expect(cold).toMatchObject({ corrected: false, stays: 'uncertain', refusal: { of: 'temperature' } });
  });
});

describe('the words of the power', () => {
  it('say what stays, with and without a reason', () => {
    const said = (says: PowerSays) => powerInWords(says, 'en');
    expect(said({ corrected: true }).length).toBeGreaterThan(10);
    const none = said({ corrected: false, stays: 'none' });
    expect(none).not.toContain('undefined');
    const [inFigure, uncertain] = (['in the figure', 'uncertain'] as const).map(stays =>
      said({ corrected: false, stays }),
    );
    expect(inFigure!.startsWith(`${none}. `)).toBe(true);
    expect(uncertain!.startsWith(`${none}. `)).toBe(true);
    expect(uncertain).not.toBe(inFigure);
    const engine = said({ corrected: false, stays: 'none', refusal: { of: 'engine', engine: 'electric' } });
    expect(engine.length).toBeGreaterThan(none.length);
  });
});

describe('a restated figure', () => {
  const restated = restateRun(trace, run, { ...KNOWN, headwindMps: 3, road: constantSlope(0.5) });

  it('is found for the very split it belongs to', () => {
    for (const split of run.speedSplits) {
      const { fromMps, toMps, startRule } = split;
      expect(restatedSpeed(restated, split)).toMatchObject({ fromMps, toMps, startRule });
    }
    for (const split of run.distanceSplits) {
      expect(restatedDistance(restated, split)).toMatchObject({ toM: split.toM, startRule: split.startRule });
    }
    expect(restatedSpeed(restated, { ...run.speedSplits[0]!, fromMps: 1 })).toBeUndefined();
    expect(restatedSpeed(restated, { ...run.speedSplits[0]!, toMps: 1 })).toBeUndefined();
    expect(restatedSpeed(restated, { ...run.speedSplits[0]!, startRule: 'rolling' })).toBeUndefined();
  });

  it('differs from the measured one by what its conditions change, and is as doubtful as its budget says', () => {
    for (const figure of restated.speedSplits) {
      const split = run.speedSplits.find(
        one =>
          one.startRule === figure.startRule && one.toMps === figure.toMps && one.fromMps === figure.fromMps,
      )!;
      const { slope, wind, air } = figure.changesS;
      expect(figure.timeS - split.timeS).toBeCloseTo(slope + wind + air, 12);
      expect([slope < 0, wind < 0, air]).toEqual([true, true, 0]);
      const squares = figure.budget.reduce((sum, { standard }) => sum + standard ** 2, 0);
      expect(figure.uncertaintyS).toBeCloseTo(2 * Math.sqrt(squares), 12);
      expect(figure.budget.find(({ source }) => source === 'measured')!.standard).toBe(
        split.uncertaintyS / 2,
      );
      const standards = figure.budget.map(({ standard }) => standard);
      expect(standards).toEqual(standards.toSorted((a, b) => b - a));
    }
  });

  it('is absent where the reference road never lets the car reach the speed, and finite everywhere else', () => {
    // Beyond 120 km/h a wind from behind is all that pushes a car of such a front.
    const long = measureLog(
      motionToLog(
        fromRest(s => 45 * (1 - Math.exp(-s / 9))),
        { rateHz: 10, lastsS: 34 },
      ),
    );
    const [run] = long.measurements as [RunMeasurement];
    const pushed = restateRun(long.trace, run, {
      ...KNOWN,
      car: { ...KNOWN.car, dragAreaM2: 8 },
      headwindMps: -6,
    });
    expect(pushed.notRestated).toBeUndefined();
    expect(pushed.speedSplits.length).toBeGreaterThan(4);
    expect(pushed.speedSplits.length).toBeLessThan(run.speedSplits.length);
    for (const { timeS, uncertaintyS, changesS } of [...pushed.speedSplits, ...pushed.distanceSplits]) {
      expect([timeS, uncertaintyS, changesS.wind].every(Number.isFinite)).toBe(true);
    }
  });
});
