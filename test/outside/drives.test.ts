/** Real drives that nobody here made: held values recognised, runs told from traffic, intervals honest. */
import { readFileSync } from 'node:fs';
import { expect, it } from 'vitest';
import { readLog } from '../../pipeline/log/readers.ts';
import { measureLog } from '../../pipeline/measurement/measure.ts';
import { kmhToMps } from '../../pipeline/units.ts';
import { describeWithSharedData } from './shared-data.ts';

describeWithSharedData('recorded drives (KIT, Boreas, GENIVI)', folder => {
  const measure = (name: string) => measureLog(readLog(name, readFileSync(`${folder}/${name}`)));

  it.each([
    'obd/hard-acceleration.csv',
    'obd/town-and-country.csv',
    'drives/country-road.csv',
    'drives/full-braking.csv',
  ])('recognises that %s repeats each reading for about a second or two', name => {
    const { trace, warnings } = measure(name);
    expect(trace.heldS).toBeGreaterThan(0.7);
    expect(trace.heldS).toBeLessThan(2.2);
    expect(warnings.map(({ code }) => code)).toContain('held-values');
  });

  it.each(['drives/town-10hz-inertial.csv', 'drives/road-50hz.csv'])(
    'takes every reading of %s for fresh',
    name => {
      expect(measure(name).trace.heldS).toBeUndefined();
    },
  );

  it('integrates a town drive to within 0.5 % of the path through its positions', () => {
    const { trace } = measure('drives/town-10hz-inertial.csv');
    const { eastingM, northingM } = trace.channels;
    let pathM = 0;
    for (let i = 1; i < trace.timeS.length; i++) {
      pathM += Math.hypot(eastingM![i]! - eastingM![i - 1]!, northingM![i]! - northingM![i - 1]!);
    }
    expect(Math.abs(trace.distanceM.at(-1)! / pathM - 1)).toBeLessThan(0.005);
  });

  it('takes no traffic start of the two on-board diagnostics drives for a standing start', () => {
    // By raw readings 3 and 15 leave rest; the quickest takes 9.4 s to 50 km/h, the others creep or drift.
    for (const name of ['obd/hard-acceleration.csv', 'obd/town-and-country.csv']) {
      expect(measure(name).measurements.filter(({ run }) => run.kind === 'standing-start')).toEqual([]);
    }
  });

  it('finds the one hard start of the country road, with an interval that holds its raw readings', () => {
    const { measurements } = measure('drives/country-road.csv');
    const starts = measurements.filter(({ run }) => run.kind === 'standing-start');
    expect(starts).toHaveLength(1);
    const [start] = starts;
    expect(start!.flags.map(({ code }) => code)).toEqual(expect.arrayContaining(['held-values', 'low-rate']));
    // First reading above 0 at 679.01 s, first of 50 km/h at 684.44 s.
    const split = start!.speedSplits.find(
      ({ toMps, startRule }) => startRule === 'first-movement' && Math.abs(toMps - kmhToMps(50)) < 1e-6,
    );
    expect(split!.uncertaintyS).toBeGreaterThan(0.6);
    expect(split!.uncertaintyS).toBeLessThan(1.6);
    expect(Math.abs(split!.timeS - 5.43)).toBeLessThan(split!.uncertaintyS);
  });
});
