/** A road plan as a table of places in metres from the start, with the sentence it comes to and what it assumes. */

import { withUnit } from '../digits.ts';
import { tagOf } from '../language.ts';
import { PLAN_DEFAULTS, type RoadPlan } from '../result/road-plan.ts';
import { localiseDigits, printQuantity } from '../result/words.ts';
import { type Edges, type PlanRow, plusMinus } from '../road/plan.ts';
import { type ForReaders, speedScale, speedUnitOf } from '../speed-unit.ts';
import { NONE } from './figures-of.ts';
import type { Table, TableCell } from './table.ts';
import { planAssumptionWords, roadPlanWords } from './words/road-plan.ts';

/** Left over from converting to SI and back: a place of exactly 400 m is not printed as 401. */
const HAIR = 1e-6;

/** Whole metres, away from what would flatter: places reached and stopped at are rounded up, the others down. */
export const wholeUp = (value: number, language: string): string =>
  Number.isFinite(value) ? localiseDigits(String(Math.ceil(value - HAIR)), language) : NONE;
export const wholeDown = (value: number, language: string): string =>
  Number.isFinite(value) ? localiseDigits(String(Math.floor(value + HAIR)), language) : NONE;
/** `± 34`, the larger side. */
const wide = (of: Edges<number>, language: string): string =>
  Number.isFinite(plusMinus(of)) ? `±\u00a0${wholeUp(plusMinus(of), language)}` : NONE;
/** A speed in whole numbers of the readers' unit, downwards. */
const speedDown = (speedMps: number, readers: ForReaders): string =>
  wholeDown(speedScale(readers).fromMps(speedMps), tagOf(readers));
const speedInWords = (speedMps: number, readers: ForReaders): string =>
  withUnit(speedDown(speedMps, readers), speedUnitOf(readers));

/**
 * The rows with room, the highest speed among them, and the first speed without. Every place stands at the adverse
 * end of its uncertainty; the last column says how far the middle of the stopping place may lie from either end.
 */
export function roadPlanTable(plan: RoadPlan, readers: ForReaders): Table {
  const words = roadPlanWords(readers);
  return {
    id: 'road-plan',
    caption: words.caption(plan.carName, plan.roadName, plan.direction.name, plan.wet),
    columns: [
      { label: words.speed, unit: speedUnitOf(readers), align: 'end' },
      { label: words.reachedBy, unit: 'm', align: 'end' },
      { label: words.brakeBy, unit: 'm', align: 'end' },
      { label: words.stoppedBy, unit: 'm', align: 'end' },
      { label: words.left, unit: 'm', align: 'end' },
      { label: '±', unit: 'm', align: 'end' },
    ],
    rows: rowsShown(plan).map(row => cellsOf(row, readers)),
    notes: [words.placesNote, words.brakeNote, estimateNote(plan, readers)],
  };
}

/** The rows with room, the highest speed among them, and the first speed without. */
export function rowsShown({ planned }: RoadPlan): readonly PlanRow[] {
  const { rows, highestRow } = planned;
  const first = rows.findIndex(({ room }) => room !== 'room');
  const withRoom = first < 0 ? rows : rows.slice(0, first);
  const without = first < 0 ? [] : [rows[first]!];
  const last = withRoom.at(-1);
  const same = last !== undefined && highestRow !== undefined && highestRow.speedMps - last.speedMps < HAIR;
  return [...withRoom, ...(highestRow === undefined || same ? [] : [highestRow]), ...without];
}

function cellsOf(row: PlanRow, readers: ForReaders): readonly TableCell[] {
  const language = tagOf(readers);
  const { speedMps, reachedM, lastPointM, stoppedM, leftM, room } = row;
  return [
    { text: speedDown(speedMps, readers), header: true },
    { text: wholeUp(reachedM.adverse, language) },
    { text: room === 'room' ? wholeDown(lastPointM.adverse, language) : roadPlanWords(readers).noRoom },
    { text: wholeUp(stoppedM.adverse, language) },
    { text: wholeDown(leftM.adverse, language) },
    { text: wide(stoppedM, language) },
  ];
}

function estimateNote({ pull, decelerationFrom }: RoadPlan, readers: ForReaders): string {
  const words = roadPlanWords(readers);
  return pull === undefined
    ? words.estimated(decelerationFrom)
    : words.measuredUpTo(speedInWords(pull.toMps, readers), decelerationFrom);
}

/** What the plan comes to, in one or two sentences that hold the uncertainty and the reserve. */
export function planFinding({ planned, driving }: RoadPlan, readers: ForReaders): string {
  const words = roadPlanWords(readers);
  const { adverse, middle } = planned.highest;
  const reserve = printQuantity(driving.reserveM, 'distance', 0, readers);
  const middling = speedInWords(middle.speedMps, readers);
  if (planned.highestRow === undefined) {
    return middle.speedMps > driving.fromMps
      ? words.noRoomAdverse(reserve, middling)
      : words.noRoomAtAll(reserve);
  }
  const why =
    adverse.limitedBy !== 'car'
      ? []
      : [middle.limitedBy === 'car' ? words.carSetsLimit : words.carGetsNoFaster];
  const { lastPointM, brakeFromMps } = planned.highestRow;
  return [
    words.roomFor(speedInWords(adverse.speedMps, readers), reserve, middling),
    ...why,
    words.lastPoint(
      withUnit(wholeDown(lastPointM.adverse, tagOf(readers)), 'm'),
      withUnit(
        wholeUp(speedScale(readers).fromMps(brakeFromMps.adverse), tagOf(readers)),
        speedUnitOf(readers),
      ),
    ),
  ].join(' ');
}

