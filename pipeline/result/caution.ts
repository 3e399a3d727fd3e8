/** What must stand wherever a person could act on a figure. */
import type { Spoken } from '../language.ts';
import type { House } from './result.ts';
import { cautionWords } from './words/caution.ts';

/** Before and after every measured figure, without the house's own words. */
export const standardCaution = (spoken: Spoken): string => cautionWords(spoken).standard;

/** On every road plan, whatever it is shown on. */
export const planCaution = (spoken: Spoken): string => cautionWords(spoken).plan;

/** In English, as the command line gives them. */
export const STANDARD_CAUTION = standardCaution('en');
export const PLAN_CAUTION = planCaution('en');

type Cautious = Pick<House, 'caution' | 'language'>;
const withHouse = (caution: string, house: Cautious): string =>
  house.caution === undefined ? caution : `${caution} ${house.caution}`;

/** The standing caution, then the house's own words. */
export const cautionOf = (house: Cautious): string => withHouse(standardCaution(house), house);
export const planCautionOf = (house: Cautious): string => withHouse(planCaution(house), house);
