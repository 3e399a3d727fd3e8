/** What people wrote and what their logs hold, put together into what is published. */
import { clockOrderToDayS, clockTextToS, dateTextToMs, zoneTextToS } from '../content/calendar.ts';
import type { Content, TestFolder } from '../content/content.ts';
import { type ContentFiles, pathsByTest } from '../content/files.ts';
import { readSignedOff, SIGNED_OFF_NAME, type SignedOffFile } from '../content/signed-off-file.ts';
import { sortProblems } from '../content/sort-problems.ts';
import type { Problem } from '../problem.ts';
import { signedOffOther } from '../problems/sign-off.ts';
import { coastDownsOf } from './coast-downs.ts';
import { withDayFlags } from './day-flags.ts';
import { matchAttempts } from './match-attempts.ts';
import { type MeasureTools, measureLogs } from './match-logs.ts';
import { fromLogsOf, restateAttempt } from './restate-attempt.ts';
import type { Car, Publication, Road, TestResult } from './result.ts';
import { roadSlopeOf } from './road-slope.ts';

/** All that a test is made from. */
export interface TestMakings {
  readonly folder: TestFolder;
  /** Of every file in its folder, sorted. */
  readonly paths: readonly string[];
  readonly car: Car;
  readonly road: Road;
  /** Midnight of the day of the test, UTC. */
  readonly dateMs: number;
  readonly house: Content['house'];
}

export interface AssembledTest {
  readonly result: TestResult;
  readonly problems: readonly Problem[];
}

/** What assembling borrows from the stages before it and from the edge. */
export interface AssembleTools extends MeasureTools {
  /** What the same makings came to before, or `make`; always `make` where absent. */
  assembleOnce?(makings: TestMakings, make: () => AssembledTest): AssembledTest;
}

export interface Assembled {
  /** Newest first; tests without a usable car, road or date are left out, their problems are not. */
  readonly tests: readonly TestResult[];
  /** Of the content, the logs and the matching, by file and line. */
  readonly problems: readonly Problem[];
}

/** Every test put together from what of it can be used; never throws on what a file holds. */
export function contentToTests(
  content: Content,
  files: ContentFiles,
  { assembleOnce = (_, make) => make(), ...tools }: AssembleTools,
): Assembled {
  const tests: TestResult[] = [];
  const problems: Problem[] = [...content.problems];
  for (const makings of makingsOf(content, files)) {
    const test = assembleOnce(makings, () => makingsToTest(makings, files, tools));
    tests.push(test.result);
    problems.push(...test.problems);
  }
  return { tests: tests.sort(newestFirst), problems: sortProblems(problems) };
}

/** What each test is made from; those without a usable car, road or date are left out. */
export function makingsOf(content: Content, files: ContentFiles): readonly TestMakings[] {
  const pathsOf = pathsByTest(files.keys());
  const cars = new Map(content.cars.map(car => [car.id, car]));
  const roads = new Map(content.roads.map(road => [road.id, road]));
  return content.tests.flatMap(folder => {
    const car = cars.get(folder.content.car);
    const road = roads.get(folder.content.road);
    const dateMs = dateTextToMs(folder.content.date);
    if (!car || !road || dateMs === undefined) return [];
    return [
      {
        folder,
        paths: [...(pathsOf.get(folder.folder) ?? [])].sort(),
        car,
        road,
        dateMs,
        house: content.house,
      },
    ];
  });
}

/** The publication of tests that are assembled already; undefined where house.yaml is missing or faulty. */
export function testsToPublication(
  content: Content,
  { tests, problems }: Assembled,
): Publication | undefined {
  return content.house === undefined
    ? undefined
    : {
        house: content.house,
        cars: content.cars,
        roads: content.roads,
        tests,
        methodologyMarkdown: content.methodology,
        translations: content.translations,
        problems,
      };
}

function makingsToTest(
  { folder, car, road: roadAsWritten, dateMs, house }: TestMakings,
  files: ContentFiles,
  tools: MeasureTools,
): AssembledTest {
  const { content } = folder;
  const readingsS = clockOrderToDayS(content.conditions.map(({ at }) => clockTextToS(at) ?? 0));
  const day = { dateMs, zoneS: zoneTextToS(content.time_zone) ?? 0, readingsS };
  const measured = measureLogs(folder, files, day, house?.limits?.rate_hz, tools);
  const slope = roadSlopeOf(folder, roadAsWritten, measured.logs);
  const { road } = slope;
  const { attempts, noteOfAttempt, problems } = matchAttempts(folder, road, house, measured, readingsS);
  const coasted = coastDownsOf(folder, road, measured.logs, readingsS);
  const record = signedOffOf(folder, files);
  const all = sortProblems([measured, slope, { problems }, coasted, record].flatMap(each => each.problems));
  const known = {
    ...(slope.logged === undefined ? {} : { loggedSlope: slope.logged }),
    ...(coasted.coastDowns === undefined ? {} : { coastDowns: coasted.coastDowns }),
  };
  const fromLogs = fromLogsOf({ content, ...known });
  const result: TestResult = {
    id: folder.id,
    content,
    car,
    road,
    ...known,
    fromLogs,
    attempts: withDayFlags({ attempts, content, car, road }).map(attempt => {
      const restated = restateAttempt(attempt, content, car, road, fromLogs);
      return restated === undefined ? attempt : { ...attempt, restated };
    }),
    noteOfAttempt,
    articleMarkdown: folder.articleMarkdown,
    articleFile: folder.articleFile,
    logSha256: Object.fromEntries(measured.logs.map(log => [log.file, log.sha256])),
    ...(record.signedOff === undefined ? {} : { signedOff: record.signedOff }),
    warnings: all.filter(problem => problem.severity !== 'error'),
  };
  return { result, problems: all };
}

/** The numbers of a test that went out; none where they have not, or where the record cannot be read. */
function signedOffOf(
  { folder, id }: TestFolder,
  files: ContentFiles,
): { readonly signedOff?: SignedOffFile; readonly problems: readonly Problem[] } {
  const file = `${folder}/${SIGNED_OFF_NAME}`;
  const bytes = files.get(file);
  const read = bytes && readSignedOff(file, bytes);
  if (read === undefined) return { problems: [] };
  if ('problem' in read) return { problems: [read.problem] };
  const { signedOff } = read;
  return signedOff.record.test === id
    ? { signedOff, problems: [] }
    : { problems: [signedOffOther({ file, line: 1 }, id, signedOff.record.test)] };
}

/** By the day of publishing or, for a draft, of the test; ISO dates sort as text. */
export function newestFirst(a: TestResult, b: TestResult): number {
  const [first, second] = [a, b].map(({ content }) => content.published ?? content.date);
  if (first !== second) return first! < second! ? 1 : -1;
  return a.id < b.id ? -1 : 1;
}
