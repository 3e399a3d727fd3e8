/** A road plan as a table of places in metres from the start, with the sentence it comes to and what it assumes. */

import { PLAN_DEFAULTS, type RoadPlan } from '../result/road-plan.ts';
import { localiseDigits, printQuantity } from '../result/words.ts';
import { type Edges, type PlanRow, plusMinus } from '../road/plan.ts';
import { mpsToKmh } from '../units.ts';
import { NONE } from './figures-of.ts';
import type { Table, TableCell } from './table.ts';

/** Left over from converting to SI and back: a place of exactly 400 m is not printed as 401. */
const HAIR = 1e-6;
const MINUS = '\u2212';

/** Whole metres, away from what would flatter: places reached and stopped at are rounded up, the others down. */
const up = (value: number, language: string): string =>
  Number.isFinite(value) ? localiseDigits(String(Math.ceil(value - HAIR)), language) : NONE;
const down = (value: number, language: string): string =>
  Number.isFinite(value) ? localiseDigits(String(Math.floor(value + HAIR)), language) : NONE;
/** `± 34`, the larger side. */
const wide = (of: Edges<number>, language: string): string =>
  Number.isFinite(plusMinus(of)) ? `±\u00a0${up(plusMinus(of), language)}` : NONE;
const kmh = (speedMps: number, language: string): string => down(mpsToKmh(speedMps), language);

/** Stands where a row has no last point to brake. */
export const NO_ROOM = 'no room';

/**
 * The rows with room, the highest speed among them, and the first speed without. Every place stands at the adverse
 * end of its uncertainty; the last column says how far the middle of the stopping place may lie from either end.
 */
export function roadPlanTable(plan: RoadPlan, language: string): Table {
  return {
    id: 'road-plan',
    caption: `${plan.carName} on ${plan.roadName}, ${plan.direction.name}, ${plan.wet ? 'wet' : 'dry'}: places in metres from the start`,
    columns: [
      { label: 'Speed', unit: 'km/h', align: 'end' },
      { label: 'Reached by', unit: 'm', align: 'end' },
      { label: 'Must brake by', unit: 'm', align: 'end' },
      { label: 'Stopped by', unit: 'm', align: 'end' },
      { label: 'Left', unit: 'm', align: 'end' },
      { label: '±', unit: 'm', align: 'end' },
    ],
    rows: rowsShown(plan).map(row => cellsOf(row, language)),
    notes: [
      'Reached by and stopped by: the latest; must brake by: the earliest, and with the reserve kept. ± is of the stopping place.',
      'Must brake by is where the driver must have decided: reacting, the car pulling on, comes after it. Stopped by: if the driver decides as soon as the speed is reached.',
      estimateNote(plan, language),
    ],
  };
}

function rowsShown({ planned }: RoadPlan): readonly PlanRow[] {
  const { rows, highestRow } = planned;
  const first = rows.findIndex(({ room }) => room !== 'room');
  const withRoom = first < 0 ? rows : rows.slice(0, first);
  const without = first < 0 ? [] : [rows[first]!];
  const last = withRoom.at(-1);
  const same = last !== undefined && highestRow !== undefined && highestRow.speedMps - last.speedMps < HAIR;
  return [...withRoom, ...(highestRow === undefined || same ? [] : [highestRow]), ...without];
}

function cellsOf(row: PlanRow, language: string): readonly TableCell[] {
  const { speedMps, reachedM, lastPointM, stoppedM, leftM, room } = row;
  return [
    { text: kmh(speedMps, language), header: true },
    { text: up(reachedM.adverse, language) },
    { text: room === 'room' ? down(lastPointM.adverse, language) : NO_ROOM },
    { text: up(stoppedM.adverse, language) },
    { text: down(leftM.adverse, language) },
    { text: wide(stoppedM, language) },
  ];
}

function estimateNote({ pull, decelerationFrom }: RoadPlan, language: string): string {
  const braking = `braking ${decelerationFrom === 'measured' ? 'measured on the day' : decelerationFrom}`;
  if (pull === undefined) return `Acceleration is estimated, ${braking}.`;
  return `Acceleration is measured on the day up to ${kmh(pull.toMps, language)}\u00a0km/h and estimated beyond, ${braking}.`;
}

/** What the plan comes to, in one or two sentences that hold the uncertainty and the reserve. */
export function planFinding({ planned, driving }: RoadPlan, language: string): string {
  const { adverse, middle } = planned.highest;
  const reserve = printQuantity(driving.reserveM, 'distance', 0, language);
  const middling = `${kmh(middle.speedMps, language)}\u00a0km/h`;
  if (planned.highestRow === undefined) {
    return middle.speedMps > driving.fromMps
      ? `No room at the adverse end of the assumptions with ${reserve} in reserve; ${middling} in their middle.`
      : `No room with ${reserve} in reserve.`;
  }
  const slow = `${kmh(adverse.speedMps, language)}\u00a0km/h`;
  const why =
    adverse.limitedBy === 'car' && middle.limitedBy === 'car'
      ? ' The car sets the limit, not the road.'
      : adverse.limitedBy === 'car'
        ? ' At the adverse end the car gets no faster.'
        : '';
  const { lastPointM, brakeFromMps } = planned.highestRow;
  const last = `Last point to brake for it: ${down(lastPointM.adverse, language)}\u00a0m; the brake then comes on at ${up(mpsToKmh(brakeFromMps.adverse), language)}\u00a0km/h.`;
  return `Room for ${slow} with ${reserve} in reserve, every assumption at its adverse end; ${middling} in their middle.${why} ${last}`;
}

