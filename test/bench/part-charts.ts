/**
 * The demo's figures from their specifications, beside vega-lite's compiler and vega's dataflow on the same
 * specifications one after another: a part of `npm run bench`.
 *
 * Nothing is kept from one run of ours to the next: each begins with lettering that has measured and outlined no text
 * yet, as a build does. Both sides warm up as often, and give pictures of the same size; where they do not, the part
 * stops. The plain side measures text by vega's own estimate, ours by the font.
 */
import sharp from 'sharp';
import * as vega from 'vega';
import { compile, type TopLevelSpec } from 'vega-lite';
import { type MadeFigure, PAGE_LAYOUTS, type PageLayout } from '../../pipeline/figure/figure.ts';
import { FIGURES } from '../../pipeline/figure/figures.ts';
import { renderFigurePng } from '../../pipeline/figure/formats.ts';
import { outlineText } from '../../pipeline/figure/outline-text.ts';
import { drawPlot, renderFigure } from '../../pipeline/figure/render.ts';
import { parseSvg, serialiseSvg } from '../../pipeline/figure/svg-tree.ts';
import { vegaConfig } from '../../pipeline/figure/theme.ts';
import { loadLettering } from '../../pipeline/lettering/fonts.ts';
import { loadPublication } from '../../pipeline/pipeline.ts';
import { report, reportPeak } from './part.ts';
import { sideBySide } from './side-by-side.ts';

/** Exported by vega but absent from its types; drawing ours puts the fonts' widths there for the whole process. */
const { textMetrics } = vega as unknown as { readonly textMetrics: { width: unknown } };
const ownEstimate = textMetrics.width;

const publication = await loadPublication(process.cwd());
const rule = { startRule: publication.house.headline_start_rule };
const figures = publication.tests.flatMap(test =>
  Object.values(FIGURES)
    .map(figure =>
      figure.make(
        test,
        publication.house,
        rule,
        publication.tests.filter(other => other !== test),
      ),
    )
    .filter((made): made is MadeFigure => !('reason' in made)),
);
const plots = figures.flatMap(made =>
  PAGE_LAYOUTS.map(layout => ({ made, layout, spec: made.spec[layout] as TopLevelSpec })),
);

let lettering = await loadLettering();
const afresh = async (): Promise<void> => {
  lettering = await loadLettering();
};
const estimate = (): void => {
  textMetrics.width = ownEstimate;
};

async function plainSvg(spec: TopLevelSpec, layout: PageLayout): Promise<string> {
  const compiled = compile(spec, { config: vegaConfig(layout) }).spec;
  const view = new vega.View(vega.parse(compiled), { renderer: 'none' });
  const svg = await view.toSVG();
  view.finalize();
  return svg;
}

const ROUNDS = 7;
/** Texts are measured in two ways, which moves what hangs on them by a pixel or so. */
const ALIKE_PX = 12;
for (const { layout, spec } of plots) {
  const sizeOf = (svg: string): readonly number[] => {
    const { width, height } = parseSvg(svg).attributes;
    return [Number(width), Number(height)];
  };
  const ours = sizeOf(await drawPlot(spec, layout, lettering));
  estimate();
  const plain = sizeOf(await plainSvg(spec, layout));
  if (ours.some((px, i) => !(Math.abs(px - plain[i]!) <= ALIKE_PX)))
    throw new Error(`A ${layout} plot is ${ours.join('×')} px by ours and ${plain.join('×')} px plainly.`);
}

const count = `${plots.length} plots: ${figures.length} figures, wide, narrow and print`;
report(
  'Charts',
  `${count}, from specification to SVG`,
  await sideBySide(
    [
      {
        name: 'ours: the plot, text measured by its font',
        before: afresh,
        run: async () => {
          for (const { spec, layout } of plots) await drawPlot(spec, layout, lettering);
        },
      },
      {
        name: 'plain compile and render, one after another',
        before: estimate,
        run: async () => {
          for (const { spec, layout } of plots) await plainSvg(spec, layout);
        },
      },
      {
        name: 'ours with title, foot and all text outlined too',
        before: afresh,
        run: async () => {
          for (const { made, layout } of plots) await renderFigure(made, layout, lettering);
        },
      },
    ],
    ROUNDS,
    2,
  ),
);

const SCALE = 2;
const wide = plots.filter(({ layout }) => layout === 'wide');
report(
  'Charts as pixels',
  `${wide.length} plots, wide, from specification to SVG and PNG at ${SCALE}×; one rasteriser, pictures of one size`,
  await sideBySide(
    [
      {
        name: 'ours: text outlined, colours in a table, side by side',
        before: afresh,
        run: () =>
          Promise.all(
            wide.map(async ({ spec, layout }) => {
              const plot = parseSvg(await drawPlot(spec, layout, lettering));
              return renderFigurePng(serialiseSvg(outlineText(plot, lettering)), SCALE);
            }),
          ),
      },
      {
        name: 'plain compile and render, one after another',
        before: estimate,
        run: async () => {
          for (const { spec, layout } of wide) {
            const svg = await plainSvg(spec, layout);
            await sharp(new TextEncoder().encode(svg), { density: 72 * SCALE })
              .removeAlpha()
              .png()
              .toBuffer();
          }
        },
      },
    ],
    3,
  ),
);
reportPeak();
