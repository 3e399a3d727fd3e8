import { readdirSync, readFileSync } from 'node:fs';
import { join } from 'node:path';
import { expect, it } from 'vitest';
import { readLog } from '../../pipeline/log/readers.ts';
import { mphToMps } from '../../pipeline/units.ts';
import { describeWithSharedData } from './shared-data.ts';

describeWithSharedData('recorded tables, read without any column being declared', folder => {
  const read = (name: string) => readLog(name, readFileSync(join(folder, name)));

  // Karlsruhe Institute of Technology, Automotive OBD-II Dataset, DOI 10.35097/1130, CC BY 4.0.
  it.each([
    ['obd/hard-acceleration.csv', 118],
    ['obd/town-and-country.csv', 91],
    ['drives/full-braking.csv', 208],
    ['drives/country-road.csv', 131],
  ])('reads %s, its highest speed %i km/h, its step whole km/h', (name, topKmh) => {
    const log = read(name);
    expect(Math.max(...log.speedMps)).toBeCloseTo(topKmh / 3.6, 9);
    expect(log.speedStepMps).toBeCloseTo(1 / 3.6, 9);
    expect(log.clock?.kind).toBe('time-of-day');
    expect(log.warnings).toEqual([]);
  });

  it('keeps only rows with a speed where each row fills some of the columns', () => {
    const log = read('obd/hard-acceleration.csv');
    const rows = readFileSync(join(folder, 'obd/hard-acceleration.csv'), 'utf8')
      .trim()
      .split(/\r?\n/)
      .slice(1);
    expect(log.timeS).toHaveLength(rows.filter(row => row.split(',')[4] !== '').length);
    // First row with a speed: the fourth, 17:58:02.529.
    expect(log.line[0]).toBe(5);
    expect(log.clock?.startMs).toBe(((17 * 60 + 58) * 60 + 2) * 1000 + 529);
    expect(Object.keys(log.channels).sort()).toEqual(['engineSpeedRpm', 'throttlePct']);
  });

  it('keeps the path of a satellite and inertial reference', () => {
    // Boreas, drive 2021-08-05, as carried in utiasASRL/pyboreas at 6264c36f, CC BY 4.0.
    const log = read('drives/town-10hz-inertial.csv');
    expect(Object.keys(log.channels).sort()).toEqual(['altitudeM', 'eastingM', 'northingM']);
    expect(log.channels.eastingM?.[0]).toBe(623426.156);
    expect(log.timeS.at(-1)).toBeCloseTo(565.005, 9);
  });

  it('sees the sixty-fourths of a km/h of a vehicle bus behind six printed digits', () => {
    // GENIVI/positioning, logfile-munich1, at 7f51cd27, MPL 2.0.
    const log = read('drives/road-50hz.csv');
    expect(log.speedStepMps).toBeCloseTo(1 / 64 / 3.6, 7);
    expect(log.timeS.at(-1)).toBeCloseTo((382_345 - 14) / 1000, 9);
  });

  // NREL/fastsim, python/fastsim/resources/cycles, at bd9111bb, Apache 2.0. The cycles of the United States are
  // published in tenths of a mile per hour (40 CFR 86 appendix I), the worldwide one in tenths of a km/h.
  it.each([
    ['udds.csv', mphToMps(0.1)],
    ['hwfet.csv', mphToMps(0.1)],
    ['us06.csv', mphToMps(0.1)],
    ['wltc_3b.csv', 0.1 / 3.6],
  ])('sees the published step in %s', (name, stepMps) => {
    const log = read(`cycles/${name}`);
    // The files were made with 0.447047 m/s a mph, 16 parts in a million from exact.
    expect(Math.abs(log.speedStepMps! / stepMps - 1)).toBeLessThan(2e-5);
    expect(log.timeS[1]).toBe(1);
    expect(log.warnings.map(warning => warning.code)).toEqual(['speed-column-by-unit']);
  });

  it('reads every file of the folders', () => {
    for (const sub of ['obd', 'drives', 'cycles']) {
      for (const name of readdirSync(join(folder, sub))) {
        expect(read(`${sub}/${name}`).timeS.length, name).toBeGreaterThan(100);
      }
    }
  });
});
