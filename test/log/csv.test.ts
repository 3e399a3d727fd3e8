import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import type { Log, ReadOptions } from '../../pipeline/log/log.ts';
import { readLog } from '../../pipeline/log/readers.ts';
import { ProblemError } from '../../pipeline/problem.ts';
import { FOOT_M, STANDARD_GRAVITY_MPS2 } from '../../pipeline/units.ts';

const read = (text: string, options?: ReadOptions): Log =>
  readLog('a.csv', new TextEncoder().encode(text), options);
const kmh = (log: Log): number[] => [...log.speedMps].map(speed => Number((speed * 3.6).toFixed(6)));
const warning = (log: Log, code: string) => log.warnings.find(one => one.code === code);

describe('faults inside a table', () => {
  it('leaves out words and NaN where a speed should be, and tells how many and where', () => {
    const log = read('time_s,speed_kmh\n0,10\n1,NaN\n2,12\n3,error\n4,14\n');
    expect(kmh(log)).toEqual([10, 12, 14]);
    expect([...log.line]).toEqual([2, 4, 6]);
    expect(warning(log, 'bad-cell')).toMatchObject({ line: 3, atS: 2 });
    expect(warning(log, 'bad-cell')?.text).toContain('2 rows (lines 3, 5, “NaN”)');
  });

  it('keeps a spike and a hole as they are: judging them is not the reader’s', () => {
    const log = read('time_s,speed_kmh\n0,50\n0.1,412\n0.2,51\n1.5,60\n');
    expect(kmh(log)).toEqual([50, 412, 51, 60]);
    expect([...log.timeS]).toEqual([0, 0.1, 0.2, 1.5]);
    expect(log.warnings).toEqual([]);
  });

  it('leaves out a last row that is cut off', () => {
    for (const end of ['2', '2,', '2,1']) {
      const log = read(`time_s,speed_kmh\n0,10.5\n1,11.5\n${end}`);
      expect(kmh(log)).toEqual([10.5, 11.5]);
      if (end !== '2,') expect(warning(log, 'cut-off')).toMatchObject({ line: 4 });
    }
    // Whole without a line end: as many digits as the row before.
    expect(kmh(read('time_s,speed_kmh\n0,10.5\n1,11.5\n2,12.5'))).toEqual([10.5, 11.5, 12.5]);
  });

  it('leaves out rows of another length unless time and speed are whole', () => {
    const log = read('time_s,speed_kmh,sats\n0,10,7\n1,1\n2,12,7\n3,13,7,99\n4,14,\n5,15,7\n');
    expect(kmh(log)).toEqual([10, 12, 14, 15]);
    expect(warning(log, 'uneven-rows')?.text).toContain('2 rows');
    const trailing = read('time_s,speed_kmh,sats,hdop\n0,10,7\n1,11,7\n2,12,7\n');
    expect(kmh(trailing)).toEqual([10, 11, 12]);
    expect(warning(trailing, 'uneven-rows')?.text).toContain('3 rows');
  });

  it('uses the first of rows with one time, and tells', () => {
    const log = read('time_s,speed_kmh\n0,10\n1,11\n1,99\n2,12\n');
    expect(kmh(log)).toEqual([10, 11, 12]);
    expect(warning(log, 'time-repeated')).toMatchObject({ line: 4 });
  });

  it('leaves out a few rows that go back in time, and tells', () => {
    const log = read('time_s,speed_kmh\n0,10\n1,11\n2,12\n1.5,99\n3,13\n');
    expect(kmh(log)).toEqual([10, 11, 12, 13]);
    expect(warning(log, 'time-backwards')).toMatchObject({ line: 5 });
  });

  it('leaves out the one row that ran ahead rather than all rows after it', () => {
    const log = read('time_s,speed_kmh\n0,10\n1,11\n999,99\n2,12\n3,13\n4,14\n');
    expect(kmh(log)).toEqual([10, 11, 12, 13, 14]);
    expect(warning(log, 'time-backwards')).toMatchObject({ line: 4 });
  });

  it('refuses a recorder’s restart with the line to split at', () => {
    const part = Array.from({ length: 30 }, (_, i) => `${i / 10},50`).join('\n');
    expect(() => read(`time_s,speed_kmh\n${part}\n${part}\n`)).toThrow(
      /a\.csv:32: error: Time goes back to 0 s after 2\.9 s.*Split the file at this line.*\[log-time-restarts\]/,
    );
  });

  it('takes a negative speed as reversing, and −1 alone as no speed', () => {
    const log = read('time_s,speed_kmh\n0,0.0\n1,-3.5\n2,-1\n3,2.0\n');
    expect(kmh(log)).toEqual([0, 3.5, 2]);
    expect(warning(log, 'negative-speed')).toMatchObject({ line: 3 });
    expect(warning(log, 'no-speed')).toMatchObject({ line: 4 });
  });

  it('never changes its decimal mark half-way', () => {
    const log = read('time_s;speed_kmh\n0;10,5\n1;11.5\n2;12,5\n');
    expect(kmh(log)).toEqual([10.5, 12.5]);
    expect(warning(log, 'bad-cell')).toMatchObject({ line: 3 });
  });
});

