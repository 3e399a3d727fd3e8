/** Numbers as readers see them: converted once, rounded once, with unit, rule and count beside them. */
import { localiseDigits, withUnit } from '../digits.ts';
import { capital, type Spoken, tagOf } from '../language.ts';
import { decimalsForUncertainty, roundToDecimals, roundUncertainty } from '../round.ts';
import type { StartRule } from '../run/run.ts';
import { type ForReaders, type HouseUnits, type SpeedUnit, speedScale } from '../speed-unit.ts';
import { kelvinToCelsius, kmhToMps, paToHpa } from '../units.ts';
import { MEASURES, type Measure, measureLabel } from './measures.ts';
import type { House, Result } from './result.ts';
import { printedWords } from './words/printed.ts';

export type { SpeedUnit } from '../speed-unit.ts';
export { capital, localiseDigits, withUnit };

/** What printing needs to know of a house; launch methods are named where they are given. */
export interface PrintedFor {
  readonly language: string;
  readonly launch_methods?: House['launch_methods'];
  readonly units?: HouseUnits | undefined;
  /** What a reader asks for instead of the publication's own. */
  readonly speedUnit?: SpeedUnit;
}

export interface PrintedResult {
  /** Digits alone: `5.93`. */
  readonly value: string;
  readonly unit: string;
  /** `5.93 s`, with a no-break space. */
  readonly text: string;
  /** `± 0.02 s`, expanded; absent where none can be stated. */
  readonly uncertainty?: string;
  /** `clock from first movement`; absent where no start rule applies. */
  readonly rule?: string;
  /** `best of 6, median 6.02 s; 2 set aside`. */
  readonly count: string;
  /** One sentence that leaves nothing out. */
  readonly full: string;
}

const NO_BREAK_SPACE = '\u00a0';

interface DisplayUnit {
  readonly symbol: string;
  readonly fromSi: (si: number) => number;
  /** Of a difference or an uncertainty; the same as `fromSi` unless the scales have different zeros. */
  readonly differenceFromSi?: (si: number) => number;
  /** Most decimals in print, whatever the uncertainty. */
  readonly most: number;
  /** Decimals where no uncertainty can be stated. */
  readonly plain: number;
}

const asIs = (si: number): number => si;
const SECONDS: DisplayUnit = { symbol: 's', fromSi: asIs, most: 2, plain: 1 };
const METRES: DisplayUnit = { symbol: 'm', fromSi: asIs, most: 1, plain: 0 };
const speedUnit = (readers: ForReaders): DisplayUnit => {
  const { symbol, fromMps } = speedScale(readers);
  return { symbol, fromSi: fromMps, most: 1, plain: 0 };
};
const MPS2: DisplayUnit = { symbol: 'm/s²', fromSi: asIs, most: 2, plain: 1 };

const MEASURE_UNITS = { s: SECONDS, m: METRES, 'm/s²': MPS2 } as const;
const unitOf = ({ unit }: Measure, readers: ForReaders): DisplayUnit =>
  unit === 'm/s' ? speedUnit(readers) : MEASURE_UNITS[unit];

/** Kinds of quantity that pages print besides results; values come in SI. */
export type QuantityKind =
  | 'time'
  | 'distance'
  | 'speed'
  | 'wind'
  | 'acceleration'
  | 'temperature'
  | 'pressure'
  | 'humidity'
  | 'density'
  | 'altitude'
  | 'slope'
  | 'mass'
  | 'power'
  | 'torque'
  | 'tyre-pressure'
  | 'rate'
  | 'angle'
  | 'area'
  | 'count'
  | 'number';

