/** The arithmetic of a figure as lines a reader can follow with a calculator, and the readings it begins with. */
import type { Table } from '../table/table.ts';
import { mpsToKmh } from '../units.ts';
import type { CrossingWorkings } from './crossing.ts';
import type { WorkingDigits } from './digits.ts';
import type { LineWorkings } from './distance.ts';
import { readingsTable } from './readings-table.ts';
import type { Steps } from './workings.ts';

/** What stands under a heading, in its order. */
export type Block = string | Table;

const pair = (before: { readonly line: number }, after: { readonly line: number }) =>
  new Map([
    [before.line, 'before'],
    [after.line, 'after'],
  ]);

/** A speed passed: readings, straight line, what was published. */
export function crossingBlocks(id: string, crossing: CrossingWorkings, digits: WorkingDigits): Block[] {
  const { targetMps, before, after, straightS, timeS, parabola } = crossing;
  const [v, v1, v2] = [targetMps, before.speedMps, after.speedMps].map(mps => digits.bare(mps, 'speed'));
  const straight =
    `Straight line between lines ${before.line} and ${after.line}: ${digits.of(before.timeS, 'time')} + ` +
    `(${v} − ${v1}) ÷ (${v2} − ${v1}) × ${digits.of(after.timeS - before.timeS, 'time')} = ${digits.of(straightS, 'time')}.`;
  return [
    readingsTable(
      id,
      `Readings around ${digits.of(targetMps, 'speed')}`,
      crossing.readings,
      digits,
      pair(before, after),
    ),
    straight,
    parabola === undefined
      ? publishedWithout(timeS - straightS, timeS, digits)
      : `Published: ${digits.of(timeS, 'time')}, ${digits.signed(timeS - straightS, 'time')} from that line, by least squares through the ` +
        `${parabola.count} readings of lines ${parabola.from.line} to ${parabola.to.line}: ${parabolaInWords(parabola, digits)}`,
  ];
}

function publishedWithout(offS: number, timeS: number, digits: WorkingDigits): string {
  return Math.abs(offS) < 5e-5
    ? 'Published: this straight line, because no curve through more readings agreed with them.'
    : `Published: ${digits.of(timeS, 'time')}, ${digits.signed(offS, 'time')} from that line, by a fit of the bend that the readings go through here.`;
}

function parabolaInWords(
  { originS, coefficients }: NonNullable<CrossingWorkings['parabola']>,
  digits: WorkingDigits,
): string {
  const [a = 0, b = 0, c = 0] = coefficients.map(mpsToKmh);
  // Coefficients in km/h, km/h a second and so on: the digits of a speed, whatever the power of the time.
  const bare = (value: number): string => digits.bare(value / 3.6, 'speed');
  const term = (value: number, power: string): string =>
    `${value < 0 ? ' − ' : ' + '}${bare(Math.abs(value))} t${power}`;
  return `speed = ${bare(a)}${term(b, '')}${term(c, '²')} in km/h, where t is the time in seconds less ${digits.of(originS, 'time')}.`;
}

/** A line passed: readings with the tape, straight line, what was published. */
export function lineBlocks(id: string, name: string, line: LineWorkings, digits: WorkingDigits): Block[] {
  const { before, after, onTapeM, straightS, timeS, speedMps, laid } = line;
  const [d, d1, d2] = [onTapeM, before.distanceM!, after.distanceM!].map(m => digits.bare(m, 'distance'));
  const leadM = laid.next.distanceM!;
  return [
    `The tape is laid at the end of the first foot, ${digits.of(laid.atS, 'time')}, at ${digits.of(laid.speedMps, 'speed')}. ` +
      `To the next reading, line ${laid.next.line}, half the sum of the two speeds times the time between them: ${digits.of(leadM, 'distance')}. ` +
      `${laid.intervals} intervals, each half the sum of its two speeds (in km/h, divided by 3.6) times its length, then lead to line ${before.line}.`,
    readingsTable(
      id,
      `${name}: readings around the line, with the distance since the end of the first foot`,
      line.readings,
      digits,
      pair(before, after),
    ),
    `The tape has to read ${digits.of(onTapeM, 'distance')}. Straight line between lines ${before.line} and ${after.line}: ` +
      `${digits.of(before.timeS, 'time')} + (${d} − ${d1}) ÷ (${d2} − ${d1}) × ${digits.of(after.timeS - before.timeS, 'time')} = ${digits.of(straightS, 'time')}.`,
    `Published, with speed and not distance taken for straight between two readings: ${digits.of(timeS, 'time')}, ${digits.signed(timeS - straightS, 'time')} from that line; ` +
      `there the speed is ${digits.of(speedMps, 'speed')}.`,
  ];
}

