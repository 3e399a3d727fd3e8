/** Small forms for a car or a road that is not there yet: only what it cannot be without. */
import { useState } from 'preact/hooks';
import type { Problem } from '../../pipeline/problem.ts';
import { readPublication } from './describing.ts';
import { Lined } from './fields.tsx';
import { Problems } from './Problems.tsx';
import { Refused, send } from './server.ts';
import { words } from './words.ts';

interface Asked {
  readonly name: string;
  readonly label: string;
  readonly unit?: string;
  readonly hint?: string;
  readonly number?: true;
  readonly options?: Readonly<Record<string, string>>;
}

interface MadeProps {
  /** Told the id the server gave. */
  readonly onMade: (id: string) => void;
}

export function CarForm({ onMade }: MadeProps) {
  const { car: w, begin } = words();
  return (
    <SmallForm
      title={begin.newCar}
      go={begin.makeCar}
      onMade={onMade}
      asked={[
        { name: 'name', label: w.name },
        { name: 'short_name', label: w.short_name, hint: w.short_nameHint },
        { name: 'kind_of_car', label: w.kind, hint: w.kindHint },
        { name: 'drive', label: w.drive, options: w.drives },
        { name: 'driven_wheels', label: w.driven_wheels, options: w.wheels },
        { name: 'gearbox', label: w.gearbox, hint: w.gearboxHint },
        { name: 'power_kw', label: w.power_kw, unit: 'kW', number: true },
        { name: 'kerb_mass_kg', label: w.kerb_mass_kg, unit: 'kg', number: true },
      ]}
      body={filled => ({ kind: 'car', ...filled })}
    />
  );
}

export function RoadForm({ onMade }: MadeProps) {
  const { roadForm: w, begin } = words();
  return (
    <SmallForm
      title={begin.newRoad}
      go={begin.makeRoad}
      onMade={onMade}
      asked={[
        { name: 'name', label: w.name },
        { name: 'about', label: w.about },
        { name: 'permission', label: w.permission },
        { name: 'surface', label: w.surface },
        { name: 'length_m', label: w.length_m, unit: 'm', number: true },
        { name: 'direction', label: w.direction },
        { name: 'heading_deg', label: w.heading_deg, unit: '°', number: true, hint: w.headingHint },
      ]}
      body={({ direction, heading_deg, ...filled }) => ({
        kind: 'road',
        ...filled,
        directions: [{ name: direction, heading_deg }],
      })}
    />
  );
}

interface SmallFormProps extends MadeProps {
  readonly title: string;
  readonly go: string;
  readonly asked: readonly Asked[];
  readonly body: (filled: Record<string, string | number>) => unknown;
}

function SmallForm({ title, go, asked, body, onMade }: SmallFormProps) {
  const { begin: w, field } = words();
  const [typed, setTyped] = useState<Readonly<Record<string, string>>>({});
  const [wrong, setWrong] = useState<string | undefined>(undefined);
  const [problems, setProblems] = useState<readonly Problem[]>([]);
  const set = (name: string, text: string) => setTyped({ ...typed, [name]: text });

  const make = async (event: Event) => {
    event.preventDefault();
    const filled: Record<string, string | number> = {};
    const empty: string[] = [];
    for (const { name, label, number } of asked) {
      const text = (typed[name] ?? '').trim();
      const value = number === true ? Number(text.replace(',', '.')) : text;
      if (text === '') empty.push(label);
      else if (typeof value === 'number' && !Number.isFinite(value)) {
        setWrong(`${label}: ${field.notNumber}`);
        return;
      } else filled[name] = value;
    }
    setWrong(empty.length === 0 ? undefined : `${w.missing}${empty.join(', ')}.`);
    if (empty.length > 0) return;
    try {
      const { id } = await send<{ id: string }>('POST', 'new', body(filled));
      await readPublication();
      onMade(id);
    } catch (error) {
      if (!(error instanceof Refused)) throw error;
      setProblems(error.problems);
    }
  };

  return (
    <form class="inset" onSubmit={make} noValidate aria-label={title}>
      <h2>{title}</h2>
      <div class="fields">
        {asked.map(({ name, label, unit, hint, number, options }) => (
          <Lined key={name} label={label} unit={unit} hint={hint}>
            {given =>
              options === undefined ? (
                <input
                  {...given}
                  value={typed[name] ?? ''}
                  inputMode={number === true ? 'decimal' : undefined}
                  onInput={event => set(name, event.currentTarget.value)}
                />
              ) : (
                <select
                  {...given}
                  value={typed[name] ?? ''}
                  onChange={event => set(name, event.currentTarget.value)}
                >
                  <option value="">{w.choose}</option>
                  {Object.entries(options).map(([value, text]) => (
                    <option key={value} value={value}>
                      {text}
                    </option>
                  ))}
                </select>
              )
            }
          </Lined>
        ))}
      </div>
      <button type="submit">{go}</button>
      {wrong !== undefined && (
        <p class="wrong" role="alert">
          {wrong}
        </p>
      )}
      {problems.length > 0 && <Problems problems={problems} />}
    </form>
  );
}
