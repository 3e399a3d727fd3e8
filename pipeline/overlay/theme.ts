/** How a house's plates look: inks, corner, face of the numbers, logo, and whose safe areas they keep to. */
import { plateColours } from '../house-look.ts';
import type { FaceId } from '../lettering/lettering.ts';
import type { House, LogoPicture } from '../result/result.ts';
import { coloursToInks, INKS, type Inks } from './marks.ts';
import type { SafeStandard } from './safe-area.ts';

export interface PlateTheme {
  readonly inks: Inks;
  readonly corner: 'left' | 'right';
  readonly numberFace: FaceId;
  readonly safeAreas: SafeStandard;
  readonly logo?: LogoPicture;
}

/** Of a house that says nothing about it. */
export const PLAIN_THEME: PlateTheme = {
  inks: INKS,
  corner: 'left',
  numberFace: 'serif',
  safeAreas: 'ebu-r95',
};

export type ThemedHouse = Pick<House, 'look' | 'video' | 'logoPicture'>;

/** As house.yaml says; its contrast has been checked when the content was read. */
export function houseTheme({ look, video, logoPicture }: ThemedHouse): PlateTheme {
  return {
    inks: coloursToInks(plateColours(look)),
    corner: look?.corner ?? PLAIN_THEME.corner,
    numberFace: look?.number_face ?? PLAIN_THEME.numberFace,
    safeAreas: video?.safe_areas ?? PLAIN_THEME.safeAreas,
    ...(logoPicture === undefined ? {} : { logo: logoPicture }),
  };
}

/** A caution keeps the plain colours and all its room: it stands where the house wants it, and is dressed in nothing. */
export function cautionTheme(house: ThemedHouse): PlateTheme {
  const { corner, safeAreas } = houseTheme(house);
  return { ...PLAIN_THEME, corner, safeAreas };
}
