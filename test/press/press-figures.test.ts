import { createHash } from 'node:crypto';
import Ajv2020 from 'ajv/dist/2020.js';
import sharp from 'sharp';
import { beforeAll, describe, expect, it } from 'vitest';
import type { MadeFigure } from '../../pipeline/figure/figure.ts';
import { FIGURES, type FigureKind } from '../../pipeline/figure/figures.ts';
import { loadLettering } from '../../pipeline/lettering/fonts.ts';
import type { Lettering } from '../../pipeline/lettering/lettering.ts';
import { wantedPictures } from '../../pipeline/press/figure-files.ts';
import { type ListedFile, manifestSchemaText, manifestText } from '../../pipeline/press/manifest-file.ts';
import { countFigureLayouts, type FigureToWrite, writeFigure } from '../../pipeline/press/press-figures.ts';
import { recordFiles } from '../../pipeline/press/recorder.ts';
import type { House, Publication } from '../../pipeline/result/result.ts';
import { houseFixture, testFixture } from '../result/fixture.ts';

let lettering: Lettering;
beforeAll(async () => {
  lettering = await loadLettering();
});

const TEST = testFixture();
const figureOf = (kind: FigureKind, number?: number): FigureToWrite => {
  const choice = { startRule: 'first-movement' } as const;
  return {
    kind,
    choice,
    key: kind,
    name: kind,
    ...(number === undefined ? {} : { number }),
    made: FIGURES[kind].make(TEST, houseFixture(), choice) as MadeFigure,
  };
};

async function written(figure: FigureToWrite, house: House) {
  const files = new Map<string, Buffer>();
  const recorder = recordFiles('press/day', async (path, content) => {
    files.set(path, Buffer.from(content as string));
  });
  let drawn = 0;
  const press = await writeFigure(
    'press/day/figures',
    `01-${figure.kind}`,
    figure,
    house,
    lettering,
    recorder,
    () => drawn++,
  );
  return { files, press, drawn, list: recorder.list() };
}

/** One layout's worth of paper and no crops: what every test of a file needs, and no more. */
const PLAIN: House = { ...houseFixture(), press: { papers: ['light'], crops: 'none' } };

describe('which pictures a press folder holds', () => {
  const suffixes = (press: House['press'], inArticle: boolean) =>
    wantedPictures(press === undefined ? {} : { press }, { inArticle }).map(({ suffix }) => suffix);
  const PAGES = ['wide', 'wide-dark', 'narrow', 'narrow-dark', 'print', 'print-mono'];
  const SOCIAL = ['social-1x1', 'social-4x5', 'social-9x16', 'social-16x9'];

  it('is every page layout on its papers, and the social pictures of what the article shows', () => {
    expect(suffixes(undefined, true)).toEqual([...PAGES, ...SOCIAL]);
    expect(suffixes(undefined, false)).toEqual(PAGES);
  });

  it('is less in a further language, where nobody asks for more', () => {
    const further = { mainLanguage: 'en-GB', press: {} };
    expect(wantedPictures(further, { inArticle: true }).map(({ suffix }) => suffix)).toEqual([
      'wide',
      'narrow',
      'print',
    ]);
    expect(wantedPictures({ ...further, press: { crops: 'all' } }, { inArticle: false })).toHaveLength(7);
  });

  it('is what house.yaml asks for, light always', () => {
    expect(suffixes({ papers: ['dark'] }, false)).toEqual([
      'wide',
      'wide-dark',
      'narrow',
      'narrow-dark',
      'print',
    ]);
    expect(suffixes({ papers: ['mono'], crops: 'all' }, false)).toEqual([
      'wide',
      'narrow',
      'print',
      'print-mono',
      ...SOCIAL,
    ]);
    expect(suffixes({ papers: ['light'], crops: 'none' }, true)).toEqual(['wide', 'narrow', 'print']);
  });
});

