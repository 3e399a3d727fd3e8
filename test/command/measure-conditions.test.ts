import { describe, expect, it } from 'vitest';
import { runMeasure } from '../../pipeline/command/measure.ts';
import { airDensity } from '../../pipeline/conditions/air.ts';
import { densityAltitudeM } from '../../pipeline/conditions/atmosphere.ts';
import { REFERENCE_AIR } from '../../pipeline/conditions/reference.ts';
import { runWith } from './fake-io.ts';
import { WRITTEN_DAYS } from './written-day.ts';

const LOG = WRITTEN_DAYS[0]!.text;
const CAR = 'car:  { mass_kg: 1680, drag_area_m2: 0.69, rolling_resistance: 0.012, drive: petrol-boosted }';
const AIR = 'air:  { temperature_c: 24, pressure_hpa: 985, humidity_pct: 40 }';
const WIND = 'wind: { headwind_mps: 2.5 }';
const ROAD = 'road: { slope_pct: 0.3 }';
const ALL = [CAR, AIR, WIND, ROAD].join('\n');
const REFERENCE = `${CAR}
air: { temperature_c: 20, pressure_hpa: ${REFERENCE_AIR.pressurePa / 100}, humidity_pct: 0 }
wind: { headwind_mps: 0 }
road: { slope_pct: 0 }`;

interface Restated {
  time_s: number;
  uncertainty_s: number;
  changes_s: { slope: number; wind: number; air: number };
}
interface Split {
  time_s: number;
  uncertainty_s: number;
  restated?: Restated;
}
interface Run {
  kind: string;
  speed_splits: Split[];
  distance_splits: Split[];
  flags: { code: string; text: string }[];
}
interface MeasuredLogJson {
  air?: { density_kgm3: number; density_altitude_m: number };
  runs: Run[];
}

const measure = (conditions: string | undefined, args: readonly string[] = ['--json']) =>
  runWith(runMeasure, [...args, '--conditions', 'day.yaml', 'day.csv'], {
    'day.csv': LOG,
    ...(conditions === undefined ? {} : { 'day.yaml': conditions }),
  });
const logOf = async (conditions: string): Promise<MeasuredLogJson> => {
  const { exit, stdout } = await measure(conditions);
  expect(exit).toBe(0);
  expect(stdout).not.toContain('null');
  return JSON.parse(stdout).logs[0];
};
const splitsOf = (log: MeasuredLogJson): Split[] =>
  log.runs
    .filter(({ kind }) => kind === 'standing-start')
    .flatMap(({ speed_splits, distance_splits }) => [...speed_splits, ...distance_splits]);

