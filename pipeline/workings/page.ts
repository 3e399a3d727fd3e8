/** The page of an attempt's workings as data: facts, the start, a section a figure, the rules they follow. */
import { METHODS, type Method, type MethodId, methodsIn } from '../measurement/methods.ts';
import { flagsInWords } from '../result/flag-rules.ts';
import { languageOfRemark } from '../result/in-language.ts';
import { measureIds, measureLabel, measuresOf } from '../result/measures.ts';
import { resultOfOne } from '../result/one-attempt.ts';
import { restatedFigure } from '../result/restated-figure.ts';
import type { Attempt, House, TestResult } from '../result/result.ts';
import { surfaceInWords } from '../result/words/conditions.ts';
import { reasonInWords } from '../result/words/set-aside.ts';
import { capital, printQuantity, printResult, startRuleInWords, statedSpeed } from '../result/words.ts';
import type { Table } from '../table/table.ts';
import { budgetTable } from './budget-table.ts';
import { WorkingDigits } from './digits.ts';
import { fitBlocks } from './fit-in-words.ts';
import { restPlot, startPlot } from './fit-plot.ts';
import { readingsTable } from './readings-table.ts';
import { restatedBudgetTable } from './restated-budget.ts';
import type { StartWorkings } from './start.ts';
import { type Block, resultInWords, stepBlocks } from './steps-in-words.ts';
import { workingsWords } from './words.ts';
import type { FigureWorkings, Workings } from './workings.ts';

