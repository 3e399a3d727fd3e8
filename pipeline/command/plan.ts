/** `evenground plan`: what speeds a road has room for, as places in metres from the start. */
import { isAbsolute, join } from 'node:path';
import { loadPublication } from '../pipeline.ts';
import { writeWhole } from '../press/whole.ts';
import { type Problem, ProblemError, problemToLine } from '../problem.ts';
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
import { type PlanArguments, parsePlanArguments } from './plan-arguments.ts';
import { planToJson, planToText } from './plan-text.ts';

const USAGE = `Usage: npm run evenground -- plan --car CAR --road ROAD [--test TEST] …

Works out which speeds a road has room for, with reaction, braking and a reserve,
and where the last point to brake is, in metres from the start. Estimated from the
car's power and mass; with --test, from the starts and stops that the test has
measured so far.

Tests like these can injure and kill. A closed road with permission, local law and
licensed practice come first. The plan is arithmetic on stated assumptions and
not a clearance to drive.

  --direction D         a direction of the road, its first where not given
  --wet                 a wet road
  --load KG, --tow KG   added mass; what is towed has no brakes
  --headwind MPS        against the car; a minus sign for wind from behind
  --from KMH            speed of a rolling start
  --reaction S          of the driver
  --deceleration MPS2   on a dry level road, instead of an estimated or measured one
  --reserve M           left over after the stop
  --json                everything as one JSON object
  --card FILE           an HTML card for printing on A6 or for a phone

Exit status: 0 done; 1 content or card could not be read or written; 2 wrong usage.
`;

/**
 * Runs the command.
 * @param load reads the content under a root; the real one unless a test hands in another
 * @returns 0 planned, also where there is no room; 1 house.yaml cannot be used or the card not be written; 2 wrong usage
 */
export async function runPlan(
  args: readonly string[],
  io: Io,
  load: (root: string) => Promise<Publication> = loadPublication,
): Promise<number> {
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
  const publication = await load(io.root);
  const errors = errorsTouching(publication, asked);
  for (const problem of errors) io.stderr(`${problemToLine(problem)}\n`);
  if (errors.length > 0) {
    io.stderr('No plan was made: mend the errors above first.\n');
    return 1;
  }
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
  io.stdout(asked.json ? planToJson(plan, caution, house) : planToText(plan, caution, house));
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

/** Errors in what the plan is made from: a plan on half of a road's description is worse than none. */
function errorsTouching({ problems }: Publication, { car, road, test }: PlanArguments): readonly Problem[] {
  const files = [`cars/${car}.yaml`, `roads/${road}.yaml`, ...(test === undefined ? [] : [`tests/${test}/`])];
  return problems.filter(
    ({ severity, where }) =>
      severity === 'error' && files.some(file => where?.file.includes(`content/${file}`)),
  );
}

/** @throws ProblemError where there is no such car, road, test or direction. */
function choose({ cars, roads, tests, house }: Publication, asked: PlanArguments): RoadPlan {
  const car = named('car', asked.car, cars);
  const road = named('road', asked.road, roads);
  const test = asked.test === undefined ? undefined : named('test', asked.test, tests);
  if (test !== undefined && test.car.id !== car.id) {
    throw new ProblemError(planTestOfOtherCar(test.id, test.car.id, car.id));
  }
  const { direction } = asked.choices;
  if (direction !== undefined) named('direction', direction, road.directions);
  return contentToRoadPlan(car, road, asked.choices, test, house);
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
