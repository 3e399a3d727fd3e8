/** A new test in one small form; a car or a road that is not there yet is made in it. */
import { useState } from 'preact/hooks';
import type { Problem } from '../../pipeline/problem.ts';
import { readPublication } from './describing.ts';
import { Lined } from './fields.tsx';
import { CarForm, RoadForm } from './new-forms.tsx';
import { Problems } from './Problems.tsx';
import { Refused, send } from './server.ts';
import { hashOf, publication } from './state.ts';
import { words } from './words.ts';

const ANOTHER = '+';
const today = (): string => {
  const now = new Date();
  return new Date(now.getTime() - now.getTimezoneOffset() * 60_000).toISOString().slice(0, 10);
};

/** How far this machine's clock is ahead of UTC on a day, `+01:00`: the test is most often where the machine is. */
function zoneOn(date: string): string {
  const aheadMin = -new Date(`${date}T12:00`).getTimezoneOffset();
  const two = (n: number) => String(Math.floor(n)).padStart(2, '0');
  return `${aheadMin < 0 ? '-' : '+'}${two(Math.abs(aheadMin) / 60)}:${two(Math.abs(aheadMin) % 60)}`;
}

export function Begin() {
  const { begin: w, loading } = words();
  const [title, setTitle] = useState('');
  const [car, setCar] = useState('');
  const [road, setRoad] = useState('');
  const [date, setDate] = useState(today());
  const [like, setLike] = useState('');
  const [problems, setProblems] = useState<readonly Problem[]>([]);
  const [lacks, setLacks] = useState<readonly string[]>([]);
  const all = publication.value;
  if (all === undefined) return <p>{loading}</p>;
  const earlier = all.tests.filter(test => test.car === car);

  const begin = async (event: Event) => {
    event.preventDefault();
    const empty = [
      title.trim() === '' ? w.testTitle : '',
      car === '' || car === ANOTHER ? w.car : '',
      road === '' || road === ANOTHER ? w.road : '',
      date === '' ? w.date : '',
    ].filter(Boolean);
    setLacks(empty);
    if (empty.length > 0) return;
    try {
      const { id } = await send<{ id: string }>('POST', 'new', {
        kind: 'test',
        title: title.trim(),
        car,
        road,
        date,
        time_zone: zoneOn(date),
        ...(like === '' ? {} : { like }),
      });
      await readPublication();
      location.hash = hashOf(id, 'road');
    } catch (error) {
      if (!(error instanceof Refused)) throw error;
      setProblems(error.problems);
    }
  };

  return (
    <>
      <h1>{w.title}</h1>
      <p class="lead">{w.lead}</p>
      <form class="fields" onSubmit={begin} noValidate>
        <Lined label={w.testTitle} hint={w.testTitleHint} wide>
          {given => <input {...given} value={title} onInput={event => setTitle(event.currentTarget.value)} />}
        </Lined>
        <Chosen
          label={w.car}
          value={car}
          of={all.cars}
          onChange={id => {
            setCar(id);
            setLike(all.tests.find(test => test.car === id)?.id ?? '');
          }}
        />
        <Chosen label={w.road} value={road} of={all.roads} onChange={setRoad} />
        <Lined label={w.date}>
          {given => (
            <input
              {...given}
              type="date"
              value={date}
              onInput={event => setDate(event.currentTarget.value)}
            />
          )}
        </Lined>
        {earlier.length > 0 && (
          <Lined label={w.like} hint={w.likeHint}>
            {given => (
              <select {...given} value={like} onChange={event => setLike(event.currentTarget.value)}>
                <option value="">{w.likeNone}</option>
                {earlier.map(({ id, title: name, date: day }) => (
                  <option key={id} value={id}>
                    {[name, day].filter(Boolean).join(', ')}
                  </option>
                ))}
              </select>
            )}
          </Lined>
        )}
        {car !== ANOTHER && road !== ANOTHER && (
          <div class="buttons wide">
            <button type="submit" class="main">
              {w.go}
            </button>
            <a class="button" href="#/">
              {w.cancel}
            </a>
          </div>
        )}
      </form>
      {lacks.length > 0 && (
        <p class="wrong" role="alert">
          {w.missing}
          {lacks.join(', ')}.
        </p>
      )}
      {problems.length > 0 && <Problems problems={problems} />}
      {car === ANOTHER && <CarForm onMade={setCar} />}
      {road === ANOTHER && <RoadForm onMade={setRoad} />}
    </>
  );
}

interface ChosenProps {
  readonly label: string;
  readonly value: string;
  readonly of: readonly { readonly id: string; readonly name: string }[];
  readonly onChange: (id: string) => void;
}

function Chosen({ label, value, of, onChange }: ChosenProps) {
  const { begin: w } = words();
  return (
    <Lined label={label}>
      {given => (
        <select {...given} value={value} onChange={event => onChange(event.currentTarget.value)}>
          <option value="">{w.choose}</option>
          {of.map(({ id, name }) => (
            <option key={id} value={id}>
              {name}
            </option>
          ))}
          <option value={ANOTHER}>{w.another}</option>
        </select>
      )}
    </Lined>
  );
}
