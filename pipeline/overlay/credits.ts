/** Who drove, with what, where and by whose leave; and on what terms the figures may be used. */
import type { Overlay } from './overlay.ts';
import { dateInWords, said } from './phrases.ts';
import { type Fact, plateOverlay } from './plate.ts';
import { houseTheme } from './theme.ts';

export const creditsOverlay: Overlay = {
  kind: 'credits',
  describes: 'Who drove, receiver, road, permission and licence.',
  make(test, house) {
    const { content, road } = test;
    const facts: readonly Fact[] = [
      { head: 'Drove and wrote', text: content.byline ?? '' },
      { head: 'Receiver', text: content.receiver.what },
      { head: 'Road', text: `${road.name}, ${road.surface}` },
      { head: 'Permission', text: road.permission },
      { head: 'Licence', text: `${house.licence.name}, figures and data` },
    ].filter(({ text }) => text !== '');
    const foot = said([
      house.site.replace(/^https?:\/\//, '').replace(/\/$/, ''),
      content.published === undefined ? undefined : `published ${dateInWords(content.published, house)}`,
      'closed road; local law and licensed practice come first',
    ]);
    const subtitle = `Tested ${dateInWords(content.date, house)}`;
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
