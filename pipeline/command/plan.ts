/** `evenground plan`: what speeds a road has room for, as places in metres from the start. */
import { isAbsolute, join } from 'node:path';
import { loadPublication } from '../pipeline.ts';
import { writeWhole } from '../press/whole.ts';
import { ProblemError, problemToLine } from '../problem.ts';
import {
  planCardNotWritten,
  planNameUnknown,
  planTestOfOtherCar,
  planTestTellsNothing,
} from '../problems/road.ts';
import { planCautionOf } from '../result/caution.ts';
import type { Publication } from '../result/result.ts';
import { contentToRoadPlan, type RoadPlan } from '../result/road-plan.ts';
import { planToHtmlCard } from '../table/road-plan-card.ts';
import type { Io } from './io.ts';
import { PLAN_USAGE, type PlanArguments, parsePlanArguments } from './plan-arguments.ts';
import { planToJson, planToText } from './plan-text.ts';

const USAGE = `Usage: npm run evenground -- plan ${PLAN_USAGE}

Works out which speeds a road has room for, with reaction, braking and a reserve, and where the last point to brake
is, in metres from the start. Estimated from the car's power and mass; with --test, from the starts and stops that
test has measured so far. It is arithmetic on stated assumptions and not a clearance to drive.

  --wet            a wet road          --load, --tow     added mass, kg
  --headwind       m/s, - is behind    --from            speed of a rolling start, km/h
  --reaction       s                   --deceleration    on a dry level road, m/s²
  --reserve        m                   --card FILE       an HTML card for printing (A6) or a phone

Exit status: 0 done; 1 content or card could not be read or written; 2 wrong usage.
`;

/**
 * Runs the command.
 * @returns 0 planned, also where there is no room; 1 house.yaml cannot be used or the card not be written; 2 wrong usage
 */
export async function runPlan(args: readonly string[], io: Io): Promise<number> {
  if (args.includes('--help') || args.includes('-h')) {
    io.stdout(USAGE);
    return 0;
  }
  let asked: PlanArguments;
  try {
    asked = parsePlanArguments(args);
  } catch (error) {
    return tell(error, io);
  }
  const publication = await loadPublication(io.root);
  let plan: RoadPlan;
  try {
    plan = choose(publication, asked);
  } catch (error) {
    return tell(error, io);
  }
  const { house } = publication;
  const caution = planCautionOf(house);
  if (asked.test !== undefined && plan.pull === undefined && plan.stops === undefined) {
    io.stderr(`${problemToLine(planTestTellsNothing(asked.test))}\n`);
  }
  io.stdout(
    asked.json ? planToJson(plan, caution, house.language) : planToText(plan, caution, house.language),
  );
  if (asked.card === undefined) return 0;
  const from = process.env.INIT_CWD ?? io.root;
  try {
    await writeWhole(
      isAbsolute(asked.card) ? asked.card : join(from, asked.card),
      planToHtmlCard(plan, house),
    );
  } catch (error) {
    const code = (error as NodeJS.ErrnoException).code ?? 'unknown';
    io.stderr(`${problemToLine(planCardNotWritten(asked.card, code))}\n`);
    return 1;
  }
  io.stderr(`wrote ${asked.card}\n`);
  return 0;
}

function tell(error: unknown, io: Io): number {
  if (!(error instanceof ProblemError)) throw error;
  for (const problem of error.problems) io.stderr(`${problemToLine(problem)}\n`);
  return 2;
}

/** @throws ProblemError where there is no such car, road, test or direction. */
function choose({ cars, roads, tests }: Publication, asked: PlanArguments): RoadPlan {
  const car = named('car', asked.car, cars);
  const road = named('road', asked.road, roads);
  const test = asked.test === undefined ? undefined : named('test', asked.test, tests);
  if (test !== undefined && test.car.id !== car.id) {
    throw new ProblemError(planTestOfOtherCar(test.id, test.car.id, car.id));
  }
  const { direction } = asked.choices;
  if (direction !== undefined) named('direction', direction, road.directions);
  return contentToRoadPlan(car, road, asked.choices, test);
}

function named<T extends { readonly id: string }>(
  what: Parameters<typeof planNameUnknown>[0],
  id: string,
  all: readonly T[],
): T {
  const found = all.find(one => one.id === id);
  if (found !== undefined) return found;
  throw new ProblemError(
    planNameUnknown(
      what,
      id,
      all.map(one => one.id),
    ),
  );
}
