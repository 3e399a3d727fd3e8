/** Speeds beside the strip: round ones in the publication's unit, of data in km/h. */
import { type SpeedUnit, speedScale } from '../../pipeline/speed-unit.ts';
import { kmhToMps, mpsToKmh } from '../../pipeline/units.ts';

const STEPS = [5, 10, 20, 50, 100, 200];
/** Between two of them, px. */
const LEAST_APART_PX = 44;

const scaleOf = (unit: SpeedUnit) => speedScale({ language: 'en', speedUnit: unit });

/** Places of the numbers, km/h, from 0 to the highest that the plot reaches. */
export function speedStops(toKmh: number, heightPx: number, unit: SpeedUnit): readonly number[] {
  const { fromMps, toMps } = scaleOf(unit);
  const highest = fromMps(kmhToMps(toKmh));
  const most = Math.max(1, Math.floor(heightPx / LEAST_APART_PX));
  const step = STEPS.find(one => highest / one <= most) ?? STEPS.at(-1)!;
  const count = Math.floor(highest / step + 1e-9);
  return Array.from({ length: count + 1 }, (_, at) => mpsToKmh(toMps(at * step)));
}

/** One of them as it is read. */
export const speedText = (kmh: number, unit: SpeedUnit): string =>
  String(Math.round(scaleOf(unit).fromMps(kmhToMps(kmh))));
