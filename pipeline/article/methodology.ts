/** The methodology page: every rule with its constants, grouped by what a reader asks. */
import { COMPARED, COMPARISON_LIMITS } from '../conditions/comparability.ts';
import { defaultPowerCorrection } from '../conditions/power-correction.ts';
import { REFERENCE_AIR } from '../conditions/reference.ts';
import { DRIVES } from '../content/schema.ts';
import { COVERAGE_FACTOR } from '../measurement/uncertainty.ts';
import { FLAG_RULES } from '../result/flag-rules.ts';
import { MEASURES, measureIds } from '../result/measures.ts';
import type { House, Publication } from '../result/result.ts';
import { capital, startRuleInWords } from '../result/words.ts';
import type { Table } from '../table/table.ts';
import { driveInWords, otherStartRule } from './page-words.ts';
import { constantInWords, RULES, type RuleId } from './rules.ts';
import { thresholdTable } from './threshold-table.ts';
import { workedExample } from './worked-example.ts';
import { BUDGET_WORDS, exampleBlocks } from './worked-example-page.ts';

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

type GroupId =
  | 'clock'
  | 'certainty'
  | 'comparing'
  | 'weather'
  | 'reading'
  | 'driveline'
  | 'finding'
  | 'flagged';

const QUESTIONS: Readonly<Record<GroupId, string>> = {
  clock: 'When does the clock start?',
  certainty: 'What does ± mean?',
  comparing: 'Why can two tests not be compared?',
  weather: 'What about wind, slope and air?',
  reading: 'What is each figure, and how is it read?',
  driveline: 'What of gear changes and the clutch?',
  finding: 'What counts as a run?',
  flagged: 'Why is a run flagged?',
};

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
  const special = entriesOf(publication);
  const groups = (Object.keys(QUESTIONS) as GroupId[]).map((id): MethodGroup => {
    const rules = (Object.keys(GROUP_OF) as RuleId[]).filter(rule => GROUP_OF[rule] === id);
    return {
      id,
      question: QUESTIONS[id],
      entries: [
        ...(special[id]?.first ?? []),
        ...rules.map(rule => ruleEntry(rule, house)),
        ...(special[id]?.last ?? []),
      ],
    };
  });
  return [...groups, { id: 'sources', question: 'Where do the rules come from?', entries: [sources()] }];
}

function ruleEntry(id: RuleId, house: House): MethodEntry {
  const { name, rule, constants, source } = RULES[id];
  const table = tableOf(id, house);
  return {
    id,
    name,
    blocks: table === undefined ? [rule] : [rule, table],
    // Thresholds of flags stand in their table, each beside its reason.
    constants:
      id === 'flags'
        ? []
        : constants.map(each => ({ what: each.what, value: constantInWords(each, house.language) })),
    source,
  };
}

function tableOf(id: RuleId, house: House): Table | undefined {
  if (id === 'flags') return flagTable(house);
  if (id === 'alike') return likenessTable();
  return id === 'power' ? powerTable() : undefined;
}

/** What belongs to a group and is no rule of its own. */
function entriesOf(
  publication: Publication,
): Partial<
  Record<GroupId, { readonly first?: readonly MethodEntry[]; readonly last?: readonly MethodEntry[] }>
