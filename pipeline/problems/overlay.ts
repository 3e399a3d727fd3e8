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
