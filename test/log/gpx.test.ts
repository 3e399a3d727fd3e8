import geodesic from 'geographiclib-geodesic';
import { describe, expect, it } from 'vitest';
import type { Log } from '../../pipeline/log/log.ts';
import { readLog } from '../../pipeline/log/readers.ts';

const point = (lat: number, lon: number, second: number, inside = '') =>
  `<trkpt lat="${lat}" lon="${lon}"><time>2026-05-01T10:00:${String(second).padStart(2, '0')}Z</time>${inside}</trkpt>`;
const read = (...segments: string[][]): Log => {
  const body = segments.map(points => `<trkseg>\n${points.join('\n')}\n</trkseg>`).join('\n');
  const text = `<?xml version="1.0"?>\n<gpx version="1.1"><trk>\n${body}\n</trk></gpx>`;
  return readLog('a.gpx', new TextEncoder().encode(text));
};
const codes = (log: Log) => log.warnings.map(warning => warning.code);

/** Points along a geodesic of WGS 84 from 52° N, at the given distances, one a second. */
const along = (distancesM: readonly number[], azimuthDeg = 37): string[] =>
  distancesM.map((distance, second) => {
    const { lat2, lon2 } = geodesic.Geodesic.WGS84.Direct(52, 1, azimuthDeg, distance);
    return point(lat2!, lon2!, second);
  });

describe('speed from position', () => {
  it('is exact at constant speed, to the ends', () => {
    const log = read(along([0, 20, 40, 60, 80]));
    for (const speed of log.speedMps) expect(speed).toBeCloseTo(20, 6);
    expect(codes(log)).toEqual(['derived-from-position']);
  });

  it('is exact inside a constant acceleration: s = a t² / 2, v = a t', () => {
    const log = read(along([0, 1, 2, 3, 4].map(t => (5 * t * t) / 2)));
    for (const t of [1, 2, 3]) expect(log.speedMps[t]).toBeCloseTo(5 * t, 6);
  });

  it('never joins two segments', () => {
    const [a, b, c, d] = along([0, 20, 1000, 1020]);
    const log = read([a!, b!], [], [c!, d!]);
    for (const speed of log.speedMps) expect(speed).toBeCloseTo(20, 6);
    expect(codes(log)).toEqual(['derived-from-position', 'gap']);
  });
});

describe('recorded speed', () => {
  const speed = (value: number) =>
    `<extensions><p:x xmlns:p="urn:p"><p:speed>${value}</p:speed></p:x></extensions>`;

  it('is used where nearly every point has one; the others are left out and told', () => {
    const points = Array.from({ length: 20 }, (_, i) => point(52, 1, i, i === 7 ? '' : speed(i)));
    const log = read(points);
    expect(log.speedSource).toBe('recorded');
    expect(log.timeS).toHaveLength(19);
    expect(codes(log)).toEqual(['no-speed']);
    expect(log.speedStepMps).toBe(1);
  });

  it('is none where an exponent makes it larger than any number', () => {
    const speedText = (text: string) =>
      `<extensions><p:x xmlns:p="urn:p"><p:speed>${text}</p:speed></p:x></extensions>`;
    const points = Array.from({ length: 20 }, (_, i) =>
      point(52, 1, i, speedText(i === 7 ? '1e9000000' : String(i))),
    );
    const log = read(points);
    expect(codes(log)).toEqual(['no-speed']);
    expect([...log.speedMps]).toEqual(Array.from({ length: 20 }, (_, i) => i).filter(i => i !== 7));
  });

  it('is not mixed with a derived one where only some points have it', () => {
    const points = Array.from({ length: 20 }, (_, i) => point(52, 1, i, i < 10 ? speed(i) : ''));
    const log = read(points);
    expect(log.speedSource).toBe('derived-from-position');
    expect(log.warnings[0]?.text).toContain('Only 10 of 20');
  });

  it('keeps height, course, satellites and dilution with it', () => {
    const inside = `<ele>12.5</ele><course>90</course><sat>9</sat><hdop>0.9</hdop>${speed(3)}`;
    const log = read([point(52, 1, 0, inside), point(52, 1, 1, inside)]);
    const { altitudeM, headingDeg, satellites, hdop } = log.channels;
    expect([altitudeM![0], headingDeg![0], satellites![0], hdop![0]]).toEqual([12.5, 90, 9, 0.9]);
    expect([...log.line]).toEqual([4, 5]);
  });
});
