/** The page of an attempt's workings as data: facts, the start, a section a figure, the rules they follow. */
import { METHODS, type Method, type MethodId } from '../measurement/methods.ts';
import { flagsInWords } from '../result/flag-rules.ts';
import { measureLabel } from '../result/measures.ts';
import { resultOfOne } from '../result/one-attempt.ts';
import type { Attempt, House, TestResult } from '../result/result.ts';
import {
  capital,
  localiseDigits,
  printQuantity,
  printResult,
  startRuleInWords,
  withUnit,
} from '../result/words.ts';
import type { Table } from '../table/table.ts';
import { budgetTable } from './budget-table.ts';
import { WorkingDigits } from './digits.ts';
import { onsetPlot } from './onset-plot.ts';
import { readingsTable } from './readings-table.ts';
import type { StartWorkings } from './start.ts';
import { type Block, resultInWords, stepBlocks } from './steps-in-words.ts';
import type { FigureWorkings, Workings } from './workings.ts';

export interface WorkedFact {
  readonly label: string;
  readonly text: string;
}

/** One figure under one start rule: its id is the address that published numbers lead to. */
export interface WorkedPart {
  readonly id: string;
  /** Absent where no start rule applies. */
  readonly heading?: string;
  readonly blocks: readonly Block[];
}

export interface WorkedSection {
  readonly id: string;
  readonly heading: string;
  readonly method: MethodId;
  readonly blocks: readonly Block[];
  readonly parts: readonly WorkedPart[];
}

export interface WorkingsPage {
  readonly title: string;
  readonly description: string;
  /** The attempt, its log and conditions. */
  readonly facts: readonly WorkedFact[];
  readonly start?: { readonly blocks: readonly Block[]; readonly plotSvg: string };
  readonly sections: readonly WorkedSection[];
  /** Every rule used above, once. */
  readonly rules: readonly (Method & { readonly id: MethodId })[];
}

/** `codeVersion` as `codeVersion()` gives it. */
export function workingsPageOf(
  workings: Workings,
  test: TestResult,
  house: House,
  codeVersion: string,
): WorkingsPage {
  const { attempt } = workings;
  const digits = new WorkingDigits(house.language);
  const sections = sectionsOf(workings, attempt, house, digits);
  const used = new Set<MethodId>([
    'readings',
    'noise',
    'distance',
    ...(workings.start === undefined ? [] : (['first-movement', 'one-foot-rollout'] as const)),
    ...sections.map(({ method }) => method),
    'uncertainty',
  ]);
  return {
    title: `Workings of attempt ${attempt.number}`,
    description: `Every figure of attempt ${attempt.number} of “${test.content.title}”, from the readings of its log to the printed number.`,
    facts: factsOf(workings, test, house, codeVersion),
    ...(workings.start === undefined
      ? {}
      : {
          start: {
            blocks: startBlocks(workings.start, digits),
            plotSvg: onsetPlot(workings.start, house.language),
          },
        }),
    sections,
    rules: (Object.keys(METHODS) as MethodId[])
      .filter(id => used.has(id))
      .map(id => ({ id, ...METHODS[id] })),
  };
}

function sectionsOf(
  { figures }: Workings,
  attempt: Attempt,
  house: House,
  digits: WorkingDigits,
): readonly WorkedSection[] {
  const measures = [...new Set(figures.map(({ measure }) => measure))];
  return measures.map((measure): WorkedSection => {
    const same = figures.filter(figure => figure.measure === measure);
    const first = same[0]!;
    // To a speed the finish is one and the same; over a distance it hangs on where the tape starts.
    const shared = same.length === 1 || first.steps.kind === 'speed';
    return {
      id: measure,
      heading: measureLabel(measure, house),
      method: first.method,
      blocks: shared
        ? stepBlocks(`readings-${measure}`, measureLabel(measure, house), first.steps, digits)
        : [],
      parts: same.map(figure => partOf(figure, attempt, house, digits, !shared)),
    };
  });
}

function partOf(
  figure: FigureWorkings,
  attempt: Attempt,
  house: House,
  digits: WorkingDigits,
  withSteps: boolean,
): WorkedPart {
  const { measure, startRule, anchor, steps, value } = figure;
  const printed = printedOf(figure, attempt, house);
  const rule = startRule === undefined ? undefined : startRuleInWords(startRule, house);
  const name = rule === undefined ? measureLabel(measure, house) : `${measureLabel(measure, house)}, ${rule}`;
  const budget = budgetTable(figure, name, digits);
  return {
    id: anchor,
    ...(rule === undefined ? {} : { heading: capital(rule) }),
    blocks: [
      ...(withSteps ? stepBlocks(`readings-${anchor}`, name, steps, digits) : []),
      resultInWords(steps, value, printed, digits),
      budget ?? 'No uncertainty is stated for this figure.',
    ],
  };
}

