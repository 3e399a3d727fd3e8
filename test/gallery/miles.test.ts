/** A publication in miles an hour: nothing that readers see is in km/h, and every speed is the same speed. */
import { describe, expect, it } from 'vitest';
import { keyFigures } from '../../pipeline/article/key-figures.ts';
import { FIGURE_LAYOUTS } from '../../pipeline/figure/figure.ts';
import { FIGURE_KINDS, FIGURES } from '../../pipeline/figure/figures.ts';
import { overlaysNote } from '../../pipeline/overlay/note.ts';
import { FRAME_SIZES } from '../../pipeline/overlay/sizes.ts';
import { measuresOf, stopsFrom, timesFromRest } from '../../pipeline/result/measures.ts';
import { pickResult } from '../../pipeline/result/pick.ts';
import { testRoadPlan } from '../../pipeline/result/test-plan.ts';
import { printQuantity, printResult } from '../../pipeline/result/words.ts';
import { runningContent } from '../../pipeline/sequence/content.ts';
import { frameValues } from '../../pipeline/sequence/plan.ts';
import { planToHtmlCard } from '../../pipeline/table/road-plan-card.ts';
import { TABLES } from '../../pipeline/table/tables.ts';
import { testTimeline } from '../../pipeline/timeline/timeline.ts';
import { mphToMps } from '../../pipeline/units.ts';
import { fixturePlan, TEST } from '../sequence/fixture.ts';
import { choiceOf, type GalleryCase, galleryCases } from './cases.ts';
import { overlaysOf } from './pictures.ts';

const inMiles = (one: GalleryCase, language = 'en-GB'): GalleryCase => ({
  ...one,
  house: { ...one.house, language, units: 'mph' },
});
const CASES = galleryCases()
  .filter(({ id }) => ['plain', 'ten', 'changing-day'].includes(id))
  .flatMap(one => [inMiles(one), inMiles(one, 'de-DE')]);

const textsIn = (value: unknown): readonly string[] =>
  typeof value === 'string'
    ? [value]
    : typeof value === 'object' && value !== null
      ? Object.values(value).flatMap(textsIn)
      : [];
const metric = (value: unknown): readonly string[] =>
  textsIn(value).filter(text => /km\s?\/\s?h|\bkmh\b/.test(text));

describe.each(CASES.map(one => [`${one.id}, ${one.house.language}`, one] as const))('%s', (_id, one) => {
  const { test, house, others } = one;

  it.each(FIGURE_KINDS)('figure %s is in miles an hour', kind => {
    const made = FIGURES[kind].make(test, house, choiceOf(one), others);
    if ('reason' in made) return;
    const { spec, ...said } = made;
    expect(metric(said)).toEqual([]);
    for (const layout of FIGURE_LAYOUTS) expect(metric(spec[layout])).toEqual([]);
  });

  it('tables, plates, notes, markers and the road plan are in miles an hour', () => {
    for (const [kind, { make }] of Object.entries(TABLES)) {
      expect([kind, ...metric(make(test, house, others))]).toEqual([kind]);
    }
    const plates = overlaysOf(one);
    expect(metric(plates)).toEqual([]);
    expect(metric(overlaysNote(test, house, plates, FRAME_SIZES))).toEqual([]);
    expect(metric(testTimeline(test, house, { name: '25', frames: 25, seconds: 1 }).runs)).toEqual([]);
    expect(metric(planToHtmlCard(testRoadPlan(test, house), house))).toEqual([]);
  });
});

describe('a publication in miles an hour', () => {
  const plain = inMiles(galleryCases()[0]!);
  const { test, house } = plain;

  it('is told by 0–60 mph and a stop from 70 mph, and still shows distances in metres', () => {
    expect(timesFromRest(house)[0]).toBe('0-60-mph');
    expect(stopsFrom(house)[0]).toBe('stop-from-70-mph');
    expect(keyFigures(test, house).map(({ label }) => label)).toEqual(
      expect.arrayContaining(['0–60 mph', '70–0 mph']),
    );
    const heads = TABLES.splits.make(test, house, []).rows.map(([head]) => head?.text);
    expect(heads).toEqual(expect.arrayContaining(['0–30 mph', '0–60 mph', '0–100 m']));
    expect(measuresOf(house).filter(id => id.endsWith('-kmh'))).toEqual([]);
    expect(measuresOf({ ...house, units: 'kmh' }).filter(id => id.endsWith('-mph'))).toEqual(['0-60-mph']);
  });

  it('prints the speed a run had: metres a second by 0.44704, exactly a mile an hour', () => {
    const result = pickResult(test, house, { measure: 'top-speed' })!;
    const printed = printResult(result, house);
    expect(printed.unit).toBe('mph');
    expect(Math.abs(Number(printed.value) - result.value / 0.44704)).toBeLessThan(0.51);
    expect(printQuantity(26.8224, 'speed', 3, house)).toBe('60.000\u00a0mph');
    expect(printQuantity(26.8224, 'speed', 3, { ...house, units: 'kmh' })).toBe('96.561\u00a0km/h');
  });

  it('names a figure in km/h only where it is asked for by name', () => {
    const asked = pickResult(test, house, { measure: '0-100-kmh' })!;
    expect(printResult(asked, house).full).toMatch(/^0–100 km\/h: /);
  });

  it('plans the road in whole miles an hour', () => {
    const { rows, highestRow } = testRoadPlan(test, house).planned;
    for (const { speedMps } of [...rows, highestRow!]) {
      const mph = speedMps / mphToMps(1);
      expect(Math.abs(mph - Math.round(mph))).toBeLessThan(1e-9);
    }
    expect(rows.map(({ speedMps }) => Math.round(speedMps / mphToMps(1))).slice(0, 3)).toEqual([20, 30, 40]);
  });

  it('runs a plate in whole miles an hour that have been passed', () => {
    const plan = fixturePlan({}, undefined, house);
    const miles = frameValues(plan, house);
    const kilometres = frameValues(plan, { ...house, units: 'kmh' });
    for (let frame = plan.firstFrame; frame <= plan.lastFrame; frame += 7) {
      const [mph = 0, kmh = 0] = [miles(frame).speed, kilometres(frame).speed];
      // Both are cut: the mile an hour lies within one of what the kilometre an hour allows.
      expect(mph).toBeGreaterThanOrEqual(Math.floor(kmh / 1.609344));
      expect(mph).toBeLessThanOrEqual((kmh + 1) / 1.609344);
    }
    const content = runningContent(plan, TEST, house);
    expect(content.numbers.find(({ id }) => id === 'speed')?.unit).toBe('mph');
    expect(metric(content)).toEqual([]);
  });
});
