/** What can be wrong with a logo file. Ids are permanent. */
import type { Problem } from '../problem.ts';

const MEND_SHAPES =
  'Export it as plain SVG with text turned into outlines and styles written into the shapes, or as PNG with a clear ground.';

/** Neither an SVG nor a PNG that can be read. */
export function logoUnreadable(file: string, found: string): Problem {
  return {
    id: 'logo.unreadable',
    severity: 'error',
    what: 'The logo cannot be read',
    where: { file },
    expected: 'an SVG with a viewBox, or a PNG',
    found,
    mend: MEND_SHAPES,
  };
}

/** More bytes, pixels or shapes than a logo needs. */
export function logoTooLarge(file: string, limit: string): Problem {
  return {
    id: 'logo.too-large',
    severity: 'error',
    what: 'The logo holds more than a logo needs',
    where: { file },
    expected: `at most ${limit}`,
    mend: 'Simplify it, or export it as a smaller PNG.',
  };
}

/** It would load something from elsewhere. */
export function logoRefers(file: string, references: readonly string[]): Problem {
  return {
    id: 'logo.refers',
    severity: 'error',
    what: 'The logo refers to something outside its own file, which is never loaded',
    where: { file },
    found: references.slice(0, 5).join(', '),
    mend: MEND_SHAPES,
  };
}

/** Parts that would be missing in the picture. */
export function logoNotDrawn(file: string, parts: readonly string[]): Problem {
  return {
    id: 'logo.not-drawn',
    severity: 'error',
    what: 'The logo holds parts that are not drawn here',
    where: { file },
    expected: 'filled and stroked shapes, gradients and clips',
    found: parts.slice(0, 8).join(', '),
    mend: MEND_SHAPES,
  };
}

/** Hardly anything of it stands out from the plate. */
export function logoFaint(file: string, ground: string, sharePct: number): Problem {
  return {
    id: 'logo.faint',
    severity: 'warning',
    what: `The logo can hardly be seen on the ground ${ground}`,
    where: { file },
    expected: '3:1 or more for at least a tenth of it',
    found: `${sharePct} % of it`,
    mend: 'Use the version of the logo for this kind of ground, or another ground under look.',
  };
}
