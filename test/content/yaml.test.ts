import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { parseAs } from '../../pipeline/content/parse.ts';
import { carSchema, houseSchema, roadSchema, testSchema } from '../../pipeline/content/schema.ts';
import { bytesToYaml } from '../../pipeline/content/yaml.ts';
import { type Problem, problemToLine } from '../../pipeline/problem.ts';
import { CAR, HOUSE, ROAD, TEST } from './valid.ts';

const encode = (text: string): Uint8Array => new TextEncoder().encode(text);
const FILE = 'content/tests/x/test.yaml';
const problemsOf = (text: string | Uint8Array): readonly Problem[] =>
  parseAs(FILE, typeof text === 'string' ? encode(text) : text, testSchema).problems;
const places = (problems: readonly Problem[]): string[] =>
  problems.map(({ id, where }) => `${where?.line}:${where?.column} ${id}`).sort();
const linesOf = (problems: readonly Problem[]): string[] => problems.map(problemToLine);
const carWith = (line: string): string[] =>
  linesOf(parseAs('content/cars/x.yaml', encode(CAR.replace(/^kind:.*$/m, line)), carSchema).problems);

describe('a file without faults', () => {
  it.each([
    ['house', HOUSE, houseSchema],
    ['car', CAR, carSchema],
    ['road', ROAD, roadSchema],
    ['test', TEST, testSchema],
  ])('gives the value of a %s and no problem', (_, text, schema) => {
    const parsed = parseAs<unknown>('content/x.yaml', encode(text), schema);
    expect(parsed.problems).toEqual([]);
    expect(parsed.value).toBeDefined();
  });

  it('may begin with a byte-order mark and end its lines as Windows does', () => {
    expect(problemsOf(`\ufeff${TEST.replaceAll('\n', '\r\n')}`)).toEqual([]);
  });

  it('passes a name with angle brackets through as text', () => {
    const text = CAR.replace('Ambler Wren 40', '<script>alert(1)</script>');
    expect(parseAs('content/cars/x.yaml', encode(text), carSchema).value?.name).toBe(
      '<script>alert(1)</script>',
    );
  });

  it('reads yes, no and an unquoted clock time as the text they are (YAML 1.2.2, 10.3.2)', () => {
    const text = TEST.replace('aboard: driver', 'aboard: no').replace('at: "09:30"', 'at: 09:30');
    const parsed = parseAs(FILE, encode(text), testSchema);
    expect(parsed.problems).toEqual([]);
    expect([parsed.value?.as_tested.aboard, parsed.value?.conditions[0]?.at]).toEqual(['no', '09:30']);
  });
});

describe('five faults in one file', () => {
  const text = [
    'title: Five faults', // 1
    'standfirst: All told at once.', // 2
    'car: wren', // 3
    'raod: tarn', // 4: unknown key, and road missing
    'date: "2026-05-12"', // 5
    'time_zone: "+01:00"', // 6
    'as_tested:', // 7
    '  mass_kg: 1,210', // 8: text
    '  aboard: driver', // 9
    '  fuel: half', // 10
    '  tyres: summer', // 11
    'receiver: { what: 25 Hz }', // 12
    'conditions:', // 13
    '  - at: "09:30"', // 14
    '    surface: moist', // 15: not a choice
    'logs: [{ file: logs/a.csv }]', // 16
    'attempts:', // 17
    '  - at: "9:30"', // 18: not the form
    '',
  ].join('\n');

  it('are all found, each at its line and column', () => {
    expect(places(problemsOf(text))).toEqual(
      [
        '1:1 content-missing-key',
        '4:1 content-unknown-key',
        '8:12 content-wrong-type',
        '15:14 content-not-a-choice',
        '18:9 content-wrong-form',
      ].sort(),
    );
  });

  it('are told in words', () => {
    expect(linesOf(problemsOf(text))).toMatchInlineSnapshot(`
      [
        "content/tests/x/test.yaml:1:1: error: road is missing. Add a line road: here. It says: Name of a file in roads/, without .yaml. [content-missing-key]",
        "content/tests/x/test.yaml:8:12 as_tested.mass_kg: error: mass_kg has the wrong kind of value (expected a number, found the text 1,210). Write 1210 without the comma, or 1.210 if the comma stands for a decimal point. [content-wrong-type]",
        "content/tests/x/test.yaml:15:14 conditions.0.surface: error: surface must be one of a few words (expected one of dry, damp, wet, found moist). Write one of the words named here. [content-not-a-choice]",
        "content/tests/x/test.yaml:18:9 attempts.0.at: error: at is not written as it should be (expected a time of day on the 24-hour clock, in quotes: "09:22" or "09:22:40", found "9:30"). Write "09:30". [content-wrong-form]",
        "content/tests/x/test.yaml:4:1 raod: error: raod is not a field here. Did you mean road? [content-unknown-key]",
      ]
    `);
  });

  it('leave what is right for further checks, with the entries of lists in their places', () => {
    const { value, partly } = parseAs(FILE, encode(text), testSchema);
    expect(value).toBeUndefined();
    expect(partly.car).toBe('wren');
    expect(partly.as_tested).toMatchObject({ aboard: 'driver', mass_kg: undefined });
    expect(partly.attempts).toEqual([{ at: undefined }]);
  });
});

