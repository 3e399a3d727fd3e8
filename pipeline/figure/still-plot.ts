/**
 * A plot drawn without a dataflow: nothing in a printed figure moves, so that its marks are put at their places once.
 *
 * Scales, marks, their bounds and the SVG are vega's own; only the order of the work is ours: what vega-lite would
 * compile, and vega would parse into operators that wait for a change, is set out directly. It draws what `plotSpec`
 * gives and declines anything else; a test holds it to vega's own picture, byte for byte.
 */
import type { TopLevelSpec } from 'vega-lite';
import type { FigureLayout } from './figure.ts';
import { type Axis, axisGroups } from './still-axes.ts';
import { vegaConfig } from './theme.ts';
import {
  Bounds,
  type Box,
  linearScale,
  Marks,
  type Scale,
  type SceneMark,
  SVGStringRenderer,
  sceneFromJSON,
} from './vega-parts.ts';

type Row = Readonly<Record<string, unknown>>;

interface PlotLayer {
  readonly mark: Readonly<Record<string, unknown>> & { readonly type: string };
  readonly encoding?: Readonly<Record<string, unknown>>;
  readonly data: { readonly values: readonly Row[] };
}
interface Channel {
  readonly scale: { readonly domain: readonly [number, number] };
  readonly axis: Axis | null;
}
interface Spec {
  readonly width: number;
  readonly height: number;
  readonly encoding: { readonly x: Channel; readonly y: Channel };
  readonly layer: readonly (PlotLayer | { readonly layer: readonly PlotLayer[] })[];
}

const MARKTYPE: Readonly<Record<string, string>> = {
  line: 'line',
  area: 'area',
  rule: 'rule',
  rect: 'rect',
  point: 'symbol',
  text: 'text',
};
/** Of a spec, a layer and its mark; a word that is not here is vega's business. */
const KNOWN = {
  spec: ['autosize', 'width', 'height', 'data', 'encoding', 'layer'],
  layer: ['mark', 'encoding', 'data'],
  encoding: ['x2', 'y2', 'order', 'text', 'color'],
  mark: [
    ...[
      'type',
      'color',
      'strokeDash',
      'strokeWidth',
      'strokeOpacity',
      'opacity',
      'shape',
      'size',
      'filled',
      'fill',
    ],
    ...[
      'stroke',
      'strokeJoin',
      'align',
      'baseline',
      'fontSize',
      'fontWeight',
      'dx',
      'dy',
      'limit',
      'xOffset',
      'x2Offset',
    ],
  ],
} as const;
const only = (object: object, known: readonly string[]): boolean =>
  Object.keys(object).every(key => known.includes(key));

/** A label that reaches beyond the plot narrows it, which moves the label: fitted until it stays. */
const MOST_FITTINGS = 13;

/** The plot's SVG as vega writes it; undefined where the spec holds something that `plotSpec` does not make. */
export function drawStill(given: TopLevelSpec, layout: FigureLayout): string | undefined {
  const plot = layOutStill(given, layout);
  if (plot === undefined) return undefined;
  const renderer = new SVGStringRenderer();
  renderer.initialize(null, plot.outerWidth, plot.outerHeight, plot.origin);
  renderer.render(sceneFromJSON({ marktype: 'group', items: [plot.frame] }));
  return renderer.svg();
}

/** A plot with everything at its place; px. */
export interface StillPlot {
  readonly outerWidth: number;
  readonly outerHeight: number;
  /** Of the data's rectangle, from the upper left corner. */
  readonly origin: readonly [number, number];
  /** The data's rectangle and all that is drawn, in its coordinates. */
  readonly frame: {
    readonly x: 0;
    readonly y: 0;
    readonly width: number;
    readonly height: number;
    readonly items: readonly SceneMark[];
  };
}

/** The plot laid out; undefined where `drawStill` declines. */
export function layOutStill(given: TopLevelSpec, layout: FigureLayout): StillPlot | undefined {
  const spec = given as unknown as Spec;
  if (!isPlain(spec)) return undefined;
  const config = vegaConfig(layout);
  const { height } = spec;
  const scaleY = scaleOf(spec.encoding.y, [height, 0]);
  let width = spec.width;
  let fitted = fitAt(spec, config, width, scaleY);
  for (let round = 0; round < MOST_FITTINGS; round += 1) {
    if (fitted === undefined) return undefined;
    const narrower = Math.max(0, spec.width - fitted.left - fitted.right);
    const moved = Math.abs(narrower - width);
    width = narrower;
    if (moved < 0.5) break;
    fitted = fitAt(spec, config, width, scaleY);
  }
  if (fitted === undefined) return undefined;
  const { left, top, bottom, marks } = fitted;
  return {
    outerWidth: spec.width,
    outerHeight: height + top + bottom,
    origin: [left, top],
    frame: { x: 0, y: 0, width, height, items: marks },
  };
}

