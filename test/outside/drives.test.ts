/** Real drives that nobody here made: held values recognised, runs told from traffic, intervals honest. */
import { readFileSync } from 'node:fs';
import { expect, it } from 'vitest';
import type { Log } from '../../pipeline/log/log.ts';
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

  /**
   * From rest to 50 km/h by the rows alone: from half way between the last row at rest and the first that moves to
   * where the straight line between two rows passes 50 km/h. `rowS` is half the time between those two rows: what the
   * rows leave open. Rows that repeat a reading stand closer than the readings: there the stated uncertainty must hold
   * the rows' time all by itself.
   */
  function byRows({ timeS, speedMps }: Log, aroundS: number, restKmh: number) {
    let first = timeS.findIndex(t => t > aroundS);
    while (speedMps[first - 1]! >= kmhToMps(restKmh)) first--;
    while (speedMps[first]! < kmhToMps(restKmh)) first++;
    const fifty = kmhToMps(50);
    const k = speedMps.findIndex((mps, i) => i >= first && mps >= fifty);
    const share = (fifty - speedMps[k - 1]!) / (speedMps[k]! - speedMps[k - 1]!);
    const [restS, movesS] = [timeS[first - 1]!, timeS[first]!];
    const passedS = timeS[k - 1]! + share * (timeS[k]! - timeS[k - 1]!);
    return { timeS: passedS - (restS + movesS) / 2, rowS: (movesS - restS) / 2 };
  }

  it.each([
    // Whole km/h; a row is at rest below 1.
    { name: 'obd/town-and-country.csv', aroundS: 502, restKmh: 1, digitS: 0 },
    { name: 'drives/country-road.csv', aroundS: 679.5, restKmh: 1, digitS: 0 },
    { name: 'drives/full-braking.csv', aroundS: 213.6, restKmh: 1, digitS: 0 },
    { name: 'drives/full-braking.csv', aroundS: 699.5, restKmh: 1, digitS: 0 },
    // Steps of 0.1 km/h: at the 0.3 m/s² with which the car moves off here, one step takes 0.1 s.
    { name: 'drives/road-50hz.csv', aroundS: 50.5, restKmh: 0.1, digitS: 0.1 },
    // Scatters by 0.004 km/h at rest.
    { name: 'drives/town-10hz-inertial.csv', aroundS: 258, restKmh: 0.015, digitS: 0 },
    { name: 'drives/town-10hz-inertial.csv', aroundS: 312, restKmh: 0.015, digitS: 0 },
    { name: 'nmea/road-mountain-view.nmea', aroundS: 507, restKmh: 0.5, digitS: 0 },
    { name: 'nmea/road-regensburg.nmea', aroundS: 513, restKmh: 0.5, digitS: 0 },
    { name: 'nmea/road-regensburg.nmea', aroundS: 593, restKmh: 0.5, digitS: 0 },
  ])('0–50 km/h of $name around $aroundS s agrees with the rows', ({ name, aroundS, restKmh, digitS }) => {
    const { measurements } = measure(name);
    const rows = byRows(readLog(name, readFileSync(`${folder}/${name}`)), aroundS, restKmh);
    const run = measurements.find(({ start }) => start && Math.abs(start.firstMovementS - aroundS) < 2.6)!;
    const split = run.speedSplits.find(
      ({ toMps, startRule }) => startRule === 'first-movement' && Math.abs(toMps - kmhToMps(50)) < 1e-6,
    )!;
    expect(Math.abs(split.timeS - rows.timeS), `${split.timeS} for ${rows.timeS}`).toBeLessThan(
      Math.hypot(split.uncertaintyS, rows.rowS, digitS),
    );
  });

  it.each(['obd/town-and-country.csv', 'drives/country-road.csv', 'drives/full-braking.csv'])(
    'states about a second for 0–50 km/h of %s, whose readings are held, and flags it',
    name => {
      for (const { run, speedSplits, flags } of measure(name).measurements) {
        if (run.kind !== 'standing-start') continue;
        expect(flags.map(({ code }) => code)).toEqual(expect.arrayContaining(['held-values', 'low-rate']));
        const split = speedSplits.find(({ toMps }) => Math.abs(toMps - kmhToMps(50)) < 1e-6)!;
        expect(split.uncertaintyS).toBeGreaterThan(0.6);
        expect(split.uncertaintyS).toBeLessThan(1.7);
      }
    },
  );

  it('a clock begun at the last row up to 2 km/h reads what the drives are described with, and begins late', () => {
    const described = (name: string): { quickestS: number; begunS: number } => {
      const { timeS, speedMps } = readLog(name, readFileSync(`${folder}/${name}`));
      let begunS = Number.NaN;
      let best = { quickestS: Number.POSITIVE_INFINITY, begunS };
      for (const [i, mps] of speedMps.entries()) {
        if (mps <= kmhToMps(2) + 1e-9) begunS = timeS[i]!;
        else if (mps >= kmhToMps(50) && timeS[i]! - begunS < best.quickestS)
          best = { quickestS: timeS[i]! - begunS, begunS };
      }
      return best;
    };
    expect(Math.abs(described('obd/town-and-country.csv').quickestS - 9.1)).toBeLessThan(0.1);
    expect(Math.abs(described('drives/road-50hz.csv').quickestS - 7.4)).toBeLessThan(0.1);
    expect(Math.abs(described('drives/town-10hz-inertial.csv').quickestS - 7.1)).toBeLessThan(0.1);
    const { quickestS, begunS } = described('drives/country-road.csv');
    expect(Math.abs(quickestS - 4.6)).toBeLessThan(0.1);
    // The same start: rows read 2 km/h from 679.01 s to 679.82 s, so that the car moved 0.8 s before that clock began.
    expect(begunS).toBeCloseTo(679.82, 2);
    const run = measure('drives/country-road.csv').measurements.find(({ start }) => start !== undefined)!;
    expect(run.start!.firstMovementS + run.start!.uncertaintyS).toBeGreaterThan(678.92);
    expect(run.start!.firstMovementS).toBeLessThan(679.01);
  });

  it('sees a gentle start move when the positions of the inertial reference do', () => {
    const { trace, measurements } = measure('drives/town-10hz-inertial.csv');
    const { eastingM, northingM } = trace.channels;
    const starts = measurements.filter(({ start }) => start !== undefined);
    expect(starts).toHaveLength(2);
    for (const { start } of starts) {
      // A millimetre from where it stood two seconds before: at rest the positions scatter by a tenth of one.
      const rest = trace.timeS.findIndex(t => t > start!.firstMovementS - 2);
      const away = (i: number): number =>
        Math.hypot(eastingM![i]! - eastingM![rest]!, northingM![i]! - northingM![rest]!);
      const moved = trace.timeS.findIndex((_, i) => i > rest && away(i) > 0.001);
      expect(Math.abs(trace.timeS[moved]! - start!.firstMovementS)).toBeLessThan(0.3);
    }
  });

  it('finds the one emergency stop of the full-braking drive, from 77 km/h, and says how little its readings tell', () => {
    // By rows, five times from 50 km/h to rest: at 248, 443, 680, 3850 and 3998 s, at 0.5, 1.2, 7.0, 0.5 and 1.1 m/s².
    const stops = measure('drives/full-braking.csv').measurements.filter(({ run }) => run.kind === 'braking');
    expect(stops).toHaveLength(1);
    const [stop] = stops;
    expect(stop!.beginsS).toBeCloseTo(678.1, 1);
    expect(stop!.flags.map(({ code }) => code)).toEqual(expect.arrayContaining(['held-values', 'low-rate']));
    // From 50 km/h: 60, 38, 11 and 0 km/h at 679.19, 680.25, 681.33 and 682.50 s are 16.2 m by trapezoids.
    const [figure, ...others] = stop!.braking;
    expect(others).toEqual([]);
    expect(figure!.fromMps).toBeCloseTo(kmhToMps(50), 9);
    expect(Math.abs(figure!.distanceM - 16.2)).toBeLessThan(figure!.uncertaintyM);
    expect(figure!.uncertaintyM).toBeGreaterThan(5);
  });
});
