/** Checks inside house.yaml and the road files that a schema cannot make. */
import type { Problem } from '../problem.ts';
import {
  directionsNotOpposite,
  duplicateEntry,
  profileBeyondRoad,
  profileOutOfOrder,
  slopeStatedTwice,
} from '../problems/content.ts';
import type { Parsed } from './parse.ts';
import type { HouseContent, RoadContent } from './schema.ts';
import type { Path } from './yaml.ts';

/** Furthest from exactly opposite that two headings of one straight road may be, degrees: a compass read in a car. */
export const OPPOSITE_TOLERANCE_DEG = 20;

/** Every launch method has a name of its own. */
export function checkHouse(house: Parsed<HouseContent>): Problem[] {
  const ids = (house.partly.launch_methods ?? []).map(method => method?.id);
  return duplicates(house, 'launch method', ids, i => ['launch_methods', i, 'id']);
}

/** Directions differ and are opposite; the profile runs forwards and ends with the road. */
export function checkRoad(road: Parsed<RoadContent>): Problem[] {
  const { directions = [], profile = [], length_m } = road.partly;
  const problems = duplicates(
    road,
    'direction',
    directions.map(direction => direction?.id),
    i => ['directions', i, 'id'],
  );
  const [there, back] = directions.map(direction => direction?.heading_deg);
  if (there !== undefined && back !== undefined) {
    const turn = Math.abs(there - back) % 360;
    const apart = Math.min(turn, 360 - turn);
    if (180 - apart > OPPOSITE_TOLERANCE_DEG) {
      problems.push(directionsNotOpposite(road.place(['directions', 1, 'heading_deg']), apart));
    }
  }
  let earlier: number | undefined;
  for (const [i, pair] of profile.entries()) {
    const distance = pair?.[0];
    if (distance === undefined) continue;
    if (earlier !== undefined && distance <= earlier) {
      problems.push(profileOutOfOrder(road.place(['profile', i, 0]), earlier, distance));
    }
    earlier = distance;
  }
  if (earlier !== undefined && length_m !== undefined && earlier > length_m) {
    problems.push(profileBeyondRoad(road.place(['profile', profile.length - 1, 0]), length_m, earlier));
  }
  const stated = (['slope_pct', 'profile'] as const).find(field => road.partly[field] !== undefined);
  if (stated !== undefined && road.partly.slope_from_logs !== undefined) {
    problems.push(slopeStatedTwice(road.place(['slope_from_logs']), stated));
  }
  return problems;
}

/** One problem for every entry that repeats an earlier one. */
export function duplicates(
  parsed: Pick<Parsed<unknown>, 'place'>,
  what: string,
  ids: readonly (string | undefined)[],
  pathOf: (index: number) => Path,
): Problem[] {
  const first = new Map<string, number>();
  const problems: Problem[] = [];
  for (const [i, id] of ids.entries()) {
    if (id === undefined) continue;
    const before = first.get(id);
    if (before === undefined) first.set(id, i);
    else {
      const line = parsed.place(pathOf(before)).line;
      problems.push(duplicateEntry(parsed.place(pathOf(i)), what, id, line));
    }
  }
  return problems;
}
