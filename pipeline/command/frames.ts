/** `evenground frames`: one run as numbered pictures whose clock runs with the film, and the lists an editor loads. */
import { join, relative, resolve } from 'node:path';
import { loadLettering } from '../lettering/fonts.ts';
import { houseTheme } from '../overlay/theme.ts';
import { framesPerDay, frameToTimecode } from '../overlay/timecode.ts';
import { loadPublication } from '../pipeline.ts';
import { fewAtOnce } from '../press/few-at-once.ts';
import { writeWhole } from '../press/whole.ts';
import { type Problem, ProblemError, problemToLine } from '../problem.ts';
import {
  attemptSetAside,
  attemptUnknown,
  attemptWithoutClock,
  endNotReached,
  ffmpegAbsent,
  ffmpegFailed,
  pastMidnight,
  plateSmall,
  testUnknown,
} from '../problems/sequence.ts';
import type { Attempt, Publication, TestResult } from '../result/result.ts';
import { runningContent } from '../sequence/content.ts';
import { sequenceNote } from '../sequence/note.ts';
import { createPainter } from '../sequence/painter.ts';
import { frameValues, planSequence, type SequencePlan, secondsToFrames } from '../sequence/plan.ts';
import { fitRunningPlate } from '../sequence/running-plate.ts';
import { lastSplit, type RunSplit, splitsReached, splitsShown } from '../sequence/splits.ts';
import { timelineToEdl } from '../timeline/edl.ts';
import { timelineToOtio } from '../timeline/otio.ts';
import { runTimeline, type Timeline } from '../timeline/timeline.ts';
import { timelineToCaptions, timelineToChapters } from '../timeline/webvtt.ts';
import { FRAMES_HELP, type FramesArguments, parseFramesArguments } from './frames-arguments.ts';
import { FRAME_DIGITS, FRAMES_FOLDER, frameName, openSequenceFolder } from './frames-folder.ts';
import { makeMovie, movieFile } from './frames-movie.ts';
import { frameProgress } from './frames-progress.ts';
import type { Io } from './io.ts';

/** What a shell reports for a program that ended on Ctrl-C. */
const INTERRUPTED = 130;

/**
 * Writes the frames of one attempt, with a note, a timeline, an edit decision list, chapters and captions.
 * @returns 0 written; 1 content has errors or a file could not be made; 2 wrong usage; 130 interrupted, with every
 *   frame written so far whole
 */
export async function runFrames(args: readonly string[], io: Io): Promise<number> {
  if (args.includes('--help') || args.includes('-h')) {
    io.stdout(FRAMES_HELP);
    return 0;
  }
  let asked: FramesArguments;
  try {
    asked = parseFramesArguments(args);
  } catch (error) {
    return tell(error, io, 2);
  }
  const publication = await loadPublication(io.root);
  const errors = errorsTouching(publication, asked.test);
  for (const problem of errors) io.stderr(`${problemToLine(problem)}\n`);
  if (errors.length > 0) {
    io.stderr('No frames were drawn: mend the errors above first.\n');
    return 1;
  }
  let chosen: Chosen;
  try {
    chosen = choose(publication, asked);
  } catch (error) {
    return tell(error, io, 2);
  }
  return await write(publication, chosen, asked, io);
}

/** Says a person's mistake and gives the exit status; anything else goes on up. */
function tell(error: unknown, io: Io, status: number): number {
  if (!(error instanceof ProblemError)) throw error;
  for (const problem of error.problems) io.stderr(`${problemToLine(problem)}\n`);
  return status;
}

/** Errors in what the test is made from; those in other tests do not matter here. */
function errorsTouching({ problems }: Publication, test: string): readonly Problem[] {
  return problems.filter(({ severity, where }) => {
    const folder = /(?:^|\/)tests\/([^/]+)\//.exec(where?.file ?? '')?.[1];
    return severity === 'error' && (folder === undefined || folder === test);
  });
}

interface Chosen {
  readonly test: TestResult;
  readonly plan: SequencePlan;
  readonly timeline: Timeline;
  /** Stem of every file's name. */
  readonly name: string;
}

