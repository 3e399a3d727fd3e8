import type { TopLevelSpec } from 'vega-lite';
import { beforeAll, describe, expect, it } from 'vitest';
import { drawByDataflow } from '../../pipeline/figure/dataflow.ts';
import { FIGURE_LAYOUTS, type MadeFigure } from '../../pipeline/figure/figure.ts';
import { FIGURES } from '../../pipeline/figure/figures.ts';
import { drawStill } from '../../pipeline/figure/still-plot.ts';
import { parseSvg, serialiseSvg, tidySvg } from '../../pipeline/figure/svg-tree.ts';
import { loadLettering } from '../../pipeline/lettering/fonts.ts';
import type { Lettering } from '../../pipeline/lettering/lettering.ts';
import { houseFixture, testFixture } from '../result/fixture.ts';

let lettering: Lettering;
beforeAll(async () => {
  lettering = await loadLettering();
});

/** Every mark of a plot with its size, roles and names left out. */
function marksOf(svg: string): string {
  const plot = parseSvg(svg);
  const marks = plot.children.flatMap(child =>
    typeof child === 'string' || child.name === 'rect' ? [] : tidySvg(child),
  );
  return [plot.attributes.width, plot.attributes.height, ...marks.map(serialiseSvg)]
    .join('\n')
    .replaceAll('><', '>\n<');
}

const MADE = Object.values(FIGURES).flatMap(figure => {
  const test = testFixture();
  const other = { ...test, id: 'other', car: { ...test.car, id: 'teasel', name: 'Wendover Teasel' } };
  const made = figure.make(test, houseFixture(), { startRule: 'first-movement' }, [other]);
  return 'reason' in made ? [] : [[figure.kind, made] as const];
});

describe('a plot drawn without a dataflow', () => {
  it.each(MADE)(
    '%s is what vega-lite and vega draw of it, byte for byte, in every layout',
    async (_, made) => {
      for (const layout of FIGURE_LAYOUTS) {
        const spec = (made as MadeFigure).spec[layout];
        // First: it measures text with the lettering, which the other then does too.
        const measure = marksOf(await drawByDataflow(spec, layout, lettering));
        const still = drawStill(spec, layout);
        expect(still === undefined ? 'declined' : marksOf(still), layout).toBe(measure);
      }
    },
  );

  it('declines what it does not know: another mark, word or row, and numbers that touch', () => {
    const [, made] = MADE[0]!;
    const spec = made.spec.wide as unknown as { layer: object[]; encoding: { x: { axis: object } } };
    const declined = (other: object) => drawStill(other as TopLevelSpec, 'wide') === undefined;
    expect(declined(spec)).toBe(false);
    const layer = { mark: { type: 'rule' }, data: { values: [{ x: 0, y: 0 }] } };
    expect(declined({ ...spec, layer: [layer] })).toBe(false);
    expect(declined({ ...spec, layer: [{ ...layer, mark: { type: 'arc' } }] })).toBe(true);
    expect(declined({ ...spec, layer: [{ ...layer, mark: { type: 'rule', cornerRadius: 3 } }] })).toBe(true);
    expect(declined({ ...spec, layer: [{ ...layer, encoding: { size: { value: 3 } } }] })).toBe(true);
    expect(declined({ ...spec, layer: [{ ...layer, data: { values: [{ x: null, y: 0 }] } }] })).toBe(true);
    expect(declined({ ...spec, config: {} })).toBe(true);
    const many = Array.from({ length: 200 }, (_, i) => i / 20);
    const axis = {
      title: null,
      values: many,
      labelExpr: `${JSON.stringify(many.map(String))}[indexof(${JSON.stringify(many)}, datum.value)]`,
    };
    expect(declined({ ...spec, encoding: { ...spec.encoding, x: { ...spec.encoding.x, axis } } })).toBe(true);
  });
});
