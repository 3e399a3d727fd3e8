/** The arithmetic of a figure as lines a reader can follow with a calculator, and the readings it begins with. */

import { speedUnitOf } from '../speed-unit.ts';
import type { Table } from '../table/table.ts';
import type { CrossingWorkings } from './crossing.ts';
import type { WorkingDigits } from './digits.ts';
import type { LineWorkings } from './distance.ts';
import { brakesBlocks, parabolaBlocks, topBlocks } from './fit-in-words.ts';
import { readingsTable } from './readings-table.ts';
import { workingsWords } from './words.ts';
import type { Steps } from './workings.ts';

/** What stands under a heading, in its order. */
export type Block = string | Table;

const wordsOf = (digits: WorkingDigits) => workingsWords(digits.language);

const pair = (before: { readonly line: number }, after: { readonly line: number }, digits: WorkingDigits) =>
  new Map([
    [before.line, wordsOf(digits).before],
    [after.line, wordsOf(digits).after],
  ]);

/** A speed passed: readings, straight line, what was published. */
export function crossingBlocks(id: string, crossing: CrossingWorkings, digits: WorkingDigits): Block[] {
  const { targetMps, before, after, straightS, timeS, parabola } = crossing;
  const words = wordsOf(digits);
  const [v, v1, v2] = [targetMps, before.speedMps, after.speedMps].map(mps => digits.bare(mps, 'speed'));
  const sum =
    `${digits.of(before.timeS, 'time')} + ` +
    `(${v} − ${v1}) ÷ (${v2} − ${v1}) × ${digits.of(after.timeS - before.timeS, 'time')} = ${digits.of(straightS, 'time')}`;
  return [
    readingsTable(
      id,
      words.readingsAround(digits.of(targetMps, 'speed')),
      crossing.readings,
      digits,
      pair(before, after, digits),
    ),
    words.straight(before.line, after.line, sum),
    parabola === undefined
      ? publishedWithout(timeS - straightS, timeS, digits)
      : words.parabola(
          digits.of(timeS, 'time'),
          digits.signed(timeS - straightS, 'time'),
          parabola.count,
          parabola.from.line,
          parabola.to.line,
        ),
    ...parabolaBlocks(id, crossing, digits),
    ...brakesBlocks(id, crossing, digits),
  ];
}

function publishedWithout(offS: number, timeS: number, digits: WorkingDigits): string {
  return Math.abs(offS) < 5e-5
    ? wordsOf(digits).straightPublished
    : wordsOf(digits).bend(digits.of(timeS, 'time'), digits.signed(offS, 'time'));
}

/** A line passed: readings with the tape, straight line, what was published. */
export function lineBlocks(id: string, name: string, line: LineWorkings, digits: WorkingDigits): Block[] {
  const { before, after, onTapeM, straightS, timeS, speedMps, laid } = line;
  const words = wordsOf(digits);
  const [d, d1, d2] = [onTapeM, before.distanceM!, after.distanceM!].map(m => digits.bare(m, 'distance'));
  const leadM = laid.next.distanceM!;
  return [
    words.tapeLaid(
      digits.of(laid.atS, 'time'),
      digits.of(laid.speedMps, 'speed'),
      laid.next.line,
      digits.of(leadM, 'distance'),
      laid.intervals,
      before.line,
    ),
    readingsTable(id, words.lineReadings(name), line.readings, digits, pair(before, after, digits)),
    words.tapeReads(
      digits.of(onTapeM, 'distance'),
      before.line,
      after.line,
      `${digits.of(before.timeS, 'time')} + (${d} − ${d1}) ÷ (${d2} − ${d1}) × ${digits.of(after.timeS - before.timeS, 'time')} = ${digits.of(straightS, 'time')}`,
    ),
    words.linePublished(
      digits.of(timeS, 'time'),
      digits.signed(timeS - straightS, 'time'),
      digits.of(speedMps, 'speed'),
    ),
  ];
}

