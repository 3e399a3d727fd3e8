/** Step 4: air, wind and road as they were read, and what their gaps cost. */
import { clockNow } from './day-notes.ts';
import { Choice, Field } from './fields.tsx';
import { change } from './saving.ts';
import { test, view } from './state.ts';
import { words } from './words.ts';

const NUMBERS = [
  ['temperature_c', '°C'],
  ['pressure_hpa', 'hPa'],
  ['humidity_pct', '%'],
  ['wind_mps', 'm/s'],
  ['wind_from_deg', '°'],
  ['gust_mps', 'm/s'],
] as const;

export function Conditions() {
  const { conditions: w } = words();
  const readings = test.value.conditions ?? [];
  const last = readings.at(-1);
  const { gaps } = view.value!;
  const add = (value: object) => change(['conditions', readings.length], value);
  return (
    <>
      <p class="lead">{w.lead}</p>
      {readings.length === 0 && <p>{w.none}</p>}
      {readings.map((reading, i) => {
        const of = w.reading(i + 1, reading.at ?? '');
        const path = (key: string) => ['conditions', i, key];
        return (
          <section key={i} class="reading" aria-label={of}>
            <h2>{of}</h2>
            <div class="fields tight">
              <Field path={path('at')} label={w.at} kind="clock" of={of} />
              {NUMBERS.map(([key, unit]) => (
                <Field
                  key={key}
                  path={path(key)}
                  label={w[key]}
                  unit={unit}
                  kind="number"
                  of={of}
                  {...(key === 'pressure_hpa' ? { hint: w.pressureHint } : {})}
                  {...(key === 'wind_from_deg' ? { hint: w.windFromHint } : {})}
                />
              ))}
              <Choice
                path={path('surface')}
                label={w.surface}
                options={w.surfaces}
                none={w.notSaid}
                of={of}
              />
              <Field path={path('note')} label={w.note} of={of} />
            </div>
            <button type="button" class="quiet" onClick={() => change(['conditions', i], null)}>
              {w.remove}
              <span class="unseen">: {of}</span>
            </button>
          </section>
        );
      })}
      <div class="buttons">
        <button type="button" onClick={() => add({ at: atOfDay() })}>
          {w.add}
        </button>
        {last !== undefined && (
          <button type="button" onClick={() => add(withoutNote({ ...last, at: clockNow().slice(0, 5) }))}>
            {w.copy}
          </button>
        )}
      </div>
      <h2>{w.gaps}</h2>
      {gaps.length === 0 ? (
        <p>{w.noGaps}</p>
      ) : (
        <dl class="gaps">
          {gaps.map(({ field, says }) => (
            <div key={`${field} ${says}`}>
              <dt>{nameOf(field)}</dt>
              <dd>{says}</dd>
            </div>
          ))}
        </dl>
      )}
    </>
  );
}

/** The first reading is of the first run where logs are there: that is when it matters. */
function atOfDay(): string {
  const first = view.value?.runs.find(({ clock }) => clock !== undefined)?.clock;
  const taken = (test.value.conditions?.length ?? 0) > 0;
  return (taken || first === undefined ? clockNow() : first).slice(0, 5);
}

const withoutNote = ({ note: _, ...rest }: Record<string, unknown>): object => rest;

/** The label of a field the server names by its path. */
function nameOf(field: string): string {
  const { conditions: w, road } = words();
  const key = field.split('.').at(-1)!;
  const labels = { ...w, mass_kg: road.mass } as Record<string, unknown>;
  const label = labels[key];
  return typeof label === 'string' ? label : key.replaceAll('_', ' ');
}
