import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import type { Log, ReadOptions } from '../../pipeline/log/log.ts';
import { READERS, readLog } from '../../pipeline/log/readers.ts';
import { type Problem, ProblemError, problemToLine } from '../../pipeline/problem.ts';
import { SPEEDS_KMH, TIMES_S, toBytes, WAYS } from './small-day.ts';

const read = (text: string | Uint8Array, options?: ReadOptions): Log =>
  readLog('a.log', toBytes(text), options);

/** The one problem a text is refused with. */
function refusal(text: string | Uint8Array, options?: ReadOptions): Problem {
  try {
    read(text, options);
  } catch (error) {
    if (!(error instanceof ProblemError)) throw error;
    expect(error.problems).toHaveLength(1);
    expect(problemToLine(error.problems[0]!)).not.toContain('\n');
    return error.problems[0]!;
  }
  throw new Error('the text was read');
}

describe('one day written in many ways', () => {
  it.each(Object.entries(WAYS))('reads the same samples from %s', (_way, { text, columns }) => {
    const log = read(text, columns ? { columns } : {});
    expect(log.timeS).toHaveLength(TIMES_S.length);
    for (const [i, timeS] of TIMES_S.entries()) {
      expect(log.timeS[i]).toBeCloseTo(timeS, 6);
      expect(log.speedMps[i]).toBeCloseTo(SPEEDS_KMH[i]! / 3.6, 5);
    }
    expect(log.warnings).toEqual([]);
  });

  it('counts the lines of the file, preamble and all', () => {
    const log = read(WAYS['a preamble before the header']!.text);
    expect([...log.line.slice(0, 3)]).toEqual([6, 7, 8]);
  });

  it('knows the wall clock of each way that has one', () => {
    const startMs = Date.UTC(2026, 4, 1, 9, 59, 58);
    for (const way of ['ISO 8601 instants', 'NMEA 0183', 'GPX']) {
      expect(read(WAYS[way]!.text).clock, way).toEqual({ kind: 'utc', startMs });
    }
    expect(read(WAYS['times of day']!.text).clock).toEqual({
      kind: 'time-of-day',
      startMs: startMs % 86_400_000,
    });
    expect(read(WAYS.tabs!.text).clock).toBeUndefined();
  });

  it('recognises the format from the bytes, and takes one that is named', () => {
    expect(read(WAYS.GPX!.text).format).toBe('gpx');
    expect(read(WAYS['NMEA 0183']!.text).format).toBe('nmea');
    expect(read(WAYS.tabs!.text).format).toBe('csv');
    expect(refusal(WAYS.tabs!.text, { format: 'nmea' }).id).toBe('nmea-no-readings');
    expect(Object.entries(READERS).every(([key, reader]) => key === reader.format)).toBe(true);
  });
});

describe('a file that is no log', () => {
  it.each<[string, string | Uint8Array, string]>([
    ['an empty file', '', 'log-empty'],
    ['a file of blanks', ' \n\n', 'log-empty'],
    ['binary data', new Uint8Array([80, 75, 3, 4, 0, 0, 7, 255, 254, 0, 1]), 'log-binary'],
    ['plain words', 'I drove to the airfield today.\nIt rained, and then it did not.\n', 'log-no-table'],
    ['a web page', '<!DOCTYPE html>\n<html><body>404</body></html>', 'log-web-page'],
    ['other XML', '<?xml version="1.0"?><kml></kml>', 'log-other-xml'],
    ['a table without a speed', 'time_s,engine_rpm\n0,900\n1,950\n', 'log-no-speed-column'],
    ['a table without a time', 'lap,speed_kmh\n1,900\n2,950\n', 'log-no-time-column'],
    ['a row of units that fits no time', 'Time,Speed\n[km/h],[km/h]\n0,1\n1,2\n', 'log-no-time-column'],
    ['a row of units that fits no speed', 'Time,Speed\n[s],[s]\n0,1\n1,2\n', 'log-no-speed-column'],
    ['a table without a header', '0.0,12.1\n0.1,12.9\n0.2,13.4\n', 'log-no-header'],
    ['decimal commas between commas', 'time_s,speed_kmh\n0,0,12,5\n0,1,13,5\n', 'log-decimal-commas'],
    ['a header and nothing below', 'time_s,speed_kmh\n', 'log-no-table'],
    ['a log cut off after one reading', 'time_s,speed_kmh\n0.0,12.1\n0.1', 'log-too-few-samples'],
    ['a speed column of words', 'time_s,speed_kmh\n0,fast\n1,faster\n2,NaN\n', 'log-too-few-samples'],
    ['a time column of words', 'time_s,speed_kmh\nnoon,5\nlater,6\n', 'log-time-unreadable'],
    ['a speed without a unit', 'time_s,speed\n0,5\n1,6\n', 'log-speed-unit-unknown'],
    ['a time whose unit could be either', 'time,speed_kmh\n0,5\n1,6\n2,7\n', 'log-time-unit-unknown'],
    ['a broken track', '<gpx><trk><trkseg><trkpt lat="1" lon="2"></trkseg></trk></gpx>', 'gpx-broken'],
    ['a track cut off', '<gpx><trk><trkseg><trkpt lat="1" lon="2"><ti', 'gpx-broken'],
    ['an entity of a document type', '<!DOCTYPE gpx [<!ENTITY a "b">]><gpx>&a;</gpx>', 'gpx-broken'],
    ['one sentence without a fix', '$GPRMC,085542.023,V,,,,,,,041211,,,N*45\n', 'nmea-no-readings'],
    ['a line of two million characters', `time_s,speed_kmh\n0,1\n${'1'.repeat(2e6)}`, 'log-line-too-long'],
  ])('refuses %s with one clear problem', (_what, text, id) => {
    const problem = refusal(text);
    expect(problem.id).toBe(id);
    expect(problem.severity).toBe('error');
    expect(problem.where?.file).toBe('a.log');
    expect(problem.mend).not.toBe('');
  });

  it('says which option to type where a column is not certain', () => {
    expect(problemToLine(refusal('time_s,Ground Speed\n0,5\n1,6\n'))).toMatchInlineSnapshot(
      `"a.log:1 Ground Speed: error: The speed column has no unit (found “5”). Say it: --column "speed=Ground Speed:km/h", or m/s, mph, kn. [log-speed-unit-unknown]"`,
    );
    expect(problemToLine(refusal('time,speed_kmh\n0,5\n1,6\n2,7\n'))).toMatchInlineSnapshot(
      `"a.log:1 time: error: The unit of the time column is not certain (found “0”). Say it: --column time=time:s, or ms, us, hhmmss. [log-time-unit-unknown]"`,
    );
  });

  it('names line and column of broken XML', () => {
    const { where } = refusal('<gpx>\n<trk>\n</trkseg>\n</gpx>');
    expect(where).toMatchObject({ file: 'a.log', line: 3 });
    expect(where?.column).toBeGreaterThan(0);
  });

  it('refuses a file larger than one text can hold, without reading it', () => {
    const huge = { length: 600e6, subarray: () => new Uint8Array(4) } as unknown as Uint8Array;
    expect(() => READERS.csv.read('a.log', huge, {})).toThrow('log-too-large');
  });
});

