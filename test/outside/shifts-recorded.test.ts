/**
 * Shifts of two recorded drives that carry engine speed: "Automotive OBD-II Dataset", Karlsruhe Institute of
 * Technology, DOI 10.35097/1130, CC BY 4.0. A fresh speed comes about once a second there.
 */
import { readFileSync } from 'node:fs';
import { expect, it } from 'vitest';
import { readLog } from '../../pipeline/log/readers.ts';
import { measureLog } from '../../pipeline/measurement/measure.ts';
import { shiftsOf } from '../../pipeline/measurement/shifts.ts';
import { mpsToKmh } from '../../pipeline/units.ts';
import { describeWithSharedData } from './shared-data.ts';

describeWithSharedData('shifts of recorded drives', folder => {
  const measured = (name: string) => measureLog(readLog(name, readFileSync(`${folder}/obd/${name}`)));

  // By hand from the rows: engine speed over speed of the car is 133–135 rpm per m/s up to 78 km/h, 92–93 from 84
  // to 103 km/h, and 71–73 from 103 km/h on; at 80 km/h the change is under way.
  it('the hard acceleration shows two by the steps of engine speed over speed, each to about a second', () => {
    const { trace, measurements } = measured('hard-acceleration.csv');
    const [run, ...others] = measurements;
    expect([run!.run.kind, others.length]).toEqual(['rolling', 0]);
    const found = shiftsOf(trace, run!);
    expect(found.from).toBe('engine-speed');
    expect(found.shifts).toHaveLength(2);
    const [first, second] = found.shifts;
    expect(mpsToKmh(first!.speedMps)).toBeGreaterThan(78);
    expect(mpsToKmh(first!.speedMps)).toBeLessThan(84);
    expect(Math.abs(mpsToKmh(second!.speedMps) - 103)).toBeLessThan(1);
    expect(first!.ratioStep).toBeCloseTo(92.5 / 134, 1);
    expect(second!.ratioStep).toBeCloseTo(72.5 / 92.5, 1);
    for (const shift of found.shifts) {
      expect(shift.atUncertaintyS).toBeGreaterThan(0.5);
      expect(shift.atUncertaintyS).toBeLessThan(2.5);
      // One reading a second says nothing about a time lost.
      expect(shift.lostS).toBeUndefined();
      expect(shift.durationS).toBeUndefined();
    }
  });

  it('the same run shows none by its speeds alone, and says why', () => {
    const { trace, measurements } = measured('hard-acceleration.csv');
    const { engineSpeedRpm: _, ...channels } = trace.channels;
    const found = shiftsOf({ ...trace, channels }, measurements[0]!);
    expect(found).toEqual({ shifts: [], from: 'acceleration', notFound: 'held-values' });
  });

  it('the one start of the drive through town and country shows three, to a second or two', () => {
    // By hand from the rows: 347 rpm per m/s up to 23 km/h, 205 at 39, 131 at 45, 92–93 from 54 km/h on.
    const { trace, measurements } = measured('town-and-country.csv');
    expect(trace.channels.engineSpeedRpm).toBeDefined();
    expect(measurements.map(({ run }) => run.kind)).toEqual(['standing-start']);
    const { shifts, from } = shiftsOf(trace, measurements[0]!);
    expect(from).toBe('engine-speed');
    expect(shifts).toHaveLength(3);
    for (const [k, [lowest, highest]] of [
      [23, 39],
      [39, 45],
      [45, 54],
    ].entries()) {
      const shift = shifts[k]!;
      expect(mpsToKmh(shift.speedMps)).toBeGreaterThan(lowest!);
      expect(mpsToKmh(shift.speedMps)).toBeLessThan(highest!);
      expect(shift.atUncertaintyS).toBeGreaterThan(1);
      expect(shift.lostS).toBeUndefined();
    }
  });
});
