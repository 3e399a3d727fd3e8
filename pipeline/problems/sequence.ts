/** What can be wrong with a sequence of pictures, its folder and how it was asked for. Ids are permanent. */
import type { Problem } from '../problem.ts';

const usage = (
  id: string,
  what: string,
  mend: string,
  facts: { expected?: string; found?: string } = {},
): Problem => ({ id: `usage-frames-${id}`, severity: 'error', what, ...facts, mend });

/** A picture in which even the smallest plate finds no room. */
export const sizeTooSmall = (size: string): Problem =>
  usage('size-small', 'A running plate has no room in pictures of this size', 'Choose a larger size.', {
    found: size,
  });

/** `TEST ATTEMPT` were not both given, or more was. */
export const namesWanted = (accepted: string): Problem =>
  usage('names', 'A sequence needs one test and one attempt', `Accepted: ${accepted}.`);

/** An option that is not known, or without its value. */
export const optionWrong = (option: string, accepted: string): Problem =>
  usage('option', `The option ${option} is not used as it should be`, `Accepted: ${accepted}.`);

/** An option's value that is none of a list, or not of the shape expected. */
export const valueWrong = (option: string, found: string, expected: string, mend: string): Problem =>
  usage('value', `The value of ${option} cannot be used`, mend, { expected, found: `'${found}'` });

/** No test of this name. */
export const testUnknown = (found: string, known: readonly string[]): Problem =>
  usage('test', 'There is no such test', 'Name the folder under content/tests/.', {
    expected: known.length === 0 ? 'a test that could be read' : `one of ${known.join(', ')}`,
    found: `'${found}'`,
  });

/** No attempt of this name in the test; `known` are the ids of those that begin from rest. */
export const attemptUnknown = (found: string, known: readonly string[]): Problem =>
  usage('attempt', 'There is no such attempt', 'Name an attempt by its id or its number in the day.', {
    expected: known.length === 0 ? 'an attempt of this test' : `one of ${known.join(', ')}`,
    found: `'${found}'`,
  });

/** An attempt that has no start, or reached nothing that could stop the clock. */
export const attemptWithoutClock = (id: string, known: readonly string[]): Problem => ({
  id: 'sequence-no-clock',
  severity: 'error',
  what: `Attempt ${id} has no time from rest that a clock could run to`,
  ...(known.length === 0 ? {} : { expected: `one of ${known.join(', ')}` }),
  mend: 'Choose an attempt that begins from rest and reaches a split.',
});

/** `--to` names a figure that this run did not reach. */
export const endNotReached = (found: string, reached: readonly string[]): Problem =>
  usage('to', 'This run has no such time from rest', 'Choose another end, or leave --to out.', {
    expected: `one of ${reached.join(', ')}`,
    found: `'${found}'`,
  });

/** The output folder holds something that no sequence made. */
export const folderNotOurs = (folder: string): Problem => ({
  id: 'sequence-folder',
  severity: 'error',
  what: 'The folder holds files that are not a sequence',
  where: { file: folder },
  mend: 'Name an empty or a new folder; nothing was changed.',
});

/** The sequence would run past the last timecode of a day. */
export const pastMidnight = (label: string): Problem => ({
  id: 'sequence-past-midnight',
  severity: 'error',
  what: 'The sequence runs past the last timecode of the day',
  found: label,
  mend: 'Give --moves-at as a frame counted from the beginning of the clip.',
});

/** An attempt that was set aside is drawn all the same, and says so. */
export const attemptSetAside = (id: string, reason: string): Problem => ({
  id: 'sequence-set-aside',
  severity: 'warning',
  what: `Attempt ${id} was set aside: ${reason}`,
  mend: 'The plate says so; choose a kept attempt where the figure is to be quoted.',
});

/** Text smaller than it is meant to be read, or cut. */
export const plateSmall = (size: string, cut: boolean): Problem => ({
  id: 'sequence-too-much-text',
  severity: 'warning',
  what: `The running plate at ${size} has more text than it holds`,
  found: cut ? 'text cut off with an ellipsis' : 'text set smaller than it is meant to be read',
  mend: 'Shorten the name of the car or the launch method, or choose another size.',
});

/** ffmpeg is not on this computer; the frames stand all the same. */
export const ffmpegAbsent = (): Problem => ({
  id: 'sequence-no-ffmpeg',
  severity: 'warning',
  what: 'No single file was made: ffmpeg is not on this computer',
  mend: 'The numbered frames are complete. Install ffmpeg and give the same command again to add the file.',
});

/** ffmpeg ended with an error; the frames stand all the same. */
export const ffmpegFailed = (movie: string, reason: string): Problem => ({
  id: 'sequence-ffmpeg-failed',
  severity: 'error',
  what: `ffmpeg could not make the ${movie} file: ${reason}`,
  mend: 'The numbered frames are complete. Try another --movie, or another build of ffmpeg.',
});
