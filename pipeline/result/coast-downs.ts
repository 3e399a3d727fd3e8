/** Drag area and rolling resistance from the logs of a test that were taken coasting. */

import { DEFAULT_UNCERTAINTY } from '../conditions/circumstances.ts';
import {
  type CoastDownAnswer,
  type DirectedCoastDown,
  estimateCoastDown,
  findCoastDowns,
} from '../conditions/coast-down.ts';
import { sToClockText } from '../content/calendar.ts';
import type { TestFolder } from '../content/content.ts';
import type { RoadContent } from '../content/schema.ts';
import type { Problem } from '../problem.ts';
import { coastDownsDiffer } from '../problems/match.ts';
import { placeReadings, readingBefore, readingToConditions } from './match-conditions.ts';
import type { MeasuredLog } from './match-logs.ts';
import { unevenness } from './restate-attempt.ts';

/** One coast-down as a reader is told of it. */
export interface FoundCoastDown {
  readonly log: string;
  /** Clock time at the road; absent where the log has no clock. */
  readonly at?: string;
  readonly directionId: string;
  readonly fromMps: number;
  readonly toMps: number;
  readonly lastsS: number;
}

export interface TestCoastDowns {
  readonly runs: readonly FoundCoastDown[];
  /** Mean of the air's density during them, kg/m³; without it nothing is worked out. */
  readonly densityKgm3?: number;
  /** Absent where the density is not known. */
  readonly answer?: CoastDownAnswer;
}

/** Every coast-down of the logs that were taken coasting; undefined where no log was. */
export function coastDownsOf(
  test: TestFolder,
  road: RoadContent,
  logs: readonly MeasuredLog[],
  readingsS: readonly number[],
): { readonly coastDowns?: TestCoastDowns; readonly problems: readonly Problem[] } {
  const coasted = logs.filter(log => log.coastDowns !== undefined);
  if (coasted.length === 0) return { problems: [] };
  const problems: Problem[] = [];
  const runs: FoundCoastDown[] = [];
  const directed: DirectedCoastDown[] = [];
  const densities: number[] = [];
  const firstS = logs.find(({ startsS }) => startsS !== undefined)?.startsS;
  const readings = placeReadings(test.content.conditions, readingsS, firstS);
  for (const { file, index, trace, startsS, coastDowns: noted = [] } of coasted) {
    const found = findCoastDowns(trace).map(coastDown => {
      const beginsS = trace.timeS[coastDown.beginIndex]!;
      const atS = startsS === undefined ? undefined : startsS + beginsS;
      return { coastDown, beginsS, ...(atS === undefined ? {} : { atS }) };
    });
    if (found.length !== noted.length) {
      const begins = found.map(({ beginsS, atS }) =>
        atS === undefined ? `${Math.round(beginsS)} s` : sToClockText(atS),
      );
      problems.push(coastDownsDiffer(test.place(['logs', index, 'coast_downs']), file, noted.length, begins));
      continue;
    }
    for (const [n, { coastDown, beginsS, atS }] of found.entries()) {
      const directionId = noted[n]!;
      const way = road.directions[0]?.id === directionId ? 1 : -1;
      const { densityKgm3 } = readingToConditions(readingBefore(readings, atS).reading, road, undefined);
      if (densityKgm3 !== undefined) densities.push(densityKgm3);
      directed.push({ trace, coastDown, way });
      runs.push({
        log: file,
        ...(atS === undefined ? {} : { at: sToClockText(atS) }),
        directionId,
        fromMps: trace.speedMps[coastDown.beginIndex]!,
        toMps: trace.speedMps[coastDown.endIndex]!,
        lastsS: trace.timeS[coastDown.endIndex]! - beginsS,
      });
    }
  }
  if (densities.length === 0 || densities.length < runs.length) return { coastDowns: { runs }, problems };
  const densityKgm3 = densities.reduce((sum, density) => sum + density, 0) / densities.length;
  const massKg = test.content.as_tested.mass_kg;
  const answer = estimateCoastDown(
    directed,
    { massKg, densityKgm3 },
    { unevenness: road.profile === undefined ? DEFAULT_UNCERTAINTY.slope : unevenness(road.profile) },
  );
  return { coastDowns: { runs, densityKgm3, answer }, problems };
}
