import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { contentFilesToContent } from '../../pipeline/content/content.ts';
import { pathInFolder } from '../../pipeline/content/files.ts';
import { problemToLine } from '../../pipeline/problem.ts';
import { CAR, contentFiles, HOUSE, ROAD, TEST } from './valid.ts';

const TEST_FILE = 'content/tests/wren-dry/test.yaml';
type Changes = Parameters<typeof contentFiles>[0];

const linesOf = (changes: Changes): string[] =>
  contentFilesToContent(contentFiles(changes)).problems.map(problemToLine);
/** Line of `text` on which `part` stands, counted from 1. */
const lineOf = (text: string, part: string): number => text.slice(0, text.indexOf(part)).split('\n').length;
const inTest = (from: string | RegExp, to: string): { lines: string[]; text: string } => {
  const text = TEST.replace(from, to);
  expect(text).not.toBe(TEST);
  return { lines: linesOf({ [TEST_FILE]: text }), text };
};

describe('a publication without faults', () => {
  it('gives everything people wrote, by the names of the files', () => {
    const content = contentFilesToContent(contentFiles());
    expect(content.problems).toEqual([]);
    expect(content.house?.name).toBe('The Level Mile');
    expect(content.cars.map(car => car.id)).toEqual(['wren']);
    expect(content.roads.map(road => road.id)).toEqual(['tarn']);
    expect(content.tests.map(({ id, folder, articleFile }) => [id, folder, articleFile])).toEqual([
      ['wren-dry', 'content/tests/wren-dry', 'content/tests/wren-dry/article.md'],
    ]);
    expect(content.methodology).toBe('# How we measure\n');
  });

  it('does not depend on the order in which files are read', () => {
    const files = [...contentFiles({ 'content/cars/b.yaml': 'x: 1', 'content/cars/a.yaml': 'y: 1' })];
    const expected = contentFilesToContent(new Map(files));
    fc.assert(
      fc.property(fc.shuffledSubarray(files, { minLength: files.length }), shuffled => {
        const content = contentFilesToContent(new Map(shuffled));
        expect(content.problems).toEqual(expected.problems);
        expect(content.cars).toEqual(expected.cars);
      }),
      { numRuns: 20 },
    );
  });
});

describe('references between files', () => {
  it.each([
    ['car: wren', 'car: wern', 'There is no car wern', 'Did you mean wren?'],
    ['car: wren', 'car: lorry', 'There is no car lorry', 'Write content/cars/lorry.yaml.'],
    ['road: tarn', 'road: tran', 'There is no road tran', 'Did you mean tarn?'],
    ['launch: brake-hold', 'launch: break-hold', 'There is no launch method', 'Did you mean brake-hold?'],
    ['launch: brake-hold', 'launch: dropped', 'There is no launch method', 'content/house.yaml'],
    ['direction: west', 'direction: wset', 'There is no direction wset', 'Did you mean west?'],
    ['logs/morning.csv', 'logs/mornign.csv', 'is not there', 'Did you mean logs/morning.csv?'],
    ['logs/morning.csv', 'logs/Morning.csv', 'is not there', 'Did you mean logs/morning.csv?'],
    ['logs/morning.csv', '../other/logs/a.csv', 'does not lie inside', 'Copy the log'],
    ['logs/morning.csv', '/etc/passwd', 'does not lie inside', 'Copy the log'],
    ['logs/morning.csv', 'logs\\morning.csv', 'does not lie inside', 'forward slashes'],
  ])('%s → %s is told on its line', (from, to, what, mend) => {
    const { lines, text } = inTest(from, to);
    const line = lines.find(told => told.includes(what));
    expect(line).toContain(mend);
    expect(line).toContain(`${TEST_FILE}:${lineOf(text, to)}:`);
  });

  it('holds a test with faults of its own against the other files all the same', () => {
    const text = TEST.replace('title:', 'titel:').replace('car: wren', 'car: wern');
    const lines = linesOf({ [TEST_FILE]: text });
    expect(lines.some(line => line.includes('Did you mean title?'))).toBe(true);
    expect(lines.some(line => line.includes('Did you mean wren?'))).toBe(true);
  });

  it('does not call a car unknown whose file has a fault', () => {
    const lines = linesOf({ 'content/cars/wren.yaml': CAR.replace('power_kw', 'power_kv') });
    expect(lines).toHaveLength(2);
    expect(lines.every(line => line.startsWith('content/cars/wren.yaml'))).toBe(true);
  });

  it('does not guess from a line whose syntax is broken', () => {
    const { lines } = inTest('car: wren', 'car: wren: dry');
    expect(lines).toHaveLength(1);
  });
});

