import { beforeAll, describe, expect, it } from 'vitest';
import {
  CROP_SIZE,
  FIGURE_LAYOUTS,
  type FigureLayout,
  isCrop,
  type MadeFigure,
} from '../../pipeline/figure/figure.ts';
import { FIGURE_KINDS, FIGURES } from '../../pipeline/figure/figures.ts';
import { renderCrop } from '../../pipeline/figure/render.ts';
import { layOutStill } from '../../pipeline/figure/still-plot.ts';
import { parseSvg } from '../../pipeline/figure/svg-tree.ts';
import { plotWidthPx } from '../../pipeline/figure/theme.ts';
import { loadLettering } from '../../pipeline/lettering/fonts.ts';
import type { Lettering } from '../../pipeline/lettering/lettering.ts';
import { demoPublication } from '../demo.ts';
import { dataflowBoxes, overlaps, type TextBox, textBoxes } from '../figure/scene.ts';
import { choiceOf, galleryCases, inLanguage } from './cases.ts';
import { indexHtml } from './page.ts';
import { pictureAt, picturesOf } from './pictures.ts';

const publication = await demoPublication();
const CASES = galleryCases(publication);
/** German words are longer: the same labels again, in the awkward cases, one demo test among them. */
const GERMAN = CASES.filter(
  ({ id }, index) => ['plain', 'eight', 'ten', 'long-names', 'changing-day'].includes(id) || index === 6,
).map(one => inLanguage(one, 'de-DE'));

let lettering: Lettering;
beforeAll(async () => {
  lettering = await loadLettering();
});

/** What a plot laid out holds, and what was complained of. */
interface Seen {
  readonly complaints: readonly string[];
  readonly boxes: readonly Omit<TextBox, 'item'>[];
}
/** Cases share plots that their awkwardness does not reach: the same specification in the same layout is seen once. */
const seen = new Map<string, Seen>();
async function lookAt(made: MadeFigure, layout: FigureLayout): Promise<Seen> {
  const key = `${layout} ${JSON.stringify(made.spec[layout])}`;
  const known = seen.get(key);
  if (known !== undefined) return known;
  const still = layout === BY_DATAFLOW ? undefined : layOutStill(made.spec[layout], layout);
  const one =
    still === undefined
      ? await lookAtDataflow(made, layout)
      : { complaints: [], boxes: withoutItems(textBoxes(still)) };
  seen.set(key, one);
  return one;
}

const withoutItems = (boxes: readonly TextBox[]): Seen['boxes'] => boxes.map(({ item: _, ...box }) => box);

/** The first layout, and the one that vega's dataflow lays out too: to hear complaints, and to hold ours to it. */
const BY_DATAFLOW: FigureLayout = 'narrow';

async function lookAtDataflow(made: MadeFigure, layout: FigureLayout): Promise<Seen> {
  const complaints: string[] = [];
  const complain = (message: string) => complaints.push(message);
  const boxes = withoutItems(await dataflowBoxes(made.spec[layout], layout, lettering, complain));
  // After vega, which is told then how to measure text.
  const still = layOutStill(made.spec[layout], layout);
  if (still !== undefined) expect(withoutItems(textBoxes(still))).toEqual(boxes);
  return { complaints, boxes };
}

describe.each([...CASES, ...GERMAN].map(one => [one.id, one.house.language, one] as const))(
  'gallery case %s in %s',
  (_id, _language, one) => {
    const figures = FIGURE_KINDS.flatMap(kind => {
      const made = FIGURES[kind].make(one.test, one.house, choiceOf(one), one.others);
      return 'reason' in made ? [] : [[kind, made] as readonly [string, MadeFigure]];
    });

    it.each(figures)(
      '%s: labels apart and on the paper in every layout, without a complaint',
      async (kind, made) => {
        for (const layout of FIGURE_LAYOUTS) {
          const where = `${kind} ${layout}`;
          const { complaints, boxes } = await lookAt(made, layout);
          expect([where, ...complaints]).toEqual([where]);
          expect([where, ...overlaps(boxes, 1.5)]).toEqual([where]);
          const width = Math.max(...boxes.map(({ x2 }) => x2)) - Math.min(...boxes.map(({ x1 }) => x1));
          expect(width, where).toBeLessThanOrEqual(plotWidthPx(layout) + 1.5);
        }
      },
    );

    it('crops keep title, plot and foot apart, one under the other and inside the picture', async () => {
      for (const [kind, made] of figures) {
        for (const layout of FIGURE_LAYOUTS.filter(isCrop)) {
          const picture = await renderCrop(made, layout, lettering);
          if ('reason' in picture) continue;
          const lines = parseSvg(picture.svg)
            .children.flatMap(child =>
              typeof child !== 'string' && child.name === 'text' ? [child.attributes] : [],
            )
            .map(({ y, 'font-size': size }) => ({ y: Number(y), size: Number(size) }));
          for (const [index, { y, size }] of lines.entries()) {
            const before = lines[index - 1];
            if (before !== undefined)
              expect(y - before.y, `${kind} ${layout}`).toBeGreaterThanOrEqual(size * 0.95);
            expect(y + size * 0.3, `${kind} ${layout}`).toBeLessThanOrEqual(CROP_SIZE[layout].heightPx);
          }
        }
      }
    });
  },
);

describe('the gallery itself', () => {
  it('shows every figure, table and overlay, each picture at an address that can be drawn', async () => {
    const page = indexHtml(CASES, 'light');
    for (const kind of FIGURE_KINDS) expect(page).toContain(`>${kind}<`);
    const pictures = CASES.slice(0, 1).flatMap(picturesOf);
    expect(pictures.length).toBeGreaterThan(FIGURE_KINDS.length * FIGURE_LAYOUTS.length - 8);
    const [figure] = pictures.filter(address => address.startsWith('figure/'));
    const [overlay] = pictures.filter(address => address.startsWith('overlay/'));
    for (const address of [figure!, overlay!]) {
      expect(page).toContain(address);
      expect(await pictureAt(address, CASES, lettering)).toMatch(/^<svg /);
    }
    expect(await pictureAt('figure/plain/no-such/wide-light.svg', CASES, lettering)).toBeUndefined();
  });
});
