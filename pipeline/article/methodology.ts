/** The methodology page: every rule with its constants, grouped by what a reader asks. */
import { COMPARED, COMPARISON_LIMITS } from '../conditions/comparability.ts';
import { defaultPowerCorrection } from '../conditions/power-correction.ts';
import { refusalInWords } from '../conditions/power-words.ts';
import { REFERENCE_AIR } from '../conditions/reference.ts';
import { DRIVES } from '../content/schema.ts';
import { COVERAGE_FACTOR } from '../measurement/uncertainty.ts';
import { flagRules } from '../result/flag-rules.ts';
import { languageOfPart } from '../result/in-language.ts';
import { displayUnit, MEASURES, measuresOf } from '../result/measures.ts';
import type { House, Publication } from '../result/result.ts';
import { capital, startRuleInWords } from '../result/words.ts';
import type { Table } from '../table/table.ts';
import { driveInWords, otherStartRule } from './page-words.ts';
import { constantInWords, type RuleId, rulesIn } from './rules.ts';
import { thresholdInWords, thresholdTable } from './threshold-table.ts';
import { type GroupId, methodologyWords } from './words/methodology.ts';
import { exampleWords } from './words/worked-example.ts';
import { workedExample } from './worked-example.ts';
import { exampleBlocks } from './worked-example-page.ts';

/** A paragraph or a table. */
export type Block = string | Table;

/** One place of the page that links lead to. */
export interface MethodEntry {
  /** The fragment of its address. */
  readonly id: string;
  readonly name: string;
  readonly blocks: readonly Block[];
  readonly constants: readonly { readonly what: string; readonly value: string }[];
  readonly source?: string;
}

export interface MethodGroup {
  readonly id: string;
  /** What a reader asks. */
  readonly question: string;
  readonly entries: readonly MethodEntry[];
}

const GROUPS = [
  'clock',
  'certainty',
  'comparing',
  'weather',
  'reading',
  'driveline',
  'finding',
  'flagged',
] as const satisfies readonly GroupId[];

/** Every rule stands in one group; one without does not compile. */
const GROUP_OF: Readonly<Record<RuleId, GroupId>> = {
  'first-movement': 'clock',
  'one-foot-rollout': 'clock',
  uncertainty: 'certainty',
  noise: 'certainty',
  'median-uncertainty': 'certainty',
  rounding: 'certainty',
  alike: 'comparing',
  'too-close': 'comparing',
  'launch-comparison': 'comparing',
  'best-and-median': 'comparing',
  kept: 'comparing',
  'two-directions': 'weather',
  restated: 'weather',
  reference: 'weather',
  power: 'weather',
  'reading-of-conditions': 'weather',
  air: 'weather',
  wind: 'weather',
  slope: 'weather',
  'logged-slope': 'weather',
  'road-in-budget': 'certainty',
  coasting: 'weather',
  'weather-limits': 'weather',
  'speed-splits': 'reading',
  'distance-splits': 'reading',
  'rolling-splits': 'reading',
  'stopping-distance': 'reading',
  mfdd: 'reading',
  'peak-acceleration': 'reading',
  'top-speed': 'reading',
  shifts: 'driveline',
  'shift-loss': 'driveline',
  launches: 'driveline',
  'slip-heat': 'driveline',
  'standing-start': 'finding',
  'rolling-run': 'finding',
  'braking-run': 'finding',
  readings: 'finding',
  distance: 'finding',
  flags: 'flagged',
};

/** In the order of the page. */
export function methodGroups(publication: Publication): readonly MethodGroup[] {
  const { house } = publication;
  const words = methodologyWords(house);
  const special = entriesOf(publication);
  const groups = GROUPS.map((id): MethodGroup => {
    const rules = (Object.keys(GROUP_OF) as RuleId[]).filter(rule => GROUP_OF[rule] === id);
    return {
      id,
      question: words.questions[id],
      entries: [
        ...(special[id]?.first ?? []),
        ...rules.map(rule => ruleEntry(rule, house)),
        ...(special[id]?.last ?? []),
      ],
    };
  });
  return [...groups, { id: 'sources', question: words.whereFrom, entries: [sources(house)] }];
}

function ruleEntry(id: RuleId, house: House): MethodEntry {
  const { name, rule, constants, source } = rulesIn(house)[id];
  const table = tableOf(id, house);
  return {
    id,
    name,
    blocks: table === undefined ? [rule] : [rule, table],
    // Thresholds of flags stand in their table, each beside its reason.
    constants:
      id === 'flags' ? [] : constants.map(each => ({ what: each.what, value: constantInWords(each, house) })),
    source,
  };
}

function tableOf(id: RuleId, house: House): Table | undefined {
  if (id === 'flags') return flagTable(house);
  if (id === 'alike') return likenessTable(house);
  return id === 'power' ? powerTable(house) : undefined;
}

/** What belongs to a group and is no rule of its own. */
function entriesOf(
  publication: Publication,
): Partial<
  Record<GroupId, { readonly first?: readonly MethodEntry[]; readonly last?: readonly MethodEntry[] }>
