import { describe, expect, it } from 'vitest';
import { tracePasses } from '../../pipeline/conditions/logged-slope.ts';
import type { TestFolder } from '../../pipeline/content/content.ts';
import { slopePct } from '../../pipeline/result/match-conditions.ts';
import type { MeasuredLog } from '../../pipeline/result/match-logs.ts';
import { attemptToCircumstances, fromLogsOf } from '../../pipeline/result/restate-attempt.ts';
import type { Road } from '../../pipeline/result/result.ts';
import { roadSlopeOf } from '../../pipeline/result/road-slope.ts';
import { conditionsTable } from '../../pipeline/table/conditions.ts';
import { logToTrace } from '../../pipeline/trace/build.ts';
import type { Trace } from '../../pipeline/trace/trace.ts';
import { ELECTRIC_HATCH } from '../simulate/cars.ts';
import { samplesToLog } from '../simulate/day.ts';
import { drive, type Manoeuvre, STILL_DRY_AIR } from '../simulate/drive.ts';
import { randomFromSeed } from '../simulate/random.ts';
import { receive } from '../simulate/receiver.ts';
import { houseFixture, testFixture } from './fixture.ts';

const ORIGIN = { latitudeDeg: 53.14, longitudeDeg: 0.71, altitudeM: 6 };
const SLOPE = 0.004;
const fixture = testFixture();
const { slope_pct: _, profile: __, ...plain } = fixture.road;
const ROAD: Road = {
  ...plain,
  directions: [
    { id: 'east', name: 'eastbound', heading_deg: 72 },
    { id: 'west', name: 'westbound', heading_deg: 252 },
  ],
  slope_from_logs: { latitude_deg: ORIGIN.latitudeDeg, longitude_deg: ORIGIN.longitudeDeg },
};

/** To and fro over 700 m of a road of 0.4 %, as a receiver whose altitude wanders logs it. */
function toAndFro(pairs: number, seed: number): Trace {
  const there: Manoeuvre[] = [
    { kind: 'travel-to', alongM: 700, cruiseMps: 22 },
    { kind: 'stand', forS: 20 },
    { kind: 'three-point-turn' },
  ];
  const back: Manoeuvre[] = [
    { kind: 'travel-to', alongM: 0, cruiseMps: 22 },
    { kind: 'stand', forS: 20 },
    { kind: 'three-point-turn' },
  ];
  const script: Manoeuvre[] = Array.from({ length: pairs }, () => [...there, ...back]).flat();
  const { trajectory } = drive(ELECTRIC_HATCH, { headingDeg: 72 }, STILL_DRY_AIR, [
    { kind: 'stand', forS: 2 },
    ...script,
  ]);
  const samples = receive(
    trajectory,
    { rateHz: 5, noiseMps: 0.02, origin: ORIGIN, wanderM: 0.3 },
    randomFromSeed(seed),
  );
  const heading = (72 * Math.PI) / 180;
  samples.timeS.forEach((at, i) => {
    const node = trajectory.nodeAt(at);
    const alongM = trajectory.eastM[node]! * Math.sin(heading) + trajectory.northM[node]! * Math.cos(heading);
    samples.altitudeM[i]! += SLOPE * alongM;
  });
  return logToTrace(samplesToLog(samples)).trace;
}

const folder = { place: () => ({ file: 'test.yaml', line: 4 }) } as unknown as TestFolder;
const logOf = (trace: Trace): MeasuredLog => ({
  file: 'l.csv',
  index: 0,
  sha256: '',
  trace,
  measurements: [],
});
const trace = toAndFro(8, 4);

describe('a road that takes its slope from logs', () => {
  const { road, logged, problems } = roadSlopeOf(folder, ROAD, [logOf(trace)]);

  it('finds every drive along it, either way, and no turn', () => {
    const passes = tracePasses(trace, { ...ORIGIN, headingDeg: 72 });
    expect(passes).toHaveLength(16);
    for (const { alongM } of passes) expect(Math.abs(alongM.at(-1)! - alongM[0]!)).toBeGreaterThan(600);
  });

  it('has the simulated slope within what is stated, the other way round in the other direction', () => {
    expect(problems).toEqual([]);
    expect(logged!.passes).toBeGreaterThanOrEqual(14);
    expect(logged!.lengthM).toBeGreaterThan(500);
    expect(Math.abs(logged!.slopePct - 100 * SLOPE)).toBeLessThan(2 * logged!.standardPct);
    expect(logged!.standardPct).toBeLessThan(0.05);
    expect(slopePct(road, 'east')).toBeCloseTo(logged!.slopePct, 12);
    expect(slopePct(road, 'west')).toBeCloseTo(-logged!.slopePct, 12);
  });

  it('carries its own uncertainty into restated figures, and is told as logged', () => {
    const test = { ...fixture, road, loggedSlope: logged! };
    const circumstances = attemptToCircumstances(
      test.attempts[0]!,
      test.content,
      test.car,
      road,
      fromLogsOf(test),
    );
    expect(circumstances.uncertainty?.slope).toBeCloseTo(logged!.standardPct / 100, 12);
    const notes = (language: string): string =>
      conditionsTable(test, { ...houseFixture(), language }).notes.join(' ');
    expect(notes('en-GB')).toMatch(
      /not levelled: mean slope 0\.4\d?\d?\s% ± 0\.\d+\s% .* on \d+ passes over \d+\sm/,
    );
    expect(notes('de-DE')).toMatch(/nicht vermessen: mittlere Neigung 0,4/);
  });

  it('is not told by too few drives, or by logs without altitude: there is a warning, and no slope', () => {
    const few = roadSlopeOf(folder, ROAD, [logOf(toAndFro(1, 5))]);
    expect(few.problems).toMatchObject([
      { id: 'match-slope-not-logged', severity: 'warning', found: '2 passes' },
    ]);
    expect(slopePct(few.road, 'east')).toBeUndefined();
    const bare = { ...trace, channels: {} };
    expect(roadSlopeOf(folder, ROAD, [logOf(bare)]).problems).toMatchObject([{ found: '0 passes' }]);
  });

  it('leaves a road alone that was levelled', () => {
    expect(roadSlopeOf(folder, fixture.road, [logOf(trace)])).toEqual({ road: fixture.road, problems: [] });
  });
});
