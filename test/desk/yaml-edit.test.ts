import { readFileSync } from 'node:fs';
import { resolve } from 'node:path';
import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { parse } from 'yaml';
import { type Change, withChange } from '../../pipeline/desk/change.ts';
import { changeYaml } from '../../pipeline/desk/yaml-edit.ts';

const DEMO = ['quillet-sorrel-dry', 'quillet-sorrel-wet', 'marrowby-lantern-breeze'].flatMap(id => {
  try {
    return [readFileSync(resolve(import.meta.dirname, `../../content/tests/${id}/test.yaml`), 'utf8')];
  } catch {
    return [];
  }
});

const TEXT = `# A day in May
title: Plain # as printed
date: "2026-05-12"
as_tested:
  mass_kg: 1450   # weighed
  aboard: driver
conditions:
  - { at: "09:30", temperature_c: 18.40, surface: dry }
  # after the shower
  - {
      at: "10:30",
      temperature_c: 20,
    }
attempts:
  - at: "10:00"
    launch: brake-hold
  - { at: "10:05", launch: from-rest }
`;

describe('one field changed', () => {
  it.each<[string, Change, string, string]>([
    [
      'a word keeps its comment',
      { path: ['title'], value: 'Plainer' },
      'title: Plain # as',
      'title: Plainer # as',
    ],
    ['a number', { path: ['as_tested', 'mass_kg'], value: 1460.5 }, 'mass_kg: 1450 ', 'mass_kg: 1460.5 '],
    ['in braces', { path: ['conditions', 0, 'temperature_c'], value: 19 }, '18.40', '19'],
    [
      'new in braces',
      { path: ['conditions', 0, 'wind_mps'], value: 2 },
      'surface: dry }',
      'surface: dry, wind_mps: 2 }',
    ],
    [
      'new in tall braces',
      { path: ['conditions', 1, 'wind_mps'], value: 2 },
      'temperature_c: 20,\n',
      'temperature_c: 20,\n      wind_mps: 2,\n',
    ],
    [
      'new in a block',
      { path: ['as_tested', 'fuel'], value: 'half, about' },
      '  aboard: driver\n',
      '  aboard: driver\n  fuel: half, about\n',
    ],
    [
      'a text that needs quotes',
      { path: ['attempts', 0, 'note'], value: 'a: b # c' },
      '    launch: brake-hold\n',
      '    launch: brake-hold\n    note: "a: b # c"\n',
    ],
    [
      'taken away in braces',
      { path: ['attempts', 1, 'launch'], value: null },
      '"10:05", launch: from-rest',
      '"10:05"',
    ],
    ['taken away in a block', { path: ['as_tested', 'aboard'], value: null }, '  aboard: driver\n', ''],
    [
      'an item added as its neighbour is written',
      { path: ['attempts', 2], value: { at: '10:09', launch: 'from-rest' } },
      'launch: from-rest }\n',
      'launch: from-rest }\n  - { at: "10:09", launch: from-rest }\n',
    ],
    [
      'an item taken away',
      { path: ['attempts', 1], value: null },
      '  - { at: "10:05", launch: from-rest }\n',
      '',
    ],
    [
      'a part that was not there',
      { path: ['receiver', 'what'], value: '25 Hz' },
      'launch: from-rest }\n',
      'launch: from-rest }\nreceiver:\n  what: "25 Hz"\n',
    ],
  ])('%s: nothing else moves', (_, change, before, after) => {
    expect(TEXT).toContain(before);
    expect(changeYaml(TEXT, [change])).toBe(TEXT.replace(before, after));
  });

  it('an empty file is begun', () => {
    expect(changeYaml('', [{ path: ['title'], value: 'New' }])).toBe('title: New\n');
    expect(changeYaml('# mine\n', [{ path: ['logs', 0], value: { file: 'logs/a.csv' } }])).toBe(
      '# mine\nlogs:\n  - { file: logs/a.csv }\n',
    );
  });

  it('a field without a value yet is filled', () => {
    expect(
      parse(changeYaml('attempts:\ntitle: x\n', [{ path: ['attempts', 0], value: { at: '10:00' } }])),
    ).toEqual({
      attempts: [{ at: '10:00' }],
      title: 'x',
    });
  });

  it('what is no YAML is refused', () => {
    expect(() => changeYaml('a: [1', [{ path: ['a'], value: 1 }])).toThrow();
  });
});

describe('whatever is changed', () => {
  const value = fc.oneof(
    fc.string({ maxLength: 30 }),
    fc.constantFrom(
      '10:22',
      '2026-05-12',
      'yes',
      'null',
      '- x',
      '{a}',
      'a, b',
      'naïve – 5 °C',
      '#',
      "it's",
      'two\nlines',
    ),
    fc.integer(),
    // JSON, in which values come, has no negative zero.
    fc.double({ noNaN: true, noDefaultInfinity: true, min: -1e6, max: 1e6 }).map(number => number + 0),
    fc.boolean(),
    fc.constant(null),
  );
  const field = fc.constantFrom<readonly (string | number)[]>(
    ['title'],
    ['standfirst'],
    ['as_tested', 'mass_kg'],
    ['as_tested', 'notes'],
    ['receiver', 'what'],
    ['conditions', 0, 'note'],
    ['conditions', 1, 'at'],
    ['conditions', 2],
    ['attempts', 0, 'set_aside'],
    ['attempts', 3, 'note'],
    ['attempts', 4],
    ['logs', 0, 'starts_at'],
    ['logs', 1, 'columns', 'speed'],
    ['lower_thirds'],
  );

  it.each(DEMO.map((text, i) => [i, text] as const))(
    'means what was asked, and lines that were not are as before (%i)',
    (_, text) => {
      fc.assert(
        fc.property(fc.array(fc.record({ path: field, value }), { minLength: 1, maxLength: 4 }), changes => {
          const objects = changes.map(change =>
            change.path.length === 2 && typeof change.path[1] === 'number' && change.value !== null
              ? { ...change, value: { note: String(change.value) } }
              : change,
          );
          const edited = changeYaml(text, objects);
          expect(parse(edited)).toEqual(objects.reduce<unknown>(withChange, parse(text)));
          // Of the lines outside the parts that were touched none is lost or rewritten.
          const touched = new Set(objects.map(({ path }) => path[0]));
          const parts = (whole: string) =>
            whole.split(/^(?=\w)/m).filter(part => !touched.has(/^\w+/.exec(part)?.[0] ?? ''));
          expect(parts(edited)).toEqual(parts(text));
        }),
        { numRuns: 150 },
      );
    },
  );
});
