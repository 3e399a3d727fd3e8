/** Each flag of a run, just within its limit and just beyond. */
import { describe, expect, it } from 'vitest';
import {
  FEWEST_SATELLITES,
  flagsOf,
  flagsOfStart,
  HIGHEST_HDOP,
  IRREGULAR_S,
  NOISY_MPS,
  WORST_STATED_MPS,
} from '../../pipeline/measurement/flags.ts';
import type { Trace } from '../../pipeline/trace/trace.ts';
import { type Point, traceOf } from '../trace/points.ts';

const TEN: Point[] = Array.from({ length: 11 }, (_, k): Point => [k, 5]);
const codes = (more: Partial<Trace>, lowRateHz?: number) =>
  flagsOf(traceOf(TEN, { rateHz: 10, ...more }), 2, 8, lowRateHz).map(({ code, facts }) => ({ code, facts }));
const names = (more: Partial<Trace>, lowRateHz?: number) => codes(more, lowRateHz).map(({ code }) => code);
const JUST = 1 + 1e-9;

describe('flags of readings', () => {
  it('are none of a good log', () => {
    expect(codes({ noiseMps: NOISY_MPS, stampS: IRREGULAR_S })).toEqual([]);
  });

  it('tell gaps between the readings of the run, as long as they are', () => {
    const gap = (index: number) => codes({ gaps: [{ index, fromS: 1.25, toS: 1.75 }] });
    expect(gap(2)).toEqual([{ code: 'gap', facts: { missingS: 0.5, afterS: 1.25 } }]);
    expect(gap(7)).toHaveLength(1);
    expect([gap(1), gap(8)]).toEqual([[], []]);
  });

  it('count spikes from the first reading to the last', () => {
    const spikes = (...at: number[]) => codes({ spikes: at.map(atS => ({ atS, speedMps: 90, line: 1 })) });
    expect(spikes(2, 5, 8)).toEqual([{ code: 'spike', facts: { count: 3 } }]);
    expect(spikes(1.999, 8.001)).toEqual([]);
  });

  it('tell rate, noise, stamps, filters and where speed comes from', () => {
    expect(names({ rateHz: 9.5 })).toEqual([]);
    expect(names({ rateHz: 9.49 })).toEqual(['low-rate']);
    expect(names({ rateHz: 18.9 }, 20)).toEqual(['low-rate']);
    expect(names({ rateHz: 19.1 }, 20)).toEqual([]);
    expect(names({ noiseMps: NOISY_MPS * JUST })).toEqual(['noisy']);
    expect(names({ stampS: IRREGULAR_S * JUST })).toEqual(['irregular']);
    expect(codes({ stampS: 0.004 })[0]!.facts).toEqual({ ms: 4 });
    expect(names({ heldS: 0.2 })).toEqual(['held-values']);
    expect(names({ speedSource: 'derived-from-position' })).toEqual(['derived-speed']);
    expect(names({ filterS: 0.1, restTooBrief: true })).toEqual(['filtered']);
    expect(names({ restTooBrief: true })).toEqual(['brief-rest']);
    expect(names({ restTooBrief: true, rateHz: 9.49 })).toEqual(['low-rate']);
    expect(codes({ restTooBrief: true, rateHz: 10 })[0]!.facts).toEqual({ filterS: 0.1 });
  });

  it('tell a poor fix by the middle of the run’s own readings', () => {
    const all = (value: number) => new Float64Array(11).fill(value);
    const poor = (channels: Trace['channels']) => codes({ channels });
    expect(
      poor({
        satellites: all(FEWEST_SATELLITES),
        hdop: all(HIGHEST_HDOP),
        speedAccuracyMps: all(WORST_STATED_MPS),
      }),
    ).toEqual([]);
    expect(poor({ satellites: all(5) })[0]!.facts).toEqual({ satellites: 5 });
    expect(poor({ hdop: all(2.6) })[0]!.facts).toEqual({ dilution: 2.6 });
    expect(poor({ speedAccuracyMps: all(0.25) })[0]!.facts).toEqual({ statedKmh: 0.9 });
    // Before and after the run the sky does not matter, nor do readings that have no number.
    const satellites = Float64Array.of(1, 1, 9, 9, Number.NaN, 9, 9, 9, 9, 1, 1);
    expect(poor({ satellites })).toEqual([]);
    const few = Float64Array.of(9, 9, 5, Number.NaN, Number.NaN, Number.NaN, Number.NaN, 5, 5, 9, 9);
    expect(poor({ satellites: few })[0]!.facts).toEqual({ satellites: 5 });
    const last = Float64Array.of(9, 9, 5, 5, 5, 9, 9, 9, 5, 9, 9);
    expect(poor({ satellites: last })).toHaveLength(1);
  });
});

describe('flags of a start', () => {
  /** Rest, a roll of one reading, rest again, then a hard pull; ten readings a second. */
  function rolled(mps: number, beforeS: number, noiseMps = 0.01): string[] {
    const rest = 30;
    const points = Array.from({ length: 60 }, (_, k): Point => {
      const at = k / 10;
      if (k === rest - Math.round(beforeS * 10)) return [at, mps];
      return [at, k <= rest ? 0 : (k - rest) * 0.6];
    });
    const trace = traceOf(points, { rateHz: 10, noiseMps });
    return flagsOfStart(trace, {
      number: 1,
      kind: 'standing-start',
      status: 'complete',
      beginIndex: rest,
      endIndex: 59,
    }).map(({ code }) => code);
  }

  it('tell a roll of more than rocking within a second and a half before', () => {
    expect(rolled(0.3, 1)).toEqual(['rolled-back']);
    expect(rolled(0.299, 1)).toEqual([]);
    expect(rolled(0.5, 1.5)).toEqual(['rolled-back']);
    expect(rolled(0.5, 1.6)).toEqual([]);
    // Six standard deviations of a noisy log.
    expect(rolled(0.5, 1, 0.083)).toEqual(['rolled-back']);
    expect(rolled(0.5, 1, 0.084)).toEqual([]);
  });
});
