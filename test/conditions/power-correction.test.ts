import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import {
  defaultPowerCorrection,
  dieselAtmosphericFactor,
  dieselEngineFactor,
  iso1585Diesel,
  iso1585SparkIgnition,
  saeJ1349SparkIgnition,
} from '../../pipeline/conditions/power-correction.ts';

const kpa = (dry: number, temperatureK: number) => ({ dryPressurePa: dry * 1000, temperatureK });

describe('power correction', () => {
  it('is refused outside the temperatures of the standard although the factor is inside', () => {
    expect(iso1585SparkIgnition(kpa(100, 283))).toMatchObject({ allowed: false, refused: 'temperature' });
    expect(iso1585SparkIgnition(kpa(100, 288)).allowed).toBe(true);
    expect(iso1585SparkIgnition(kpa(96, 308)).allowed).toBe(true);
    expect(iso1585SparkIgnition(kpa(96, 308.1))).toMatchObject({ allowed: false, refused: 'temperature' });
  });

  it('is refused outside the pressures and outside the factors, each with its reason', () => {
    expect(iso1585SparkIgnition(kpa(79.9, 298))).toMatchObject({ allowed: false, refused: 'pressure' });
    expect(iso1585SparkIgnition(kpa(90, 298))).toMatchObject({ allowed: false, refused: 'factor' });
    expect(saeJ1349SparkIgnition(kpa(90, 298))).toMatchObject({ allowed: false, refused: 'factor' });
    expect(iso1585Diesel(kpa(80, 298), 'none', 65)).toMatchObject({ allowed: false, refused: 'factor' });
    expect(iso1585Diesel(kpa(99, 282), 'none', 50)).toMatchObject({ allowed: false, refused: 'temperature' });
    const refusal = iso1585SparkIgnition(kpa(100, 283));
    expect(refusal.allowed ? '' : refusal.reason).toBe(
      'ISO 1585 for spark ignition stands for 288 to 308 K, not for 283 K',
    );
  });

  it('of a diesel is refused just outside 0.9 to 1.1', () => {
    // 99/pd to the power of 1.2 at 298 K: 1.0991 at 91.5 kPa, 1.1006 at 91.4; 0.9009 at 108 kPa, 0.8909 at 109.
    expect(iso1585Diesel(kpa(91.5, 298), 'none', 80).allowed).toBe(true);
    expect(iso1585Diesel(kpa(91.4, 298), 'none', 80)).toMatchObject({ allowed: false, refused: 'factor' });
    expect(iso1585Diesel(kpa(108, 298), 'none', 80).allowed).toBe(true);
    expect(iso1585Diesel(kpa(109, 298), 'none', 80)).toMatchObject({ allowed: false, refused: 'factor' });
  });

  // At 99 kPa only temperature counts: (308/298)^0.7 = 1.023373, (308/298)^1.2 = 1.040402.
  it('of a turbo diesel with liquid-cooled charge goes less with temperature', () => {
    const fa = (308 / 298) ** 0.7;
    expect(fa).toBeCloseTo(1.0234, 4);
    expect(dieselAtmosphericFactor(kpa(99, 308), 'turbo-liquid-cooled')).toBeCloseTo(fa, 12);
    expect(dieselAtmosphericFactor(kpa(99, 308), 'mechanical')).toBeCloseTo(fa, 12);
    expect(dieselAtmosphericFactor(kpa(99, 308), 'turbo')).toBeCloseTo(1.0404, 4);
  });

  it('changes nothing at the reference air', () => {
    expect(iso1585SparkIgnition(kpa(99, 298))).toEqual({ allowed: true, factor: 1 });
    expect(iso1585Diesel(kpa(99, 298), 'turbo', 50)).toEqual({ allowed: true, factor: 1 });
    expect(saeJ1349SparkIgnition(kpa(99, 298.15))).toMatchObject({ allowed: true });
  });

  it('raises power measured in thin or hot air, where it is allowed', () => {
    fc.assert(
      fc.property(
        fc.double({ min: 95, max: 99, noNaN: true }),
        fc.double({ min: 298, max: 305, noNaN: true }),
        (p, T) => {
          const correction = iso1585SparkIgnition(kpa(p, T));
          if (correction.allowed) expect(correction.factor).toBeGreaterThanOrEqual(1);
          expect(correction.factor).toBeDefined();
        },
      ),
    );
  });

  it('has an engine factor of a diesel that stays at its ends', () => {
    expect(dieselEngineFactor(10)).toBe(0.2);
    expect(dieselEngineFactor(80)).toBe(1.2);
  });

  it('is by default made for petrol engines without boost only', () => {
    const air = kpa(97, 300);
    expect(defaultPowerCorrection('petrol', air)).toEqual(iso1585SparkIgnition(air));
    for (const drive of ['electric', 'petrol-boosted', 'diesel', 'diesel-boosted'] as const) {
      const correction = defaultPowerCorrection(drive, air);
      expect(correction).toMatchObject({ allowed: false, refused: 'engine' });
      expect(correction).not.toHaveProperty('factor');
    }
  });
});
