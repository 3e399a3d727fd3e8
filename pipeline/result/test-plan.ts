/** The road plan that a day of tests comes to: its car on its road, as most attempts were driven, from what they measured. */
import { onceOf } from '../once-of.ts';
import type { ForReaders } from '../speed-unit.ts';
import type { TestResult } from './result.ts';
import { contentToRoadPlan, type RoadPlan } from './road-plan.ts';

/** The way and the surface of most kept attempts; the road's first direction and a dry road where nobody noted them. */
export const testRoadPlan = (test: TestResult, readers: ForReaders): RoadPlan =>
  typeof readers === 'string'
    ? plan(test, readers)
    : onceOf(
        onceOf(plans, test, () => new WeakMap()),
        readers,
        () => plan(test, readers),
      );
/** Figure, plate, table and card show the same. */
const plans = new WeakMap<TestResult, WeakMap<object, RoadPlan>>();

function plan(test: TestResult, readers: ForReaders): RoadPlan {
  const kept = test.attempts.filter(({ setAside }) => setAside === undefined);
  const ways = test.road.directions.map(({ id }) => ({
    id,
    driven: kept.filter(({ directionId }) => directionId === id).length,
  }));
  const direction = ways.reduce((most, way) => (way.driven > most.driven ? way : most), ways[0]!).id;
  const known = kept.flatMap(({ conditions }) => conditions.surface ?? []);
  const wet = known.filter(surface => surface !== 'dry').length * 2 > known.length;
  return contentToRoadPlan(test.car, test.road, { direction, wet }, test, readers);
}
