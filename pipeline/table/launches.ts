/** What the day’s launches asked of the driveline: pauses between them, and heat of a slipping clutch where it shows. */

import { flagText } from '../measurement/flag-words.ts';
import {
  type CaredLaunch,
  couplingOf,
  type LaunchCare,
  launchCare,
  type MethodCare,
  WARM_PAUSE_S,
} from '../measurement/launch-care.ts';
import type { House, TestResult } from '../result/result.ts';
import { printedWords } from '../result/words/printed.ts';
import { localiseDigits, withUnit } from '../result/words.ts';
import { roundToDecimals, roundToMultiple } from '../round.ts';
import { NONE } from './figures-of.ts';
import type { Table, TableCell } from './table.ts';
import { launchesWords } from './words/launches.ts';
import { tableWords } from './words/shared.ts';

/** One row a standing start in the day's order, those given up and set aside among them. */
export function launchesTable(test: TestResult, house: House): Table {
  const { language } = house;
  const words = launchesWords(house);
  const heads = tableWords(house);
  const care = launchCare(test.attempts, {
    massKg: test.content.as_tested.mass_kg,
    coupling: couplingOf(test.car.gearbox),
  });
  const given = care.launches.filter(({ aborted }) => aborted).length;
  return {
    id: 'launches',
    caption: words.caption(care.launches.length, given),
    columns: [
      { label: words.launch, align: 'end' },
      { label: heads.attempt, align: 'end' },
      { label: heads.at, align: 'start' },
      { label: heads.launchMethod, align: 'start' },
      { label: words.pause, align: 'end' },
      { label: words.heat, align: 'end' },
      { label: heads.remarks, align: 'start' },
    ],
    rows: care.launches.map((launch): readonly TableCell[] => [
      { text: String(launch.place), header: true },
      { text: String(launch.attempt) },
      { text: launch.at },
      { text: launch.methodName ?? launch.methodId ?? NONE },
      { text: launch.pauseS === undefined ? NONE : pauseInWords(launch.pauseS) },
      { text: heatInWords(launch.heat?.fromJ, launch.heat?.toJ, language) },
      { text: remarksOf(launch, house) },
    ]),
    notes: care.launches.length === 0 ? [words.none] : notesOf(care, language),
  };
}

const remarksOf = ({ aborted, flags }: CaredLaunch, house: House): string =>
  [aborted ? launchesWords(house).givenUp : '', ...flags.map(flag => flagText(flag, house))]
    .filter(Boolean)
    .join('; ');

function notesOf({ launches, methods }: LaunchCare, language: string): string[] {
  const words = launchesWords(language);
  const assumptions = new Set(launches.flatMap(({ heat }) => heat?.by ?? []));
  const reasons = new Set(launches.flatMap(({ noHeat }) => noHeat ?? []));
  return [
    words.byMethod(methods.map(method => methodInWords(method, language))),
    words.pauseNote(withUnit(String(WARM_PAUSE_S), 's').replace('\u00a0', ' ')),
    ...[...assumptions].map(by => words.heatAssumes(words.assumption[by])),
    ...[...reasons].map(reason => words.noHeatWhere(words.noHeat[reason])),
    words.estimateNote,
  ];
}

function methodInWords(method: MethodCare, language: string): string {
  const words = launchesWords(language);
  const name = method.methodName ?? method.methodId ?? words.noMethod;
  const given = method.aborted === 0 ? '' : ` (${words.givenUpOf(method.aborted)})`;
  return [
    `${name}: ${method.launches}${given}`,
    ...(method.shortestPauseS === undefined
      ? []
      : [words.shortestPause(pauseInWords(method.shortestPauseS))]),
    ...(method.heatToJ === undefined
      ? []
      : [words.heatInAll(heatInWords(method.heatFromJ, method.heatToJ, language))]),
  ].join(', ');
}

/** Minutes and seconds; whole seconds, since a clock may know no more. */
function pauseInWords(pauseS: number): string {
  const whole = Number(roundToDecimals(pauseS, 0));
  const minutes = Math.floor(whole / 60);
  return minutes === 0
    ? withUnit(String(whole), 's')
    : `${withUnit(String(minutes), 'min')} ${withUnit(String(whole % 60).padStart(2, '0'), 's')}`;
}

/** Kilojoules: an estimate to the nearest 5, a range to the nearest 10. */
function heatInWords(fromJ: number | undefined, toJ: number | undefined, language: string): string {
  if (fromJ === undefined || toJ === undefined) return NONE;
  const print = (joules: number, multiple: number): string =>
    localiseDigits(roundToMultiple(joules / 1000, multiple), language);
  if (fromJ === toJ) return launchesWords(language).about(withUnit(print(toJ, 5), 'kJ'));
  return printedWords(language).range(print(fromJ, 10), withUnit(print(toJ, 10), 'kJ'));
}
