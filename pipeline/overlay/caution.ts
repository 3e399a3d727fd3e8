/** What must stand before the first figure: driving tests are dangerous, and a figure clears nobody to drive. */

import { catalogue } from '../language.ts';
import type { Overlay } from './overlay.ts';
import { said } from './phrases.ts';
import { plateOverlay } from './plate.ts';
import { cautionTheme } from './theme.ts';
import { plateWords } from './words/plates.ts';

export const cautionOverlay: Overlay = {
  kind: 'caution',
  describes: catalogue({
    en: 'The standing caution, with what the publication adds to it.',
    de: 'Die ständige Warnung, mit dem, was die Redaktion hinzufügt.',
  }),
  make(_test, house) {
    const { cautionTitle: title, cautionFirst, danger } = plateWords(house);
    const text = said([cautionFirst, house.caution]).join(' ');
    return [
      plateOverlay(
        { kind: 'caution', name: '1-caution', altText: `${title}. ${text} ${danger}.` },
        { label: house.name, title, content: { body: 'prose', text }, foot: [danger] },
        cautionTheme(house),
      ),
    ];
  },
};
