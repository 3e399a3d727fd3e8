/** Every run of the day as a table: the same as on the strip, with buttons instead of a picture. */
import { useRef, useState } from 'preact/hooks';
import type { RunSeen } from './answers.ts';
import { noteOf, noteRun, noteRuns } from './day-notes.ts';
import { Field, Lined } from './fields.tsx';
import { directions, launches } from './Notes.tsx';
import { chosenRun, test, view } from './state.ts';
import { words } from './words.ts';

/** Complete runs nobody has noted: those a note from the clock would make count. */
export const unnoted = (runs: readonly RunSeen[]): readonly RunSeen[] =>
  runs.filter(run => run.status === 'complete' && noteOf(run) === undefined);

export function RunsTable() {
  const { runs: w } = words();
  const { runs } = view.value!;
  const without = unnoted(runs);
  return (
    <section aria-labelledby="runs-title">
      <h2 id="runs-title">{w.table}</h2>
      {without.length > 0 && (
        <p>
          <button type="button" onClick={() => noteRuns(without)}>
            {w.takeAll(without.length)}
          </button>{' '}
          <span class="hint">{w.takeAllHint}</span>
        </p>
      )}
      <table class="runs">
        <thead>
          <tr>
            <th scope="col">{w.number}</th>
            <th scope="col">{w.came}</th>
            <th scope="col">{w.note}</th>
            <th scope="col">{w.stands}</th>
          </tr>
        </thead>
        <tbody>
          {runs.map((run, i) => (
            <OneRun key={`${run.log} ${run.number}`} run={run} number={i + 1} />
          ))}
        </tbody>
      </table>
    </section>
  );
}

interface OneRunProps {
  readonly run: RunSeen;
  /** Place in the day. */
  readonly number: number;
}

function OneRun({ run, number }: OneRunProps) {
  const { runs: w } = words();
  const { log, number: inLog } = run;
  const chosen = chosenRun.value?.log === log && chosenRun.value.number === inLog;
  const note = noteOf(run);
  const of = w.runOf(number);
  return (
    <tr
      class={run.kept ? undefined : 'aside'}
      aria-current={chosen ? 'true' : undefined}
      id={`run-${number}`}
    >
      <th scope="row">
        <button
          type="button"
          aria-pressed={chosen}
          aria-label={w.look(number)}
          onClick={() => {
            chosenRun.value = chosen ? undefined : { log, number: inLog };
          }}
        >
          {number}
        </button>
      </th>
      <td>
        <p class="came">
          {run.clock !== undefined && <span class="clock">{run.clock} </span>}
          {run.says ?? ''}
        </p>
        <p class="hint">
          {w.kinds[run.kind]}
          {run.status === 'aborted' && `, ${w.aborted}`}
        </p>
        {run.flags.length > 0 && (
          <details>
            <summary>
              {w.flags}
              <span class="unseen">: {of}</span>
            </summary>
            <ul>
              {run.flags.map(text => (
                <li key={text}>{text}</li>
              ))}
            </ul>
          </details>
        )}
      </td>
      <td>
        <div class="note-cell">
          <NoteChoice run={run} field="launch" label={w.launch} options={launches()} of={of} />
          <NoteChoice run={run} field="direction" label={w.direction} options={directions()} of={of} />
          {note !== undefined && (
            <>
              {test.value.attempts?.[note]?.at !== undefined && (
                <Field path={['attempts', note, 'at']} label={w.at} kind="clock" of={of} />
              )}
              <Field path={['attempts', note, 'note']} label={w.note} of={of} whole />
            </>
          )}
        </div>
      </td>
      <td>
        <Stands run={run} number={number} />
      </td>
    </tr>
  );
}

interface NoteChoiceProps {
  readonly run: RunSeen;
  readonly field: 'launch' | 'direction';
  readonly label: string;
  readonly options: Readonly<Record<string, string>>;
  readonly of: string;
}

function NoteChoice({ run, field, label, options, of }: NoteChoiceProps) {
  const index = noteOf(run);
  const value = index === undefined ? '' : (test.value.attempts?.[index]?.[field] ?? '');
  return (
    <Lined label={label} of={of} whole={field === 'launch'}>
      {given => (
        <select
          {...given}
          value={value}
          onChange={event => noteRun(run, field, event.currentTarget.value || null)}
        >
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

/** Kept, or set aside with its reason. */
function Stands({ run, number }: OneRunProps) {
  const { runs: w } = words();
  const [asking, setAsking] = useState(false);
  const [wrong, setWrong] = useState<string | undefined>(undefined);
  const reason = useRef<HTMLInputElement>(null);
  const opener = useRef<HTMLButtonElement>(null);
  const close = () => {
    setAsking(false);
    setTimeout(() => opener.current?.focus());
  };
  if (asking) {
    return (
      <form
        class="reason"
        noValidate
        onSubmit={event => {
          event.preventDefault();
          const text = reason.current!.value.trim();
          setWrong(text === '' ? w.reasonMissing : undefined);
          if (text === '') return;
          noteRun(run, 'set_aside', text);
          close();
        }}
        onKeyDown={event => event.key === 'Escape' && close()}
      >
        <Lined label={w.reason} of={w.runOf(number)} wrong={wrong}>
          {given => (
            <input
              {...given}
              ref={element => {
                if (element !== null && reason.current === null) element.focus();
                reason.current = element;
              }}
            />
          )}
        </Lined>
        <button type="submit">{w.doSetAside}</button>
        <button type="button" class="quiet" onClick={close}>
          {w.cancel}
        </button>
      </form>
    );
  }
  const note = noteOf(run);
  const noted = note === undefined ? undefined : test.value.attempts?.[note]?.set_aside;
  return (
    <>
      <p>{run.setAside === undefined && noted === undefined ? w.kept : w.aside}</p>
      {(noted ?? run.setAside) !== undefined && <p class="hint">{noted ?? run.setAside}</p>}
      {noted === undefined ? (
        <button type="button" class="quiet" ref={opener} onClick={() => setAsking(true)}>
          {w.setAside}
          <span class="unseen"> {w.runOf(number)}</span>
        </button>
      ) : (
        <button type="button" class="quiet" ref={opener} onClick={() => noteRun(run, 'set_aside', null)}>
          {w.keep}
          <span class="unseen"> {w.runOf(number)}</span>
        </button>
      )}
    </>
  );
}
