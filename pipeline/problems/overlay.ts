/** What can be wrong with pictures for video. Ids are permanent. */
import type { Problem } from '../problem.ts';

/** A timecode that cannot be read, or that its own counting leaves out. */
export function timecodeWrong(label: string, expected: string, mend: string): Problem {
  return {
    id: 'overlay.timecode',
    severity: 'error',
    what: 'This timecode names no frame',
    expected,
    found: `'${label}'`,
    mend,
  };
}

/** More text than its plate holds at a size that can be read. */
export function tooMuchText(name: string, size: string, cut: boolean): Problem {
  return {
    id: 'overlay.too-much-text',
    severity: 'warning',
    what: `'${name}' at ${size} has more text than its plate holds`,
    found: cut ? 'text cut off with an ellipsis' : 'text set smaller than it is meant to be read',
    mend: 'Shorten the name, note or caution that stands on it.',
  };
}
