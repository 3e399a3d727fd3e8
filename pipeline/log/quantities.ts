/** What the columns of a log can hold, and by which words each is known. */
import type { ChannelName } from './samples.ts';
import type { Dimension, HeaderCell } from './written-unit.ts';

export interface Quantity {
  /** The word on the left of `--column WORD=NAME:unit` and in a test.yaml. */
  readonly word: string;
  readonly channel: ChannelName;
  readonly dimension: Dimension;
  /** Whether a column without a unit is taken in the dimension's own (°, m, r/min, %) or left alone. */
  readonly unitNeeded: boolean;
  readonly names: RegExp;
}

const quantity = (
  word: string,
  channel: ChannelName,
  dimension: Dimension,
  names: RegExp,
  unitNeeded = false,
): Quantity => ({ word, channel, dimension, names, unitNeeded });

/** Columns kept besides time and speed, in the order they are looked for. */
export const QUANTITIES: readonly Quantity[] = [
  quantity('latitude', 'latitudeDeg', 'angle', /^((gps|gnss|position) )?lat(itude)?$/),
  quantity('longitude', 'longitudeDeg', 'angle', /^((gps|gnss|position) )?(lon|long|lng|longitude)$/),
  quantity('easting', 'eastingM', 'length', /\beasting\b|^utm e$/),
  quantity('northing', 'northingM', 'length', /\bnorthing\b|^utm n$/),
  quantity('altitude', 'altitudeM', 'length', /^((gps|gnss) )?(alt|altitude|ele|elevation|height|höhe)$/),
  quantity('heading', 'headingDeg', 'angle', /\b(heading|course|cog|bearing|hdg)\b/),
  quantity('satellites', 'satellites', 'none', /\b(sats?|satellites|nsats?|numsv|num sv)\b/),
  quantity('hdop', 'hdop', 'none', /\bhdop\b/),
  quantity(
    'speed-accuracy',
    'speedAccuracyMps',
    'speed',
    /^sacc$|\b(speed|vel|velocity|s)\b.*\b(accuracy|acc|error|sigma|std|sd|uncertainty)\b/,
    true,
  ),
  quantity('engine-speed', 'engineSpeedRpm', 'engine-speed', /\brpm\b|\bengine (speed|revs?)\b/),
  quantity('throttle', 'throttlePct', 'share', /\bthrottle\b/),
  quantity(
    'longitudinal-acceleration',
    'longitudinalMps2',
    'acceleration',
    /\b(lon|long|longitudinal)\b.*\b(acc|accel|acceleration)\b|^(ax|a x|acc x|accel x|acceleration x)$/,
    true,
  ),
];

/** Every word a declared column may have. */
export const QUANTITY_WORDS: readonly string[] = ['time', 'speed', ...QUANTITIES.map(({ word }) => word)];

const TIME =
  /\b(time|t|timestamp|datetime|elapsed|utc|clock|seconds|secs|zeit|uhrzeit|temps|tiempo|tempo|tijd|tid)\b/;
const NOT_TIME = /\b(zone|offset|delay|ago|response|lap)\b/;

/**
 * How well a column would do as the time, 0 the best: seconds or their parts by name and unit, then a name
 * alone (a clock, or a number whose unit must be found), then a unit alone, then a date. Undefined if none.
 */
export function timeRank({ words, unit }: HeaderCell): number | undefined {
  if (NOT_TIME.test(words) || (unit && unit.dimension !== 'time')) return undefined;
  if (TIME.test(words)) return unit ? 0 : 1;
  if (unit) return 2;
  return /\b(date|datum)\b/.test(words) ? 3 : undefined;
}

const SPEED =
  /\b(speed|velocity|vel|v|sog|speedometer|geschwindigkeit|vitesse|velocidad|velocità|snelheid|hastighet)\b/;
const NOT_SPEED =
  /\b(engine|motor|wind|air|fan|turbo|turbine|limit|target|set|cruise|vertical|climb|up|down|north|east|accuracy|acc|error|std|sd|sigma|uncertainty|avg|average|mean|max|min|rpm)\b/;
const SATELLITE = /\b(gps|gnss|sat|satellite|ground|sog|doppler)\b/;
const VEHICLE = /\b(wheels?|obd|can|ecu|bus|sensor|vehicle|dash|speedometer)\b/;

/**
 * How well a column would do as the speed over ground, 0 the best: a satellite receiver's, then a plain
 * "speed", then the vehicle's own (wheels turn faster than the car moves when they slip, and most
 * speedometers read high), then a unit of speed under another name. Undefined if none.
 */
export function speedRank({ words, unit }: HeaderCell): number | undefined {
  if (NOT_SPEED.test(words) || (unit && unit.dimension !== 'speed')) return undefined;
  if (!SPEED.test(words)) return unit ? SPEED_BY_UNIT : undefined;
  if (SATELLITE.test(words)) return 0;
  return VEHICLE.test(words) ? 2 : 1;
}

/** Rank of a column that only its unit makes a speed. */
export const SPEED_BY_UNIT = 3;