/** SI in, printed unit out. Humidity comes as a fraction, slope in per cent as it is written, torque in N·m. */
const QUANTITIES: Readonly<Record<Exclude<QuantityKind, 'speed'>, DisplayUnit>> = {
  time: SECONDS,
  distance: METRES,
  wind: { symbol: 'm/s', fromSi: asIs, most: 1, plain: 1 },
  acceleration: MPS2,
  temperature: { symbol: '°C', fromSi: kelvinToCelsius, differenceFromSi: asIs, most: 1, plain: 0 },
  pressure: { symbol: 'hPa', fromSi: paToHpa, most: 1, plain: 0 },
  humidity: { symbol: '%', fromSi: fraction => fraction * 100, most: 0, plain: 0 },
  density: { symbol: 'kg/m³', fromSi: asIs, most: 4, plain: 3 },
  altitude: { symbol: 'm', fromSi: asIs, most: 0, plain: 0 },
  slope: { symbol: '%', fromSi: asIs, most: 2, plain: 1 },
  mass: { symbol: 'kg', fromSi: asIs, most: 1, plain: 0 },
  power: { symbol: 'kW', fromSi: watts => watts / 1000, most: 1, plain: 0 },
  torque: { symbol: 'N·m', fromSi: asIs, most: 0, plain: 0 },
  'tyre-pressure': { symbol: 'kPa', fromSi: pascals => pascals / 1000, most: 0, plain: 0 },
  rate: { symbol: 'Hz', fromSi: asIs, most: 1, plain: 0 },
  angle: { symbol: '°', fromSi: asIs, most: 1, plain: 0 },
  area: { symbol: 'm²', fromSi: asIs, most: 3, plain: 2 },
  count: { symbol: '', fromSi: asIs, most: 0, plain: 0 },
  number: { symbol: '', fromSi: asIs, most: 6, plain: 2 },
};

/**
 * SI in the printed unit. Twelve digits are kept: what comes after them is left over from converting to SI and back,
 * and would decide ties that the value as written does not.
 */
function displayed(si: number, unit: DisplayUnit): number {
  return Number(unit.fromSi(si).toPrecision(12));
}

/**
 * A quantity ready to print, such as `14.5 °C` or `1460 kg`.
 * @param value SI; humidity as a fraction, slope in %, torque in N·m, angle in degrees.
 * @param precision a count of decimals of the printed unit, or the expanded uncertainty in SI; the kind's own
 *   decimals where absent.
 * @param readers the house for a speed, which is printed in its unit; a language is enough for all others.
 * @throws RangeError where the value is not finite.
 */
export function printQuantity(
  value: number,
  kind: QuantityKind,
  precision: number | { readonly uncertainty: number } | undefined,
  readers: ForReaders,
): string {
  const unit = kind === 'speed' ? speedUnit(readers) : QUANTITIES[kind];
  const decimals =
    typeof precision === 'number'
      ? precision
      : precision === undefined
        ? unit.plain
        : decimalsForUncertainty((unit.differenceFromSi ?? unit.fromSi)(precision.uncertainty), {
            most: unit.most,
          });
  return withUnit(localiseDigits(roundToDecimals(displayed(value, unit), decimals), readers), unit.symbol);
}

/** A speed as somebody stated it in km/h: as written, or in the readers' unit to two digits. */
export function statedSpeed(kmh: number, readers: ForReaders): string {
  const { symbol, fromMps } = speedScale(readers);
  const value = symbol === 'km/h' ? kmh : Number(fromMps(kmhToMps(kmh)).toPrecision(2));
  return withUnit(localiseDigits(String(value), readers), symbol);
}

/** `2026-05-12` as `12 May 2026`, in a language; the day stays the same whatever the zone of the machine. */
export function dateInWords(isoDate: string, language: string): string {
  const format =
    dateFormats.get(language) ?? new Intl.DateTimeFormat(language, { dateStyle: 'long', timeZone: 'UTC' });
  dateFormats.set(language, format);
  return format.format(new Date(`${isoDate}T00:00:00Z`));
}
/** Making one takes as long as many dates, and every list and pair of an archive has some. */
const dateFormats = new Map<string, Intl.DateTimeFormat>();

/** A start rule as a reader's phrase: `clock from first movement`. */
export const startRuleInWords = (rule: StartRule, spoken: Spoken): string =>
  printedWords(spoken).startRule[rule];

/** The same after a time or a distance: `from first movement`. */
export const startRuleBrief = (rule: StartRule, spoken: Spoken): string =>
  printedWords(spoken).startRuleBrief[rule];

/** An amount of a measure's unit (SI in), printed with this many decimals. */
function printAmount(si: number, unit: DisplayUnit, decimals: number, language: string): string {
  return withUnit(localiseDigits(roundToDecimals(displayed(si, unit), decimals), language), unit.symbol);
}