describe('whatever the bytes', () => {
  const days = Object.values(WAYS).map(({ text }) => toBytes(text));
  const mutation = fc.record({
    at: fc.nat(4000),
    remove: fc.nat(30),
    insert: fc.oneof(
      fc.uint8Array({ maxLength: 6 }),
      fc
        .constantFrom('\n', ',', ';', '"', '-', '1e9', 'NaN', '$', '*', '<', '>', '&', '12:00:00')
        .map(toBytes),
    ),
  });

  it('reads a log or throws problems, never anything else', () => {
    fc.assert(
      fc.property(
        fc.constantFrom(...days),
        fc.array(mutation, { minLength: 1, maxLength: 6 }),
        (day, mutations) => {
          let bytes = [...day];
          for (const { at, remove, insert } of mutations) {
            const place = at % (bytes.length + 1);
            bytes = [...bytes.slice(0, place), ...insert, ...bytes.slice(place + remove)];
          }
          try {
            const log = readLog('a.log', Uint8Array.from(bytes));
            for (let i = 0; i < log.timeS.length; i++) {
              if (i > 0) expect(log.timeS[i]).toBeGreaterThan(log.timeS[i - 1]!);
              expect(log.speedMps[i]).toBeGreaterThanOrEqual(0);
              expect(Number.isFinite(log.speedMps[i])).toBe(true);
            }
            expect(log.timeS[0]).toBe(0);
          } catch (error) {
            if (!(error instanceof ProblemError)) throw error;
            expect(error.problems).toHaveLength(1);
          }
        },
      ),
      { numRuns: 600 },
    );
  });
});

describe('a recorder that lost its power', () => {
  const text = 'time_s,speed_kmh\n0.0,0\n0.1,1.5\n0.2,3\n';

  it('reads what was written before the zeros, and tells how many there are', () => {
    const bytes = new Uint8Array([...toBytes(text), ...new Array<number>(4096).fill(0)]);
    const log = read(bytes);
    expect([...log.timeS]).toEqual([...read(text).timeS]);
    expect(log.warnings.map(({ code, text }) => [code, text])).toEqual([
      ['cut-off', 'The last 4096 bytes hold nothing, as after a loss of power while recording; left out.'],
    ]);
  });

  it('refuses a file of zeros alone, and zeros in the middle', () => {
    expect(refusal(new Uint8Array(512)).id).toBe('log-binary');
    expect(refusal(`${text}\0\0${text}`).id).toBe('log-binary');
  });
});

describe('a declared column that is not there', () => {
  it.each(['time', 'speed'])('is named with the columns there are: %s', word => {
    const problem = refusal('a,b\n0,1\n1,2\n2,3\n', {
      columns: {
        time: { name: 'a', unit: 's' },
        speed: { name: 'b', unit: 'km/h' },
        [word]: { name: 'nowhere' },
      },
    });
    expect(problem.id).toBe('log-column-absent');
    expect(problemToLine(problem)).toContain('nowhere');
  });
});
