/** The note that lies beside a test's overlays: what the files are, and which plate is for when. */

import type { House, TestResult } from '../result/result.ts';
import { GUIDE_NAME } from './guide.ts';
import type { FrameSize, MadeOverlay } from './overlay.ts';
import { SAFE_STANDARDS } from './safe-area.ts';
import { houseTheme } from './theme.ts';
import { plateNoteWords } from './words/plates.ts';

export const NOTE_NAME = 'README.txt';

/** Plain text, lines of at most about 90 characters. */
export function overlaysNote(
  test: TestResult,
  house: House,
  made: readonly Pick<MadeOverlay, 'kind' | 'name' | 'altText'>[],
  sizes: readonly FrameSize[],
): string {
  const { name } = SAFE_STANDARDS[houseTheme(house).safeAreas];
  const width = Math.max(...made.map(each => each.name.length), GUIDE_NAME.length) + 2;
  const words = plateNoteWords(house);
  return [
    words.title(test.car.name, house.name),
    '',
    ...words.how,
    '',
    ...sizes.map(size => `  ${size.name}/`),
    '',
    words.safe(name),
    '',
    `  ${GUIDE_NAME.padEnd(width)}${words.guide}`,
    ...made.map(each => `  ${each.name.padEnd(width)}${words.when[each.kind]}`),
    '',
    ...words.stays,
    '',
    words.forThoseWhoCannotSee,
    '',
    ...made.flatMap(each => [`  ${each.name}`, `    ${each.altText}`, '']),
  ].join('\n');
}
