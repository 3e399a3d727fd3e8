/** Step 1: the test, the car as it was on the day, the road, and what speeds the road has room for. */
import { CarFacts, RoadFacts } from './Described.tsx';
import { carNow, roadNow } from './describing.ts';
import { Choice, Field } from './fields.tsx';
import { RoadPlan } from './RoadPlan.tsx';
import { publication, test } from './state.ts';
import { words } from './words.ts';

const named = (of: readonly { readonly id: string; readonly name: string }[]): Record<string, string> =>
  Object.fromEntries(of.map(({ id, name }) => [id, name]));

export function Road() {
  const { road: w, begin, planAhead } = words();
  const all = publication.value;
  const car = carNow(test.value.car);
  const road = roadNow(test.value.road);
  return (
    <>
      <p class="lead">{w.lead}</p>
      {car !== undefined && road !== undefined && (
        <p>
          {planAhead.lead}{' '}
          {/* biome-ignore lint/a11y/useValidAnchor: it leads to a place on the page; the address keeps the step */}
          <a class="button" href="#plan-title" onClick={toPlan}>
            {planAhead.link}
          </a>
        </p>
      )}
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
      {car !== undefined && <CarFacts named={car} />}
      {road !== undefined && <RoadFacts named={road} />}
      <RoadPlan road={road?.road} />
    </>
  );
}

function toPlan(event: Event): void {
  event.preventDefault();
  const title = document.getElementById('plan-title');
  title?.scrollIntoView();
  title?.focus({ preventScroll: true });
}
