/** What a laid-out plot holds, as boxes: for tests of labels. */
import type { View } from 'vega';
import type { TopLevelSpec } from 'vega-lite';
import { layOutPlot } from '../../pipeline/figure/dataflow.ts';
import type { FigureLayout } from '../../pipeline/figure/figure.ts';
import { measureTextWith } from '../../pipeline/figure/measure-text.ts';
import { boundsOf, layOutStill, type StillPlot } from '../../pipeline/figure/still-plot.ts';
import type { Lettering } from '../../pipeline/lettering/lettering.ts';

export interface TextBox {
  readonly text: string;
  readonly x1: number;
  readonly y1: number;
  readonly x2: number;
  readonly y2: number;
  /** Advance as vega's own bounds have it, before rotation; these plots rotate nothing. */
  readonly widthPx: number;
  readonly item: SceneText;
}

interface SceneText {
  readonly text?: unknown;
  readonly font?: string;
  readonly fontSize?: number;
  readonly fontWeight?: string | number;
  readonly limit?: number;
  readonly stroke?: string;
  readonly opacity?: number;
}

interface SceneNode extends SceneText {
  readonly marktype?: string;
  readonly items?: readonly SceneNode[];
  readonly x?: number;
  readonly y?: number;
  readonly bounds?: { readonly x1: number; readonly y1: number; readonly x2: number; readonly y2: number };
}

/** Every text that is drawn, in the coordinates of the plot's data rectangle; haloes behind letters left out. */
export function textBoxes(plot: View | StillPlot): readonly TextBox[] {
  const boxes: TextBox[] = [];
  const walk = (node: SceneNode, dx: number, dy: number): void => {
    if (node.marktype === 'text') {
      for (const item of node.items ?? []) {
        const text = String(item.text ?? '');
        if (text === '' || item.opacity === 0 || item.stroke !== undefined) continue;
        const bounds = item.bounds ?? boundsOf({ marktype: 'text', items: [item] });
        boxes.push({
          text,
          x1: bounds.x1 + dx,
          y1: bounds.y1 + dy,
          x2: bounds.x2 + dx,
          y2: bounds.y2 + dy,
          widthPx: bounds.x2 - bounds.x1,
          item,
        });
      }
      return;
    }
    const group = node.marktype === undefined && node.items !== undefined;
    for (const child of node.items ?? []) {
      walk(child, dx + (group ? (node.x ?? 0) : 0), dy + (group ? (node.y ?? 0) : 0));
    }
  };
  const frame =
    'frame' in plot
      ? (plot.frame as SceneNode)
      : (plot.scenegraph() as unknown as { readonly root: SceneNode }).root.items?.[0];
  for (const child of frame?.items ?? []) walk(child, 0, 0);
  return boxes;
}

/** The texts of a plot laid out as pages draw it: without a dataflow where that goes. */
export async function plotBoxes(
  spec: TopLevelSpec,
  layout: FigureLayout,
  lettering: Lettering,
): Promise<readonly TextBox[]> {
  measureTextWith(lettering);
  const still = layOutStill(spec, layout);
  return still === undefined ? await dataflowBoxes(spec, layout, lettering) : textBoxes(still);
}

/**
 * The texts of a plot laid out by vega's dataflow.
 * @param complain hears what vega-lite and vega have to say of the specification
 */
export async function dataflowBoxes(
  spec: TopLevelSpec,
  layout: FigureLayout,
  lettering: Lettering,
  complain?: (message: string) => void,
): Promise<readonly TextBox[]> {
  const view = await layOutPlot(spec, layout, lettering, complain);
  const boxes = textBoxes(view);
  view.finalize();
  return boxes;
}

/** Pairs of boxes that share more than a hair of both width and height. */
export function overlaps(boxes: readonly Omit<TextBox, 'item'>[], slackPx = 1): readonly string[] {
  return boxes.flatMap((a, i) =>
    boxes
      .slice(i + 1)
      .filter(
        b =>
          Math.min(a.x2, b.x2) - Math.max(a.x1, b.x1) > slackPx &&
          Math.min(a.y2, b.y2) - Math.max(a.y1, b.y1) > slackPx,
      )
      .map(b => `‘${a.text}’ on ‘${b.text}’`),
  );
}
