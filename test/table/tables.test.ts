import fc from 'fast-check';
import { inferSchema, initParser } from 'udsv';
import { describe, expect, it } from 'vitest';
import { parseSvg, type SvgElement, type SvgNode } from '../../pipeline/figure/svg-tree.ts';
import { pickResult } from '../../pipeline/result/pick.ts';
import type { TestResult } from '../../pipeline/result/result.ts';
import { printResult } from '../../pipeline/result/words.ts';
import { tableToCsv } from '../../pipeline/table/csv.ts';
import { tableToHtml } from '../../pipeline/table/html.ts';
import type { Table } from '../../pipeline/table/table.ts';
import { TABLE_KINDS, TABLES } from '../../pipeline/table/tables.ts';
import { houseFixture, testFixture } from '../result/fixture.ts';

const house = houseFixture();
const test = testFixture();
const rowOf = (table: Table, head: string): readonly string[] => {
  const row = table.rows.find(cells => cells[0]?.text === head);
  if (row === undefined) throw new Error(`no row ${head}`);
  return row.map(({ text }) => text);
};
const textOf = (node: SvgNode): string =>
  typeof node === 'string' ? node : node.children.map(textOf).join('');
const all = (node: SvgElement, name: string): readonly SvgElement[] =>
  node.children.flatMap(child =>
    typeof child === 'string' ? [] : [...(child.name === name ? [child] : []), ...all(child, name)],
  );

/** Another day of another car, for tables that set this one beside others. */
const other: TestResult = {
  ...test,
  id: 'other-day',
  car: { ...test.car, id: 'teasel', name: 'Wendover Teasel', short_name: 'Teasel' },
};

/** Every split a tenth quicker on the level, by hand. */
const CHANGES = { slope: -0.06, wind: -0.05, air: 0.01 } as const;
const restatedDay: TestResult = {
  ...test,
  attempts: test.attempts.map(attempt => ({
    ...attempt,
    restated: {
      speedSplits: attempt.measurement.speedSplits.map(split => ({
        ...split,
        timeS: split.timeS - 0.1,
        uncertaintyS: 0.05,
        changesS: CHANGES,
        budget: [],
      })),
      distanceSplits: [],
      power: { corrected: false, refusal: { of: 'engine', engine: 'electric' }, stays: 'none' } as const,
    },
  })),
};

