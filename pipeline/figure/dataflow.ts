/** A plot by vega-lite's compiler and vega's dataflow: what `still-plot.ts` declines, and what it is held to. */
import * as vega from 'vega';
import { compile, type TopLevelSpec } from 'vega-lite';
import type { Lettering } from '../lettering/lettering.ts';
import type { FigureLayout } from './figure.ts';
import { measureTextWith } from './measure-text.ts';
import { vegaConfig } from './theme.ts';

/** Whatever vega-lite and vega had to say; a figure of ours gives them no reason. */
export type Complaint = (message: string) => void;

/** The vega specification of a plot, deterministic. */
export function compileSpec(
  spec: TopLevelSpec,
  layout: FigureLayout,
  complain: Complaint = () => {},
): vega.Spec {
  const told = (...messages: readonly unknown[]) => {
    complain(messages.map(String).join(' '));
    return logger;
  };
  const silent = () => logger;
  const logger = { level: silent, error: told, warn: told, info: silent, debug: silent };
  return compile(spec, { config: vegaConfig(layout), logger: logger as never }).spec;
}

/** The plot laid out, as a vega view; `complain` hears of warnings. */
export async function layOutPlot(
  spec: TopLevelSpec,
  layout: FigureLayout,
  lettering: Lettering,
  complain: Complaint = () => {},
): Promise<vega.View> {
  measureTextWith(lettering);
  const view = new vega.View(vega.parse(compileSpec(spec, layout, complain)), { renderer: 'none' });
  await view.runAsync();
  // A label inside the plot reaches farther out the narrower the plot gets: fitting once is not enough.
  for (let round = 0; round < MOST_FITTINGS; round += 1) {
    const before = view.width();
    await view.resize().runAsync();
    if (Math.abs(view.width() - before) < 0.5) break;
  }
  return view;
}

const MOST_FITTINGS = 12;

/** The SVG of a plot by vega-lite's compiler and vega's dataflow: the measure of `drawStill`. */
export async function drawByDataflow(
  spec: TopLevelSpec,
  layout: FigureLayout,
  lettering: Lettering,
): Promise<string> {
  const view = await layOutPlot(spec, layout, lettering);
  const svg = await view.toSVG();
  view.finalize();
  return svg;
}
