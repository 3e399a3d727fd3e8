/** A road plan as text for a terminal of 80 columns, and as JSON. */

import type { RoadPlan } from '../result/road-plan.ts';
import { type Edges, eachEdge, type PlanRow } from '../road/plan.ts';
import type { ForReaders } from '../speed-unit.ts';
import { planAssumptions, planFinding, roadPlanTable } from '../table/road-plan.ts';

const WIDTH = 80;

/** Caution, finding, table, notes and assumptions, in this order. */
export function planToText(plan: RoadPlan, caution: string, readers: ForReaders): string {
  const table = roadPlanTable(plan, readers);
  const grid = [
    table.columns.map(({ label }) => label),
    table.columns.map(({ unit }) => unit ?? ''),
    ...table.rows.map(row => row.map(({ text }) => text)),
  ];
  const widths = table.columns.map((_, column) => Math.max(...grid.map(row => row[column]!.length)));
  const lines = grid.map(row => row.map((text, column) => text.padStart(widths[column]!)).join('   '));
  lines.splice(2, 0, '-'.repeat(lines[0]!.length));
  const named = planAssumptions(plan, readers);
  const indent = Math.max(...named.map(({ name }) => name.length)) + 2;
  return [
    ...wrapped(`CAUTION. ${caution}`),
    '',
    ...wrapped(table.caption),
    ...wrapped(planFinding(plan, readers)),
    '',
    ...lines,
    '',
    ...table.notes.flatMap(note => wrapped(note)),
    '',
    'Assumptions',
    ...named.flatMap(({ name, says }) =>
      wrapped(says, WIDTH - indent).map((line, i) => (i === 0 ? name : '').padEnd(indent) + line),
    ),
    '',
  ].join('\n');
}

/** Greedy lines of at most `width` characters; a word that is longer stands alone. */
function wrapped(text: string, width = WIDTH): string[] {
  const lines: string[] = [];
  let line = '';
  for (const word of text.split(' ')) {
    if (line !== '' && line.length + 1 + word.length > width) {
      lines.push(line);
      line = word;
    } else line = line === '' ? word : `${line} ${word}`;
  }
  return [...lines, line];
}

/** Full precision, units in the names; what is not reached on the road is absent. */
export function planToJson(plan: RoadPlan, caution: string, readers: ForReaders): string {
  const { planned, driving, burden } = plan;
  const row = (one: PlanRow) => ({
    speed_kmh: one.speedMps * 3.6,
    from: one.from,
    room: one.room,
    reached_m: finite(one.reachedM),
    reaction_m: finite(one.reactionM),
    brake_from_kmh: finite(eachEdge(edge => one.brakeFromMps[edge] * 3.6)),
    braking_m: finite(one.brakingM),
    stopped_m: finite(one.stoppedM),
    left_m: finite(one.leftM),
    last_point_to_brake_m: finite(one.lastPointM),
  });
  const data = {
    road_plan: 1,
    caution,
    car: plan.carName,
    road: plan.roadName,
    direction: plan.direction.id,
    length_m: plan.lengthM,
    mean_slope_pct: 100 * plan.meanSlope,
    slope_from: plan.slopeFrom,
    wet: plan.wet,
    wet_factor: plan.wetFactor,
    mass_kg: plan.massKg,
    mass_from: plan.massFrom,
    load_kg: burden.loadKg,
    tow_kg: burden.towKg,
    headwind_mps: burden.headwindMps,
    air_density_kgm3: burden.densityKgm3,
    start_speed_kmh: driving.fromMps * 3.6,
    reaction_time_s: driving.reactionTimeS,
    while_reacting: driving.whileReacting,
    brake_build_up_s: driving.buildUpS,
    deceleration_mps2: plan.decelerationMps2,
    deceleration_from: plan.decelerationFrom,
    reserve_m: driving.reserveM,
    acceleration_from: plan.pull === undefined ? 'estimated' : 'measured',
    ...(plan.pull === undefined ? {} : { measured_to_kmh: plan.pull.toMps * 3.6, starts: plan.pull.runs }),
    ...(plan.stops === undefined ? {} : { stops: plan.stops.stops }),
    highest_speed_kmh: eachEdge(edge => planned.highest[edge].speedMps * 3.6),
    limited_by: eachEdge(edge => planned.highest[edge].limitedBy),
    ...(planned.highestRow === undefined ? {} : { highest: row(planned.highestRow) }),
    rows: planned.rows.map(row),
    assumptions: planAssumptions(plan, readers),
  };
  return `${JSON.stringify(data, null, 2)}\n`;
}

const finite = (of: Edges<number>): Partial<Record<keyof Edges<number>, number>> =>
  Object.fromEntries(Object.entries(of).filter(([, value]) => Number.isFinite(value)));
