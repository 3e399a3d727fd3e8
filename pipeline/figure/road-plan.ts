/** The road plan as a picture of the road: where a speed is reached, reacting, braking, and what is left. */
import { catalogue } from '../language.ts';
import { planCaution } from '../result/caution.ts';
import type { House, TestResult } from '../result/result.ts';
import type { RoadPlan } from '../result/road-plan.ts';
import { testRoadPlan } from '../result/test-plan.ts';
import { printQuantity } from '../result/words.ts';
import type { PlanRow } from '../road/plan.ts';
import { plusMinus } from '../road/plan.ts';
import { speedScale } from '../speed-unit.ts';
import {
  planAssumptions,
  planFinding,
  roadPlanTable,
  rowsShown,
  wholeDown,
  wholeUp,
} from '../table/road-plan.ts';
import { everyLayout, type Figure, type MadeFigure, type NotMade } from './figure.ts';
import { feet } from './foot.ts';
import { planPlot } from './road-plan-plot.ts';

/** The places of a row, printed with their unit. */
export interface RowWords {
  readonly reached: string;
  readonly stopped: string;
  readonly brakeBy: string;
  /** What is left of the road with its uncertainty, or that there is no room. */
  readonly left: string;
}

export const planWords = catalogue({
  en: {
    title: (speed: string, length: string, reserve: string) =>
      `Road plan: room for ${speed} on ${length}, ${reserve} in reserve`,
    noTitle: (length: string, reserve: string) =>
      `Road plan: no room on ${length} with ${reserve} in reserve`,
    deck: (car: string, road: string, way: string, wet: boolean) =>
      `${car} on ${road}, ${way}, ${wet ? 'wet' : 'dry'}: every place at the adverse end of its uncertainty`,
    row: (reached: string, stopped: string) => `reached by ${reached}, stopped by ${stopped}`,
    brakeBy: (metres: string) => `brake by ${metres}`,
    left: (metres: string, wide: string) => `${metres} ±\u00a0${wide} left`,
    noRoom: 'no room',
    reserve: 'reserve',
    key: 'Solid: gaining speed. Pale: reacting, the car pulling on. Hatched: braking. Thin line across: last place to decide to brake and keep the reserve. Outline: the road; shaded: the reserve.',
    cropKey: 'Solid: gaining speed; hatched: braking.',
    caption: (car: string, road: string) => `Road plan of the ${car} on ${road}.`,
    alt: (speed: string, row: RowWords) =>
      `${speed}: reached by ${row.reached}, stopped by ${row.stopped}, ${row.left}.`,
    bars: 'Bars of road planned, in metres from the start.',
    caution:
      'Arithmetic on assumptions, not a clearance to drive: closed road, local law and licensed practice come first.',
    nothing: 'On this road the plan reaches none of its speeds.',
  },
  de: {
    title: (speed, length, reserve) => `Streckenplan: Platz für ${speed} auf ${length}, ${reserve} Reserve`,
    noTitle: (length, reserve) => `Streckenplan: kein Platz auf ${length} mit ${reserve} Reserve`,
    deck: (car, road, way, wet) =>
      `${car} auf ${road}, ${way}, ${wet ? 'nass' : 'trocken'}: jede Stelle am ungünstigen Ende ihrer Unsicherheit`,
    row: (reached, stopped) => `erreicht bis ${reached}, steht bis ${stopped}`,
    brakeBy: metres => `bremsen bis ${metres}`,
    left: (metres, wide) => `${metres} ±\u00a0${wide} übrig`,
    noRoom: 'kein Platz',
    reserve: 'Reserve',
    key: 'Voll: das Auto gewinnt Tempo. Blass: Reaktion, das Auto zieht weiter. Schraffiert: Bremsen. Dünner Querstrich: letzte Stelle, sich fürs Bremsen zu entscheiden und die Reserve zu behalten. Umriss: die Strecke; getönt: die Reserve.',
    cropKey: 'Voll: Tempo gewinnen; schraffiert: Bremsen.',
    caption: (car, road) => `Streckenplan für ${car} auf ${road}.`,
    alt: (speed, row) => `${speed}: erreicht bis ${row.reached}, steht bis ${row.stopped}, ${row.left}.`,
    bars: 'Balken der geplanten Strecke, in Metern vom Start.',
    caution:
      'Rechnung mit Annahmen, keine Freigabe zum Fahren: abgesperrte Strecke und örtliches Recht gehen vor.',
    nothing: 'Auf dieser Strecke erreicht der Plan keine seiner Geschwindigkeiten.',
  },
});

