import { readFileSync } from 'node:fs';
import { describe, expect, it } from 'vitest';
import { parse } from 'yaml';
import { type CoastDownAnswer, findCoastDowns } from '../../pipeline/conditions/coast-down.ts';
import type { TestFolder } from '../../pipeline/content/content.ts';
import { roadSchema, testSchema } from '../../pipeline/content/schema.ts';
import { readLog } from '../../pipeline/log/readers.ts';
import { coastDownsOf } from '../../pipeline/result/coast-downs.ts';
import type { MeasuredLog } from '../../pipeline/result/match-logs.ts';
import { attemptToCircumstances, fromLogsOf } from '../../pipeline/result/restate-attempt.ts';
import type { TestResult } from '../../pipeline/result/result.ts';
import { coastDownTable } from '../../pipeline/table/coast-downs.ts';
import { logToTrace } from '../../pipeline/trace/build.ts';
import { ELECTRIC_HATCH } from '../simulate/cars.ts';
import { houseFixture, testFixture } from './fixture.ts';

const read = (path: string): unknown => parse(readFileSync(path, 'utf8'));
const TEST = 'content/tests/quillet-sorrel-dry';
const content = testSchema.parse(read(`${TEST}/test.yaml`));
const road = { id: 'ossenby-fen', ...roadSchema.parse(read('content/roads/ossenby-fen.yaml')) };
const LOG = 'logs/coasting.csv';
const folder: TestFolder = {
  id: 'quillet-sorrel-dry',
  folder: TEST,
  content,
  articleMarkdown: '',
  articleFile: '',
  place: path => ({ file: `${TEST}/test.yaml`, line: path.length }),
};
const { trace } = logToTrace(readLog(LOG, readFileSync(`${TEST}/${LOG}`)));
const noted = content.logs.find(({ file }) => file === LOG)!.coast_downs!;
const logOf = (coastDowns?: readonly string[]): MeasuredLog => ({
  file: LOG,
  index: 3,
  sha256: '',
  trace,
  measurements: [],
  startsS: 37_860,
  ...(coastDowns === undefined ? {} : { coastDowns }),
});
const READINGS_S = [34_200, 35_700, 37_200];
const decided = (answer: CoastDownAnswer | undefined) => {
  if (!answer?.decided) throw new Error('nothing was worked out');
  return answer.estimate;
};
const { coastDowns, problems } = coastDownsOf(folder, road, [logOf(noted)], READINGS_S);

describe('the coast-downs of the demo', () => {
  it('hold the drag area and the rolling resistance that were simulated within what is stated', () => {
    expect(problems).toEqual([]);
    const estimate = decided(coastDowns?.answer);
    const { dragAreaM2, rollingResistance } = ELECTRIC_HATCH;
    expect(Math.abs(estimate.dragAreaM2 - dragAreaM2)).toBeLessThan(2 * estimate.dragAreaStandardM2);
    expect(Math.abs(estimate.rollingResistance - rollingResistance)).toBeLessThan(
      2 * estimate.rollingResistanceStandard,
    );
    // Known well enough to be worth telling.
    expect(estimate.dragAreaStandardM2).toBeLessThan(0.06 * dragAreaM2);
    expect(estimate.slope).toBeCloseTo(0.0016, 3);
  });

  it('are told one by one, with clock, direction and speeds', () => {
    expect(coastDowns?.runs).toHaveLength(noted.length);
    expect(coastDowns?.runs.map(({ directionId }) => directionId)).toEqual(noted);
    for (const { at, fromMps, toMps, lastsS } of coastDowns!.runs) {
      expect(at).toMatch(/^10:(3|4)\d:\d\d$/);
      expect(fromMps - toMps).toBeGreaterThan(25 / 3.6);
      expect(lastsS).toBeGreaterThan(10);
    }
  });

  it('are none where no log was taken coasting, whatever coasting it holds', () => {
    expect(findCoastDowns(trace).length).toBe(6);
    expect(coastDownsOf(folder, road, [logOf()], READINGS_S)).toEqual({ problems: [] });
  });

  it('are refused as a whole where their number is not that of the notes, and both are told', () => {
    const answer = coastDownsOf(folder, road, [logOf(noted.slice(1))], READINGS_S);
    expect(answer.problems).toMatchObject([{ id: 'match-coast-downs-differ', expected: '5 coast-downs' }]);
    expect(answer.problems[0]!.found!.split(',')).toHaveLength(6);
    expect(answer.coastDowns).toEqual({ runs: [] });
  });

  it('say nothing where the density of the air is not known', () => {
    const unread = { ...folder, content: { ...content, conditions: [{ at: '09:30' }] } };
    const answer = coastDownsOf(unread, road, [logOf(noted)], [34_200]);
    expect(answer.coastDowns?.answer).toBeUndefined();
    expect(answer.coastDowns?.runs).toHaveLength(6);
  });
});

describe('what they are used for', () => {
  const test: TestResult = {
    ...testFixture(),
    road,
    ...(coastDowns === undefined ? {} : { coastDowns }),
  };
  const asked: TestResult = { ...test, content: { ...test.content, restate_with: 'coast-downs' } };
  const facts = (of: TestResult) =>
    attemptToCircumstances(of.attempts[0]!, of.content, of.car, of.road, fromLogsOf(of));

  it('is restating only where the test says so', () => {
    const estimate = decided(coastDowns?.answer);
    expect(facts(test).car.dragAreaM2).toBe(test.car.drag_area_m2);
    expect(facts(asked).car).toMatchObject({
      dragAreaM2: estimate.dragAreaM2,
      rollingResistance: estimate.rollingResistance,
    });
    expect(facts(asked).uncertainty?.dragArea).toBeCloseTo(
      estimate.dragAreaStandardM2 / estimate.dragAreaM2,
      12,
    );
  });

  it('is a table beside what is stated, with uncertainty, in either language', () => {
    const house = houseFixture();
    const stated: TestResult = {
      ...test,
      car: { ...test.car, drag_area_m2: 0.66, rolling_resistance: 0.0115 },
    };
    const table = coastDownTable(stated, house)!;
    expect(table.rows.map(row => row.length)).toEqual([4, 4, 4, 4]);
    expect(table.rows[0]!.map(({ text }) => text)).toEqual([
      'Drag area',
      '0.68\u00a0m²',
      '± 0.06\u00a0m²',
      '0.66\u00a0m²',
    ]);
    expect(table.rows[1]!.map(({ text }) => text)).toEqual([
      'Rolling resistance over weight',
      '0.0108',
      '± 0.0013',
      '0.0115',
    ]);
    expect(table.notes.join(' ')).toContain('restated figures use the stated values');
    expect(coastDownTable(asked, house)!.notes.join(' ')).toContain('use them in place of');
    const german = coastDownTable(stated, { ...house, language: 'de-DE' })!;
    expect(german.rows[0]![1]!.text).toBe('0,68\u00a0m²');
    expect(coastDownTable({ ...test, coastDowns: { runs: [] } }, house)).toMatchObject({ rows: [] });
    expect(coastDownTable(testFixture(), house)).toBeUndefined();
  });
});
