import { describe, expect, it } from 'vitest';
import { FIGURE_LAYOUTS } from '../../pipeline/figure/figure.ts';
import { FIGURE_KINDS, FIGURES } from '../../pipeline/figure/figures.ts';
import { guideOverlay } from '../../pipeline/overlay/guide.ts';
import { overlaysNote } from '../../pipeline/overlay/note.ts';
import { FRAME_SIZES } from '../../pipeline/overlay/sizes.ts';
import { TABLES } from '../../pipeline/table/tables.ts';
import { testTimeline } from '../../pipeline/timeline/timeline.ts';
import { demoPublication } from '../demo.ts';
import { choiceOf, type GalleryCase, galleryCases, inLanguage } from './cases.ts';
import { overlaysOf } from './pictures.ts';

const publication = await demoPublication();
const CASES = galleryCases(publication).map(one => inLanguage(one, 'de-DE'));

/** Words that no German sentence holds. */
const ENGLISH =
  /\b(the|of|from|and|to|for|is|are|by|at|its|it|after|before|against|between|with|without|which|kept|set aside|attempts?|best|median of|reading|readings|run|runs|speed|distance|slope|headwind|tailwind|dry|wet|damp|clock|tape|launch|launches|rollout|foot|first|movement|uncertain|uncertainty|scatter|quicker|slower|faster|behind|ahead|too close|too few|stop|stops|road|weighed|maker|measured|restated|level|still|both|each|every|shift|lost|peak|below|above|not|no|one|two|three)\b/i;

/** Every string in a value, but not those of fields that hold no words. */
function stringsIn(value: unknown, skip: ReadonlySet<string> = new Set()): readonly string[] {
  if (typeof value === 'string') return [value];
  if (Array.isArray(value)) return value.flatMap(each => stringsIn(each, skip));
  if (typeof value !== 'object' || value === null) return [];
  return Object.entries(value).flatMap(([key, each]) => (skip.has(key) ? [] : stringsIn(each, skip)));
}

/** Texts and titles of a compiled specification. */
function labelsIn(spec: unknown): readonly string[] {
  if (Array.isArray(spec)) return spec.flatMap(labelsIn);
  if (typeof spec !== 'object' || spec === null) return [];
  return Object.entries(spec).flatMap(([key, value]) =>
    key === 'text' || key === 'title' ? stringsIn(value, new Set(['field', 'type'])) : labelsIn(value),
  );
}

/** Fields that name something for the program. */
const IDS = new Set(['id', 'launch', 'direction', 'car', 'road']);

/** What people wrote in a case, longest first: names, notes and reasons stay in their own language. */
function writtenIn({ house, test, others }: GalleryCase): readonly string[] {
  const { language: _, headline_start_rule: __, ...named } = house;
  const all = [test, ...others].flatMap(({ content, car, road, attempts }) => [
    ...stringsIn([content, car, road], IDS),
    ...attempts.flatMap(({ launchName, setAside, note }) => stringsIn({ launchName, setAside, note })),
  ]);
  return [...new Set([...all, ...stringsIn(named, IDS), named.site.replace('https://', '')])]
    .filter(
      text =>
        /[A-Za-z]{2}/.test(text) &&
        !/^(dry|damp|wet|electric|petrol|diesel|front|rear|all|weighed)$/.test(text),
    )
    .sort((a, b) => b.length - a.length);
}

/** A text without what people wrote, in whatever case and across its line breaks. */
function ownWords(text: string, written: readonly string[]): string {
  let left = text.replaceAll('\u00a0', ' ').toLowerCase();
  for (const theirs of written) left = left.replaceAll(theirs.replaceAll('\u00a0', ' ').toLowerCase(), '…');
  return left;
}

describe.each(CASES.map(one => [one.id, one] as const))('%s in German', (_id, one) => {
  const written = writtenIn(one);
  const all = written.join(' ').toLowerCase();
  const expectGerman = (where: string, texts: readonly string[]): void => {
    const found = texts.filter(text => {
      const left = ownWords(text, written);
      // A part of a name, broken over two lines.
      return ENGLISH.test(left) && !all.includes(left.trim());
    });
    expect([where, ...found]).toEqual([where]);
  };

  it.each(FIGURE_KINDS)('figure %s holds no English word', kind => {
    const made = FIGURES[kind].make(one.test, one.house, choiceOf(one), one.others);
    if ('reason' in made) return;
    const { spec, kind: _, ...said } = made;
    expectGerman(kind, stringsIn(said, new Set(['id', 'workings', 'startRule', 'drawn'])));
    for (const layout of FIGURE_LAYOUTS) expectGerman(`${kind} ${layout}`, labelsIn(spec[layout]));
  });

  it('no table holds an English word', () => {
    for (const [kind, { make }] of Object.entries(TABLES)) {
      const table = make(one.test, one.house, one.others);
      expectGerman(kind, stringsIn(table, new Set(['id', 'workings', 'align'])));
    }
  });

  it('no plate, guide or note holds an English word', () => {
    const made = overlaysOf(one);
    for (const { name, altText } of made) expectGerman(name, [altText]);
    const names = new Set([...made.map(({ name }) => name), ...FRAME_SIZES.map(({ name }) => name)]);
    const lines = overlaysNote(one.test, one.house, made, FRAME_SIZES)
      .split('\n')
      .map(line => [...names].reduce((left, name) => left.replace(name, ''), line));
    expectGerman('note', lines);
    expectGerman('guide', [guideOverlay('ebu-r95', one.house).altText]);
  });

  it('no marker of the timeline holds an English word', () => {
    const { runs } = testTimeline(one.test, one.house, { name: '25', frames: 25, seconds: 1 });
    const skip = new Set(['kind', 'startRule', 'reel']);
    expectGerman('timeline', stringsIn(runs, skip));
  });

  it('digits have a decimal comma', () => {
    const texts = Object.values(TABLES).flatMap(({ make }) =>
      stringsIn(make(one.test, one.house, one.others), new Set(['id', 'workings'])),
    );
    const left = texts.map(text => ownWords(text, written));
    // A point before three digits parts thousands.
    expect(left.filter(text => /\d\.(?!\d{3}\b)\d/.test(text))).toEqual([]);
    expect(left.some(text => /\d,\d/.test(text))).toBe(true);
  });
});
