/** Who drove, with what, where and by whose leave; and on what terms the figures may be used. */

import { catalogue } from '../language.ts';
import type { Overlay } from './overlay.ts';
import { dateInWords, said } from './phrases.ts';
import { type Fact, plateOverlay } from './plate.ts';
import { houseTheme } from './theme.ts';
import { plateWords } from './words/plates.ts';

export const creditsOverlay: Overlay = {
  kind: 'credits',
  describes: catalogue({
    en: 'Who drove, receiver, road, permission and licence.',
    de: 'Wer fuhr, Empfänger, Strecke, Erlaubnis und Lizenz.',
  }),
  make(test, house) {
    const { content, road } = test;
    const words = plateWords(house);
    const facts: readonly Fact[] = [
      { head: words.drove, text: content.byline ?? '' },
      { head: words.receiver, text: content.receiver.what },
      { head: words.testRoad, text: `${road.name}, ${road.surface}` },
      { head: words.permission, text: road.permission },
      { head: words.licence, text: words.figuresAndData(house.licence.name) },
    ].filter(({ text }) => text !== '');
    const foot = said([
      house.site.replace(/^https?:\/\//, '').replace(/\/$/, ''),
      content.published === undefined ? undefined : words.published(dateInWords(content.published, house)),
      words.closedRoad,
    ]);
    const subtitle = words.tested(dateInWords(content.date, house));
    return [
      plateOverlay(
        {
          kind: 'credits',
          name: '9-credits',
          altText: `${test.car.name}. ${subtitle}. ${facts.map(({ head, text }) => `${head}: ${text}.`).join(' ')} ${foot.join(', ')}.`,
        },
        { label: house.name, title: test.car.name, subtitle, content: { body: 'facts', facts }, foot },
        houseTheme(house),
      ),
    ];
  },
};
