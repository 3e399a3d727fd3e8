/**
 * The parts of vega that draw, without the rest: its marks, bounds, SVG, measure of text and straight scale. The whole
 * of vega takes longer to load than a figure to draw.
 */
// @ts-expect-error no types come with it
import * as scales from 'vega-scale';
// @ts-expect-error no types come with it
import * as scenegraph from 'vega-scenegraph';

interface MarkType {
  /** Line and area lie on one mark of all their items. */
  readonly nested: boolean;
  bound(bounds: Box, item: unknown): Box;
}
export interface Box {
  readonly x1: number;
  readonly y1: number;
  readonly x2: number;
  readonly y2: number;
  union(other: Box): Box;
  add(x: number, y: number): Box;
  translate(x: number, y: number): Box;
  set(x1: number, y1: number, x2: number, y2: number): Box;
}
/** One mark of a scenegraph. */
export interface SceneMark {
  readonly marktype: string;
  readonly items: readonly object[];
}
/** A text mark as far as its width depends on it. */
interface MeasuredText {
  readonly font?: string;
  readonly fontWeight?: string | number;
  readonly fontSize?: number;
  readonly limit?: number;
}
export type Scale = (value: number) => number;

export const { Marks, Bounds, SVGStringRenderer, sceneFromJSON, textMetrics } = scenegraph as {
  readonly Marks: Readonly<Record<string, MarkType>>;
  readonly Bounds: new () => Box;
  readonly SVGStringRenderer: new () => {
    initialize(element: null, width: number, height: number, origin: readonly [number, number]): void;
    render(scene: unknown): void;
    svg(): string;
  };
  sceneFromJSON(json: unknown): unknown;
  /** One for the whole process. */
  readonly textMetrics: { width: (item: MeasuredText, text: unknown) => number };
};

const { scale } = scales as {
  scale(type: 'linear'): () => { domain(of: unknown): { range(of: unknown): Scale } };
};
export const linearScale = scale('linear');