describe('the parts of a test', () => {
  it.each([
    ['date: "2026-05-12"', 'date: "2026-02-30"', 'a day that does not exist'],
    ['date: "2026-05-12"', 'date: "1900-02-29"', 'a day that does not exist'],
    ['date: "2026-05-12"', 'date: "2026-05-12"\npublished: "2026-05-11"', 'before the test took place'],
    ['mass_kg: 1210', 'mass_kg: 1000', 'lighter than its maker says'],
    ['{ at: "10:10", launch', '{ launch', 'neither when it began nor which run'],
    ['{ at: "10:10", launch', '{ log: logs/evening.csv, run: 2, launch', 'not listed under logs'],
  ])('%s → %s', (from, to, what) => {
    const { lines } = inTest(from, to);
    expect(lines.filter(line => line.includes(what))).toHaveLength(1);
  });

  it('2000 was a leap year and 2024 too (Gregorian rule, ISO 8601-1:2019, 4.2.1)', () => {
    for (const date of ['2000-02-29', '2024-02-29']) {
      expect(inTest('date: "2026-05-12"', `date: "${date}"`).lines).toEqual([]);
    }
  });

  it('a run number needs its log where there are several', () => {
    const text = TEST.replace(
      '- file: logs/morning.csv',
      '- file: logs/morning.csv\n  - file: logs/b.csv',
    ).replace('{ at: "10:10"', '{ run: 3');
    const lines = linesOf({ [TEST_FILE]: text, 'content/tests/wren-dry/logs/b.csv': 'x' });
    expect(lines).toHaveLength(1);
    expect(lines[0]).toContain('Add log: with the name of the log.');
  });

  it('the same time to the second, or the same run, twice is told with the line of the first', () => {
    const same = inTest('at: "10:41:00"', 'at: "10:00:05"');
    expect(same.lines.join()).toContain(`It stands on line ${lineOf(same.text, '{ at: "10:00:05"')} already`);
    const runs = inTest(
      /\{ at: "10:10"(.*)\n(.*)at: "10:41:00"/,
      '{ run: 2$1\n$2log: logs/morning.csv, run: 2',
    );
    expect(runs.lines.join()).toContain('The run 2 of logs/morning.csv is used twice');
  });

  it('two attempts within one minute may both be noted to the minute', () => {
    expect(inTest('at: "10:41:00"', 'at: "10:10"').lines).toEqual([]);
  });

  it('readings out of order are told, readings past midnight are not', () => {
    expect(inTest('at: "10:30"', 'at: "09:15"').lines.join()).toContain('not in the order of time');
    expect(inTest('at: "09:30"', 'at: "23:50"').lines).toEqual([]);
  });

  it('a reading that leaves out what an earlier one told is noted', () => {
    const { lines } = inTest(
      ', wind_mps: 4, wind_from_deg: 158, surface: damp',
      ', wind_mps: 4, wind_from_deg: 158',
    );
    expect(lines).toHaveLength(1);
    expect(lines[0]).toContain('note: The reading at 10:30 leaves out what an earlier one told: surface');
  });

  it('wind without its direction, and gusts below the mean, are warned of', () => {
    expect(inTest('wind_mps: 2, wind_from_deg: 68', 'wind_mps: 2').lines.join()).toContain('wind_from_deg');
    expect(inTest('wind_mps: 2,', 'wind_mps: 2, gust_mps: 1,').lines.join()).toContain(
      'weaker than the mean',
    );
    expect(inTest('wind_mps: 2, wind_from_deg: 68', 'wind_mps: 0').lines).toEqual([]);
  });

  it('a log that lies there unnamed is noted, not an error', () => {
    const lines = linesOf({ 'content/tests/wren-dry/logs/evening.csv': 'x' });
    expect(lines).toEqual([
      'content/tests/wren-dry/logs/evening.csv: note: This file lies among the logs, but test.yaml does not name it. Add "- file: logs/evening.csv" under logs, or move the file elsewhere. [content-unnamed-log]',
    ]);
  });
});

describe('a log entry with a fault', () => {
  it('calls no log unnamed where the list of logs could not be read at all', () => {
    const { lines } = inTest('- file: logs/morning.csv', '- file: "logs/morning.csv');
    expect(lines.length).toBeGreaterThan(0);
    expect(lines.join()).not.toContain('content-unnamed-log');
  });

  it('speaks of the comma where one is left out inside brackets', () => {
    const { lines } = inTest('launch: brake-hold, direction', 'launch: brake-hold direction');
    expect(lines.join()).toContain('two fields stand without a comma between them');
  });

  it('does not propose a log that another entry names', () => {
    const { lines } = inTest(
      '- file: logs/morning.csv',
      '- file: logs/morning.csv\n  - file: logs/mornings.csv',
    );
    expect(lines.join()).toContain('The log logs/mornings.csv is not there');
    expect(lines.join()).not.toContain('Did you mean');
  });

  it('proposes the field that is the same but for its unit, and says to convert', () => {
    expect(inTest('wind_mps: 2,', 'wind_kmh: 7,').lines.join()).toContain(
      'wind_kmh is not a field here. Did you mean wind_mps? Convert the figure to the unit in this name.',
    );
  });

  it('may be the one that names a file, so that none is called unnamed', () => {
    const { lines } = inTest('- file: logs/morning.csv', '- flie: logs/morning.csv');
    expect(lines.map(line => /\[(.+)\]$/.exec(line)?.[1])).toEqual([
      'content-missing-key',
      'content-unknown-key',
    ]);
  });
});

describe('house and roads', () => {
  it('a launch method or direction named twice is told', () => {
    expect(
      linesOf({ 'content/house.yaml': HOUSE.replace('id: from-rest', 'id: brake-hold') }).join('\n'),
    ).toContain('The launch method brake-hold is used twice');
    expect(linesOf({ 'content/roads/tarn.yaml': ROAD.replace('id: west', 'id: east') }).join('\n')).toContain(
      'The direction east is used twice',
    );
  });

  it.each([
    [248, false],
    [265, false],
    [228, false],
    [90, true],
    [68, true],
    [270, true],
  ])('a way back heading %i° against 68° is warned of: %s', (heading, warned) => {
    const lines = linesOf({
      'content/roads/tarn.yaml': ROAD.replace('heading_deg: 248', `heading_deg: ${heading}`),
    });
    expect(lines.some(line => line.includes('not opposite'))).toBe(warned);
  });

  it('a profile must run forwards and end with the road', () => {
    const road = (profile: string) => linesOf({ 'content/roads/tarn.yaml': `${ROAD}profile: ${profile}\n` });
    expect(road('[[0, 0], [700, 1], [1500, 2]]')).toEqual([]);
    expect(road('[[0, 0], [700, 1], [600, 2]]').join()).toContain('do not grow');
    expect(road('[[0, 0], [1600, 1]]').join()).toContain('beyond the end');
  });
});

describe('what is taken from logs', () => {
  it('the slope of a road only where none is stated', () => {
    const from = 'slope_from_logs: { latitude_deg: 53.1, longitude_deg: 0.7 }\n';
    expect(linesOf({ 'content/roads/tarn.yaml': ROAD + from }).join()).toMatch(
      /tarn\.yaml:10:18 slope_from_logs: error: The road has a slope in slope_pct and takes it from logs as well/,
    );
    expect(linesOf({ 'content/roads/tarn.yaml': ROAD.replace('slope_pct: 0.2\n', from) })).toEqual([]);
  });

  it('coast-downs in directions that the road has, and restating with them only where a log holds any', () => {
    const withLog = (extra: string) =>
      linesOf({ [TEST_FILE]: TEST.replace('  - file: logs/morning.csv', `$&${extra}`) }).join();
    expect(withLog('\n    coast_downs: [east, west]\nrestate_with: coast-downs')).toBe('');
    expect(withLog('\n    coast_downs: [east, north]')).toMatch(
      /test\.yaml:19:25 logs\.0\.coast_downs\.1: error: There is no direction north/,
    );
    expect(withLog('\nrestate_with: coast-downs')).toContain('none of its logs has any');
  });
});

describe('missing and misnamed files', () => {
  it('an empty folder is told in a line for each thing that must be there', () => {
    expect(contentFilesToContent(new Map()).problems.map(problemToLine)).toEqual([
      'content/house.yaml: error: The description of the publication is missing. Write this file. [content-missing-file]',
      'content/methodology.md: error: The page on the methodology is missing. Write this file. [content-missing-file]',
    ]);
  });

  it.each([
    ['content/tests/wren-dry/article.md', undefined, 'The article of this test is missing'],
    ['content/tests/wren-dry/test.yaml', undefined, 'The description of this test is missing'],
    ['content/cars/Big Car.yaml', CAR, 'expected lower-case letters'],
    ['content/cars/van.yml', CAR, 'Rename it to van.yaml.'],
    ['content/tests/wren-dry/article.md', new Uint8Array([0xff]), 'not written in UTF-8'],
  ])('%s is told', (path, text, what) => {
    expect(linesOf({ [path]: text }).join('\n')).toContain(what);
  });

  it('faults of several files come at once, by file and line', () => {
    const lines = linesOf({
      'content/house.yaml': HOUSE.replace('language', 'langauge'),
      'content/cars/wren.yaml': CAR.replace('62', 'sixty-two'),
      [TEST_FILE]: TEST.replace('date: "2026-05-12"', 'date: "2026-13-01"').replace('half a tank', '[]'),
    });
    expect(lines.map(line => line.replace(/: error.*/, ''))).toEqual([
      'content/cars/wren.yaml:7:11 power_kw',
      'content/house.yaml:1:1',
      'content/house.yaml:3:1 langauge',
      `${TEST_FILE}:5:7 date`,
      `${TEST_FILE}:10:9 as_tested.fuel`,
    ]);
  });
});

describe('paths in a test file', () => {
  it('never lead out of the folder, whatever is written', () => {
    const part = fc.constantFrom('..', '.', 'logs', 'a.csv', '', '~', 'C:', 'file:', '\\', '%2e%2e', ' ');
    fc.assert(
      fc.property(fc.array(part, { maxLength: 8 }), fc.constantFrom('/', '\\'), (parts, slash) => {
        const path = pathInFolder('content/tests/x', parts.join(slash));
        if (path === undefined) return;
        const resolved = new URL(`http://h/${path.split('/').map(encodeURIComponent).join('/')}`).pathname;
        expect(decodeURIComponent(resolved).startsWith('/content/tests/x/')).toBe(true);
      }),
      { numRuns: 1000 },
    );
  });
});
