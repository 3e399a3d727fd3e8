/** The note that lies beside a sequence: what an editor must know to lay it over a clip. */

import type { FrameSize } from '../overlay/overlay.ts';
import { SAFE_STANDARDS, type SafeStandard } from '../overlay/safe-area.ts';
import { type Counting, frameToTimecode } from '../overlay/timecode.ts';
import type { House, TestResult } from '../result/result.ts';
import { startRuleInWords } from '../result/words.ts';
import type { SequencePlan } from './plan.ts';

export interface NoteFacts {
  readonly size: FrameSize;
  readonly counting: Counting;
  readonly safeAreas: SafeStandard;
  /** Such as `frames/a05-%08d.png`. */
  readonly pattern: string;
  readonly clip?: string;
  readonly files: readonly (readonly [name: string, what: string])[];
}

/** Plain text, lines of about 80 characters. */
export function sequenceNote(plan: SequencePlan, test: TestResult, house: House, facts: NoteFacts): string {
  const { frameRate, movesAtFrame, firstFrame, lastFrame, stopsAtFrame } = plan;
  const label = (frame: number): string => frameToTimecode(frame, frameRate, facts.counting);
  const ratio = frameRate.seconds === 1 ? '' : ` (exactly ${frameRate.frames}/${frameRate.seconds})`;
  const at = (frame: number): string => `frame ${frame}, ${label(frame)}`;
  return `${[
    `${test.car.name}, attempt ${plan.attempt.number}: clock, speed and distance for video`,
    `${house.name}. ${house.licence.name}.`,
    '',
    `Pictures      ${facts.pattern}, ${firstFrame} to ${lastFrame} (${lastFrame - firstFrame + 1} frames)`,
    `Size          ${facts.size.widthPx} x ${facts.size.heightPx} pixels, square`,
    `Rate          ${frameRate.name} frames per second${ratio}, ${facts.counting} timecode`,
    'Colour        sRGB, 8 bits a channel',
    'Alpha         straight (not premultiplied). If edges look dark or light, the editing',
    '              program has taken it for premultiplied: set it to straight.',
    `Place         ${SAFE_STANDARDS[facts.safeAreas].says.graphics} (${SAFE_STANDARDS[facts.safeAreas].name}),`,
    '              in the lower quarter',
    '',
    `The car moves at ${at(movesAtFrame)}${facts.clip === undefined ? '' : ` of ${facts.clip}`}.`,
    'That frame is the first on which the car has moved, and is taken as the instant of',
    'first movement: the picture cannot tell it more finely than one frame.',
    'The number in a file name is the frame of the clip it belongs to.',
    '',
    `Start rule    ${startRuleInWords(plan.startRule, house)}; it stands over the clock in every frame`,
    'Clock         the time that has passed at the beginning of the frame, cut and not',
    `              rounded; from ${at(stopsAtFrame)},`,
    '              it stands at the published figure, rounded as it is in print',
    'Speed         from the recorded speeds around the instant, whole km/h that are passed',
    'Distance      the integral of speed from where the clock starts, whole metres passed',
    '              (a dash where the log has no readings: nothing is filled in)',
    ...(plan.holdFrames > 0
      ? [`Splits        set off for ${plan.holdFrames} frames, or until the next; the clock goes on`]
      : ['Splits        filled in as they are reached; the clock goes on']),
    '',
    ...plan.splits.map(({ label: name, printed }) =>
      `  ${name.padEnd(12)}  ${[printed.text, printed.uncertainty].filter(Boolean).join(' ')}`.trimEnd(),
    ),
    '',
    ...facts.files.map(([name, what]) => `${name.padEnd(14)}${what}`),
    '',
    'Acceleration, braking and top-speed tests are dangerous. These figures come from a',
    'closed road, with permission. They are not a clearance to drive.',
  ]
    .join('\n')
    .replaceAll('\u00a0', ' ')}\n`;
}