export interface StatedAssumption {
  readonly name: string;
  readonly says: string;
}

/** Every assumption of a plan, each with where it comes from. */
export function planAssumptions(plan: RoadPlan, readers: ForReaders): readonly StatedAssumption[] {
  const { driving, burden } = plan;
  const of = (value: number, kind: Parameters<typeof printQuantity>[1], decimals: number): string =>
    printQuantity(value, kind, decimals, readers);
  const words = planAssumptionWords(readers);
  const mass = of(plan.massKg, 'mass', 0);
  return [
    {
      name: words.road,
      says: `${of(plan.lengthM, 'distance', 0)}, ${plan.direction.name}, ${plan.surface}; ${slopeInWords(plan, readers)}`,
    },
    { name: words.surface, says: surfaceInWords(plan, readers) },
    {
      name: words.car,
      says: [
        plan.massFrom === 'as-tested'
          ? words.massAsTested(mass)
          : words.massKerb(mass, of(PLAN_DEFAULTS.aboardKg, 'mass', 0)),
        ...(plan.guessed.length === 0 ? [] : [words.guessed(plan.guessed)]),
        ...(plan.topMps === undefined ? [] : [words.notAbove(of(plan.topMps, 'speed', 0))]),
      ].join('; '),
    },
    {
      name: words.loadAndTow,
      says: words.load(
        of(burden.loadKg, 'mass', 0),
        of(burden.towKg, 'mass', 0),
        burden.towKg > 0 ? of(burden.towDragAreaM2, 'area', 1) : undefined,
      ),
    },
    {
      name: words.start,
      says: driving.fromMps === 0 ? words.standing : words.rolling(of(driving.fromMps, 'speed', 0)),
    },
    { name: words.acceleration, says: pullInWords(plan, readers) },
    { name: words.deceleration, says: decelerationInWords(plan, readers) },
    { name: words.brakes, says: words.inFull(of(driving.buildUpS, 'time', 1)) },
    {
      name: words.reaction,
      says: words.reacting(of(driving.reactionTimeS, 'time', 2), driving.whileReacting === 'pulls'),
    },
    {
      name: words.air,
      says: words.density(of(burden.densityKgm3, 'density', 2), plan.densityFrom === 'measured'),
    },
    {
      name: words.wind,
      says:
        burden.headwindMps === 0
          ? words.still
          : words.windAlong(of(Math.abs(burden.headwindMps), 'wind', 1), burden.headwindMps > 0),
    },
    { name: words.reserve, says: words.leftOver(of(driving.reserveM, 'distance', 0)) },
  ];
}

function slopeInWords({ slopeFrom, meanSlope }: RoadPlan, readers: ForReaders): string {
  const words = planAssumptionWords(readers);
  if (slopeFrom === 'assumed-level') return words.takenAsLevel;
  const per = printQuantity(100 * meanSlope, 'slope', 2, readers).replace(/\u2212(?=0[.,]00)/, '');
  return words.slope(slopeFrom === 'profile', per);
}

function surfaceInWords({ wet, wetFactor, pull, stops }: RoadPlan, readers: ForReaders): string {
  const words = planAssumptionWords(readers);
  const onWet = [pull, stops].filter(one => one?.onWet).length > 0;
  if (!wet) return onWet ? words.dryButWetRuns : words.dry;
  return wetFactor < 1 ? words.wetFactor(printQuantity(wetFactor, 'number', 2, readers)) : words.wetMeasured;
}

function pullInWords({ pull }: RoadPlan, readers: ForReaders): string {
  const words = planAssumptionWords(readers);
  if (pull === undefined) return words.pullEstimated;
  const percent = printQuantity(pull.uncertainty, 'humidity', 0, readers);
  return words.pullMeasured(pull.runs, percent, speedInWords(pull.toMps, readers));
}

function decelerationInWords(plan: RoadPlan, readers: ForReaders): string {
  const words = planAssumptionWords(readers);
  const { decelerationFrom, decelerationMps2: of, stops } = plan;
  const print = (value: number, decimals = 1): string =>
    printQuantity(value, 'acceleration', decimals, readers);
  if (decelerationFrom === 'stated') return words.decelerationStated(print(of.middle, 2));
  if (decelerationFrom === 'estimated' || stops === undefined) {
    return words.decelerationEstimated(print(of.adverse), print(of.favourable));
  }
  return words.decelerationMeasured(print(of.adverse, 2), stops.stops, speedInWords(stops.fromMps, readers));
}