function printedOf(figure: FigureWorkings, attempt: Attempt, house: House): string {
  const { measure, startRule } = figure;
  const printed = printResult(
    resultOfOne(figure, measure, startRule ?? house.headline_start_rule, attempt),
    house,
  );
  return [printed.text, printed.uncertainty].filter(text => text !== undefined).join(' ');
}

function startBlocks(start: StartWorkings, digits: WorkingDigits): readonly Block[] {
  const { firstMovementS, rolloutAtS, rolloutMps, ruler, firstMovementBudget, rolloutBudget } = start;
  const time = (s: number): string => digits.of(s, 'time');
  const standard = (items: StartWorkings['rolloutBudget']): string =>
    time(Math.hypot(...items.map(item => item.standard)));
  const table: Table = readingsTable('readings-start', 'Readings around the start', start.readings, digits);
  return [
    table,
    `First movement, by the fit of the whole rise: ${time(firstMovementS)}, standard uncertainty ${standard(firstMovementBudget)}.`,
    `End of the first foot, by the same fit: ${time(rolloutAtS)}, standard uncertainty ${standard(rolloutBudget)}; ` +
      `${time(rolloutAtS - firstMovementS)} after first movement, at ${digits.of(rolloutMps, 'speed')}.`,
    ...(ruler === undefined
      ? []
      : [
          `By hand: a straight line through lines ${ruler.from.line} and ${ruler.to.line}, drawn back to rest, is ` +
            `${time(ruler.from.timeS)} − ${digits.bare(ruler.from.speedMps, 'speed')} ÷ (${digits.bare(ruler.to.speedMps, 'speed')} − ${digits.bare(ruler.from.speedMps, 'speed')}) × ` +
            `${time(ruler.to.timeS - ruler.from.timeS)} = ${time(ruler.meetsS)}, ${digits.signed(ruler.meetsS - firstMovementS, 'time')} from first movement. ` +
            'A ruler finds no slow beginning: it puts the start late and makes times short.',
        ]),
  ];
}

function factsOf(
  { attempt, logSha256, lines }: Workings,
  test: TestResult,
  house: House,
  codeVersion: string,
): readonly WorkedFact[] {
  const { trace, measurement, conditions } = attempt;
  const { language } = house;
  const direction = test.road.directions.find(({ id }) => id === attempt.directionId)?.name;
  const whole = (value: number): string => localiseDigits(String(value), language);
  const facts: (readonly [string, string | undefined])[] = [
    ['Attempt', `${attempt.number} of the day, at ${attempt.at}`],
    ['Launch method', attempt.launchName],
    ['Direction', direction],
    ['Counts', attempt.setAside === undefined ? 'kept' : `set aside: ${attempt.setAside}`],
    ['Noted', attempt.note],
    ['Flags', measurement.flags.length === 0 ? 'none' : flagsInWords(attempt, house)],
    ['Conditions', conditionsInWords(conditions, language)],
    ['Log', `${attempt.log}, lines ${lines[0]} to ${lines[1]}`],
    ['SHA-256 of the log', logSha256],
    ['Readings', `${printQuantity(trace.rateHz, 'rate', 1, language)}, ${SPEED_FROM[trace.speedSource]}`],
    [
      'Scatter of one reading',
      `${printQuantity(trace.noiseMps, 'speed', 3, language)}, ${NOISE_FROM[trace.noiseFrom]}`,
    ],
    [
      'Receiver, as its maker states',
      test.content.receiver.speed_accuracy_kmh === undefined
        ? 'no accuracy stated'
        : withUnit(whole(test.content.receiver.speed_accuracy_kmh), 'km/h'),
    ],
    ['Worked out by', `Evenground ${codeVersion}`],
  ];
  return facts.flatMap(([label, text]) => (text === undefined || text === '' ? [] : [{ label, text }]));
}

const SPEED_FROM = {
  recorded: 'speed as the receiver recorded it',
  'derived-from-position': 'speed worked out from positions',
} as const;
const NOISE_FROM = {
  standing: 'seen while standing',
  moving: 'seen while moving',
  assumed: 'assumed, because the log does not show it',
} as const;

function conditionsInWords(conditions: Attempt['conditions'], language: string): string {
  const { temperatureK, pressurePa, relativeHumidity, densityKgm3, headwindMps, crosswindMps, slopePct } =
    conditions;
  const print = (
    what: string,
    value: number | undefined,
    kind: Parameters<typeof printQuantity>[1],
  ): string | undefined =>
    value === undefined ? undefined : `${what} ${printQuantity(value, kind, undefined, language)}`;
  return [
    `read at ${conditions.readAt}`,
    print('air', temperatureK, 'temperature'),
    print('pressure', pressurePa, 'pressure'),
    print('humidity', relativeHumidity, 'humidity'),
    print('density', densityKgm3, 'density'),
    print('headwind', headwindMps, 'wind'),
    print('crosswind', crosswindMps, 'wind'),
    print('slope', slopePct, 'slope'),
    conditions.surface === undefined ? undefined : `surface ${conditions.surface}`,
  ]
    .filter(text => text !== undefined)
    .join(', ');
}
