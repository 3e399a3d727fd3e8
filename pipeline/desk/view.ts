/** A test as the desk's page shows it: what is written, what was measured from it, and what is missing. */

import { clockOrderToDayS, clockTextToS, dateTextToMs, zoneTextToS } from '../content/calendar.ts';
import { readSignedOff, SIGNED_OFF_NAME } from '../content/signed-off-file.ts';
import { FIGURES } from '../figure/figures.ts';
import { catalogue } from '../language.ts';
import { OVERLAYS } from '../overlay/overlays.ts';
import { houseFrameSizes } from '../overlay/sizes.ts';
import { type Problem, ProblemError, problemToLine } from '../problem.ts';
import { nothingThere } from '../problems/desk.ts';
import { headlineMeasure } from '../result/headline.ts';
import { MEASURES, measureLabel, measuresOf, timesFromRest } from '../result/measures.ts';
import { compareLaunchMethods } from '../result/methods-compared.ts';
import { pairInWords } from '../result/methods-words.ts';
import { pickResult } from '../result/pick.ts';
import type { Attempt, House, TestResult } from '../result/result.ts';
import { printResult } from '../result/words.ts';
import { houseUnits } from '../speed-unit.ts';
import { TABLES } from '../table/tables.ts';
import { mpsToKmh } from '../units.ts';
import { declaredOf } from './declared.ts';
import type { Desk, Now, OpenTest } from './desk.ts';
import { type Draft, draftOf } from './draft.ts';
import { gapsOf } from './gaps.ts';
import { type LogSeen, seeLog } from './log-seen.ts';
import { pathOfNew } from './new-content.ts';
import { type Store, versionOf } from './store.ts';

const WORDS = catalogue({
  en: { notMeasured: 'Nothing is measured yet.' },
  de: { notMeasured: 'Noch ist nichts gemessen.' },
});

/** What is known of a test before anything is measured. */
export interface WrittenView {
  readonly id: string;
  readonly version: string;
  readonly test: Draft['parsed']['partly'];
  readonly article: string;
  readonly articleVersion: string;
  readonly logs: readonly LogSeen[];
  readonly undo: number;
  readonly redo: number;
}

/** What is written of a test and what its logs are, before anything is measured. @throws ProblemError where there is no such test */
export async function writtenToView(desk: Desk, store: Store, id: string): Promise<WrittenView> {
  const now = await desk.now();
  const draft = draftOf(id, now.files, now.content);
  if (draft === undefined) throw new ProblemError(nothingThere('test', id));
  const yaml = (await store.read(`content/tests/${id}/test.yaml`)) ?? '';
  return {
    id,
    version: versionOf(yaml),
    test: draft.parsed.partly,
    article: draft.article,
    articleVersion: versionOf(draft.article),
    logs: seeLogs(desk, now, id, draft),
    ...(await store.steps(id)),
  };
}

/** Everything about one test, as JSON. @throws ProblemError where there is no such test */
export async function testToView(desk: Desk, store: Store, id: string): Promise<object> {
  const now = await desk.now();
  const written = await writtenToView(desk, store, id);
  const { logs } = written;
  const open = desk.open(now, id);
  const { draft, result } = open;
  const { house } = now;
  const signedOff = result?.signedOff?.record.signed_off;
  return {
    ok: true,
    ...written,
    runs:
      result === undefined
        ? []
        : result.attempts.map((attempt, place) => runSeen(attempt, writtenPlace(open, place), house)),
    attempts: attemptsSeen(open),
    results: result === undefined ? [] : resultsSeen(result, house),
    verdicts: result === undefined ? [] : verdictsOf(result, house),
    gaps: gapsOf(
      {
        conditions: draft.parsed.partly.conditions ?? [],
        massKg: draft.parsed.partly.as_tested?.mass_kg,
        car: now.content.cars.find(car => car.id === draft.parsed.partly.car),
        road: now.content.roads.find(road => road.id === draft.parsed.partly.road),
      },
      house,
    ),
    problems: distinct([...open.problems, ...logs.flatMap(log => log.problems ?? [])]),
    figures: Object.values(FIGURES).map(figure => ({
      kind: figure.kind,
      describes: figure.describes(house),
      ...(result === undefined
        ? { reason: WORDS(house).notMeasured }
        : madeOrNot(figure, result, house, open.others)),
    })),
    overlays:
      result === undefined
        ? []
        : Object.values(OVERLAYS).flatMap(overlay =>
            overlay.make(result, house, open.others).map(({ name, kind, altText }) => ({
              name,
              kind,
              describes: overlay.describes(house),
              altText,
            })),
          ),
    tables: Object.entries(TABLES).map(([kind, { describes }]) => ({ kind, describes })),
    sizes: houseFrameSizes(house).map(({ name }) => name),
    ...(signedOff === undefined ? {} : { signedOff: { date: signedOff } }),
    pageReady: result !== undefined,
    drawnFrom: drawnFrom(desk, now),
  };
}

