/** Checks of the look in house.yaml: text that can be read over any picture, and a logo that is there. */
import { LEAST_CONTRAST, type LookField, lookContrasts, plateColours } from '../house-look.ts';
import type { Problem } from '../problem.ts';
import { logoOutside, lowContrast, missingLogo } from '../problems/content.ts';
import { CONTENT_FOLDER, pathInFolder } from './files.ts';
import type { Parsed } from './parse.ts';
import type { HouseContent } from './schema.ts';

/** One problem for every text that falls short of 4.5:1 on its ground, and for a logo that cannot be found. */
export function checkLook(house: Parsed<HouseContent>, paths: ReadonlySet<string>): Problem[] {
  // A colour that is not written as one has been told already.
  const look = house.value?.look;
  if (look === undefined) return [];
  const colours = plateColours(look);
  const problems = lookContrasts(colours)
    .filter(({ ratio }) => ratio < LEAST_CONTRAST)
    .map(({ text, ground, ratio }) => {
      const field: LookField | undefined = [text, ground].find(each => look[each] !== undefined);
      const place = house.place(field === undefined ? ['look'] : ['look', field]);
      const notSet = [text, ground].find(each => look[each] === undefined);
      return lowContrast(
        place,
        text,
        ground,
        [colours[text], colours[ground]],
        ratio,
        LEAST_CONTRAST,
        notSet,
      );
    });
  if (look.logo !== undefined) {
    const where = house.place(['look', 'logo']);
    const path = pathInFolder(CONTENT_FOLDER, look.logo);
    if (path === undefined) problems.push(logoOutside(where, look.logo));
    else if (!paths.has(path)) problems.push(missingLogo(where, look.logo));
  }
  return problems;
}