describe('measure --conditions', () => {
  it('restates every split of a standing start, its changes adding up', async () => {
    const log = await logOf(ALL);
    const splits = splitsOf(log);
    expect(splits.length).toBeGreaterThan(30);
    for (const { time_s, uncertainty_s, restated } of splits) {
      expect(Object.keys(restated!)).toEqual(['time_s', 'uncertainty_s', 'changes_s']);
      expect(Object.keys(restated!.changes_s)).toEqual(['slope', 'wind', 'air']);
      const { slope, wind, air } = restated!.changes_s;
      expect(time_s + slope + wind + air).toBeCloseTo(restated!.time_s, 9);
      expect(slope).toBeLessThan(0);
      expect(wind).toBeLessThan(0);
      expect(air).toBeGreaterThan(0);
      expect(restated!.uncertainty_s).toBeGreaterThanOrEqual(uncertainty_s);
    }
    expect(log.runs.every(({ flags }) => flags.every(({ code }) => code !== 'not-restated'))).toBe(true);
  });

  it('tells the density of the air and the altitude that has it', async () => {
    const { air } = await logOf(ALL);
    const { densityKgm3 } = airDensity({ temperatureK: 297.15, pressurePa: 98_500, relativeHumidity: 0.4 });
    expect(air).toEqual({
      density_kgm3: densityKgm3,
      density_altitude_m: densityAltitudeM(densityKgm3),
    });
  });

  it('leaves the measured figures as they are, and restates the reference to exactly those', async () => {
    const plain = await runWith(runMeasure, ['--json', 'day.csv'], { 'day.csv': LOG });
    const measured = splitsOf(JSON.parse(plain.stdout).logs[0]);
    for (const conditions of [ALL, REFERENCE]) {
      const times = splitsOf(await logOf(conditions)).map(({ time_s }) => time_s);
      expect(times).toEqual(measured.map(({ time_s }) => time_s));
    }
    for (const { time_s, restated } of splitsOf(await logOf(REFERENCE)))
      expect(restated!.time_s).toBe(time_s);
    expect(plain.stdout).not.toContain('restated');
    expect(plain.stdout).not.toContain('"air"');
  });

  it.each([
    ['drag area', [CAR.replace('drag_area_m2: 0.69, ', ''), AIR, WIND, ROAD]],
    ['mass', [CAR.replace('mass_kg: 1680, ', ''), AIR, WIND, ROAD]],
    ['drive', [CAR.replace(', drive: petrol-boosted', ''), AIR, WIND, ROAD]],
    ['humidity', [CAR, AIR.replace(', humidity_pct: 40', ''), WIND, ROAD]],
    ['temperature', [CAR, WIND, ROAD]],
    ['wind', [CAR, AIR, ROAD]],
    ['slope', [CAR, AIR, WIND]],
  ])('restates nothing and flags the fact that is missing: %s', async (fact, parts) => {
    const log = await logOf(parts.join('\n'));
    expect(splitsOf(log).every(({ restated }) => restated === undefined)).toBe(true);
    for (const { kind, flags } of log.runs) {
      const flag = flags.find(({ code }) => code === 'not-restated');
      if (kind === 'standing-start') expect(flag?.text).toContain(fact);
      else expect(flag).toBeUndefined();
    }
  });

  it('takes a surveyed road', async () => {
    const level = await logOf([CAR, AIR, WIND, 'road: { profile: [[0, 0], [1500, 0]] }'].join('\n'));
    for (const { restated } of splitsOf(level)) expect(Math.abs(restated!.changes_s.slope)).toBe(0);
    const hilly = await logOf([CAR, AIR, WIND, 'road: { profile: [[0, 0], [1500, 4.5]] }'].join('\n'));
    const steady = await logOf(ALL);
    expect(splitsOf(hilly).map(({ restated }) => restated!.changes_s.slope)).toEqual(
      splitsOf(steady).map(({ restated }) => expect.closeTo(restated!.changes_s.slope, 9)),
    );
  });

  it('prints restated times below the measured ones, within 80 columns', async () => {
    const { exit, stdout } = await measure(ALL, []);
    expect(exit).toBe(0);
    expect(stdout).toContain('Restated for a level road in still, dry air at 20 °C and 100 kPa:');
    expect(stdout).toMatch(/0–100 km\/h +\d+\.\d+ ± 0\.\d+ s/);
    expect(Math.max(...stdout.split('\n').map(line => line.length))).toBeLessThanOrEqual(80);
  });

  it.each([
    ['is absent', undefined, /day\.yaml: error: There is no such file/],
    ['names a field wrongly', ALL.replace('humidity_pct', 'humidity'), /^day\.yaml:2:47 air\.humidity: /],
    ['holds a value out of range', ALL.replace('985', '98500'), /^day\.yaml:2:\d+ air\.pressure_hpa: /],
    ['is no YAML', 'car: [1', /^day\.yaml:\d+/],
    ['is empty', '', /^day\.yaml/],
    [
      'has a profile that turns back',
      ALL.replace('slope_pct: 0.3', 'profile: [[0, 0], [600, 1], [500, 2]]'),
      /^day\.yaml:4:\d+ road\.profile\.2\.0: /,
    ],
  ])('measures nothing where the file %s: exit 2, file and line', async (_, conditions, told) => {
    const { exit, stdout, stderr } = await measure(conditions);
    expect(exit).toBe(2);
    expect(stdout).toBe('');
    expect(stderr).toMatch(told);
  });
});
