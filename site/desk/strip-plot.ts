/** Draws the strip: speed as one ink line, runs as brackets under it, and lets the hand move it. */
import uPlot from 'uplot';
import 'uplot/dist/uPlot.min.css';
import type { COLOUR } from '../../pipeline/look.ts';
import type { SpeedUnit } from '../../pipeline/speed-unit.ts';
import type { RunSeen } from './answers.ts';
import { type Columns, moved, type Sight, zoomed } from './strip-data.ts';
import { speedStops, speedText } from './strip-speeds.ts';

export interface Mark {
  /** Place in the day. */
  readonly number: number;
  readonly fromS: number;
  readonly toS: number;
  readonly kept: boolean;
  readonly chosen: boolean;
  readonly run: RunSeen;
}

interface StripOptions {
  readonly colours: typeof COLOUR;
  readonly face: string;
  readonly clock: (seconds: number) => string;
  /** Of the publication's speeds; the data are in km/h. */
  readonly unit: SpeedUnit;
  readonly onSight: (sight: Sight) => void;
  readonly onPick: (run: RunSeen) => void;
}

/** Room under the plot for brackets and their numbers, px. */
const BRACKETS_PX = 34;
/** A press that moved less than this chooses; more, and it moves the strip. */
const STEADY_PX = 4;
/** Clock marks people read: seconds to hours. */
const STEPS_S = [1, 2, 5, 10, 15, 30, 60, 120, 300, 600, 900, 1800, 3600, 7200];

export class StripPlot {
  isEmpty = true;
  readonly #plot: uPlot;
  readonly #options: StripOptions;
  readonly #watching: ResizeObserver;
  #sight: Sight = { fromS: 0, toS: 1 };
  #marks: readonly Mark[] = [];

