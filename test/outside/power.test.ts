import { dryPressurePa } from '../../pipeline/conditions/air.ts';
import {
  type DieselCharging,
  dieselAtmosphericFactor,
  dieselEngineFactor,
  din70020,
  iso1585Diesel,
  iso1585SparkIgnition,
  saeJ1349SparkIgnition,
} from '../../pipeline/conditions/power-correction.ts';
import { celsiusToKelvin, hpaToPa } from '../../pipeline/units.ts';
import { type CheckValue, describeCheckValues, expectWithin } from './check-values.ts';

const airOf = ({ ps_kpa, T_k }: { ps_kpa: number; T_k: number }) => ({
  temperatureK: T_k,
  dryPressurePa: ps_kpa * 1000,
});

const sparkIgnition = (entry: CheckValue): void => {
  const correction = iso1585SparkIgnition(airOf(entry.inputs));
  expectWithin(correction.allowed ? correction.factor : Number.NaN, entry);
};

const j1349 = (entry: CheckValue): void => {
  const correction = saeJ1349SparkIgnition({
    temperatureK: celsiusToKelvin(entry.inputs.t_c),
    dryPressurePa: entry.inputs.pd_kpa * 1000,
  });
  expectWithin(correction.allowed ? correction.factor : Number.NaN, entry);
};

const diesel =
  (charging: DieselCharging, exponent?: 1.2 | 1.5) =>
  (entry: CheckValue): void => {
    const air = airOf(entry.inputs);
    const correction = iso1585Diesel(air, charging, entry.inputs.qc, exponent);
    expectWithin(
      {
        fa: dieselAtmosphericFactor(air, charging, exponent),
        factor: correction.allowed ? correction.factor : Number.NaN,
        ...('fm' in entry.expected ? { fm: dieselEngineFactor(entry.inputs.qc) } : {}),
      },
      entry,
    );
  };

describeCheckValues('power correction', {
  'power.iso1585.99-298': sparkIgnition,
  'power.iso1585.95-303': sparkIgnition,
  'power.iso1585.97-308': sparkIgnition,
  'power.iso1585.reject-T': entry => {
    const correction = iso1585SparkIgnition(airOf(entry.inputs));
    expectWithin({ factor: correction.factor, valid: correction.allowed }, entry);
  },
  'power.iso1585.moist': entry => {
    const { p_kpa, t_c, rh } = entry.inputs;
    const dry = dryPressurePa(
      { temperatureK: celsiusToKelvin(t_c), pressurePa: p_kpa * 1000, relativeHumidity: rh },
      'magnus-wmo',
    );
    // The entry's worked example puts 303 K, not 303.15 K, into the factor.
    const correction = iso1585SparkIgnition({ temperatureK: 303, dryPressurePa: dry });
    expectWithin({ dry_kpa: dry / 1000, factor: correction.allowed ? correction.factor : Number.NaN }, entry);
  },
  'power.saej1349.95-30': j1349,
  'power.saej1349.100-10': j1349,
  'power.din70020.950-30': entry =>
    expectWithin(din70020(celsiusToKelvin(entry.inputs.t_c), hpaToPa(entry.inputs.p_hpa)), entry),
  'power.diesel.na': diesel('none'),
  'power.diesel.turbo-1.2': diesel('turbo'),
  'power.diesel.turbo-1.5': diesel('turbo', 1.5),
  'power.diesel.fm-ends': entry =>
    expectWithin(
      { 40: dieselEngineFactor(40), 65: dieselEngineFactor(65), 37.2: dieselEngineFactor(37.2) },
      entry,
    ),
});