describe('times', () => {
  it('run on past midnight', () => {
    const log = read('Time,speed_kmh\n23:59:59.5,10\n00:00:00.5,11\n00:00:01.5,12\n');
    expect([...log.timeS]).toEqual([0, 1, 2]);
    expect(log.clock).toEqual({ kind: 'time-of-day', startMs: 86_399_500 });
  });

  it.each([
    ['time,speed_kmh\n0.0,1\n0.1,2\n0.2,3\n', 0.1, 's'],
    ['time,speed_kmh\n0,1\n40,2\n80,3\n', 0.04, 'ms'],
  ])('without a unit are taken in the only one that fits, told: %j', (text, step, unit) => {
    const log = read(text);
    expect(log.timeS[1]).toBeCloseTo(step, 12);
    expect(warning(log, 'time-unit-inferred')?.text).toContain(`; ${unit} is the only one`);
  });

  it.each([
    ['time_ms', 1_777_629_598_000, 100],
    ['timestamp', 1_777_629_598, 0.1],
    ['timestamp', 1_777_629_598_000, 100],
  ])('since 1970 in %s are instants', (name, start, step) => {
    const log = read(`${name},speed_kmh\n${[0, 1, 2].map(i => `${start + i * step},5`).join('\n')}\n`);
    expect(log.clock).toEqual({ kind: 'utc', startMs: 1_777_629_598_000 });
    expect(log.timeS[2]).toBeCloseTo(0.2, 6);
  });

  it.each([
    ['2026-05-01T12:00:00+02:00', { kind: 'utc', startMs: Date.UTC(2026, 4, 1, 10) }],
    ['2026-05-01 12:00:00', { kind: 'time-of-day', startMs: 12 * 3_600_000 }],
    ['12:00:00 PM', { kind: 'time-of-day', startMs: 12 * 3_600_000 }],
    ['01.05.2026 12:00:00', { kind: 'time-of-day', startMs: 12 * 3_600_000 }],
  ])('of %s give the clock they name and no more', (text, clock) => {
    expect(read(`Time,speed_kmh\n${text},5\n${text.replace(':00:00', ':00:01')},6\n`).clock).toEqual(clock);
  });

  it('in seconds take their clock from a column beside them', () => {
    const log = read('time_s,utc,speed_kmh\n0,2026-05-01T12:00:00Z,5\n1,2026-05-01T12:00:01Z,6\n');
    expect(log.clock).toEqual({ kind: 'utc', startMs: Date.UTC(2026, 4, 1, 12) });
  });

  it('of day in UTC take their date from a column beside them', () => {
    const log = read('Date,UTC time,speed_kmh\n2026-05-01,12:00:00,5\n2026-05-01,12:00:01,6\n');
    expect(log.clock).toEqual({ kind: 'utc', startMs: Date.UTC(2026, 4, 1, 12) });
  });

  it('keep their shape when the clock is shifted', () => {
    fc.assert(
      fc.property(fc.integer({ min: 0, max: 86_399 }), start => {
        const clock = (s: number) => new Date((s % 86_400) * 1000).toISOString().slice(11, 19);
        const rows = [0, 1, 2, 3].map(i => `${clock(start + i)},${i}`).join('\n');
        expect([...read(`Time,speed_kmh\n${rows}\n`).timeS]).toEqual([0, 1, 2, 3]);
      }),
    );
  });
});

