/** What a running plate says: fixed words, and the numbers that run. */

import { conditionsInWords, footPhrases, placeAndDate, said, sentenceCase } from '../overlay/phrases.ts';
import type { PlateContent } from '../overlay/plate.ts';
import { plateWords } from '../overlay/words/plates.ts';
import type { House, TestResult } from '../result/result.ts';
import { localiseDigits, startRuleInWords } from '../result/words.ts';
import { speedUnitOf } from '../speed-unit.ts';
import { type FrameValues, frameValues, type SequencePlan } from './plan.ts';

export interface RunningNumber {
  readonly id: 'clock' | 'speed' | 'distance';
  readonly head: string;
  readonly unit: string;
  /** The widest value with every digit as 0, such as `00.00`. */
  readonly shape: string;
}

export interface RunningSplit {
  readonly label: string;
  readonly value: string;
  readonly unit: string;
  /** `± 0.02`, without the unit that stands before it; empty where none can be stated. */
  readonly uncertainty: string;
}

/** A plate's words without its body, and what runs in the body's place. */
export interface RunningContent extends PlateContent {
  readonly numbers: readonly RunningNumber[];
  readonly splits: readonly RunningSplit[];
}

/** The words of a plan's plate. The start rule stands over the clock, so that no frame is without it. */
export function runningContent(plan: SequencePlan, test: TestResult, house: House): RunningContent {
  const { attempt } = plan;
  const words = plateWords(house);
  const values = frameValues(plan, house);
  const { language } = house;
  let fastest = 0;
  let farthest = 0;
  for (let frame = plan.firstFrame; frame <= plan.stopsAtFrame; frame++) {
    const { speed = 0, distanceM = 0 } = values(frame);
    fastest = Math.max(fastest, speed);
    farthest = Math.max(farthest, distanceM);
  }
  const final = plan.splits.at(-1);
  const shapeOf = (text: string): string => text.replace(/\d/g, '0');
  const clock = shapeOf(final?.printed.value ?? '0');
  const uncertain = plan.splits.some(({ printed }) => printed.uncertainty !== undefined);
  return {
    label: house.name,
    title: test.car.name,
    subtitle: said([attempt.launchName, words.attempt(attempt.number)]).join(', '),
    // Headline and columns are for stills; what stands here instead runs.
    content: { body: 'prose', text: '' },
    numbers: [
      { id: 'clock', head: sentenceCase(startRuleInWords(plan.startRule, house)), unit: 's', shape: clock },
      {
        id: 'speed',
        head: words.speed,
        unit: speedUnitOf(house),
        shape: shapeOf(localiseDigits(String(fastest), language)),
      },
      {
        id: 'distance',
        head: words.distance,
        unit: 'm',
        shape: shapeOf(localiseDigits(String(farthest), language)),
      },
    ],
    splits: plan.splits.map(({ label, printed }) => ({
      label,
      value: printed.value,
      unit: printed.unit,
      uncertainty: printed.uncertainty?.replace(`\u00a0${printed.unit}`, '') ?? '',
    })),
    foot: footPhrases([
      attempt.setAside === undefined ? undefined : words.runSetAside,
      uncertain ? words.expanded : words.notKnown,
      conditionsInWords([attempt], house),
      placeAndDate(test, house),
    ]),
  };
}

/** In the last cell of a number that is not known: a dash no wider than a digit. */
export const UNKNOWN = '–';

/** What stands in the cells of a number in one frame, a character each; a space where nothing does. */
export function cellsText(
  id: RunningNumber['id'],
  shape: string,
  values: FrameValues,
  plan: SequencePlan,
): string {
  const digits = [
    ...(id === 'speed'
      ? String(values.speed ?? UNKNOWN)
      : id === 'distance'
        ? String(values.distanceM ?? UNKNOWN)
        : clockDigits(values, plan)),
  ];
  let text = '';
  for (const place of [...shape].reverse()) {
    if (place === '0') text = (digits.pop() ?? ' ') + text;
    else text = (digits.length > 0 ? place : ' ') + text;
  }
  return text;
}

/** All digits of the clock without its decimal sign; once it has stopped those of the published figure. */
function clockDigits({ clockUnits }: FrameValues, plan: SequencePlan): string {
  if (clockUnits !== undefined) return String(clockUnits).padStart(plan.clockDecimals + 1, '0');
  return (plan.splits.at(-1)?.printed.value ?? '').replace(/\D/g, '');
}
