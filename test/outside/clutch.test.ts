import { expect } from 'vitest';
import type { Log } from '../../pipeline/log/log.ts';
import { launchCare, TURNING_SHARE } from '../../pipeline/measurement/launch-care.ts';
import { heldLaunchSlip, kineticEnergyJ } from '../../pipeline/measurement/launch-slip.ts';
import { measureLog } from '../../pipeline/measurement/measure.ts';
import { rotatingMassFactor } from '../../pipeline/road/road-load.ts';
import { type CheckValue, describeCheckValues, expectWithin } from './check-values.ts';

/** As the entry says in words: 3000 rpm, 200 N·m, ratio 12, radius 0.3 m, 1500 kg, no load. */
const HELD = { engineRpm: 3000, torqueNm: 200, overallRatio: 12, wheelRadiusM: 0.3, massKg: 1500 };
/** The handbook factor without an engine behind it is the share of what turns with the wheels. */
const wheelsOnly = (entry: CheckValue): void =>
  expectWithin(1 + TURNING_SHARE + 0.0025 * entry.inputs.i ** 2, entry);

/** A log of that launch: held until the clutch closes, then the same force up to 25 m/s, then coasting. */
function heldLog(rateHz: number, massKg: number): Log {
  const { syncMps } = heldLaunchSlip(HELD);
  const mps2 = (HELD.torqueNm * HELD.overallRatio) / HELD.wheelRadiusM / massKg;
  const timeS = Float64Array.from({ length: 45 * rateHz }, (_, k) => k / rateHz);
  const topS = 6 + 25 / mps2;
  const speedMps = timeS.map(t =>
    t < topS ? Math.max(0, mps2 * (t - 6)) : Math.max(0, 25 - 1.2 * (t - topS)),
  );
  return {
    file: 'held.csv',
    format: 'csv',
    timeS,
    speedMps,
    speedSource: 'recorded',
    line: Uint32Array.from(timeS, (_, k) => k + 2),
    channels: {
      engineSpeedRpm: timeS.map((t, k) =>
        t < 6 - 1e-9 ? 900 : HELD.engineRpm * Math.max(1, speedMps[k]! / syncMps),
      ),
    },
    warnings: [],
  };
}

describeCheckValues('a slipping clutch', {
  'dyn.clutch': entry => {
    const { syncMps, slipS, heatJ } = heldLaunchSlip(HELD);
    expectWithin({ vs: syncMps, ts: slipS, E: heatJ }, entry);
    // What the entry says of itself: all of it is the kinetic energy at the end of the slip.
    expectWithin({ E: kineticEnergyJ(HELD.massKg, syncMps) }, entry);
    // The same launch as a log, through the whole chain: 1 % for the readings between which it begins and ends.
    for (const rateHz of [10, 25, 100]) {
      const { trace, measurements } = measureLog(heldLog(rateHz, HELD.massKg));
      const [launch] = launchCare(
        [{ number: 1, at: '10:00:06', log: 'held.csv', trace, measurement: measurements[0]! }],
        { massKg: HELD.massKg / (1 + TURNING_SHARE), coupling: 'clutch' },
      ).launches;
      expect(launch!.heat!.by).toBe('engine-speed');
      expectWithin({ E: launch!.heat!.fromJ }, entry, { rel: 0.01 });
    }
  },
  'dyn.massfactor.1': wheelsOnly,
  'dyn.massfactor.12': entry => {
    wheelsOnly(entry);
    expectWithin(rotatingMassFactor(12), entry);
  },
});
