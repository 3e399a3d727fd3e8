import { beforeAll, describe, expect, it } from 'vitest';
import { type MethodEntry, methodGroups } from '../../pipeline/article/methodology.ts';
import { constantInWords, RULES, type RuleId } from '../../pipeline/article/rules.ts';
import { METHODS, type MethodId } from '../../pipeline/measurement/methods.ts';
import { FLAG_RULES, flagName } from '../../pipeline/result/flag-rules.ts';
import { measureLabel, measuresOf } from '../../pipeline/result/measures.ts';
import type { Publication } from '../../pipeline/result/result.ts';
import { methodOfMeasure } from '../../pipeline/workings/method.ts';
import { demoPublication } from '../demo.ts';
import { houseFixture, testFixture } from '../result/fixture.ts';

const house = houseFixture();
const publication: Publication = {
  house,
  cars: [],
  roads: [],
  tests: [testFixture()],
  methodologyMarkdown: '',
  problems: [],
};
const entries = methodGroups(publication).flatMap(group => group.entries);
const entry = (id: string): MethodEntry => entries.find(one => one.id === id)!;
const wordsOf = ({ blocks, constants }: MethodEntry): string =>
  [
    ...blocks.flatMap(block =>
      typeof block === 'string' ? [block] : block.rows.flatMap(row => row.map(({ text }) => text)),
    ),
    ...constants.map(({ what, value }) => `${what}: ${value}`),
  ].join('\n');

describe('the methodology page', () => {
  it('holds every rule once, word for word, with its constants and its source', () => {
    for (const [id, { name, rule, constants, source }] of Object.entries(RULES)) {
      const here = entries.filter(one => one.id === id);
      expect(here, id).toHaveLength(1);
      expect(here[0]?.name).toBe(name);
      expect(here[0]?.blocks[0]).toBe(rule);
      expect(here[0]?.source).toBe(source);
      if (id === 'flags') continue;
      expect(here[0]?.constants).toEqual(
        constants.map(each => ({ what: each.what, value: constantInWords(each, house.language) })),
      );
    }
  });

  it('tells every constant of the flags beside its reason', () => {
    const words = wordsOf(entry('flags'));
    for (const { what, values, unit } of METHODS.flags.constants) {
      // The rate below which a run is flagged is the house's where it has one.
      const printed = constantInWords(
        { what, values, unit: what.startsWith('low rate') ? '' : unit },
        'en-GB',
      );
      expect(words, what).toContain(printed.split('\u00a0')[0]);
    }
  });

  it('answers the questions a reader comes with, first among them when the clock starts', () => {
    const groups = methodGroups(publication);
    expect(groups.slice(0, 4).map(({ question }) => question)).toEqual([
      'When does the clock start?',
      'What does ± mean?',
      'Why can two tests not be compared?',
      'What about wind, slope and air?',
    ]);
    expect(groups[0]?.entries.map(({ id }) => id)).toEqual([
      'start-rules',
      'first-movement',
      'one-foot-rollout',
      'threshold',
    ]);
  });

  it('has no two places of one name', () => {
    const ids = methodGroups(publication).flatMap(({ id, entries: own }) => [id, ...own.map(one => one.id)]);
    expect(ids.filter((id, index) => ids.indexOf(id) !== index)).toEqual([]);
  });

  it('explains every figure and launch method', () => {
    for (const id of measuresOf(house)) expect(wordsOf(entry('figures'))).toContain(measureLabel(id, 'en'));
    for (const { how } of house.launch_methods) expect(wordsOf(entry('launch-methods'))).toContain(how);
  });

  it('names each source once', () => {
    const table = entry('source-list').blocks.find(block => typeof block !== 'string');
    const named = typeof table === 'object' ? table.rows.map(([source]) => source?.text) : [];
    expect(new Set(named).size).toBe(named.length);
    expect(new Set(Object.values(RULES).map(({ source }) => source))).toEqual(new Set(named));
  });

  it('prints constants in the language of the house', () => {
    const rollout = METHODS['one-foot-rollout'].constants[0]!;
    expect(constantInWords(rollout, 'en-GB')).toBe('0.3048\u00a0m');
    expect(constantInWords(rollout, 'de')).toBe('0,3048\u00a0m');
    expect(constantInWords({ what: '', values: [1, 2], unit: 's' }, 'en-GB')).toBe('1 to 2\u00a0s');
    expect(constantInWords({ what: '', values: [1, 2, 3], unit: '' }, 'en-GB')).toBe('1, 2, 3');
    const speed = { what: '', values: [100], unit: 'km/h' };
    expect(constantInWords(speed, { language: 'en-GB', units: 'mph' })).toBe('62.1\u00a0mph');
    expect(constantInWords({ ...speed, byName: true }, { language: 'en-GB', units: 'mph' })).toBe(
      '100\u00a0km/h',
    );
  });
});

describe('the rule of a figure', () => {
  it.each([
    ['0-100-kmh', 'speed-splits'],
    ['0-60-mph', 'speed-splits'],
    ['0-402-m', 'distance-splits'],
    ['0-60-ft', 'distance-splits'],
    ['402-m-speed', 'distance-splits'],
    ['80-120-kmh', 'rolling-splits'],
    ['stop-from-100-kmh', 'stopping-distance'],
    ['mfdd-from-80-kmh', 'mfdd'],
    ['peak-acceleration', 'peak-acceleration'],
    ['top-speed', 'top-speed'],
  ] as const)('of %s is %s', (measure, rule) => expect(methodOfMeasure(measure)).toBe(rule));

  it('is one of measuring for each', () => {
    for (const id of measuresOf(house))
      expect(METHODS[methodOfMeasure(id) as MethodId & RuleId]).toBeDefined();
  });
});

describe('flags', () => {
  let demo: Publication;
  beforeAll(async () => {
    demo = await demoPublication();
  });

  it('of the demo each have a rule', () => {
    const codes = demo.tests.flatMap(({ attempts }) =>
      attempts.flatMap(({ measurement }) => measurement.flags.map(({ code }) => code)),
    );
    expect(codes.length).toBeGreaterThan(0);
    expect(codes.filter(code => FLAG_RULES[code] === undefined)).toEqual([]);
  });

  it('give the limits of the house where it has them', () => {
    const text = (code: string, limits: Publication['house']['limits']): string =>
      FLAG_RULES[code]!.limits(limits === undefined ? {} : { limits })
        .map(each => `${each.what} ${constantInWords(each, 'en-GB')}`)
        .join(' ');
    expect(text('wind', { wind_mps: 4 })).toBe('mean wind above 4\u00a0m/s');
    expect(text('wind', undefined)).toBe('');
    expect(text('low-rate', { rate_hz: 5 })).toBe('fewer readings a second than 5');
    expect(text('low-rate', undefined)).toBe('fewer readings a second than 10');
  });

  it('without a rule are named by their code', () => {
    expect(flagName('gap', 'en-GB')).toBe('Gap');
    expect(flagName('bird-on-road', 'en-GB')).toBe('bird on road');
  });
});
