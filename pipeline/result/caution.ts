/** What must stand wherever a person could act on a figure. */
import type { House } from './result.ts';

/** Before and after every measured figure; the house's own words come after it. */
export const STANDARD_CAUTION =
  'Tests like these can injure and kill. They were made on a closed road, with permission. ' +
  'Local law and licensed practice come first. A figure here says what was measured, ' +
  'not what is allowed or what another car, road or day will give.';

/** On every road plan, whatever it is shown on. */
export const PLAN_CAUTION =
  'Tests like these can injure and kill. A closed road with permission, local law and licensed practice come first. ' +
  'This plan is arithmetic on the assumptions stated with it and not a clearance to drive.';

const withHouse = (caution: string, house: Pick<House, 'caution'>): string =>
  house.caution === undefined ? caution : `${caution} ${house.caution}`;

export const cautionOf = (house: Pick<House, 'caution'>): string => withHouse(STANDARD_CAUTION, house);
export const planCautionOf = (house: Pick<House, 'caution'>): string => withHouse(PLAN_CAUTION, house);
