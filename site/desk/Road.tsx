/** Step 1: the test, the car as it was on the day, the road, and what speeds the road has room for. */
import { Choice, Field } from './fields.tsx';
import { RoadPlan } from './RoadPlan.tsx';
import { publication, test } from './state.ts';
import { words } from './words.ts';

const named = (of: readonly { readonly id: string; readonly name: string }[]): Record<string, string> =>
  Object.fromEntries(of.map(({ id, name }) => [id, name]));

export function Road() {
  const { road: w, begin } = words();
  const all = publication.value;
  const car = all?.cars.find(({ id }) => id === test.value.car);
  const road = all?.roads.find(({ id }) => id === test.value.road);
  return (
    <>
      <p class="lead">{w.lead}</p>
      <h2>{w.theTest}</h2>
      <div class="fields">
        <Field path={['title']} label={w.title} kind="prose" />
        <Field path={['standfirst']} label={w.standfirst} kind="prose" />
        <Choice path={['car']} label={begin.car} options={named(all?.cars ?? [])} />
        <Choice path={['road']} label={begin.road} options={named(all?.roads ?? [])} />
        <Field path={['date']} label={w.date} kind="date" />
        <Field path={['published']} label={w.published} kind="date" hint={w.publishedHint} />
        <Field path={['byline']} label={w.byline} />
        <Field path={['time_zone']} label={w.zone} hint={w.zoneHint} />
      </div>
      <h2>{w.asTested}</h2>
      <div class="fields">
        <Field path={['as_tested', 'mass_kg']} label={w.mass} unit="kg" kind="number" />
        <Choice path={['as_tested', 'mass_from']} label={w.massFrom} options={w.massFroms} none={w.notSaid} />
        <Field path={['as_tested', 'aboard']} label={w.aboard} />
        <Field path={['as_tested', 'fuel']} label={w.fuel} />
        <Field path={['as_tested', 'tyres']} label={w.tyres} />
        <Field path={['as_tested', 'tyre_pressure_front_kpa']} label={w.front} unit="kPa" kind="number" />
        <Field path={['as_tested', 'tyre_pressure_rear_kpa']} label={w.rear} unit="kPa" kind="number" />
        <Field path={['as_tested', 'odometer_km']} label={w.odometer} unit="km" kind="number" />
        <Field path={['as_tested', 'notes']} label={w.notes} kind="prose" />
      </div>
      <h2>{w.receiver}</h2>
      <div class="fields">
        <Field path={['receiver', 'what']} label={w.receiverWhat} kind="prose" />
        <Field
          path={['receiver', 'speed_accuracy_kmh']}
          label={w.accuracy}
          unit="km/h"
          kind="number"
          hint={w.accuracyHint}
        />
      </div>
      {car !== undefined && <CarFacts car={car.car} />}
      {road !== undefined && <RoadFacts road={road.road} />}
      <RoadPlan road={road?.road} />
    </>
  );
}

type CarOf = NonNullable<typeof publication.value>['cars'][number]['car'];
type RoadOf = NonNullable<typeof publication.value>['roads'][number]['road'];

function CarFacts({ car }: { readonly car: CarOf }) {
  const { car: w, road } = words();
  return (
    <Facts
      title={road.carFacts}
      facts={[
        [w.kind, car.kind],
        [w.drive, car.drive && w.drives[car.drive]],
        [w.driven_wheels, car.driven_wheels && w.wheels[car.driven_wheels]],
        [w.gearbox, car.gearbox],
        [w.power_kw, car.power_kw && `${car.power_kw} kW`],
        [w.torque_nm, car.torque_nm && `${car.torque_nm} N·m`],
        [w.kerb_mass_kg, car.kerb_mass_kg && `${car.kerb_mass_kg} kg`],
        [w.drag_area_m2, car.drag_area_m2 && `${car.drag_area_m2} m²`],
        [w.rolling_resistance, car.rolling_resistance && String(car.rolling_resistance)],
        [w.price, car.price],
      ]}
    />
  );
}

function RoadFacts({ road }: { readonly road: RoadOf }) {
  const { roadForm: w, road: title } = words();
  return (
    <Facts
      title={title.roadFacts}
      facts={[
        [w.surface, road.surface],
        [w.length_m, road.length_m && `${road.length_m} m`],
        [w.width_m, road.width_m && `${road.width_m} m`],
        [w.slope_pct, road.slope_pct && `${road.slope_pct} %`],
        [w.altitude_m, road.altitude_m && `${road.altitude_m} m`],
        [w.permission, road.permission],
        [
          title.direction,
          road.directions?.map(({ name, heading_deg }) => `${name} (${heading_deg}°)`).join(', '),
        ],
      ]}
    />
  );
}

interface FactsProps {
  readonly title: string;
  readonly facts: readonly (readonly [string, string | number | undefined])[];
}

function Facts({ title, facts }: FactsProps) {
  return (
    <details class="facts-of">
      <summary>{title}</summary>
      <dl>
        {facts
          .filter(([, value]) => value !== undefined && value !== '')
          .map(([label, value]) => (
            <div key={label}>
              <dt>{label}</dt>
              <dd>{value}</dd>
            </div>
          ))}
      </dl>
    </details>
  );
}