describe('the tables of a test', () => {
  it.each(TABLE_KINDS)('%s has a cell for every column and says what it holds', kind => {
    const table = TABLES[kind].make(restatedDay, house, [other]);
    expect(table.id).toBe(kind);
    expect(table.caption.length).toBeGreaterThan(10);
    expect(table.rows.length).toBeGreaterThan(0);
    for (const row of table.rows) {
      expect(row).toHaveLength(table.columns.length);
      expect(row[0]?.header).toBe(true);
    }
  });

  it.each(['splits', 'moving', 'restated', 'attempts', 'launch-methods', 'against'] as const)(
    '%s of an empty test has no rows and no figure',
    kind => {
      const empty: TestResult = { ...test, attempts: [] };
      const table = TABLES[kind].make(empty, house, [other]);
      expect(table.rows).toEqual([]);
      expect(table.notes.length).toBeGreaterThan(0);
    },
  );

  it('splits give best, uncertainty and median under both start rules, and how many were kept', () => {
    const row = rowOf(TABLES.splits.make(test, house), '0–100 km/h');
    const cells = (['first-movement', 'one-foot-rollout'] as const).flatMap(startRule => {
      const best = pickResult(test, house, { measure: '0-100-kmh', startRule })!;
      const { text, uncertainty } = printResult(best, house);
      const median = pickResult(test, house, { measure: '0-100-kmh', startRule, statistic: 'median' })!;
      return [text, uncertainty, printResult(median, house).text];
    });
    expect(row).toEqual(['0–100 km/h', ...cells, '8 of 9']);
  });

  it('splits hold speeds and distances, and put the rule of the house first', () => {
    const table = TABLES.splits.make(test, { ...house, headline_start_rule: 'one-foot-rollout' });
    expect(table.rows.map(([head]) => head?.text)).toEqual(
      expect.arrayContaining(['0–50 km/h', '0–60 mph', '0–60 ft', '0–100 m']),
    );
    expect(table.columns[1]?.label).toBe('Best, from one foot');
    expect(table.columns[4]?.label).toBe('Best, from first movement');
    const label = { 'one-foot-rollout': 1, 'first-movement': 4 } as const;
    for (const startRule of ['one-foot-rollout', 'first-movement'] as const) {
      const best = pickResult(test, house, { measure: '0-50-kmh', startRule })!;
      expect(rowOf(table, '0–50 km/h')[label[startRule]]).toBe(printResult(best, house).text);
    }
  });

  it('a single attempt has no median', () => {
    expect(rowOf(TABLES.splits.make(test, house), '0–201 m')).toEqual(
      expect.arrayContaining(['0–201 m', '–', '1']),
    );
  });

  it('moving figures carry no start rule', () => {
    const table = TABLES.moving.make(test, house);
    expect(JSON.stringify(table)).not.toMatch(/movement|foot/);
    // Closed form of the fixture: d = v² / 2a with v = 100 km/h and a = 9.1 m/s².
    expect(rowOf(table, '100–0 km/h')[1]).toBe(`${((100 / 3.6) ** 2 / (2 * 9.1)).toFixed(1)}\u00a0m`);
  });

  it('restated stands beside measured, with what each condition changed and both medians', () => {
    const { rows, notes } = TABLES.restated.make(restatedDay, house);
    const kept = pickResult(test, house, { measure: '0-100-kmh', statistic: 'median' })!;
    expect(rows).toHaveLength(kept.n + 1);
    const first = test.attempts[0]!;
    const measured = pickResult(test, house, { measure: '0-100-kmh', attempt: first.id })!;
    const restated = printResult({ ...measured, value: measured.value - 0.1, uncertainty: 0.05 }, house);
    expect(rows[0]?.map(({ text }) => text)).toEqual([
      `1, ${first.launchName}`,
      'eastbound',
      printResult(measured, house).text,
      printResult(measured, house).uncertainty,
      restated.text,
      restated.uncertainty,
      '−0.06\u00a0s',
      '−0.05\u00a0s',
      '+0.01\u00a0s',
    ]);
    expect(rows.at(-1)?.[2]?.text).toBe(printResult(kept, house).text);
    expect(notes.join(' ')).toContain(
      'Power not corrected: An electric motor does not breathe: its power does not go with air density.',
    );
  });

  it('restated says why a start is not, and gives no figure for it', () => {
    const unknown: TestResult = {
      ...test,
      attempts: test.attempts.map(attempt => ({
        ...attempt,
        restated: {
          speedSplits: [],
          distanceSplits: [],
          notRestated: {
            missing: ['drag area of the car'],
            reason: { why: 'not-known' as const, facts: ['dragAreaM2' as const] },
            text: 'the drag area of the car is not known',
          },
        },
      })),
    };
    const { rows, notes } = TABLES.restated.make(unknown, house);
    expect(rows).toEqual([]);
    expect(notes.join(' ')).toContain(
      'attempt 1, 2, 3, 4, 5, 7, 8, 9, 10: the drag area of the car is not known.',
    );
  });

  it('attempts tell every attempt in the day’s order, set aside ones with the reason', () => {
    const table = TABLES.attempts.make(test, house);
    expect(table.rows.map(([number]) => number?.text)).toEqual(
      test.attempts.map(({ number }) => String(number)),
    );
    expect(rowOf(table, '6')).toContain('set aside: Front wheels spun on the painted line');
    expect(rowOf(table, '10')).toEqual(
      expect.arrayContaining(['0–60 km/h', 'kept', 'Given up: a hare on the road']),
    );
    expect(table.caption).toContain('9 kept, 1 set aside');
  });

  it('attempts show every flag with what was found, and say once why it matters', () => {
    const flags = [{ code: 'gap', text: 'no reading for 2.20 s' }];
    const flagged: TestResult = {
      ...test,
      attempts: test.attempts.map(attempt => ({
        ...attempt,
        measurement: { ...attempt.measurement, ...(attempt.number < 3 ? { flags } : {}) },
      })),
    };
    const { columns, rows, notes } = TABLES.attempts.make(flagged, house);
    const column = columns.findIndex(({ label }) => label === 'Flags');
    const shown = rows.map(row => row[column]?.text);
    expect(shown.slice(0, 2)).toEqual(Array(2).fill('Gap: no reading for 2.20 s'));
    expect(new Set(shown.slice(2))).toEqual(new Set(['']));
    expect(notes.filter(note => note.includes('“Gap”'))).toHaveLength(1);
  });

  it('conditions print readings as they were written', () => {
    const row = rowOf(TABLES.conditions.make(test, house), '09:50');
    expect(row.slice(1, 6)).toEqual(['14.2\u00a0°C', '1006.2\u00a0hPa', '62\u00a0%', '2.1\u00a0m/s', '130°']);
  });

  it('digits follow the language of the house', () => {
    const german = { ...house, language: 'de-DE' };
    expect(rowOf(TABLES.conditions.make(test, german), '09:50')[1]).toBe('14,2\u00a0°C');
    expect(rowOf(TABLES.splits.make(test, german), '0–100 km/h')[1]).toBe('6,05\u00a0s');
  });
});