const scaleOf = ({ scale }: Channel, range: readonly [number, number]): Scale =>
  linearScale().domain(scale.domain).range(range);

/** Layers within a layer are drawn in its place. */
const layersOf = ({ layer }: Spec): readonly PlotLayer[] =>
  layer.flatMap(one => ('layer' in one ? one.layer : [one]));

function isPlain(spec: Spec): boolean {
  if (!only(spec, KNOWN.spec) || spec.layer.some(one => 'layer' in one && !only(one, ['layer'])))
    return false;
  return layersOf(spec).every(({ mark, encoding = {}, data, ...rest }) => {
    if (Object.keys(rest).length > 0 || MARKTYPE[mark.type] === undefined) return false;
    if (!only(mark, KNOWN.mark) || !only(encoding, KNOWN.encoding)) return false;
    const rows = data.values;
    const places = ['x', 'y', ...['x2', 'y2'].filter(key => key in encoding)];
    if (!rows.every(row => places.every(key => Number.isFinite(row[key])))) return false;
    // Areas are sorted along x by vega-lite; ours are.
    return (
      mark.type !== 'area' ||
      rows.every((row, i) => i === 0 || (row.x as number) >= (rows[i - 1]!.x as number))
    );
  });
}

interface Fitted {
  readonly left: number;
  readonly right: number;
  readonly top: number;
  readonly bottom: number;
  readonly marks: readonly SceneMark[];
}

/** Everything at one width, and how far it reaches beyond the data's rectangle, whole px. */
function fitAt(
  spec: Spec,
  config: ReturnType<typeof vegaConfig>,
  width: number,
  scaleY: Scale,
): Fitted | undefined {
  const { height } = spec;
  const scaleX = scaleOf(spec.encoding.x, [0, width]);
  const bounds = new Bounds().set(0, 0, width, height);
  const axes = axisGroups(spec.encoding, { x: scaleX, y: scaleY }, { width, height }, config);
  if (axes === undefined) return undefined;
  for (const box of axes.bounds) bounds.union(box);
  const marks = layersOf(spec).map(layer => markOf(layer, scaleX, scaleY, config));
  for (const mark of marks) if (mark.items.length > 0) bounds.union(boundsOf(mark));
  const beyond = (px: number): number => Math.max(0, Math.ceil(px));
  return {
    left: beyond(-bounds.x1),
    top: beyond(-bounds.y1),
    right: beyond(bounds.x2 - width),
    bottom: beyond(bounds.y2 - height),
    marks: [...axes.marks, ...marks],
  };
}

/** Vega's own bounds of a mark's items together. */
export function boundsOf({ marktype, items }: SceneMark): Box {
  const type = Marks[marktype]!;
  if (type.nested) return type.bound(new Bounds(), { items });
  return items.reduce<Box>((all, item) => all.union(type.bound(new Bounds(), item)), new Bounds());
}

function markOf(
  { mark, encoding = {}, data }: PlotLayer,
  scaleX: Scale,
  scaleY: Scale,
  { line, rule, text }: ReturnType<typeof vegaConfig>,
): SceneMark {
  const { type, color, filled, xOffset = 0, x2Offset = 0, ...given } = mark;
  const style =
    type === 'line'
      ? { ...line, ...given, stroke: color }
      : type === 'rule'
        ? { strokeWidth: rule?.strokeWidth, ...given, stroke: color }
        : type === 'text'
          ? { font: text?.font, ...given, ...(color === undefined ? {} : { fill: color }) }
          : type === 'point'
            ? given
            : { ...given, fill: color };
  const items = data.values.map(row => {
    const item: Record<string, unknown> = {
      ...style,
      x: scaleX(row.x as number) + (xOffset as number),
      y: scaleY(row.y as number),
    };
    if ('x2' in encoding) item.x2 = scaleX(row.x2 as number) + (x2Offset as number);
    if ('y2' in encoding) item.y2 = scaleY(row.y2 as number);
    if (type === 'text') item.text = row.text;
    if ('color' in encoding) item.fill = row.colour;
    return type === 'rect' || type === 'area' ? boxed(item, type) : item;
  });
  return { marktype: MARKTYPE[type]!, items };
}

/** An item between two places as vega keeps it: a rectangle from the lesser on, an area from its own line. */
function boxed(item: Record<string, unknown>, type: 'rect' | 'area'): Record<string, unknown> {
  const { x2, y2, ...rest } = item as Record<string, number>;
  if (type === 'area') return { ...rest, orient: 'vertical', height: y2! - rest.y! };
  const between = (from: number, to: number) => [Math.min(from, to), Math.abs(to - from)] as const;
  const [y, height] = between(rest.y!, y2!);
  const [x, width] = between(rest.x!, x2!);
  return { ...rest, x, y, width, height };
}