describe('columns', () => {
  it.each([
    ['speed_kmh', 3.6],
    ['Speed (km/h)', 3.6],
    ['v [m/s]', 1],
    ['speed mph', 1 / 0.44704],
    ['Speed (kn)', 3600 / 1852],
    ['Vehicle Speed Sensor [km/h]', 3.6],
    ['SpeedKmh', 3.6],
    ['GPS Speed (GPS) [kph]', 3.6],
    ['Geschwindigkeit / km/h', 3.6],
    ['speed_mps', 1],
    ['velocity, ft/s', 1 / FOOT_M],
  ])('named %s hold the speed in its unit', (name, perMps) => {
    const log = read(`time_s;${name}\n0;${10 * perMps}\n1;${20 * perMps}\n`);
    expect(log.speedMps[0]).toBeCloseTo(10, 9);
    expect(log.warnings).toEqual([]);
  });

  it('of two speeds prefer the satellite one and tell the other', () => {
    const log = read('time_s,wheel_speed_kmh,gps_speed_kmh\n0,11,10\n1,21,20\n');
    expect(kmh(log)).toEqual([10, 20]);
    expect(warning(log, 'two-speed-columns')?.text).toContain('--column speed=wheel_speed_kmh');
  });

  it('that hold other speeds are not the car’s', () => {
    const log = read(
      'time_s,wind speed [m/s],Engine Speed [rpm],speed accuracy [m/s],v [m/s]\n0,3,900,0.1,10\n1,3,900,0.1,11\n',
    );
    expect([...log.speedMps]).toEqual([10, 11]);
    expect([...log.channels.speedAccuracyMps!]).toEqual([0.1, 0.1]);
    expect([...log.channels.engineSpeedRpm!]).toEqual([900, 900]);
    expect(log.warnings).toEqual([]);
  });

  it('besides time and speed are kept in SI', () => {
    const header =
      'time_s,speed_kmh,latitude,longitude,altitude (ft),heading,satellites,HDOP,throttle [%],long acc [g],easting_m,northing_m';
    const log = read(`${header}\n0,1,52.5,-1.25,100,359.9,12,0.8,50,0.5,1000,2000\n1,1,,,,,,,,,,\n`);
    const first = Object.fromEntries(Object.entries(log.channels).map(([name, values]) => [name, values[0]]));
    expect(first).toEqual({
      latitudeDeg: 52.5,
      longitudeDeg: -1.25,
      altitudeM: 100 * FOOT_M,
      headingDeg: 359.9,
      satellites: 12,
      hdop: 0.8,
      throttlePct: 50,
      longitudinalMps2: 0.5 * STANDARD_GRAVITY_MPS2,
      eastingM: 1000,
      northingM: 2000,
    });
    expect(log.channels.latitudeDeg![1]).toBeNaN();
  });

  it('that are declared win over the header, and must be in it', () => {
    const text = 'time_s,speed_kmh,other\n0,1,36\n1,2,72\n';
    expect([...read(text, { columns: { speed: { name: 'Other', unit: 'km/h' } } }).speedMps]).toEqual([
      10, 20,
    ]);
    const refuse = (columns: ReadOptions['columns'] & object) => () => read(text, { columns });
    expect(refuse({ altitude: { name: 'height' } })).toThrow('log-column-absent');
    expect(refuse({ speed: { name: 'other', unit: 'furlongs' } })).toThrow('log-unit-unknown');
    expect(refuse({ speed: { name: 'other' } })).toThrow('log-speed-unit-unknown');
    expect(refuse({ colour: { name: 'other' } })).toThrow('log-quantity-unknown');
    expect(refuse({ speed: { name: 'absent', unit: 'km/h' } })).toThrow(ProblemError);
  });
});

describe('the step of the recorder', () => {
  it.each([
    ['whole km/h', [0, 1, 2, 5, 9, 14], 0, 1],
    ['tenths', [0, 0.1, 0.3, 0.7, 12.4, 50.2], 1, 0.1],
    ['halves', [0, 0.5, 1, 4.5, 7, 22.5], 2, 0.5],
  ])('of %s is seen', (_what, values, decimals, stepKmh) => {
    const rows = values.map((value, i) => `${i},${value.toFixed(decimals)}`).join('\n');
    expect(read(`time_s,speed_kmh\n${rows}\n`).speedStepMps).toBeCloseTo(stepKmh / 3.6, 9);
  });

  it('is not claimed of two values', () => {
    expect(read('time_s,speed_kmh\n0,10\n1,20\n').speedStepMps).toBeUndefined();
  });
});

it('reads a table of 100,000 rows', () => {
  const rows = Array.from(
    { length: 100_000 },
    (_, i) => `${(i / 100).toFixed(2)},${(i % 200) / 2},52.1,1.2,${i % 360}`,
  );
  const log = read(`time_s,speed_kmh,latitude,longitude,heading\n${rows.join('\n')}\n`);
  expect(log.timeS).toHaveLength(100_000);
  expect(log.timeS.at(-1)).toBeCloseTo(999.99, 9);
  expect(log.line.at(-1)).toBe(100_001);
  expect(log.channels.headingDeg?.at(-1)).toBe(99_999 % 360);
});