const cell = fc.string({ unit: 'grapheme' }).filter(text => !/[\p{Cc}\ufffe\uffff]/u.test(text));
const anyTable: fc.Arbitrary<Table> = fc
  .record({ label: cell, texts: fc.array(fc.tuple(cell, cell), { minLength: 1, maxLength: 5 }), note: cell })
  .map(({ label, texts, note }) => ({
    id: 'any',
    caption: label,
    columns: [
      { label: 'a', align: 'start' },
      { label: 'b', unit: 'km/h', align: 'end' },
    ],
    rows: texts.map(([a, b]) => [{ text: a, header: true }, { text: b }]),
    notes: [note],
  }));

describe('a table as HTML', () => {
  it('holds every text as text, heads with scope, numbers at the end', () => {
    fc.assert(
      fc.property(anyTable, table => {
        const read = parseSvg(tableToHtml(table, 'en-GB'));
        expect(textOf(all(read, 'caption')[0]!)).toBe(table.caption);
        const heads = all(read, 'th').map(({ attributes }) => attributes.scope);
        expect(heads).toEqual(['col', 'col', ...table.rows.map(() => 'row')]);
        const body = all(all(read, 'tbody')[0]!, 'tr').map(row => row.children.map(textOf));
        expect(body).toEqual(table.rows.map(row => row.map(({ text }) => text)));
        for (const td of all(all(read, 'tbody')[0]!, 'td')) expect(td.attributes.class).toBe('end');
        expect(textOf(all(read, 'tfoot')[0]!)).toBe(table.notes.join(''));
      }),
    );
  });

  it('makes no markup of what people wrote', () => {
    const evil = '<img src=x onerror=alert(1)>';
    const html = tableToHtml(
      TABLES.attempts.make({ ...test, attempts: test.attempts.map(one => ({ ...one, note: evil })) }, house),
      house,
    );
    expect(html).not.toContain('<img');
    expect(html).toContain('&lt;img src=x onerror=alert(1)&gt;');
  });
});

