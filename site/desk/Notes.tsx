/** Notes typed against the clock as things happen, and those that belong to no run. */
import { useRef, useState } from 'preact/hooks';
import { clockTyped } from './clock-typed.ts';
import { addNote, clockNow } from './day-notes.ts';
import { Choice, Field, Lined } from './fields.tsx';
import { change } from './saving.ts';
import { publication, said, test, view } from './state.ts';
import { words } from './words.ts';

/** Launch methods of the house by id. */
export const launches = (): Record<string, string> =>
  Object.fromEntries((publication.value?.house.launch_methods ?? []).map(({ id, name }) => [id, name]));

/** Ways along the test's road by id. */
export const directions = (): Record<string, string> =>
  Object.fromEntries(
    (publication.value?.roads.find(({ id }) => id === test.value.road)?.road.directions ?? []).map(
      ({ id, name }) => [id, name],
    ),
  );

export function Notes() {
  const { runs: w } = words();
  const [at, setAt] = useState('');
  const [launch, setLaunch] = useState('');
  const [direction, setDirection] = useState('');
  const [note, setNote] = useState('');
  const [wrong, setWrong] = useState<string | undefined>(undefined);
  const clock = useRef<HTMLInputElement | null>(null);

  const add = (event: Event) => {
    event.preventDefault();
    const typed = at.trim() === '' ? clockNow() : clockTyped(at);
    setWrong(typed === undefined ? w.badClock : undefined);
    if (typed === undefined) return;
    addNote({ at: typed, launch, direction, note: note.trim(), set_aside: '' });
    said.value = `${typed} ${note}`;
    setAt('');
    setNote('');
    clock.current?.focus();
  };

  return (
    <section aria-labelledby="notes-title">
      <h2 id="notes-title">{w.notes}</h2>
      <p>{w.notesLead}</p>
      <form class="note-form" onSubmit={add} noValidate>
        <Lined label={w.at} wrong={wrong}>
          {given => (
            <input
              {...given}
              ref={clock}
              class="figure-input"
              inputMode="numeric"
              autocomplete="off"
              value={at}
              placeholder={clockNow().slice(0, 5)}
              onInput={event => setAt(event.currentTarget.value)}
              onKeyDown={event => {
                // A letter means nothing in a time of day, so that this one can mean “now”.
                if (event.key.toLowerCase() !== w.now[0]!.toLowerCase()) return;
                if (event.ctrlKey || event.metaKey || event.altKey) return;
                event.preventDefault();
                setAt(clockNow());
              }}
            />
          )}
        </Lined>
        <button type="button" onClick={() => setAt(clockNow())}>
          {w.now}
        </button>
        <Picked label={w.launch} options={launches()} value={launch} onChange={setLaunch} />
        <Picked label={w.direction} options={directions()} value={direction} onChange={setDirection} />
        <Lined label={w.note}>
          {given => (
            <input
              {...given}
              autocomplete="off"
              value={note}
              onInput={event => setNote(event.currentTarget.value)}
            />
          )}
        </Lined>
        <button type="submit">{w.add}</button>
      </form>
      <NotesWithoutRun />
    </section>
  );
}

interface PickedProps {
  readonly label: string;
  readonly options: Readonly<Record<string, string>>;
  readonly value: string;
  readonly onChange: (value: string) => void;
}

function Picked({ label, options, value, onChange }: PickedProps) {
  return (
    <Lined label={label}>
      {given => (
        <select {...given} value={value} onChange={event => onChange(event.currentTarget.value)}>
          <option value="">{words().runs.notSaid}</option>
          {Object.entries(options).map(([id, name]) => (
            <option key={id} value={id}>
              {name}
            </option>
          ))}
        </select>
      )}
    </Lined>
  );
}

/** Notes still waiting for a log, or near no run: nothing typed is ever out of sight. */
function NotesWithoutRun() {
  const { runs: w } = words();
  const { runs, attempts } = view.value!;
  const taken = new Set(runs.map(({ attempt }) => attempt));
  const alone = (test.value.attempts ?? [])
    .map((attempt, index) => ({ attempt, index }))
    .filter(({ index }) => !taken.has(index));
  if (alone.length === 0) return null;
  return (
    <ul class="notes">
      {alone.map(({ attempt, index }) => {
        const of = attempt.at ?? `${index + 1}`;
        return (
          <li key={index} class="note-form">
            <Field path={['attempts', index, 'at']} label={w.at} kind="clock" of={of} />
            <Choice
              path={['attempts', index, 'launch']}
              label={w.launch}
              options={launches()}
              none={w.notSaid}
              of={of}
            />
            <Choice
              path={['attempts', index, 'direction']}
              label={w.direction}
              options={directions()}
              none={w.notSaid}
              of={of}
            />
            <Field path={['attempts', index, 'note']} label={w.note} of={of} />
            <button type="button" class="quiet" onClick={() => change(['attempts', index], null)}>
              {w.remove}
              <span class="unseen">: {of}</span>
            </button>
            {runs.length > 0 && (
              <p class="hint">{attempts.find(seen => seen.index === index)?.says ?? w.noRun}</p>
            )}
          </li>
        );
      })}
    </ul>
  );
}
