/** Every figure by its kind: one line here and one file make a new one. */
import { accelerationOverSpeed } from './acceleration-over-speed.ts';
import { braking } from './braking.ts';
import { conditionsStrip } from './conditions-strip.ts';
import type { Figure } from './figure.ts';
import { firstTwoSeconds } from './first-two-seconds.ts';
import { methodsCompared } from './methods-compared.ts';
import { orderOfTheDay } from './order-of-the-day.ts';
import { roadPlanFigure } from './road-plan.ts';
import { roadUsed } from './road-used.ts';
import { runsOfTheDay } from './runs-of-the-day.ts';
import { speedOverDistance } from './speed-over-distance.ts';
import { speedOverTime } from './speed-over-time.ts';
import { splitsLadder } from './splits-ladder.ts';
import { testAgainstTest } from './test-against-test.ts';
import { timeGained } from './time-gained.ts';

/** As written in an article: `::figure{show=speed-over-time}`. */
export type FigureKind =
  | 'speed-over-distance'
  | 'order-of-the-day'
  | 'conditions-strip'
  | 'road-used'
  | 'road-plan'
  | 'splits-ladder'
  | 'speed-over-time'
  | 'runs-of-the-day'
  | 'methods-compared'
  | 'first-two-seconds'
  | 'acceleration-over-speed'
  | 'time-gained'
  | 'braking'
  | 'test-against-test';

/** In the order a page shows them. */
export const FIGURES: Readonly<Record<FigureKind, Figure>> = {
  'speed-over-time': speedOverTime,
  'speed-over-distance': speedOverDistance,
  'runs-of-the-day': runsOfTheDay,
  'methods-compared': methodsCompared,
  'order-of-the-day': orderOfTheDay,
  'first-two-seconds': firstTwoSeconds,
  'acceleration-over-speed': accelerationOverSpeed,
  'time-gained': timeGained,
  braking,
  'test-against-test': testAgainstTest,
  'road-used': roadUsed,
  'road-plan': roadPlanFigure,
  'splits-ladder': splitsLadder,
  'conditions-strip': conditionsStrip,
};

export const FIGURE_KINDS = Object.keys(FIGURES) as readonly FigureKind[];

/** Whether a word names a figure. */
export const isFigureKind = (word: string): word is FigureKind => Object.hasOwn(FIGURES, word);
