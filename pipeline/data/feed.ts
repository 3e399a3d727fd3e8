/** News of the publication as an Atom feed (RFC 4287): every test that went out, and every correction of one. */
import { escapeHtml } from '../escape-html.ts';
import { catalogue, tagOf } from '../language.ts';
import type { Publication, TestResult } from '../result/result.ts';
import { shownCorrections } from '../sign-off/shown.ts';
import { testAddress, wholeAddress } from './page-address.ts';

export const FEED_NAME = 'feed.xml';

const WORDS = catalogue({
  en: {
    correction: (title: string) => `Correction: ${title}`,
    reason: (what: string, reason: string) => `${what} Reason: ${reason}`,
    moved: (name: string, was: string, now: string) => `${name}: ${now} (before: ${was})`,
  },
  de: {
    correction: title => `Korrektur: ${title}`,
    reason: (what, reason) => `${what} Grund: ${reason}`,
    moved: (name, was, now) => `${name}: ${now} (vorher: ${was})`,
  },
});

interface Entry {
  /** Its address; the same for as long as the site stands. */
  readonly id: string;
  readonly title: string;
  /** Year-month-day. */
  readonly published: string;
  readonly updated: string;
  readonly summary: string;
  readonly author?: string;
}

/** In the language of the house; newest first. A test without a day of publication is a draft and left out. */
export function feedText(publication: Publication): string {
  const { house, tests } = publication;
  const entries = tests
    .flatMap(test => (test.content.published === undefined ? [] : entriesOf(test, publication)))
    .sort((a, b) => (a.updated === b.updated ? (a.id < b.id ? -1 : 1) : a.updated < b.updated ? 1 : -1));
  return [
    '<?xml version="1.0" encoding="utf-8"?>',
    `<feed xmlns="http://www.w3.org/2005/Atom" xml:lang="${safe(tagOf(house))}">`,
    `  <id>${safe(wholeAddress(house, '/'))}</id>`,
    `  <title>${safe(house.name)}</title>`,
    ...(house.strapline === undefined ? [] : [`  <subtitle>${safe(house.strapline)}</subtitle>`]),
    `  <updated>${instant(entries[0]?.updated ?? '1970-01-01')}</updated>`,
    `  <link rel="self" type="application/atom+xml" href="${safe(wholeAddress(house, `/${FEED_NAME}`))}"/>`,
    `  <link rel="alternate" type="text/html" href="${safe(wholeAddress(house, '/'))}"/>`,
    `  <author><name>${safe(house.name)}</name></author>`,
    `  <rights>${safe(house.licence.name)}, ${safe(house.licence.url)}</rights>`,
    ...entries.flatMap(entryLines),
    '</feed>',
    '',
  ].join('\n');
}

function entriesOf(test: TestResult, publication: Publication): readonly Entry[] {
  const { house } = publication;
  const { content, signedOff } = test;
  const page = testAddress(house, test.id);
  const words = WORDS(house);
  const corrections = shownCorrections(test, publication);
  const days = [
    content.published!,
    signedOff?.record.signed_off ?? '',
    ...corrections.map(({ date }) => date),
  ];
  return [
    {
      id: page,
      title: content.title,
      published: content.published!,
      updated: days.sort().at(-1)!,
      summary: content.standfirst,
      ...(content.byline === undefined ? {} : { author: content.byline }),
    },
    ...corrections.map(({ number, date, what, reason, moved }) => ({
      id: `${page}#correction-${number}`,
      title: words.correction(content.title),
      published: date,
      updated: date,
      summary: [
        words.reason(what, reason),
        ...moved.map(({ name, was, now }) => words.moved(name, was, now)),
      ].join('\n'),
    })),
  ];
}

const entryLines = ({ id, title, published, updated, summary, author }: Entry): readonly string[] => [
  '  <entry>',
  `    <id>${safe(id)}</id>`,
  `    <title>${safe(title)}</title>`,
  `    <published>${instant(published)}</published>`,
  `    <updated>${instant(updated)}</updated>`,
  `    <link rel="alternate" type="text/html" href="${safe(id)}"/>`,
  ...(author === undefined ? [] : [`    <author><name>${safe(author)}</name></author>`]),
  `    <summary>${safe(summary)}</summary>`,
  '  </entry>',
];

/** A day as an instant (RFC 3339): people write days, a feed needs instants. */
const instant = (day: string): string => `${day}T00:00:00Z`;

/** Text as XML 1.0 takes it: escaped, without the control characters it has no way to write. */
function safe(text: string): string {
  const taken = [...text].filter(sign => {
    const code = sign.codePointAt(0)!;
    return code >= 0x20
      ? !(code >= 0xd800 && code <= 0xdfff) && code !== 0xfffe && code !== 0xffff
      : '\t\n\r'.includes(sign);
  });
  return escapeHtml(taken.join(''));
}