export interface WorkedFact {
  readonly label: string;
  readonly text: string;
  /** Where the text is in another language than the page. */
  readonly lang?: string;
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

export interface WorkedEnd {
  readonly id: 'start' | 'rest';
  readonly heading: string;
  readonly plotSvg: string;
  readonly blocks: readonly Block[];
}

export interface WorkingsPage {
  readonly title: string;
  readonly description: string;
  /** The attempt, its log and conditions. */
  readonly facts: readonly WorkedFact[];
  /** Leaving rest and coming to it: what the fits behind them found. */
  readonly ends: readonly WorkedEnd[];
  readonly sections: readonly WorkedSection[];
  /** Every rule used above, once. */
  readonly rules: readonly (Method & { readonly id: MethodId })[];
}

/** Figures the publication shows, and those its article asks for by name. `codeVersion` as `codeVersion()` gives it. */
export function workingsPageOf(
  workings: Workings,
  test: TestResult,
  house: House,
  codeVersion: string,
): WorkingsPage {
  const { attempt } = workings;
  const digits = new WorkingDigits(house);
  const published = new Set([
    ...measuresOf(house),
    ...measureIds.filter(id => test.articleMarkdown.includes(id)),
  ]);
  const shown = workings.figures.filter(({ measure }) => published.has(measure));
  const sections = sectionsOf(shown, attempt, house, digits);
  const used = new Set<MethodId>([
    'readings',
    'noise',
    'distance',
    ...(workings.start === undefined ? [] : (['first-movement', 'one-foot-rollout'] as const)),
    ...sections.map(({ method }) => method),
    'uncertainty',
  ]);
  return {
    title: workingsWords(house).title(attempt.number),
    description: workingsWords(house).description(attempt.number, test.content.title),
    facts: factsOf(workings, test, house, codeVersion),
    ends: endsOf(workings, digits),
    sections,
    rules: (Object.keys(METHODS) as MethodId[])
      .filter(id => used.has(id))
      .map(id => ({ id, ...methodsIn(house)[id] })),
  };
}

function endsOf({ start, rest }: Workings, digits: WorkingDigits): readonly WorkedEnd[] {
  const words = workingsWords(digits.language);
  return [
    ...(start === undefined
      ? []
      : [
          {
            id: 'start' as const,
            heading: words.start,
            plotSvg: startPlot(start, digits.readers),
            blocks: startBlocks(start, digits),
          },
        ]),
    ...(rest === undefined
      ? []
      : [
          {
            id: 'rest' as const,
            heading: words.comingToRest,
            plotSvg: restPlot(rest, digits.readers),
            blocks: [
              words.stopPublished(digits.of(rest.atS, 'time'), digits.of(rest.standardS, 'time')),
              ...fitBlocks('stop', rest.fit, rest.atS, digits),
            ],
          },
        ]),
  ];
}

function sectionsOf(
  figures: readonly FigureWorkings[],
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
  const restated = startRule === undefined ? undefined : restatedFigure(attempt, { measure, startRule });
  return {
    id: anchor,
    ...(rule === undefined ? {} : { heading: capital(rule) }),
    blocks: [
      ...(withSteps ? stepBlocks(`readings-${anchor}`, name, steps, digits) : []),
      resultInWords(steps, value, printed, digits),
      budget ?? workingsWords(house).noUncertainty,
      ...(restated === undefined ? [] : [restatedBudgetTable(restated, anchor, name, digits)]),
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
  const words = workingsWords(digits.language);
  const time = (s: number): string => digits.of(s, 'time');
  const standard = (items: StartWorkings['rolloutBudget']): string =>
    time(Math.hypot(...items.map(item => item.standard)));
  const table: Table = readingsTable('readings-start', words.startReadings, start.readings, digits);
  return [
    table,
    words.firstMovement(time(firstMovementS), standard(firstMovementBudget)),
    ...fitBlocks('start', start.fit, firstMovementS, digits),
    words.firstFoot(
      time(rolloutAtS),
      standard(rolloutBudget),
      time(rolloutAtS - firstMovementS),
      digits.of(rolloutMps, 'speed'),
    ),
    ...(ruler === undefined
      ? []
      : [
          words.ruler(
            ruler.from.line,
            ruler.to.line,
            `${time(ruler.from.timeS)} − ${digits.bare(ruler.from.speedMps, 'speed')} ÷ (${digits.bare(ruler.to.speedMps, 'speed')} − ${digits.bare(ruler.from.speedMps, 'speed')}) × ` +
              `${time(ruler.to.timeS - ruler.from.timeS)} = ${time(ruler.meetsS)}`,
            digits.signed(ruler.meetsS - firstMovementS, 'time'),
          ),
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
  const words = workingsWords(house);
  const remark = (text: string | undefined): Pick<WorkedFact, 'lang'> => {
    const lang = text === undefined ? undefined : languageOfRemark(test, text);
    return lang === undefined ? {} : { lang };
  };
  const facts: (readonly [string, string | undefined, Pick<WorkedFact, 'lang'>?])[] = [
    [words.attempt, words.ofTheDay(attempt.number, attempt.at)],
    [words.launchMethod, attempt.launchName],
    [words.direction, direction],
    [
      words.counts,
      attempt.setAside === undefined ? words.kept : words.setAside(reasonInWords(attempt.setAside, house)),
      remark(attempt.setAside),
    ],
    [words.noted, attempt.note, remark(attempt.note)],
    [words.flags, measurement.flags.length === 0 ? words.none : flagsInWords(attempt, house)],
    [words.conditions, conditionsInWords(conditions, language)],
    [words.road, words.roadSaid],
    [words.log, words.lines(attempt.log, lines[0], lines[1])],
    [words.hash, logSha256],
    [
      words.readings,
      `${printQuantity(trace.rateHz, 'rate', 1, language)}, ${words.speedFrom[trace.speedSource]}`,
    ],
    [
      words.scatter,
      `${printQuantity(trace.noiseMps, 'speed', 3, house)}, ${words.noiseFrom[trace.noiseFrom]}`,
    ],
    [
      words.receiver,
      test.content.receiver.speed_accuracy_kmh === undefined
        ? words.noAccuracy
        : statedSpeed(test.content.receiver.speed_accuracy_kmh, house),
    ],
    [words.workedOutBy, words.program(codeVersion)],
  ];
  return facts.flatMap(([label, text, lang]) =>
    text === undefined || text === '' ? [] : [{ label, text, ...lang }],
  );
}

function conditionsInWords(conditions: Attempt['conditions'], language: string): string {
  const { temperatureK, pressurePa, relativeHumidity, densityKgm3, headwindMps, crosswindMps, slopePct } =
    conditions;
  const words = workingsWords(language);
  const print = (
    what: string,
    value: number | undefined,
    kind: Parameters<typeof printQuantity>[1],
  ): string | undefined =>
    value === undefined ? undefined : `${what} ${printQuantity(value, kind, undefined, language)}`;
  return [
    words.readAt(conditions.readAt),
    print(words.air, temperatureK, 'temperature'),
    print(words.pressure, pressurePa, 'pressure'),
    print(words.humidity, relativeHumidity, 'humidity'),
    print(words.density, densityKgm3, 'density'),
    print(words.headwind, headwindMps, 'wind'),
    print(words.crosswind, crosswindMps, 'wind'),
    print(words.slope, slopePct, 'slope'),
    conditions.surface === undefined
      ? undefined
      : `${words.surface} ${surfaceInWords(conditions.surface, language)}`,
  ]
    .filter(text => text !== undefined)
    .join(', ');
}
