/** Flags that a run alone cannot tell: whether the road was long enough, and what the day had asked before. */
import { flag } from '../measurement/flag-words.ts';
import { couplingOf, launchCare } from '../measurement/launch-care.ts';
import type { Flag } from '../measurement/measurement.ts';
import type { Attempt, TestResult } from './result.ts';

/** A run that covers more than this share of the road has used it up (our own limit, no source). */
export const SHORT_ROAD_SHARE = 0.9;

/** The attempts of a day, each with the flags of road and place in the day added to its own. */
export function withDayFlags({
  attempts,
  content,
  car,
  road,
}: Pick<TestResult, 'attempts' | 'content' | 'car' | 'road'>): readonly Attempt[] {
  const care = launchCare(attempts, {
    massKg: content.as_tested.mass_kg,
    coupling: couplingOf(car.gearbox),
  });
  const warm = new Map(care.launches.map(({ attempt, flags }) => [attempt, flags]));
  return attempts.map(attempt => {
    const added = [...shortRoad(attempt, road.length_m), ...(warm.get(attempt.number) ?? [])];
    if (added.length === 0) return attempt;
    const { measurement } = attempt;
    return { ...attempt, measurement: { ...measurement, flags: [...measurement.flags, ...added] } };
  });
}

function shortRoad({ trace, measurement }: Attempt, lengthM: number): readonly Flag[] {
  const { beginIndex, endIndex } = measurement.run;
  const usedM = trace.distanceM[endIndex]! - trace.distanceM[beginIndex]!;
  if (!(usedM > SHORT_ROAD_SHARE * lengthM)) return [];
  return [flag('short-road', { usedM, lengthM })];
}
