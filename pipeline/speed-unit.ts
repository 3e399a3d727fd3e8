/** The unit a publication has its speeds in: the only place that asks for it. */
import { kmhToMps, mphToMps, mpsToKmh, mpsToMph } from './units.ts';

/** Units that readers may have speeds in. */
export type SpeedUnit = 'km/h' | 'mph';

/** What people write in house.yaml. */
export type HouseUnits = 'kmh' | 'mph';

/**
 * A language tag, or anything made for a publication, such as a house. A bare tag has kilometres an hour: whatever
 * prints a speed passes its house.
 */
export type ForReaders =
  | string
  | {
      readonly language: string;
      /** Of the publication; kilometres an hour where absent. */
      readonly units?: HouseUnits | undefined;
      /** What a reader asks for instead. */
      readonly speedUnit?: SpeedUnit;
    };

/** A speed unit with its conversions, and the round numbers that axes and tables in it go by. */
export interface SpeedScale {
  readonly symbol: SpeedUnit;
  readonly fromMps: (speedMps: number) => number;
  readonly toMps: (speed: number) => number;
  /** Between two ticks of an axis of speeds that is high, and of one that is wide. */
  readonly step: number;
  readonly wideStep: number;
}

const SCALES: Readonly<Record<SpeedUnit, SpeedScale>> = {
  'km/h': { symbol: 'km/h', fromMps: mpsToKmh, toMps: kmhToMps, step: 20, wideStep: 40 },
  mph: { symbol: 'mph', fromMps: mpsToMph, toMps: mphToMps, step: 10, wideStep: 20 },
};

/** What a publication's measures are named in. */
export const houseUnits = (readers: ForReaders): HouseUnits =>
  (typeof readers === 'string' ? undefined : readers.units) ?? 'kmh';

/** The unit that speeds are printed in. */
export function speedUnitOf(readers: ForReaders): SpeedUnit {
  const asked = typeof readers === 'string' ? undefined : readers.speedUnit;
  return asked ?? (houseUnits(readers) === 'mph' ? 'mph' : 'km/h');
}

export const speedScale = (readers: ForReaders): SpeedScale => SCALES[speedUnitOf(readers)];
