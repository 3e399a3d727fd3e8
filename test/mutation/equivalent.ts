/**
 * Mutants that no test can find, since what they change makes no difference to anything the code gives. Each has its
 * reason; a test holds that the places still read so.
 */
import type { Mutant } from './mutate.ts';

export interface Equivalent {
  readonly file: string;
  /** The line it begins on, without its indent. */
  readonly text: string;
  /** What stands there and what it becomes. */
  readonly changes: readonly (readonly [from: string, to: string])[];
  readonly why: string;
}

export const EQUIVALENT: readonly Equivalent[] = [
  {
    file: 'pipeline/conditions/restate.ts',
    text: '.filter(([, , by]) => by > 0)',
    changes: [['by > 0', '(by) >= (0)']],
    why: 'An input that is moved by nothing changes nothing, and the budget leaves items of nothing out.',
  },
  {
    file: 'pipeline/conditions/restate.ts',
    text: "['power', 'launchPower', powerDoubt === 0 ? 0 : 1 / Math.sqrt(12)],",
    changes: [
      ['0', '1'],
      ['powerDoubt === 0', 'false'],
    ],
    why: 'Power is doubted by nothing only where the air changes it by nothing, and then its share at the launch moves nothing.',
  },
  {
    file: 'pipeline/conditions/coast-down.ts',
    text: 'for (let i = 0; i < timeS.length; i++) {',
    changes: [['i < timeS.length', '(i) <= (timeS.length)']],
    why: 'Beyond the last reading no comparison holds, so that the stretch is closed at the same reading as after the loop.',
  },
  {
    file: 'pipeline/conditions/pull.ts',
    text: 'const begin = Math.max(0, Math.min(i - 1, n - 3, lastBefore(timeS[i]! - halfWidthS - 1e-9) + 1));',
    changes: [['1e-9', '1.1e-9']],
    why: 'The slack is for last bits of times, of some 1e-12 s; readings are milliseconds apart.',
  },
  {
    file: 'pipeline/conditions/pull.ts',
    text: 'const end = Math.min(n - 1, Math.max(i + 1, 2, lastBefore(timeS[i]! + halfWidthS + 1e-9)));',
    changes: [['1e-9', '1.1e-9']],
    why: 'The slack is for last bits of times, of some 1e-12 s; readings are milliseconds apart.',
  },
  {
    file: 'pipeline/conditions/slope.ts',
    text: 'if (first === undefined || last === undefined || points.length < 2) {',
    changes: [['first === undefined || last === undefined', '(first === undefined) && (last === undefined)']],
    why: 'A list without a first point has no last one either.',
  },
  {
    file: 'pipeline/conditions/logged-slope.ts',
    text: 'if (i > 0 && bin !== sorted[i - 1]! + 1) from = bin;',
    changes: [['i > 0', '(i) >= (0)']],
    why: 'The first bin begins the first run whether it is said so before the loop or in it.',
  },
  {
    file: 'pipeline/conditions/logged-slope.ts',
    text: 'return [bin * binM, rises.reduce((sum, rise) => sum + rise, 0) / rises.length];',
    changes: [['0', '1']],
    why: 'The same height is added to every point of the profile, and heights count from its first point.',
  },
  {
    file: 'pipeline/conditions/comparability.ts',
    text: 'if (!a || !b) return outside.some(Boolean) ? judged(undefined, false, outside) : NOT_KNOWN;',
    changes: [['false', 'true']],
    why: 'A test that is beyond a limit by itself is not alike whatever else is found.',
  },
  {
    file: 'pipeline/conditions/comparability.ts',
    text: 'if (!a || !b) return slow.some(Boolean) ? judged(undefined, false, slow) : NOT_KNOWN;',
    changes: [['false', 'true']],
    why: 'A test that is beyond a limit by itself is not alike whatever else is found.',
  },
  {
    file: 'pipeline/conditions/comparability.ts',
    text: 'return few.some(Boolean) ? judged(undefined, false, few) : NOT_KNOWN;',
    changes: [['false', 'true']],
    why: 'A test that is beyond a limit by itself is not alike whatever else is found.',
  },
  {
    file: 'pipeline/conditions/comparability.ts',
    text: 'if (mixed.some(Boolean)) return judged(undefined, false, mixed);',
    changes: [['false', 'true']],
    why: 'A test that is beyond a limit by itself is not alike whatever else is found.',
  },
  {
    file: 'pipeline/measurement/launch-care.ts',
    text: "const firstShifts = car.coupling === 'clutch' ? starts.map(firstShiftMps) : [];",
    changes: [["car.coupling === 'clutch'", 'true']],
    why: 'Where there is no clutch the heat is refused before the speeds of first shifts are looked at.',
  },
  {
    file: 'pipeline/conditions/restate.ts',
    text: 'const beginS = start?.firstMovementS ?? Number.NaN;',
    changes: [['start?.firstMovementS ?? Number.NaN', '(start?.firstMovementS)']],
    why: 'Only a standing start has splits that ask for it, and undefined plus a number is no number either.',
  },
  {
    file: 'pipeline/conditions/restate.ts',
    text: 'const rolloutS = beginS + (start?.rolloutS ?? Number.NaN);',
    changes: [['start?.rolloutS ?? Number.NaN', '(start?.rolloutS)']],
    why: 'Only a standing start has splits that ask for it, and undefined plus a number is no number either.',
  },
  {
    file: 'pipeline/measurement/brake-onset.ts',
    text: 'x <= 0 ? 0 : x < riseS ? (x * x) / (2 * riseS) : x - riseS / 2;',
    changes: [
      ['x <= 0', '(x) < (0)'],
      ['x < riseS', '(x) <= (riseS)'],
    ],
    why: 'Both forms give the same speed where they meet.',
  },
  {
    file: 'pipeline/conditions/coast-down.ts',
    text: 'let begin = -1;',
    changes: [['1', '2']],
    why: 'Only whether it is below 0 is ever asked.',
  },
  {
    file: 'pipeline/conditions/coast-down.ts',
    text: 'begin = -1;',
    changes: [['1', '2']],
    why: 'Only whether it is below 0 is ever asked.',
  },
  {
    file: 'pipeline/conditions/logged-slope.ts',
    text: 'let begin = -1;',
    changes: [['1', '2']],
    why: 'Only whether it is below 0 is ever asked.',
  },
  {
    file: 'pipeline/conditions/logged-slope.ts',
    text: 'begin = -1;',
    changes: [['1', '2']],
    why: 'Only whether it is below 0 is ever asked.',
  },
  {
    file: 'pipeline/run/phases.ts',
    text: 'let begin = -1;',
    changes: [['1', '2']],
    why: 'Only whether it is below 0 is ever asked.',
  },
  {
    file: 'pipeline/run/phases.ts',
    text: 'begin = -1;',
    changes: [['1', '2']],
    why: 'Only whether it is below 0 is ever asked.',
  },
  {
    file: 'pipeline/conditions/restate.ts',
    text: 'for (let set = 0; set <= ALL; set++) {',
    changes: [['set <= ALL', '(set) < (ALL)']],
    why: 'The set of all conditions holds every one of them, and is passed over for each.',
  },
  {
    file: 'pipeline/measurement/tape.ts',
    text: 'const change = Math.abs(readings[gap.index + 1]! - readings[gap.index]!);',
    changes: [
      [
        'Math.abs(readings[gap.index + 1]! - readings[gap.index]!)',
        '(readings[gap.index + 1]! - readings[gap.index]!)',
      ],
    ],
    why: 'It is added in quadrature, where the sign is lost.',
  },
  {
    file: 'pipeline/run/find.ts',
    text: 'if (first === undefined || reached === undefined || reached === first) return false;',
    changes: [
      ['first === undefined || reached === undefined', '(first === undefined) && (reached === undefined)'],
    ],
    why: 'The power of a stretch without one of its ends is no number, and no number is enough.',
  },
  {
    file: 'pipeline/conditions/logged-slope.ts',
    text: 'const whole = last > first ? covering(first, last) : [];',
    changes: [['last > first', '(last) >= (first)']],
    why: 'A stretch of no length is worth nothing.',
  },
  {
    file: 'pipeline/conditions/pull.ts',
    text: 'const v = new Float64Array(n + 1);',
    changes: [['1', '2']],
    why: 'One more place at the end of the running sums is never read.',
  },
  {
    file: 'pipeline/conditions/pull.ts',
    text: 'const tv = new Float64Array(n + 1);',
    changes: [['1', '2']],
    why: 'One more place at the end of the running sums is never read.',
  },
  {
    file: 'pipeline/conditions/pull.ts',
    text: 'const sums = { t: new Float64Array(n + 1), tt: new Float64Array(n + 1) };',
    changes: [['1', '2']],
    why: 'One more place at the end of the running sums is never read.',
  },
];

const keyOf = (file: string, text: string, from: string, to: string): string =>
  JSON.stringify([file, text, from, to]);
const KEYS = new Set(
  EQUIVALENT.flatMap(({ file, text, changes }) => changes.map(([from, to]) => keyOf(file, text, from, to))),
);

export function isEquivalent({ file, text, from, to }: Mutant): boolean {
  return KEYS.has(keyOf(file, text, from, to));
}
