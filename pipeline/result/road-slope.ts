/** The slope of a road that was not levelled, from the altitude that the logs of one test hold. */
import { FEWEST_PASSES, slopeFromPasses, tracePasses } from '../conditions/logged-slope.ts';
import type { TestFolder } from '../content/content.ts';
import type { Problem } from '../problem.ts';
import { slopeNotLogged } from '../problems/match.ts';
import type { MeasuredLog } from './match-logs.ts';
import type { Road } from './result.ts';

/** Shown wherever the slope is: it was logged, and not levelled. */
export interface LoggedRoadSlope {
  /** Mean rise in the first direction, %, and its standard uncertainty. */
  readonly slopePct: number;
  readonly standardPct: number;
  /** Passes over the whole of that stretch, and its length, m. */
  readonly passes: number;
  readonly lengthM: number;
}

/** The road with its slope in the first direction, where the road file asks for that and the logs tell it. */
export function roadSlopeOf(
  test: TestFolder,
  road: Road,
  logs: readonly MeasuredLog[],
): { readonly road: Road; readonly logged?: LoggedRoadSlope; readonly problems: readonly Problem[] } {
  const start = road.slope_from_logs;
  const direction = road.directions[0];
  if (start === undefined || direction === undefined) return { road, problems: [] };
  const line = {
    latitudeDeg: start.latitude_deg,
    longitudeDeg: start.longitude_deg,
    headingDeg: direction.heading_deg,
  };
  const answer = slopeFromPasses(logs.flatMap(({ trace }) => tracePasses(trace, line)));
  if (!answer.decided) {
    return { road, problems: [slopeNotLogged(test.place(['road']), answer.passes, FEWEST_PASSES)] };
  }
  const { meanSlope, standardUncertainty, passes, profile } = answer.slope;
  const slopePct = 100 * meanSlope;
  return {
    road: { ...road, slope_pct: slopePct },
    logged: {
      slopePct,
      standardPct: 100 * standardUncertainty,
      passes,
      lengthM: profile.toM - profile.fromM,
    },
    problems: [],
  };
}
