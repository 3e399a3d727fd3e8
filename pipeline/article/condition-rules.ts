/** How air, wind and slope are dealt with, and what a restated figure is: rules with the constants the code uses. */
import { CIPM_2007_RANGE } from '../conditions/air.ts';
import { DEFAULT_UNCERTAINTY, RESTATE_LIMITS } from '../conditions/circumstances.ts';
import {
  COAST_WHEEL_SHARE,
  COASTING,
  FEWEST_EACH_WAY,
  NARROWEST_RATIO,
  WORST_DRAG_AREA,
} from '../conditions/coast-down.ts';
import { EUROPEAN_COAST_DOWN } from '../conditions/limits.ts';
import { BIN_M, FEWEST_PASSES } from '../conditions/logged-slope.ts';
import { REFERENCE_AIR, REFERENCE_DENSITY_KGM3 } from '../conditions/reference.ts';
import { ROTATING_UNCERTAINTY } from '../conditions/rotating-mass.ts';
import { twoWayDragRatio } from '../conditions/wind.ts';
import type { Method } from '../measurement/methods.ts';
import { WEIGHED_MASS, WIND_SHARE, WORKED_OUT_MASS } from '../result/restate-attempt.ts';
import { kelvinToCelsius, kmhToMps, mpsToKmh, paToHpa } from '../units.ts';

export type ConditionRuleId =
  | 'reading-of-conditions'
  | 'air'
  | 'wind'
  | 'slope'
  | 'logged-slope'
  | 'road-in-budget'
  | 'coasting'
  | 'two-directions'
  | 'reference'
  | 'restated'
  | 'power'
  | 'weather-limits';

/** Speed at which the two-way example is worked out, km/h. */
const EXAMPLE_KMH = 100;
/** Without the conversion's last bits. */
const celsius = (kelvin: number): number => Number(kelvinToCelsius(kelvin).toPrecision(10));
const kmh = (speedMps: number): number => Number(mpsToKmh(speedMps).toPrecision(10));
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
      'The mean rise of the road in the car’s direction, as its file states it, otherwise from the ends of its survey or, ' +
      'where there is none, from logs. ' +
      'Positive is uphill.',
    constants: [],
    source: 'Our own rule',
  },
  'logged-slope': {
    name: 'Slope from logs',
    rule:
      'Where a road was not levelled and its file says so, its mean slope is taken from the altitude that a test’s own ' +
      'logs hold. One drive says little, for satellite altitude wanders by a metre within minutes; so the mean of many ' +
      'drives over the same stretch is taken, either way, and their scatter over the root of their number is its standard ' +
      'uncertainty. The page of the test says that the slope was logged, on how many drives and over what length.',
    constants: [
      { what: 'fewest drives over the same stretch', values: [FEWEST_PASSES], unit: '' },
      { what: 'altitude is averaged over', values: [BIN_M], unit: 'm' },
    ],
    source: 'Our own; JCGM 100:2008, 4.2.3',
  },
  'road-in-budget': {
    name: 'The road in the uncertainty',
    rule:
      'A measured figure is that of this car on this road on this day: the slope of the road belongs to what was measured, ' +
      'as wind and air do, and so it is no item of the measured figure’s uncertainty, however uncertain it is. (That a ' +
      'receiver’s speed is level and the car’s is along the slope is half the square of the slope: at the steepest ' +
      'that is restated, the share below.) A restated figure is for a level road; what is not known of the slope belongs ' +
      'to that one, and its budget has an item for it, in the workings of each attempt. The item is the restated time with ' +
      'the slope moved by its standard uncertainty: of levelling, or of the logged slope, and of how far stretches of the ' +
      'road differ, since where along it a run began is not written down.',
    constants: [
      {
        what: 'of a time or a distance, by level and not by sloping speed, at most',
        values: [percent(RESTATE_LIMITS.slope ** 2 / 2)],
        unit: '%',
      },
      {
        what: 'standard uncertainty of a levelled slope, of distance',
        values: [percent(DEFAULT_UNCERTAINTY.slope)],
        unit: '%',
      },
    ],
    source: 'JCGM 100:2008, D.1 and 5.1',
  },
  coasting: {
    name: 'Drag and rolling resistance by coasting',
    rule:
      'Where a log was taken coasting out of gear, both ways along the road, drag area and rolling resistance are worked out ' +
      'from it and shown beside those stated for the car. Speed is set against the integrals of time, of speed and of its ' +
      'square, so that nothing is differentiated; wind and slope are told by the two ways differing. A road that steepens ' +
      'along its length looks like drag both ways: what that may come to is part of the uncertainty, beside the spread when ' +
      'each coast-down is left out in turn. Restated figures use the result only where the test says so.',
    constants: [
      { what: 'a coast-down lasts at least', values: [COASTING.shortestS], unit: 's' },
      { what: 'loses at least', values: [kmh(COASTING.smallestLossMps)], unit: 'km/h' },
      { what: 'and is followed down to', values: [kmh(COASTING.slowestMps)], unit: 'km/h' },
      { what: 'fewest each way', values: [FEWEST_EACH_WAY], unit: '' },
      { what: 'highest speed over lowest, at least', values: [NARROWEST_RATIO], unit: '' },
      {
        what: 'nothing is told where the drag area is known worse than',
        values: [percent(WORST_DRAG_AREA)],
        unit: '%',
      },
      { what: 'share of turning wheels in the mass', values: [percent(COAST_WHEEL_SHARE)], unit: '%' },
    ],
    source: 'Equation of motion; leaving one out after Tukey (1958)',
  },
  'two-directions': {
    name: 'Two directions',
    rule:
      'The mean of two opposite runs cancels the slope of the road: what it takes one way it gives the other. It does ' +
      'not cancel wind. Drag grows with the square of the air’s speed past the car, so that wind costs more one way ' +
      'than it gives back the other: the mean drag of the two is 1 + (w/v)² times that in still air.',
    constants: [
      {
        what: 'that mean at a speed v of',
        values: [EXAMPLE_KMH],
        unit: 'km/h',
      },
      { what: 'with a wind w along the road of', values: [EUROPEAN_COAST_DOWN.meanWindMps], unit: 'm/s' },
      {
        what: 'comes to',
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
