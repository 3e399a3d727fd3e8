import { SaxesParser, type SaxesTagPlain } from 'saxes';
import { describe, expect, it } from 'vitest';
import { feedText } from '../../pipeline/data/feed.ts';
import { forScript, testGraph, testJsonLd } from '../../pipeline/data/json-ld.ts';
import type { Publication, TestResult } from '../../pipeline/result/result.ts';
import { houseFixture, testFixture } from '../result/fixture.ts';

interface Element {
  readonly name: string;
  readonly attributes: Readonly<Record<string, string>>;
  readonly children: Element[];
  text: string;
}

/** A tree of an XML document; throws where it is not well-formed (XML 1.0). */
function parseXml(text: string): Element {
  const top: Element = { name: '', attributes: {}, children: [], text: '' };
  const open = [top];
  const parser = new SaxesParser();
  parser.on('error', error => {
    throw error;
  });
  parser.on('opentag', ({ name, attributes }: SaxesTagPlain) => {
    const element: Element = {
      name,
      attributes: attributes as Record<string, string>,
      children: [],
      text: '',
    };
    open.at(-1)!.children.push(element);
    open.push(element);
  });
  parser.on('closetag', () => void open.pop());
  parser.on('text', content => {
    open.at(-1)!.text += content;
  });
  parser.write(text).close();
  return top.children[0]!;
}

const test = testFixture();
const corrected: TestResult = {
  ...test,
  id: 'corrected-day',
  content: {
    ...test.content,
    title: 'A <b>bold</b> title & a bell \u0007',
    corrections: [
      { date: '2026-06-02', what: 'The first was wrong.', reason: 'A wrong cable.' },
      { date: '2026-07-09', what: 'The second was wrong.', reason: 'Another cable.' },
    ],
  },
};
const { published: _, ...unpublished } = test.content;
const draft: TestResult = { ...test, id: 'draft-day', content: unpublished };
const publication: Publication = {
  house: houseFixture(),
  cars: [test.car],
  roads: [test.road],
  tests: [test, corrected, draft],
  methodologyMarkdown: '',
  problems: [],
};
const all = (element: Element, name: string): Element[] =>
  element.children.filter(each => each.name === name);
const one = (element: Element, name: string): Element => {
  expect(all(element, name), name).toHaveLength(1);
  return all(element, name)[0]!;
};

describe('the feed (RFC 4287)', () => {
  const feed = parseXml(feedText(publication));
  const entries = all(feed, 'entry');

  it('has what a feed must have (4.1.1)', () => {
    expect(feed.name).toBe('feed');
    expect(feed.attributes.xmlns).toBe('http://www.w3.org/2005/Atom');
    for (const name of ['id', 'title', 'updated']) expect(one(feed, name).text).not.toBe('');
    const self = all(feed, 'link').filter(({ attributes }) => attributes.rel === 'self');
    expect(self.map(({ attributes }) => attributes.href)).toEqual(['https://hedgerow.example/feed.xml']);
    // 4.1.1: an author in the feed, or in every entry.
    expect(one(one(feed, 'author'), 'name').text).toBe('The Hedgerow Motorist');
  });

  it('has what an entry must have (4.1.2), every id once and a whole address', () => {
    // RFC 3339, 5.6.
    const instant = /^\d{4}-\d{2}-\d{2}T\d{2}:\d{2}:\d{2}(\.\d+)?(Z|[+-]\d{2}:\d{2})$/;
    for (const entry of entries) {
      expect(one(entry, 'title').text).not.toBe('');
      expect(one(entry, 'updated').text).toMatch(instant);
      expect(one(entry, 'published').text).toMatch(instant);
      // 4.1.2: without content, an alternate link.
      expect(all(entry, 'link').some(({ attributes }) => attributes.rel === 'alternate')).toBe(true);
      expect(() => new URL(one(entry, 'id').text)).not.toThrow();
    }
    const ids = entries.map(entry => one(entry, 'id').text);
    expect(new Set(ids).size).toBe(ids.length);
    expect(one(feed, 'updated').text).toBe(
      entries
        .map(entry => one(entry, 'updated').text)
        .sort()
        .at(-1),
    );
  });

  it('tells tests that went out and every correction, and no draft', () => {
    expect(entries.map(entry => one(entry, 'id').text).sort()).toEqual([
      'https://hedgerow.example/tests/corrected-day/',
      'https://hedgerow.example/tests/corrected-day/#correction-1',
      'https://hedgerow.example/tests/corrected-day/#correction-2',
      'https://hedgerow.example/tests/fixture-day/',
    ]);
    const second = entries.find(entry => one(entry, 'id').text.endsWith('#correction-2'))!;
    expect(one(second, 'updated').text).toBe('2026-07-09T00:00:00Z');
    expect(one(second, 'summary').text).toContain('Another cable.');
  });

  it('keeps its ids when a correction is added', () => {
    const { corrections = [] } = corrected.content;
    const before: Publication = {
      ...publication,
      tests: [{ ...corrected, content: { ...corrected.content, corrections: corrections.slice(0, 1) } }],
    };
    const ids = all(parseXml(feedText(before)), 'entry').map(entry => one(entry, 'id').text);
    expect(ids.filter(id => !entries.some(entry => one(entry, 'id').text === id))).toEqual([]);
  });

  it('says markup as text, and leaves out what XML cannot say', () => {
    const titles = entries.map(entry => one(entry, 'title').text);
    expect(titles).toContain('A <b>bold</b> title & a bell ');
    expect(entries.flatMap(({ children }) => children.filter(({ name }) => name === 'b'))).toEqual([]);
  });

  it('is well-formed without any test', () => {
    expect(all(parseXml(feedText({ ...publication, tests: [] })), 'entry')).toEqual([]);
  });
});

