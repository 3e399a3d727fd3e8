import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { readingsToPull } from '../../pipeline/conditions/pull.ts';
import { replay } from '../../pipeline/conditions/replay.ts';

/** A pull at constant acceleration from rest: speed a t, distance a t²/2. */
function constantPull(accelerationMps2: number, endS: number, rateHz = 50) {
  const timeS = Float64Array.from({ length: Math.round(endS * rateHz) + 1 }, (_, i) => i / rateHz);
  return readingsToPull(
    timeS,
    timeS.map(t => accelerationMps2 * t),
    0,
  );
}

describe('a pull', () => {
  it('has the acceleration and distance of its readings', () => {
    const pull = constantPull(2.5, 8);
    for (const a of pull.accelerationMps2) expect(a).toBeCloseTo(2.5, 9);
    expect(pull.distanceM.at(-1)).toBeCloseTo((2.5 * 64) / 2, 9);
  });

  it('takes a longer line where noise asks for it', () => {
    const timeS = Float64Array.from({ length: 400 }, (_, i) => i / 10);
    const steady = readingsToPull(
      timeS,
      timeS.map(t => 0.4 * t),
      0.03,
    );
    const keen = readingsToPull(
      timeS,
      timeS.map(t => 5 * t),
      0.03,
    );
    expect(steady.widthS[200]!).toBeGreaterThan(2 * keen.widthS[200]!);
  });
});

describe('replaying a run', () => {
  it('at constant push gives the closed form: time v/(a + δ), distance √(2 d/(a + δ))', () => {
    fc.assert(
      fc.property(
        fc.double({ min: 1, max: 6, noNaN: true }),
        fc.double({ min: -0.3, max: 0.3, noNaN: true }),
        (a, gain) => {
          const pull = constantPull(a, 10);
          const again = replay(pull, new Float64Array(pull.timeS.length).fill(gain));
          const [v, d] = [a * 8, (a * 64) / 2];
          expect(8 + again.speedChangeS(8)).toBeCloseTo(v / (a + gain), 6);
          // The place of a node half way through a step is taken as on a straight line.
          expect(8 + again.distanceChangeS(8)).toBeCloseTo(Math.sqrt((2 * d) / (a + gain)), 2);
        },
      ),
    );
  });

  it('changes nothing, to the last bit, where nothing is gained', () => {
    fc.assert(
      fc.property(
        fc.array(fc.double({ min: 0, max: 60, noNaN: true }), { minLength: 5, maxLength: 80 }),
        speeds => {
          const timeS = Float64Array.from(speeds, (_, i) => i / 10);
          const pull = readingsToPull(timeS, Float64Array.from(speeds), 0.05);
          const same = replay(pull, new Float64Array(speeds.length));
          for (const t of [0.05, 0.3, timeS.at(-1)!]) {
            const [speed, distance] = [same.speedChangeS(t), same.distanceChangeS(t)];
            expect(Math.abs(speed) === 0 || Number.isNaN(speed)).toBe(true);
            expect(Math.abs(distance) === 0 || Number.isNaN(distance)).toBe(true);
          }
        },
      ),
    );
  });

  it('of a gear change takes the same time off the push, and comes out of it faster', () => {
    // 3 m/s² to 15 m/s, half a second without push, 2 m/s² from then on.
    const timeS = Float64Array.from({ length: 1001 }, (_, i) => i / 100);
    const speedMps = timeS.map(t => (t <= 5 ? 3 * t : t <= 5.5 ? 15 : 15 + 2 * (t - 5.5)));
    const pull = readingsToPull(timeS, speedMps, 0);
    const gain = 0.2;
    const again = replay(pull, new Float64Array(timeS.length).fill(gain));
    // By hand: 15/3.2 s to the change, 0.5 s at 0.2 m/s² to 15.1 m/s, then 2.2 m/s² to 20 m/s.
    const byHand = 15 / 3.2 + 0.5 + (20 - 15.1) / 2.2;
    // Lines over 0.4 s blur the edges of the change: of 0.59 s gained, a hundredth of a second.
    expect(Math.abs(8 + again.speedChangeS(8) - byHand)).toBeLessThan(0.012);
    const [d1, d2] = [(15 * 15) / 6.4, 15 * 0.5 + 0.1 * 0.25];
    const measuredM = 37.5 + 7.5 + 15 * 2.5 + 6.25;
    const rest = measuredM - d1 - d2;
    const thenS = (Math.sqrt(15.1 * 15.1 + 2 * 2.2 * rest) - 15.1) / 2.2;
    expect(Math.abs(8 + again.distanceChangeS(8) - (15 / 3.2 + 0.5 + thenS))).toBeLessThan(0.012);
  });

  it('never reaches a speed that only the day’s help took the car to', () => {
    const timeS = Float64Array.from({ length: 601 }, (_, i) => i / 10);
    const pull = readingsToPull(
      timeS,
      timeS.map(t => 40 * (1 - Math.exp(-t / 12))),
      0,
    );
    const again = replay(pull, new Float64Array(timeS.length).fill(-0.3));
    expect(Number.isFinite(again.speedChangeS(10))).toBe(true);
    // 40/12 exp(−t/12) falls below 0.3 m/s² after 28.9 s.
    expect(again.speedChangeS(40)).toBeNaN();
    expect(again.distanceChangeS(40)).toBeNaN();
  });
});
