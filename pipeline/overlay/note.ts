/** The note that lies beside a test's overlays: what the files are, and which plate is for when. */
import type { House, TestResult } from '../result/result.ts';
import { GUIDE_NAME } from './guide.ts';
import type { FrameSize, MadeOverlay, OverlayKind } from './overlay.ts';
import { SAFE_STANDARDS } from './safe-area.ts';
import { houseTheme } from './theme.ts';

export const NOTE_NAME = 'README.txt';

/** When a plate is used. */
const WHEN: Readonly<Record<OverlayKind, string>> = {
  caution: 'before the first figure is heard or seen; never left out',
  conditions: 'while the road or the weather is shown',
  result: 'when its figure is spoken',
  splits: 'over or after the run it is from',
  comparison: 'when launch methods, or this car and another, are compared',
  directions: 'when the two ways along the road are compared',
  restated: 'after the measured figure, never in its place',
  credits: 'at the end',
};

/** Plain text, lines of at most about 90 characters. */
export function overlaysNote(
  test: TestResult,
  house: House,
  made: readonly Pick<MadeOverlay, 'kind' | 'name' | 'altText'>[],
  sizes: readonly FrameSize[],
): string {
  const { name } = SAFE_STANDARDS[houseTheme(house).safeAreas];
  const width = Math.max(...made.map(each => each.name.length), GUIDE_NAME.length) + 2;
  return [
    `Lower thirds: ${test.car.name}, ${house.name}`,
    '',
    'PNG, 8 bits a channel, sRGB, straight (unassociated) alpha. In the editing program set alpha to',
    'straight, not premultiplied; the pictures have the full size of the frame, so place them at 100 %,',
    'centred, without scaling. There is one folder for each frame size:',
    '',
    ...sizes.map(size => `  ${size.name}/`),
    '',
    `Nothing but the guide lies outside the graphics-safe area of ${name}; plates keep to the lower quarter.`,
    '',
    `  ${GUIDE_NAME.padEnd(width)}safe areas and place of the plates: on the top track while editing, not in the film`,
    ...made.map(each => `  ${each.name.padEnd(width)}${WHEN[each.kind]}`),
    '',
    'A plate stays long enough to be read twice. Its numbers, start rule, count and conditions belong',
    'together: do not crop any of them away.',
    '',
    'For those who cannot see them:',
    '',
    ...made.flatMap(each => [`  ${each.name}`, `    ${each.altText}`, '']),
  ].join('\n');
}