/** Everything from the readings to the last line. `name` is the figure's, its start rule with it. */
export function stepBlocks(id: string, name: string, steps: Steps, digits: WorkingDigits): Block[] {
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
          `${name}: readings around rest, with the distance since the speed was passed`,
          readings,
          digits,
          new Map([[lastMoving.line, 'last']]),
        ),
        `The distance grows by half the sum of two neighbouring speeds times the time between them. Rest comes at ${digits.of(atS, 'time')}, ` +
          `by a fit of the end of the stop; from the last moving reading half its speed times the time left is ${digits.of(lastM, 'distance')}.`,
      ];
    }
    case 'mfdd':
      return [
        ...crossingBlocks(`${id}-begin`, steps.begin, digits),
        ...crossingBlocks(`${id}-end`, steps.finish, digits),
        `Between the two speeds the car covered ${digits.of(steps.lengthM, 'distance')}.`,
      ];
    case 'peak':
      return [readingsTable(id, 'The stretch of steepest rise', steps.readings, digits)];
    case 'top':
      return [readingsTable(id, 'Readings around the highest', steps.readings, digits)];
  }
}

/** The last line: from the steps to the figure. `figure` is as worked out, `printed` as published. */
export function resultInWords(steps: Steps, value: number, printed: string, digits: WorkingDigits): string {
  const as = `Printed: ${printed}.`;
  const time = (s: number): string => digits.of(s, 'time');
  switch (steps.kind) {
    case 'speed':
      return `Clock: ${time(steps.finish.timeS)} − ${time(steps.fromS)} = ${time(value)}. ${as}`;
    case 'distance':
      return steps.finish.speedMps === value
        ? `Speed at the line: ${digits.of(value, 'speed')}. ${as}`
        : `Clock: ${time(steps.finish.timeS)} − ${time(steps.fromS)} = ${time(value)}. ${as}`;
    case 'rolling':
      return `Between the two: ${time(steps.finish.timeS)} − ${time(steps.begin.timeS)} = ${time(value)}. ${as}`;
    case 'stop': {
      const { lastMoving, lastM } = steps.stop;
      return `Distance: ${digits.of(lastMoving.distanceM!, 'distance')} + ${digits.of(lastM, 'distance')} = ${digits.of(value, 'distance')}. ${as}`;
    }
    case 'mfdd': {
      const [vb, ve] = [steps.begin.targetMps, steps.finish.targetMps].map(mps => digits.bare(mps, 'speed'));
      return `(${vb}² − ${ve}²) ÷ (25.92 × ${digits.bare(steps.lengthM, 'distance')}) = ${digits.of(value, 'acceleration')}. ${as}`;
    }
    case 'peak': {
      const [first, last] = [steps.readings[0]!, steps.readings.at(-1)!];
      return (
        `By hand, last less first: (${digits.bare(last.speedMps, 'speed')} − ${digits.bare(first.speedMps, 'speed')}) ÷ 3.6 ÷ ${time(last.timeS - first.timeS)} = ` +
        `${digits.of(steps.betweenEndsMps2, 'acceleration')}. By least squares through all of them: ${digits.of(value, 'acceleration')}. ${as}`
      );
    }
    case 'top':
      return (
        `By hand, the greatest middle one of three neighbouring readings: ${digits.of(steps.middleMps, 'speed')}. ` +
        `Published, the top of the curves fitted around it: ${digits.of(value, 'speed')}, ${digits.signed(value - steps.middleMps, 'speed')} from it. ${as}`
      );
  }
}
