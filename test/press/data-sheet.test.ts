import { beforeAll, describe, expect, it } from 'vitest';
import { keyFigures } from '../../pipeline/article/key-figures.ts';
import { FIGURES } from '../../pipeline/figure/figures.ts';
import { pathSegments } from '../../pipeline/figure/path-data.ts';
import { parseSvg, type SvgNode } from '../../pipeline/figure/svg-tree.ts';
import { loadLettering } from '../../pipeline/lettering/fonts.ts';
import type { Lettering } from '../../pipeline/lettering/lettering.ts';
import { dataSheetPage, testToDataSheet } from '../../pipeline/press/data-sheet.ts';
import { cautionOf } from '../../pipeline/result/caution.ts';
import { type GalleryCase, galleryCases, inLanguage } from '../gallery/cases.ts';

let lettering: Lettering;
beforeAll(async () => {
  lettering = await loadLettering();
});

const CASES = galleryCases()
  .filter(({ id }) => ['plain', 'long-names', 'changing-day'].includes(id))
  .flatMap(one => [one, inLanguage(one, 'de-DE')])
  .map(one => [`${one.id}, ${one.house.language}`, one] as const);

const figureOf = ({ test, house }: GalleryCase) => {
  const made = FIGURES['speed-over-time'].make(test, house, { startRule: house.headline_start_rule });
  if ('reason' in made) throw new Error(made.reason);
  return made;
};
const pageOf = (one: GalleryCase) => dataSheetPage(one.test, one.house, figureOf(one), lettering);

/** Outlines of the letters that stand on the page itself, in hundredths of a px. */
function lettersOn(svg: string): readonly string[] {
  const { children } = parseSvg(svg);
  return children.flatMap((node: SvgNode) =>
    typeof node !== 'string' && node.name === 'path' && node.attributes.transform === 'scale(0.01)'
      ? [node.attributes.d!]
      : [],
  );
}

describe.each(CASES)('the data sheet of %s', (_name, one) => {
  it('is one page of A4 that nothing leaves', async () => {
    const page = await pageOf(one);
    expect((page.widthPx * 72) / 96 + 36).toBeCloseTo((210 / 25.4) * 72, 6);
    expect((page.heightPx * 72) / 96 + 36).toBeCloseTo((297 / 25.4) * 72, 6);
    const letters = lettersOn(page.svgOutlined);
    expect(letters.length).toBeGreaterThan(60);
    for (const d of letters) {
      const points = pathSegments(d).flatMap(segment => (segment.to === 'Z' ? [] : segment.points));
      const [across, down] = [0, 1].map(axis => points.filter((_, index) => index % 2 === axis));
      expect(Math.min(...across!, ...down!)).toBeGreaterThanOrEqual(0);
      expect(Math.max(...across!)).toBeLessThanOrEqual(page.widthPx * 100);
      expect(Math.max(...down!)).toBeLessThanOrEqual(page.heightPx * 100);
    }
  });

  it('holds every key figure with its uncertainty and both start rules, and the cautions whole', async () => {
    const { altText } = await pageOf(one);
    const said = altText.replace(/\s+/g, ' ');
    for (const { label, best, byRule } of keyFigures(one.test, one.house)) {
      expect(said).toContain(label);
      for (const printed of byRule === undefined ? [best] : Object.values(byRule)) {
        expect(said).toContain(`${printed.text} ${printed.uncertainty}`.replace(/\s+/g, ' '));
      }
    }
    expect(said).toContain(cautionOf(one.house).replace(/\s+/g, ' '));
    expect(said).toContain(one.house.language === 'de-DE' ? 'Nach einem Fuß' : 'After one foot');
    expect(said).toContain('JCGM 100');
  });
});

describe('the data sheet', () => {
  it('is one PDF page, and the same bytes twice', async () => {
    const [one] = galleryCases();
    const twice = await Promise.all(
      [0, 1].map(() => testToDataSheet(one!.test, one!.house, figureOf(one!), lettering)),
    );
    expect(Buffer.from(twice[0]!).equals(Buffer.from(twice[1]!))).toBe(true);
    const text = Buffer.from(twice[0]!).toString('latin1');
    expect(text).toMatch(/\/Count 1\b/);
    expect(text).toMatch(/\/MediaBox \[0 0 595\.276 841\.89\]/);
  });

  it('stands without a figure where a day has none', async () => {
    const [one] = galleryCases();
    const { altText } = await dataSheetPage(one!.test, one!.house, undefined, lettering);
    expect(altText).not.toContain(figureOf(one!).altText);
  });
});
