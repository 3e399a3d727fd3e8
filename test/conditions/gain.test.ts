/** What a car gains where the day's conditions give way to those of the reference: the forces by hand. */
import { describe, expect, it } from 'vitest';
import { knownCircumstances, type RunCircumstances } from '../../pipeline/conditions/circumstances.ts';
import { AS_KNOWN, CONDITIONS, gainsOf, type Moved } from '../../pipeline/conditions/gain.ts';
import { readingsToPull } from '../../pipeline/conditions/pull.ts';
import { REFERENCE_AIR, REFERENCE_DENSITY_KGM3 } from '../../pipeline/conditions/reference.ts';
import { constantSlope, surveyedSlope } from '../../pipeline/conditions/slope.ts';

const RHO = REFERENCE_DENSITY_KGM3;
const G = 9.806_65;
const timeS = Float64Array.from({ length: 61 }, (_, i) => i / 10);
/** 4 m/s² from rest. */
const pull = readingsToPull(
  timeS,
  timeS.map(t => 4 * t),
  0,
);
const DAY: RunCircumstances = {
  car: { massKg: 1500, dragAreaM2: 0.6, rollingResistance: 0.012, drive: 'electric' },
  air: REFERENCE_AIR,
  headwindMps: 2,
  road: constantSlope(0.4),
};
function gains(change: {
  readonly day?: Partial<RunCircumstances>;
  readonly away?: readonly (typeof CONDITIONS)[number][];
  readonly moved?: Partial<Moved>;
  readonly power?: { readonly change: number; readonly perDensity: number };
}) {
  const answer = knownCircumstances({ ...DAY, ...change.day });
  if ('missing' in answer) throw new Error(answer.missing.join());
  const workings = { known: answer.known, pull, power: change.power ?? { change: 0, perDensity: 0 } };
  return gainsOf(workings)(change.away ?? CONDITIONS, { ...AS_KNOWN, ...change.moved });
}
/** At 20 m/s, after 5 s. */
const AT = 50;
const APPARENT_KG = 1500 * 1.05;
const drag = (headwindMps: number, rho = RHO, area = 0.6): number =>
  (rho / 2) * area * (20 + headwindMps) ** 2;
const climb = 1500 * G * 0.004;

describe('the gain at 20 m/s', () => {
  it('is what wind and slope hold back, over the apparent mass', () => {
    expect(gains({})[AT]).toBeCloseTo((drag(2) - drag(0) + climb) / APPARENT_KG, 5);
    expect(gains({ away: ['wind'] })[AT]).toBeCloseTo((drag(2) - drag(0)) / APPARENT_KG, 9);
    expect(gains({ away: ['slope'] })[AT]).toBeCloseTo(climb / APPARENT_KG, 5);
    expect(gains({ away: [] })[AT]).toBe(0);
    expect(gains({ away: ['air'] })[AT]).toBeCloseTo(0, 12);
  });

  it('follows what the day’s numbers are moved by', () => {
    const wind = (moved: Partial<Moved>): number => gains({ away: ['wind'], moved })[AT]! * APPARENT_KG;
    expect(wind({ headwindMps: 0.5 })).toBeCloseTo(drag(2.5) - drag(0), 6);
    expect(wind({ dragArea: 0.1 })).toBeCloseTo(drag(2, RHO, 0.66) - drag(0, RHO, 0.66), 6);
    expect(wind({ density: 0.1 })).toBeCloseTo(drag(2, RHO * 1.1) - drag(0, RHO * 1.1), 6);
    expect(wind({ mass: 0.1 })).toBeCloseTo((drag(2) - drag(0)) / 1.1, 6);
    expect(wind({ rotating: 0.3 })).toBeCloseTo(((drag(2) - drag(0)) * 1.05) / 1.065, 6);
    const air = gains({ away: ['air'], moved: { density: 0.1 } })[AT]!;
    expect(air).toBeCloseTo((drag(2, RHO * 1.1) - drag(2)) / APPARENT_KG, 9);
  });

  it('moves the slope by its uncertainty, by more where the road was not surveyed', () => {
    const slope = (road: RunCircumstances['road'], sds: number): number =>
      (gains({ day: { road: road! }, away: ['slope'], moved: { slope: sds } })[AT]! * APPARENT_KG) /
      (1500 * G);
    expect(slope(constantSlope(0.4), 1)).toBeCloseTo(0.0045, 6);
    expect(slope(constantSlope(0.4), -1)).toBeCloseTo(0.0035, 6);
    // 50 m on: within the survey to its very end, and beyond it.
    const surveyed = (toM: number) =>
      surveyedSlope([
        [0, 0],
        [toM, toM * 0.004],
      ]);
    expect(slope(surveyed(pull.distanceM[AT]!), 1)).toBeCloseTo(0.0045, 6);
    expect(slope(surveyed(49), 1)).toBeCloseTo(0.004 + Math.hypot(0.0005, 0.003), 6);
  });

  it('counts power by the push, half of it in first gear, and none of a push that is none', () => {
    const petrol = { car: { ...DAY.car, drive: 'petrol' as const }, headwindMps: 0, road: constantSlope(0) };
    const gained = (
      power: { readonly change: number; readonly perDensity: number },
      moved: Partial<Moved> = {},
    ) => gains({ day: petrol, away: ['air'], power, moved });
    const byPower = gained({ change: 0.04, perDensity: 0 });
    // At 20 m/s the ratio is 0.85 × 6000 rpm × 0.32 m over 20 m/s: 8.55; turning masses 0.04 and 0.0025 × 8.55².
    const ratio = (0.85 * 6000 * (Math.PI / 30) * 0.32) / 20;
    const apparentKg = 1500 * (1.04 + 0.0025 * ratio * ratio);
    const push = 4 + (drag(0) + 1500 * G * 0.012) / apparentKg;
    expect(byPower[AT]).toBeCloseTo(0.04 * push, 5);
    // First gear ends at 13.15 m/s; the clutch is in at half of that: half of the change up to 6.57 m/s.
    const share = (k: number) => byPower[k]! / (0.04 * push);
    expect(Math.abs(share(15) - 0.5)).toBeLessThan(0.02);
    expect(Math.abs(share(18) - 1)).toBeLessThan(0.05);
    const moved = gained({ change: 0.04, perDensity: 0 }, { launchPower: 0.25 });
    expect(moved[15]! / byPower[15]!).toBeCloseTo(1.5, 9);
    expect(moved[AT]).toBe(byPower[AT]);
    expect(gained({ change: 0.04, perDensity: 0 }, { power: 0.01 })[AT]! / byPower[AT]!).toBeCloseTo(1.25, 9);
    const thicker = gained({ change: 0.04, perDensity: 1.2 }, { density: 0.01 })[AT]!;
    const load = (drag(0, RHO * 1.01) - drag(0)) / apparentKg;
    const pushThen = 4 + (drag(0, RHO * 1.01) + 1500 * G * 0.012) / apparentKg;
    expect(thicker - load).toBeCloseTo((0.04 - 0.012) * pushThen, 5);
    const slowing = readingsToPull(
      timeS,
      timeS.map(t => 30 - 3 * t),
      0,
    );
    const answer = knownCircumstances({ ...DAY, ...petrol });
    if ('missing' in answer) throw new Error(answer.missing.join());
    const none = gainsOf({
      known: answer.known,
      pull: slowing,
      power: { change: 0.04, perDensity: 0 },
    })(['air'], AS_KNOWN);
    expect(Math.max(...none.map(Math.abs))).toBeCloseTo(0, 12);
  });
});
