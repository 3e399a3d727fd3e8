/** Units as people write them in the header of a log, and what each is in SI. */
import { FOOT_M, KNOT_MPS, MPH_MPS, radToDeg, STANDARD_GRAVITY_MPS2 } from '../units.ts';

export type Dimension =
  | 'time'
  | 'speed'
  | 'acceleration'
  | 'length'
  | 'angle'
  | 'engine-speed'
  | 'share'
  | 'none';

export interface WrittenUnit {
  readonly dimension: Dimension;
  /** The short way to write it, as in `--column speed=NAME:km/h`. */
  readonly symbol: string;
  /** SI value of one; the engine speed stays in r/min, angles in degrees, shares in per cent. */
  readonly factor: number;
}

const unit = (dimension: Dimension, symbol: string, factor: number, ...others: string[]) =>
  [{ dimension, symbol, factor }, [symbol, ...others]] as const;

const UNITS: readonly (readonly [WrittenUnit, readonly string[]])[] = [
  unit('time', 's', 1, 'sec', 'secs', 'second', 'seconds', 'sek', 'sekunden'),
  unit('time', 'ms', 1e-3, 'msec', 'msecs', 'millis', 'millisecond', 'milliseconds'),
  unit('time', 'us', 1e-6, 'µs', 'μs', 'usec', 'micros', 'microseconds'),
  unit('time', 'ns', 1e-9, 'nsec', 'nanos', 'nanoseconds'),
  unit('time', 'min', 60, 'minutes'),
  // Digits of a clock run together, as in NMEA sentences; read as a time of day, so the factor is not used.
  unit('time', 'hhmmss', 1, 'hhmmss.s', 'hhmmss.ss', 'hhmmss.sss'),
  unit('speed', 'km/h', 1 / 3.6, 'kmh', 'kph', 'kmph', 'km/hr', 'km h', 'km·h⁻¹', 'km h-1', 'km h^-1'),
  unit('speed', 'm/s', 1, 'mps', 'm/sec', 'm s-1', 'm s^-1', 'm·s⁻¹', 'm s⁻¹', 'meters/s', 'metres/s'),
  unit('speed', 'mph', MPH_MPS, 'mi/h', 'miles/h'),
  unit('speed', 'kn', KNOT_MPS, 'kt', 'kts', 'knot', 'knots'),
  unit('speed', 'ft/s', FOOT_M, 'fps'),
  unit('acceleration', 'm/s²', 1, 'm/s2', 'm/s^2', 'mps2', 'm/s/s', 'm s-2', 'm·s⁻²'),
  unit('acceleration', 'g', STANDARD_GRAVITY_MPS2, 'gn', 'gee'),
  unit('length', 'm', 1, 'meter', 'meters', 'metre', 'metres'),
  unit('length', 'ft', FOOT_M, 'feet'),
  unit('angle', 'deg', 1, '°', 'degree', 'degrees', 'grad'),
  unit('angle', 'rad', radToDeg(1), 'radians'),
  unit('engine-speed', 'rpm', 1, '1/min', 'r/min', 'min-1', 'min⁻¹', '/min', 'u/min', 'rev/min'),
  unit('share', '%', 1, 'pct', 'percent', 'per cent'),
];

const BY_NAME: ReadonlyMap<string, WrittenUnit> = new Map(
  UNITS.flatMap(([written, names]) => names.map(name => [name, written] as const)),
);

/** Every way of writing a unit, the longest first, so that `km/h` is found before `h` could be. */
const NAMES: readonly string[] = [...BY_NAME.keys()].sort((a, b) => b.length - a.length);

/** The unit a text names by itself, such as `km/h` or `Seconds`; undefined if it is none. */
export function unitOf(text: string): WrittenUnit | undefined {
  const written = text.trim().toLowerCase().replace(/\s+/g, ' ');
  return BY_NAME.get(written) ?? BY_NAME.get(written.replace(/\.$/, ''));
}

/** Symbols of one dimension, for messages. */
export function unitSymbols(dimension: Dimension): string[] {
  return UNITS.filter(([written]) => written.dimension === dimension).map(([written]) => written.symbol);
}

export interface HeaderCell {
  /** As written in the file, without the blanks around it. */
  readonly text: string;
  /** Lower-case words of the name without the unit, such as `vehicle speed sensor`. */
  readonly words: string;
  readonly unit?: WrittenUnit;
}

/**
 * Name and unit of one header cell: `speed_kmh`, `Speed (km/h)`, `v [m/s]`, `Speed, mph`, `cycMps`.
 * Brackets without a known unit belong to the name: `Speed (GPS)`.
 */
export function readHeaderCell(cell: string): HeaderCell {
  const text = cell.trim();
  const bracketed = /^(.*?)\s*[[({<]([^\])}>]*)[\])}>]\s*$/.exec(text);
  if (bracketed) {
    const found = unitOf(bracketed[2] ?? '');
    return found ? { text, words: toWords(bracketed[1] ?? ''), unit: found } : { text, words: toWords(text) };
  }
  const plain = splitCamelCase(text).toLowerCase();
  for (const name of NAMES) {
    if (!plain.endsWith(name)) continue;
    const before = plain.slice(0, plain.length - name.length);
    // A unit alone is a name, as in a column called `s` or `kmh`; words must end before the unit begins.
    if (before !== '' && /[\s_\-.,:/|]$/.test(before)) {
      return { text, words: toWords(before), unit: BY_NAME.get(name)! };
    }
  }
  const alone = unitOf(plain);
  return { text, words: toWords(text), ...(alone && text.length > 1 ? { unit: alone } : {}) };
}

const splitCamelCase = (text: string): string =>
  text.replace(/([\p{Ll}\d])(\p{Lu})/gu, '$1 $2').replace(/(\p{Lu})(\p{Lu}\p{Ll})/gu, '$1 $2');

function toWords(text: string): string {
  return splitCamelCase(text)
    .toLowerCase()
    .replace(/[^\p{L}\p{N}]+/gu, ' ')
    .trim();
}
