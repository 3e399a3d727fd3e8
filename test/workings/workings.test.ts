/**
 * The workings redone by hand: each published figure of the demo is worked out again from nothing but what its
 * workings show, by the arithmetic a reader would use.
 */
import { beforeAll, describe, expect, it } from 'vitest';
import { COVERAGE_FACTOR } from '../../pipeline/measurement/uncertainty.ts';
import { MEASURES, measureIds } from '../../pipeline/result/measures.ts';
import type { Publication } from '../../pipeline/result/result.ts';
import { mpsToKmh } from '../../pipeline/units.ts';
import { type FigureWorkings, type Workings, workingsOf } from '../../pipeline/workings/workings.ts';
import { demoPublication } from '../demo.ts';

let publication: Publication;
let all: readonly Workings[];
beforeAll(async () => {
  publication = await demoPublication();
  all = publication.tests.flatMap(test => test.attempts.map(attempt => workingsOf(test, attempt)));
});

const figuresOf = (kind: FigureWorkings['steps']['kind']): readonly FigureWorkings[] =>
  all.flatMap(({ figures }) => figures.filter(({ steps }) => steps.kind === kind));

describe('the workings of the demo', () => {
  it('hold every figure of every attempt once under each start rule, and no other', () => {
    for (const { attempt, figures } of all) {
      const published = measureIds.flatMap(measure =>
        MEASURES[measure].fromRest
          ? (['first-movement', 'one-foot-rollout'] as const).flatMap(rule =>
              MEASURES[measure].valueOf(attempt.measurement, rule) === undefined
                ? []
                : [`${measure} ${rule}`],
            )
          : MEASURES[measure].valueOf(attempt.measurement) === undefined
            ? []
            : [`${measure} `],
      );
      expect(figures.map(({ measure, startRule }) => `${measure} ${startRule ?? ''}`).sort()).toEqual(
        published.sort(),
      );
      expect(new Set(figures.map(({ anchor }) => anchor)).size).toBe(figures.length);
    }
  });

  it('name the log by its hash and the lines the run lies between', () => {
    for (const { logSha256, lines, figures } of all) {
      expect(logSha256).toMatch(/^[0-9a-f]{64}$/);
      for (const { steps } of figures) {
        if (steps.kind !== 'speed') continue;
        expect(steps.finish.before.line).toBeGreaterThan(lines[0]);
        expect(steps.finish.after.line).toBeLessThanOrEqual(lines[1]);
      }
    }
  });

  it('give each uncertainty as the root sum of squares of its items times the coverage factor', () => {
    let checked = 0;
    for (const { measure, budget, budgetFactor = 1, uncertainty } of all.flatMap(({ figures }) => figures)) {
      if (budget === undefined || uncertainty === undefined) {
        expect(measure).toMatch(/-speed$/);
        continue;
      }
      const sum = budget.reduce((total, { standard }) => total + standard ** 2, 0);
      expect(COVERAGE_FACTOR * Math.sqrt(sum) * budgetFactor).toBeCloseTo(uncertainty, 9);
      checked++;
    }
    expect(checked).toBeGreaterThan(500);
  });
});

