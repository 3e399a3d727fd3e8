import { EUROPEAN_COAST_DOWN } from '../../pipeline/conditions/limits.ts';
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
});
