import { describe, expect, it } from 'vitest';
import type { FigureLayout, MadeFigure } from '../../pipeline/figure/figure.ts';
import { FIGURES } from '../../pipeline/figure/figures.ts';
import { plotWidthPx } from '../../pipeline/figure/theme.ts';
import { OVERLAYS } from '../../pipeline/overlay/overlays.ts';
import type { House, TestResult } from '../../pipeline/result/result.ts';
import { contentToRoadPlan } from '../../pipeline/result/road-plan.ts';
import { testRoadPlan } from '../../pipeline/result/test-plan.ts';
import { rowsShown } from '../../pipeline/table/road-plan.ts';
import { TABLES } from '../../pipeline/table/tables.ts';
import { houseFixture, testFixture } from '../result/fixture.ts';

const TEST = testFixture();
const HOUSE = houseFixture();
const LANGUAGES = ['en-GB', 'de-DE'];

const made = (test: TestResult = TEST, house: House = HOUSE): MadeFigure => {
  const figure = FIGURES['road-plan'].make(test, house, { startRule: house.headline_start_rule });
  if ('reason' in figure) throw new Error(figure.reason);
  return figure;
};

interface Box {
  readonly x: number;
  readonly x2: number;
}
/** The boxes of the areas of a plot in the order drawn: reserve, gaining, reacting, braking. */
function boxes(figure: MadeFigure, layout: FigureLayout): readonly (readonly Box[])[] {
  const { layer } = figure.spec[layout] as unknown as {
    layer: { mark: { type: string }; data: { values: Box[] } }[];
  };
  return layer.filter(({ mark }) => mark.type === 'rect').map(({ data }) => data.values);
}

describe('the road plan of a test', () => {
  it('is that of its car on its road, as most kept attempts were driven, with what they measured', () => {
    const plan = testRoadPlan(TEST, 'en');
    expect(plan.carName).toBe(TEST.car.name);
    expect(plan.lengthM).toBe(TEST.road.length_m);
    const kept = TEST.attempts.filter(({ setAside }) => setAside === undefined);
    const driven = kept.filter(({ directionId }) => directionId === plan.direction.id).length;
    for (const { id } of TEST.road.directions) {
      expect(kept.filter(({ directionId }) => directionId === id).length).toBeLessThanOrEqual(driven);
    }
    const asked = { direction: plan.direction.id, wet: plan.wet };
    expect(JSON.stringify(plan)).toBe(JSON.stringify(contentToRoadPlan(TEST.car, TEST.road, asked, TEST)));
  });

  it('is planned for a wet road where most kept attempts were driven on one', () => {
    const wet: TestResult = {
      ...TEST,
      attempts: TEST.attempts.map(one => ({ ...one, conditions: { ...one.conditions, surface: 'wet' } })),
    };
    expect([testRoadPlan(TEST, 'en').wet, testRoadPlan(wet, 'en').wet]).toEqual([false, true]);
  });

  it('is drawn to scale: gaining, reacting, braking one after another, the reserve at the end', () => {
    const plan = testRoadPlan(TEST, 'en');
    const rows = rowsShown(plan).slice(-6);
    const [reserve, gain, react, brake] = boxes(made(), 'wide');
    // Nothing of this plan lies beyond the end of the road, so that its length is the whole width.
    const perM = (plotWidthPx('wide') - 1) / plan.lengthM;
    for (const [index, row] of rows.entries()) {
      if (row.stoppedM.adverse > plan.lengthM) continue;
      const reached = row.reachedM.adverse;
      const places = [0, reached, reached + row.reactionM.adverse, row.stoppedM.adverse];
      const drawn = [gain![index]!.x, react![index]!.x, brake![index]!.x, brake![index]!.x2];
      const scale = brake![index]!.x2 / row.stoppedM.adverse;
      expect(scale).toBeLessThanOrEqual(perM + 1e-9);
      for (const [at, place] of places.entries()) expect(drawn[at]).toBeCloseTo(place * scale, 6);
      expect(gain![index]!.x2).toBe(react![index]!.x);
      expect(react![index]!.x2).toBe(brake![index]!.x);
      expect((reserve![index]!.x2 - reserve![index]!.x) / scale).toBeCloseTo(plan.driving.reserveM, 6);
    }
  });

  it('has the caution wherever it stands, and is never called what nobody can promise', () => {
    for (const language of LANGUAGES) {
      const house = { ...HOUSE, language };
      const figure = made(TEST, house);
      const table = TABLES['road-plan'].make(TEST, house);
      const [plate] = OVERLAYS['road-plan'].make(TEST, house, []);
      const said = [
        figure.altText,
        figure.caption,
        figure.foot.join(' '),
        figure.cropFoot!.join(' '),
        table.notes[0]!,
        plate!.altText,
      ];
      for (const text of said) {
        expect(text).toMatch(language === 'en-GB' ? /not a clearance to drive/ : /keine Freigabe zum Fahren/);
        expect(text).toMatch(language === 'en-GB' ? /local law/i : /örtliches Recht/i);
      }
      const all = JSON.stringify([figure, table, plate!.altText]);
      expect(all).not.toMatch(/\bsafe(ly|ty)?\b|\bsicher\b/i);
    }
  });

  it('states every assumption under its table', () => {
    const notes = TABLES['road-plan'].make(TEST, HOUSE).notes.join('\n');
    for (const part of [
      'Road',
      'Surface',
      'Car',
      'Start',
      'Acceleration',
      'Deceleration',
      'Reaction',
      'Wind',
      'Reserve',
    ]) {
      expect(notes).toMatch(new RegExp(`^${part}: `, 'm'));
    }
  });

  it('has on the plate the places of the highest speed: reached, then the brake, then rest before the reserve', () => {
    const plan = testRoadPlan(TEST, 'en');
    const row = plan.planned.highestRow!;
    const [plate] = OVERLAYS['road-plan'].make(TEST, HOUSE, []);
    const numbers = [...plate!.altText.matchAll(/(?:Reached by|Brake by|At rest by) (\d+)/g)].map(match =>
      Number(match[1]),
    );
    expect(numbers).toEqual([
      Math.ceil(row.reachedM.adverse - 1e-6),
      Math.floor(row.lastPointM.adverse + 1e-6),
      plan.lengthM - plan.driving.reserveM,
    ]);
    expect(numbers).toEqual(numbers.toSorted((a, b) => a - b));
    expect(plate!.altText).toMatch(/±\s\d+\sm/);
  });

  it('is no plate where the road has room for nothing, and the figure says so', () => {
    const short: TestResult = { ...TEST, road: { ...TEST.road, length_m: 100 } };
    expect(testRoadPlan(short, 'en').planned.highestRow).toBeUndefined();
    expect(OVERLAYS['road-plan'].make(short, HOUSE, [])).toEqual([]);
    expect(made(short).title).toMatch(/no room on 100\sm/);
  });
});