> {
  const { house } = publication;
  const words = methodologyWords(house);
  const example = workedExample(publication);
  const entry = (id: string, name: string, ...blocks: readonly Block[]): MethodEntry => ({
    id,
    name,
    blocks,
    constants: [],
  });
  return {
    clock: {
      first: [
        entry(
          'start-rules',
          words.twoRules,
          words.twoRulesSaid(
            house.name,
            startRuleInWords(house.headline_start_rule, house),
            startRuleInWords(otherStartRule(house), house),
          ),
        ),
      ],
      last: [
        entry(
          'threshold',
          words.threshold,
          words.thresholdSaid(thresholdInWords(publication.house)),
          thresholdTable(publication),
        ),
      ],
    },
    certainty: {
      first: [entry('plus-minus', words.plusMinus, words.plusMinusSaid(COVERAGE_FACTOR), budgetTable(house))],
      last:
        example === undefined
          ? []
          : [entry('worked-example', words.example, ...exampleBlocks(example, house))],
    },
    comparing: {
      first: [entry('not-comparable', words.itsDay, words.itsDaySaid)],
    },
    reading: {
      first: [entry('figures', words.everyFigure, figureTable(house))],
      last: [entry('launch-methods', words.launchMethods, launchTable(house))],
    },
  };
}

/** A table whose first column heads its rows. */
const wordTable = (
  id: string,
  caption: string,
  labels: readonly string[],
  rows: readonly (readonly string[])[],
): Table => ({
  id,
  caption,
  columns: labels.map(label => ({ label, align: 'start' })),
  rows: rows.map(row => row.map((text, index) => (index === 0 ? { text, header: true } : { text }))),
  notes: [],
});

const budgetTable = (house: House): Table => {
  const { budget } = methodologyWords(house);
  const names: Readonly<Record<string, string>> = budget.items;
  return wordTable(
    'budget-items',
    budget.caption,
    budget.heads,
    Object.entries(exampleWords(house).budget).map(([source, what]) => [
      names[source] ?? capital(source.replaceAll('-', ' ')),
      what,
    ]),
  );
};

const figureTable = (house: House): Table => {
  const { figures } = methodologyWords(house);
  return wordTable(
    'figures',
    figures.caption,
    figures.heads,
    measuresOf(house).map(id => {
      const { fromRest, named } = MEASURES[id];
      const { label, describes } = named(house);
      return [label, displayUnit(id, house), fromRest ? figures.both : figures.none, describes];
    }),
  );
};

const launchTable = (house: House): Table => {
  const { launches } = methodologyWords(house);
  const table = wordTable(
    'launch-methods',
    launches.caption,
    launches.heads,
    house.launch_methods.map(({ name, how }) => [name, how]),
  );
  const langOf = (id: string, part: 'name' | 'how'): { readonly lang?: string } => {
    const lang = languageOfPart(house, `launch_methods.${id}.${part}`);
    return lang === undefined ? {} : { lang };
  };
  return {
    ...table,
    rows: table.rows.map((row, i) => {
      const { id } = house.launch_methods[i]!;
      return [
        { ...row[0]!, ...langOf(id, 'name') },
        { ...row[1]!, ...langOf(id, 'how') },
      ];
    }),
  };
};

const flagTable = (house: House): Table => {
  const { flags } = methodologyWords(house);
  return wordTable(
    'flag-rules',
    flags.caption,
    flags.heads,
    Object.values(flagRules(house)).map(({ name, why, limits }) => {
      const raised = limits(house).map(each => `${each.what} ${constantInWords(each, house)}`);
      return [name, why, raised.length === 0 ? flags.whenever : raised.join(' ')];
    }),
  );
};

const likenessTable = (house: House): Table => {
  const { likeness } = methodologyWords(house);
  return wordTable(
    'likeness',
    likeness.caption,
    likeness.heads,
    COMPARED.map(condition => {
      const limit = COMPARISON_LIMITS[condition];
      const { asks, source } = likeness.limits[condition](limit);
      return [likeness.condition(condition), capital(asks), capital(source)];
    }),
  );
};

const powerTable = (house: House): Table => {
  const { power } = methodologyWords(house);
  const { temperatureK, pressurePa } = REFERENCE_AIR;
  return wordTable(
    'power-correction',
    power.caption,
    power.heads,
    DRIVES.map(drive => {
      const answer = defaultPowerCorrection(drive, { temperatureK, dryPressurePa: pressurePa });
      return [
        capital(driveInWords(drive, house)),
        ...(answer.allowed
          ? ['ISO 1585', power.allowed]
          : [power.refused, refusalInWords(answer.refusal, house)]),
      ];
    }),
  );
};

/** Each source once, with the rules that rest on it. */
function sources(house: House): MethodEntry {
  const words = methodologyWords(house);
  const bySource = Map.groupBy(Object.values(rulesIn(house)), ({ source }) => source);
  const named = [...bySource].sort(([a], [b]) => Number(words.isOurs(a)) - Number(words.isOurs(b)));
  return {
    id: 'source-list',
    name: words.sources.name,
    blocks: [
      words.sources.said,
      wordTable(
        'source-table',
        words.sources.caption,
        words.sources.heads,
        named.map(([source, rules]) => [source, rules.map(({ name }) => name).join(', ')]),
      ),
    ],
    constants: [],
  };
}
