/** The car and the road as their own files describe them, to be changed here: what changes counts for every test of them. */
import { useState } from 'preact/hooks';
import { carSchema, roadSchema } from '../../pipeline/content/schema.ts';
import type { Problem } from '../../pipeline/problem.ts';
import type { NamedCar, NamedRoad, TestLine } from './answers.ts';
import { changeDescription, type DescribedKind, takeBackDescription } from './describing.ts';
import { type Bound, Choice, Field } from './fields.tsx';
import { Problems } from './Problems.tsx';
import { Refused } from './server.ts';
import { publication } from './state.ts';
import { words } from './words.ts';

export function CarFacts({ named: { id, name, undo, car } }: { readonly named: NamedCar }) {
  const { car: w, described } = words();
  const bound = boundTo('car', id, car, carSchema);
  const of = name;
  return (
    <Facts kind="car" id={id} undo={undo} title={described.car(name)}>
      <Field {...{ bound, of }} path={['name']} label={w.name} />
      <Field {...{ bound, of }} path={['short_name']} label={w.short_name} hint={w.short_nameHint} />
      <Field {...{ bound, of }} path={['kind']} label={w.kind} hint={w.kindHint} />
      <Choice {...{ bound, of }} path={['drive']} label={w.drive} options={w.drives} />
      <Choice {...{ bound, of }} path={['driven_wheels']} label={w.driven_wheels} options={w.wheels} />
      <Field {...{ bound, of }} path={['gearbox']} label={w.gearbox} hint={w.gearboxHint} />
      <Field {...{ bound, of }} path={['power_kw']} label={w.power_kw} unit="kW" kind="number" />
      <Field {...{ bound, of }} path={['torque_nm']} label={w.torque_nm} unit="N·m" kind="number" />
      <Field {...{ bound, of }} path={['kerb_mass_kg']} label={w.kerb_mass_kg} unit="kg" kind="number" />
      <Field {...{ bound, of }} path={['drag_area_m2']} label={w.drag_area_m2} unit="m²" kind="number" />
      <Field
        {...{ bound, of }}
        path={['rolling_resistance']}
        label={w.rolling_resistance}
        hint={w.rollingHint}
        kind="number"
      />
      <Field
        {...{ bound, of }}
        path={['maker_claims', 'top_speed_kmh']}
        label={w.top_speed}
        unit="km/h"
        kind="number"
      />
      <Field {...{ bound, of }} path={['price']} label={w.price} />
    </Facts>
  );
}

export function RoadFacts({ named: { id, name, undo, road } }: { readonly named: NamedRoad }) {
  const { roadForm: w, described } = words();
  const bound = boundTo('road', id, road, roadSchema);
  const of = name;
  return (
    <Facts kind="road" id={id} undo={undo} title={described.road(name)}>
      <Field {...{ bound, of }} path={['name']} label={w.name} />
      <Field {...{ bound, of }} path={['surface']} label={w.surface} />
      <Field {...{ bound, of }} path={['about']} label={w.about} kind="prose" />
      <Field {...{ bound, of }} path={['permission']} label={w.permission} kind="prose" />
      <Field {...{ bound, of }} path={['length_m']} label={w.length_m} unit="m" kind="number" />
      <Field {...{ bound, of }} path={['width_m']} label={w.width_m} unit="m" kind="number" />
      <Field
        {...{ bound, of }}
        path={['slope_pct']}
        label={w.slope_pct}
        unit="%"
        kind="number"
        hint={road.profile === undefined ? w.slopeHint : w.profileHint}
      />
      <Field {...{ bound, of }} path={['altitude_m']} label={w.altitude_m} unit="m" kind="number" />
      {road.directions?.map((way, i) => (
        <Field
          key={way.id}
          bound={bound}
          of={way.name}
          path={['directions', i, 'heading_deg']}
          label={w.headingOf(way.name)}
          unit="°"
          kind="number"
        />
      ))}
    </Facts>
  );
}

const boundTo = (
  kind: DescribedKind,
  id: string,
  value: unknown,
  schema: typeof carSchema | typeof roadSchema,
): Bound => ({
  value,
  schema,
  change: (path, to) => changeDescription(kind, id, path, to),
});

interface FactsProps {
  readonly kind: DescribedKind;
  readonly id: string;
  readonly undo: number;
  readonly title: string;
  readonly children: preact.ComponentChildren;
}

function Facts({ kind, id, undo, title, children }: FactsProps) {
  const { described: w } = words();
  const [problems, setProblems] = useState<readonly Problem[]>([]);
  const tests = publication.value?.tests.filter((test: TestLine) => test[kind] === id) ?? [];
  const signedOff = tests.filter(test => test.signedOff !== undefined).length;
  const takeBack = async (): Promise<void> => {
    setProblems([]);
    try {
      await takeBackDescription(kind, id);
    } catch (error) {
      if (!(error instanceof Refused)) throw error;
      setProblems(error.problems);
    }
  };
  return (
    <details class="facts-of">
      <summary>{title}</summary>
      <p class="hint">
        {w.counts(tests.length)}
        {signedOff > 0 && ` ${w.signedOff(signedOff)}`}
      </p>
      <div class="fields">{children}</div>
      <p>
        <button type="button" class="quiet" disabled={undo === 0} onClick={() => void takeBack()}>
          {w.takeBack}
          <span class="unseen">: {title}</span>
        </button>
      </p>
      {problems.length > 0 && <Problems problems={problems} />}
    </details>
  );
}
