/** What the day’s launches asked of the driveline: pauses between them, and heat of a slipping clutch where it shows. */
import {
  type CaredLaunch,
  couplingOf,
  type LaunchCare,
  launchCare,
  type MethodCare,
  WARM_PAUSE_S,
} from '../measurement/launch-care.ts';
import type { House, TestResult } from '../result/result.ts';
import { localiseDigits, withUnit } from '../result/words.ts';
import { roundToDecimals, roundToMultiple } from '../round.ts';
import { NONE } from './figures-of.ts';
import type { Table, TableCell } from './table.ts';

/** One row a standing start in the day's order, those given up and set aside among them. */
export function launchesTable(test: TestResult, { language }: House): Table {
  const care = launchCare(test.attempts, {
    massKg: test.content.as_tested.mass_kg,
    coupling: couplingOf(test.car.gearbox),
  });
  const given = care.launches.filter(({ aborted }) => aborted).length;
  return {
    id: 'launches',
    caption: `Launches of the day: ${care.launches.length} standing starts, ${given} of them given up`,
    columns: [
      { label: 'Launch', align: 'end' },
      { label: 'Attempt', align: 'end' },
      { label: 'At', align: 'start' },
      { label: 'Launch method', align: 'start' },
      { label: 'Since the last launch', align: 'end' },
      { label: 'Heat in the clutch, estimate', align: 'end' },
      { label: 'Remarks', align: 'start' },
    ],
    rows: care.launches.map((launch): readonly TableCell[] => [
      { text: String(launch.place), header: true },
      { text: String(launch.attempt) },
      { text: launch.at },
      { text: launch.methodName ?? launch.methodId ?? NONE },
      { text: launch.pauseS === undefined ? NONE : pauseInWords(launch.pauseS) },
      { text: heatInWords(launch.heat?.fromJ, launch.heat?.toJ, language) },
      { text: remarksOf(launch) },
    ]),
    notes: care.launches.length === 0 ? ['No attempt began from rest.'] : notesOf(care, language),
  };
}

const remarksOf = ({ aborted, flags }: CaredLaunch): string =>
  [aborted ? 'given up' : '', ...flags.map(({ text }) => text)].filter(Boolean).join('; ');

function notesOf({ launches, methods }: LaunchCare, language: string): string[] {
  const assumptions = new Set(launches.flatMap(({ heat }) => heat?.assumption ?? []));
  const reasons = new Set(launches.flatMap(({ noHeat }) => noHeat ?? []));
  return [
    `By method: ${methods.map(method => methodInWords(method, language)).join('; ')}.`,
    `Pauses run from first movement to first movement. A pause under ${WARM_PAUSE_S} s is flagged; the limit is our own.`,
    ...[...assumptions].map(text => `Heat assumes: ${text}.`),
    ...[...reasons].map(text => `No heat is given where ${text}.`),
    'An estimate of energy only. It does not tell how hot anything was, what it bears, or what its maker allows.',
  ];
}

function methodInWords(method: MethodCare, language: string): string {
  const name = method.methodName ?? method.methodId ?? 'no method noted';
  const given = method.aborted === 0 ? '' : ` (${method.aborted} given up)`;
  const pause =
    method.shortestPauseS === undefined ? '' : `, shortest pause ${pauseInWords(method.shortestPauseS)}`;
  const heat =
    method.heatToJ === undefined
      ? ''
      : `, heat in all ${heatInWords(method.heatFromJ, method.heatToJ, language)}`;
  return `${name}: ${method.launches}${given}${pause}${heat}`;
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
  if (fromJ === toJ) return `about ${withUnit(print(toJ, 5), 'kJ')}`;
  return `${print(fromJ, 10)} to ${withUnit(print(toJ, 10), 'kJ')}`;
}