> {
  const { house } = publication;
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
          'Two rules, both shown',
          `A time from rest depends on when its clock starts. Both rules are worked out for every attempt. Headline figures of ${house.name} are timed with the ${startRuleInWords(house.headline_start_rule, house)}; the ${startRuleInWords(otherStartRule(house), house)} stands beside them.`,
        ),
      ],
      last: [
        entry(
          'threshold',
          'A plain threshold, which we do not use',
          'A clock that starts when the readings reach 1 km/h leaves out what the car did before. Here is what it would have printed on the same attempts; the shortest number is not the truest.',
          thresholdTable(publication),
        ),
      ],
    },
    certainty: {
      first: [
        entry(
          'plus-minus',
          '± in a sentence',
          `Of a hundred figures printed as a value ± an uncertainty, about ninety-five have the truth between their ends: the uncertainty is expanded, k = ${COVERAGE_FACTOR}. That of a single run says how well it was timed, not how near the car will come to it again.`,
          budgetTable(),
        ),
      ],
      last:
        example === undefined
          ? []
          : [entry('worked-example', 'One time, worked out by hand', ...exampleBlocks(example, house))],
    },
    comparing: {
      first: [
        entry(
          'not-comparable',
          'Because a number belongs to its day',
          'A time belongs to its start rule, its surface, air, wind, slope and load, and to how often it was tried. Where those differ, the difference of two numbers need not be the difference of two cars. Each test says beside which others it may be set, and what stands against it.',
        ),
      ],
    },
    reading: {
      first: [entry('figures', 'Every figure', figureTable(house))],
      last: [entry('launch-methods', 'Launch methods by name', launchTable(house))],
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

const budgetTable = (): Table =>
  wordTable(
    'budget-items',
    'What a budget of uncertainty may hold; each figure has those that apply.',
    ['Item', 'What it is'],
    Object.entries(BUDGET_WORDS).map(([source, what]) => [capital(source.replaceAll('-', ' ')), what]),
  );

const figureTable = (house: House): Table =>
  wordTable(
    'figures',
    'Every figure that can be published. Figures from rest are given under both start rules.',
    ['Figure', 'Unit', 'Start rule', 'What it is'],
    measureIds.map(id => {
      const { displayUnit, fromRest, named } = MEASURES[id];
      const { label, describes } = named(house);
      return [label, displayUnit, fromRest ? 'both' : 'none', describes];
    }),
  );

const launchTable = (house: House): Table =>
  wordTable(
    'launch-methods',
    'What the driver does, by the name that tests use.',
    ['Name', 'What the driver does'],
    house.launch_methods.map(({ name, how }) => [name, how]),
  );

const flagTable = (house: House): Table =>
  wordTable(
    'flag-rules',
    'Flags, why they are raised, and from where on. Thresholds without a source are our own.',
    ['Flag', 'Why', 'Raised'],
    Object.values(FLAG_RULES).map(({ name, why, limits }) => {
      const raised = limits(house).map(each => `${each.what} ${constantInWords(each, house.language)}`);
      return [name, why, raised.length === 0 ? 'whenever it is found' : raised.join(' ')];
    }),
  );

const likenessTable = (): Table =>
  wordTable(
    'likeness',
    'What is asked of two tests before one is set against the other.',
    ['Condition', 'Alike means', 'Source'],
    COMPARED.map(condition => {
      const { asks, source } = COMPARISON_LIMITS[condition];
      return [capital(condition.replaceAll('-', ' ')), capital(asks), capital(source)];
    }),
  );

const powerTable = (): Table => {
  const { temperatureK, pressurePa } = REFERENCE_AIR;
  return wordTable(
    'power-correction',
    'Correction of power for air, by drive.',
    ['Drive', 'Correction', 'Why'],
    DRIVES.map(drive => {
      const answer = defaultPowerCorrection(drive, { temperatureK, dryPressurePa: pressurePa });
      return [
        capital(driveInWords(drive)),
        ...(answer.allowed
          ? ['ISO 1585', 'The standard is for such engines; beyond its limits there is none']
          : ['None', answer.reason]),
      ];
    }),
  );
};

/** Each source once, with the rules that rest on it. */
function sources(): MethodEntry {
  const bySource = Map.groupBy(Object.values(RULES), ({ source }) => source);
  const isOurs = (source: string): boolean => /^(our own|common practice)/i.test(source);
  const named = [...bySource].sort(([a], [b]) => Number(isOurs(a)) - Number(isOurs(b)));
  return {
    id: 'source-list',
    name: 'Sources',
    blocks: [
      'Where a rule says so it is our own, or common practice for which we know no source.',
      wordTable(
        'source-table',
        'Every source, with the rules that rest on it.',
        ['Source', 'Rules'],
        named.map(([source, rules]) => [source, rules.map(({ name }) => name).join(', ')]),
      ),
    ],
    constants: [],
  };
}
