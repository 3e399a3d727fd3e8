/** The axes of a plot drawn without a dataflow: hairlines, ticks, numbers and titles where vega's layout puts them. */
import type { Config } from 'vega-lite';
import { boundsOf } from './still-plot.ts';
import { Bounds, type Box, type Scale, type SceneMark } from './vega-parts.ts';

/** As `plotSpec` writes it. */
export interface Axis {
  readonly title: string | null;
  readonly values: readonly number[];
  /** Finished texts as a list, looked up by value. */
  readonly labelExpr: string;
}

export interface Axes {
  readonly marks: readonly SceneMark[];
  readonly bounds: readonly Box[];
}

/** Lines fall between pixels; vega moves its axes by half a one. */
const HALF_PX = 0.5;
/** Between the numbers of an upright axis and its title, where the configuration says nothing (vega). */
const TITLE_PADDING_PX = 4;

/** What the configuration says of every axis. */
type AxisLook = Readonly<Record<string, unknown>> &
  Readonly<Record<'tickSize' | 'labelPadding' | 'titlePadding', number>>;

/** Undefined where numbers touch, which is for vega to thin. */
export function axisGroups(
  encoding: { readonly x: { readonly axis: Axis | null }; readonly y: { readonly axis: Axis | null } },
  scale: { readonly x: Scale; readonly y: Scale },
  size: { readonly width: number; readonly height: number },
  config: Config,
): Axes | undefined {
  const parts: { mark: SceneMark; box: Box }[] = [];
  const across = encoding.y.axis;
  if (across !== null) parts.push(grid(across, scale.y, size, config));
  for (const along of ['x', 'y'] as const) {
    const axis = encoding[along].axis;
    if (axis === null) continue;
    const part = along === 'x' ? bottom(axis, scale.x, size, config) : left(axis, scale.y, size, config);
    if (part === undefined) return undefined;
    parts.push(part);
  }
  return { marks: parts.map(({ mark }) => mark), bounds: parts.map(({ box }) => box) };
}

const group = (x: number, y: number, marks: readonly SceneMark[]): SceneMark => ({
  marktype: 'group',
  items: [{ x, y, items: marks }],
});

function grid(
  axis: Axis,
  scale: Scale,
  { width, height }: { width: number; height: number },
  { axis: look = {} }: Config,
): { mark: SceneMark; box: Box } {
  const { gridColor, gridWidth } = look as Record<string, unknown>;
  const items = axis.values.map(value => {
    const y = Math.round(scale(value));
    return { x: 0, x2: width, y, stroke: gridColor, strokeWidth: gridWidth };
  });
  // Only numbers and ticks widen a plot: a grid has neither.
  return {
    mark: group(HALF_PX, HALF_PX, [{ marktype: 'rule', items }]),
    box: new Bounds().add(0, 0).add(0, height),
  };
}

function labelsOf(axis: Axis): readonly string[] {
  const { labelExpr } = axis;
  return JSON.parse(labelExpr.slice(0, labelExpr.lastIndexOf('[indexof('))) as string[];
}

function bottom(
  axis: Axis,
  scale: Scale,
  { width, height }: { width: number; height: number },
  config: Config,
): { mark: SceneMark; box: Box } | undefined {
  const look = { ...config.axis, ...config.axisX } as AxisLook;
  const texts = labelsOf(axis);
  const ticks = axis.values.map(value => ({
    x: Math.round(scale(value)),
    y: 0,
    y2: look.tickSize,
    stroke: look.tickColor,
    strokeWidth: look.tickWidth,
  }));
  const labels = axis.values.map((value, index) => ({
    x: scale(value),
    y: look.tickSize + look.labelPadding,
    text: texts[index],
    align: 'center',
    baseline: 'top',
    font: look.labelFont,
    fontSize: look.labelFontSize,
    fill: look.labelColor,
  }));
  if (touching(labels)) return undefined;
  const marks: SceneMark[] = [
    { marktype: 'rule', items: ticks },
    { marktype: 'text', items: labels },
    {
      marktype: 'rule',
      items: [{ x: 0, x2: width, y: 0, stroke: look.domainColor, strokeWidth: look.domainWidth }],
    },
  ];
  const box = boundsOf(marks[0]!).union(boundsOf(marks[1]!));
  const reach = box.y2;
  box.add(0, 0).add(width, reach);
  if (axis.title !== null) {
    const title: SceneMark = {
      marktype: 'text',
      items: [
        {
          x: width,
          y: reach + look.titlePadding,
          text: axis.title,
          align: look.titleAlign,
          baseline: 'top',
          ...titleStyle(look),
        },
      ],
    };
    marks.push(title);
    box.union(boundsOf(title));
  }
  return { mark: group(HALF_PX, height + HALF_PX, marks), box: box.translate(0, height) };
}

function left(
  axis: Axis,
  scale: Scale,
  { height }: { width: number; height: number },
  config: Config,
): { mark: SceneMark; box: Box } | undefined {
  const look = { ...config.axis, ...config.axisY } as AxisLook;
  const texts = labelsOf(axis);
  const labels = axis.values.map((value, index) => ({
    x: -look.labelPadding,
    y: scale(value),
    text: texts[index],
    align: 'right',
    baseline: 'middle',
    font: look.labelFont,
    fontSize: look.labelFontSize,
    fill: look.labelColor,
  }));
  if (touching(labels)) return undefined;
  const marks: SceneMark[] = [{ marktype: 'text', items: labels }];
  const box = boundsOf(marks[0]!);
  const reach = -box.x1;
  box.add(-reach, 0).add(0, height);
  if (axis.title !== null) {
    const title: SceneMark = {
      marktype: 'text',
      items: [
        {
          x: -(reach + TITLE_PADDING_PX),
          y: look.titleY,
          text: axis.title,
          align: look.titleAlign,
          baseline: look.titleBaseline,
          ...titleStyle(look),
        },
      ],
    };
    marks.push(title);
    box.union(boundsOf(title));
  }
  return { mark: group(HALF_PX, HALF_PX, marks), box };
}

const titleStyle = (look: Readonly<Record<string, unknown>>) => ({
  font: look.titleFont,
  fontSize: look.titleFontSize,
  fontWeight: look.titleFontWeight,
  fill: look.titleColor,
});

/** As vega sees it before it takes every second number away. */
function touching(labels: readonly object[]): boolean {
  const boxes = labels.map(item => boundsOf({ marktype: 'text', items: [item] }));
  return boxes.some((b, i) => {
    const a = boxes[i - 1];
    return a !== undefined && Math.max(b.x1 - a.x2, a.x1 - b.x2, b.y1 - a.y2, a.y1 - b.y2) < 0;
  });
}
