/** What must stand before the first figure: driving tests are dangerous, and a figure clears nobody to drive. */
import type { Overlay } from './overlay.ts';
import { said } from './phrases.ts';
import { plateOverlay } from './plate.ts';
import { cautionTheme } from './theme.ts';

const TITLE = 'Closed road, with permission';
const FIRST =
  'Local law and licensed practice come first. The figures in this film are not a clearance to drive.';
const DANGER = 'Acceleration, braking and top-speed tests are dangerous';

export const cautionOverlay: Overlay = {
  kind: 'caution',
  describes: 'The standing caution, with what the publication adds to it.',
  make(_test, house) {
    const text = said([FIRST, house.caution]).join(' ');
    return [
      plateOverlay(
        { kind: 'caution', name: '1-caution', altText: `${TITLE}. ${text} ${DANGER}.` },
        { label: house.name, title: TITLE, content: { body: 'prose', text }, foot: [DANGER] },
        cautionTheme(house),
      ),
    ];
  },
};
