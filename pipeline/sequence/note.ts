/** The note that lies beside a sequence: what an editor must know to lay it over a clip. */

import type { FrameSize } from '../overlay/overlay.ts';
import { SAFE_STANDARDS, type SafeStandard } from '../overlay/safe-area.ts';
import { type Counting, frameToTimecode } from '../overlay/timecode.ts';
import { guideWords } from '../overlay/words/plates.ts';
import type { House, TestResult } from '../result/result.ts';
import { startRuleInWords } from '../result/words.ts';
import type { SequencePlan } from './plan.ts';
import { type NoteFact, sequenceNoteWords } from './words/note.ts';

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
  const words = sequenceNoteWords(house);
  const label = (frame: number): string => frameToTimecode(frame, frameRate, facts.counting);
  const at = (frame: number): string => words.frame(frame, label(frame));
  const exactly = frameRate.seconds === 1 ? undefined : `${frameRate.frames}/${frameRate.seconds}`;
  const { name } = SAFE_STANDARDS[facts.safeAreas];
  return `${[
    words.title(test.car.name, plan.attempt.number),
    `${house.name}. ${house.licence.name}.`,
    '',
    ...[
      words.pictures(facts.pattern, firstFrame, lastFrame),
      words.size(facts.size.widthPx, facts.size.heightPx),
      words.rate(frameRate.name, exactly, facts.counting),
      words.colour,
      words.alpha,
      words.place(guideWords(house).says[facts.safeAreas].graphics, name),
    ].flatMap(inColumns),
    '',
    ...words.moves(at(movesAtFrame), facts.clip),
    '',
    ...[
      words.rule(startRuleInWords(plan.startRule, house)),
      words.clock(at(stopsAtFrame)),
      words.speed,
      words.distance,
      plan.holdFrames > 0 ? words.splitsHeld(plan.holdFrames) : words.splits,
    ].flatMap(inColumns),
    '',
    ...plan.splits.map(({ label: name, printed }) =>
      `  ${name.padEnd(12)}  ${[printed.text, printed.uncertainty].filter(Boolean).join(' ')}`.trimEnd(),
    ),
    '',
    ...facts.files.map(([file, what]) => `${file.padEnd(HEAD_WIDTH)}${what}`),
    '',
    ...words.caution,
  ]
    .join('\n')
    .replaceAll('\u00a0', ' ')}\n`;
}

const HEAD_WIDTH = 14;
const inColumns = ([head, ...lines]: NoteFact): readonly string[] =>
  lines.map((line, index) => (index === 0 ? head : '').padEnd(HEAD_WIDTH) + line);
