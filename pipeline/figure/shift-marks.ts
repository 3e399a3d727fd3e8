/** Gear changes on a figure over speed: a tick at the axis and a label where nothing else stands. */

import { withUnit } from '../digits.ts';
import { COLOUR } from '../look.ts';
import { isOneGear } from '../measurement/launch-care.ts';
import { type Shift, shiftsOf } from '../measurement/shifts.ts';
import type { Attempt, TestResult } from '../result/result.ts';
import { localiseDigits, printQuantity } from '../result/words.ts';
import { decimalsForUncertainty, roundToDecimals } from '../round.ts';
import { type ForReaders, speedScale } from '../speed-unit.ts';
import { kmhToMps } from '../units.ts';
import type { FigureLayout } from './figure.ts';
import { type Axis, type Layer, labelLayers, ruleLayer } from './plot.ts';
import { SIZES } from './theme.ts';
import type { Point } from './thin.ts';
import { shiftWords } from './words/shifts.ts';

/** Shifts of several runs at nearly the same speed, marked as one. */
export interface ShiftMark {
  /** In the unit of the axis. */
  readonly speed: number;
  /** “shift, 0.31 s lost”. */
  readonly label: string;
}

export interface MarkedShifts {
  readonly marks: readonly ShiftMark[];
  /** Run by run, with uncertainties; empty where no run shows a shift. */
  readonly sentences: readonly string[];
  /** For a table: the sentences, why shifts are not shown, and which may have gone unseen. */
  readonly notes: readonly string[];
}

/** Shifts closer together than this, m/s, are one mark: 5 km/h. */
const TOGETHER_MPS = kmhToMps(5);
/** Shifts that cost more than this may go unseen before a note says so, s. */
const UNSEEN_S = 0.1;

/** The shifts of some runs of one car, ready to be drawn and told. */
export function shiftMarksOf(
  runs: readonly { readonly name: string; readonly attempt: Attempt }[],
  { car }: TestResult,
  readers: ForReaders,
): MarkedShifts {
  const words = shiftWords(readers);
  const { fromMps } = speedScale(readers);
  if (isOneGear(car.gearbox)) return { marks: [], sentences: [], notes: [] };
  const found = runs.map(({ name, attempt }) => ({ name, ...shiftsOf(attempt.trace, attempt.measurement) }));
  const sentences = found.flatMap(({ name, shifts }) =>
    shifts.length === 0
      ? []
      : [
          words.shiftsOf(
            name,
            shifts.map(s => shiftInWords(s, readers)),
          ),
        ],
  );
  const reasons = new Set(found.flatMap(({ notFound }) => notFound ?? []));
  const unseenS = Math.max(0, ...found.map(({ smallestLostS }) => smallestLostS ?? 0));
  return {
    marks: groups(found.flatMap(({ shifts }) => shifts)).map(group => ({
      speed: group.reduce((sum, { speedMps }) => sum + fromMps(speedMps), 0) / group.length,
      label: labelOf(group, readers),
    })),
    sentences,
    notes: [
      ...sentences,
      ...[...reasons].map(reason => words.notAllShown(words.reasons[reason])),
      ...(unseenS > UNSEEN_S && reasons.size === 0
        ? [words.mayBeUnseen(printQuantity(unseenS, 'time', 1, readers))]
        : []),
      ...(sentences.length === 0 ? [] : [words.lostMeans]),
    ],
  };
}

function groups(shifts: readonly Shift[]): readonly (readonly Shift[])[] {
  const parts: Shift[][] = [];
  for (const shift of [...shifts].sort((a, b) => a.speedMps - b.speedMps)) {
    const part = parts.at(-1);
    if (part !== undefined && shift.speedMps - part[0]!.speedMps < TOGETHER_MPS) part.push(shift);
    else parts.push([shift]);
  }
  return parts;
}

const lostDigits = (lostS: number, uncertaintyS: number, language: ForReaders): string =>
  localiseDigits(roundToDecimals(lostS, decimalsForUncertainty(uncertaintyS, { most: 2 })), language);

/** “shift”, “shift, 0.31 s lost” or “shift, 0.28–0.31 s lost”. */
function labelOf(group: readonly Shift[], language: ForReaders): string {
  const costs = group.flatMap(({ lostS, lostUncertaintyS }) =>
    lostS === undefined || lostUncertaintyS === undefined ? [] : [{ lostS, lostUncertaintyS }],
  );
  const words = shiftWords(language);
  if (costs.length === 0) return words.shift;
  const widest = Math.max(...costs.map(({ lostUncertaintyS }) => lostUncertaintyS));
  const sorted = costs.map(({ lostS }) => lostS).sort((a, b) => a - b);
  const [least, most] = [sorted[0]!, sorted.at(-1)!].map(lostS => lostDigits(lostS, widest, language));
  return words.shiftLost(withUnit(least === most ? least! : `${least}–${most}`, 's'));
}

function shiftInWords({ speedMps, lostS, lostUncertaintyS }: Shift, language: ForReaders): string {
  const words = shiftWords(language);
  const speed = printQuantity(speedMps, 'speed', 0, language);
  if (lostS === undefined || lostUncertaintyS === undefined) return words.at(speed);
  const digits = (value: number): string => lostDigits(value, lostUncertaintyS, language);
  return words.atLost(speed, withUnit(digits(lostS), 's'), withUnit(digits(lostUncertaintyS), 's'));
}

/** In px of the plot's own rectangle, y downward. */
export interface Box {
  readonly x1: number;
  readonly y1: number;
  readonly x2: number;
  readonly y2: number;
}

