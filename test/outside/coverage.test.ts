/**
 * Which published values hold the pipeline, and which do not yet, and why. A test counts as holding a value where it
 * names its id; that it really compares is up to the test, and to `check-values.test.ts`.
 */
import { readdirSync, readFileSync } from 'node:fs';
import { join, resolve } from 'node:path';
import { describe, expect, it } from 'vitest';
import { checkValueIds, hasCheckValues } from './check-values.ts';

/** No part of the pipeline works these out, so that a test could only check itself. */
const NOT_CHECKED: Readonly<Record<string, string>> = {
  'fuel.mpg-l100': 'No page prints fuel consumption.',
  'air.es.triple': 'The IAPWS formula is not used; Buck 1996 is 3 mPa away at the triple point.',
  'air.da.rule120': 'A rule of thumb: test/conditions/air.test.ts stays within 250 ft of it.',
  'strd.lottery': 'The file has the certified results but not the 218 values.',
  'okabe-ito': 'A palette that is not used: half of it is below 3:1 on paper.',
  'data.vega-cars': 'The data set is not installed: it is not free to ship.',
  'data.vega-cars.rows': 'The data set is not installed: it is not free to ship.',
  'data.vega-cars.ideal': 'The data set is not installed: it is not free to ship.',
  'data.mtcars': 'The data set is not installed.',
  'data.mtcars.ideal': 'The data set is not installed.',
};

/** Values for runs, measurements and the simulated cars whose checks are still to be written. */
const TO_COME: readonly string[] = [
  'trap.const5-mean66ft',
  'trap.const5-terminal-mph',
  'rollout.const5-time',
  'rollout.const5-speed-mph',
  'rollout.const5-0to60',
  'rollout.1g',
  'mfdd.simple',
  'mfdd.const8',
  'mfdd.constant',
  'r13h.type0-100',
  'r13h.type0-mfdd',
  'r13h.type0-connected',
  'r13h.secondary',
  'r13h.r13-m1',
  'brake.corr-kmh',
  'brake.corr-mph',
  'brake.corr-98pct',
  'brake.ramp',
  'cycle.wltc.low',
  'cycle.wltc.medium3b',
  'cycle.wltc.high3b',
  'cycle.wltc.extrahigh',
  'cycle.wltc.total3b',
  'cycle.wltc.medium3a',
  'cycle.wltc.high3a',
  'cycle.wltc.total3a',
  'cycle.wltc.vmax',
  'cycle.udds',
  'cycle.ftp75',
  'cycle.hwfet',
  'cycle.us06',
  'cycle.nedc',
  'dyn.constP',
  'dyn.constP-qm',
  'dyn.constP-80-120',
  'dyn.traction-then-power',
  'dyn.clutch',
];

const TEST = resolve(import.meta.dirname, '..');
const sources = (readdirSync(TEST, { recursive: true }) as string[])
  .filter(file => file.endsWith('.test.ts') && !file.endsWith('coverage.test.ts'))
  .map(file => readFileSync(join(TEST, file), 'utf8'))
  .filter(text => /check-values\.(ts|json)/.test(text));

/** Named whole, as a key, or as the beginning of a template such as `df30.${frame}`. */
const isNamed = (id: string): boolean => {
  const family = id.slice(0, id.lastIndexOf('.') + 1);
  return sources.some(
    text =>
      text.includes(`'${id}'`) ||
      new RegExp(`^\\s*${id.replaceAll('.', '\\.')}: `, 'm').test(text) ||
      (family !== '' && text.includes(`\`${family}\${`)),
  );
};

describe.skipIf(!hasCheckValues)('the published values', () => {
  const ids = checkValueIds();
  const named = ids.filter(isNamed);

  it('are each checked by a test, or there is a reason', () => {
    const neither = ids.filter(id => !named.includes(id) && !(id in NOT_CHECKED) && !TO_COME.includes(id));
    expect(neither).toEqual([]);
  });

  it('are not excused where they are checked, nor where they do not exist', () => {
    const excused = [...Object.keys(NOT_CHECKED), ...TO_COME];
    expect(excused.filter(id => !ids.includes(id))).toEqual([]);
    expect(Object.keys(NOT_CHECKED).filter(id => named.includes(id))).toEqual([]);
  });

  it('are checked in three of four cases at least', () => {
    expect(named.length).toBeGreaterThanOrEqual(0.75 * ids.length);
  });
});
