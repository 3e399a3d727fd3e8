import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { traceToStrip } from '../../pipeline/desk/strip.ts';
import { bytesToStrip, stripToBytes } from '../../pipeline/desk/strip-bytes.ts';

const timeS = Float64Array.from({ length: 100_000 }, (_, i) => i / 100);
const speedMps = Float64Array.from(timeS, t => 10 + 10 * Math.sin(t / 40));
speedMps[51_234] = 60;
const kmh = (mps: number) => mps * 3.6;

describe('a trace on a strip', () => {
  it('keeps every peak, however few points it has', () => {
    const strip = traceToStrip(timeS, speedMps, { fromS: 0, toS: 999.99, points: 400, gapS: 1 });
    expect(strip.timeS.length).toBe(400);
    expect(Math.max(...(strip.maxKmh as number[]))).toBe(kmh(60));
    expect(Math.min(...(strip.minKmh as number[]))).toBe(kmh(Math.min(...speedMps)));
  });

  it('holds each reading between its least and greatest, wherever it is cut', () => {
    fc.assert(
      fc.property(
        fc.double({ min: 0, max: 900, noNaN: true }),
        fc.double({ min: 0.5, max: 90, noNaN: true }),
        fc.integer({ min: 10, max: 900 }),
        (fromS, lengthS, points) => {
          const strip = traceToStrip(timeS, speedMps, { fromS, toS: fromS + lengthS, points, gapS: 1 });
          expect(strip.timeS.length).toBeLessThanOrEqual(points);
          for (let i = Math.ceil(fromS * 100) + 1; i < (fromS + lengthS) * 100; i += 97) {
            const at = strip.timeS.findLastIndex(time => time <= timeS[i]!);
            expect(strip.minKmh[at]!).toBeLessThanOrEqual(kmh(speedMps[i]!));
            expect(strip.maxKmh[at]!).toBeGreaterThanOrEqual(kmh(speedMps[i]!));
          }
        },
      ),
      { numRuns: 60 },
    );
  });

  it('shows every reading where there are few', () => {
    const strip = traceToStrip(timeS, speedMps, { fromS: 10, toS: 10.5, points: 4000, gapS: 1 });
    expect(strip.timeS).toEqual(Array.from({ length: 51 }, (_, i) => (1000 + i) / 100));
    expect(strip.minKmh).toEqual(strip.maxKmh);
  });

  it('tells a hole by a null', () => {
    const holed = Float64Array.from([0, 0.1, 5, 5.1]);
    const strip = traceToStrip(holed, Float64Array.from([1, 1, 1, 1]), {
      fromS: 0,
      toS: 6,
      points: 100,
      gapS: 1,
    });
    expect(strip.maxKmh.filter(value => value === null)).toHaveLength(1);
    expect(strip.timeS[strip.maxKmh.indexOf(null)]).toBeCloseTo(2.55, 9);
  });
});

describe('a strip on its way to the page', () => {
  const speed = fc.option(fc.double({ noNaN: true }), { nil: null });

  it('arrives to the last bit, holes included', () => {
    fc.assert(
      fc.property(fc.array(fc.tuple(fc.double({ noNaN: true }), speed, speed)), rows => {
        const strip = {
          timeS: rows.map(([time]) => time),
          minKmh: rows.map(([, least]) => least),
          maxKmh: rows.map(([, , most]) => most),
        };
        const bytes = stripToBytes(strip);
        expect(bytes).toHaveLength(24 * rows.length);
        expect(bytesToStrip(Uint8Array.from(bytes).buffer)).toEqual(strip);
      }),
    );
  });

  it('cut short is no strip', () => {
    expect(() => bytesToStrip(new ArrayBuffer(25))).toThrow(RangeError);
  });
});
