import { beforeAll, describe, expect, it } from 'vitest';
import { accelerationOverSpeed } from '../../pipeline/figure/acceleration-over-speed.ts';
import type { FigureLayout, MadeFigure } from '../../pipeline/figure/figure.ts';
import { shiftMarksOf } from '../../pipeline/figure/shift-marks.ts';
import { timeGained } from '../../pipeline/figure/time-gained.ts';
import { loadLettering } from '../../pipeline/lettering/fonts.ts';
import type { Lettering } from '../../pipeline/lettering/lettering.ts';
import { measureLog } from '../../pipeline/measurement/measure.ts';
import type { TestResult } from '../../pipeline/result/result.ts';
import { houseFixture, testFixture } from '../result/fixture.ts';
import { DIESEL_VAN, ELECTRIC_HATCH, MANUAL_TURBO, type SimulatedCar } from '../simulate/cars.ts';
import { simulateDay } from '../simulate/day.ts';
import { overlaps, plotBoxes } from './scene.ts';

const LAYOUTS: readonly FigureLayout[] = ['narrow', 'wide'];
const GEARBOX = 'six-speed manual';
let lettering: Lettering;
beforeAll(async () => {
  lettering = await loadLettering();
});

/** The fixture's test, driven by a simulated car. */
function drivenBy(car: SimulatedCar, { rateHz = 25, gearbox = GEARBOX } = {}): TestResult {
  const base = testFixture();
  const day = simulateDay({ seed: 4, car, rateHz, noiseMps: 0.015, runs: 5, aborted: 0, traffic: false });
  const { trace, measurements } = measureLog(day.toLog());
  return {
    ...base,
    car: { ...base.car, gearbox },
    attempts: base.attempts.slice(0, 5).map(({ setAside: _, ...attempt }, k) => ({
      ...attempt,
      trace,
      measurement: measurements[k]!,
    })),
  };
}

const FIGURES = [accelerationOverSpeed, timeGained] as const;
function made(figure: (typeof FIGURES)[number], test: TestResult): MadeFigure {
  const found = figure.make(test, houseFixture(), { startRule: 'first-movement' });
  if ('reason' in found) throw new Error(found.reason);
  return found;
}
const texts = (figure: MadeFigure, layout: FigureLayout) => plotBoxes(figure.spec[layout], layout, lettering);
const CASES = FIGURES.flatMap(figure =>
  LAYOUTS.flatMap(layout =>
    [MANUAL_TURBO, DIESEL_VAN].map(car => [figure.kind, layout, car.id, figure, car] as const),
  ),
);

describe('gear changes on a figure over speed', () => {
  it.each(CASES)(
    '%s, %s, of the %s, are labelled, and clear of every other label',
    async (_, layout, __, figure, car) => {
      const boxes = await texts(made(figure, drivenBy(car)), layout);
      expect(boxes.filter(({ text }) => text.startsWith('shift')).length).toBeGreaterThanOrEqual(2);
      expect(overlaps(boxes, 2)).toEqual([]);
    },
  );

  it('stand in the alternative text and under the table, with speed, cost and uncertainty', () => {
    for (const figure of FIGURES) {
      const { altText, table } = made(figure, drivenBy(MANUAL_TURBO));
      for (const text of [altText, table.notes.join(' ')]) {
        expect(text).toMatch(/at 56\u00a0km\/h, 0\.3\d\u00a0s lost, ± 0\.0\d\u00a0s; at 95\u00a0km\/h/);
      }
    }
  });

  it.each([
    ['an electric car', ELECTRIC_HATCH, 'two-speed'],
    ['a car said to have one gear', MANUAL_TURBO, 'single-speed'],
  ] as const)('are not drawn for %s', async (_, car, gearbox) => {
    for (const figure of FIGURES) {
      const found = made(figure, drivenBy(car, { gearbox }));
      expect(`${found.altText} ${found.table.notes.join(' ')}`).not.toMatch(/[Ss]hift/);
      for (const layout of LAYOUTS) {
        expect((await texts(found, layout)).filter(({ text }) => text.startsWith('shift'))).toEqual([]);
      }
    }
  });

  it('are said to be missing where the log is too slow for them', () => {
    const test = drivenBy(MANUAL_TURBO, { rateHz: 5 });
    const runs = test.attempts.slice(0, 2).map((attempt, k) => ({ name: `run ${k}`, attempt }));
    expect(shiftMarksOf(runs, test, 'en-GB')).toEqual({
      marks: [],
      sentences: [],
      notes: ['Shifts are not all shown: fewer than 10 readings a second do not show a gear change.'],
    });
  });
});
