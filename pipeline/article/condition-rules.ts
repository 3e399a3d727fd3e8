/** How air, wind and slope are dealt with, and what a restated figure is: rules with the constants the code uses. */
import { CIPM_2007_RANGE } from '../conditions/air.ts';
import { DEFAULT_UNCERTAINTY, RESTATE_LIMITS } from '../conditions/circumstances.ts';
import { EUROPEAN_COAST_DOWN } from '../conditions/limits.ts';
import { REFERENCE_AIR, REFERENCE_DENSITY_KGM3 } from '../conditions/reference.ts';
import { ROTATING_UNCERTAINTY } from '../conditions/rotating-mass.ts';
import { twoWayDragRatio } from '../conditions/wind.ts';
import type { Method } from '../measurement/methods.ts';
import { WEIGHED_MASS, WIND_SHARE, WORKED_OUT_MASS } from '../result/restate-attempt.ts';
import { kelvinToCelsius, kmhToMps, paToHpa } from '../units.ts';

export type ConditionRuleId =
  | 'reading-of-conditions'
  | 'air'
  | 'wind'
  | 'slope'
  | 'two-directions'
  | 'reference'
  | 'restated'
  | 'power'
  | 'weather-limits';

/** Speed at which the two-way example is worked out, km/h. */
const EXAMPLE_KMH = 100;
/** Without the conversion's last bits. */
const celsius = (kelvin: number): number => Number(kelvinToCelsius(kelvin).toPrecision(10));
const percent = (share: number): number => Number((100 * share).toPrecision(10));

