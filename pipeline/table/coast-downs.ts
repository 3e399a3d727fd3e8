/** Drag area and rolling resistance by coasting, beside what is stated for the car. */
import { coastDownRefusalInWords } from '../conditions/coast-down-words.ts';
import { AMERICAN_HEAVY_COAST_DOWN } from '../conditions/limits.ts';
import { localiseDigits } from '../digits.ts';
import { COVERAGE_FACTOR } from '../measurement/uncertainty.ts';
import type { TestCoastDowns } from '../result/coast-downs.ts';
import type { House, TestResult } from '../result/result.ts';
import { printQuantity, withUnit } from '../result/words.ts';
import { decimalsForUncertainty, roundToDecimals, roundUncertainty } from '../round.ts';
import { NONE } from './figures-of.ts';
import type { Table, TableCell } from './table.ts';
import { coastDownWords } from './words/coast-downs.ts';

/** Undefined where no log of the test was taken coasting. Without an answer the table has no rows, and says why. */
export function coastDownTable(test: TestResult, house: House): Table | undefined {
  const { coastDowns, content, road } = test;
  if (coastDowns === undefined) return undefined;
  const { language } = house;
  const words = coastDownWords(house);
  const there = coastDowns.runs.filter(({ directionId }) => directionId === road.directions[0]?.id).length;
  const density =
    coastDowns.densityKgm3 === undefined
      ? ''
      : words.at(printQuantity(coastDowns.densityKgm3, 'density', undefined, language));
  return {
    id: 'coast-downs',
    caption: words.caption(
      printQuantity(content.as_tested.mass_kg, 'mass', undefined, language),
      there,
      coastDowns.runs.length - there,
      density,
    ),
    columns: [
      { label: words.what, align: 'start' },
      { label: words.byCoasting, align: 'end' },
      { label: words.uncertainty, align: 'end' },
      { label: words.stated, align: 'end' },
    ],
    rows: rowsOf(coastDowns, test, house),
    notes: notesOf(coastDowns, test, house),
  };
}

function rowsOf({ answer }: TestCoastDowns, { car, road }: TestResult, house: House): Table['rows'] {
  if (!answer?.decided) return [];
  const { language } = house;
  const words = coastDownWords(house);
  const first = road.directions[0]?.name ?? '';
  const { estimate } = answer;
  const row = (label: string, ...texts: readonly string[]): readonly TableCell[] => [
    { text: label, header: true },
    ...texts.map(text => ({ text })),
  ];
  return [
    row(
      words.dragArea,
      ...withDoubt(estimate.dragAreaM2, estimate.dragAreaStandardM2, 'm²', language),
      written(car.drag_area_m2, 'm²', language),
    ),
    row(
      words.rolling,
      ...withDoubt(estimate.rollingResistance, estimate.rollingResistanceStandard, '', language),
      written(car.rolling_resistance, '', language),
    ),
    row(words.headwind(first), printQuantity(estimate.headwindMps, 'wind', undefined, language), NONE, NONE),
    row(
      words.slope(first),
      printQuantity(100 * estimate.slope, 'slope', 2, language),
      NONE,
      road.slope_pct === undefined ? NONE : printQuantity(road.slope_pct, 'slope', 2, language),
    ),
  ];
}

/** More decimals than any of these is known to. */
const MOST_DECIMALS = 5;

function withDoubt(value: number, standard: number, unit: string, language: string): [string, string] {
  const expanded = COVERAGE_FACTOR * standard;
  const decimals = decimalsForUncertainty(expanded, { most: MOST_DECIMALS });
  const print = (text: string): string => {
    const digits = localiseDigits(text, language);
    return unit === '' ? digits : withUnit(digits, unit);
  };
  return [print(roundToDecimals(value, decimals)), `± ${print(roundUncertainty(expanded, decimals))}`];
}

const written = (value: number | undefined, unit: string, language: string): string => {
  if (value === undefined) return NONE;
  const digits = localiseDigits(String(value), language);
  return unit === '' ? digits : withUnit(digits, unit);
};

function notesOf({ runs, answer }: TestCoastDowns, test: TestResult, house: House): readonly string[] {
  const { language } = house;
  const words = coastDownWords(house);
  if (runs.length === 0) return [words.none];
  const listed = runs.map(run => {
    const name = test.road.directions.find(({ id }) => id === run.directionId)?.name ?? run.directionId;
    return words.run(
      name,
      run.at === undefined ? '' : words.clock(run.at),
      printQuantity(run.fromMps, 'speed', 0, house),
      printQuantity(run.toMps, 'speed', 0, house),
      printQuantity(run.lastsS, 'time', 0, language),
    );
  });
  const said = words.runs(listed.join('; '));
  if (!answer?.decided) {
    const reason = answer === undefined ? words.noDensity : coastDownRefusalInWords(answer.reason, house);
    return [words.undecided(reason), said];
  }
  return [
    words.uncertaintyNote,
    ...(answer.estimate.fewerThanAdvised ? [words.few(AMERICAN_HEAVY_COAST_DOWN.runsEachWay)] : []),
    test.content.restate_with === 'coast-downs' ? words.used : words.notUsed,
    said,
  ];
}