/** @throws ProblemError where there is no such test, attempt or end. */
function choose({ house, tests }: Publication, asked: FramesArguments): Chosen {
  const test = tests.find(({ id }) => id === asked.test);
  if (test === undefined)
    throw new ProblemError(
      testUnknown(
        asked.test,
        tests.map(({ id }) => id),
      ),
    );
  const startRule = asked.startRule ?? house.headline_start_rule;
  const withClock = test.attempts
    .filter(({ measurement }) => measurement.start !== undefined && measurement.speedSplits.length > 0)
    .map(({ id }) => id);
  const attempt = attemptNamed(test, asked.attempt);
  if (attempt === undefined) throw new ProblemError(attemptUnknown(asked.attempt, withClock));
  const reached = splitsReached(test, attempt, house, startRule);
  const last = endOf(reached, asked.to);
  if (attempt.measurement.start === undefined || last === undefined) {
    throw new ProblemError(attemptWithoutClock(attempt.id, withClock));
  }
  const { frameRate, counting } = asked;
  const leadFrames = secondsToFrames(asked.leadS, frameRate);
  const movesAtFrame = asked.movesAtFrame ?? leadFrames;
  const splits = splitsShown(reached, last);
  const plan = planSequence(attempt, startRule, splits, { ...asked, movesAtFrame });
  const name = attempt.id;
  const run = runTimeline(test, attempt, house, {
    startRule,
    frameRate,
    movesAtFrame,
    leadFrames,
    splits,
    ...(asked.clip === undefined ? {} : { clip: asked.clip }),
    plates: {
      name: `${test.id} ${attempt.id}`,
      folder: `${FRAMES_FOLDER}/`,
      namePrefix: `${name}-`,
      nameSuffix: '.png',
      digits: FRAME_DIGITS,
      firstFrame: plan.firstFrame,
      lastFrame: plan.lastFrame,
    },
  });
  const runs = run === undefined ? [] : [run];
  if (runs.some(({ toFrame }) => movesAtFrame + toFrame >= framesPerDay(frameRate, counting))) {
    throw new ProblemError(pastMidnight(`frame ${movesAtFrame}`));
  }
  return { test, plan, name, timeline: { name: `${test.id} ${attempt.id}`, frameRate, counting, runs } };
}

/** By id, or by its number in the day. */
const attemptNamed = (test: TestResult, name: string): Attempt | undefined =>
  test.attempts.find(({ id, number }) => id === name || String(number) === name);

/** @throws ProblemError where `--to` names a figure the run did not reach. */
function endOf(reached: readonly RunSplit[], to: string | undefined): RunSplit | undefined {
  if (to === undefined) return lastSplit(reached);
  const end = reached.find(({ measure }) => measure === to);
  if (end === undefined && reached.length > 0) {
    throw new ProblemError(
      endNotReached(
        to,
        reached.map(({ measure }) => measure),
      ),
    );
  }
  return end;
}