/** Every rule of this kind, in the order a reader meets them. */
export const CONDITION_RULES: Readonly<Record<ConditionRuleId, Method>> = {
  'reading-of-conditions': {
    name: 'Which reading counts',
    rule:
      'Air, wind and surface of an attempt are those of the last reading before it; before the first reading, the ' +
      'first. Readings are never averaged or drawn out between two. What was not read is said to be not read, and ' +
      'nothing is worked out from it.',
    constants: [],
    source: 'Our own rule',
  },
  air: {
    name: 'Air density',
    rule:
      'From temperature, pressure at the road and relative humidity by CIPM-2007 within its range; outside it as a ' +
      'mixture of two ideal gases with the vapour pressure of Buck. Each test says which of them it was.',
    constants: [
      {
        what: 'CIPM-2007 stands for temperatures of',
        values: [celsius(CIPM_2007_RANGE.lowestK), celsius(CIPM_2007_RANGE.highestK)],
        unit: '°C',
      },
      {
        what: 'and pressures of',
        values: [paToHpa(CIPM_2007_RANGE.lowestPa), paToHpa(CIPM_2007_RANGE.highestPa)],
        unit: 'hPa',
      },
    ],
    source:
      'Picard, Davis, Gläser and Fujii, Metrologia 45 (2008) 149–155; Buck Research CR-1A manual, appendix 1 (1996)',
  },
  wind: {
    name: 'Wind along and across the car',
    rule:
      'The mean wind is taken apart by the angle between where it comes from and where the car goes. Along the car it ' +
      'is positive against it: a headwind. Gusts are written down, and are part of no figure.',
    constants: [],
    source: 'Trigonometry',
  },
  slope: {
    name: 'Slope',
    rule:
      'The mean rise of the road in the car’s direction, as its file states it, otherwise from the ends of its survey. ' +
      'Positive is uphill.',
    constants: [],
    source: 'Our own rule',
  },
  'two-directions': {
    name: 'Two directions',
    rule:
      'The mean of two opposite runs cancels the slope of the road: what it takes one way it gives the other. It does ' +
      'not cancel wind. Drag grows with the square of the air’s speed past the car, so that wind costs more one way ' +
      'than it gives back the other: the mean drag of the two is 1 + (w/v)² times that in still air.',
    constants: [
      {
        what: `that mean at ${EXAMPLE_KMH} km/h with a wind of ${EUROPEAN_COAST_DOWN.meanWindMps} m/s along the road`,
        values: [
          Number(twoWayDragRatio(kmhToMps(EXAMPLE_KMH), EUROPEAN_COAST_DOWN.meanWindMps).toPrecision(4)),
        ],
        unit: '',
      },
    ],
    source: 'Closed form of drag as the square of speed',
  },
  reference: {
    name: 'Reference road and air',
    rule: 'A restated figure is for a level road in still, dry air.',
    constants: [
      { what: 'temperature', values: [celsius(REFERENCE_AIR.temperatureK)], unit: '°C' },
      { what: 'pressure', values: [paToHpa(REFERENCE_AIR.pressurePa)], unit: 'hPa' },
      {
        what: 'density of that air',
        values: [Number(REFERENCE_DENSITY_KGM3.toPrecision(5))],
        unit: 'kg/m³',
      },
    ],
    source: EUROPEAN_COAST_DOWN.source,
  },
  restated: {
    name: 'Restated figures',
    rule:
      'The measured run is worked out once more for the reference road and air: at each instant the difference of slope, ' +
      'wind and density changes the car’s acceleration by the difference of its resistance over its mass, and the run ' +
      'is integrated anew. Only differences are used, so that most of what is not known of the car cancels. What each ' +
      'condition changed is told, and the parts add up to the whole. The measured figure stands unaltered beside it. ' +
      'Where a fact is missing, or beyond the limits below, nothing is restated.',
    constants: [
      {
        what: 'not restated with more wind along the run than',
        values: [RESTATE_LIMITS.headwindMps],
        unit: 'm/s',
      },
      { what: 'nor with more slope over 50 m than', values: [percent(RESTATE_LIMITS.slope)], unit: '%' },
      {
        what: 'nor with a density further from the reference than',
        values: [percent(RESTATE_LIMITS.densityShare)],
        unit: '%',
      },
      { what: 'standard uncertainty of a mass that was weighed', values: [percent(WEIGHED_MASS)], unit: '%' },
      { what: 'of a mass that was worked out', values: [percent(WORKED_OUT_MASS)], unit: '%' },
      { what: 'of the drag area', values: [percent(DEFAULT_UNCERTAINTY.dragArea)], unit: '%' },
      { what: 'of the wind along the run', values: [DEFAULT_UNCERTAINTY.headwindMps], unit: 'm/s' },
      { what: 'and this share of the wind, together', values: [percent(WIND_SHARE)], unit: '%' },
      { what: 'of the slope, of distance', values: [percent(DEFAULT_UNCERTAINTY.slope)], unit: '%' },
      { what: 'of the air density', values: [percent(DEFAULT_UNCERTAINTY.density)], unit: '%' },
      { what: 'of what turns with the engine', values: [percent(ROTATING_UNCERTAINTY)], unit: '%' },
    ],
    source: 'Our own; shares of each condition after Shapley (1953)',
  },
  power: {
    name: 'Engine power',
    rule:
      'A correction for air is made only where a standard allows one, and only within that standard’s own limits. ' +
      'A time is never multiplied by it: it changes the force that the restated run is worked out with.',
    constants: [],
    source: 'ISO 1585, as makers’ manuals quote it',
  },
  'weather-limits': {
    name: 'Published limits of weather',
    rule:
      'Rules for coasting tests say in what weather a car may be measured at all. We take their mean wind and their ' +
      'departure of density as limits for setting two tests against each other; the others stand here for the reader.',
    constants: [
      { what: 'mean wind', values: [EUROPEAN_COAST_DOWN.meanWindMps], unit: 'm/s' },
      { what: 'gusts', values: [EUROPEAN_COAST_DOWN.gustMps], unit: 'm/s' },
      { what: 'wind across the road', values: [EUROPEAN_COAST_DOWN.crosswindMps], unit: 'm/s' },
      {
        what: 'departure of density from the reference',
        values: [percent(EUROPEAN_COAST_DOWN.densityShare)],
        unit: '%',
      },
    ],
    source: EUROPEAN_COAST_DOWN.source,
  },
};
