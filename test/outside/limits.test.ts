import { AMERICAN_HEAVY_COAST_DOWN, EUROPEAN_COAST_DOWN } from '../../pipeline/conditions/limits.ts';
import { mpsToMph } from '../../pipeline/units.ts';
import { describeCheckValues, expectWithin } from './check-values.ts';

describeCheckValues('weather limits', {
  'limits.coastdown-eu': entry =>
    expectWithin(
      {
        mean: EUROPEAN_COAST_DOWN.meanWindMps,
        gust: EUROPEAN_COAST_DOWN.gustMps,
        cross: EUROPEAN_COAST_DOWN.crosswindMps,
        density_pct: EUROPEAN_COAST_DOWN.densityShare * 100,
        p_kpa: EUROPEAN_COAST_DOWN.pressurePa / 1000,
        T_k: EUROPEAN_COAST_DOWN.temperatureK,
        height_m: EUROPEAN_COAST_DOWN.anemometerHeightM,
      },
      entry,
    ),
  'limits.coastdown-us-heavy': entry =>
    expectWithin(
      {
        runs: AMERICAN_HEAVY_COAST_DOWN.runs,
        per_direction: AMERICAN_HEAVY_COAST_DOWN.runsEachWay,
        wind_mph: mpsToMph(AMERICAN_HEAVY_COAST_DOWN.windMps),
        grade_pct: AMERICAN_HEAVY_COAST_DOWN.modelledSlope * 100,
      },
      entry,
      // Miles per hour and percent come back from SI with their last bits changed.
      { abs: 1e-12 },
    ),
});
