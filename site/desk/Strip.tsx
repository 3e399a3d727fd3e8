/** The day as a strip: speed against the clock with every run marked under it. The table beside it says the same. */
import { useEffect, useRef, useState } from 'preact/hooks';
import { COLOUR, FACE } from '../../pipeline/look.ts';
import type { RunSeen } from './answers.ts';
import { dayClock } from './Logs.tsx';
import { chosenRun, speedUnitShown, view } from './state.ts';
import {
  type Columns,
  type DayStrip,
  moved,
  runOnStrip,
  type Sight,
  tracesToColumns,
  within,
  zoomed,
} from './strip-data.ts';
import { StripPlot } from './strip-plot.ts';
import { askTrace, wholeTrace } from './traces.ts';
import { words } from './words.ts';

/** After the hand rests this long, what is in sight is asked for as finely as it can be drawn. */
const REST_MS = 120;
const HEIGHT_PX = 260;

export function Strip({ strip }: { readonly strip: DayStrip }) {
  const { runs: w } = words();
  const unit = speedUnitShown();
  const box = useRef<HTMLDivElement>(null);
  const plot = useRef<StripPlot | undefined>(undefined);
  const [sight, setSight] = useState<Sight>(strip);
  const { id, runs } = view.value!;
  const chosen = chosenRun.value;
  const look = (next: Sight) => setSight(within(next, strip));

  const marks = runs.flatMap((run, i) => {
    const place = runOnStrip(strip, run);
    return place === undefined
      ? []
      : [{ number: i + 1, fromS: place[0], toS: place[1], kept: run.kept, run, chosen: isSame(run, chosen) }];
  });

  useEffect(() => {
    // The page may have gone on to another step before this runs.
    if (box.current === null) return;
    const made = new StripPlot(box.current, HEIGHT_PX, {
      colours: COLOUR,
      face: FACE.chart,
      unit,
      clock: strip.onClock ? dayClock : seconds => `${Math.round(seconds)} s`,
      onSight: look,
      onPick: run => {
        chosenRun.value = isSame(run, chosenRun.value) ? undefined : { log: run.log, number: run.number };
      },
    });
    plot.current = made;
    return () => made.destroy();
  }, [strip.onClock, unit]);

  // What is drawn follows at once; what is fetched follows when the hand rests.
  useEffect(() => plot.current?.show(sight, marks));
  const files = strip.logs.map(({ log, offsetS }) => [log.file, log.version, offsetS].join(' ')).join('\n');
  // Logs are told apart by their names, versions and places on the clock.
  useEffect(() => {
    const gone = new AbortController();
    const draw = (fetched: Promise<Columns>): void => {
      void fetched.then(columns => gone.signal.aborted || plot.current?.draw(columns)).catch(() => {});
    };
    const isWhole = sight.fromS <= strip.fromS && sight.toS >= strip.toS;
    if (isWhole || plot.current?.isEmpty === true) draw(wholeDay(id, strip));
    const timer = isWhole
      ? undefined
      : setTimeout(() => {
          const widthPx = box.current?.clientWidth;
          if (widthPx !== undefined) draw(partOfDay(id, strip, sight, widthPx, gone.signal));
        }, REST_MS);
    return () => {
      clearTimeout(timer);
      gone.abort();
    };
  }, [id, files, sight.fromS, sight.toS]);

  // A run chosen in the table comes into sight.
  useEffect(() => {
    const mark = marks.find(({ chosen: is }) => is);
    if (mark === undefined || (mark.fromS >= sight.fromS && mark.toS <= sight.toS)) return;
    const spare = (mark.toS - mark.fromS) * 0.5;
    look({ fromS: mark.fromS - spare, toS: mark.toS + spare });
  }, [chosen?.log, chosen?.number]);

  const onKey = (event: KeyboardEvent) => {
    const next = KEYS[event.key]?.(sight, strip);
    if (next === undefined || event.ctrlKey || event.metaKey || event.altKey) return;
    event.preventDefault();
    look(next);
  };

  return (
    <figure class="strip">
      {/* biome-ignore lint/a11y: a picture that the arrow keys move; the buttons under it do the same */}
      <div
        ref={box}
        class="strip-box"
        role="group"
        aria-label={`${w.strip}. ${w.stripHelp}`}
        onKeyDown={onKey}
      />
      <figcaption>{w.stripHelp}</figcaption>
      <div class="buttons">
        <button type="button" onClick={() => look(moved(sight, -0.5))}>
          {w.earlier}
        </button>
        <button type="button" onClick={() => look(moved(sight, 0.5))}>
          {w.later}
        </button>
        <button type="button" onClick={() => look(zoomed(sight, 0.5))}>
          {w.closer}
        </button>
        <button type="button" onClick={() => look(zoomed(sight, 2))}>
          {w.wider}
        </button>
        <button type="button" onClick={() => look(strip)}>
          {w.whole}
        </button>
      </div>
    </figure>
  );
}

const KEYS: Readonly<Record<string, (sight: Sight, day: Sight) => Sight>> = {
  ArrowLeft: sight => moved(sight, -0.2),
  ArrowRight: sight => moved(sight, 0.2),
  '+': sight => zoomed(sight, 0.6),
  '=': sight => zoomed(sight, 0.6),
  '-': sight => zoomed(sight, 1 / 0.6),
  '0': (_, day) => day,
  Home: (sight, day) => moved(sight, (day.fromS - sight.fromS) / (sight.toS - sight.fromS)),
  End: (sight, day) => moved(sight, (day.toS - sight.toS) / (sight.toS - sight.fromS)),
};

const isSame = (run: RunSeen, other: { log: string; number: number } | undefined): boolean =>
  other !== undefined && run.log === other.log && run.number === other.number;

async function wholeDay(id: string, { logs }: DayStrip): Promise<Columns> {
  const traces = logs.map(async ({ log, offsetS }) => ({ trace: await wholeTrace(id, log), offsetS }));
  return tracesToColumns(await Promise.all(traces));
}

/** What is in sight and as much on either side, at twice the pixels there are. */
async function partOfDay(
  id: string,
  strip: DayStrip,
  sight: Sight,
  widthPx: number,
  signal: AbortSignal,
): Promise<Columns> {
  const length = sight.toS - sight.fromS;
  const span = within({ fromS: sight.fromS - length, toS: sight.toS + length }, strip);
  const share = (span.toS - span.fromS) / Math.max(length, 1e-9);
  const inSight = strip.logs.filter(
    ({ log, offsetS }) =>
      offsetS + (log.beginsS ?? 0) < span.toS && offsetS + (log.beginsS ?? 0) + log.durationS! > span.fromS,
  );
  const traces = inSight.map(async ({ log, offsetS }) => {
    const from = Math.max(span.fromS - offsetS, log.beginsS ?? 0);
    const to = Math.min(span.toS - offsetS, (log.beginsS ?? 0) + log.durationS!);
    const points = Math.max(50, Math.round((widthPx * share * (to - from)) / (span.toS - span.fromS)));
    return { trace: await askTrace(id, log, { from, to, points }, signal), offsetS };
  });
  return tracesToColumns(await Promise.all(traces));
}
