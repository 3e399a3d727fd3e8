import { describe, expect, it } from 'vitest';
import type { Log } from '../../pipeline/log/log.ts';
import { readLog } from '../../pipeline/log/readers.ts';
import { checksumOf } from '../../pipeline/log/sentence.ts';
import { KNOT_MPS } from '../../pipeline/units.ts';

const sentence = (body: string) => `$${body}*${checksumOf(body)}`;
const rmc = (time: string, knots: string, { talker = 'GN', status = 'A', date = '010526' } = {}) =>
  sentence(`${talker}RMC,${time},${status},5200.0000,N,00100.0000,W,${knots},90.0,${date},,,A`);
const gga = (time: string, { quality = '1', minutes = '00.0000' } = {}) =>
  sentence(`GNGGA,${time},52${minutes},N,00100.0000,W,${quality},12,0.8,101.5,M,47.0,M,,`);
const vtg = (knots: string, kmh: string) => sentence(`GNVTG,90.0,T,,M,${knots},N,${kmh},K,A`);

const read = (...lines: string[]): Log =>
  readLog('a.nmea', new TextEncoder().encode(`${lines.join('\r\n')}\r\n`));
const warning = (log: Log, code: string) => log.warnings.find(one => one.code === code);

describe('epochs', () => {
  it('join the sentences of one time into one sample, in either order', () => {
    for (const order of [
      (t: string, v: string) => [rmc(t, v), gga(t)],
      (t: string, v: string) => [gga(t), rmc(t, v)],
    ]) {
      const log = read(
        ...order('100000.0', '10.0'),
        ...order('100000.1', '10.5'),
        ...order('100000.2', '11.0'),
      );
      expect([...log.timeS].map(t => Number(t.toFixed(6)))).toEqual([0, 0.1, 0.2]);
      expect(log.speedMps[1]).toBeCloseTo(10.5 * KNOT_MPS, 12);
      expect([...log.channels.altitudeM!]).toEqual([101.5, 101.5, 101.5]);
      expect([...log.channels.longitudeDeg!]).toEqual([-1, -1, -1]);
      expect(log.warnings).toEqual([]);
    }
  });

  it('take the finer km/h of a VTG that repeats the knots, before or after its RMC', () => {
    // 10.4 kn is 19.26 km/h: 19.3 is the same speed written finer.
    const after = read(
      rmc('100000', '10.4'),
      vtg('10.4', '19.3'),
      rmc('100001', '12.0'),
      vtg('12.0', '22.2'),
    );
    const before = read(
      vtg('10.4', '19.3'),
      rmc('100000', '10.4'),
      vtg('12.0', '22.2'),
      rmc('100001', '12.0'),
    );
    for (const log of [after, before]) {
      expect([...log.speedMps].map(v => Number((v * 3.6).toFixed(9)))).toEqual([19.3, 22.2]);
      expect(log.speedStepMps).toBeCloseTo(0.1 / 3.6, 12);
    }
  });

  it('have no speed where its digits make it larger than any number', () => {
    const log = read(rmc('100000', '10.4'), rmc('100001', '9'.repeat(400)), rmc('100002', '12.0'));
    expect(log.timeS).toHaveLength(2);
    expect([...log.speedMps].every(Number.isFinite)).toBe(true);
    expect(log.warnings.length).toBeGreaterThan(0);
  });

  it('keep to the RMC where a VTG contradicts it', () => {
    const log = read(rmc('100000', '10.4'), vtg('11.6', '21.5'), rmc('100001', '12.0'));
    expect(log.speedMps[0]).toBeCloseTo(10.4 * KNOT_MPS, 12);
    expect(log.speedStepMps).toBeCloseTo(0.1 * KNOT_MPS, 12);
  });

  it('use GGA and VTG alone, without a date', () => {
    const log = read(gga('235959'), vtg('10.0', '18.5'), gga('000000'), vtg('10.0', '18.6'));
    expect([...log.timeS]).toEqual([0, 1]);
    expect(log.clock).toEqual({ kind: 'time-of-day', startMs: 86_399_000 });
    expect(log.speedSource).toBe('recorded');
  });

  it('of GGA alone derive the speed from the position, and say so', () => {
    const at = (second: number, minutes: string) => gga(`10000${second}`, { minutes });
    const log = read(at(0, '00.0000'), at(1, '00.0100'), at(2, '00.0200'));
    expect(log.speedSource).toBe('derived-from-position');
    // A hundredth of a minute of latitude at 52° is 18.544 m on WGS 84.
    expect(log.speedMps[1]).toBeCloseTo(18.544, 2);
    expect(warning(log, 'derived-from-position')).toBeDefined();
  });

  it('run on past midnight by their date', () => {
    const log = read(rmc('235959.5', '1.0'), rmc('000000.5', '2.0', { date: '020526' }));
    expect([...log.timeS]).toEqual([0, 1]);
    expect(log.clock).toEqual({ kind: 'utc', startMs: Date.UTC(2026, 4, 1, 23, 59, 59, 500) });
  });

  it('read any talker', () => {
    const talkers = ['GP', 'GL', 'GA', 'GB', 'II'];
    const log = read(...talkers.map((talker, i) => rmc(`10000${i}`, '1.0', { talker })));
    expect(log.timeS).toHaveLength(5);
  });
});

describe('faults between sentences', () => {
  const good = [rmc('100000', '1.0'), rmc('100001', '2.0'), rmc('100002', '3.0')];

  it('wrong checksums are left out, counted and placed', () => {
    const log = read(good[0]!, good[1]!.replace('2.0', '9.0'), good[2]!);
    expect(log.timeS).toHaveLength(2);
    expect(warning(log, 'bad-checksum')).toMatchObject({ line: 2, atS: 2 });
  });

  it('a sentence without a checksum is not used', () => {
    const log = read(good[0]!, good[1]!.slice(0, -3), good[2]!);
    expect(log.timeS).toHaveLength(2);
    expect(warning(log, 'no-checksum')).toMatchObject({ line: 2 });
  });

  it('a fix that is void is no sample', () => {
    const log = read(good[0]!, rmc('100001', '2.0', { status: 'V' }), good[2]!);
    expect(log.timeS).toHaveLength(2);
    expect(warning(log, 'no-fix')).toMatchObject({ line: 2 });
  });

  it('comments, noise and two sentences on one line are passed over or split', () => {
    const log = read('# a comment with $GPRMC in it', `\u0001\u0002xx${good[0]}`, `${good[1]}${good[2]}`);
    expect(log.timeS).toHaveLength(3);
    expect(log.warnings).toEqual([]);
  });

  it('a last sentence cut off is told', () => {
    const text = `${good[0]}\n${good[1]}\n${good[2]!.slice(0, 30)}`;
    const log = readLog('a.nmea', new TextEncoder().encode(text));
    expect(warning(log, 'cut-off')).toMatchObject({ line: 3 });
  });

  it('a second RMC of one time is told', () => {
    const log = read(good[0]!, rmc('100000', '9.0', { talker: 'GL' }), good[1]!);
    expect(log.speedMps[0]).toBeCloseTo(KNOT_MPS, 12);
    expect(warning(log, 'time-repeated')).toMatchObject({ line: 2 });
  });
});