export interface MarkedPlot {
  readonly x: Axis;
  readonly y: Axis;
  readonly heightPx: number;
  /** At most as wide as the plot will be, px: labels then have room enough. */
  readonly widthPx: number;
  readonly layout: FigureLayout;
  readonly language: string;
  /** What a label must keep clear of, in the units of the axes, in the order of x. */
  readonly lines: readonly (readonly Point[])[];
  readonly taken?: readonly Box[];
}

const TICK_PX = 5;
const CLEAR_PX = 4;
/** From a tick to a label beside it, px. */
const BESIDE_PX = 6;
/** Width of an average character as a share of the type's size, on the wide side. */
export const CHARACTER_SHARE = 0.56;

/** Where one label stands, px. */
interface Place {
  readonly text: string;
  readonly align: 'center' | 'left' | 'right';
  /** Where the text is anchored: its middle, its beginning or its end. */
  readonly anchor: number;
  readonly bottom: number;
  readonly at: number;
  /** Where the hairline up to it begins, px. */
  readonly leaderFrom: number;
}

/**
 * A tick up from the axis at each mark, and its label in the lowest row that is clear of every line and label, above
 * the tick or beside it; from the second row on a hairline leads up to it. Where there is no room for the whole label
 * the mark is called “shift”, and where there is none for that it keeps its tick.
 */
export function shiftLayers(marks: readonly ShiftMark[], plot: MarkedPlot): readonly Layer[] {
  const { x, y, heightPx, widthPx } = plot;
  const size = SIZES[plot.layout];
  const inside = marks.filter(({ speed }) => speed > x.from && speed < x.to);
  if (inside.length === 0) return [];
  const perPx = (x.to - x.from) / widthPx;
  const toY = (px: number): number => y.to - (px * (y.to - y.from)) / heightPx;
  const toX = (px: number): number => x.from + px * perPx;
  const ticks = inside.map(({ speed }) => (speed - x.from) / perPx);
  const around = plot.taken ?? [];
  const taken: Box[] = [
    ...around,
    ...ticks.map((at): Box => ({ x1: at, x2: at, y1: heightPx - TICK_PX, y2: heightPx })),
  ];
  const places = inside.flatMap(({ label }, index): Place[] => {
    const at = ticks[index]!;
    const leaderFrom = Math.min(
      heightPx - TICK_PX,
      ...around
        .filter(box => box.x1 <= at && box.x2 >= at && box.y2 > heightPx - size.labelLeadingPx)
        .map(box => box.y1 - 1),
    );
    for (const text of new Set([label, shiftWords(plot.language).shift])) {
      const width = text.length * size.labelPx * CHARACTER_SHARE;
      for (
        let bottom = heightPx - TICK_PX - 3;
        bottom > size.labelLeadingPx;
        bottom -= size.labelLeadingPx / 2
      ) {
        for (const [align, anchor, x1] of [
          ['center', at, at - width / 2],
          ['left', at + BESIDE_PX, at + BESIDE_PX],
          ['right', at - BESIDE_PX, at - BESIDE_PX - width],
        ] as const) {
          const box = { x1, x2: x1 + width, y1: bottom - size.labelPx, y2: bottom };
          if (x1 < 0 || box.x2 > widthPx || taken.some(other => touches(box, other))) continue;
          if (plot.lines.some(line => crosses(line, box, plot))) continue;
          taken.push(box);
          return [{ text, align, anchor, bottom, at, leaderFrom }];
        }
      }
    }
    return [];
  });
  const leaders = places.filter(({ bottom, leaderFrom }) => bottom < leaderFrom - TICK_PX);
  return [
    ruleLayer(
      inside.map(({ speed }) => ({ x: speed, x2: speed, y: y.from, y2: toY(heightPx - TICK_PX) })),
      { colour: COLOUR.ink, width: 1.2 },
    ),
    ruleLayer(
      leaders.map(({ at, bottom, leaderFrom }) => ({
        x: toX(at),
        x2: toX(at),
        y: toY(leaderFrom),
        y2: toY(bottom + 2),
      })),
      { colour: COLOUR.muted, width: 0.6, dash: [1, 2] },
    ),
    ...(['center', 'left', 'right'] as const).flatMap(align => {
      const own = places.filter(place => place.align === align);
      if (own.length === 0) return [];
      return labelLayers(
        own.map(({ text, anchor, bottom }) => ({ x: toX(anchor), y: toY(bottom), text })),
        { align, baseline: 'bottom', sizePx: size.labelPx, halo: true },
      );
    }),
  ];
}

const touches = (a: Box, b: Box): boolean =>
  a.x1 < b.x2 + CLEAR_PX && b.x1 < a.x2 + CLEAR_PX && a.y1 < b.y2 + CLEAR_PX && b.y1 < a.y2 + CLEAR_PX;

/** Whether any straight piece of a line comes within reach of a box. */
function crosses(line: readonly Point[], box: Box, { x, y, heightPx, widthPx }: MarkedPlot): boolean {
  const px = (point: Point) => ({
    x: ((point.x - x.from) / (x.to - x.from)) * widthPx,
    y: ((y.to - point.y) / (y.to - y.from)) * heightPx,
  });
  return line.some((point, index) => {
    const before = px(line[index - 1] ?? point);
    const here = px(point);
    return touches(box, {
      x1: Math.min(before.x, here.x),
      x2: Math.max(before.x, here.x),
      y1: Math.min(before.y, here.y),
      y2: Math.max(before.y, here.y),
    });
  });
}