describe('the traps of YAML', () => {
  it.each([
    ['kind: 1.10', 'Put double quotes around it: "1.10".'],
    ['kind: yes: indeed', 'If this is text, put double quotes around it'],
    ['kind: @home', 'put double quotes around it'],
    ['kind: "five" doors', 'put single quotes around all of it'],
    ['kind: [a', 'Close the bracket'],
    ['kind: "never closed', 'The quotation mark that opens here is never closed'],
    ['kind:five-door', 'with a blank after the colon'],
    ['kind:', 'kind has nothing written after it'],
    ['kind: a\nkind: b', 'kind is written twice'],
    ['kind: !shiny hatchback', 'exclamation mark'],
    ['kind: *wren', '* or &'],
    ['kind: x\ntorque_nm: 1,450', 'Write 1450 without the comma, or 1.450 if'],
    ['kind: x\ntorque_nm: 1,450,000', 'Write 1450000, without commas.'],
    ['kind: x\ntorque_nm: "150"', 'Remove the quotes: 150.'],
    ['kind: x\ntorque_nm: 12,5', 'Write a decimal point: 12.5.'],
    ['kind: x\ntorque_nm: 150 Nm', 'Write the figure alone, 150'],
    ['kind: x\ntorque_nm: .inf', 'content-wrong-type'],
    ['kind: x\ntorque_nm: -1', 'expected more than 0, found -1'],
    ['kind: x\ntorque_nm: 010', 'Write 10 if that is meant'],
  ])('%j is told with what to do', (line, mend) => {
    const lines = carWith(line);
    expect(lines.join('\n')).toContain(mend);
    expect(lines).toHaveLength(1);
    // All of them stand on the third line or the one after it.
    expect(lines[0]).toMatch(/^content\/cars\/x\.yaml:[34]:\d+/);
  });

  it('names the tab in an indentation', () => {
    const lines = linesOf(problemsOf(TEST.replace('  mass_kg', '\tmass_kg')));
    expect(lines[0]).toContain(`${FILE}:8:1: error: The line is indented with a tab`);
  });

  it.each([
    ['time_zone: +1', '"+01:00"'],
    ['time_zone: UTC', '"+00:00"'],
    ['time_zone: UTC+5:30', '"+05:30"'],
    ['car: The Wren', 'Write the-wren.'],
    ['lower_thirds: yes\ncar: wren', 'Write true.'],
    ['lower_thirds: off\ncar: wren', 'Write false.'],
  ])('proposes how to write %j', (line, mend) => {
    const key = line.includes('car') ? 'car' : 'time_zone';
    expect(linesOf(problemsOf(TEST.replace(new RegExp(`^${key}:.*$`, 'm'), line))).join()).toContain(mend);
  });

  it('reads a file of the older YAML 1.1, where 10:22 is a number, not at all', () => {
    const lines = linesOf(problemsOf(`%YAML 1.1\n---\n${TEST}`));
    expect(lines).toHaveLength(1);
    expect(lines[0]).toContain(':1:1: error: The line begins with a percent sign');
  });
});

