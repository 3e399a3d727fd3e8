/** Step 2: the day's logs, recognised; columns that could not be told are asked for in plain words. */
import { useRef, useState } from 'preact/hooks';
import { capital } from '../../pipeline/language.ts';
import type { ColumnAsked, LogSeen } from './answers.ts';
import { Field } from './fields.tsx';
import { addLogs, findingRuns, refusedLogs } from './log-drop.ts';
import { Problems } from './Problems.tsx';
import { change } from './saving.ts';
import { reading, test, view } from './state.ts';
import { words } from './words.ts';

/** `12 min 40 s`. */
export function lengthInWords(seconds: number): string {
  const minutes = Math.floor(seconds / 60);
  const rest = Math.round(seconds - minutes * 60);
  return minutes === 0 ? `${rest} s` : `${minutes} min ${rest} s`;
}

const fileName = (path: string): string => path.replace(/^.*\//, '');

export function Logs() {
  const { logs: w } = words();
  const input = useRef<HTMLInputElement>(null);
  const { logs } = view.value!;
  return (
    <>
      <p class="lead">{w.lead}</p>
      {/* Files dropped anywhere on the page are taken; this shows where one may. */}
      <div class="drop">
        <p>
          <strong>{w.drop}</strong>
        </p>
        <p class="hint">{w.or}</p>
        <button type="button" onClick={() => input.current!.click()}>
          {w.choose}
        </button>
        <input
          ref={input}
          type="file"
          multiple
          hidden
          onChange={event => {
            const files = [...(event.currentTarget.files ?? [])];
            event.currentTarget.value = '';
            void addLogs(files);
          }}
        />
      </div>
      <p role="status">
        {reading.value[0] !== undefined && w.reading(reading.value[0])}
        {findingRuns.value && words().runs.finding}
      </p>
      {refusedLogs.value.length > 0 && <Problems problems={refusedLogs.value} />}
      {logs.length === 0 && reading.value.length === 0 && <p>{w.none}</p>}
      <ol class="logs">
        {logs.map(log => (
          <li key={log.file}>
            <OneLog log={log} />
          </li>
        ))}
      </ol>
    </>
  );
}

function OneLog({ log }: { readonly log: LogSeen }) {
  const { logs: w } = words();
  const index = (test.value.logs ?? []).findIndex(({ file }) => file === log.file);
  const name = fileName(log.file);
  return (
    <article aria-label={name}>
      <h2>{name}</h2>
      {log.samples !== undefined && (
        <p>
          {log.format !== undefined && <>{capital(w.format[log.format] ?? log.format)}. </>}
          {w.facts(log.samples, rateText(log.rateHz ?? 0), lengthInWords(log.durationS ?? 0))}
          {log.clock !== undefined && <>, {w.from(clockOf(log))}</>}.
        </p>
      )}
      {log.asks?.map(asked => (
        <Asked key={asked.as} asked={asked} index={index} of={name} />
      ))}
      {log.samples !== undefined &&
        log.clock === undefined &&
        log.clockOfDayS === undefined &&
        index >= 0 && (
          <div class="fields">
            <Field
              path={['logs', index, 'starts_at']}
              label={w.startsAt}
              hint={w.noClock}
              kind="clock"
              of={name}
            />
          </div>
        )}
      {(log.columns?.length ?? 0) > 0 && (
        <details>
          <summary>{w.columns}</summary>
          <ul class="columns">
            {log.columns!.map(({ name: heading, as, unit }) => (
              <li key={heading}>
                “{heading}” {w.takenFor} {as}
                {unit !== undefined && `, ${unit}`}
              </li>
            ))}
          </ul>
        </details>
      )}
      {(log.warnings?.length ?? 0) > 0 && (
        <details>
          <summary>{w.warnings}</summary>
          <ul>
            {log.warnings!.map(text => (
              <li key={text}>{text}</li>
            ))}
          </ul>
        </details>
      )}
      {index >= 0 && (
        <p>
          <button type="button" class="quiet" onClick={() => change(['logs', index], null)}>
            {w.remove}
            <span class="unseen">: {name}</span>
          </button>{' '}
          <span class="hint">{w.removeHint}</span>
        </p>
      )}
    </article>
  );
}

const rateText = (hz: number): string => String(Math.round(hz * 10) / 10);
const clockOf = ({ clock, clockOfDayS }: LogSeen): string =>
  clockOfDayS === undefined ? clock! : dayClock(clockOfDayS);

/** `10:22:40` of seconds since midnight. */
export function dayClock(dayS: number): string {
  const two = (n: number) => String(n).padStart(2, '0');
  const whole = Math.floor(dayS);
  return `${two(Math.floor(whole / 3600) % 24)}:${two(Math.floor(whole / 60) % 60)}:${two(whole % 60)}`;
}

interface AskedProps {
  readonly asked: ColumnAsked;
  readonly index: number;
  readonly of: string;
}

function Asked({ asked, index, of }: AskedProps) {
  const { logs: w } = words();
  // Nothing is chosen beforehand: a column taken for another without looking would spoil every figure of the day.
  const [chosen, setChosen] = useState<string | undefined>(undefined);
  const [unit, setUnit] = useState<string | undefined>(undefined);
  const columns = [...new Map(asked.choices.map(choice => [choice.name, choice.examples]))];
  const units = asked.choices.flatMap(choice =>
    choice.name === chosen && choice.unit !== undefined ? [choice.unit] : [],
  );
  const isWhole = chosen !== undefined && (units.length === 0 || unit !== undefined);
  const group = `${of} ${asked.as}`;
  return (
    <section class="asked" aria-label={`${of}: ${w.asks[asked.as].column}`}>
      <p>{w.asks[asked.as].why}</p>
      {columns.length === 0 && <p class="wrong">{w.asks.none}</p>}
      <fieldset>
        <legend>{w.asks[asked.as].column}</legend>
        {columns.map(([name, examples]) => (
          <label class="tick" key={name}>
            <input
              type="radio"
              name={`${group} column`}
              checked={name === chosen}
              onChange={() => {
                setChosen(name);
                setUnit(undefined);
              }}
            />
            <span>
              “{name}”
              {examples.length > 0 && (
                <span class="hint">
                  {' '}
                  {w.examples} {examples.join('; ')}
                </span>
              )}
            </span>
          </label>
        ))}
      </fieldset>
      {units.length > 0 && (
        <fieldset>
          <legend>{w.asks[asked.as].unit}</legend>
          {units.map(symbol => (
            <label class="tick" key={symbol}>
              <input
                type="radio"
                name={`${group} unit`}
                checked={symbol === unit}
                onChange={() => setUnit(symbol)}
              />
              <span>{w.asks.units[symbol] ?? symbol}</span>
            </label>
          ))}
        </fieldset>
      )}
      <button
        type="button"
        disabled={!isWhole}
        onClick={() =>
          change(['logs', index, 'columns', asked.as], {
            name: chosen,
            ...(unit === undefined ? {} : { unit }),
          })
        }
      >
        {w.confirm}
      </button>
    </section>
  );
}
