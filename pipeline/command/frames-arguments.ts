/** What a person may type after `evenground frames`. */
import { parseArgs } from 'node:util';
import { START_RULES } from '../content/schema.ts';
import type { FrameSize } from '../overlay/overlay.ts';
import {
  type Counting,
  FRAME_RATES,
  type FrameRate,
  type FrameRateName,
  timecodeToFrame,
} from '../overlay/timecode.ts';
import { ProblemError } from '../problem.ts';
import { namesWanted, optionWrong, valueWrong } from '../problems/sequence.ts';
import type { StartRule } from '../run/run.ts';
import { MOVIES, type MovieKind } from './frames-movie.ts';

export const FRAMES_USAGE =
  'TEST ATTEMPT [--rate 25] [--size 1920x1080] [--start-rule RULE] [--moves-at FRAME|TIMECODE] [--clip FILE] ' +
  '[--to MEASURE] [--lead SECONDS] [--hold SECONDS] [--freeze SECONDS] [--out FOLDER] [--movie png|prores|vp9]';

export const FRAMES_HELP = `Usage: npm run evenground -- frames TEST ATTEMPT [options]

Draws one run of content/tests/TEST as numbered pictures with straight alpha, whose clock runs with the film. ATTEMPT
is the id or the number of a standing start, such as a06 or 6. Lists for the editing program, captions and a note
are laid beside them.

  --rate 25          frames a second: ${Object.keys(FRAME_RATES).join(', ')}
  --size 1920x1080   of the timeline, pixels
  --start-rule RULE  when the clock starts: ${START_RULES.join(' or ')}; that of house.yaml where absent
  --moves-at PLACE   where in your clip the car first moves: a frame counted from 0, or a timecode
  --clip FILE        name of that clip, for the lists
  --to MEASURE       what stops the clock, such as 0-100-kmh
  --lead SECONDS     before the car moves; 1 where absent
  --hold SECONDS     for which a split is set off once it is reached; not at all where absent
  --freeze SECONDS   for which the last time stands; 3 where absent
  --out FOLDER       where the files go
  --movie KIND       a movie as well, made by ffmpeg: ${MOVIES.join(', ')}; may be given again

Exit status: 0 written; 1 content has errors or a file could not be made; 2 wrong usage; 130 interrupted.
`;

export interface FramesArguments {
  readonly test: string;
  readonly attempt: string;
  readonly frameRate: FrameRate;
  readonly size: FrameSize;
  /** Absent: the house's headline rule. */
  readonly startRule?: StartRule;
  /** Absent: as many frames as the lead-in has. */
  readonly movesAtFrame?: number;
  readonly counting: Counting;
  readonly clip?: string;
  /** The measure whose time stops the clock. */
  readonly to?: string;
  readonly leadS: number;
  readonly holdS: number;
  readonly freezeS: number;
  readonly out?: string;
  readonly movies: readonly MovieKind[];
}

const OPTIONS = {
  rate: { type: 'string', default: '25' },
  size: { type: 'string', default: '1920x1080' },
  'start-rule': { type: 'string' },
  'moves-at': { type: 'string' },
  clip: { type: 'string' },
  to: { type: 'string' },
  lead: { type: 'string', default: '1' },
  hold: { type: 'string', default: '0' },
  freeze: { type: 'string', default: '3' },
  out: { type: 'string' },
  movie: { type: 'string', multiple: true, default: [] as string[] },
} as const;

/** Longest lead-in, hold or freeze, s. */
const LONGEST_S = 600;
const SMALLEST_PX = 180;
const LARGEST_PX = 16_384;

/** @throws ProblemError with one problem where the command is not called as it should be. */
export function parseFramesArguments(args: readonly string[]): FramesArguments {
  const { values, positionals } = parsed(args);
  const [test, attempt, ...more] = positionals;
  if (test === undefined || attempt === undefined || more.length > 0) {
    throw new ProblemError(namesWanted(FRAMES_USAGE));
  }
  const frameRate = knownRate(values.rate);
  const rule = values['start-rule'];
  const movesAt = values['moves-at'];
  return {
    test,
    attempt,
    frameRate,
    size: frameSize(values.size),
    ...(rule === undefined ? {} : { startRule: oneOf('--start-rule', rule, START_RULES) }),
    ...(movesAt === undefined ? {} : { movesAtFrame: frameOrTimecode(movesAt, frameRate) }),
    counting: movesAt?.includes(';') ? 'drop-frame' : 'non-drop',
    ...(values.clip === undefined ? {} : { clip: values.clip }),
    ...(values.to === undefined ? {} : { to: values.to }),
    leadS: secondsOf('--lead', values.lead),
    holdS: secondsOf('--hold', values.hold),
    freezeS: secondsOf('--freeze', values.freeze),
    ...(values.out === undefined ? {} : { out: values.out }),
    movies: [...new Set(values.movie.map(movie => oneOf('--movie', movie, MOVIES)))],
  };
}

function parsed(args: readonly string[]) {
  try {
    return parseArgs({ args: [...args], allowPositionals: true, options: OPTIONS });
  } catch (error) {
    // Node's own sentence is for programmers; the option it names is in quotes.
    const { message } = error as Error;
    throw new ProblemError(optionWrong(/'(-[^' ]*)/.exec(message)?.[1] ?? message, FRAMES_USAGE));
  }
}

function oneOf<T extends string>(option: string, text: string, known: readonly T[]): T {
  const found = known.find(word => word === text);
  if (found === undefined) throw new ProblemError(valueWrong(option, text, known.join(', '), 'Correct it.'));
  return found;
}

const knownRate = (text: string): FrameRate =>
  FRAME_RATES[oneOf('--rate', text, Object.keys(FRAME_RATES) as FrameRateName[])];

function frameSize(text: string): FrameSize {
  const [widthPx = 0, heightPx = 0] = /^(\d{2,5})x(\d{2,5})$/.exec(text)?.slice(1).map(Number) ?? [];
  const within = [widthPx, heightPx].every(side => side >= SMALLEST_PX && side <= LARGEST_PX);
  if (!within) {
    throw new ProblemError(
      valueWrong(
        '--size',
        text,
        `width x height in pixels, each from ${SMALLEST_PX} to ${LARGEST_PX}, such as 1920x1080`,
        'Give the size of the timeline.',
      ),
    );
  }
  return { name: `${widthPx}x${heightPx}`, widthPx, heightPx };
}

/** A frame counted from 0, or a label as `timecodeToFrame` reads it. */
function frameOrTimecode(text: string, frameRate: FrameRate): number {
  if (/^\d{1,8}$/.test(text)) return Number(text);
  return timecodeToFrame(text, frameRate);
}

function secondsOf(option: string, text: string): number {
  const seconds = /^\d+(\.\d+)?$/.test(text) ? Number(text) : Number.NaN;
  if (!(seconds <= LONGEST_S)) {
    throw new ProblemError(valueWrong(option, text, `seconds from 0 to ${LONGEST_S}`, 'Write it as 1.5.'));
  }
  return seconds;
}