describe('times redone from their workings', () => {
  it('to a speed: the crossing less the start', () => {
    for (const { value, steps } of figuresOf('speed')) {
      if (steps.kind !== 'speed') throw new Error('another kind');
      expect(steps.finish.timeS - steps.fromS).toBeCloseTo(value, 9);
    }
  });

  it('to a speed: the straight line between two readings differs by less than the interval between them', () => {
    let greatest = 0;
    for (const { steps } of figuresOf('speed')) {
      if (steps.kind !== 'speed') throw new Error('another kind');
      const { before, after, targetMps, straightS, timeS } = steps.finish;
      const share =
        (mpsToKmh(targetMps) - mpsToKmh(before.speedMps)) / mpsToKmh(after.speedMps - before.speedMps);
      expect(before.timeS + share * (after.timeS - before.timeS)).toBeCloseTo(straightS, 9);
      greatest = Math.max(greatest, Math.abs(timeS - straightS) / (after.timeS - before.timeS));
    }
    expect(greatest).toBeLessThan(1);
  });

  it('to a speed: the parabola passes the speed at the published instant', () => {
    let parabolas = 0;
    for (const { steps } of figuresOf('speed')) {
      if (steps.kind !== 'speed' || steps.finish.parabola === undefined) continue;
      const { targetMps, timeS, parabola } = steps.finish;
      const [a = 0, b = 0, c = 0] = parabola.coefficients;
      const since = timeS - parabola.originS;
      expect(a + b * since + c * since ** 2).toBeCloseTo(targetMps, 6);
      parabolas++;
    }
    expect(parabolas).toBeGreaterThan(100);
  });

  it('over a distance: the speed at the line and the time left to it cover what the tape lacks', () => {
    for (const { measure, value, steps } of figuresOf('distance')) {
      if (steps.kind !== 'distance') throw new Error('another kind');
      const { before, onTapeM, timeS, speedMps } = steps.finish;
      const coveredM = ((before.speedMps + speedMps) / 2) * (timeS - before.timeS);
      expect(before.distanceM! + coveredM).toBeCloseTo(onTapeM, 6);
      expect(MEASURES[measure].unit === 's' ? timeS - steps.fromS : speedMps).toBeCloseTo(value, 9);
    }
  });

  it('over a distance: trapezoids added up from the first foot give the tape at the line', () => {
    const { attempt, figures } = all.find(one => one.figures.some(({ measure }) => measure === '0-100-m'))!;
    const { steps } = figures.find(({ measure }) => measure === '0-100-m')!;
    if (steps.kind !== 'distance') throw new Error('another kind');
    const { laid, before } = steps.finish;
    const { timeS, speedMps, line } = attempt.trace;
    let sumM = ((laid.speedMps + laid.next.speedMps) / 2) * (laid.next.timeS - laid.atS);
    const from = line.indexOf(laid.next.line);
    for (let k = from; k < from + laid.intervals; k++)
      sumM += ((speedMps[k]! + speedMps[k + 1]!) / 2) * (timeS[k + 1]! - timeS[k]!);
    expect(sumM).toBeCloseTo(before.distanceM!, 6);
    expect(line[from + laid.intervals]).toBe(before.line);
  });

  it('between two speeds: one crossing less the other', () => {
    for (const { value, steps } of figuresOf('rolling')) {
      if (steps.kind !== 'rolling') throw new Error('another kind');
      expect(steps.finish.timeS - steps.begin.timeS).toBeCloseTo(value, 9);
    }
    expect(figuresOf('rolling').length).toBeGreaterThan(0);
  });
});

describe('stops and extremes redone from their workings', () => {
  it('stopping distance: the tape at the last moving reading and what is left', () => {
    for (const { value, steps } of figuresOf('stop')) {
      if (steps.kind !== 'stop') throw new Error('another kind');
      const { lastMoving, atS, lastM } = steps.stop;
      expect((lastMoving.speedMps * (atS - lastMoving.timeS)) / 2).toBeCloseTo(lastM, 9);
      expect(lastMoving.distanceM! + lastM).toBeCloseTo(value, 9);
    }
    expect(figuresOf('stop').length).toBeGreaterThan(10);
  });

  /** UN Regulation No. 13-H, Annex 3, 1.1.2: (vb² − ve²) / 25.92 (se − sb), km/h and m. */
  it('mean fully developed deceleration: the regulation’s own formula in km/h', () => {
    for (const { value, steps } of figuresOf('mfdd')) {
      if (steps.kind !== 'mfdd') throw new Error('another kind');
      const [vb, ve] = [mpsToKmh(steps.begin.targetMps), mpsToKmh(steps.finish.targetMps)];
      expect((vb ** 2 - ve ** 2) / (25.92 * steps.lengthM)).toBeCloseTo(value, 9);
    }
    expect(figuresOf('mfdd').length).toBeGreaterThan(10);
  });

  it('greatest acceleration: the ends of the stretch alone come within two tenths of it', () => {
    for (const { value, steps } of figuresOf('peak')) {
      if (steps.kind !== 'peak') throw new Error('another kind');
      expect(Math.abs(steps.betweenEndsMps2 / value - 1)).toBeLessThan(0.2);
    }
  });

  it('highest speed: the middle of three readings lies within its uncertainty or the highest reading’s reach', () => {
    for (const { value, uncertainty = 0, steps } of figuresOf('top')) {
      if (steps.kind !== 'top') throw new Error('another kind');
      const highest = Math.max(...steps.readings.map(({ speedMps }) => speedMps));
      expect(Math.abs(steps.middleMps - value)).toBeLessThan(uncertainty + highest - steps.middleMps + 1e-9);
    }
  });
});