/** Of everything that a picture of a test may be drawn from: it, its logs, the others, cars, roads and the house. */
function drawnFrom({ tools }: Desk, { files }: Now): string {
  const hashes = [...files].flatMap(([path, bytes]) =>
    path.endsWith('/article.md') ? [] : [`${path} ${tools.sha256(bytes)}`],
  );
  return tools.sha256(new TextEncoder().encode(hashes.join('\n')));
}

function seeLogs(desk: Desk, { files }: Now, id: string, { parsed }: Draft): readonly LogSeen[] {
  const { partly } = parsed;
  const day = {
    dateMs: dateTextToMs(partly.date ?? '') ?? 0,
    zoneS: zoneTextToS(partly.time_zone ?? '') ?? 0,
    readingsS: clockOrderToDayS(
      (partly.conditions ?? []).flatMap(reading => clockTextToS(reading?.at ?? '') ?? []),
    ),
  };
  return (partly.logs ?? []).flatMap(log => {
    if (log?.file === undefined) return [];
    const bytes = files.get(`content/tests/${id}/${log.file}`);
    if (bytes === undefined) return [{ file: log.file }];
    // The message names the whole path, the page only the log.
    const seen = seeLog(
      {
        file: `content/tests/${id}/${log.file}`,
        startsAtS: log.starts_at === undefined ? undefined : clockTextToS(log.starts_at),
        ...declaredOf(log),
      },
      bytes,
      day,
      desk.tools,
    );
    return [{ ...seen, file: log.file }];
  });
}

function runSeen(attempt: Attempt, noted: number | undefined, house: House): object {
  const { measurement, setAside } = attempt;
  const { run } = measurement;
  return {
    log: attempt.log,
    number: run.number,
    kind: run.kind,
    status: run.status,
    beginsS: measurement.beginsS,
    endsS: measurement.endsS,
    ...(attempt.at === '' ? {} : { clock: attempt.at }),
    topKmh: mpsToKmh(measurement.topMps),
    ...saysOf(attempt, house),
    ...(noted === undefined ? {} : { attempt: noted }),
    attemptId: attempt.id,
    kept: setAside === undefined,
    ...(setAside === undefined || noted === undefined ? {} : { setAside }),
    flags: measurement.flags.map(({ text }) => text),
  };
}

/** The highest speed from rest that it reached, or the longest other figure, printed. */
function saysOf(attempt: Attempt, house: House): { readonly says?: string } {
  const shown = measuresOf(house);
  const unit = `-${houseUnits(house)}`;
  const fromRest = shown.filter(id => MEASURES[id].fromRest && id.endsWith(unit) && id.startsWith('0-'));
  const likely = [
    ...timesFromRest(house).slice(0, 1),
    ...fromRest.toReversed(),
    ...shown.filter(id => !MEASURES[id].fromRest),
  ];
  for (const measure of likely) {
    const value = MEASURES[measure].valueOf(attempt.measurement, house.headline_start_rule);
    if (value === undefined) continue;
    const printed = printResult(
      {
        measure,
        statistic: 'best',
        ...(MEASURES[measure].fromRest ? { startRule: house.headline_start_rule } : {}),
        value: value.value,
        ...(value.uncertainty === undefined ? {} : { uncertainty: value.uncertainty }),
        n: 1,
        nSetAside: 0,
        median: value.value,
        among: {},
        attemptIds: [attempt.id],
      },
      house,
    );
    return {
      says: `${measureLabel(measure, house)}: ${printed.text}${printed.uncertainty === undefined ? '' : ` ${printed.uncertainty}`}`,
    };
  }
  return {};
}

