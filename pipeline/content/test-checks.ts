/** Checks of a test.yaml against itself, the house, the car, the road and the logs beside it. */
import { onceOf } from '../once-of.ts';
import type { Place, Problem } from '../problem.ts';
import {
  attemptWithoutTime,
  conditionsOutOfOrder,
  gustBelowWind,
  impossibleDate,
  lighterThanKerb,
  logNotListed,
  missingLog,
  pathOutside,
  publishedBeforeTest,
  readingLacks,
  restateWithoutCoastDowns,
  runWithoutLog,
  unknownReference,
  unnamedLog,
  windIncomplete,
} from '../problems/content.ts';
import { clockOrderToDayS, clockTextToS, dateTextToMs } from './calendar.ts';
import { pathInFolder, pathsByTest } from './files.ts';
import { nearMiss } from './near-miss.ts';
import type { Parsed, Partly } from './parse.ts';
import { duplicates } from './place-checks.ts';
import type { CarContent, RoadContent, TestContent } from './schema.ts';
import type { Path } from './yaml.ts';

/** What a test is held against; a car or road that has faults of its own still counts as being there. */
export interface TestSurroundings {
  readonly folder: string;
  readonly cars: ReadonlyMap<string, Partly<CarContent>>;
  readonly roads: ReadonlyMap<string, Partly<RoadContent>>;
  /** Absent where house.yaml itself cannot be read: then no launch method is called unknown. */
  readonly launchMethods?: readonly string[];
  /** All files of the publication by path. */
  readonly paths: ReadonlySet<string>;
}

/** Every fault between the fields of one test and what surrounds it. */
export function checkTest(test: Parsed<TestContent>, around: TestSurroundings): Problem[] {
  return [
    ...checkDates(test),
    ...checkCarAndRoad(test, around),
    ...checkConditions(test),
    ...checkLogs(test, around),
    ...checkCoastDowns(test, around),
    ...checkAttempts(test, around),
  ];
}

function checkDates(test: Parsed<TestContent>): Problem[] {
  const problems: Problem[] = [];
  for (const key of ['date', 'published'] as const) {
    const text = test.partly[key];
    if (text !== undefined && dateTextToMs(text) === undefined) {
      problems.push(impossibleDate(test.place([key]), key, text));
    }
  }
  const { date, published } = test.partly;
  // ISO dates sort as text.
  if (problems.length === 0 && date !== undefined && published !== undefined && published < date) {
    problems.push(publishedBeforeTest(test.place(['published']), date, published));
  }
  return problems;
}

function checkCarAndRoad(test: Parsed<TestContent>, { cars, roads }: TestSurroundings): Problem[] {
  const problems: Problem[] = [];
  const { car, road, as_tested } = test.partly;
  if (car !== undefined && !cars.has(car)) {
    problems.push(reference(test.place(['car']), 'car', car, cars.keys(), `Write content/cars/${car}.yaml.`));
  }
  if (road !== undefined && !roads.has(road)) {
    problems.push(
      reference(test.place(['road']), 'road', road, roads.keys(), `Write content/roads/${road}.yaml.`),
    );
  }
  const kerbMassKg = car === undefined ? undefined : cars.get(car)?.kerb_mass_kg;
  const massKg = as_tested?.mass_kg;
  if (kerbMassKg !== undefined && massKg !== undefined && massKg < kerbMassKg) {
    problems.push(lighterThanKerb(test.place(['as_tested', 'mass_kg']), massKg, kerbMassKg));
  }
  return problems;
}

function reference(
  where: Place,
  what: string,
  found: string,
  known: Iterable<string>,
  mend: string,
): Problem {
  const all = [...known];
  return unknownReference(where, what, found, all, nearMiss(found, all), mend);
}

const TOLD_IN_A_READING = ['temperature_c', 'pressure_hpa', 'humidity_pct', 'wind_mps', 'surface'] as const;

function checkConditions(test: Parsed<TestContent>): Problem[] {
  const problems: Problem[] = [];
  const readings = test.partly.conditions ?? [];
  const timed = readings.flatMap((reading, i) => {
    const s = reading?.at === undefined ? undefined : clockTextToS(reading.at);
    return s === undefined ? [] : [{ i, s, at: reading?.at ?? '' }];
  });
  const dayS = clockOrderToDayS(timed.map(({ s }) => s));
  for (let n = 1; n < timed.length; n++) {
    if (dayS[n]! < dayS[n - 1]!) {
      const { i, at } = timed[n]!;
      problems.push(conditionsOutOfOrder(test.place(['conditions', i, 'at']), timed[n - 1]!.at, at));
    }
  }
  const toldBefore = new Set<string>();
  for (const [i, reading] of readings.entries()) {
    if (reading === undefined) continue;
    const lacks = [...toldBefore].filter(key => reading[key as keyof typeof reading] === undefined);
    if (lacks.length > 0 && reading.at !== undefined) {
      problems.push(readingLacks(test.place(['conditions', i]), reading.at, lacks));
    }
    for (const key of TOLD_IN_A_READING) if (reading[key] !== undefined) toldBefore.add(key);
    const { wind_mps: wind, wind_from_deg: from, gust_mps: gust } = reading;
    if (wind !== undefined && wind > 0 && from === undefined) {
      problems.push(windIncomplete(test.place(['conditions', i, 'wind_mps']), 'wind_from_deg'));
    }
    if (wind === undefined && from !== undefined) {
      problems.push(windIncomplete(test.place(['conditions', i, 'wind_from_deg']), 'wind_mps'));
    }
    if (wind !== undefined && gust !== undefined && gust < wind) {
      problems.push(gustBelowWind(test.place(['conditions', i, 'gust_mps']), wind, gust));
    }
  }
  return problems;
}