describe('launch methods side by side', () => {
  const table = TABLES['launch-methods'].make(test, house);
  const cell = (row: readonly string[], label: string): string =>
    row[table.columns.findIndex(column => column.label === label)]!;

  it('stand best median first, each with best, expected best of three, spread and count', () => {
    expect(table.rows.map(row => row[0]!.text)).toEqual([
      'Brake and throttle',
      'Sport setting',
      'Plain throttle',
    ]);
    const brake = rowOf(table, 'Brake and throttle');
    const best = pickResult(test, house, { measure: '0-100-kmh', launch: 'brake' })!;
    expect(cell(brake, 'Kept attempts')).toBe('3 of 4');
    expect(cell(brake, 'Best')).toBe(printResult(best, house).text);
    // Of three attempts there is one way to take three.
    expect(cell(brake, 'Best of 3, expected')).toBe(cell(brake, 'Best'));
    expect(cell(brake, 'Verdict')).toBe('–');
    expect(cell(rowOf(table, 'Sport setting'), 'Best of 3, expected')).toBe('–');
  });

  it('say that three against three are too few, with the chance and without an interval', () => {
    const plain = rowOf(table, 'Plain throttle');
    expect(cell(plain, 'Verdict')).toBe('too few to tell: 3 against 3');
    expect(cell(plain, 'By chance alone')).toBe('0.10');
    expect(cell(plain, 'Between')).toBe('–');
    expect(table.notes.join(' ')).toContain('‘Sport setting’ and ‘Plain throttle’');
    expect(table.notes[0]).toContain('a rough guide');
  });
});

describe('this test beside others', () => {
  it('gives medians and differences, and says what was not alike', () => {
    const wet: TestResult = {
      ...other,
      attempts: other.attempts.map(attempt => ({
        ...attempt,
        conditions: { ...attempt.conditions, surface: 'wet' },
      })),
    };
    const dryTable = TABLES.against.make(test, house, [other]);
    expect(dryTable.rows.map(row => row.at(-1)!.text)).toEqual(dryTable.rows.map(() => 'too close to call'));
    const wetTable = TABLES.against.make(test, house, [wet]);
    for (const row of wetTable.rows) expect(row.at(-1)!.text).toBe('not alike: surface');
    expect(wetTable.notes.join(' ')).toContain('Teasel. Surface not alike: dry against wet.');
    expect(wetTable.rows.map(row => row[1]!.text)).toContain('0–100 km/h, plain throttle');
  });

  it('has no column for restated figures where there are none', () => {
    const labels = TABLES.against.make(test, house, [other]).columns.map(({ label }) => label);
    expect(labels.join()).not.toContain('restated');
  });

  it('says so where there is no other test', () => {
    expect(TABLES.against.make(test, house).rows).toEqual([]);
  });
});

describe('a table as CSV', () => {
  const read = (csv: string): readonly (readonly string[])[] => {
    const parser = initParser(inferSchema(csv, { col: ',', row: '\r\n', trim: false }));
    return parser.stringArrs(csv);
  };

  it('is read back by a CSV library, cell for cell', () => {
    for (const kind of TABLE_KINDS) {
      const table = TABLES[kind].make(test, house, [other]);
      const plain = table.rows.map(row =>
        row.map(({ text }) => text.replaceAll('\u2212', '-').replaceAll('\u00a0', ' ')),
      );
      expect(read(tableToCsv(table))).toEqual(plain);
    }
  });

  it('quotes commas, quotes and line ends as RFC 4180 says', () => {
    const table: Table = {
      id: 'any',
      caption: '',
      columns: [
        { label: 'a, b', align: 'start' },
        { label: 'v', unit: 'm', align: 'end' },
      ],
      rows: [[{ text: 'say "so"' }, { text: 'one\ntwo' }]],
      notes: [],
    };
    expect(tableToCsv(table)).toBe('"a, b",v (m)\r\n"say ""so""","one\ntwo"\r\n');
  });

  it('gives a spreadsheet no formula, and leaves negative numbers numbers', () => {
    const csv = (text: string): string =>
      tableToCsv({
        id: '',
        caption: '',
        columns: [{ label: 'a', align: 'end' }],
        rows: [[{ text }]],
        notes: [],
      }).split('\r\n')[1]!;
    expect(csv('=1+1')).toBe("'=1+1");
    expect(csv('@now')).toBe("'@now");
    expect(csv('\u22120.13')).toBe('-0.13');
  });
});