export interface StatedAssumption {
  readonly name: string;
  readonly says: string;
}

/** Every assumption of a plan, each with where it comes from. */
export function planAssumptions(plan: RoadPlan, language: string): readonly StatedAssumption[] {
  const { driving, burden } = plan;
  const of = (value: number, kind: Parameters<typeof printQuantity>[1], decimals: number): string =>
    printQuantity(value, kind, decimals, language);
  const mass = of(plan.massKg, 'mass', 0);
  return [
    {
      name: 'Road',
      says: `${of(plan.lengthM, 'distance', 0)}, ${plan.direction.name}, ${plan.surface}; ${slopeInWords(plan, language)}`,
    },
    { name: 'Surface', says: surfaceInWords(plan, language) },
    {
      name: 'Car',
      says:
        (plan.massFrom === 'as-tested'
          ? `${mass} as tested`
          : `${mass}: the maker’s and ${of(PLAN_DEFAULTS.aboardKg, 'mass', 0)} aboard`) +
        (plan.guessed.length === 0 ? '' : `; ${plan.guessed.join(' and ')} guessed`) +
        (plan.topMps === undefined
          ? ''
          : `; not above the maker’s ${of(plan.topMps, 'speed', 0)} unless measured`),
    },
    {
      name: 'Load and tow',
      says: `${of(burden.loadKg, 'mass', 0)} loaded, ${of(burden.towKg, 'mass', 0)} towed${burden.towKg > 0 ? ` with ${of(burden.towDragAreaM2, 'area', 1)} of drag area and no brakes` : ''}; brakes give the same force`,
    },
    {
      name: 'Start',
      says:
        driving.fromMps === 0 ? 'standing' : `rolling over the start at ${of(driving.fromMps, 'speed', 0)}`,
    },
    { name: 'Acceleration', says: pullInWords(plan, language) },
    { name: 'Deceleration', says: decelerationInWords(plan, language) },
    { name: 'Brakes', says: `in full after ${of(driving.buildUpS, 'time', 1)}, rising evenly (assumed)` },
    {
      name: 'Reaction',
      says: `${of(driving.reactionTimeS, 'time', 2)}; the car ${driving.whileReacting === 'pulls' ? 'pulls on' : 'holds its speed'} meanwhile`,
    },
    {
      name: 'Air',
      says: `${of(burden.densityKgm3, 'density', 2)} ${plan.densityFrom === 'measured' ? 'from the day’s readings' : '(20 °C, 100 kPa)'}`,
    },
    {
      name: 'Wind',
      says:
        burden.headwindMps === 0
          ? 'still'
          : `${of(Math.abs(burden.headwindMps), 'wind', 1)} ${burden.headwindMps > 0 ? 'against' : 'behind'} the car`,
    },
    { name: 'Reserve', says: `${of(driving.reserveM, 'distance', 0)} left over after the stop` },
  ];
}

function slopeInWords({ slopeFrom, meanSlope }: RoadPlan, language: string): string {
  if (slopeFrom === 'assumed-level') return 'taken as level: its slope is not written down';
  const per = printQuantity(100 * meanSlope, 'slope', 2, language).replace(`${MINUS}0.00`, '0.00');
  return `${slopeFrom === 'profile' ? 'surveyed' : 'one slope throughout'}, ${per} on the whole`;
}

function surfaceInWords({ wet, wetFactor, pull, stops }: RoadPlan, language: string): string {
  const onWet = [pull, stops].filter(one => one?.onWet).length > 0;
  if (!wet) return onWet ? 'dry; runs on a wet road are counted as they were' : 'dry';
  const factor = printQuantity(wetFactor, 'number', 2, language);
  return wetFactor < 1
    ? `wet: ${factor} of the dry road’s grip (common practice, no source)`
    : 'wet, as measured';
}

function pullInWords({ pull }: RoadPlan, language: string): string {
  if (pull === undefined) {
    return 'estimated from power, mass and driven wheels, with wide bounds; measured starts replace it';
  }
  const starts = pull.runs === 1 ? 'one start' : `the mean of ${pull.runs} starts`;
  const percent = printQuantity(pull.uncertainty, 'humidity', 0, language);
  return `measured: ${starts}, ±\u00a0${percent} of distance, up to ${kmh(pull.toMps, language)}\u00a0km/h; estimated beyond`;
}

function decelerationInWords(plan: RoadPlan, language: string): string {
  const { decelerationFrom, decelerationMps2: of, stops } = plan;
  const print = (value: number, decimals = 1): string =>
    printQuantity(value, 'acceleration', decimals, language);
  if (decelerationFrom === 'stated') return `${print(of.middle, 2)}, as stated by whoever made the plan`;
  const span = `${print(of.adverse)} to ${print(of.favourable)}`;
  if (decelerationFrom === 'estimated' || stops === undefined) {
    return `estimated, ${span}: from what UN R13-H asks of a new car to good dry asphalt; measured stops replace it`;
  }
  const counted = stops.stops === 1 ? 'one stop' : `${stops.stops} stops`;
  return `measured: ${print(of.adverse, 2)}, the lowest of ${counted} from ${kmh(stops.fromMps, language)}\u00a0km/h less its uncertainty; from higher speeds up to 10\u00a0% weaker`;
}
