/** Rows of the tables of open data: SI, unrounded, nothing left out. Cells stand in the order of the columns. */
import { START_RULES } from '../content/schema.ts';
import { COVERAGE_FACTOR } from '../measurement/uncertainty.ts';
import { MEASURES, measureIds } from '../result/measures.ts';
import { restatedFigure } from '../result/restated-figure.ts';
import type { Attempt, House, Publication, TestResult } from '../result/result.ts';
import type { Trace } from '../trace/trace.ts';
import { testAddress } from './page-address.ts';
import type { DataRow, DataTable, DataTableName } from './table.ts';
import { ATTEMPTS, RESULTS, TESTS, TRACES } from './tables.ts';

/** UCUM codes, which need no letters beyond ASCII. */
const UNIT = { s: 's', m: 'm', 'm/s': 'm/s', 'm/s²': 'm/s2' } as const;

type Record_ = Readonly<Record<string, DataRow[number]>>;

/** A record in the order of a table's columns. @throws Error for a name that is no column. */
function row({ name, columns }: DataTable, record: Record_): DataRow {
  const cells = columns.map(column => record[column.name]);
  const unknown = Object.keys(record).find(key => !columns.some(column => column.name === key));
  if (unknown !== undefined) throw new Error(`The table '${name}' has no column '${unknown}'.`);
  return cells;
}

/** For each column of a table its place among `names`. @throws Error where they are not the same */
function columnsOf({ name, columns }: DataTable, names: readonly string[]): readonly number[] {
  const places = columns.map(column => names.indexOf(column.name));
  if (places.includes(-1) || names.length !== columns.length)
    throw new Error(`The table '${name}' has other columns than ${names.join(', ')}.`);
  return places;
}

/** Every row of a table for one test. */
export const DATA_ROWS: Readonly<
  Record<DataTableName, (test: TestResult, house: House) => Iterable<DataRow>>
> = {
  tests: (test, house) => [testRow(test, house)],
  attempts: test => test.attempts.map(attempt => attemptRow(test, attempt)),
  results: test => test.attempts.flatMap(attempt => resultRows(test, attempt)),
  traces: traceRows,
};

/** Rows of a table for every test, in the order of the publication. */
export function* everyRow(name: DataTableName, { tests, house }: Publication): Iterable<DataRow> {
  for (const test of tests) yield* DATA_ROWS[name](test, house);
}

function testRow(test: TestResult, house: House): DataRow {
  const { content, car, road, attempts, signedOff } = test;
  return row(TESTS, {
    test: test.id,
    title: content.title,
    date: content.date,
    published: content.published,
    signed_off: signedOff?.record.signed_off,
    measured_by: signedOff?.record.program,
    car: car.id,
    car_name: car.name,
    kind: car.kind,
    drive: car.drive,
    driven_wheels: car.driven_wheels,
    kerb_mass: car.kerb_mass_kg,
    mass_as_tested: content.as_tested.mass_kg,
    road: road.id,
    road_name: road.name,
    headline_start_rule: house.headline_start_rule,
    receiver: content.receiver.what,
    attempts: attempts.length,
    attempts_kept: attempts.filter(({ setAside }) => setAside === undefined).length,
    ...coastingCells(test),
    page: testAddress(house, test.id),
  });
}

function coastingCells({ coastDowns }: TestResult): Record_ {
  if (coastDowns === undefined) return {};
  const { runs, densityKgm3, answer } = coastDowns;
  const counted = { coast_downs: runs.length, coasting_air_density: densityKgm3 };
  if (!answer?.decided) return counted;
  const { estimate } = answer;
  return {
    ...counted,
    coasting_drag_area: estimate.dragAreaM2,
    coasting_drag_area_uncertainty: COVERAGE_FACTOR * estimate.dragAreaStandardM2,
    coasting_rolling_resistance: estimate.rollingResistance,
    coasting_rolling_resistance_uncertainty: COVERAGE_FACTOR * estimate.rollingResistanceStandard,
  };
}

function attemptRow({ id }: TestResult, attempt: Attempt): DataRow {
  const { measurement, conditions, trace } = attempt;
  return row(ATTEMPTS, {
    test: id,
    attempt: attempt.id,
    at: attempt.at,
    kind: measurement.run.kind,
    launch: attempt.launchId,
    direction: attempt.directionId,
    kept: attempt.setAside === undefined,
    set_aside: attempt.setAside,
    note: attempt.note,
    log: attempt.log,
    begins: measurement.beginsS,
    ends: measurement.endsS,
    first_movement: measurement.start?.firstMovementS,
    rollout: measurement.start?.rolloutS,
    rate: trace.rateHz,
    speed_noise: trace.noiseMps,
    temperature: conditions.temperatureK,
    pressure: conditions.pressurePa,
    relative_humidity: conditions.relativeHumidity,
    air_density: conditions.densityKgm3,
    wind: conditions.windMps,
    headwind: conditions.headwindMps,
    crosswind: conditions.crosswindMps,
    slope: conditions.slopePct,
    surface: conditions.surface,
    flags: measurement.flags.map(({ code }) => code).join(' ') || undefined,
  });
}

function resultRows({ id }: TestResult, attempt: Attempt): readonly DataRow[] {
  return measureIds.flatMap(measure => {
    const { fromRest, unit, valueOf: figureOf } = MEASURES[measure];
    return (fromRest ? START_RULES : [undefined]).flatMap(startRule => {
      const measured = figureOf(attempt.measurement, startRule);
      if (measured === undefined) return [];
      const restated = restatedFigure(attempt, {
        measure,
        ...(startRule === undefined ? {} : { startRule }),
      });
      return [
        row(RESULTS, {
          test: id,
          attempt: attempt.id,
          measure,
          start_rule: startRule ?? '',
          kept: attempt.setAside === undefined,
          value: measured.value,
          uncertainty: measured.uncertainty,
          unit: UNIT[unit],
          restated: restated?.timeS,
          restated_uncertainty: restated?.uncertaintyS,
        }),
      ];
    });
  });
}

/** Logs in the order in which the day's attempts come to them, each reading once. */
function* traceRows({ id, attempts }: TestResult): Iterable<DataRow> {
  const order = columnsOf(TRACES, ['test', 'log', 'line', 'attempt', 'time', 'speed', 'distance']);
  const logs = new Map<string, Trace>(attempts.map(({ log, trace }) => [log, trace]));
  for (const [log, trace] of logs) {
    const owner: (string | undefined)[] = [];
    for (const { id: attempt, log: own, measurement } of attempts) {
      const { beginIndex, endIndex } = measurement.run;
      for (let i = beginIndex; own === log && i <= endIndex; i += 1) owner[i] ??= attempt;
    }
    // Taken once: there are a hundred thousand readings, and a trace may have to look for them each time it is asked.
    const { line, timeS, speedMps, distanceM } = trace;
    for (let i = 0; i < timeS.length; i += 1) {
      const cells = [id, log, line[i]!, owner[i], timeS[i]!, speedMps[i]!, distanceM[i]!];
      yield order.map(place => cells[place]);
    }
  }
}
