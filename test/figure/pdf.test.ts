import { inflateSync } from 'node:zlib';
import { beforeAll, describe, expect, it } from 'vitest';
import type { MadeFigure } from '../../pipeline/figure/figure.ts';
import { FIGURES } from '../../pipeline/figure/figures.ts';
import { figuresToPdf, type PdfPage } from '../../pipeline/figure/pdf.ts';
import { svgToPageContent } from '../../pipeline/figure/pdf-content.ts';
import { figurePdfPage } from '../../pipeline/figure/pdf-page.ts';
import { parseSvg } from '../../pipeline/figure/svg-tree.ts';
import { loadLettering } from '../../pipeline/lettering/fonts.ts';
import type { Lettering } from '../../pipeline/lettering/lettering.ts';
import { houseFixture, testFixture } from '../result/fixture.ts';

const INFO = { title: 'Figures of a day – “first”', language: 'en-GB' };
const square = (fill: string): PdfPage => ({
  svgOutlined: `<svg width="96" height="96"><path d="M0,0H96V96H0Z" fill="${fill}"/></svg>`,
  widthPx: 96,
  heightPx: 96,
  altText: 'A square',
});

/** Objects by number, read through the table of places at the end, as a reader does. */
function readPdf(bytes: Uint8Array): {
  readonly objects: ReadonlyMap<number, Buffer>;
  readonly trailer: string;
} {
  const file = Buffer.from(bytes);
  const start = Number(/startxref\n(\d+)\n%%EOF\n$/.exec(file.toString('latin1'))?.[1]);
  const table = file.subarray(start).toString('latin1');
  const lines = table.split('\n');
  expect(lines[0]).toBe('xref');
  const count = Number(lines[1]!.split(' ')[1]);
  const places = lines.slice(3, 2 + count).map(line => {
    expect(line).toHaveLength(19);
    return Number(line.slice(0, 10));
  });
  const objects = new Map<number, Buffer>();
  for (const [index, place] of places.entries()) {
    const end = places[index + 1] ?? start;
    const body = file.subarray(place, end);
    expect(body.toString('latin1').startsWith(`${index + 1} 0 obj\n`)).toBe(true);
    objects.set(index + 1, body);
  }
  return { objects, trailer: table.slice(table.indexOf('trailer')) };
}

const contentOf = (object: Buffer): string => {
  const begins = object.indexOf('stream\n') + 'stream\n'.length;
  const length = Number(/\/Length (\d+)/.exec(object.toString('latin1'))![1]);
  return inflateSync(object.subarray(begins, begins + length)).toString('latin1');
};

describe('a PDF document', () => {
  it('is found through its own table: catalogue, pages, one picture a page', () => {
    const { objects, trailer } = readPdf(figuresToPdf([square('#ff0000'), square('#808080')], INFO));
    expect(trailer).toContain('/Root 1 0 R');
    expect(objects.get(1)!.toString('latin1')).toContain('/Type /Catalog /Pages 2 0 R');
    expect(objects.get(2)!.toString('latin1')).toContain('/Kids [6 0 R 9 0 R] /Count 2');
    // 96 px are an inch, 72 pt; 18 pt of margin on each side.
    expect(objects.get(6)!.toString('latin1')).toContain('/MediaBox [0 0 108 108]');
  });

  it('draws colours in red, green and blue, and greys on the black plate alone', () => {
    const { objects } = readPdf(figuresToPdf([square('#ff0000'), square('#808080')], INFO));
    expect(contentOf(objects.get(7)!)).toContain('1 0 0 rg\n0 0 m\n96 0 l\n96 96 l\n0 96 l\nh\nf');
    expect(contentOf(objects.get(10)!)).toContain('0.502 g\n');
  });

  it('carries the alternative text of each picture, its language and its title, in UTF-16', () => {
    const { objects } = readPdf(figuresToPdf([square('#ff0000')], INFO));
    const hex = Buffer.from('\ufeffA square', 'utf16le').swap16().toString('hex').toUpperCase();
    expect(objects.get(8)!.toString('latin1')).toContain(`/S /Figure /P 3 0 R /Pg 6 0 R /K 0 /Alt <${hex}>`);
    const title = /\/Title <([0-9A-F]+)>/.exec(objects.get(5)!.toString('latin1'))![1]!;
    expect(Buffer.from(title, 'hex').swap16().toString('utf16le')).toBe(`\ufeff${INFO.title}`);
  });

  it('holds no date, and comes out in the same bytes twice', () => {
    const [first, second] = [1, 2].map(() => Buffer.from(figuresToPdf([square('#123456')], INFO)));
    expect(Buffer.compare(first!, second!)).toBe(0);
    expect(first!.toString('latin1')).not.toMatch(/CreationDate|ModDate/);
    expect(Buffer.compare(first!, Buffer.from(figuresToPdf([square('#123457')], INFO)))).not.toBe(0);
  });

  it('refuses elements and moves it could only leave out', () => {
    for (const wrong of [
      '<svg><text>a</text></svg>',
      '<svg><g transform="skewX(3)"><path d="M0,0"/></g></svg>',
    ]) {
      expect(() => svgToPageContent(parseSvg(wrong)), wrong).toThrow(RangeError);
    }
    expect(() => figuresToPdf([], INFO)).toThrow(RangeError);
  });
});

describe('figures as pages', () => {
  let lettering: Lettering;
  beforeAll(async () => {
    lettering = await loadLettering();
  });
  const made = (): MadeFigure =>
    FIGURES.braking.make(testFixture(), houseFixture(), { startRule: 'first-movement' }) as MadeFigure;

  it('a printed column is in greys only, balanced in what it saves and restores', async () => {
    const page = await figurePdfPage(made(), lettering);
    const { objects } = readPdf(figuresToPdf([page], INFO));
    const operators = contentOf(objects.get(7)!).split('\n');
    expect(operators.filter(line => / (rg|RG)$/.test(line))).toEqual([]);
    expect(operators.filter(line => line === 'q')).toHaveLength(
      operators.filter(line => line === 'Q').length,
    );
    expect(operators.filter(line => line.includes('NaN'))).toEqual([]);
    expect(page.altText).toContain(made().caption);
  });

  it('its caption stands under the picture, inside the page', async () => {
    const [short, long] = await Promise.all(
      ['One line.', `${'Many words. '.repeat(40)}`].map(caption =>
        figurePdfPage(made(), lettering, { caption }),
      ),
    );
    expect(long!.heightPx).toBeGreaterThan(short!.heightPx + 40);
    expect(long!.widthPx).toBe(short!.widthPx);
  });
});