describe('linked data (schema.org)', () => {
  const graph = JSON.parse(testJsonLd(test, publication, 'press/x.png')) as {
    '@context': string;
    '@graph': Record<string, unknown>[];
  };
  const of = (type: string) => graph['@graph'].find(thing => thing['@type'] === type)!;

  it('is an article about a car, based on a data set', () => {
    expect(graph['@context']).toBe('https://schema.org');
    expect(graph['@graph'].map(thing => thing['@type'])).toEqual(['Article', 'Car', 'Dataset']);
    expect(of('Article').about).toEqual({ '@id': of('Car')['@id'] });
    expect(of('Article').isBasedOn).toEqual({ '@id': of('Dataset')['@id'] });
    expect(of('Article').image).toBe('https://hedgerow.example/press/x.png');
    // Google's own list for data sets asks for name, description and licence; from memory.
    expect(Object.keys(of('Dataset'))).toEqual(expect.arrayContaining(['name', 'description', 'license']));
  });

  // schema.org/accelerationTime: unit code SEC, the velocities in the name or in valueReference.
  it('states acceleration in seconds with its speeds, once a start rule, as printed', () => {
    const times = of('Car').accelerationTime as {
      name: string;
      description: string;
      value: number;
      unitCode: string;
      valueReference: { minValue: number; maxValue: number; unitCode: string };
    }[];
    expect(new Set(times.map(({ unitCode }) => unitCode))).toEqual(new Set(['SEC']));
    const to100 = times.filter(
      ({ valueReference: { maxValue, unitCode } }) => maxValue === 100 && unitCode === 'KMH',
    );
    expect(to100.map(({ description }) => /first movement|rollout/.exec(description)?.[0])).toEqual([
      'first movement',
      'rollout',
    ]);
    for (const { name, value, description, valueReference } of times) {
      expect(name).toMatch(/^0–\d+ (km\/h|mph)$/);
      expect(description).toContain(String(value));
      expect(description).toContain('best of');
      expect(valueReference.minValue).toBe(0);
    }
  });

  it('cannot leave its script element, and reads as the same value', () => {
    const value = { name: '</script><script>alert(1)</script>', other: '<!-- & \u2028' };
    expect(forScript(value)).not.toMatch(/[<>&\u2028]/);
    expect(JSON.parse(forScript(value))).toEqual(value);
    const hostile = { ...test, car: { ...test.car, name: '</script><script>alert(1)</script>' } };
    const text = testJsonLd(hostile, publication);
    expect(text).not.toContain('<');
    expect(JSON.stringify(JSON.parse(text))).toBe(JSON.stringify(testGraph(hostile, publication)));
  });
});
