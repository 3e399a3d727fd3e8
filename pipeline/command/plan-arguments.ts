/** What a person may type after `evenground plan`. */
import { parseArgs } from 'node:util';
import { ProblemError } from '../problem.ts';
import { carAndRoadWanted, planNumberWrong, planOptionWrong } from '../problems/road.ts';
import type { PlanChoices } from '../result/road-plan.ts';
import { kmhToMps } from '../units.ts';

export const PLAN_USAGE =
  '--car CAR --road ROAD [--test TEST] [--direction D] [--wet] [--load KG] [--tow KG] [--headwind MPS] ' +
  '[--from KMH] [--reaction S] [--deceleration MPS2] [--reserve M] [--json] [--card FILE]';

export interface PlanArguments {
  readonly car: string;
  readonly road: string;
  readonly test?: string;
  readonly choices: PlanChoices;
  readonly json: boolean;
  /** File to write the card to. */
  readonly card?: string;
}

const OPTIONS = {
  car: { type: 'string' },
  road: { type: 'string' },
  test: { type: 'string' },
  direction: { type: 'string' },
  wet: { type: 'boolean', default: false },
  load: { type: 'string' },
  tow: { type: 'string' },
  headwind: { type: 'string' },
  from: { type: 'string' },
  reaction: { type: 'string' },
  deceleration: { type: 'string' },
  reserve: { type: 'string' },
  json: { type: 'boolean', default: false },
  card: { type: 'string' },
} as const;

/** @throws ProblemError with one problem where the command is not called as it should be. */
export function parsePlanArguments(args: readonly string[]): PlanArguments {
  const values = parsed(args);
  const { car, road, test, direction, wet, json, card } = values;
  if (car === undefined || road === undefined) throw new ProblemError(carAndRoadWanted(PLAN_USAGE));
  const number = (name: NumberOption): number | undefined => {
    const text = values[name];
    return text === undefined ? undefined : numberOf(name, text);
  };
  const loadKg = number('load');
  const towKg = number('tow');
  const headwindMps = number('headwind');
  const fromKmh = number('from');
  const reactionTimeS = number('reaction');
  const decelerationMps2 = number('deceleration');
  const reserveM = number('reserve');
  return {
    car,
    road,
    ...(test === undefined ? {} : { test }),
    choices: {
      wet,
      ...(direction === undefined ? {} : { direction }),
      ...(loadKg === undefined ? {} : { loadKg }),
      ...(towKg === undefined ? {} : { towKg }),
      ...(headwindMps === undefined ? {} : { headwindMps }),
      ...(fromKmh === undefined ? {} : { fromMps: kmhToMps(fromKmh) }),
      ...(reactionTimeS === undefined ? {} : { reactionTimeS }),
      ...(decelerationMps2 === undefined ? {} : { decelerationMps2 }),
      ...(reserveM === undefined ? {} : { reserveM }),
    },
    json,
    ...(card === undefined ? {} : { card }),
  };
}

/** Least, most and unit of each number. */
const LIMITS = {
  load: [0, 40_000, 'kilograms'],
  tow: [0, 40_000, 'kilograms'],
  headwind: [-30, 30, 'metres a second'],
  from: [0, 300, 'kilometres an hour'],
  reaction: [0, 10, 'seconds'],
  deceleration: [0.5, 20, 'metres a second squared'],
  reserve: [0, 100_000, 'metres'],
} as const;

type NumberOption = keyof typeof LIMITS;

function numberOf(name: NumberOption, text: string): number {
  const [least, most, unit] = LIMITS[name];
  const value = /^-?\d+(\.\d+)?$/.test(text) ? Number(text) : Number.NaN;
  if (!(value >= least && value <= most)) {
    throw new ProblemError(planNumberWrong(`--${name}`, text, `${unit} from ${least} to ${most}`));
  }
  return value;
}

function parsed(args: readonly string[]) {
  // A negative number after an option would be taken for another option.
  const joined: string[] = [];
  for (const arg of args) {
    if (joined.at(-1) === '--headwind' && /^-\d/.test(arg)) joined.splice(-1, 1, `--headwind=${arg}`);
    else joined.push(arg);
  }
  try {
    return parseArgs({ args: joined, options: OPTIONS, allowPositionals: false }).values;
  } catch (error) {
    // Node's own sentence is for programmers; the option or word it names is in quotes.
    const { message } = error as Error;
    throw new ProblemError(planOptionWrong(/'([^' ]*)/.exec(message)?.[1] ?? message, PLAN_USAGE));
  }
}