/** Place in test.yaml of the note of an attempt; undefined where nobody noted it. */
function writtenPlace({ draft, result }: OpenTest, place: number): number | undefined {
  const note = result?.noteOfAttempt?.[place];
  return note === undefined ? undefined : draft.attemptIndex[note];
}

/** What became of each note, in the order it is written. */
function attemptsSeen(open: OpenTest): readonly object[] {
  const { draft, result, problems } = open;
  return (draft.parsed.partly.attempts ?? []).map((_, index) => {
    const run = result?.attempts.find((_attempt, place) => writtenPlace(open, place) === index);
    const told = problems.find(
      ({ where }) => where?.field?.startsWith(`attempts.${index}.`) || where?.field === `attempts.${index}`,
    );
    return {
      index,
      ...(run === undefined
        ? told === undefined
          ? {}
          : { says: `${told.what}. ${told.mend}` }
        : { id: run.id, run: { log: run.log, number: run.measurement.run.number } }),
    };
  });
}

function resultsSeen(test: TestResult, house: House): readonly object[] {
  return measuresOf(house).flatMap(measure => {
    const result = pickResult(test, house, { measure });
    if (result === undefined) return [];
    const printed = printResult(result, house);
    const { n, nSetAside, startRule } = result;
    return [
      {
        measure,
        label: [measureLabel(measure, house), printed.rule, printed.count]
          .filter(part => part !== undefined)
          .join(', '),
        ...(startRule === undefined ? {} : { startRule }),
        n,
        nSetAside,
        text: [printed.text, printed.uncertainty].filter(part => part !== undefined).join(' '),
      },
    ];
  });
}

function verdictsOf(test: TestResult, house: House): readonly string[] {
  const measure = headlineMeasure(test, house);
  if (measure === undefined) return [];
  const compared = compareLaunchMethods(test, house, { measure, startRule: house.headline_start_rule });
  return compared.pairs.map(pair => pairInWords(pair, measure, house));
}

function madeOrNot(
  figure: (typeof FIGURES)[keyof typeof FIGURES],
  test: TestResult,
  house: House,
  others: readonly TestResult[],
): { readonly title: string } | { readonly reason: string } {
  const made = figure.make(test, house, { startRule: house.headline_start_rule }, others);
  return 'reason' in made ? { reason: made.reason } : { title: made.title };
}

/** Each problem once, however many stages met it. */
function distinct(problems: readonly Problem[]): readonly Problem[] {
  return [...new Map(problems.map(problem => [problemToLine(problem), problem])).values()];
}

/** Where steps of a car's or a road's file are remembered; no test can have that name. */
export const journalOf = (kind: 'car' | 'road', id: string): string => `${kind}.${id}`;

/** House, cars, roads and tests, drafts among them. */
export async function publicationToView(desk: Desk, store: Store): Promise<object> {
  const { content, house, problems, files } = await desk.now();
  const described = async (kind: 'car' | 'road', id: string) => ({
    id,
    version: versionOf((await store.read(pathOfNew(kind, id))) ?? ''),
    undo: (await store.steps(journalOf(kind, id))).undo,
  });
  const tests = [...files.keys()].flatMap(path => {
    const id = /^content\/tests\/([^/]+)\/test\.yaml$/.exec(path)?.[1];
    if (id === undefined) return [];
    const { title, date, car, road } = draftOf(id, files, content)?.parsed.partly ?? {};
    const record = files.get(`content/tests/${id}/${SIGNED_OFF_NAME}`);
    const read = record && readSignedOff(SIGNED_OFF_NAME, record);
    return [
      {
        id,
        title: title ?? id,
        ...(date === undefined ? {} : { date }),
        ...(car === undefined ? {} : { car }),
        ...(road === undefined ? {} : { road }),
        ...(read !== undefined && 'signedOff' in read
          ? { signedOff: { date: read.signedOff.record.signed_off } }
          : {}),
      },
    ];
  });
  const { logoPicture: _, ...plainHouse } = house;
  return {
    ok: true,
    house: plainHouse,
    cars: await Promise.all(
      content.cars.map(async ({ id, ...car }) => ({ ...(await described('car', id)), name: car.name, car })),
    ),
    roads: await Promise.all(
      content.roads.map(async ({ id, ...road }) => ({
        ...(await described('road', id)),
        name: road.name,
        road,
      })),
    ),
    tests,
    problems,
  };
}