  constructor(box: HTMLElement, heightPx: number, options: StripOptions) {
    this.#options = options;
    this.#plot = new uPlot(this.#plotOptions(box.clientWidth, heightPx), [[], [], []], box);
    this.#watching = new ResizeObserver(() =>
      this.#plot.setSize({ width: box.clientWidth, height: heightPx }),
    );
    this.#watching.observe(box);
    this.#followHand(this.#plot.over);
  }

  /** What is in sight and which runs are marked; drawn at once from the data there is. */
  show(sight: Sight, marks: readonly Mark[]): void {
    this.#sight = sight;
    this.#marks = marks;
    this.#plot.setScale('x', { min: sight.fromS, max: sight.toS });
    this.#plot.redraw(false);
  }

  /** Other data under the same sight. */
  draw(columns: Columns): void {
    this.isEmpty = false;
    performance.mark('strip-drawn');
    this.#plot.setData(columns as unknown as uPlot.AlignedData, false);
    this.#plot.setScale('x', { min: this.#sight.fromS, max: this.#sight.toS });
  }

  destroy(): void {
    this.#watching.disconnect();
    this.#plot.destroy();
  }

  #plotOptions(width: number, height: number): uPlot.Options {
    const { colours, face, clock, unit } = this.#options;
    const font = `13px "${face}", sans-serif`;
    const line: uPlot.Series = { stroke: colours.ink, width: 1.2, points: { show: false }, spanGaps: false };
    return {
      width,
      height,
      padding: [12, 8, 0, 0],
      legend: { show: false },
      cursor: { show: true, x: true, y: false, drag: { x: false, y: false }, points: { show: false } },
      scales: {
        x: { time: false, auto: false, range: () => [this.#sight.fromS, this.#sight.toS] },
        y: { range: (_plot, _min, max) => [0, Math.max(20, (max ?? 0) * 1.05)] },
      },
      series: [{}, line, line],
      bands: [{ series: [2, 1], fill: colours.ink }],
      axes: [
        {
          side: 2,
          gap: BRACKETS_PX - 6,
          size: BRACKETS_PX + 22,
          font,
          stroke: colours.muted,
          incrs: STEPS_S,
          space: 84,
          values: (_plot, splits) => splits.map(clock),
          grid: { show: false },
          ticks: { show: false },
        },
        {
          font,
          stroke: colours.muted,
          size: 66,
          splits: (_plot, _axis, _from, toKmh) => [...speedStops(toKmh, height - BRACKETS_PX - 34, unit)],
          values: (_plot, splits) =>
            splits.map((kmh, i) => `${speedText(kmh, unit)}${i === splits.length - 1 ? ` ${unit}` : ''}`),
          grid: { stroke: colours.hairline, width: 1 },
          ticks: { show: false },
          space: 44,
        },
      ],
      hooks: { draw: [plot => this.#drawMarks(plot)] },
    };
  }

  #drawMarks(plot: uPlot): void {
    const { colours, face } = this.#options;
    const { ctx, bbox } = plot;
    const ratio = uPlot.pxRatio;
    const top = bbox.top + bbox.height;
    ctx.save();
    ctx.beginPath();
    ctx.rect(bbox.left, bbox.top, bbox.width, bbox.height + BRACKETS_PX * ratio);
    ctx.clip();
    ctx.font = `600 ${13 * ratio}px "${face}", sans-serif`;
    ctx.textAlign = 'center';
    ctx.textBaseline = 'top';
    let lettered = -Infinity;
    for (const { number, fromS, toS, kept, chosen } of this.#marks) {
      const left = plot.valToPos(fromS, 'x', true);
      const right = Math.max(plot.valToPos(toS, 'x', true), left + 3 * ratio);
      if (right < bbox.left || left > bbox.left + bbox.width) continue;
      ctx.strokeStyle = chosen ? colours.accent : colours.ink;
      ctx.fillStyle = ctx.strokeStyle;
      ctx.lineWidth = (chosen ? 3 : 1.5) * ratio;
      // Kept runs stand on a whole line, those set aside on a broken one.
      ctx.setLineDash(kept ? [] : [3 * ratio, 3 * ratio]);
      const y = top + 6 * ratio;
      ctx.beginPath();
      ctx.moveTo(left, top + 2 * ratio);
      ctx.lineTo(left, y);
      ctx.lineTo(right, y);
      ctx.lineTo(right, top + 2 * ratio);
      ctx.stroke();
      const middle = (Math.max(left, bbox.left) + Math.min(right, bbox.left + bbox.width)) / 2;
      if (middle - lettered < 18 * ratio && !chosen) continue;
      ctx.fillText(String(number), middle, y + 4 * ratio);
      lettered = middle;
    }
    ctx.restore();
  }

  /** A drag moves the day, a press chooses a run, the wheel with Ctrl (and a pinch, which is the same) looks closer. */
  #followHand(over: HTMLElement): void {
    let from: { readonly x: number; readonly sight: Sight; moved: boolean } | undefined;
    const secondsAt = (x: number): number => this.#plot.posToVal(x, 'x');
    over.addEventListener('pointerdown', event => {
      if (event.button !== 0) return;
      from = { x: event.clientX, sight: this.#sight, moved: false };
      over.setPointerCapture(event.pointerId);
    });
    over.addEventListener('pointermove', event => {
      if (from === undefined) return;
      const dx = event.clientX - from.x;
      if (Math.abs(dx) > STEADY_PX) from.moved = true;
      if (from.moved) this.#options.onSight(moved(from.sight, -dx / over.clientWidth));
    });
    over.addEventListener('pointerup', event => {
      const pressed = from;
      from = undefined;
      if (pressed === undefined || pressed.moved) return;
      const at = secondsAt(event.clientX - over.getBoundingClientRect().left);
      const spare = ((this.#sight.toS - this.#sight.fromS) / over.clientWidth) * 6;
      const hit = this.#marks.find(({ fromS, toS }) => at >= fromS - spare && at <= toS + spare);
      if (hit !== undefined) this.#options.onPick(hit.run);
    });
    over.addEventListener('pointercancel', () => {
      from = undefined;
    });
    over.addEventListener(
      'wheel',
      event => {
        if (!event.ctrlKey) return;
        event.preventDefault();
        const at = secondsAt(event.clientX - over.getBoundingClientRect().left);
        this.#options.onSight(zoomed(this.#sight, Math.exp(event.deltaY / 300), at));
      },
      { passive: false },
    );
  }
}
