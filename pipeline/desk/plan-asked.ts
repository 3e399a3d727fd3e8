/** The road plan of a test as its page asks for it, with assumptions of the person's own. */
import type { ScreenLayout } from '../figure/figure.ts';
import { renderFigure } from '../figure/render.ts';
import { planFigure } from '../figure/road-plan.ts';
import { loadLettering } from '../lettering/fonts.ts';
import { ProblemError } from '../problem.ts';
import { cannotBeShown } from '../problems/desk.ts';
import { planCautionOf } from '../result/caution.ts';
import type { House, TestResult } from '../result/result.ts';
import { contentToRoadPlan, type PlanChoices, type RoadPlan } from '../result/road-plan.ts';
import { speedScale } from '../speed-unit.ts';
import { tableToHtml } from '../table/html.ts';
import { planAssumptions, planFinding, roadPlanTable } from '../table/road-plan.ts';
import type { OpenTest } from './desk.ts';

export interface PlanSeen {
  readonly sentence: string;
  readonly tableHtml: string;
  /** Absent where none of its speeds is reached. */
  readonly figureSvg?: string;
  readonly figureAlt?: string;
  /** How many kept starts and stops it is worked out from; both 0 before the first run. */
  readonly starts: number;
  readonly stops: number;
  readonly assumptions: readonly string[];
  readonly caution: string;
}

/** @throws ProblemError where the test has no car or no road yet */
export async function planAsked(
  { result, publication, draft }: OpenTest,
  query: URLSearchParams,
): Promise<PlanSeen> {
  const { house } = publication;
  const { car: carId, road: roadId } = draft.parsed.partly;
  const car = publication.cars.find(one => one.id === carId);
  const road = publication.roads.find(one => one.id === roadId);
  if (car === undefined || road === undefined || result === undefined) {
    throw new ProblemError(cannotBeShown('The road plan', 'Choose the car and the road of this test first.'));
  }
  const isKnown = (id: string): boolean => road.directions.some(one => one.id === id);
  const today = result.attempts.length > 0 ? result : undefined;
  const worked = contentToRoadPlan(car, road, choicesOf(query, isKnown, house), today, house);
  // A mass nobody has typed yet is the stand-in of a draft, and not what was tested.
  const isTyped = draft.parsed.partly.as_tested?.mass_kg !== undefined;
  const plan: RoadPlan = isTyped ? worked : { ...worked, massFrom: 'kerb' };
  const layout = query.get('layout') === 'narrow' ? 'narrow' : 'wide';
  return {
    sentence: planFinding(plan, house),
    tableHtml: tableToHtml(roadPlanTable(plan, house), house),
    ...(await drawn(result, house, plan, layout)),
    starts: plan.pull?.runs ?? 0,
    stops: plan.stops?.stops ?? 0,
    assumptions: planAssumptions(plan, house).map(({ name, says }) => `${name}: ${says}`),
    caution: planCautionOf(house),
  };
}

/** A speed comes in the publication's unit. What is empty or no number is as the plan has it by itself. */
function choicesOf(query: URLSearchParams, isDirection: (id: string) => boolean, house: House): PlanChoices {
  const number = (key: string): number | undefined => {
    const text = query.get(key)?.trim() ?? '';
    const value = Number(text);
    return text === '' || !Number.isFinite(value) ? undefined : value;
  };
  const direction = query.get('direction') ?? '';
  const from = number('from');
  const choices: { readonly [K in keyof PlanChoices]: PlanChoices[K] | undefined } = {
    wet: query.get('wet') === '1' ? true : undefined,
    direction: isDirection(direction) ? direction : undefined,
    loadKg: number('load'),
    towKg: number('tow'),
    headwindMps: number('headwind'),
    fromMps: from === undefined ? undefined : speedScale(house).toMps(from),
    reactionTimeS: number('reaction'),
    decelerationMps2: number('deceleration'),
    reserveM: number('reserve'),
  };
  return Object.fromEntries(Object.entries(choices).filter(([, value]) => value !== undefined));
}

async function drawn(
  test: TestResult,
  house: House,
  plan: RoadPlan,
  layout: ScreenLayout,
): Promise<Pick<PlanSeen, 'figureSvg' | 'figureAlt'>> {
  const made = planFigure(test, house, plan);
  if ('reason' in made) return {};
  const { svgOutlined } = await renderFigure(made, layout, await loadLettering());
  return { figureSvg: svgOutlined, figureAlt: made.altText };
}