describe('the files of a figure', () => {
  it('are one folder whose names begin alike, with a PDF page, a piece of HTML and both kinds of letters', async () => {
    const figure = figureOf('braking', 1);
    const { files, press, drawn } = await written(figure, houseFixture());
    const names = [...files.keys()];
    expect(names.every(name => name.startsWith('press/day/figures/01-braking/01-braking'))).toBe(true);
    const endings = names.map(name => name.replace('press/day/figures/01-braking/01-braking', '')).sort();
    const pages = ['narrow', 'print', 'wide'];
    const otherPapers = ['narrow-dark', 'print-mono', 'wide-dark'];
    const social = ['social-16x9.png', 'social-1x1.png', 'social-4x5.png', 'social-9x16.png'];
    expect(endings).toEqual(
      [
        '.html',
        '.pdf',
        ...pages.flatMap(page => ['.svg', '-text.svg', '.png', '-2x.png'].map(end => `-${page}${end}`)),
        ...otherPapers.flatMap(page => ['.svg', '-text.svg', '-2x.png'].map(end => `-${page}${end}`)),
        ...social.map(name => `-${name}`),
      ].sort(),
    );
    expect(drawn).toBe(countFigureLayouts(figure, houseFixture()));
    expect(files.has(press.pdf!) && files.has(press.snippet!) && files.has(press.png.path)).toBe(true);
  });

  it('are those that the pages of the site show, and no other, where house.yaml asks for no more', async () => {
    const house: House = { ...houseFixture(), press: { files: 'pages', crops: 'none' } };
    const figure = figureOf('braking');
    const { files, press } = await written(figure, house);
    expect([...files.keys()].map(path => path.slice(path.lastIndexOf('-'))).sort()).toEqual(
      ['-2x.png', '-narrow.svg', '-wide.svg'].sort(),
    );
    expect(press).not.toHaveProperty('pdf');
    for (const { path } of [press.files.wide, press.files.narrow, press.png])
      expect([path, files.has(path)]).toEqual([path, true]);
  });

  it('come as WebP and AVIF where house.yaml asks for them, and the HTML offers those first', async () => {
    const house: House = { ...houseFixture(), press: { ...PLAIN.press, formats: ['webp', 'avif'] } };
    const { files, press } = await written(figureOf('braking'), house);
    for (const format of ['webp', 'avif', 'png']) {
      const bytes = files.get(`press/day/figures/01-braking/01-braking-narrow-2x.${format}`)!;
      expect((await sharp(bytes).metadata()).width).toBe(720);
    }
    const html = files.get(press.snippet!)!.toString();
    expect([...html.matchAll(/type="image\/(\w+)"/g)].map(match => match[1])).toEqual([
      'avif',
      'webp',
      'png',
      'avif',
      'webp',
    ]);
  });

  it('are the same bytes when they are made again', async () => {
    const [one, other] = [
      await written(figureOf('braking'), PLAIN),
      await written(figureOf('braking'), PLAIN),
    ];
    expect([...one.files.keys()]).toEqual([...other.files.keys()]);
    for (const [path, bytes] of one.files) expect(bytes.equals(other.files.get(path)!), path).toBe(true);
    expect(one.list).toEqual(other.list);
  });
});

describe('the list of a press folder', () => {
  const PUBLICATION: Publication = {
    house: houseFixture(),
    cars: [],
    roads: [],
    tests: [TEST],
    methodologyMarkdown: '',
    problems: [],
  };
  const valid = new Ajv2020().compile(JSON.parse(manifestSchemaText()));

  it('names every file once, in order, with size, hash and pixels that are true', async () => {
    const { files, list } = await written(figureOf('speed-over-time', 1), PLAIN);
    expect(list.map(({ path }) => `press/day/${path}`)).toEqual([...files.keys()].sort());
    for (const { path, bytes, sha256, media_type, width_px, height_px } of list) {
      const content = files.get(`press/day/${path}`)!;
      expect(content.byteLength).toBe(bytes);
      expect(createHash('sha256').update(content).digest('hex')).toBe(sha256);
      if (!media_type.startsWith('image/')) continue;
      const found = await sharp(content).metadata();
      expect([found.width, found.height], path).toEqual([width_px, height_px]);
    }
  });

  it('says of each what it shows, its alternative text, start rule and how many attempts', async () => {
    const figure = figureOf('speed-over-time', 1);
    const { list } = await written(figure, PLAIN);
    for (const file of list) {
      expect(file).toMatchObject({
        alt_text: figure.made.altText,
        figure: '01-speed-over-time',
        figure_number: 1,
        start_rule: 'first-movement',
      });
      expect(file.shows).toContain(figure.made.title);
      expect(file.attempts).toBeGreaterThan(0);
      expect(file.attempts_kept).toBeLessThanOrEqual(file.attempts!);
    }
    const stops = await written(figureOf('braking'), PLAIN);
    expect(stops.list.every(file => file.start_rule === undefined)).toBe(true);
  });

  it('keeps to its published schema (JSON Schema 2020-12, checked by Ajv)', async () => {
    const { list } = await written(figureOf('braking'), PLAIN);
    const manifest = JSON.parse(manifestText(TEST, PUBLICATION, 'press/day', list));
    expect(manifest.$schema).toBe('../manifest.schema.json');
    expect(valid(manifest), JSON.stringify(valid.errors)).toBe(true);
    expect(valid({ ...manifest, files: [{ ...manifest.files[0], sha256: 'abc' }] })).toBe(false);
  });

  it('refuses a file of which nobody says what it is', async () => {
    const recorder = recordFiles('press/day', async () => {});
    await recorder.write('press/day/a.csv', 'a,b');
    expect(() => recorder.list()).toThrow(/a\.csv/);
    recorder.describe('press/day/a.csv', { kind: 'table', shows: 'Two letters' });
    expect(recorder.list()).toEqual<ListedFile[]>([
      {
        path: 'a.csv',
        kind: 'table',
        shows: 'Two letters',
        media_type: 'text/csv',
        bytes: 3,
        // By sha256sum (GNU coreutils).
        sha256: '1eb7c54d52831bbfe8942af0b1c56b7409523a59ed6ca99c1174fef7eb32c1b5',
      },
    ]);
  });
});