/** `± 0.02 s` for an expanded uncertainty of a measure, SI, with this many decimals of its printed unit. */
function printUncertainty(si: number, unit: DisplayUnit, decimals: number, language: string): string {
  const digits = localiseDigits(roundUncertainty(displayed(si, unit), decimals), language);
  return withUnit(`±${NO_BREAK_SPACE}${digits}`, unit.symbol);
}

/** Decimals a result prints with: by its uncertainty, or the unit's own where none can be stated. */
function decimalsOf(uncertainty: number | undefined, unit: DisplayUnit): number {
  return uncertainty === undefined || !Number.isFinite(uncertainty)
    ? unit.plain
    : decimalsForUncertainty(unit.fromSi(uncertainty), { most: unit.most });
}

function countInWords(result: Result, medianText: string, house: PrintedFor): string {
  const { n, nSetAside, statistic } = result;
  const words = printedWords(house);
  const attempts =
    n === 1
      ? words.oneAttempt
      : statistic === 'best'
        ? words.bestOf(n, medianText)
        : statistic === 'median'
          ? words.medianOf(n)
          : words.oneOf(n, medianText);
  return nSetAside === 0 ? attempts : `${attempts}; ${words.setAside(nSetAside)}`;
}

function launchInWords({ among }: Result, house: PrintedFor): string | undefined {
  const method = house.launch_methods?.find(({ id }) => id === among.launch);
  return method === undefined ? undefined : printedWords(house).launchMethod(method.name);
}

/** What the stated uncertainty covers: a median's holds the scatter, the others are the timing of one attempt. */
function coverageInWords({ statistic, n }: Result, house: PrintedFor): string {
  const words = printedWords(house);
  if (statistic !== 'median' || n === 1) return words.coverageOfOne;
  return n < 6 ? words.coverageOfFew : words.coverageOfMany;
}

/**
 * A result ready to print, in the house's language.
 * Value and uncertainty are rounded to one place, set by the uncertainty. The median of the same attempts has its own
 * uncertainty and with it its own places: it prints the same digits wherever it stands.
 */
export function printResult(result: Result, house: PrintedFor): PrintedResult {
  const measure = MEASURES[result.measure];
  const unit = unitOf(measure, house);
  const decimals = decimalsOf(result.uncertainty, unit);
  const value = localiseDigits(roundToDecimals(displayed(result.value, unit), decimals), house.language);
  const text = withUnit(value, unit.symbol);
  const uncertainty =
    result.uncertainty === undefined
      ? undefined
      : printUncertainty(result.uncertainty, unit, decimals, house.language);
  const rule = result.startRule === undefined ? undefined : startRuleInWords(result.startRule, house);
  const count = countInWords(result, printMedian(result, house), house);
  const facts = [
    uncertainty === undefined
      ? `${text} (${printedWords(house).noUncertainty})`
      : `${text} ${uncertainty} (${coverageInWords(result, house)})`,
    rule,
    launchInWords(result, house),
    count.replace('; ', ', '),
  ].filter(fact => fact !== undefined);
  return {
    value,
    unit: unit.symbol,
    text,
    ...(uncertainty === undefined ? {} : { uncertainty }),
    ...(rule === undefined ? {} : { rule }),
    count,
    full: `${measureLabel(result.measure, house)}: ${facts.join(', ')}.`,
  };
}

/** The median of a result's attempts as it prints everywhere: `7.7 s`, no finer than attempts let it be known. */
export function printMedian(
  { measure, median, medianUncertainty }: Pick<Result, 'measure' | 'median' | 'medianUncertainty'>,
  house: PrintedFor,
): string {
  const unit = unitOf(MEASURES[measure], house);
  return printAmount(median, unit, decimalsOf(medianUncertainty, unit), house.language);
}

/** A difference of two results of one measure with its uncertainty: `0.47 s`, `± 0.03 s`. SI in, never signed. */
export function printDifference(
  difference: number,
  uncertainty: number,
  measure: Measure,
  readers: ForReaders,
): { readonly text: string; readonly uncertainty?: string } {
  const unit = unitOf(measure, readers);
  const language = tagOf(readers);
  const decimals = decimalsOf(uncertainty, unit);
  return {
    text: printAmount(Math.abs(difference), unit, decimals, language),
    ...(Number.isFinite(uncertainty)
      ? { uncertainty: printUncertainty(uncertainty, unit, decimals, language) }
      : {}),
  };
}