export const roadPlanFigure: Figure = {
  kind: 'road-plan',
  describes: catalogue({
    en: 'The road plan after what this test has measured: for each speed where it is reached, reacting, braking, the last place to brake and the reserve, at the adverse end of the uncertainty.',
    de: 'Der Streckenplan nach dem, was dieser Test gemessen hat: für jede Geschwindigkeit, wo sie erreicht ist, Reaktion, Bremsung, die letzte Stelle zum Bremsen und die Reserve, am ungünstigen Ende der Unsicherheit.',
  }),
  make: (test, house) => planFigure(test, house, testRoadPlan(test, house)),
};

/** A plan with assumptions of a person's own, of the test's car on its road. */
export function planFigure(test: TestResult, house: House, plan: RoadPlan): MadeFigure | NotMade {
  const rows = rowsShown(plan);
  return rows.length === 0 ? { reason: planWords(house).nothing } : draw(test, house, plan, rows);
}

/** What a row says. */
export function rowWords(row: PlanRow, house: House): RowWords {
  const { language } = house;
  const words = planWords(house);
  const metres = (digits: string): string => `${digits}\u00a0m`;
  const wide = wholeUp(plusMinus(row.stoppedM), language);
  return {
    reached: metres(wholeUp(row.reachedM.adverse, language)),
    stopped: metres(wholeUp(row.stoppedM.adverse, language)),
    brakeBy: metres(wholeDown(row.lastPointM.adverse, language)),
    left:
      row.room === 'room' ? words.left(wholeDown(row.leftM.adverse, language), metres(wide)) : words.noRoom,
  };
}

function draw(test: TestResult, house: House, plan: RoadPlan, rows: readonly PlanRow[]): MadeFigure {
  const { language } = house;
  const words = planWords(house);
  const caution = planCaution(house);
  const length = printQuantity(plan.lengthM, 'distance', 0, language);
  const reserve = printQuantity(plan.driving.reserveM, 'distance', 0, language);
  const { highestRow } = plan.planned;
  const { symbol, fromMps } = speedScale(house);
  const speed = (row: PlanRow, space = '\u00a0'): string =>
    `${wholeDown(fromMps(row.speedMps), language)}${space}${symbol}`;
  const assumptions = planAssumptions(plan, house).map(({ name, says }) => `${name}: ${says}.`);
  const said = feet(test, house, {
    attempts: test.attempts.filter(({ setAside }) => setAside === undefined),
    method: [words.key],
    caution: words.caution,
    key: words.cropKey,
  });
  const [key = '', tested = '', ...rest] = said.foot;
  return {
    kind: 'road-plan',
    title:
      highestRow === undefined
        ? words.noTitle(length, reserve)
        : words.title(speed(highestRow), length, reserve),
    deck: words.deck(plan.carName, plan.roadName, plan.direction.name, plan.wet),
    caption: `${words.caption(plan.carName, plan.roadName)} ${planFinding(plan, house)} ${words.key} ${caution}`,
    ...said,
    // Before the first run the assumptions say with which mass; nothing was tested yet.
    foot: [key, assumptions.join(' '), ...(plan.massFrom === 'kerb' ? [] : [tested]), ...rest],
    altText: `${words.bars} ${planFinding(plan, house)} ${rows
      .map(row => words.alt(speed(row, ' '), rowWords(row, house)))
      .join(' ')} ${caution}`,
    spec: everyLayout(layout => planPlot(plan, rows, layout, house)),
    table: roadPlanTable(plan, house),
  };
}
