/**
 * The only rounding: to the nearest, ties to the even multiple (ISO 80000-1, annex B, rule A).
 *
 * It works on the decimal digits a number is written with, not on its binary value: 12.25 rounds to 12.2
 * and 12.35 to 12.4, where `toFixed` gives 12.3 both times. The strings it gives have an ASCII hyphen as
 * minus sign; the printed minus sign is put in where text is made for readers.
 */

interface Decimal {
  /** The number times 10 to the power of `scale`. */
  readonly units: bigint;
  readonly scale: number;
}

/** The shortest decimal that stands for this number, exact as written. @throws RangeError unless finite. */
function numberToDecimal(value: number): Decimal {
  if (!Number.isFinite(value)) throw new RangeError(`Only a finite number can be rounded, not ${value}`);
  const [mantissa = '0', exponent = '0'] = String(value).toLowerCase().split('e');
  const [whole = '0', fraction = ''] = mantissa.split('.');
  const scale = fraction.length - Number(exponent);
  const units = BigInt(whole + fraction);
  return scale >= 0 ? { units, scale } : { units: units * 10n ** BigInt(-scale), scale: 0 };
}

function decimalToText({ units, scale }: Decimal): string {
  const sign = units < 0n ? '-' : '';
  const digits = String(units < 0n ? -units : units).padStart(scale + 1, '0');
  return scale === 0 ? sign + digits : `${sign}${digits.slice(0, -scale)}.${digits.slice(-scale)}`;
}

/** Nearest whole number of `step`s, ties to the even one; both on the same scale. */
function nearestSteps(units: bigint, step: bigint): bigint {
  const size = units < 0n ? -units : units;
  const below = size / step;
  const twice = (size % step) * 2n;
  const up = twice > step || (twice === step && below % 2n === 1n);
  const steps = up ? below + 1n : below;
  return units < 0n ? -steps : steps;
}

/**
 * The nearest whole multiple of `multiple`, ties to the even one, with as many decimals as the multiple has.
 * Zero never carries a sign. @throws RangeError where a number is not finite or the multiple not positive.
 */
export function roundToMultiple(value: number, multiple: number): string {
  if (!(multiple > 0)) throw new RangeError(`Rounding needs a positive multiple, not ${multiple}`);
  const a = numberToDecimal(value);
  const b = numberToDecimal(multiple);
  const scale = Math.max(a.scale, b.scale);
  const units = a.units * 10n ** BigInt(scale - a.scale);
  const step = b.units * 10n ** BigInt(scale - b.scale);
  return decimalToText({ units: nearestSteps(units, step) * b.units, scale: b.scale });
}

/**
 * A number with this many decimals; negative counts round to tens, hundreds and so on.
 * @throws RangeError where the number is not finite or the count not a whole number from -300 to 100.
 */
export function roundToDecimals(value: number, decimals: number): string {
  if (!Number.isInteger(decimals) || decimals < -300 || decimals > 100) {
    throw new RangeError(`Decimals must be a whole number from -300 to 100, not ${decimals}`);
  }
  return roundToMultiple(value, Number(`1e${-decimals}`));
}

/**
 * How many decimals a value may carry beside its expanded uncertainty, same unit: to the place of the
 * uncertainty's first digit, or of its second where the first is 1, because there one digit alone would
 * change the uncertainty by up to half. JCGM 100:2008, 7.2.6 allows two digits at most, and the value is
 * rounded to the same place. Negative where the uncertainty is 20 or more.
 *
 * `most` limits the decimals of the print, whatever the uncertainty; an uncertainty of 0 gives `most`.
 * @throws RangeError where the uncertainty is negative or not finite.
 */
export function decimalsForUncertainty(
  expandedUncertainty: number,
  { most }: { readonly most: number },
): number {
  if (!Number.isFinite(expandedUncertainty) || expandedUncertainty < 0) {
    throw new RangeError(`An uncertainty is a finite number from 0, not ${expandedUncertainty}`);
  }
  if (expandedUncertainty === 0) return most;
  // Twelve digits, so that 0.2 does not begin with a 1 after a conversion to SI and back.
  const [mantissa = '', exponent = '0'] = expandedUncertainty.toExponential(11).split('e');
  const decimals = (mantissa.startsWith('1') ? 1 : 0) - Number(exponent);
  return Math.min(decimals, most);
}

/** Largest share of an uncertainty that rounding may take away before it is rounded up instead. */
const MOST_UNDERSTATED = 0.1;

/**
 * An expanded uncertainty with this many decimals: to the nearest, but up wherever that would take away more
 * than a tenth of it, so that 0.021 prints as 0.02 and 0.004 as 0.01, never as 0.00. JCGM 100:2008, 7.2.6
 * asks for rounding up where rounding down would mislead; the tenth is our own reading of it.
 * @throws RangeError as `roundToDecimals`, and where the uncertainty is negative.
 */
export function roundUncertainty(expandedUncertainty: number, decimals: number): string {
  if (expandedUncertainty < 0) throw new RangeError('An uncertainty is never negative');
  const nearest = roundToDecimals(expandedUncertainty, decimals);
  if (Number(nearest) >= expandedUncertainty * (1 - MOST_UNDERSTATED)) return nearest;
  const step = numberToDecimal(Number(`1e${-decimals}`));
  const a = numberToDecimal(Number(nearest));
  const scale = Math.max(a.scale, step.scale);
  const units = a.units * 10n ** BigInt(scale - a.scale) + step.units * 10n ** BigInt(scale - step.scale);
  return roundToDecimals(Number(decimalToText({ units, scale })), decimals);
}