async function write(
  publication: Publication,
  chosen: Chosen,
  asked: FramesArguments,
  io: Io,
): Promise<number> {
  const { house } = publication;
  const { test, plan, timeline, name } = chosen;
  const { size, frameRate, counting } = asked;
  const warn = (problem: Problem): void => io.stderr(`${problemToLine(problem)}\n`);
  const { setAside } = plan.attempt;
  if (setAside !== undefined) warn(attemptSetAside(plan.attempt.id, setAside));

  const began = performance.now();
  const lettering = await loadLettering();
  const theme = houseTheme(house);
  const plate = fitRunningPlate(runningContent(plan, test, house), size, lettering, theme);
  if (plate.cut || plate.small) warn(plateSmall(size.name, plate.cut));
  const painter = await createPainter(plan, plate, size, lettering);
  const values = frameValues(plan, house);
  const frames = Array.from({ length: plan.lastFrame - plan.firstFrame + 1 }, (_, k) => plan.firstFrame + k);

  const out = asked.out ?? `.evenground/frames/${test.id}-${name}-${frameRate.name}-${size.name}`;
  const folder = resolve(io.root, out);
  const missing = await openSequenceFolder(folder, {
    key: painter.key(frames.map(values)),
    name,
    first_frame: plan.firstFrame,
    last_frame: plan.lastFrame,
    frame_rate: `${frameRate.frames}/${frameRate.seconds}`,
    width_px: size.widthPx,
    height_px: size.heightPx,
  });
  const kept = frames.length - missing.length;
  const drawn = await draw(missing, io, async frame => {
    await writeWhole(join(folder, FRAMES_FOLDER, frameName(name, frame)), await painter.png(values(frame)));
  });
  const drawnS = (performance.now() - began) / 1000;
  if (drawn < missing.length) {
    io.stderr(
      `Stopped: ${kept + drawn} of ${frames.length} frames stand in ${out}, all whole. The same command goes on from there.\n`,
    );
    return INTERRUPTED;
  }
  for (const problem of lettering.problems()) warn(problem);

  const lists = listsOf(timeline, name);
  for (const [file, , content] of lists) await writeWhole(join(folder, file), content);

  const { movies, status } = await makeMovies(folder, name, plan, asked, warn);
  const note = sequenceNote(plan, test, house, {
    size,
    counting,
    safeAreas: theme.safeAreas,
    pattern: `${FRAMES_FOLDER}/${frameName(name, 0).replace('00000000', '%08d')}`,
    ...(asked.clip === undefined ? {} : { clip: asked.clip }),
    files: [...lists.map(([file, what]) => [file, what] as const), ...movies],
  });
  await writeWhole(join(folder, 'README.txt'), note);

  const place = relative(io.root, folder).startsWith('..') ? folder : relative(io.root, folder);
  io.stdout(
    [
      `${test.car.name}, attempt ${plan.attempt.number}: ${frames.length} frames at ${frameRate.name}, ${size.name}` +
        `${kept > 0 ? ` (${kept} were there already)` : ''}, in ${drawnS.toFixed(1)} s.`,
      `The car moves at frame ${plan.movesAtFrame} (${frameToTimecode(plan.movesAtFrame, frameRate, counting)}).`,
      `${place}/`,
      `  ${FRAMES_FOLDER}/  ${frameName(name, plan.firstFrame)} to ${frameName(name, plan.lastFrame)}, straight alpha`,
      ...[...lists, ...movies].map(([file, what]) => `  ${file}  ${what}`),
      '  README.txt  what an editor must know',
      '',
    ].join('\n'),
  );
  return status;
}

/** What goes with the frames, for the editing program and the web. */
const listsOf = (
  timeline: Timeline,
  name: string,
): readonly (readonly [name: string, what: string, content: string])[] => [
  [`${name}.otio`, 'the timeline with marks at start, splits and stop', timelineToOtio(timeline)],
  [`${name}.edl`, 'the same as an edit decision list (CMX 3600)', timelineToEdl(timeline)],
  ['chapters.vtt', 'chapters for web video, from the first frame', timelineToChapters(timeline)],
  ['captions.vtt', 'each time in words, with its start rule', timelineToCaptions(timeline)],
];

/** The frames as the movies that were asked for; status 1 where one could not be made, which is told then. */
async function makeMovies(
  folder: string,
  name: string,
  { firstFrame }: SequencePlan,
  { frameRate, counting, movies: kinds }: FramesArguments,
  warn: (problem: Problem) => void,
): Promise<{ readonly movies: readonly (readonly [name: string, what: string])[]; readonly status: number }> {
  const movies: (readonly [name: string, what: string])[] = [];
  const frames = {
    pattern: join(folder, FRAMES_FOLDER, `${name}-%0${FRAME_DIGITS}d.png`),
    firstFrame,
    frameRate,
    timecode: frameToTimecode(firstFrame, frameRate, counting),
  };
  let status = 0;
  for (const kind of kinds) {
    const [file, what] = movieFile(kind, name);
    const made = await makeMovie(kind, frames, join(folder, file));
    if (made.made) {
      movies.push([file, what]);
    } else if (made.absent) {
      warn(ffmpegAbsent());
      break;
    } else {
      warn(ffmpegFailed(kind, made.reason));
      status = 1;
    }
  }
  return { movies, status };
}

/** Draws frames a few at a time until all are done or the person interrupts; gives how many were. */
async function draw(
  frames: readonly number[],
  io: Io,
  drawOne: (frame: number) => Promise<void>,
): Promise<number> {
  let stopped = false;
  let done = 0;
  const stop = (): void => {
    stopped = true;
  };
  const progress = frameProgress(io, frames.length);
  process.once('SIGINT', stop);
  process.once('SIGTERM', stop);
  try {
    await fewAtOnce(frames, async frame => {
      // Those begun are finished; the rest is passed over.
      if (stopped) return;
      await drawOne(frame);
      done += 1;
      progress.done();
    });
  } finally {
    process.off('SIGINT', stop);
    process.off('SIGTERM', stop);
    progress.close();
  }
  return done;
}