describe('files that are not what they should be', () => {
  it('an empty file, a list and a lone word are told in one line each', () => {
    for (const text of ['', '# nothing\n', '- a\n- b\n', 'word\n', '42\n']) {
      expect(problemsOf(text), text).toHaveLength(1);
    }
  });

  it('names line and column of the first byte that is not UTF-8', () => {
    const bytes = encode('title: ok\nstandfirst: caf?\n');
    bytes[bytes.indexOf('?'.charCodeAt(0))] = 0xe9;
    expect(linesOf(problemsOf(bytes))).toMatchInlineSnapshot(`
      [
        "content/tests/x/test.yaml:2:16: error: The file is not written in UTF-8 (found the byte e9). Save it again with the encoding UTF-8. [content-not-utf8]",
      ]
    `);
  });

  it('knows UTF-16 by its mark, and a zero byte as no text', () => {
    expect(problemsOf(new Uint8Array([0xff, 0xfe, 0x61, 0]))[0]?.found).toBe('UTF-16');
    expect(problemsOf('title: a\0b')[0]).toMatchObject({
      id: 'content-not-utf8',
      where: { line: 1, column: 9 },
    });
  });

  it('refuses a file beyond the size limit without parsing it', () => {
    expect(problemsOf(new Uint8Array(256 * 1024 + 1).fill(0x61))[0]?.id).toBe('content-too-large');
  });

  it('stops at aliases that multiply', () => {
    const rungs = Array.from({ length: 9 }, (_, i) => `r${i + 1}: &r${i + 1} [${`*r${i},`.repeat(10)}]`);
    expect(problemsOf(`r0: &r0 [x]\n${rungs.join('\n')}\n`).map(p => p.id)).toEqual([
      'content-too-many-aliases',
    ]);
  });

  it('stops at aliases without number', () => {
    const found = problemsOf(`a: &a x\nb: [${'*a,'.repeat(80_000)}]\n`);
    expect(found.map(p => p.id)).toEqual(['content-too-many-aliases']);
  });

  it('takes the second of two fields of one name for the one that counts, as the value does', () => {
    const found = problemsOf(TEST.replace('car: wren', 'car: wren\ncar: 12'));
    expect(found.map(p => [p.id, p.where?.line])).toEqual([
      ['content-duplicate-key', 4],
      ['content-wrong-type', 4],
    ]);
  });

  it('stops at an alias of itself and at bottomless brackets', () => {
    expect(problemsOf('a: &a [*a]\n').map(p => p.id)).toContain('content-too-many-aliases');
    expect(problemsOf('['.repeat(20_000)).every(p => p.id === 'content-syntax')).toBe(true);
  });

  it('takes __proto__ and constructor for the unknown fields they are', () => {
    const found = problemsOf(`${TEST}__proto__: { title: x }\nconstructor: 1\n`);
    expect(found.map(p => [p.id, p.where?.line])).toEqual([
      ['content-unknown-key', TEST.split('\n').length],
      ['content-unknown-key', TEST.split('\n').length + 1],
    ]);
  });

  it('tells every fault of many, and each only once', () => {
    const text = TEST.replace(/^attempts:[\s\S]*/m, `attempts:\n${'  - { launc: x }\n'.repeat(200)}`);
    const found = problemsOf(text);
    expect(found).toHaveLength(200);
    expect(new Set(found.map(p => p.where?.line)).size).toBe(200);
  });
});

describe('any text at all', () => {
  const yamlish = fc.array(
    fc.oneof(
      fc.constantFrom(
        ...'title:|car: |attempts:\n|  - at: "10:00"\n|- |  |\n|\t|: |{|}|[|]|"|\'|&a |*a|<<: |!t |? |---\n|...\n|%YAML 1.1\n|# |null|~|1.10|010|.nan|yes|2026-02-30|__proto__: |\0|\ufeff|\u0085|> |\\|,'.split(
          '|',
        ),
      ),
      fc.string({ maxLength: 6 }),
      fc.string({ unit: 'binary', maxLength: 4 }),
    ),
    { maxLength: 40 },
  );

  it('gives a value or problems with a place in the file, and never throws', () => {
    fc.assert(
      fc.property(
        yamlish,
        fc.constantFrom(testSchema, houseSchema, roadSchema, carSchema),
        (parts, schema) => {
          const text = parts.join('');
          const parsed = parseAs<unknown>(FILE, encode(text), schema);
          const lines = text.split(/\r\n|\n/).length;
          for (const problem of parsed.problems) {
            expect(problem.where?.file).toBe(FILE);
            expect(problem.where?.line).toBeGreaterThanOrEqual(1);
            expect(problem.where?.line).toBeLessThanOrEqual(lines + 1);
            expect(problemToLine(problem)).not.toMatch(/undefined|\[object|[\r\n]/);
          }
          expect(parsed.value !== undefined || parsed.problems.length > 0).toBe(true);
        },
      ),
      { numRuns: 2000 },
    );
  });

  it('and any bytes at all do not throw either', () => {
    fc.assert(
      fc.property(fc.uint8Array({ maxLength: 200 }), bytes => {
        const yaml = bytesToYaml(FILE, bytes);
        expect(yaml.value !== undefined || yaml.problems.length > 0 || yaml.value === null).toBe(true);
      }),
      { numRuns: 500 },
    );
  });

  it('finds any one damaged field of a good file on its own line', () => {
    const lines = TEST.split('\n');
    const damaged = lines.flatMap((line, i) => (/^\s*[a-z_]+: /.test(line) ? [i] : []));
    fc.assert(
      fc.property(fc.constantFrom(...damaged), i => {
        const text = lines
          .map((line, j) => (i === j ? line.replace(/([a-z_]+):/, 'x$1x:') : line))
          .join('\n');
        expect(problemsOf(text).some(p => p.id === 'content-unknown-key' && p.where?.line === i + 1)).toBe(
          true,
        );
      }),
    );
  });
});
