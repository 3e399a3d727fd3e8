/** Cars that move before they are launched: in closed form, with noise, at every rate. */
import { describe, expect, it } from 'vitest';
import { measureLog } from '../../pipeline/measurement/measure.ts';
import { randomFromSeed } from '../simulate/random.ts';
import { AT_S, motionToLog, readingsToLog } from './trajectories.ts';

const RAMP_S = 0.3;
const NOISE_MPS = 0.015;
const launch = (s: number): number =>
  s <= 0 ? 0 : 5 * (s < RAMP_S ? (s * s) / (2 * RAMP_S) : s - RAMP_S / 2);

/** Leaves rest at 4 s and creeps at 0.5 m/s for 2 s; launched at `AT_S` + 2 s. */
const LAUNCHED_S = AT_S + 2;
const crept = (t: number): number =>
  t < AT_S ? 0 : Math.min(0.5, (t - AT_S) * 1.5) + launch(t - LAUNCHED_S);
/** Rolls back a little a second before it is launched, and rests again. */
const rolled = (t: number): number =>
  launch(t - AT_S) +
  (t > AT_S - 1.2 && t < AT_S - 0.4 ? 0.5 * Math.sin(((t - AT_S + 1.2) / 0.8) * Math.PI) : 0);

const measured = (motion: (t: number) => number, rateHz: number) => {
  const random = randomFromSeed(rateHz);
  const clean = motionToLog(motion, { rateHz, lastsS: 20 });
  const noisy = clean.speedMps.map(value => Math.abs(value + NOISE_MPS * random.normal()));
  const { measurements } = measureLog(readingsToLog(clean.timeS, noisy));
  expect(measurements).toHaveLength(1);
  return measurements[0]!;
};
const RATES_HZ = [10, 25, 100];

describe('a car that moves before its start', () => {
  it.each(RATES_HZ)('creeping is timed from its launch, and flagged, at %d Hz', rateHz => {
    const { start, flags } = measured(crept, rateHz);
    expect(flags.map(({ code }) => code)).toContain('creep');
    expect(Math.abs(start!.firstMovementS - LAUNCHED_S)).toBeLessThan(start!.uncertaintyS);
    // Creep and launch together cover the first foot when their integral does.
    let s = 0;
    for (let m = 0; m < 0.3048; s += 1e-4) m += (0.5 + launch(s)) * 1e-4;
    expect(Math.abs(start!.firstMovementS + start!.rolloutS - LAUNCHED_S - s)).toBeLessThan(0.06);
  });

  it.each(RATES_HZ)('rolling a little is timed from the rest after it, and flagged, at %d Hz', rateHz => {
    const { start, flags } = measured(rolled, rateHz);
    expect(flags.map(({ code }) => code)).toContain('rolled-back');
    expect(Math.abs(start!.firstMovementS - AT_S)).toBeLessThan(start!.uncertaintyS);
  });

  it.each(RATES_HZ)('leaving rest as it should is not flagged at %d Hz', rateHz => {
    const { flags } = measured(t => launch(t - AT_S), rateHz);
    // So short a log may say that it cannot show a filter.
    expect(flags.filter(({ code }) => code !== 'brief-rest')).toEqual([]);
  });
});