/** Everything from the readings to the last line. `name` is the figure's, its start rule with it. */
export function stepBlocks(id: string, name: string, steps: Steps, digits: WorkingDigits): Block[] {
  const words = wordsOf(digits);
  switch (steps.kind) {
    case 'speed':
      return crossingBlocks(id, steps.finish, digits);
    case 'distance':
      return lineBlocks(id, name, steps.finish, digits);
    case 'rolling':
      return [
        ...crossingBlocks(`${id}-begin`, steps.begin, digits),
        ...crossingBlocks(`${id}-end`, steps.finish, digits),
      ];
    case 'stop': {
      const { readings, lastMoving, atS, lastM } = steps.stop;
      return [
        ...crossingBlocks(`${id}-begin`, steps.begin, digits),
        readingsTable(
          `${id}-end`,
          words.restReadings(name),
          readings,
          digits,
          new Map([[lastMoving.line, words.last]]),
        ),
        words.rest(digits.of(atS, 'time'), digits.of(lastM, 'distance')),
      ];
    }
    case 'mfdd':
      return [
        ...crossingBlocks(`${id}-begin`, steps.begin, digits),
        ...crossingBlocks(`${id}-end`, steps.finish, digits),
        words.covered(digits.of(steps.lengthM, 'distance')),
      ];
    case 'peak':
      return [readingsTable(id, words.steepest, steps.readings, digits)];
    case 'top':
      return [
        readingsTable(id, words.aroundHighest, steps.readings, digits),
        ...topBlocks(id, steps, digits),
      ];
  }
}

/** The last line: from the steps to the figure. `figure` is as worked out, `printed` as published. */
export function resultInWords(steps: Steps, value: number, printed: string, digits: WorkingDigits): string {
  const words = wordsOf(digits);
  return `${sumInWords(steps, value, digits)} ${words.printed(printed)}`;
}

function sumInWords(steps: Steps, value: number, digits: WorkingDigits): string {
  const words = wordsOf(digits);
  const time = (s: number): string => digits.of(s, 'time');
  switch (steps.kind) {
    case 'speed':
      return words.clock(`${time(steps.finish.timeS)} − ${time(steps.fromS)} = ${time(value)}`);
    case 'distance':
      return steps.finish.speedMps === value
        ? words.speedAtLine(digits.of(value, 'speed'))
        : words.clock(`${time(steps.finish.timeS)} − ${time(steps.fromS)} = ${time(value)}`);
    case 'rolling':
      return words.between(`${time(steps.finish.timeS)} − ${time(steps.begin.timeS)} = ${time(value)}`);
    case 'stop': {
      const { lastMoving, lastM } = steps.stop;
      return words.distanceSum(
        `${digits.of(lastMoving.distanceM!, 'distance')} + ${digits.of(lastM, 'distance')} = ${digits.of(value, 'distance')}`,
      );
    }
    case 'mfdd': {
      const [vb, ve] = [steps.begin.targetMps, steps.finish.targetMps].map(mps => digits.bare(mps, 'speed'));
      return `(${vb}² − ${ve}²) ÷ (${words.mfddDivisors[speedUnitOf(digits.readers)]} × ${digits.bare(steps.lengthM, 'distance')}) = ${digits.of(value, 'acceleration')}.`;
    }
    case 'peak': {
      const [first, last] = [steps.readings[0]!, steps.readings.at(-1)!];
      return words.peak(
        `(${digits.bare(last.speedMps, 'speed')} − ${digits.bare(first.speedMps, 'speed')}) ÷ ${words.divisors[speedUnitOf(digits.readers)]} ÷ ${time(last.timeS - first.timeS)} = ` +
          digits.of(steps.betweenEndsMps2, 'acceleration'),
        digits.of(value, 'acceleration'),
      );
    }
    case 'top':
      return words.top(
        digits.of(steps.middleMps, 'speed'),
        digits.of(value, 'speed'),
        digits.signed(value - steps.middleMps, 'speed'),
      );
  }
}