/** Files by test, found once for all tests. */
const byTest = new WeakMap<ReadonlySet<string>, ReadonlyMap<string, readonly string[]>>();

function checkLogs(test: Parsed<TestContent>, { folder, paths }: TestSurroundings): Problem[] {
  const written = (test.partly.logs ?? []).map(log => log?.file);
  const problems = duplicates(test, 'log', written, i => ['logs', i, 'file']);
  const own = onceOf(byTest, paths, () => pathsByTest(paths)).get(folder) ?? [];
  const inLogs = own.filter(path => path.startsWith(`${folder}/logs/`));
  const named = new Set<string>();
  for (const [i, file] of written.entries()) {
    if (file === undefined) continue;
    // Asked for only where something is wrong: a file that is known from before is parsed again for it.
    const where = () => test.place(['logs', i, 'file']);
    const path = pathInFolder(folder, file);
    if (path === undefined) problems.push(pathOutside(where(), file));
    else if (!paths.has(path)) {
      const near = nearMiss(
        file,
        inLogs.map(there => there.slice(folder.length + 1)).filter(there => !written.includes(there)),
      );
      problems.push(missingLog(where(), file, near));
    } else named.add(path);
  }
  // While the list or one entry has faults, it may be what names the file.
  if (test.partly.logs === undefined || written.includes(undefined)) return problems;
  for (const path of inLogs) {
    if (!named.has(path)) problems.push(unnamedLog({ file: path }, path.slice(folder.length + 1)));
  }
  return problems;
}

function checkCoastDowns(test: Parsed<TestContent>, around: TestSurroundings): Problem[] {
  const logs = test.partly.logs ?? [];
  const problems: Problem[] = [];
  const directions = directionsOf(test, around);
  for (const [i, log] of logs.entries()) {
    for (const [n, direction] of (log?.coast_downs ?? []).entries()) {
      if (direction === undefined || directions === undefined || directions.includes(direction)) continue;
      problems.push(unknownDirection(test, ['logs', i, 'coast_downs', n], direction, directions));
    }
  }
  // While a log has faults, it may be the one with coast-downs.
  const none = test.partly.logs !== undefined && logs.every(log => log && !('coast_downs' in log));
  if (none && test.partly.restate_with === 'coast-downs') {
    problems.push(restateWithoutCoastDowns(test.place(['restate_with'])));
  }
  return problems;
}

function directionsOf(test: Parsed<TestContent>, { roads }: TestSurroundings): readonly string[] | undefined {
  const road = test.partly.road === undefined ? undefined : roads.get(test.partly.road);
  return road?.directions?.map(direction => direction?.id).filter(id => id !== undefined);
}

function unknownDirection(
  test: Parsed<TestContent>,
  path: Path,
  direction: string,
  known: readonly string[],
): Problem {
  const mend = `Add it to directions in content/roads/${test.partly.road}.yaml.`;
  return reference(test.place(path), 'direction', direction, known, mend);
}

function checkAttempts(test: Parsed<TestContent>, around: TestSurroundings): Problem[] {
  const attempts = test.partly.attempts ?? [];
  const logs = (test.partly.logs ?? []).map(log => log?.file).filter(file => file !== undefined);
  const directions = directionsOf(test, around);
  const problems: Problem[] = [];
  const at = (path: Path) => test.place(['attempts', ...path]);

  for (const [i, attempt] of attempts.entries()) {
    if (attempt === undefined) continue;
    const { launch, direction, log } = attempt;
    // A field with a fault of its own is there, though without a value: it has been told already.
    if (!('at' in attempt) && !('run' in attempt)) problems.push(attemptWithoutTime(at([i])));
    if ('run' in attempt && !('log' in attempt) && logs.length > 1) {
      problems.push(runWithoutLog(at([i, 'run']), logs));
    }
    if (log !== undefined && !logs.includes(log)) {
      problems.push(logNotListed(at([i, 'log']), log, logs, nearMiss(log, logs)));
    }
    if (launch !== undefined && around.launchMethods && !around.launchMethods.includes(launch)) {
      const mend = 'Add it to launch_methods in content/house.yaml.';
      problems.push(reference(at([i, 'launch']), 'launch method', launch, around.launchMethods, mend));
    }
    if (direction !== undefined && directions && !directions.includes(direction)) {
      problems.push(unknownDirection(test, ['attempts', i, 'direction'], direction, directions));
    }
  }
  const oneLog = logs.length === 1 ? logs[0] : undefined;
  const times = attempts.map(attempt =>
    attempt?.at === undefined || attempt.run !== undefined
      ? undefined
      : `${attempt.log === undefined ? '' : `${attempt.log} `}${attempt.at}`,
  );
  // Several attempts may begin within one minute; only a time told to the second must be its own.
  const exact = times.map(time => (time !== undefined && /:\d\d:\d\d/.test(time) ? time : undefined));
  const runs = attempts.map(attempt => {
    const log = attempt?.log ?? oneLog;
    return attempt?.run === undefined || log === undefined ? undefined : `${attempt.run} of ${log}`;
  });
  problems.push(...duplicates(test, 'time', exact, i => ['attempts', i, 'at']));
  problems.push(...duplicates(test, 'run', runs, i => ['attempts', i, 'run']));
  return problems;
}
