/** What speed the road has room for, with the places that hold it: while the road is shown, never as a clearance. */
import { catalogue } from '../language.ts';
import { testRoadPlan } from '../result/test-plan.ts';
import { printQuantity } from '../result/words.ts';
import { type Edges, plusMinus } from '../road/plan.ts';
import { speedScale } from '../speed-unit.ts';
import { wholeDown, wholeUp } from '../table/road-plan.ts';
import type { Overlay } from './overlay.ts';
import { footPhrases, placeAndDate } from './phrases.ts';
import { type Column, plateOverlay } from './plate.ts';
import { houseTheme } from './theme.ts';

const WORDS = catalogue({
  en: {
    subtitle: (car: string, length: string, way: string, wet: boolean) =>
      `Road plan for ${car}: ${length} ${way}, ${wet ? 'wet' : 'dry'}, places from the start`,
    room: 'Room for',
    adverse: 'at the adverse end',
    reached: 'Reached by',
    brake: 'Brake by',
    stopped: 'At rest by',
    reserve: (metres: string) => `then ${metres} in reserve`,
    not: 'arithmetic on assumptions, not a clearance to drive',
    law: 'closed road, local law and licensed practice come first',
    acceleration: (measured: boolean) => `acceleration ${measured ? 'measured on the day' : 'estimated'}`,
    deceleration: {
      measured: 'braking measured on the day',
      estimated: 'braking estimated',
      stated: 'braking as stated',
    },
    reaction: (time: string) => `reaction ${time}`,
  },
  de: {
    subtitle: (car, length, way, wet) =>
      `Streckenplan für ${car}: ${length} ${way}, ${wet ? 'nass' : 'trocken'}, Stellen vom Start`,
    room: 'Platz für',
    adverse: 'am ungünstigen Ende',
    reached: 'Erreicht bis',
    brake: 'Bremsen bis',
    stopped: 'Steht bis',
    reserve: metres => `dann ${metres} Reserve`,
    not: 'Rechnung mit Annahmen, keine Freigabe zum Fahren',
    law: 'abgesperrte Strecke, örtliches Recht und genehmigte Praxis gehen vor',
    acceleration: measured => `Beschleunigung ${measured ? 'am Tag gemessen' : 'geschätzt'}`,
    deceleration: {
      measured: 'Bremsen am Tag gemessen',
      estimated: 'Bremsen geschätzt',
      stated: 'Bremsen wie angegeben',
    },
    reaction: time => `Reaktion ${time}`,
  },
});

export const roadPlanOverlay: Overlay = {
  kind: 'road-plan',
  describes: catalogue({
    en: 'The highest speed the road plan has room for, with its places and its assumptions.',
    de: 'Die höchste Geschwindigkeit, für die der Streckenplan Platz hat, mit ihren Stellen und Annahmen.',
  }),
  make(test, house) {
    const plan = testRoadPlan(test, house);
    const row = plan.planned.highestRow;
    // Over film stands what was measured, not what was guessed before.
    if (row === undefined || (plan.pull === undefined && plan.stops === undefined)) return [];
    const { language } = house;
    const { symbol, fromMps } = speedScale(house);
    const words = WORDS(house);
    const metres = (value: number): string => printQuantity(value, 'distance', 0, language);
    const wide = (of: Edges<number>): string => `±\u00a0${wholeUp(plusMinus(of), language)}\u00a0m`;
    const place = (head: string, value: string, notes: readonly string[]): Column => ({
      head,
      value,
      unit: 'm',
      notes,
    });
    const columns: readonly Column[] = [
      {
        head: words.room,
        value: wholeDown(fromMps(row.speedMps), language),
        unit: symbol,
        notes: [words.adverse],
        strong: true,
      },
      place(words.reached, wholeUp(row.reachedM.adverse, language), [wide(row.reachedM)]),
      place(words.brake, wholeDown(row.lastPointM.adverse, language), [wide(row.lastPointM)]),
      // Who brakes at the last place stands where the reserve begins.
      place(words.stopped, wholeDown(plan.lengthM - plan.driving.reserveM, language), [
        words.reserve(metres(plan.driving.reserveM)),
      ]),
    ];
    const title = test.road.name;
    const subtitle = words.subtitle(test.car.short_name, metres(plan.lengthM), plan.direction.name, plan.wet);
    const foot = footPhrases([
      words.not,
      words.law,
      words.acceleration(plan.pull !== undefined),
      words.deceleration[plan.decelerationFrom],
      words.reaction(printQuantity(plan.driving.reactionTimeS, 'time', 1, language)),
      placeAndDate(test, house),
    ]);
    return [
      plateOverlay(
        {
          kind: 'road-plan',
          name: '2-road-plan',
          altText: `${title}. ${subtitle}: ${columns
            .map(({ head, value, unit, notes }) => `${head} ${value} ${unit} ${notes.join(', ')}`.trim())
            .join('; ')}. ${foot.join(', ')}.`,
        },
        { label: house.name, title, subtitle, content: { body: 'columns', columns }, foot },
        houseTheme(house),
      ),
    ];
  },
};
