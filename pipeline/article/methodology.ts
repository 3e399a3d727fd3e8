/** The rules and constants behind the figures, taken from the code that uses them. */
import { COVERAGE_FACTOR } from '../measurement/uncertainty.ts';
import { MEASURES, measureIds } from '../result/measures.ts';
import type { House } from '../result/result.ts';
import { localiseDigits, startRuleInWords } from '../result/words.ts';
import type { Table } from '../table/table.ts';
import { ROLLOUT_M } from '../units.ts';
import { airRangeInWords, figureRules, logRules, runRules } from './method-constants.ts';
import { otherStartRule } from './page-words.ts';

export interface MethodPart {
  readonly id: string;
  readonly title: string;
  readonly paragraphs: readonly string[];
  readonly table?: Table;
}

/** In the order of the page. */
export function methodParts(house: House): readonly MethodPart[] {
  const number = (value: number): string => localiseDigits(String(value), house.language);
  return [
    {
      id: 'start-rules',
      title: 'Start rules',
      paragraphs: [
        'A time from rest depends on when its clock starts. Both rules are worked out for every attempt, and both are shown.',
        `First movement: the estimated instant at which the car leaves rest, found from the shape of the rise and not from a threshold of speed.`,
        `One-foot rollout: the instant at which the car has covered ${number(ROLLOUT_M)} m. Clock and tape both start there.`,
        `Headline figures of ${house.name} are timed with the ${startRuleInWords(house.headline_start_rule)}; the ${startRuleInWords(otherStartRule(house))} stands beside them.`,
      ],
    },
    {
      id: 'launch-methods',
      title: 'Launch methods',
      paragraphs: [],
      table: {
        id: 'launch-methods',
        caption: 'What the driver does, by the name that tests use.',
        columns: [
          { label: 'Name', align: 'start' },
          { label: 'What the driver does', align: 'start' },
        ],
        rows: house.launch_methods.map(({ name, how }) => [{ text: name, header: true }, { text: how }]),
        notes: [],
      },
    },
    {
      id: 'figures',
      title: 'What each figure is',
      paragraphs: [],
      table: {
        id: 'figures',
        caption: 'Every figure that can be published. Figures from rest are given under both start rules.',
        columns: [
          { label: 'Figure', align: 'start' },
          { label: 'Unit', align: 'start' },
          { label: 'Start rule', align: 'start' },
          { label: 'What it is', align: 'start' },
        ],
        rows: measureIds.map(id => {
          const { label, displayUnit, fromRest, describes } = MEASURES[id];
          return [
            { text: label, header: true },
            { text: displayUnit },
            { text: fromRest ? 'both' : 'none' },
            { text: describes },
          ];
        }),
        notes: [],
      },
    },
    {
      id: 'uncertainty',
      title: 'Uncertainty and counts',
      paragraphs: [
        `Every uncertainty is expanded, with a coverage factor of ${localiseDigits(String(COVERAGE_FACTOR), house.language)}, about 95 %, after the Guide to the expression of uncertainty in measurement (JCGM 100).`,
        'The uncertainty of a best is that of timing that one attempt: not how near the car will come to it again. That of a median holds the scatter between attempts too.',
        'A best is printed with the number of attempts it is the best of, and their median: a best of many is helped by chance more than a best of few. Attempts set aside are counted, and their reasons are told.',
        'Two results whose difference does not exceed its own uncertainty are too close to call, and are not ranked. Below six attempts no interval of a median reaches 95 % without an assumption about how attempts scatter.',
      ],
    },
    {
      id: 'rounding',
      title: 'Rounding',
      paragraphs: [
        'Numbers are rounded once, when they are printed, to the nearest, and ties to the even digit (ISO 80000-1, annex B). A value carries no more digits than its uncertainty allows: to the place of the first digit of the uncertainty, or of the second where the first is 1.',
      ],
    },
    {
      id: 'air',
      title: 'Air and wind',
      paragraphs: [
        `The density of the air is worked out by CIPM-2007 from ${airRangeInWords(house)}, and by the ideal-gas law with the vapour pressure of Buck (1996) outside that range; each test says which.`,
        'A headwind is positive against the car. The mean of two opposite runs cancels the slope of the road, but not the wind: drag grows with the square of the air’s speed, so that wind along the road costs more one way than it gives the other.',
      ],
    },
    { id: 'run-rules', title: 'Finding runs', paragraphs: [], table: runRules(house) },
    { id: 'figure-rules', title: 'Constants', paragraphs: [], table: figureRules(house) },
    { id: 'log-rules', title: 'Judging a log', paragraphs: [], table: logRules(house) },
  ];
}
