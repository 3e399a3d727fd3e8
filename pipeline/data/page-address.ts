/** Whole addresses of pages, as house.yaml states its site: what leaves the site must name them so. */
import { languagePath } from '../result/in-language.ts';
import type { House } from '../result/result.ts';

/** `path` begins with a slash; the page in the language of the house. */
export const wholeAddress = (house: House, path: string): string =>
  house.site.replace(/\/$/, '') + languagePath(house) + path;

/** Of a file that is the same in every language, by its path from the site's root without a slash. */
export const wholeFileAddress = ({ site }: Pick<House, 'site'>, path: string): string =>
  `${site.replace(/\/$/, '')}/${path}`;

export const testAddress = (house: House, testId: string): string => wholeAddress(house, `/tests/${testId}/`);
